// What a rig wants of a converter. Rates and gains are indices into its model's.
#pragma once

#include <stdint.h>

#include "core/device.h"
#include "core/news.h"

namespace snick {

class Converter {
 public:
  virtual const converter_model &model() const = 0;

  // Powers the converter off and on; also called when it was lost.
  virtual void begin(uint8_t rate, uint8_t gain) = 0;

  // Takes this rate and gain; nothing happens if they are in force.
  virtual void choose(uint8_t rate, uint8_t gain) = 0;

  // What came since the last look. A code has 24 bits in two's complement, its sign extended, and
  // the time by micros() at which it was ready.
  virtual converter_news look(uint32_t &code, uint32_t &ready_us) = 0;

 protected:
  ~Converter() = default;
};

}  // namespace snick
