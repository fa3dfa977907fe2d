/* docs/theory/station_noise.md. */
#include "station/level.h"

#include "station/branch_curve.h"

#include <math.h>

/* The valve's own drop: strainer and reducers come off before it, as in branch_state.c, so that the
 * onset of cavitation is the same in both. */
static qll_noise_case case_of(const qll_branch *branch, const qll_branch_state *state,
                              const qll_water *water, double inlet_pa, double outlet_pa)
{
    double series_pa = 0.0;
    if (branch->series_kv_m3h > 0.0) {
        double root = state->flow_m3s / (branch->series_kv_m3h * qll_flow_per_kv(water));
        series_pa = root * root;
    }
    return (qll_noise_case){.mass_flow_kg_s = state->flow_m3s * water->density_kg_m3,
                            .inlet_pa = fmax(inlet_pa - series_pa, outlet_pa),
                            .outlet_pa = outlet_pa,
                            .density_kg_m3 = water->density_kg_m3,
                            .vapour_pressure_pa = water->vapour_pressure_pa,
                            .sound_speed_m_s = water->sound_speed_m_s,
                            .coefficient = state->kv_m3h,
                            .form = QLL_FORM_KV,
                            .fl = branch->valve->fl,
                            .fd = branch->valve->fd,
                            .xfz = branch->xfz_shift == 0.0 ? branch->valve->xfz
                                                            : qll_branch_xfz(branch, state->kv_m3h),
                            .valve_bore_m = branch->pipe_bore_m,
                            .seat_bore_m = qll_valve_seat_m(branch->valve)};
}

static qll_branch_level level_of(const qll_branch *branch, const qll_noise_case *given,
                                 bool with_range)
{
    qll_branch_level level = {NAN, NAN, NAN, QLL_NOISE_NO_CASE};
    if (branch->path == NULL) {
        return level;
    }
    if (with_range) {
        double uncertainty =
            isnan(branch->valve->xfz) ? QLL_XFZ_UNCERTAINTY_ESTIMATED : QLL_XFZ_UNCERTAINTY_SHEET;
        qll_noise_range range = qll_noise_range_of(given, branch->path, uncertainty);
        return (qll_branch_level){range.level_dba, range.low_dba, range.high_dba, range.limit};
    }
    level.level_dba = qll_noise_level_dba(given, branch->path, &level.limit);
    level.low_dba = level.level_dba;
    level.high_dba = level.level_dba;
    return level;
}

static double energy(double level_db)
{
    return exp(0.23025850929940457 * level_db); /* 10^(level/10) */
}

static bool is_heard(const qll_branch_state *state, const qll_branch_level *level)
{
    /* Where strainer and reducers take the whole drop the valve is silent. */
    return state->working && level->limit != QLL_NOISE_NO_DROP;
}

/* No level where none is heard, or one of them is beyond the method. */
static qll_branch_level sum_of(const qll_station *station, const qll_operating_point *point,
                               bool with_range)
{
    qll_branch_level sum = {0.0, 0.0, 0.0, QLL_NOISE_WITHIN};
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch_level *level = &point->levels[k][j];
            if (is_heard(&point->branches[k][j], level)) {
                sum.level_dba += energy(level->level_dba);
                sum.low_dba += with_range ? energy(level->low_dba) : 0.0;
                sum.high_dba += with_range ? energy(level->high_dba) : 0.0;
            }
        }
    }
    if (!(sum.level_dba > 0.0)) {
        return (qll_branch_level){NAN, NAN, NAN, QLL_NOISE_WITHIN};
    }
    double level_dba = 10.0 * log10(sum.level_dba);
    return (qll_branch_level){.level_dba = level_dba,
                              .low_dba = with_range ? 10.0 * log10(sum.low_dba) : level_dba,
                              .high_dba = with_range ? 10.0 * log10(sum.high_dba) : level_dba};
}

void qll_point_levels(const qll_station *station, const qll_site *site, bool with_range,
                      qll_operating_point *point)
{
    const qll_branch_level *only = NULL;
    size_t heard = 0;
    qll_noise_limit limit = QLL_NOISE_WITHIN;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            const qll_branch_state *state = &point->branches[k][j];
            qll_branch_level *level = &point->levels[k][j];
            *level = (qll_branch_level){NAN, NAN, NAN, QLL_NOISE_WITHIN};
            if (!state->working) {
                continue;
            }
            const qll_noise_case given = case_of(
                branch, state, &site->water, point->stage_inlet_pa[k], point->stage_outlet_pa[k]);
            *level = level_of(branch, &given, with_range);
            if (is_heard(state, level)) {
                only = level;
                heard += 1;
                limit = level->limit > limit ? level->limit : limit;
            }
        }
    }
    point->level = heard == 1 ? *only : sum_of(station, point, with_range);
    point->level.limit = limit;
}

static void add_bands(const qll_noise *noise, qll_spectrum_band *bands)
{
    for (size_t b = 0; b < QLL_NOISE_BAND_COUNT; b++) {
        bands[b].centre_hz = noise->bands[b].centre_hz;
        bands[b].level_db += energy(noise->bands[b].outside_db);
    }
}

bool qll_point_spectrum(const qll_station *station, const qll_site *site,
                        const qll_operating_point *point,
                        qll_spectrum_band bands[QLL_NOISE_BAND_COUNT])
{
    if (isnan(point->level.level_dba)) {
        return false;
    }
    for (size_t b = 0; b < QLL_NOISE_BAND_COUNT; b++) {
        bands[b] = (qll_spectrum_band){0.0, 0.0};
    }
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            if (isnan(point->levels[k][j].level_dba)) {
                continue;
            }
            const qll_noise_case given =
                case_of(branch, &point->branches[k][j], &site->water, point->stage_inlet_pa[k],
                        point->stage_outlet_pa[k]);
            qll_noise noise;
            qll_noise_of(&given, branch->path, QLL_NOISE_2015, &noise);
            add_bands(&noise, bands);
        }
    }
    for (size_t b = 0; b < QLL_NOISE_BAND_COUNT; b++) {
        bands[b].level_db = 10.0 * log10(bands[b].level_db);
    }
    return true;
}
