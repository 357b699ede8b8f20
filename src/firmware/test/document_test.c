/* The examples of firmware-protocol.md, sent and read byte for byte. */
#include "bench.h"

static const char *document;

/* Whether the document has these bytes as the wire line of an example. */
static void expect_in_document(const uint8_t *wire, uint16_t n) {
  char line[1024] = "wire:";
  for (uint16_t i = 0; i < n; i++) {
    snprintf(line + 5 + 3 * i, 4, " %02x", wire[i]);
  }
  strcat(line, "\n");
  if (!strstr(document, line)) {
    fprintf(stderr, "not an example of the document: %s", line);
    exit(1);
  }
}

static void document_has_what_was_sent(void) {
  expect_in_document(tap.wire, tap.wire_bytes);
}

static void document_shows_hello(void) {
  clear(&MODEL);
  device_start(&device, WIRE_RESET_POWER_ON, 1, now_us);
  wiretap_expect(&tap, &device.outbox, WIRE_HELLO);
  document_has_what_was_sent();
}

static void converted_at(uint32_t code, uint32_t ready_us) {
  device_converted(&device, code & 0xFFFFFF, ready_us);
}

static void document_shows_samples(void) {
  start_settled();
  converted_at(84213, 1012500);
  send_command(WIRE_STOP, 0, 0, 0);
  wiretap_expect(&tap, &device.outbox, WIRE_SAMPLES);
  document_has_what_was_sent();

  start_settled();
  device.sequence = 7200;
  converted_at(0x7FFFFF, 91012500);
  converted_at((uint32_t)-1, 91025000);
  converted_at(0x800000, 91012500 + 25003);
  wiretap_expect(&tap, &device.outbox, WIRE_SAMPLES);
  document_has_what_was_sent();

  start_settled();
  device.sequence = 4294967295u;
  converted_at(0, 4294960000u);
  converted_at(1, 4294960000u + 12500u);
  send_command(WIRE_STOP, 0, 0, 0);
  wiretap_expect(&tap, &device.outbox, WIRE_SAMPLES);
  document_has_what_was_sent();
}

static void document_shows_status(void) {
  start_settled();
  device.reset_cause = WIRE_RESET_WATCHDOG;
  device.next_status_us = 500000;
  device.lost = true;
  device.overdue_us = 600000;
  device_tick(&device, 500000);
  wiretap_expect(&tap, &device.outbox, WIRE_STATUS);
  document_has_what_was_sent();
}

static void document_shows_answers(void) {
  start();
  now_us = 93000512;
  send_command(WIRE_PING, 42, 3735928559u, 4);
  wiretap_expect(&tap, &device.outbox, WIRE_ANSWER);
  document_has_what_was_sent();
  now_us = 93100040;
  send_command(WIRE_SET_RATE, 8, 320000, 4);
  wiretap_expect(&tap, &device.outbox, WIRE_ANSWER);
  document_has_what_was_sent();
}

/* The value after a name in an example, as it stands there. */
static unsigned long field(const char *example, const char *name) {
  const char *at = strstr(example, name);
  return at ? strtoul(at + strlen(name), NULL, 10) : 0;
}

/* Every command of the document is read as what the document says it is. */
static void document_commands_are_read(void) {
  static const char *const NAMES[] = {"ask hello", "start", "stop", "set rate", "set gain", "ping"};
  static const char *const VALUES[] = {"\n\n", "\n\n", "\n\n", "milli_hertz: ", "gain: ", "token: "};
  int read = 0;
  for (int i = 0; i < 6; i++) {
    char head[64];
    snprintf(head, sizeof head, "message: %s\n", NAMES[i]);
    for (const char *at = document; (at = strstr(at, head)) != NULL; at++) {
      struct inbox inbox = {.head = 0};
      const char *wire = strstr(at, "wire:") + 5;
      for (char *end; *wire != '\n'; wire = end) {
        inbox_byte(&inbox, (uint8_t)strtoul(wire, &end, 16), 9);
      }
      struct command command;
      CHECK(inbox_oldest(&inbox) && command_read(inbox_oldest(&inbox), &command));
      CHECK(command.result == WIRE_ACCEPTED && command.type == WIRE_ASK_HELLO + i);
      CHECK(command.tag == field(at, "tag: ") && command.at_us == 9);
      CHECK(i < 3 || command.value == field(at, VALUES[i]));
      read++;
    }
  }
  CHECK(read >= 6);
}

void document_tests(const char *text) {
  document = text;
  static void (*const TESTS[])(void) = {
      document_shows_hello,
      document_shows_samples,
      document_shows_status,
      document_shows_answers,
      document_commands_are_read,
  };
  RUN_ALL(TESTS);
}
