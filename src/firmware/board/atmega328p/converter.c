#include "converter.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>
#include <util/delay.h>
#include <stddef.h>

#include "clock.h"
#include "two_wire.h"

/* The data line must stay on PB0: it is the capture pin. */
#define DATA PB0
#define CLOCK PB1
#define RATE PB2

static volatile bool fell;
static volatile bool fell_twice;
static volatile uint32_t fell_us;

ISR(TIMER1_CAPT_vect) {
  fell_us = clock_at_us(ICR1);
  fell_twice = fell;
  fell = true;
}

static void heed_falling_edge(void) {
  TIFR1 = _BV(ICF1);
  TIMSK1 |= _BV(ICIE1);
}

void converter_start(void) {
  PORTB |= _BV(DATA); /* pulled up, so that a missing converter reads as not ready */
  DDRB |= _BV(CLOCK) | _BV(RATE);
  TCCR1B |= _BV(ICNC1);
  converter_set_rate(CONVERTER_START_RATE);
  converter_restart();
  heed_falling_edge();
}

void converter_restart(void) {
  PORTB |= _BV(CLOCK);
  _delay_us(TWO_WIRE_POWER_DOWN_US);
  PORTB &= (uint8_t)~_BV(CLOCK);
}

void converter_set_rate(uint8_t rate) {
  if (rate) {
    PORTB |= _BV(RATE);
  } else {
    PORTB &= (uint8_t)~_BV(RATE);
  }
}

bool converter_has_news(void) { return fell; }

static bool data_is_high(void) { return PINB & _BV(DATA); }

/* One clock pulse, never stretched by an interrupt; the bit that it brings out. */
static uint8_t pulse(const void *pins) {
  (void)pins;
  bool bit = false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    PORTB |= _BV(CLOCK);
    _delay_us(1);
    bit = data_is_high();
    PORTB &= (uint8_t)~_BV(CLOCK);
  }
  _delay_us(0.5);
  return bit;
}

/* Reads a code; false if the line did not go back high, as every converter's does. */
static bool read(uint8_t gain, uint32_t *code) {
  *code = two_wire_read(pulse, NULL, gain);
  return data_is_high();
}

enum converter_news converter_look(uint8_t gain, uint32_t *code, uint32_t *ready_us) {
  bool timed = false;
  bool overwritten = false;
  bool ready = false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    bool low = !data_is_high();
    _delay_us(1); /* the capture lags behind the pin */
    if (!(TIFR1 & _BV(ICF1))) {
      ready = low;
      timed = fell;
      overwritten = fell_twice;
      *ready_us = fell_us;
      fell_twice = false;
      fell = fell && overwritten;
    }
  }
  if (overwritten) {
    return CONVERTER_MISSED;
  }
  if (!ready) {
    return CONVERTER_NOTHING;
  }
  TIMSK1 &= (uint8_t)~_BV(ICIE1);
  bool whole = read(gain, code);
  heed_falling_edge();
  if (!whole) {
    return CONVERTER_NOTHING;
  }
  return timed ? CONVERTER_CODE : CONVERTER_MISSED;
}
