#include "bridge.h"

#include <simavr/avr_ioport.h>
#include <simavr/sim_cycle_timers.h>

#define SETTLING_CONVERSIONS 4
#define POWER_DOWN_CYCLES (60 * 16)
#define CYCLES_PER_SECOND 16000000
#define CODE_BITS 24

static avr_cycle_count_t period_cycles(const struct bridge *bridge) {
  return CYCLES_PER_SECOND / (bridge->fast ? 80 : 10);
}

/* The level is made known as external too, or each write to the port would pull the pin up. */
static void set_data(struct bridge *bridge, bool wanted) {
  bool high = wanted && bridge->shorted_periods == 0;
  avr_ioport_external_t level = {.name = 'B', .mask = 1, .value = high};
  avr_ioctl(bridge->avr, AVR_IOCTL_IOPORT_SET_EXTERNAL('B'), &level);
  avr_raise_irq(bridge->data, high);
}

static int32_t at_gain(int32_t code_at_128, int gain) {
  int64_t code = ((int64_t)code_at_128 * gain + (code_at_128 < 0 ? -64 : 64)) / 128;
  return code < -8388608 ? -8388608 : code > 8388607 ? 8388607 : (int32_t)code;
}

/* One more pulse than the code has bits chooses 128, three more choose 64. */
static void heed_gain(struct bridge *bridge) {
  int chosen = bridge->pulses == CODE_BITS + 3   ? 64
               : bridge->pulses == CODE_BITS + 2 ? 32
               : bridge->pulses == CODE_BITS + 1 ? 128
                                                 : bridge->gain;
  if (chosen != bridge->gain) {
    bridge->gain = chosen;
    bridge->settling = SETTLING_CONVERSIONS;
  }
  bridge->pulses = 0;
}

/* Reads the script up to the next code; false if the converter is cut off instead. */
static bool next_code(struct bridge *bridge, int32_t *code) {
  for (;;) {
    struct step step = script_next(bridge->script);
    switch (step.kind) {
      case STEP_CODE:
        *code = step.value;
        return true;
      case STEP_UNPLUG:
        bridge->floating_periods = step.value;
        return false;
      case STEP_SHORT:
        bridge->shorted_periods = step.value;
        set_data(bridge, false);
        return false;
      default:
        bridge->accident(&step);
        break;
    }
  }
}

static void power_up(struct bridge *bridge) {
  bridge->gain = 128;
  bridge->pulses = 0;
  bridge->settling = SETTLING_CONVERSIONS;
}

/* Counts down an outage; true while it lasts. Back again, the converter starts from power-up. */
static bool cut_off(struct bridge *bridge) {
  if (bridge->floating_periods == 0 && bridge->shorted_periods == 0) {
    return false;
  }
  bridge->floating_periods -= bridge->floating_periods > 0;
  bridge->shorted_periods -= bridge->shorted_periods > 0;
  if (bridge->floating_periods == 0 && bridge->shorted_periods == 0) {
    power_up(bridge);
    set_data(bridge, true);
    return false;
  }
  return true;
}

static avr_cycle_count_t convert(avr_t *avr, avr_cycle_count_t when, void *param) {
  struct bridge *bridge = param;
  (void)avr;
  if (!cut_off(bridge)) {
    int32_t code = BRIDGE_UNSETTLED;
    heed_gain(bridge);
    set_data(bridge, true);
    if (bridge->settling > 0) {
      bridge->settling--;
    } else if (!next_code(bridge, &code)) {
      return when + period_cycles(bridge);
    } else {
      code = at_gain(code, bridge->gain);
      bridge->conversions++;
    }
    bridge->code = (uint32_t)code & 0xFFFFFF;
    set_data(bridge, false);
  }
  return when + period_cycles(bridge);
}

static void begin(struct bridge *bridge) {
  avr_cycle_timer_cancel(bridge->avr, convert, bridge);
  avr_cycle_timer_register(bridge->avr, period_cycles(bridge), convert, bridge);
}

void bridge_go_on(struct bridge *bridge) { begin(bridge); }

void bridge_power_up(struct bridge *bridge) {
  power_up(bridge);
  set_data(bridge, true);
  begin(bridge);
}

static bool answers(const struct bridge *bridge) {
  return bridge->floating_periods == 0 && bridge->shorted_periods == 0;
}

static void clock_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
  struct bridge *bridge = param;
  (void)irq;
  bool high = value & 1;
  if (high == bridge->clock_high) {
    return;
  }
  bridge->clock_high = high;
  if (!answers(bridge)) {
    return;
  }
  if (high) {
    bridge->rose_at = bridge->avr->cycle;
    bool bit = bridge->pulses >= CODE_BITS || (bridge->code >> (CODE_BITS - 1 - bridge->pulses) & 1);
    bridge->pulses++;
    set_data(bridge, bit);
  } else if (bridge->avr->cycle - bridge->rose_at > POWER_DOWN_CYCLES) {
    bridge_power_up(bridge);
  }
}

static void rate_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
  struct bridge *bridge = param;
  (void)irq;
  bool fast = value & 1;
  if (fast != bridge->fast) {
    bridge->fast = fast;
    bridge->settling = SETTLING_CONVERSIONS;
    begin(bridge);
  }
}

void bridge_connect(struct bridge *bridge, avr_t *avr, struct script *script,
                    void (*accident)(const struct step *step)) {
  bridge->avr = avr;
  bridge->script = script;
  bridge->accident = accident;
  bridge->data = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 0);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 1), clock_changed,
                          bridge);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 2), rate_changed,
                          bridge);
  bridge_power_up(bridge);
}
