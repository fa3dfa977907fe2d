/* A scene whose statements are noted: each must be run by some test, on every database. */
#ifndef QUELL_TESTS_COUNTED_STORE_H
#define QUELL_TESTS_COUNTED_STORE_H

#include "store_scene.h"

/* Every statement that was run, of all tests: none may go without. */
static bool ran[QLL_STATEMENT_COUNT];
static qll_database_kind real_kind, counting_kind;

static inline qll_status run_counted(qll_database *database, qll_statement statement,
                                     const qll_value_of *values, size_t count, qll_row_taker *take,
                                     void *context, qll_said *why)
{
    ran[statement] = true;
    return real_kind.run(database, statement, values, count, take, context, why);
}

static inline void begin(store_scene *scene)
{
    scene_begin(scene);
    real_kind = *scene->store->database->kind;
    counting_kind = real_kind;
    counting_kind.run = run_counted;
    scene->store->database->kind = &counting_kind;
}

static inline void end(store_scene *scene)
{
    if (!CHECK(qll_store_check(scene->store, scene->arena, &scene->why) == QLL_OK)) {
        printf("    %s: %.*s\n", qll_text_name(scene->why.id),
               (int)scene->why.arguments[0].text.size, scene->why.arguments[0].text.bytes);
    }
    scene_end(scene);
}

#endif
