#include "script.h"

#include <stdlib.h>
#include <string.h>

#define MOST_LINE_BYTES 128
#define CODE_MIN (-8388608l)
#define CODE_MAX 8388607l

void script_open(struct script *script, const char *name) {
  script->name = name;
  script->file = fopen(name, "r");
  if (!script->file) {
    perror(name);
    exit(1);
  }
}

static void refuse(const struct script *script, const char *text) {
  fprintf(stderr,
          "%s:%ld: '%.40s' is no step; a code from -8388608 to 8388607, 'unplug N', 'short N', "
          "'brown-out', 'external', 'hang' or 'poke SYMBOL N'\n",
          script->name, script->line, text);
  exit(1);
}

static int is_blank(const char *text) { return text[strspn(text, " \t\r\n")] == 0; }

static struct step parse(struct script *script, const char *text) {
  struct step step = {.kind = STEP_CODE};
  long value = 0;
  unsigned long poked = 0;
  int end = 0;
  if (sscanf(text, " unplug %ld %n", &value, &end) == 1 && end) {
    step.kind = STEP_UNPLUG;
  } else if (sscanf(text, " short %ld %n", &value, &end) == 1 && end) {
    step.kind = STEP_SHORT;
  } else if (sscanf(text, " poke %63s %lu %n", step.symbol, &poked, &end) == 2 && end) {
    step.kind = STEP_POKE;
    step.poked = (uint32_t)poked;
  } else if (sscanf(text, " brown-out %n", &end), end) {
    step.kind = STEP_BROWN_OUT;
  } else if (sscanf(text, " external %n", &end), end) {
    step.kind = STEP_EXTERNAL;
  } else if (sscanf(text, " hang %n", &end), end) {
    step.kind = STEP_HANG;
  } else if (sscanf(text, " %ld %n", &value, &end) != 1 || !end) {
    refuse(script, text);
  }
  if (text[end] != 0 || !(value >= CODE_MIN && value <= CODE_MAX)) {
    refuse(script, text);
  }
  step.value = (int32_t)value;
  return step;
}

/* The same code again and again would be taken for a stuck converter: add -15 to 15, mostly less. */
static int32_t at_rest(struct script *script) {
  script->noise = script->noise * 1664525u + 1013904223u; /* Numerical Recipes, 2nd ed., 7.1 */
  int32_t noise = (int32_t)(script->noise >> 28) + (int32_t)(script->noise >> 24 & 15) - 15;
  long code = (long)script->rest_code + noise;
  return (int32_t)(code < CODE_MIN ? CODE_MIN : code > CODE_MAX ? CODE_MAX : code);
}

struct step script_next(struct script *script) {
  char text[MOST_LINE_BYTES];
  while (script->file && fgets(text, sizeof text, script->file)) {
    script->line++;
    if (text[0] == '#' || is_blank(text)) {
      continue;
    }
    struct step step = parse(script, text);
    if (step.kind == STEP_CODE) {
      script->rest_code = step.value;
    }
    return step;
  }
  if (script->file) {
    fclose(script->file);
    script->file = NULL;
  }
  return (struct step){.kind = STEP_CODE, .value = at_rest(script)};
}
