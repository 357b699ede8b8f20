#include "OwnReadings.h"

namespace snick {

void OwnReadings::begin(uint8_t, uint8_t) {
  waiting_ = false;
  cadence_.begin(rate_mhz_);
}

// A reading beyond the converter's bits stands at its rail.
void OwnReadings::put(int32_t counts, uint32_t ready_us) {
  int32_t highest = (1L << (model_.bits - 1)) - 1;
  counts_ = counts > highest ? highest : counts < -highest - 1 ? -highest - 1 : counts;
  ready_us_ = ready_us;
  waiting_ = true;
}

converter_news OwnReadings::look(uint32_t &code, uint32_t &ready_us) {
  if (!waiting_) {
    return CONVERTER_NOTHING;
  }
  if (cadence_.misses_before(ready_us_)) {
    return CONVERTER_MISSED;
  }
  waiting_ = false;
  code = static_cast<uint32_t>(counts_) & 0xFFFFFF;
  ready_us = ready_us_;
  return CONVERTER_CODE;
}

}  // namespace snick
