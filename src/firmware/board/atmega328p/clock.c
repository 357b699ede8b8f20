#include "clock.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#if F_CPU != 16000000UL
#error "the divider by 8 makes half microseconds at 16 MHz only"
#endif

/* One turn is 65536 half microseconds. 17 bits of it are enough, and 32 wrap with the clock. */
static volatile uint32_t turns;

void clock_start(void) {
  TCCR1A = 0;
  TCNT1 = 0;
  TIMSK1 |= _BV(TOIE1);
  TCCR1B |= _BV(CS11);
}

ISR(TIMER1_OVF_vect) { turns++; }

uint32_t clock_at_us(uint16_t timer_ticks) {
  uint32_t whole = turns;
  if ((TIFR1 & _BV(TOV1)) && timer_ticks < 0x8000u) {
    whole++;
  }
  return (whole << 15) + (timer_ticks >> 1);
}

uint32_t clock_now_us(void) {
  uint32_t now_us;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now_us = clock_at_us(TCNT1); }
  return now_us;
}
