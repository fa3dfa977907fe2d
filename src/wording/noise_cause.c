#include "wording/wording.h"

#include <math.h>
#include <string.h>

/* Rules whose breach is heard, each by the details of its own judgement. */
static bool is_heard(qll_rule rule)
{
    switch (rule) {
    case QLL_RULE_RATIO:
    case QLL_RULE_VELOCITY:
    case QLL_RULE_LOW_FLOW:
    case QLL_RULE_CAVITATION:
    case QLL_RULE_NOISE:
    case QLL_RULE_CAPACITY: return true;
    case QLL_RULE_DELIVERY:
    case QLL_RULE_STATIC:
    case QLL_RULE_RATING:
    case QLL_RULE_EXPANSION:
    case QLL_RULE_STRAINER:
    case QLL_RULE_HUNTING:
    case QLL_RULE_HAMMER:
    case QLL_RULE_COUNT: return false;
    }
    return false;
}

/* Blows and swings are heard too; of them only the verdict counts, which may be that of a run. */
static bool is_of_motion(qll_rule rule)
{
    return rule == QLL_RULE_HUNTING || rule == QLL_RULE_HAMMER;
}

/* What brings somebody back where a rule is broken: the chance of that alone, the same that the cost is made
 * of. A ratio has no mechanism of its own; it is heard as cavitation and as noise of the flow, and counts as the
 * lesser. A valve at its full travel leaves outlets short. Blows and
 * swings are in no cost, and come last. */
static double chance_of(qll_rule rule, const qll_cost *cost)
{
    const double *share = cost->mechanism_share;
    switch (rule) {
    case QLL_RULE_LOW_FLOW: return share[QLL_MECHANISM_CHATTER];
    case QLL_RULE_CAVITATION: return share[QLL_MECHANISM_CAVITATION];
    case QLL_RULE_NOISE: return share[QLL_MECHANISM_NOISE];
    case QLL_RULE_VELOCITY: return share[QLL_MECHANISM_WEAR];
    case QLL_RULE_CAPACITY: return share[QLL_MECHANISM_STARVED];
    case QLL_RULE_RATIO: return fmin(share[QLL_MECHANISM_CAVITATION], share[QLL_MECHANISM_NOISE]);
    case QLL_RULE_DELIVERY:
    case QLL_RULE_STATIC:
    case QLL_RULE_RATING:
    case QLL_RULE_EXPANSION:
    case QLL_RULE_STRAINER:
    case QLL_RULE_HUNTING:
    case QLL_RULE_HAMMER:
    case QLL_RULE_COUNT: break;
    }
    return 0.0;
}

/* Between valves that are heard by the same mechanism: the share of time or water that it touches. */
static double touched_share(const qll_verdict *verdict)
{
    double share = 0.0;
    if (verdict->rule == QLL_RULE_LOW_FLOW) {
        share = verdict->value;
    } else if (verdict->rule == QLL_RULE_CAVITATION) {
        share = verdict->value_at_peak;
    }
    return isfinite(share) ? share : 0.0;
}

/* A rule that is broken is a fact; what may happen comes behind it, however likely. */
static bool comes_before(const qll_noise_cause *a, const qll_noise_cause *b)
{
    const bool fails[] = {a->grade == QLL_GRADE_FAIL, b->grade == QLL_GRADE_FAIL};
    if (fails[0] != fails[1]) {
        return fails[0];
    }
    return a->weight != b->weight ? a->weight > b->weight : a->touched_share > b->touched_share;
}

/* Scenarios that end in the same sentence are one cause. */
static bool is_said(const qll_noise_cause *causes, size_t count, const char *says)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(causes[i].says, says) == 0) {
            return true;
        }
    }
    return false;
}

static void insert(qll_noise_cause *causes, size_t count, qll_noise_cause cause)
{
    size_t at = count;
    while (at > 0 && comes_before(&cause, &causes[at - 1])) {
        causes[at] = causes[at - 1];
        at -= 1;
    }
    causes[at] = cause;
}

/* The causes found so far, each said once. */
typedef struct cause_list {
    const qll_wording *wording;
    const qll_station *station;
    const qll_cost *cost;
    qll_arena *arena;
    qll_noise_cause *found;
    size_t count;
} cause_list;

static void add_cause(cause_list *list, const qll_verdict *verdict)
{
    qll_writer says = qll_writer_new(list->arena);
    qll_wording_verdict(&says, list->wording, list->station, verdict);
    qll_text text = qll_writer_text(&says);
    if (is_said(list->found, list->count, text.bytes)) {
        return;
    }
    insert(list->found, list->count,
           (qll_noise_cause){.rule = verdict->rule,
                             .spot = verdict->spot,
                             .grade = verdict->grade,
                             .weight = chance_of(verdict->rule, list->cost),
                             .touched_share = touched_share(verdict),
                             .says = text.bytes});
    list->count += 1;
}

qll_status qll_noise_causes(const qll_wording *wording, const qll_station *station,
                            const qll_assessment *assessment, const qll_cost *cost,
                            qll_arena *arena, const qll_noise_cause **causes, size_t *count)
{
    cause_list list = {
        .wording = wording,
        .station = station,
        .cost = cost,
        .arena = arena,
        .found = qll_arena_take(arena, assessment->detail_count + assessment->verdict_count + 1,
                                sizeof *list.found)};
    if (list.found == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < assessment->detail_count; i++) {
        const qll_verdict *verdict = &assessment->details[i];
        if (verdict->grade >= QLL_GRADE_CAUTION && is_heard(verdict->rule)) {
            add_cause(&list, verdict);
        }
    }
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        const qll_verdict *verdict = &assessment->verdicts[i];
        if (verdict->grade >= QLL_GRADE_CAUTION && is_of_motion(verdict->rule)) {
            add_cause(&list, verdict);
        }
    }
    *causes = list.found;
    *count = list.count;
    return QLL_OK;
}
