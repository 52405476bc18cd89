"""Tells speech at the microphone from everything else, frame by frame as it comes: what the endpointer
goes by.

A small time delay network that looks back a third of a second and ahead five frames, over how far each
band stands above its floor. The floor falls fast and rises slowly, whoever speaks: so hours of noise
are as any second of it. src/ears/presence.c runs it.
"""
import numpy as np
import torch
from torch import nn

import bands

DELAY = 5                   # frames: the chance is of the frame so long ago
# As in src/ears/presence.c. Of each layer: how wide, how many frames of the one below, how far apart.
LAYERS = [(64, 5, 1), (64, 5, 3), (48, 5, 6)]
BACK = sum((count - 1) * step for _, count, step in LAYERS)
FLOOR_AT_FIRST = 38.0       # decibels, of a quiet room
FALL, RISE = 0.1, 0.002
LEAST, MOST, UNIT = 0.0, 35.0, 10.0
TO_DB = 10 / np.log(10)

CHAINS = 1500               # a pass; each of several recordings in one room
LENGTH = 1400               # frames of a chain
LEVEL_DB = 15               # up or down
NARROW, NARROW_HZ = 0.15, 3600  # of the chains come over a link that carries nothing above
SOFT_END = 1                # frames
PASSES = 100
STEP = 2e-3
BATCH = 16


def above_floor(rows):
    """[chain, frame, band] in decibels to what the network sees."""
    floor = np.full((rows.shape[0], rows.shape[2]), FLOOR_AT_FIRST, 'f')
    found = np.empty_like(rows)
    for t in range(rows.shape[1]):
        now = rows[:, t]
        floor += np.where(now < floor, FALL, RISE).astype('f') * (now - floor)
        found[:, t] = np.clip(now - floor, LEAST, MOST) / UNIT
    return found


class Presence(nn.Module):
    def __init__(self):
        super().__init__()
        sizes = [bands.BANDS, *(size for size, _, _ in LAYERS)]
        self.layers = nn.ModuleList(nn.Conv1d(a, b, count, dilation=step)
                                    for a, b, (_, count, step) in zip(sizes, sizes[1:], LAYERS))
        self.last = nn.Conv1d(sizes[-1], 1, 1)

    def forward(self, x):
        """[chain, band, frame] to log odds [chain, frame], BACK frames fewer at the start."""
        for layer in self.layers:
            x = torch.relu(layer(x))
        return self.last(x)[:, 0]


def speaking(right):
    """Whether somebody speaks, by frame, from the right outputs: the soft end of a last sound is of it,
    and so is a halt shorter than a stop's closure."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], right != 0, [0]]).astype(int)))
    found = np.zeros(len(right), bool)
    for first, last in zip(edges[::2], edges[1::2]):
        found[first:last + SOFT_END] = True
    return found


def narrow(rows, random):
    """Rows by a link that carries nothing high: there, only its own noise."""
    mel = 2595 * np.log10(1 + np.array([bands.LOWEST_HZ, NARROW_HZ, bands.HIGHEST_HZ]) / 700)
    first = int((mel[1] - mel[0]) / (mel[2] - mel[0]) * (bands.BANDS + 1))
    floor = np.percentile(rows[:, first:], 5) + random.normal(0, 0.8, rows[:, first:].shape)
    return np.concatenate([rows[:, :first], np.minimum(rows[:, first:], floor)], 1)


def chain(examples, labels, some, random):
    """(decibels by band, whether somebody speaks) of recordings one after another in one room."""
    rows, voiced, loud = [], [], []
    wanted = LENGTH - int(random.integers(0, 500))
    while sum(map(len, rows)) < LENGTH:
        rec = some[random.integers(len(some))]
        variant = examples.variants[rec][random.integers(len(examples.variants[rec]))]
        quiet = np.percentile(variant.rows.astype('f'), 10, axis=0)
        gap = int(random.integers(0, 300))
        rows.append(quiet + random.normal(0, 0.8, (gap, bands.BANDS)).astype('f'))
        voiced.append(np.zeros(gap, bool))
        if sum(map(len, rows)) < wanted:
            rows.append(variant.rows.astype('f'))
            right = speaking(labels[rec])
            voiced.append(right[np.clip(variant.at, 0, len(right) - 1)])
            loud.append(variant.loud_db)
    rows, voiced = np.concatenate(rows)[:LENGTH], np.concatenate(voiced)[:LENGTH]
    link = random.random()  # of the speech alone: it was recorded so
    if link < NARROW / 2:
        rows = narrow(rows, random)
    if random.random() < 0.85:
        rows = examples.noisy(rows, loud[-1] if loud else 50, random)
    if NARROW / 2 <= link < NARROW:
        rows = narrow(rows, random)
    return rows * TO_DB + random.uniform(-LEVEL_DB, LEVEL_DB), voiced


def batches(examples, labels, number):
    random = np.random.default_rng([9, number])
    some = [rec for rec in examples.variants if rec in labels]
    people = [rec for rec in some if rec.corpus != 'synthetic']
    for _ in range(CHAINS // BATCH):
        found = [chain(examples, labels, people if random.random() < 0.5 else some, random)
                 for _ in range(BATCH)]
        x = above_floor(np.stack([rows for rows, _ in found]).astype('f'))
        yield (torch.from_numpy(x.transpose(0, 2, 1).copy()),
               torch.from_numpy(np.stack([voiced for _, voiced in found]).astype('f')))


def train(examples, labels, say=print, seed=0):
    torch.manual_seed(seed)
    net = Presence()
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.01)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimiser, STEP,
                                                   total_steps=PASSES * (CHAINS // BATCH) + 1)
    for number in range(PASSES):
        losses, hits = [], []
        for x, voiced in batches(examples, labels, number):
            odds = net(x)
            right = voiced[:, BACK - DELAY:voiced.shape[1] - DELAY]
            loss = nn.functional.binary_cross_entropy_with_logits(odds, right)
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            schedule.step()
            losses.append(float(loss))
            hits.append(float(((odds > 0) == (right > 0.5)).float().mean()))
        say(f'presence, pass {number + 1} of {PASSES}: loss {np.mean(losses):.4f}, '
            f'{np.mean(hits):.4f} of frames right')
    return net


def write(path, net):
    """A line of text, then 32-bit floats: of each layer the weights (a row an output: frame by frame
    from the oldest, value by value) and what is added."""
    with open(path, 'wb') as f:
        f.write(b'lapel presence 1\n')
        for layer in [*net.layers, net.last]:
            for part in (layer.weight.detach().permute(0, 2, 1), layer.bias.detach()):
                f.write(np.ascontiguousarray(part.numpy(), '<f4').tobytes())
