/* What the converter measures and what goes wrong, read line by line from a file. */
#ifndef SCRIPT_H
#define SCRIPT_H

#include <stdint.h>
#include <stdio.h>

enum script_step {
  STEP_CODE,      /* value: the code of one conversion at gain 128, 24 bits signed */
  STEP_UNPLUG,    /* value: for so many output periods the data line floats */
  STEP_SHORT,     /* value: for so many output periods the data line is held low */
  STEP_BROWN_OUT, /* the supply of board and converter dips, in the middle of a frame if streaming */
  STEP_EXTERNAL,  /* the reset button is pressed */
  STEP_HANG,      /* the processor is caught in an endless loop with interrupts off */
  STEP_POKE       /* symbol and value: a 32-bit variable of the firmware is overwritten */
};

struct script {
  FILE *file;
  const char *name;
  long line;
  int32_t rest_code; /* about which it rests after the last line */
  uint32_t noise;
};

struct step {
  enum script_step kind;
  int32_t value;
  uint32_t poked;
  char symbol[64];
};

/* Opens the file; ends the program with a message if it cannot. */
void script_open(struct script *script, const char *name);

/*
 * The next step. After the last line codes come about the last one, with a little noise. A line
 * that is no step ends the program with a message that names file and line.
 */
struct step script_next(struct script *script);

#endif
