#include "demand/demand.h"
#include "truth.h"

static double quantity(const qll_table *rows, size_t row, const qll_pulse_day *day)
{
    if (truth_is(rows, row, "quantity", "quantile_lps")) {
        return qll_duration_quantile(&day->duration, truth_number(rows, row, "at")) * 1e3;
    }
    if (truth_is(rows, row, "quantity", "idle_share")) {
        return day->duration.idle_share;
    }
    if (truth_is(rows, row, "quantity", "day_none_share")) {
        return day->none_share;
    }
    if (truth_is(rows, row, "quantity", "day_mean_lps")) {
        return day->duration.mean_m3s * 1e3;
    }
    const qll_pulse_hour *hour = &day->hours[(size_t)truth_number(rows, row, "at")];
    if (truth_is(rows, row, "quantity", "busy_count")) {
        return hour->busy_count;
    }
    if (truth_is(rows, row, "quantity", "mean_lps")) {
        return hour->mean_m3s * 1e3;
    }
    if (truth_is(rows, row, "quantity", "deviation_lps")) {
        return hour->deviation_m3s * 1e3;
    }
    CHECK(truth_is(rows, row, "quantity", "none_share"));
    return hour->none_share;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/pulse_day.csv", arena);
    const qll_scenario scenario = {.name = "40 flats",
                                   .use = QLL_USE_APARTMENT,
                                   .people = 92,
                                   .homes = 40,
                                   .peak_method = QLL_PEAK_METHOD_COUNT,
                                   .peak_given_m3s = NAN,
                                   .quantile = 0.99};
    qll_pulse_day day;
    CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
    CHECK(rows.row_count > 100);
    for (size_t row = 0; row < rows.row_count; row++) {
        CHECK_WITHIN(quantity(&rows, row, &day), truth_number(&rows, row, "value"),
                     truth_number(&rows, row, "tolerance"));
    }
    qll_arena_close(arena);
    return TEST_END();
}
