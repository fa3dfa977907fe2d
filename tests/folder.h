/* The files of a folder and their bytes, for test programs that run over many. */
#ifndef QUELL_TESTS_FOLDER_H
#define QUELL_TESTS_FOLDER_H

#include <stddef.h>

typedef struct folder {
    char **paths; /* in the order of their names */
    size_t count;
} folder;

/** All plain files of folder @p path whose name ends with @p ending. Stops the program if it cannot
 * be read. */
folder folder_open(const char *path, const char *ending);
void folder_close(folder *opened);

/** The bytes of a file and a closing zero, for free(); NULL if there is no such file. */
char *folder_read(const char *path, size_t *size);

#endif
