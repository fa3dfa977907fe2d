/* What is counted of rows as they pass: whether a gauge stands still or clips, its finest step, and cycles. 64 rows are glanced at
 * together, and looked at one by one only where the glance shows something (docs/theory/pressure_log.md, "What a row costs"). */
#include "signals/pressure_span.h"
#include "signals/pressure_state.h"

#include <math.h>

/* Turns that are less do not count as turns of a cycle, and cycles from here on are counted: 50 psi. */
#define QLL_TURN_PA  5000.0
#define QLL_CYCLE_PA 344737.86

static void count_cycle(void *context, double range, double cycles)
{
    qll_pressure_state *state = context;
    state->cycles += range >= QLL_CYCLE_PA ? cycles : 0.0;
}

void qll_pressure_count_begin(qll_pressure_state *state)
{
    for (size_t p = 0; p < 2; p++) {
        state->constancy[p] = (qll_constancy){.value = (double)NAN,
                                              .most = -(double)INFINITY,
                                              .least = (double)INFINITY,
                                              .step_pa = (double)INFINITY};
    }
    qll_rainflow_begin(&state->rainflow, count_cycle, state);
}

void qll_constancy_end(qll_constancy *of, int64_t end_ms)
{
    if (end_ms - of->since_ms > of->longest_ms && of->pairs_now > 0) {
        of->longest_ms = end_ms - of->since_ms;
        of->longest_start_ms = of->since_ms;
        of->longest_pairs = of->pairs_now;
    }
    of->pairs_now = 0;
    of->since_ms = end_ms;
}

/* How long a value stays the same. Of a stretch that is shorter than what is ever told, only its ends matter. */
static void count_same(qll_constancy *of, const int64_t *at_ms, const double *values, size_t from,
                       size_t to, size_t equal)
{
    size_t first = from;
    while (first < to && values[first] == (first == from ? of->value : values[first - 1])) {
        first += 1;
    }
    of->pairs_now += (long long)(first - from);
    if (first == to) {
        return;
    }
    qll_constancy_end(of, at_ms[first]);
    if (equal > first - from && at_ms[to - 1] - at_ms[from] < QLL_STUCK_MS) {
        size_t last = to - 1;
        while (last > first && values[last] == values[last - 1]) {
            last -= 1;
        }
        of->since_ms = at_ms[last];
        of->pairs_now = (long long)(to - 1 - last);
        return;
    }
    for (size_t i = first + 1; i < to; i++) {
        if (values[i] == values[i - 1]) {
            of->pairs_now += 1;
        } else {
            qll_constancy_end(of, at_ms[i]);
        }
    }
}

/* What is seen of rows before any is looked at closer: least, most and sum; how many are equal to the one before, and how many
 * closer to it than any before them, equal ones too. */
typedef struct glance {
    qll_span span;
    double equal, near;
} glance;

/* Counted as numbers and not as whole ones, so that no branch depends on a row. */
static inline void glance_at(glance *seen, double step_pa, double before, double value)
{
    const double apart = fabs(value - before);
    seen->span.least = seen->span.least < value ? seen->span.least : value;
    seen->span.most = seen->span.most > value ? seen->span.most : value;
    seen->span.sum += value;
    seen->equal += apart <= 0.0 ? 1.0 : 0.0;
    seen->near += apart < step_pa ? 1.0 : 0.0;
}

/* In two chains, so that no row waits for the one before. */
static glance glance_of(const qll_constancy *of, const double *values, size_t from, size_t to)
{
    const double step_pa = of->step_pa;
    glance one = {{(double)INFINITY, -(double)INFINITY, 0.0}, 0.0, 0.0};
    glance other = one;
    glance_at(&one, step_pa, of->value, values[from]);
    size_t i = from + 1;
    for (; i + 2 <= to; i += 2) {
        glance_at(&one, step_pa, values[i - 1], values[i]);
        glance_at(&other, step_pa, values[i], values[i + 1]);
    }
    if (i < to) {
        glance_at(&one, step_pa, values[i - 1], values[i]);
    }
    one.span = qll_span_joined(one.span, other.span);
    one.span = isnan(one.span.sum) ? qll_span_of_some(values + from, to - from) : one.span;
    one.equal += other.equal;
    one.near += other.near;
    return one;
}

/* The least difference but none. */
static void take_step(qll_constancy *of, const double *values, size_t from, size_t to)
{
    double before = of->value;
    for (size_t i = from; i < to; i++) {
        const double apart = fabs(values[i] - before);
        of->step_pa = apart > 0.0 && apart < of->step_pa ? apart : of->step_pa;
        before = values[i];
    }
}

static long long count_of(const double *values, size_t from, size_t to, double value)
{
    double one = 0.0;
    double other = 0.0;
    size_t i = from;
    for (; i + 2 <= to; i += 2) {
        one += values[i] == value ? 1.0 : 0.0;
        other += values[i + 1] == value ? 1.0 : 0.0;
    }
    one += i < to && values[i] == value ? 1.0 : 0.0;
    return (long long)(one + other);
}

/* The ends of all readings, and how many are there. */
static void take_ends(qll_constancy *of, const double *values, size_t from, size_t to,
                      const qll_span *seen)
{
    if (seen->most >= of->most) {
        of->at_most =
            (seen->most > of->most ? 0 : of->at_most) + count_of(values, from, to, seen->most);
        of->most = seen->most;
    }
    if (seen->least <= of->least) {
        of->at_least =
            (seen->least < of->least ? 0 : of->at_least) + count_of(values, from, to, seen->least);
        of->least = seen->least;
    }
}

static void count_turns(qll_pressure_state *state, const double *outlet, size_t from, size_t to)
{
    double before = state->turn_pa;
    for (size_t i = from; i < to; i++) {
        if (fabs(outlet[i] - before) >= QLL_TURN_PA) {
            before = outlet[i];
            qll_rainflow_add(&state->rainflow, before);
        }
    }
    state->turn_pa = before;
}

static void count_part(qll_pressure_state *state, size_t channel, const int64_t *at_ms,
                       const double *values, size_t from, size_t to)
{
    qll_constancy *of = &state->constancy[channel];
    const glance seen = glance_of(of, values, from, to);
    count_same(of, at_ms, values, from, to, (size_t)seen.equal);
    if (seen.near > seen.equal) {
        take_step(of, values, from, to);
    }
    take_ends(of, values, from, to, &seen.span);
    if (channel == QLL_CHANNEL_OUTLET
        && !(seen.span.most - state->turn_pa < QLL_TURN_PA
             && state->turn_pa - seen.span.least < QLL_TURN_PA)) {
        count_turns(state, values, from, to);
    }
    of->equal += (long long)seen.equal;
    of->pairs += (long long)(to - from);
    of->value = values[to - 1];
}

void qll_pressure_count(qll_pressure_state *state, const int64_t *at_ms,
                        const double *const *values, size_t from, size_t to)
{
    for (size_t p = 0; p < 2; p++) {
        for (size_t first = from; first < to && values[p] != NULL; first += QLL_TILE_VALUES) {
            const size_t end = first + QLL_TILE_VALUES < to ? first + QLL_TILE_VALUES : to;
            count_part(state, p, at_ms, values[p], first, end);
        }
    }
}
