#include "folder.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static void *must(void *memory, const char *what)
{
    if (memory == NULL) {
        perror(what);
        exit(1);
    }
    return memory;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static int ends_with(const char *name, const char *ending)
{
    size_t size = strlen(name);
    size_t ending_size = strlen(ending);
    return size >= ending_size && strcmp(name + size - ending_size, ending) == 0;
}

folder folder_open(const char *path, const char *ending)
{
    folder found = {.count = 0};
    DIR *entries = must(opendir(path), path);
    for (struct dirent *entry = readdir(entries); entry != NULL; entry = readdir(entries)) {
        size_t size = strlen(path) + strlen(entry->d_name) + 2;
        char *inside = must(malloc(size), path);
        (void)snprintf(inside, size, "%s/%s", path, entry->d_name);
        struct stat about;
        if (!ends_with(entry->d_name, ending) || stat(inside, &about) != 0
            || !S_ISREG(about.st_mode)) {
            free(inside);
            continue;
        }
        found.paths = must(realloc(found.paths, (found.count + 1) * sizeof *found.paths), path);
        found.paths[found.count] = inside;
        found.count += 1;
    }
    closedir(entries);
    if (found.count > 0) {
        qsort(found.paths, found.count, sizeof *found.paths, by_name);
    }
    return found;
}

void folder_close(folder *opened)
{
    for (size_t i = 0; i < opened->count; i++) {
        free(opened->paths[i]);
    }
    free(opened->paths);
}

char *folder_read(const char *path, size_t *size)
{
    *size = 0;
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return NULL;
    }
    size_t room = 0;
    char *bytes = NULL;
    do {
        room = room == 0 ? 4096 : room * 2;
        bytes = must(realloc(bytes, room), path);
        *size += fread(bytes + *size, 1, room - 1 - *size, file);
    } while (*size == room - 1);
    fclose(file);
    bytes[*size] = '\0';
    return bytes;
}
