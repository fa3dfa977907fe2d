/* The flow of one visit that draws at a random moment (docs/theory/pulse.md, 11).
 *
 * 1. At an age of the visit the numbers of its uses that run are independent, each thinned by the
 *    chance that one use runs. Their flows do not depend on the age, so all that has to be summed over
 *    ages is how often each combination of numbers runs.
 * 2. The flow of a combination is a convolution of powers of single flows on the grid; it is taken
 *    part by part, Horner's way, and the powers of the last part are made once for each use. */
#include "demand/flow_law.h"

#include "demand/running.h"

#include <math.h>
#include <string.h>

/* Of a visit's flows the largest so many are put to the largest that is kept (our choice). */
#define QLL_LAW_TAIL     1e-7
/* Numbers of uses that run for fewer seconds of a visit are left out. */
#define QLL_RUNS_LEAST   1e-9
/* Room for sums of flows, over the largest single one: hardly 1e-8 of the time has more (our choice). */
#define QLL_LAW_WIDTH    1.25
#define QLL_COMBINATIONS 1024

/* ---- single flows and their powers ---- */

/* Of one kind of use: limited durations, and the flow of 1 to QLL_RUNNING_MOST of it at once. */
typedef struct use_powers {
    double *limited_s;
    double *powers[QLL_RUNNING_MOST + 1]; /* NULL = not made yet */
    size_t count;                         /* grid points of one */
} use_powers;

typedef struct law_maker {
    const qll_day_model *model;
    qll_arena *arena;
    size_t width; /* grid points of the law at hand */
    use_powers *uses;
    double *chances[QLL_VISIT_PARTS_MOST];
    double *runs; /* [combination]: seconds of a visit; the last part's number varies fastest */
    double *buffers[QLL_VISIT_PARTS_MOST + 1];
} law_maker;

static double *take(law_maker *maker, size_t count)
{
    return qll_arena_take(maker->arena, count, sizeof(double));
}

/* to = a * b, whose a has @p a_count points; what passes the width is put to the last point. */
static void convolve(const double *a, size_t a_count, const double *b, size_t width, double *to)
{
    memset(to, 0, width * sizeof *to);
    double beyond = 0.0; /* of b, what a flow of i steps lifts past the width */
    for (size_t i = 0; i < a_count; i++) {
        beyond += i > 0 ? b[width - i] : 0.0;
        if (a[i] <= 0.0) {
            continue;
        }
        const double weight = a[i];
        const double *restrict from = b;
        double *restrict at = to + i;
        for (size_t j = 0; j < width - i; j++) {
            at[j] += weight * from[j];
        }
        to[width - 1] += weight * beyond;
    }
}

static const double *power_of(law_maker *maker, size_t use, size_t k)
{
    use_powers *of = &maker->uses[use];
    if (of->powers[k] != NULL) {
        return of->powers[k];
    }
    const double *below = k > 1 ? power_of(maker, use, k - 1) : NULL;
    double *made = take(maker, maker->width);
    if (made == NULL || (k > 1 && below == NULL)) {
        return NULL;
    }
    if (k == 1) {
        qll_lognormal_lay(maker->model->uses[use].flow_m3s, 1.0, maker->model->step_m3s, made);
    } else {
        convolve(of->powers[1], of->count, below, maker->width, made);
    }
    of->powers[k] = made;
    return made;
}

/* ---- how long each combination runs ---- */

/* How many numbers of running uses a part may have, 0 among them. */
static size_t numbers_of(const qll_visit_part *part)
{
    return part->count == QLL_COUNT_FIXED && part->count_mean < QLL_RUNNING_MOST
               ? (size_t)part->count_mean + 1
               : QLL_RUNNING_MOST + 1;
}

static size_t combinations_of(const qll_visit *visit)
{
    size_t count = 1;
    for (size_t i = 0; i < visit->part_count; i++) {
        count *= numbers_of(&visit->parts[i]);
    }
    return count;
}

/* Adds one age of the visit to the runs. */
static void add_age(law_maker *maker, const qll_visit *visit, size_t age)
{
    double counts[QLL_VISIT_PARTS_MOST][QLL_RUNNING_MOST + 1];
    for (size_t i = 0; i < visit->part_count; i++) {
        qll_running_counts(&visit->parts[i], maker->chances[i][age], counts[i]);
    }
    const size_t combinations = combinations_of(visit);
    for (size_t c = 1; c < combinations; c++) {
        double chance = QLL_AGE_STEP_S;
        size_t rest = c;
        for (size_t i = visit->part_count; i-- > 0;) {
            const size_t numbers = numbers_of(&visit->parts[i]);
            chance *= counts[i][rest % numbers];
            rest /= numbers;
        }
        maker->runs[c] += chance;
    }
}

/* Combination in which the part's use runs once and nothing else does. */
static size_t alone_at(const qll_visit *visit, size_t part)
{
    size_t at = 1;
    for (size_t i = part + 1; i < visit->part_count; i++) {
        at *= numbers_of(&visit->parts[i]);
    }
    return at;
}

static void sum_runs(law_maker *maker, const qll_visit *visit)
{
    memset(maker->runs, 0, QLL_COMBINATIONS * sizeof *maker->runs);
    size_t last_age = 0;
    for (size_t i = 0; i < visit->part_count; i++) {
        const qll_visit_part *part = &visit->parts[i];
        const qll_end_use *use = &maker->model->uses[part->use];
        double ages_s = 0.0;
        if (!qll_visit_is_alone(visit)) { /* a use that comes alone runs as long as it lasts */
            qll_running_chances(part, maker->uses[part->use].limited_s, maker->chances[i]);
            for (size_t n = 0; n < QLL_AGE_COUNT; n++) {
                ages_s += QLL_AGE_STEP_S * maker->chances[i][n];
                last_age = maker->chances[i][n] > QLL_RUNS_LEAST && n > last_age ? n : last_age;
            }
        }
        /* What outlasts the ages is taken to run alone, so that the mean is kept. */
        maker->runs[alone_at(visit, i)] +=
            fmax(part->count_mean * (use->duration_s.mean - ages_s), 0.0);
    }
    for (size_t n = 1; n <= last_age; n++) {
        add_age(maker, visit, n);
    }
}

/* ---- the law of a visit ---- */

/* The flow of the last part for the runs of its numbers. */
static bool last_part_law(law_maker *maker, const qll_visit_part *part, const double *runs,
                          double *law)
{
    memset(law, 0, maker->width * sizeof *law);
    law[0] = runs[0];
    for (size_t k = 1; k < numbers_of(part); k++) {
        if (runs[k] <= QLL_RUNS_LEAST) {
            continue;
        }
        const double *power = power_of(maker, part->use, k);
        if (power == NULL) {
            return false;
        }
        for (size_t j = 0; j < maker->width; j++) {
            law[j] += runs[k] * power[j];
        }
    }
    return true;
}

/* The flow of the parts from @p first on into buffers[first]; runs of those parts' combinations. */
static bool parts_law(law_maker *maker, const qll_visit *visit, size_t first, const double *runs)
{
    const qll_visit_part *part = &visit->parts[first];
    if (first + 1 == visit->part_count) {
        return last_part_law(maker, part, runs, maker->buffers[first]);
    }
    const double *single = power_of(maker, part->use, 1);
    if (single == NULL) {
        return false;
    }
    const size_t stride = alone_at(visit, first);
    double *law = maker->buffers[first];
    double *inner = maker->buffers[first + 1];
    double *sum = maker->buffers[QLL_VISIT_PARTS_MOST];
    const size_t numbers = numbers_of(part);
    for (size_t k = numbers; k-- > 0;) {
        if (!parts_law(maker, visit, first + 1, runs + k * stride)) {
            return false;
        }
        if (k + 1 == numbers) {
            memcpy(law, inner, maker->width * sizeof *law);
            continue;
        }
        convolve(single, maker->uses[part->use].count, law, maker->width, sum);
        for (size_t j = 0; j < maker->width; j++) {
            law[j] = sum[j] + inner[j];
        }
    }
    return true;
}

/* Adds the visit's seconds of each flow, weighted by how often it comes, to @p law. */
static bool add_visit(law_maker *maker, const qll_visit *visit, double *law)
{
    sum_runs(maker, visit);
    if (!parts_law(maker, visit, 0, maker->runs)) {
        return false;
    }
    /* Nothing of the visit running is no flow of it, unlike one that rounds to 0. */
    for (size_t j = 0; j < maker->width; j++) {
        law[j] += visit->per_day / QLL_DAY_S * maker->buffers[0][j];
    }
    return true;
}

/* Variance of the flow at multiplier 1: each use's own, and of every two of a visit that overlap. */
static double square_of(law_maker *maker, const qll_visit *visit)
{
    double sum = 0.0;
    for (size_t i = 0; i < visit->part_count; i++) {
        const qll_visit_part *part = &visit->parts[i];
        const qll_end_use *use = &maker->model->uses[part->use];
        sum += part->count_mean * qll_lognormal_square(use->flow_m3s) * use->duration_s.mean;
        for (size_t j = 0; j < visit->part_count && !qll_visit_is_alone(visit); j++) {
            const qll_visit_part *other = &visit->parts[j];
            const double pairs =
                i == j ? qll_count_pairs(part) : part->count_mean * other->count_mean;
            double together_s = 0.0;
            for (size_t n = 0; n < QLL_AGE_COUNT; n++) {
                together_s += QLL_AGE_STEP_S * maker->chances[i][n] * maker->chances[j][n];
            }
            sum += pairs * use->flow_m3s.mean * maker->model->uses[other->use].flow_m3s.mean
                   * together_s;
        }
    }
    return visit->per_day / QLL_DAY_S * sum;
}

/* ---- all visits of one shape ---- */

/* Puts the far tail to the last point that is kept, and as much more from the likeliest point as keeps
 * the mean. How many points are kept. */
static size_t cut_tail(double *law, size_t width, double total)
{
    size_t count = width;
    double tail = 0.0;
    double over = 0.0; /* what the tail's mean loses, in steps */
    while (count > 2 && tail + law[count - 1] <= QLL_LAW_TAIL * total) {
        tail += law[count - 1];
        over += tail;
        count -= 1;
    }
    size_t likeliest = 1;
    for (size_t j = 2; j < count; j++) {
        likeliest = law[j] > law[likeliest] ? j : likeliest;
    }
    const double moved = likeliest + 1 < count ? over / (double)(count - 1 - likeliest) : 0.0;
    law[likeliest] -= moved;
    law[count - 1] += tail + moved;
    return count;
}

static void finish_law(const law_maker *maker, double *law, qll_flow_law *made)
{
    double total = 0.0;
    for (size_t j = 0; j < maker->width; j++) {
        total += law[j];
    }
    const size_t count = cut_tail(law, maker->width, total);
    made->flowing = total;
    made->kept = 1.0 - law[0] / total;
    law[0] = 0.0;
    for (size_t j = 1; j < count; j++) {
        law[j] /= total * made->kept;
    }
    made->flow = (qll_distribution){.step = maker->model->step_m3s, .count = count, .p = law};
}

/* Room for the law of a shape: no sums of flows where all its uses come alone. */
static size_t width_of(const law_maker *maker, size_t shape)
{
    size_t widest = 0;
    bool alone = true;
    for (size_t v = 0; v < maker->model->visit_count; v++) {
        const qll_visit *visit = &maker->model->visits[v];
        for (size_t i = 0; visit->shape == shape && i < visit->part_count; i++) {
            const size_t count = maker->uses[visit->parts[i].use].count;
            widest = count > widest ? count : widest;
            alone = alone && qll_visit_is_alone(visit);
        }
    }
    return alone ? widest : (size_t)(QLL_LAW_WIDTH * (double)widest) + 1;
}

static bool make_law(law_maker *maker, size_t shape, qll_flow_law *made)
{
    *made = (qll_flow_law){0};
    double *law = NULL;
    maker->width = width_of(maker, shape);
    for (size_t v = 0; v < maker->model->visit_count; v++) {
        const qll_visit *visit = &maker->model->visits[v];
        if (visit->shape != shape) {
            continue;
        }
        law = law == NULL ? take(maker, maker->width) : law;
        if (law == NULL || !add_visit(maker, visit, law)) {
            return false;
        }
        made->square_m6s2 += square_of(maker, visit);
    }
    if (law != NULL) {
        finish_law(maker, law, made);
    }
    return true;
}

static bool prepare(law_maker *maker)
{
    const qll_day_model *model = maker->model;
    bool alone = true;
    size_t refused = qll_arena_refused(maker->arena);
    maker->uses = qll_arena_take(maker->arena, model->use_count, sizeof *maker->uses);
    for (size_t v = 0; v < model->visit_count; v++) {
        alone = alone && qll_visit_is_alone(&model->visits[v]);
    }
    for (size_t i = 0; maker->uses != NULL && i < model->use_count; i++) {
        maker->uses[i].count = qll_lognormal_count(model->uses[i].flow_m3s, model->step_m3s);
        if (!alone) {
            maker->uses[i].limited_s = take(maker, QLL_AGE_COUNT);
            if (maker->uses[i].limited_s != NULL) {
                qll_limited_durations(model->uses[i].duration_s, maker->uses[i].limited_s);
            }
        }
    }
    size_t width = 0;
    for (size_t s = 0; maker->uses != NULL && s < model->shape_count; s++) {
        const size_t needed = width_of(maker, s);
        width = needed > width ? needed : width;
    }
    maker->runs = take(maker, QLL_COMBINATIONS);
    for (size_t i = 0; i < QLL_VISIT_PARTS_MOST; i++) {
        maker->chances[i] = take(maker, alone ? 1 : QLL_AGE_COUNT);
    }
    for (size_t i = 0; i <= QLL_VISIT_PARTS_MOST; i++) {
        maker->buffers[i] = take(maker, width);
    }
    return qll_arena_refused(maker->arena) == refused;
}

qll_status qll_flow_laws_make(const qll_day_model *model, qll_arena *arena, qll_flow_law *laws)
{
    law_maker maker = {.model = model, .arena = arena};
    if (!prepare(&maker)) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < model->shape_count; s++) {
        if (!make_law(&maker, s, &laws[s])) {
            return QLL_NO_MEMORY;
        }
    }
    return QLL_OK;
}
