/* The device id: 64 bits drawn at the first start and kept in EEPROM. */
#ifndef IDENTITY_H
#define IDENTITY_H

#include <stdint.h>

#define IDENTITY_BYTES 8

/* Reads the id, low byte first. Draws it first if there is none: half a second, clock running. */
void identity_read(uint8_t id[IDENTITY_BYTES]);

#endif
