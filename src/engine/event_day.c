/* A day of a building as an event. */
#include "demand/simulate.h"
#include "engine/planning.h"

#include <math.h>

/* A day's waves: of so many changes, for so long. */
enum {
    QLL_DAY_WAKES = 12
};

static const double day_waves_s = 1;
static const double change_s = 0.5; /* of what the building draws (our assumption) */

typedef struct day {
    double *flow_m3s; /* [second] */
    double most_m3s, sum_m3;
} day;

static void take_seconds(void *context, const qll_second_block *block)
{
    day *d = context;
    for (size_t i = 0; i < block->count; i++) {
        d->flow_m3s[block->first_s + i] = block->flow_m3s[i];
        d->most_m3s = fmax(d->most_m3s, block->flow_m3s[i]);
        d->sum_m3 += block->flow_m3s[i];
    }
}

/* The first scenario that has fixtures; scenario_count: none. */
static size_t lived_in(const qll_survey *survey)
{
    size_t i = 0;
    while (i < survey->scenario_count && !qll_scenario_has_fixtures(&survey->scenarios[i])) {
        i += 1;
    }
    return i;
}

/* Every change of the flow as a move of a second, of the whole building's draw. */
static qll_status lay_day(qll_planning *p, const day *d)
{
    size_t count = 0;
    for (size_t s = 1; s < QLL_DAY_SECONDS; s++) {
        count += d->flow_m3s[s] != d->flow_m3s[s - 1];
    }
    qll_opening_move *moves = qll_arena_take(p->asked->arena, count + 1, sizeof *moves);
    if (moves == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t made = 0;
    for (size_t s = 1; s < QLL_DAY_SECONDS; s++) {
        if (d->flow_m3s[s] != d->flow_m3s[s - 1]) {
            moves[made++] = (qll_opening_move){.begins_s = (double)s,
                                               .takes_s = change_s,
                                               .from = d->flow_m3s[s - 1] / d->most_m3s,
                                               .to = d->flow_m3s[s] / d->most_m3s,
                                               .power = 1};
        }
    }
    p->made->draws[p->made->plan.followed] =
        (qll_draw_plan){d->most_m3s, d->flow_m3s[0] / d->most_m3s, moves, made};
    return QLL_OK;
}

/* Seconds of the sharpest changes, in order of time. */
static double *sharpest(const day *d, qll_arena *arena)
{
    double *wakes_s = qll_arena_take(arena, QLL_DAY_WAKES, sizeof *wakes_s);
    bool *taken = qll_arena_take(arena, QLL_DAY_SECONDS, sizeof *taken);
    if (wakes_s == NULL || taken == NULL) {
        return NULL;
    }
    for (size_t i = 0; i < QLL_DAY_WAKES; i++) {
        size_t best = 0;
        double change_m3s = -1;
        for (size_t s = 1; s < QLL_DAY_SECONDS; s++) {
            const double own_m3s = fabs(d->flow_m3s[s] - d->flow_m3s[s - 1]);
            if (!taken[s] && own_m3s > change_m3s) {
                best = s;
                change_m3s = own_m3s;
            }
        }
        taken[best] = true;
    }
    size_t count = 0;
    for (size_t s = 0; s < QLL_DAY_SECONDS; s++) {
        if (taken[s]) {
            wakes_s[count++] = (double)s;
        }
    }
    return wakes_s;
}

static qll_status simulate_day(qll_planning *p, const qll_scenario *scenario, day *d)
{
    d->flow_m3s = qll_arena_take(p->asked->arena, QLL_DAY_SECONDS, sizeof *d->flow_m3s);
    qll_simulator *simulator = NULL;
    if (d->flow_m3s == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status =
        qll_simulator_make(scenario, p->asked->seed, p->asked->arena, &simulator);
    if (status == QLL_OK) {
        qll_simulator_day(simulator, take_seconds, d);
    }
    return status;
}

qll_status qll_plan_day(qll_planning *p)
{
    const qll_survey *survey = &p->of->prepared->survey;
    const size_t index = lived_in(survey);
    if (index == survey->scenario_count) {
        qll_asked_refuse(p->asked, QLL_CODE_MISSING_KEY, "--event",
                         QLL_SAYS_WITH(DAY_NO_FIXTURES, qll_as_is(survey->scenarios[0].name)),
                         NULL);
        return qll_problems_status(&p->asked->problems);
    }
    day d = {0};
    qll_status status = simulate_day(p, &survey->scenarios[index], &d);
    double *wakes_s = status == QLL_OK ? sharpest(&d, p->asked->arena) : NULL;
    if (status != QLL_OK || wakes_s == NULL) {
        return status != QLL_OK ? status : QLL_NO_MEMORY;
    }
    qll_run_plan *plan = &p->made->plan;
    plan->quiet_step_s = 1;
    plan->wakes_pa = INFINITY;
    plan->waves_most_s = day_waves_s;
    plan->wakes_s = wakes_s;
    plan->wake_count = QLL_DAY_WAKES;
    plan->until_s = QLL_DAY_SECONDS;
    p->findings->static_pa_gauge = qll_planning_static_middle(p);
    p->findings->says =
        (qll_said){QLL_TEXT_SIM_DAY,
                   {qll_as_is(survey->scenarios[index].name),
                    qll_as_quantity(d.sum_m3, QLL_KIND_VOLUME), qll_as_whole(QLL_DAY_WAKES)}};
    return d.most_m3s > 0 ? lay_day(p, &d) : QLL_OK;
}
