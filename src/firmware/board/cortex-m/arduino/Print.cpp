#include "Arduino.h"

size_t Print::write(const uint8_t *bytes, size_t n) {
  size_t written = 0;
  while (written < n && write(bytes[written]) == 1) {
    written++;
  }
  return written;
}

size_t Print::print(const char *text) {
  size_t written = 0;
  while (text[written]) {
    write(static_cast<uint8_t>(text[written++]));
  }
  return written;
}

size_t Print::print(unsigned long number) {
  size_t before = number >= 10 ? print(number / 10) : 0;
  return before + print(static_cast<char>('0' + number % 10));
}

size_t Print::print(long number) {
  if (number >= 0) {
    return print(static_cast<unsigned long>(number));
  }
  return print('-') + print(0UL - static_cast<unsigned long>(number));
}
