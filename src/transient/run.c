/* docs/theory/hammer.md. */
#include "transient/run.h"

#include "dynamics/event.h"
#include "transient/envelope.h"
#include "transient/watch.h"

#include <assert.h>
#include <math.h>

/* A draw's coefficient follows from its flow at rest, which follows from it: so many rounds. */
static const int draw_rounds = 6;
/* Pressure that is left at a draw at least while its coefficient is looked for, Pa. */
static const double least_draw_pa = 1e3;
static const size_t steps_per_ask = 200;
static const double same_s = 1e-9;

/* ---- at rest ---- */

static void set_draws(const qll_run_plan *plan, qll_tree *tree, bool after)
{
    for (size_t i = 0; i < tree->draw_count; i++) {
        const qll_draw_plan *own = &plan->draws[i];
        qll_opening *opening = &tree->draws[i].opening;
        opening->next = 0;
        opening->moves = NULL;
        opening->move_count = 0;
        opening->at_first =
            after && own->move_count > 0 ? own->moves[own->move_count - 1].to : own->at_first;
    }
}

static void begin_draws(const qll_run_plan *plan, qll_tree *tree)
{
    set_draws(plan, tree, false);
    for (size_t i = 0; i < tree->draw_count; i++) {
        tree->draws[i].opening.moves = plan->draws[i].moves;
        tree->draws[i].opening.move_count = plan->draws[i].move_count;
    }
}

/* Coefficients at which the draws give what the plan says while everything rests as before. */
static double find_coefficients(const qll_run_plan *plan, qll_tree *tree, qll_pipeline *pipeline)
{
    double off_pa = 0;
    set_draws(plan, tree, false);
    for (int round = 0; round < draw_rounds; round++) {
        for (size_t i = 0; i < tree->draw_count; i++) {
            const double pa =
                round == 0 ? tree->network.joints[tree->draws[i].joint].start_pa_gauge
                           : qll_pipeline_joint(pipeline, tree->draws[i].joint)->pressure_pa_gauge;
            tree->draws[i].opening.coefficient =
                plan->draws[i].flow_m3s > 0
                    ? qll_opening_coefficient(plan->draws[i].flow_m3s, fmax(pa, least_draw_pa))
                    : 0;
        }
        off_pa = qll_pipeline_rest(pipeline, 0);
    }
    return off_pa;
}

/* Where the joints stand once everything has moved and come to rest. */
static qll_status rest_after(const qll_run_plan *plan, qll_tree *tree, qll_pipeline *pipeline,
                             qll_arena *arena, double **after_pa)
{
    *after_pa = qll_arena_take(arena, tree->network.joint_count, sizeof **after_pa);
    if (*after_pa == NULL) {
        return QLL_NO_MEMORY;
    }
    set_draws(plan, tree, true);
    (void)qll_pipeline_rest(pipeline, 0);
    for (size_t j = 0; j < tree->network.joint_count; j++) {
        (*after_pa)[j] = qll_pipeline_joint(pipeline, j)->pressure_pa_gauge;
    }
    begin_draws(plan, tree);
    (void)qll_pipeline_rest(pipeline, 0);
    return QLL_OK;
}

/* ---- in time ---- */

typedef struct following {
    const qll_run_plan *plan;
    qll_pipeline *pipeline;
    qll_watch *watch;
    size_t next_wake;
    double wave_step_s, woke_s;
    bool is_quiet;
    bool (*goes_on)(double share, void *context);
    void *context;
} following;

/* Until something is known to move, or the end. */
static double room_s(following *f, double now_s)
{
    const qll_run_plan *plan = f->plan;
    while (f->next_wake < plan->wake_count && plan->wakes_s[f->next_wake] < now_s - same_s) {
        f->next_wake += 1;
    }
    const double to_s =
        f->next_wake < plan->wake_count ? plan->wakes_s[f->next_wake] : plan->until_s;
    return fmin(to_s, plan->until_s) - now_s;
}

static double take_step(following *f, qll_run_found *found)
{
    const qll_run_plan *plan = f->plan;
    const double now_s = qll_pipeline_time_s(f->pipeline);
    const double room = room_s(f, now_s);
    const bool may_rest = plan->quiet_step_s > 0;
    if (may_rest && f->is_quiet && room > same_s) {
        const double step_s = fmin(plan->quiet_step_s, room);
        const double off_pa = qll_pipeline_quiet_step(f->pipeline, step_s);
        f->is_quiet = qll_pipeline_moved_pa(f->pipeline) <= plan->wakes_pa;
        f->woke_s = now_s + step_s;
        found->quiet_steps += 1;
        qll_watch_step(f->watch, step_s, false);
        return off_pa;
    }
    if (f->is_quiet) {
        f->woke_s = now_s;
    }
    const double off_pa = qll_pipeline_step(f->pipeline);
    f->is_quiet = may_rest
                  && (qll_pipeline_is_quiet(f->pipeline, qll_event_of(1, NULL, 0).quiet_pa)
                      || now_s - f->woke_s > plan->waves_most_s);
    found->wave_steps += 1;
    qll_watch_step(f->watch, f->wave_step_s, true);
    return off_pa;
}

static qll_status follow(following *f, qll_run_found *found)
{
    const qll_run_plan *plan = f->plan;
    size_t steps = 0;
    bool is_over = false;
    while (!is_over && qll_pipeline_time_s(f->pipeline) < plan->until_s - same_s) {
        found->worst_pa = fmax(found->worst_pa, take_step(f, found));
        const double now_s = qll_pipeline_time_s(f->pipeline);
        is_over = qll_pipeline_joint(f->pipeline, found->tree.outlet_joint)->pressure_pa_gauge
                  >= plan->stops_pa_gauge;
        steps += 1;
        if (f->goes_on != NULL && steps % steps_per_ask == 0
            && !f->goes_on(now_s / plan->until_s, f->context)) {
            return QLL_STOPPED;
        }
    }
    return QLL_OK;
}

static qll_status check_moves(const qll_run_plan *plan, size_t count, qll_problems *problems)
{
    bool good = true;
    for (size_t i = 0; i < count; i++) {
        const qll_opening own = {.moves = plan->draws[i].moves,
                                 .move_count = plan->draws[i].move_count};
        good = qll_opening_check(&own, "event", problems) && good;
    }
    return good ? QLL_OK : qll_problems_status(problems);
}

static qll_status run_tree(const qll_run_plan *plan, following *f, qll_arena *arena,
                           qll_run_found *found)
{
    qll_tree *tree = &found->tree;
    const double sample_s = plan->quiet_step_s > 0 ? plan->quiet_step_s : f->wave_step_s;
    found->worst_pa = find_coefficients(plan, tree, f->pipeline);
    double *after_pa = NULL;
    qll_status status = rest_after(plan, tree, f->pipeline, arena, &after_pa);
    qll_watch watch;
    if (status == QLL_OK) {
        qll_pipeline_watch(f->pipeline);
        status = qll_watch_begin(plan, tree, f->pipeline, sample_s, arena, &watch);
    }
    if (status != QLL_OK) {
        return status;
    }
    f->watch = &watch;
    f->is_quiet = plan->quiet_step_s > 0;
    if (tree->heater != NULL) {
        tree->heater->begins_s = plan->heats_from_s;
    }
    if (tree->leak != NULL) {
        tree->leak->from_s = plan->leaks_from_s;
    }
    status = follow(f, found);
    f->watch = NULL;
    if (status == QLL_OK) {
        status = qll_watch_end(&watch, sample_s, arena, found);
    }
    for (size_t j = 0; j < tree->network.joint_count && status == QLL_OK; j++) {
        watch.joints[j].after_pa_gauge = after_pa[j];
    }
    return status == QLL_OK ? qll_envelope_make(f->pipeline, plan->followed, arena, found) : status;
}

qll_status qll_run_make(const qll_run_plan *plan, qll_problems *problems,
                        bool (*goes_on)(double share, void *context), void *context,
                        qll_arena *arena, qll_run_found *found)
{
    assert(plan != NULL && plan->until_s > 0 && plan->watched_s <= plan->until_s);
    *found = (qll_run_found){0};
    qll_status status = qll_tree_make(&plan->tree, plan->arresters, plan->arrester_count, problems,
                                      arena, &found->tree);
    if (status == QLL_OK) {
        status = check_moves(plan, found->tree.draw_count, problems);
    }
    following f = {.plan = plan, .goes_on = goes_on, .context = context};
    if (status == QLL_OK) {
        status = qll_pipeline_make(&found->tree.network, &plan->grid, problems, arena, &f.pipeline);
    }
    if (status != QLL_OK) {
        return status;
    }
    found->grid = *qll_pipeline_grid(f.pipeline);
    f.wave_step_s = found->grid.step_s;
    return run_tree(plan, &f, arena, found);
}

/* ---- names ---- */

qll_run_place qll_run_place_of(const qll_tree *tree, size_t joint, size_t *index)
{
    *index = 0;
    for (size_t i = 0; i + 1 < tree->draw_count; i++) {
        if (tree->draws[i].joint == joint && joint != tree->outlet_joint) {
            *index = i;
            return QLL_PLACE_DRAW;
        }
    }
    if (joint == tree->main_joint) {
        return QLL_PLACE_MAIN;
    }
    if (joint == tree->stage_joint[0]) {
        return QLL_PLACE_INLET;
    }
    for (size_t i = 0; i < tree->network.line_count; i++) {
        const qll_tree_pipe *pipe = &tree->pipes[i];
        if (tree->network.lines[i].to == joint && pipe->part != QLL_TREE_HEADER) {
            *index = pipe->part == QLL_TREE_SERVICE ? pipe->element : pipe->outlet;
            return pipe->part == QLL_TREE_SERVICE ? QLL_PLACE_SERVICE : QLL_PLACE_WAY;
        }
    }
    for (size_t i = 1; i + 1 < 2 * tree->stage_count; i++) {
        if (tree->stage_joint[i] == joint) {
            return QLL_PLACE_BETWEEN;
        }
    }
    return joint == tree->outlet_joint ? QLL_PLACE_OUTLET : QLL_PLACE_BEHIND;
}
