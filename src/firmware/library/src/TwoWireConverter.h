// A two-wire 24-bit bridge converter on any two pins.
#pragma once

#include "Converter.h"
#include "DataReady.h"
#include "core/two_wire.h"

namespace snick {

class TwoWireConverter : public Converter {
 public:
  // The module's rate pin is tied: two_wire_at_10 or two_wire_at_80.
  TwoWireConverter(uint8_t data_pin, uint8_t clock_pin,
                   const converter_model &model = two_wire_at_10)
      : TwoWireConverter(data_pin, clock_pin, NO_PIN, model) {}

  // A pin chooses the rate. A faster part of the kind has a model of its own.
  TwoWireConverter(uint8_t data_pin, uint8_t clock_pin, uint8_t rate_pin,
                   const converter_model &model)
      : model_(model), data_(data_pin), clock_(clock_pin), rate_(rate_pin), ready_(data_pin) {}

  const converter_model &model() const override { return model_; }
  void begin(uint8_t rate, uint8_t gain) override;
  void choose(uint8_t rate, uint8_t gain) override;
  converter_news look(uint32_t &code, uint32_t &ready_us) override;

 private:
  static constexpr uint8_t NO_PIN = 0xFF;
  static uint8_t pulse(const void *converter);

  const converter_model &model_;
  const uint8_t data_, clock_, rate_;
  uint8_t rate_now_ = 0, gain_now_ = 0;
  DataReady ready_;
};

}  // namespace snick
