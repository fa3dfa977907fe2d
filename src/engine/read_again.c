#include "engine/read_again.h"

#include "engine/progress.h"

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

/* So many bytes are read and sorted in some milliseconds. */
#define QLL_BYTES_PER_ASK ((uint64_t)1 << 18)

/* Bytes that are asked for again, with a look now and then whether to stop. */
typedef struct paced {
    qll_asked *asked;
    const qll_reread *reread;
    uint64_t read_size; /* since it was asked last */
} paced;

static qll_status read_paced(void *context, uint64_t at, char *bytes, size_t *size,
                             const char **why)
{
    paced *of = context;
    of->read_size += *size;
    if (of->read_size >= QLL_BYTES_PER_ASK) {
        of->read_size = 0;
        if (!qll_progress_tell(0.5, of->asked)) {
            return QLL_STOPPED;
        }
    }
    return of->reread->read_at(of->reread->context, at, bytes, size, why);
}

qll_status qll_read_again(qll_asked *asked, const qll_attachment *file, qll_flow_log *log,
                          qll_flow_log_result *result, qll_problems *found, qll_status first,
                          const char **why)
{
    qll_arena *arena = asked->arena;
    kept bytes;
    qll_reread reread = {0};
    const qll_status opened = file->again != NULL ? file->again(file->context, &reread, why)
                                                  : keep_all(file, arena, &bytes, &reread, why);
    if (opened != QLL_OK) {
        return opened == QLL_NO_MEMORY ? opened : first;
    }
    paced pace = {.asked = asked, .reread = &reread};
    const qll_log_source source = {.context = &pace, .size = reread.size, .read_at = read_paced};
    *found = qll_problems_none(arena);
    const qll_status status = qll_flow_log_again(log, &source, result, found);
    if (reread.close != NULL) {
        reread.close(reread.context);
    }
    return asked->is_stopped ? QLL_STOPPED : status;
}
