/* Bad documents and the exact lines that refuse them.
 *
 *     run_refused [--update] [--codes WORD...|all] FOLDER...
 *
 * A case is <case>.expect beside <case>.json or <case>.csv; files that a survey names stand beside it,
 * <case>.log.csv. The first line of the .expect file is
 * the verb that is asked, the others are the problems as the command line prints them. --update
 * writes the .expect files anew (read the difference like code); with --codes the run also fails
 * unless each of these codes was met. */
#include "quell/quell.h"

#include "attached.h"
#include "base/document.h"
#include "base/table.h"
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"
#include "documents/valve_table.h"
#include "folder.h"
#include "said.h"

#include <stdlib.h>

typedef struct asked {
    qll_arena *arena;
    const char *folder; /* up to its slash */
    const char *name;
    qll_text source;
    qll_problems problems;
    qll_status status;
} asked;

/* The question as the command line asks it. */
static void ask_engine(asked *question, qll_verb verb, qll_input document, qll_input catalogue)
{
    qll_answer answer;
    qll_question wanted = {.verb = verb, .document = document, .catalogue = catalogue};
    attach_from(&wanted, question->folder, question->arena);
    question->status = qll_ask(&wanted, question->arena, &answer);
    for (size_t i = 0; i < answer.problem_count; i++) {
        (void)said_add(&question->problems, &answer.problems[i]);
    }
}

static qll_input input_of(const asked *question)
{
    return (qll_input){question->name, question->source.bytes, question->source.size};
}

static void ask_demand(asked *question)
{
    ask_engine(question, QLL_VERB_DEMAND, input_of(question), (qll_input){0});
}

static void ask_design(asked *question)
{
    ask_engine(question, QLL_VERB_DESIGN, input_of(question), (qll_input){0});
}

static void ask_check(asked *question)
{
    ask_engine(question, QLL_VERB_CHECK, input_of(question), (qll_input){0});
}

static void ask_diagnose(asked *question)
{
    ask_engine(question, QLL_VERB_DIAGNOSE, input_of(question), (qll_input){0});
}

static void ask_learn(asked *question)
{
    ask_engine(question, QLL_VERB_LEARN, input_of(question), (qll_input){0});
}

static void ask_as(asked *question, qll_document *document)
{
    question->status = qll_document_read(question->source, question->name, question->arena,
                                         document, &question->problems);
}

static void ask_document(asked *question)
{
    qll_document document;
    ask_as(question, &document);
}

static void ask_table(asked *question)
{
    qll_table table;
    question->status = qll_table_read(question->source, question->name, question->arena, &table,
                                      &question->problems);
}

static void ask_survey(asked *question)
{
    qll_document document;
    ask_as(question, &document);
    if (question->status != QLL_OK) {
        return;
    }
    qll_tables tables;
    CHECK(qll_tables_read(question->arena, &tables) == QLL_OK);
    qll_survey survey;
    qll_assumed assumed = qll_assumed_none(question->arena);
    question->status = qll_survey_read(&document, &tables, question->arena, &survey, &assumed,
                                       &question->problems);
}

static void ask_catalogue(asked *question)
{
    qll_document document;
    ask_as(question, &document);
    if (question->status != QLL_OK) {
        return;
    }
    qll_catalogue catalogue;
    qll_assumed assumed = qll_assumed_none(question->arena);
    question->status =
        qll_catalogue_read(&document, question->arena, &catalogue, &assumed, &question->problems);
}

static void ask_import(asked *question)
{
    qll_table table;
    question->status = qll_valve_table_read(question->source, question->name, question->arena,
                                            &table, &question->problems);
    if (question->status != QLL_OK) {
        return;
    }
    qll_catalogue catalogue;
    qll_assumed assumed = qll_assumed_none(question->arena);
    question->status =
        qll_catalogue_import(&table, question->arena, &catalogue, &assumed, &question->problems);
}

/* The case is the catalogue for a survey without fault. */
static void ask_design_from(asked *question)
{
    static const char survey[] =
        "{\"survey\": 1, \"supply\": {\"static_high\": \"100 psi\", \"flow_test\": ["
        "{\"flow\": \"0 gpm\", \"pressure\": \"95 psi\"},"
        "{\"flow\": \"100 gpm\", \"pressure\": \"85 psi\"}]},"
        "\"downstream\": {\"set_pressure\": \"55 psi\"},"
        "\"scenarios\": [{\"name\": \"flats\", \"use\": \"apartment\", \"people\": 200,"
        "\"homes\": 100, \"fixtures\": [{\"fixture\": \"shower\", \"count\": 100}]}]}";
    ask_engine(question, QLL_VERB_DESIGN, (qll_input){"survey.json", survey, sizeof survey - 1},
               input_of(question));
}

static const struct {
    const char *word;
    void (*ask)(asked *question);
} verbs[] = {
    {"document", ask_document},   {"table", ask_table},   {"survey", ask_survey},
    {"catalogue", ask_catalogue}, {"import", ask_import}, {"demand", ask_demand},
    {"design", ask_design},       {"check", ask_check},   {"design-from", ask_design_from},
    {"diagnose", ask_diagnose},   {"learn", ask_learn},
};

static bool codes_met[QLL_CODE_COUNT];

/* @p path with its ending replaced, for free(). */
static char *beside(const char *path, const char *ending)
{
    size_t stem = strlen(path) - strlen(".expect");
    size_t size = stem + strlen(ending) + 1;
    char *other = malloc(size);
    if (other == NULL) {
        abort();
    }
    (void)snprintf(other, size, "%.*s%s", (int)stem, path, ending);
    return other;
}

static bool ask(asked *question, qll_text verb)
{
    for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++) {
        if (qll_text_is(verb, verbs[i].word)) {
            verbs[i].ask(question);
            return true;
        }
    }
    return false;
}

/* The verb and what the question said, in the form of an .expect file. */
static qll_text answer_of(asked *question, qll_text verb)
{
    qll_writer writer = qll_writer_new(question->arena);
    qll_write_text(&writer, verb);
    qll_write(&writer, "\n");
    for (size_t i = 0; i < question->problems.kept_count; i++) {
        codes_met[question->problems.kept[i].code] = true;
        const qll_problem said = said_problem(&question->problems, i);
        qll_problem_write(&writer, &said, NULL);
    }
    return qll_writer_text(&writer);
}

static void write_expect(const char *path, qll_text answer)
{
    FILE *file = fopen(path, "wb");
    if (CHECK(file != NULL)) {
        CHECK(fwrite(answer.bytes, 1, answer.size, file) == answer.size);
        fclose(file);
    }
}

/* ---- what mends a problem ---- */

static void write_fixed(qll_json *json, const qll_node *node, const qll_fix *fix, qll_arena *arena);

/* A child of an object or a list, or what the fix makes of it. */
static void write_child(qll_json *json, const qll_node *child, const qll_fix *fix, qll_arena *arena)
{
    const bool is_meant = strcmp(qll_node_path(child, arena), fix->path) == 0;
    if (is_meant && fix->op == QLL_FIX_REMOVE) {
        return;
    }
    if (child->parent->kind == QLL_NODE_OBJECT) {
        qll_text key = child->key;
        if (is_meant && fix->op == QLL_FIX_RENAME) {
            key = (qll_text){fix->value + 1, strlen(fix->value) - 2};
        }
        qll_json_key(json, qll_text_closed(key, arena));
    }
    if (is_meant && fix->op == QLL_FIX_REPLACE) {
        qll_json_literal(json, qll_text_of(fix->value));
    } else {
        write_fixed(json, child, fix, arena);
    }
}

static void write_fixed(qll_json *json, const qll_node *node, const qll_fix *fix, qll_arena *arena)
{
    if (node->kind != QLL_NODE_OBJECT && node->kind != QLL_NODE_LIST) {
        qll_json_node(json, node);
        return;
    }
    const bool is_object = node->kind == QLL_NODE_OBJECT;
    is_object ? qll_json_open_object(json) : qll_json_open_list(json);
    const char *dot = strrchr(fix->path, '.');
    const size_t stem = dot == NULL ? 0 : (size_t)(dot - fix->path);
    const char *path = qll_node_path(node, arena);
    if (fix->op == QLL_FIX_ADD && strlen(path) == stem && strncmp(path, fix->path, stem) == 0) {
        qll_json_key(json, dot == NULL ? fix->path : dot + 1);
        qll_json_literal(json, qll_text_of(fix->value));
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        write_child(json, child, fix, arena);
    }
    is_object ? qll_json_close_object(json) : qll_json_close_list(json);
}

static size_t fixes_applied;

/* The same question with one problem mended: that problem is gone, whatever is left. */
static void check_fix(const asked *question, qll_text verb, const qll_fault *fault)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_problems none = qll_problems_none(arena);
    qll_document document;
    if (!CHECK(qll_document_read(question->source, "fixed", arena, &document, &none) == QLL_OK)) {
        qll_arena_close(arena);
        return;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    write_fixed(&json, document.root, &fault->fix, arena);
    asked again = {.arena = arena,
                   .name = question->name,
                   .folder = question->folder,
                   .source = qll_writer_text(&writer),
                   .problems = qll_problems_none(arena)};
    qll_document mended;
    if (!CHECK(qll_document_read(again.source, "mended", arena, &mended, &none) == QLL_OK)) {
        printf("    %s: %s %s %s is no JSON\n", question->name, qll_fix_word(fault->fix.op),
               fault->fix.path, fault->fix.value);
    }
    CHECK(ask(&again, verb));
    bool is_gone = again.problems.kept_count < QLL_PROBLEMS_KEPT;
    for (size_t i = 0; i < again.problems.kept_count; i++) {
        const qll_fault *left = &again.problems.kept[i];
        is_gone =
            is_gone
            && (left->code != fault->code || strcmp(left->place.path, fault->place.path) != 0);
    }
    if (!CHECK(is_gone)) {
        printf("    %s: %s %s %s leaves the problem\n", question->name, qll_fix_word(fault->fix.op),
               fault->fix.path, fault->fix.value);
    }
    fixes_applied += 1;
    qll_arena_close(arena);
}

static void check_fixes(const asked *question, qll_text verb)
{
    /* A full list says nothing of what stands behind its end. */
    for (size_t i = 0; i < question->problems.kept_count; i++) {
        const qll_fault *fault = &question->problems.kept[i];
        if (fault->fix.op != QLL_FIX_NONE && question->problems.count < QLL_PROBLEMS_KEPT) {
            check_fix(question, verb, fault);
        }
    }
}

static void run_case(const char *expect_path, const char *source_path, bool must_update)
{
    size_t size = 0;
    char *expect = folder_read(expect_path, &size);
    size_t verb_size = strcspn(expect, "\n");
    qll_text verb = {expect, verb_size};
    asked question = {.arena = qll_arena_open((size_t)256 * 1024 * 1024)};
    const char *slash = strrchr(source_path, '/');
    question.name = slash == NULL ? source_path : slash + 1;
    size_t folder_size = slash == NULL ? 0 : (size_t)(slash - source_path) + 1;
    question.folder = qll_arena_copy(question.arena, source_path, folder_size);
    question.problems = qll_problems_none(question.arena);
    char *source = folder_read(source_path, &question.source.size);
    question.source.bytes = source;
    bool has_verb = ask(&question, verb);
    qll_text answer = answer_of(&question, verb);
    bool is_refused = (question.status == QLL_REFUSED || question.status == QLL_IO)
                      && question.problems.count > 0;
    if (!CHECK(has_verb) || !CHECK(is_refused)) {
        printf("    %s: \"%.*s\"\n", expect_path, (int)verb_size, expect);
    } else if (must_update) {
        write_expect(expect_path, answer);
    } else if (!CHECK(qll_text_equal(answer, (qll_text){expect, size}))) {
        printf("    %s\n--- expected\n%s--- got\n%s---\n", source_path, expect, answer.bytes);
    }
    check_fixes(&question, verb);
    qll_arena_close(question.arena);
    free(source);
    free(expect);
}

static void run_folder(const char *path, bool must_update)
{
    folder cases = folder_open(path, ".expect");
    CHECK(cases.count > 0);
    for (size_t i = 0; i < cases.count; i++) {
        static const char *const endings[] = {".json", ".csv"};
        size_t found = 0;
        for (size_t j = 0; j < sizeof endings / sizeof *endings; j++) {
            char *source_path = beside(cases.paths[i], endings[j]);
            FILE *file = fopen(source_path, "rb");
            if (file != NULL) {
                fclose(file);
                run_case(cases.paths[i], source_path, must_update);
                found += 1;
            }
            free(source_path);
        }
        if (!CHECK(found == 1)) {
            printf("    %s: no source, or two\n", cases.paths[i]);
        }
    }
    folder_close(&cases);
}

static bool is_wanted(const char *word, int count, char **words)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(words[i], word) == 0 || strcmp(words[i], "all") == 0) {
            return true;
        }
    }
    return false;
}

static void check_codes(int count, char **words)
{
    for (int code = 0; code < QLL_CODE_COUNT; code++) {
        const char *word = qll_code_word((qll_code)code);
        if (is_wanted(word, count, words) && !CHECK(codes_met[code])) {
            printf("    no case is refused with the code %s\n", word);
        }
    }
}

/* Arguments up to the first folder, which is the first with a slash. */
int main(int argc, char **argv)
{
    bool must_update = argc > 1 && strcmp(argv[1], "--update") == 0;
    int at = must_update ? 2 : 1;
    int codes_at = 0;
    int codes_count = 0;
    if (at < argc && strcmp(argv[at], "--codes") == 0) {
        codes_at = at + 1;
        while (codes_at + codes_count < argc && strchr(argv[codes_at + codes_count], '/') == NULL) {
            codes_count += 1;
        }
        at = codes_at + codes_count;
    }
    for (; at < argc; at++) {
        run_folder(argv[at], must_update);
    }
    check_codes(codes_count, argv + codes_at);
    CHECK(!is_wanted("no-unit", codes_count, argv + codes_at) || fixes_applied > 20);
    return TEST_END();
}
