#include "documents/read_survey.h"
#include "documents/valve_by_size.h"
#include "station/connection.h"

#include <math.h>

/* Makes the station that is there from what the survey calls its valves. */
typedef struct making {
    const qll_survey *survey;
    const qll_catalogue *catalogue;
    qll_arena *arena;
    qll_assumed *assumed;
    qll_problems *problems;
} making;

static size_t find_valve(const qll_catalogue *catalogue, const char *id)
{
    size_t i = 0;
    while (i < catalogue->count && !qll_text_is(qll_text_of(id), catalogue->valves[i].id)) {
        i += 1;
    }
    return i;
}

static bool make_stage_branch(const making *of, size_t found, double set_pa_gauge,
                              qll_branch *branch)
{
    *branch = (qll_branch){.valve = &of->catalogue->valves[found],
                           .law = &of->catalogue->laws[found],
                           .set_pa_gauge = set_pa_gauge};
    return qll_branch_connect(&of->survey->site, of->arena, branch) == QLL_OK;
}

/* Branches by falling set pressure, as a stage wants them; equal ones keep the survey's order. */
static qll_status make_stage(const making *of, const qll_existing_stage *existing, qll_stage *stage)
{
    qll_branch *branches = qll_arena_take(of->arena, existing->branch_count, sizeof *branches);
    if (branches == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t b = 0; b < existing->branch_count; b++) {
        const qll_existing_branch *named = &existing->branches[b];
        size_t found = find_valve(of->catalogue, named->valve_id);
        if (found == of->catalogue->count) {
            found = qll_valve_by_size(of->catalogue, named, of->assumed, of->problems);
        }
        if (found == of->catalogue->count) {
            continue;
        }
        qll_branch branch;
        if (!make_stage_branch(of, found, named->set_pa_gauge, &branch)) {
            return QLL_NO_MEMORY;
        }
        size_t at = count;
        while (at > 0 && branches[at - 1].set_pa_gauge < branch.set_pa_gauge) {
            branches[at] = branches[at - 1];
            at -= 1;
        }
        branches[at] = branch;
        count += 1;
    }
    stage->branches = branches;
    stage->branch_count = count;
    return QLL_OK;
}

qll_status qll_survey_existing(const qll_survey *survey, const qll_catalogue *catalogue,
                               qll_arena *arena, qll_station *station, qll_assumed *assumed,
                               qll_problems *problems)
{
    const making of = {survey, catalogue, arena, assumed, problems};
    const qll_site *site = &survey->site;
    qll_stage *stages = qll_arena_take(arena, survey->existing_count, sizeof *stages);
    if (stages == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t refusals_before = problems->refusal_count;
    double middle_pa_gauge =
        0.5 * (site->supply.static_low_pa_gauge + site->supply.static_high_pa_gauge);
    double inlet_pa_gauge = qll_site_inlet_pa(site, middle_pa_gauge, 0.0) - site->barometric_pa;
    for (size_t s = 0; s < survey->existing_count; s++) {
        stages[s].set_inlet_pa_gauge = inlet_pa_gauge;
        qll_status status = make_stage(&of, &survey->existing[s], &stages[s]);
        if (status != QLL_OK) {
            return status;
        }
        inlet_pa_gauge = qll_existing_highest_set_pa_gauge(&survey->existing[s]);
    }
    *station = (qll_station){.stages = stages, .stage_count = survey->existing_count};
    if (qll_problems_status(problems) == QLL_NO_MEMORY) {
        return QLL_NO_MEMORY;
    }
    return problems->refusal_count > refusals_before ? QLL_REFUSED : QLL_OK;
}
