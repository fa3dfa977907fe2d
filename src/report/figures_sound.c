/* What a station sounds like, worked out from it: level against flow, and spectra at three flows. */
#include "report/figure_parts.h"
#include "report/figures_of.h"
#include "station/level.h"

#include <math.h>

/* Points of a curve of level against flow. */
#define QLL_LEVEL_POINTS 60

/* Shares of the design peak at which a spectrum is drawn. */
static const double spectrum_shares[] = {0.1, 0.3, 1.0};

#define QLL_SPECTRA (sizeof spectrum_shares / sizeof spectrum_shares[0])

/* The station over @p flow_m3s at its middle supply, with its levels. */
static const qll_operating_point *sounding_points(const qll_figure *figure,
                                                  const qll_pictured *pictured,
                                                  const double *flow_m3s, size_t count)
{
    const qll_wording *wording = pictured->wording;
    const qll_duty *duty = wording->duty;
    qll_arena *arena = figure->canvas->arena;
    qll_operator *made = NULL;
    qll_operating_point *points = NULL;
    double *inlet_pa = qll_figure_take(figure, count, sizeof *inlet_pa);
    if (inlet_pa == NULL
        || qll_operator_make(pictured->station, wording->site, arena, &made) != QLL_OK
        || qll_points_make(pictured->station, count, arena, &points) != QLL_OK) {
        figure->canvas->no_memory = true;
        return NULL;
    }
    double standing = duty->supply_static_pa_gauge[duty->supply_count / 2];
    for (size_t i = 0; i < count; i++) {
        inlet_pa[i] = qll_site_inlet_pa(wording->site, standing, flow_m3s[i]);
    }
    qll_operate(made, inlet_pa, flow_m3s, count, points);
    for (size_t i = 0; i < count; i++) {
        qll_point_levels(pictured->station, wording->site, false, &points[i]);
    }
    return points;
}

static double *peak_flows(const qll_figure *figure, const qll_pictured *pictured)
{
    double *flows = qll_figure_take(figure, QLL_LEVEL_POINTS, sizeof *flows);
    for (size_t i = 0; flows != NULL && i < QLL_LEVEL_POINTS; i++) {
        flows[i] = pictured->wording->duty->peak_m3s * (double)(i + 1) / QLL_LEVEL_POINTS;
    }
    return flows;
}

/* The levels of one valve over all points. */
static void add_valve(const qll_figure *figure, const qll_pictured *pictured,
                      const qll_operating_point *points, size_t stage, size_t branch,
                      qll_level_curve *curve)
{
    double *levels = qll_figure_take(figure, QLL_LEVEL_POINTS, sizeof *levels);
    qll_writer name = qll_writer_new(figure->canvas->arena);
    qll_valve_name_write(&name, pictured->station, stage, branch);
    if (levels == NULL || name.no_memory) {
        figure->canvas->no_memory = true;
        return;
    }
    for (size_t i = 0; i < QLL_LEVEL_POINTS; i++) {
        levels[i] = points[i].levels[stage][branch].level_dba;
    }
    curve->level_db = levels;
    curve->tag = qll_writer_text(&name).bytes;
    curve->name = pictured->station->stages[stage].branches[branch].valve->id;
}

void qll_figure_noise_of(const qll_figure *figure, const qll_pictured *pictured)
{
    const qll_station *station = pictured->station;
    double *flows = peak_flows(figure, pictured);
    double *total = qll_figure_take(figure, QLL_LEVEL_POINTS, sizeof *total);
    const qll_operating_point *points =
        flows == NULL ? NULL : sounding_points(figure, pictured, flows, QLL_LEVEL_POINTS);
    const size_t valves = qll_station_valve_count(station);
    qll_level_curve *curves = qll_figure_take(figure, valves + 1, sizeof *curves);
    if (points == NULL || total == NULL || curves == NULL) {
        return;
    }
    for (size_t i = 0; i < QLL_LEVEL_POINTS; i++) {
        total[i] = points[i].level.level_dba;
    }
    const qll_level_curve empty = {"", "", flows, total, QLL_LEVEL_POINTS};
    size_t count = 1;
    curves[0] = empty;
    curves[0].name = qll_figure_word(figure, QLL_SAYS_FIGURE_STATION);
    for (size_t s = 0; valves > 1 && s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            curves[count] = empty;
            add_valve(figure, pictured, points, s, b, &curves[count]);
            count += 1;
        }
    }
    qll_figure_noise(figure, curves, count, NULL, 0);
}

void qll_figure_spectrum_of(const qll_figure *figure, const qll_pictured *pictured)
{
    double flows[QLL_SPECTRA];
    for (size_t i = 0; i < QLL_SPECTRA; i++) {
        flows[i] = pictured->wording->duty->peak_m3s * spectrum_shares[i];
    }
    const qll_operating_point *points = sounding_points(figure, pictured, flows, QLL_SPECTRA);
    double *figures =
        qll_figure_take(figure, 2 * QLL_SPECTRA * QLL_NOISE_BAND_COUNT, sizeof *figures);
    if (points == NULL || figures == NULL) {
        return;
    }
    qll_level_curve curves[QLL_SPECTRA];
    size_t count = 0;
    for (size_t i = 0; i < QLL_SPECTRA; i++) {
        qll_spectrum_band bands[QLL_NOISE_BAND_COUNT];
        if (!qll_point_spectrum(pictured->station, pictured->wording->site, &points[i], bands)) {
            continue;
        }
        double *centres = figures + 2 * i * QLL_NOISE_BAND_COUNT;
        double *levels = centres + QLL_NOISE_BAND_COUNT;
        for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
            centres[k] = bands[k].centre_hz;
            levels[k] = bands[k].level_db;
        }
        curves[count] =
            (qll_level_curve){qll_figure_value(figure, QLL_SAYS_FIGURE_AT, flows[i], QLL_KIND_FLOW),
                              "", centres, levels, QLL_NOISE_BAND_COUNT};
        count += 1;
    }
    qll_figure_spectrum(figure, curves, count);
}
