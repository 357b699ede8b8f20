/* CRC, stuffing, and the two rings between interrupts and main loop. */
#include "bench.h"
#include "inbox.h"

/* CRC catalogue: CRC-16/IBM-3740 of "123456789" is 0x29B1. */
static void crc_has_its_check_value(void) {
  CHECK(crc16_of((const uint8_t *)"123456789", 9) == 0x29B1);
}

/* Vectors of the open project cobs-python, src/cobs/cobs/test.py. */
static void cobs_gives_known_vectors(void) {
  static const struct {
    const char *plain;
    uint8_t n;
    const char *wire;
  } VECTORS[] = {{"1", 1, "\x02" "1"},
                 {"12345", 5, "\x06" "12345"},
                 {"12345\0" "6789", 10, "\x06" "12345\x05" "6789"},
                 {"\0", 1, "\x01\x01"},
                 {"\0\0", 2, "\x01\x01\x01"}};
  for (size_t i = 0; i < sizeof VECTORS / sizeof *VECTORS; i++) {
    struct outbox box = {.head = (uint8_t)(250 + i), .tail = (uint8_t)(250 + i)};
    CHECK(outbox_frame(&box, (const uint8_t *)VECTORS[i].plain, VECTORS[i].n));
    uint8_t byte;
    for (const char *p = VECTORS[i].wire; *p; p++) {
      CHECK(outbox_take(&box, &byte) && byte == (uint8_t)*p);
    }
    CHECK(outbox_take(&box, &byte) && byte == 0);
    CHECK(!outbox_take(&box, &byte));
  }
}

static void outbox_takes_whole_frames_or_nothing(void) {
  uint8_t plain[60] = {0};
  for (int room = 0; room <= 255; room++) {
    struct outbox box = {.head = 7, .tail = (uint8_t)(7 + room + 1)};
    CHECK(outbox_room(&box) == room);
    bool fits = outbox_frame(&box, plain, sizeof plain);
    CHECK(fits == (room >= 62));
    CHECK(box.head == (uint8_t)(fits ? 7 + 62 : 7));
  }
}

static void inbox_skips_what_it_cannot_hold(void) {
  struct inbox inbox = {.head = 0};
  for (int length = 0; length < 300; length++) {
    for (int i = 0; i < length; i++) {
      inbox_byte(&inbox, (uint8_t)(1 + i % 255), 0);
    }
    inbox_byte(&inbox, 0, (uint32_t)length);
    const struct inbox_frame *frame = inbox_oldest(&inbox);
    CHECK((frame != NULL) == (length >= 1 && length <= INBOX_FRAME_BYTES));
    if (frame) {
      CHECK(frame->length == length && frame->at_us == (uint32_t)length);
      inbox_drop_oldest(&inbox);
    }
  }
}

static void inbox_skips_a_damaged_frame_only(void) {
  struct inbox inbox = {.head = 0};
  inbox_byte(&inbox, 5, 0);
  inbox_spoil(&inbox);
  inbox_byte(&inbox, 6, 0);
  inbox_byte(&inbox, 0, 1);
  CHECK(!inbox_oldest(&inbox));
  inbox_byte(&inbox, 7, 0);
  inbox_byte(&inbox, 0, 2);
  CHECK(inbox_oldest(&inbox)->bytes[0] == 7 && inbox_oldest(&inbox)->at_us == 2);
}

static void inbox_keeps_the_oldest_when_full(void) {
  struct inbox inbox = {.head = 0};
  for (uint8_t i = 1; i <= 20; i++) {
    inbox_byte(&inbox, i, 0);
    inbox_byte(&inbox, 0, i);
  }
  for (uint8_t i = 1; i < INBOX_PLACES; i++) {
    CHECK(inbox_oldest(&inbox)->bytes[0] == i && inbox_oldest(&inbox)->at_us == i);
    inbox_drop_oldest(&inbox);
  }
  CHECK(!inbox_oldest(&inbox));
}

void line_tests(void) {
  static void (*const TESTS[])(void) = {
      crc_has_its_check_value,
      cobs_gives_known_vectors,
      outbox_takes_whole_frames_or_nothing,
      inbox_skips_what_it_cannot_hold,
      inbox_skips_a_damaged_frame_only,
      inbox_keeps_the_oldest_when_full,
  };
  RUN_ALL(TESTS);
}
