#include "engine/visits.h"

#include "records/day.h"

#include <stdlib.h>
#include <string.h>

/* A reading by itself, as the body of a visit that has nothing else. */
static qll_text as_visit(const qll_record *record, qll_arena *arena)
{
    qll_writer body = qll_writer_new(arena);
    qll_write(&body, "{\"purpose\":\"other\",\"case\":{\"case\":1,\"readings\":[");
    qll_write_text(&body, record->body);
    qll_write(&body, "]}}");
    return qll_writer_text(&body);
}

static qll_status read_one(const qll_record *record, const qll_knowledge *knowledge,
                           qll_arena *arena, qll_visit *visit)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    const qll_text body =
        record->kind == QLL_RECORD_READING ? as_visit(record, arena) : record->body;
    qll_status status = qll_document_read(body, "", arena, &document, &problems);
    status =
        status == QLL_OK ? qll_visit_of(&document, knowledge, arena, visit, &problems) : status;
    return status;
}

static bool find_day(qll_dated_visit *dated, qll_arena *arena)
{
    long long ms = 0;
    if (dated->visit.day != NULL) {
        dated->day = dated->visit.day;
        return qll_day_read(dated->day, &dated->day_number);
    }
    if (!qll_moment_read(dated->record->written_at, &ms, &dated->day_number)) {
        return false;
    }
    dated->day = qll_arena_copy(arena, dated->record->written_at, QLL_DAY_SIZE - 1);
    return dated->day != NULL;
}

static int by_day(const void *one, const void *other)
{
    const qll_dated_visit *a = one;
    const qll_dated_visit *b = other;
    if (a->day_number != b->day_number) {
        return a->day_number < b->day_number ? -1 : 1;
    }
    if (a->record->written_ms != b->record->written_ms) {
        return a->record->written_ms < b->record->written_ms ? -1 : 1;
    }
    return strcmp(a->record->id, b->record->id);
}

qll_status qll_visits_among(const qll_record *records, size_t count, qll_arena *arena,
                            qll_dated_visits *visits)
{
    qll_knowledge knowledge;
    *visits = (qll_dated_visits){.list = qll_arena_take(arena, count, sizeof *visits->list)};
    qll_status status =
        visits->list == NULL ? QLL_NO_MEMORY : qll_knowledge_read(arena, &knowledge);
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        if (records[i].kind != QLL_RECORD_VISIT && records[i].kind != QLL_RECORD_READING) {
            continue;
        }
        qll_dated_visit *dated = &visits->list[visits->count];
        dated->record = &records[i];
        status = read_one(&records[i], &knowledge, arena, &dated->visit);
        visits->count += status == QLL_OK && find_day(dated, arena) ? 1 : 0;
        status = status == QLL_REFUSED ? QLL_OK : status;
    }
    if (status == QLL_OK) {
        qsort(visits->list, visits->count, sizeof *visits->list, by_day);
    }
    return status;
}
