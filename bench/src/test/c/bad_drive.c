/*
 * An nbdkit plugin (API version 2) that is a drive as bad as a test wants it: slow, stalling, lying, failing or hung.
 *
 * The blocks live in memory, or in a file named by "store" that outlives the plugin, so that a drive can be plugged in
 * again. What is wrong with the drive stands in a control file of "key=value" lines, which may be
 * replaced (by rename) at any time, so that a file system can be made and mounted on a healthy drive first. Times and
 * byte counts in it count from the moment the plugin saw the key "arm" change. One request is served at a time.
 *
 *   rate                 bytes/s for writes, 0 = as fast as memory
 *   read_rate            bytes/s for reads, 0 = as fast as memory
 *   cache_bytes          so many bytes are written at "rate" ...
 *   slow_rate            ... and all others at this, bytes/s ...
 *   cache2_bytes         ... until so many are written in all ...
 *   slow2_rate           ... and all others at this, bytes/s
 *   hot_bytes            it is hot once it holds so much heat, in bytes written; 0 = never
 *   cool_bytes           ... and cool again below this
 *   cooling_rate         heat it loses, bytes/s
 *   hot_rate             rate of writes while hot, bytes/s
 *   stall_ms             length of a stall; only writes that carry marked blocks stall, others pass
 *   stall_every_ms       a stall is due this often ...
 *   stall_after_ms       ... or once, after this time ...
 *   stall_after_bytes    ... or once, after so many bytes written ...
 *   stall_every_bytes    ... or after every so many bytes written
 *   stall_idle_ms        ... or when none came for so long: a drive that was asleep
 *   wrap_at, wrap_to     addresses from wrap_at on land between wrap_to and wrap_at (fake capacity)
 *   drop_from            writes from this address on are thrown away and read as zeros (fake capacity)
 *   flip_every           one bit in every so many marked blocks is written wrong
 *   flip_seed            chooses the bit
 *   eio_after_ms, eio_after_bytes    every request fails with EIO from then on
 *   eio_marked_only      only requests that carry marked blocks fail
 *   hang_after_ms, hang_after_bytes  the next write hangs ...
 *   hang_ms              ... for so long; 0 = until the control file says "release=1"
 *   ro_after_ms, ro_after_bytes      writes are refused with EROFS from then on
 *
 * A block is marked if the 32-bit word "mark" stands at byte "mark_at" of its 4096 bytes: so the log can tell the bench's
 * payload from the file system's own blocks.
 *
 * The log has one line per event, times in ns of CLOCK_MONOTONIC, fields separated by one space:
 *   W|R|F start offset length service marked flipped outcome      outcome: ok, eio, erofs or dropped
 *   S start 0 0 length-of-the-stall 0 0 stall
 *   H start 0 0 0 0 0 hang                                        written when the hang begins
 */
#define _GNU_SOURCE
#define NBDKIT_API_VERSION 2
#include <nbdkit-plugin.h>

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define THREAD_MODEL NBDKIT_THREAD_MODEL_SERIALIZE_ALL_REQUESTS
#define BLOCK 4096
/* A request that comes this soon after the last one is back to back: the way to us is part of the drive's own time. */
#define BACK_TO_BACK_NS 3000000
#define POLL_NS 5000000

static int64_t size = 0;
static char *control_path = NULL;
static char *store_path = NULL;
static int log_fd = -1;
static uint8_t *store = NULL;
static uint32_t mark = 0;
static int64_t mark_at = -1;

struct control {
    int64_t arm, rate, read_rate, cache_bytes, slow_rate, cache2_bytes, slow2_rate;
    int64_t hot_bytes, cool_bytes, cooling_rate, hot_rate;
    int64_t stall_ms, stall_every_ms, stall_after_ms, stall_after_bytes, stall_every_bytes, stall_idle_ms;
    int64_t wrap_at, wrap_to, drop_from, flip_every, flip_seed;
    int64_t eio_after_ms, eio_after_bytes, eio_marked_only;
    int64_t hang_after_ms, hang_after_bytes, hang_ms, release;
    int64_t ro_after_ms, ro_after_bytes;
};

static struct control control;
static struct stat control_seen;
static int64_t armed_ns, armed_bytes, last_done_ns, next_stall_ns, marked_seen;
static int64_t last_marked_ns, next_stall_bytes, heat_bytes, heat_ns;
static int stalled_once, hung_once, hot;

static int64_t now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * INT64_C(1000000000) + t.tv_nsec;
}

static void sleep_until(int64_t ns)
{
    struct timespec t = { .tv_sec = ns / 1000000000, .tv_nsec = ns % 1000000000 };
    while (clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL) == EINTR) {
    }
}

static void log_event(char what, int64_t start, uint64_t offset, uint64_t length, int64_t service, int64_t marked,
                      int64_t flipped, const char *outcome)
{
    char line[200];
    int n = snprintf(line, sizeof line,
                     "%c %" PRId64 " %" PRIu64 " %" PRIu64 " %" PRId64 " %" PRId64 " %" PRId64 " %s\n", what, start,
                     offset, length, service, marked, flipped, outcome);
    if (log_fd >= 0 && write(log_fd, line, n) != n)
        nbdkit_error("cannot write the request log: %m");
}

static const struct {
    const char *key;
    int64_t *value;
} keys[] = {
#define KEY(name) { #name, &control.name }
    KEY(arm), KEY(rate), KEY(read_rate), KEY(cache_bytes), KEY(slow_rate), KEY(cache2_bytes), KEY(slow2_rate),
    KEY(hot_bytes), KEY(cool_bytes), KEY(cooling_rate), KEY(hot_rate), KEY(stall_ms), KEY(stall_every_ms),
    KEY(stall_after_ms), KEY(stall_after_bytes), KEY(stall_every_bytes), KEY(stall_idle_ms), KEY(wrap_at), KEY(wrap_to), KEY(drop_from), KEY(flip_every),
    KEY(flip_seed), KEY(eio_after_ms), KEY(eio_after_bytes), KEY(eio_marked_only), KEY(hang_after_ms),
    KEY(hang_after_bytes), KEY(hang_ms), KEY(release), KEY(ro_after_ms), KEY(ro_after_bytes),
#undef KEY
};

static void healthy(void)
{
    memset(&control, 0, sizeof control);
    control.stall_after_ms = control.stall_after_bytes = control.eio_after_ms = control.eio_after_bytes = -1;
    control.hang_after_ms = control.hang_after_bytes = control.ro_after_ms = control.ro_after_bytes = -1;
}

/* Reads the control file if another one stands there now. */
static void look_at_control(void)
{
    struct stat st;
    if (control_path == NULL || stat(control_path, &st) != 0)
        return;
    if (st.st_ino == control_seen.st_ino && st.st_mtim.tv_sec == control_seen.st_mtim.tv_sec
        && st.st_mtim.tv_nsec == control_seen.st_mtim.tv_nsec)
        return;
    FILE *file = fopen(control_path, "r");
    if (file == NULL)
        return;
    control_seen = st;
    int64_t arm = control.arm;
    healthy();
    char line[200];
    while (fgets(line, sizeof line, file) != NULL) {
        char *equals = strchr(line, '=');
        if (equals == NULL)
            continue;
        *equals = 0;
        size_t k = 0;
        while (k < sizeof keys / sizeof keys[0] && strcmp(line, keys[k].key) != 0)
            k++;
        if (k == sizeof keys / sizeof keys[0])
            nbdkit_error("control file: unknown key %s", line);
        else
            *keys[k].value = strtoll(equals + 1, NULL, 10);
    }
    fclose(file);
    if (control.arm != arm) {
        armed_ns = now_ns();
        armed_bytes = 0;
        marked_seen = 0;
        stalled_once = hung_once = 0;
        next_stall_ns = armed_ns + control.stall_every_ms * 1000000;
        next_stall_bytes = control.stall_every_bytes;
        heat_bytes = hot = 0;
        heat_ns = armed_ns;
    }
}

static int due(int64_t after_ms, int64_t after_bytes)
{
    return (after_ms >= 0 && now_ns() >= armed_ns + after_ms * 1000000)
        || (after_bytes >= 0 && armed_bytes >= after_bytes);
}

static void stall_if_due(void)
{
    int64_t now = now_ns();
    if (control.stall_ms <= 0)
        return;
    if (control.stall_every_ms > 0) {
        if (now < next_stall_ns)
            return;
        while (next_stall_ns <= now + control.stall_ms * 1000000)
            next_stall_ns += control.stall_every_ms * 1000000;
    } else if (control.stall_every_bytes > 0) {
        if (armed_bytes < next_stall_bytes)
            return;
        next_stall_bytes += control.stall_every_bytes;
    } else if (control.stall_idle_ms > 0) {
        if (now < last_marked_ns + control.stall_idle_ms * 1000000)
            return;
    } else {
        if (stalled_once || !due(control.stall_after_ms, control.stall_after_bytes))
            return;
        stalled_once = 1;
    }
    sleep_until(now + control.stall_ms * 1000000);
    log_event('S', now, 0, 0, now_ns() - now, 0, 0, "stall");
}

static void hang_if_due(void)
{
    if (hung_once || !due(control.hang_after_ms, control.hang_after_bytes))
        return;
    int64_t start = now_ns();
    int64_t arm = control.arm;
    int64_t until = control.hang_ms > 0 ? start + control.hang_ms * 1000000 : INT64_MAX;
    hung_once = 1;
    log_event('H', start, 0, 0, 0, 0, 0, "hang");
    while (now_ns() < until && !control.release) {
        sleep_until(now_ns() + POLL_NS);
        look_at_control();
        if (control.arm != arm)
            break;
    }
}

/* The rate of a write that comes now. */
static int64_t write_rate(void)
{
    if (control.hot_bytes > 0) {
        int64_t now = now_ns();
        heat_bytes -= (int64_t)((now - heat_ns) / 1e9 * control.cooling_rate);
        heat_bytes = heat_bytes < 0 ? 0 : heat_bytes;
        heat_ns = now;
        hot = hot ? heat_bytes > control.cool_bytes : heat_bytes >= control.hot_bytes;
        if (hot)
            return control.hot_rate;
    }
    if (control.slow2_rate > 0 && armed_bytes >= control.cache2_bytes)
        return control.slow2_rate;
    return control.slow_rate > 0 && armed_bytes >= control.cache_bytes ? control.slow_rate : control.rate;
}

/* Takes as long as a drive of this rate would, in absolute time, so that lateness of ours does not add up. */
static void take_time(uint64_t length, int64_t rate, int64_t arrived)
{
    if (rate <= 0) {
        last_done_ns = now_ns();
        return;
    }
    int64_t from = arrived - last_done_ns < BACK_TO_BACK_NS ? last_done_ns : arrived;
    last_done_ns = from + (int64_t)(length * 1e9 / rate);
    sleep_until(last_done_ns);
}

/* Where a block really lives, -1 if nowhere. */
static int64_t place(uint64_t address)
{
    if (control.drop_from > 0 && address >= (uint64_t)control.drop_from)
        return -1;
    if (control.wrap_at > 0 && address >= (uint64_t)control.wrap_at)
        return control.wrap_to + (address - control.wrap_at) % (control.wrap_at - control.wrap_to);
    return address;
}

static int is_marked(const uint8_t *block)
{
    uint32_t word;
    if (mark_at < 0)
        return 0;
    memcpy(&word, block + mark_at, sizeof word);
    return word == mark;
}

static uint64_t mix(uint64_t x)
{
    x = (x ^ (x >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94d049bb133111eb);
    return x ^ (x >> 31);
}

static int64_t count_marked(const uint8_t *bytes, uint32_t length, uint64_t offset)
{
    int64_t marked = 0;
    if (offset % BLOCK == 0)
        for (uint32_t at = 0; at + BLOCK <= length; at += BLOCK)
            marked += is_marked(bytes + at);
    return marked;
}

static void store_blocks(const uint8_t *bytes, uint32_t length, uint64_t offset, int64_t *flipped, int64_t *dropped)
{
    uint32_t at = 0;
    while (at < length) {
        uint64_t address = offset + at;
        uint32_t inside = address % BLOCK;
        uint32_t piece = BLOCK - inside < length - at ? BLOCK - inside : length - at;
        int64_t to = place(address - inside);
        if (to < 0) {
            ++*dropped;
        } else {
            memcpy(store + to + inside, bytes + at, piece);
            if (piece == BLOCK && is_marked(bytes + at) && control.flip_every > 0
                && ++marked_seen % control.flip_every == 0) {
                uint64_t bit = mix(control.flip_seed + marked_seen) % (BLOCK * 8);
                store[to + bit / 8] ^= 1 << bit % 8;
                ++*flipped;
            }
        }
        at += piece;
    }
}

static int bad_pwrite(void *handle, const void *buffer, uint32_t length, uint64_t offset, uint32_t flags)
{
    int64_t arrived = now_ns();
    look_at_control();
    int64_t marked = count_marked(buffer, length, offset);
    if (marked > 0)
        stall_if_due();
    hang_if_due();
    int error = 0;
    int64_t flipped = 0, dropped = 0;
    if (due(control.eio_after_ms, control.eio_after_bytes) && (marked > 0 || !control.eio_marked_only))
        error = EIO;
    else if (due(control.ro_after_ms, control.ro_after_bytes))
        error = EROFS;
    if (!error) {
        int64_t rate = write_rate();
        int64_t now = now_ns();
        take_time(length, rate, now - arrived > 1000000 ? now : arrived);
        store_blocks(buffer, length, offset, &flipped, &dropped);
        armed_bytes += length;
        heat_bytes += length;
    }
    if (marked > 0)
        last_marked_ns = now_ns();
    log_event('W', arrived, offset, length, now_ns() - arrived, marked, flipped,
              error == EIO ? "eio" : error ? "erofs" : dropped ? "dropped" : "ok");
    if (error) {
        nbdkit_set_error(error);
        return -1;
    }
    return 0;
}

static int bad_pread(void *handle, void *buffer, uint32_t length, uint64_t offset, uint32_t flags)
{
    int64_t arrived = now_ns();
    look_at_control();
    int error = due(control.eio_after_ms, control.eio_after_bytes) && !control.eio_marked_only ? EIO : 0;
    if (!error) {
        take_time(length, control.read_rate, arrived);
        for (uint32_t at = 0; at < length;) {
            uint64_t address = offset + at;
            uint32_t inside = address % BLOCK;
            uint32_t piece = BLOCK - inside < length - at ? BLOCK - inside : length - at;
            int64_t from = place(address - inside);
            if (from < 0)
                memset((uint8_t *)buffer + at, 0, piece);
            else
                memcpy((uint8_t *)buffer + at, store + from + inside, piece);
            at += piece;
        }
    }
    log_event('R', arrived, offset, length, now_ns() - arrived, 0, 0, error ? "eio" : "ok");
    if (error) {
        nbdkit_set_error(error);
        return -1;
    }
    return 0;
}

static int bad_flush(void *handle, uint32_t flags)
{
    int64_t arrived = now_ns();
    look_at_control();
    int error = due(control.eio_after_ms, control.eio_after_bytes) && !control.eio_marked_only ? EIO : 0;
    log_event('F', arrived, 0, 0, now_ns() - arrived, 0, 0, error ? "eio" : "ok");
    if (error) {
        nbdkit_set_error(error);
        return -1;
    }
    return 0;
}

static int bad_config(const char *key, const char *value)
{
    if (strcmp(key, "size") == 0) {
        size = nbdkit_parse_size(value);
        return size < 0 ? -1 : 0;
    }
    if (strcmp(key, "control") == 0) {
        control_path = nbdkit_absolute_path(value);
        return control_path == NULL ? -1 : 0;
    }
    if (strcmp(key, "store") == 0) {
        store_path = nbdkit_absolute_path(value);
        return store_path == NULL ? -1 : 0;
    }
    if (strcmp(key, "log") == 0) {
        log_fd = open(value, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
        if (log_fd < 0)
            nbdkit_error("cannot open the request log %s: %m", value);
        return log_fd < 0 ? -1 : 0;
    }
    if (strcmp(key, "mark") == 0)
        return nbdkit_parse_uint32_t("mark", value, &mark);
    if (strcmp(key, "mark_at") == 0) {
        mark_at = strtoll(value, NULL, 10);
        return 0;
    }
    nbdkit_error("unknown parameter %s", key);
    return -1;
}

static int bad_config_complete(void)
{
    if (size <= 0) {
        nbdkit_error("size=BYTES is needed");
        return -1;
    }
    if (mark_at > BLOCK - 4) {
        nbdkit_error("mark_at must lie inside a block");
        return -1;
    }
    int store_fd = -1;
    if (store_path != NULL) {
        store_fd = open(store_path, O_RDWR | O_CREAT | O_CLOEXEC, 0644);
        if (store_fd < 0 || ftruncate(store_fd, size) != 0) {
            nbdkit_error("cannot make the store %s: %m", store_path);
            return -1;
        }
    }
    store = mmap(NULL, size, PROT_READ | PROT_WRITE,
                 store_fd >= 0 ? MAP_SHARED : MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, store_fd, 0);
    if (store == MAP_FAILED) {
        nbdkit_error("cannot reserve memory for the blocks: %m");
        return -1;
    }
    healthy();
    armed_ns = now_ns();
    return 0;
}

static void *bad_open(int readonly)
{
    return NBDKIT_HANDLE_NOT_NEEDED;
}

static int64_t bad_get_size(void *handle)
{
    return size;
}

static struct nbdkit_plugin plugin = {
    .name = "bad-drive",
    .longname = "a drive as bad as a test wants it",
    .config = bad_config,
    .config_complete = bad_config_complete,
    .open = bad_open,
    .get_size = bad_get_size,
    .pread = bad_pread,
    .pwrite = bad_pwrite,
    .flush = bad_flush,
    .errno_is_preserved = 0,
};

NBDKIT_REGISTER_PLUGIN(plugin)
