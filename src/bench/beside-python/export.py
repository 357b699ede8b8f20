"""Every sample of every stored cut as CSV: export.py STORE FILE"""

import csv
import itertools
import sys

import numpy as np

import cuts
import store

NEWTONS_PER_GF = 9.80665e-3
ZERO = 80


def main(store_path, csv_path):
    kept = store.open_store(store_path)
    with open(csv_path, "w", newline="", encoding="utf-8") as out:
        rows = csv.writer(out)
        rows.writerow(("cut", "sample", "t_s", "counts", "force_n"))
        for number, size, times, readings in kept.execute(
            "SELECT id, samples, seconds, counts FROM cut ORDER BY id"
        ):
            counts = np.frombuffer(readings, np.int32)
            zero = np.median(counts[:ZERO])
            newtons = (counts - zero) * (NEWTONS_PER_GF / cuts.COUNTS_PER_GF)
            rows.writerows(
                zip(
                    itertools.repeat(number),
                    range(size),
                    np.frombuffer(times, float).tolist(),
                    counts.tolist(),
                    newtons.tolist(),
                )
            )


if __name__ == "__main__":
    main(*sys.argv[1:])
