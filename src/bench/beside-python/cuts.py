"""Cuts in a series of samples, with SciPy's find_peaks."""

import numpy as np
from scipy.signal import find_peaks

COUNTS_PER_GF = 437.25
LEAST_GF = 15.0
RATE_HZ = 80
APART_S = 0.4
AFTER_S = 0.3
KEEP_S = 12.0
LINE = 16
SKIP = 3
ZERO = 16


def find(seconds, counts):
    """Cuts of an array: indices of the largest samples and a row of figures for each."""
    least = LEAST_GF * COUNTS_PER_GF
    base = np.percentile(counts, 10)
    peaks, _ = find_peaks(
        counts, height=base + least, prominence=least, distance=int(APART_S * RATE_HZ), wlen=4096
    )
    peaks = peaks[(peaks >= LINE + SKIP) & (peaks < len(counts) - ZERO - 8)]
    if len(peaks) == 0:
        return peaks, np.empty((0, 6))
    resting = counts[peaks[:, None] + np.arange(8, 8 + ZERO)]
    zero = np.median(resting, axis=1)
    largest = counts[peaks] - zero
    fall = half_fall(seconds, counts, peaks, zero, largest)
    severed = fall - seconds[peaks] < 0.1
    level, slope, u_level = loading_lines(seconds, counts, peaks, np.where(severed, fall, 0))
    force = np.where(severed, level - zero, np.nan)
    u = np.hypot(u_level, resting.std(axis=1) / ZERO**0.5)
    figures = np.stack((seconds[peaks], fall, largest, force, slope, u), axis=1)
    return peaks, figures


def loading_lines(seconds, counts, peaks, at):
    """Straight lines through the samples before each largest one: value at a time, slope a s, and
    the value's standard uncertainty as any book on regression gives it for independent readings.
    """
    window = peaks[:, None] + np.arange(-LINE - SKIP, -SKIP)
    x = seconds[window] - at[:, None]
    y = counts[window].astype(float)
    mean_x = x.mean(axis=1)
    mean_y = y.mean(axis=1)
    dx = x - mean_x[:, None]
    dy = y - mean_y[:, None]
    square_x = (dx * dx).sum(axis=1)
    slope = (dx * dy).sum(axis=1) / square_x
    left = dy - slope[:, None] * dx
    variance = (left * left).sum(axis=1) / (LINE - 2)
    u = np.sqrt(variance * (1 / LINE + mean_x * mean_x / square_x))
    return mean_y - slope * mean_x, slope, u


def half_fall(seconds, counts, peaks, zero, largest):
    """When the reading has fallen half the way, s; far off where it does not fall at once."""
    window = peaks[:, None] + np.arange(8)
    y = counts[window]
    half = (zero + largest / 2)[:, None]
    below = np.argmax(y < half, axis=1)
    rows = np.arange(len(peaks))
    before = np.maximum(below - 1, 0)
    drop = np.maximum(y[rows, before] - y[rows, below], 1)
    share = (y[rows, before] - half[:, 0]) / drop
    at = seconds[window[rows, before]]
    after = seconds[window[rows, below]]
    return np.where(below > 0, at + share * (after - at), np.inf)


class Finder:
    """Takes samples in pieces of any size; gives each cut once, with its trace."""

    def __init__(self):
        self.seconds = np.empty(0)
        self.counts = np.empty(0, np.int32)
        self.told_s = -np.inf
        self.number = 0

    def take(self, seconds, counts, last=False):
        self.seconds = np.concatenate((self.seconds, seconds))
        self.counts = np.concatenate((self.counts, counts))
        if len(self.counts) < 40:
            return []
        known_s = self.seconds[-1] - (0 if last else AFTER_S)
        peaks, figures = find(self.seconds, self.counts)
        fresh = (figures[:, 0] > self.told_s + APART_S) & (figures[:, 0] <= known_s)
        found = [self._cut(p, f) for p, f in zip(peaks[fresh], figures[fresh])]
        keep = np.searchsorted(self.seconds, self.seconds[-1] - KEEP_S)
        self.seconds = self.seconds[keep:]
        self.counts = self.counts[keep:]
        return found

    def _cut(self, peak, figures):
        self.number += 1
        self.told_s = figures[0]
        from_ = max(0, peak - 160)
        to = min(len(self.counts), peak + 25)
        return self.number, figures, self.seconds[from_:to].copy(), self.counts[from_:to].copy()


def as_json(cut):
    """What is told of a cut, by name."""
    number, (_, fall_s, largest, force, slope, u), _, _ = cut
    severed = bool(np.isfinite(force))
    return {
        "cut": number,
        "outcome": "severed" if severed else "released",
        "break_s": fall_s if severed else None,
        "observed_max_gf": largest / COUNTS_PER_GF,
        "force_gf": force / COUNTS_PER_GF if severed else None,
        "u_gf": u / COUNTS_PER_GF if severed else None,
        "loading_rate_gf_s": slope / COUNTS_PER_GF,
    }
