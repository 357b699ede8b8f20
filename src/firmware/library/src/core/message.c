#include "message.h"

#include "crc16.h"

void message_begin(struct message *message, uint8_t type) {
  message->length = 0;
  message_u8(message, type);
}

void message_u8(struct message *message, uint8_t value) {
  message->plain[message->length++] = value;
}

void message_u16(struct message *message, uint16_t value) {
  message_u8(message, (uint8_t)value);
  message_u8(message, (uint8_t)(value >> 8));
}

void message_u32(struct message *message, uint32_t value) {
  message_u16(message, (uint16_t)value);
  message_u16(message, (uint16_t)(value >> 16));
}

void message_bytes(struct message *message, const uint8_t *bytes, uint8_t n) {
  while (n--) {
    message_u8(message, *bytes++);
  }
}

bool message_send(struct message *message, struct outbox *outbox) {
  message_u16(message, crc16_of(message->plain, message->length));
  return outbox_frame(outbox, message->plain, message->length);
}
