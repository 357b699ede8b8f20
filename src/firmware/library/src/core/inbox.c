#include "inbox.h"

#include <stddef.h>

static uint8_t after(uint8_t place) { return (uint8_t)((place + 1) & (INBOX_PLACES - 1)); }

bool inbox_is_full(const struct inbox *inbox) { return after(inbox->head) == inbox->tail; }

static void finish(struct inbox *inbox, uint32_t now_us) {
  if (inbox->length > 0 && !inbox->spoilt && !inbox_is_full(inbox)) {
    struct inbox_frame *frame = &inbox->places[inbox->head];
    frame->length = inbox->length;
    frame->at_us = now_us;
    inbox->head = after(inbox->head);
  }
  inbox->length = 0;
  inbox->spoilt = false;
}

void inbox_byte(struct inbox *inbox, uint8_t byte, uint32_t now_us) {
  if (byte == 0) {
    finish(inbox, now_us);
  } else if (inbox->length < INBOX_FRAME_BYTES) {
    inbox->places[inbox->head].bytes[inbox->length++] = byte;
  } else {
    inbox->spoilt = true;
  }
}

void inbox_spoil(struct inbox *inbox) { inbox->spoilt = true; }

const struct inbox_frame *inbox_oldest(const struct inbox *inbox) {
  uint8_t tail = inbox->tail;
  return tail == inbox->head ? NULL : &inbox->places[tail];
}

void inbox_drop_oldest(struct inbox *inbox) { inbox->tail = after(inbox->tail); }
