#include "search/walk.h"

#include <math.h>

double qll_searching_least_stage(const qll_searching *searching, size_t branches_most)
{
    const qll_pool *pool = &searching->pool;
    double area_m2 = searching->yardstick->duty->peak_m3s / QLL_SPEED_MOST_M_S * (1.0 - 1e-9);
    double least = INFINITY;
    for (size_t i = 0; i < pool->count; i++) {
        if (pool->parts[i].area_m2 >= area_m2) {
            least = fmin(least, pool->parts[i].cost);
            break;
        }
    }
    for (size_t i = 0; i < pool->count && branches_most > 1; i++) {
        for (size_t j = i; j < pool->count; j++) {
            double cost = searching->beside + pool->parts[i].cost + pool->parts[j].cost;
            if (cost >= least) {
                break;
            }
            if (pool->parts[i].area_m2 + pool->parts[j].area_m2 >= area_m2) {
                least = cost;
            }
        }
        if (searching->beside + 2.0 * pool->parts[i].cost >= least) {
            break;
        }
    }
    return least;
}

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
