#include "command.h"

#include "crc16.h"
#include "wire.h"

#define TYPE_AND_TAG_BYTES 2

/* Decodes COBS; the number of plain bytes, 0 if a code points past the end or is 0. */
static uint8_t decode(const struct inbox_frame *frame, uint8_t *plain) {
  uint8_t in = 0, out = 0;
  while (in < frame->length) {
    uint8_t code = frame->bytes[in++];
    if (code == 0 || code - 1 > frame->length - in) {
      return 0;
    }
    while (--code) {
      plain[out++] = frame->bytes[in++];
    }
    if (in < frame->length) {
      plain[out++] = 0;
    }
  }
  return out;
}

static bool known(uint8_t type) { return type >= WIRE_ASK_HELLO && type <= WIRE_PING; }

static uint8_t value_bytes(uint8_t type) {
  switch (type) {
    case WIRE_SET_RATE:
    case WIRE_PING:
      return 4;
    case WIRE_SET_GAIN:
      return 2;
    default:
      return 0;
  }
}

static uint32_t little_endian(const uint8_t *bytes, uint8_t n) {
  uint32_t value = 0;
  while (n--) {
    value = value << 8 | bytes[n];
  }
  return value;
}

bool command_read(const struct inbox_frame *frame, struct command *command) {
  uint8_t plain[INBOX_FRAME_BYTES];
  uint8_t n = decode(frame, plain);
  if (n <= WIRE_CRC_BYTES) {
    return false;
  }
  n = (uint8_t)(n - WIRE_CRC_BYTES);
  if (crc16_of(plain, n) != little_endian(plain + n, WIRE_CRC_BYTES)
      || plain[0] < WIRE_FIRST_HOST_TYPE) {
    return false;
  }
  command->type = plain[0];
  command->tag = n > 1 ? plain[1] : 0;
  command->at_us = frame->at_us;
  command->value = 0;
  if (!known(command->type)) {
    command->result = WIRE_UNKNOWN_COMMAND;
  } else if (n != TYPE_AND_TAG_BYTES + value_bytes(command->type)) {
    command->result = WIRE_MALFORMED;
  } else {
    command->result = WIRE_ACCEPTED;
    command->value = little_endian(plain + TYPE_AND_TAG_BYTES, value_bytes(command->type));
  }
  return true;
}
