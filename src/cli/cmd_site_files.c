/* quell site import, export, backup. */
#include "base/base64.h"
#include "base/document.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/stored.h"
#include "host/host.h"
#include "host/long_file.h"
#include "host/stream.h"

#include <stdio.h>

/* Records that are read or kept at once. */
#define QLL_BATCH ((size_t)500)

static qll_status complain_file(const qll_cli_site *site, qll_text_id id, const char *path,
                                const char *why)
{
    qll_cli_complain(site->arena, site->line->language,
                     qll_cli_of_file(site->arena, id, path, why));
    return QLL_IO;
}

/* ---- export ---- */

/* What goes out, page by page: memory is given back after each. */
typedef struct going_out {
    qll_cli_site *site;
    qll_arena *pages;
    qll_long_file *file;
    const char *why; /* of the file */
    bool has_one;    /* of the list that is being written */
} going_out;

static qll_status write_text(going_out *out, qll_text text)
{
    return qll_long_file_write(out->file, text, &out->why);
}

static qll_status write_closed(going_out *out, const char *closed)
{
    return write_text(out, qll_text_of(closed));
}

static qll_status write_entry(going_out *out, qll_text entry)
{
    qll_status status = write_closed(out, out->has_one ? ",\n" : "\n");
    out->has_one = true;
    status = status == QLL_OK ? write_text(out, entry) : status;
    return status;
}

static qll_status write_records(going_out *out)
{
    long long after = 0;
    qll_records page = {0};
    qll_status status = QLL_OK;
    do {
        const qll_arena_mark mark = qll_arena_now(out->pages);
        qll_said why = {.id = QLL_TEXT_NONE};
        status = qll_store_changes(out->site->store, after, QLL_BATCH, out->pages, &page, &why);
        status = qll_cli_site_said(out->site, status, &why);
        for (size_t i = 0; status == QLL_OK && i < page.count; i++) {
            qll_text json = {0};
            status = qll_record_write(&page.list[i], out->pages, &json);
            status = status == QLL_OK ? write_entry(out, json) : status;
            after = page.list[i].receipt;
        }
        qll_arena_reset(out->pages, mark);
    } while (status == QLL_OK && page.count == QLL_BATCH);
    return status;
}

static qll_status write_part(going_out *out, const qll_store_whole *whole, uint64_t begins,
                             qll_text bytes)
{
    qll_writer entry = qll_writer_new(out->pages);
    qll_write_format(&entry, "{\"sha256\":\"%s\",\"size\":%zu,\"begins\":%zu,\"base64\":\"",
                     whole->sha256, (size_t)whole->size, (size_t)begins);
    qll_base64_write(&entry, bytes);
    qll_write(&entry, "\"}");
    return entry.no_memory ? QLL_NO_MEMORY : write_entry(out, qll_writer_text(&entry));
}

static qll_status write_attachments(going_out *out)
{
    qll_store_wholes wholes = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_store_attachments(out->site->store, out->site->arena, &wholes, &why);
    for (size_t i = 0; status == QLL_OK && i < wholes.count; i++) {
        uint64_t at = 0;
        while (status == QLL_OK && at < wholes.list[i].size) {
            const qll_arena_mark mark = qll_arena_now(out->pages);
            qll_text bytes = {0};
            status = qll_store_read_attachment(out->site->store, wholes.list[i].sha256, at,
                                               out->pages, &bytes, &why);
            status = status == QLL_OK ? write_part(out, &wholes.list[i], at, bytes) : status;
            at += bytes.size;
            qll_arena_reset(out->pages, mark);
        }
    }
    return qll_cli_site_said(out->site, status, &why);
}

static qll_status write_all(going_out *out)
{
    qll_status status = write_closed(out, "{\"records\":1,\"list\":[");
    status = status == QLL_OK ? write_records(out) : status;
    out->has_one = false;
    status = status == QLL_OK ? write_closed(out, "\n],\"attachments\":[") : status;
    status = status == QLL_OK ? write_attachments(out) : status;
    return status == QLL_OK ? write_closed(out, "\n]}\n") : status;
}

static qll_status write_readings(going_out *out)
{
    qll_store_sites rows = {0};
    qll_answer answer = {0};
    qll_status status = qll_cli_site_rows(out->site, NULL, &rows);
    if (status == QLL_OK) {
        status = qll_tell_readings(NULL, NULL, 0, true, out->pages, &answer);
    }
    for (size_t i = 0; status == QLL_OK && i <= rows.count; i++) {
        status = write_text(out, (qll_text){answer.bytes, answer.size});
        if (status != QLL_OK || i == rows.count) {
            break;
        }
        const qll_arena_mark mark = qll_arena_now(out->site->arena);
        qll_records records = {0};
        status = qll_cli_site_records(out->site, rows.list[i].site, &records);
        if (status == QLL_OK) {
            const qll_arena_mark before = qll_arena_now(out->pages);
            status = qll_tell_readings(&rows.list[i], records.list, records.count, false,
                                       out->pages, &answer);
            status =
                status == QLL_OK ? write_text(out, (qll_text){answer.bytes, answer.size}) : status;
            answer = (qll_answer){.bytes = ""};
            qll_arena_reset(out->pages, before);
        }
        qll_arena_reset(out->site->arena, mark);
    }
    return status;
}

/* "2026-11-30T12:00:00Z" as a calendar has it: "20261130T120000Z". */
static const char *calendar_moment(qll_arena *arena)
{
    qll_writer moment = qll_writer_new(arena);
    for (const char *c = qll_host_created(arena); *c != '\0'; c++) {
        qll_write_byte(&moment, *c, *c == '-' || *c == ':' ? 0 : 1);
    }
    return qll_writer_text(&moment).bytes;
}

static qll_status write_calendar(going_out *out)
{
    qll_store_sites rows = {0};
    qll_answer answer = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_store_planned(out->site->store, out->pages, &rows, &why);
    status = qll_cli_site_said(out->site, status, &why);
    if (status == QLL_OK) {
        qll_telling telling = out->site->telling;
        telling.form = QLL_FORM_TEXT;
        status = qll_tell_calendar(&telling, rows.list, rows.count, calendar_moment(out->pages),
                                   out->pages, &answer);
    }
    if (status == QLL_WRONG_USE) {
        return qll_cli_site_answer(out->site, status, &answer);
    }
    return status == QLL_OK ? write_text(out, (qll_text){answer.bytes, answer.size}) : status;
}

typedef qll_status write_function(going_out *out);

/* By the ending of the file; all as JSON where there is none. NULL for an ending nobody knows. */
static write_function *form_of(const char *path)
{
    return path == NULL || qll_text_ends_in(qll_text_of(path), ".json") ? write_all
           : qll_text_ends_in(qll_text_of(path), ".csv")                ? write_readings
           : qll_text_ends_in(qll_text_of(path), ".ics")                ? write_calendar
                                                                        : NULL;
}

qll_status qll_cli_site_export(const qll_cli_command *command, const qll_cli_line *line,
                               qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    const char *path = line->values[QLL_CLI_OUTPUT];
    write_function *write = form_of(path);
    if (write == NULL) {
        qll_cli_complain(
            arena, line->language,
            (qll_said){QLL_TEXT_CLI_EXPORT_ENDING, {qll_as_quoted(qll_text_of(path))}});
        return QLL_WRONG_USE;
    }
    going_out out = {.site = &site, .pages = qll_arena_open((size_t)512 * 1024 * 1024), .why = ""};
    if (out.pages == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, &site);
    status = status == QLL_OK ? qll_long_file_begin(path, arena, &out.file, &out.why) : status;
    if (status == QLL_OK) {
        status = write(&out);
        const qll_status ended = qll_long_file_end(out.file, status == QLL_OK, &out.why);
        status = status == QLL_OK ? ended : status;
    }
    if (status == QLL_IO && out.why[0] != '\0') {
        status =
            complain_file(&site, QLL_TEXT_CLI_CANNOT_WRITE, path == NULL ? "-" : path, out.why);
    }
    qll_store_close(site.store);
    qll_arena_close(out.pages);
    return status;
}

/* ---- import ---- */

typedef struct coming_in {
    qll_cli_site *site;
    qll_arena *batch_arena, *split_arena;
    qll_record_split *split;
    const qll_record_tables *tables;
    const char *name; /* of the file */
    qll_record records[QLL_BATCH];
    qll_put puts[QLL_BATCH];
    size_t count;
    size_t outcomes[3];
    size_t seen;
} coming_in;

static qll_status flush(coming_in *in)
{
    qll_put *puts = in->puts;
    qll_said why = {.id = QLL_TEXT_NONE};
    if (in->count == 0) {
        return QLL_OK;
    }
    const qll_status status = qll_store_put(in->site->store, in->records, in->count, QLL_PUT_BESIDE,
                                            in->batch_arena, puts, &why);
    for (size_t i = 0; status == QLL_OK && i < in->count; i++) {
        in->outcomes[puts[i].outcome] += 1;
        if (puts[i].outcome == QLL_PUT_REFUSED) {
            qll_cli_complain(in->batch_arena, in->site->line->language, puts[i].why);
        }
    }
    in->count = 0;
    qll_arena_reset(in->batch_arena, (qll_arena_mark){0});
    return qll_cli_site_said(in->site, status, &why);
}

static qll_status take_record(coming_in *in, qll_text json)
{
    qll_answer answer = {0};
    qll_writer name = qll_writer_new(in->batch_arena);
    in->seen += 1;
    qll_write_format(&name, "%s, record %zu", in->name, in->seen);
    const qll_input input = {qll_writer_text(&name).bytes, json.bytes, json.size};
    const qll_status status =
        qll_record_read(in->tables, &input, in->site->line->values[QLL_CLI_LANGUAGE],
                        in->batch_arena, &in->records[in->count], &answer);
    if (status == QLL_REFUSED) {
        in->outcomes[QLL_PUT_REFUSED] += 1;
        (void)!qll_cli_site_answer(in->site, status, &answer);
        return QLL_OK;
    }
    in->count += status == QLL_OK ? 1 : 0;
    return status == QLL_OK && in->count == QLL_BATCH ? flush(in) : status;
}

static qll_status take_part(coming_in *in, qll_text json)
{
    qll_problems problems = qll_problems_none(in->batch_arena);
    qll_document document;
    qll_status status = qll_document_read(json, in->name, in->batch_arena, &document, &problems);
    const qll_node *sha256 = status == QLL_OK ? qll_node_find(document.root, "sha256") : NULL;
    const qll_node *size = status == QLL_OK ? qll_node_find(document.root, "size") : NULL;
    const qll_node *begins = status == QLL_OK ? qll_node_find(document.root, "begins") : NULL;
    const qll_node *base64 = status == QLL_OK ? qll_node_find(document.root, "base64") : NULL;
    const char *name = sha256 == NULL ? NULL : qll_text_closed(sha256->text, in->batch_arena);
    qll_store_held held = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_store_part part = {.sha256 = name};
    if (name == NULL || size == NULL || begins == NULL || base64 == NULL || size->number < 0.0
        || begins->number < 0.0 || size->number > 1e15 || begins->number > 1e15
        || !qll_base64_read(base64->text, in->batch_arena, &part.bytes)) {
        return status == QLL_NO_MEMORY ? status : QLL_REFUSED;
    }
    part.size = (uint64_t)size->number;
    part.begins = (uint64_t)begins->number;
    status = qll_store_put_part(in->site->store, &part, &held, &why);
    return qll_cli_site_said(in->site, status, &why);
}

static qll_status take_one(void *context, qll_text json, qll_split_of of)
{
    coming_in *in = context;
    if (of == QLL_SPLIT_RECORD) {
        return take_record(in, json);
    }
    /* Behind the records. */
    qll_status status = flush(in);
    if (status == QLL_OK) {
        const qll_arena_mark mark = qll_arena_now(in->batch_arena);
        status = take_part(in, json);
        qll_arena_reset(in->batch_arena, mark);
    }
    return status;
}

static qll_status take_bytes(void *context, const char *bytes, size_t size)
{
    coming_in *in = context;
    return qll_record_split_take(in->split, bytes, size);
}

static qll_status read_all(coming_in *in, const char *path)
{
    qll_host_file file = {.path = path, .arena = in->site->arena};
    const char *why = "";
    qll_status status = qll_host_stream(&file, take_bytes, in, &why);
    if (status == QLL_IO && why[0] != '\0') {
        return complain_file(in->site, QLL_TEXT_CLI_CANNOT_READ, path, why);
    }
    status = status == QLL_OK ? flush(in) : status;
    if ((status == QLL_OK && (!qll_record_split_is_whole(in->split) || in->seen == 0))
        || status == QLL_REFUSED) {
        (void)complain_file(in->site, QLL_TEXT_CLI_NO_EXPORT, path, "");
        return QLL_REFUSED;
    }
    return status;
}

/* What was kept, also where the rest could not be read. */
static qll_status say_imported(const coming_in *in)
{
    qll_writer text = qll_writer_new(in->site->arena);
    qll_cli_say(&text, in->site->line->language,
                (qll_said){QLL_TEXT_CLI_RECORDS_IMPORTED,
                           {qll_as_whole(in->outcomes[QLL_PUT_NEW]),
                            qll_as_whole(in->outcomes[QLL_PUT_SAME]),
                            qll_as_whole(in->outcomes[QLL_PUT_REFUSED])}});
    qll_write(&text, "\n");
    return qll_cli_print(&text, in->site->line->language);
}

qll_status qll_cli_site_import(const qll_cli_command *command, const qll_cli_line *line,
                               qll_arena *arena)
{
    (void)command;
    qll_cli_site site = {.line = line, .arena = arena};
    coming_in *in = qll_arena_take(arena, 1, sizeof *in);
    if (in == NULL) {
        return QLL_NO_MEMORY;
    }
    in->site = &site;
    in->name = line->words[0];
    in->tables = qll_record_tables_open(arena);
    in->batch_arena = qll_arena_open((size_t)512 * 1024 * 1024);
    in->split_arena = qll_arena_open((size_t)64 * 1024 * 1024);
    in->split =
        in->split_arena == NULL ? NULL : qll_record_split_begin(take_one, in, in->split_arena);
    qll_status status =
        in->batch_arena == NULL || in->split == NULL || in->tables == NULL ? QLL_NO_MEMORY : QLL_OK;
    status = status == QLL_OK ? qll_cli_site_open(line, QLL_STORE_MAKE, arena, &site) : status;
    status = status == QLL_OK ? read_all(in, line->words[0]) : status;
    if (status == QLL_OK || in->seen > 0) {
        const qll_status printed = say_imported(in);
        status = status == QLL_OK ? printed : status;
    }
    if (status == QLL_OK && in->outcomes[QLL_PUT_REFUSED] > 0) {
        status = QLL_REFUSED;
    }
    qll_store_close(site.store);
    qll_arena_close(in->split_arena);
    qll_arena_close(in->batch_arena);
    return status;
}

/* ---- backup ---- */

/* What was copied is opened and gone through before it is called a backup. */
static qll_status check_copy(qll_cli_site *site, const char *path, long long *receipt)
{
    qll_store *copy = NULL;
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_store_open(path, QLL_STORE_READ, site->arena, &copy, &why);
    status = status == QLL_OK ? qll_store_check(copy, site->arena, &why) : status;
    status = status == QLL_OK ? qll_store_receipt(copy, receipt, &why) : status;
    status = qll_cli_site_said(site, status, &why);
    qll_store_close(copy);
    return status;
}

qll_status qll_cli_site_backup(const qll_cli_command *command, const qll_cli_line *line,
                               qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    const char *path = line->values[QLL_CLI_OUTPUT];
    qll_said why = {.id = QLL_TEXT_NONE};
    long long receipt = 0;
    if (path == NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_EXPORT_MISSING});
        return QLL_WRONG_USE;
    }
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, &site);
    if (status == QLL_OK) {
        status = qll_store_backup(site.store, path, arena, &why);
        status = qll_cli_site_said(&site, status, &why);
    }
    status = status == QLL_OK ? check_copy(&site, path, &receipt) : status;
    if (status == QLL_OK) {
        qll_writer text = qll_writer_new(arena);
        qll_cli_say(
            &text, line->language,
            (qll_said){QLL_TEXT_CLI_BACKED_UP, {qll_as_is(path), qll_as_whole((size_t)receipt)}});
        qll_write(&text, "\n");
        status = qll_cli_print(&text, line->language);
    }
    qll_store_close(site.store);
    return status;
}
