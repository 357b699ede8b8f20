/* Consecutive samples that wait to be sent in one frame. */
#ifndef BATCH_H
#define BATCH_H

#include <stdbool.h>
#include <stdint.h>

#include "message.h"
#include "outbox.h"

#ifdef __cplusplus
extern "C" {
#endif

struct batch {
  uint32_t sequence; /* of the first sample */
  uint32_t first_us;
  uint32_t last_us;
  uint8_t n;
  uint8_t codes[WIRE_COUNT_BYTES * BATCH_MOST];
};

/* Most samples in a batch at this rate, so that none waits longer than 25 ms. */
uint8_t batch_size_at(uint32_t rate_mhz);

/* Adds a sample, 24 bits two's complement; begins the batch if it is empty. */
void batch_add(struct batch *batch, uint32_t sequence, uint32_t code, uint32_t ready_us);

/* Sends the batch and empties it; false if it had to be dropped. An empty one is sent at once. */
bool batch_send(struct batch *batch, struct message *message, struct outbox *outbox);

#ifdef __cplusplus
}
#endif

#endif
