#include "ranking/stored_logs.h"

#include <string.h>

/* Of the records of a site, and of a part of a log. */
#define QLL_SITE_ROOM ((size_t)256 * 1024 * 1024)
#define QLL_PART_ROOM ((size_t)4 * 1024 * 1024)

typedef struct finding {
    qll_store *store;
    pthread_mutex_t *lock;
    qll_arena *arena;   /* what is found */
    qll_arena *scratch; /* what is read on the way */
    qll_stored_logs *logs;
    qll_said *why;
} finding;

/* Only a log that is whole is there. */
static qll_status take_log(const finding *to, const qll_named_log *found)
{
    qll_store_held held = {0};
    if (found->sha256 == NULL) {
        return QLL_OK;
    }
    const qll_status status = qll_store_attachment(to->store, found->sha256, &held, to->why);
    if (status == QLL_OK && held.is_whole) {
        const char *name = qll_arena_copy(to->arena, found->name, strlen(found->name));
        const char *sha256 = qll_arena_copy(to->arena, found->sha256, strlen(found->sha256));
        to->logs->list[to->logs->count] = (qll_stored_log){to->store, to->lock, name, sha256};
        to->logs->count += 1;
        return name == NULL || sha256 == NULL ? QLL_NO_MEMORY : QLL_OK;
    }
    return status;
}

static qll_status find(const finding *to, const qll_record *survey)
{
    const char *const *names = NULL;
    size_t count = 0;
    const qll_input document = {"", survey->body.bytes, survey->body.size};
    qll_records standing = {0};
    qll_named_log *found = NULL;
    qll_status status = qll_attachments_of(&document, to->scratch, &names, &count);
    if (status != QLL_OK || count == 0) {
        return status;
    }
    status =
        qll_store_of_site(to->store, survey->site, NULL, SIZE_MAX, to->scratch, &standing, to->why);
    if (status == QLL_OK) {
        status =
            qll_named_logs_of(survey, standing.list, standing.count, to->scratch, &found, &count);
    }
    to->logs->list = qll_arena_take(to->arena, count, sizeof *to->logs->list);
    status = status == QLL_OK && to->logs->list == NULL ? QLL_NO_MEMORY : status;
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        status = take_log(to, &found[i]);
    }
    return status;
}

qll_status qll_stored_logs_find(qll_store *store, pthread_mutex_t *lock, const qll_record *survey,
                                qll_arena *arena, qll_stored_logs *logs, qll_said *why)
{
    qll_arena *scratch = qll_arena_open(QLL_SITE_ROOM);
    *logs = (qll_stored_logs){0};
    const finding to = {store, lock, arena, scratch, logs, why};
    const qll_status status = scratch == NULL ? QLL_NO_MEMORY : find(&to, survey);
    qll_arena_close(scratch);
    return status;
}

static qll_status read_part(const qll_stored_log *log, uint64_t begins, qll_arena *arena,
                            qll_text *bytes)
{
    qll_said why = {.id = QLL_TEXT_NONE};
    (void)pthread_mutex_lock(log->lock);
    const qll_status status =
        qll_store_read_attachment(log->store, log->sha256, begins, arena, bytes, &why);
    (void)pthread_mutex_unlock(log->lock);
    return status;
}

/* Part by part, in memory that each gives back. */
static qll_status stream(void *context, qll_bytes_sink *sink, void *sink_context, const char **why)
{
    const qll_stored_log *log = context;
    qll_arena *arena = qll_arena_open(QLL_PART_ROOM);
    qll_status status = arena == NULL ? QLL_NO_MEMORY : QLL_OK;
    qll_text bytes = {"", 1};
    *why = "";
    for (uint64_t at = 0; status == QLL_OK && bytes.size > 0; at += bytes.size) {
        const qll_arena_mark mark = qll_arena_now(arena);
        status = read_part(log, at, arena, &bytes);
        status = status == QLL_OK ? sink(sink_context, bytes.bytes, bytes.size) : status;
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
    return status;
}

qll_attachment *qll_stored_logs_attach(const qll_stored_logs *logs, qll_arena *arena)
{
    qll_attachment *files = qll_arena_take(arena, logs->count, sizeof *files);
    for (size_t i = 0; files != NULL && i < logs->count; i++) {
        files[i] = (qll_attachment){
            .name = logs->list[i].name, .stream = stream, .context = &logs->list[i]};
    }
    return files;
}
