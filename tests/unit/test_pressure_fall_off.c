/* Fall-off that grows over weeks: docs/theory/pressure_log.md. */
#include "check.h"
#include "pressure_days.h"
#include "pressure_found.h"
#include "signals/pressure_log.h"

/* Three weeks, by the second generator, which does not live through the seconds; both that grow are told apart. */
TEST(fall_off_that_grows_is_found)
{
    static const day_state states[] = {QLL_DAY_MONTH, QLL_DAY_CLOGGING, QLL_DAY_HALF_SHUT};
    static qll_pressure_result result;
    for (size_t i = 0; i < sizeof states / sizeof *states; i++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        const day_log log = other_day_make(states[i], 1, 800.0, arena);
        const unsigned found = day_found(&log, false, arena, &result);
        if (!CHECK(day_is_right(states[i], found))) {
            printf("    %s: found %x\n", day_names[states[i]], found);
        }
        const qll_pressure_finding *drift =
            pressure_found(&result, QLL_PRESSURE_WORD_FALL_OFF_DRIFT);
        CHECK((drift != NULL) == (states[i] != QLL_DAY_MONTH));
        if (drift != NULL) {
            CHECK(drift->is_step == (states[i] == QLL_DAY_HALF_SHUT) && drift->stretch != NULL);
        }
        qll_arena_close(arena);
    }
}

/* Ten days are not enough, and it is said what would be; 30 days in which hardly anybody draws are too little as well. */
TEST(a_fall_off_drift_takes_two_weeks)
{
    static qll_pressure_result result;
    static const qll_pressure_expect none = {0};
    const qll_channel_facts facts = {.has = {true, true, true, false}, .interval_ms = 10000};
    for (int is_long = 0; is_long < 2; is_long++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        qll_pressure_state *state = qll_pressure_begin(&facts, arena);
        const int64_t rows = (is_long == 1 ? 30 : 10) * INT64_C(8640);
        for (int64_t i = 0; CHECK(state != NULL) && i < rows; i++) {
            const bool runs = i % (is_long == 1 ? 8640 : 360) < 12;
            const double flow = runs ? 5e-5 * (double)(1 + i / 8640 % 6) : 0.0;
            const double inlet = 7e5;
            const double outlet = 4e5 - 1e8 * flow;
            const double *values[QLL_CHANNEL_COUNT] = {&inlet, &outlet, &flow, NULL};
            const int64_t at_ms = INT64_C(1772323200000) + i * 10000;
            qll_pressure_take(state, &at_ms, values, 1);
        }
        CHECK(qll_pressure_judge(state, &none, arena, &result));
        const qll_unjudged *of = &result.unjudged[QLL_PRESSURE_WORD_FALL_OFF_DRIFT];
        CHECK(of->holds && of->why == QLL_UNJUDGED_TIME && isnan(of->needs) == (is_long == 1));
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(fall_off_that_grows_is_found);
    TEST_RUN(a_fall_off_drift_takes_two_weeks);
    return TEST_END();
}
