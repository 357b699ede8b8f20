/* The serial line: 8 data bits, no parity, 1 stop bit; both ways by interrupts. */
#ifndef UART_H
#define UART_H

#include "inbox.h"
#include "outbox.h"

/* Frames received. Owned by the receive interrupt and the main loop. */
extern struct inbox uart_inbox;

/* Opens the line; sends what the outbox holds. */
void uart_start(struct outbox *outbox);

/* The outbox may hold more to send. */
void uart_send(void);

#endif
