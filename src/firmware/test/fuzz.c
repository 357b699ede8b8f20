/*
 * Garbage for the core: random bytes, damaged and good commands in any order, between conversions,
 * silences and a line that stalls. Under the sanitizers no access may be out of bounds; every frame
 * sent must be good, and every good command that found a place must be answered exactly once.
 * Arguments: seed (1), steps (300000).
 */
#include "device.h"
#include "wiretap.h"

static const uint32_t RATES[] = {10000, 80000};
static const uint16_t GAINS[] = {128, 64};
static const uint8_t ID[] = {1, 2, 3, 4, 5, 6, 7, 8};
static const struct converter_model MODEL = {RATES, GAINS, 2, 2, 24, 4, 1, 2500000};

static struct device device = {.model = &MODEL, .id = ID, .firmware = "fuzzed"};
static struct inbox inbox;
static struct wiretap tap;
static uint64_t random_state;
static uint32_t now_us, asked, answered, frames;

/* xorshift64*, Vigna 2016. */
static uint32_t chance(uint32_t below) {
  random_state ^= random_state >> 12;
  random_state ^= random_state << 25;
  random_state ^= random_state >> 27;
  return (uint32_t)((random_state * 2685821657736338717ull) >> 32) % below;
}

static void garbage(void) {
  for (uint32_t n = chance(40); n > 0; n--) {
    inbox_byte(&inbox, (uint8_t)chance(256), now_us);
  }
  if (chance(10) == 0) {
    inbox_spoil(&inbox);
  }
}

static void command(bool damaged) {
  uint8_t plain[12];
  uint8_t encoded[256];
  uint8_t n = (uint8_t)(1 + chance(12));
  for (uint8_t i = 0; i < n; i++) {
    plain[i] = (uint8_t)(chance(3) ? chance(256) : 0);
  }
  plain[0] = (uint8_t)(chance(4) ? 0x80 + chance(8) : chance(256));
  uint8_t length = wiretap_encode(plain, n, encoded);
  if (damaged) {
    encoded[chance(length)] ^= (uint8_t)(1 + chance(255));
  }
  inbox_byte(&inbox, 0, now_us);
  for (uint8_t i = 0; i < length; i++) {
    inbox_byte(&inbox, encoded[i], now_us);
  }
  inbox_byte(&inbox, 0, now_us);
}

static void look(void) {
  while (wiretap_next(&tap, &device.outbox)) {
    frames++;
    answered += tap.plain[0] == WIRE_ANSWER;
  }
}

static void hear(void) {
  const struct inbox_frame *frame;
  while ((frame = inbox_oldest(&inbox)) != NULL
         && outbox_room(&device.outbox) >= DEVICE_REPLY_BYTES) {
    struct command read;
    asked += command_read(frame, &read);
    device_received(&device, frame, now_us);
    inbox_drop_oldest(&inbox);
  }
}

static void step(void) {
  now_us += chance(20000);
  switch (chance(8)) {
    case 0: garbage(); break;
    case 1: command(true); break;
    case 2: command(false); break;
    case 3: device_missed(&device); break;
    case 4: now_us += chance(2) ? 0 : chance(400000); break;
    default: device_converted(&device, chance(1u << 24), now_us); break;
  }
  hear();
  device_tick(&device, now_us);
  if (chance(4)) {
    look();
  }
}

int main(int argc, char **argv) {
  random_state = 0x9E3779B97F4A7C15ull ^ (argc > 1 ? strtoull(argv[1], NULL, 10) : 1);
  long steps = argc > 2 ? strtol(argv[2], NULL, 10) : 300000;
  device_start(&device, WIRE_RESET_UNKNOWN, 1, now_us);
  for (long i = 0; i < steps; i++) {
    step();
  }
  look();
  CHECK(asked > 0 && answered == asked);
  printf("%ld steps, %u frames, %u commands answered\n", steps, frames, answered);
  return 0;
}
