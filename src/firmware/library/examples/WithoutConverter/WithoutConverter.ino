// No converter, no cell: a made-up edge is pressed on a made-up filament every four seconds, up to
// 150 gf at 437.25 counts for each, and the fixture rings at 60 Hz when it parts. To try a board, its
// line and the recorder before anything is wired.
#include <Snick.h>
#include <math.h>

class MadeUp : public snick::Converter {
 public:
  const converter_model &model() const override { return MODEL; }

  void begin(uint8_t rate, uint8_t gain) override {
    period_us_ = 1000000000UL / MODEL.rates_mhz[rate];
    gain_ = gain;
    rate_ = rate;
    next_us_ = micros() + period_us_;
  }

  void choose(uint8_t rate, uint8_t gain) override {
    if (rate != rate_ || gain != gain_) {
      begin(rate, gain);
    }
  }

  converter_news look(uint32_t &code, uint32_t &ready_us) override {
    if (static_cast<int32_t>(micros() - next_us_) < 0) {
      return CONVERTER_NOTHING;
    }
    ready_us = next_us_;
    next_us_ += period_us_;
    code = static_cast<uint32_t>(counts() / (gain_ ? 2 : 1)) & 0xFFFFFF;
    return CONVERTER_CODE;
  }

 private:
  static constexpr float ZERO = 84000, HIGHEST = 150 * 437.25f, NOISE = 12;
  static constexpr float CYCLE_S = 4, PRESSED_S = 1.8f, PARTED_S = 3, RING_HZ = 60, FADE_S = 0.02f;
  static const uint32_t RATES[];
  static const uint16_t GAINS[];
  static const converter_model MODEL;

  int32_t counts() {
    at_us_ = (at_us_ + period_us_) % static_cast<uint32_t>(CYCLE_S * 1e6f);
    return static_cast<int32_t>(lroundf(ZERO + load(static_cast<float>(at_us_) * 1e-6f) + noise()));
  }

  static float load(float seconds) {
    if (seconds < PRESSED_S) {
      return 0;
    }
    if (seconds < PARTED_S) {
      return HIGHEST * (seconds - PRESSED_S) / (PARTED_S - PRESSED_S);
    }
    float since = seconds - PARTED_S;
    return HIGHEST * 0.5f * expf(-since / FADE_S) * cosf(6.2832f * RING_HZ * since);
  }

  // A sum of even chances, near enough to a bell.
  float noise() {
    float sum = 0;
    for (uint8_t i = 0; i < 3; i++) {
      chance_ = chance_ * 1664525 + 1013904223;
      sum += static_cast<float>(chance_ >> 16) / 32768 - 1;
    }
    return NOISE * sum;
  }

  uint32_t period_us_ = 0, next_us_ = 0, at_us_ = 0, chance_ = 1;
  uint8_t gain_ = 0, rate_ = 0;
};

const uint32_t MadeUp::RATES[] = {10000, 80000, 320000, 1000000};
const uint16_t MadeUp::GAINS[] = {128, 64};
const converter_model MadeUp::MODEL = {RATES, GAINS, 4, 2, 24, 1, 0, 2500000};

MadeUp converter;
snick::Rig rig(converter, Serial, 0x5eed000000000004, "without converter 1");

void setup() {
  Serial.begin(115200);
#ifdef __AVR__
  rig.begin(1);  // 80 samples a second: this processor works out floating point slowly
#else
  rig.begin(3);  // 1,000 samples a second
#endif
}

void loop() { rig.poll(); }
