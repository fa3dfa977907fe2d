#include "engine/stream_log.h"

#include "engine/progress.h"
#include "engine/read_again.h"

/* So many bytes are read in some milliseconds. */
#define QLL_BYTES_PER_ASK ((size_t)1 << 19)
/* Nobody knows how long a log is: after so many bytes half of the phase is reported. */
#define QLL_BYTES_HALF    16e6

/* A log that is being read. */
typedef struct reading {
    qll_asked *asked;
    qll_flow_log *log;
    double read_size, told_size;
} reading;

static qll_status count_bytes(reading *at, size_t size)
{
    at->read_size += (double)size;
    if (at->read_size - at->told_size < (double)QLL_BYTES_PER_ASK) {
        return QLL_OK;
    }
    at->told_size = at->read_size;
    double share = at->read_size / (at->read_size + QLL_BYTES_HALF);
    return qll_progress_tell(share, at->asked) ? QLL_OK : QLL_STOPPED;
}

/* A block may be the whole of it: it goes on in pieces. */
static qll_status feed(void *context, const char *bytes, size_t size)
{
    reading *at = context;
    qll_status status = QLL_OK;
    for (size_t done = 0; done < size && status == QLL_OK;) {
        size_t piece = size - done < QLL_BYTES_PER_ASK ? size - done : QLL_BYTES_PER_ASK;
        status = qll_flow_log_feed(at->log, bytes + done, piece);
        status = status == QLL_OK ? count_bytes(at, piece) : status;
        done += piece;
    }
    return status;
}

qll_status qll_stream_log(qll_asked *asked, const qll_attachment *file, qll_flow_log *log,
                          qll_flow_log_result *result, qll_problems *found, const char **why)
{
    reading at = {.asked = asked, .log = log};
    qll_status status = file->stream(file->context, feed, &at, why);
    if (status != QLL_IO && status != QLL_NO_MEMORY && status != QLL_STOPPED) {
        status = qll_flow_log_finish(log, result, found);
        if (status != QLL_NO_MEMORY && qll_flow_log_wants_again(log)) {
            status = qll_read_again(asked, file, log, result, found, status, why);
        }
    }
    return status;
}
