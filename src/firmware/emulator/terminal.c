#define _GNU_SOURCE
#include "terminal.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

static void check(int result, const char *what) {
  if (result < 0) {
    perror(what);
    exit(1);
  }
}

/* Opened and closed once, the other end reports hang-up whenever nobody has it open. */
static void discard_stale(struct terminal *terminal) {
  int slave = open(terminal->path, O_RDWR | O_NOCTTY | O_NONBLOCK);
  check(slave, terminal->path);
  tcflush(slave, TCIOFLUSH);
  close(slave);
}

static void make_raw(int fd) {
  struct termios settings;
  check(tcgetattr(fd, &settings), "tcgetattr");
  cfmakeraw(&settings);
  check(tcsetattr(fd, TCSANOW, &settings), "tcsetattr");
}

static void publish(const struct terminal *terminal) {
  char fresh[4096];
  snprintf(fresh, sizeof fresh, "%s.%ld", terminal->link, (long)getpid());
  check(symlink(terminal->path, fresh), fresh);
  check(rename(fresh, terminal->link), terminal->link);
}

void terminal_open(struct terminal *terminal, const char *link) {
  terminal->link = link;
  terminal->master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
  check(terminal->master, "posix_openpt");
  check(grantpt(terminal->master), "grantpt");
  check(unlockpt(terminal->master), "unlockpt");
  check(-ptsname_r(terminal->master, terminal->path, sizeof terminal->path), "ptsname_r");
  make_raw(terminal->master);
  discard_stale(terminal);
  publish(terminal);
}

bool terminal_has_reader(struct terminal *terminal) {
  struct pollfd look = {.fd = terminal->master, .events = POLLIN};
  poll(&look, 1, 0);
  bool reader = !(look.revents & POLLHUP);
  if (terminal->had_reader && !reader) {
    discard_stale(terminal);
  }
  terminal->had_reader = reader;
  return reader;
}

size_t terminal_write(struct terminal *terminal, const uint8_t *bytes, size_t n) {
  ssize_t taken = write(terminal->master, bytes, n);
  return taken > 0 ? (size_t)taken : 0;
}

size_t terminal_read(struct terminal *terminal, uint8_t *bytes, size_t most) {
  ssize_t got = read(terminal->master, bytes, most);
  return got > 0 ? (size_t)got : 0;
}

void terminal_close(struct terminal *terminal) {
  char target[sizeof terminal->path];
  ssize_t n = readlink(terminal->link, target, sizeof target);
  if (n == (ssize_t)strlen(terminal->path) && !memcmp(target, terminal->path, (size_t)n)) {
    unlink(terminal->link);
  }
  close(terminal->master);
}
