"""Records from a rig until stopped: record.py PORT STORE; each cut is told once it is stored."""

import json
import sys
import time

import serial

import cuts
import store
import stream

LINGER_S = 0.01
HELLO_BYTES = 64


def main(port_name, store_path):
    kept = store.open_store(store_path)
    finder = cuts.Finder()
    with serial.Serial(port_name, 115200, timeout=0.1) as port:
        print("recording", file=sys.stderr, flush=True)
        begin = port.read(HELLO_BYTES)
        while len(begin) < HELLO_BYTES:
            begin += port.read(HELLO_BYTES - len(begin))
        decoder = stream.of(begin)
        take(finder, kept, *decoder.take(begin))
        while True:
            take(finder, kept, *decoder.take(what_is_there(port)))


def what_is_there(port):
    """Waits for bytes; with them all that follows closely, so that work is done on many at once."""
    chunk = port.read(max(1, port.in_waiting))
    until = time.monotonic() + LINGER_S
    while port.in_waiting and time.monotonic() < until:
        chunk += port.read(port.in_waiting)
    return chunk


def take(finder, kept, seconds, counts):
    for cut in finder.take(seconds, counts):
        told = cuts.as_json(cut)
        store.add(kept, time.time(), told, cut[2], cut[3])
        print(json.dumps(told), flush=True)


if __name__ == "__main__":
    try:
        main(*sys.argv[1:])
    except KeyboardInterrupt:
        pass
