#include "two_wire.h"

#define CODE_BITS 24

static const uint32_t RATES_MHZ[] = {10000, 80000};
static const uint16_t GAINS[] = {128, 64};
static const uint8_t PULSES_AFTER_CODE[] = {1, 3};

#define MODEL(first_rate, rates_known)                                                        \
  {                                                                                           \
    .rates_mhz = RATES_MHZ + (first_rate), .gains = GAINS, .rates = (rates_known),            \
    .gains_known = 2, .bits = CODE_BITS, .settling_conversions = 4, .gain_lag = 1,            \
    .range_at_gain_1_uv = UINT32_C(2500000)                                                   \
  }

const struct converter_model two_wire_model = MODEL(0, 2);
const struct converter_model two_wire_at_10 = MODEL(0, 1);
const struct converter_model two_wire_at_80 = MODEL(1, 1);

uint32_t two_wire_read(uint8_t (*pulse)(const void *pins), const void *pins, uint8_t gain) {
  uint32_t code = 0;
  for (uint8_t i = 0; i < CODE_BITS; i++) {
    code = code << 1 | pulse(pins);
  }
  for (uint8_t i = 0; i < PULSES_AFTER_CODE[gain]; i++) {
    pulse(pins);
  }
  return code;
}
