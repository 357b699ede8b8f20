// A 24-bit bridge converter on I2C at address 0x2A, 10 to 320 samples a second, with gains of 1 to
// 128, a data-ready line and a supply for the bridge of its own.
//
// Its registers are given here as the author remembers the kind: compare them with the data sheet
// of yours. The driver is tested against a simulated part, not against a real one.
#pragma once

#include <Wire.h>

#include "Converter.h"
#include "DataReady.h"

namespace snick {

class I2cConverter : public Converter {
 public:
  explicit I2cConverter(uint8_t ready_pin, TwoWire &bus = Wire, uint8_t address = 0x2A)
      : bus_(bus), address_(address), ready_pin_(ready_pin), ready_(ready_pin) {}

  const converter_model &model() const override;

  // The bus must have begun; 400 kHz is advised at 320 samples a second.
  void begin(uint8_t rate, uint8_t gain) override;
  void choose(uint8_t rate, uint8_t gain) override;
  converter_news look(uint32_t &code, uint32_t &ready_us) override;

 private:
  void write(uint8_t at, uint8_t value);
  bool read(uint8_t at, uint8_t *bytes, uint8_t n);

  TwoWire &bus_;
  const uint8_t address_, ready_pin_;
  uint8_t rate_now_ = 0, gain_now_ = 0;
  DataReady ready_;
};

}  // namespace snick
