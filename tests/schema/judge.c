/* What the readers say of documents, for check_schemas.py.
 *
 * Reads "KIND SIZE FOLDER\n" and SIZE bytes, over and over: KIND is survey, catalogue or record, which are only read, or a verb,
 * which is asked with the files of FOLDER. Answers a line for each: "ok", or "no" and for every refusal in the
 * document itself its code and path, each behind a tab. */
#include "quell/quell.h"
#include "quell/records.h"

#include "attached.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"

#include <stdlib.h>
#include <string.h>

static const char document_name[] = "document";

static void print_refusal(qll_code code, qll_level level, const qll_place *place)
{
    if (level == QLL_REFUSAL && strcmp(place->source, document_name) == 0) {
        printf("\t%s\t%s", qll_code_word(code), place->path == NULL ? "" : place->path);
    }
}

static void read_only(const char *kind, qll_text source, qll_arena *arena)
{
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document document;
    qll_status status = qll_document_read(source, document_name, arena, &document, &problems);
    if (status == QLL_OK && strcmp(kind, "survey") == 0) {
        qll_tables tables;
        qll_survey survey;
        status = qll_tables_read(arena, &tables);
        status = status == QLL_OK
                     ? qll_survey_read(&document, &tables, arena, &survey, &assumed, &problems)
                     : status;
    } else if (status == QLL_OK) {
        qll_catalogue catalogue;
        status = qll_catalogue_read(&document, arena, &catalogue, &assumed, &problems);
    }
    printf(status == QLL_OK ? "ok" : "no");
    for (size_t i = 0; i < problems.kept_count; i++) {
        print_refusal(problems.kept[i].code, problems.kept[i].level, &problems.kept[i].place);
    }
}

static void print_answer(qll_status status, const qll_answer *answer)
{
    printf(status == QLL_OK ? "ok" : "no");
    for (size_t i = 0; i < answer->problem_count; i++) {
        const qll_problem *problem = &answer->problems[i];
        print_refusal(problem->code, problem->level, &problem->place);
    }
}

static void read_record(qll_text source, qll_arena *arena)
{
    const qll_input input = {document_name, source.bytes, source.size};
    qll_record record;
    qll_answer answer = {0};
    const qll_status status = qll_record_read(NULL, &input, NULL, arena, &record, &answer);
    print_answer(status, &answer);
}

static void ask(const char *kind, qll_text source, const char *folder, qll_arena *arena)
{
    qll_question question = {.document = {document_name, source.bytes, source.size}};
    for (unsigned v = 0; v < QLL_VERB_COUNT; v++) {
        if (strcmp(kind, qll_verb_words[v]) == 0) {
            question.verb = (qll_verb)v;
        }
    }
    attach_from(&question, folder, arena);
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    print_answer(status, &answer);
}

int main(void)
{
    char line[600]; /* "survey 1234 examples/house" */
    while (fgets(line, sizeof line, stdin) != NULL) {
        char *blank = strchr(line, ' ');
        char *behind = NULL;
        const size_t size = blank == NULL ? 0 : strtoul(blank, &behind, 10);
        if (behind == NULL || *behind != ' ') {
            return 1;
        }
        *blank = '\0';
        const char *kind = line;
        char *folder = behind + 1;
        folder[strcspn(folder, "\n")] = '\0';
        qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
        char *bytes = qll_arena_take(arena, size + 1, 1);
        if (bytes == NULL || fread(bytes, 1, size, stdin) != size) {
            return 1;
        }
        const qll_text source = {bytes, size};
        if (strcmp(kind, "survey") == 0 || strcmp(kind, "catalogue") == 0) {
            read_only(kind, source, arena);
        } else if (strcmp(kind, "record") == 0) {
            read_record(source, arena);
        } else {
            ask(kind, source, folder, arena);
        }
        printf("\n");
        fflush(stdout);
        qll_arena_close(arena);
    }
    return 0;
}
