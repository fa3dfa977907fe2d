/* An example's survey taken through the engine's own steps, for tests of what is drawn from answers. */
#ifndef QUELL_TESTS_BUILDING_ANSWERS_H
#define QUELL_TESTS_BUILDING_ANSWERS_H

#include "ask_files.h"
#include "check.h"
#include "engine/engine.h"

typedef struct building {
    qll_question question;
    qll_asked asked;
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_duty duty;
    qll_design design;
    qll_station existing; /* no stages where the survey has none */
    qll_wording wording;
} building;

/* @p example is a folder of examples/. All lives in @p arena; false where the engine refuses. */
static inline bool building_answers(const char *example, qll_arena *arena, building *made)
{
    char name[128];
    snprintf(name, sizeof name, "../../examples/%s/survey.json", example);
    *made = (building){.question = survey_question(QLL_VERB_DESIGN, name, NULL, arena)};
    made->asked = (qll_asked){.question = &made->question,
                              .arena = arena,
                              .problems = qll_problems_none(arena),
                              .assumed = qll_assumed_none(arena),
                              .writer = qll_writer_new(arena)};
    bool holds =
        qll_prepare_survey(&made->asked, &made->prepared) == QLL_OK
        && qll_prepare_catalogue(&made->asked, &made->prepared, &made->catalogue) == QLL_OK;
    if (!holds) {
        return false;
    }
    qll_prepare_header(&made->asked, &made->prepared);
    holds = qll_prepare_duty(&made->asked, &made->prepared, &made->duty) == QLL_OK;
    const qll_survey *survey = &made->prepared.survey;
    const qll_search_options options = qll_search_options_default();
    const qll_design_case given = {.site = &survey->site,
                                   .duty = &made->duty,
                                   .catalogue = &made->catalogue,
                                   .options = &options};
    holds =
        holds && qll_design_make(&given, arena, &made->design) == QLL_OK && made->design.count > 0;
    if (holds && survey->existing_count > 0) {
        holds = qll_survey_existing(survey, &made->catalogue, arena, &made->existing,
                                    &made->asked.assumed, &made->asked.problems)
                == QLL_OK;
    }
    made->wording =
        (qll_wording){.units = survey->units, .site = &survey->site, .duty = &made->duty};
    return holds;
}

#endif
