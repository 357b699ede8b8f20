// The text form of the protocol: one reading a line, with time and checksum.
#pragma once

#include <Arduino.h>

#include "Converter.h"

namespace snick {

class TextLines {
 public:
  TextLines(Converter &converter, Print &line) : converter_(converter), line_(line) {}

  // Powers the converter up with the rate of this index in its model, and announces itself.
  void begin(uint8_t rate = 0);

  // Prints what is ready. Waits for the line if that is slow: 115200 baud carry 400 lines a second.
  void poll();

 private:
  void announce();
  void print(uint32_t code, uint32_t ready_us);

  Converter &converter_;
  Print &line_;
  uint8_t rate_ = 0;
  uint8_t settling_ = 0;
  uint32_t announced_us_ = 0;
};

}  // namespace snick
