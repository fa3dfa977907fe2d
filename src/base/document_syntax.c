/* The checker walks the text once. What may come next is one of six expectations; the brackets that
 * are open stand on a stack of QLL_DOCUMENT_DEPTH. Every fault ends the walk. */
#include "base/document_syntax.h"

#include "base/document.h"
#include "base/document_scalar.h"
#include "base/quote.h"

#include <string.h>

typedef enum expectation {
    QLL_EXPECT_VALUE,
    QLL_EXPECT_VALUE_OR_END, /* just behind "[" */
    QLL_EXPECT_KEY,
    QLL_EXPECT_KEY_OR_END, /* just behind "{" */
    QLL_EXPECT_COLON,
    QLL_EXPECT_NEXT, /* behind a value: a comma, a closing bracket, the end */
} expectation;

typedef struct checker {
    qll_scan scan;
    qll_syntax *syntax;
    expectation expected;
    size_t comma_at; /* the last comma */
    size_t key_at;   /* the last key's quote */
    size_t open_at[QLL_DOCUMENT_DEPTH];
    size_t depth;
} checker;

static bool at_end(const checker *walk)
{
    return walk->scan.at >= walk->scan.source.size;
}

static char open_bracket(const checker *walk)
{
    return walk->scan.source.bytes[walk->open_at[walk->depth - 1]];
}

static bool is_blank(char byte)
{
    return byte == ' ' || byte == '\t' || byte == '\r' || byte == '\n';
}

static bool token_is(qll_text token, const char *const words[], size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (qll_text_is(token, words[i])) {
            return true;
        }
    }
    return false;
}

static void write_open_place(const checker *walk, qll_writer *text)
{
    qll_place place =
        qll_source_place(walk->scan.source, walk->scan.name, walk->open_at[walk->depth - 1]);
    qll_write_format(text, "the \"%c\" of line %d, column %d", open_bracket(walk), place.line,
                     place.column);
}

/* The text ends too early: the place is right behind the last character that is not blank. */
static bool refuse_end(const checker *walk, const char *expected)
{
    size_t end = walk->scan.source.size;
    while (end > 0 && is_blank(walk->scan.source.bytes[end - 1])) {
        end -= 1;
    }
    qll_writer text = qll_scan_sentence(&walk->scan);
    qll_write(&text, end == 0 ? "the text is empty" : "the text ends here");
    if (walk->depth > 0) {
        qll_write(&text, ", but ");
        write_open_place(walk, &text);
        qll_write(&text, " is not closed");
    }
    qll_write(&text, "; expected ");
    qll_write(&text, expected);
    return qll_scan_refuse(&walk->scan, end, QLL_CODE_SYNTAX, &text, "");
}

static bool refuse_token(const checker *walk, const char *expected, const char *hint)
{
    qll_writer text = qll_scan_sentence(&walk->scan);
    qll_write(&text, "found ");
    if (qll_scan_byte(&walk->scan, walk->scan.at) == '"') {
        qll_write(&text, "text in quotes");
    } else {
        qll_write_quoted(&text, qll_scalar_token(&walk->scan, walk->scan.at));
    }
    qll_write(&text, "; expected ");
    qll_write(&text, expected);
    return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_SYNTAX, &text, hint);
}

static bool refuse_last_comma(const checker *walk)
{
    qll_writer text = qll_scan_sentence(&walk->scan);
    qll_write_format(&text, "found a comma before \"%c\"; expected another %s or no comma",
                     qll_scan_byte(&walk->scan, walk->scan.at),
                     walk->expected == QLL_EXPECT_KEY ? "key" : "value");
    return qll_scan_refuse(&walk->scan, walk->comma_at, QLL_CODE_SYNTAX, &text, "remove the comma");
}

static const char *hint_for_value(const checker *walk, qll_text token)
{
    static const char *const yes[] = {"True", "TRUE", "yes", "Yes"};
    static const char *const no[] = {"False", "FALSE", "no", "No"};
    static const char *const none[] = {"None", "Null", "NULL", "nil", "NaN", "nan"};
    static const char *const quotes[] = {"'", "\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E"};
    static const char *const remarks[] = {"/", "#"};
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (token_is(token, yes, sizeof yes / sizeof *yes)) {
        return "write true";
    }
    if (token_is(token, no, sizeof no / sizeof *no)) {
        return "write false";
    }
    if (token_is(token, none, sizeof none / sizeof *none)) {
        return "write null, or leave the key out";
    }
    if (token_is(token, quotes, sizeof quotes / sizeof *quotes)) {
        return "write text in straight double quotes";
    }
    if (token_is(token, remarks, sizeof remarks / sizeof *remarks)) {
        return "remove the remark";
    }
    if (byte == ',') {
        return "remove the comma";
    }
    if (byte == '+') {
        return "remove the plus sign";
    }
    if (byte == '.') {
        return "write a zero before the point";
    }
    return qll_scalar_is_word(byte) ? "write text in double quotes" : "";
}

static bool is_literal(const checker *walk)
{
    static const char *const words[] = {"true", "false", "null"};
    return token_is(qll_scalar_token(&walk->scan, walk->scan.at), words,
                    sizeof words / sizeof *words);
}

static bool check_word(checker *walk)
{
    qll_text token = qll_scalar_token(&walk->scan, walk->scan.at);
    if (is_literal(walk)) {
        walk->scan.at += token.size;
        return true;
    }
    return refuse_token(walk, "a value: text in quotes, a number, true, false, null, [ or {",
                        hint_for_value(walk, token));
}

static bool open_container(checker *walk)
{
    if (walk->depth == QLL_DOCUMENT_DEPTH) {
        qll_writer text = qll_scan_sentence(&walk->scan);
        qll_write_format(&text, "lists and objects are nested deeper than %d; expected fewer",
                         QLL_DOCUMENT_DEPTH);
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_TOO_DEEP, &text, "");
    }
    bool is_object = qll_scan_byte(&walk->scan, walk->scan.at) == '{';
    walk->open_at[walk->depth] = walk->scan.at;
    walk->depth += 1;
    walk->scan.at += 1;
    walk->expected = is_object ? QLL_EXPECT_KEY_OR_END : QLL_EXPECT_VALUE_OR_END;
    return true;
}

static bool check_value(checker *walk)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (walk->syntax->value_count == QLL_DOCUMENT_VALUES) {
        qll_writer text = qll_scan_sentence(&walk->scan);
        qll_write_format(&text, "the text holds more than %zu values; expected fewer",
                         QLL_DOCUMENT_VALUES);
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_TOO_LARGE, &text, "");
    }
    walk->syntax->value_count += 1;
    if (byte == '{' || byte == '[') {
        return open_container(walk);
    }
    walk->expected = QLL_EXPECT_NEXT;
    if (byte == '"') {
        return qll_scalar_text(&walk->scan, &walk->syntax->escaped_size);
    }
    bool begins_number = byte == '-' || (byte >= '0' && byte <= '9');
    return begins_number ? qll_scalar_number(&walk->scan) : check_word(walk);
}

static bool check_key(checker *walk)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (byte == '"') {
        walk->key_at = walk->scan.at;
        walk->syntax->key_count += 1;
        walk->expected = QLL_EXPECT_COLON;
        return qll_scalar_text(&walk->scan, &walk->syntax->escaped_size);
    }
    const char *hint = hint_for_value(walk, qll_scalar_token(&walk->scan, walk->scan.at));
    if (qll_scalar_is_word(byte)) {
        hint = "write the key in double quotes";
    }
    return refuse_token(walk,
                        walk->expected == QLL_EXPECT_KEY ? "a key in double quotes"
                                                         : "a key in double quotes or \"}\"",
                        hint);
}

static bool check_colon(checker *walk)
{
    if (qll_scan_byte(&walk->scan, walk->scan.at) == ':') {
        walk->scan.at += 1;
        walk->expected = QLL_EXPECT_VALUE;
        return true;
    }
    qll_text key = {walk->scan.source.bytes + walk->key_at + 1, 0};
    while (key.bytes[key.size] != '"') {
        key.size += key.bytes[key.size] == '\\' ? 2 : 1;
    }
    qll_writer text = qll_scan_sentence(&walk->scan);
    qll_write(&text, "a colon between the key ");
    qll_write_quoted(&text, key);
    qll_write(&text, " and its value");
    const char *expected = qll_writer_text(&text).bytes;
    bool is_equals = qll_scan_byte(&walk->scan, walk->scan.at) == '=';
    return refuse_token(walk, expected == NULL ? "a colon" : expected,
                        is_equals ? "write a colon in its place" : "");
}

static bool close_container(checker *walk)
{
    char closes = open_bracket(walk) == '{' ? '}' : ']';
    if (qll_scan_byte(&walk->scan, walk->scan.at) != closes) {
        qll_writer text = qll_scan_sentence(&walk->scan);
        qll_write_format(&text, "found \"%c\", but ", qll_scan_byte(&walk->scan, walk->scan.at));
        write_open_place(walk, &text);
        qll_write_format(&text, " is still open; expected \"%c\"", closes);
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_SYNTAX, &text, "");
    }
    walk->depth -= 1;
    walk->scan.at += 1;
    walk->expected = QLL_EXPECT_NEXT;
    return true;
}

/* Behind a text, a further quote or a word is what is left of an inch mark: "2"". */
static bool is_rest_of_text(const checker *walk)
{
    size_t before = walk->scan.at - 1;
    while (is_blank(qll_scan_byte(&walk->scan, before))) {
        before -= 1;
    }
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    bool is_letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
    return qll_scan_byte(&walk->scan, before) == '"'
           && (before + 1 == walk->scan.at || (is_letter && !is_literal(walk)));
}

static const char *hint_for_next(const checker *walk, bool in_object)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (byte == ':' && !in_object) {
        return "keys stand in { }, not in [ ]";
    }
    if (byte == '/' || byte == '#') {
        return "remove the remark";
    }
    if (byte != '"' && byte != '{' && byte != '[' && !qll_scalar_is_word(byte)) {
        return "";
    }
    return is_rest_of_text(walk) ? "write a quote inside a text as \\\"" : "put a comma before it";
}

static bool check_next(checker *walk)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (walk->depth == 0) {
        return refuse_token(walk, "nothing behind the value", "remove what follows the value");
    }
    bool in_object = open_bracket(walk) == '{';
    if (byte == ',') {
        walk->comma_at = walk->scan.at;
        walk->scan.at += 1;
        walk->expected = in_object ? QLL_EXPECT_KEY : QLL_EXPECT_VALUE;
        return true;
    }
    if (byte == '}' || byte == ']') {
        return close_container(walk);
    }
    return refuse_token(walk, in_object ? "a comma or \"}\"" : "a comma or \"]\"",
                        hint_for_next(walk, in_object));
}

static bool check_closing(checker *walk)
{
    bool is_after_comma =
        walk->expected == QLL_EXPECT_KEY
        || (walk->expected == QLL_EXPECT_VALUE && walk->depth > 0 && open_bracket(walk) == '[');
    if (is_after_comma) {
        return refuse_last_comma(walk);
    }
    if (walk->expected == QLL_EXPECT_VALUE) {
        return refuse_token(walk, "a value", "");
    }
    return close_container(walk);
}

static const char *end_expected(const checker *walk)
{
    switch (walk->expected) {
    case QLL_EXPECT_VALUE: return "a value";
    case QLL_EXPECT_VALUE_OR_END: return "a value or \"]\"";
    case QLL_EXPECT_KEY: return "a key in double quotes";
    case QLL_EXPECT_KEY_OR_END: return "a key in double quotes or \"}\"";
    case QLL_EXPECT_COLON: return "a colon and a value";
    case QLL_EXPECT_NEXT: break;
    }
    return open_bracket(walk) == '{' ? "\"}\"" : "\"]\"";
}

static bool step(checker *walk)
{
    if (at_end(walk)) {
        return refuse_end(walk, end_expected(walk));
    }
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    bool is_closing = byte == '}' || byte == ']';
    switch (walk->expected) {
    case QLL_EXPECT_VALUE:
    case QLL_EXPECT_VALUE_OR_END: return is_closing ? check_closing(walk) : check_value(walk);
    case QLL_EXPECT_KEY:
    case QLL_EXPECT_KEY_OR_END: return is_closing ? check_closing(walk) : check_key(walk);
    case QLL_EXPECT_COLON: return check_colon(walk);
    case QLL_EXPECT_NEXT: break;
    }
    return check_next(walk);
}

bool qll_syntax_check(qll_text source, const char *name, qll_syntax *syntax, qll_problems *problems)
{
    *syntax = (qll_syntax){.value_count = 0};
    checker walk = {.scan = {.source = source, .name = name, .problems = problems},
                    .syntax = syntax,
                    .expected = QLL_EXPECT_VALUE};
    for (;;) {
        while (is_blank(qll_scan_byte(&walk.scan, walk.scan.at))) {
            walk.scan.at += 1;
        }
        if (at_end(&walk) && walk.expected == QLL_EXPECT_NEXT && walk.depth == 0) {
            return true;
        }
        if (!step(&walk)) {
            return false;
        }
    }
}
