/* A front has thousands of members, and nearly all of them are far from being chosen. Disquiet is a sum
 * of terms that are never negative, so what is known of it bounds it from below: noise and
 * unsteadiness come with the front, cautions from the verdicts alone, loudness from a full assessment.
 * Of as many valves the least promising are looked at last, and not at all once they cannot win. */
#include "search/judge.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

/* What a caution and the mean loudness weigh against noise (our assumption;
 * docs/theory/recommendation.md, eq. 1). */
#define QLL_CAUTION_DISQUIET  0.1
#define QLL_LOUDNESS_DISQUIET 0.25

/* The same sum in another order differs in its last bits. */
#define QLL_SUM_ROUNDING 1e-9

/* A caution that is heard counts double (our assumption). What no choice of station can mend counts
 * for nothing. */
static const int caution_weights[QLL_RULE_COUNT] = {
    [QLL_RULE_DELIVERY] = 1,   [QLL_RULE_STATIC] = 1,   [QLL_RULE_RATIO] = 2,
    [QLL_RULE_VELOCITY] = 1,   [QLL_RULE_CAPACITY] = 1, [QLL_RULE_LOW_FLOW] = 2,
    [QLL_RULE_CAVITATION] = 2, [QLL_RULE_NOISE] = 1,    [QLL_RULE_RATING] = 1,
    [QLL_RULE_EXPANSION] = 0,  [QLL_RULE_STRAINER] = 0,
};

/* All but the disquiet. */
static qll_judgement judgement_of(const qll_front_member *member, const qll_verdict *verdicts,
                                  size_t count)
{
    qll_judgement judged = {.member = member};
    for (size_t i = 0; i < count; i++) {
        const qll_verdict *verdict = &verdicts[i];
        const int weight = caution_weights[verdict->rule];
        if (verdict->grade == QLL_GRADE_FAIL) {
            judged.fail_count += weight > 0 ? 1 : 0;
            judged.drop_fails = judged.drop_fails || verdict->rule == QLL_RULE_RATIO
                                || verdict->rule == QLL_RULE_CAVITATION;
        } else if (verdict->grade == QLL_GRADE_CAUTION
                   && verdict->finding != QLL_FINDING_NOISE_PLASTIC) {
            /* Plastic pipe: no station of the same pipe could have a level. */
            judged.caution_weight += weight;
        }
    }
    return judged;
}

static double disquiet_of(const qll_site *site, const qll_objectives *objectives, double loudness,
                          int caution_weight)
{
    return objectives->noise + QLL_LOUDNESS_DISQUIET * loudness
           + QLL_CAUTION_DISQUIET * (double)caution_weight
           + objectives->unsteady / site->set_pa_gauge;
}

static qll_judgement judgement_of_assessment(const qll_site *site, const qll_front_member *member,
                                             const qll_assessment *assessment)
{
    qll_judgement judged = judgement_of(member, assessment->verdicts, assessment->verdict_count);
    judged.disquiet =
        disquiet_of(site, &assessment->objectives, assessment->loudness, judged.caution_weight);
    return judged;
}

qll_status qll_judge_fully(const qll_field *field, const qll_front_member *member, qll_arena *arena,
                           qll_judgement *judged)
{
    qll_arena_mark mark = qll_arena_now(arena);
    qll_candidate candidate;
    qll_status status =
        qll_candidate_make(&member->arrangement, field->site, field->duty, arena, &candidate);
    if (status == QLL_OK) {
        *judged = judgement_of_assessment(field->site, member, &candidate.assessment);
    }
    qll_arena_reset(arena, mark);
    return status;
}

/* Verdicts only: its disquiet is that without loudness. */
static qll_status judge_by_verdicts(const qll_field *field, const qll_front_member *member,
                                    qll_arena *arena, qll_judgement *judged)
{
    qll_arena_mark mark = qll_arena_now(arena);
    qll_station station;
    qll_verdict worst[QLL_RULE_COUNT];
    size_t count = 0;
    qll_status status = QLL_NO_MEMORY;
    if (qll_arrangement_station(&member->arrangement, arena, &station)) {
        status = qll_station_grade(&station, field->site, field->duty, arena, worst, &count);
    }
    if (status == QLL_OK) {
        *judged = judgement_of(member, worst, count);
        judged->disquiet =
            disquiet_of(field->site, &member->objectives, 0.0, judged->caution_weight);
    }
    qll_arena_reset(arena, mark);
    return status;
}

/** What is known of a class: the stations of as many valves and of one stage, or of more. */
typedef struct class_known {
    size_t fewest_fails;
    size_t fewest_where_the_drop_is_taken; /* of those that do not fail by it */
    double least;                          /* disquiet of those with the fewest fails */
} class_known;

static const class_known nothing_known = {SIZE_MAX, SIZE_MAX, INFINITY};

static bool is_within_reach(const class_known *known, double disquiet)
{
    return disquiet <= known->least * (1.0 + QLL_CLEAR_SHARE) * (1.0 + QLL_SUM_ROUNDING);
}

static bool is_of_one_stage(const qll_judgement *judged)
{
    return judged->member->arrangement.stage_count == 1;
}

static bool is_of_one_class(const qll_judgement *a, const qll_judgement *b)
{
    return is_of_one_stage(a) == is_of_one_stage(b)
           && a->member->part_count == b->member->part_count;
}

/* Classes one behind the other, those of one stage first, within each the most promising first. */
static int compare_promise(const void *left, const void *right)
{
    const qll_judgement *a = left;
    const qll_judgement *b = right;
    if (is_of_one_stage(a) != is_of_one_stage(b)) {
        return is_of_one_stage(a) ? -1 : 1;
    }
    if (a->member->part_count != b->member->part_count) {
        return a->member->part_count < b->member->part_count ? -1 : 1;
    }
    return (a->disquiet > b->disquiet) - (a->disquiet < b->disquiet);
}

static void learn(class_known *known, const qll_judgement *judged)
{
    if (judged->fail_count < known->fewest_fails) {
        known->fewest_fails = judged->fail_count;
        known->least = INFINITY;
    }
    if (!judged->drop_fails && judged->fail_count < known->fewest_where_the_drop_is_taken) {
        known->fewest_where_the_drop_is_taken = judged->fail_count;
    }
}

/* Judges @p count stations of one class, and keeps in @p list those that can be chosen. */
static qll_status judge_class(const qll_field *field, const qll_judgement *promised, size_t count,
                              qll_arena *arena, qll_shortlist *list, class_known *known)
{
    *known = nothing_known;
    for (size_t i = 0; i < count; i++) {
        if (known->fewest_fails == 0 && !is_within_reach(known, promised[i].disquiet)) {
            return QLL_OK; /* none has fewer fails, and all the others promise less */
        }
        qll_judgement judged;
        qll_status status = judge_by_verdicts(field, promised[i].member, arena, &judged);
        if (status != QLL_OK) {
            return status;
        }
        learn(known, &judged);
        if (judged.fail_count > known->fewest_fails || !is_within_reach(known, judged.disquiet)) {
            continue;
        }
        status = qll_judge_fully(field, promised[i].member, arena, &judged);
        if (status != QLL_OK) {
            return status;
        }
        known->least = fmin(known->least, judged.disquiet);
        list->judged[list->count] = judged;
        list->count += 1;
    }
    return QLL_OK;
}

static size_t class_end(const qll_judgement *promised, size_t from, size_t count)
{
    size_t to = from;
    while (to < count && is_of_one_class(&promised[to], &promised[from])) {
        to += 1;
    }
    return to;
}

/* The front as far as it is known without a look: disquiet without cautions and loudness. */
static qll_judgement *promises_of(const qll_field *field, qll_arena *arena)
{
    const qll_front *front = &field->front;
    qll_judgement *promised = qll_arena_take(arena, front->count, sizeof *promised);
    for (size_t i = 0; promised != NULL && i < front->count; i++) {
        const qll_front_member *member = front->members[i];
        promised[i] = (qll_judgement){
            .member = member, .disquiet = disquiet_of(field->site, &member->objectives, 0.0, 0)};
    }
    if (promised != NULL && front->count > 0) {
        qsort(promised, front->count, sizeof *promised, compare_promise);
    }
    return promised;
}

qll_status qll_shortlist_make(const qll_field *field, qll_arena *arena, qll_shortlist *list)
{
    const size_t count = field->front.count;
    const qll_judgement *promised = promises_of(field, arena);
    *list = (qll_shortlist){.judged = qll_arena_take(arena, count, sizeof *list->judged)};
    if (promised == NULL || list->judged == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t fewest = SIZE_MAX;
    size_t takes_drop = SIZE_MAX; /* fewest fails of one stage that takes the drop */
    for (size_t from = 0; from < count; from = class_end(promised, from, count)) {
        const bool one_stage = is_of_one_stage(&promised[from]);
        if (!one_stage && takes_drop == 0) {
            break; /* nothing has fewer fails, so one stage suffices */
        }
        class_known known;
        qll_status status = judge_class(
            field, &promised[from], class_end(promised, from, count) - from, arena, list, &known);
        if (status != QLL_OK) {
            return status;
        }
        fewest = known.fewest_fails < fewest ? known.fewest_fails : fewest;
        if (one_stage && known.fewest_where_the_drop_is_taken < takes_drop) {
            takes_drop = known.fewest_where_the_drop_is_taken;
        }
    }
    list->one_stage_suffices = takes_drop != SIZE_MAX && takes_drop == fewest;
    return QLL_OK;
}

bool qll_comes_first(const qll_site *site, const qll_assessment *a, const qll_assessment *b)
{
    const qll_judgement left = judgement_of_assessment(site, NULL, a);
    const qll_judgement right = judgement_of_assessment(site, NULL, b);
    if (left.fail_count != right.fail_count) {
        return left.fail_count < right.fail_count;
    }
    return left.disquiet < right.disquiet * (1.0 - 1e-9);
}
