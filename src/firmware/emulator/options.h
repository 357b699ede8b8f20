/* The command line. */
#ifndef OPTIONS_H
#define OPTIONS_H

#include <stdbool.h>

struct options {
  const char *firmware;
  const char *script;
  const char *link;
  const char *id; /* 16 hexadecimal digits; null: the EEPROM is blank */
  double speed;   /* 0: as fast as the machine can */
  bool wait;      /* time stands while nobody reads or the reader has no room */
  bool control; /* standard input says where the converter rests */
};

/* Reads the command line; ends the program with a message if it is wrong. */
struct options options_read(int argc, char **argv);

#endif
