/* The whole test framework: checks that go on after a failure and print both values. */
#ifndef QUELL_TESTS_CHECK_H
#define QUELL_TESTS_CHECK_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* The sanitizers take five times as long: there one in so many of what is drawn, sampled or edited is tried, for what they
 * look for shows in any of it; the other runs try all. */
#ifndef TEST_ONE_IN
#    define TEST_ONE_IN 1
#endif

static int check_failures, check_count;

static inline bool check_report(bool holds, const char *file, int line, const char *what)
{
    check_count += 1;
    if (!holds) {
        check_failures += 1;
        printf("%s:%d: failed: %s\n", file, line, what);
    }
    return holds;
}

static inline bool check_near(double got, double want, double tolerance, const char *file, int line,
                              const char *what)
{
    bool holds = fabs(got - want) <= tolerance || (isnan(got) && isnan(want));
    if (!check_report(holds, file, line, what)) {
        printf("    got %.17g, want %.17g within %g\n", got, want, tolerance);
    }
    return holds;
}

static inline bool check_text(const char *got, const char *want, const char *file, int line,
                              const char *what)
{
    bool holds = got != NULL && strcmp(got, want) == 0;
    if (!check_report(holds, file, line, what)) {
        printf("    got  \"%s\"\n    want \"%s\"\n", got == NULL ? "(null)" : got, want);
    }
    return holds;
}

#define CHECK(condition) check_report((condition), __FILE__, __LINE__, #condition)
/* Within a share of the wanted value, or an absolute distance. */
#define CHECK_NEAR(got, want, relative) \
    check_near((got), (want), fabs((double)(want)) * (relative), __FILE__, __LINE__, #got)
#define CHECK_WITHIN(got, want, distance) \
    check_near((got), (want), (distance), __FILE__, __LINE__, #got)
#define CHECK_TEXT(got, want) check_text((got), (want), __FILE__, __LINE__, #got)

#define TEST(name) static void name(void)
#define TEST_RUN(name)                                                        \
    do {                                                                      \
        int before = check_failures;                                          \
        name();                                                               \
        printf("%s %s\n", check_failures == before ? "ok  " : "FAIL", #name); \
    } while (0)
/* A program that checked nothing has failed. */
#define TEST_END()                                                  \
    (printf("%d checks, %d failed\n", check_count, check_failures), \
     check_failures == 0 && check_count > 0 ? 0 : 1)

#endif
