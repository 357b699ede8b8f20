/* A message being written: type, body, CRC. */
#ifndef MESSAGE_H
#define MESSAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "outbox.h"
#include "wire.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Most samples in one batch: what 25 ms hold, up to this. Small processors keep it small; 26 are
 * 25 ms at 1000 samples a second, and leave the outbox room for the longest reply.
 */
#ifndef BATCH_MOST
#ifdef __AVR__
#define BATCH_MOST 8
#else
#define BATCH_MOST 26
#endif
#endif

#define MESSAGE_HELLO_BYTES (WIRE_HELLO_HEADER_BYTES + WIRE_MAX_FIRMWARE_BYTES + WIRE_CRC_BYTES)
#define MESSAGE_SAMPLES_BYTES \
  (WIRE_SAMPLES_HEADER_BYTES + WIRE_COUNT_BYTES * BATCH_MOST + WIRE_CRC_BYTES)
#define MESSAGE_BYTES \
  (MESSAGE_HELLO_BYTES > MESSAGE_SAMPLES_BYTES ? MESSAGE_HELLO_BYTES : MESSAGE_SAMPLES_BYTES)

struct message {
  uint8_t length;
  uint8_t plain[MESSAGE_BYTES];
};

void message_begin(struct message *message, uint8_t type);
void message_u8(struct message *message, uint8_t value);
void message_u16(struct message *message, uint16_t value);
void message_u32(struct message *message, uint32_t value);
void message_bytes(struct message *message, const uint8_t *bytes, uint8_t n);

/* Appends the CRC and sends; false, and nothing sent, if the outbox has no room. */
bool message_send(struct message *message, struct outbox *outbox);

#ifdef __cplusplus
}
#endif

#endif
