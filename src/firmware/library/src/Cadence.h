// Tells from the times of readings whether some were lost between them.
#pragma once

#include <stdint.h>

namespace snick {

class Cadence {
 public:
  // From now on readings come at this rate; the next is the first.
  void begin(uint32_t rate_mhz) {
    period_us_ = 1000000000UL / rate_mhz;
    seen_ = false;
  }

  // Whether one is missing before the reading at this time. Ask until none is.
  bool misses_before(uint32_t ready_us) {
    if (seen_ && ready_us - last_us_ > period_us_ + period_us_ / 2) {
      last_us_ += period_us_;
      return true;
    }
    seen_ = true;
    last_us_ = ready_us;
    return false;
  }

  // The last reading was not to be had after all: it is missing before the next.
  void lose() { last_us_ -= period_us_; }

 private:
  uint32_t period_us_ = 0;
  uint32_t last_us_ = 0;
  bool seen_ = false;
};

}  // namespace snick
