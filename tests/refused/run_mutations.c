/* Every key of the examples deleted, doubled and given a value of every other kind.
 *
 * Each mutation is one cause and makes one problem. A doubled or retyped key is refused at its own
 * path, and so is the lack of an obligatory one. The lack of another key is legal, or refused where
 * one of its siblings must stand in for it. */
#include "base/document.h"
#include "check.h"
#include "documents/catalogue_fields.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"
#include "documents/survey_fields.h"
#include "folder.h"
#include "said.h"

#include <stdlib.h>

typedef enum mutation {
    QLL_MUTATION_NONE,
    QLL_MUTATION_DELETE,
    QLL_MUTATION_DOUBLE,
    QLL_MUTATION_NUMBER,
    QLL_MUTATION_TEXT,
    QLL_MUTATION_LIST,
    QLL_MUTATION_OBJECT,
    QLL_MUTATION_TRUE,
    QLL_MUTATION_NULL,
    QLL_MUTATION_COUNT
} mutation;

static const char *const mutation_words[QLL_MUTATION_COUNT] = {
    "as it is", "deleted", "doubled", "a number", "text", "a list", "an object", "true", "null"};

typedef struct reading {
    bool is_catalogue;
    const qll_field_group *const *groups;
    size_t group_count;
    qll_tables tables;
} reading;

/* ---- writing a document with one key changed ---- */

static void write_node(qll_json *json, const qll_node *node, const qll_node *target, mutation what);

static void write_changed(qll_json *json, const qll_node *node, mutation what)
{
    switch (what) {
    case QLL_MUTATION_NUMBER: qll_json_number(json, 12345.678); break;
    case QLL_MUTATION_TEXT: qll_json_text(json, "quell"); break;
    case QLL_MUTATION_LIST:
        qll_json_open_list(json);
        qll_json_close_list(json);
        break;
    case QLL_MUTATION_OBJECT:
        qll_json_open_object(json);
        qll_json_close_object(json);
        break;
    case QLL_MUTATION_TRUE: qll_json_bool(json, true); break;
    case QLL_MUTATION_NULL: qll_json_null(json); break;
    case QLL_MUTATION_NONE:
    case QLL_MUTATION_DELETE:
    case QLL_MUTATION_DOUBLE:
    case QLL_MUTATION_COUNT: qll_json_node(json, node); break;
    }
}

static void write_key(qll_json *json, const qll_node *child)
{
    qll_json_key(json, qll_text_closed(child->key, json->writer->arena));
}

static void write_member(qll_json *json, const qll_node *child, const qll_node *target,
                         mutation what)
{
    if (child != target) {
        write_key(json, child);
        write_node(json, child, target, what);
        return;
    }
    for (int times = what == QLL_MUTATION_DELETE   ? 0
                     : what == QLL_MUTATION_DOUBLE ? 2
                                                   : 1;
         times > 0; times--) {
        write_key(json, child);
        write_changed(json, child, what);
    }
}

static void write_node(qll_json *json, const qll_node *node, const qll_node *target, mutation what)
{
    if (node->kind == QLL_NODE_OBJECT) {
        qll_json_open_object(json);
        for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
            write_member(json, child, target, what);
        }
        qll_json_close_object(json);
    } else if (node->kind == QLL_NODE_LIST) {
        qll_json_open_list(json);
        for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
            write_node(json, child, target, what);
        }
        qll_json_close_list(json);
    } else {
        qll_json_node(json, node);
    }
}

/* ---- which field a key is ---- */

/* "upstream[0].loss[1]" to "upstream[].loss[]". */
static void without_indices(const char *path, char *pattern)
{
    bool is_inside = false;
    for (; *path != '\0'; path++) {
        if (!is_inside || *path == ']') {
            *pattern++ = *path;
        }
        is_inside = *path == '[' || (is_inside && *path != ']');
    }
    *pattern = '\0';
}

static const qll_field *field_in(const qll_field_group *group, qll_text key)
{
    for (size_t i = 0; i < group->count; i++) {
        if (qll_text_is(key, group->fields[i].key)) {
            return &group->fields[i];
        }
    }
    return NULL;
}

/* NULL for what no list names: the words under "fittings". */
static const qll_field *field_of(const reading *how, const qll_document *document,
                                 const qll_node *node, qll_arena *arena)
{
    char pattern[256];
    const char *path = qll_node_place(document, node->parent, false, arena).path;
    CHECK(strlen(path) < sizeof pattern);
    without_indices(path, pattern);
    const qll_field *found = NULL;
    for (size_t i = 0; i < how->group_count && found == NULL; i++) {
        const qll_field_group *group = how->groups[i];
        bool is_own = strcmp(group->path, pattern) == 0;
        bool is_upstream = strcmp(group->path, "upstream[]") == 0;
        if (is_own && (!is_upstream || qll_node_find(node->parent, group->fields[0].key) != NULL)) {
            found = field_in(group, node->key);
        }
    }
    return found;
}

/* True if the object cannot be read without this key, whatever else it holds. The key that tells
 * what an entry of upstream is can be any of five. */
static bool is_needed(const reading *how, const qll_document *document, const qll_node *node,
                      qll_arena *arena)
{
    const qll_field *field = field_of(how, document, node, arena);
    if (field == NULL || !field->obligatory) {
        return false;
    }
    const qll_node *list = node->parent->parent;
    bool is_upstream = list != NULL && qll_text_is(list->key, "upstream");
    return !is_upstream || node->index > 0;
}

/* ---- one mutation ---- */

static qll_status read_text(const reading *how, qll_text text, qll_arena *arena,
                            qll_problems *problems)
{
    qll_document document;
    qll_status status = qll_document_read(text, "mutated", arena, &document, problems);
    qll_assumed assumed = qll_assumed_none(arena);
    if (status != QLL_OK) {
        return status;
    }
    if (how->is_catalogue) {
        qll_catalogue catalogue;
        return qll_catalogue_read(&document, arena, &catalogue, &assumed, problems);
    }
    qll_survey survey;
    return qll_survey_read(&document, &how->tables, arena, &survey, &assumed, problems);
}

static const qll_fault *first_refusal(const qll_problems *problems)
{
    for (size_t i = 0; i < problems->kept_count; i++) {
        if (problems->kept[i].level == QLL_REFUSAL) {
            return &problems->kept[i];
        }
    }
    return NULL;
}

static bool is_same_kind(const qll_node *node, mutation what)
{
    switch (what) {
    case QLL_MUTATION_NUMBER: return node->kind == QLL_NODE_NUMBER;
    case QLL_MUTATION_TEXT: return node->kind == QLL_NODE_TEXT;
    case QLL_MUTATION_LIST: return node->kind == QLL_NODE_LIST;
    case QLL_MUTATION_OBJECT: return node->kind == QLL_NODE_OBJECT;
    case QLL_MUTATION_TRUE: return node->kind == QLL_NODE_TRUE || node->kind == QLL_NODE_FALSE;
    case QLL_MUTATION_NULL: return node->kind == QLL_NODE_NULL;
    case QLL_MUTATION_NONE:
    case QLL_MUTATION_DELETE:
    case QLL_MUTATION_DOUBLE:
    case QLL_MUTATION_COUNT: return false;
    }
    return false;
}

static void mutate(const reading *how, const qll_document *document, const qll_node *node,
                   mutation what)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    write_node(&json, document->root, node, what);
    qll_problems problems = qll_problems_none(arena);
    qll_status status = read_text(how, qll_writer_text(&writer), arena, &problems);
    const char *path = qll_node_place(document, node, true, arena).path;
    const qll_fault *problem = first_refusal(&problems);
    bool is_right = status == QLL_REFUSED && problem != NULL && problems.refusal_count == 1;
    if (what == QLL_MUTATION_DELETE && !is_needed(how, document, node, arena)) {
        const char *parent = qll_node_place(document, node->parent, false, arena).path;
        is_right = status == QLL_OK
                   || (is_right && strncmp(problem->place.path, parent, strlen(parent)) == 0);
    } else {
        is_right = is_right && strcmp(problem->place.path, path) == 0;
    }
    if (!CHECK(is_right)) {
        printf("    %s: %s %s:\n", document->name, path, mutation_words[what]);
        qll_writer lines = qll_writer_new(arena);
        for (size_t i = 0; i < problems.kept_count; i++) {
            const qll_problem said = said_problem(&problems, i);
            qll_problem_write(&lines, &said, NULL);
        }
        printf("    status %d\n%s", (int)status, qll_writer_text(&lines).bytes);
    }
    qll_arena_close(arena);
}

/* ---- all of them ---- */

static void sweep(const reading *how, const qll_document *document, const qll_node *node)
{
    bool is_member = node->parent != NULL && node->parent->kind == QLL_NODE_OBJECT;
    for (int what = QLL_MUTATION_DELETE; is_member && what < QLL_MUTATION_COUNT; what++) {
        if (!is_same_kind(node, (mutation)what)) {
            mutate(how, document, node, (mutation)what);
        }
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        sweep(how, document, child);
    }
}

static void sweep_file(reading *how, const char *path)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    qll_text source = {NULL, 0};
    char *bytes = folder_read(path, &source.size);
    source.bytes = bytes;
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    CHECK(qll_tables_read(arena, &how->tables) == QLL_OK);
    if (CHECK(qll_document_read(source, path, arena, &document, &problems) == QLL_OK)) {
        CHECK(read_text(how, source, arena, &problems) == QLL_OK);
        sweep(how, &document, document.root);
    }
    free(bytes);
    qll_arena_close(arena);
}

TEST(surveys_are_refused_at_the_changed_key)
{
    static const char *const names[] = {
        "repurposed-building", "morning-rush", "hillside", "metered", "house", "low-street"};
    reading how = {.is_catalogue = false};
    how.groups = qll_survey_groups(&how.group_count);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[256];
        (void)snprintf(path, sizeof path, QUELL_ROOT "/examples/%s/survey.json", names[i]);
        sweep_file(&how, path);
    }
    sweep_file(&how, QUELL_ROOT "/tests/refused/every-key.json");
}

TEST(catalogues_are_refused_at_the_changed_key)
{
    reading how = {.is_catalogue = true};
    how.groups = qll_catalogue_groups(&how.group_count);
    sweep_file(&how, QUELL_ROOT "/examples/own-catalogue/valves.json");
    sweep_file(&how, QUELL_ROOT "/tests/refused/every-catalogue-key.json");
}

int main(void)
{
    TEST_RUN(surveys_are_refused_at_the_changed_key);
    TEST_RUN(catalogues_are_refused_at_the_changed_key);
    return TEST_END();
}
