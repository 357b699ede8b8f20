/*
 * The two-wire 24-bit bridge converter on the board's pins: data on PB0, clock on PB1, rate on PB2.
 * What it does on power-up, on a change of gain or rate, and when its clock stays high follows the
 * usual converter of this kind.
 */
#ifndef BRIDGE_H
#define BRIDGE_H

#include <simavr/sim_avr.h>
#include <stdbool.h>
#include <stdint.h>

#include "script.h"

/* A code while it settles: so far from any other that one passed on would be noticed. */
#define BRIDGE_UNSETTLED 0x155555

struct bridge {
  avr_t *avr;
  avr_irq_t *data;
  struct script *script;
  void (*accident)(const struct step *step); /* told of steps that are not the converter's */
  uint64_t rose_at;                          /* cycle at which the clock last went high */
  uint32_t code;
  int pulses;  /* since the last conversion */
  int gain;    /* in force */
  int settling;
  bool fast;
  bool clock_high;
  int floating_periods;
  int shorted_periods;
  long conversions;
};

/* Wires the converter to the board. */
void bridge_connect(struct bridge *bridge, avr_t *avr, struct script *script,
                    void (*accident)(const struct step *step));

/* Power comes on. Also after a reset of the processor, which forgets all timers. */
void bridge_power_up(struct bridge *bridge);

/* The processor was reset and the converter was not. */
void bridge_go_on(struct bridge *bridge);

#endif
