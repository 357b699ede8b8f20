/* The SPI bus of Arduino.h. */
#pragma once

#include "Arduino.h"

#define MSBFIRST 1
#define SPI_MODE1 1

class SPISettings {
 public:
  SPISettings(uint32_t hertz, uint8_t order, uint8_t mode) : hertz(hertz), order(order), mode(mode) {}
  const uint32_t hertz;
  const uint8_t order, mode;
};

class SPIClass {
 public:
  void begin();
  void beginTransaction(SPISettings settings);
  uint8_t transfer(uint8_t byte);
  void endTransaction();
};

extern SPIClass SPI;
