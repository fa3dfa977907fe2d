/* The files that a survey names go into the records with it. */
#include "base/digest.h"
#include "base/document.h"
#include "base/text.h"
#include "cli/answer.h"
#include "cli/say.h"
#include "cli/stored.h"
#include "host/host.h"
#include "host/stream.h"

#include <string.h>

/* Of a log as it is gathered, whose room doubles. */
#define QLL_LOG_ROOM ((size_t)512 * 1024 * 1024)

/* More than a store takes of one file ends the reading. */
static qll_status gather(void *context, const char *bytes, size_t size)
{
    qll_writer *all = context;
    if (size > QLL_STORE_ATTACHMENT_SIZE || all->size > QLL_STORE_ATTACHMENT_SIZE - size) {
        return QLL_REFUSED;
    }
    qll_write_text(all, (qll_text){bytes, size});
    return all->no_memory ? QLL_NO_MEMORY : QLL_OK;
}

static qll_status put_bytes(const qll_cli_site *site, const char *sha256, qll_text bytes)
{
    qll_store_held held = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_store_attachment(site->store, sha256, &held, &why);
    while (status == QLL_OK && !held.is_whole) {
        const size_t begins = held.held < bytes.size ? (size_t)held.held : bytes.size;
        const size_t left = bytes.size - begins;
        const size_t size = left < QLL_STORE_PART_SIZE ? left : QLL_STORE_PART_SIZE;
        const qll_store_part part = {sha256, bytes.size, begins, {bytes.bytes + begins, size}};
        status = qll_store_put_part(site->store, &part, &held, &why);
    }
    return qll_cli_site_said(site, status, &why);
}

static qll_text write_body(const qll_record *survey, const char *name, const char *sha256,
                           size_t size, qll_arena *arena)
{
    qll_writer text = qll_writer_new(arena);
    qll_json json = qll_json_new(&text);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "survey", survey->document);
    qll_json_put_text(&json, "name", name);
    qll_json_put_text(&json, "sha256", sha256);
    qll_json_put_whole(&json, "size", (long long)size);
    qll_json_put_text(&json, "type", "text/csv");
    qll_json_close_object(&json);
    return qll_writer_text(&text);
}

static qll_status find_logs(qll_cli_site *site, const qll_record *survey, qll_named_log **logs,
                            size_t *count)
{
    qll_records standing = {0};
    const qll_status status = qll_cli_site_records(site, survey->site, &standing);
    return status != QLL_OK
               ? status
               : qll_named_logs_of(survey, standing.list, standing.count, site->arena, logs, count);
}

/* A log of a file that has one already takes its place. */
static qll_status put_record(qll_cli_site *site, const qll_record *survey, const qll_named_log *log,
                             const char *sha256, size_t size)
{
    const qll_text body = write_body(survey, log->name, sha256, size, site->arena);
    qll_record_draft draft = {
        .kind = QLL_RECORD_LOG,
        .site = survey->site,
        .corrects = log->record == NULL ? NULL : log->record->id,
        .who = site->who,
        .written_at = site->moment,
        .whole = {log->name, body.bytes, body.size},
    };
    qll_record record;
    qll_answer answer = {0};
    qll_status status = qll_cli_site_id(site, &draft.id);
    if (status == QLL_OK) {
        status = qll_record_make(&draft, site->line->values[QLL_CLI_LANGUAGE], site->arena, &record,
                                 &answer);
    }
    if (status == QLL_REFUSED) {
        return qll_cli_site_answer(site, status, &answer);
    }
    return status == QLL_OK ? qll_cli_site_put(site, &record) : status;
}

/* Takes the place of all that the survey had under the name: where another still stands for it, its clock was ahead. */
static qll_status put_records(qll_cli_site *site, const qll_record *survey, size_t which,
                              const char *sha256, size_t size)
{
    qll_named_log *logs = NULL;
    size_t count = 0;
    qll_status status = find_logs(site, survey, &logs, &count);
    while (status == QLL_OK && which < count
           && (logs[which].sha256 == NULL || strcmp(logs[which].sha256, sha256) != 0)) {
        status = put_record(site, survey, &logs[which], sha256, size);
        status = status == QLL_OK ? find_logs(site, survey, &logs, &count) : status;
    }
    return status;
}

/* A log that cannot be had is said, and leaves the survey as it is: one that the records have serves on. */
static qll_status without(const qll_cli_site *site, const qll_named_log *log, qll_said said)
{
    if (log->record == NULL) {
        qll_cli_complain(site->arena, site->line->language, said);
    }
    return QLL_OK;
}

/* The bytes of @p log, and their name; an empty name where they cannot be had. */
static qll_status read_log(const qll_cli_site *site, const char *path, const qll_named_log *log,
                           qll_writer *all, const char **sha256)
{
    const char *why = "";
    qll_host_file file = {.path = qll_host_beside(path, log->name, site->arena),
                          .arena = site->arena};
    *sha256 = "";
    const qll_status status =
        file.path == NULL ? QLL_NO_MEMORY : qll_host_stream(&file, gather, all, &why);
    if (status == QLL_IO) {
        return without(site, log,
                       qll_cli_of_file(site->arena, QLL_TEXT_CLI_LOG_LEFT, file.path, why));
    }
    if (status == QLL_REFUSED || (status == QLL_OK && all->size == 0)) {
        return without(
            site, log,
            (qll_said){QLL_TEXT_CLI_LOG_SIZE, {qll_cli_visible(site->arena, file.path)}});
    }
    qll_writer digits = qll_writer_new(site->arena);
    qll_digest_write(&digits, qll_writer_text(all), QLL_DIGEST_SIZE);
    *sha256 = qll_writer_text(&digits).bytes;
    return status == QLL_OK && digits.no_memory ? QLL_NO_MEMORY : status;
}

qll_status qll_cli_site_keep_logs(qll_cli_site *site, const char *path, const qll_record *survey)
{
    qll_named_log *logs = NULL;
    size_t count = 0;
    qll_arena *arena = qll_arena_open(QLL_LOG_ROOM);
    qll_status status = arena == NULL ? QLL_NO_MEMORY : find_logs(site, survey, &logs, &count);
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_writer all = qll_writer_new(arena);
        const char *sha256 = "";
        status = read_log(site, path, &logs[i], &all, &sha256);
        if (status == QLL_OK && sha256[0] != '\0') {
            status = put_bytes(site, sha256, qll_writer_text(&all));
            status = status == QLL_OK ? put_records(site, survey, i, sha256, all.size) : status;
        }
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
    return status;
}
