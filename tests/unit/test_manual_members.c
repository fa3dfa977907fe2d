/* Every member that docs/formats/answers.md lists in the first column of its tables stands in an answer, under the list or
 * object that its row belongs to: a writer that leaves one out is seen, and so is a page that promises too much. */
#include "ask_files.h"
#include "attached.h"
#include "base/document.h"
#include "check.h"
#include "hum.h"

#include <string.h>

#define TEST_ROOTS 24

typedef struct answers {
    const qll_node *roots[TEST_ROOTS];
    const char *kinds[TEST_ROOTS]; /* "design/1" */
    size_t count;
    qll_arena *arena;
} answers;

static void add(answers *all, const qll_question *question)
{
    qll_answer answer;
    qll_status status = qll_ask(question, all->arena, &answer);
    if (!CHECK(status == QLL_OK || status == QLL_REFUSED) || !CHECK(all->count < TEST_ROOTS)) {
        return;
    }
    qll_document *document = qll_arena_take(all->arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(all->arena);
    qll_text text = {answer.bytes, answer.size};
    if (CHECK(qll_document_read(text, "answer", all->arena, document, &problems) == QLL_OK)) {
        all->roots[all->count] = document->root;
        all->kinds[all->count] =
            qll_text_closed(qll_node_find(document->root, "quell")->text, all->arena);
        all->count += 1;
    }
}

/* Long enough to have a log beside it. */
static qll_status hum_on(void *context, qll_samples_sink *sink, void *sink_context,
                         const char **why)
{
    qll_status status = QLL_OK;
    for (int i = 0; i < 6 && status == QLL_OK; i++) {
        status = hum(context, sink, sink_context, why);
    }
    return status;
}

static void ask_all(answers *all)
{
    static const struct {
        qll_verb verb;
        const char *survey, *catalogue;
    } asked[] = {
        {QLL_VERB_DEMAND, "flats.json", NULL},
        {QLL_VERB_DEMAND, "metered.json", NULL},
        {QLL_VERB_DESIGN, "flats.json", "valves.json"},
        {QLL_VERB_DESIGN, "no_valve.json", NULL},
        {QLL_VERB_CHECK, "flats.json", "valves.json"},
        {QLL_VERB_CHECK, "../../examples/hillside/survey.json", NULL},
        {QLL_VERB_CHECK, "warehouse.json", NULL},
        {QLL_VERB_REPORT, "flats.json", "valves.json"},
        {QLL_VERB_FIT, "capacity.csv", NULL},
        {QLL_VERB_CHECK, "refused.json", NULL},
        {QLL_VERB_DIAGNOSE, "oversized_case.json", NULL},
        {QLL_VERB_DIAGNOSE, "../../examples/night-creep/closed.json", NULL},
    };

    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        qll_question question =
            survey_question(asked[i].verb, asked[i].survey, asked[i].catalogue, all->arena);
        attach_from(&question, QUELL_ROOT "/tests/cli/", all->arena);
        question.figures = asked[i].verb == QLL_VERB_CHECK ? "all" : NULL;
        add(all, &question);
    }
    static char log_path[] = QUELL_ROOT "/examples/pressure-log/night-rise.csv";
    const qll_attachment log = {.name = "log", .stream = attached_stream, .context = log_path};
    qll_question of_log =
        survey_question(QLL_VERB_LOG, "../../examples/hillside/survey.json", NULL, all->arena);
    of_log.log = &log;
    add(all, &of_log);
    static const qll_recording recording = {
        .name = "hum.wav", .rate_hz = 8000, .channels = 1, .stream = hum};
    qll_question of_sound =
        survey_question(QLL_VERB_LISTEN, "../../examples/hillside/survey.json", NULL, all->arena);
    of_sound.recording = &recording;
    of_sound.quiet = &recording;
    add(all, &of_sound);
    static const qll_recording dated = {
        .name = "hum_20261130_140500.wav", .rate_hz = 8000, .channels = 1, .stream = hum_on};
    static char minute_path[] = QUELL_ROOT "/tests/cli/same_minute.csv";
    const qll_attachment minute = {
        .name = "log", .stream = attached_stream, .context = minute_path};
    add(all,
        &(qll_question){
            .verb = QLL_VERB_LISTEN, .form = QLL_FORM_JSON, .recording = &dated, .log = &minute});
    static const char *const events[] = {"closure", "demand", "heater"};
    for (size_t i = 0; i < 3; i++) {
        qll_question of_event =
            survey_question(QLL_VERB_SIMULATE, "../../examples/slam/survey.json", NULL, all->arena);
        of_event.event = events[i];
        add(all, &of_event);
    }
    qll_question nominal = survey_question(QLL_VERB_CHECK, "warehouse.json", NULL, all->arena);
    nominal.parts = "verdicts";
    add(all, &nominal);
    static const char *const arguments[] = {"flow=12 gpm", "bore=1 in"};
    add(all, &(qll_question){.verb = QLL_VERB_LIST, .form = QLL_FORM_JSON});
    add(all, &(qll_question){.verb = QLL_VERB_DESCRIBE, .form = QLL_FORM_JSON});
    add(all, &(qll_question){.verb = QLL_VERB_CALC,
                             .form = QLL_FORM_JSON,
                             .calc = "velocity",
                             .arguments = arguments,
                             .argument_count = 2});
}

/* ---- is it there? ---- */

static bool is_under(const qll_node *node, qll_text owner)
{
    for (const qll_node *at = node->parent; at != NULL; at = at->parent) {
        if (qll_text_equal(at->key, owner)) {
            return true;
        }
    }
    return owner.size == 0;
}

/* A member @p key with @p owner above it, which may be several above; "" = anywhere. */
static bool stands_in(const qll_node *node, qll_text key, qll_text owner)
{
    if (node->key.size > 0 && qll_text_equal(node->key, key) && is_under(node, owner)) {
        return true;
    }
    bool found = false;
    for (const qll_node *child = node->first_child; child != NULL && !found; child = child->next) {
        found = stands_in(child, key, owner);
    }
    return found;
}

static bool stands_in_any(const answers *all, qll_text section, qll_text key, qll_text owner)
{
    for (size_t i = 0; i < all->count; i++) {
        /* A section that is not called after one kind of answer holds for all. */
        bool is_of =
            memchr(section.bytes, '/', section.size) == NULL || qll_text_is(section, all->kinds[i]);
        if (is_of && stands_in(all->roots[i], key, owner)) {
            return true;
        }
    }
    return false;
}

/* ---- the page ---- */

/* Takes the last name off a path: "stages[].xf" to "xf", and leaves "stages". */
static qll_text take_last(qll_text *path)
{
    while (path->size > 0
           && (path->bytes[path->size - 1] == ']' || path->bytes[path->size - 1] == '[')) {
        path->size -= 1;
    }
    size_t from = path->size;
    while (from > 0 && path->bytes[from - 1] != '.') {
        from -= 1;
    }
    qll_text last = {path->bytes + from, path->size - from};
    path->size = from > 0 ? from - 1 : 0;
    return last;
}

/* The names in the first cell of a row. Those that begin with a point belong to the row's first name's owner, or to the
 * last name without one. */
static size_t check_cell(const answers *all, qll_text section, qll_text cell, qll_text *context)
{
    size_t count = 0;
    qll_text first_owner = {"", 0};
    for (const char *at = cell.bytes; at < cell.bytes + cell.size; count++) {
        const char *from = memchr(at, '`', (size_t)(cell.bytes + cell.size - at));
        const char *to = from == NULL
                             ? NULL
                             : memchr(from + 1, '`', (size_t)(cell.bytes + cell.size - from - 1));
        if (to == NULL) {
            break;
        }
        at = to + 1;
        qll_text path = {from + 1, (size_t)(to - from - 1)};
        bool is_whole = path.bytes[0] != '.';
        qll_text whole = path;
        qll_text key = take_last(&path);
        qll_text owner = path.size > 0 ? take_last(&path) : (qll_text){"", 0};
        if (count == 0) {
            first_owner = owner;
        }
        if (owner.size == 0 && !is_whole) {
            owner = first_owner;
        }
        qll_text above = *context;
        qll_text of_context = take_last(&above);
        qll_text beside = above.size > 0 ? take_last(&above) : of_context;
        bool found = stands_in_any(all, section, key, owner)
                     && (is_whole || owner.size > 0 || stands_in_any(all, section, key, of_context)
                         || stands_in_any(all, section, key, beside));
        if (!CHECK(found)) {
            printf("    %.*s: %.*s\n", (int)section.size, section.bytes, (int)whole.size,
                   whole.bytes);
        }
        if (is_whole) {
            *context = whole;
        }
    }
    return count;
}

static size_t check_page(const answers *all, qll_text page)
{
    qll_text section = {"", 0};
    qll_text context = {"", 0};
    size_t count = 0;
    for (const char *line = page.bytes; line < page.bytes + page.size;) {
        const char *end = memchr(line, '\n', (size_t)(page.bytes + page.size - line));
        end = end == NULL ? page.bytes + page.size : end;
        if (*line == '#') {
            const char *name = line + strspn(line, "# ");
            section = (qll_text){name, (size_t)(end - name)};
            context = (qll_text){"", 0};
        } else if (strncmp(line, "| `", 3) == 0 && !qll_text_is(section, "Parts")) {
            const char *cell_end = memchr(line + 2, '|', (size_t)(end - line - 2));
            count += check_cell(all, section, (qll_text){line + 2, (size_t)(cell_end - line - 2)},
                                &context);
        }
        line = end + 1;
    }
    return count;
}

TEST(every_member_of_the_manual_is_answered)
{
    answers all = {.arena = qll_arena_open((size_t)1 << 30)};
    ask_all(&all);
    qll_input page = test_input("../../docs/formats/answers.md", all.arena);
    if (CHECK(page.bytes != NULL)) {
        CHECK(check_page(&all, (qll_text){page.bytes, page.size}) > 200);
    }
    qll_arena_close(all.arena);
}

int main(void)
{
    TEST_RUN(every_member_of_the_manual_is_answered);
    return TEST_END();
}
