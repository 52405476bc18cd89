"""A network that says, frame by frame, which part of which phone it hears.

Layers of rectifiers over the logarithms of 25 bands, each looking at a few
frames of the one below, further apart from layer to layer (a time delay
network: Waibel and others, 1989), so that the last sees half a second.
It is trained on few voices, so half of the art is in not learning those:
dropout, masked bands and stretches, and each recording in many disguises.

Wants PyTorch (Debian: python3-torch).
"""
import numpy as np
import torch
from torch import nn

# Of each layer, how wide it is and which frames of the one below it sees.
LAYERS = [(384, (-2, -1, 0, 1, 2)), (384, (-2, 0, 2)), (384, (-3, 0, 3)), (384, (-4, 0, 4)),
          (384, (-6, 0, 6)), (384, (-8, 0, 8))]
PIECE = 400                 # frames: what is longer is cut
BATCH = 10000               # frames
STEP = 1.2e-3
DROPOUT = 0.03
SMOOTHED = 0.05             # of each right answer, given to all
# What is right should stand above its rival by so many nats; how much it counts beside the single
# frames when it does not; and how gently that sets in, in nats.
MARGIN, RIVALRY, GENTLE = 30.0, 2.0, 10.0
PRIOR_SHARE = 0.6           # of the priors is taken off, as in src/ears/network.c


class Network(nn.Module):
    def __init__(self, bands, outputs, layers=None):
        super().__init__()
        self.shape = layers or LAYERS
        self.reach = sum(offsets[-1] for _, offsets in self.shape)
        sizes = [bands, *(size for size, _ in self.shape)]
        self.layers = nn.ModuleList(
            nn.Conv1d(a, b, len(offsets), dilation=offsets[1] - offsets[0])
            for a, b, (_, offsets) in zip(sizes, sizes[1:], self.shape))
        self.norms = nn.ModuleList(nn.BatchNorm1d(size) for size in sizes[1:])
        self.last = nn.Conv1d(sizes[-1], outputs, 1)
        self.dropout = nn.Dropout1d(DROPOUT)  # whole outputs: cheaper to draw

    def forward(self, x):
        """[piece, band, frame] to [piece, output, frame]: `reach` frames fewer at each end."""
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


def batches(utterances, random):
    """Lists of (utterance, first frame, last frame + 1) that together cover everything; those of a
    list are about as long, so that little is filled up."""
    found = []
    for i, (_, right, _) in enumerate(utterances):
        count = -(-len(right) // PIECE)
        edges = np.linspace(0, len(right), count + 1).astype(int)
        found += [(i, first, last) for first, last in zip(edges, edges[1:])]
    found.sort(key=lambda piece: (piece[2] - piece[1]) * random.uniform(0.95, 1.05))
    lists, frames = [[]], 0
    for piece in found:
        if frames > BATCH:
            lists.append([])
            frames = 0
        lists[-1].append(piece)
        frames += piece[2] - piece[1]
    return [lists[i] for i in random.permutation(len(lists))]


def batch_of(utterances, some, reach):
    """Bands with `reach` frames around them, what is right (-1: no matter), and what would be right if
    the rival were."""
    length = -(-max(last - first for _, first, last in some) // 16) * 16
    bands = np.zeros((len(some), length + 2 * reach, utterances[0][0].shape[1]), 'f')
    right = np.full((len(some), length), -1, np.int64)
    rival = np.full((len(some), length), -1, np.int64)
    for k, (i, first, last) in enumerate(some):
        x, labels, others = utterances[i]
        bands[k] = x[np.clip(np.arange(first - reach, first + length + reach), 0, len(x) - 1)]
        right[k, :last - first] = labels[first:last]
        rival[k, :last - first] = others[first:last]
    return bands, right, rival


def mask(bands, random):
    """Hide a few bands and a short stretch now and then (Park and others, 2019)."""
    for x in bands:
        if random.random() < 0.5:
            first = random.integers(0, 23)
            x[:, first:first + random.integers(1, 5)] = 0
        if random.random() < 0.3:
            first = random.integers(0, len(x) - 12)
            x[first:first + random.integers(3, 12)] = 0


def rivalry(z, right, rival, prior):
    """How far the rivals come up to what is right, summed over a batch: by each piece, in nats."""
    told = right >= 0
    z = z - PRIOR_SHARE * prior[:, None]
    at = lambda which: z.gather(1, which.clamp(min=0)[:, None])[:, 0]
    above = ((at(right) - at(rival)) * told).sum(1)
    differs = ((right != rival) & told).any(1)
    return (GENTLE * nn.functional.softplus((MARGIN - above) / GENTLE) * differs).sum()


def train(copies, outputs, epochs, seed=0, say=print, net=None, step=STEP):
    """Fit to `copies(epoch)`: a list of (centred and scaled bands, right output by frame, that of a
    rival or the same)."""
    torch.manual_seed(seed)
    random = np.random.default_rng(seed)
    optimiser = schedule = None
    count = np.full(outputs, 10.0)
    for epoch in range(epochs):
        utterances = copies(epoch)
        lists = batches(utterances, random)
        if net is None:
            net = Network(utterances[0][0].shape[1], outputs)
        if optimiser is None:
            optimiser = torch.optim.AdamW(net.parameters(), lr=step, weight_decay=0.01)
            schedule = torch.optim.lr_scheduler.OneCycleLR(
                optimiser, step, total_steps=epochs * (len(lists) + 20), pct_start=0.1)
        for _, right, _ in utterances:
            count += np.bincount(right, minlength=outputs)
        prior = torch.from_numpy(np.log(count / count.sum()).astype('f'))
        net.train()
        hits = frames = told_near = 0
        for k, some in enumerate(lists):
            bands, right, rival = batch_of(utterances, some, net.reach)
            mask(bands, random)
            z = net(torch.from_numpy(bands.transpose(0, 2, 1).copy()))
            right, rival = torch.from_numpy(right), torch.from_numpy(rival)
            near = rivalry(z, right, rival, prior)
            loss = nn.functional.cross_entropy(z, right, ignore_index=-1,
                                               label_smoothing=SMOOTHED)
            loss = loss + RIVALRY * near / (right >= 0).sum()
            optimiser.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 5)
            optimiser.step()
            schedule.step()
            if k % 20 == 0:
                told = right >= 0
                hits += int((z.argmax(1)[told] == right[told]).sum())
                frames += int(told.sum())
                told_near += float(near)
            if k % 100 == 99:
                say(f'pass {epoch + 1} of {epochs}, {k + 1} of {len(lists)}: '
                    f'{hits / frames:.3f} of frames right, rivals {told_near / frames:.4f}')
                hits = frames = told_near = 0
    net.eval()
    net.log_prior = np.log(count / count.sum())
    return net


def log_posteriors(net, bands):
    """[frame, output] for the centred and scaled bands of one utterance."""
    x = np.pad(bands, ((net.reach, net.reach), (0, 0)), 'edge').astype('f')
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
    for i, (size, offsets) in enumerate(net.shape):
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


def read(path):
    """(network, mean, deviation, phone -> its outputs) of a file that write() wrote."""
    with open(path, 'rb') as f:
        head = b''
        while not head.endswith(b'\nend\n'):
            head += f.read(1)
        values = np.frombuffer(f.read(), '<f4')
    shape, phones, count = [], {}, 0
    for line in head.decode().splitlines():
        if line.startswith('layer '):
            _, size, _, *offsets = line.split()
            shape.append((int(size), tuple(map(int, offsets))))
        elif line.startswith('phones '):
            for word in line.split()[1:]:
                phone, size = word.split(':')
                phones[phone] = list(range(count, count + int(size)))
                count += int(size)
        elif line.startswith('bands '):
            bands = int(line.split()[1])
    at = 0

    def take(*sizes):
        nonlocal at
        at += int(np.prod(sizes))
        return torch.tensor(values[at - int(np.prod(sizes)):at].reshape(sizes))
    mean, deviation = take(bands).numpy(), take(bands).numpy()
    net = Network(bands, count, shape)
    net.log_prior = take(count).numpy()
    with torch.no_grad():
        for layer, norm in zip(net.layers, net.norms):
            out, below, seen = layer.weight.shape
            layer.weight.copy_(take(out, seen, below).permute(0, 2, 1))
            layer.bias.copy_(take(out))
            norm.weight.copy_(take(out))
            norm.bias.copy_(take(out))
            norm.running_var.fill_(1 - norm.eps)
        net.last.weight.copy_(take(count, 1, net.last.in_channels).permute(0, 2, 1))
        net.last.bias.copy_(take(count))
    net.eval()
    return net, mean, deviation, phones


def grown(old, more, utterances):
    """The same network with `more` layers on top, which at first pass on what is below. What read()
    gives has its batch norms folded: they get back the means and spreads of `utterances`."""
    net = Network(old.layers[0].in_channels, old.last.out_channels, old.shape + more)
    net.log_prior = old.log_prior
    lists = batches(utterances, np.random.default_rng(0))[:12]
    sums = [[0, 0] for _ in old.norms]
    with torch.no_grad():
        for some in lists:
            x = torch.from_numpy(batch_of(utterances, some, old.reach)[0].transpose(0, 2, 1).copy())
            for i, (layer, norm) in enumerate(zip(old.layers, old.norms)):
                y = torch.relu(layer(x))
                sums[i][0] = sums[i][0] + y.mean((0, 2)) / len(lists)
                sums[i][1] = sums[i][1] + (y ** 2).mean((0, 2)) / len(lists)
                y, cut = norm(y), (x.shape[2] - y.shape[2]) // 2
                x = y + x[:, :, cut:x.shape[2] - cut] if i else y
        for i, (mean, square) in enumerate(sums):
            variance = square - mean ** 2 + 1e-5
            scale = old.norms[i].weight
            net.layers[i].load_state_dict(old.layers[i].state_dict())
            net.norms[i].running_mean.copy_(mean)
            net.norms[i].running_var.copy_(variance)
            net.norms[i].weight.copy_(scale * torch.sqrt(variance + net.norms[i].eps))
            net.norms[i].bias.copy_(old.norms[i].bias + mean * scale)
        for norm in net.norms[len(old.norms):]:
            norm.weight.zero_()
            norm.bias.zero_()
        net.last.load_state_dict(old.last.state_dict())
    net.eval()
    return net
