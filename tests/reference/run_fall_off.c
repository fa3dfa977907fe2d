/* Whether the fall-off grew over 20 days: logs laid down row by row, their figures by tests/oracles/fall_off.py. */
#include "signals/pressure_log.h"
#include "truth.h"

#include <math.h>
#include <stdlib.h>

#define QLL_DAYS       20
#define QLL_DRAWS      24
#define QLL_INTERVAL_S 10
#define QLL_LOG_ROWS   ((size_t)QLL_DAYS * 86400 / QLL_INTERVAL_S)
#define QLL_DRAW_ROWS  360 /* from one draw to the next: an hour */
#define QLL_RUN_FROM   60
#define QLL_RUN_TO     72

static int64_t at_ms[QLL_LOG_ROWS];
static double inlet[QLL_LOG_ROWS], outlet[QLL_LOG_ROWS], flow[QLL_LOG_ROWS];

static double next_noise(uint64_t *state)
{
    *state = (1103515245 * *state + 12345) % 2147483648;
    return (double)*state / 2147483648.0 - 0.5;
}

/* The oracle's runs(), in Pa and m3/s; between them the main, and the lock-up. */
static void lay_down(const qll_table *rows, size_t row)
{
    uint64_t state = 1;
    const double grows = truth_number(rows, row, "grows");
    const double step = truth_number(rows, row, "step");
    const double step_day = truth_number(rows, row, "step_day");
    const double drifts = truth_number(rows, row, "set_drifts");
    const double falls = truth_number(rows, row, "main_falls");
    for (size_t draw = 0; draw < (size_t)QLL_DAYS * QLL_DRAWS; draw++) {
        const size_t day_of = draw / QLL_DRAWS;
        const double day = (double)day_of;
        const double main_kpa = 700.0 - falls * day;
        const double inlet_kpa = main_kpa + 40.0 * next_noise(&state);
        const double lps = 0.06 + 0.04 * (double)((5 * (draw % QLL_DRAWS) + day_of) % 8);
        const double screen = grows * day + (step > 0.0 && day >= step_day ? step : 0.0);
        const double outlet_kpa = 395.0 + drifts * day
                                  - 110.0 * lps * sqrt(300.0 / (inlet_kpa - 395.0))
                                  - screen * lps * lps + 2.0 * next_noise(&state);
        for (size_t i = 0; i < QLL_DRAW_ROWS; i++) {
            const size_t at = draw * QLL_DRAW_ROWS + i;
            const bool runs = i >= QLL_RUN_FROM && i < QLL_RUN_TO;
            at_ms[at] = INT64_C(1772323200000) + (int64_t)at * QLL_INTERVAL_S * 1000;
            inlet[at] = 1e3 * (runs ? inlet_kpa : main_kpa);
            outlet[at] = 1e3 * (runs ? outlet_kpa : 407.0 + drifts * day);
            flow[at] = runs ? lps / 1e3 : 0.0;
        }
    }
}

static const qll_pressure_finding *find_drift(const qll_pressure_result *result)
{
    for (size_t i = 0; i < result->finding_count; i++) {
        if (result->findings[i].word == QLL_PRESSURE_WORD_FALL_OFF_DRIFT) {
            return &result->findings[i];
        }
    }
    return NULL;
}

/* Growth is found and shown day by day; what does not grow is not listed. */
static void check_finding(const qll_pressure_result *result, double expected_pa, bool is_step)
{
    const qll_pressure_finding *found = find_drift(result);
    if (!CHECK((found != NULL) == (expected_pa > 7.5e3)) || found == NULL) {
        return;
    }
    CHECK(found->strength >= 0.5 && found->is_step == is_step && !found->is_of_inlet);
    CHECK_NEAR(found->flow_m3s, 0.34e-3, 1e-9);
    if (CHECK(found->stretch != NULL && found->stretch->count == QLL_DAYS)) {
        const double *shown = found->stretch->outlet_pa;
        CHECK_WITHIN(shown[0] - shown[QLL_DAYS - 1], expected_pa, 4e3);
    }
}

int main(void)
{
    qll_arena *table_arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/fall_off.csv", table_arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        static qll_pressure_result result;
        static const qll_pressure_expect none = {0};
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        const qll_channel_facts facts = {.has = {true, true, true, false},
                                         .interval_ms = (int64_t)QLL_INTERVAL_S * 1000};
        const double *values[QLL_CHANNEL_COUNT] = {inlet, outlet, flow, NULL};
        lay_down(&rows, row);
        qll_pressure_state *state = qll_pressure_begin(&facts, arena);
        if (CHECK(state != NULL)) {
            qll_pressure_take(state, at_ms, values, QLL_LOG_ROWS);
            CHECK(qll_pressure_judge(state, &none, arena, &result));
            const double expected_kpa = truth_number(&rows, row, "expected");
            CHECK(result.features.fall_off_span_count == QLL_DAYS);
            CHECK_WITHIN(result.features.fall_off_moved_pa / 1e3, expected_kpa,
                         truth_number(&rows, row, "tolerance"));
            check_finding(&result, 1e3 * expected_kpa, truth_number(&rows, row, "is_step") > 0.0);
        }
        qll_arena_close(arena);
    }
    qll_arena_close(table_arena);
    return TEST_END();
}
