#include "bench.h"

static const uint32_t RATES[] = {10000, 80000};
static const uint16_t GAINS[] = {128, 64};
static const uint8_t ID[] = {0x07, 0xf6, 0xe5, 0xd4, 0xc3, 0xb2, 0xa1, 0x00};
const struct converter_model MODEL = {RATES, GAINS, 2, 2, 24, 4, 1, 2500000};

int passed;
struct device device;
struct wiretap tap;
uint32_t now_us;

void clear(const struct converter_model *model) {
  memset(&device, 0, sizeof device);
  device.model = model;
  device.id = ID;
  device.firmware = "bench 0.3";
  now_us = START_US;
}

void start(void) {
  clear(&MODEL);
  device_start(&device, WIRE_RESET_POWER_ON, 1, now_us);
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  wiretap_expect(&tap, &device.outbox, WIRE_STATUS);
}

void convert(uint32_t code) {
  now_us += PERIOD_US;
  device_converted(&device, code & 0xFFFFFF, now_us);
  CHECK(!device_tick(&device, now_us));
}

static void settle(void) {
  for (int i = 0; i < MODEL.settling_conversions; i++) {
    convert(0x155555);
  }
  CHECK(!wiretap_next(&tap, &device.outbox));
}

void start_settled(void) {
  start();
  settle();
}

struct inbox_frame frame_of(const uint8_t *plain, uint8_t n) {
  struct inbox_frame frame = {.at_us = now_us};
  uint8_t encoded[256];
  frame.length = wiretap_encode(plain, n, encoded);
  CHECK(frame.length <= INBOX_FRAME_BYTES);
  memcpy(frame.bytes, encoded, frame.length);
  return frame;
}

void send(const uint8_t *plain, uint8_t n) {
  struct inbox_frame frame = frame_of(plain, n);
  device_received(&device, &frame, now_us);
}

void send_command(uint8_t type, uint8_t tag, uint32_t value, uint8_t value_bytes) {
  uint8_t plain[6] = {type, tag, (uint8_t)value, (uint8_t)(value >> 8), (uint8_t)(value >> 16),
                      (uint8_t)(value >> 24)};
  send(plain, (uint8_t)(2 + value_bytes));
}

void expect_answer(uint8_t type, uint8_t tag, uint8_t result, uint32_t value) {
  wiretap_expect(&tap, &device.outbox, WIRE_ANSWER);
  CHECK(tap.plain_bytes == 12);
  CHECK(tap.plain[1] == type && tap.plain[2] == tag && tap.plain[3] == result);
  CHECK(wiretap_u32(&tap, 4) == value);
  CHECK(wiretap_u32(&tap, 8) == now_us);
}

void expect_samples(uint32_t sequence, uint8_t n) {
  wiretap_expect(&tap, &device.outbox, WIRE_SAMPLES);
  CHECK(wiretap_u32(&tap, 1) == sequence);
  CHECK(tap.plain[13] == n && tap.plain_bytes == 14 + 3 * n);
  CHECK((wiretap_u32(&tap, 9) == 0) == (n == 1));
}

void expect_nothing(void) { CHECK(!wiretap_next(&tap, &device.outbox)); }
