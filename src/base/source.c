#include "base/source.h"

#include <string.h>

qll_place qll_source_place(qll_text source, const char *name, size_t offset)
{
    qll_place place = {.source = name, .path = ""};
    qll_text_position(source, offset, &place.line, &place.column);
    return place;
}

static bool refuse_size(const char *name, size_t most_size, qll_problems *problems)
{
    /* Of a longer one whoever read the file may have handed in the beginning only. */
    return qll_problems_add(
        problems, (qll_fault){.code = QLL_CODE_TOO_LARGE,
                              .place = {.source = name, .path = ""},
                              .says = QLL_SAYS_WITH(TOO_MANY_BYTES, qll_as_whole(most_size))});
}

/* UTF-16 betrays itself by its byte order mark. */
static bool is_utf16(qll_text source)
{
    return source.size >= 2
           && (memcmp(source.bytes, "\xFF\xFE", 2) == 0
               || memcmp(source.bytes, "\xFE\xFF", 2) == 0);
}

static bool refuse_encoding(qll_text source, const char *name, size_t offset,
                            qll_problems *problems)
{
    static const char digits[] = "0123456789ABCDEF";
    const unsigned byte = (unsigned char)source.bytes[offset];
    const char hex[] = {digits[byte >> 4U], digits[byte & 0xFU]};
    const qll_argument shown = qll_as_is(qll_arena_copy(problems->arena, hex, sizeof hex));
    return qll_problems_add(
        problems,
        (qll_fault){.code = QLL_CODE_ENCODING,
                    .place = qll_source_place(source, name, offset),
                    .says = is_utf16(source) ? QLL_SAYS(IS_UTF16) : QLL_SAYS_WITH(NOT_UTF8, shown),
                    .hint = QLL_SAYS(HINT_UTF8)});
}

bool qll_source_open(qll_text *source, const char *name, size_t most_size, qll_problems *problems)
{
    if (source->size > most_size) {
        return refuse_size(name, most_size, problems);
    }
    if (source->size >= 3 && memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0) {
        source->bytes += 3;
        source->size -= 3;
    }
    size_t end = qll_text_utf8_end(*source);
    return end == source->size || refuse_encoding(*source, name, end, problems);
}

char qll_scan_byte(const qll_scan *scan, size_t at)
{
    return at < scan->source.size ? scan->source.bytes[at] : '\0';
}

bool qll_scan_refuse(const qll_scan *scan, size_t offset, qll_code code, const qll_said *says,
                     const qll_said *hint)
{
    return qll_problems_add(scan->problems,
                            (qll_fault){.code = code,
                                        .place = qll_source_place(scan->source, scan->name, offset),
                                        .says = says,
                                        .hint = hint});
}
