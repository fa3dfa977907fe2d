/* The procedure is that of docs/theory/recommendation.md; the steps are numbered as there. */
#include "search/recommend.h"

#include "search/judge.h"
#include "search/picks.h"
#include "search/robust.h"

#include <math.h>
#include <stdint.h>

/* How much less disquiet every further valve must bring (our assumption;
 * docs/theory/recommendation.md, eq. 2). */
#define QLL_EARNED_SHARE (1.0 / 3.0)

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

/* Those that may be chosen from: not left out, and of so many valves. */
typedef struct contest {
    const qll_judgement *judged;
    size_t count;
    bool one_stage_only;
} contest;

static bool may_win(const contest *among, const qll_judgement *judged, size_t parts)
{
    return judged->member->part_count == parts
           && (!among->one_stage_only || judged->member->arrangement.stage_count == 1);
}

/* Of stations with so many valves: fewest fails, then the cheapest that is not clearly less quiet
 * than the quietest of them. NULL if there is none. */
static const qll_judgement *best_of(const contest *among, size_t parts)
{
    size_t fails = SIZE_MAX;
    double least = INFINITY;
    for (size_t i = 0; i < among->count; i++) {
        const qll_judgement *judged = &among->judged[i];
        if (may_win(among, judged, parts) && judged->fail_count <= fails) {
            least = judged->fail_count < fails ? judged->disquiet : fmin(least, judged->disquiet);
            fails = judged->fail_count;
        }
    }
    const qll_judgement *best = NULL;
    for (size_t i = 0; i < among->count; i++) {
        const qll_judgement *judged = &among->judged[i];
        if (may_win(among, judged, parts) && judged->fail_count == fails
            && judged->disquiet <= least * (1.0 + QLL_CLEAR_SHARE)
            && (best == NULL || is_simpler(judged->member, best->member))) {
            best = judged;
        }
    }
    return best;
}

/* Step 4: do the further valves earn their place? */
static bool earns_parts(const qll_judgement *more, const qll_judgement *fewer)
{
    if (more->fail_count != fewer->fail_count) {
        return more->fail_count < fewer->fail_count;
    }
    double extra = (double)(more->member->part_count - fewer->member->part_count);
    return more->disquiet < fewer->disquiet * pow(1.0 - QLL_EARNED_SHARE, extra);
}

static size_t most_parts(const contest *among)
{
    size_t most = 0;
    for (size_t i = 0; i < among->count; i++) {
        size_t parts = among->judged[i].member->part_count;
        most = parts > most ? parts : most;
    }
    return most;
}

/* Steps 3 and 4: from the simplest up, as long as further valves earn their place. */
static const qll_judgement *climb(const contest *among, const qll_judgement **beaten)
{
    const qll_judgement *winner = NULL;
    *beaten = NULL;
    size_t most = most_parts(among);
    for (size_t parts = 1; parts <= most; parts++) {
        const qll_judgement *next = best_of(among, parts);
        if (next != NULL && (winner == NULL || earns_parts(next, winner))) {
            *beaten = winner;
            winner = next;
        }
    }
    return winner;
}

/* Least disquiet among those that are on a par with @p winner in valves, fails and cautions. */
static double least_beside(const contest *among, const qll_judgement *winner)
{
    double least = winner->disquiet;
    for (size_t i = 0; i < among->count; i++) {
        const qll_judgement *judged = &among->judged[i];
        if (may_win(among, judged, winner->member->part_count)
            && judged->fail_count == winner->fail_count) {
            least = fmin(least, judged->disquiet);
        }
    }
    return least;
}

/* All but equal to @p winner: as many stages, valves and fails, no more cautions, and neither clearly less
 * quiet than the quietest of them nor clearly dearer than the winner, which is the cheapest. */
static bool is_near_tie(const contest *among, const qll_judgement *winner, double least,
                        const qll_judgement *judged)
{
    return may_win(among, judged, winner->member->part_count)
           && judged->member->arrangement.stage_count == winner->member->arrangement.stage_count
           && judged->fail_count == winner->fail_count
           && judged->caution_weight <= winner->caution_weight
           && judged->disquiet <= least * (1.0 + QLL_CLEAR_SHARE)
           && judged->member->objectives.price
                  <= winner->member->objectives.price * (1.0 + QLL_CLEAR_SHARE);
}

static void add_contender(qll_contenders *contenders, const qll_front_member *member)
{
    size_t at = contenders->count;
    if (at == QLL_CONTENDERS_MOST) {
        if (!is_simpler(member, contenders->members[at - 1])) {
            return;
        }
        at -= 1;
    }
    contenders->count = at + 1;
    for (; at > 0 && is_simpler(member, contenders->members[at - 1]); at--) {
        contenders->members[at] = contenders->members[at - 1];
    }
    contenders->members[at] = member;
}

/* Step 5: of near-ties the one that stands more than a knife's edge away from trouble. */
static qll_status choose_robust(const qll_field *field, const contest *among,
                                const qll_judgement *winner, qll_arena *arena,
                                const qll_front_member **preferred)
{
    qll_contenders contenders = {.count = 0};
    const double least = least_beside(among, winner);
    for (size_t i = 0; i < among->count; i++) {
        if (is_near_tie(among, winner, least, &among->judged[i])) {
            add_contender(&contenders, among->judged[i].member);
        }
    }
    size_t at = 0;
    qll_status status =
        qll_most_robust(&contenders, field->site, field->duty, field->seed, arena, &at);
    *preferred = contenders.members[at];
    return status;
}

/* Step 1: a single valve in which no rule finds fault wins. */
static qll_status choose_single(const qll_field *field, qll_arena *arena, choice *chosen)
{
    qll_judgement *judged = qll_arena_take(arena, field->single_count, sizeof *judged);
    if (judged == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t kept = 0;
    for (size_t i = 0; i < field->single_count; i++) {
        qll_status status = qll_judge_fully(field, &field->singles[i], arena, &judged[kept]);
        if (status != QLL_OK) {
            return status;
        }
        kept += judged[kept].fail_count == 0 && judged[kept].caution_weight == 0 ? 1 : 0;
    }
    const contest among = {judged, kept, true};
    const qll_judgement *best = best_of(&among, 1);
    if (best == NULL) {
        return QLL_OK;
    }
    chosen->reason = QLL_REASON_SINGLE_WITHOUT_CAUTION;
    return choose_robust(field, &among, best, arena, &chosen->winner);
}

/* Steps 2 to 4. */
static qll_status choose_from_front(const qll_field *field, qll_arena *arena, choice *chosen)
{
    qll_shortlist list;
    qll_status status = qll_shortlist_make(field, arena, &list);
    if (status != QLL_OK || list.count == 0) {
        return status;
    }
    const contest among = {list.judged, list.count, list.one_stage_suffices};
    const qll_judgement *beaten = NULL;
    const qll_judgement *winner = climb(&among, &beaten);
    status = choose_robust(field, &among, winner, arena, &chosen->winner);
    chosen->runner_up = beaten == NULL ? NULL : beaten->member;
    chosen->reason =
        beaten == NULL ? QLL_REASON_SIMPLEST_NOT_BEATEN : QLL_REASON_QUIETER_EARNS_PARTS;
    if (winner->member->arrangement.stage_count > 1) {
        const contest single_stage = {list.judged, list.count, true};
        const qll_judgement *simpler = climb(&single_stage, &beaten);
        chosen->runner_up = simpler == NULL ? chosen->runner_up : simpler->member;
        chosen->reason = winner->member->arrangement.stage_count > 2
                             ? QLL_REASON_THREE_SHARE_THE_DROP
                             : QLL_REASON_STAGES_SHARE_THE_DROP;
    }
    if (winner->fail_count > 0) {
        chosen->reason = QLL_REASON_LEAST_BAD;
    }
    return status;
}

/* After the recommended one: the fewest fails first, then the quietest. */
static void sort_rest(const qll_site *site, qll_candidate *candidates, size_t count,
                      size_t *runner_up)
{
    for (size_t i = 2; i < count; i++) {
        for (size_t at = i;
             at > 1
             && qll_comes_first(site, &candidates[at].assessment, &candidates[at - 1].assessment);
             at--) {
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
    qll_picks picked = {.count = 0};
    qll_pick(&picked, chosen.winner);
    qll_pick(&picked, chosen.runner_up);
    qll_pick_representatives(&field->front, &picked);
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
    sort_rest(field->site, candidates, picked.count, &design->runner_up);
    design->candidates = candidates;
    design->count = picked.count;
    return QLL_OK;
}
