/* Puts the parts together: ATmega328P at 16 MHz, two-wire bridge converter, serial line. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "clock.h"
#include "converter.h"
#include "device.h"
#include "identity.h"
#include "two_wire.h"
#include "uart.h"

static uint8_t reset_flags __attribute__((section(".noinit")));

void keep_reset_flags(void) __attribute__((naked, used, section(".init3")));

/* Before anything else: after a watchdog reset the watchdog still runs, at its shortest. */
void keep_reset_flags(void) {
  reset_flags = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

static uint8_t id[IDENTITY_BYTES];
_Static_assert(sizeof FIRMWARE_NAME <= WIRE_MAX_FIRMWARE_BYTES + 1, "name of 32 bytes at most");

static struct device device = {
    .model = &two_wire_model,
    .id = id,
    .firmware = FIRMWARE_NAME,
};

/* At power-on the brown-out flag may be set too. A boot loader that clears the flags leaves none. */
static uint8_t reset_cause(void) {
  if (reset_flags & _BV(PORF)) {
    return WIRE_RESET_POWER_ON;
  }
  if (reset_flags & _BV(BORF)) {
    return WIRE_RESET_BROWN_OUT;
  }
  if (reset_flags & _BV(WDRF)) {
    return WIRE_RESET_WATCHDOG;
  }
  return reset_flags & _BV(EXTRF) ? WIRE_RESET_EXTERNAL : WIRE_RESET_UNKNOWN;
}

static void start(void) {
  clock_start();
  sei();
  identity_read(id);
  wdt_enable(WDTO_500MS);
  uart_start(&device.outbox);
  converter_start();
  device_start(&device, reset_cause(), CONVERTER_START_RATE, clock_now_us());
}

static bool can_reply(void) { return outbox_room(&device.outbox) >= DEVICE_REPLY_BYTES; }

static void hear_converter(void) {
  uint32_t code = 0, ready_us = 0;
  switch (converter_look(device.gain, &code, &ready_us)) {
    case CONVERTER_CODE:
      device_converted(&device, code, ready_us);
      break;
    case CONVERTER_MISSED:
      device_missed(&device);
      break;
    default:
      break;
  }
}

static void hear_host(void) {
  const struct inbox_frame *frame = inbox_oldest(&uart_inbox);
  if (frame && can_reply()) {
    device_received(&device, frame, clock_now_us());
    inbox_drop_oldest(&uart_inbox);
    converter_set_rate(device.rate);
  }
}

/* Until the next interrupt; the timer's comes every 33 ms at the latest. */
static void rest(void) {
  cli();
  if (!converter_has_news() && !(inbox_oldest(&uart_inbox) && can_reply())) {
    sleep_enable();
    sei();
    sleep_cpu();
    sleep_disable();
  }
  sei();
}

int main(void) {
  start();
  for (;;) {
    wdt_reset();
    hear_converter();
    hear_host();
    if (device_tick(&device, clock_now_us())) {
      converter_restart();
    }
    uart_send();
    rest();
  }
}
