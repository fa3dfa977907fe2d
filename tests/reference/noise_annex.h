/* The valve and pipe of the examples in IEC 60534-8-4 annex A, and quantities by their name. */
#ifndef QUELL_TESTS_NOISE_ANNEX_H
#define QUELL_TESTS_NOISE_ANNEX_H

#include "physics/noise.h"
#include "truth.h"

static inline qll_noise_case annex_case(double mass_flow_kg_s, double outlet_pa)
{
    return (qll_noise_case){.mass_flow_kg_s = mass_flow_kg_s,
                            .inlet_pa = 1e6,
                            .outlet_pa = outlet_pa,
                            .density_kg_m3 = 997,
                            .vapour_pressure_pa = 2320,
                            .sound_speed_m_s = 1400,
                            .coefficient = 90,
                            .form = QLL_FORM_CV,
                            .fl = 0.92,
                            .fd = 0.42,
                            .xfz = NAN,
                            .valve_bore_m = 0.1,
                            .seat_bore_m = 0.1};
}

static inline qll_noise_path annex_path(void)
{
    const qll_noise_pipe pipe = {.bore_m = 0.1071,
                                 .wall_m = 0.0036,
                                 .wall_density_kg_m3 = 7800,
                                 .wall_sound_speed_m_s = 5000,
                                 .air_density_kg_m3 = 1.293,
                                 .air_sound_speed_m_s = 343};
    qll_noise_path path;
    qll_noise_path_make(&pipe, &path);
    return path;
}

static inline const qll_noise_band *noise_band(const qll_noise *noise, double centre_hz)
{
    for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
        if (noise->bands[k].centre_hz == centre_hz) {
            return &noise->bands[k];
        }
    }
    return NULL;
}

/* "outside_500_db" and the like. */
static inline double noise_band_quantity(const qll_noise *noise, const qll_table *rows, size_t row)
{
    static const double centres[] = {125, 500, 1000, 2000, 4000, 8000};
    for (size_t i = 0; i < sizeof centres / sizeof centres[0]; i++) {
        char name[40];
        snprintf(name, sizeof name, "outside_%.0f_db", centres[i]);
        if (truth_is(rows, row, "quantity", name)) {
            return noise_band(noise, centres[i])->outside_db;
        }
    }
    const qll_noise_band *eight = noise_band(noise, 8000);

    const struct {
        const char *name;
        double value;
    } at_8_khz[] = {{"inside_8k_db", eight->inside_db},
                    {"loss_8k_db", eight->loss_db},
                    {"outside_8k_db", eight->outside_db},
                    {"turbulent_8k_db", eight->turbulent_db},
                    {"cavitating_8k_db", eight->cavitating_db}};

    for (size_t i = 0; i < sizeof at_8_khz / sizeof at_8_khz[0]; i++) {
        if (truth_is(rows, row, "quantity", at_8_khz[i].name)) {
            return at_8_khz[i].value;
        }
    }
    return NAN;
}

/* The quantity that the row names; NaN, which fails the row, for a name that is not known. */
static inline double noise_quantity(const qll_noise *noise, const qll_table *rows, size_t row)
{
    const qll_noise_source *source = &noise->source;

    const struct {
        const char *name;
        double value;
    } quantities[] = {{"xf", source->xf},
                      {"xfz", source->xfz},
                      {"xfzp1", source->xfzp1},
                      {"critical_drop_pa", source->critical_drop_pa},
                      {"jet_m", source->jet_m},
                      {"jet_velocity_m_s", source->jet_velocity_m_s},
                      {"stream_power_w", source->stream_power_w},
                      {"efficiency_turbulent", source->efficiency_turbulent},
                      {"efficiency_cavitating", source->efficiency_cavitating},
                      {"sound_power_w", source->sound_power_w},
                      {"inside_db", source->inside_db},
                      {"strouhal", source->strouhal},
                      {"peak_turbulent_hz", source->peak_turbulent_hz},
                      {"peak_cavitating_hz", source->peak_cavitating_hz},
                      {"ring_hz", noise->ring_hz},
                      {"ring_loss_db", noise->ring_loss_db},
                      {"spread_db", noise->spread_db},
                      {"peak_loss_db", noise->peak_loss_db},
                      {"loss_turbulent_db", noise->loss_turbulent_db},
                      {"loss_cavitating_db", noise->loss_cavitating_db},
                      {"level_dba", noise->level_dba},
                      {"onset_drop_pa", source->xfzp1 * (1e6 - 2320)},
                      {"strouhal_clause", source->strouhal * 0.02 / (0.036 * pow(0.42, 0.75))}};

    for (size_t i = 0; i < sizeof quantities / sizeof quantities[0]; i++) {
        if (truth_is(rows, row, "quantity", quantities[i].name)) {
            return quantities[i].value;
        }
    }
    return noise_band_quantity(noise, rows, row);
}

/* All rows of the table of one edition. */
static inline void noise_annex_rows(const char *path, qll_noise_edition edition)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read(path, arena);
    const qll_noise_path wall = annex_path();
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_noise_case given = annex_case(truth_number(&rows, row, "mass_flow_kg_s"),
                                                truth_number(&rows, row, "outlet_pa"));
        qll_noise noise;
        qll_noise_of(&given, &wall, edition, &noise);
        if (!CHECK_WITHIN(noise_quantity(&noise, &rows, row), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in %s row %zu\n", path, row + 1);
        }
    }
    qll_arena_close(arena);
}

#endif
