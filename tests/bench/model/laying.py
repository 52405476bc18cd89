"""Which output of a network is right in which frame, told by a network: words
are laid over what it hears, in the best of their ways, with silence or none
between them."""
import numpy as np

import network

NEVER = -1e30


def _states(words, ways, outputs):
    """Outputs of the states of a text; from which states each is entered; where it ends."""
    silence = outputs['SIL'][0]
    out, before, ends = [silence], [[]], [0]
    starts = [0]
    for i, word in enumerate(words):
        lasts = []
        for way in ways[word]:
            for k, o in enumerate(o for phone in way.split() for o in outputs[phone]):
                if k == 0 and i == 0:
                    starts.append(len(out))
                before.append(list(ends) if k == 0 else [len(out) - 1])
                out.append(o)
            lasts.append(len(out) - 1)
        before.append(list(lasts))
        out.append(silence)
        ends = lasts + [len(out) - 1]
    return np.array(out), before, starts, ends


def lay(posteriors, prior, words, ways, outputs):
    """(the right output of each frame, its mean score a frame); None where nothing fits."""
    out, before, starts, ends = _states(words, ways, outputs)
    scores = (posteriors - network.PRIOR_SHARE * prior)[:, out]
    width = max(map(len, before)) + 1
    froms = np.tile(np.arange(len(out))[:, None], (1, width))
    for s, some in enumerate(before):
        froms[s, 1:1 + len(some)] = some
    if len(scores) < len(words) * 3:
        return None
    past = np.full(len(out), NEVER)
    past[starts] = scores[0, starts]
    trace = np.zeros(scores.shape, np.int32)
    rows = np.arange(len(out))
    for t in range(1, len(scores)):
        which = past[froms].argmax(1)
        trace[t] = froms[rows, which]
        past = past[trace[t]] + scores[t]
    state = max(ends, key=lambda s: past[s])
    if past[state] < NEVER / 2:
        return None
    score = past[state] / len(scores)
    right = np.zeros(len(scores), np.int16)
    for t in range(len(scores) - 1, -1, -1):
        right[t] = out[state]
        state = trace[t, state]
    return right, score
