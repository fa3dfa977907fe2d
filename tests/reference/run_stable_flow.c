#include "physics/stability.h"
#include "truth.h"

#include <math.h>

static const double bar_pa = 1e5;

static bool check_row(const qll_table *rows, size_t row)
{
    double tolerance = truth_number(rows, row, "tolerance");
    double band_pa = truth_number(rows, row, "band_bar") * bar_pa;
    qll_stability_point sheet = {truth_number(rows, row, "reference_drop_bar") * bar_pa,
                                 truth_number(rows, row, "reference_outlet_bar") * bar_pa};
    qll_stability_point here = {truth_number(rows, row, "drop_bar") * bar_pa,
                                truth_number(rows, row, "outlet_bar") * bar_pa};
    double damping = qll_stability_damping(truth_number(rows, row, "reference_fraction"),
                                           qll_stability_load(band_pa, &sheet));
    double fraction = qll_stability_fraction(damping, qll_stability_load(band_pa, &here));
    double ratio = qll_stability_measure(here.drop_pa, here.outlet_pa_gauge)
                   / qll_stability_measure(sheet.drop_pa, sheet.outlet_pa_gauge);
    /* Printed to seven places. */
    bool holds = CHECK_WITHIN(damping, truth_number(rows, row, "damping"), tolerance);
    holds = CHECK_WITHIN(fraction, truth_number(rows, row, "fraction"), tolerance) && holds;
    return CHECK_WITHIN(ratio, truth_number(rows, row, "flow_ratio"), tolerance) && holds;
}

/* The greatest share of K_x A/k that swings of any frequency get from the valve, by trying them: the
 * least real part of 1/(1 - r^2 + 2 i damping r). */
static double worst_feed(double damping)
{
    double worst = 0;
    for (int step = 0; step < 110000; step++) {
        double r = 1.0 + 1e-4 * step;
        double stiff = 1 - r * r;
        double lag = 2 * damping * r;
        worst = fmax(worst, -stiff / (stiff * stiff + lag * lag));
    }
    return worst;
}

/* Just steady is where that share equals the conductance of the valve and of what draws behind it:
 * fraction * load. */
static void check_closed_form(void)
{
    for (int i = 0; i < 12; i++) {
        double damping = 0.3 * pow(1.3, i);
        CHECK_NEAR(qll_stability_fraction(damping, 0.25) * 0.25, worst_feed(damping), 1e-6);
    }
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/stable_flow.csv", arena);
    CHECK(rows.row_count == 3);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in stable_flow.csv row %zu\n", row + 1);
        }
    }
    check_closed_form();
    qll_arena_close(arena);
    return TEST_END();
}
