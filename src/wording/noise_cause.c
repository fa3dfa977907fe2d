#include "wording/wording.h"

#include <math.h>
#include <string.h>

/* How much a fail outweighs a caution when causes are put in order (our assumption). */
#define QLL_FAIL_WEIGHT   3.0
/* A breach that carries no share of its own counts in the middle of the field (our assumption). */
#define QLL_UNKNOWN_SHARE 0.25

/* Rules whose breach is heard; delivery, static and rating are judged elsewhere. */
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
    case QLL_RULE_COUNT: return false;
    }
    return false;
}

/* The share of time or water a breach touches, where the verdict carries one. */
static double touched_share(const qll_verdict *verdict)
{
    if (verdict->rule == QLL_RULE_LOW_FLOW) {
        return verdict->value;
    }
    if (verdict->rule == QLL_RULE_CAVITATION) {
        return verdict->value_at_peak;
    }
    return QLL_UNKNOWN_SHARE;
}

static double weight_of(const qll_verdict *verdict)
{
    double severity = verdict->grade == QLL_GRADE_FAIL ? QLL_FAIL_WEIGHT : 1.0;
    double share = touched_share(verdict);
    return severity * (isfinite(share) ? share + 0.1 : 0.1);
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

static void insert_by_weight(qll_noise_cause *causes, size_t count, qll_noise_cause cause)
{
    size_t at = count;
    while (at > 0 && causes[at - 1].weight < cause.weight) {
        causes[at] = causes[at - 1];
        at -= 1;
    }
    causes[at] = cause;
}

qll_status qll_noise_causes(const qll_wording *wording, const qll_station *station,
                            const qll_assessment *assessment, qll_arena *arena,
                            const qll_noise_cause **causes, size_t *count)
{
    qll_noise_cause *found = qll_arena_take(arena, assessment->detail_count + 1, sizeof *found);
    if (found == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t found_count = 0;
    for (size_t i = 0; i < assessment->detail_count; i++) {
        const qll_verdict *verdict = &assessment->details[i];
        if (verdict->grade == QLL_GRADE_GOOD || !is_heard(verdict->rule)) {
            continue;
        }
        qll_writer says = qll_writer_new(arena);
        qll_wording_verdict(&says, wording, station, verdict);
        qll_text text = qll_writer_text(&says);
        if (text.bytes == NULL) {
            return QLL_NO_MEMORY;
        }
        if (is_said(found, found_count, text.bytes)) {
            continue;
        }
        insert_by_weight(found, found_count,
                         (qll_noise_cause){.rule = verdict->rule,
                                           .spot = verdict->spot,
                                           .weight = weight_of(verdict),
                                           .says = text.bytes});
        found_count += 1;
    }
    *causes = found;
    *count = found_count;
    return QLL_OK;
}
