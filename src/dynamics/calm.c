/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/calm.h"

#include "dynamics/held.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Amounts from the most down to about a thousandth of it, each so much less than the one before. */
static const double step = 1.33;
static const int steps = 24;
static const double close_enough = 0.02;
/* A tap that closes: as in stability.md; pilots swing slowly and are watched for longer. */
static const double flow_before = 1.3, taps_s = 0.04;
static const double quick_s = 2, quick_watched_s = 0.5, slow_s = 90, slow_watched_s = 30;
static const double tolerance = 1e-4;

/* A case with an amount of what calms it. */
typedef struct trial {
    const qll_calm_case *given;
    qll_calm_by by;
    qll_regulator *valves;
    qll_around around;
    qll_arena *arena;
} trial;

static void apply(trial *with, double amount)
{
    const qll_calm_case *given = with->given;
    memcpy(with->valves, given->valves, given->valve_count * sizeof *with->valves);
    with->around = *given->around;
    if (with->by == QLL_CALM_BY_AIR) {
        double highest_pa = 0;
        for (size_t j = 0; j < given->valve_count; j++) {
            highest_pa = fmax(highest_pa, given->valves[j].set_pa);
        }
        with->around.air_m3 += amount;
        with->around.air_at_pa = highest_pa;
        return;
    }
    for (size_t j = 0; j < given->valve_count; j++) {
        if (with->by == QLL_CALM_BY_OFFSET) {
            with->valves[j].set_pa -= (double)j * amount;
        } else if (with->valves[j].acting == QLL_ACTING_DIRECT) {
            with->valves[j].damping_n_s_m += amount;
        }
    }
}

static qll_status make(const trial *with, qll_lumped *lumped, double **values)
{
    qll_status status =
        qll_lumped_make(with->valves, with->given->valve_count, &with->around, with->arena, lumped);
    if (status == QLL_OK) {
        *values = qll_arena_take(with->arena, lumped->at.count, sizeof **values);
        status = *values != NULL ? QLL_OK : QLL_NO_MEMORY;
    }
    return status;
}

/* (24): no swing keeps up at any flow. */
static qll_status holds_at(trial *with, double amount, bool *holds)
{
    qll_arena_mark mark = qll_arena_now(with->arena);
    qll_lumped lumped;
    double *values;
    apply(with, amount);
    qll_status status = make(with, &lumped, &values);
    *holds = true;
    for (size_t i = 0; status == QLL_OK && *holds && i < with->given->flow_count; i++) {
        qll_held held;
        if (qll_lumped_rest(&lumped, with->given->flows_m3s[i], values)) {
            status = qll_lumped_held(&lumped, values, with->given->swing_pa, with->arena, &held);
            *holds = status == QLL_OK && !held.keeps_up;
        }
    }
    qll_arena_reset(with->arena, mark);
    return status;
}

static qll_motion_event event_of(const qll_calm_case *given, double flow_m3s)
{
    bool is_slow = given->valves[0].acting == QLL_ACTING_PILOT;
    return (qll_motion_event){.flow_before_m3s = flow_before * flow_m3s,
                              .flow_m3s = flow_m3s,
                              .taps_s = taps_s,
                              .duration_s = is_slow ? slow_s : quick_s,
                              .watched_s = is_slow ? slow_watched_s : quick_watched_s,
                              .tolerance = tolerance};
}

/* (25) */
static qll_status run_all(trial *with, qll_calm *calm)
{
    qll_arena_mark mark = qll_arena_now(with->arena);
    qll_lumped lumped;
    double *values;
    apply(with, calm->amount);
    qll_status status = make(with, &lumped, &values);
    for (size_t i = 0; status == QLL_OK && i < with->given->flow_count; i++) {
        const qll_motion_event event = event_of(with->given, with->given->flows_m3s[i]);
        qll_motion_found found;
        if (!qll_lumped_rest(&lumped, event.flow_before_m3s, values)) {
            continue;
        }
        status = qll_motion_run(&lumped, &event, with->arena, &found);
        if (status == QLL_OK) {
            calm->is_felt = calm->is_felt || found.is_felt;
            calm->swing = fmax(calm->swing, found.swing);
        }
    }
    qll_arena_reset(with->arena, mark);
    return status;
}

/* From the most down, as long as it holds; then halved between the least that does and what does not. */
static qll_status least_that_holds(trial *with, double most, qll_calm *calm)
{
    double below = 0;
    for (int i = 0; i <= steps; i++) {
        const double amount = most * pow(step, -i);
        bool holds;
        qll_status status = holds_at(with, amount, &holds);
        if (status != QLL_OK) {
            return status;
        }
        if (!holds) {
            below = amount;
            break;
        }
        calm->is_found = true;
        calm->amount = amount;
    }
    while (calm->is_found && below > 0 && calm->amount > (1 + close_enough) * below) {
        const double middle = sqrt(calm->amount * below);
        bool holds;
        qll_status status = holds_at(with, middle, &holds);
        if (status != QLL_OK) {
            return status;
        }
        *(holds ? &calm->amount : &below) = middle;
    }
    return QLL_OK;
}

qll_status qll_calm_find(const qll_calm_case *given, qll_calm_by by, double most, qll_arena *arena,
                         qll_calm *calm)
{
    assert(given != NULL && by < QLL_CALM_BY_COUNT && arena != NULL && calm != NULL);
    *calm = (qll_calm){.amount = 0};
    if (given->valve_count == 0 || given->flow_count == 0 || !(given->swing_pa > 0) || !(most > 0)
        || !isfinite(most)) {
        return QLL_REFUSED;
    }
    qll_arena_mark mark = qll_arena_now(arena);
    trial with = {.given = given, .by = by, .arena = arena};
    with.valves = qll_arena_take(arena, given->valve_count, sizeof *with.valves);
    qll_status status = with.valves != NULL ? QLL_OK : QLL_NO_MEMORY;
    bool holds = true;
    status = status == QLL_OK ? holds_at(&with, 0, &holds) : status;
    calm->is_needed = status == QLL_OK && !holds;
    if (calm->is_needed) {
        status = least_that_holds(&with, most, calm);
    }
    if (status == QLL_OK && (calm->is_found || !calm->is_needed)) {
        status = run_all(&with, calm);
    }
    qll_arena_reset(arena, mark);
    return status;
}
