// Readings that the sketch takes itself, with whatever it already reads its converter by.
#pragma once

#include <Arduino.h>

#include "Cadence.h"
#include "Converter.h"

namespace snick {

class OwnReadings : public Converter {
 public:
  // The rate at which the converter converts, in mHz; its bits, 8 to 24; the gain it is set to.
  explicit OwnReadings(uint32_t rate_mhz, uint8_t bits = 24, uint16_t gain = 1)
      : rate_mhz_(rate_mhz), gain_(gain), model_{&rate_mhz_, &gain_, 1, 1, bits, 0, 0, 0} {}

  // A reading in two's complement, ready just now or at a time by micros(). Call poll() of the rig
  // after each: of two readings between two polls the older is lost, and counted.
  void put(int32_t counts) { put(counts, micros()); }
  void put(int32_t counts, uint32_t ready_us);

  const converter_model &model() const override { return model_; }
  void begin(uint8_t, uint8_t) override;
  void choose(uint8_t, uint8_t) override {}
  converter_news look(uint32_t &code, uint32_t &ready_us) override;

 private:
  uint32_t rate_mhz_;
  uint16_t gain_;
  converter_model model_;
  Cadence cadence_;
  bool waiting_ = false;
  int32_t counts_ = 0;
  uint32_t ready_us_ = 0;
};

}  // namespace snick
