/* What JSON Schema says of a record by its kind. */
#include "documents/record_fields.h"
#include "documents/schema.h"

static void put_refused(const qll_schema *to, const char *key)
{
    qll_json_put_bool(to->json, key, false);
}

/* What a record of @p kind must and may not have, and what its body holds. Surveys, stations and tables are kept half filled in, too. */
static void put_record_of(const qll_schema *to, qll_record_kind kind)
{
    qll_json *json = to->json;
    const bool is_fact = qll_record_is_fact(kind);
    qll_json_open_object(json);
    qll_json_put_object(json, "if");
    qll_json_put_object(json, "properties");
    qll_json_put_object(json, "kind");
    qll_schema_put_words(to, &qll_record_kind_words[kind], 1, false);
    qll_json_close_object(json);
    qll_json_close_object(json);
    qll_json_put_list(json, "required");
    qll_json_text(json, "kind");
    qll_json_close_list(json);
    qll_json_close_object(json);
    qll_json_put_object(json, "then");
    qll_json_put_list(json, "required");
    if (kind != QLL_RECORD_LIKELIHOOD) {
        qll_json_text(json, "site");
    }
    if (!is_fact) {
        qll_json_text(json, "document");
    }
    qll_json_close_list(json);
    qll_json_put_object(json, "properties");
    put_refused(to, is_fact ? "document" : "corrects");
    if (is_fact) {
        put_refused(to, "parents");
    }
    if (qll_record_body_group(kind) != NULL) {
        qll_json_put_object(json, "body");
        qll_schema_put_ref(to, qll_record_body_id(to->json->writer->arena, kind));
        qll_json_close_object(json);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
    qll_json_close_object(json);
}

void qll_schema_put_by_kind(const qll_schema *to)
{
    qll_json_put_list(to->json, "allOf");
    for (unsigned kind = 0; kind < QLL_RECORD_KIND_COUNT; kind++) {
        put_record_of(to, (qll_record_kind)kind);
    }
    qll_json_close_list(to->json);
}
