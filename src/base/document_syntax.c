/* The checker walks the text once. What may come next is one of six expectations; the brackets that
 * are open stand on a stack of QLL_DOCUMENT_DEPTH. Every fault ends the walk. */
#include "base/document_syntax.h"

#include "base/count.h"
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

static qll_argument as_character(const checker *walk, char character)
{
    return qll_as_is(qll_arena_copy(walk->scan.problems->arena, &character, 1));
}

static qll_place open_place(const checker *walk)
{
    return qll_source_place(walk->scan.source, walk->scan.name, walk->open_at[walk->depth - 1]);
}

/* The text ends too early: the place is right behind the last character that is not blank. */
static bool refuse_end(const checker *walk, qll_text_id expected)
{
    size_t end = walk->scan.source.size;
    while (end > 0 && is_blank(walk->scan.source.bytes[end - 1])) {
        end -= 1;
    }
    const qll_argument wanted = qll_as_text(expected);
    qll_said says = {end == 0 ? QLL_TEXT_EMPTY_TEXT : QLL_TEXT_TEXT_ENDS, {wanted}};
    if (walk->depth > 0) {
        const qll_place place = open_place(walk);
        says = (qll_said){QLL_TEXT_TEXT_ENDS_OPEN,
                          {as_character(walk, open_bracket(walk)), qll_as_number(place.line),
                           qll_as_number(place.column), wanted}};
    }
    return qll_scan_refuse(&walk->scan, end, QLL_CODE_SYNTAX, &says, NULL);
}

static bool refuse_token(const checker *walk, qll_argument expected, qll_text_id hint)
{
    qll_said says = {QLL_TEXT_FOUND_TEXT, {expected}};
    if (qll_scan_byte(&walk->scan, walk->scan.at) != '"') {
        const qll_text token = qll_scalar_token(&walk->scan, walk->scan.at);
        says = (qll_said){QLL_TEXT_FOUND_TOKEN, {qll_as_quoted(token), expected}};
    }
    const qll_said hinted = {.id = hint};
    return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_SYNTAX, &says,
                           hint == QLL_TEXT_NONE ? NULL : &hinted);
}

static bool refuse_last_comma(const checker *walk)
{
    const char next = qll_scan_byte(&walk->scan, walk->scan.at);
    const qll_said says = {walk->expected == QLL_EXPECT_KEY ? QLL_TEXT_FOUND_COMMA_KEY
                                                            : QLL_TEXT_FOUND_COMMA_VALUE,
                           {as_character(walk, next)}};
    return qll_scan_refuse(&walk->scan, walk->comma_at, QLL_CODE_SYNTAX, &says,
                           QLL_SAYS(HINT_REMOVE_COMMA));
}

static qll_text_id hint_for_value(const checker *walk, qll_text token)
{
    static const char *const yes[] = {"True", "TRUE", "yes", "Yes"};
    static const char *const no[] = {"False", "FALSE", "no", "No"};
    static const char *const none[] = {"None", "Null", "NULL", "nil", "NaN", "nan"};
    static const char *const quotes[] = {"'", "\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E"};
    static const char *const remarks[] = {"/", "#"};
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (token_is(token, yes, QLL_COUNT(yes))) {
        return QLL_TEXT_HINT_TRUE;
    }
    if (token_is(token, no, QLL_COUNT(no))) {
        return QLL_TEXT_HINT_FALSE;
    }
    if (token_is(token, none, QLL_COUNT(none))) {
        return QLL_TEXT_HINT_NULL;
    }
    if (token_is(token, quotes, QLL_COUNT(quotes))) {
        return QLL_TEXT_HINT_STRAIGHT_QUOTES;
    }
    if (token_is(token, remarks, QLL_COUNT(remarks))) {
        return QLL_TEXT_HINT_REMOVE_REMARK;
    }
    if (byte == ',') {
        return QLL_TEXT_HINT_REMOVE_COMMA;
    }
    if (byte == '+') {
        return QLL_TEXT_HINT_REMOVE_PLUS;
    }
    if (byte == '.') {
        return QLL_TEXT_HINT_ZERO_BEFORE_POINT;
    }
    return qll_scalar_is_word(byte) ? QLL_TEXT_HINT_TEXT_IN_QUOTES : QLL_TEXT_NONE;
}

static bool is_literal(const checker *walk)
{
    static const char *const words[] = {"true", "false", "null"};
    return token_is(qll_scalar_token(&walk->scan, walk->scan.at), words, QLL_COUNT(words));
}

static bool check_word(checker *walk)
{
    qll_text token = qll_scalar_token(&walk->scan, walk->scan.at);
    if (is_literal(walk)) {
        walk->scan.at += token.size;
        return true;
    }
    return refuse_token(walk, qll_as_text(QLL_TEXT_EXPECT_ANY_VALUE), hint_for_value(walk, token));
}

static bool open_container(checker *walk)
{
    if (walk->depth == QLL_DOCUMENT_DEPTH) {
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_TOO_DEEP,
                               QLL_SAYS_WITH(NESTED_TOO_DEEP, qll_as_whole(QLL_DOCUMENT_DEPTH)),
                               NULL);
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
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_TOO_LARGE,
                               QLL_SAYS_WITH(TOO_MANY_VALUES, qll_as_whole(QLL_DOCUMENT_VALUES)),
                               NULL);
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
    qll_text_id hint = hint_for_value(walk, qll_scalar_token(&walk->scan, walk->scan.at));
    if (qll_scalar_is_word(byte)) {
        hint = QLL_TEXT_HINT_KEY_IN_QUOTES;
    }
    return refuse_token(walk,
                        qll_as_text(walk->expected == QLL_EXPECT_KEY ? QLL_TEXT_EXPECT_KEY
                                                                     : QLL_TEXT_EXPECT_KEY_OR_END),
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
    const qll_said expected = {QLL_TEXT_EXPECT_COLON_BETWEEN, {qll_as_quoted(key)}};
    bool is_equals = qll_scan_byte(&walk->scan, walk->scan.at) == '=';
    return refuse_token(walk, qll_as_said(walk->scan.problems->arena, expected),
                        is_equals ? QLL_TEXT_HINT_COLON : QLL_TEXT_NONE);
}

static bool close_container(checker *walk)
{
    char closes = open_bracket(walk) == '{' ? '}' : ']';
    if (qll_scan_byte(&walk->scan, walk->scan.at) != closes) {
        const qll_place place = open_place(walk);
        const char found = qll_scan_byte(&walk->scan, walk->scan.at);
        return qll_scan_refuse(&walk->scan, walk->scan.at, QLL_CODE_SYNTAX,
                               QLL_SAYS_WITH(FOUND_BRACKET, as_character(walk, found),
                                             as_character(walk, open_bracket(walk)),
                                             qll_as_number(place.line), qll_as_number(place.column),
                                             as_character(walk, closes)),
                               NULL);
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

static qll_text_id hint_for_next(const checker *walk, bool in_object)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (byte == ':' && !in_object) {
        return QLL_TEXT_HINT_KEYS_IN_BRACES;
    }
    if (byte == '/' || byte == '#') {
        return QLL_TEXT_HINT_REMOVE_REMARK;
    }
    if (byte != '"' && byte != '{' && byte != '[' && !qll_scalar_is_word(byte)) {
        return QLL_TEXT_NONE;
    }
    return is_rest_of_text(walk) ? QLL_TEXT_HINT_ESCAPE_QUOTE : QLL_TEXT_HINT_COMMA_BEFORE;
}

static bool check_next(checker *walk)
{
    char byte = qll_scan_byte(&walk->scan, walk->scan.at);
    if (walk->depth == 0) {
        return refuse_token(walk, qll_as_text(QLL_TEXT_EXPECT_NOTHING), QLL_TEXT_HINT_REMOVE_REST);
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
    return refuse_token(
        walk,
        qll_as_text(in_object ? QLL_TEXT_EXPECT_COMMA_OR_BRACE : QLL_TEXT_EXPECT_COMMA_OR_BRACKET),
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
        return refuse_token(walk, qll_as_text(QLL_TEXT_EXPECT_VALUE), QLL_TEXT_NONE);
    }
    return close_container(walk);
}

static qll_text_id end_expected(const checker *walk)
{
    switch (walk->expected) {
    case QLL_EXPECT_VALUE: return QLL_TEXT_EXPECT_VALUE;
    case QLL_EXPECT_VALUE_OR_END: return QLL_TEXT_EXPECT_VALUE_OR_END;
    case QLL_EXPECT_KEY: return QLL_TEXT_EXPECT_KEY;
    case QLL_EXPECT_KEY_OR_END: return QLL_TEXT_EXPECT_KEY_OR_END;
    case QLL_EXPECT_COLON: return QLL_TEXT_EXPECT_COLON;
    case QLL_EXPECT_NEXT: break;
    }
    return open_bracket(walk) == '{' ? QLL_TEXT_EXPECT_BRACE : QLL_TEXT_EXPECT_BRACKET;
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
