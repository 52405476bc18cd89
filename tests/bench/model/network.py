"""A small network that says, frame by frame, which part of which phone it hears.

Two hidden layers of rectifiers over the cepstra of 19 frames. It is trained on
few voices, so half of the art is in not learning those: dropout, and each
recording in a dozen disguises.

Nearly all of the time goes into products of matrices: where the processor has
AVX-512, OPENBLAS_CORETYPE=SKYLAKEX may double the speed.
"""
import numpy as np

CONTEXT = 9             # frames to either side
HIDDEN = 512
EPOCHS = 1
BATCH = 1024
DROPOUT = 0.15
STEP = 1e-3


def centred(cepstra):
    """Take the mean of the whole utterance off: the channel."""
    return cepstra - cepstra.mean(0)


class Network:
    def __init__(self, sizes, random):
        self.weights = [random.normal(0, np.sqrt(2 / a), (a, b)).astype('f')
                        for a, b in zip(sizes, sizes[1:])]
        self.offsets = [np.zeros(b, 'f') for b in sizes[1:]]

    def layers(self, x, random=None):
        found = [x]
        for i, (w, b) in enumerate(zip(self.weights, self.offsets)):
            x = x @ w + b
            if i < len(self.weights) - 1:
                np.maximum(x, 0, out=x)
                if random is not None:
                    kept = random.integers(0, 256, x.shape, np.uint8) >= round(256 * DROPOUT)
                    x *= kept
                    x *= np.float32(1 / (1 - DROPOUT))
            found.append(x)
        return found

    def log_posteriors(self, cepstra):
        """[frame, output] for the cepstra of one utterance."""
        x = (centred(cepstra) - self.mean) / self.deviation
        x = np.pad(x, ((CONTEXT, CONTEXT), (0, 0)), 'edge').astype('f')
        at = np.arange(len(cepstra))[:, None] + np.arange(2 * CONTEXT + 1)
        z = self.layers(x[at].reshape(len(cepstra), -1))[-1]
        z = z - z.max(1, keepdims=True)
        return z - np.log(np.exp(z).sum(1, keepdims=True))


def train(utterances, outputs, seed=0, say=print):
    """Fit to a list of (cepstra, right output by frame)."""
    random = np.random.default_rng(seed)
    blocks, places, length = [], [], 0
    for cepstra, _ in utterances:
        block = np.pad(centred(cepstra).astype('f'), ((CONTEXT, CONTEXT), (0, 0)), 'edge')
        blocks.append(block)
        places.append(length + CONTEXT + np.arange(len(cepstra), dtype=np.int32))
        length += len(block)
    frames, places = np.concatenate(blocks), np.concatenate(places)
    right = np.concatenate([labels for _, labels in utterances])
    width = 2 * CONTEXT + 1
    net = Network([frames.shape[1] * width, HIDDEN, HIDDEN, outputs], random)
    net.mean, net.deviation = frames.mean(0, float), frames.std(0, float)
    frames -= net.mean.astype('f')
    frames /= net.deviation.astype('f')
    prior = np.bincount(right, minlength=outputs) + 10.0
    net.log_prior = np.log(prior / prior.sum())

    values = net.weights + net.offsets
    first = [np.zeros_like(v) for v in values]
    second = [np.zeros_like(v) for v in values]
    batches = len(places) // BATCH
    total, done = batches * EPOCHS, 0
    for epoch in range(EPOCHS):
        order, hits = random.permutation(len(places)), 0
        for k in range(batches):
            pick = order[k * BATCH:(k + 1) * BATCH]
            at = places[pick][:, None] + np.arange(-CONTEXT, CONTEXT + 1)
            layers = net.layers(frames[at].reshape(BATCH, -1), random)
            done += 1
            rate = STEP * min(1, done / 200) * max(0.02, 1 - done / total)
            slopes, good = _slopes(net, layers, right[pick])
            hits += good
            for value, slope, mean, square in zip(values, slopes, first, second):
                _step(value, slope, mean, square, rate, done)
        say(f'pass {epoch + 1} of {EPOCHS}: {hits / batches / BATCH:.3f} of frames right')
    return net


def _step(value, slope, mean, square, rate, done):
    """Adam (Kingma and Ba, 2015), in place."""
    mean *= 0.9
    mean += 0.1 * slope
    np.square(slope, out=slope)
    square *= 0.999
    slope *= 0.001
    square += slope
    np.sqrt(square, out=slope)
    slope += 1e-8
    np.divide(mean, slope, out=slope)
    slope *= rate * np.sqrt(1 - 0.999 ** done) / (1 - 0.9 ** done)
    value -= slope


def _slopes(net, layers, right):
    """Gradients of the mean cross entropy, weights first, and frames right."""
    z = layers[-1] - layers[-1].max(1, keepdims=True)
    g = np.exp(z, out=z)
    g /= g.sum(1, keepdims=True)
    good = (g.argmax(1) == right).sum()
    g[np.arange(len(right)), right] -= 1
    g /= len(right)
    weights, offsets = [], []
    for i in range(len(net.weights) - 1, -1, -1):
        weights.insert(0, layers[i].T @ g)
        offsets.insert(0, g.sum(0))
        if i:
            g = g @ net.weights[i].T
            g *= layers[i] > 0
            g *= np.float32(1 / (1 - DROPOUT))
    return weights + offsets, good


def write(path, net, phones):
    """A header of text lines, blanks up to a multiple of 16 bytes, then 32-bit
    floats: cepstra mean and deviation, log prior of the outputs, and for each
    layer its weights, a row an output, and its offsets."""
    sizes = [len(net.weights[0]), *map(len, net.offsets)]
    head = ('lapel network 1\n' f'context {CONTEXT}\n' f'cepstra {len(net.mean)}\n'
            'layers ' + ' '.join(map(str, sizes)) + '\n'
            'phones ' + ' '.join(f'{p}:{len(o)}' for p, o in phones.items()) + '\n')
    head += ' ' * (-(len(head) + 5) % 16) + '\nend\n'
    parts = [net.mean, net.deviation, net.log_prior]
    for w, b in zip(net.weights, net.offsets):
        parts += [w.T, b]
    with open(path, 'wb') as f:
        f.write(head.encode())
        for part in parts:
            f.write(np.ascontiguousarray(part, '<f4').tobytes())
