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
    qll_writer sentence = qll_writer_new(problems->arena);
    /* Of a longer one whoever read the file may have handed in the beginning only. */
    qll_write_format(&sentence, "the text has more than %zu bytes, the most that are read",
                     most_size);
    return qll_problems_add(problems, (qll_problem){.code = QLL_CODE_TOO_LARGE,
                                                    .place = {.source = name, .path = ""},
                                                    .text = qll_writer_text(&sentence).bytes});
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
    qll_writer sentence = qll_writer_new(problems->arena);
    if (is_utf16(source)) {
        qll_write(&sentence, "the text is UTF-16; expected UTF-8");
    } else {
        static const char digits[] = "0123456789ABCDEF";
        unsigned byte = (unsigned char)source.bytes[offset];
        qll_write(&sentence, "the byte 0x");
        qll_write_byte(&sentence, digits[byte >> 4U], 1);
        qll_write_byte(&sentence, digits[byte & 0xFU], 1);
        qll_write(&sentence, " is not part of a UTF-8 character; expected UTF-8 text");
    }
    return qll_problems_add(problems,
                            (qll_problem){.code = QLL_CODE_ENCODING,
                                          .place = qll_source_place(source, name, offset),
                                          .text = qll_writer_text(&sentence).bytes,
                                          .hint = "save the file with the encoding UTF-8"});
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

qll_writer qll_scan_sentence(const qll_scan *scan)
{
    return qll_writer_new(scan->problems->arena);
}

bool qll_scan_refuse(const qll_scan *scan, size_t offset, qll_code code, qll_writer *sentence,
                     const char *hint)
{
    return qll_problems_add(
        scan->problems, (qll_problem){.code = code,
                                      .place = qll_source_place(scan->source, scan->name, offset),
                                      .text = qll_writer_text(sentence).bytes,
                                      .hint = hint});
}

bool qll_scan_refuse_says(const qll_scan *scan, size_t offset, qll_code code, const char *says,
                          const char *hint)
{
    return qll_problems_add(
        scan->problems, (qll_problem){.code = code,
                                      .place = qll_source_place(scan->source, scan->name, offset),
                                      .text = says,
                                      .hint = hint});
}
