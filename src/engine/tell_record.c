/* One record, in and out. */
#include "base/quote.h"
#include "documents/read_record.h"
#include "documents/record_fields.h"
#include "documents/write_records.h"
#include "engine/tell.h"

#include <string.h>

static qll_status hand_over(qll_problems *problems, qll_status status, const char *language,
                            qll_answer *answer)
{
    size_t place = 0;
    while (language != NULL && place < QLL_LANGUAGE_COUNT
           && strcmp(language, qll_language_words[place]) != 0) {
        place++;
    }
    const qll_wording wording = {.language = place < QLL_LANGUAGE_COUNT ? (qll_language)place
                                                                        : (qll_language)0};
    qll_problem *list = qll_arena_take(problems->arena, problems->kept_count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < problems->kept_count; i++) {
        list[i] = qll_wording_problem(problems->arena, &wording, &problems->kept[i]);
    }
    *answer = (qll_answer){
        .problems = list,
        .problem_count = problems->kept_count,
        .problem_total = problems->count,
        .warning = qll_say(wording.language, QLL_SAYS_WARNING),
    };
    return status;
}

struct qll_record_tables {
    qll_knowledge knowledge;
};

const qll_record_tables *qll_record_tables_open(qll_arena *arena)
{
    qll_record_tables *tables = qll_arena_take(arena, 1, sizeof *tables);
    return tables == NULL || qll_knowledge_read(arena, &tables->knowledge) != QLL_OK ? NULL
                                                                                     : tables;
}

qll_status qll_record_read(const qll_record_tables *tables, const qll_input *input,
                           const char *language, qll_arena *arena, qll_record *record,
                           qll_answer *answer)
{
    const size_t refused = qll_arena_refused(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    *record = (qll_record){0};
    *answer = (qll_answer){0};
    qll_status status =
        qll_document_read((qll_text){input->bytes, input->size},
                          input->name == NULL ? "" : input->name, arena, &document, &problems);
    if (status == QLL_OK && tables == NULL) {
        tables = qll_record_tables_open(arena);
        status = tables == NULL ? QLL_NO_MEMORY : QLL_OK;
    }
    if (status == QLL_OK) {
        status = qll_record_of(&document, &tables->knowledge, arena, record, &problems);
    }
    if (status == QLL_OK || status == QLL_REFUSED) {
        status = hand_over(&problems, status, language, answer);
    }
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}

qll_status qll_record_write(const qll_record *record, qll_arena *arena, qll_text *json)
{
    const size_t refused = qll_arena_refused(arena);
    qll_writer writer = qll_writer_new(arena);
    qll_record_json(&writer, record, false);
    *json = qll_writer_text(&writer);
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : QLL_OK;
}

/* ---- a new one ---- */

/* A value as the field called @p key takes it: a number, true or false as they are, all else a text. */
static void put_value(qll_json *json, const qll_field_group *group, qll_text key, qll_text value)
{
    qll_value form = QLL_VALUE_TEXT;
    for (size_t i = 0; group != NULL && i < group->count; i++) {
        form = qll_text_is(key, group->fields[i].key) ? group->fields[i].value : form;
    }
    double number = 0.0;
    const bool is_number =
        form == QLL_VALUE_WHOLE && value.size > 0 && qll_text_number(value, &number) == value.size;
    const bool is_flag =
        form == QLL_VALUE_FLAG && (qll_text_is(value, "true") || qll_text_is(value, "false"));
    if (is_number) {
        qll_json_number(json, number);
    } else if (is_flag) {
        qll_json_bool(json, qll_text_is(value, "true"));
    } else {
        qll_writer text = qll_writer_new(json->writer->arena);
        qll_write_json_text(&text, value);
        qll_json_literal(json, qll_writer_text(&text));
    }
}

/* "strainer.loss=4 psi" to the group's name, the key and the value; without a stop the name is empty. */
static bool take_apart(const char *argument, qll_text *inner, qll_text *key, qll_text *value)
{
    const char *equals = strchr(argument, '=');
    if (equals == NULL) {
        return false;
    }
    const char *stop = memchr(argument, '.', (size_t)(equals - argument));
    const char *begins = stop == NULL ? argument : stop + 1;
    *inner = (qll_text){argument, stop == NULL ? 0 : (size_t)(stop - argument)};
    *key = (qll_text){begins, (size_t)(equals - begins)};
    *value = qll_text_of(equals + 1);
    return true;
}

/* Whether an argument that is empty leaves its member out: where there is a body that it changes. */
static bool takes_away(const qll_record_draft *draft, qll_text value)
{
    return value.size == 0 && draft->whole.bytes != NULL && draft->kind != QLL_RECORD_VISIT;
}

static void put_members(qll_json *json, const qll_record_draft *draft, const qll_field_group *group,
                        bool is_inner)
{
    for (size_t i = 0; i < draft->argument_count; i++) {
        qll_text inner;
        qll_text key;
        qll_text value;
        if (take_apart(draft->arguments[i], &inner, &key, &value) && (inner.size > 0) == is_inner
            && !takes_away(draft, value)) {
            const char *closed = qll_text_closed(key, json->writer->arena);
            qll_json_key(json, closed == NULL ? "" : closed);
            put_value(json, group, key, value);
        }
    }
}

static bool has_inner(const qll_record_draft *draft)
{
    bool has = false;
    for (size_t i = 0; i < draft->argument_count; i++) {
        qll_text inner = {0};
        qll_text key;
        qll_text value;
        has = has || (take_apart(draft->arguments[i], &inner, &key, &value) && inner.size > 0);
    }
    return has;
}

static const qll_field_group *group_of(qll_record_kind kind)
{
    return kind == QLL_RECORD_SITE    ? &qll_group_record_site
           : kind == QLL_RECORD_VISIT ? &qll_group_record_visit
           : kind == QLL_RECORD_PLAN  ? &qll_group_record_plan
                                      : NULL;
}

static bool is_changed(const qll_record_draft *draft, qll_text member)
{
    for (size_t i = 0; i < draft->argument_count; i++) {
        qll_text inner;
        qll_text key;
        qll_text value;
        if (take_apart(draft->arguments[i], &inner, &key, &value) && inner.size == 0
            && qll_text_equal(key, member)) {
            return true;
        }
    }
    return false;
}

/* The members of @p whole that no argument changes. */
static void put_others(qll_json *json, const qll_record_draft *draft, const qll_node *whole)
{
    for (const qll_node *child = whole->first_child; child != NULL; child = child->next) {
        const char *key = qll_text_closed(child->key, json->writer->arena);
        if (key != NULL && !is_changed(draft, child->key)) {
            qll_json_key(json, key);
            qll_json_node(json, child);
        }
    }
}

/* @p whole is JSON already, or nothing. */
static void put_body(qll_json *json, const qll_record_draft *draft, const qll_node *whole)
{
    qll_json_key(json, "body");
    const bool has_members = whole == NULL || group_of(draft->kind) != NULL;
    if (!has_members) {
        qll_json_node(json, whole);
        return;
    }
    qll_json_open_object(json);
    if (whole != NULL && draft->kind != QLL_RECORD_VISIT && whole->kind == QLL_NODE_OBJECT) {
        put_others(json, draft, whole);
    }
    put_members(json, draft, group_of(draft->kind), false);
    if (has_inner(draft)) {
        qll_json_put_object(json, "strainer");
        put_members(json, draft, &qll_group_record_strainer, true);
        qll_json_close_object(json);
    }
    if (whole != NULL && draft->kind == QLL_RECORD_VISIT) {
        qll_json_key(json, "case");
        qll_json_node(json, whole);
    }
    qll_json_close_object(json);
}

static void put_id(qll_json *json, const char *key, const char *id)
{
    if (id != NULL) {
        qll_json_put_text(json, key, id);
    }
}

static void put_draft(qll_json *json, const qll_record_draft *draft, const qll_node *whole)
{
    qll_json_open_object(json);
    qll_json_put_whole(json, "record", 1);
    qll_json_put_text(json, "id", draft->id);
    qll_json_put_text(json, "kind", qll_record_kind_words[draft->kind]);
    put_id(json, "site", draft->site);
    put_id(json, "document", draft->document);
    if (draft->parent_count > 0) {
        qll_json_put_list(json, "parents");
        for (size_t i = 0; i < draft->parent_count; i++) {
            qll_json_text(json, draft->parents[i]);
        }
        qll_json_close_list(json);
    }
    put_id(json, "corrects", draft->corrects);
    qll_json_put_text(json, "who", draft->who);
    qll_json_put_text(json, "at", draft->written_at);
    put_body(json, draft, whole);
    qll_json_close_object(json);
}

/* Lines are those of the record that was made, which nobody sees: the path says where. */
static void forget_lines(qll_answer *answer, qll_arena *arena)
{
    qll_problem *problems = qll_arena_take(arena, answer->problem_count, sizeof *problems);
    for (size_t i = 0; problems != NULL && i < answer->problem_count; i++) {
        problems[i] = answer->problems[i];
        problems[i].place.line = 0;
        problems[i].place.column = 0;
    }
    answer->problems = problems == NULL ? answer->problems : problems;
}

qll_status qll_record_make(const qll_record_draft *draft, const char *language, qll_arena *arena,
                           qll_record *record, qll_answer *answer)
{
    const size_t refused = qll_arena_refused(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_document document = {0};
    qll_status status = QLL_OK;
    if (draft->whole.bytes != NULL) {
        status = qll_document_read((qll_text){draft->whole.bytes, draft->whole.size},
                                   draft->whole.name == NULL ? "" : draft->whole.name, arena,
                                   &document, &problems);
    }
    if (status != QLL_OK) {
        return status == QLL_REFUSED ? hand_over(&problems, status, language, answer) : status;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    put_draft(&json, draft, document.root);
    const qll_text made = qll_writer_text(&writer);
    const qll_input input = {draft->whole.bytes == NULL ? "" : draft->whole.name, made.bytes,
                             made.size};
    status = qll_record_read(NULL, &input, language, arena, record, answer);
    forget_lines(answer, arena);
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}
