#include "quell/quell.h"

#include "check.h"
#include "documents/catalogue_fields.h"
#include "documents/read_catalogue.h"
#include "wording/language.h"
#include "wording/template.h"
#include "wording/wording.h"

#include <stdlib.h>

/* What may stand in braces; anything else is a slip of the pen. */
static const char known[] =
    " a absolute acting advice after alone at_flow at_inlet b before behind between breaks c "
    "cautions chance channel clean closed cock correlation cost count covered day digest dirty draws "
    "end expected fail fails fast figures first flow frequency from gauge heard heard_period "
    "height high highest hour idle inlet interval leak leaks least level like limit list "
    "last lockup logged logged_period loss low lowest mean mesh method methods months most name near needs "
    "note now number often old only onset other others outlet page pages paired pass past% "
    "peak peak% people perhaps pipe points precharge pressure rate ratio readings rise room rules run "
    "s scenario second seconds section seldom set share shortage size sizes slow source space spare split stage "
    "stages station step step1 step2 strength subject sure table tank tank1 tank2 tankr taps "
    "ten tenth then tight time times to tolerance tone total unit unknown use validity value "
    "value% valve valves velocity volume what why way without word xf ";

static bool is_known(qll_text token)
{
    for (const char *at = known + 1; *at != '\0';) {
        const size_t size = strcspn(at, " ");
        if (qll_text_equal(token, (qll_text){at, size})) {
            return true;
        }
        at += size + 1;
    }
    return false;
}

/* The tokens of a template in the order of the alphabet, each with its braces. */
typedef struct token_list {
    qll_text tokens[16];
    size_t count;
} token_list;

static int by_bytes(const void *a, const void *b)
{
    const qll_text *one = a;
    const qll_text *other = b;
    size_t least = one->size < other->size ? one->size : other->size;
    int order = memcmp(one->bytes, other->bytes, least);
    return order != 0 ? order : (one->size > other->size) - (one->size < other->size);
}

static token_list tokens_of(const char *says)
{
    token_list list = {.count = 0};
    for (const char *open = strchr(says, '{'); open != NULL && list.count < 16;
         open = strchr(open + 1, '{')) {
        const char *close = strchr(open, '}');
        if (!CHECK(close != NULL)) {
            break;
        }
        list.tokens[list.count] = (qll_text){open + 1, (size_t)(close - open) - 1};
        list.count += 1;
    }
    qsort(list.tokens, list.count, sizeof list.tokens[0], by_bytes);
    return list;
}

static bool is_well_formed(const char *says)
{
    int braces = 0;
    int brackets = 0;
    for (const char *at = says; *at != '\0'; at++) {
        braces += (*at == '{') - (*at == '}');
        brackets += (*at == '[') - (*at == ']');
        if (braces < 0 || braces > 1 || brackets < 0 || brackets > 1 || (unsigned char)*at < 0x20) {
            return false;
        }
    }
    return braces == 0 && brackets == 0;
}

TEST(every_message_is_there_in_every_language)
{
    for (int message = 0; message < QLL_MESSAGE_COUNT; message++) {
        for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
            const char *says = qll_message_entry((qll_language)language, (qll_message)message);
            if (!CHECK(says != NULL && says[0] != '\0')) {
                printf("    %s in %s\n", qll_message_name((qll_message)message),
                       qll_language_words[language]);
                continue;
            }
            qll_text text = qll_text_of(says);
            CHECK(qll_text_utf8_end(text) == text.size);
            CHECK(is_well_formed(says));
        }
    }
}

TEST(translations_fill_in_the_same_figures)
{
    for (int message = 0; message < QLL_MESSAGE_COUNT; message++) {
        token_list first = tokens_of(qll_say(QLL_LANGUAGE_EN, (qll_message)message));
        for (size_t t = 0; t < first.count; t++) {
            if (!CHECK(is_known(first.tokens[t]))) {
                printf("    %s\n", qll_message_name((qll_message)message));
            }
        }
        for (int language = 1; language < QLL_LANGUAGE_COUNT; language++) {
            token_list other = tokens_of(qll_say((qll_language)language, (qll_message)message));
            bool same = first.count == other.count;
            for (size_t t = 0; same && t < first.count; t++) {
                same = qll_text_equal(first.tokens[t], other.tokens[t]);
            }
            if (!CHECK(same)) {
                printf("    %s in %s\n", qll_message_name((qll_message)message),
                       qll_language_words[language]);
            }
        }
    }
}

/* What is the same in both languages on purpose: names, and words that both share. */
static bool may_be_alike(qll_message message)
{
    static const qll_message alike[] = {
        QLL_SAYS_METHOD_DIN_1988_300,
        QLL_SAYS_USE_HOTEL,
        QLL_SAYS_USE_HOSPITAL,
        QLL_SAYS_NOTE_OF,
        QLL_SAYS_AT_SECONDS,
        QLL_SAYS_WITH_UNIT,
        QLL_SAYS_WHAT_AND_KEY,
        QLL_SAYS_ELEMENT_AND,
        QLL_SAYS_HEADING_NUMBERED,
        QLL_SAYS_REMARK_FAULT,
        QLL_SAYS_HANG,
        QLL_SAYS_ASSUMED_LINE,
        QLL_SAYS_CALC_SOURCE_SURGE,
        QLL_SAYS_CALC_WORD_AUDIBLE,
        QLL_SAYS_CALC_WORD_LAMINAR,
        QLL_SAYS_CALC_TEXT_NO,
        QLL_SAYS_DISAGREEMENT,
    };
    /* Formulas, and the standards, papers and pages that they come from. */
    if (message >= QLL_SAYS_CALC_STEP_VELOCITY && message <= QLL_SAYS_CALC_FROM_CONVOLVED) {
        return true;
    }
    for (size_t i = 0; i < sizeof alike / sizeof alike[0]; i++) {
        if (message == alike[i]) {
            return true;
        }
    }
    return false;
}

TEST(translations_differ_from_the_first_language)
{
    for (int message = 0; message < QLL_MESSAGE_COUNT; message++) {
        const char *first = qll_say(QLL_LANGUAGE_EN, (qll_message)message);
        const char *other = qll_say(QLL_LANGUAGE_ES, (qll_message)message);
        if (!may_be_alike((qll_message)message) && !CHECK(strcmp(first, other) != 0)) {
            printf("    %s\n", qll_message_name((qll_message)message));
        }
    }
}

TEST(names_of_rules_and_methods_follow_their_lists)
{
    for (int rule = 0; rule < QLL_RULE_COUNT; rule++) {
        /* A key has a hyphen where a word has a blank. */
        char word[32];
        snprintf(word, sizeof word, "%s", qll_rule_words[rule]);
        for (char *hyphen = word; (hyphen = strchr(hyphen, '-')) != NULL;) {
            *hyphen = ' ';
        }
        /* "water hammer" says more than its key. */
        CHECK(strstr(qll_say_rule(QLL_LANGUAGE_EN, (qll_rule)rule), word) != NULL);
    }
    CHECK_TEXT(
        qll_say(QLL_LANGUAGE_EN, (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT + QLL_ACTING_PILOT)),
        qll_acting_words[QLL_ACTING_PILOT]);
}

static bool write_known(qll_writer *writer, qll_text token, const void *context)
{
    (void)context;
    if (!qll_text_is(token, "a")) {
        return false;
    }
    qll_write(writer, "A");
    return true;
}

static const char *fill(qll_arena *arena, const char *says)
{
    qll_writer writer = qll_writer_new(arena);
    qll_template_write(&writer, says, write_known, NULL, "?");
    return qll_writer_text(&writer).bytes;
}

TEST(parts_with_unknown_tokens_are_left_out)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    CHECK_TEXT(fill(arena, "x {a} y"), "x A y");
    CHECK_TEXT(fill(arena, "x[ {a}] y"), "x A y");
    CHECK_TEXT(fill(arena, "x[ {b}] y"), "x y");
    CHECK_TEXT(fill(arena, "x[ {a} {b}][ {a}]"), "x A");
    CHECK_TEXT(fill(arena, "{b}[{b}]."), "?.");
    CHECK_TEXT(fill(arena, "no tokens"), "no tokens");
    CHECK_TEXT(fill(arena, ""), "");
    qll_arena_close(arena);
}

static const char *remark_text(qll_arena *arena, qll_language language, const qll_remark *remark)
{
    const qll_wording wording = {.units = QLL_UNITS_SI, .language = language};
    qll_writer writer = qll_writer_new(arena);
    qll_wording_remark(&writer, &wording, remark);
    return qll_writer_text(&writer).bytes;
}

/* Every figure that a remark carries has its place in the sentence, and no other is asked for. */
TEST(every_remark_is_said_whole)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_remark because = {.id = QLL_REMARK_NO_FIXTURES};
    for (int id = 0; id < QLL_REMARK_COUNT; id++) {
        const qll_remark remark = {.id = (qll_remark_id)id,
                                   .name = "hose bibb",
                                   .table = {.id = QLL_TEXT_TABLE_EN},
                                   .figures = {0.5, 0.25, 0.125, 0.0625},
                                   .because = &because};
        for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
            const char *says = remark_text(arena, (qll_language)language, &remark);
            const char *unknown = qll_say((qll_language)language, QLL_SAYS_UNKNOWN);
            if (!CHECK(says[0] != '\0' && strstr(says, unknown) == NULL)) {
                printf("    %s\n", says);
            }
        }
    }
    const qll_remark open = {.id = QLL_REMARK_BAND, .figures = {600, 1e-4, 2e-2, (double)NAN}};
    CHECK_TEXT(remark_text(arena, QLL_LANGUAGE_EN, &open),
               "Rule of thumb, not a code: 600 fixtures at 0.1 L/s; the table's least "
               "for so many is 20.0 L/s.");
    const qll_remark coarse = {.id = QLL_REMARK_NO_CODE_LOG, .because = &because};
    CHECK_TEXT(remark_text(arena, QLL_LANGUAGE_ES, &coarse),
               "el caudal máximo de diseño es el del registro del medidor, no de un código, porque "
               "el escenario no indica aparatos");
    qll_arena_close(arena);
}

/* What a default is worked out as in the manual is what answers say of it; of a valve that says nothing of how it moves (A) the
 * mass stands for all four. */
TEST(what_catalogues_leave_out_is_said_as_in_the_manual)
{
    static const char catalogue[] =
        "{\"catalogue\": 1, \"valves\": [{\"id\": \"A\", \"nominal\": \"1 in\", \"acting\": \"direct\","
        "\"kv\": \"5 m3/h\", \"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\","
        "\"band\": \"14 psi\"}, {\"id\": \"B\", \"nominal\": \"2 in\", \"acting\": \"pilot\","
        "\"kv\": \"20 m3/h\", \"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\","
        "\"band\": \"4 psi\"}, {\"id\": \"C\", \"nominal\": \"1 in\", \"acting\": \"direct\","
        "\"kv\": \"5 m3/h\", \"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\","
        "\"band\": \"14 psi\", \"moving_mass\": \"0.2 kg\"}, {\"id\": \"D\", \"nominal\": \"1 in\","
        "\"acting\": \"direct\", \"kv\": \"5 m3/h\", \"set_range\": [\"25 psi\", \"75 psi\"],"
        "\"inlet_max\": \"300 psi\", \"band\": \"14 psi\", \"diaphragm\": \"60 mm\"}]}";
    static const char *const defaults[] = {
#define QLL_DEFAULT_KEY(name, key) key,
        QLL_VALVE_DEFAULT_LIST(QLL_DEFAULT_KEY)
#undef QLL_DEFAULT_KEY
    };
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document document;
    qll_catalogue read = {0};
    CHECK(qll_document_read(qll_text_of(catalogue), "a", arena, &document, &problems) == QLL_OK
          && qll_catalogue_read(&document, arena, &read, &assumed, &problems) == QLL_OK);
    const qll_wording english = {.units = QLL_UNITS_US};
    for (size_t i = 0; i < sizeof defaults / sizeof defaults[0]; i++) {
        const qll_assumption *one = assumed.first;
        while (one != NULL
               && (one->what.said == NULL
                   || !qll_text_is(one->what.said->arguments[1].text, defaults[i]))) {
            one = one->next;
        }
        if (CHECK(one != NULL)) {
            CHECK_TEXT(qll_argument_text(arena, &english, &one->value),
                       qll_said_entry(QLL_LANGUAGE_EN,
                                      qll_group_field(&qll_group_valve, defaults[i])->computed));
        }
    }
    qll_arena_close(arena);
}

static void want_spanish_warning(const char *document, qll_verb verb)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_question question = {
        .verb = verb, .document = {.name = "a", .bytes = document, .size = strlen(document)}};
    qll_answer english;
    qll_answer spanish;
    CHECK(qll_ask(&question, arena, &english) == QLL_OK && english.problem_count > 0);
    question.language = "es";
    CHECK(qll_ask(&question, arena, &spanish) == QLL_OK);
    CHECK(english.problem_count == spanish.problem_count);
    for (size_t i = 0; i < english.problem_count && i < spanish.problem_count; i++) {
        if (!CHECK(strcmp(english.problems[i].text, spanish.problems[i].text) != 0)) {
            printf("    %s\n", english.problems[i].text);
        }
    }
    question.form = QLL_FORM_JSON;
    qll_answer machine;
    CHECK(qll_ask(&question, arena, &machine) == QLL_OK);
    for (size_t i = 0; i < english.problem_count && i < spanish.problem_count; i++) {
        CHECK_TEXT(machine.problems[i].text, spanish.problems[i].text);
        CHECK(machine.problems[i].code == english.problems[i].code);
    }
    qll_arena_close(arena);
}

#define QLL_TEST_SURVEY(supply, set)                                                      \
    "{\"survey\": 1, \"supply\": {" supply "}, \"downstream\": {\"set_pressure\": \"" set \
    "\"}, \"scenarios\": [{\"use\": \"office\", \"people\": 9, \"peak\": \"5 gpm\"}]}"

TEST(warnings_come_in_the_language_of_the_answer)
{
    want_spanish_warning(QLL_TEST_SURVEY("\"static_high\": \"260 psi\"", "60 psi"),
                         QLL_VERB_DEMAND);
    want_spanish_warning(QLL_TEST_SURVEY("\"static_high\": \"14 psi\"", "10 psi"), QLL_VERB_DEMAND);
    want_spanish_warning(
        QLL_TEST_SURVEY("\"static_high\": \"90 psi\", \"static_low\": \"50 psi\"", "60 psi"),
        QLL_VERB_DEMAND);
    want_spanish_warning("id,nominal,inlet_bar,set_bar,flow_m3h,falloff_bar\n"
                         "F-25,DN 25,8,3.5,3.4,0.3\n,,8,3.5,7.1,0.6\n",
                         QLL_VERB_FIT);
    want_spanish_warning("id,nominal_in,acting,kv_m3h,set_min_psi,set_max_psi,inlet_max_psi,"
                         "band_psi\nT-20,3/4,direct,2000,25,75,300,14\n",
                         QLL_VERB_IMPORT);
}

/* The part of a text answer from one heading to the next, its wrapped lines put together again. */
static const char *section(qll_arena *arena, const char *units, const char *survey,
                           const char *from, const char *to)
{
    const qll_question question = {
        .verb = QLL_VERB_DEMAND,
        .units = units,
        .document = {.name = "a", .bytes = survey, .size = strlen(survey)}};
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    const char *start = strstr(answer.bytes, from);
    const char *end = start == NULL ? NULL : strstr(start, to);
    if (!CHECK(start != NULL && end != NULL)) {
        return "";
    }
    qll_writer whole = qll_writer_new(arena);
    for (const char *at = start; at < end; at++) {
        bool is_wrapped = *at == '\n' && strncmp(at + 1, "    ", 4) == 0;
        qll_write_byte(&whole, is_wrapped ? ' ' : *at, 1);
        at += is_wrapped ? 4 : 0;
    }
    return qll_writer_text(&whole).bytes;
}

/* --units goes before the survey's own, in what was assumed as anywhere else. */
TEST(what_was_assumed_is_in_the_units_of_the_answer)
{
    static const char us_survey[] = QLL_TEST_SURVEY("\"static_high\": \"90 psi\"", "60 psi");
    static const char si_survey[] =
        QLL_TEST_SURVEY("\"static_high\": \"6 bar\"}, \"units\": \"si\", \"water\": {", "4 bar");
    static const char *const us_units[] = {" psi", " ft", " gpm", " degF"};
    static const char *const si_units[] = {" bar", " mm", " m", " m/s", " degC"};
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const char *si = section(arena, "si", us_survey, "ASSUMED", "SOURCES");
    CHECK(strstr(si, "(supply.static_low): 6.2 bar") != NULL);
    CHECK(strstr(si, "300 m of height take 0.036 bar") != NULL);
    CHECK(strstr(si, "0.9 m/s to 1.8 m/s") != NULL);
    for (size_t i = 0; i < sizeof us_units / sizeof us_units[0]; i++) {
        CHECK(strstr(si, us_units[i]) == NULL);
    }
    const char *us = section(arena, "us", si_survey, "ASSUMED", "SOURCES");
    CHECK(strstr(us, "(supply.static_low): 87 psi") != NULL);
    CHECK(strstr(us, "3 ft/s to 6 ft/s") != NULL);
    for (size_t i = 0; i < sizeof si_units / sizeof si_units[0]; i++) {
        const char *found = strstr(us, si_units[i]);
        CHECK(found == NULL || found[strlen(si_units[i])] >= 'a');
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_remark_is_said_whole);
    TEST_RUN(what_catalogues_leave_out_is_said_as_in_the_manual);
    TEST_RUN(what_was_assumed_is_in_the_units_of_the_answer);
    TEST_RUN(warnings_come_in_the_language_of_the_answer);
    TEST_RUN(every_message_is_there_in_every_language);
    TEST_RUN(translations_fill_in_the_same_figures);
    TEST_RUN(translations_differ_from_the_first_language);
    TEST_RUN(names_of_rules_and_methods_follow_their_lists);
    TEST_RUN(parts_with_unknown_tokens_are_left_out);
    return TEST_END();
}
