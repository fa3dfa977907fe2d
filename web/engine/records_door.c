/* The door's other wing: what a page without its server asks about the records that it has.
 *
 *     quell_begin(); quell_hand_in(...) the documents and the question; status = quell_tell(question_index); quell_answer()
 *
 * The question is {"tell": WORD, "today": "2026-11-20"} and, where wanted, "form", "units", "language", "created", "most":
 *
 *     record    input 0, one record: what is wrong with it, {"quell": "record/1", "problems": [...]}
 *     rows      input 0, records that stand, one on a line, those of a site side by side: rows/1, a row for each site
 *     sites, due, calendar   input 0, a list of such rows: the answers of `quell site` by that name
 *     trend     input 0, one row; input 1, that site's records that stand, one on a line: trend/1 */
#include "quell/records.h"

#include "base/count.h"
#include "base/words.h"
#include "documents/read_record.h"
#include "documents/write_common.h"
#include "door.h"

#include <string.h>

QLL_EXPORT(quell_tell) int quell_tell(size_t question);

/* A record is small, and what reads it takes many times that. */
#define QLL_ROOM_SIZE ((size_t)64 * 1024 * 1024)

typedef struct telling {
    qll_telling of;
    qll_wording wording;
    const char *created;
    qll_arena *arena;
    qll_answer *answer;
} telling;

/* ---- documents in ---- */

static qll_status read_input(size_t at, const char *name, qll_document *document)
{
    qll_problems problems = qll_problems_none(door.arena);
    const qll_status status =
        at < door.input_count
            ? qll_document_read(door.inputs[at], name, door.arena, document, &problems)
            : QLL_WRONG_USE;
    return status == QLL_REFUSED ? QLL_WRONG_USE : status;
}

/* A closed copy; NULL where there is none. */
static const char *copy(qll_arena *arena, const char *text)
{
    return text == NULL ? NULL : qll_arena_copy(arena, text, strlen(text));
}

/* What is asked of a record, out of the arena in which it was read. */
static qll_record record_kept(const qll_record *read, qll_arena *arena)
{
    qll_record kept = {
        .id = copy(arena, read->id),
        .kind = read->kind,
        .site = copy(arena, read->site),
        .document = copy(arena, read->document),
        .corrects = copy(arena, read->corrects),
        .who = copy(arena, read->who),
        .written_at = copy(arena, read->written_at),
        .written_ms = read->written_ms,
        .body = {qll_arena_copy(arena, read->body.bytes, read->body.size), read->body.size},
        .title = copy(arena, read->title),
        .day = copy(arena, read->day),
        .every_months = read->every_months,
    };
    return kept;
}

static size_t count_lines(qll_text text)
{
    size_t lines = 1;
    for (size_t i = 0; i < text.size; i++) {
        lines += text.bytes[i] == '\n' ? 1 : 0;
    }
    return lines;
}

/* Records of many lines; what cannot be read, of a newer version, is left out. Each is read in @p room, which is then free again. */
static qll_status read_lines(qll_text text, qll_arena *arena, qll_arena *room, qll_record *records,
                             size_t *count)
{
    qll_knowledge knowledge;
    const size_t refused = qll_arena_refused(arena);
    qll_status status = qll_knowledge_read(arena, &knowledge);
    while (status == QLL_OK && text.size > 0) {
        const char *end = memchr(text.bytes, '\n', text.size);
        const size_t size = end == NULL ? text.size : (size_t)(end - text.bytes);
        const qll_arena_mark mark = qll_arena_now(room);
        qll_problems problems = qll_problems_none(room);
        qll_document document;
        qll_record record;
        status =
            qll_document_read((qll_text){text.bytes, size}, "record", room, &document, &problems);
        status = status == QLL_OK ? qll_record_of(&document, &knowledge, room, &record, &problems)
                                  : status;
        if (status == QLL_OK) {
            records[*count] = record_kept(&record, arena);
            *count += 1;
        }
        status = qll_arena_refused(arena) != refused ? QLL_NO_MEMORY
                 : status == QLL_REFUSED             ? QLL_OK
                                                     : status;
        qll_arena_reset(room, mark);
        text = (qll_text){text.bytes + size + (end == NULL ? 0 : 1),
                          text.size - size - (end == NULL ? 0 : 1)};
    }
    return status;
}

static qll_status read_records(size_t at, qll_arena *arena, qll_record **records, size_t *count)
{
    if (at >= door.input_count) {
        return QLL_WRONG_USE;
    }
    *count = 0;
    *records = qll_arena_take(arena, count_lines(door.inputs[at]), sizeof **records);
    qll_arena *room = *records == NULL ? NULL : qll_arena_open(QLL_ROOM_SIZE);
    const qll_status status =
        room == NULL ? QLL_NO_MEMORY : read_lines(door.inputs[at], arena, room, *records, count);
    qll_arena_close(room);
    return status;
}

/* ---- rows ---- */

static int months_of(const qll_node *node)
{
    const qll_node *months = qll_node_find(node, "every_months");
    const bool is_number = months != NULL && months->kind == QLL_NODE_NUMBER
                           && months->number >= 0.0 && months->number <= 1200.0;
    return is_number ? (int)months->number : 0;
}

static size_t conflicts_of(const qll_node *node)
{
    const qll_node *count = qll_node_find(node, "conflicts");
    const bool is_number = count != NULL && count->kind == QLL_NODE_NUMBER && count->number >= 0.0
                           && count->number <= 1e6;
    return is_number ? (size_t)count->number : 0;
}

/* A row as put_row() writes it, with a "name_key" beside; false where it is none. */
static bool row_of(const qll_node *node, qll_site_row *row)
{
    if (node->kind != QLL_NODE_OBJECT) {
        return false;
    }
    *row = (qll_site_row){
        .site = qll_door_text(node, "site"),
        .name = qll_door_text(node, "name"),
        .name_key = qll_door_text(node, "name_key"),
        .plan_day = qll_door_text(node, "plan_day"),
        .every_months = months_of(node),
        .service_day = qll_door_text(node, "service_day"),
        .conflicts = conflicts_of(node),
    };
    row->name = row->name == NULL ? "" : row->name;
    row->name_key = row->name_key == NULL ? row->name : row->name_key;
    return row->site != NULL;
}

static qll_status read_rows(size_t at, qll_arena *arena, qll_site_row **rows, size_t *count)
{
    qll_document document;
    const qll_status status = read_input(at, "rows", &document);
    if (status != QLL_OK || document.root->kind != QLL_NODE_LIST) {
        return status == QLL_OK ? QLL_WRONG_USE : status;
    }
    *count = 0;
    *rows = qll_arena_take(arena, document.root->child_count, sizeof **rows);
    if (*rows == NULL) {
        return QLL_NO_MEMORY;
    }
    for (const qll_node *node = document.root->first_child; node != NULL; node = node->next) {
        if (!row_of(node, &(*rows)[*count])) {
            return QLL_WRONG_USE;
        }
        *count += 1;
    }
    return QLL_OK;
}

/* Whether @p one was written after @p other, NULL = nothing. */
static bool is_later(const qll_record *one, const qll_record *other)
{
    return other == NULL || one->written_ms > other->written_ms
           || (one->written_ms == other->written_ms && strcmp(one->id, other->id) > 0);
}

static bool is_service(const qll_record *record)
{
    return record->kind == QLL_RECORD_VISIT && record->title != NULL && record->day != NULL
           && (strcmp(record->title, "service") == 0
               || strcmp(record->title, "commissioning") == 0);
}

/* Documents of which more than one version stands. */
static size_t count_conflicts(const qll_record *records, size_t count)
{
    size_t conflicts = 0;
    for (size_t i = 0; i < count; i++) {
        size_t before = 0;
        size_t after = 0;
        for (size_t j = 0; j < count && records[i].document != NULL; j++) {
            const bool is_same = j != i && records[j].document != NULL
                                 && strcmp(records[i].document, records[j].document) == 0;
            before += is_same && j < i ? 1 : 0;
            after += is_same && j > i ? 1 : 0;
        }
        conflicts += before == 0 && after > 0 ? 1 : 0;
    }
    return conflicts;
}

/* The row of a list, out of what stands of one site: as the store works it out. */
static void put_row(qll_json *json, const qll_record *records, size_t count)
{
    const qll_record *site = NULL;
    const qll_record *plan = NULL;
    const char *service_day = NULL;
    for (size_t i = 0; i < count; i++) {
        const qll_record *one = &records[i];
        site = one->kind == QLL_RECORD_SITE && is_later(one, site) ? one : site;
        plan = one->kind == QLL_RECORD_PLAN && is_later(one, plan) ? one : plan;
        if (is_service(one) && (service_day == NULL || strcmp(one->day, service_day) > 0)) {
            service_day = one->day;
        }
    }
    qll_json_open_object(json);
    qll_json_put_text(json, "site", records[0].site);
    qll_json_put_text(json, "name", site == NULL || site->title == NULL ? "" : site->title);
    qll_json_put_text_or_null(json, "plan_day", plan == NULL ? NULL : plan->day);
    qll_json_put_whole(json, "every_months", plan == NULL ? 0 : plan->every_months);
    qll_json_put_text_or_null(json, "service_day", service_day);
    qll_json_put_whole(json, "conflicts", (long long)count_conflicts(records, count));
    qll_json_close_object(json);
}

static qll_status hand_over(const telling *to, qll_writer *writer)
{
    const qll_text text = qll_writer_text(writer);
    *to->answer = (qll_answer){.bytes = text.bytes, .size = text.size};
    return QLL_OK;
}

static qll_status tell_rows(const telling *to)
{
    qll_record *records = NULL;
    size_t count = 0;
    const qll_status status = read_records(0, to->arena, &records, &count);
    if (status != QLL_OK) {
        return status;
    }
    const qll_problems none = {0};
    qll_writer writer = qll_writer_new(to->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_head(&json, "rows", &to->wording, &none);
    qll_json_put_list(&json, "rows");
    for (size_t begins = 0, ends = 0; begins < count; begins = ends) {
        const char *site = records[begins].site;
        for (ends = begins + 1; site != NULL && ends < count && records[ends].site != NULL
                                && strcmp(records[ends].site, site) == 0;
             ends++) {
        }
        if (site != NULL) {
            put_row(&json, &records[begins], ends - begins);
        }
    }
    qll_json_close_list(&json);
    qll_json_close_object(&json);
    return hand_over(to, &writer);
}

/* ---- what is told ---- */

static qll_status tell_record(const telling *to)
{
    qll_document document;
    qll_knowledge knowledge;
    qll_record record;
    qll_problems problems = qll_problems_none(to->arena);
    qll_status status = read_input(0, "record", &document);
    status = status == QLL_OK ? qll_knowledge_read(to->arena, &knowledge) : status;
    if (status != QLL_OK) {
        return status;
    }
    status = qll_record_of(&document, &knowledge, to->arena, &record, &problems);
    qll_writer writer = qll_writer_new(to->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_head(&json, "record", &to->wording, &problems);
    qll_json_close_object(&json);
    (void)hand_over(to, &writer);
    return status;
}

static qll_status tell_sites(const telling *to)
{
    qll_site_row *rows = NULL;
    size_t count = 0;
    const qll_status status = read_rows(0, to->arena, &rows, &count);
    return status == QLL_OK ? qll_tell_sites(&to->of, rows, count, to->arena, to->answer) : status;
}

static qll_status tell_due(const telling *to)
{
    qll_site_row *rows = NULL;
    size_t count = 0;
    const qll_status status = read_rows(0, to->arena, &rows, &count);
    return status == QLL_OK ? qll_tell_due(&to->of, rows, count, to->arena, to->answer) : status;
}

static qll_status tell_calendar(const telling *to)
{
    qll_site_row *rows = NULL;
    size_t count = 0;
    const qll_status status =
        to->created == NULL ? QLL_WRONG_USE : read_rows(0, to->arena, &rows, &count);
    return status == QLL_OK
               ? qll_tell_calendar(&to->of, rows, count, to->created, to->arena, to->answer)
               : status;
}

static qll_status tell_trend(const telling *to)
{
    qll_document document;
    qll_site_row row = {0};
    qll_record *records = NULL;
    size_t count = 0;
    qll_status status = read_input(0, "row", &document);
    if (status == QLL_OK && !row_of(document.root, &row)) {
        status = QLL_WRONG_USE;
    }
    status = status == QLL_OK ? read_records(1, to->arena, &records, &count) : status;
    return status == QLL_OK ? qll_tell_trend(&to->of, &row, records, count, to->arena, to->answer)
                            : status;
}

/* ---- the question ---- */

static const struct {
    const char *word;
    qll_status (*tell)(const telling *to);
} tellings[] = {
    {"record", tell_record}, {"rows", tell_rows},         {"sites", tell_sites},
    {"due", tell_due},       {"calendar", tell_calendar}, {"trend", tell_trend},
};

static bool read_telling(const qll_node *root, telling *to)
{
    const char *form = qll_door_text(root, "form");
    const char *language = qll_door_text(root, "language");
    const qll_node *most = qll_node_find(root, "most");
    const qll_node *sheets = qll_node_find(root, "sheets");
    const size_t place = language == NULL ? 0
                                          : qll_words_place(qll_text_of(language),
                                                            qll_language_words, QLL_LANGUAGE_COUNT);
    to->of = (qll_telling){
        .form = form != NULL && strcmp(form, "text") == 0 ? QLL_FORM_TEXT : QLL_FORM_JSON,
        .units = qll_door_text(root, "units"),
        .language = language,
        .today = qll_door_text(root, "today"),
        .has_sheets = sheets != NULL && sheets->kind == QLL_NODE_TRUE,
        .most = most != NULL && most->kind == QLL_NODE_NUMBER && most->number >= 0.0
                        && most->number <= 1e9
                    ? (size_t)most->number
                    : 0,
    };
    to->created = qll_door_text(root, "created");
    to->wording.language = place < QLL_LANGUAGE_COUNT ? (qll_language)place : (qll_language)0;
    return place < QLL_LANGUAGE_COUNT;
}

/* Tells what was handed in as number @p question asks for; a qll_status. */
int quell_tell(size_t question)
{
    qll_document document;
    telling to = {.arena = door.arena, .answer = &door.answer};
    if (door.arena == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t refused = qll_arena_refused(door.arena);
    qll_status status = read_input(question, "question", &document);
    if (status == QLL_OK && !read_telling(document.root, &to)) {
        status = QLL_WRONG_USE;
    }
    const char *word = status == QLL_OK ? qll_door_text(document.root, "tell") : NULL;
    size_t at = 0;
    while (word != NULL && at < QLL_COUNT(tellings) && strcmp(tellings[at].word, word) != 0) {
        at += 1;
    }
    if (status == QLL_OK) {
        status = word == NULL || at == QLL_COUNT(tellings) ? QLL_WRONG_USE : tellings[at].tell(&to);
    }
    status = qll_arena_refused(door.arena) != refused ? QLL_NO_MEMORY : status;
    door.answer = status == QLL_NO_MEMORY ? (qll_answer){0} : door.answer;
    return (int)status;
}
