/*
 * Bytes on their way to the line: a ring that takes whole frames or nothing. One writer (the main
 * loop) and one reader (the transmit interrupt) need no lock: each moves only its own index, and
 * an index is one byte.
 */
#ifndef OUTBOX_H
#define OUTBOX_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* As many as a one-byte index reaches, so that it wraps by itself. */
#define OUTBOX_BYTES 256

struct outbox {
  volatile uint8_t bytes[OUTBOX_BYTES];
  volatile uint8_t head; /* next byte to write */
  volatile uint8_t tail; /* next byte to send */
};

/* Bytes that can be written now, 0 to 255. */
uint8_t outbox_room(const struct outbox *outbox);

bool outbox_is_empty(const struct outbox *outbox);

/* A delimiter alone, as goes before the first frame; false if there is no room. */
bool outbox_delimiter(struct outbox *outbox);

/*
 * A frame: n plain bytes, 1 to 254, encoded by consistent overhead byte stuffing (COBS), and the
 * delimiter. False, and nothing written, if n + 2 bytes have no room.
 */
bool outbox_frame(struct outbox *outbox, const uint8_t *plain, uint8_t n);

/* The next byte to send; false if there is none. */
bool outbox_take(struct outbox *outbox, uint8_t *byte);

#ifdef __cplusplus
}
#endif

#endif
