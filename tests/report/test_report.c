/* The figures on the sheets are the figures of --json, in print; whatever the sheets are written on.
 *
 * test_report                     the HTML of tests/cli/flats.json, in both languages and units
 * test_report figures TEXT JSON   the text of a PDF (pdftotext -layout), against what --json told of it
 * test_report survey              prints a survey with 40 outlets and odd names
 */
#include "ask_files.h"
#include "base/document.h"
#include "check.h"
#include "html_check.h"
#include "report/pictures.h"
#include "wording/texts.h"

#include <stdlib.h>

static const size_t plenty = (size_t)1 << 30;

/* The sheets of one answer; @p of NULL = of a design. */
static qll_answer ask_of(const char *of, qll_form form, const char *language, const char *sections,
                         qll_arena *arena)
{
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.form = form;
    question.language = language;
    question.sections = sections;
    question.of = of;
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    return answer;
}

static qll_answer ask(qll_form form, const char *language, const char *sections, qll_arena *arena)
{
    return ask_of(NULL, form, language, sections, arena);
}

/* ---- figures ---- */

static const qll_node *read_json(qll_text text, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_document_read(text, "answer", arena, document, &problems) == QLL_OK);
    return document->root;
}

static double number_at(const qll_node *node, const char *key)
{
    const qll_node *found = qll_node_find(node, key);
    double value = NAN;
    if (found != NULL) {
        (void)qll_text_number(found->text, &value);
    }
    return value;
}

static const char *text_at(const qll_node *node, const char *key, qll_arena *arena)
{
    const qll_node *found = qll_node_find(node, key);
    return found == NULL ? "" : qll_text_closed(found->text, arena);
}

/* Blanks and line ends count alike, so that a sentence may wrap. */
static char *squeezed(const char *text)
{
    char *made = malloc(strlen(text) + 1);
    if (made == NULL) {
        abort();
    }
    char *to = made;
    bool blank = true;
    for (; *text != '\0'; text++) {
        bool is_blank = *text == ' ' || *text == '\n' || *text == '\r' || *text == '\f';
        if (!is_blank || !blank) {
            *to++ = is_blank ? ' ' : *text;
        }
        blank = is_blank;
    }
    *to = '\0';
    return made;
}

static void want(const char *sheets, const char *what, const char *shown)
{
    if (!CHECK(shown != NULL && strstr(sheets, shown) != NULL)) {
        printf("    %s: \"%s\" is not on the sheets\n", what, shown == NULL ? "(null)" : shown);
    }
}

/* The sheets that are looked at: their text, and how they say things. */
typedef struct sheets {
    const char *text;
    qll_unit_system units;
    bool whole_sentences; /* a sentence in a table's cell is in one piece */
    qll_arena *arena;
} sheets;

static void want_quantity(const sheets *of, const char *what, double si, qll_kind kind)
{
    qll_writer writer = qll_writer_new(of->arena);
    if (CHECK(isfinite(si))) {
        qll_units_write(&writer, si, kind, of->units);
        want(of->text, what, qll_writer_text(&writer).bytes);
    }
}

/* What stands in sentences; tables are read by test_tables.c. */
static void want_station(const sheets *of, const qll_node *station)
{
    size_t branches = 0;
    for (const qll_node *stage = qll_node_find(station, "stages")->first_child; stage != NULL;
         stage = stage->next) {
        for (const qll_node *branch = qll_node_find(stage, "branches")->first_child; branch != NULL;
             branch = branch->next) {
            const qll_node *strainer = qll_node_find(branch, "strainer");
            want(of->text, "dirty strainer",
                 qll_text_reading(of->arena, number_at(strainer, "clean_me_pa"), of->units));
            branches += 1;
        }
    }
    CHECK(branches > 0);
}

static void want_commissioning(const sheets *of, const qll_node *root)
{
    const qll_node *tests = qll_node_find(root, "commissioning");
    const qll_kind difference = QLL_KIND_PRESSURE_DIFFERENCE;
    want_quantity(of, "tight", number_at(tests, "creep_tight_pa"), difference);
    want_quantity(of, "leaks", number_at(tests, "creep_leaks_pa"), difference);
}

/* The figures of report/1 @p json are those in print. */
static void want_figures(sheets *of, qll_text json)
{
    const qll_node *root = read_json(json, of->arena);
    of->units = strcmp(text_at(root, "paper", of->arena), "A4") == 0 ? QLL_UNITS_SI : QLL_UNITS_US;
    CHECK(number_at(root, "recommended") == 0.0);
    want_station(of, qll_node_find(root, "stations")->first_child);
    want_commissioning(of, root);
    for (const qll_node *caution = qll_node_find(root, "cautions")->first_child;
         of->whole_sentences && caution != NULL; caution = caution->next) {
        want(of->text, "caution", qll_text_closed(caution->text, of->arena));
    }
}

TEST(figures_are_those_of_the_json)
{
    for (int system = QLL_UNITS_US; system <= QLL_UNITS_SI; system++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question =
            survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
        question.units = system == QLL_UNITS_US ? "us" : "si";
        question.form = QLL_FORM_HTML;
        qll_answer page;
        CHECK(qll_ask(&question, arena, &page) == QLL_OK);
        question.form = QLL_FORM_JSON;
        qll_answer told;
        CHECK(qll_ask(&question, arena, &told) == QLL_OK);
        char *html = qll_arena_copy(arena, page.bytes, page.size);
        html_strip(html);
        char *text = squeezed(html);
        sheets of = {.text = text, .whole_sentences = true, .arena = arena};
        want_figures(&of, (qll_text){told.bytes, told.size});
        free(text);
        qll_arena_close(arena);
    }
}

/* ---- the page ---- */

TEST(pages_are_fit_for_all_readers)
{
    for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
        qll_arena *arena = qll_arena_open(plenty);
        const char *word = qll_language_words[language];
        qll_answer answer = ask(QLL_FORM_HTML, word, NULL, arena);
        html_page page;
        html_check(answer.bytes, &page);
        CHECK(page.heading_count[2] >= 9);
        CHECK(page.table_count > 10);
        CHECK(page.figure_count >= 6);
        char lang[32];
        snprintf(lang, sizeof lang, "<html lang=\"%s\">", word);
        CHECK(strstr(answer.bytes, lang) != NULL);
        qll_answer again = ask(QLL_FORM_HTML, word, NULL, arena);
        CHECK(again.size == answer.size && memcmp(again.bytes, answer.bytes, answer.size) == 0);
        qll_arena_close(arena);
    }
}

static bool has_section(const qll_answer *answer, const char *word)
{
    char open[64];
    snprintf(open, sizeof open, "<section id=\"%s\"", word);
    return strstr(answer->bytes, open) != NULL;
}

TEST(sections_are_chosen_and_cautions_always_there)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer answer = ask(QLL_FORM_HTML, NULL, "station, cover", arena);
    for (int kind = 0; kind < QLL_SECTION_COUNT; kind++) {
        bool wanted = kind == QLL_SECTION_COVER || kind == QLL_SECTION_STATION
                      || kind == QLL_SECTION_CAUTIONS;
        CHECK(has_section(&answer, qll_section_words[kind]) == wanted);
    }
    CHECK(strstr(answer.bytes, qll_caution(QLL_LANGUAGE_EN, 0)) != NULL);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.form = QLL_FORM_HTML;
    question.sections = "cover,stations";
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE);
    CHECK(answer.problem_count == 1);
    CHECK_TEXT(answer.problems[0].hint, "did you mean \"station\"?");
    question.sections = "";
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE);
    question.sections = NULL;
    question.form = QLL_FORM_TEXT;
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE);
    qll_arena_close(arena);
}

TEST(sheets_of_other_answers_are_fit_too)
{
    static const struct {
        const char *of;
        unsigned sections;
        int figures;
    } wanted[] = {
        {"check",
         QLL_SECTIONS_ALL
             & ~(QLL_SECTION_BIT(QLL_SECTION_COMMISSIONING) | QLL_SECTION_BIT(QLL_SECTION_SERVICE)
                 | QLL_SECTION_BIT(QLL_SECTION_ALTERNATIVES)),
         8},
        {"demand",
         QLL_SECTION_BIT(QLL_SECTION_SURVEY) | QLL_SECTION_BIT(QLL_SECTION_DEMAND)
             | QLL_SECTION_BIT(QLL_SECTION_CAUTIONS) | QLL_SECTION_BIT(QLL_SECTION_SOURCES),
         2},
    };

    for (size_t i = 0; i < 2 * sizeof wanted / sizeof wanted[0]; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_answer answer =
            ask_of(wanted[i / 2].of, QLL_FORM_HTML, qll_language_words[i % 2], NULL, arena);
        html_page page;
        html_check(answer.bytes, &page);
        CHECK(page.figure_count >= wanted[i / 2].figures);
        for (int kind = 0; kind < QLL_SECTION_COUNT; kind++) {
            bool is_wanted = (wanted[i / 2].sections & QLL_SECTION_BIT(kind)) != 0;
            CHECK(has_section(&answer, qll_section_words[kind]) == is_wanted);
        }
        qll_arena_close(arena);
    }
}

TEST(what_has_no_sheets_is_refused)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.of = "chek";
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE && answer.problem_count == 1);
    CHECK_TEXT(answer.problems[0].hint, "did you mean \"check\"?");
    question = survey_question(QLL_VERB_REPORT, "no_station.json", "valves.json", arena);
    question.of = "check";
    CHECK(qll_ask(&question, arena, &answer) == QLL_REFUSED);
    /* A demand has no station that could be drawn. */
    question.of = "demand";
    question.form = QLL_FORM_SVG;
    question.plot = "schematic";
    CHECK(qll_ask(&question, arena, &answer) == QLL_REFUSED);
    question.plot = "day-1";
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    qll_arena_close(arena);
}

/* ---- figures alone ---- */

/* Every figure is a drawing with a name and a description that holds figures of the answer. */
TEST(figures_come_alone_as_svg)
{
    for (int kind = 0; kind < QLL_PICTURE_COUNT; kind++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question =
            survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
        question.form = QLL_FORM_SVG;
        question.plot = qll_picture_words[kind];
        qll_answer answer;
        if (CHECK(qll_ask(&question, arena, &answer) == QLL_OK)) {
            html_page page = {0};
            const char *at = strstr(answer.bytes, "<svg");
            html_read(&page, CHECK(at != NULL) ? at : "");
            CHECK(page.depth == 0 && page.figure_count == 1 && page.id_count >= 2);
            const char *description = strstr(answer.bytes, "-desc\">");
            CHECK(description != NULL && strcspn(description, "<") > 60);
            html_forget(&page);
        }
        qll_arena_close(arena);
    }
}

TEST(figures_that_are_not_there_are_refused)
{
    static const char *const wrong[] = {"fall", "day-", "day-1x",          "-1",
                                        "",     "1",    "day-123456789012"};
    static const char *const absent[] = {"day-0", "day-9", "falloff-2"};
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.form = QLL_FORM_SVG;
    qll_answer answer;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        question.plot = wrong[i];
        CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE && answer.problem_count == 1);
    }
    for (size_t i = 0; i < sizeof absent / sizeof absent[0]; i++) {
        question.plot = absent[i];
        CHECK(qll_ask(&question, arena, &answer) == QLL_REFUSED && answer.problem_count == 1);
    }
    qll_arena_close(arena);
}

/* ---- the other language ---- */

/* The longest piece of a message without tokens; too short a one may stand in a name by chance. */
static qll_text longest_piece(const char *says)
{
    qll_text longest = {says, 0};
    while (*says != '\0') {
        size_t size = strcspn(says, "{}[]");
        if (size > longest.size) {
            longest = (qll_text){says, size};
        }
        bool opens = says[size] == '{';
        says += size;
        says += opens ? strcspn(says, "}") : 0;
        says += *says == '\0' ? 0 : 1;
    }
    return longest;
}

/* How many messages are in the sheets of an answer. */
static size_t want_no_english(const char *of)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer answer = ask_of(of, QLL_FORM_HTML, "es", NULL, arena);
    char *html = qll_arena_copy(arena, answer.bytes, answer.size);
    html_strip(html);
    size_t seen = 0;
    for (int message = 0; message < QLL_MESSAGE_COUNT; message++) {
        qll_text piece = longest_piece(qll_say(QLL_LANGUAGE_EN, (qll_message)message));
        if (piece.size < 12) {
            continue;
        }
        const char *closed = qll_text_closed(piece, arena);
        const char *spanish = qll_say(QLL_LANGUAGE_ES, (qll_message)message);
        if (strstr(spanish, closed) == NULL && !CHECK(strstr(html, closed) == NULL)) {
            printf("    %s: \"%s\"\n", qll_message_name((qll_message)message), closed);
        }
        qll_text other = longest_piece(spanish);
        seen += other.size >= 12 && strstr(html, qll_text_closed(other, arena)) != NULL ? 1 : 0;
    }
    qll_arena_close(arena);
    return seen;
}

TEST(spanish_sheets_have_no_english_sentence)
{
    CHECK(want_no_english("design") > 80);
    CHECK(want_no_english("check") > 60);
    CHECK(want_no_english("demand") > 20);
}

/* Why a default was taken has its words too. */
static void want_no(const char *html, const char *text)
{
    if (!CHECK(text[0] != '\0' && strstr(html, text) == NULL)) {
        printf("    \"%s\"\n", text);
    }
}

TEST(what_modules_below_write_is_known_in_spanish)
{
    qll_arena *arena = qll_arena_open(plenty);
    const qll_answer told = ask(QLL_FORM_JSON, NULL, NULL, arena);
    const qll_answer page = ask(QLL_FORM_HTML, "es", NULL, arena);
    char *html = qll_arena_copy(arena, page.bytes, page.size);
    html_strip(html);
    const qll_node *answer = read_json((qll_text){told.bytes, told.size}, arena);
    for (const qll_node *one = qll_node_find(answer, "assumed")->first_child; one != NULL;
         one = one->next) {
        want_no(html, text_at(one, "why", arena));
    }
    for (const qll_node *source = qll_node_find(answer, "sources")->first_child; source != NULL;
         source = source->next) {
        want_no(html, qll_text_closed(source->text, arena));
    }
    qll_arena_close(arena);
}

/* ---- for the tests of the PDF ---- */

static int check_files(const char *printed, const char *told)
{
    qll_arena *arena = qll_arena_open(plenty);
    const qll_text page = test_file(printed, arena);
    const qll_text answer = test_file(told, arena);
    if (CHECK(page.bytes != NULL) && CHECK(answer.bytes != NULL)) {
        char *text = squeezed(page.bytes);
        sheets of = {.text = text, .whole_sentences = false, .arena = arena};
        want_figures(&of, answer);
        free(text);
    }
    qll_arena_close(arena);
    return TEST_END();
}

static void print_survey(void)
{
    printf(
        "{\"survey\": 1, \"name\": \"<script>alert(1)</script> \\u05e9\\u05dc\\u05d5\\u05dd \\u4f60 ");
    for (int i = 0; i < 14; i++) { /* the longest name is 200 bytes */
        printf("NameNameNm");
    }
    printf("\", \"supply\": {\"static_high\": \"110 psi\", \"flow_test\": [{\"flow\": \"0 gpm\", "
           "\"pressure\": \"105 psi\"}, {\"flow\": \"60 gpm\", \"pressure\": \"98 psi\"}]}, "
           "\"downstream\": {\"set_pressure\": \"60 psi\", \"outlets\": [");
    for (int i = 1; i <= 40; i++) {
        printf(
            "%s{\"name\": \"outlet number %d of a long corridor with & and <b>\", \"elevation\": "
            "\"%d ft\", \"needs\": \"15 psi\"}",
            i == 1 ? "" : ", ", i, i);
    }
    printf("]}, \"scenarios\": [{\"name\": \"flats\", \"use\": \"apartment\", \"people\": 20, "
           "\"homes\": 8, \"fixtures\": [{\"fixture\": \"shower\", \"count\": 8}, {\"fixture\": "
           "\"lavatory faucet\", \"count\": 8}]}]}\n");
}

int main(int count, char **arguments)
{
    if (count == 4 && strcmp(arguments[1], "figures") == 0) {
        return check_files(arguments[2], arguments[3]);
    }
    if (count == 2 && strcmp(arguments[1], "survey") == 0) {
        print_survey();
        return 0;
    }
    TEST_RUN(figures_are_those_of_the_json);
    TEST_RUN(pages_are_fit_for_all_readers);
    TEST_RUN(sections_are_chosen_and_cautions_always_there);
    TEST_RUN(sheets_of_other_answers_are_fit_too);
    TEST_RUN(what_has_no_sheets_is_refused);
    TEST_RUN(figures_come_alone_as_svg);
    TEST_RUN(figures_that_are_not_there_are_refused);
    TEST_RUN(spanish_sheets_have_no_english_sentence);
    TEST_RUN(what_modules_below_write_is_known_in_spanish);
    return TEST_END();
}
