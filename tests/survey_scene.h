/* A survey read on its own, with what was assumed and refused. */
#ifndef QUELL_TESTS_SURVEY_SCENE_H
#define QUELL_TESTS_SURVEY_SCENE_H

#include "base/files.h"
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"
#include "said.h"

typedef struct scene {
    qll_arena *arena;
    qll_assumed assumed;
    qll_problems problems;
    qll_tables tables;
    qll_survey survey;
    qll_status status;
} scene;

static inline scene read_survey(const char *text)
{
    scene at = {.arena = qll_arena_open((size_t)64 * 1024 * 1024)};
    at.assumed = qll_assumed_none(at.arena);
    at.problems = qll_problems_none(at.arena);
    qll_document *document = qll_arena_take(at.arena, 1, sizeof *document);
    CHECK(qll_tables_read(at.arena, &at.tables) == QLL_OK);
    at.status = qll_document_read(qll_text_of(text), "s.json", at.arena, document, &at.problems);
    if (at.status == QLL_OK) {
        at.status =
            qll_survey_read(document, &at.tables, at.arena, &at.survey, &at.assumed, &at.problems);
    }
    return at;
}

static inline const qll_assumption *assumption(const scene *at, const char *what)
{
    for (const qll_assumption *i = at->assumed.first; i != NULL; i = i->next) {
        if (strcmp(said_argument(at->arena, &i->what), what) == 0) {
            return i;
        }
    }
    return NULL;
}

static inline void check_assumed(const scene *at, const char *what, const char *value)
{
    const qll_assumption *found = assumption(at, what);
    if (!CHECK(found != NULL)) {
        printf("    %s is not listed as assumed\n", what);
        return;
    }
    CHECK_TEXT(said_argument(at->arena, &found->value), value);
    CHECK(said_text(at->arena, &found->why)[0] != '\0');
}

static inline qll_catalogue generic_catalogue(scene *at)
{
    qll_text source = {(const char *)qll_file_generic_catalogue, qll_file_generic_catalogue_size};
    qll_document *document = qll_arena_take(at->arena, 1, sizeof *document);
    qll_catalogue catalogue = {0};
    CHECK(qll_document_read(source, "generic", at->arena, document, &at->problems) == QLL_OK);
    CHECK(qll_catalogue_read(document, at->arena, &catalogue, &at->assumed, &at->problems)
          == QLL_OK);
    return catalogue;
}

#endif
