/* What every part of a search does with the search under way: asks whether to go on, measures, keeps, starts a stage. */
#include "search/searching.h"

#include <math.h>

/* So many looks at bounds take some milliseconds; a trial counts as many. */
#define QLL_LOOKS_PER_ASK 200000

bool qll_searching_goes_on(qll_searching *searching, double share)
{
    const qll_search_options *options = searching->options;
    if (searching->stopped || options->progress == NULL) {
        return !searching->stopped;
    }
    double done = searching->share_from + share * (searching->share_to - searching->share_from);
    searching->told = done > searching->told ? done : searching->told;
    searching->quiet_count = 0;
    searching->stopped = !options->progress(searching->told, options->progress_context);
    return !searching->stopped;
}

void qll_searching_part(qll_searching *searching, double whole_from, double whole_to, double from,
                        double to)
{
    searching->share_from = whole_from + from * (whole_to - whole_from);
    searching->share_to = whole_from + to * (whole_to - whole_from);
}

bool qll_searching_looks(qll_searching *searching, size_t looks)
{
    searching->quiet_count += looks;
    return searching->quiet_count < QLL_LOOKS_PER_ASK ? !searching->stopped
                                                      : qll_searching_goes_on(searching, 0.0);
}

double qll_searching_chance(const qll_searching *searching, const double a[QLL_NODES],
                            const double b[QLL_NODES])
{
    const double *chance = searching->yardstick->unknowns->chance;
    double survives = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        survives += chance[k] * a[k] * (b == NULL ? 1.0 : b[k]);
    }
    return survives < 1.0 ? 1.0 - survives : 0.0;
}

void qll_searching_put(qll_searching *searching, qll_whole *whole, double dearest, double survives,
                       double rest_pa)
{
    double rests = 1.0 - qll_rest_chance(searching->yardstick, rest_pa);
    whole->expected =
        qll_searching_expected(searching, whole->installed, dearest, 1.0 - rests * survives);
    qll_book_put(&searching->book, &searching->pool, whole);
}

void qll_searching_put_one(qll_searching *searching, const qll_trial *trial)
{
    const qll_yardstick *yardstick = searching->yardstick;
    qll_whole whole = {
        .stage_count = 1,
        .stages = {trial->pick},
        .set_inlet_pa_gauge = {qll_duty_set_inlet_pa_gauge(yardstick->duty, yardstick->site)},
        .installed = trial->cost};
    double survives = 1.0 - qll_searching_chance(searching, trial->survival, NULL);
    qll_searching_put(searching, &whole, trial->dearest, survives, trial->outlets.rest_pa);
}

qll_stage_place qll_stage_place_first(const qll_searching *searching, double wanted_pa_gauge,
                                      bool is_last)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    double low_pa_gauge, high_pa_gauge;
    qll_stage_inlets(yardstick, NULL, 0, &low_pa_gauge, &high_pa_gauge);
    return (qll_stage_place){
        .inlets = {.grid_pa = duty->inlet_pa,
                   .peak_pa = yardstick->peak_inlet_pa,
                   .rest_pa = duty->inlet_static_pa[QLL_SUPPLY_LEVELS - 1]},
        .set_inlet_pa_gauge = qll_duty_set_inlet_pa_gauge(duty, yardstick->site),
        .low_pa_gauge = low_pa_gauge,
        .high_pa_gauge = high_pa_gauge,
        .wanted_pa_gauge = wanted_pa_gauge,
        .clear_pa_gauge = -INFINITY,
        .is_last = is_last,
        .is_first = true,
    };
}
