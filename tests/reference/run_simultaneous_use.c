#include "base/customary.h"
#include "use_groups.h"

/* The share of time at or below a grid flow. */
static double share_at(const qll_simultaneous *use, double flow_m3s)
{
    double share = 0.0;
    for (size_t i = 0; i < use->distribution.count; i++) {
        if (use->step_m3s * (double)i <= flow_m3s * (1.0 + 1e-9)) {
            share += use->distribution.p[i];
        }
    }
    return share;
}

static void check_share(const qll_table *rows, size_t row, const char *column, double got)
{
    const double want = qll_table_number(rows, row, qll_table_column(rows, column));
    if (!isnan(want)) {
        CHECK_WITHIN(got, want, truth_number(rows, row, "tolerance_share"));
    }
}

static void check_gpm(const qll_table *rows, size_t row, const char *column, double got_m3s)
{
    const double want = qll_table_number(rows, row, qll_table_column(rows, column));
    if (!isnan(want)) {
        CHECK_WITHIN(got_m3s / QLL_GPM_M3S, want, truth_number(rows, row, "tolerance_gpm"));
    }
}

/* Quantiles are values of the grid: nothing but the last bits may differ. */
static void check_quantile(const qll_table *rows, size_t row, const char *column, double got_m3s)
{
    const double want = qll_table_number(rows, row, qll_table_column(rows, column));
    if (!isnan(want)) {
        CHECK_WITHIN(got_m3s / QLL_GPM_M3S, want, 1e-9);
    }
}

TEST(quantiles_moments_and_shares)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/simultaneous_use.csv", arena);
    size_t fitted = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        const use_groups groups = use_groups_of(&rows, row);
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(groups.list, groups.count, 0.99, arena, &use) == QLL_OK);
        CHECK(use.rounding_m3s == 0.0);
        check_share(&rows, row, "busy_count", use.busy_count);
        check_share(&rows, row, "idle_share", use.idle_share);
        check_gpm(&rows, row, "mean_gpm", use.mean_m3s);
        check_gpm(&rows, row, "mean_gpm", qll_distribution_mean(use.distribution));
        check_gpm(&rows, row, "deviation_gpm", use.deviation_m3s);
        check_gpm(&rows, row, "deviation_gpm", sqrt(qll_distribution_variance(use.distribution)));
        check_quantile(&rows, row, "q50_gpm", qll_distribution_quantile(use.distribution, 0.5));
        check_quantile(&rows, row, "q95_gpm", qll_distribution_quantile(use.distribution, 0.95));
        check_quantile(&rows, row, "q99_gpm", use.flow_m3s);
        check_quantile(&rows, row, "q999_gpm", qll_distribution_quantile(use.distribution, 0.999));
        check_quantile(&rows, row, "q99_busy_gpm", use.flow_busy_m3s);
        check_share(&rows, row, "share_at_q99", share_at(&use, use.flow_m3s));
        fitted += truth_is(&rows, row, "known", "FITTED") ? 1 : 0;
    }
    CHECK(fitted >= 2);
    qll_arena_close(arena);
}

TEST(every_state_of_three_fixtures)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/simultaneous_states.csv", arena);
    CHECK(rows.row_count == 8);
    for (size_t row = 0; row < rows.row_count; row++) {
        const use_groups groups = use_groups_of(&rows, row);
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(groups.list, groups.count, 0.99, arena, &use) == QLL_OK);
        const double flow_m3s = truth_number(&rows, row, "flow_gpm") * QLL_GPM_M3S;
        const double tolerance = truth_number(&rows, row, "tolerance");
        const size_t index = (size_t)lround(flow_m3s / use.step_m3s);
        CHECK(index < use.distribution.count);
        CHECK_WITHIN(use.distribution.p[index], truth_number(&rows, row, "p"), tolerance);
        CHECK_WITHIN(share_at(&use, flow_m3s), truth_number(&rows, row, "share"), tolerance);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(quantiles_moments_and_shares);
    TEST_RUN(every_state_of_three_fixtures);
    return TEST_END();
}
