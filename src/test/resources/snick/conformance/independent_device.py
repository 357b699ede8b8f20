"""A rig that is no rig, written with firmware-protocol.md for its only source: a TCP server that
speaks the binary form. Nothing of Snick's is used, nothing but Python's own library.

Prints the port it listens on. Ends when standard input does.
"""

import asyncio
import math
import random
import struct
import sys
import time

HELLO, SAMPLES, STATUS, ANSWER = 1, 2, 3, 4
ASK_HELLO, START, STOP, SET_RATE, SET_GAIN, PING = range(0x81, 0x87)
VALUE_BYTES = {ASK_HELLO: 0, START: 0, STOP: 0, SET_RATE: 4, SET_GAIN: 2, PING: 4}
ACCEPTED, UNKNOWN_COMMAND, MALFORMED, OUT_OF_RANGE = 0, 1, 2, 3
IDLE, STREAMING = 0, 1
POWER_ON = 1
NOT_MEASURED_TEMPERATURE, NOT_MEASURED_SUPPLY = -32768, 65535

RATES_MHZ = [80_000, 320_000]
GAINS = [32, 128]
SETTLING = 2
RANGE_AT_GAIN_1_NV = 1_250_000_000
LONGEST_FRAME = 64


def crc16(data):
    crc = 0xFFFF
    for byte in data:
        crc ^= byte << 8
        for _ in range(8):
            crc = (crc << 1 ^ 0x1021 if crc & 0x8000 else crc << 1) & 0xFFFF
    return crc


def frame(message):
    """The message with its check, free of zero bytes, and the delimiter."""
    plain = message + struct.pack("<H", crc16(message))
    parts = plain.split(b"\0")
    return b"".join(bytes([len(part) + 1]) + part for part in parts) + b"\0"


def unframe(wire):
    """Type and body of a frame without its delimiter; None if it is damaged."""
    plain = b""
    at = 0
    while at < len(wire):
        code = wire[at]
        if code == 0 or at + code > len(wire):
            return None
        plain += wire[at + 1 : at + code] + b"\0"
        at += code
    plain = plain[:-1]
    if len(plain) < 3 or crc16(plain[:-2]) != struct.unpack("<H", plain[-2:])[0]:
        return None
    return plain[:-2]


class Device:
    def __init__(self):
        self.born = time.monotonic()
        self.send = lambda data: None
        self.rate = 1
        self.gain = 1
        self.state = STREAMING
        self.sequence = 0
        self.dropped = 0
        self.overrange = 0
        self.batch = []
        self.batch_sequence = 0
        self.settling = 0
        self.next_us = self.period_us()

    def now_us(self):
        return int((time.monotonic() - self.born) * 1e6)

    def period_us(self):
        return 1e9 / RATES_MHZ[self.rate]

    def say_hello(self):
        name = "by the document 1.0".encode()
        gain = GAINS[self.gain]
        self.send(frame(
            struct.pack("<BBQBHIIB", HELLO, 1, 0x0123456789ABCDEF, 24, gain,
                        RATES_MHZ[self.rate], RANGE_AT_GAIN_1_NV // gain, len(name)) + name))

    def say_status(self):
        self.send(frame(
            struct.pack("<BIhHIIBB", STATUS, self.now_us() & 0xFFFFFFFF, NOT_MEASURED_TEMPERATURE,
                        NOT_MEASURED_SUPPLY, self.dropped, self.overrange, POWER_ON, self.state)))

    def send_batch(self):
        if not self.batch:
            return
        first, last = self.batch[0][0], self.batch[-1][0]
        body = b"".join(count.to_bytes(3, "little", signed=True) for _, count in self.batch)
        self.send(frame(
            struct.pack("<BIIIB", SAMPLES, self.batch_sequence & 0xFFFFFFFF, first & 0xFFFFFFFF,
                        last - first, len(self.batch)) + body))
        self.batch = []

    def convert(self):
        """All conversions that are due."""
        while self.next_us <= self.now_us():
            self.converted(int(self.next_us))
            self.next_us += self.period_us()

    def converted(self, ready_us):
        if self.settling > 0:
            self.settling -= 1
            if self.state == STREAMING:
                self.sequence += 1
                self.dropped += 1
            return
        if self.state != STREAMING:
            return
        if not self.batch:
            self.batch_sequence = self.sequence
        self.batch.append((ready_us, self.measure(ready_us)))
        self.sequence += 1
        if len(self.batch) >= 1 + int(25_000 / self.period_us()):
            self.send_batch()

    def measure(self, at_us):
        swing = 50_000 * math.sin(at_us * 1e-6) + random.gauss(0, 15)
        return 84_000 + round(swing * GAINS[self.gain] / 128)

    def heard(self, wire, at_us):
        message = unframe(wire)
        if message is None or message[0] < 0x80:
            return
        kind = message[0]
        tag = message[1] if len(message) > 1 else 0
        if kind not in VALUE_BYTES:
            self.answer(kind, tag, UNKNOWN_COMMAND, 0, at_us)
        elif len(message) != 2 + VALUE_BYTES[kind]:
            self.answer(kind, tag, MALFORMED, 0, at_us)
        else:
            result, value = self.obey(kind, int.from_bytes(message[2:], "little"))
            self.answer(kind, tag, result, value, at_us)

    def obey(self, kind, value):
        if kind == ASK_HELLO:
            self.say_hello()
            return ACCEPTED, 1
        if kind == START:
            self.state = STREAMING
            return ACCEPTED, self.sequence & 0xFFFFFFFF
        if kind == STOP:
            self.send_batch()
            self.state = IDLE
            return ACCEPTED, self.sequence & 0xFFFFFFFF
        if kind == SET_RATE:
            nearest = min(range(len(RATES_MHZ)), key=lambda i: abs(RATES_MHZ[i] - value))
            near = abs(RATES_MHZ[nearest] - value) * 10 <= value
            result = self.change("rate", nearest) if near else OUT_OF_RANGE
            return result, RATES_MHZ[self.rate]
        if kind == SET_GAIN:
            result = self.change("gain", GAINS.index(value)) if value in GAINS else OUT_OF_RANGE
            return result, GAINS[self.gain]
        return ACCEPTED, value

    def change(self, what, wanted):
        if getattr(self, what) != wanted:
            self.send_batch()
            setattr(self, what, wanted)
            self.settling = SETTLING
            self.next_us = self.now_us() + self.period_us()
            self.say_hello()
        return ACCEPTED

    def answer(self, kind, tag, result, value, at_us):
        self.send(frame(struct.pack("<BBBBII", ANSWER, kind, tag, result, value,
                                    at_us & 0xFFFFFFFF)))


async def serve(device, reader, writer):
    """One host at a time; its connection is no reset."""
    device.send = writer.write
    buffer, skipping = b"", False
    try:
        while data := await reader.read(4096):
            at_us = device.now_us()
            device.convert()
            for byte in data:
                if byte:
                    buffer += bytes([byte])
                    skipping = skipping or len(buffer) > LONGEST_FRAME
                    buffer = b"" if skipping else buffer
                    continue
                if buffer and not skipping:
                    device.heard(buffer, at_us)
                buffer, skipping = b"", False
    except ConnectionError:
        pass
    device.send = lambda data: None
    writer.close()


async def live(device):
    device.send(b"\0")
    device.say_hello()
    device.say_status()
    next_status_us = 1_000_000
    while True:
        device.convert()
        if device.now_us() >= next_status_us:
            device.say_status()
            next_status_us += 1_000_000
        await asyncio.sleep(0.003)


async def main():
    device = Device()
    server = await asyncio.start_server(lambda r, w: serve(device, r, w), "127.0.0.1", 0)
    print(server.sockets[0].getsockname()[1], flush=True)
    living = asyncio.create_task(live(device))
    await asyncio.get_running_loop().run_in_executor(None, sys.stdin.read)
    living.cancel()
    server.close()


if __name__ == "__main__":
    asyncio.run(main())
