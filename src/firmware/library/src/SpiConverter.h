// A 24-bit bridge converter on SPI with four registers, 20 to 1,000 samples a second, gains of 1 to
// 128 and a data-ready line; the bridge is fed from the converter's analog supply, which is also its
// reference.
//
// Its registers are given here as the author remembers the kind: compare them with the data sheet
// of yours. The driver is tested against a simulated part, not against a real one.
#pragma once

#include <SPI.h>

#include "Converter.h"
#include "DataReady.h"

namespace snick {

class SpiConverter : public Converter {
 public:
  SpiConverter(uint8_t select_pin, uint8_t ready_pin, SPIClass &bus = SPI)
      : bus_(bus), select_(select_pin), ready_pin_(ready_pin), ready_(ready_pin) {}

  const converter_model &model() const override;

  // The bus must have begun.
  void begin(uint8_t rate, uint8_t gain) override;
  void choose(uint8_t rate, uint8_t gain) override;
  converter_news look(uint32_t &code, uint32_t &ready_us) override;

 private:
  void exchange(uint8_t *bytes, uint8_t n);
  void start(uint8_t rate, uint8_t gain);

  SPIClass &bus_;
  const uint8_t select_, ready_pin_;
  uint8_t rate_now_ = 0, gain_now_ = 0;
  DataReady ready_;
};

}  // namespace snick
