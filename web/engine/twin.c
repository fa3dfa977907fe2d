/* The same door as a program, to compare the engine in a browser with: "SIZE SIZE ...\n" and the bytes of the documents, the
 * last of them the question; answers "STATUS SIZE PROBLEMS\n" and both texts, over and over. */
#include <stdio.h>
#include <stdlib.h>

int quell_open(size_t ceiling_size, size_t kept_size);
int quell_begin(void);
char *quell_hand_in(size_t size);
int quell_ask(size_t question);
const char *quell_answer(void);
size_t quell_answer_size(void);
const char *quell_problems(void);
size_t quell_problems_size(void);
int quell_progress(double share);
int quell_read_file(int file, double at, char *bytes, int size);

int quell_progress(double share)
{
    return share >= 0.0;
}

int quell_read_file(int file, double at, char *bytes, int size)
{
    (void)file;
    (void)at;
    (void)bytes;
    (void)size;
    return -1;
}

int main(int argc, char **argv)
{
    const size_t kept = argc > 1 ? (size_t)strtoul(argv[1], NULL, 10) : 0;
    char line[1024];
    if (!quell_open((size_t)256 << 20, kept)) {
        return 1;
    }
    while (fgets(line, sizeof line, stdin) != NULL) {
        (void)quell_begin();
        size_t count = 0;
        char *rest = line;
        char *end = line;
        size_t sizes[64];
        for (sizes[0] = strtoul(rest, &end, 10); end != rest && count < 63;
             sizes[count] = strtoul(rest, &end, 10)) {
            count += 1;
            rest = end;
        }
        for (size_t i = 0; i < count; i++) {
            char *bytes = quell_hand_in(sizes[i]);
            if (bytes == NULL || fread(bytes, 1, sizes[i], stdin) != sizes[i]) {
                return 1;
            }
        }
        const int status = quell_ask(count - 1);
        printf("%d %zu %zu\n", status, quell_answer_size(), quell_problems_size());
        fwrite(quell_answer(), 1, quell_answer_size(), stdout);
        fwrite(quell_problems(), 1, quell_problems_size(), stdout);
        fflush(stdout);
    }
    return 0;
}
