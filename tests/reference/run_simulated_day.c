#include "simulated_days.h"
#include "truth.h"

#define TEST_DAYS      200
#define TEST_ROWS_MOST 20

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/simulated_day.csv", arena);
    const qll_scenario scenario = {.name = "40 flats",
                                   .use = QLL_USE_APARTMENT,
                                   .people = 92,
                                   .homes = 40,
                                   .peak_method = QLL_PEAK_METHOD_COUNT,
                                   .peak_given_m3s = NAN,
                                   .quantile = 0.99};
    CHECK(rows.row_count >= 9 && rows.row_count <= TEST_ROWS_MOST);
    double shares[TEST_ROWS_MOST];
    double times_s[TEST_ROWS_MOST];
    qll_simulation wanted = {
        .seed = 20, .days = TEST_DAYS, .shares = shares, .averaging_s = times_s};
    for (size_t row = 0; row < rows.row_count; row++) {
        const double at = truth_number(&rows, row, "at");
        if (truth_is(&rows, row, "quantity", "quantile")) {
            shares[wanted.share_count++] = at;
        } else {
            times_s[wanted.averaging_count++] = at;
        }
    }
    qll_simulated got;
    CHECK(qll_simulate(&scenario, &wanted, arena, &got) == QLL_OK);
    size_t quantile = 0;
    size_t peak = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_day_spread spread = truth_is(&rows, row, "quantity", "quantile")
                                          ? got.quantiles[quantile++]
                                          : got.peaks[peak++];
        const double deviation = truth_number(&rows, row, "deviation_lps");
        const double days = truth_number(&rows, row, "days");
        CHECK_WITHIN(spread.mean * 1e3, truth_number(&rows, row, "value_lps"),
                     truth_number(&rows, row, "tolerance_errors") * deviation
                         * sqrt(1.0 / days + 1.0 / TEST_DAYS));
        CHECK_NEAR(spread.deviation * 1e3, deviation,
                   truth_number(&rows, row, "tolerance_deviation"));
    }
    qll_arena_close(arena);
    return TEST_END();
}
