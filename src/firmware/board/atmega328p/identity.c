#include "identity.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "crc16.h"

#define DRAWS 32

struct kept {
  uint8_t id[IDENTITY_BYTES];
  uint16_t crc;
};

static struct kept EEMEM place;
static volatile uint8_t draws;
static volatile uint16_t pool;

/*
 * The watchdog has an oscillator of its own, which wanders against the crystal; the timer's low
 * byte at each of its ticks is chance.
 */
ISR(WDT_vect) {
  WDTCSR |= _BV(WDIE); /* goes on ticking also where the interrupt clears it */
  pool = crc16_after(pool, TCNT1L);
  draws++;
}

static void draw(uint8_t id[IDENTITY_BYTES]) {
  cli();
  wdt_reset();
  WDTCSR = _BV(WDCE) | _BV(WDE);
  WDTCSR = _BV(WDIE);
  sei();
  for (uint8_t i = 0; i < IDENTITY_BYTES; i++) {
    uint8_t enough = (uint8_t)((i + 1) * (DRAWS / IDENTITY_BYTES));
    while (draws < enough) {
    }
    id[i] = (uint8_t)pool;
  }
  wdt_disable();
}

void identity_read(uint8_t id[IDENTITY_BYTES]) {
  struct kept kept;
  eeprom_read_block(&kept, &place, sizeof kept);
  if (kept.crc != crc16_of(kept.id, IDENTITY_BYTES)) {
    draw(kept.id);
    kept.crc = crc16_of(kept.id, IDENTITY_BYTES);
    eeprom_update_block(&kept, &place, sizeof kept);
  }
  for (uint8_t i = 0; i < IDENTITY_BYTES; i++) {
    id[i] = kept.id[i];
  }
}
