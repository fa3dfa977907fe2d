#include "base/document_scalar.h"

#include "base/quote.h"

#include <string.h>

bool qll_scalar_is_word(char byte)
{
    return qll_is_digit(byte) || (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z')
           || byte == '_' || byte == '-' || byte == '+' || byte == '.';
}

qll_text qll_scalar_token(const qll_scan *scan, size_t at)
{
    qll_text token = {scan->source.bytes + at, 0};
    while (qll_scalar_is_word(qll_scan_byte(scan, at + token.size))) {
        token.size += 1;
    }
    if (token.size == 0 && at < scan->source.size) {
        token.size = 1;
        while (((unsigned char)qll_scan_byte(scan, at + token.size) & 0xC0U) == 0x80U) {
            token.size += 1;
        }
    }
    return token;
}

/* Four hexadecimal digits at @p at; the first byte that is none otherwise. */
static size_t hex_end(const qll_scan *scan, size_t at, unsigned *code)
{
    *code = 0;
    for (size_t i = 0; i < 4; i++) {
        char byte = qll_scan_byte(scan, at + i);
        bool is_small = byte >= 'a' && byte <= 'f';
        bool is_large = byte >= 'A' && byte <= 'F';
        if (!qll_is_digit(byte) && !is_small && !is_large) {
            return at + i;
        }
        char zero = '0';
        if (is_small) {
            zero = 'a' - 10;
        } else if (is_large) {
            zero = 'A' - 10;
        }
        *code = *code * 16 + (unsigned)(byte - zero);
    }
    return at + 4;
}

static bool is_low_surrogate(unsigned code)
{
    return code >= 0xDC00 && code <= 0xDFFF;
}

/* Moves behind \uHHHH, or behind both halves of a surrogate pair. */
static bool check_unicode_escape(qll_scan *scan)
{
    unsigned code = 0;
    size_t start = scan->at;
    size_t end = hex_end(scan, start + 2, &code);
    if (end != start + 6) {
        return qll_scan_refuse(scan, end, QLL_CODE_SYNTAX, QLL_SAYS(ESCAPE_HEX), NULL);
    }
    if (code == 0) {
        return qll_scan_refuse(scan, start, QLL_CODE_ENCODING, QLL_SAYS(ESCAPE_ZERO),
                               QLL_SAYS(HINT_REMOVE_IT));
    }
    scan->at = end;
    if (code < 0xD800 || code > 0xDFFF) {
        return true;
    }
    unsigned second = 0;
    bool is_pair = !is_low_surrogate(code) && qll_scan_byte(scan, end) == '\\'
                   && qll_scan_byte(scan, end + 1) == 'u'
                   && hex_end(scan, end + 2, &second) == end + 6 && is_low_surrogate(second);
    scan->at = end + 6;
    return is_pair || qll_scan_refuse(scan, start, QLL_CODE_ENCODING, QLL_SAYS(ESCAPE_HALF), NULL);
}

static bool check_escape(qll_scan *scan)
{
    char byte = qll_scan_byte(scan, scan->at + 1);
    if (byte == 'u') {
        return check_unicode_escape(scan);
    }
    if (byte != '\0' && strchr("\"\\/bfnrt", byte) != NULL) {
        scan->at += 2;
        return true;
    }
    return qll_scan_refuse(scan, scan->at, QLL_CODE_SYNTAX, QLL_SAYS(ESCAPE_UNKNOWN),
                           QLL_SAYS(HINT_ESCAPE_BACKSLASH));
}

static bool refuse_control(const qll_scan *scan, size_t quote_at)
{
    unsigned char byte = (unsigned char)qll_scan_byte(scan, scan->at);
    if (byte == '\n' || byte == '\r') {
        return qll_scan_refuse(scan, quote_at, QLL_CODE_SYNTAX, QLL_SAYS(TEXT_ENDS_NOT_ON_LINE),
                               QLL_SAYS(HINT_ESCAPE_BREAK));
    }
    const char hex[] = {'0', '0', "01"[byte >> 4U], "0123456789ABCDEF"[byte & 0xFU]};
    const qll_argument shown = qll_as_is(qll_arena_copy(scan->problems->arena, hex, sizeof hex));
    return qll_scan_refuse(scan, scan->at, QLL_CODE_ENCODING, QLL_SAYS_WITH(TEXT_CONTROL, shown),
                           byte == '\t' ? QLL_SAYS(HINT_ESCAPE_TAB) : QLL_SAYS(HINT_REMOVE_IT));
}

/* Moves behind the text in quotes at scan->at. */
bool qll_scalar_text(qll_scan *scan, size_t *escaped_size)
{
    size_t quote_at = scan->at;
    bool has_escape = false;
    scan->at += 1;
    while (scan->at < scan->source.size && qll_scan_byte(scan, scan->at) != '"') {
        char byte = qll_scan_byte(scan, scan->at);
        if ((unsigned char)byte < 0x20) {
            return refuse_control(scan, quote_at);
        }
        if (byte != '\\') {
            scan->at += 1;
            continue;
        }
        has_escape = true;
        if (scan->at + 1 == scan->source.size) {
            scan->at += 1;
        } else if (!check_escape(scan)) {
            return false;
        }
    }
    if (scan->at >= scan->source.size) {
        return qll_scan_refuse(scan, quote_at, QLL_CODE_SYNTAX, QLL_SAYS(TEXT_ENDS_NOT), NULL);
    }
    if (has_escape) {
        *escaped_size += scan->at - quote_at - 1;
    }
    scan->at += 1;
    return true;
}

static bool refuse_number(const qll_scan *scan, size_t start, qll_text_id says,
                          const qll_said *hint)
{
    const qll_said said = {says, {qll_as_quoted(qll_scalar_token(scan, start))}};
    return qll_scan_refuse(scan, scan->at, QLL_CODE_SYNTAX, &said, hint);
}

static void skip_digits(qll_scan *scan)
{
    while (qll_is_digit(qll_scan_byte(scan, scan->at))) {
        scan->at += 1;
    }
}

/* Moves behind fraction and exponent. */
static bool check_number_tail(qll_scan *scan, size_t start)
{
    if (qll_scan_byte(scan, scan->at) == '.') {
        scan->at += 1;
        if (!qll_is_digit(qll_scan_byte(scan, scan->at))) {
            return refuse_number(scan, start, QLL_TEXT_NUMBER_POINT, NULL);
        }
        skip_digits(scan);
    }
    char byte = qll_scan_byte(scan, scan->at);
    if (byte == 'e' || byte == 'E') {
        scan->at += 1;
        byte = qll_scan_byte(scan, scan->at);
        scan->at += byte == '+' || byte == '-' ? 1 : 0;
        if (!qll_is_digit(qll_scan_byte(scan, scan->at))) {
            return refuse_number(scan, start, QLL_TEXT_NUMBER_EXPONENT, NULL);
        }
        skip_digits(scan);
    }
    return true;
}

/* Moves behind the number at scan->at. */
bool qll_scalar_number(qll_scan *scan)
{
    size_t start = scan->at;
    scan->at += qll_scan_byte(scan, start) == '-' ? 1 : 0;
    if (!qll_is_digit(qll_scan_byte(scan, scan->at))) {
        return refuse_number(scan, start, QLL_TEXT_NUMBER_MINUS, NULL);
    }
    bool leads_with_zero = qll_scan_byte(scan, scan->at) == '0';
    if (leads_with_zero && qll_is_digit(qll_scan_byte(scan, scan->at + 1))) {
        return refuse_number(scan, start, QLL_TEXT_NUMBER_ZERO, QLL_SAYS(HINT_REMOVE_ZERO));
    }
    skip_digits(scan);
    if (!check_number_tail(scan, start)) {
        return false;
    }
    if (qll_scalar_is_word(qll_scan_byte(scan, scan->at))) {
        return refuse_number(scan, start, QLL_TEXT_NUMBER_BEHIND,
                             QLL_SAYS(HINT_QUANTITY_IN_QUOTES));
    }
    return true;
}
