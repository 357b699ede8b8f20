#include "I2cConverter.h"

namespace snick {

namespace {

constexpr uint8_t POWER = 0x00;
constexpr uint8_t POWER_RESET = 0x01;
constexpr uint8_t POWER_DIGITAL = 0x02;
constexpr uint8_t POWER_DIGITAL_AND_ANALOG = 0x06;
constexpr uint8_t POWER_CONVERTING_OWN_SUPPLY = 0x96;

constexpr uint8_t SETTINGS = 0x01;
constexpr uint8_t READY_FALLS_SUPPLY_3_V = 0x80 | 5 << 3;

constexpr uint8_t RATE = 0x02;
constexpr uint8_t RATE_BITS[] = {0 << 4, 1 << 4, 2 << 4, 3 << 4, 7 << 4};

constexpr uint8_t CODE = 0x12;
constexpr uint8_t CODE_BYTES = 3;

// From reset to a working digital part, and from there to a settled supply.
constexpr uint16_t WAKING_US = 200;

const uint32_t RATES_MHZ[] = {10000, 20000, 40000, 80000, 320000};
const uint16_t GAINS[] = {128, 64, 32, 16, 8, 4, 2, 1};
constexpr uint8_t HIGHEST_GAIN_BITS = 7;

// Full scale is half of the 3 V supply over the gain.
const converter_model MODEL = {RATES_MHZ, GAINS, 5, 8, 24, 4, 0, 1500000};

}  // namespace

const converter_model &I2cConverter::model() const { return MODEL; }

void I2cConverter::write(uint8_t at, uint8_t value) {
  bus_.beginTransmission(address_);
  bus_.write(at);
  bus_.write(value);
  bus_.endTransmission();
}

bool I2cConverter::read(uint8_t at, uint8_t *bytes, uint8_t n) {
  bus_.beginTransmission(address_);
  bus_.write(at);
  if (bus_.endTransmission(false) != 0 || bus_.requestFrom(address_, n) != n) {
    return false;
  }
  while (n--) {
    *bytes++ = static_cast<uint8_t>(bus_.read());
  }
  return true;
}

void I2cConverter::begin(uint8_t rate, uint8_t gain) {
  pinMode(ready_pin_, INPUT_PULLUP);
  write(POWER, POWER_RESET);
  write(POWER, POWER_DIGITAL);
  delayMicroseconds(WAKING_US);
  write(POWER, POWER_DIGITAL_AND_ANALOG);
  rate_now_ = rate;
  gain_now_ = gain;
  write(SETTINGS, READY_FALLS_SUPPLY_3_V | (HIGHEST_GAIN_BITS - gain));
  write(RATE, RATE_BITS[rate]);
  ready_.begin(RATES_MHZ[rate]);
  write(POWER, POWER_CONVERTING_OWN_SUPPLY);
}

void I2cConverter::choose(uint8_t rate, uint8_t gain) {
  if (rate != rate_now_ || gain != gain_now_) {
    begin(rate, gain);
  }
}

converter_news I2cConverter::look(uint32_t &code, uint32_t &ready_us) {
  converter_news news = ready_.look(ready_us);
  if (news != CONVERTER_CODE) {
    return news;
  }
  uint8_t bytes[CODE_BYTES] = {};
  if (!read(CODE, bytes, CODE_BYTES)) {
    ready_.lose();
    return CONVERTER_NOTHING;
  }
  code = static_cast<uint32_t>(bytes[0]) << 16 | static_cast<uint16_t>(bytes[1] << 8) | bytes[2];
  return CONVERTER_CODE;
}

}  // namespace snick
