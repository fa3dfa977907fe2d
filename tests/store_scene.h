/* A store in a folder of its own, or in the database that the program is started with; and records to put into it. */
#ifndef QUELL_TESTS_STORE_SCENE_H
#define QUELL_TESTS_STORE_SCENE_H

#include "base/random.h"
#include "base/text.h"
#include "check.h"
#include "store/inside.h"

#include <stdlib.h>
#include <unistd.h>

typedef struct store_scene {
    qll_arena *arena;
    char folder[96], place[160];
    qll_store *store;
    qll_said why;
} store_scene;

/* "postgresql://...", of the command line; NULL = a file. Its tables are taken away before each scene. */
static const char *scene_database;

/* mktemp's folder, without asking the standard library for what C17 does not have. */
static inline void scene_folder(store_scene *scene)
{
    static int made;
    made += 1;
    const char *base = getenv("TMPDIR");
    /* What a crash leaves is the business of a layer of our own, or of the system's memory: no disk is waited for. */
    base = base == NULL && access("/dev/shm", W_OK) == 0 ? "/dev/shm" : base;
    (void)snprintf(scene->folder, sizeof scene->folder, "%.30s/quell-store-%ld-%d",
                   base == NULL ? "/tmp" : base, (long)getpid(), made);
    char command[256];
    (void)snprintf(command, sizeof command, "rm -rf '%s' && mkdir '%s'", scene->folder,
                   scene->folder);
    if (system(command) != 0) {
        exit(1);
    }
    (void)snprintf(scene->place, sizeof scene->place, "%s/records.db", scene->folder);
}

static inline void scene_drop_tables(const char *place)
{
    qll_database *database = NULL;
    qll_said why;
    const char drop[] =
        "DROP VIEW IF EXISTS standing; DROP TABLE IF EXISTS counter, parents, records, "
        "sites, people, attachment_parts, attachments, site_words, kept_answers, marks;";
    if (qll_database_open_postgres(place, &database, &why) != QLL_OK
        || database->kind->script(database, (qll_text){drop, strlen(drop)}, &why) != QLL_OK) {
        printf("no database at %s\n", place);
        exit(1);
    }
    database->kind->close(database);
}

static inline void scene_say(const qll_said *why)
{
    printf("    %s", qll_text_name(why->id));
    for (size_t i = 0; i < QLL_ARGUMENTS && why->arguments[i].form != QLL_ARGUMENT_NONE; i++) {
        printf(" [%.*s]", (int)why->arguments[i].text.size, why->arguments[i].text.bytes);
    }
    printf("\n");
}

static inline void scene_begin(store_scene *scene)
{
    *scene = (store_scene){.arena = qll_arena_open((size_t)1 << 28)};
    scene_folder(scene);
    if (scene_database != NULL) {
        (void)snprintf(scene->place, sizeof scene->place, "%s", scene_database);
        scene_drop_tables(scene->place);
    }
    if (!CHECK(
            qll_store_open(scene->place, QLL_STORE_MAKE, scene->arena, &scene->store, &scene->why)
            == QLL_OK)) {
        scene_say(&scene->why);
        exit(1);
    }
}

static inline void scene_end(store_scene *scene)
{
    qll_store_close(scene->store);
    qll_arena_close(scene->arena);
    char command[256];
    (void)snprintf(command, sizeof command, "rm -rf '%s'", scene->folder);
    if (system(command) != 0) {
        printf("%s is left\n", scene->folder);
    }
}

/* The UUID with that number. */
static inline const char *scene_id(qll_arena *arena, unsigned number)
{
    char text[QLL_RECORD_ID_SIZE + 1];
    (void)snprintf(text, sizeof text, "00000000-0000-4000-8000-%012u", number);
    return qll_arena_copy(arena, text, strlen(text));
}

static inline qll_record scene_record(qll_arena *arena, unsigned number, qll_record_kind kind,
                                      unsigned site)
{
    return (qll_record){
        .id = scene_id(arena, number),
        .kind = kind,
        .site = scene_id(arena, site),
        .who = "ana",
        .written_at = "2026-11-20T21:40:00-07:00",
        .written_ms = 1795322400000 + number,
        .body = qll_text_of("{}"),
    };
}

/* The version @p number of the document @p document, which comes from @p parent (0 = none). */
static inline qll_record scene_version(qll_arena *arena, unsigned number, qll_record_kind kind,
                                       unsigned document, unsigned parent)
{
    qll_record record = scene_record(arena, number, kind, kind == QLL_RECORD_SITE ? document : 1);
    record.document = scene_id(arena, document);
    if (parent != 0) {
        record.parents[0] = scene_id(arena, parent);
        record.parent_count = 1;
    }
    return record;
}

/* A site with that name. */
static inline qll_record scene_site(qll_arena *arena, unsigned number, unsigned site,
                                    const char *name)
{
    qll_record record = scene_version(arena, number, QLL_RECORD_SITE, site, 0);
    record.title = name;
    record.words = name;
    return record;
}

/* Puts one record; what became of it. */
static inline qll_put scene_put(store_scene *scene, qll_record record)
{
    qll_put put = {0};
    const qll_status status =
        qll_store_put(scene->store, &record, 1, QLL_PUT_BESIDE, scene->arena, &put, &scene->why);
    CHECK(status == QLL_OK);
    return put;
}

#endif
