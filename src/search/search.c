#include "search/search.h"

#include "search/searching.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* Candidates between two calls of progress: some milliseconds' worth. */
#define QLL_PROGRESS_EVERY  20000
/* Share of the work that single-stage arrangements are taken to be, where both are tried. */
#define QLL_ONE_STAGE_SHARE 0.3
/* And up to where two stages with offsets by rule go. */
#define QLL_BY_RULE_SHARE   0.7

qll_search_options qll_search_options_default(void)
{
    return (qll_search_options){.stages_max = QLL_STAGES_MOST,
                                .branches_max = QLL_BRANCHES_MOST,
                                .seed = 1,
                                .pipe_size_m = NAN};
}

bool qll_searching_goes_on(qll_searching *searching, size_t candidates, double share)
{
    searching->quiet_count += candidates;
    if (searching->quiet_count < QLL_PROGRESS_EVERY || searching->options->progress == NULL) {
        return !searching->stopped;
    }
    searching->quiet_count = 0;
    double whole = searching->share_from + share * (searching->share_to - searching->share_from);
    if (!searching->options->progress(whole, searching->options->progress_context)) {
        searching->stopped = true;
    }
    return !searching->stopped;
}

static double middle_inlet_pa_gauge(const qll_site *site, const qll_duty *duty)
{
    return duty->inlet_static_pa[duty->supply_count / 2] - site->barometric_pa;
}

static qll_status start(qll_searching *searching, const qll_catalogue *catalogue)
{
    const qll_site *site = searching->site;
    const qll_duty *duty = searching->duty;
    qll_arena *arena = searching->arena;
    searching->singles = qll_arena_take(arena, catalogue->count, sizeof *searching->singles);
    if (searching->singles == NULL
        || qll_pool_make(site, catalogue, arena, &searching->pool) != QLL_OK
        || qll_duty_points_make(duty, arena, &searching->points) != QLL_OK
        || qll_corner_room_make(site, duty, arena, &searching->corners) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double low_pa = INFINITY;
    for (size_t i = 0; i < duty->scenario_count; i++) {
        low_pa = fmin(low_pa, qll_corner_peak_inlet_pa(site, duty, i));
    }
    searching->inlet_low_pa_gauge = low_pa - site->barometric_pa;
    searching->inlet_middle_pa_gauge = middle_inlet_pa_gauge(site, duty);
    searching->inlet_high_pa_gauge = qll_corner_still_inlet_pa(duty) - site->barometric_pa;
    return QLL_OK;
}

qll_status qll_search_all(const qll_site *site, const qll_duty *duty,
                          const qll_catalogue *catalogue, const qll_search_options *options,
                          qll_arena *arena, qll_searching *searching)
{
    const bool two = options->stages_max >= 2;
    *searching = (qll_searching){.site = site,
                                 .duty = duty,
                                 .options = options,
                                 .arena = arena,
                                 .share_to = two ? QLL_ONE_STAGE_SHARE : 1.0};
    qll_status status = start(searching, catalogue);
    if (status == QLL_OK) {
        status = qll_search_one_stage(searching);
    }
    if (status == QLL_OK && two && !searching->stopped) {
        searching->share_from = QLL_ONE_STAGE_SHARE;
        searching->share_to = QLL_BY_RULE_SHARE;
        status = qll_search_two_stages(searching);
    }
    if (status == QLL_OK && two && !searching->stopped) {
        searching->share_from = QLL_BY_RULE_SHARE;
        searching->share_to = 1.0;
        status = qll_search_offsets(searching);
    }
    if (status == QLL_OK && options->stages_max >= 3 && !searching->stopped) {
        status = qll_search_three_stages(searching);
    }
    qll_front_sort(&searching->front);
    searching->counts.front = searching->front.count;
    return status;
}

/* Of the valves whose size is nearest to the pipe's, the one that can be set to what is wanted and
 * passes most; the pool rises by Kv and then by id. NULL for an empty pool. */
static const qll_branch *of_pipe_size(const qll_pool *pool, const qll_site *site,
                                      double pipe_size_m)
{
    const qll_branch *found = NULL;
    double found_distance = INFINITY;
    bool found_fits = false;
    for (size_t i = 0; i < pool->count; i++) {
        const qll_valve *valve = pool->branches[i].valve;
        double distance = fabs(log(valve->nominal_m / pipe_size_m));
        bool fits = site->set_pa_gauge >= valve->set_min_pa_gauge
                    && site->set_pa_gauge <= valve->set_max_pa_gauge;
        bool is_nearer = distance < found_distance - 0.02; /* sizes within 2 % are one size */
        bool is_as_near = fabs(distance - found_distance) <= 0.02;
        if (is_nearer || (is_as_near && fits >= found_fits)) {
            found = &pool->branches[i];
            found_distance = distance;
            found_fits = fits;
        }
    }
    return found;
}

static qll_status add_by_pipe_size(const qll_searching *searching, qll_design *design)
{
    design->by_pipe_size = NULL;
    const double pipe_size_m = searching->options->pipe_size_m;
    const qll_branch *of_size =
        pipe_size_m > 0.0 ? of_pipe_size(&searching->pool, searching->site, pipe_size_m) : NULL;
    if (of_size == NULL) {
        return QLL_OK;
    }
    qll_arrangement arrangement = {.stage_count = 1};
    qll_stage_choice *choice = &arrangement.stages[0];
    choice->branches[0] = *of_size;
    choice->branches[0].set_pa_gauge = searching->site->set_pa_gauge;
    choice->branch_count = 1;
    choice->set_inlet_pa_gauge = searching->inlet_middle_pa_gauge;
    qll_candidate *candidate = qll_arena_take(searching->arena, 1, sizeof *candidate);
    if (candidate == NULL) {
        return QLL_NO_MEMORY;
    }
    design->by_pipe_size = candidate;
    return qll_candidate_make(&arrangement, searching->site, searching->duty, searching->arena,
                              candidate);
}

qll_status qll_search(const qll_site *site, const qll_duty *duty, const qll_catalogue *catalogue,
                      const qll_search_options *options, qll_arena *arena, qll_design *design)
{
    assert(options->stages_max >= 1 && options->stages_max <= QLL_STAGES_MOST);
    assert(options->branches_max >= 1 && options->branches_max <= QLL_BRANCHES_MOST);
    *design = (qll_design){.runner_up = SIZE_MAX, .reason = QLL_REASON_LEAST_BAD};
    qll_searching searching;
    qll_status status = qll_search_all(site, duty, catalogue, options, arena, &searching);
    if (status != QLL_OK) {
        return status;
    }
    const qll_field field = {.site = site,
                             .duty = duty,
                             .front = searching.front,
                             .singles = searching.singles,
                             .single_count = searching.single_count,
                             .seed = options->seed};
    status = qll_recommend(&field, arena, design);
    if (status == QLL_OK) {
        status = add_by_pipe_size(&searching, design);
    }
    design->counts = searching.counts;
    design->stopped = searching.stopped;
    return status;
}
