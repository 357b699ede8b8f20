// A line that falls when a conversion is ready. On a pin with an interrupt its time is exact; on any
// other it is as exact as the sketch's loop is short.
#pragma once

#include <Arduino.h>

#include "Cadence.h"
#include "core/news.h"

namespace snick {

class DataReady {
 public:
  explicit DataReady(uint8_t pin) : pin_(pin) {}

  // Conversions come at this rate from now on; what came before is forgotten. One DataReady at a
  // time has its interrupt: the one that began last.
  void begin(uint32_t rate_mhz);

  // CONVERTER_CODE: read it now.
  converter_news look(uint32_t &ready_us);

  // What was announced last could not be read.
  void lose() { cadence_.lose(); }

  // While data go over the same line, its falls mean nothing.
  void heed(bool falls) { armed_ = falls; }

 private:
  static void fell();
  bool take(uint32_t &ready_us);

  static DataReady *volatile heard_;
  const uint8_t pin_;
  bool timed_ = false;
  Cadence cadence_;
  volatile bool armed_ = false;
  volatile bool fell_ = false;
  volatile uint32_t fell_us_ = 0;
};

}  // namespace snick
