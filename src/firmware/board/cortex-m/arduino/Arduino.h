/*
 * As much of the Arduino interface as the library and its examples use, for a bare processor and for
 * tests on this machine: each brings its own pins, clock and line.
 */
#pragma once

#include <stddef.h>
#include <stdint.h>

#define LOW 0
#define HIGH 1
#define INPUT 0
#define OUTPUT 1
#define INPUT_PULLUP 2
#define FALLING 2
#define A0 14
#define NOT_AN_INTERRUPT (-1)
#define digitalPinToInterrupt(pin) ((pin) == 2 || (pin) == 3 ? (pin) : NOT_AN_INTERRUPT)

#ifdef __cplusplus
extern "C" {
#endif

void pinMode(uint8_t pin, uint8_t mode);
void digitalWrite(uint8_t pin, uint8_t level);
int digitalRead(uint8_t pin);
int analogRead(uint8_t pin);
void attachInterrupt(uint8_t interrupt, void (*handler)(void), int mode);
uint32_t micros(void);
void delayMicroseconds(unsigned int us);
void noInterrupts(void);
void interrupts(void);

#ifdef __cplusplus
}

class Print {
 public:
  virtual size_t write(uint8_t byte) = 0;
  virtual size_t write(const uint8_t *bytes, size_t n);
  virtual int availableForWrite() { return 0; }
  size_t print(const char *text);
  size_t print(char character) { return write(static_cast<uint8_t>(character)); }
  size_t print(unsigned long number);
  size_t print(long number);
  size_t println() { return print("\r\n"); }
  template <typename T>
  size_t println(T value) {
    return print(value) + println();
  }

 protected:
  ~Print() = default;
};

class Stream : public Print {
 public:
  virtual int available() = 0;
  virtual int read() = 0;

 protected:
  ~Stream() = default;
};

class SerialLine final : public Stream {
 public:
  void begin(unsigned long baud);
  int available() override;
  int read() override;
  size_t write(uint8_t byte) override;
  using Print::write;
  int availableForWrite() override;
};

extern SerialLine Serial;
#endif
