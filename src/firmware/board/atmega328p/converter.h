/*
 * A two-wire 24-bit bridge converter. Its data line is on the input capture pin of timer 1, so the
 * time of data-ready is taken by hardware.
 */
#ifndef CONVERTER_H
#define CONVERTER_H

#include <stdbool.h>
#include <stdint.h>

#include "news.h"

/* Index into the model's rates of the rate to start with: 0 for 10, 1 for 80 samples a second. */
#ifndef CONVERTER_START_RATE
#define CONVERTER_START_RATE 1
#endif

/* Sets up the pins and powers the converter off and on, so that its gain is known. */
void converter_start(void);

/* Powers the converter off and on. */
void converter_restart(void);

/* Chooses the output rate, an index into the model's rates. */
void converter_set_rate(uint8_t rate);

/* Whether the data line fell since the last look. */
bool converter_has_news(void);

/* Reads what is ready and chooses the gain, an index into the model's gains, for what follows. */
enum converter_news converter_look(uint8_t gain, uint32_t *code, uint32_t *ready_us);

#endif
