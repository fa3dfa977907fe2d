/* Tests of logs that surveys name: part of test_store.c, which runs them on the same database. */
#ifndef QUELL_TESTS_STORE_LOGS_H
#define QUELL_TESTS_STORE_LOGS_H

#include "base/digest.h"
#include "ranking/stored_logs.h"

/* Two surveys of a site, 2 and 3, that name files alike. */
static qll_record naming(qll_arena *arena, unsigned number, unsigned document)
{
    qll_record record = scene_version(arena, number, QLL_RECORD_SURVEY, document, 0);
    record.body =
        qll_text_of("{\"survey\":1,\"scenarios\":[{\"log\":\" log.csv \"},{\"use\":\"house\"},"
                    "{\"log\":\"pulses.csv\"},{\"log\":\"log.csv\"}]}");
    return record;
}

/* The log @p number of what the survey @p document calls @p name. */
static qll_record log_of(qll_arena *arena, unsigned number, unsigned document, const char *name,
                         const char *sha256)
{
    qll_record record = scene_record(arena, number, QLL_RECORD_LOG, 1);
    qll_writer body = qll_writer_new(arena);
    qll_write_format(&body,
                     "{\"survey\":\"%s\",\"name\":\"%s\",\"sha256\":\"%s\",\"size\":1,\"type\":"
                     "\"text/csv\"}",
                     scene_id(arena, document), name, sha256);
    record.body = qll_writer_text(&body);
    record.title = name;
    return record;
}

static const char *sha256_of(qll_arena *arena, qll_text bytes)
{
    qll_writer digits = qll_writer_new(arena);
    qll_digest_write(&digits, bytes, QLL_DIGEST_SIZE);
    return qll_writer_text(&digits).bytes;
}

/* Puts the part of @p bytes that begins there. */
static bool put_piece(store_scene *scene, const char *sha256, qll_text bytes, size_t begins)
{
    const size_t left = bytes.size - begins;
    const size_t size = left < QLL_STORE_PART_SIZE ? left : QLL_STORE_PART_SIZE;
    const qll_store_part part = {sha256, bytes.size, begins, {bytes.bytes + begins, size}};
    qll_store_held held = {0};
    CHECK(qll_store_put_part(scene->store, &part, &held, &scene->why) == QLL_OK);
    return held.is_whole;
}

static qll_stored_logs logs_of(store_scene *scene, pthread_mutex_t *lock, unsigned document)
{
    const qll_record survey = naming(scene->arena, 90, document);
    qll_stored_logs logs = {0};
    CHECK(qll_stored_logs_find(scene->store, lock, &survey, scene->arena, &logs, &scene->why)
          == QLL_OK);
    return logs;
}

static qll_status gather_log(void *context, const char *bytes, size_t size)
{
    qll_write_text(context, (qll_text){bytes, size});
    return QLL_OK;
}

/* The bytes as a question gets them. */
static qll_text streamed(store_scene *scene, const qll_stored_logs *logs, size_t which)
{
    const char *why = NULL;
    qll_writer all = qll_writer_new(scene->arena);
    const qll_attachment *files = qll_stored_logs_attach(logs, scene->arena);
    CHECK_TEXT(files[which].name, logs->list[which].name);
    CHECK(files[which].stream(files[which].context, gather_log, &all, &why) == QLL_OK);
    return qll_writer_text(&all);
}

TEST(a_log_goes_with_the_survey_that_names_it)
{
    store_scene scene;
    begin(&scene);
    pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
    qll_writer rows = qll_writer_new(scene.arena);
    while (rows.size < 2 * QLL_STORE_PART_SIZE + 9) {
        qll_write_format(&rows, "%zu,7\n", rows.size);
    }
    const qll_text long_log = qll_writer_text(&rows);
    const qll_text short_log = qll_text_of("0,1\n");
    const char *long_sha = sha256_of(scene.arena, long_log);
    const char *short_sha = sha256_of(scene.arena, short_log);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar Court"));
    (void)scene_put(&scene, naming(scene.arena, 11, 2));
    CHECK(logs_of(&scene, &lock, 2).count == 0);
    /* The record alone is no log, nor are some of its parts, also after the store was opened anew. */
    CHECK(scene_put(&scene, log_of(scene.arena, 12, 2, "log.csv", long_sha)).outcome
          == QLL_PUT_NEW);
    CHECK(!put_piece(&scene, long_sha, long_log, 0));
    CHECK(logs_of(&scene, &lock, 2).count == 0);
    qll_store_close(scene.store);
    CHECK(qll_store_open(scene.place, QLL_STORE_WRITE, scene.arena, &scene.store, &scene.why)
          == QLL_OK);
    CHECK(!put_piece(&scene, long_sha, long_log, QLL_STORE_PART_SIZE));
    CHECK(put_piece(&scene, long_sha, long_log, 2 * QLL_STORE_PART_SIZE));
    const qll_stored_logs logs = logs_of(&scene, &lock, 2);
    if (CHECK(logs.count == 1)) {
        CHECK_TEXT(logs.list[0].name, "log.csv");
        CHECK(qll_text_equal(streamed(&scene, &logs, 0), long_log));
    }
    /* Another survey of the site names another file alike; nobody mistakes one for the other. */
    CHECK(put_piece(&scene, short_sha, short_log, 0));
    (void)scene_put(&scene, log_of(scene.arena, 13, 3, "log.csv", short_sha));
    (void)scene_put(&scene, log_of(scene.arena, 14, 2, "pulses.csv", short_sha));
    const qll_stored_logs both = logs_of(&scene, &lock, 2);
    if (CHECK(both.count == 2)) {
        CHECK_TEXT(both.list[0].sha256, long_sha);
        CHECK_TEXT(both.list[1].sha256, short_sha);
        CHECK(qll_text_equal(streamed(&scene, &both, 1), short_log));
    }
    const qll_stored_logs other = logs_of(&scene, &lock, 3);
    CHECK(other.count == 1 && strcmp(other.list[0].sha256, short_sha) == 0);
    /* Of several the one written last; what is corrected counts no more. */
    qll_record earlier = log_of(scene.arena, 15, 2, "log.csv", short_sha);
    earlier.written_ms -= 1000;
    (void)scene_put(&scene, earlier);
    CHECK_TEXT(logs_of(&scene, &lock, 2).list[0].sha256, long_sha);
    qll_record corrected = log_of(scene.arena, 16, 2, "log.csv", short_sha);
    corrected.corrects = scene_id(scene.arena, 12);
    corrected.written_ms -= 2000;
    (void)scene_put(&scene, corrected);
    CHECK_TEXT(logs_of(&scene, &lock, 2).list[0].sha256, short_sha);
    end(&scene);
}

#endif
