#include "documents/read_record.h"

#include "base/count.h"
#include "documents/case_fields.h"
#include "documents/record_fields.h"
#include "records/day.h"

#include <math.h>
#include <string.h>

/* Hexadecimal digits of a SHA-256. */
#define QLL_HASH_DIGITS 64

typedef struct record_pass {
    qll_reader reader;
    const qll_document *document;
    const qll_knowledge *knowledge;
    qll_arena *arena;
    qll_assumed *assumed;
    qll_problems *problems;
} record_pass;

/* ---- ids, moments, days ---- */

static bool is_hexadecimal(char c)
{
    return qll_is_digit(c) || (c >= 'a' && c <= 'f');
}

static bool is_id(const char *text)
{
    for (size_t i = 0; i < QLL_RECORD_ID_SIZE; i++) {
        const bool is_hyphen = i == 8 || i == 13 || i == 18 || i == 23;
        if (is_hyphen ? text[i] != '-' : !is_hexadecimal(text[i])) {
            return false;
        }
    }
    return text[QLL_RECORD_ID_SIZE] == '\0';
}

static void refuse_text(record_pass *pass, qll_where where, const qll_said *says)
{
    (void)qll_reader_refuse(&pass->reader, where, QLL_CODE_OUT_OF_RANGE, says, NULL);
}

/* The id of @p key; NULL where there is none or a problem was added. */
static const char *read_id(record_pass *pass, const qll_object *object, const char *key)
{
    const char *text = qll_object_text(object, key);
    if (text != NULL && !is_id(text)) {
        refuse_text(pass, qll_object_where(object, key),
                    QLL_SAYS_WITH(RECORD_NO_ID, qll_as_quoted(qll_text_of(text))));
        return NULL;
    }
    return text;
}

/* The day of @p key; NULL likewise. */
static const char *read_day(record_pass *pass, const qll_object *object, const char *key)
{
    const char *text = qll_object_text(object, key);
    int day = 0;
    if (text != NULL && !qll_day_read(text, &day)) {
        refuse_text(pass, qll_object_where(object, key),
                    QLL_SAYS_WITH(RECORD_NO_DAY, qll_as_quoted(qll_text_of(text))));
        return NULL;
    }
    return text;
}

static const char *day_text(qll_arena *arena, int day)
{
    char text[QLL_DAY_SIZE];
    qll_day_write(day, text);
    return qll_arena_copy(arena, text, strlen(text));
}

/* ---- bodies ---- */

/* A part of the document that has a reader of its own; its problems stand at their place in the whole. */
static void read_case_in(record_pass *pass, const qll_node *node, qll_visit *visit)
{
    if (node == NULL) {
        return;
    }
    qll_document inner = *pass->document;
    inner.root = node;
    visit->has_case = true;
    const qll_status status = qll_case_read(&inner, pass->knowledge, pass->arena, &visit->read,
                                            pass->assumed, pass->problems);
    (void)status; /* the problems have it */
}

static void read_visit(record_pass *pass, const qll_object *body, qll_visit *visit)
{
    const size_t purpose = qll_object_word(body, "purpose");
    *visit = (qll_visit){
        .purpose = purpose == SIZE_MAX ? QLL_PURPOSE_OTHER : (qll_purpose)purpose,
        .day = read_day(pass, body, "day"),
        .strainer_loss_pa = (double)NAN,
        .strainer_flow_m3s = (double)NAN,
    };
    (void)qll_object_text(body, "note");
    read_case_in(pass, qll_object_find(body, "case"), visit);
    const qll_object strainer = qll_object_inner(body, "strainer", &qll_group_record_strainer);
    if (strainer.node != NULL) {
        visit->strainer_loss_pa = qll_object_quantity(&strainer, "loss");
        visit->strainer_flow_m3s = qll_object_quantity(&strainer, "flow");
        visit->is_strainer_cleaned = qll_object_flag(&strainer, "cleaned", false);
    }
}

static void read_site_body(const qll_object *body, qll_arena *arena, qll_record *record)
{
    static const char *const keys[] = {"name", "address", "contact", "phone", "note"};
    qll_writer words = qll_writer_new(arena);
    for (size_t i = 0; i < QLL_COUNT(keys); i++) {
        const char *text = qll_object_text(body, keys[i]);
        if (text != NULL) {
            qll_write(&words, words.size > 0 ? " " : "");
            qll_write(&words, text);
        }
    }
    record->title = qll_object_text(body, "name");
    record->words = qll_writer_text(&words).bytes;
}

static void read_plan(record_pass *pass, const qll_object *body, int written_day,
                      qll_record *record)
{
    const double months = qll_object_whole(body, "every_months");
    record->every_months = isnan(months) ? 0 : (int)months;
    record->day = read_day(pass, body, "first");
    if (record->day == NULL && record->every_months > 0) {
        record->day =
            day_text(pass->arena, qll_day_after_months(written_day, record->every_months));
    }
    (void)qll_object_text(body, "note");
}

static void read_attachment(record_pass *pass, const qll_object *body)
{
    const char *sha256 = qll_object_text(body, "sha256");
    if (sha256 != NULL
        && (strlen(sha256) != QLL_HASH_DIGITS
            || strspn(sha256, "0123456789abcdef") != QLL_HASH_DIGITS)) {
        refuse_text(pass, qll_object_where(body, "sha256"),
                    QLL_SAYS_WITH(RECORD_NO_HASH, qll_as_quoted(qll_text_of(sha256))));
    }
    (void)qll_object_whole(body, "size");
    (void)qll_object_text(body, "type");
}

/* A reading or test by itself is a case of one: the same reader. */
static void read_one_of(record_pass *pass, const qll_object *body, const char *list)
{
    qll_writer text = qll_writer_new(pass->arena);
    qll_write_format(&text, "{\"case\":1,\"%s\":[", list);
    qll_json json = qll_json_new(&text);
    qll_json_node(&json, body->node);
    qll_write(&text, "]}");
    qll_document document;
    qll_read_case read;
    qll_status status = qll_document_read(qll_writer_text(&text), pass->document->name, pass->arena,
                                          &document, pass->problems);
    if (status == QLL_OK) {
        status = qll_case_read(&document, pass->knowledge, pass->arena, &read, pass->assumed,
                               pass->problems);
    }
    (void)status; /* the problems have it */
}

static void read_body(record_pass *pass, const qll_object *root, int written_day,
                      qll_record *record)
{
    const qll_field_group *group = qll_record_body_group(record->kind);
    if (group == NULL) {
        return;
    }
    const qll_object body = qll_object_inner(root, "body", group);
    if (body.node == NULL || body.broken) {
        return;
    }
    qll_visit visit;
    switch (record->kind) {
    case QLL_RECORD_VISIT:
        read_visit(pass, &body, &visit);
        record->title = qll_purpose_words[visit.purpose];
        record->day = visit.day != NULL ? visit.day : day_text(pass->arena, written_day);
        break;
    case QLL_RECORD_READING: read_one_of(pass, &body, "readings"); break;
    case QLL_RECORD_TEST: read_one_of(pass, &body, "tests"); break;
    case QLL_RECORD_PHOTO:
    case QLL_RECORD_SOUND:
        read_attachment(pass, &body);
        (void)qll_object_text(&body, "caption");
        break;
    case QLL_RECORD_LOG:
        read_attachment(pass, &body);
        (void)read_id(pass, &body, "survey");
        record->title = qll_object_text(&body, "name");
        break;
    case QLL_RECORD_SITE: read_site_body(&body, pass->arena, record); break;
    case QLL_RECORD_PLAN: read_plan(pass, &body, written_day, record); break;
    case QLL_RECORD_SURVEY:
    case QLL_RECORD_STATION:
    case QLL_RECORD_LIKELIHOOD:
    case QLL_RECORD_KIND_COUNT: break;
    }
}

/* ---- the envelope ---- */

/* The value at @p node without the blanks between its parts. */
static qll_text without_blanks(const qll_document *document, const qll_node *node, qll_arena *arena)
{
    const char *source = document->source.bytes;
    char *made = qll_arena_take(arena, document->source.size - node->offset + 1, 1);
    size_t size = 0;
    size_t depth = 0;
    bool in_text = false;
    for (size_t at = node->offset; made != NULL && at < document->source.size; at++) {
        const char c = source[at];
        if (in_text && c == '\\') {
            made[size] = c;
            made[size + 1] = source[at + 1];
            size += 2;
            at += 1;
            continue;
        }
        in_text = c == '"' ? !in_text : in_text;
        depth += !in_text && (c == '{' || c == '[') ? 1 : 0;
        if (in_text || strchr(" \t\r\n", c) == NULL) {
            made[size] = c;
            size += 1;
        }
        if (!in_text && (c == '}' || c == ']')) {
            depth -= 1;
            if (depth == 0) {
                break;
            }
        }
    }
    return (qll_text){made == NULL ? "" : made, size};
}

static void read_parents(record_pass *pass, const qll_object *root, qll_record *record)
{
    const qll_node *list = qll_object_find(root, "parents");
    if (list == NULL) {
        return;
    }
    if (list->kind != QLL_NODE_LIST) {
        (void)qll_reader_wrong_kind(&pass->reader, list, QLL_SAYS(EXPECT_LIST));
        return;
    }
    if (list->child_count > QLL_RECORD_PARENTS) {
        (void)qll_reader_refuse(
            &pass->reader, qll_at(list), QLL_CODE_TOO_LARGE,
            QLL_SAYS_WITH(RECORD_TOO_MANY_PARENTS, qll_as_whole(QLL_RECORD_PARENTS)), NULL);
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        const char *text =
            node->kind == QLL_NODE_TEXT ? qll_text_closed(node->text, pass->arena) : "";
        if (text == NULL || !is_id(text)) {
            refuse_text(pass, qll_at(node), QLL_SAYS_WITH(RECORD_NO_ID, qll_as_found(node)));
            continue;
        }
        record->parents[record->parent_count] = text;
        record->parent_count += 1;
    }
}

static void needs(record_pass *pass, const qll_object *root, const qll_record *record,
                  const char *key)
{
    (void)qll_reader_refuse(
        &pass->reader, qll_at_missing(root->node, key), QLL_CODE_MISSING_KEY,
        QLL_SAYS_WITH(RECORD_NEEDS, qll_as_is(qll_record_kind_words[record->kind]), qll_as_is(key)),
        NULL);
}

static void may_not(record_pass *pass, const qll_object *root, const qll_record *record,
                    const char *key)
{
    const qll_node *node = qll_object_find(root, key);
    if (node != NULL) {
        (void)qll_reader_refuse(&pass->reader, qll_at_key(node), QLL_CODE_CONTRADICTION,
                                QLL_SAYS_WITH(RECORD_FACT_HAS,
                                              qll_as_is(qll_record_kind_words[record->kind]),
                                              qll_as_is(key)),
                                NULL);
    }
}

/* What a fact may not have, and what a version must. */
static void check_kind(record_pass *pass, const qll_object *root, const qll_record *record)
{
    if (record->kind != QLL_RECORD_LIKELIHOOD && qll_object_find(root, "site") == NULL) {
        needs(pass, root, record, "site");
    }
    if (qll_record_is_fact(record->kind)) {
        may_not(pass, root, record, "document");
        may_not(pass, root, record, "parents");
        return;
    }
    if (qll_object_find(root, "document") == NULL) {
        needs(pass, root, record, "document");
    }
    const qll_node *corrects = qll_object_find(root, "corrects");
    if (corrects != NULL) {
        (void)qll_reader_refuse(
            &pass->reader, qll_at_key(corrects), QLL_CODE_CONTRADICTION,
            QLL_SAYS_WITH(RECORD_VERSION_CORRECTS, qll_as_is(qll_record_kind_words[record->kind])),
            NULL);
    }
    if (record->kind == QLL_RECORD_SITE && record->site != NULL && record->document != NULL
        && strcmp(record->site, record->document) != 0) {
        (void)qll_reader_refuse(&pass->reader, qll_object_where(root, "document"),
                                QLL_CODE_CONTRADICTION, QLL_SAYS(RECORD_SITE_SELF), NULL);
    }
}

static void read_root(record_pass *pass, qll_record *record)
{
    const qll_object root = qll_object_open(&pass->reader, pass->document->root, &qll_group_record);
    (void)qll_object_whole(&root, "record");
    const size_t kind = qll_object_word(&root, "kind");
    *record = (qll_record){
        .id = read_id(pass, &root, "id"),
        .kind = kind == SIZE_MAX ? QLL_RECORD_KIND_COUNT : (qll_record_kind)kind,
        .site = read_id(pass, &root, "site"),
        .document = read_id(pass, &root, "document"),
        .corrects = read_id(pass, &root, "corrects"),
        .who = qll_object_text(&root, "who"),
        .written_at = qll_object_text(&root, "at"),
    };
    read_parents(pass, &root, record);
    int day = 0;
    if (record->written_at != NULL
        && !qll_moment_read(record->written_at, &record->written_ms, &day)) {
        refuse_text(
            pass, qll_object_where(&root, "at"),
            QLL_SAYS_WITH(RECORD_NO_MOMENT, qll_as_quoted(qll_text_of(record->written_at))));
    }
    const qll_node *body = qll_object_find(&root, "body");
    if (kind == SIZE_MAX || body == NULL) {
        return;
    }
    check_kind(pass, &root, record);
    if (body->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, body, QLL_SAYS(EXPECT_OBJECT));
        return;
    }
    read_body(pass, &root, day, record);
    record->body = without_blanks(pass->document, body, pass->arena);
}

static record_pass begin_pass(const qll_document *document, const qll_knowledge *knowledge,
                              qll_arena *arena, qll_assumed *assumed, qll_problems *problems)
{
    record_pass pass = {
        qll_reader_new(document, arena, assumed), document, knowledge, arena, assumed, problems};
    pass.reader.manual = "record.md";
    return pass;
}

/* What readers of parts found counts as well. */
static qll_status end_pass(record_pass *pass)
{
    const qll_status status = qll_reader_end(&pass->reader, pass->problems);
    return status == QLL_OK ? qll_problems_status(pass->problems) : status;
}

qll_status qll_record_of(const qll_document *document, const qll_knowledge *knowledge,
                         qll_arena *arena, qll_record *record, qll_problems *problems)
{
    qll_assumed assumed = qll_assumed_none(arena);
    record_pass pass = begin_pass(document, knowledge, arena, &assumed, problems);
    *record = (qll_record){0};
    if (qll_reader_begins(&pass.reader, document->root, &qll_group_record)) {
        read_root(&pass, record);
    }
    return end_pass(&pass);
}

qll_status qll_visit_of(const qll_document *document, const qll_knowledge *knowledge,
                        qll_arena *arena, qll_visit *visit, qll_problems *problems)
{
    qll_assumed assumed = qll_assumed_none(arena);
    record_pass pass = begin_pass(document, knowledge, arena, &assumed, problems);
    const qll_object body = qll_object_open(&pass.reader, document->root, &qll_group_record_visit);
    *visit = (qll_visit){.strainer_loss_pa = (double)NAN, .strainer_flow_m3s = (double)NAN};
    if (body.node != NULL && !body.broken) {
        read_visit(&pass, &body, visit);
    }
    return end_pass(&pass);
}
