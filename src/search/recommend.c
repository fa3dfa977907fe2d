/* The procedure is that of docs/theory/recommendation.md; the steps are numbered as there. */
#include "search/recommend.h"

#include <math.h>
#include <stdint.h>

/* A noise penalty beats another clearly when it is less by more than a tenth of it and by more than
 * a hundredth (our assumption; docs/theory/recommendation.md, eq. 2). */
#define CLEAR_SHARE 0.1
#define CLEAR_LEAST 0.01

/* A caution that is heard counts double (our assumption). */
static const int caution_weights[QLL_RULE_COUNT] = {
    [QLL_RULE_DELIVERY] = 1,   [QLL_RULE_STATIC] = 1,   [QLL_RULE_RATIO] = 2,
    [QLL_RULE_VELOCITY] = 1,   [QLL_RULE_CAPACITY] = 1, [QLL_RULE_LOW_FLOW] = 2,
    [QLL_RULE_CAVITATION] = 2, [QLL_RULE_RATING] = 1,
};

/** What the rules say of a station, as far as choosing needs it. */
typedef struct judgement {
    const qll_front_member *member;
    size_t fail_count;
    int caution_weight;
} judgement;

typedef struct choice {
    const qll_front_member *winner, *runner_up; /* runner_up may be NULL */
    qll_reason reason;
} choice;

qll_status qll_candidate_make(const qll_arrangement *arrangement, const qll_site *site,
                              const qll_duty *duty, qll_arena *arena, qll_candidate *candidate)
{
    candidate->part_count = qll_arrangement_parts(arrangement);
    if (!qll_arrangement_station(arrangement, arena, &candidate->station)) {
        return QLL_NO_MEMORY;
    }
    return qll_station_assess(&candidate->station, site, duty, arena, &candidate->assessment);
}

static int weight_of_cautions(const qll_assessment *assessment)
{
    int weight = 0;
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        const qll_verdict *verdict = &assessment->verdicts[i];
        weight += verdict->grade == QLL_GRADE_CAUTION ? caution_weights[verdict->rule] : 0;
    }
    return weight;
}

static qll_status judge(const qll_field *field, const qll_front_member *member, qll_arena *arena,
                        judgement *judged)
{
    qll_arena_mark mark = qll_arena_now(arena);
    qll_candidate candidate;
    qll_status status =
        qll_candidate_make(&member->arrangement, field->site, field->duty, arena, &candidate);
    if (status == QLL_OK) {
        *judged = (judgement){.member = member,
                              .fail_count = candidate.assessment.fail_count,
                              .caution_weight = weight_of_cautions(&candidate.assessment)};
    }
    qll_arena_reset(arena, mark);
    return status;
}

/* -1 if the rules speak for a, 1 for b. */
static int compare_rules(const judgement *a, const judgement *b)
{
    if (a->fail_count != b->fail_count) {
        return a->fail_count < b->fail_count ? -1 : 1;
    }
    return (a->caution_weight > b->caution_weight) - (a->caution_weight < b->caution_weight);
}

static bool is_clearly_noisier(double noise, double than)
{
    return noise - than > fmax(CLEAR_LEAST, CLEAR_SHARE * than);
}

/* Fewer valves, then less money, then the name. */
static bool is_simpler(const qll_front_member *a, const qll_front_member *b)
{
    if (a->part_count != b->part_count) {
        return a->part_count < b->part_count;
    }
    if (fabs(a->objectives.price - b->objectives.price) > 1e-9 * fabs(b->objectives.price)) {
        return a->objectives.price < b->objectives.price;
    }
    return qll_arrangement_compare(&a->arrangement, &b->arrangement) < 0;
}

/* Of those that the rules rank like @p best: the simplest that is not clearly noisier than the
 * quietest of them. */
static const qll_front_member *simplest_not_beaten(const judgement *judged, size_t count,
                                                   const judgement *best)
{
    double quietest = INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (compare_rules(&judged[i], best) == 0) {
            quietest = fmin(quietest, judged[i].member->objectives.noise);
        }
    }
    const qll_front_member *chosen = NULL;
    for (size_t i = 0; i < count; i++) {
        const qll_front_member *member = judged[i].member;
        if (compare_rules(&judged[i], best) == 0
            && !is_clearly_noisier(member->objectives.noise, quietest)
            && (chosen == NULL || is_simpler(member, chosen))) {
            chosen = member;
        }
    }
    return chosen;
}

/* The judgement the rules rank first among those of fewer than @p parts valves; NULL if none. */
static const judgement *best_by_rules(const judgement *judged, size_t count, size_t parts)
{
    const judgement *best = NULL;
    for (size_t i = 0; i < count; i++) {
        if (judged[i].member->part_count < parts
            && (best == NULL || compare_rules(&judged[i], best) < 0)) {
            best = &judged[i];
        }
    }
    return best;
}

/* Step 1: a single valve in which no rule finds fault wins. */
static qll_status choose_single(const qll_field *field, qll_arena *arena, choice *chosen)
{
    judgement *judged = qll_arena_take(arena, field->single_count, sizeof *judged);
    if (judged == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < field->single_count; i++) {
        qll_status status = judge(field, &field->singles[i], arena, &judged[i]);
        if (status != QLL_OK) {
            return status;
        }
    }
    const judgement *best = best_by_rules(judged, field->single_count, SIZE_MAX);
    if (best != NULL && best->fail_count == 0 && best->caution_weight == 0) {
        chosen->winner = simplest_not_beaten(judged, field->single_count, best);
        chosen->reason = QLL_REASON_SINGLE_WITHOUT_CAUTION;
    }
    return QLL_OK;
}

/* Steps 2 to 4. */
static qll_status choose_from_front(const qll_field *field, qll_arena *arena, choice *chosen)
{
    const size_t count = field->front.count;
    judgement *judged = qll_arena_take(arena, count, sizeof *judged);
    if (judged == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        qll_status status = judge(field, field->front.members[i], arena, &judged[i]);
        if (status != QLL_OK) {
            return status;
        }
    }
    const judgement *best = best_by_rules(judged, count, SIZE_MAX);
    if (best == NULL) {
        return QLL_OK;
    }
    chosen->winner = simplest_not_beaten(judged, count, best);
    const judgement *simpler = best_by_rules(judged, count, chosen->winner->part_count);
    chosen->reason = QLL_REASON_SIMPLEST_NOT_BEATEN;
    if (simpler != NULL) {
        chosen->runner_up = simplest_not_beaten(judged, count, simpler);
        chosen->reason = QLL_REASON_QUIETER_EARNS_PARTS;
    }
    if (best->fail_count > 0) {
        chosen->reason = QLL_REASON_LEAST_BAD;
    }
    return QLL_OK;
}

/** Members picked so far, without doubles. */
typedef struct picks {
    const qll_front_member *members[QLL_DESIGN_KEPT];
    size_t count;
} picks;

static bool is_same(const qll_front_member *a, const qll_front_member *b)
{
    return a == b || qll_arrangement_compare(&a->arrangement, &b->arrangement) == 0;
}

static void pick(picks *picked, const qll_front_member *member)
{
    if (member == NULL || picked->count == QLL_DESIGN_KEPT) {
        return;
    }
    for (size_t i = 0; i < picked->count; i++) {
        if (is_same(picked->members[i], member)) {
            return;
        }
    }
    picked->members[picked->count] = member;
    picked->count += 1;
}

enum {
    AXES = 4
};

static double axis_value(const qll_front_member *member, size_t axis)
{
    const qll_objectives *objectives = &member->objectives;
    const double values[AXES] = {objectives->noise, objectives->price, objectives->unsteady,
                                 objectives->wear};
    return values[axis];
}

/* The range of each objective over the front. */
typedef struct ranges {
    double least[AXES], most[AXES];
} ranges;

static ranges ranges_of(const qll_front *front)
{
    ranges made = {0};
    for (size_t axis = 0; axis < AXES; axis++) {
        made.least[axis] = INFINITY;
        made.most[axis] = -INFINITY;
        for (size_t i = 0; i < front->count; i++) {
            made.least[axis] = fmin(made.least[axis], axis_value(front->members[i], axis));
            made.most[axis] = fmax(made.most[axis], axis_value(front->members[i], axis));
        }
    }
    return made;
}

/* Distance between two members when each objective runs from 0 to 1 over the front. */
static double distance(const qll_front_member *a, const qll_front_member *b, const ranges *over)
{
    double sum = 0.0;
    for (size_t axis = 0; axis < AXES; axis++) {
        double span = over->most[axis] - over->least[axis];
        double step = span > 0.0 ? (axis_value(a, axis) - axis_value(b, axis)) / span : 0.0;
        sum += step * step;
    }
    return sqrt(sum);
}

/* The member farthest from all picked ones; NULL if all are picked. The front is sorted and a later
 * one must be clearly farther, so that the last bit does not decide. */
static const qll_front_member *farthest(const qll_front *front, const picks *picked,
                                        const ranges *over)
{
    const qll_front_member *found = NULL;
    double greatest = 1e-9;
    for (size_t i = 0; i < front->count; i++) {
        double nearest = INFINITY;
        for (size_t k = 0; k < picked->count; k++) {
            nearest = fmin(nearest, distance(front->members[i], picked->members[k], over));
        }
        if (nearest > greatest * (1.0 + 1e-6)) {
            greatest = nearest;
            found = front->members[i];
        }
    }
    return found;
}

static void pick_representatives(const qll_front *front, picks *picked)
{
    for (size_t axis = 0; axis < AXES; axis++) {
        const qll_front_member *least = NULL;
        for (size_t i = 0; i < front->count; i++) {
            const qll_front_member *member = front->members[i];
            double value = axis_value(member, axis);
            if (least == NULL
                || value < axis_value(least, axis) - 1e-9 * fabs(axis_value(least, axis))) {
                least = member;
            }
        }
        pick(picked, least);
    }
    if (front->count > 0) {
        pick(picked, front->members[0]); /* fewest valves */
    }
    const ranges over = ranges_of(front);
    while (picked->count < QLL_DESIGN_KEPT) {
        const qll_front_member *next = farthest(front, picked, &over);
        if (next == NULL) {
            break;
        }
        pick(picked, next);
    }
}

/* After the recommended one: by the rules, then by noise, else as they were picked. */
static void sort_rest(qll_candidate *candidates, size_t count, size_t *runner_up)
{
    for (size_t i = 2; i < count; i++) {
        for (size_t at = i; at > 1; at--) {
            const qll_assessment *a = &candidates[at - 1].assessment;
            const qll_assessment *b = &candidates[at].assessment;
            judgement before = {.fail_count = a->fail_count,
                                .caution_weight = weight_of_cautions(a)};
            judgement after = {.fail_count = b->fail_count,
                               .caution_weight = weight_of_cautions(b)};
            int order = compare_rules(&before, &after);
            bool louder = a->objectives.noise > b->objectives.noise * (1.0 + 1e-9);
            if (order < 0 || (order == 0 && !louder)) {
                break;
            }
            qll_candidate swapped = candidates[at - 1];
            candidates[at - 1] = candidates[at];
            candidates[at] = swapped;
            if (*runner_up == at || *runner_up == at - 1) {
                *runner_up = 2 * at - 1 - *runner_up;
            }
        }
    }
}

qll_status qll_recommend(const qll_field *field, qll_arena *arena, qll_design *design)
{
    choice chosen = {NULL, NULL, QLL_REASON_LEAST_BAD};
    qll_status status = choose_single(field, arena, &chosen);
    if (status == QLL_OK && chosen.winner == NULL) {
        status = choose_from_front(field, arena, &chosen);
    }
    design->count = 0;
    design->recommended = 0;
    design->runner_up = SIZE_MAX;
    design->reason = chosen.reason;
    if (status != QLL_OK || chosen.winner == NULL) {
        return status;
    }
    picks picked = {.count = 0};
    pick(&picked, chosen.winner);
    pick(&picked, chosen.runner_up);
    pick_representatives(&field->front, &picked);
    qll_candidate *candidates = qll_arena_take(arena, picked.count, sizeof *candidates);
    if (candidates == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < picked.count; i++) {
        status = qll_candidate_make(&picked.members[i]->arrangement, field->site, field->duty,
                                    arena, &candidates[i]);
        if (status != QLL_OK) {
            return status;
        }
    }
    design->runner_up = chosen.runner_up == NULL ? SIZE_MAX : 1;
    sort_rest(candidates, picked.count, &design->runner_up);
    design->candidates = candidates;
    design->count = picked.count;
    return QLL_OK;
}
