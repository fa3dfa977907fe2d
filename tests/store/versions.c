/* Stores that are refused and stay as they were: newer ones, foreign files, damaged pages; older ones, which are brought up; backups. */
#include "dropping_disk.h"
#include "filled_store.h"
#include "store/sql.h"

#include <sys/wait.h>

/* ---- what cannot be opened ---- */

static char *bytes_of(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    char *bytes = malloc((size_t)1 << 22);
    *size = file == NULL ? 0 : fread(bytes, 1, (size_t)1 << 22, file);
    if (file != NULL) {
        (void)fclose(file);
    }
    return bytes;
}

/* The store at the scene's place is refused for @p id in any use, and no byte of it changes. */
static void check_refused(store_scene *scene, qll_text_id id)
{
    size_t size = 0;
    char *before = bytes_of(scene->place, &size);
    for (int use = QLL_STORE_READ; use <= QLL_STORE_MAKE; use++) {
        qll_store *store = NULL;
        const qll_status status =
            qll_store_open(scene->place, (qll_store_use)use, scene->arena, &store, &scene->why);
        if (!CHECK(status == QLL_REFUSED && scene->why.id == id) || store != NULL) {
            scene_say(&scene->why);
        }
        qll_store_close(store);
    }
    size_t now = 0;
    char *after = bytes_of(scene->place, &now);
    CHECK(size == now && memcmp(before, after, size) == 0);
    free(before);
    free(after);
}

TEST(a_store_of_a_newer_version_is_left_alone)
{
    store_scene scene;
    begin_filled(&scene);
    run_sql(scene.place, "PRAGMA user_version = 99");
    check_refused(&scene, QLL_TEXT_STORE_NEWER);
    scene_end(&scene);
}

TEST(a_foreign_file_is_left_alone)
{
    store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
    scene_folder(&scene);
    run_sql(scene.place, "CREATE TABLE records (id TEXT); INSERT INTO records VALUES ('x')");
    check_refused(&scene, QLL_TEXT_STORE_FOREIGN);
    FILE *file = fopen(scene.place, "wb");
    (void)fputs("a letter, not a store", file);
    (void)fclose(file);
    check_refused(&scene, QLL_TEXT_STORE_FOREIGN);
    scene_end(&scene);
}

TEST(what_is_not_there_is_not_made_by_a_reader)
{
    store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
    scene_folder(&scene);
    qll_store *store = NULL;
    CHECK(qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &store, &scene.why)
          == QLL_REFUSED);
    CHECK(scene.why.id == QLL_TEXT_STORE_NOT_THERE);
    CHECK(access(scene.place, F_OK) != 0);
    scene_end(&scene);
}

/* Any one page made wrong: no crash, nothing of it believed as whole by the check unless nothing lives there, and a refusal changes
 * nothing. */
TEST(a_damaged_page_is_one_problem)
{
    unsigned refused = 0;
    for (unsigned run = 0; run < 60; run++) {
        store_scene scene;
        begin_filled(&scene);
        run_sql(scene.place, "PRAGMA wal_checkpoint(TRUNCATE)");
        size_t size = 0;
        char *bytes = bytes_of(scene.place, &size);
        const size_t pages = size / 4096;
        const size_t page = run % (unsigned)pages;
        qll_random random = qll_random_seeded(run);
        for (size_t i = page == 0 ? 100 : 0; i < 4096; i += 1 + run / 2) {
            bytes[page * 4096 + i] = (char)qll_random_bits(&random);
        }
        FILE *file = fopen(scene.place, "wb");
        (void)fwrite(bytes, 1, size, file);
        (void)fclose(file);
        free(bytes);
        qll_store *store = NULL;
        qll_status status =
            qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &store, &scene.why);
        status = status == QLL_OK ? qll_store_check(store, scene.arena, &scene.why) : status;
        CHECK(status == QLL_OK || status == QLL_REFUSED || status == QLL_IO);
        CHECK(status == QLL_OK || scene.why.id != QLL_TEXT_NONE);
        refused += status != QLL_OK ? 1 : 0;
        qll_store_close(store);
        scene_end(&scene);
    }
    CHECK(refused > 50);
}

/* ---- older versions ---- */

/* A store as an older version made it, with a site in it. */
static void make_version(store_scene *scene, int version)
{
    scene_folder(scene);
    sqlite3 *handle = NULL;
    CHECK(sqlite3_open(scene->place, &handle) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, (const char *)qll_file_store_1, NULL, NULL, NULL) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, (const char *)qll_file_store_search_1, NULL, NULL, NULL)
          == SQLITE_OK);
    CHECK(version < 2
          || sqlite3_exec(handle, (const char *)qll_file_store_2, NULL, NULL, NULL) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, version < 2 ? "PRAGMA user_version = 1" : "PRAGMA user_version = 2",
                       NULL, NULL, NULL)
          == SQLITE_OK);
    CHECK(sqlite3_exec(handle,
                       "PRAGMA application_id = 0x5175656c;"
                       "PRAGMA journal_mode = WAL;"
                       "INSERT INTO records (id, receipt, kind, site, document, who, written_at, "
                       "written_ms, body, title, words) VALUES "
                       "('00000000-0000-4000-8000-000000000001', 1, 'site', "
                       "'00000000-0000-4000-8000-000000000009', "
                       "'00000000-0000-4000-8000-000000000009', 'ana', "
                       "'2026-11-20T21:40:00-07:00', 1795322400000, '{\"name\":\"Cedar\"}', "
                       "'Cedar', 'Cedar');"
                       "INSERT INTO sites (site, number, name, name_key, conflicts) VALUES "
                       "('00000000-0000-4000-8000-000000000009', 1, 'Cedar', 'cedar', 0);"
                       "INSERT INTO site_words (rowid, words) VALUES (1, 'Cedar');"
                       "UPDATE counter SET value = 1",
                       NULL, NULL, NULL)
          == SQLITE_OK);
    CHECK(sqlite3_close(handle) == SQLITE_OK);
}

static int version_of(const char *place)
{
    sqlite3 *handle = NULL;
    sqlite3_stmt *statement = NULL;
    int version = -1;
    if (sqlite3_open(place, &handle) == SQLITE_OK
        && sqlite3_prepare_v2(handle, "PRAGMA user_version", -1, &statement, NULL) == SQLITE_OK
        && sqlite3_step(statement) == SQLITE_ROW) {
        version = sqlite3_column_int(statement, 0);
    }
    (void)sqlite3_finalize(statement);
    (void)sqlite3_close(handle);
    return version;
}

static void check_brought_up(int from)
{
    store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
    make_version(&scene, from);
    CHECK(qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &scene.store, &scene.why)
          == QLL_REFUSED);
    CHECK(scene.why.id == QLL_TEXT_STORE_OLDER);
    CHECK(count_whole(&scene) == 1);
    char copy[200];
    (void)snprintf(copy, sizeof copy, "%s.version-%d", scene.place, from);
    CHECK(version_of(scene.place) == QLL_STORE_VERSION);
    CHECK(version_of(copy) == from);
    CHECK(qll_store_open(scene.place, QLL_STORE_WRITE, scene.arena, &scene.store, &scene.why)
          == QLL_OK);
    qll_store_sites sites = {0};
    CHECK(qll_store_search(scene.store, "ced", 10, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK(sites.count == 1);
    const qll_kept_answer answer = {"a", "1", "2026-01-03", "other"};
    CHECK(qll_store_keep(scene.store, &answer, 1, &scene.why) == QLL_OK);
    /* It has a name of its own, and marks what was there as if it had always done so. */
    char marks[3][QLL_STORE_MARK_SIZE];
    for (int receipt = 0; receipt < 3; receipt++) {
        CHECK(qll_store_mark(scene.store, receipt, marks[receipt], &scene.why) == QLL_OK);
    }
    CHECK(strlen(marks[0]) == QLL_RECORD_ID_SIZE + 2 && strlen(marks[1]) == 34
          && marks[2][0] == '\0');
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_OK);
    scene_end(&scene);
}

TEST(every_older_version_is_brought_up_and_copied_first)
{
    for (int version = 1; version < QLL_STORE_VERSION; version++) {
        check_brought_up(version);
    }
}

/* A crash while it is brought up leaves the old version or the new one, whole. */
TEST(a_power_cut_while_it_is_brought_up_leaves_one_or_the_other)
{
    for (unsigned long nth = 1; nth < 80; nth++) {
        const int from = 1 + (int)(nth % 2);
        store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
        make_version(&scene, from);
        qll_random random = qll_random_seeded(nth);
        dropping_disk_begin(&random);
        dropping_disk_fail_after(nth);
        qll_store *store = NULL;
        const qll_status status =
            qll_store_open(scene.place, QLL_STORE_WRITE, scene.arena, &store, &scene.why);
        CHECK(status == QLL_OK || scene.why.id != QLL_TEXT_NONE);
        (void)dropping_disk_crash();
        qll_store_close(store);
        dropping_disk_end();
        const int version = version_of(scene.place);
        CHECK(version == from || version == QLL_STORE_VERSION);
        CHECK(count_whole(&scene) == 1);
        scene_end(&scene);
    }
}

TEST(a_backup_is_whole_while_others_write)
{
    store_scene scene;
    scene_begin(&scene);
    char copy[200];
    (void)snprintf(copy, sizeof copy, "%s/copy.db", scene.folder);
    const pid_t child = fork();
    if (child == 0) {
        qll_arena *arena = qll_arena_open((size_t)1 << 28);
        qll_store *store = NULL;
        qll_said why;
        if (qll_store_open(scene.place, QLL_STORE_WRITE, arena, &store, &why) != QLL_OK) {
            _exit(2);
        }
        for (unsigned i = 1; i <= 100; i++) {
            const qll_record record = visit(arena, i);
            qll_put put;
            if (qll_store_put(store, &record, 1, QLL_PUT_BESIDE, arena, &put, &why) != QLL_OK) {
                _exit(3);
            }
        }
        _exit(0);
    }
    long long receipt = 0;
    while (receipt < 20 && qll_store_receipt(scene.store, &receipt, &scene.why) == QLL_OK) {
    }
    CHECK(qll_store_backup(scene.store, copy, scene.arena, &scene.why) == QLL_OK);
    int status = 0;
    (void)waitpid(child, &status, 0);
    CHECK(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    store_scene of_copy = {.arena = scene.arena};
    (void)snprintf(of_copy.place, sizeof of_copy.place, "%.120s", copy);
    const long long copied = count_whole(&of_copy);
    CHECK(copied >= 20 && copied <= 100);
    CHECK(qll_store_backup(scene.store, copy, scene.arena, &scene.why) == QLL_REFUSED);
    CHECK(scene.why.id == QLL_TEXT_STORE_BACKUP_THERE);
    scene_end(&scene);
}

int main(void)
{
    TEST_RUN(a_store_of_a_newer_version_is_left_alone);
    TEST_RUN(a_foreign_file_is_left_alone);
    TEST_RUN(what_is_not_there_is_not_made_by_a_reader);
    TEST_RUN(a_damaged_page_is_one_problem);
    TEST_RUN(every_older_version_is_brought_up_and_copied_first);
    TEST_RUN(a_power_cut_while_it_is_brought_up_leaves_one_or_the_other);
    TEST_RUN(a_backup_is_whole_while_others_write);
    return TEST_END();
}
