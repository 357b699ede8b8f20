#include "TwoWireConverter.h"

namespace snick {

void TwoWireConverter::begin(uint8_t rate, uint8_t gain) {
  pinMode(data_, INPUT_PULLUP);  // a missing converter reads as not ready
  pinMode(clock_, OUTPUT);
  if (rate_ != NO_PIN) {
    pinMode(rate_, OUTPUT);
    digitalWrite(rate_, rate ? HIGH : LOW);
  }
  digitalWrite(clock_, HIGH);
  delayMicroseconds(TWO_WIRE_POWER_DOWN_US);
  digitalWrite(clock_, LOW);
  rate_now_ = rate;
  gain_now_ = gain;
  ready_.begin(model_.rates_mhz[rate]);
}

void TwoWireConverter::choose(uint8_t rate, uint8_t gain) {
  gain_now_ = gain;
  if (rate != rate_now_) {
    begin(rate, gain);
  }
}

// Never stretched by an interrupt, or the converter powers down.
uint8_t TwoWireConverter::pulse(const void *converter) {
  const TwoWireConverter &self = *static_cast<const TwoWireConverter *>(converter);
  noInterrupts();
  digitalWrite(self.clock_, HIGH);
  delayMicroseconds(1);
  uint8_t bit = digitalRead(self.data_) == HIGH;
  digitalWrite(self.clock_, LOW);
  interrupts();
  delayMicroseconds(1);
  return bit;
}

// A line that does not go back high after a reading is shorted, or has no converter.
converter_news TwoWireConverter::look(uint32_t &code, uint32_t &ready_us) {
  converter_news news = ready_.look(ready_us);
  if (news != CONVERTER_CODE) {
    return news;
  }
  ready_.heed(false);
  code = two_wire_read(pulse, this, gain_now_);
  bool whole = digitalRead(data_) == HIGH;
  ready_.heed(true);
  return whole ? CONVERTER_CODE : CONVERTER_NOTHING;
}

}  // namespace snick
