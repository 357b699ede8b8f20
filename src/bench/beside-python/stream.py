"""Bytes of a rig to samples, many at once.

Both decoders take chunks of any length and give two arrays: device time in s and readings in
counts. Forms as in firmware-protocol.md.
"""

import re

import numpy as np

WRAP = np.uint32(0xFFFFFFFF)
SAMPLES = 2


class Clock:
    """Device microseconds of 32 bits to seconds that never go back."""

    def __init__(self):
        self.last = None
        self.micros = 0

    def seconds(self, stamps):
        """Times of consecutive stamps, s since the first."""
        stamps = stamps.astype(np.uint32)
        first = stamps[0] if self.last is None else self.last
        steps = np.diff(stamps, prepend=first).astype(np.int64)
        micros = self.micros + np.cumsum(steps)
        self.last = stamps[-1]
        self.micros = micros[-1]
        return micros / 1e6


class TextStream:
    """Lines 'micros,counts'; lines that begin with # are comments."""

    def __init__(self):
        self.rest = b""
        self.clock = Clock()

    def take(self, chunk):
        data = self.rest + chunk
        end = data.rfind(b"\n") + 1
        self.rest = data[end:]
        lines = data[:end]
        if b"#" in lines:
            lines = re.sub(rb"^#.*\n", b"", lines, flags=re.MULTILINE)
        if not lines:
            return np.empty(0), np.empty(0, np.int32)
        values = np.fromstring(lines.replace(b",", b" "), dtype=np.int64, sep=" ")
        return self.clock.seconds(values[0::2]), values[1::2].astype(np.int32)


class BinaryStream:
    """Frames: COBS, CRC-16, little-endian. Bad frames are counted and left out."""

    def __init__(self):
        self.rest = b""
        self.clock = Clock()
        self.next_sequence = None
        self.lost = 0
        self.bad = 0

    def take(self, chunk):
        data = self.rest + chunk
        end = data.rfind(b"\0") + 1
        self.rest = data[end:]
        wire = np.frombuffer(data[:end], np.uint8)
        ends = np.flatnonzero(wire == 0)
        starts = np.concatenate(([0], ends[:-1] + 1))
        lengths = ends - starts
        parts = [
            self._batches(wire, starts[lengths == length], int(length))
            for length in np.unique(lengths)
            if length >= 20 and (length - 17) % 3 == 0
        ]
        parts = [part for part in parts if part is not None]
        return self._in_order(parts) if parts else (np.empty(0), np.empty(0, np.int32))

    def _batches(self, wire, starts, length):
        """Sample batches among the frames of one length, column by column for all at once."""
        plain = decode_cobs(wire[starts[:, None] + np.arange(length)])
        good = crc16(plain[:, :-2]) == plain[:, -2:].copy().view("<u2").ravel()
        self.bad += int(np.count_nonzero(~good))
        size = (length - 17) // 3
        good &= (plain[:, 0] == SAMPLES) & (plain[:, 13] == size)
        if not good.any():
            return None
        plain = plain[good]
        head = plain[:, 1:13].copy().view("<u4")
        wide = np.zeros((len(plain), size, 4), np.uint8)
        wide[:, :, 1:] = plain[:, 14:-2].reshape(len(plain), size, 3)
        counts = wide.view("<i4").reshape(len(plain), size) >> 8
        return starts[good], head, counts

    def _in_order(self, parts):
        at = np.concatenate([part[0] for part in parts])
        order = np.argsort(at, kind="stable")
        head = np.concatenate([part[1] for part in parts])[order]
        sizes = np.concatenate([np.full(len(p[0]), p[2].shape[1]) for p in parts])[order]
        self._count_lost(head[:, 0], sizes)
        firsts = self.clock.seconds(head[:, 1])
        offsets = np.concatenate(([0], np.cumsum(sizes)))
        inside = np.arange(offsets[-1]) - np.repeat(offsets[:-1], sizes)
        steps = head[:, 2] / 1e6 / np.maximum(sizes - 1, 1)
        seconds = np.repeat(firsts, sizes) + inside * np.repeat(steps, sizes)
        if len(parts) == 1:
            return seconds, parts[0][2].ravel()
        counts = np.empty(offsets[-1], np.int32)
        places = np.empty(len(order), np.int64)
        places[order] = offsets[:-1]
        done = 0
        for starts, _, batch in parts:
            target = places[done : done + len(starts), None] + np.arange(batch.shape[1])
            counts[target] = batch
            done += len(starts)
        return seconds, counts

    def _count_lost(self, sequences, sizes):
        nexts = (sequences + sizes).astype(np.uint32)
        expected = np.concatenate(([self.next_sequence or sequences[0]], nexts[:-1]))
        self.lost += int(((sequences - expected.astype(np.uint32)) & WRAP).sum())
        self.next_sequence = nexts[-1]


def decode_cobs(frames):
    """Plain bytes of frames of equal length, delimiter left out already."""
    frames = frames.copy()
    code_at = frames[:, 0].astype(np.int64)
    for column in range(1, frames.shape[1]):
        is_code = code_at == column
        code_at[is_code] += frames[is_code, column]
        frames[is_code, column] = 0
    return frames[:, 1:]


def _crc_table():
    table = np.arange(256, dtype=np.uint32) << 8
    for _ in range(8):
        table = np.where(table & 0x8000, table << 1 ^ 0x1021, table << 1) & 0xFFFF
    return table.astype(np.uint16)


CRC_TABLE = _crc_table()


def crc16(plain):
    """CRC-16/IBM-3740 of each row."""
    crc = np.full(len(plain), 0xFFFF, np.uint16)
    for column in plain.T:
        crc = crc << 8 ^ CRC_TABLE[crc >> 8 ^ column]
    return crc


def of(first_bytes):
    """The decoder for a stream that begins with these bytes."""
    return BinaryStream() if b"\0" in first_bytes[:300] else TextStream()
