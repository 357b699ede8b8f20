/*
 * Runs the firmware in simavr, with a bridge converter on its pins and its serial line on a
 * pseudo-terminal. simavr is under the GNU General Public License, version 3: this program, which
 * links it, is separate from all else here and is passed on under that licence only.
 */
#define _GNU_SOURCE
#include <poll.h>
#include <signal.h>
#include <simavr/avr_eeprom.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "bridge.h"
#include "crc16.h"
#include "options.h"
#include "script.h"
#include "terminal.h"

#define CPU_HERTZ 16000000
#define SLICE_CYCLES 16000 /* 1 ms */
#define SLICE_NANOS 1000000ll
#define PENDING_BYTES 4096
#define RECEIVED_BYTES 64
#define CYCLES_PER_BYTE 1389 /* 10 bits at 115200 baud */
#define IO_MCUSR 0x54
#define EXTRF 0x02
#define BORF 0x04
#define PORF 0x01
#define BYTES_BEFORE_BROWN_OUT 5
#define STACK_PAINT 0xA5
#define RAM_SYMBOLS 0x800000u

static avr_t *avr;
static elf_firmware_t firmware;
static struct script script;
static struct bridge bridge;
static struct terminal terminal;
static avr_irq_t *to_uart;
static volatile sig_atomic_t stopped;

static uint8_t pending[PENDING_BYTES]; /* sent by the board, not yet taken by the terminal */
static size_t pending_bytes;
static long sent_bytes, lost_bytes, resets;
static int bytes_in_frame;
static bool brown_out_due;
static uint8_t reset_due; /* flag of the cause; 0 if none is */
static bool hang_due;
static bool was_reset;
static uint8_t received[RECEIVED_BYTES]; /* on their way to the board, a byte at a time */
static size_t received_bytes, received_next;
static bool uart_full; /* simavr takes bytes more slowly than a line brings them */
static void (*core_reset)(avr_t *);

static void stop(int signal) {
  (void)signal;
  stopped = 1;
}

static uint16_t address_of(const char *symbol) {
  for (uint32_t i = 0; i < firmware.symbolcount; i++) {
    if (!strcmp(firmware.symbol[i]->symbol, symbol)) {
      return (uint16_t)(firmware.symbol[i]->addr - RAM_SYMBOLS);
    }
  }
  fprintf(stderr, "%s: the firmware has no variable '%s'\n", script.name, symbol);
  exit(1);
}

static void poke(const char *symbol, uint32_t value) {
  uint16_t address = address_of(symbol);
  for (int i = 0; i < 4; i++) {
    avr->data[address + i] = (uint8_t)(value >> (8 * i));
  }
}

/* The last word of flash becomes a jump to itself, and the processor stands before it. */
static void hang(void) {
  avr->flash[avr->flashend - 1] = 0xFF;
  avr->flash[avr->flashend] = 0xCF;
  avr->codeend = avr->flashend;
  avr->sreg[S_I] = 0;
  avr->pc = avr->flashend - 1;
}

static void accident(const struct step *step) {
  switch (step->kind) {
    case STEP_BROWN_OUT: brown_out_due = true; break;
    case STEP_EXTERNAL: reset_due = EXTRF; break;
    case STEP_HANG: hang_due = true; break;
    case STEP_POKE: poke(step->symbol, step->poked); break;
    default: break;
  }
}

/* A few bytes into a frame, a brown-out that is due happens. */
static void note_frame(uint8_t byte) {
  bytes_in_frame = byte ? bytes_in_frame + 1 : 0;
  if (brown_out_due && bytes_in_frame == BYTES_BEFORE_BROWN_OUT) {
    brown_out_due = false;
    reset_due = BORF;
  }
}

static void byte_sent(struct avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  sent_bytes++;
  note_frame((uint8_t)value);
  if (pending_bytes < PENDING_BYTES) {
    pending[pending_bytes++] = (uint8_t)value;
  } else {
    lost_bytes++;
  }
}

static void note_uart(struct avr_irq_t *irq, uint32_t value, void *full) {
  (void)irq;
  (void)value;
  uart_full = full != NULL;
}

static void note_reset(avr_t *reset) {
  core_reset(reset);
  resets++;
  was_reset = true;
}

static void sleep_without_waiting(avr_t *sleeping, avr_cycle_count_t cycles) {
  (void)sleeping;
  (void)cycles;
}

static void quiet(avr_t *logging, const int level, const char *format, va_list arguments) {
  (void)logging;
  if (level == LOG_ERROR) {
    vfprintf(stderr, format, arguments);
  }
}

static void load(const char *file) {
  avr_global_logger_set(quiet);
  if (elf_read_firmware(file, &firmware) != 0) {
    fprintf(stderr, "%s: no firmware\n", file);
    exit(1);
  }
  avr = avr_make_mcu_by_name("atmega328p");
  avr_init(avr);
  avr->frequency = CPU_HERTZ;
  avr_load_firmware(avr, &firmware);
  avr->run_cycle_limit = SLICE_CYCLES;
  avr->sleep = sleep_without_waiting;
  core_reset = avr->reset;
  avr->reset = note_reset;
  avr->data[IO_MCUSR] = PORF;
}

/* The EEPROM as the firmware leaves it: the id, low byte first, and its CRC. */
static void keep_id(const char *hexadecimal) {
  uint8_t kept[10];
  uint64_t id = strtoull(hexadecimal, NULL, 16);
  for (int i = 0; i < 8; i++) {
    kept[i] = (uint8_t)(id >> (8 * i));
  }
  uint16_t crc = crc16_of(kept, 8);
  kept[8] = (uint8_t)crc;
  kept[9] = (uint8_t)(crc >> 8);
  avr_eeprom_desc_t content = {.ee = kept, .offset = 0, .size = sizeof kept};
  avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &content);
}

static void connect_uart(void) {
  uint32_t flags = 0;
  avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  to_uart = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT),
                          byte_sent, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON),
                          note_uart, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF),
                          note_uart, &uart_full);
}

/* The most that the stack took, seen by the paint it took off. */
static unsigned stack_bytes(void) {
  unsigned at = address_of("_end");
  while (at <= avr->ramend && avr->data[at] == STACK_PAINT) {
    at++;
  }
  return avr->ramend + 1 - at;
}

static void paint_stack(void) {
  unsigned from = address_of("_end");
  memset(avr->data + from, STACK_PAINT, avr->ramend + 1 - from);
}

/* What the script wants of the processor waits until it stands between two instructions. */
static void do_accidents(void) {
  if (hang_due) {
    hang_due = false;
    hang();
  }
  if (reset_due) {
    uint8_t cause = reset_due;
    reset_due = 0;
    avr_reset(avr);
    avr->data[IO_MCUSR] = cause;
  }
  if (was_reset) {
    was_reset = false;
    bytes_in_frame = 0;
    received_next = received_bytes; /* what came during the reset is lost */
    bridge_go_on(&bridge);
  }
}

/* A sleeping processor may run past the end; the next slice is shorter by that. */
static void run_slice(void) {
  static avr_cycle_count_t end;
  end += SLICE_CYCLES;
  while (avr->cycle < end && !stopped) {
    int state = avr_run(avr);
    if (state == cpu_Done || state == cpu_Crashed) {
      fprintf(stderr, "the firmware crashed at %06x\n", avr->pc);
      exit(1);
    }
    do_accidents();
  }
}

static avr_cycle_count_t byte_came(avr_t *hearing, avr_cycle_count_t when, void *param) {
  (void)hearing;
  (void)param;
  if (!uart_full) {
    avr_raise_irq(to_uart, received[received_next++]);
  }
  return received_next < received_bytes ? when + CYCLES_PER_BYTE : 0;
}

/* Takes what the host sent, once the board has had all that came before. */
static void receive(void) {
  if (received_next == received_bytes) {
    received_next = 0;
    received_bytes = terminal_read(&terminal, received, sizeof received);
    if (received_bytes > 0) {
      avr_cycle_timer_register(avr, CYCLES_PER_BYTE, byte_came, NULL);
    }
  }
}

static void say_once(const char *what) {
  static bool said;
  if (!said) {
    said = true;
    puts(what);
    fflush(stdout);
  }
}

/* Hands on what the board sent. False while bytes are left that must not be lost. */
static bool deliver(const struct options *options) {
  bool reader = terminal_has_reader(&terminal);
  size_t taken = reader ? terminal_write(&terminal, pending, pending_bytes) : 0;
  memmove(pending, pending + taken, pending_bytes - taken);
  pending_bytes -= taken;
  if (options->wait) {
    return reader && pending_bytes == 0;
  }
  if (reader && pending_bytes > 0) {
    say_once("losing bytes");
  }
  lost_bytes += (long)pending_bytes;
  pending_bytes = 0;
  return true;
}

static void rest_at(const char *line) {
  char *end;
  long code = strtol(line, &end, 10);
  if (end == line || *end || !(code >= -8388608l && code <= 8388607l)) {
    fprintf(stderr, "standard input: '%s' is no code from -8388608 to 8388607\n", line);
    exit(1);
  }
  script.rest_code = (int32_t)code;
}

/* Standard input, a byte at a time as it comes; its end is the emulator's. */
static void obey_stdin(void) {
  static char line[16];
  static size_t length;
  struct pollfd input = {.fd = 0, .events = POLLIN};
  char byte;
  while (!stopped && poll(&input, 1, 0) > 0) {
    if (read(0, &byte, 1) <= 0) {
      stopped = 1;
    } else if (byte == '\n') {
      line[length] = 0;
      length = 0;
      rest_at(line);
    } else if (length < sizeof line - 1) {
      line[length++] = byte;
    }
  }
}

static long long now_nanos(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return now.tv_sec * 1000000000ll + now.tv_nsec;
}

static void pause_nanos(long long nanos) {
  struct timespec pause = {.tv_sec = nanos / 1000000000ll, .tv_nsec = nanos % 1000000000ll};
  nanosleep(&pause, NULL);
}

/* A slice at a time, no faster than asked; lost host time is not made up for. */
static void run(const struct options *options) {
  long long due = now_nanos();
  while (!stopped) {
    if (options->control) {
      obey_stdin();
    }
    if (!deliver(options)) {
      pause_nanos(SLICE_NANOS);
      due = now_nanos();
      continue;
    }
    receive();
    run_slice();
    if (options->speed > 0) {
      due += (long long)(SLICE_NANOS / options->speed);
      long long early = due - now_nanos();
      if (early > 0) {
        pause_nanos(early);
      }
    }
  }
}

int main(int argc, char **argv) {
  struct options options = options_read(argc, argv);
  signal(SIGTERM, stop);
  signal(SIGINT, stop);
  script_open(&script, options.script);
  load(options.firmware);
  paint_stack();
  if (options.id) {
    keep_id(options.id);
  }
  connect_uart();
  bridge_connect(&bridge, avr, &script, accident);
  terminal_open(&terminal, options.link);
  printf("ready %s\n", options.link);
  fflush(stdout);
  run(&options);
  terminal_close(&terminal);
  printf("conversions %ld, bytes sent %ld, lost %ld, resets %ld, seconds %.3f, stack %u\n",
         bridge.conversions, sent_bytes, lost_bytes, resets, (double)avr->cycle / CPU_HERTZ,
         stack_bytes());
  return 0;
}
