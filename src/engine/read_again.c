#include "engine/read_again.h"

#include <string.h>

/* Bytes that are kept where the attachment cannot be read at any place (our choice). */
#define QLL_KEPT_SIZE ((size_t)32 << 20)

/* Blocks of the bytes, in the arena. */
typedef struct kept {
    char *bytes;
    size_t size, room;
    bool is_full;
} kept;

static qll_status keep(void *context, const char *bytes, size_t size)
{
    kept *to = context;
    if (size > to->room - to->size) {
        to->is_full = true;
        return QLL_REFUSED; /* ends the stream */
    }
    memcpy(to->bytes + to->size, bytes, size);
    to->size += size;
    return QLL_OK;
}

static qll_status read_kept(void *context, uint64_t at, char *bytes, size_t *size, const char **why)
{
    const kept *from = context;
    (void)why;
    const size_t left = from->size - (size_t)at;
    *size = *size < left ? *size : left;
    memcpy(bytes, from->bytes + (size_t)at, *size);
    return QLL_OK;
}

static qll_status keep_all(const qll_attachment *file, qll_arena *arena, kept *to,
                           qll_reread *reread, const char **why)
{
    *to = (kept){.bytes = qll_arena_take(arena, QLL_KEPT_SIZE, 1), .room = QLL_KEPT_SIZE};
    if (to->bytes == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = file->stream(file->context, keep, to, why);
    if (to->is_full) {
        return QLL_IO;
    }
    *reread = (qll_reread){.context = to, .size = to->size, .read_at = read_kept};
    return status;
}

qll_status qll_read_again(const qll_attachment *file, qll_flow_log *log, qll_arena *arena,
                          qll_flow_log_result *result, qll_problems *found, qll_status first,
                          const char **why)
{
    kept bytes;
    qll_reread reread = {0};
    const qll_status opened = file->again != NULL ? file->again(file->context, &reread, why)
                                                  : keep_all(file, arena, &bytes, &reread, why);
    if (opened != QLL_OK) {
        return opened == QLL_NO_MEMORY ? opened : first;
    }
    const qll_log_source source = {
        .context = reread.context, .size = reread.size, .read_at = reread.read_at};
    *found = qll_problems_none(arena);
    const qll_status status = qll_flow_log_again(log, &source, result, found);
    if (reread.close != NULL) {
        reread.close(reread.context);
    }
    return status;
}
