"""Cuts of a log or a recording, one JSON object a line: analyze.py FILE [STORE]"""

import json
import sys
import time

import cuts
import store
import stream

FIRST_BYTES = 1 << 16
CHUNK_BYTES = 1 << 22


def main(path, store_path=None):
    finder = cuts.Finder()
    kept = store.open_store(store_path) if store_path else None
    with open(path, "rb") as log:
        chunk = log.read(FIRST_BYTES)
        decoder = stream.of(chunk)
        while chunk:
            following = log.read(CHUNK_BYTES)
            seconds, counts = decoder.take(chunk)
            for cut in finder.take(seconds, counts, last=not following):
                tell(cut, kept)
            sys.stdout.flush()
            chunk = following


def tell(cut, kept):
    told = cuts.as_json(cut)
    if kept:
        store.add(kept, time.time(), told, cut[2], cut[3])
    sys.stdout.write(json.dumps(told) + "\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
