#include "base/document.h"
#include "check.h"
#include "said.h"

#include <math.h>
#include <stdlib.h>

/* What is well-formed and what is not comes from RFC 8259 (grammar: sections 2 to 7; surrogates:
 * section 8.2; UTF-8: section 8.1 and RFC 3629). */

typedef struct reading {
    qll_arena *arena;
    qll_problems problems;
    qll_document document;
    qll_status status;
} reading;

static reading read_text(qll_text source)
{
    reading got = {.arena = qll_arena_open((size_t)1 << 30)};
    got.problems = qll_problems_none(got.arena);
    got.status = qll_document_read(source, "survey.json", got.arena, &got.document, &got.problems);
    return got;
}

static reading read_closed(const char *closed)
{
    return read_text(qll_text_of(closed));
}

static void end(reading *got)
{
    qll_arena_close(got->arena);
}

/* One refusal: the text, a caret under the character at fault, and what is said. */
typedef struct refusal {
    const char *source;
    const char *caret;
    qll_code code;
    const char *text;
    const char *hint;
} refusal;

#define TEST_VALUE "a value: text in quotes, a number, true, false, null, [ or {"

static const refusal refusals[] = {
    {"", "^", QLL_CODE_SYNTAX, "the text is empty; expected a value", ""},
    {"   ", "^", QLL_CODE_SYNTAX, "the text is empty; expected a value", ""},
    {"{\"a\":1,}", "      ^", QLL_CODE_SYNTAX,
     "found a comma before \"}\"; expected another key or no comma", "remove the comma"},
    {"[1,2 , ]", "     ^", QLL_CODE_SYNTAX,
     "found a comma before \"]\"; expected another value or no comma", "remove the comma"},
    {"[1,,2]", "   ^", QLL_CODE_SYNTAX, "found \",\"; expected " TEST_VALUE, "remove the comma"},
    {"[,1]", " ^", QLL_CODE_SYNTAX, "found \",\"; expected " TEST_VALUE, "remove the comma"},
    {"{,}", " ^", QLL_CODE_SYNTAX, "found \",\"; expected a key in double quotes or \"}\"",
     "remove the comma"},
    {"[1 2]", "   ^", QLL_CODE_SYNTAX, "found \"2\"; expected a comma or \"]\"",
     "put a comma before it"},
    {"{\"a\":1 \"b\":2}", "       ^", QLL_CODE_SYNTAX,
     "found text in quotes; expected a comma or \"}\"", "put a comma before it"},
    {"{\"a\" 1}", "     ^", QLL_CODE_SYNTAX,
     "found \"1\"; expected a colon between the key \"a\" and its value", ""},
    {"{\"a\"=1}", "    ^", QLL_CODE_SYNTAX,
     "found \"=\"; expected a colon between the key \"a\" and its value",
     "write a colon in its place"},
    {"{\"a\"}", "    ^", QLL_CODE_SYNTAX,
     "found \"}\"; expected a colon between the key \"a\" and its value", ""},
    {"{\"a\":}", "     ^", QLL_CODE_SYNTAX, "found \"}\"; expected a value", ""},
    {"{\"a\":,\"b\":1}", "     ^", QLL_CODE_SYNTAX, "found \",\"; expected " TEST_VALUE,
     "remove the comma"},
    {"{a:1}", " ^", QLL_CODE_SYNTAX, "found \"a\"; expected a key in double quotes or \"}\"",
     "write the key in double quotes"},
    {"{\"a\":1, 2:3}", "        ^", QLL_CODE_SYNTAX, "found \"2\"; expected a key in double quotes",
     "write the key in double quotes"},
    {"{'a':1}", " ^", QLL_CODE_SYNTAX, "found \"'\"; expected a key in double quotes or \"}\"",
     "write text in straight double quotes"},
    {"{\"a\":'x'}", "     ^", QLL_CODE_SYNTAX, "found \"'\"; expected " TEST_VALUE,
     "write text in straight double quotes"},
    {"[\"\xC3\xA9\", \xE2\x80\x9Cx\xE2\x80\x9D]", "      ^", QLL_CODE_SYNTAX,
     "found \"\xE2\x80\x9C\"; expected " TEST_VALUE, "write text in straight double quotes"},
    {"[tru]", " ^", QLL_CODE_SYNTAX, "found \"tru\"; expected " TEST_VALUE,
     "write text in double quotes"},
    {"[True]", " ^", QLL_CODE_SYNTAX, "found \"True\"; expected " TEST_VALUE, "write true"},
    {"[nullx]", " ^", QLL_CODE_SYNTAX, "found \"nullx\"; expected " TEST_VALUE,
     "write text in double quotes"},
    {"[NaN]", " ^", QLL_CODE_SYNTAX, "found \"NaN\"; expected " TEST_VALUE,
     "write null, or leave the key out"},
    {"[+1]", " ^", QLL_CODE_SYNTAX, "found \"+1\"; expected " TEST_VALUE, "remove the plus sign"},
    {"[.5]", " ^", QLL_CODE_SYNTAX, "found \".5\"; expected " TEST_VALUE,
     "write a zero before the point"},
    {"[01]", " ^", QLL_CODE_SYNTAX, "\"01\" is not a number: it may not begin with a zero",
     "remove the zero"},
    {"[-]", "  ^", QLL_CODE_SYNTAX, "\"-\" is not a number: expected a digit after the minus sign",
     ""},
    {"[1.]", "   ^", QLL_CODE_SYNTAX, "\"1.\" is not a number: expected a digit after the point",
     ""},
    {"[1.e3]", "   ^", QLL_CODE_SYNTAX,
     "\"1.e3\" is not a number: expected a digit after the point", ""},
    {"[1e+]", "    ^", QLL_CODE_SYNTAX, "\"1e+\" is not a number: expected a digit in the exponent",
     ""},
    {"[0x1F]", "  ^", QLL_CODE_SYNTAX,
     "\"0x1F\" is not a number: expected a comma or a closing bracket after it",
     "write a number with its unit in double quotes: \"12 psi\""},
    {"[12psi]", "   ^", QLL_CODE_SYNTAX,
     "\"12psi\" is not a number: expected a comma or a closing bracket after it",
     "write a number with its unit in double quotes: \"12 psi\""},
    {"[1, // two\n2]", "    ^", QLL_CODE_SYNTAX, "found \"/\"; expected " TEST_VALUE,
     "remove the remark"},
    {"[1 # two]", "   ^", QLL_CODE_SYNTAX, "found \"#\"; expected a comma or \"]\"",
     "remove the remark"},
    {"[\"a\":1]", "    ^", QLL_CODE_SYNTAX, "found \":\"; expected a comma or \"]\"",
     "keys go in { }, not in [ ]"},
    {"[\"2\"\"]", "    ^", QLL_CODE_SYNTAX, "found text in quotes; expected a comma or \"]\"",
     "write a quote inside a text as \\\""},
    {"[\"2\" in\"]", "     ^", QLL_CODE_SYNTAX, "found \"in\"; expected a comma or \"]\"",
     "write a quote inside a text as \\\""},
    {"[\"2\" true]", "     ^", QLL_CODE_SYNTAX, "found \"true\"; expected a comma or \"]\"",
     "put a comma before it"},
    {"[1}", "  ^", QLL_CODE_SYNTAX,
     "found \"}\", but the \"[\" of line 1, column 1 is still open; expected \"]\"", ""},
    {"{\"a\":1]", "      ^", QLL_CODE_SYNTAX,
     "found \"]\", but the \"{\" of line 1, column 1 is still open; expected \"}\"", ""},
    {"[1", "  ^", QLL_CODE_SYNTAX,
     "the text ends here, but the \"[\" of line 1, column 1 is not closed; expected \"]\"", ""},
    {"{\"a\":1 ", "      ^", QLL_CODE_SYNTAX,
     "the text ends here, but the \"{\" of line 1, column 1 is not closed; expected \"}\"", ""},
    {"[", " ^", QLL_CODE_SYNTAX,
     "the text ends here, but the \"[\" of line 1, column 1 is not closed; expected a value or "
     "\"]\"",
     ""},
    {"{\"a\":", "     ^", QLL_CODE_SYNTAX,
     "the text ends here, but the \"{\" of line 1, column 1 is not closed; expected a value", ""},
    {"{} {}", "   ^", QLL_CODE_SYNTAX, "found \"{\"; expected nothing after the value",
     "remove what follows the value"},
    {"1]", " ^", QLL_CODE_SYNTAX, "found \"]\"; expected nothing after the value",
     "remove what follows the value"},
    {"[\"a]", " ^", QLL_CODE_SYNTAX,
     "the text that begins here does not end; expected a closing quote", ""},
    {"[\"a\\", " ^", QLL_CODE_SYNTAX, NULL, NULL},
    {"[\"a\n\"]", " ^", QLL_CODE_SYNTAX,
     "the text that begins here does not end on its line; expected a closing quote",
     "write a line break inside a text as \\n"},
    {"[\"a\tb\"]", "   ^", QLL_CODE_ENCODING,
     "a text may not hold the control character U+0009 as it is", "write a tab as \\t"},
    {"[\"a\x1B[2J\"]", "   ^", QLL_CODE_ENCODING,
     "a text may not hold the control character U+001B as it is", "remove it"},
    {"[\"C:\\pipes\"]", "    ^", QLL_CODE_SYNTAX,
     "the backslash begins no known escape; expected one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t "
     "\\uHHHH",
     "write a backslash itself as \\\\"},
    {"[\"\\u12G4\"]", "      ^", QLL_CODE_SYNTAX, "expected four hexadecimal digits after \"\\u\"",
     ""},
    {"[\"a\\u0000\"]", "   ^", QLL_CODE_ENCODING, "the character \\u0000 is not allowed in a text",
     "remove it"},
    {"[\"\\ud83d\"]", "  ^", QLL_CODE_ENCODING, NULL, ""},
    {"[\"\\ud83dx\\udca7\"]", "  ^", QLL_CODE_ENCODING, NULL, ""},
    {"[\"\\udca7\\ud83d\"]", "  ^", QLL_CODE_ENCODING, NULL, ""},
    {"[\"\\ud83d\\ud83d\"]", "  ^", QLL_CODE_ENCODING, NULL, ""},
    {"[\"\\ud83d\\n\"]", "  ^", QLL_CODE_ENCODING, NULL, ""},
    {"[\"a\xFF\"]", "   ^", QLL_CODE_ENCODING,
     "the byte 0xFF is not part of a UTF-8 character; expected UTF-8 text",
     "save the file with the encoding UTF-8"},
    {"[\"\xC3\xA9\xC3\"]", "   ^", QLL_CODE_ENCODING,
     "the byte 0xC3 is not part of a UTF-8 character; expected UTF-8 text",
     "save the file with the encoding UTF-8"},
    {"[\"\xED\xA0\x80\"]", "  ^", QLL_CODE_ENCODING, NULL, NULL}, /* a surrogate in UTF-8 */
    {"[\"\xC0\x80\"]", "  ^", QLL_CODE_ENCODING, NULL, NULL},     /* an overlong form */
    {"{\"a\":1,\"b\":2,\"a\":3}", "             ^", QLL_CODE_DUPLICATE_KEY,
     "the key \"a\" is already at line 1, column 2; expected it once", "remove one of them"},
    {"{\"\\u0061\":1,\"a\":3}", "            ^", QLL_CODE_DUPLICATE_KEY,
     "the key \"a\" is already at line 1, column 2; expected it once", "remove one of them"},
    {"[1e400]", " ^", QLL_CODE_OUT_OF_RANGE,
     "\"1e400\" is too large; expected a number below 1.8e308 in size", ""},
    {"[-1e999999999999]", " ^", QLL_CODE_OUT_OF_RANGE, NULL, ""},
};

TEST(every_refusal_points_at_the_spot)
{
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const refusal *want = &refusals[i];
        reading got = read_closed(want->source);
        const qll_problem said = said_problem(&got.problems, 0);
        const qll_problem *problem = &said;
        bool ok = CHECK(got.status == QLL_REFUSED) && CHECK(got.problems.count == 1);
        ok = ok && CHECK(problem->code == want->code) && CHECK(problem->level == QLL_REFUSAL)
             && CHECK(problem->place.line == 1)
             && CHECK(problem->place.column == (int)strlen(want->caret))
             && CHECK_TEXT(problem->place.source, "survey.json")
             && (want->text == NULL || CHECK_TEXT(problem->text, want->text))
             && (want->hint == NULL || CHECK_TEXT(problem->hint, want->hint));
        if (!ok) {
            printf("    %s\n    %s\n    got line %d, column %d: %s\n", want->source, want->caret,
                   problem->place.line, problem->place.column,
                   problem->text == NULL ? "" : problem->text);
        }
        end(&got);
    }
}

TEST(lines_and_columns_count_characters)
{
    reading got = read_closed("{\r\n  \"caf\xC3\xA9\": \"\xF0\x9F\x92\xA7\" x\r\n}");
    CHECK(got.status == QLL_REFUSED);
    CHECK(got.problems.kept[0].place.line == 2);
    CHECK(got.problems.kept[0].place.column == 15);
    end(&got);
}

TEST(zero_bytes_and_utf16_are_refused)
{
    reading zero = read_text((qll_text){"[1,\0]", 5});
    CHECK(zero.status == QLL_REFUSED && zero.problems.kept[0].place.column == 4);
    CHECK_TEXT(said_problem(&zero.problems, 0).text,
               "found \"\\u0000\"; expected a value: text in quotes, a number, true, false, null, "
               "[ or {");
    end(&zero);
    reading behind = read_text((qll_text){"[1]\0", 4});
    CHECK(behind.status == QLL_REFUSED && behind.problems.kept[0].place.column == 4);
    end(&behind);
    reading wide = read_text((qll_text){"\xFF\xFE[\0]\0", 6});
    CHECK(wide.status == QLL_REFUSED && wide.problems.kept[0].code == QLL_CODE_ENCODING);
    CHECK_TEXT(said_problem(&wide.problems, 0).text, "the text is UTF-16; expected UTF-8");
    end(&wide);
}

TEST(tree_holds_what_was_written)
{
    const char *source = "\xEF\xBB\xBF{\"name\": \"a\\u00e9\\ud83d\\udca7\\n\\\"\\/\", \"list\": "
                         "[1, -0.5e1, true, false, null, {}, []]}";
    reading got = read_closed(source);
    CHECK(got.status == QLL_OK);
    const qll_node *root = got.document.root;
    CHECK(root != NULL && root->kind == QLL_NODE_OBJECT && root->child_count == 2);
    const qll_node *name = qll_node_find(root, "name");
    if (!CHECK(name != NULL && qll_text_is(name->text, "a\xC3\xA9\xF0\x9F\x92\xA7\n\"/"))) {
        end(&got);
        return;
    }
    CHECK(name->offset == 9 && name->key_offset == 1);
    const qll_node *list = qll_node_find(root, "list");
    CHECK(list != NULL && list->child_count == 7 && list->index == 1);
    static const qll_node_kind kinds[] = {QLL_NODE_NUMBER, QLL_NODE_NUMBER, QLL_NODE_TRUE,
                                          QLL_NODE_FALSE,  QLL_NODE_NULL,   QLL_NODE_OBJECT,
                                          QLL_NODE_LIST};
    size_t index = 0;
    for (const qll_node *child = list->first_child; child != NULL; child = child->next) {
        CHECK(child->kind == kinds[index] && child->index == index && child->parent == list);
        CHECK(child->first_child == NULL && child->key.size == 0);
        CHECK(index != 0 || child->number == 1.0);
        CHECK(index != 1 || (child->number == -5.0 && qll_text_is(child->text, "-0.5e1")));
        index += 1;
    }
    CHECK(index == 7);
    CHECK(qll_node_find(root, "nam") == NULL && qll_node_find(list, "name") == NULL);
    CHECK(qll_node_find(NULL, "name") == NULL);
    end(&got);
}

TEST(single_values_are_documents)
{
    static const char *const sources[] = {"1", "-0", "\"x\"", "true", " null\n", "1e-400", "[]"};
    for (size_t i = 0; i < sizeof sources / sizeof *sources; i++) {
        reading got = read_closed(sources[i]);
        CHECK(got.status == QLL_OK && got.document.root != NULL);
        end(&got);
    }
    reading least = read_closed("1e-400");
    CHECK(least.document.root->number == 0.0);
    end(&least);
    reading drop = read_closed("\"\\ud83d\\udca7\""); /* nothing between the pair and the end */
    CHECK(drop.status == QLL_OK && qll_text_is(drop.document.root->text, "\xF0\x9F\x92\xA7"));
    end(&drop);
    reading digit = read_closed("\"\\u00414\""); /* a fifth digit is a character of its own */
    CHECK(digit.status == QLL_OK && qll_text_is(digit.document.root->text, "A4"));
    end(&digit);
}

TEST(paths_name_the_way)
{
    reading got =
        read_closed("{\n \"stages\": [{}, {\"branches\": [{\"set_pressure\": \"95\"}]}],\n"
                    " \"elbow 90\": {\"a\\u001b\\\"b\": 1, \"\": 2}}");
    CHECK(got.status == QLL_OK);
    const qll_node *root = got.document.root;
    const qll_node *stages = qll_node_find(root, "stages");
    const qll_node *branches = qll_node_find(stages->first_child->next, "branches");
    const qll_node *set = qll_node_find(branches->first_child, "set_pressure");
    qll_place place = qll_node_place(&got.document, set, false, got.arena);
    CHECK_TEXT(place.path, "stages[1].branches[0].set_pressure");
    CHECK_TEXT(place.source, "survey.json");
    CHECK(place.line == 2 && place.column == 48);
    place = qll_node_place(&got.document, set, true, got.arena);
    CHECK(place.line == 2 && place.column == 32);
    const qll_node *odd = qll_node_find(root, "elbow 90");
    place = qll_node_place(&got.document, odd->first_child, true, got.arena);
    CHECK_TEXT(place.path, "[\"elbow 90\"][\"a\\u001b\\\"b\"]");
    place = qll_node_place(&got.document, odd->first_child->next, false, got.arena);
    CHECK_TEXT(place.path, "[\"elbow 90\"][\"\"]");
    place = qll_node_place(&got.document, root, true, got.arena);
    CHECK_TEXT(place.path, "");
    CHECK(place.line == 1 && place.column == 1);
    end(&got);
}

TEST(problems_after_the_syntax_come_in_reading_order)
{
    reading got =
        read_closed("{\"b\": {\"x\": 1, \"x\": 2},\n \"a\": [1e999],\n \"b\": 3, \"b\": 4}");
    CHECK(got.status == QLL_REFUSED && got.problems.count == 4);
    CHECK_TEXT(got.problems.kept[0].place.path, "b.x");
    CHECK(got.problems.kept[0].place.line == 1 && got.problems.kept[0].place.column == 16);
    CHECK_TEXT(got.problems.kept[1].place.path, "a[0]");
    CHECK(got.problems.kept[1].code == QLL_CODE_OUT_OF_RANGE);
    CHECK_TEXT(said_problem(&got.problems, 2).text,
               "the key \"b\" is already at line 1, column 2; expected it once");
    CHECK_TEXT(said_problem(&got.problems, 3).text,
               "the key \"b\" is already at line 1, column 2; expected it once");
    end(&got);
}

/* A text of @p count times @p piece between @p before and @p after, freed by the caller. */
static qll_text repeated(const char *before, const char *piece, size_t count, const char *after)
{
    size_t piece_size = strlen(piece);
    size_t size = strlen(before) + count * piece_size + strlen(after);
    char *bytes = malloc(size + 1);
    char *to = bytes;
    to += snprintf(to, size + 1, "%s", before);
    for (size_t i = 0; i < count; i++) {
        memcpy(to, piece, piece_size);
        to += piece_size;
    }
    memcpy(to, after, strlen(after) + 1);
    return (qll_text){bytes, size};
}

static void check_refused(qll_text source, qll_code code, int column)
{
    reading got = read_text(source);
    CHECK(got.status == QLL_REFUSED && got.problems.count == 1);
    CHECK(got.problems.kept[0].code == code && got.problems.kept[0].place.column == column);
    end(&got);

    union {
        const char *bytes;
        void *memory;
    } owned = {.bytes = source.bytes};

    free(owned.memory);
}

TEST(depth_and_size_have_limits)
{
    qll_text deep = repeated("", "[", QLL_DOCUMENT_DEPTH, "");
    reading got = read_text(deep);
    CHECK(got.problems.kept[0].code == QLL_CODE_SYNTAX);
    end(&got);
    check_refused(deep, QLL_CODE_SYNTAX, QLL_DOCUMENT_DEPTH + 1);
    check_refused(repeated("", "[", QLL_DOCUMENT_DEPTH + 1, ""), QLL_CODE_TOO_DEEP,
                  QLL_DOCUMENT_DEPTH + 1);
    check_refused(repeated("", "[", QLL_DOCUMENT_SIZE, ""), QLL_CODE_TOO_DEEP,
                  QLL_DOCUMENT_DEPTH + 1);
    check_refused(repeated("", "{\"a\":", QLL_DOCUMENT_SIZE / 5, ""), QLL_CODE_TOO_DEEP,
                  5 * QLL_DOCUMENT_DEPTH + 1);
    check_refused(repeated("", " ", QLL_DOCUMENT_SIZE + 1, ""), QLL_CODE_TOO_LARGE, 0);
    check_refused(repeated("[", "0,", QLL_DOCUMENT_VALUES, "0]"), QLL_CODE_TOO_LARGE,
                  2 * ((int)QLL_DOCUMENT_VALUES - 1) + 2);
}

TEST(many_doubled_keys_are_counted_and_twenty_listed)
{
    qll_text source = repeated("{\"\":1", ",\"\":1", 100000, "}");
    reading got = read_text(source);
    CHECK(got.status == QLL_REFUSED);
    CHECK(got.problems.count == 100000 && got.problems.refusal_count == 100000);
    CHECK(got.problems.kept_count == QLL_PROBLEMS_KEPT);
    end(&got);

    union {
        const char *bytes;
        void *memory;
    } owned = {.bytes = source.bytes};

    free(owned.memory);
}

TEST(earlier_problems_do_not_refuse_a_good_document)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    CHECK(qll_document_read(qll_text_of("["), "a", arena, &document, &problems) == QLL_REFUSED);
    CHECK(document.root == NULL);
    CHECK(qll_document_read(qll_text_of("[]"), "b", arena, &document, &problems) == QLL_OK);
    CHECK(document.root != NULL);
    qll_arena_close(arena);
}

TEST(writer_indents_escapes_and_keeps_the_order)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "says", "a\"\\\n\x1B\xC2\x85\xE2\x80\xA8\xC3\xA9\xFFz");
    qll_json_put_number(&json, "flow_m3s", 0.1);
    qll_json_put_bool(&json, "good", true);
    qll_json_key(&json, "empty");
    qll_json_open_list(&json);
    qll_json_close_list(&json);
    qll_json_key(&json, "list");
    qll_json_open_list(&json);
    qll_json_whole(&json, -3);
    qll_json_null(&json);
    qll_json_open_object(&json);
    qll_json_close_object(&json);
    qll_json_close_list(&json);
    qll_json_put_bool(&json, "last", false);
    qll_json_close_object(&json);
    CHECK_TEXT(qll_writer_text(&writer).bytes,
               "{\n  \"says\": \"a\\\"\\\\\\n\\u001b\\u0085\\u2028\xC3\xA9\xEF\xBF\xBDz\",\n"
               "  \"flow_m3s\": 0.1,\n  \"good\": true,\n  \"empty\": [],\n  \"list\": [\n    -3,\n"
               "    null,\n    {}\n  ],\n  \"last\": false\n}");
    qll_arena_close(arena);
}

TEST(a_tree_written_reads_back)
{
    const char *source = "{\"a\": [1.5, [], {\"b\": {\"c\": null}}, \"\\u0001\"], \"d\": {}}";
    reading got = read_closed(source);
    CHECK(got.status == QLL_OK);
    qll_writer writer = qll_writer_new(got.arena);
    qll_json json = qll_json_new(&writer);
    qll_json_node(&json, got.document.root);
    CHECK_TEXT(qll_writer_text(&writer).bytes,
               "{\n  \"a\": [\n    1.5,\n    [],\n    {\n      \"b\": {\n        \"c\": null\n"
               "      }\n    },\n    \"\\u0001\"\n  ],\n  \"d\": {}\n}");
    CHECK(json.depth == 0);
    end(&got);
}

int main(void)
{
    TEST_RUN(every_refusal_points_at_the_spot);
    TEST_RUN(lines_and_columns_count_characters);
    TEST_RUN(zero_bytes_and_utf16_are_refused);
    TEST_RUN(tree_holds_what_was_written);
    TEST_RUN(single_values_are_documents);
    TEST_RUN(paths_name_the_way);
    TEST_RUN(problems_after_the_syntax_come_in_reading_order);
    TEST_RUN(depth_and_size_have_limits);
    TEST_RUN(many_doubled_keys_are_counted_and_twenty_listed);
    TEST_RUN(earlier_problems_do_not_refuse_a_good_document);
    TEST_RUN(writer_indents_escapes_and_keeps_the_order);
    TEST_RUN(a_tree_written_reads_back);
    return TEST_END();
}
