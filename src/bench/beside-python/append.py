"""Stores so many cuts, one transaction each; prints the seconds of the second half.

append.py STORE CUTS SAMPLES
"""

import sys
import time

import numpy as np

import store


def main(path, cuts, samples):
    kept = store.open_store(path)
    told = {
        "outcome": "severed",
        "break_s": 2.0,
        "observed_max_gf": 114.3,
        "force_gf": 115.1,
        "loading_rate_gf_s": 68.6,
    }
    i = np.arange(samples)
    traces = [
        (i * 0.0125 + (i * n % 7) * 1e-6, (90 * i - (i * 7919 + n) % 200).astype(np.int32))
        for n in range(cuts)
    ]
    start = 0
    for number, (seconds, counts) in enumerate(traces):
        if number == cuts // 2:
            start = time.perf_counter()
        store.add(kept, time.time(), told, seconds, counts)
    print(f"{time.perf_counter() - start:.4f}")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
