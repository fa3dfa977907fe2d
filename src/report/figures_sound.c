/* What a station sounds like, as it was found: level against flow, and spectra at some flows. */
#include "report/figure_parts.h"
#include "report/figures_of.h"

#include <math.h>

/* The curve of valve @p number, counted over all stages. */
static void add_valve(const qll_figure *figure, const qll_pictured *pictured, size_t stage,
                      size_t branch, size_t number, qll_level_curve *curve)
{
    qll_writer name = qll_writer_new(figure->canvas->arena);
    qll_valve_name_write(&name, pictured->station, stage, branch);
    curve->level_db = pictured->curves->valve_dba[number];
    curve->tag = qll_writer_text(&name).bytes;
    curve->name = pictured->station->stages[stage].branches[branch].valve->id;
}

void qll_figure_noise_of(const qll_figure *figure, const qll_pictured *pictured)
{
    const qll_station *station = pictured->station;
    const qll_station_curves *found = pictured->curves;
    const size_t valves = qll_station_valve_count(station);
    qll_level_curve *curves = qll_figure_take(figure, valves + 1, sizeof *curves);
    if (curves == NULL) {
        return;
    }
    const qll_level_curve whole = {qll_figure_word(figure, QLL_SAYS_HEAD_STATION), "",
                                   found->sound_m3s, found->sound_dba, QLL_SOUND_POINTS};
    size_t count = 1;
    curves[0] = whole;
    for (size_t s = 0; valves > 1 && s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            curves[count] = whole;
            add_valve(figure, pictured, s, b, count - 1, &curves[count]);
            count += 1;
        }
    }
    qll_figure_noise(figure, curves, count, NULL, 0);
}

void qll_figure_spectrum_of(const qll_figure *figure, const qll_pictured *pictured)
{
    double *figures =
        qll_figure_take(figure, (size_t)2 * QLL_SPECTRA * QLL_NOISE_BAND_COUNT, sizeof *figures);
    if (figures == NULL) {
        return;
    }
    qll_level_curve curves[QLL_SPECTRA];
    size_t count = 0;
    for (size_t i = 0; i < QLL_SPECTRA; i++) {
        const qll_spectrum *spectrum = &pictured->curves->spectra[i];
        if (!spectrum->has_level) {
            continue;
        }
        double *centres = figures + 2 * i * QLL_NOISE_BAND_COUNT;
        double *levels = centres + QLL_NOISE_BAND_COUNT;
        for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
            centres[k] = spectrum->bands[k].centre_hz;
            levels[k] = spectrum->bands[k].level_db;
        }
        const char *name =
            qll_figure_value(figure, QLL_SAYS_FIGURE_AT, spectrum->flow_m3s, QLL_KIND_FLOW);
        curves[count] = (qll_level_curve){name, "", centres, levels, QLL_NOISE_BAND_COUNT};
        count += 1;
    }
    qll_figure_spectrum(figure, curves, count);
}
