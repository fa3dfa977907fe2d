#include "dropping_disk.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* A write or truncation that no sync has followed yet. */
typedef struct pending {
    struct pending *next;
    sqlite3_int64 at;
    int size; /* -1 = the file ends at `at` */
    char bytes[];
} pending;

/* A file as the disk has it for sure. */
typedef struct image {
    struct image *next;
    char path[512];
    char *bytes;
    sqlite3_int64 size;
    bool is_durable; /* it would be there after a crash at all */
    pending *first, **last;
} image;

typedef struct dropping_file {
    sqlite3_file base;
    image *of; /* NULL of files without a name */
    sqlite3_file *real;
} dropping_file;

static struct {
    qll_random *random;
    image *images;
    unsigned long operations, stop_at;
    dropping_fault fault;
    unsigned long seen, nth;
    bool is_full, failed, is_dead, is_read_only;
} disk;

static sqlite3_vfs *real_vfs;

/* ---- images ---- */

static image *image_of(const char *path)
{
    for (image *i = disk.images; i != NULL; i = i->next) {
        if (strcmp(i->path, path) == 0) {
            return i;
        }
    }
    image *made = calloc(1, sizeof *made);
    (void)snprintf(made->path, sizeof made->path, "%s", path);
    made->last = &made->first;
    FILE *file = fopen(path, "rb");
    if (file != NULL) {
        made->is_durable = true;
        (void)fseek(file, 0, SEEK_END);
        made->size = ftell(file);
        (void)fseek(file, 0, SEEK_SET);
        made->bytes = malloc((size_t)made->size + 1);
        made->size = (sqlite3_int64)fread(made->bytes, 1, (size_t)made->size, file);
        (void)fclose(file);
    }
    made->next = disk.images;
    disk.images = made;
    return made;
}

static void note(image *of, sqlite3_int64 at, const void *bytes, int size)
{
    pending *made = malloc(sizeof *made + (size_t)(size > 0 ? size : 0));
    made->next = NULL;
    made->at = at;
    made->size = size;
    if (size > 0) {
        memcpy(made->bytes, bytes, (size_t)size);
    }
    *of->last = made;
    of->last = &made->next;
}

static void apply(image *of, const pending *one)
{
    if (one->size < 0) {
        of->size = one->at < of->size ? one->at : of->size;
        return;
    }
    const sqlite3_int64 end = one->at + one->size;
    if (end > of->size) {
        of->bytes = realloc(of->bytes, (size_t)end + 1);
        memset(of->bytes + of->size, 0, (size_t)(end - of->size));
        of->size = end;
    }
    memcpy(of->bytes + one->at, one->bytes, (size_t)one->size);
}

static void drop_pending(image *of)
{
    for (pending *one = of->first; one != NULL;) {
        pending *next = one->next;
        free(one);
        one = next;
    }
    of->first = NULL;
    of->last = &of->first;
}

/* ---- faults ---- */

/* Whether the power is still on for one operation more. */
static bool has_power(void)
{
    if (disk.is_dead) {
        return false;
    }
    disk.operations += 1;
    disk.is_dead = disk.stop_at > 0 && disk.operations > disk.stop_at;
    disk.failed = disk.failed || disk.is_dead;
    return !disk.is_dead;
}

static bool strikes(dropping_fault fault)
{
    if (disk.fault != fault) {
        return false;
    }
    disk.seen += 1;
    const bool now = disk.seen == disk.nth || (disk.is_full && disk.seen > disk.nth);
    disk.failed = disk.failed || now;
    return now;
}

/* ---- one file ---- */

static dropping_file *own(sqlite3_file *file)
{
    return (dropping_file *)file;
}

static int do_close(sqlite3_file *file)
{
    return own(file)->real->pMethods->xClose(own(file)->real);
}

static int do_read(sqlite3_file *file, void *to, int size, sqlite3_int64 at)
{
    return own(file)->real->pMethods->xRead(own(file)->real, to, size, at);
}

static int do_write(sqlite3_file *file, const void *bytes, int size, sqlite3_int64 at)
{
    if (!has_power()) {
        return SQLITE_IOERR_WRITE;
    }
    if (strikes(QLL_DROPPING_WRITE)) {
        return disk.is_full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
    }
    const int code = own(file)->real->pMethods->xWrite(own(file)->real, bytes, size, at);
    if (code == SQLITE_OK && own(file)->of != NULL) {
        note(own(file)->of, at, bytes, size);
    }
    return code;
}

static int do_truncate(sqlite3_file *file, sqlite3_int64 size)
{
    if (!has_power()) {
        return SQLITE_IOERR_TRUNCATE;
    }
    const int code = own(file)->real->pMethods->xTruncate(own(file)->real, size);
    if (code == SQLITE_OK && own(file)->of != NULL) {
        note(own(file)->of, size, NULL, -1);
    }
    return code;
}

static int do_sync(sqlite3_file *file, int flags)
{
    (void)flags;
    if (!has_power() || strikes(QLL_DROPPING_SYNC)) {
        return SQLITE_IOERR_FSYNC;
    }
    image *of = own(file)->of;
    for (const pending *one = of == NULL ? NULL : of->first; one != NULL; one = one->next) {
        apply(of, one);
    }
    if (of != NULL) {
        of->is_durable = true;
        drop_pending(of);
    }
    return SQLITE_OK; /* no real disk is waited for */
}

static int do_size(sqlite3_file *file, sqlite3_int64 *size)
{
    return own(file)->real->pMethods->xFileSize(own(file)->real, size);
}

static int do_lock(sqlite3_file *file, int lock)
{
    return own(file)->real->pMethods->xLock(own(file)->real, lock);
}

static int do_unlock(sqlite3_file *file, int lock)
{
    return own(file)->real->pMethods->xUnlock(own(file)->real, lock);
}

static int do_reserved(sqlite3_file *file, int *is_so)
{
    return own(file)->real->pMethods->xCheckReservedLock(own(file)->real, is_so);
}

static int do_control(sqlite3_file *file, int what, void *value)
{
    return own(file)->real->pMethods->xFileControl(own(file)->real, what, value);
}

static int do_sector(sqlite3_file *file)
{
    return own(file)->real->pMethods->xSectorSize(own(file)->real);
}

static int do_traits(sqlite3_file *file)
{
    return own(file)->real->pMethods->xDeviceCharacteristics(own(file)->real);
}

static int do_shm_map(sqlite3_file *file, int page, int size, int extends, void volatile **map)
{
    return disk.is_read_only
               ? SQLITE_CANTOPEN
               : own(file)->real->pMethods->xShmMap(own(file)->real, page, size, extends, map);
}

static int do_shm_lock(sqlite3_file *file, int offset, int count, int flags)
{
    return own(file)->real->pMethods->xShmLock(own(file)->real, offset, count, flags);
}

static void do_shm_barrier(sqlite3_file *file)
{
    own(file)->real->pMethods->xShmBarrier(own(file)->real);
}

static int do_shm_unmap(sqlite3_file *file, int deletes)
{
    return own(file)->real->pMethods->xShmUnmap(own(file)->real, disk.is_dead ? 0 : deletes);
}

static const sqlite3_io_methods methods = {
    .iVersion = 2,
    .xClose = do_close,
    .xRead = do_read,
    .xWrite = do_write,
    .xTruncate = do_truncate,
    .xSync = do_sync,
    .xFileSize = do_size,
    .xLock = do_lock,
    .xUnlock = do_unlock,
    .xCheckReservedLock = do_reserved,
    .xFileControl = do_control,
    .xSectorSize = do_sector,
    .xDeviceCharacteristics = do_traits,
    .xShmMap = do_shm_map,
    .xShmLock = do_shm_lock,
    .xShmBarrier = do_shm_barrier,
    .xShmUnmap = do_shm_unmap,
};

/* ---- the layer ---- */

static int do_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *file, int flags, int *given)
{
    (void)vfs;
    dropping_file *made = own(file);
    memset(made, 0, sizeof *made);
    made->real = (sqlite3_file *)(void *)(made + 1);
    if (disk.is_read_only) {
        flags = (flags & ~(SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)) | SQLITE_OPEN_READONLY;
    }
    made->of = name == NULL ? NULL : image_of(name);
    const int code = real_vfs->xOpen(real_vfs, name, made->real, flags, given);
    made->base.pMethods = made->real->pMethods == NULL ? NULL : &methods;
    return code;
}

/* As the disk has it for sure: SQLite syncs the folder where it counts on it. */
static int do_delete(sqlite3_vfs *vfs, const char *name, int sync_folder)
{
    (void)vfs;
    if (!has_power() || disk.is_read_only) {
        return SQLITE_IOERR_DELETE;
    }
    image *of = image_of(name);
    of->is_durable = false;
    of->size = 0;
    drop_pending(of);
    return real_vfs->xDelete(real_vfs, name, sync_folder & 0);
}

static sqlite3_vfs layer;

void dropping_disk_begin(qll_random *random)
{
    memset(&disk, 0, sizeof disk);
    disk.random = random;
    real_vfs = sqlite3_vfs_find(NULL);
    layer = *real_vfs;
    layer.zName = "dropping";
    layer.szOsFile = (int)sizeof(dropping_file) + real_vfs->szOsFile;
    layer.xOpen = do_open;
    layer.xDelete = do_delete;
    (void)sqlite3_vfs_register(&layer, 1);
}

void dropping_disk_fail_after(unsigned long operations)
{
    disk.stop_at = disk.operations + operations;
}

void dropping_disk_fault(dropping_fault fault, unsigned long nth, bool is_full)
{
    disk.fault = fault;
    disk.nth = nth;
    disk.is_full = is_full;
}

void dropping_disk_read_only(void)
{
    disk.is_read_only = true;
}

bool dropping_disk_failed(void)
{
    return disk.failed;
}

/* In half of all crashes nothing that was not synced stays; in the others each write does or does not. */
static bool drop_of(image *of, bool drops_all)
{
    bool lost = false;
    for (const pending *one = of->first; one != NULL; one = one->next) {
        if (drops_all || qll_random_unit(disk.random) < 0.5) {
            lost = true;
        } else {
            apply(of, one);
            of->is_durable = true;
        }
    }
    drop_pending(of);
    if (!of->is_durable) {
        (void)unlink(of->path);
        return lost;
    }
    FILE *file = fopen(of->path, "wb");
    if (file != NULL) {
        (void)fwrite(of->bytes, 1, (size_t)of->size, file);
        (void)fclose(file);
    }
    return lost;
}

bool dropping_disk_crash(void)
{
    const bool drops_all = qll_random_unit(disk.random) < 0.5;
    bool lost = false;
    disk.is_dead = true;
    for (image *of = disk.images; of != NULL; of = of->next) {
        lost = drop_of(of, drops_all) || lost;
        /* What stands beside a store in memory is no file after a crash. */
        char beside[520];
        (void)snprintf(beside, sizeof beside, "%s-shm", of->path);
        (void)unlink(beside);
    }
    return lost;
}

void dropping_disk_end(void)
{
    (void)sqlite3_vfs_unregister(&layer);
    (void)sqlite3_vfs_register(real_vfs, 1);
    while (disk.images != NULL) {
        image *next = disk.images->next;
        drop_pending(disk.images);
        free(disk.images->bytes);
        free(disk.images);
        disk.images = next;
    }
}

/* ---- memory ---- */

static sqlite3_mem_methods real_memory;
static unsigned long memory_left;
static bool memory_counts, memory_failed;

static bool memory_fails(void)
{
    if (!memory_counts) {
        return false;
    }
    memory_left -= memory_left > 0 ? 1 : 0;
    memory_failed = memory_failed || memory_left == 0;
    return memory_left == 0;
}

static void *take(int size)
{
    return memory_fails() ? NULL : real_memory.xMalloc(size);
}

static void *take_again(void *old, int size)
{
    return memory_fails() ? NULL : real_memory.xRealloc(old, size);
}

void dropping_memory_install(void)
{
    (void)sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real_memory);
    sqlite3_mem_methods failing = real_memory;
    failing.xMalloc = take;
    failing.xRealloc = take_again;
    (void)sqlite3_config(SQLITE_CONFIG_MALLOC, &failing);
    /* All memory by way of the above. */
    (void)sqlite3_config(SQLITE_CONFIG_LOOKASIDE, 0, 0);
}

void dropping_memory_begin(unsigned long nth)
{
    memory_left = nth;
    memory_failed = false;
    memory_counts = true;
}

bool dropping_memory_end(void)
{
    memory_counts = false;
    return memory_failed;
}
