#include "search/walk.h"

static qll_status put_whole(void *context, const qll_trial *trial)
{
    qll_searching_put_one(context, trial);
    return QLL_OK;
}

qll_status qll_search_one_stage(qll_searching *searching)
{
    const qll_site *site = searching->yardstick->site;
    const qll_stage_place place = qll_stage_place_first(searching, site->set_pa_gauge, true);
    if (!qll_keeps_ratio(site, place.high_pa_gauge, site->set_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_RATIO] += searching->pool.count;
        return QLL_OK;
    }
    const qll_rest_of_station rest = qll_rest_costing(0.0);
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
