/*
 * The Arduino library on this machine: its drivers against simulated parts, its rig and its text over
 * a line in memory. The simulated parts know the same registers as the drivers, from the same memory:
 * they show that the drivers do what they mean to, not that a real part agrees.
 */
#include <Snick.h>
#include <assert.h>

#include <deque>
#include <functional>
#include <string>
#include <vector>

#include "wiretap.h"

namespace {

uint32_t clock_us;
uint8_t levels[32];
void (*falling[32])();
std::function<void(uint8_t, uint8_t)> written = [](uint8_t, uint8_t) {};

void pull(uint8_t pin, uint8_t level) {
  bool fell = levels[pin] && !level;
  levels[pin] = level;
  if (fell && falling[pin]) {
    falling[pin]();
  }
}

// The part behind either bus: what its registers hold, and its data-ready line on pin 2.
struct Part {
  uint8_t registers[256] = {};
  int32_t code = 0;
  bool answers = true;

  void convert(int32_t next) {
    code = next;
    pull(2, HIGH);
    pull(2, LOW);
  }
  uint8_t byte_of_code(int i) { return static_cast<uint8_t>(code >> (16 - 8 * i)); }
} part;

std::vector<uint8_t> sent_to_part;
std::deque<uint8_t> from_part;

// Both ends of a serial line.
class Line : public Stream {
 public:
  std::deque<uint8_t> to_device;
  std::string from_device;
  int room = 0;

  int available() override { return static_cast<int>(to_device.size()); }
  int read() override {
    uint8_t byte = to_device.front();
    to_device.pop_front();
    return byte;
  }
  size_t write(uint8_t byte) override {
    from_device += static_cast<char>(byte);
    return 1;
  }
  using Print::write;
  int availableForWrite() override { return room; }

  void command(std::vector<uint8_t> plain) {
    uint8_t encoded[64];
    uint8_t n = wiretap_encode(plain.data(), static_cast<uint8_t>(plain.size()), encoded);
    to_device.insert(to_device.end(), encoded, encoded + n);
    to_device.push_back(0);
  }
  // Types of the frames sent, all of which must be good; the last of them is in the tap.
  std::vector<uint8_t> types() {
    std::vector<uint8_t> types;
    outbox frames = {};
    for (char byte : from_device) {
      frames.bytes[frames.head++] = static_cast<uint8_t>(byte);
      if (byte == 0 && wiretap_next(&tap, &frames)) {
        types.push_back(tap.plain[0]);
      }
    }
    from_device.clear();
    return types;
  }
  wiretap tap;
};

void fresh() {
  clock_us = 1000;
  for (uint8_t pin = 0; pin < 32; pin++) {
    levels[pin] = HIGH;
    falling[pin] = nullptr;
  }
  part = Part();
  sent_to_part.clear();
  from_part.clear();
  written = [](uint8_t, uint8_t) {};
}

void expect_code(snick::Converter &converter, int32_t wanted, uint32_t wanted_us) {
  uint32_t code = 0, ready_us = 0;
  CHECK(converter.look(code, ready_us) == CONVERTER_CODE);
  CHECK(code == (static_cast<uint32_t>(wanted) & 0xFFFFFF) && ready_us == wanted_us);
  CHECK(converter.look(code, ready_us) == CONVERTER_NOTHING);
}

void i2c_part_is_set_up_and_read() {
  fresh();
  snick::I2cConverter converter(2);
  converter.begin(4, 0);
  CHECK(part.registers[0x00] == 0x96);  // both parts on, converting, bridge fed
  CHECK((part.registers[0x01] & 7) == 7 && part.registers[0x01] & 0x80);
  CHECK(part.registers[0x02] == 0x70);  // 320 a second
  part.convert(-8388608);
  uint32_t ready = clock_us;
  clock_us += 700;
  expect_code(converter, -8388608, ready);
  converter.choose(3, 2);
  CHECK(part.registers[0x02] == 0x30 && (part.registers[0x01] & 7) == 5);
  part.convert(84213);
  expect_code(converter, 84213, clock_us);
}

void what_i2c_did_not_bring_is_a_hole_in_the_numbers() {
  fresh();
  snick::I2cConverter converter(2);
  Line line;
  snick::Rig rig(converter, line, 1, "holes");
  rig.begin(4, WIRE_RESET_SOFTWARE);
  rig.poll();
  line.types();
  uint32_t next = 0;
  for (int i = 0; i < 40; i++) {
    clock_us += 3125;
    part.answers = i != 20 && i != 21;
    part.convert(i);
    rig.poll();
    for (uint8_t type : line.types()) {
      if (type == WIRE_SAMPLES) {
        uint32_t first = line.tap.plain[1], n = line.tap.plain[13];
        CHECK(first == next || (next == 16 && first == 18));  // four settle, then 0 to 15
        CHECK(first + 4 == line.tap.plain[14] + 0U);          // the code is its own number
        next = first + n;
      }
    }
  }
  CHECK(next == 36);
}

void spi_part_is_set_up_and_read() {
  fresh();
  written = [](uint8_t pin, uint8_t level) {
    if (pin == 10 && !level) {
      sent_to_part.clear();
      from_part = {part.byte_of_code(0), part.byte_of_code(1), part.byte_of_code(2)};
    }
  };
  snick::SpiConverter converter(10, 2);
  converter.begin(6, 0);
  CHECK((sent_to_part == std::vector<uint8_t>{0x43, 0x0E, 0xC4, 0xC0, 0x00, 0x08}));
  part.convert(-1);
  expect_code(converter, -1, clock_us);
  converter.choose(4, 7);
  CHECK((sent_to_part == std::vector<uint8_t>{0x43, 0x00, 0x84, 0xC0, 0x00, 0x08}));
}

// The part pulls data low when ready; each pulse brings out a bit, a 25th releases the line.
void two_wire_part_is_read_by_interrupt_and_by_looking() {
  for (uint8_t data : {2, 4}) {
    fresh();
    int pulses = 0;
    written = [&](uint8_t pin, uint8_t level) {
      if (pin == 5 && level) {
        pull(data, pulses < 24 ? part.code >> (23 - pulses) & 1 : HIGH);
        pulses++;
      }
    };
    snick::TwoWireConverter converter(data, 5, two_wire_at_80);
    converter.begin(0, 0);
    pull(data, HIGH);
    for (int32_t code : {-8388608, 8388607, 84213, -2}) {
      clock_us += 12500;
      part.code = code;
      pulses = 0;
      pull(data, LOW);
      expect_code(converter, code, clock_us);
      CHECK(pulses == 25);
    }
  }
}

void what_was_overwritten_is_missed() {
  fresh();
  snick::OwnReadings readings(1000000);
  readings.begin(0, 0);
  uint32_t code, ready_us;
  readings.put(1, 10000);
  CHECK(readings.look(code, ready_us) == CONVERTER_CODE);
  readings.put(2, 11000);
  readings.put(3, 12010);
  CHECK(readings.look(code, ready_us) == CONVERTER_MISSED);
  CHECK(readings.look(code, ready_us) == CONVERTER_CODE && code == 3 && ready_us == 12010);
  CHECK(readings.look(code, ready_us) == CONVERTER_NOTHING);
}

void own_readings_stand_at_the_rails_of_their_bits() {
  fresh();
  snick::OwnReadings readings(10000, 16);
  readings.begin(0, 0);
  readings.put(40000, clock_us);
  expect_code(readings, 32767, clock_us);
  readings.put(-40000, clock_us += 100000);
  expect_code(readings, -32768, clock_us);
}

void rig_streams_answers_and_counts_at_1000_a_second() {
  for (int room : {0, 1, 64}) {
    fresh();
    Line line;
    line.room = room;
    snick::OwnReadings readings(1000000, 24, 7);
    snick::Rig rig(readings, line, 0x00a1b2c3d4e5f607, "a name that is far longer than 32 bytes");
    rig.begin(0, WIRE_RESET_SOFTWARE);
    rig.poll();
    CHECK((line.types() == std::vector<uint8_t>{WIRE_HELLO, WIRE_STATUS}));
    for (int i = 0; i < 26; i++) {
      readings.put(i, clock_us += 1000);
      rig.poll();
    }
    CHECK(line.types() == std::vector<uint8_t>{WIRE_SAMPLES});
    CHECK(line.tap.plain[13] == 26);
    line.command({WIRE_SET_RATE, 3, 0, 0, 1, 0});
    line.command({WIRE_ASK_HELLO, 4});
    rig.poll();
    CHECK(line.types() == std::vector<uint8_t>{WIRE_ANSWER});
    CHECK(line.tap.plain[3] == WIRE_OUT_OF_RANGE && wiretap_u32(&line.tap, 4) == 1000000);
    rig.poll();
    CHECK((line.types() == std::vector<uint8_t>{WIRE_HELLO, WIRE_ANSWER}));
    clock_us += 60000;
    rig.poll();
    CHECK(line.types().empty());
    clock_us += 1000000;
    rig.poll();
    CHECK(line.types() == std::vector<uint8_t>{WIRE_STATUS});
    CHECK(line.tap.plain[17] == WIRE_RESET_SOFTWARE && line.tap.plain[18] == WIRE_CONVERTER_LOST);
  }
}

void text_has_time_and_checksum() {
  fresh();
  Line line;
  snick::OwnReadings readings(12500, 24, 128);
  snick::TextLines lines(readings, line);
  lines.begin();
  readings.put(84213, 1012500);
  lines.poll();
  readings.put(-84220, 1092500);
  lines.poll();
  CHECK(line.from_device ==
        "\r\n# rate=12.500\r\n# gain=128\r\n1012500,84213*27\r\n1092500,-84220*02\r\n");
}

}  // namespace

extern "C" {
void pinMode(uint8_t, uint8_t) {}
void digitalWrite(uint8_t pin, uint8_t level) { written(pin, level); }
int digitalRead(uint8_t pin) { return levels[pin]; }
void attachInterrupt(uint8_t pin, void (*handler)(), int) { falling[pin] = handler; }
uint32_t micros() { return clock_us; }
void delayMicroseconds(unsigned int) {}
void noInterrupts() {}
void interrupts() {}
}

SPIClass SPI;
void SPIClass::beginTransaction(SPISettings) {}
void SPIClass::endTransaction() {}
uint8_t SPIClass::transfer(uint8_t byte) {
  sent_to_part.push_back(byte);
  uint8_t back = from_part.empty() ? 0 : from_part.front();
  if (!from_part.empty()) {
    from_part.pop_front();
  }
  return back;
}

TwoWire Wire;
void TwoWire::beginTransmission(uint8_t address) {
  CHECK(address == 0x2A);
  sent_to_part.clear();
}
size_t TwoWire::write(uint8_t byte) {
  sent_to_part.push_back(byte);
  return 1;
}
uint8_t TwoWire::endTransmission(bool) {
  if (sent_to_part.size() == 2) {
    part.registers[sent_to_part[0]] = sent_to_part[1];
  }
  return part.answers ? 0 : 2;
}
uint8_t TwoWire::requestFrom(uint8_t, uint8_t n) {
  CHECK(sent_to_part == std::vector<uint8_t>{0x12} && n == 3);
  from_part = {part.byte_of_code(0), part.byte_of_code(1), part.byte_of_code(2)};
  pull(2, HIGH);
  return n;
}
int TwoWire::read() {
  uint8_t byte = from_part.front();
  from_part.pop_front();
  return byte;
}

int main() {
  void (*const TESTS[])() = {
      i2c_part_is_set_up_and_read,
      what_i2c_did_not_bring_is_a_hole_in_the_numbers,
      spi_part_is_set_up_and_read,
      two_wire_part_is_read_by_interrupt_and_by_looking,
      what_was_overwritten_is_missed,
      own_readings_stand_at_the_rails_of_their_bits,
      rig_streams_answers_and_counts_at_1000_a_second,
      text_has_time_and_checksum,
  };
  int passed = 0;
  for (auto test : TESTS) {
    test();
    passed++;
  }
  printf("%d library tests passed\n", passed);
}
