/* Stands between the program and the C library for all that is written below one folder: counts each such call, and
   fails, delays or ends the program at a chosen one. Which one lies in a file that both sides map; see shim.py. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <unistd.h>

enum { OFF, FAIL, HALF_THEN_FAIL, KILL_BEFORE, KILL_HALF, KILL_AFTER };
enum { WRITE = 1, SYNC, TRUNCATE, UNLINK, CREATE, RENAME };

struct control {
    int32_t mode, at, error, sticky, delay_us, folder_only; /* written by the other side */
    int32_t count, hits;                                    /* counted here */
};

static volatile struct control *control;
static char folder[4096];
static size_t folder_length;
static int trace = -1;

__attribute__((constructor)) static void begin(void) {
    const char *file = getenv("FAULT_CONTROL"), *below = getenv("FAULT_FOLDER"), *traced = getenv("FAULT_TRACE");
    if (!file || !below) return;
    int fd = syscall(SYS_openat, AT_FDCWD, file, O_RDWR);
    if (fd < 0) return;
    void *shared = mmap(NULL, sizeof *control, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
    syscall(SYS_close, fd);
    if (shared == MAP_FAILED) return;
    snprintf(folder, sizeof folder, "%s", below);
    folder_length = strlen(folder);
    if (traced) trace = syscall(SYS_openat, AT_FDCWD, traced, O_WRONLY | O_CREAT | O_APPEND, 0600);
    control = shared;
}

static int ours(const char *path) {
    return control && !strncmp(path, folder, folder_length) && (path[folder_length] == '/' || !path[folder_length]);
}

static int path_of(int fd, char *path) {
    char link[64];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, 4095);
    if (length < 0) length = 0;
    path[length] = 0;
    char *gone = strstr(path, " (deleted)");
    if (gone) *gone = 0;
    return ours(path);
}

static void note(int what, const char *path, int64_t offset, const void *data, int64_t length) {
    if (trace < 0) return;
    int64_t head[4] = {what, (int64_t)strlen(path), offset, length};
    char *whole = malloc(sizeof head + head[1] + (data ? length : 0));
    memcpy(whole, head, sizeof head);
    memcpy(whole + sizeof head, path, head[1]);
    if (data) memcpy(whole + sizeof head + head[1], data, length);
    syscall(SYS_write, trace, whole, sizeof head + head[1] + (data ? length : 0));
    free(whole);
}

static void die(void) { syscall(SYS_kill, getpid(), SIGKILL); for (;;) pause(); }

/* What is to happen at this call: OFF, or the mode chosen for it. */
static int now(const char *path) {
    const char *base = strrchr(path, '/');
    if (base && !strncmp(base, "/acked", 6)) return OFF;
    if (control->folder_only && strcmp(path, folder)) return OFF;
    int32_t number = __sync_add_and_fetch(&control->count, 1);
    if (control->delay_us) usleep(control->delay_us);
    if (!control->mode || !(control->sticky ? number >= control->at : number == control->at)) return OFF;
    __sync_add_and_fetch(&control->hits, 1);
    if (control->mode == KILL_BEFORE) die();
    return control->mode;
}

static int refuse(void) { errno = control->error; return -1; }

static ssize_t put(int fd, const void *data, size_t length, off64_t offset, int here) {
    char path[4096];
    if (!control || !path_of(fd, path)) goto through;
    int what = now(path);
    off64_t at = here ? lseek64(fd, 0, SEEK_CUR) : offset;
    if (what == FAIL) return refuse();
    size_t done = (what == HALF_THEN_FAIL || what == KILL_HALF) ? length / 2 : length;
    ssize_t written = here ? syscall(SYS_write, fd, data, done) : syscall(SYS_pwrite64, fd, data, done, offset);
    if (written > 0) note(WRITE, path, at, data, written);
    if (what == KILL_HALF || what == KILL_AFTER) die();
    if (what == HALF_THEN_FAIL) return refuse();
    return written;
through:
    return here ? syscall(SYS_write, fd, data, length) : syscall(SYS_pwrite64, fd, data, length, offset);
}

ssize_t write(int fd, const void *data, size_t length) { return put(fd, data, length, 0, 1); }
ssize_t pwrite(int fd, const void *data, size_t length, off_t offset) { return put(fd, data, length, offset, 0); }
ssize_t pwrite64(int fd, const void *data, size_t length, off64_t offset) { return put(fd, data, length, offset, 0); }

/* One call that succeeds or fails as a whole. */
#define WHOLE(path, what_it_is, offset, call)                                  \
    do {                                                                       \
        int what = now(path);                                                  \
        if (what == FAIL || what == HALF_THEN_FAIL) return refuse();           \
        if (what == KILL_HALF) die();                                          \
        int result = (call);                                                   \
        if (!result) note(what_it_is, path, offset, NULL, 0);                  \
        if (what == KILL_AFTER) die();                                         \
        return result;                                                         \
    } while (0)

int fsync(int fd) {
    char path[4096];
    if (!control || !path_of(fd, path)) return syscall(SYS_fsync, fd);
    WHOLE(path, SYNC, 0, syscall(SYS_fsync, fd));
}

int fdatasync(int fd) {
    char path[4096];
    if (!control || !path_of(fd, path)) return syscall(SYS_fdatasync, fd);
    WHOLE(path, SYNC, 0, syscall(SYS_fdatasync, fd));
}

int ftruncate64(int fd, off64_t length) {
    char path[4096];
    if (!control || !path_of(fd, path)) return syscall(SYS_ftruncate, fd, length);
    WHOLE(path, TRUNCATE, length, syscall(SYS_ftruncate, fd, length));
}
int ftruncate(int fd, off_t length) { return ftruncate64(fd, length); }

int unlink(const char *path) {
    if (!ours(path)) return syscall(SYS_unlinkat, AT_FDCWD, path, 0);
    WHOLE(path, UNLINK, 0, syscall(SYS_unlinkat, AT_FDCWD, path, 0));
}

int rename(const char *from, const char *to) {
    if (!ours(to)) return syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
    WHOLE(to, RENAME, 0, syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0));
}

static int make(int at, const char *path, int flags, mode_t mode) {
    if (!(flags & O_CREAT) || !ours(path) || !access(path, F_OK)) return syscall(SYS_openat, at, path, flags, mode);
    int what = now(path);
    if (what == FAIL || what == HALF_THEN_FAIL) return refuse();
    if (what == KILL_HALF) die();
    int fd = syscall(SYS_openat, at, path, flags, mode);
    if (fd >= 0) note(CREATE, path, 0, NULL, 0);
    if (what == KILL_AFTER) die();
    return fd;
}

static mode_t mode_of(int flags, va_list more) { return flags & (O_CREAT | __O_TMPFILE) ? va_arg(more, mode_t) : 0; }

#define OPENS(name, at, ...)                                                    \
    int name(__VA_ARGS__, int flags, ...) {                                     \
        va_list more;                                                           \
        va_start(more, flags);                                                  \
        mode_t mode = mode_of(flags, more);                                     \
        va_end(more);                                                           \
        return make(at, path, flags, mode);                                     \
    }

OPENS(open, AT_FDCWD, const char *path)
OPENS(open64, AT_FDCWD, const char *path)
OPENS(openat, at, int at, const char *path)
OPENS(openat64, at, int at, const char *path)
