/* Second by second (docs/theory/simulation.md).
 *
 * 1. Events only: each use, alone or of a visit, adds its level to one second's difference and takes it away at another;
 *    a running sum over the day gives the flow. Levels are whole steps of the pulse model's grid, so
 *    sums are exact and nobody draws where the level is 0.
 * 2. Starts are floored to seconds; durations are whole seconds whose mean is that of the use.
 * 3. What runs over midnight stays in the differences behind the day and is moved to its front. */
#include "demand/simulate.h"

#include "base/random.h"
#include "demand/day_model.h"
#include "demand/demand.h"
#include "demand/flow_law.h"
#include "numeric/sample.h"

#include <math.h>
#include <string.h>

#define QLL_HOUR_SECONDS 3600
/* Uses of one day: a second or two of work. No building comes near it. */
#define QLL_USES_MAX     1e8
/* An exponential offset is cut at so many means: 1e-11 of them. */
#define QLL_OFFSET_CUT   25.0
/* Uses of one part of a visit, at most; 1e-12 of geometric ones have more (our choice). */
#define QLL_PART_MOST    60

typedef struct use_law {
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
    qll_alias leak_level;
    int32_t leak;      /* of the day at hand */
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

static qll_status make_use_laws(qll_simulator *sim, qll_arena *arena)
{
    const qll_day_model *model = &sim->model;
    sim->uses = qll_arena_take(arena, model->use_count, sizeof *sim->uses);
    if (sim->uses == NULL) {
        return QLL_NO_MEMORY;
    }
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
        sim->tail_count = seconds > sim->tail_count ? seconds : sim->tail_count;
    }
    return QLL_OK;
}

static double longest_offset_s(const qll_visit_part *part)
{
    return part->offset == QLL_OFFSET_NONE
               ? 0.0
               : part->offset_s * (part->offset == QLL_OFFSET_UNIFORM ? 1.0 : QLL_OFFSET_CUT);
}

static qll_status make_laws(qll_simulator *sim, qll_arena *arena)
{
    const qll_day_model *model = &sim->model;
    qll_status status = make_use_laws(sim, arena);
    qll_distribution leaks = {0};
    if (status == QLL_OK) {
        status = qll_leak_law_make(model, arena, &leaks);
    }
    if (status == QLL_OK) {
        status = qll_alias_make(leaks.p, leaks.count, arena, &sim->leak_level);
    }
    double uses_of_day = 0.0;
    double offset_s = 0.0;
    for (size_t v = 0; v < model->visit_count; v++) {
        for (size_t i = 0; i < model->visits[v].part_count; i++) {
            const qll_visit_part *part = &model->visits[v].parts[i];
            uses_of_day += model->visits[v].per_day * part->count_mean;
            offset_s = fmax(offset_s, longest_offset_s(part));
        }
    }
    sim->tail_count += (size_t)offset_s + 1;
    return status == QLL_OK && uses_of_day > QLL_USES_MAX ? QLL_REFUSED : status;
}

/* ---- steady and continuous flows ---- */

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
            const double steady_m3s = sim->model.steady_m3s[steady[i].hour];
            const size_t base = find_base(sim, steady_m3s + steady[i].flow_m3s);
            sim->stretches[sim->stretch_count] = (base_stretch){first_s, end_s, base};
            sim->stretch_count += 1;
            first_s = end_s;
        }
    }
    return QLL_OK;
}

/* ---- events ---- */

/* Seconds that a visit may start in: @p span_s from @p first_s on; how many do so on average. */
typedef struct start_span {
    size_t first_s, span_s;
    double mean_count;
} start_span;

/* Uses of one kind that come alone. */
static void add_uses(qll_simulator *sim, const use_law *use, start_span span)
{
    const size_t count = (size_t)qll_sample_poisson(&sim->random, span.mean_count);
    int32_t *differences = sim->differences + span.first_s;
    qll_random random = sim->random;
    for (size_t i = 0; i < count; i++) {
        const size_t start = (size_t)(((qll_random_bits(&random) >> 32) * span.span_s) >> 32);
        const size_t length = qll_alias_draw(use->duration_s, &random);
        const int32_t level = (int32_t)qll_alias_draw(use->level, &random);
        differences[start] += level;
        differences[start + length] -= level;
    }
    sim->random = random;
}

static size_t draw_count(const qll_visit_part *part, qll_random *random)
{
    if (part->count == QLL_COUNT_FIXED) {
        return (size_t)part->count_mean;
    }
    if (part->count == QLL_COUNT_POISSON) {
        const double count = qll_sample_poisson(random, part->count_mean);
        return (size_t)fmin(count, QLL_PART_MOST);
    }
    size_t count = 1;
    while (count < QLL_PART_MOST && qll_random_unit(random) >= 1.0 / part->count_mean) {
        count += 1;
    }
    return count;
}

static double draw_offset_s(const qll_visit_part *part, qll_random *random)
{
    if (part->offset == QLL_OFFSET_NONE) {
        return 0.0;
    }
    const double share = qll_random_unit(random);
    return part->offset_s
           * (part->offset == QLL_OFFSET_UNIFORM ? share : fmin(-log1p(-share), QLL_OFFSET_CUT));
}

/* Each use starts at the second its visit's own time and its offset come to. */
static void add_visits(qll_simulator *sim, const qll_visit *visit, start_span span)
{
    const size_t count = (size_t)qll_sample_poisson(&sim->random, span.mean_count);
    int32_t *differences = sim->differences + span.first_s;
    for (size_t i = 0; i < count; i++) {
        const double at_s = qll_random_unit(&sim->random) * (double)span.span_s;
        for (size_t p = 0; p < visit->part_count; p++) {
            const qll_visit_part *part = &visit->parts[p];
            const use_law *use = &sim->uses[part->use];
            for (size_t left = draw_count(part, &sim->random); left > 0; left--) {
                const size_t start = (size_t)(at_s + draw_offset_s(part, &sim->random));
                const size_t length = qll_alias_draw(use->duration_s, &sim->random);
                const int32_t level = (int32_t)qll_alias_draw(use->level, &sim->random);
                differences[start] += level;
                differences[start + length] -= level;
            }
        }
    }
}

static void add_span(qll_simulator *sim, const qll_visit *visit, start_span span)
{
    if (span.span_s == 0 || span.mean_count <= 0.0) {
        return;
    }
    if (qll_visit_is_alone(visit)) {
        add_uses(sim, &sim->uses[visit->parts[0].use], span);
    } else {
        add_visits(sim, visit, span);
    }
}

static double factor_of(qll_simulator *sim, double cv)
{
    return cv > 0.0 ? qll_sample_gamma(&sim->random, cv) : 1.0;
}

static void add_day(qll_simulator *sim)
{
    const qll_day_model *model = &sim->model;
    const double day_factor = factor_of(sim, model->day_cv);
    const size_t break_s = model->break_share > 0.0 ? (size_t)(model->break_s + 0.5) : 0;
    const size_t rest_s = QLL_HOUR_SECONDS - break_s;
    const double inside = qll_day_model_break_factor(model, true) * (double)break_s;
    const double outside = qll_day_model_break_factor(model, false) * (double)rest_s;
    sim->leak = (int32_t)qll_alias_draw(sim->leak_level, &sim->random);
    for (size_t hour = 0; hour < 24; hour++) {
        const size_t first_s = hour * QLL_HOUR_SECONDS;
        const double factor = day_factor * factor_of(sim, model->hour_cv);
        for (size_t v = 0; v < model->visit_count; v++) {
            const qll_visit *visit = &model->visits[v];
            const double rate =
                visit->per_day / QLL_DAY_S * model->shapes[visit->shape][hour] * factor;
            add_span(sim, visit, (start_span){first_s, break_s, rate * inside});
            add_span(sim, visit, (start_span){first_s + break_s, rest_s, rate * outside});
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
    const double idle_m3s = base_m3s + sim->model.step_m3s * (double)sim->leak;
    const double step_m3s = sim->model.step_m3s;
    const size_t count = stretch->end_s - stretch->first_s;
    const int32_t *differences = sim->differences + stretch->first_s;
    int32_t level = sim->level;
    for (size_t s = 0; s < count; s++) {
        level += differences[s];
        sim->levels[s] = level;
        sim->flow_m3s[s] = idle_m3s + step_m3s * (double)level;
    }
    sim->level = level;
    const qll_second_block block = {.first_s = stretch->first_s,
                                    .count = count,
                                    .levels = sim->levels,
                                    .leak_level = sim->leak,
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
