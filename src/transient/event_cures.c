#include "transient/event_cures.h"

#include "base/count.h"

#include <math.h>

const char *const qll_event_cure_words[QLL_EVENT_CURE_COUNT] = {
#define QLL_EVENT_CURE_WORD(name, word) word,
    QLL_EVENT_CURE_LIST(QLL_EVENT_CURE_WORD)
#undef QLL_EVENT_CURE_WORD
};

/* Air of arresters, m3, and the most they are charged to (from memory). */
static const double arresters_m3[] = {5e-5, 1e-4, 2e-4, 4e-4, 8e-4, 1.6e-3};
static const double arrester_pa_gauge = 60 * QLL_PSI_PA;
static const double slower_s[] = {0.1, 0.2, 0.5, 1, 2, 5};
static const double offsets_pa[] = {1 * QLL_PSI_PA, 2 * QLL_PSI_PA,  3 * QLL_PSI_PA, 5 * QLL_PSI_PA,
                                    7 * QLL_PSI_PA, 10 * QLL_PSI_PA, 15 * QLL_PSI_PA};
static const double dampings[] = {3, 10, 30};
static const double airs_m3[] = {1e-4, 4e-4, 1.6e-3, 6.4e-3, 2.5e-2};
/* Half swing over the set-point that few would notice (our assumption). */
static const double still_swing = 0.005;

bool qll_run_is_still(const qll_run_found *found)
{
    bool is_still = true;
    for (size_t i = 0; i < found->tree.valve_count; i++) {
        const qll_motion_found *motion = &found->valves[i].motion;
        is_still = is_still
                   && (motion->state == QLL_MOTION_STATE_STABLE
                       || (!motion->is_felt && motion->swing <= still_swing));
    }
    return is_still;
}

double qll_run_swing_pa(const qll_run_found *found)
{
    double most_pa = 0;
    for (size_t i = 0; i < found->tree.valve_count; i++) {
        const qll_motion_found *motion = &found->valves[i].motion;
        if (motion->state != QLL_MOTION_STATE_STABLE) {
            most_pa = fmax(most_pa, (motion->most_pa - motion->least_pa) / 2);
        }
    }
    return most_pa;
}

/* Everything that trying needs. */
typedef struct trying {
    const qll_run_plan *plan;
    bool is_closure;
    bool (*goes_on)(double share, void *context);
    void *context;
    qll_arena *arena;
    size_t done, all; /* runs */
} trying;

static bool still_goes(double share, void *context)
{
    const trying *t = context;
    return t->goes_on == NULL || t->goes_on(((double)t->done + share) / (double)t->all, t->context);
}

static bool needs_none(const qll_run_found *found, bool is_closure)
{
    return is_closure ? qll_hammer_of(found).kind == QLL_HAMMER_NONE : qll_run_is_still(found);
}

/* One run of a changed plan; the cure takes it where it is the first that works, or better than before. */
static qll_status try_plan(trying *t, const qll_run_plan *plan, double size, qll_event_cure *cure)
{
    const qll_arena_mark mark = qll_arena_now(t->arena);
    qll_problems problems = qll_problems_none(t->arena);
    qll_run_found found;
    const qll_status status = qll_run_make(plan, &problems, still_goes, t, t->arena, &found);
    if (status == QLL_OK) {
        const double figure_pa =
            t->is_closure ? qll_hammer_of(&found).high_pa_gauge : qll_run_swing_pa(&found);
        cure->works = needs_none(&found, t->is_closure);
        if (cure->works || isnan(cure->figure_pa) || figure_pa < cure->figure_pa) {
            cure->figure_pa = figure_pa;
            cure->size = size;
        }
    }
    t->done += 1;
    qll_arena_reset(t->arena, mark);
    return status == QLL_REFUSED ? QLL_OK : status;
}

/* ---- the kinds ---- */

static qll_status try_air(trying *t, const double *sizes_m3, size_t count, size_t draw,
                          qll_event_cure *cure)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; i < count && status == QLL_OK && !cure->works; i++) {
        const qll_tree_arrester arrester = {draw, sizes_m3[i], cure->precharge_pa_gauge};
        qll_run_plan plan = *t->plan;
        plan.arresters = &arrester;
        plan.arrester_count = 1;
        status = try_plan(t, &plan, sizes_m3[i], cure);
    }
    return status;
}

static qll_status try_slower(trying *t, qll_event_cure *cure)
{
    const size_t count = t->plan->tree.site->outlet_count + 1;
    qll_status status = QLL_OK;
    for (size_t i = 0; i < QLL_COUNT(slower_s) && status == QLL_OK && !cure->works; i++) {
        const qll_arena_mark mark = qll_arena_now(t->arena);
        qll_draw_plan *draws = qll_arena_take(t->arena, count, sizeof *draws);
        if (draws == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t k = 0; k < count; k++) {
            draws[k] = t->plan->draws[k];
        }
        qll_opening_move move = draws[t->plan->followed].moves[0];
        const double longer_s = fmax(slower_s[i] - move.takes_s, 0);
        const bool is_slower = slower_s[i] > move.takes_s;
        move.takes_s = slower_s[i];
        draws[t->plan->followed].moves = &move;
        qll_run_plan plan = *t->plan;
        plan.draws = draws;
        plan.until_s += longer_s;
        if (is_slower) {
            status = try_plan(t, &plan, slower_s[i], cure);
        }
        qll_arena_reset(t->arena, mark);
    }
    return status;
}

/* The last stage with valves side by side; stage_count: none. */
static size_t side_by_side(const qll_station *station)
{
    size_t found = station->stage_count;
    for (size_t k = 0; k < station->stage_count; k++) {
        found = station->stages[k].branch_count > 1 ? k : found;
    }
    return found;
}

static qll_status try_offsets(trying *t, size_t stage, qll_event_cure *cure)
{
    const qll_station *station = t->plan->tree.station;
    const size_t branches = station->stages[stage].branch_count;
    const double highest_pa_gauge = qll_stage_highest_set_pa_gauge(&station->stages[stage]);
    cure->valve = branches - 1;
    for (size_t k = 0; k < stage; k++) {
        cure->valve += station->stages[k].branch_count;
    }
    qll_status status = QLL_OK;
    for (size_t i = 0; i < QLL_COUNT(offsets_pa) && status == QLL_OK && !cure->works; i++) {
        const qll_arena_mark mark = qll_arena_now(t->arena);
        qll_stage *stages = qll_arena_take(t->arena, station->stage_count, sizeof *stages);
        qll_branch *own = qll_arena_take(t->arena, branches, sizeof *own);
        if (stages == NULL || own == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t k = 0; k < station->stage_count; k++) {
            stages[k] = station->stages[k];
        }
        for (size_t j = 0; j < branches; j++) {
            own[j] = station->stages[stage].branches[j];
        }
        own[branches - 1].set_pa_gauge = highest_pa_gauge - offsets_pa[i];
        stages[stage].branches = own;
        const qll_station changed = {stages, station->stage_count};
        qll_run_plan plan = *t->plan;
        plan.tree.station = &changed;
        status = try_plan(t, &plan, offsets_pa[i], cure);
        qll_arena_reset(t->arena, mark);
    }
    cure->set_pa_gauge = highest_pa_gauge - cure->size;
    return status;
}

/* The station with every valve so many times as slow: direct-acting ones damped, pilot-operated ones throttled at the
 * needle, whether the sheet says how much they are or not. */
static bool slow_down(const qll_station *station, double times, qll_arena *arena,
                      qll_station *slowed)
{
    const size_t count = qll_station_valve_count(station);
    qll_stage *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    qll_branch *branches = qll_arena_take(arena, count, sizeof *branches);
    qll_valve *valves = qll_arena_take(arena, count, sizeof *valves);
    if (stages == NULL || branches == NULL || valves == NULL) {
        return false;
    }
    size_t valve = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        stages[k] = station->stages[k];
        stages[k].branches = &branches[valve];
        for (size_t j = 0; j < stages[k].branch_count; j++, valve++) {
            branches[valve] = station->stages[k].branches[j];
            valves[valve] = *branches[valve].valve;
            valves[valve].damping_n_s_m *= times;
            valves[valve].stroke_s *= times;
            branches[valve].valve = &valves[valve];
        }
    }
    *slowed = (qll_station){stages, station->stage_count};
    return true;
}

static qll_status try_damping(trying *t, qll_event_cure *cure)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; i < QLL_COUNT(dampings) && status == QLL_OK && !cure->works; i++) {
        const qll_arena_mark mark = qll_arena_now(t->arena);
        qll_motion motion = *t->plan->tree.motion;
        motion.of[QLL_MOTION_DAMPING] *= dampings[i];
        motion.of[QLL_MOTION_STROKE_S] *= dampings[i];
        qll_station slowed;
        if (!slow_down(t->plan->tree.station, dampings[i], t->arena, &slowed)) {
            return QLL_NO_MEMORY;
        }
        qll_run_plan plan = *t->plan;
        plan.tree.motion = &motion;
        plan.tree.station = &slowed;
        status = try_plan(t, &plan, dampings[i], cure);
        qll_arena_reset(t->arena, mark);
    }
    return status;
}

static qll_status try_kind(trying *t, qll_event_cure *cure)
{
    const size_t outlet = t->plan->tree.site->outlet_count; /* the draw at the station's outlet */
    switch (cure->kind) {
    case QLL_EVENT_CURE_ARRESTER:
        return try_air(t, arresters_m3, QLL_COUNT(arresters_m3), t->plan->followed, cure);
    case QLL_EVENT_CURE_SLOWER: return try_slower(t, cure);
    case QLL_EVENT_CURE_OFFSET: return try_offsets(t, side_by_side(t->plan->tree.station), cure);
    case QLL_EVENT_CURE_DAMPING: return try_damping(t, cure);
    case QLL_EVENT_CURE_AIR:
    case QLL_EVENT_CURE_COUNT:
    default: return try_air(t, airs_m3, QLL_COUNT(airs_m3), outlet, cure);
    }
}

static size_t kinds_for(const trying *t, qll_event_cure_kind *kinds)
{
    if (t->is_closure) {
        kinds[0] = QLL_EVENT_CURE_ARRESTER;
        kinds[1] = QLL_EVENT_CURE_SLOWER;
        return 2;
    }
    size_t count = 0;
    if (side_by_side(t->plan->tree.station) < t->plan->tree.station->stage_count) {
        kinds[count++] = QLL_EVENT_CURE_OFFSET;
    }
    kinds[count++] = QLL_EVENT_CURE_DAMPING;
    kinds[count++] = QLL_EVENT_CURE_AIR;
    return count;
}

/* The lower of what stands at a joint before and after: air charged to more would hold no water there. */
static double standing_pa_gauge(const qll_run_found *found, size_t joint)
{
    return fmin(found->joints[joint].before_pa_gauge, found->joints[joint].after_pa_gauge);
}

static qll_event_cure cure_of(const trying *t, const qll_run_found *found, qll_event_cure_kind kind)
{
    const size_t followed = found->tree.draws[t->plan->followed].joint;
    return (qll_event_cure){.kind = kind,
                            .figure_pa = (double)NAN,
                            .precharge_pa_gauge =
                                kind == QLL_EVENT_CURE_AIR
                                    ? standing_pa_gauge(found, found->tree.outlet_joint)
                                    : fmin(arrester_pa_gauge, standing_pa_gauge(found, followed))};
}

qll_status qll_event_cures_find(const qll_run_plan *plan, const qll_run_found *found,
                                bool is_closure, bool (*goes_on)(double share, void *context),
                                void *context, qll_arena *arena, qll_event_cures *tried)
{
    *tried = (qll_event_cures){0};
    if (needs_none(found, is_closure)) {
        return QLL_OK;
    }
    tried->cures = qll_arena_take(arena, QLL_EVENT_CURE_COUNT, sizeof *tried->cures);
    if (tried->cures == NULL) {
        return QLL_NO_MEMORY;
    }
    trying t = {.plan = plan,
                .is_closure = is_closure,
                .goes_on = goes_on,
                .context = context,
                .arena = arena,
                .all = QLL_COUNT(arresters_m3) + QLL_COUNT(slower_s) + QLL_COUNT(offsets_pa)};
    qll_event_cure_kind kinds[QLL_EVENT_CURE_COUNT];
    tried->count = kinds_for(&t, kinds);
    qll_status status = QLL_OK;
    for (size_t i = 0; i < tried->count && status == QLL_OK; i++) {
        tried->cures[i] = cure_of(&t, found, kinds[i]);
        status = try_kind(&t, &tried->cures[i]);
    }
    return status;
}
