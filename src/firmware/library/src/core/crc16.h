/* CRC-16/IBM-3740: polynomial 0x1021, start 0xFFFF, not reflected, no final XOR; check 0x29B1. */
#ifndef CRC16_H
#define CRC16_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define CRC16_START 0xFFFFu

/* The CRC after one more byte. */
uint16_t crc16_after(uint16_t crc, uint8_t byte);

/* The CRC of n bytes. */
uint16_t crc16_of(const uint8_t *bytes, uint8_t n);

#ifdef __cplusplus
}
#endif

#endif
