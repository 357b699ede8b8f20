#include "outbox.h"

uint8_t outbox_room(const struct outbox *outbox) {
  return (uint8_t)(outbox->tail - outbox->head - 1);
}

bool outbox_is_empty(const struct outbox *outbox) { return outbox->head == outbox->tail; }

bool outbox_delimiter(struct outbox *outbox) {
  if (outbox_room(outbox) < 1) {
    return false;
  }
  uint8_t at = outbox->head;
  outbox->bytes[at] = 0;
  outbox->head = (uint8_t)(at + 1);
  return true;
}

bool outbox_frame(struct outbox *outbox, const uint8_t *plain, uint8_t n) {
  if (outbox_room(outbox) < n + 2) {
    return false;
  }
  uint8_t code_at = outbox->head;
  uint8_t at = (uint8_t)(code_at + 1);
  uint8_t code = 1;
  for (uint8_t i = 0; i < n; i++) {
    if (plain[i]) {
      outbox->bytes[at++] = plain[i];
      code++;
    } else {
      outbox->bytes[code_at] = code;
      code_at = at++;
      code = 1;
    }
  }
  outbox->bytes[code_at] = code;
  outbox->bytes[at++] = 0;
  outbox->head = at;
  return true;
}

bool outbox_take(struct outbox *outbox, uint8_t *byte) {
  uint8_t at = outbox->tail;
  if (outbox_is_empty(outbox)) {
    return false;
  }
  *byte = outbox->bytes[at];
  outbox->tail = (uint8_t)(at + 1);
  return true;
}
