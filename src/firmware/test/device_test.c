/* The device: batches, status, commands, settling, losses. */
#include "bench.h"

static const struct converter_model FAST_MODEL = {
    (const uint32_t[]){80000, 320000}, (const uint16_t[]){128, 64}, 2, 2, 24, 4, 1, 2500000};
static const struct converter_model SIXTEEN_BITS = {
    (const uint32_t[]){1000000}, (const uint16_t[]){3}, 1, 1, 16, 0, 0, 5000000};

static void start_says_hello_then_status(void) {
  clear(&MODEL);
  device_start(&device, WIRE_RESET_WATCHDOG, 1, now_us);
  uint8_t first = 1;
  CHECK(outbox_take(&device.outbox, &first) && first == 0);
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  wiretap_expect(&tap, &device.outbox, WIRE_STATUS);
  CHECK(tap.plain[17] == WIRE_RESET_WATCHDOG && tap.plain[18] == WIRE_STREAMING);
  expect_nothing();
}

static void batches_of_three_follow_without_hole(void) {
  start_settled();
  for (uint32_t i = 0; i < 60; i++) {
    convert(1000 + i);
    if (i % 3 == 2) {
      expect_samples(i - 2, 3);
      CHECK(wiretap_u32(&tap, 5) == now_us - 2 * PERIOD_US);
      CHECK(wiretap_u32(&tap, 9) == 2 * PERIOD_US);
      CHECK(wiretap_u16(&tap, 14) == 1000 + i - 2 && wiretap_u16(&tap, 20) == 1000 + i);
    }
  }
  CHECK(device.dropped == 0);
}

static void status_comes_every_second(void) {
  start_settled();
  int statuses = 0;
  uint32_t last = START_US;
  for (uint32_t i = 0; i < 800; i++) {
    convert(i);
    while (wiretap_next(&tap, &device.outbox)) {
      if (tap.plain[0] == WIRE_STATUS) {
        uint32_t at = wiretap_u32(&tap, 1);
        CHECK(at - last >= 980000 && at - last <= 1020000);
        last = at;
        statuses++;
      }
    }
  }
  CHECK(statuses == 10);
}

static uint8_t state_now(void) {
  while (wiretap_next(&tap, &device.outbox)) {
  }
  device.next_status_us = now_us;
  CHECK(!device_tick(&device, now_us));
  while (wiretap_next(&tap, &device.outbox)) {
  }
  CHECK(tap.plain[0] == WIRE_STATUS);
  return tap.plain[18];
}

static void rails_are_counted_and_passed_on(void) {
  start_settled();
  convert(0x7FFFFF);
  convert(0x800000);
  convert(5);
  expect_samples(0, 3);
  CHECK(!memcmp(tap.plain + 14, "\xff\xff\x7f\x00\x00\x80\x05\x00\x00", 9));
  CHECK(device.overrange == 2);
}

static void same_code_64_times_is_stuck_and_still_sent(void) {
  start_settled();
  for (int i = 0; i < 63; i++) {
    convert(77);
  }
  CHECK(state_now() == WIRE_STREAMING);
  convert(77);
  CHECK(state_now() == WIRE_CONVERTER_STUCK);
  uint32_t sequence = device.sequence;
  convert(77);
  CHECK(device.sequence == sequence + 1);
  convert(78);
  CHECK(state_now() == WIRE_STREAMING);
}

static void rail_64_times_is_not_stuck(void) {
  start_settled();
  for (int i = 0; i < 70; i++) {
    convert(0x7FFFFF);
  }
  CHECK(state_now() == WIRE_STREAMING);
}

static void silence_is_lost_and_found_with_a_hole(void) {
  start_settled();
  convert(1);
  convert(2);
  now_us += 4 * PERIOD_US - 1;
  CHECK(!device_tick(&device, now_us));
  now_us += 1;
  CHECK(device_tick(&device, now_us));
  expect_samples(0, 2);
  CHECK(state_now() == WIRE_CONVERTER_LOST);
  int restarts = 0;
  for (int i = 0; i < 80; i++) {
    now_us += PERIOD_US;
    restarts += device_tick(&device, now_us);
  }
  CHECK(restarts == 10);
  while (wiretap_next(&tap, &device.outbox)) {
  }
  for (int i = 0; i < 4; i++) {
    convert(0x155555);
    CHECK(device.lost);
  }
  convert(3);
  CHECK(!device.lost);
  convert(4);
  convert(5);
  expect_samples(2 + 4, 3);
  CHECK(device.dropped == 4);
  CHECK(state_now() == WIRE_STREAMING);
}

static void stop_sends_the_batch_begun_and_start_goes_on(void) {
  start_settled();
  convert(1);
  send_command(WIRE_STOP, 0, 0, 0);
  expect_samples(0, 1);
  expect_answer(WIRE_STOP, 0, WIRE_ACCEPTED, 1);
  for (int i = 0; i < 10; i++) {
    convert(2);
  }
  expect_nothing();
  CHECK(state_now() == WIRE_IDLE);
  send_command(WIRE_STOP, 255, 0, 0);
  expect_answer(WIRE_STOP, 255, WIRE_ACCEPTED, 1);
  send_command(WIRE_START, 3, 0, 0);
  expect_answer(WIRE_START, 3, WIRE_ACCEPTED, 1);
  convert(3);
  convert(4);
  convert(5);
  expect_samples(1, 3);
  send_command(WIRE_START, 4, 0, 0);
  expect_answer(WIRE_START, 4, WIRE_ACCEPTED, 4);
}

static void change_of_gain_drops_until_settled(void) {
  start_settled();
  convert(1);
  send_command(WIRE_SET_GAIN, 9, 64, 2);
  expect_samples(0, 1);
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  CHECK(wiretap_u16(&tap, 11) == 64 && wiretap_u32(&tap, 17) == 39062500);
  expect_answer(WIRE_SET_GAIN, 9, WIRE_ACCEPTED, 64);
  for (int i = 0; i < 5; i++) {
    convert(0x155555);
  }
  convert(2);
  convert(3);
  convert(4);
  expect_samples(1 + 5, 3);
  CHECK(device.dropped == 5);
  send_command(WIRE_SET_GAIN, 10, 64, 2);
  expect_answer(WIRE_SET_GAIN, 10, WIRE_ACCEPTED, 64);
  static const uint32_t OTHERS[] = {0, 1, 32, 63, 65, 127, 129, 65535};
  for (size_t i = 0; i < sizeof OTHERS / sizeof *OTHERS; i++) {
    send_command(WIRE_SET_GAIN, 11, OTHERS[i], 2);
    expect_answer(WIRE_SET_GAIN, 11, WIRE_OUT_OF_RANGE, 64);
  }
  expect_nothing();
}

static void rate_within_a_tenth_is_taken(void) {
  static const struct {
    uint32_t asked;
    uint32_t taken; /* 0: refused */
  } CASES[] = {{80000, 80000},   {79999, 80000},     {72728, 80000}, {72727, 0}, {88888, 80000},
               {88889, 0},       {10000, 10000},     {9091, 10000},  {9090, 0},  {11111, 10000},
               {11112, 0},       {0, 0},             {1, 0},         {45000, 0}, {100000000, 0},
               {4294967295u, 0}};
  for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
    start_settled();
    send_command(WIRE_SET_RATE, 1, CASES[i].asked, 4);
    if (CASES[i].taken == 10000) {
      wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
      CHECK(wiretap_u32(&tap, 13) == 10000);
    }
    expect_answer(WIRE_SET_RATE, 1, CASES[i].taken ? WIRE_ACCEPTED : WIRE_OUT_OF_RANGE,
                  CASES[i].taken ? CASES[i].taken : 80000);
    expect_nothing();
  }
}

static void nothing_is_changed_while_the_converter_is_lost(void) {
  start_settled();
  now_us += 4 * PERIOD_US + 1000;
  CHECK(device_tick(&device, now_us));
  send_command(WIRE_SET_GAIN, 1, 64, 2);
  expect_answer(WIRE_SET_GAIN, 1, WIRE_NOT_POSSIBLE_NOW, 128);
  send_command(WIRE_SET_RATE, 2, 10000, 4);
  expect_answer(WIRE_SET_RATE, 2, WIRE_NOT_POSSIBLE_NOW, 80000);
  send_command(WIRE_SET_RATE, 3, 80000, 4);
  expect_answer(WIRE_SET_RATE, 3, WIRE_ACCEPTED, 80000);
  send_command(WIRE_PING, 4, 7, 4);
  expect_answer(WIRE_PING, 4, WIRE_ACCEPTED, 7);
}

static void wrong_commands_are_answered_so(void) {
  start();
  send((const uint8_t[]){0x80}, 1);
  expect_answer(0x80, 0, WIRE_UNKNOWN_COMMAND, 0);
  send((const uint8_t[]){0x87, 5}, 2);
  expect_answer(0x87, 5, WIRE_UNKNOWN_COMMAND, 0);
  send((const uint8_t[]){0xff, 6, 1, 2, 3}, 5);
  expect_answer(0xff, 6, WIRE_UNKNOWN_COMMAND, 0);
  static const uint8_t RIGHT[] = {2, 2, 2, 6, 4, 6};
  for (uint8_t type = WIRE_ASK_HELLO; type <= WIRE_PING; type++) {
    for (uint8_t n = 1; n <= 12; n++) {
      uint8_t plain[12] = {type, n > 1 ? 33 : 0};
      if (n != RIGHT[type - WIRE_ASK_HELLO]) {
        send(plain, n);
        expect_answer(type, n > 1 ? 33 : 0, WIRE_MALFORMED, 0);
      }
    }
  }
  expect_nothing();
}

static void damaged_commands_and_echoes_are_not_answered(void) {
  start();
  for (int type = 1; type < 0x80; type++) {
    send((const uint8_t[]){(uint8_t)type, 1, 2, 3}, 4);
  }
  struct inbox_frame good = frame_of((const uint8_t[]){WIRE_PING, 42, 1, 2, 3, 4}, 6);
  for (int bit = 0; bit < 8 * good.length; bit++) {
    struct inbox_frame bad = good;
    bad.bytes[bit / 8] ^= (uint8_t)(1 << bit % 8);
    if (bad.bytes[bit / 8] != 0) {
      device_received(&device, &bad, now_us);
    }
  }
  for (uint8_t length = 1; length < good.length; length++) {
    struct inbox_frame cut = good;
    cut.length = length;
    device_received(&device, &cut, now_us);
  }
  expect_nothing();
  device_received(&device, &good, now_us);
  expect_answer(WIRE_PING, 42, WIRE_ACCEPTED, 0x04030201);
}

static void clock_and_sequence_wrap_inside_a_batch(void) {
  start_settled();
  device.sequence = 0xFFFFFFFFu;
  now_us = 4294960000u - PERIOD_US;
  device.next_status_us = now_us + 500000;
  device.overdue_us = now_us + PERIOD_US;
  convert(1);
  convert(2);
  convert(3);
  expect_samples(0xFFFFFFFFu, 3);
  CHECK(wiretap_u32(&tap, 5) == 4294960000u && wiretap_u32(&tap, 9) == 2 * PERIOD_US);
  CHECK(device.sequence == 2);
  int statuses = 0;
  for (int i = 0; i < 160; i++) {
    convert((uint32_t)i);
    while (wiretap_next(&tap, &device.outbox)) {
      statuses += tap.plain[0] == WIRE_STATUS;
    }
  }
  CHECK(statuses == 2);
  now_us += 4 * PERIOD_US;
  CHECK(device_tick(&device, now_us));
}

static void hours_of_silence_stay_lost(void) {
  start_settled();
  for (int i = 0; i < 3 * 36000; i++) {
    now_us += 100000;
    device_tick(&device, now_us);
    while (wiretap_next(&tap, &device.outbox)) {
    }
    CHECK(device.lost);
  }
}

/* A line that carries bytes_per_sample bytes a sample; the samples that came whole. */
static uint32_t samples_through(uint32_t bytes_per_sample, uint32_t samples) {
  static uint8_t wire[1 << 20];
  struct outbox line = {.head = 0};
  uint32_t sent = 0, came = 0, next = 0;
  start_settled();
  for (uint32_t i = 0; i < samples; i++) {
    convert(i);
    for (uint32_t k = 0; k < bytes_per_sample && outbox_take(&device.outbox, &wire[sent]); k++) {
      sent++;
    }
  }
  while (outbox_take(&device.outbox, &wire[sent])) {
    sent++;
  }
  CHECK(sent > 0 && wire[sent - 1] == 0);
  for (uint32_t at = 0; at < sent;) {
    do {
      line.bytes[line.head++] = wire[at];
    } while (wire[at++] != 0);
    if (wiretap_next(&tap, &line) && tap.plain[0] == WIRE_SAMPLES) {
      CHECK(wiretap_u32(&tap, 1) >= next);
      next = wiretap_u32(&tap, 1) + tap.plain[13];
      came += tap.plain[13];
    }
  }
  return came;
}

static void slow_line_drops_whole_batches_and_counts_them(void) {
  CHECK(samples_through(20, 3000) == 3000);
  CHECK(device.dropped == 0);
  uint32_t came = samples_through(5, 3000);
  CHECK(came > 1200 && came < 2400);
  CHECK(device.dropped == 3000 - came - device.batch.n);
  came = samples_through(0, 3000);
  CHECK(came > 0 && came < 30);
  CHECK(device.dropped == 3000 - came - device.batch.n);
}

static void counters_stay_at_their_highest(void) {
  start_settled();
  device.dropped = device.overrange = 0xFFFFFFFEu;
  for (int i = 0; i < 5; i++) {
    convert(0x7FFFFF);
    device_missed(&device);
  }
  CHECK(device.dropped == 0xFFFFFFFFu && device.overrange == 0xFFFFFFFFu);
}

static void faster_converters_fill_larger_batches(void) {
  CHECK(batch_size_at(10000) == 1);
  CHECK(batch_size_at(39999) == 1);
  CHECK(batch_size_at(40000) == 2);
  CHECK(batch_size_at(80000) == 3);
  CHECK(batch_size_at(100000000) == BATCH_MOST);
  clear(&FAST_MODEL);
  device_start(&device, WIRE_RESET_POWER_ON, 1, now_us);
  while (wiretap_next(&tap, &device.outbox)) {
  }
  CHECK(batch_size_at(320000) == 9);
  CHECK(batch_size_at(1000000) == 26);
  for (uint32_t i = 0; i < 4 + 9; i++) {
    device_converted(&device, i, now_us += 3125);
  }
  expect_samples(0, 9);
}

static void start_sixteen_bits(void) {
  clear(&SIXTEEN_BITS);
  device_start(&device, WIRE_RESET_POWER_ON, 0, now_us);
}

static void a_fast_converter_may_be_held_up_for_50_ms(void) {
  start_sixteen_bits();
  device_converted(&device, 1, now_us);
  CHECK(!device_tick(&device, now_us + 49999));
  CHECK(device_tick(&device, now_us + 50000));
}

static void rails_are_those_of_the_codes_bits(void) {
  start_sixteen_bits();
  const uint32_t CODES[] = {0x7FFF, 0xFF8000, 0x7FFFFF, 0x800000, 0x7FFE, 0xFF8001};
  for (int i = 0; i < 6; i++) {
    device_converted(&device, CODES[i], now_us += 1000);
  }
  CHECK(device.overrange == 2);
}

static void range_beyond_32_bits_is_said_to_be_unknown(void) {
  start_sixteen_bits();
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  CHECK(wiretap_u32(&tap, 17) == 1666666666u);
  const uint16_t ONE = 1;
  struct converter_model model = SIXTEEN_BITS;
  model.gains = &ONE;
  clear(&model);
  device_start(&device, WIRE_RESET_POWER_ON, 0, now_us);
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  CHECK(wiretap_u32(&tap, 17) == 0);
}

void device_tests(void) {
  static void (*const TESTS[])(void) = {
      start_says_hello_then_status,
      batches_of_three_follow_without_hole,
      status_comes_every_second,
      rails_are_counted_and_passed_on,
      same_code_64_times_is_stuck_and_still_sent,
      rail_64_times_is_not_stuck,
      silence_is_lost_and_found_with_a_hole,
      stop_sends_the_batch_begun_and_start_goes_on,
      change_of_gain_drops_until_settled,
      rate_within_a_tenth_is_taken,
      nothing_is_changed_while_the_converter_is_lost,
      wrong_commands_are_answered_so,
      damaged_commands_and_echoes_are_not_answered,
      clock_and_sequence_wrap_inside_a_batch,
      hours_of_silence_stay_lost,
      slow_line_drops_whole_batches_and_counts_them,
      counters_stay_at_their_highest,
      faster_converters_fill_larger_batches,
      a_fast_converter_may_be_held_up_for_50_ms,
      rails_are_those_of_the_codes_bits,
      range_beyond_32_bits_is_said_to_be_unknown,
  };
  RUN_ALL(TESTS);
}
