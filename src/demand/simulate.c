/* Second by second (docs/theory/simulation.md).
 *
 * 1. Events only: each use adds its level to one second's difference and takes it away at another;
 *    a running sum over the day gives the flow. Levels are whole steps of the pulse model's grid, so
 *    sums are exact and nobody draws where the level is 0.
 * 2. Starts are floored to seconds; durations are whole seconds whose mean is that of the use.
 * 3. What runs over midnight stays in the differences behind the day and is moved to its front. */
#include "demand/simulate.h"

#include "base/random.h"
#include "demand/day_model.h"
#include "demand/demand.h"
#include "numeric/sample.h"

#include <math.h>
#include <string.h>

#define QLL_HOUR_SECONDS 3600
/* Uses of one day: a second or two of work. No building comes near it. */
#define QLL_USES_MAX     1e8

typedef struct use_law {
    double per_hour; /* mean number of uses in an hour of multiplier 1 */
    qll_alias duration_s, level;
} use_law;

/* Seconds of the day from first_s on that share one base. */
typedef struct base_stretch {
    size_t first_s, end_s;
    size_t base;
} base_stretch;

struct qll_simulator {
    qll_day_model model;
    qll_random random;
    use_law *uses;
    size_t tail_count; /* differences kept behind the day */
    int32_t *differences;
    int32_t level; /* running at the end of the last second */
    base_stretch *stretches;
    size_t stretch_count;
    double *bases_m3s;
    size_t base_count;
    int32_t *levels; /* of the block at hand */
    double *flow_m3s;
};

/* ---- laws ---- */

static qll_status make_alias(qll_lognormal amount, double step, qll_arena *arena, qll_alias *alias,
                             size_t *count)
{
    *count = qll_lognormal_count(amount, step);
    double *p = qll_arena_take(arena, *count, sizeof *p);
    if (p == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_lognormal_lay(amount, 1.0, step, p);
    return qll_alias_make(p, *count, arena, alias);
}

static qll_status make_laws(qll_simulator *sim, qll_arena *arena)
{
    const qll_day_model *model = &sim->model;
    sim->uses = qll_arena_take(arena, model->use_count, sizeof *sim->uses);
    if (sim->uses == NULL) {
        return QLL_NO_MEMORY;
    }
    double uses_of_day = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        size_t seconds = 0;
        size_t levels = 0;
        qll_status status =
            make_alias(use->duration_s, 1.0, arena, &sim->uses[i].duration_s, &seconds);
        if (status == QLL_OK) {
            status =
                make_alias(use->flow_m3s, model->step_m3s, arena, &sim->uses[i].level, &levels);
        }
        if (status != QLL_OK) {
            return status;
        }
        sim->uses[i].per_hour = use->busy * QLL_HOUR_SECONDS / use->duration_s.mean;
        uses_of_day += 24.0 * sim->uses[i].per_hour;
        sim->tail_count = seconds > sim->tail_count ? seconds : sim->tail_count;
    }
    return uses_of_day <= QLL_USES_MAX ? QLL_OK : QLL_REFUSED;
}

/* ---- leak and continuous flows ---- */

static size_t find_base(qll_simulator *sim, double base_m3s)
{
    for (size_t b = 0; b < sim->base_count; b++) {
        if (sim->bases_m3s[b] == base_m3s) {
            return b;
        }
    }
    sim->bases_m3s[sim->base_count] = base_m3s;
    sim->base_count += 1;
    return sim->base_count - 1;
}

static qll_status make_bases(const qll_scenario *scenario, qll_simulator *sim, qll_arena *arena)
{
    const qll_steady *steady = NULL;
    size_t count = 0;
    const qll_status status = qll_steady_day(scenario, arena, &steady, &count);
    if (status != QLL_OK) {
        return status;
    }
    sim->stretches = qll_arena_take(arena, count, sizeof *sim->stretches);
    sim->bases_m3s = qll_arena_take(arena, count, sizeof *sim->bases_m3s);
    if (sim->stretches == NULL || sim->bases_m3s == NULL) {
        return QLL_NO_MEMORY;
    }
    double time_s = 0.0;
    size_t first_s = 0;
    for (size_t i = 0; i < count; i++) {
        time_s += steady[i].duration_s;
        const size_t end_s = i + 1 == count ? QLL_DAY_SECONDS : (size_t)floor(time_s + 1e-6);
        if (end_s > first_s) {
            const size_t base = find_base(sim, sim->model.leak_m3s + steady[i].flow_m3s);
            sim->stretches[sim->stretch_count] = (base_stretch){first_s, end_s, base};
            sim->stretch_count += 1;
            first_s = end_s;
        }
    }
    return QLL_OK;
}

/* ---- events ---- */

/* Uses of one kind that start in @p span_s seconds from @p first_s on. */
static void add_uses(qll_simulator *sim, const use_law *use, size_t first_s, size_t span_s,
                     double mean_count)
{
    const size_t count = (size_t)qll_sample_poisson(&sim->random, mean_count);
    int32_t *differences = sim->differences + first_s;
    qll_random random = sim->random;
    for (size_t i = 0; i < count; i++) {
        const size_t start = (size_t)(((qll_random_bits(&random) >> 32) * span_s) >> 32);
        const size_t length = qll_alias_draw(use->duration_s, &random);
        const int32_t level = (int32_t)qll_alias_draw(use->level, &random);
        differences[start] += level;
        differences[start + length] -= level;
    }
    sim->random = random;
}

static void add_day(qll_simulator *sim)
{
    const qll_day_model *model = &sim->model;
    const double factor =
        model->rate_cv > 0.0 ? qll_sample_gamma(&sim->random, model->rate_cv) : 1.0;
    const size_t break_s = model->break_share > 0.0 ? (size_t)(model->break_s + 0.5) : 0;
    const size_t rest_s = QLL_HOUR_SECONDS - break_s;
    const double inside = qll_day_model_break_factor(model, true) * (double)break_s;
    const double outside = qll_day_model_break_factor(model, false) * (double)rest_s;
    for (size_t hour = 0; hour < 24; hour++) {
        const size_t first_s = hour * QLL_HOUR_SECONDS;
        for (size_t i = 0; i < model->use_count; i++) {
            const use_law *use = &sim->uses[i];
            const double rate = use->per_hour * model->shape[hour] * factor / QLL_HOUR_SECONDS;
            if (break_s > 0) {
                add_uses(sim, use, first_s, break_s, rate * inside);
            }
            if (rest_s > 0) {
                add_uses(sim, use, first_s + break_s, rest_s, rate * outside);
            }
        }
    }
}

static void drop_day(qll_simulator *sim)
{
    int32_t *differences = sim->differences;
    memmove(differences, differences + QLL_DAY_SECONDS, sim->tail_count * sizeof *differences);
    memset(differences + sim->tail_count, 0, QLL_DAY_SECONDS * sizeof *differences);
}

/* A day nobody sees, for what of it runs over midnight. */
static void warm_up(qll_simulator *sim)
{
    add_day(sim);
    for (size_t s = 0; s < QLL_DAY_SECONDS; s++) {
        sim->level += sim->differences[s];
    }
    drop_day(sim);
}

qll_status qll_simulator_make(const qll_scenario *scenario, uint64_t seed, qll_arena *arena,
                              qll_simulator **simulator)
{
    qll_simulator *sim = qll_arena_take(arena, 1, sizeof *sim);
    if (sim == NULL) {
        return QLL_NO_MEMORY;
    }
    sim->random = qll_random_seeded(seed);
    qll_status status = qll_day_model_make(scenario, arena, &sim->model);
    if (status == QLL_OK) {
        status = make_laws(sim, arena);
    }
    if (status == QLL_OK) {
        status = make_bases(scenario, sim, arena);
    }
    if (status != QLL_OK) {
        return status;
    }
    sim->differences =
        qll_arena_take(arena, QLL_DAY_SECONDS + sim->tail_count, sizeof *sim->differences);
    sim->levels = qll_arena_take(arena, QLL_HOUR_SECONDS, sizeof *sim->levels);
    sim->flow_m3s = qll_arena_take(arena, QLL_HOUR_SECONDS, sizeof *sim->flow_m3s);
    if (sim->differences == NULL || sim->levels == NULL || sim->flow_m3s == NULL) {
        return QLL_NO_MEMORY;
    }
    warm_up(sim);
    *simulator = sim;
    return QLL_OK;
}

size_t qll_simulator_base_count(const qll_simulator *simulator)
{
    return simulator->base_count;
}

/* ---- seconds ---- */

static void emit(qll_simulator *sim, const base_stretch *stretch, qll_second_sink *sink,
                 void *context)
{
    const double base_m3s = sim->bases_m3s[stretch->base];
    const double step_m3s = sim->model.step_m3s;
    const size_t count = stretch->end_s - stretch->first_s;
    const int32_t *differences = sim->differences + stretch->first_s;
    int32_t level = sim->level;
    for (size_t s = 0; s < count; s++) {
        level += differences[s];
        sim->levels[s] = level;
        sim->flow_m3s[s] = base_m3s + step_m3s * (double)level;
    }
    sim->level = level;
    const qll_second_block block = {.first_s = stretch->first_s,
                                    .count = count,
                                    .levels = sim->levels,
                                    .step_m3s = step_m3s,
                                    .flow_m3s = sim->flow_m3s,
                                    .base = stretch->base,
                                    .base_m3s = base_m3s};
    sink(context, &block);
}

void qll_simulator_day(qll_simulator *simulator, qll_second_sink *sink, void *context)
{
    add_day(simulator);
    for (size_t i = 0; i < simulator->stretch_count; i++) {
        emit(simulator, &simulator->stretches[i], sink, context);
    }
    drop_day(simulator);
}
