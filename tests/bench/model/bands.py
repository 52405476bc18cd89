"""The logarithms of the powers in 25 bands, as sphinxbase's front end makes them.

The program has them from that library; here the same sums are done for many
recordings at once. bands.py WAV compares the two.
"""
import numpy as np

RATE, FRAME, WINDOW, SIZE = 16000, 160, 410, 512
BANDS, LOWEST_HZ, HIGHEST_HZ, EMPHASIS = 25, 130.0, 6800.0, 0.97


def _filters():
    """Triangles over the bins of the spectrum, even on the mel scale, each of area 1."""
    mel = lambda hz: 2595 * np.log10(1 + hz / 700)
    hz = lambda m: 700 * (10 ** (m / 2595) - 1)
    step = RATE / SIZE
    edges = hz(np.linspace(mel(LOWEST_HZ), mel(HIGHEST_HZ), BANDS + 2))
    edges = np.floor(edges / step + 0.5) * step
    at = np.arange(SIZE // 2 + 1) * step
    found = np.zeros((BANDS, len(at)))
    for i, (low, middle, high) in enumerate(zip(edges, edges[1:], edges[2:])):
        rising = (at - low) / (middle - low)
        falling = (high - at) / (high - middle)
        found[i] = np.maximum(0, np.minimum(rising, falling)) * 2 / (high - low)
    return found


FILTERS = _filters().T.astype('f')
HAMMING = (0.54 - 0.46 * np.cos(2 * np.pi * np.arange(WINDOW) / (WINDOW - 1))).astype('f')


def log_bands(x):
    """[frame, band] of 16 kHz samples."""
    x = np.asarray(x, 'f')
    x = x - EMPHASIS * np.concatenate([[0], x[:-1]]).astype('f')
    count = max(0, (len(x) - WINDOW) // FRAME + 1)
    at = np.arange(count)[:, None] * FRAME + np.arange(WINDOW)
    power = np.abs(np.fft.rfft(x[at] * HAMMING, SIZE)) ** 2
    return np.log(np.maximum(power.astype('f') @ FILTERS, 1e-4)).astype('f')


def main():
    import subprocess
    import sys
    import recordings
    x = recordings.read_sound(sys.argv[1])
    recordings.write_sound('/tmp/bands.wav', x)
    subprocess.run(['sphinx_fe', '-i', '/tmp/bands.wav', '-o', '/tmp/bands.mfc', '-mswav', 'yes',
                    '-logspec', 'yes', '-nfilt', '25', '-lowerf', '130', '-upperf', '6800',
                    '-transform', 'dct', '-remove_noise', 'no', '-remove_silence', 'no'],
                   check=True, capture_output=True)
    theirs = np.frombuffer(open('/tmp/bands.mfc', 'rb').read()[4:], '<f4').reshape(-1, BANDS)
    ours = log_bands(x)
    n = min(len(ours), len(theirs))
    print(len(ours), len(theirs), np.abs(ours[:n] - theirs[:n]).max(),
          (ours[:n] - theirs[:n]).mean(0))


if __name__ == '__main__':
    main()
