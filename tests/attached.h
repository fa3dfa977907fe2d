/* Attachments of a question for tests: the files that its survey names, out of one folder. */
#ifndef QUELL_TESTS_ATTACHED_H
#define QUELL_TESTS_ATTACHED_H

#include "quell/quell.h"

#include "base/text.h"

#include <stdio.h>

static inline qll_status attached_stream(void *path, qll_bytes_sink *sink, void *sink_context,
                                         const char **why)
{
    FILE *file = fopen(path, "rb");
    *why = "there is no such file";
    qll_status status = file == NULL ? QLL_IO : QLL_OK;
    char block[1000]; /* lines and blocks never end together for long */
    for (size_t size = sizeof block; status == QLL_OK && size == sizeof block;) {
        size = fread(block, 1, sizeof block, file);
        status = sink(sink_context, block, size);
    }
    if (file != NULL) {
        fclose(file);
    }
    return status;
}

/* @p folder with its slash at the end; "" is the current one. */
static inline void attach_from(qll_question *question, const char *folder, qll_arena *arena)
{
    const char *const *names = NULL;
    size_t count = 0;
    if (qll_attachments_of(&question->document, arena, &names, &count) != QLL_OK) {
        return;
    }
    qll_attachment *list = qll_arena_take(arena, count, sizeof *list);
    for (size_t i = 0; list != NULL && i < count; i++) {
        qll_writer path = qll_writer_new(arena);
        qll_write(&path, folder);
        qll_write(&path, names[i]);
        qll_text text = qll_writer_text(&path);
        list[i] = (qll_attachment){.name = names[i],
                                   .stream = attached_stream,
                                   .context = qll_arena_copy(arena, text.bytes, text.size)};
    }
    question->attachments = list;
    question->attachment_count = list == NULL ? 0 : count;
}

#endif
