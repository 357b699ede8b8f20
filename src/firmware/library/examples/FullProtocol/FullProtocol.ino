// The full protocol on a common 8-bit board: two-wire converter with its rate pin on the board, the
// reset cause, a watchdog. On another board leave out what begins with WDT or MCUSR.
//
// Draw an id of your own, 16 hexadecimal digits: no two devices may have the same.
#include <Snick.h>
#ifdef __AVR__
#include <avr/wdt.h>
#endif

const uint8_t DATA = 8, CLOCK = 9, RATE = 10;  // DATA on 2 or 3: the time is taken by interrupt

snick::TwoWireConverter converter(DATA, CLOCK, RATE, two_wire_model);
snick::Rig rig(converter, Serial, 0x00a1b2c3d4e5f607, "full protocol 1.0");

wire_reset_cause resetCause() {
#ifdef MCUSR
  uint8_t flags = MCUSR;
  MCUSR = 0;
  return flags & _BV(PORF)    ? WIRE_RESET_POWER_ON
         : flags & _BV(BORF)  ? WIRE_RESET_BROWN_OUT
         : flags & _BV(WDRF)  ? WIRE_RESET_WATCHDOG
         : flags & _BV(EXTRF) ? WIRE_RESET_EXTERNAL
                              : WIRE_RESET_UNKNOWN;
#else
  return WIRE_RESET_UNKNOWN;
#endif
}

void setup() {
  wire_reset_cause cause = resetCause();
  Serial.begin(115200);
  rig.begin(1, cause);  // 80 samples a second
#ifdef WDTO_500MS
  wdt_enable(WDTO_500MS);
#endif
}

void loop() {
#ifdef WDTO_500MS
  wdt_reset();
#endif
  rig.poll();
}
