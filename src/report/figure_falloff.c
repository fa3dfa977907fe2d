/* Outlet pressure against flow, as it was found of a station. */
#include "report/figure_parts.h"
#include "report/figures_of.h"

#include <math.h>

/* "A (G-D20) alone": @p tag is the valve's name. */
static const char *alone_name(const qll_figure *figure, const qll_branch *branch, const char *tag)
{
    qll_arena *arena = figure->canvas->arena;
    qll_writer valve = qll_writer_new(arena);
    qll_write_format(&valve, "%s (", tag);
    qll_write(&valve, branch->valve->id);
    qll_write(&valve, ")");
    qll_writer name = qll_writer_new(arena);
    const qll_filling filling = {"valve", qll_writer_text(&valve).bytes};
    qll_say_with(&name, figure->language, QLL_SAYS_FIGURE_ALONE, &filling, 1);
    return qll_writer_text(&name).bytes;
}

static qll_falloff_curve curve_of(const qll_figure *figure, const qll_pictured *pictured,
                                  const qll_falloff_found *found)
{
    static const qll_message names[] = {
        [QLL_FALLOFF_MIDDLE] = QLL_SAYS_FIGURE_MIDDLE,
        [QLL_FALLOFF_LOWEST] = QLL_SAYS_FIGURE_LOWEST,
        [QLL_FALLOFF_HIGHEST] = QLL_SAYS_FIGURE_HIGHEST,
        [QLL_FALLOFF_BETWEEN] = QLL_SAYS_FIGURE_BETWEEN,
        [QLL_FALLOFF_ALONE] = QLL_SAYS_FIGURE_ALONE,
    };
    qll_falloff_curve curve = {.name = qll_say(figure->language, names[found->kind]),
                               .tag = "",
                               .flow_m3s = pictured->curves->falloff_m3s,
                               .outlet_pa = found->outlet_pa_gauge,
                               .count = QLL_FALLOFF_POINTS,
                               .lockup_pa = found->lockup_pa_gauge,
                               .full_travel_m3s = found->full_travel_m3s,
                               .is_station = found->kind == QLL_FALLOFF_MIDDLE,
                               .is_between = found->kind == QLL_FALLOFF_BETWEEN};
    if (found->kind == QLL_FALLOFF_ALONE) {
        qll_writer tag = qll_writer_new(figure->canvas->arena);
        qll_valve_name_write(&tag, pictured->station, found->stage, found->branch);
        curve.tag = qll_writer_text(&tag).bytes;
        curve.name = alone_name(
            figure, &pictured->station->stages[found->stage].branches[found->branch], curve.tag);
    }
    return curve;
}

void qll_figure_falloff_of(const qll_figure *figure, const qll_pictured *pictured)
{
    const qll_wording *wording = pictured->wording;
    const qll_station_curves *found = pictured->curves;
    qll_falloff_curve *curves = qll_figure_take(figure, found->falloff_count, sizeof *curves);
    if (curves == NULL) {
        return;
    }
    for (size_t i = 0; i < found->falloff_count; i++) {
        curves[i] = curve_of(figure, pictured, &found->falloffs[i]);
    }
    const qll_guide levels[] = {
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_WANTED, wording->site->set_pa_gauge),
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_NEVER_ABOVE, found->never_above_pa_gauge),
    };
    qll_figure_falloff(figure, &(qll_falloff_figure){.curves = curves,
                                                     .curve_count = found->falloff_count,
                                                     .levels = levels,
                                                     .level_count = 2,
                                                     .peak_m3s = wording->duty->peak_m3s});
}
