/* Runs every file of the given files and folders through a fuzz target once: the seeds as an
 * ordinary test, with any compiler. */
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static int replay_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        exit(1);
    }
    size_t size = 0;
    size_t room = 0;
    unsigned char *bytes = NULL;
    do {
        room = room == 0 ? 4096 : room * 2;
        unsigned char *grown = realloc(bytes, room);
        if (grown == NULL) {
            perror(path);
            exit(1);
        }
        bytes = grown;
        size += fread(bytes + size, 1, room - size, file);
    } while (size == room);
    fclose(file);
    /* An exact copy, so that reading one byte too far is seen. */
    unsigned char *exact = malloc(size > 0 ? size : 1);
    if (exact == NULL) {
        perror(path);
        exit(1);
    }
    memcpy(exact, bytes, size);
    free(bytes);
    /* A target that stops the program leaves the name of its input behind. */
    printf("%s\n", path);
    fflush(stdout);
    LLVMFuzzerTestOneInput(exact, size);
    free(exact);
    return 1;
}

static int replay(const char *path)
{
    DIR *folder = opendir(path);
    if (folder == NULL) {
        return replay_file(path);
    }
    int count = 0;
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        char inside[4096];
        int size = snprintf(inside, sizeof inside, "%s/%s", path, entry->d_name);
        struct stat about;
        if (size > 0 && (size_t)size < sizeof inside && stat(inside, &about) == 0
            && S_ISREG(about.st_mode)) {
            count += replay_file(inside);
        }
    }
    closedir(folder);
    return count;
}

int main(int argc, char **argv)
{
    int count = 0;
    for (int i = 1; i < argc; i++) {
        int found = replay(argv[i]);
        if (found == 0) {
            printf("%s: no file in it\n", argv[i]);
            return 1;
        }
        count += found;
    }
    printf("%d files\n", count);
    return count > 0 ? 0 : 1;
}
