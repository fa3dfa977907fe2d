#include "documents/write_records.h"

#include "base/quote.h"
#include "documents/write_common.h"
#include "records/day.h"

#include <math.h>
#include <string.h>

const char *const qll_due_words[QLL_DUE_COUNT] = {
#define QLL_DUE_WORD(name, word) [QLL_DUE_##name] = (word),
    QLL_DUE_LIST(QLL_DUE_WORD)
#undef QLL_DUE_WORD
};

/* ---- a record ---- */

static void put_member(qll_writer *writer, const char *key, const char *text)
{
    if (text != NULL) {
        qll_write_format(writer, ",\"%s\":", key);
        qll_write_json_text(writer, qll_text_of(text));
    }
}

void qll_record_json(qll_writer *writer, const qll_record *record, bool with_receipt)
{
    qll_write(writer, "{\"record\":1");
    put_member(writer, "id", record->id);
    put_member(writer, "kind", qll_record_kind_words[record->kind]);
    put_member(writer, "site", record->site);
    put_member(writer, "document", record->document);
    for (size_t i = 0; i < record->parent_count; i++) {
        qll_write(writer, i == 0 ? ",\"parents\":[" : ",");
        qll_write_json_text(writer, qll_text_of(record->parents[i]));
    }
    qll_write(writer, record->parent_count > 0 ? "]" : "");
    put_member(writer, "corrects", record->corrects);
    put_member(writer, "who", record->who);
    put_member(writer, "at", record->written_at);
    qll_write(writer, ",\"body\":");
    qll_write_text(writer, record->body);
    if (with_receipt && record->receipt > 0) {
        qll_write(writer, ",\"receipt\":");
        qll_write_number(writer, (double)record->receipt);
    }
    qll_write(writer, "}");
}

/* ---- sites ---- */

static void put_site(qll_json *json, const qll_due_site *site)
{
    const qll_site_row *row = site->row;
    qll_json_put_text(json, "site", row->site);
    qll_json_put_text(json, "name", row->name);
    qll_json_put_text_or_null(json, "service_day", row->service_day);
    if (row->every_months > 0) {
        qll_json_put_whole(json, "every_months", row->every_months);
    } else {
        qll_json_put_null(json, "every_months");
    }
    qll_json_put_day(json, "due", site->state == QLL_DUE_NO_PLAN ? (double)NAN : (double)site->due);
    qll_json_put_text(json, "state", qll_due_words[site->state]);
    qll_json_put_whole(json, "conflicts", (long long)row->conflicts);
}

void qll_sites_write(qll_json *json, const char *verb, const qll_recorded *found)
{
    const qll_problems none = {0};
    qll_json_open_object(json);
    qll_json_put_head(json, verb, &found->wording, &none);
    qll_json_put_text(json, "today", found->today);
    qll_json_put_whole(json, "overdue", (long long)found->states[QLL_DUE_OVERDUE]);
    qll_json_put_whole(json, "soon", (long long)found->states[QLL_DUE_SOON]);
    qll_json_put_list(json, "sites");
    for (size_t i = 0; i < found->site_count; i++) {
        qll_json_open_object(json);
        put_site(json, &found->sites[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_site_write(qll_json *json, const qll_recorded_site *found)
{
    const qll_problems none = {0};
    qll_json_open_object(json);
    qll_json_put_head(json, "site", &found->wording, &none);
    put_site(json, &found->due);
    qll_json_put_list(json, "records");
    for (size_t i = 0; i < found->count; i++) {
        qll_writer line = qll_writer_new(json->writer->arena);
        qll_record_json(&line, &found->records[i], true);
        qll_json_literal(json, qll_writer_text(&line));
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}
