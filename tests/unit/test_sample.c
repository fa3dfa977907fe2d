#include "check.h"
#include "numeric/probability.h"
#include "numeric/sample.h"

#define TEST_DRAWS 200000

/* What a table draws, from its cells, against what went in: no sampling error at all. */
static void check_alias(const double *p, size_t count)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_alias alias;
    CHECK(qll_alias_make(p, count, arena, &alias) == QLL_OK);
    const size_t size = (size_t)1 << (64 - alias.shift);
    double *got = qll_arena_take(arena, size, sizeof *got);
    for (size_t i = 0; i < size; i++) {
        const double own = ldexp((double)alias.cells[i].threshold, -32);
        got[i] += own / (double)size;
        got[alias.cells[i].other] += (1.0 - own) / (double)size;
    }
    for (size_t i = 0; i < size; i++) {
        CHECK_WITHIN(got[i], i < count ? p[i] : 0.0, 1e-9);
    }
    qll_arena_close(arena);
}

TEST(alias_tables_hold_their_distribution)
{
    static const double one[] = {1.0};
    static const double two[] = {0.6, 0.4};
    static const double few[] = {0.0, 0.01, 0.7, 0.0, 0.09, 0.2, 0.0};
    check_alias(one, 1);
    check_alias(two, 2);
    check_alias(few, 7);
    static double many[1000];
    double sum = 0.0;
    qll_random random = qll_random_seeded(5);
    for (size_t i = 0; i < 1000; i++) {
        many[i] = pow(qll_random_unit(&random), 8.0);
        sum += many[i];
    }
    for (size_t i = 0; i < 1000; i++) {
        many[i] /= sum;
    }
    check_alias(many, 1000);
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_alias alias;
    qll_arena_fail(arena, 2, false);
    CHECK(qll_alias_make(many, 1000, arena, &alias) == QLL_NO_MEMORY);
    CHECK(qll_alias_make(few, 7, arena, &alias) == QLL_OK);
    size_t drawn[8] = {0};
    for (size_t i = 0; i < TEST_DRAWS; i++) {
        drawn[qll_alias_draw(alias, &random)] += 1;
    }
    CHECK(drawn[0] == 0 && drawn[3] == 0 && drawn[6] == 0 && drawn[7] == 0);
    for (size_t i = 0; i < 7; i++) { /* five standard deviations */
        CHECK_WITHIN((double)drawn[i] / TEST_DRAWS, few[i],
                     5.0 * sqrt(few[i] * (1.0 - few[i]) / TEST_DRAWS));
    }
    qll_arena_close(arena);
}

/* Mean within five standard errors; variance within five of its own, sqrt(2/n + kurtosis/n). */
static void check_moments(const double *values, double mean, double variance, double kurtosis)
{
    double sum = 0.0;
    double squares = 0.0;
    for (size_t i = 0; i < TEST_DRAWS; i++) {
        sum += values[i];
        squares += (values[i] - mean) * (values[i] - mean);
    }
    CHECK_WITHIN(sum / TEST_DRAWS, mean, 5.0 * sqrt(variance / TEST_DRAWS));
    CHECK_WITHIN(squares / TEST_DRAWS, variance,
                 5.0 * variance * sqrt((2.0 + kurtosis) / TEST_DRAWS));
}

static double values[TEST_DRAWS];

TEST(poisson_numbers_have_poisson_moments)
{
    static const double means[] = {0.01, 0.7, 9.0, 15.99, 16.0, 180.3, 25000.0};
    qll_random random = qll_random_seeded(11);
    for (size_t m = 0; m < 7; m++) {
        for (size_t i = 0; i < TEST_DRAWS; i++) {
            values[i] = qll_sample_poisson(&random, means[m]);
        }
        check_moments(values, means[m], means[m], 1.0 / means[m]);
    }
    CHECK(qll_sample_poisson(&random, 0.0) == 0.0);
}

/* Frequencies of single numbers at mean 20, five standard deviations. */
TEST(poisson_numbers_have_poisson_frequencies)
{
    qll_random random = qll_random_seeded(12);
    size_t drawn[100] = {0};
    for (size_t i = 0; i < TEST_DRAWS; i++) {
        drawn[(size_t)qll_sample_poisson(&random, 20.0)] += 1;
    }
    for (size_t k = 0; k < 50; k++) {
        const double p = exp(qll_poisson_log((double)k, 20.0));
        CHECK_WITHIN((double)drawn[k] / TEST_DRAWS, p,
                     5.0 * sqrt(p / TEST_DRAWS) + 2.0 / TEST_DRAWS);
    }
}

/* A gamma number of shape a has mean a, variance a and excess kurtosis 6/a; here over a. */
TEST(gamma_numbers_have_gamma_moments)
{
    static const double cvs[] = {0.05, 0.4, 1.0, 1.8};
    qll_random random = qll_random_seeded(13);
    for (size_t c = 0; c < 4; c++) {
        for (size_t i = 0; i < TEST_DRAWS; i++) {
            values[i] = qll_sample_gamma(&random, cvs[c]);
        }
        check_moments(values, 1.0, cvs[c] * cvs[c], 6.0 * cvs[c] * cvs[c]);
    }
    /* A spread that no double can show is none. */
    static const double least[] = {1e-8, 1e-100, 1e-200, 0x1p-1074};
    for (size_t c = 0; c < 4; c++) {
        CHECK_WITHIN(qll_sample_gamma(&random, least[c]), 1.0, 1e-7);
    }
}

TEST(normal_numbers_have_normal_moments)
{
    qll_random random = qll_random_seeded(14);
    size_t above = 0;
    for (size_t i = 0; i < TEST_DRAWS; i++) {
        values[i] = qll_sample_normal(&random);
        above += values[i] > qll_normal_quantile(0.99);
    }
    check_moments(values, 0.0, 1.0, 0.0);
    CHECK_WITHIN((double)above / TEST_DRAWS, 0.01, 5.0 * sqrt(0.0099 / TEST_DRAWS));
}

int main(void)
{
    TEST_RUN(alias_tables_hold_their_distribution);
    TEST_RUN(poisson_numbers_have_poisson_moments);
    TEST_RUN(poisson_numbers_have_poisson_frequencies);
    TEST_RUN(gamma_numbers_have_gamma_moments);
    TEST_RUN(normal_numbers_have_normal_moments);
    return TEST_END();
}
