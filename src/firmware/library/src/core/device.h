/*
 * The device as the protocol sees it: who it is, what it streams, what it answers. Knows no pin
 * and no register; the board hands it conversions, commands and the time, sends what the outbox
 * holds, and looks at the rate and gain in force. All calls come from one thread of control.
 */
#ifndef DEVICE_H
#define DEVICE_H

#include <stdbool.h>
#include <stdint.h>

#include "batch.h"
#include "command.h"
#include "message.h"
#include "outbox.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What a converter can do. */
struct converter_model {
  const uint32_t *rates_mhz;
  const uint16_t *gains; /* the first is the one after power-up */
  uint8_t rates;
  uint8_t gains_known;
  uint8_t bits;
  uint8_t settling_conversions; /* not to be believed after power-up or a change */
  uint8_t gain_lag;             /* 1 if a reading chooses the gain of the next; 0 if at once */
  uint32_t range_at_gain_1_uv;  /* input voltage at the highest code; 0 if unknown */
};

struct device {
  const struct converter_model *model;
  const uint8_t *id;    /* 8 bytes, low byte first */
  const char *firmware; /* at most 32 bytes of ASCII */
  struct outbox outbox;
  struct message message;
  struct batch batch;
  uint32_t sequence; /* of the next sample */
  uint32_t dropped;
  uint32_t overrange;
  uint32_t next_status_us;
  uint32_t overdue_us; /* without a conversion until then, the converter is lost */
  uint32_t last_code;
  uint8_t rate; /* index into the model's rates */
  uint8_t gain; /* index into the model's gains */
  uint8_t settling;
  uint8_t repeats;
  uint8_t reset_cause;
  bool streaming;
  bool lost;
  bool began; /* the converter has settled once since reset */
};

/* Room that the longest reply to one command takes: a batch, hello and the answer. */
#define DEVICE_REPLY_BYTES (MESSAGE_SAMPLES_BYTES + MESSAGE_HELLO_BYTES + 14 + 3 * 2)

/*
 * Starts anew, streaming, and says hello. The converter was powered up just now. Fields model, id
 * and firmware are given; all others are zero.
 */
void device_start(struct device *device, uint8_t reset_cause, uint8_t rate, uint32_t now_us);

/* The converter gave a code, 24 bits two's complement, that was ready at ready_us. */
void device_converted(struct device *device, uint32_t code, uint32_t ready_us);

/* The converter gave a code whose time is not known, or one was overwritten: a sample is lost. */
void device_missed(struct device *device);

/* A frame came. Call only while the outbox has room for DEVICE_REPLY_BYTES. */
void device_received(struct device *device, const struct inbox_frame *frame, uint32_t now_us);

/*
 * Time passes; call at least every 100 ms. True: the converter gives nothing, power it off and on.
 */
bool device_tick(struct device *device, uint32_t now_us);

uint32_t device_rate_mhz(const struct device *device);
uint16_t device_gain(const struct device *device);

#ifdef __cplusplus
}
#endif

#endif
