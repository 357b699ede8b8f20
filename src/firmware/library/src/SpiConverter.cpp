#include "SpiConverter.h"

namespace snick {

namespace {

constexpr uint8_t RESET = 0x06;
constexpr uint8_t START = 0x08;
constexpr uint8_t WRITE_ALL_REGISTERS = 0x43;
constexpr uint8_t CONTINUOUS = 1 << 2;
constexpr uint8_t REFERENCE_IS_SUPPLY = 3 << 6;
constexpr uint8_t READY_LINE_ONLY = 0;

constexpr uint16_t RESET_US = 100;
constexpr uint8_t CODE_BYTES = 3;
constexpr uint32_t BUS_HZ = 1000000;

const uint32_t RATES_MHZ[] = {20000, 45000, 90000, 175000, 330000, 600000, 1000000};
const uint16_t GAINS[] = {128, 64, 32, 16, 8, 4, 2, 1};
constexpr uint8_t HIGHEST_GAIN_BITS = 7;

// Its filter settles within one conversion; the first after a start is left out all the same. The
// supply is the board's, 3.3 V or 5 V: the range is not stated.
const converter_model MODEL = {RATES_MHZ, GAINS, 7, 8, 24, 1, 0, 0};

}  // namespace

const converter_model &SpiConverter::model() const { return MODEL; }

void SpiConverter::exchange(uint8_t *bytes, uint8_t n) {
  bus_.beginTransaction(SPISettings(BUS_HZ, MSBFIRST, SPI_MODE1));
  digitalWrite(select_, LOW);
  for (uint8_t i = 0; i < n; i++) {
    bytes[i] = bus_.transfer(bytes[i]);
  }
  digitalWrite(select_, HIGH);
  bus_.endTransaction();
}

void SpiConverter::begin(uint8_t rate, uint8_t gain) {
  digitalWrite(select_, HIGH);
  pinMode(select_, OUTPUT);
  pinMode(ready_pin_, INPUT_PULLUP);
  uint8_t reset = RESET;
  exchange(&reset, 1);
  delayMicroseconds(RESET_US);
  start(rate, gain);
}

void SpiConverter::start(uint8_t rate, uint8_t gain) {
  rate_now_ = rate;
  gain_now_ = gain;
  uint8_t bytes[] = {WRITE_ALL_REGISTERS,
                     static_cast<uint8_t>((HIGHEST_GAIN_BITS - gain) << 1),
                     static_cast<uint8_t>(rate << 5 | CONTINUOUS),
                     REFERENCE_IS_SUPPLY,
                     READY_LINE_ONLY,
                     START};
  exchange(bytes, sizeof bytes);
  ready_.begin(RATES_MHZ[rate]);
}

void SpiConverter::choose(uint8_t rate, uint8_t gain) {
  if (rate != rate_now_ || gain != gain_now_) {
    start(rate, gain);
  }
}

converter_news SpiConverter::look(uint32_t &code, uint32_t &ready_us) {
  converter_news news = ready_.look(ready_us);
  if (news != CONVERTER_CODE) {
    return news;
  }
  uint8_t bytes[CODE_BYTES] = {0, 0, 0};
  exchange(bytes, CODE_BYTES);
  code = static_cast<uint32_t>(bytes[0]) << 16 | static_cast<uint16_t>(bytes[1] << 8) | bytes[2];
  return CONVERTER_CODE;
}

}  // namespace snick
