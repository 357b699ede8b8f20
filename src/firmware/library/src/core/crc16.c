#include "crc16.h"

uint16_t crc16_after(uint16_t crc, uint8_t byte) {
  crc ^= (uint16_t)(byte << 8);
  for (uint8_t bit = 0; bit < 8; bit++) {
    uint16_t shifted = (uint16_t)(crc << 1);
    crc = crc & 0x8000u ? shifted ^ 0x1021u : shifted;
  }
  return crc;
}

uint16_t crc16_of(const uint8_t *bytes, uint8_t n) {
  uint16_t crc = CRC16_START;
  while (n--) {
    crc = crc16_after(crc, *bytes++);
  }
  return crc;
}
