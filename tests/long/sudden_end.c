/* Preloaded into a program (LD_PRELOAD), it counts the calls that change what is on disk, and at the one whose number
 * is in SUDDEN_END_AT kills the process (SUDDEN_END_HOW=before or after the call, or half: half of a write is done), or
 * has the call fail from there on (SUDDEN_END_HOW=full or broken: no space, input/output error) or just that once
 * (once). At the end of the process the count is written to the file SUDDEN_END_COUNT, if there is one.
 * Only calls on paths and files under the folder SUDDEN_END_UNDER count.  cc -shared -fPIC -o sudden_end.so
 * sudden_end.c -ldl */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static atomic_long calls;

enum Verdict { go_on, fail, kill_after, half };

static int under(const char* path) {
  const char* folder = getenv("SUDDEN_END_UNDER");
  return folder != NULL && path != NULL && strncmp(path, folder, strlen(folder)) == 0;
}

static int file_under(int descriptor) {
  char link[64], path[PATH_MAX + 1];
  snprintf(link, sizeof link, "/proc/self/fd/%d", descriptor);
  const ssize_t length = readlink(link, path, PATH_MAX);
  if (length < 0) return 0;
  path[length] = '\0';
  return under(path);
}

static void die(void) {
  kill(getpid(), SIGKILL);
  for (;;) pause();
}

static enum Verdict judge(int counts) {
  const char *at = getenv("SUDDEN_END_AT"), *how = getenv("SUDDEN_END_HOW");
  if (!counts) return go_on;
  const long number = ++calls;
  if (at == NULL || how == NULL || number < atol(at)) return go_on;
  const int exact = number == atol(at);
  if (strcmp(how, "full") == 0) { errno = ENOSPC; return fail; }
  if (strcmp(how, "broken") == 0) { errno = EIO; return fail; }
  if (!exact) return go_on;
  if (strcmp(how, "once") == 0) { errno = EIO; return fail; }
  if (strcmp(how, "before") == 0) die();
  return strcmp(how, "half") == 0 ? half : kill_after;
}

__attribute__((destructor)) static void tell(void) {
  const char* file = getenv("SUDDEN_END_COUNT");
  FILE* out = file != NULL ? fopen(file, "w") : NULL;
  if (out == NULL) return;
  fprintf(out, "%ld\n", (long)calls);
  fclose(out);
}

#define REAL(name) ((__typeof__(name)*)dlsym(RTLD_NEXT, #name))
#define WRAP(name, type, counts, parameters, ...)                 \
  type name parameters {                                          \
    const enum Verdict verdict = judge(counts);                   \
    if (verdict == fail) return -1;                               \
    const type result = REAL(name)(__VA_ARGS__);                  \
    if (verdict != go_on) die();                                  \
    return result;                                                \
  }
#define WRAP_WRITE(name, offset_type)                                                     \
  ssize_t name(int descriptor, const void* bytes, size_t count, offset_type offset) {     \
    const enum Verdict verdict = judge(file_under(descriptor));                           \
    if (verdict == fail) return -1;                                                       \
    const ssize_t result = REAL(name)(descriptor, bytes, verdict == half ? count / 2 : count, offset); \
    if (verdict != go_on) die();                                                          \
    return result;                                                                        \
  }
#define WRAP_OPEN(name)                                                       \
  int name(const char* path, int flags, ...) {                                \
    va_list rest;                                                             \
    va_start(rest, flags);                                                    \
    const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) ? va_arg(rest, mode_t) : 0; \
    va_end(rest);                                                             \
    const enum Verdict verdict = judge((flags & (O_CREAT | O_TRUNC)) && under(path)); \
    if (verdict == fail) return -1;                                           \
    const int result = REAL(name)(path, flags, mode);                         \
    if (verdict != go_on) die();                                              \
    return result;                                                            \
  }

WRAP_OPEN(open)
WRAP_OPEN(open64)
WRAP_WRITE(pwrite, off_t)
WRAP_WRITE(pwrite64, off64_t)
WRAP(fsync, int, file_under(descriptor), (int descriptor), descriptor)
WRAP(ftruncate, int, file_under(descriptor), (int descriptor, off_t length), descriptor, length)
WRAP(ftruncate64, int, file_under(descriptor), (int descriptor, off64_t length), descriptor, length)
WRAP(rename, int, under(to), (const char* from, const char* to), from, to)
WRAP(mkdir, int, under(path), (const char* path, mode_t mode), path, mode)
WRAP(unlink, int, under(path), (const char* path), path)
WRAP(rmdir, int, under(path), (const char* path), path)
WRAP(unlinkat, int, file_under(folder) || under(path), (int folder, const char* path, int flags), folder, path, flags)
WRAP(remove, int, under(path), (const char* path), path)
