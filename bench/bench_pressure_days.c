/* How often the findings of pressure logs are right: logs of known states, made by the generators of tests/, on seeds never
 * used for tuning. Prints a line for each state: how many logs got exactly what is wrong with them, and what else was found;
 * and each log that was judged wrongly, by its seed.
 *
 *     bench_pressure_days [NOISE_PA [FIRST_SEED [LAST_SEED [survey] [second]]]]
 */
#include "pressure_days.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct tally {
    int right, all;
    int words[QLL_PRESSURE_WORD_COUNT];
} tally;

static void print_miss(const char *name, int seed, unsigned found)
{
    printf("  missed: %s, seed %d:", name, seed);
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        if ((found >> w & 1U) != 0) {
            printf(" %s", qll_pressure_words[w]);
        }
    }
    printf("\n");
}

static void count(tally *to, unsigned found, bool is_right)
{
    to->all += 1;
    to->right += is_right ? 1 : 0;
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        to->words[w] += (int)(found >> w & 1U);
    }
}

static void print_line(const char *name, const tally *of)
{
    printf("%-16s %4d of %-4d", name, of->right, of->all);
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        if (of->words[w] > 0) {
            printf("  %s %d", qll_pressure_words[w], of->words[w]);
        }
    }
    printf("\n");
    fflush(stdout);
}

int main(int count_of, char **arguments)
{
    const double noise_pa = count_of > 1 ? strtod(arguments[1], NULL) : 800.0;
    const int first = count_of > 2 ? (int)strtol(arguments[2], NULL, 10) : 1001;
    const int last = count_of > 3 ? (int)strtol(arguments[3], NULL, 10) : 1020;
    bool with_survey = false;
    bool second = false;
    for (int i = 4; i < count_of; i++) {
        with_survey = with_survey || strcmp(arguments[i], "survey") == 0;
        second = second || strcmp(arguments[i], "second") == 0;
    }
    tally whole = {0};
    static qll_pressure_result result;
    for (int state = 0; state < QLL_DAY_STATES; state++) {
        tally of = {0};
        for (int seed = first; seed <= last; seed++) {
            qll_arena *arena = qll_arena_open((size_t)512 << 20);
            const day_log log =
                second ? other_day_make((day_state)state, (uint64_t)seed, noise_pa, arena)
                       : day_make((day_state)state, (uint64_t)seed, noise_pa, arena);
            const unsigned found =
                log.count == 0 ? 0 : day_found(&log, with_survey, arena, &result);
            const bool is_right = day_is_right((day_state)state, found);
            if (log.count > 0) {
                count(&of, found, is_right);
                count(&whole, found, is_right);
            }
            if (log.count > 0 && !is_right) {
                print_miss(day_names[state], seed, found);
            }
            qll_arena_close(arena);
        }
        if (of.all > 0) {
            print_line(day_names[state], &of);
        }
    }
    print_line("all", &whole);
    return 0;
}
