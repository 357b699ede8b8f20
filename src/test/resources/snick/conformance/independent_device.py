"""A device written with firmware-protocol.md for its only source.

It listens on 127.0.0.1, prints its port on the first line of standard output,
serves one host after another and ends when standard input is closed.
Lines on standard input play the accidents that a host cannot bring about:
    unplug, plug             the converter stops, the converter is back
    stick, short, free       the same code for ever, the upper rail, normal again
    reset                    as if by a watchdog
"""
import math
import os
import random
import select
import socket
import struct
import sys
import time
from collections import deque

VERSION, BITS, DEVICE_ID, FIRMWARE = 1, 24, 0x5B1E90C47D2A8836, b"paper 1.0"
RATES, GAINS = (80_000, 320_000), (128, 64)     # mHz; the first of each is in force after reset
REFERENCE_NV = 2_500_000_000                    # input at the highest code is this / gain
LOW, HIGH = -(1 << BITS - 1), (1 << BITS - 1) - 1
SETTLE = 4                                      # conversions left out after a change, a loss, a reset
MS = 1_000_000                                  # times inside are ns of the monotonic clock
BOOT = 80 * MS                                  # short, so what comes meanwhile is answered in 100 ms too
TOP = 0xFFFFFFFF
HELLO, SAMPLES, STATUS, ANSWER = 1, 2, 3, 4
ASK_HELLO, START, STOP, SET_RATE, SET_GAIN, PING = range(0x81, 0x87)
VALUE = {ASK_HELLO: "", START: "", STOP: "", SET_RATE: "<I", SET_GAIN: "<H", PING: "<I"}
ACCEPTED, UNKNOWN_COMMAND, MALFORMED, OUT_OF_RANGE, NOT_POSSIBLE_NOW = range(5)
IDLE, STREAMING, LOST, STUCK = range(4)
POWER_ON, WATCHDOG = 1, 4
# The send buffer, bytes. Samples use half of it, so that commands and status always get their turn;
# a command needs at most 256: a batch of nine, hello and the answer.
SAMPLE_ROOM, COMMAND_ROOM, CAPACITY = 512, 768, 1024


def crc16(data):
    crc = 0xFFFF
    for byte in data:
        crc ^= byte << 8
        for _ in range(8):
            crc = (crc << 1 ^ 0x1021) & 0xFFFF if crc & 0x8000 else crc << 1
    return crc


def frame(message):
    """Message without CRC to wire bytes, delimiter included."""
    plain = message + struct.pack("<H", crc16(message))
    return b"".join(bytes([len(part) + 1]) + part for part in plain.split(b"\0")) + b"\0"


def unframe(wire):
    """Wire bytes without delimiter to the message without CRC, or None if damaged."""
    parts, at = [], 0
    while at < len(wire):
        end = at + wire[at]
        if end > len(wire):
            return None
        parts.append(wire[at + 1:end])
        at = end
    plain = b"\0".join(parts)
    if len(plain) < 3 or crc16(plain[:-2]) != int.from_bytes(plain[-2:], "little"):
        return None
    return plain[:-2]


class Device:
    def __init__(self, listener):
        self.listener, self.client = listener, None
        self.converter, self.words = "free", b""
        self.reset(POWER_ON)

    # --- life -----------------------------------------------------------------------------------

    def reset(self, cause):
        self.born = self.last = time.monotonic_ns()
        self.cause, self.booting, self.state = cause, True, IDLE
        self.rate, self.gain = RATES[0], GAINS[0]
        self.next_conversion, self.next_status = self.born + self.period(), self.born + BOOT
        self.settling, self.numbering = SETTLE, False
        self.number = self.dropped = self.overrange = self.repeats = 0
        self.code, self.batch = None, []
        self.out, self.received, self.pending = bytearray(), bytearray(), deque()

    def period(self):
        return 1_000_000_000_000 // self.rate

    def clock(self, moment):
        return (moment - self.born) // 1000 & TOP

    def connect(self):
        self.client, _ = self.listener.accept()
        self.client.setblocking(False)
        self.client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self.client.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, 16384)

    def disconnect(self):
        self.client.close()
        self.client = None
        self.out, self.received, self.pending = bytearray(), bytearray(), deque()

    # --- sending --------------------------------------------------------------------------------

    def send(self, message):
        if self.client:                         # what nobody takes is gone
            self.out += frame(message)

    def push(self):
        try:
            while self.client and self.out:
                del self.out[:self.client.send(self.out)]
        except BlockingIOError:
            pass
        except OSError:
            self.disconnect()

    def send_hello(self):
        self.send(struct.pack("<BBQBHIIB", HELLO, VERSION, DEVICE_ID, BITS, self.gain, self.rate,
                              REFERENCE_NV // self.gain, len(FIRMWARE)) + FIRMWARE)

    def send_status(self, now):
        warmth = 2300 + round(40 * math.sin(now / 6e10))
        state = STUCK if self.state == STREAMING and self.repeats >= 64 else self.state
        self.send(struct.pack("<BIhHIIBB", STATUS, self.clock(now), warmth, 4987, self.dropped,
                              self.overrange, self.cause, state))

    def send_batch(self, room=SAMPLE_ROOM):
        """Sends the batch begun whole, or drops and counts it where there is no room."""
        batch, self.batch = self.batch, []
        if not batch:
            return
        first, last, n = batch[0][0], batch[-1][0], len(batch)
        if not self.client or len(self.out) + 18 + 3 * n > room:
            return self.drop(n)
        span = (last - self.born) // 1000 - (first - self.born) // 1000
        self.send(struct.pack("<BIIIB", SAMPLES, self.number - n & TOP, self.clock(first), span, n)
                  + b"".join(code.to_bytes(3, "little", signed=True) for _, code in batch))

    def drop(self, n):
        self.dropped = min(self.dropped + n, TOP)

    # --- converter ------------------------------------------------------------------------------

    def convert(self, moment):
        """A code of the synthetic converter: a load, noise, and a cut every five seconds."""
        if self.converter == "short":
            return HIGH
        if self.converter == "stick" and self.code is not None:
            return self.code
        seconds = (moment - self.born) / 1e9
        force = max(0.0, math.sin(math.pi * (seconds % 5) / 0.8)) if seconds % 5 < 0.8 else 0.0
        code = round((84_000 + 60_000 * force + random.gauss(0, 25)) * self.gain / 128)
        return max(LOW, min(HIGH, code))

    def conversion(self, moment):
        self.last, streaming = moment, self.state != IDLE
        if self.settling:
            self.settling -= 1
            if streaming and self.numbering:
                self.send_batch()               # no hole inside a batch
                self.number = self.number + 1 & TOP
                self.drop(1)
            return
        code, before = self.convert(moment), self.code
        self.code = code
        if not streaming:
            return
        self.state, self.numbering = STREAMING, True
        rail = code in (LOW, HIGH)
        self.overrange = min(self.overrange + rail, TOP)
        self.repeats = 0 if rail else self.repeats + 1 if code == before else 1
        self.batch.append((moment, code))
        self.number = self.number + 1 & TOP
        if len(self.batch) > 25 * self.rate // 1_000_000:   # n - 1 periods are at most 25 ms
            self.send_batch()

    def change(self, rate, gain, now):
        self.send_batch(CAPACITY)
        if rate != self.rate:
            self.rate, self.last = rate, now
            self.next_conversion = now + self.period()
        self.gain, self.settling, self.repeats, self.code = gain, SETTLE, 0, None
        self.send_hello()

    # --- commands -------------------------------------------------------------------------------

    def receive(self, data, now):
        for byte in data:
            if byte:
                if len(self.received) < 256:    # 256 is too long already: skipped to its delimiter
                    self.received.append(byte)
                continue
            message = unframe(self.received) if len(self.received) < 256 else None
            self.received.clear()
            if message and message[0] >= 0x80:
                self.pending.append((message, now))

    def command(self, message, came, now):
        kind, tag = message[0], message[1] if len(message) > 1 else 0
        if kind not in VALUE:
            result, value = UNKNOWN_COMMAND, 0
        elif len(message) != 2 + struct.calcsize(VALUE[kind]):
            result, value = MALFORMED, 0
        else:
            asked = struct.unpack(VALUE[kind], message[2:])[0] if VALUE[kind] else None
            result, value = self.obey(kind, asked, now)
        self.send(struct.pack("<BBBBII", ANSWER, kind, tag, result, value, self.clock(came)))

    def obey(self, kind, asked, now):
        if kind == PING:
            return ACCEPTED, asked
        if kind == ASK_HELLO:
            self.send_hello()
            return ACCEPTED, VERSION
        if kind == START:
            if self.state == IDLE:
                self.state, self.repeats = STREAMING, 0
            return ACCEPTED, self.number
        if kind == STOP:
            self.send_batch(CAPACITY)
            self.state = IDLE
            return ACCEPTED, self.number
        if kind == SET_RATE:
            force, chosen = self.rate, min(RATES, key=lambda rate: abs(rate - asked))
            fits = 1 <= asked <= 100_000_000 and 10 * abs(chosen - asked) <= asked
        else:
            force, chosen, fits = self.gain, asked, asked in GAINS
        if not fits:
            return OUT_OF_RANGE, force
        if chosen == force:
            return ACCEPTED, force
        if self.state == LOST:
            return NOT_POSSIBLE_NOW, force
        self.change(*((chosen, self.gain) if kind == SET_RATE else (self.rate, chosen)), now)
        return ACCEPTED, chosen

    # --- main loop ------------------------------------------------------------------------------

    def work(self, now):
        """All that is due at this moment: conversions, then commands, then status."""
        if self.converter == "unplug":
            self.next_conversion = now + self.period()
        while self.next_conversion <= now and not (self.booting and self.next_conversion > self.born + BOOT):
            self.conversion(self.next_conversion)
            self.next_conversion += self.period()
        if self.booting:
            if now < self.born + BOOT:
                return
            self.booting, self.state = False, STREAMING
            if self.client:
                self.out += b"\0"
            self.send_hello()
            self.send_status(now)
            self.next_status = now + 1000 * MS
            return self.work(now)
        if self.batch and now - self.batch[0][0] >= 25 * MS:
            self.send_batch()                   # its next sample did not come
        if self.state == STREAMING and now - self.last > max(4 * self.period(), 50 * MS):
            self.state, self.settling, self.repeats = LOST, SETTLE, 0
        while self.pending and len(self.out) <= COMMAND_ROOM:
            self.command(*self.pending.popleft(), now)
            if len(self.out) > COMMAND_ROOM:
                self.push()
        if now >= self.next_status and len(self.out) <= COMMAND_ROOM:
            self.send_status(now)
            self.next_status = max(self.next_status + 1000 * MS, now + 500 * MS)
        self.push()

    def bench(self, data):
        """Words from standard input."""
        *lines, self.words = (self.words + data).split(b"\n")
        for word in (line.decode("ascii", "replace").strip() for line in lines):
            if word == "reset":
                self.reset(WATCHDOG)
            elif word in ("unplug", "plug", "stick", "short", "free"):
                if word == "plug":
                    self.settling = SETTLE
                self.converter = word

    def run(self):
        while True:
            now = time.monotonic_ns()
            self.work(now)
            due = self.born + BOOT if self.booting else min(self.next_conversion, self.next_status)
            if self.next_status <= now and not self.booting:
                due = self.next_conversion      # status waits for room
            reading = [sys.stdin.fileno(), self.client if self.client else self.listener]
            if self.client and len(self.pending) >= 8:
                reading.pop()                   # the rest stays in the line until there is room
            writing = [self.client] if self.client and self.out else []
            wait = max(0, due - time.monotonic_ns()) / 1e9
            ready, _, _ = select.select(reading, writing, [], wait)
            if sys.stdin.fileno() in ready:
                data = os.read(sys.stdin.fileno(), 4096)
                if not data:
                    return
                self.bench(data)
            if self.listener in ready:
                self.connect()
            elif self.client in ready:
                try:
                    data = self.client.recv(256)
                except BlockingIOError:
                    continue
                except OSError:
                    data = b""
                if data:
                    self.receive(data, time.monotonic_ns())
                else:
                    self.disconnect()


def main():
    with socket.create_server(("127.0.0.1", 0), backlog=4) as listener:
        print(listener.getsockname()[1], flush=True)
        Device(listener).run()


if __name__ == "__main__":
    main()
