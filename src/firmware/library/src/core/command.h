/* What the host asks, read from one frame. */
#ifndef COMMAND_H
#define COMMAND_H

#include <stdbool.h>
#include <stdint.h>

#include "inbox.h"

#ifdef __cplusplus
extern "C" {
#endif

struct command {
  uint8_t type;
  uint8_t tag;    /* 0 if the frame had none */
  uint8_t result; /* WIRE_ACCEPTED if well formed, else what to answer */
  uint32_t value; /* mHz, gain or token; 0 if the command has none */
  uint32_t at_us; /* device clock at its delimiter */
};

/* Reads a frame; false if it deserves no answer: bad COBS, bad CRC, or a device's own type. */
bool command_read(const struct inbox_frame *frame, struct command *command);

#ifdef __cplusplus
}
#endif

#endif
