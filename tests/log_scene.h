/* Runs a log from a file or a text through the reader, in blocks of any size. */
#ifndef QUELL_TESTS_LOG_SCENE_H
#define QUELL_TESTS_LOG_SCENE_H

#include "check.h"
#include "said.h"
#include "signals/flow_log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct log_scene {
    qll_arena *arena;
    qll_problems problems;
    qll_flow_log_result result;
    qll_status status;
} log_scene;

static inline log_scene log_scene_text(const char *bytes, size_t size,
                                       const qll_flow_log_options *options, size_t block)
{
    log_scene scene = {.arena = qll_arena_open((size_t)64 << 20)};
    scene.problems = qll_problems_none(scene.arena);
    qll_flow_log *log = qll_flow_log_open(options, scene.arena);
    CHECK(log != NULL);
    scene.status = QLL_OK;
    for (size_t at = 0; at < size && scene.status == QLL_OK; at += block) {
        scene.status = qll_flow_log_feed(log, bytes + at, block < size - at ? block : size - at);
    }
    scene.status = qll_flow_log_finish(log, &scene.result, &scene.problems);
    return scene;
}

static inline void log_scene_end(log_scene *scene)
{
    qll_arena_close(scene->arena);
}

static inline char *log_scene_bytes(const char *path, size_t *size)
{
    char name[512];
    snprintf(name, sizeof name, "%s/%s", QUELL_ROOT, path);
    FILE *file = fopen(name, "rb");
    *size = 0;
    if (!CHECK(file != NULL)) {
        printf("    cannot read %s\n", name);
        return NULL;
    }
    size_t room = (size_t)8 << 20;
    char *bytes = malloc(room);
    *size = bytes == NULL ? 0 : fread(bytes, 1, room, file);
    fclose(file);
    return bytes;
}

static inline log_scene log_scene_file(const char *path, const qll_flow_log_options *options)
{
    size_t size = 0;
    char *bytes = log_scene_bytes(path, &size);
    qll_flow_log_options named = *options;
    named.name = path;
    log_scene scene = log_scene_text(bytes, size, &named, 4096);
    free(bytes);
    return scene;
}

/* The bytes of a log, to be read again. */
static inline qll_status log_scene_read_at(void *context, uint64_t at, char *bytes, size_t *size,
                                           const char **why)
{
    const qll_text *text = context;
    (void)why;
    const size_t left = text->size - (size_t)at;
    *size = *size < left ? *size : left;
    memcpy(bytes, text->bytes + at, *size);
    return QLL_OK;
}

/* As the engine reads a log: again, where that is wanted. */
static inline log_scene log_scene_whole(const char *bytes, size_t size,
                                        const qll_flow_log_options *options)
{
    log_scene scene = {.arena = qll_arena_open((size_t)128 << 20)};
    scene.problems = qll_problems_none(scene.arena);
    qll_flow_log *log = qll_flow_log_open(options, scene.arena);
    if (qll_flow_log_feed(log, bytes, size) == QLL_NO_MEMORY) {
        abort();
    }
    scene.status = qll_flow_log_finish(log, &scene.result, &scene.problems);
    if (qll_flow_log_wants_again(log)) {
        qll_text text = {bytes, size};
        const qll_log_source source = {
            .context = &text, .size = size, .read_at = log_scene_read_at};
        scene.problems = qll_problems_none(scene.arena);
        scene.status = qll_flow_log_again(log, &source, &scene.result, &scene.problems);
    }
    return scene;
}

/* The problems of a refusal, one line each. */
static inline void log_scene_print(const log_scene *scene)
{
    for (size_t i = 0; i < scene->problems.kept_count; i++) {
        const qll_problem said = said_problem(&scene->problems, i);
        const qll_problem *problem = &said;
        printf("    %s:%d: %s: %s; %s\n", problem->place.source, problem->place.line,
               qll_code_word(problem->code), problem->text, problem->hint);
    }
}

#endif
