/* The far end of the board's serial line: a pseudo-terminal, published as a symbolic link. */
#ifndef TERMINAL_H
#define TERMINAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct terminal {
  int master;
  const char *link;
  char path[128];
  bool had_reader;
};

/* Opens a raw pseudo-terminal and makes the link; ends the program with a message if it cannot. */
void terminal_open(struct terminal *terminal, const char *link);

/* Whether a host has it open. When one left, what it did not read is thrown away. */
bool terminal_has_reader(struct terminal *terminal);

/* Writes what fits now; the number of bytes taken. */
size_t terminal_write(struct terminal *terminal, const uint8_t *bytes, size_t n);

/* Reads what is there; the number of bytes. */
size_t terminal_read(struct terminal *terminal, uint8_t *bytes, size_t most);

/* Removes the link, if it is still this terminal's, and closes. */
void terminal_close(struct terminal *terminal);

#endif
