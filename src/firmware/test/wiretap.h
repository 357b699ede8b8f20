/* The host's end of the line in tests: takes frames off an outbox and looks into them. */
#ifndef WIRETAP_H
#define WIRETAP_H

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "crc16.h"
#include "outbox.h"
#include "wire.h"

#define CHECK(condition)                                                        \
  do {                                                                          \
    if (!(condition)) {                                                         \
      fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, #condition);    \
      exit(1);                                                                  \
    }                                                                           \
  } while (0)

struct wiretap {
  uint8_t wire[256]; /* the last frame as it was sent, delimiter included */
  uint16_t wire_bytes;
  uint8_t plain[256]; /* type and body */
  uint16_t plain_bytes;
};

/* Next frame; false if the outbox holds no more. Every frame must be whole and good. */
static inline bool wiretap_next(struct wiretap *tap, struct outbox *outbox) {
  uint8_t byte;
  do {
    if (!outbox_take(outbox, &byte)) {
      return false;
    }
  } while (byte == 0);
  tap->wire_bytes = 0;
  do {
    CHECK(tap->wire_bytes < 255);
    tap->wire[tap->wire_bytes++] = byte;
    CHECK(outbox_take(outbox, &byte));
  } while (byte != 0);
  uint16_t encoded = tap->wire_bytes;
  tap->wire[tap->wire_bytes++] = 0;
  tap->plain_bytes = 0;
  for (uint16_t at = 0; at < encoded;) {
    uint8_t code = tap->wire[at++];
    CHECK(at + code - 1 <= encoded);
    while (--code) {
      tap->plain[tap->plain_bytes++] = tap->wire[at++];
    }
    if (at < encoded) {
      tap->plain[tap->plain_bytes++] = 0;
    }
  }
  CHECK(tap->plain_bytes >= 3);
  tap->plain_bytes = (uint16_t)(tap->plain_bytes - 2);
  uint16_t crc = (uint16_t)(tap->plain[tap->plain_bytes] | tap->plain[tap->plain_bytes + 1] << 8);
  CHECK(crc == crc16_of(tap->plain, (uint8_t)tap->plain_bytes));
  return true;
}

static inline uint32_t wiretap_u32(const struct wiretap *tap, int at) {
  const uint8_t *p = tap->plain + at;
  return (uint32_t)p[0] | (uint32_t)p[1] << 8 | (uint32_t)p[2] << 16 | (uint32_t)p[3] << 24;
}

static inline uint16_t wiretap_u16(const struct wiretap *tap, int at) {
  return (uint16_t)(tap->plain[at] | tap->plain[at + 1] << 8);
}

/* Next frame, which must be there and of this type. */
static inline void wiretap_expect(struct wiretap *tap, struct outbox *outbox, uint8_t type) {
  CHECK(wiretap_next(tap, outbox));
  CHECK(tap->plain[0] == type);
}

/* What a host sends: a frame with its CRC, encoded, without delimiters; its length. */
static inline uint8_t wiretap_encode(const uint8_t *plain, uint8_t n, uint8_t *encoded) {
  struct outbox way = {.head = 0};
  uint8_t with_crc[256];
  memcpy(with_crc, plain, n);
  uint16_t crc = crc16_of(plain, n);
  with_crc[n] = (uint8_t)crc;
  with_crc[n + 1] = (uint8_t)(crc >> 8);
  CHECK(outbox_frame(&way, with_crc, (uint8_t)(n + 2)));
  uint8_t length = 0;
  for (uint8_t byte; outbox_take(&way, &byte) && byte != 0;) {
    encoded[length++] = byte;
  }
  return length;
}

#endif
