/* Runs all tests of the portable core. Argument: the path of firmware-protocol.md. */
#include "bench.h"

static char *whole_file(const char *path) {
  FILE *file = fopen(path, "rb");
  CHECK(file);
  char *text = calloc(1, 1 << 20);
  CHECK(fread(text, 1, (1 << 20) - 1, file) > 0);
  fclose(file);
  return text;
}

int main(int argc, char **argv) {
  CHECK(argc == 2);
  char *text = whole_file(argv[1]);
  line_tests();
  device_tests();
  document_tests(text);
  free(text);
  printf("%d core tests passed\n", passed);
  return 0;
}
