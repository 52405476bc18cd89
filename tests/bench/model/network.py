"""A network that says, frame by frame, which part of which phone it hears.

Layers of rectifiers over the logarithms of 25 bands, each looking at a few
frames of the one below, further apart from layer to layer (a time delay
network: Waibel and others, 1989), so that the last sees a third of a second.
It is trained on few voices, so half of the art is in not learning those:
dropout, masked bands and stretches, and each recording in many disguises.

Wants PyTorch (Debian: python3-torch).
"""
import numpy as np
import torch
from torch import nn

# Of each layer, how wide it is and which frames of the one below it sees.
LAYERS = [(320, (-2, -1, 0, 1, 2)), (320, (-2, 0, 2)), (320, (-3, 0, 3)), (320, (-4, 0, 4)),
          (320, (-6, 0, 6))]
REACH = sum(offsets[-1] for _, offsets in LAYERS)
PIECE = 200                 # frames that are trained on in one go
BATCH = 48                  # pieces
STEP = 1.2e-3
DROPOUT = 0.1
SMOOTHED = 0.05             # of each right answer, given to all


class Network(nn.Module):
    def __init__(self, bands, outputs):
        super().__init__()
        sizes = [bands, *(size for size, _ in LAYERS)]
        self.layers = nn.ModuleList(
            nn.Conv1d(a, b, len(offsets), dilation=offsets[1] - offsets[0])
            for a, b, (_, offsets) in zip(sizes, sizes[1:], LAYERS))
        self.norms = nn.ModuleList(nn.BatchNorm1d(size) for size in sizes[1:])
        self.last = nn.Conv1d(sizes[-1], outputs, 1)
        self.dropout = nn.Dropout(DROPOUT)

    def forward(self, x):
        """[piece, band, frame] to [piece, output, frame]: REACH frames fewer at each end."""
        for i, (layer, norm) in enumerate(zip(self.layers, self.norms)):
            y = self.dropout(norm(torch.relu(layer(x))))
            if i:                                   # what is below is passed on, too
                cut = (x.shape[2] - y.shape[2]) // 2
                y = y + x[:, :, cut:x.shape[2] - cut]
            x = y
        return self.last(x)


def centred(bands):
    """Take the mean of the whole utterance off: the channel."""
    return bands - bands.mean(0)


def pieces(utterances, random):
    """Numbers of (utterance, first frame) that together cover everything, shuffled."""
    found = []
    for i, (_, right) in enumerate(utterances):
        first = -int(random.integers(0, PIECE // 2)) if len(right) > PIECE else 0
        found += [(i, at) for at in range(first, len(right) - 20, PIECE)]
    random.shuffle(found)
    found.sort(key=lambda piece: random.random())
    return found


def batch_of(utterances, some):
    """Bands with REACH frames around them, and what is right (-1: no matter)."""
    bands = np.zeros((len(some), PIECE + 2 * REACH, utterances[0][0].shape[1]), 'f')
    right = np.full((len(some), PIECE), -1, np.int64)
    for k, (i, first) in enumerate(some):
        x, labels = utterances[i]
        at = np.clip(np.arange(first - REACH, first + PIECE + REACH), 0, len(x) - 1)
        bands[k] = x[at]
        inside = np.arange(first, first + PIECE)
        good = (inside >= 0) & (inside < len(labels))
        right[k, good] = labels[inside[good]]
    return bands, right


def mask(bands, random):
    """Hide a few bands and a short stretch now and then (Park and others, 2019)."""
    for x in bands:
        if random.random() < 0.5:
            first = random.integers(0, 23)
            x[:, first:first + random.integers(1, 5)] = 0
        if random.random() < 0.3:
            first = random.integers(0, len(x) - 12)
            x[first:first + random.integers(3, 12)] = 0


def train(copies, outputs, epochs, seed=0, say=print, net=None, step=STEP):
    """Fit to `copies(epoch)`: a list of (centred and scaled bands, right output by frame)."""
    torch.manual_seed(seed)
    random = np.random.default_rng(seed)
    optimiser = schedule = None
    count = np.full(outputs, 10.0)
    for epoch in range(epochs):
        utterances = copies(epoch)
        order = pieces(utterances, random)
        batches = len(order) // BATCH
        if net is None:
            net = Network(utterances[0][0].shape[1], outputs)
        if optimiser is None:
            optimiser = torch.optim.AdamW(net.parameters(), lr=step, weight_decay=0.01)
            schedule = torch.optim.lr_scheduler.OneCycleLR(
                optimiser, step, total_steps=epochs * batches + epochs * 50, pct_start=0.1)
        for _, right in utterances:
            count += np.bincount(right, minlength=outputs)
        net.train()
        hits = frames = 0
        for k in range(batches):
            bands, right = batch_of(utterances, order[k * BATCH:(k + 1) * BATCH])
            mask(bands, random)
            z = net(torch.from_numpy(bands.transpose(0, 2, 1).copy()))
            right = torch.from_numpy(right)
            loss = nn.functional.cross_entropy(z, right, ignore_index=-1,
                                               label_smoothing=SMOOTHED)
            optimiser.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 5)
            optimiser.step()
            schedule.step()
            if k % 20 == 0:
                told = right >= 0
                hits += int((z.argmax(1)[told] == right[told]).sum())
                frames += int(told.sum())
            if k % 400 == 399:
                say(f'pass {epoch + 1} of {epochs}, {k + 1} of {batches}: '
                    f'{hits / frames:.3f} of frames right')
                hits = frames = 0
    net.eval()
    net.log_prior = np.log(count / count.sum())
    return net


def log_posteriors(net, bands):
    """[frame, output] for the centred and scaled bands of one utterance."""
    x = np.pad(bands, ((REACH, REACH), (0, 0)), 'edge').astype('f')
    with torch.no_grad():
        z = net(torch.from_numpy(x.T[None].copy()))[0]
    return torch.log_softmax(z, 0).numpy().T


def write(path, net, mean, deviation, phones):
    """A header of text lines, blanks up to a multiple of 16 bytes, then 32-bit
    floats: mean and deviation of the bands, log prior of the outputs, and for
    each layer its weights (a row an output: frame by frame, value by value),
    its offsets, and of all but the last what its outputs are multiplied by and
    what is then added (the batch norm)."""
    head = f'lapel network 2\nbands {len(mean)}\n'
    for i, (size, offsets) in enumerate(LAYERS):
        head += f'layer {size} {"adds" if i else "new"} {" ".join(map(str, offsets))}\n'
    head += 'phones ' + ' '.join(f'{p}:{len(o)}' for p, o in phones.items()) + '\n'
    head += ' ' * (-(len(head) + 5) % 16) + '\nend\n'
    parts = [mean, deviation, net.log_prior]
    for layer, norm in zip(net.layers, net.norms):
        scale = (norm.weight / torch.sqrt(norm.running_var + norm.eps)).detach()
        shift = (norm.bias - norm.running_mean * scale).detach()
        parts += [layer.weight.detach().permute(0, 2, 1), layer.bias.detach(), scale, shift]
    parts += [net.last.weight.detach().permute(0, 2, 1), net.last.bias.detach()]
    with open(path, 'wb') as f:
        f.write(head.encode())
        for part in parts:
            f.write(np.ascontiguousarray(np.asarray(part), '<f4').tobytes())
