#define _GNU_SOURCE
#include "options.h"

#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ID_DIGITS 16

static void usage(void) {
  fprintf(stderr,
          "usage: emulator --link PATH --script FILE [--id HEX] [--speed N] [--wait] "
          "[--control] FIRMWARE.elf\n");
  exit(2);
}

static double read_speed(const char *text) {
  char *end;
  double speed = strtod(text, &end);
  if (end == text || *end || !(speed >= 0 && speed <= 1e6)) {
    fprintf(stderr, "--speed %s: a number from 0 to 1000000, 0 for as fast as possible\n", text);
    exit(2);
  }
  return speed;
}

static const char *read_id(const char *text) {
  if (strlen(text) != ID_DIGITS || strspn(text, "0123456789abcdefABCDEF") != ID_DIGITS) {
    fprintf(stderr, "--id %s: 16 hexadecimal digits\n", text);
    exit(2);
  }
  return text;
}

struct options options_read(int argc, char **argv) {
  static const struct option known[] = {{"link", required_argument, 0, 'l'},
                                        {"script", required_argument, 0, 's'},
                                        {"id", required_argument, 0, 'i'},
                                        {"speed", required_argument, 0, 'x'},
                                        {"wait", no_argument, 0, 'w'},
                                        {"control", no_argument, 0, 'e'},
                                        {0, 0, 0, 0}};
  struct options options = {.speed = 1};
  for (int got; (got = getopt_long(argc, argv, "", known, NULL)) != -1;) {
    switch (got) {
      case 'l': options.link = optarg; break;
      case 's': options.script = optarg; break;
      case 'i': options.id = read_id(optarg); break;
      case 'x': options.speed = read_speed(optarg); break;
      case 'w': options.wait = true; break;
      case 'e': options.control = true; break;
      default: usage();
    }
  }
  if (optind != argc - 1 || !options.link || !options.script) {
    usage();
  }
  options.firmware = argv[optind];
  return options;
}
