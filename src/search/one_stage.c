#include "search/walk.h"

#include <math.h>

/* Into the book: the trial is the whole station. */
static qll_status put_whole(void *context, const qll_trial *trial)
{
    qll_searching *searching = context;
    const qll_yardstick *yardstick = searching->yardstick;
    double survives = 1.0 - qll_searching_chance(searching, trial->survival, NULL);
    double rest = qll_rest_chance(yardstick, trial->outlets.rest_pa);
    double chance = 1.0 - (1.0 - rest) * survives;
    qll_whole whole = {.stage_count = 1, .installed = trial->cost};
    whole.stages[0] = trial->pick;
    whole.set_inlet_pa_gauge[0] =
        yardstick->duty->inlet_static_pa[QLL_SUPPLY_LEVELS / 2] - yardstick->site->barometric_pa;
    whole.expected = qll_searching_expected(searching, trial->cost, trial->dearest, chance);
    if (whole.expected < qll_searching_limit(searching)) {
        qll_book_put(&searching->book, &searching->pool, &whole);
    }
    return QLL_OK;
}

qll_status qll_search_one_stage(qll_searching *searching)
{
    const qll_site *site = searching->yardstick->site;
    const qll_stage_place place = qll_stage_place_first(searching, site->set_pa_gauge, true);
    double ratio =
        qll_practice_ratio(place.inlets.rest_pa - site->barometric_pa, site->set_pa_gauge);
    if (ratio / site->limits.ratio_max - 1.0 > QLL_PRACTICE_SLACK) {
        searching->counts.by_practice[QLL_PRACTICE_RATIO] += searching->pool.count;
        return QLL_OK;
    }
    qll_rest_of_station rest = {0};
    for (size_t k = 0; k < QLL_NODES; k++) {
        rest.survival[k] = 1.0;
    }
    qll_walk_room room;
    qll_status status = qll_walk_room_make(searching, &room);
    if (status != QLL_OK) {
        return status;
    }
    const qll_walk walk = {.searching = searching,
                           .place = &place,
                           .rest = &rest,
                           .branches_most = searching->options->branches_max < 2 ? 1 : 2,
                           .sink = put_whole,
                           .context = searching,
                           .tells_progress = true};
    return qll_walk_stage(&walk, &room);
}
