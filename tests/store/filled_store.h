/* Stores with visits in them, 1, 2, 3 and on, and what is left of them. */
#ifndef QUELL_TESTS_FILLED_STORE_H
#define QUELL_TESTS_FILLED_STORE_H

#include "store_scene.h"

#include <sqlite3.h>

/* How many records of the store stand there, 1 to that in order; checks that it holds together. */
static inline long long count_whole(store_scene *scene)
{
    qll_store *store = NULL;
    long long receipt = -1;
    qll_status status =
        qll_store_open(scene->place, QLL_STORE_WRITE, scene->arena, &store, &scene->why);
    status = status == QLL_OK ? qll_store_check(store, scene->arena, &scene->why) : status;
    status = status == QLL_OK ? qll_store_receipt(store, &receipt, &scene->why) : status;
    if (!CHECK(status == QLL_OK)) {
        scene_say(&scene->why);
    }
    qll_records records = {0};
    if (status == QLL_OK) {
        CHECK(qll_store_changes(store, 0, 100000, scene->arena, &records, &scene->why) == QLL_OK);
        CHECK((long long)records.count == receipt);
    }
    for (size_t i = 0; i < records.count; i++) {
        CHECK_TEXT(records.list[i].id, scene_id(scene->arena, (unsigned)i + 1));
    }
    qll_store_close(store);
    return receipt;
}

static inline qll_record visit(qll_arena *arena, unsigned number)
{
    qll_record record = scene_record(arena, number, QLL_RECORD_VISIT, 1 + number % 7);
    record.title = "service";
    record.day = "2026-11-20";
    return record;
}

/* A store with one record in it, closed. */
static inline void begin_filled(store_scene *scene)
{
    *scene = (store_scene){.arena = qll_arena_open((size_t)1 << 28)};
    scene_folder(scene);
    CHECK(qll_store_open(scene->place, QLL_STORE_MAKE, scene->arena, &scene->store, &scene->why)
          == QLL_OK);
    CHECK(scene_put(scene, visit(scene->arena, 1)).outcome == QLL_PUT_NEW);
    qll_store_close(scene->store);
    scene->store = NULL;
}

static inline void run_sql(const char *place, const char *sql)
{
    sqlite3 *handle = NULL;
    CHECK(sqlite3_open(place, &handle) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, sql, NULL, NULL, NULL) == SQLITE_OK);
    CHECK(sqlite3_close(handle) == SQLITE_OK);
}

#endif
