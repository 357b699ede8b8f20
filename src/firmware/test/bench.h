/* A device on the bench: fed with codes and commands, heard through its outbox. */
#ifndef BENCH_H
#define BENCH_H

#include "device.h"
#include "wiretap.h"

#define PERIOD_US 12500u
#define START_US 1000u

/* Runs the tests, says how many. */
#define RUN_ALL(tests)                                       \
  do {                                                       \
    for (size_t i = 0; i < sizeof tests / sizeof *tests; i++) { \
      tests[i]();                                            \
      passed++;                                              \
    }                                                        \
  } while (0)

extern int passed;

extern const struct converter_model MODEL;
extern struct device device;
extern struct wiretap tap;
extern uint32_t now_us;

void line_tests(void);
void device_tests(void);
/* The text of firmware-protocol.md. */
void document_tests(const char *text);

/* A device as it is before its start. */
void clear(const struct converter_model *model);

/* Started; hello and status are off the line. */
void start(void);

/* One output period passes and a code comes; nothing is overdue. */
void convert(uint32_t code);

/* Started, and the converter has settled. */
void start_settled(void);

/* A frame as the inbox would have it, arrived now. */
struct inbox_frame frame_of(const uint8_t *plain, uint8_t n);

/* The host sends type, tag and what follows. */
void send(const uint8_t *plain, uint8_t n);
void send_command(uint8_t type, uint8_t tag, uint32_t value, uint8_t value_bytes);

/* What must be next on the line. */
void expect_answer(uint8_t type, uint8_t tag, uint8_t result, uint32_t value);
void expect_samples(uint32_t sequence, uint8_t n);
void expect_nothing(void);

#endif
