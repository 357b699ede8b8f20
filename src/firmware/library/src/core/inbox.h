/*
 * Frames as they come from the line, each with the time of its delimiter. The receive interrupt
 * writes, the main loop reads; each moves only its own index. A frame longer than any command, one
 * with a damaged byte, and one for which no place is free are skipped to their delimiter.
 */
#ifndef INBOX_H
#define INBOX_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define INBOX_FRAME_BYTES 16
/* A power of two; one place is always the one being filled. */
#define INBOX_PLACES 8

struct inbox_frame {
  uint32_t at_us; /* device clock at the delimiter */
  uint8_t length;
  uint8_t bytes[INBOX_FRAME_BYTES]; /* encoded, without delimiter */
};

struct inbox {
  struct inbox_frame places[INBOX_PLACES];
  volatile uint8_t head; /* place being filled */
  volatile uint8_t tail; /* oldest frame not yet read, if not head */
  uint8_t length;        /* bytes of the frame being received */
  bool spoilt;           /* that frame is to be skipped */
};

/* A byte came. now_us matters only if it is the delimiter. */
void inbox_byte(struct inbox *inbox, uint8_t byte, uint32_t now_us);

/* The line damaged or lost a byte: skip the frame being received. */
void inbox_spoil(struct inbox *inbox);

/* Whether a frame that ends now would find no place. */
bool inbox_is_full(const struct inbox *inbox);

/* The oldest frame, or null if there is none. It stays until dropped. */
const struct inbox_frame *inbox_oldest(const struct inbox *inbox);

void inbox_drop_oldest(struct inbox *inbox);

#ifdef __cplusplus
}
#endif

#endif
