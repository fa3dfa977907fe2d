/* What a program does that lives in its user's locale, before anything else of it runs: linked into the command line, so that
 * all it asks is asked of the library by such a program. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__attribute__((constructor)) static void choose(void)
{
    const char *wanted = getenv("QUELL_TEST_MARK");
    char half[16];
    const char *chosen = setlocale(LC_ALL, "");
    (void)snprintf(half, sizeof half, "%.1f", 0.5);
    /* Else this would be the C locale over again. */
    if (chosen == NULL || wanted == NULL || strstr(half, wanted) != half + 1) {
        (void)fprintf(stderr, "the locale is not there: %s writes %s\n",
                      chosen == NULL ? "none" : chosen, half);
        exit(99);
    }
}
