#include "server/journal.h"

#include "base/document.h"
#include "host/host.h"

/* Of a line; what is in it is short. */
static const size_t line_size = (size_t)64 * 1024;

void qll_journal_write(const qll_journal_entry *entry)
{
    qll_arena *arena = qll_arena_open(line_size);
    if (arena == NULL) {
        return;
    }
    char stamp[QLL_HOST_STAMP_SIZE];
    qll_host_stamp(stamp);
    /* On one line, which the writer of documents does not make. */
    qll_writer line = qll_writer_new(arena);
    qll_write_format(&line, "{\"at\": \"%s\", \"event\": \"%s\"", stamp, entry->event);
    if (entry->method != NULL) {
        qll_write_format(&line,
                         ", \"method\": \"%s\", \"route\": \"%s\", \"status\": %d, \"taken\": %zu, "
                         "\"given\": %zu, \"ms\": %.1f",
                         entry->method, entry->route, entry->status, entry->taken_size,
                         entry->given_size, entry->took_s * 1000.0);
    }
    if (entry->peer != NULL) {
        qll_write_format(&line, ", \"peer\": \"%s\"", entry->peer);
    }
    qll_write(&line, "}\n");
    qll_host_complain(qll_writer_text(&line).bytes);
    qll_arena_close(arena);
}
