#include "search/robust.h"

#include "search/recommend.h"

#include <math.h>

/* Enough to tell a verdict on the edge from one that holds: the share is known to within 0.035 (one
 * standard deviation, at a half). All contenders meet the same draws, which makes it better. */
#define QLL_CONTENDER_DRAWS 200
/* So much more often is clearly more often (our assumption). */
#define QLL_CLEARLY_MORE    0.1

double qll_worst_good_holds(const qll_assessment *assessed, const qll_sensitivity *found)
{
    double worst = 1.0;
    for (size_t i = 0; i < assessed->verdict_count; i++) {
        const qll_verdict *verdict = &assessed->verdicts[i];
        /* What these find is hardly the station's doing. */
        bool counts = verdict->rule != QLL_RULE_EXPANSION && verdict->rule != QLL_RULE_STRAINER;
        if (verdict->grade == QLL_GRADE_GOOD && counts) {
            worst = fmin(worst, found->holds_share[verdict->rule]);
        }
    }
    return worst;
}

static qll_status draw_contender(const qll_drawing *drawing, const qll_front_member *member,
                                 const qll_site *site, const qll_duty *duty, qll_arena *arena,
                                 double *holds)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    qll_candidate candidate;
    qll_sensitivity found;
    qll_status status = qll_candidate_make(&member->arrangement, site, duty, arena, &candidate);
    if (status == QLL_OK) {
        status = qll_sensitivity_of(drawing, &candidate.station, &candidate.assessment,
                                    QLL_CONTENDER_DRAWS, arena, &found);
    }
    if (status == QLL_OK) {
        *holds = qll_worst_good_holds(&candidate.assessment, &found);
    }
    qll_arena_reset(arena, mark);
    return status;
}

qll_status qll_most_robust(const qll_contenders *contenders, const qll_site *site,
                           const qll_duty *duty, uint64_t seed, qll_arena *arena, size_t *preferred)
{
    const qll_uncertainty uncertainty = qll_uncertainty_default();
    double holds[QLL_CONTENDERS_MOST];
    qll_drawing *drawing = NULL;
    size_t best = 0;
    *preferred = 0;
    if (contenders->count < 2) {
        return QLL_OK;
    }
    const qll_arena_mark mark = qll_arena_now(arena);
    qll_status status = qll_drawing_make(site, duty, &uncertainty, seed, arena, &drawing);
    for (size_t i = 0; i < contenders->count && status == QLL_OK; i++) {
        status = draw_contender(drawing, contenders->members[i], site, duty, arena, &holds[i]);
        best = status == QLL_OK && holds[i] > holds[best] ? i : best;
    }
    qll_arena_reset(arena, mark);
    if (status == QLL_OK && holds[best] > holds[0] + QLL_CLEARLY_MORE) {
        *preferred = best;
    }
    return status;
}
