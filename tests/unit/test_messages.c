#include "check.h"
#include "wording/template.h"
#include "wording/wording.h"

#include <stdlib.h>

/* What may stand in braces; anything else is a slip of the pen. */
static const char *const known[] = {
    "subject",   "value",    "limit", "peak",     "shortage",  "value%",   "peak%",    "size",
    "outlet",    "scenario", "stage", "valve",    "stages",    "station",  "method",   "flow",
    "times",     "advice",   "share", "mean",     "leak",      "day",      "inlet",    "first",
    "second",    "pressure", "fails", "cautions", "precharge", "mesh",     "clean",    "dirty",
    "count",     "between",  "now",   "then",     "at_flow",   "at_inlet", "absolute", "xf",
    "onset",     "split",    "name",  "interval", "covered",   "unknown",  "list",     "draws",
    "page",      "pages",    "low",   "high",     "note",      "acting",   "what",     "unit",
    "tolerance", "hour",     "most",  "lockup",   "pass",      "fail",
};

static bool is_known(qll_text token)
{
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (qll_text_is(token, known[i])) {
            return true;
        }
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
        QLL_SAYS_METHOD_DIN_1988_300, QLL_SAYS_USE_HOTEL, QLL_SAYS_USE_HOSPITAL, QLL_SAYS_NOTE_OF,
        QLL_SAYS_MINUTE_QUARTER,      QLL_SAYS_WITH_UNIT,
    };
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
        CHECK_TEXT(qll_say_rule(QLL_LANGUAGE_EN, (qll_rule)rule), qll_rule_words[rule]);
    }
    for (int method = 0; method < QLL_PEAK_METHOD_COUNT; method++) {
        CHECK_TEXT(qll_say_method(QLL_LANGUAGE_EN, (qll_peak_method)method),
                   qll_peak_method_words[method]);
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

int main(void)
{
    TEST_RUN(every_message_is_there_in_every_language);
    TEST_RUN(translations_fill_in_the_same_figures);
    TEST_RUN(translations_differ_from_the_first_language);
    TEST_RUN(names_of_rules_and_methods_follow_their_lists);
    TEST_RUN(parts_with_unknown_tokens_are_left_out);
    return TEST_END();
}
