#include "documents/schema.h"

#include "documents/pattern.h"
#include "documents/write_common.h"

void qll_schema_put_ref(const qll_schema *to, const char *id)
{
    qll_writer ref = qll_writer_new(to->json->writer->arena);
    qll_write_format(&ref, "#/$defs/%s", id);
    qll_json_put_written(to->json, "$ref", &ref);
}

void qll_schema_put_pattern(const qll_schema *to, const char *before, qll_text pattern,
                            const char *after)
{
    qll_writer whole = qll_writer_new(to->json->writer->arena);
    qll_write(&whole, before);
    qll_write_text(&whole, pattern);
    qll_write(&whole, after);
    qll_json_put_written(to->json, "pattern", &whole);
}

void qll_schema_put_words(const qll_schema *to, const char *const *words, size_t count,
                          bool any_case)
{
    qll_writer pattern = qll_writer_new(to->json->writer->arena);
    qll_pattern_words(&pattern, words, count, any_case);
    qll_json_put_list(to->json, "anyOf");
    qll_json_open_object(to->json);
    qll_json_put_list(to->json, "enum");
    for (size_t i = 0; i < count; i++) {
        qll_json_text(to->json, words[i]);
    }
    qll_json_close_list(to->json);
    qll_json_close_object(to->json);
    qll_json_open_object(to->json);
    qll_json_put_text(to->json, "type", "string");
    qll_schema_put_pattern(to, "^" QLL_PATTERN_BLANKS, qll_writer_text(&pattern),
                           QLL_PATTERN_BLANKS "$");
    qll_json_close_object(to->json);
    qll_json_close_list(to->json);
}
