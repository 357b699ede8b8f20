"""Stores so many cuts, one transaction each, each made just before it is stored; prints the seconds
that storing the last of them took.

append.py STORE CUTS TIMED SAMPLES
"""

import sys
import time

import numpy as np

import store


def main(path, cuts, timed, samples):
    kept = store.open_store(path)
    told = {
        "outcome": "severed",
        "break_s": 2.0,
        "observed_max_gf": 114.3,
        "force_gf": 115.1,
        "loading_rate_gf_s": 68.6,
    }
    i = np.arange(samples)
    took = 0.0
    for n in range(cuts):
        seconds = i * 0.0125 + (i * n % 7) * 1e-6
        counts = (90 * i - (i * 7919 + n) % 200).astype(np.int32)
        start = time.perf_counter()
        store.add(kept, time.time(), told, seconds, counts)
        if n >= cuts - timed:
            took += time.perf_counter() - start
    print(f"{took:.4f}")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]))
