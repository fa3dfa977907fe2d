/* Every check value of the method of diagnosis: a row that nothing here knows fails the test, and so does a check without a row. */
#include "diagnosis_rows.h"
#include "numeric/lomb_scargle.h"
#include "numeric/rainflow.h"
#include "numeric/robust.h"
#include "numeric/spectrum.h"
#include "physics/seat_leak.h"
#include "physics/stability.h"
#include "pipes_scene.h"
#include "signals/sound_tone.h"

/* ---- logs ---- */

static double ordinary_slope(const double *x, const double *y, size_t count)
{
    double mean_x = 0.0, mean_y = 0.0, up = 0.0, square = 0.0;
    for (size_t i = 0; i < count; i++) {
        mean_x += x[i] / (double)count;
        mean_y += y[i] / (double)count;
    }
    for (size_t i = 0; i < count; i++) {
        up += (x[i] - mean_x) * (y[i] - mean_y);
        square += (x[i] - mean_x) * (x[i] - mean_x);
    }
    return up / square;
}

/* Siegel's: of each point the median of its slopes to all others, and of those the median. */
static double siegel_slope(const double *x, const double *y, size_t count)
{
    double slopes[64], medians[64];
    for (size_t i = 0; i < count; i++) {
        size_t n = 0;
        for (size_t j = 0; j < count; j++) {
            if (j != i) {
                slopes[n++] = (y[j] - y[i]) / (x[j] - x[i]);
            }
        }
        medians[i] = qll_median(slopes, n);
    }
    return qll_median(medians, count);
}

static double trend_value(size_t row)
{
    static double y[QLL_MOST];
    double x[64], scratch[64];
    const size_t count = numbers_after(row, "y=", y);
    for (size_t i = 0; i < count; i++) {
        x[i] = (double)i;
    }
    const double slope = qll_theil_sen(x, y, count, 0.0, scratch);
    if (is_named(row, "theil_sen")) {
        return slope;
    }
    if (is_named(row, "ols_for_contrast")) {
        /* what one wrong reading does to it, and does not to the program's */
        const double ordinary = ordinary_slope(x, y, count);
        CHECK(fabs(slope - siegel_slope(x, y, count)) < 0.1 * fabs(ordinary - slope));
        return ordinary;
    }
    if (is_named(row, "siegel_repeated_medians")) {
        return siegel_slope(x, y, count);
    }
    if (is_named(row, "mann_kendall_S")) {
        return qll_mann_kendall(y, count, scratch).s;
    }
    return is_named(row, "mann_kendall_Z") ? qll_mann_kendall(y, count, scratch).z
                                           : qll_mad_sigma(y, count, scratch);
}

static double inlet_effect(size_t row)
{
    static double inlet[QLL_MOST], outlet[QLL_MOST];
    double scratch[64];
    const size_t count = numbers_after(row, "P1=", inlet);
    CHECK(numbers_after(row, "P2=", outlet) == count);
    return qll_theil_sen(inlet, outlet, count, 0.0, scratch);
}

static double welch_value(size_t row)
{
    static double samples[QLL_MOST];
    for (size_t k = 0; k < QLL_MOST; k++) {
        samples[k] = 345.0 + 2.5 * sin(2.0 * pipes_pi * 0.2 * (double)k / 10.0);
    }
    qll_power_spectrum of = {0};
    CHECK(qll_power_spectrum_of(samples, QLL_MOST, 10.0, 1024, QLL_AVERAGE_MEAN, work, &of)
          == QLL_OK);
    size_t peak = 1;
    for (size_t k = 1; k < of.count; k++) {
        peak = of.density[k] > of.density[peak] ? k : peak;
    }
    double sum = 0.0;
    for (size_t k = peak - 2; k <= peak + 2; k++) {
        sum += of.density[k] * of.step_hz;
    }
    return is_named(row, "welch_peak_f")     ? (double)peak * of.step_hz
           : is_named(row, "welch_peak_psd") ? of.density[peak]
                                             : sqrt(sum);
}

static double lomb_scargle_value(size_t row, const char *frequency)
{
    static double t[QLL_MOST], y[QLL_MOST];
    double hz = 0.0;
    CHECK(qll_text_number(qll_text_of(frequency), &hz) > 0);
    const size_t count = numbers_after(row, "t=", t);
    CHECK(numbers_after(row, "y=", y) == count);
    return qll_lomb_scargle(t, y, count, hz);
}

typedef struct cycles {
    double of_range[32];
} cycles;

static void count_cycle(void *context, double range, double count)
{
    cycles *to = context;
    if (CHECK(range >= 0.0 && range < 32.0)) {
        to->of_range[(size_t)range] += count;
    }
}

/* Ranges with their cycles, "3:0.5 4:1.5": how many of them are as expected, less how many there are. */
static double rainflow_misses(size_t row)
{
    static double y[QLL_MOST];
    const size_t count = numbers_after(row, "", y);
    cycles found = {{0}};
    qll_rainflow flow;
    qll_rainflow_begin(&flow, count_cycle, &found);
    for (size_t i = 0; i < count; i++) {
        qll_rainflow_add(&flow, y[i]);
    }
    qll_rainflow_end(&flow);
    double sum = 0.0;
    for (size_t r = 0; r < 32; r++) {
        sum += found.of_range[r];
    }
    qll_text rest = qll_table_cell_in(&rows, row, "expected");
    while (rest.size > 0) {
        double range = 0.0, expected = 0.0;
        size_t taken = qll_text_number(rest, &range) + 1;
        taken += qll_text_number((qll_text){rest.bytes + taken, rest.size - taken}, &expected);
        CHECK_WITHIN(found.of_range[(size_t)range], expected, 0.0);
        sum -= expected;
        taken += taken < rest.size ? 1 : 0;
        rest = (qll_text){rest.bytes + taken, rest.size - taken};
    }
    return sum;
}

/* ---- sound ---- */

/* A row of the sound table that run_sound.c holds: the figure must be the same one. */
static double as_in_sound(const char *name)
{
    static qll_table sound;
    if (sound.row_count == 0) {
        sound = truth_read("tests/reference/sound.csv", work);
    }
    for (size_t row = 0; row < sound.row_count; row++) {
        if (truth_is(&sound, row, "case", name)) {
            return truth_number(&sound, row, "expected");
        }
    }
    return NAN;
}

/* What stands at one tone or blow alone. */
static double limit_value(size_t row)
{
    return is_named(row, "tnr_limit_200Hz")       ? qll_tone_limit_db(200)
           : is_named(row, "pr_limit_200Hz")      ? qll_prominence_limit_db(200)
           : is_named(row, "ntacou112_P_1000_30") ? qll_impulse_prominence(1000, 30)
           : is_named(row, "ntacou112_KI_P10")    ? qll_impulse_adjustment_db(10)
           : is_named(row, "pr_analytic_same")
               ? as_in_sound("tone in white noise, prominence ratio")
               : (double)NAN;
}

static double sound_value(size_t row)
{
    const char *name = name_after(row, "A_weight_dB_");
    double hz = 0.0;
    if (name != NULL && qll_text_number(qll_text_of(name), &hz) > 0) {
        return qll_a_weight_db(hz);
    }
    name = name_after(row, "crit_band_");
    if (name != NULL && qll_text_number(qll_text_of(name), &hz) > 0) {
        return qll_critical_width_hz(hz);
    }
    name = name_after(row, "prox_");
    if (name != NULL && qll_text_number(qll_text_of(name), &hz) > 0) {
        return qll_tones_apart_hz(hz);
    }
    return is_named(row, "crit_f1_1000")   ? qll_critical_band(1000).from_hz
           : is_named(row, "crit_f2_1000") ? qll_critical_band(1000).to_hz
           : name_after(row, "tnr_analytic_") != NULL
               ? as_in_sound("tone in white noise, ratio to noise")
               : limit_value(row);
}

/* ---- chatter, leaks, heat, waves ---- */

/* gB of a valve with @p droop_pa, by what the program scales a stated least flow with: (B/2)(1/drop + 1/outlet). */
static double gain_droop(double droop_pa, double drop_pa, double outlet_pa)
{
    return 0.5 * droop_pa * sqrt(drop_pa) / qll_stability_measure(drop_pa, outlet_pa);
}

/* The share of full flow below which the valve feeds the pipe, by trying all frequencies; *at: where it is worst, over f_n. */
static double worst_share(double zeta, double gain, double *at)
{
    double worst = 0.0;
    double w = 1.0;
    while (w < 5.0) {
        const double real = 1.0 - w * w, imaginary = 2.0 * zeta * w;
        const double feeds = -real / (real * real + imaginary * imaginary);
        *at = feeds > worst ? w : *at;
        worst = fmax(worst, feeds);
        w += 1e-5;
    }
    return worst / gain;
}

/* The least share moves with the drop as the least flow does over the full flow, which goes by its root. */
static double share_at(double drop_pa)
{
    return 0.10 * qll_stability_measure(drop_pa, 3e5) / qll_stability_measure(3e5, 3e5)
           / sqrt(drop_pa / 3e5);
}

static double chatter_value(const char *name)
{
    const double zeta = 1.5811388, gain = gain_droop(0.85e5, 5e5, 3e5);
    double at = 0.0;
    if (strcmp(name, "gB") == 0) {
        return gain;
    }
    if (strcmp(name, "phi") == 0) {
        return worst_share(zeta, gain, &at);
    }
    if (strcmp(name, "onset_over_fn") == 0) {
        const double share = worst_share(zeta, gain, &at);
        CHECK(share > 0.0);
        CHECK_WITHIN(at, sqrt(1.0 + 2.0 * zeta), 1e-4); /* so flat that it is found no closer */
        return sqrt(1.0 + 2.0 * zeta);
    }
    if (strcmp(name, "zeta_from_phi0.10") == 0) {
        const double droop_gain = gain_droop(0.85e5, 3e5, 3e5);
        const double found = 0.5 * (-1.0 + sqrt(1.0 + 1.0 / (0.10 * droop_gain)));
        CHECK_NEAR(worst_share(found, droop_gain, &at), 0.10, 1e-6);
        return found;
    }
    return strcmp(name, "phi_dp8") == 0   ? share_at(8e5)
           : strcmp(name, "phi_dp1") == 0 ? share_at(1e5)
           : strcmp(name, "Qmin_ratio_dp8_dp3") == 0
               ? qll_stability_measure(8e5, 3e5) / qll_stability_measure(3e5, 3e5)
           : strcmp(name, "Ccrit") == 0 ? 3.36e-3 / 0.85e5 / (2.0 * zeta * 632.4555)
                                        : (double)NAN;
}

/* A fall that draws C_h x 1 bar, and the slope: mL/s. */
static double leak_of_slope(void)
{
    const qll_creep_test test = {
        .drawn_m3 = 2.282e-10 * 1e5, .fall_pa = 1e5, .rise_pa = 13145.1, .time_s = 60.0};
    return 1e6 * qll_seat_leak_m3s(&test);
}

/* 4.5 kW at 40 degC: the water is the program's, but for the two figures that the row rounds. */
static double heater_expansion(void)
{
    const qll_water water = qll_water_at(40.0, 101325.0);
    CHECK_NEAR(water.expansion_per_k, 3.855e-4, 1e-3);
    CHECK_NEAR(water.density_kg_m3, 992.216, 1e-5);
    return 1e6 * 4500.0 * 3.855e-4 / (water.density_kg_m3 * 4179.0);
}

/* How often 20 m of pipe ring between a reservoir and a valve that is shut at once. */
static double quarter_wave_hz(void)
{
    pipes_scene scene = pipes_scene_of(20.0, 0.02, 1251.0, 400e3);
    const double flow_m3s = 0.1 * pipes_area_m2(&scene.line);
    qll_pipeline *pipeline = pipes_make(&scene, 20.0 / 1251.0 / 32.0, work);
    qll_pipeline_begin(pipeline, 0, (double[]){400e3, 400e3}, &flow_m3s);
    double rose_s[2] = {0.0, 0.0};
    bool was_high = true;
    for (int times = 0; times < 2 && qll_pipeline_time_s(pipeline) < 1.0;) {
        qll_pipeline_step(pipeline);
        const bool is_high = pipes_pa(pipeline, 1) > 400e3;
        if (is_high && !was_high) {
            rose_s[times] = qll_pipeline_time_s(pipeline);
            times += 1;
        }
        was_high = is_high;
    }
    return 1.0 / (rose_s[1] - rose_s[0]);
}

static double value_of(size_t row)
{
    const char *name = name_after(row, "toy_");
    if (name != NULL) {
        return toy_value(name);
    }
    name = name_after(row, "kb");
    if (name != NULL) {
        return tables_value(row, name);
    }
    name = name_after(row, "lomb_scargle_f");
    if (name != NULL) {
        return lomb_scargle_value(row, name);
    }
    name = name_after(row, "chatter_");
    if (name != NULL) {
        return chatter_value(name);
    }
    if (name_after(row, "welch_") != NULL) {
        return welch_value(row);
    }
    static const char *const trends[] = {"theil_sen",         "ols_for_contrast",
                                         "mann_kendall_S",    "mann_kendall_Z",
                                         "mad_scaled_1.4826", "siegel_repeated_medians"};
    for (size_t i = 0; i < sizeof trends / sizeof trends[0]; i++) {
        if (is_named(row, trends[i])) {
            return trend_value(row);
        }
    }
    return is_named(row, "inlet_effect_theil_sen") ? inlet_effect(row)
           : is_named(row, "leak_from_slope")      ? leak_of_slope()
           : is_named(row, "heater_expansion")     ? heater_expansion()
           : is_named(row, "quarter_wave_20m")     ? quarter_wave_hz()
                                                   : sound_value(row);
}

int main(void)
{
    work = qll_arena_open((size_t)256 << 20);
    rows = truth_read("tests/reference/diagnosis_checks.csv", work);
    CHECK(rows.row_count == 130);
    CHECK(qll_knowledge_read(work, &shipped) == QLL_OK);
    shipped.lost_share = 0.0; /* the worked figures are those of plain tempered Bayes */
    shipped.copied_share = 0.3;
    for (size_t row = 0; row < rows.row_count; row++) {
        const bool is_count = is_named(row, "rainflow");
        const double found = is_count ? rainflow_misses(row) : value_of(row);
        const double expected = is_count ? 0.0 : truth_number(&rows, row, "expected");
        /* what nothing here knows is no number, which is within nothing */
        if (!CHECK_WITHIN(found, expected, truth_number(&rows, row, "tolerance"))) {
            printf("    in diagnosis_checks.csv row %zu, %s\n", row + 1, name_after(row, ""));
        }
    }
    qll_arena_close(work);
    return TEST_END();
}
