/* The device clock: timer 1 at 2 MHz, its turns counted; microseconds since reset, 32 bits. */
#ifndef CLOCK_H
#define CLOCK_H

#include <stdint.h>

void clock_start(void);

/* The time now. */
uint32_t clock_now_us(void);

/* The time of a timer reading less than 16 ms old. Only with interrupts off. */
uint32_t clock_at_us(uint16_t timer_ticks);

#endif
