// Writes down, in order, what a program does to the files of one folder, and what it prints:
// cc -shared -fPIC -O2 -o disk_log.so disk_log.c -ldl
// DISK_LOG_FOLDER=… DISK_LOG=… LD_PRELOAD=…/disk_log.so program
// A record: kind, 4 bytes file, 8 bytes place, 4 bytes length, then so many bytes (host order).
// O opened (its path), W written, T cut to place, S synced, U unlinked (its path), P printed.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

#define MOST 4096
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static int32_t file_of[MOST];
static int32_t files;
static int log_fd = -1;
static const char *folder;

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

static void note(char kind, int32_t file, int64_t place, const void *bytes, uint32_t length) {
  static ssize_t (*real)(int, const void *, size_t);
  if (!real) real = (ssize_t (*)(int, const void *, size_t))dlsym(RTLD_NEXT, "write");
  if (log_fd < 0) return;
  char *record = malloc(17 + length);
  record[0] = kind;
  memcpy(record + 1, &file, 4);
  memcpy(record + 5, &place, 8);
  memcpy(record + 13, &length, 4);
  if (length) memcpy(record + 17, bytes, length);
  if (real(log_fd, record, 17 + length) != (ssize_t)(17 + length)) abort();
  free(record);
}

__attribute__((constructor)) static void begin(void) {
  folder = getenv("DISK_LOG_FOLDER");
  const char *log = getenv("DISK_LOG");
  if (folder && log) {
    int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, "open");
    log_fd = real(log, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  }
}

static int inside(const char *path) {
  return folder && path && strncmp(path, folder, strlen(folder)) == 0;
}

static int opened(int fd, const char *path, int flags) {
  if (fd >= 0 && fd < MOST) {
    pthread_mutex_lock(&lock);
    file_of[fd] = 0;
    if (inside(path) && (flags & O_ACCMODE) != O_RDONLY) {
      file_of[fd] = ++files;
      note('O', files, (flags & O_TRUNC) ? 1 : 0, path, strlen(path));
    }
    pthread_mutex_unlock(&lock);
  }
  return fd;
}

#define OPEN(name)                                            \
  int name(const char *path, int flags, ...) {                \
    va_list more;                                             \
    va_start(more, flags);                                    \
    mode_t mode = (flags & O_CREAT) ? va_arg(more, mode_t) : 0; \
    va_end(more);                                             \
    int (*real)(const char *, int, ...) = dlsym(RTLD_NEXT, #name); \
    return opened(real(path, flags, mode), path, flags);      \
  }
OPEN(open)
OPEN(open64)

int openat(int at, const char *path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  mode_t mode = (flags & O_CREAT) ? va_arg(more, mode_t) : 0;
  va_end(more);
  int (*real)(int, const char *, int, ...) = dlsym(RTLD_NEXT, "openat");
  return opened(real(at, path, flags, mode), path, flags);
}

int openat64(int at, const char *path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  mode_t mode = (flags & O_CREAT) ? va_arg(more, mode_t) : 0;
  va_end(more);
  int (*real)(int, const char *, int, ...) = dlsym(RTLD_NEXT, "openat64");
  return opened(real(at, path, flags, mode), path, flags);
}

int close(int fd) {
  int (*real)(int) = dlsym(RTLD_NEXT, "close");
  if (fd >= 0 && fd < MOST) file_of[fd] = 0;
  return real(fd);
}

static int32_t at(int fd) { return fd >= 0 && fd < MOST ? file_of[fd] : 0; }

#define PWRITE(name, offset_type)                                            \
  ssize_t name(int fd, const void *bytes, size_t length, offset_type place) { \
    ssize_t (*real)(int, const void *, size_t, offset_type) = dlsym(RTLD_NEXT, #name); \
    if (!at(fd)) return real(fd, bytes, length, place);                      \
    pthread_mutex_lock(&lock);                                               \
    ssize_t done = real(fd, bytes, length, place);                           \
    if (done > 0) note('W', at(fd), place, bytes, done);                     \
    pthread_mutex_unlock(&lock);                                             \
    return done;                                                             \
  }
PWRITE(pwrite, off_t)
PWRITE(pwrite64, off64_t)

ssize_t write(int fd, const void *bytes, size_t length) {
  ssize_t (*real)(int, const void *, size_t) = dlsym(RTLD_NEXT, "write");
  if (!at(fd) && fd != STDOUT_FILENO) return real(fd, bytes, length);
  pthread_mutex_lock(&lock);
  if (fd == STDOUT_FILENO) note('P', 0, 0, bytes, length);
  off_t place = at(fd) ? lseek(fd, 0, SEEK_CUR) : 0;
  ssize_t done = real(fd, bytes, length);
  if (at(fd) && done > 0) note('W', at(fd), place, bytes, done);
  pthread_mutex_unlock(&lock);
  return done;
}

#define CUT(name, offset_type)                               \
  int name(int fd, offset_type size) {                       \
    int (*real)(int, offset_type) = dlsym(RTLD_NEXT, #name); \
    pthread_mutex_lock(&lock);                               \
    int failed = real(fd, size);                             \
    if (!failed && at(fd)) note('T', at(fd), size, 0, 0);    \
    pthread_mutex_unlock(&lock);                             \
    return failed;                                           \
  }
CUT(ftruncate, off_t)
CUT(ftruncate64, off64_t)

#define SYNC(name)                                      \
  int name(int fd) {                                    \
    int (*real)(int) = dlsym(RTLD_NEXT, #name);         \
    int failed = real(fd);                              \
    pthread_mutex_lock(&lock);                          \
    if (!failed && at(fd)) note('S', at(fd), 0, 0, 0);  \
    pthread_mutex_unlock(&lock);                        \
    return failed;                                      \
  }
SYNC(fsync)
SYNC(fdatasync)

int unlink(const char *path) {
  int (*real)(const char *) = dlsym(RTLD_NEXT, "unlink");
  pthread_mutex_lock(&lock);
  int failed = real(path);
  if (!failed && inside(path)) note('U', 0, 0, path, strlen(path));
  pthread_mutex_unlock(&lock);
  return failed;
}
