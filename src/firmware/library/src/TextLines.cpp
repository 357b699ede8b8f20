#include "TextLines.h"

namespace snick {

namespace {

constexpr uint32_t ANNOUNCE_EVERY_US = 120000000;
constexpr uint32_t SIGN = 0x800000;

// Hands bytes on and keeps their XOR.
class Summed : public Print {
 public:
  explicit Summed(Print &line) : line_(line) {}
  size_t write(uint8_t byte) override {
    sum_ ^= byte;
    return line_.write(byte);
  }
  using Print::write;
  uint8_t sum() const { return sum_; }

 private:
  Print &line_;
  uint8_t sum_ = 0;
};

char digit(uint32_t value) { return static_cast<char>(value < 10 ? '0' + value : 'A' + value - 10); }

}  // namespace

void TextLines::begin(uint8_t rate) {
  rate_ = rate;
  settling_ = converter_.model().settling_conversions;
  converter_.begin(rate, 0);
  line_.println();
  announce();
}

void TextLines::announce() {
  announced_us_ = micros();
  uint32_t mhz = converter_.model().rates_mhz[rate_];
  line_.print("# rate=");
  line_.print(static_cast<unsigned long>(mhz / 1000));
  line_.print('.');
  line_.print(digit(mhz / 100 % 10));
  line_.print(digit(mhz / 10 % 10));
  line_.println(digit(mhz % 10));
  line_.print("# gain=");
  line_.println(static_cast<unsigned long>(converter_.model().gains[0]));
}

void TextLines::print(uint32_t code, uint32_t ready_us) {
  Summed summed(line_);
  summed.print(static_cast<unsigned long>(ready_us));
  summed.print(',');
  summed.print(static_cast<long>(code ^ SIGN) - static_cast<long>(SIGN));
  uint8_t sum = summed.sum();
  line_.print('*');
  line_.print(digit(sum >> 4));
  line_.println(digit(sum & 15));
}

void TextLines::poll() {
  uint32_t code = 0, ready_us = 0;
  if (converter_.look(code, ready_us) != CONVERTER_CODE) {
    return;
  }
  if (settling_ > 0) {
    settling_--;
    return;
  }
  print(code, ready_us);
  if (micros() - announced_us_ > ANNOUNCE_EVERY_US) {
    announce();
  }
}

}  // namespace snick
