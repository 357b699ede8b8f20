#include "batch.h"

#include "wire.h"

uint8_t batch_size_at(uint32_t rate_mhz) {
  uint32_t samples = 1 + rate_mhz * WIRE_LONGEST_BATCH_MS / UINT32_C(1000000);
  return samples < BATCH_MOST ? (uint8_t)samples : BATCH_MOST;
}

void batch_add(struct batch *batch, uint32_t sequence, uint32_t code, uint32_t ready_us) {
  if (batch->n == 0) {
    batch->sequence = sequence;
    batch->first_us = ready_us;
  }
  batch->last_us = ready_us;
  uint8_t *at = batch->codes + WIRE_COUNT_BYTES * batch->n++;
  at[0] = (uint8_t)code;
  at[1] = (uint8_t)(code >> 8);
  at[2] = (uint8_t)(code >> 16);
}

bool batch_send(struct batch *batch, struct message *message, struct outbox *outbox) {
  if (batch->n == 0) {
    return true;
  }
  message_begin(message, WIRE_SAMPLES);
  message_u32(message, batch->sequence);
  message_u32(message, batch->first_us);
  message_u32(message, batch->last_us - batch->first_us);
  message_u8(message, batch->n);
  message_bytes(message, batch->codes, (uint8_t)(WIRE_COUNT_BYTES * batch->n));
  batch->n = 0;
  return message_send(message, outbox);
}
