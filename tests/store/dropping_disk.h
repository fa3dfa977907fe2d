/* A file layer under SQLite (a VFS) that keeps of each file what was synced, and at a crash drops what was not: all of it, or any part. And
 * faults: the nth write or sync fails, the disk is full, or may only be read; the nth allocation of SQLite fails. */
#ifndef QUELL_TESTS_DROPPING_DISK_H
#define QUELL_TESTS_DROPPING_DISK_H

#include "base/random.h"

#include <stdbool.h>

typedef enum dropping_fault {
    QLL_DROPPING_NONE,
    QLL_DROPPING_WRITE,
    QLL_DROPPING_SYNC,
} dropping_fault;

/** From now on every file that SQLite opens lies on such a disk. */
void dropping_disk_begin(qll_random *random);

/** The power fails after so many writes, syncs and truncations: none after is done. */
void dropping_disk_fail_after(unsigned long operations);

/** The @p nth of a kind fails; @p is_full: for want of room, and all writes after it. */
void dropping_disk_fault(dropping_fault fault, unsigned long nth, bool is_full);

/** Nothing can be written. */
void dropping_disk_read_only(void);

/** Whether a fault has struck. */
bool dropping_disk_failed(void);

/** Makes the files what a crash would have left; whether anything was lost. What is open writes nothing any more. */
bool dropping_disk_crash(void);

/** Files are as ever again. All that were opened meanwhile are closed. */
void dropping_disk_end(void);

/** Before SQLite is first used: its memory can be made to fail. */
void dropping_memory_install(void);
void dropping_memory_begin(unsigned long nth);
/** Whether it did fail. */
bool dropping_memory_end(void);

#endif
