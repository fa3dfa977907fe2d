/* An example's survey asked for a design, a check or a demand, as the sheets read it. */
#ifndef QUELL_TESTS_EXAMPLE_SUBJECT_H
#define QUELL_TESTS_EXAMPLE_SUBJECT_H

#include "ask_files.h"
#include "attached.h"
#include "check.h"
#include "engine/engine.h"
#include "report/report.h"

/* A question about an example, and what was found; its parts point at one another. */
typedef struct asking {
    qll_question question;
    qll_asked asked;
    char survey[128], folder[512];
    qll_designed designed;
    qll_checked checked;
    qll_prepared prepared;
} asking;

static inline void example_begin(asking *made, const char *example, const char *units,
                                 qll_arena *arena)
{
    const bool is_site = strchr(example, '-') != NULL && strpbrk(example, "0123456789") != NULL;
    snprintf(made->survey, sizeof made->survey,
             is_site ? "../panel/surveys/%s.json" : "../../examples/%s/survey.json", example);
    snprintf(made->folder, sizeof made->folder, "%s/examples/%s/", QUELL_ROOT, example);
    made->question = survey_question(QLL_VERB_REPORT, made->survey, NULL, arena);
    made->question.units = units;
    attach_from(&made->question, made->folder, arena);
    made->asked = (qll_asked){.question = &made->question,
                              .arena = arena,
                              .seed = 1,
                              .problems = qll_problems_none(arena),
                              .assumed = qll_assumed_none(arena),
                              .writer = qll_writer_new(arena)};
}

/* The subject of @p of; false where the survey names no station that is there. */
static inline bool example_find(asking *made, qll_report_of of, qll_arena *arena,
                                qll_subject *subject)
{
    qll_demand_findings demand;
    switch (of) {
    case QLL_REPORT_OF_DESIGN:
        CHECK(qll_find_design(&made->asked, &made->designed) == QLL_OK);
        *subject = qll_subject_of_design(&made->designed.findings);
        return true;
    case QLL_REPORT_OF_CHECK:
        return qll_find_check(&made->asked, &made->checked) == QLL_OK
               && CHECK(qll_subject_of_check(&made->checked.findings, arena, subject) == QLL_OK);
    case QLL_REPORT_OF_DEMAND:
        CHECK(qll_find_demand(&made->asked, &made->prepared, &demand) == QLL_OK);
        *subject = qll_subject_of_demand(&demand);
        return true;
    case QLL_REPORT_OF_DIAGNOSE: /* of a case, not of a survey */
    case QLL_REPORT_OF_COUNT: break;
    }
    return false;
}

#endif
