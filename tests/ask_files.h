/* Questions about the documents in tests/cli, for the tests of the engine. */
#ifndef QUELL_TESTS_ASK_FILES_H
#define QUELL_TESTS_ASK_FILES_H

#include "quell/quell.h"

#include "base/text.h"

#include <stdio.h>

/* A whole file; bytes NULL if it cannot be read. */
static inline qll_text test_file(const char *path, qll_arena *arena)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        printf("cannot read %s\n", path);
        return (qll_text){0};
    }
    qll_writer writer = qll_writer_new(arena);
    char block[4096];
    size_t size = fread(block, 1, sizeof block, file);
    while (size > 0) {
        qll_write_text(&writer, (qll_text){block, size});
        size = fread(block, 1, sizeof block, file);
    }
    fclose(file);
    return qll_writer_text(&writer);
}

/* The file of tests/@p folder called @p name; bytes NULL if it cannot be read. */
static inline qll_input test_input_in(const char *folder, const char *name, qll_arena *arena)
{
    char path[512];
    snprintf(path, sizeof path, "%s/tests/%s/%s", QUELL_ROOT, folder, name);
    qll_text text = test_file(path, arena);
    return (qll_input){.name = name, .bytes = text.bytes, .size = text.size};
}

static inline qll_input test_input(const char *name, qll_arena *arena)
{
    return test_input_in("cli", name, arena);
}

/* A question in JSON form; @p catalogue NULL = the generic one. */
static inline qll_question survey_question(qll_verb verb, const char *survey, const char *catalogue,
                                           qll_arena *arena)
{
    qll_question question = {.verb = verb, .form = QLL_FORM_JSON};
    question.document = test_input(survey, arena);
    if (catalogue != NULL) {
        question.catalogue = test_input(catalogue, arena);
    }
    return question;
}

#endif
