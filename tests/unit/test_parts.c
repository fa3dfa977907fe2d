/* Parts that are left out, and figures inside an answer. */
#include "ask_files.h"
#include "base/document.h"
#include "check.h"
#include "xml.h"

#include <math.h>
#include <string.h>

typedef struct answered {
    qll_status status;
    qll_answer answer;
    qll_document document;
} answered;

static answered ask(qll_verb verb, const char *parts, const char *figures, qll_arena *arena)
{
    answered of = {.status = QLL_OK};
    qll_question question = {
        .verb = verb, .form = QLL_FORM_JSON, .parts = parts, .figures = figures};
    question.document = test_input_in("../examples/repurposed-building", "survey.json", arena);
    of.status = qll_ask(&question, arena, &of.answer);
    qll_problems problems = qll_problems_none(arena);
    if (of.answer.bytes != NULL) {
        const qll_text text = {of.answer.bytes, of.answer.size};
        CHECK(qll_document_read(text, "answer", arena, &of.document, &problems) == QLL_OK);
    }
    return of;
}

static qll_text written(const qll_node *node, qll_arena *arena)
{
    qll_writer *writer = qll_arena_take(arena, 1, sizeof *writer);
    *writer = qll_writer_new(arena);
    qll_json json = qll_json_new(writer);
    qll_json_node(&json, node);
    return qll_writer_text(writer);
}

static bool has(const answered *of, const char *key)
{
    return qll_node_find(of->document.root, key) != NULL;
}

static const struct {
    qll_verb verb;
    const char *part;
    const char *members[4]; /* of the whole answer that stand and fall with it */
} parts[] = {
    {QLL_VERB_DEMAND, "comparison", {"comparison"}},
    {QLL_VERB_DESIGN, "hangs_on", {"hangs_on"}},
    {QLL_VERB_DESIGN, "alternatives", {"close_call"}},
    {QLL_VERB_DESIGN, "points", {"points"}},
    {QLL_VERB_DESIGN, "ladder", {"ladder"}},
    {QLL_VERB_DESIGN, "maps", {"maps"}},
    {QLL_VERB_CHECK, "points", {"points"}},
    {QLL_VERB_CHECK, "verdicts", {"verdicts", "sensitivity", "time_shares"}},
    {QLL_VERB_CHECK, "noise", {"noise"}},
    {QLL_VERB_CHECK, "causes", {"causes"}},
    {QLL_VERB_CHECK, "cures", {"cures"}},
    {QLL_VERB_CHECK, "chance", {"cost"}},
    {QLL_VERB_CHECK, "ladder", {"ladder"}},
    {QLL_VERB_CHECK, "maps", {"maps"}},
};

#define QLL_PARTS (sizeof parts / sizeof parts[0])

/* The members of part @p part, which are in the answer only if they are wanted. */
static void check_members(const answered *of, size_t part, bool wanted)
{
    for (size_t m = 0; m < 4; m++) {
        if (parts[part].members[m] != NULL) {
            CHECK(has(of, parts[part].members[m]) == wanted);
        }
    }
}

TEST(a_part_asked_for_is_there_and_no_other)
{
    for (size_t asked = 0; asked < QLL_PARTS; asked++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        const answered of = ask(parts[asked].verb, parts[asked].part, NULL, arena);
        CHECK(of.status == QLL_OK);
        for (size_t i = 0; i < QLL_PARTS; i++) {
            if (parts[i].verb == parts[asked].verb) {
                check_members(&of, i, i == asked);
            }
        }
        CHECK(has(&of, "scenarios") && has(&of, "cautions"));
        qll_arena_close(arena);
    }
}

/* What is there is what the whole answer has: byte for byte, from the key to the key that follows. */
TEST(a_part_is_that_of_the_whole_answer)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered whole = ask(QLL_VERB_CHECK, NULL, NULL, arena);
    const answered part = ask(QLL_VERB_CHECK, "noise", NULL, arena);
    const char *from = strstr(whole.answer.bytes, "  \"noise\": {");
    const char *own = strstr(part.answer.bytes, "  \"noise\": {");
    const char *end = from == NULL ? NULL : strstr(from, "\n  },\n");
    CHECK(end != NULL && own != NULL && strncmp(from, own, (size_t)(end - from)) == 0);
    qll_arena_close(arena);
}

/* What stands in @p of from the member @p key to the end of its list, as written. */
static qll_text list_at(const answered *of, const char *key)
{
    const char *from = strstr(of->answer.bytes, key);
    const char *end = from == NULL ? NULL : strstr(from, "\n  ],\n");
    return end == NULL ? (qll_text){NULL, 0} : (qll_text){from, (size_t)(end - from)};
}

/* Chances are looked at wherever a chance or a cure, which goes by it, is asked for; else the answer says so. */
TEST(without_chance_the_nominal_case_is_judged)
{
    static const struct {
        const char *parts;
        bool is_nominal;
    } asked[] = {{"verdicts", true},
                 {"verdicts,chance", false},
                 {"verdicts,causes", false},
                 {"verdicts,cures", false}};

    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered whole = ask(QLL_VERB_CHECK, NULL, NULL, arena);
    const qll_text all = list_at(&whole, "  \"sensitivity\": [");
    CHECK(all.bytes != NULL && !has(&whole, "nominal"));
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        const answered of = ask(QLL_VERB_CHECK, asked[i].parts, NULL, arena);
        const qll_text own = list_at(&of, "  \"sensitivity\": [");
        const bool is_same = qll_text_equal(own, all);
        CHECK(is_same == !asked[i].is_nominal);
        const qll_node *told = qll_node_find(of.document.root, "nominal");
        CHECK((told != NULL && told->kind == QLL_NODE_TRUE) == asked[i].is_nominal);
    }
    qll_arena_close(arena);
}

TEST(scenarios_of_a_demand_lose_what_is_not_asked_for)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered of = ask(QLL_VERB_DEMAND, " hours ", NULL, arena);
    const qll_node *one = qll_node_find(of.document.root, "scenarios")->first_child;
    CHECK(qll_node_find(one, "hours") != NULL);
    CHECK(qll_node_find(one, "peak_flow_m3s") != NULL);
    CHECK(qll_node_find(one, "estimates") == NULL);
    CHECK(qll_node_find(one, "disagreements") == NULL);
    CHECK(qll_node_find(one, "flow_duration") == NULL);
    CHECK(qll_node_find(one, "log") == NULL);
    qll_arena_close(arena);
}

/* Without alternatives the station and the simpler one it beat. */
TEST(alternatives_are_not_looked_for)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered whole = ask(QLL_VERB_DESIGN, "alternatives", NULL, arena);
    const answered bare = ask(QLL_VERB_DESIGN, "maps", NULL, arena);
    const qll_node *all = qll_node_find(whole.document.root, "stations");
    const qll_node *few = qll_node_find(bare.document.root, "stations");
    size_t counts[2] = {0, 0};
    for (const qll_node *at = all->first_child; at != NULL; at = at->next) {
        counts[0] += 1;
    }
    for (const qll_node *at = few->first_child; at != NULL; at = at->next) {
        counts[1] += 1;
        CHECK(qll_node_find(at, "stages") != NULL);
        CHECK(qll_node_find(at, "verdicts") == NULL);
    }
    CHECK(counts[0] > counts[1] && counts[1] >= 1 && counts[1] <= 2);
    CHECK(qll_arena_refused(arena) == 0);
    qll_arena_close(arena);
}

static bool is_refused(qll_verb verb, const char *asked_parts, const char *figures,
                       const char *says)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered of = ask(verb, asked_parts, figures, arena);
    bool refused = of.status != QLL_OK && of.answer.problem_count == 1
                   && strstr(of.answer.problems[0].text, says) != NULL;
    if (!refused && of.answer.problem_count > 0) {
        printf("    %s\n", of.answer.problems[0].text);
    }
    qll_arena_close(arena);
    return refused;
}

TEST(what_is_no_part_is_refused_with_the_list)
{
    CHECK(is_refused(QLL_VERB_CHECK, "x", NULL,
                     "verdicts, points, ladder, maps, noise, causes, cures, chance"));
    CHECK(is_refused(QLL_VERB_DEMAND, "maps", NULL, "estimates, duration, hours, log, comparison"));
    CHECK(is_refused(QLL_VERB_DESIGN, "points,,maps", NULL, "is not a part of design"));
    CHECK(is_refused(QLL_VERB_DESIGN, "", NULL, "is not a part of design"));
    CHECK(is_refused(QLL_VERB_LIST, "points", NULL, "have parts"));
    CHECK(is_refused(QLL_VERB_CHECK, NULL, "fallof", "is not a figure"));
    CHECK(is_refused(QLL_VERB_CHECK, NULL, "map-0", "there is no figure with that number"));
    CHECK(is_refused(QLL_VERB_CHECK, NULL, "map-99", "there is no figure with that number"));
    CHECK(is_refused(QLL_VERB_REPORT, NULL, "falloff", "have figures in them"));
}

/* ---- figures ---- */

static double number_of(const qll_node *node, const char *key)
{
    const qll_node *found = qll_node_find(node, key);
    double value = NAN;
    return found != NULL && qll_text_number(found->text, &value) ? value : (double)NAN;
}

/* Every id of the drawing begins with its name, and the axes run over the drawing. */
static void check_figure(const qll_node *figure, qll_arena *arena)
{
    const char *name = qll_text_closed(qll_node_find(figure, "name")->text, arena);
    const char *svg = qll_text_closed(qll_node_find(figure, "svg")->text, arena);
    size_t elements = 0;
    CHECK(xml_fault(qll_text_of(svg), &elements) == NULL && elements > 8);
    CHECK(strncmp(svg, "<svg ", 5) == 0);
    for (const char *at = strstr(svg, " id=\""); at != NULL; at = strstr(at + 1, " id=\"")) {
        CHECK(strncmp(at + 5, name, strlen(name)) == 0 && at[5 + strlen(name)] == '-');
    }
    CHECK(strstr(svg, "<style>") != NULL && strstr(svg, "class=\"f-ink\"") != NULL);
    const qll_node *frame = qll_node_find(figure, "frame");
    if (strcmp(name, "schematic") == 0) {
        CHECK(qll_node_find(frame, "x") == NULL);
        return;
    }
    const qll_node *x = qll_node_find(frame, "x");
    const qll_node *y = qll_node_find(frame, "y");
    CHECK(number_of(x, "from_px") < number_of(x, "to_px"));
    CHECK(number_of(y, "from_px") > number_of(y, "to_px"));
    CHECK(number_of(x, "from") < number_of(x, "to") && number_of(y, "from") < number_of(y, "to"));
    CHECK(number_of(x, "per_si") > 0.0);
}

TEST(figures_of_one_run_stand_in_the_answer)
{
    static const qll_verb verbs[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK};
    static const size_t least[] = {2, 9, 8};
    for (size_t v = 0; v < 3; v++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        const answered of = ask(verbs[v], NULL, "all", arena);
        CHECK(of.status == QLL_OK);
        const qll_node *list = qll_node_find(of.document.root, "figures");
        size_t count = 0;
        for (const qll_node *at = list == NULL ? NULL : list->first_child; at != NULL;
             at = at->next) {
            check_figure(at, arena);
            count += 1;
        }
        CHECK(count >= least[v]);
        qll_arena_close(arena);
    }
}

/* The same stations; what else one of them is best at is known only where others have been looked for. */
static bool are_same_stations(const qll_node *with, const qll_node *without, qll_arena *arena)
{
    if (with->child_count != without->child_count) {
        return false;
    }
    const qll_node *one = with->first_child;
    for (const qll_node *other = without->first_child; other != NULL; other = other->next) {
        for (const qll_node *member = other->first_child; member != NULL; member = member->next) {
            const char *key = qll_text_closed(member->key, arena);
            const qll_node *same = qll_node_find(one, key);
            if (strcmp(key, "roles") != 0
                && (same == NULL
                    || !qll_text_equal(written(member, arena), written(same, arena)))) {
                return false;
            }
        }
        one = one->next;
    }
    return true;
}

/* What figures are drawn from is worked out for them; the rest of the answer is what it is without them. */
TEST(figures_bring_nothing_but_themselves)
{
    static const struct {
        qll_verb verb;
        const char *parts;
    } asked[] = {{QLL_VERB_DEMAND, "estimates"},
                 {QLL_VERB_DESIGN, "verdicts"},
                 {QLL_VERB_CHECK, "verdicts"}};

    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        const answered with = ask(asked[i].verb, asked[i].parts, "all", arena);
        const answered without = ask(asked[i].verb, asked[i].parts, NULL, arena);
        const qll_node *one = with.document.root->first_child;
        for (const qll_node *other = without.document.root->first_child; other != NULL;
             other = other->next) {
            for (; one != NULL && qll_text_is(one->key, "figures"); one = one->next) {
            }
            const bool is_told = CHECK(one != NULL && qll_text_equal(one->key, other->key));
            const bool is_list = qll_text_is(other->key, "stations");
            if (!is_told
                || !CHECK(is_list ? are_same_stations(one, other, arena)
                                  : qll_text_equal(written(one, arena), written(other, arena)))) {
                printf("    %s: %s\n", qll_verb_words[asked[i].verb],
                       qll_text_closed(other->key, arena));
            }
            one = one == NULL ? NULL : one->next;
        }
        CHECK(has(&with, "figures") && !has(&without, "figures"));
        qll_arena_close(arena);
    }
}

/* The drawing of an answer is that of the report but for its declaration. */
TEST(a_figure_is_that_of_the_report)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered of = ask(QLL_VERB_DESIGN, "maps", "falloff", arena);
    qll_question question = {.verb = QLL_VERB_REPORT, .form = QLL_FORM_SVG, .plot = "falloff"};
    question.document = test_input_in("../examples/repurposed-building", "survey.json", arena);
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    const qll_node *figure = qll_node_find(of.document.root, "figures")->first_child;
    const char *svg = qll_text_closed(qll_node_find(figure, "svg")->text, arena);
    const char *own = strstr(answer.bytes, "<svg ");
    CHECK(own != NULL && strcmp(own, svg) == 0);
    CHECK(!has(&of, "points"));
    qll_arena_close(arena);
}

/* What a finger reads off the frame is what is drawn: the first point of the station's curve lies on the polyline. */
TEST(the_frame_leads_to_the_pixels)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const answered of = ask(QLL_VERB_DESIGN, "maps", "falloff", arena);
    const qll_node *figure = qll_node_find(of.document.root, "figures")->first_child;
    const qll_node *frame = qll_node_find(figure, "frame");
    const qll_node *x = qll_node_find(frame, "x");
    const qll_node *y = qll_node_find(frame, "y");
    const qll_node *series = qll_node_find(frame, "series")->first_child;
    const qll_node *point = qll_node_find(series, "points")->first_child;
    double at[2] = {NAN, NAN};
    CHECK(qll_text_number(point->first_child->text, &at[0]));
    CHECK(qll_text_number(point->first_child->next->text, &at[1]));
    double share_x = (at[0] - number_of(x, "from")) / (number_of(x, "to") - number_of(x, "from"));
    double share_y = (at[1] - number_of(y, "from")) / (number_of(y, "to") - number_of(y, "from"));
    double px =
        number_of(x, "from_px") + share_x * (number_of(x, "to_px") - number_of(x, "from_px"));
    double py =
        number_of(y, "from_px") + share_y * (number_of(y, "to_px") - number_of(y, "from_px"));
    const char *svg = qll_text_closed(qll_node_find(figure, "svg")->text, arena);
    bool found = false;
    static const char opens[] = "<polyline points=\"";
    for (const char *line = strstr(svg, opens); line != NULL && !found;
         line = strstr(line + 1, opens)) {
        double drawn[2] = {NAN, NAN};
        const char *first = line + sizeof opens - 1;
        const size_t size = qll_text_number(qll_text_of(first), &drawn[0]);
        found = size > 0 && first[size] == ','
                && qll_text_number(qll_text_of(first + size + 1), &drawn[1]) > 0
                && fabs(drawn[0] - px) < 0.01 && fabs(drawn[1] - py) < 0.01;
    }
    CHECK(found);
    qll_arena_close(arena);
}

/* The whole number or fraction behind @p name in the element that begins at @p at. */
static double attribute(const char *at, const char *name)
{
    const char *found = strstr(at, name);
    double value = NAN;
    return found != NULL && qll_text_number(qll_text_of(found + strlen(name)), &value) > 0
               ? value
               : (double)NAN;
}

static bool axis_is_within(const qll_node *axis, double most)
{
    return number_of(axis, "from_px") >= 0 && number_of(axis, "from_px") <= most
           && number_of(axis, "to_px") >= 0 && number_of(axis, "to_px") <= most;
}

/* Every drawing of the sheets has its frame, in the pixels of the drawing as it stands there. */
TEST(the_drawings_of_the_sheets_can_be_read)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {.verb = QLL_VERB_REPORT, .form = QLL_FORM_JSON, .parts = "all"};
    question.document = test_input_in("../examples/repurposed-building", "survey.json", arena);
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    CHECK(qll_document_read((qll_text){answer.bytes, answer.size}, "answer", arena, &document,
                            &problems)
          == QLL_OK);
    const char *html = qll_text_closed(qll_node_find(document.root, "html")->text, arena);
    const qll_node *figures = qll_node_find(document.root, "figures");
    size_t drawings = 0;
    for (const char *at = strstr(html, "<svg "); at != NULL; at = strstr(at + 1, "<svg ")) {
        drawings += 1;
    }
    CHECK(drawings > 5 && figures->child_count == drawings);
    size_t plots = 0;
    for (const qll_node *figure = figures->first_child; figure != NULL; figure = figure->next) {
        qll_writer id = qll_writer_new(arena);
        qll_write(&id, " id=\"");
        qll_write_text(&id, qll_node_find(figure, "name")->text);
        qll_write(&id, "-svg\"");
        const char *svg = strstr(html, qll_writer_text(&id).bytes);
        CHECK(svg != NULL && qll_node_find(figure, "svg") == NULL);
        const qll_node *frame = qll_node_find(figure, "frame");
        if (svg != NULL && frame->child_count > 0) {
            plots += 1;
            CHECK(axis_is_within(qll_node_find(frame, "x"), attribute(svg, " width=\"")));
            CHECK(axis_is_within(qll_node_find(frame, "y"), attribute(svg, " height=\"")));
        }
    }
    CHECK(plots + 1 == drawings); /* all but the station */
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_part_asked_for_is_there_and_no_other);
    TEST_RUN(a_part_is_that_of_the_whole_answer);
    TEST_RUN(without_chance_the_nominal_case_is_judged);
    TEST_RUN(scenarios_of_a_demand_lose_what_is_not_asked_for);
    TEST_RUN(alternatives_are_not_looked_for);
    TEST_RUN(what_is_no_part_is_refused_with_the_list);
    TEST_RUN(figures_of_one_run_stand_in_the_answer);
    TEST_RUN(figures_bring_nothing_but_themselves);
    TEST_RUN(a_figure_is_that_of_the_report);
    TEST_RUN(the_frame_leads_to_the_pixels);
    TEST_RUN(the_drawings_of_the_sheets_can_be_read);
    return TEST_END();
}
