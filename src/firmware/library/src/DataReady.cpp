#include "DataReady.h"

namespace snick {

DataReady *volatile DataReady::heard_ = nullptr;

void DataReady::fell() {
  DataReady *self = heard_;
  if (self->armed_) {
    self->fell_us_ = micros();
    self->fell_ = true;
  }
}

void DataReady::begin(uint32_t rate_mhz) {
  noInterrupts();
  heard_ = this;
  fell_ = false;
  armed_ = true;
  interrupts();
  cadence_.begin(rate_mhz);
#ifdef NOT_AN_INTERRUPT
  timed_ = digitalPinToInterrupt(pin_) != NOT_AN_INTERRUPT;
  if (timed_) {
    attachInterrupt(digitalPinToInterrupt(pin_), fell, FALLING);
  }
#endif
}

// A line that is low without having been seen to fall waits for the next fall.
bool DataReady::take(uint32_t &ready_us) {
  if (!timed_) {
    ready_us = micros();
    return digitalRead(pin_) == LOW;
  }
  noInterrupts();
  bool fell = fell_;
  ready_us = fell_us_;
  interrupts();
  return fell && digitalRead(pin_) == LOW;
}

converter_news DataReady::look(uint32_t &ready_us) {
  if (!take(ready_us)) {
    return CONVERTER_NOTHING;
  }
  if (cadence_.misses_before(ready_us)) {
    return CONVERTER_MISSED;
  }
  fell_ = false;
  return CONVERTER_CODE;
}

}  // namespace snick
