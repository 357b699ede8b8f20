#include "uart.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "clock.h"

/* At 16 MHz 115200 baud comes out 2.1 % fast, as on most boards of this kind. */
#define BAUD_TOL 3
#include <util/setbaud.h>

struct inbox uart_inbox;
static struct outbox *outgoing;

void uart_start(struct outbox *outbox) {
  outgoing = outbox;
  UBRR0 = UBRR_VALUE;
  UCSR0A = USE_2X ? _BV(U2X0) : 0;
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
}

void uart_send(void) { UCSR0B |= _BV(UDRIE0); }

ISR(USART_UDRE_vect) {
  uint8_t byte;
  if (outbox_take(outgoing, &byte)) {
    UDR0 = byte;
  } else {
    UCSR0B &= (uint8_t)~_BV(UDRIE0);
  }
}

ISR(USART_RX_vect) {
  uint8_t damage = UCSR0A & (_BV(FE0) | _BV(DOR0));
  uint8_t byte = UDR0;
  if (damage) {
    inbox_spoil(&uart_inbox);
  }
  inbox_byte(&uart_inbox, byte, byte ? 0 : clock_at_us(TCNT1));
}
