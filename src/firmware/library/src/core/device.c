#include "device.h"

#include <string.h>

#include "wire.h"

#define CODE_MASK UINT32_C(0xFFFFFF)

static bool is_past(uint32_t moment_us, uint32_t now_us) {
  return (int32_t)(now_us - moment_us) >= 0;
}

static void count_up(uint32_t *counter, uint32_t by) {
  *counter = *counter > UINT32_MAX - by ? UINT32_MAX : *counter + by;
}

uint32_t device_rate_mhz(const struct device *device) {
  return device->model->rates_mhz[device->rate];
}

uint16_t device_gain(const struct device *device) { return device->model->gains[device->gain]; }

static uint32_t periods_us(const struct device *device, uint8_t periods) {
  return periods * (UINT32_C(1000000000) / device_rate_mhz(device));
}

/* A fast converter is not lost because the main loop was held up for a few of its periods. */
static uint32_t patience_us(const struct device *device) {
  uint32_t patience = periods_us(device, WIRE_LOST_AFTER_PERIODS);
  return patience > WIRE_LOST_AFTER_AT_LEAST_US ? patience : WIRE_LOST_AFTER_AT_LEAST_US;
}

/* Microvolts over the gain, in nanovolts without 64-bit arithmetic; 0 if beyond 32 bits. */
static uint32_t range_nv(const struct device *device) {
  uint16_t gain = device_gain(device);
  uint32_t whole = device->model->range_at_gain_1_uv / gain;
  uint32_t rest = device->model->range_at_gain_1_uv % gain;
  return whole >= UINT32_MAX / 1000 ? 0 : whole * 1000 + rest * 1000 / gain;
}

static void send_hello(struct device *device) {
  struct message *message = &device->message;
  uint8_t length = (uint8_t)strlen(device->firmware);
  message_begin(message, WIRE_HELLO);
  message_u8(message, WIRE_VERSION);
  message_bytes(message, device->id, 8);
  message_u8(message, device->model->bits);
  message_u16(message, device_gain(device));
  message_u32(message, device_rate_mhz(device));
  message_u32(message, range_nv(device));
  message_u8(message, length);
  message_bytes(message, (const uint8_t *)device->firmware, length);
  message_send(message, &device->outbox);
}

static uint8_t state_of(const struct device *device) {
  if (!device->streaming) {
    return WIRE_IDLE;
  }
  if (device->lost) {
    return WIRE_CONVERTER_LOST;
  }
  return device->repeats >= WIRE_STUCK_AFTER ? WIRE_CONVERTER_STUCK : WIRE_STREAMING;
}

static void send_status(struct device *device, uint32_t now_us) {
  struct message *message = &device->message;
  message_begin(message, WIRE_STATUS);
  message_u32(message, now_us);
  message_u16(message, WIRE_TEMPERATURE_NOT_MEASURED);
  message_u16(message, WIRE_SUPPLY_NOT_MEASURED);
  message_u32(message, device->dropped);
  message_u32(message, device->overrange);
  message_u8(message, device->reset_cause);
  message_u8(message, state_of(device));
  message_send(message, &device->outbox);
}

static void send_batch(struct device *device) {
  uint8_t n = device->batch.n;
  if (!batch_send(&device->batch, &device->message, &device->outbox)) {
    count_up(&device->dropped, n);
  }
}

/* The converter starts to settle and has that long, and four periods more, to show itself. */
static void settle(struct device *device, uint8_t conversions, uint32_t now_us) {
  device->settling = conversions;
  device->repeats = 0;
  device->overdue_us = now_us + periods_us(device, conversions) + patience_us(device);
}

/* After power-up the gain is the first; the conversion whose reading chooses another is one more. */
static uint8_t settling_after_power_up(const struct device *device) {
  uint8_t lag = device->gain != 0 ? device->model->gain_lag : 0;
  return (uint8_t)(device->model->settling_conversions + lag);
}

void device_start(struct device *device, uint8_t reset_cause, uint8_t rate, uint32_t now_us) {
  device->reset_cause = reset_cause;
  device->rate = rate;
  device->streaming = true;
  device->next_status_us = now_us + WIRE_STATUS_PERIOD_US;
  settle(device, settling_after_power_up(device), now_us);
  outbox_delimiter(&device->outbox);
  send_hello(device);
  send_status(device, now_us);
}

static void observe(struct device *device, uint32_t code) {
  uint32_t highest = (UINT32_C(1) << (device->model->bits - 1)) - 1;
  bool rail = code == highest || code == (CODE_MASK ^ highest);
  if (rail) {
    count_up(&device->overrange, 1);
  }
  if (rail || code != device->last_code) {
    device->repeats = 1;
  } else if (device->repeats < WIRE_STUCK_AFTER) {
    device->repeats++;
  }
  device->last_code = code;
}

void device_missed(struct device *device) {
  if (device->streaming && device->began) {
    send_batch(device);
    device->sequence++;
    count_up(&device->dropped, 1);
  }
}

static bool settled(struct device *device) {
  if (device->settling > 0) {
    device->settling--;
    device_missed(device);
    return false;
  }
  device->lost = false;
  device->began = true;
  return true;
}

void device_converted(struct device *device, uint32_t code, uint32_t ready_us) {
  device->overdue_us = ready_us + patience_us(device);
  if (!settled(device) || !device->streaming) {
    return;
  }
  observe(device, code);
  batch_add(&device->batch, device->sequence++, code, ready_us);
  if (device->batch.n >= batch_size_at(device_rate_mhz(device))) {
    send_batch(device);
  }
}

static void answer(struct device *device, const struct command *command, uint8_t result,
                   uint32_t value) {
  struct message *message = &device->message;
  message_begin(message, WIRE_ANSWER);
  message_u8(message, command->type);
  message_u8(message, command->tag);
  message_u8(message, result);
  message_u32(message, value);
  message_u32(message, command->at_us);
  message_send(message, &device->outbox);
}

static uint32_t apart(uint32_t a, uint32_t b) { return a > b ? a - b : b - a; }

/* The index of the nearest rate, if within a tenth of the one asked; else the number of rates. */
static uint8_t rate_near(const struct converter_model *model, uint32_t asked_mhz) {
  uint8_t nearest = 0;
  for (uint8_t i = 1; i < model->rates; i++) {
    if (apart(model->rates_mhz[i], asked_mhz) < apart(model->rates_mhz[nearest], asked_mhz)) {
      nearest = i;
    }
  }
  return apart(model->rates_mhz[nearest], asked_mhz) <= asked_mhz / 10 ? nearest : model->rates;
}

static uint8_t gain_of(const struct converter_model *model, uint32_t asked) {
  uint8_t i = 0;
  while (i < model->gains_known && model->gains[i] != asked) {
    i++;
  }
  return i;
}

/* Takes a new rate or gain, unless it is in force or cannot be; the result to answer. */
static uint8_t choose(struct device *device, uint8_t *in_force, uint8_t wanted, uint8_t known,
                      uint8_t settling, uint32_t now_us) {
  if (wanted >= known) {
    return WIRE_OUT_OF_RANGE;
  }
  if (wanted == *in_force) {
    return WIRE_ACCEPTED;
  }
  if (device->lost) {
    return WIRE_NOT_POSSIBLE_NOW;
  }
  send_batch(device);
  *in_force = wanted;
  settle(device, settling, now_us);
  send_hello(device);
  return WIRE_ACCEPTED;
}

static void set_rate(struct device *device, const struct command *command, uint32_t now_us) {
  const struct converter_model *model = device->model;
  uint8_t result = choose(device, &device->rate, rate_near(model, command->value), model->rates,
                          settling_after_power_up(device), now_us);
  answer(device, command, result, device_rate_mhz(device));
}

/* Where a reading chooses the gain, the conversion under way is one to drop as well. */
static void set_gain(struct device *device, const struct command *command, uint32_t now_us) {
  const struct converter_model *model = device->model;
  uint8_t settling = (uint8_t)(model->settling_conversions + model->gain_lag);
  uint8_t result = choose(device, &device->gain, gain_of(model, command->value),
                          model->gains_known, settling, now_us);
  answer(device, command, result, device_gain(device));
}

static void obey(struct device *device, const struct command *command, uint32_t now_us) {
  switch (command->type) {
    case WIRE_ASK_HELLO:
      send_hello(device);
      answer(device, command, WIRE_ACCEPTED, WIRE_VERSION);
      break;
    case WIRE_START:
      device->streaming = true;
      answer(device, command, WIRE_ACCEPTED, device->sequence);
      break;
    case WIRE_STOP:
      send_batch(device);
      device->streaming = false;
      answer(device, command, WIRE_ACCEPTED, device->sequence);
      break;
    case WIRE_SET_RATE:
      set_rate(device, command, now_us);
      break;
    case WIRE_SET_GAIN:
      set_gain(device, command, now_us);
      break;
    default:
      answer(device, command, WIRE_ACCEPTED, command->value);
      break;
  }
}

void device_received(struct device *device, const struct inbox_frame *frame, uint32_t now_us) {
  struct command command;
  if (!command_read(frame, &command)) {
    return;
  }
  if (command.result == WIRE_ACCEPTED) {
    obey(device, &command, now_us);
  } else {
    answer(device, &command, command.result, 0);
  }
}

bool device_tick(struct device *device, uint32_t now_us) {
  if (is_past(device->next_status_us, now_us)) {
    device->next_status_us += WIRE_STATUS_PERIOD_US;
    send_status(device, now_us);
  }
  if (!is_past(device->overdue_us, now_us)) {
    return false;
  }
  send_batch(device);
  device->lost = true;
  settle(device, settling_after_power_up(device), now_us);
  return true;
}
