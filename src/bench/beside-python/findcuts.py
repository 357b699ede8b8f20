"""Finds the cuts in readings that lie in memory; prints seconds of the last pass and their number.

findcuts.py FILE PASSES
"""

import sys
import time

import numpy as np

import cuts

PIECE = 1 << 18


def main(path, passes):
    counts = np.fromfile(path, np.int32)
    seconds = np.arange(len(counts)) / cuts.RATE_HZ
    for _ in range(passes - 1):
        one_pass(seconds, counts)
    start = time.perf_counter()
    found = one_pass(seconds, counts)
    print(f"{time.perf_counter() - start:.4f} {found}")


def one_pass(seconds, counts):
    finder = cuts.Finder()
    return sum(
        len(finder.take(seconds[i : i + PIECE], counts[i : i + PIECE], i + PIECE >= len(counts)))
        for i in range(0, len(counts), PIECE)
    )


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
