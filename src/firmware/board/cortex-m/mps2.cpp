/*
 * The board that qemu-system-arm knows as mps2-an385, a Cortex-M3 at 25 MHz: start, clock and serial
 * line for a sketch. What belongs to the processor is the same on any Cortex-M; line and counter are
 * this board's.
 */
#include "Arduino.h"

void setup();
void loop();

extern "C" {
extern uint32_t stack_top, data_begin, data_end, data_kept, bss_begin, bss_end;
extern void (*constructors_begin[])(void);
extern void (*constructors_end[])(void);
void reset();
void tick();
void receive();
void stand_still();
void __cxa_pure_virtual() { stand_still(); }
}

namespace {

constexpr uint32_t TICKS_PER_MS = 25000;
constexpr uint32_t COUNTER_RUNS_WITH_32_BITS = 0x82;
constexpr uint32_t TICKS_PER_US = 25;

volatile uint32_t &at(uint32_t address) { return *reinterpret_cast<volatile uint32_t *>(address); }

volatile uint32_t &timer_control() { return at(0xE000E010); }
volatile uint32_t &timer_reload() { return at(0xE000E014); }
volatile uint32_t &timer_value() { return at(0xE000E018); }
volatile uint32_t &interrupt_enable() { return at(0xE000E100); }

volatile uint32_t &counter_value() { return at(0x40002004); }
volatile uint32_t &counter_control() { return at(0x40002008); }

volatile uint32_t &line_data() { return at(0x40004000); }
volatile uint32_t &line_state() { return at(0x40004004); }
volatile uint32_t &line_control() { return at(0x40004008); }
volatile uint32_t &line_interrupt() { return at(0x4000400C); }
volatile uint32_t &line_divider() { return at(0x40004010); }
constexpr uint32_t TRANSMIT_FULL = 1, RECEIVE_FULL = 2, RECEIVED = 2;
constexpr uint32_t TRANSMIT_RECEIVE_AND_INTERRUPT = 1 | 2 | 8;

volatile uint8_t received[256];
volatile uint8_t received_head, received_tail;

}  // namespace

__attribute__((section(".vectors"), used)) void (*const VECTORS[])(void) = {
    reinterpret_cast<void (*)(void)>(&stack_top),
    reset,       stand_still, stand_still, stand_still, stand_still, stand_still, nullptr,
    nullptr,     nullptr,     nullptr,     stand_still, stand_still, nullptr,     stand_still,
    tick,        receive};

void reset() {
  for (uint32_t *from = &data_kept, *to = &data_begin; to < &data_end;) {
    *to++ = *from++;
  }
  for (uint32_t *to = &bss_begin; to < &bss_end;) {
    *to++ = 0;
  }
  counter_control() = COUNTER_RUNS_WITH_32_BITS;
  timer_reload() = TICKS_PER_MS - 1;
  timer_value() = 0;
  timer_control() = 7;
  for (void (**constructor)(void) = constructors_begin; constructor < constructors_end;) {
    (*constructor++)();
  }
  setup();
  for (;;) {
    loop();
    __asm__ volatile("wfi");
  }
}

void stand_still() {
  for (;;) {
  }
}

// Only wakes the processor: under an emulator ticks may be lost.
void tick() {}

void receive() {
  line_interrupt() = RECEIVED;
  if (line_state() & RECEIVE_FULL) {
    received[received_head] = static_cast<uint8_t>(line_data());
    received_head = static_cast<uint8_t>(received_head + 1);
  }
}

// The counter counts down and wraps after 171 s; loop() asks for the time far more often.
uint32_t micros() {
  static uint32_t last_ticks = 0;
  static uint64_t ticks = 0;
  uint32_t now_ticks = ~counter_value();
  ticks += now_ticks - last_ticks;
  last_ticks = now_ticks;
  return static_cast<uint32_t>(ticks / TICKS_PER_US);
}

void delayMicroseconds(unsigned int us) {
  for (uint32_t begun = micros(); micros() - begun < us;) {
  }
}

void noInterrupts() { __asm__ volatile("cpsid i" ::: "memory"); }
void interrupts() { __asm__ volatile("cpsie i" ::: "memory"); }

SerialLine Serial;

void SerialLine::begin(unsigned long baud) {
  line_divider() = TICKS_PER_US * 1000000 / baud;
  line_control() = TRANSMIT_RECEIVE_AND_INTERRUPT;
  interrupt_enable() = 1;
}

int SerialLine::available() { return static_cast<uint8_t>(received_head - received_tail); }

int SerialLine::read() {
  if (available() == 0) {
    return -1;
  }
  uint8_t byte = received[received_tail];
  received_tail = static_cast<uint8_t>(received_tail + 1);
  return byte;
}

int SerialLine::availableForWrite() { return line_state() & TRANSMIT_FULL ? 0 : 1; }

size_t SerialLine::write(uint8_t byte) {
  while (availableForWrite() == 0) {
  }
  line_data() = byte;
  return 1;
}
