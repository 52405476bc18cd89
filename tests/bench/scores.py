"""Counting: shares with their intervals, rates with their bounds, word errors, and lines of a table."""

import math
import os
import re
import subprocess
import tempfile

import corpus

SCLITE = "/usr/lib/sctk/bin/sclite"
OUTCOMES = ["taken right", "doubted", "taken wrong", "refused"]


def percentile(values, share):
    """The value that so large a share does not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, math.ceil(share * len(ordered)) - 1)] if ordered else None


def rate_bound(events, minutes):
    """The rate a minute that so few events exclude at 95 % (Poisson, one-sided: with none, 3 divided
    by the time)."""
    low, high = 0.0, 10.0 * (events + 3)
    for _ in range(60):
        mean = (low + high) / 2
        seen = sum(math.exp(k * math.log(mean) - mean - math.lgamma(k + 1)) for k in range(events + 1))
        low, high = (mean, high) if seen > 0.05 else (low, mean)
    return high / minutes if minutes else float("inf")


def share(count, n):
    return f"{100 * count / n:5.1f}" if n else "    -"


def share_with_interval(count, n):
    low, high = corpus.interval(count, n)
    return f"{share(count, n)} ({100 * low:4.1f}-{100 * high:5.1f})"


def word_errors(said, heard):
    """Word errors in percent, by sclite; None where it is not installed. Two lists of texts."""
    if not os.path.exists(SCLITE) or not said:
        return None
    with tempfile.TemporaryDirectory() as scratch:
        for name, texts in [("ref", said), ("hyp", heard)]:
            with open(os.path.join(scratch, name), "w") as file:
                file.writelines(f"{text} (all_{i:05d})\n" for i, text in enumerate(texts))
        done = subprocess.run([SCLITE, "-r", scratch + "/ref", "trn", "-h", scratch + "/hyp", "trn",
                               "-i", "rm", "-o", "sum", "stdout"], capture_output=True, text=True)
    total = re.search(r"\| Sum/Avg\s*\|\s*\d+\s+\d+\s*\|(.*)\|", done.stdout)
    return float(total.group(1).split()[-2]) if total else None


class Score:
    """One line of the table: what became of some clips, ours and the stock decoder's."""

    def __init__(self, name):
        self.name = name
        self.n = self.right = self.stock_n = self.stock_right = self.stock_wrong = 0
        self.outcomes = dict.fromkeys(OUTCOMES, 0)
        self.said, self.heard, self.stock_heard = [], [], []

    def add(self, right, outcome, said, heard):
        self.n += 1
        self.right += right
        self.outcomes[outcome] += 1
        self.said.append(said)
        self.heard.append(heard)

    def add_stock(self, right, heard):
        """It takes whatever it hears."""
        self.stock_n += 1
        self.stock_right += right
        self.stock_wrong += heard != "" and not right
        self.stock_heard.append(heard)

    def line(self):
        n = self.n
        errors = lambda heard: word_errors(self.said, heard)
        percent = lambda value: "    -" if value is None else f"{value:5.1f}"
        text = (f"{self.name:26.26s}{n:5d}  {share_with_interval(self.right, n)}  "
                f"{share(self.outcomes['taken right'], n)}  {share(self.outcomes['doubted'], n)}  "
                f"{share_with_interval(self.outcomes['taken wrong'], n)}  "
                f"{share(self.outcomes['refused'], n)} {percent(errors(self.heard))}")
        if self.stock_n:
            text += (f"  | {share_with_interval(self.stock_right, self.stock_n)}  "
                     f"{share(self.stock_wrong, self.stock_n)} {percent(errors(self.stock_heard))}")
        return text


HEADING = (f"{'in percent (95 %)':26s}{'n':>5s}  {'right':19s} {'taken':>5s}  {'doubt-':>5s}  "
           f"{'taken wrong':19s} {'refu-':>5s} {'word':>5s}  | {'stock right':19s} {'taken':>5s} "
           f"{'word':>5s}\n"
           f"{'':26s}{'':5s}  {'':19s} {'right':>5s}  {'ed':>5s}  {'':19s} {'sed':>5s} {'err.':>5s}"
           f"  | {'':19s} {'wrong':>5s} {'err.':>5s}")
