#include "base/quote.h"
#include "base/words.h"
#include "documents/read_survey.h"
#include "station/connection.h"

#include <math.h>

/* So many ids of a catalogue are looked through for a hint. */
#define QLL_IDS_TRIED 2000

static bool refuse_id(const qll_existing_branch *branch, const qll_catalogue *catalogue,
                      qll_arena *arena, qll_problems *problems)
{
    size_t tried = catalogue->count < QLL_IDS_TRIED ? catalogue->count : QLL_IDS_TRIED;
    const char **ids = qll_arena_take(arena, tried, sizeof *ids);
    for (size_t i = 0; ids != NULL && i < tried; i++) {
        ids[i] = catalogue->valves[i].id;
    }
    const char *nearest =
        ids == NULL ? NULL : qll_words_nearest(qll_text_of(branch->valve_id), ids, tried);
    qll_writer says = qll_writer_new(arena);
    qll_write_quoted(&says, qll_text_of(branch->valve_id));
    qll_write(&says, " is not the id of a valve in the catalogue ");
    qll_write_quoted(&says, qll_text_of(catalogue->name));
    return qll_problems_add(problems, (qll_problem){.code = QLL_CODE_UNKNOWN_WORD,
                                                    .level = QLL_REFUSAL,
                                                    .place = branch->place,
                                                    .text = qll_writer_text(&says).bytes,
                                                    .hint = qll_hint_word(nearest, arena)});
}

static size_t find_valve(const qll_catalogue *catalogue, const char *id)
{
    size_t i = 0;
    while (i < catalogue->count && !qll_text_is(qll_text_of(id), catalogue->valves[i].id)) {
        i += 1;
    }
    return i;
}

/* Branches by falling set pressure, as a stage wants them; equal ones keep the survey's order. */
static qll_status make_stage(const qll_survey *survey, const qll_existing_stage *existing,
                             const qll_catalogue *catalogue, qll_arena *arena, qll_stage *stage,
                             qll_problems *problems)
{
    qll_branch *branches = qll_arena_take(arena, existing->branch_count, sizeof *branches);
    if (branches == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t b = 0; b < existing->branch_count; b++) {
        const qll_existing_branch *named = &existing->branches[b];
        size_t found = find_valve(catalogue, named->valve_id);
        if (found == catalogue->count) {
            (void)refuse_id(named, catalogue, arena, problems);
            continue;
        }
        const qll_valve *valve = &catalogue->valves[found];
        qll_branch branch = {
            .valve = valve, .law = &catalogue->laws[found], .set_pa_gauge = named->set_pa_gauge};
        if (qll_branch_connect(&survey->site, arena, &branch) != QLL_OK) {
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
                               qll_arena *arena, qll_station *station, qll_problems *problems)
{
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
        qll_status status =
            make_stage(survey, &survey->existing[s], catalogue, arena, &stages[s], problems);
        if (status != QLL_OK) {
            return status;
        }
        inlet_pa_gauge = qll_existing_highest_set_pa_gauge(&survey->existing[s]);
    }
    *station = (qll_station){.stages = stages, .stage_count = survey->existing_count};
    if (problems->no_memory) {
        return QLL_NO_MEMORY;
    }
    return problems->refusal_count > refusals_before ? QLL_REFUSED : QLL_OK;
}
