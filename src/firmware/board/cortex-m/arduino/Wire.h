/* The I2C bus of Arduino.h. */
#pragma once

#include "Arduino.h"

class TwoWire {
 public:
  void begin();
  void setClock(uint32_t hertz);
  void beginTransmission(uint8_t address);
  size_t write(uint8_t byte);
  uint8_t endTransmission(bool stop = true);
  uint8_t requestFrom(uint8_t address, uint8_t n);
  int read();
};

extern TwoWire Wire;
