/*
 * What all two-wire 24-bit bridge converters have in common. The data line falls when a conversion
 * is ready; 24 clock pulses read it, one or three more choose the gain of the next. A clock line
 * that stays high for longer than 60 us powers the converter down.
 */
#ifndef TWO_WIRE_H
#define TWO_WIRE_H

#include <stdint.h>

#include "device.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TWO_WIRE_POWER_DOWN_US 80

/* 10 and 80 samples a second, chosen by a pin. Full scale is half of a 5 V supply over the gain. */
extern const struct converter_model two_wire_model;

/* The rate pin is tied on the module. */
extern const struct converter_model two_wire_at_10;
extern const struct converter_model two_wire_at_80;

/*
 * Reads a code, 24 bits, and chooses the gain, an index into the model's gains, for the next.
 * pulse gives one clock pulse and the bit, 0 or 1, that it brings out.
 */
uint32_t two_wire_read(uint8_t (*pulse)(const void *pins), const void *pins, uint8_t gain);

#ifdef __cplusplus
}
#endif

#endif
