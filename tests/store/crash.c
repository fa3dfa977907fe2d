/* A store under a file layer of its own: what was acknowledged is there after a crash that drops every write the disk was not told to
 * keep, and after a kill; the nth write, sync or allocation that fails, a full disk and a read-only one are one problem and change nothing.
 *
 *     crash [RUNS]     of each kind; without it a sample
 */
#include "dropping_disk.h"
#include "store/sql.h"
#include "store_scene.h"

#include <errno.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/wait.h>

static unsigned kill_runs = 6, drop_runs = 20;

/* How many records of the store stand there, 1 to that in order; checks that it holds together. */
static long long count_whole(store_scene *scene)
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

static qll_record visit(qll_arena *arena, unsigned number)
{
    qll_record record = scene_record(arena, number, QLL_RECORD_VISIT, 1 + number % 7);
    record.title = "service";
    record.day = "2026-11-20";
    return record;
}

/* ---- kill ---- */

/* Puts 500 visits one by one and says each number once it is acknowledged. */
static void put_all(const char *place, int pipe)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    qll_store *store = NULL;
    qll_said why;
    if (qll_store_open(place, QLL_STORE_MAKE, arena, &store, &why) != QLL_OK) {
        _exit(2);
    }
    for (unsigned i = 1; i <= 500; i++) {
        const qll_record record = visit(arena, i);
        qll_put put;
        if (qll_store_put(store, &record, 1, QLL_PUT_BESIDE, arena, &put, &why) != QLL_OK
            || write(pipe, &i, sizeof i) != sizeof i) {
            _exit(2);
        }
    }
    _exit(0);
}

TEST(a_kill_loses_nothing_that_was_acknowledged)
{
    qll_random random = qll_random_seeded(3);
    unsigned stopped_early = 0;
    for (unsigned run = 0; run < kill_runs; run++) {
        store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
        int ends[2];
        scene_folder(&scene);
        if (!CHECK(pipe(ends) == 0)) {
            return;
        }
        const pid_t child = fork();
        if (child == 0) {
            (void)close(ends[0]);
            put_all(scene.place, ends[1]);
        }
        (void)close(ends[1]);
        /* After so many are acknowledged, and a moment more. */
        const unsigned after = 1 + (unsigned)(qll_random_unit(&random) * 499.0);
        unsigned acknowledged = 0;
        unsigned number = 0;
        while (acknowledged < after && read(ends[0], &number, sizeof number) == sizeof number) {
            acknowledged = number;
        }
        (void)usleep((useconds_t)(qll_random_unit(&random) * 3000.0));
        (void)kill(child, SIGKILL);
        while (read(ends[0], &number, sizeof number) == sizeof number) {
            acknowledged = number;
        }
        int status = 0;
        (void)waitpid(child, &status, 0);
        (void)close(ends[0]);
        stopped_early += WIFSIGNALED(status) ? 1 : 0;
        CHECK(acknowledged >= after);
        const long long there = count_whole(&scene);
        CHECK(there >= (long long)acknowledged && there <= (long long)acknowledged + 1);
        scene_end(&scene);
    }
    CHECK(stopped_early > kill_runs / 2);
}

/* ---- power cut ---- */

TEST(a_power_cut_loses_nothing_that_was_acknowledged)
{
    qll_random random = qll_random_seeded(5);
    unsigned lost_something = 0;
    for (unsigned run = 0; run < drop_runs; run++) {
        store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
        scene_folder(&scene);
        dropping_disk_begin(&random);
        CHECK(qll_store_open(scene.place, QLL_STORE_MAKE, scene.arena, &scene.store, &scene.why)
              == QLL_OK);
        const unsigned wanted = 1 + (unsigned)(qll_random_unit(&random) * 60.0);
        /* At any write of what follows. */
        dropping_disk_fail_after(
            wanted * 3 + (unsigned long)(qll_random_unit(&random) * (double)wanted * 6.0));
        unsigned acknowledged = 0;
        for (unsigned i = 1; i <= wanted; i++) {
            const qll_record record = visit(scene.arena, i);
            qll_put put;
            if (qll_store_put(scene.store, &record, 1, QLL_PUT_BESIDE, scene.arena, &put,
                              &scene.why)
                != QLL_OK) {
                break;
            }
            acknowledged = i;
        }
        /* What was not synced is gone, wholly or in part; the program is not asked to tidy up. */
        lost_something += dropping_disk_crash() ? 1 : 0;
        qll_store_close(scene.store);
        scene.store = NULL;
        dropping_disk_end();
        const long long there = count_whole(&scene);
        CHECK(there >= (long long)acknowledged && there <= (long long)acknowledged + 1);
        scene_end(&scene);
    }
    /* A layer that drops nothing would prove nothing. */
    CHECK(lost_something > drop_runs / 2);
}

/* A store that does not wait for the disk must be caught, or the layer proves nothing. */
TEST(the_layer_catches_a_store_that_does_not_sync)
{
    qll_random random = qll_random_seeded(8);
    unsigned caught = 0;
    for (unsigned run = 0; run < 10; run++) {
        store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
        scene_folder(&scene);
        dropping_disk_begin(&random);
        sqlite3 *handle = NULL;
        CHECK(sqlite3_open(scene.place, &handle) == SQLITE_OK);
        CHECK(sqlite3_exec(handle,
                           "PRAGMA journal_mode = WAL; PRAGMA synchronous = OFF;"
                           "CREATE TABLE t (n INTEGER)",
                           NULL, NULL, NULL)
              == SQLITE_OK);
        for (unsigned i = 0; i < 20; i++) {
            (void)sqlite3_exec(handle, "INSERT INTO t VALUES (1)", NULL, NULL, NULL);
        }
        (void)dropping_disk_crash();
        (void)sqlite3_close(handle);
        dropping_disk_end();
        sqlite3_stmt *statement = NULL;
        bool is_whole =
            sqlite3_open(scene.place, &handle) == SQLITE_OK
            && sqlite3_prepare_v2(handle, "SELECT count(*) FROM t", -1, &statement, NULL)
                   == SQLITE_OK
            && sqlite3_step(statement) == SQLITE_ROW && sqlite3_column_int(statement, 0) == 20;
        caught += is_whole ? 0 : 1;
        (void)sqlite3_finalize(statement);
        (void)sqlite3_close(handle);
        scene_end(&scene);
    }
    CHECK(caught >= 8);
}

/* ---- faults ---- */

/* A store with one record in it, closed. */
static void begin_filled(store_scene *scene)
{
    *scene = (store_scene){.arena = qll_arena_open((size_t)1 << 28)};
    scene_folder(scene);
    CHECK(qll_store_open(scene->place, QLL_STORE_MAKE, scene->arena, &scene->store, &scene->why)
          == QLL_OK);
    CHECK(scene_put(scene, visit(scene->arena, 1)).outcome == QLL_PUT_NEW);
    qll_store_close(scene->store);
    scene->store = NULL;
}

/* Opens and puts a second record; what came of it. */
static qll_status put_second(store_scene *scene)
{
    qll_store *store = NULL;
    scene->why = (qll_said){.id = QLL_TEXT_NONE};
    qll_status status =
        qll_store_open(scene->place, QLL_STORE_WRITE, scene->arena, &store, &scene->why);
    if (status == QLL_OK) {
        const qll_record record = visit(scene->arena, 2);
        qll_put put;
        status = qll_store_put(store, &record, 1, QLL_PUT_BESIDE, scene->arena, &put, &scene->why);
    }
    qll_store_close(store);
    return status;
}

static void fail_each(dropping_fault fault, bool is_full)
{
    bool failed = true;
    unsigned long failures = 0;
    for (unsigned long nth = 1; failed && nth < 2000; nth++) {
        store_scene scene;
        begin_filled(&scene);
        qll_random random = qll_random_seeded(nth);
        dropping_disk_begin(&random);
        dropping_disk_fault(fault, nth, is_full);
        const qll_status status = put_second(&scene);
        failed = dropping_disk_failed();
        failures += failed ? 1 : 0;
        (void)dropping_disk_crash();
        dropping_disk_end();
        if (status != QLL_OK) {
            CHECK(status == QLL_NO_MEMORY || scene.why.id != QLL_TEXT_NONE);
            CHECK(!is_full || status == QLL_IO);
        }
        const long long there = count_whole(&scene);
        CHECK(there == 1 || there == 2);
        CHECK(status != QLL_OK || there == 2);
        scene_end(&scene);
    }
    CHECK(!failed && failures > 0);
}

TEST(the_nth_write_that_fails_is_one_problem)
{
    fail_each(DROPPING_WRITE, false);
}

TEST(a_full_disk_is_one_problem)
{
    fail_each(DROPPING_WRITE, true);
}

TEST(the_nth_sync_that_fails_is_one_problem)
{
    fail_each(DROPPING_SYNC, false);
}

TEST(the_nth_allocation_that_fails_is_one_problem)
{
    bool failed = true;
    unsigned long nth = 1;
    unsigned long failures = 0;
    for (; failed && nth < 20000; nth += nth < 100 ? 1 : 17) {
        store_scene scene;
        begin_filled(&scene);
        dropping_memory_begin(nth);
        const qll_status status = put_second(&scene);
        failed = dropping_memory_end();
        failures += failed ? 1 : 0;
        CHECK(status == QLL_OK || status == QLL_NO_MEMORY || scene.why.id != QLL_TEXT_NONE);
        const long long there = count_whole(&scene);
        CHECK(there == (status == QLL_OK ? 2 : 1));
        scene_end(&scene);
    }
    CHECK(!failed && failures > 50);
}

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

static void run_sql(const char *place, const char *sql)
{
    sqlite3 *handle = NULL;
    CHECK(sqlite3_open(place, &handle) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, sql, NULL, NULL, NULL) == SQLITE_OK);
    CHECK(sqlite3_close(handle) == SQLITE_OK);
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

TEST(a_read_only_disk_is_read_and_one_problem_to_write)
{
    store_scene scene;
    begin_filled(&scene);
    run_sql(scene.place, "PRAGMA wal_checkpoint(TRUNCATE)");
    qll_random random = qll_random_seeded(1);
    dropping_disk_begin(&random);
    dropping_disk_read_only();
    const qll_status status = put_second(&scene);
    if (!CHECK(status == QLL_IO && scene.why.id == QLL_TEXT_STORE_READ_ONLY)) {
        scene_say(&scene.why);
    }
    qll_store *store = NULL;
    qll_records records = {0};
    if (!CHECK(qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &store, &scene.why)
               == QLL_OK)) {
        scene_say(&scene.why);
    } else {
        CHECK(qll_store_changes(store, 0, 10, scene.arena, &records, &scene.why) == QLL_OK);
    }
    CHECK(records.count == 1);
    qll_store_close(store);
    dropping_disk_end();
    CHECK(count_whole(&scene) == 1);
    scene_end(&scene);
}

/* ---- older versions ---- */

/* A store as version 1 made it. */
static void make_version_1(store_scene *scene)
{
    scene_folder(scene);
    sqlite3 *handle = NULL;
    CHECK(sqlite3_open(scene->place, &handle) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, (const char *)qll_file_store_1, NULL, NULL, NULL) == SQLITE_OK);
    CHECK(sqlite3_exec(handle, (const char *)qll_file_store_search_1, NULL, NULL, NULL)
          == SQLITE_OK);
    CHECK(sqlite3_exec(handle,
                       "PRAGMA application_id = 0x5175656c; PRAGMA user_version = 1;"
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

TEST(version_1_is_brought_up_and_copied_first)
{
    store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
    make_version_1(&scene);
    CHECK(qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &scene.store, &scene.why)
          == QLL_REFUSED);
    CHECK(scene.why.id == QLL_TEXT_STORE_OLDER);
    CHECK(count_whole(&scene) == 1);
    char copy[200];
    (void)snprintf(copy, sizeof copy, "%s.version-1", scene.place);
    CHECK(version_of(scene.place) == QLL_STORE_VERSION);
    CHECK(version_of(copy) == 1);
    CHECK(qll_store_open(scene.place, QLL_STORE_WRITE, scene.arena, &scene.store, &scene.why)
          == QLL_OK);
    qll_store_sites sites = {0};
    CHECK(qll_store_search(scene.store, "ced", 10, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK(sites.count == 1);
    const qll_kept_answer answer = {"a", "1", "2026-01-03", "other"};
    CHECK(qll_store_keep(scene.store, &answer, 1, &scene.why) == QLL_OK);
    scene_end(&scene);
}

/* A crash while it is brought up leaves the old version or the new one, whole. */
TEST(a_power_cut_while_it_is_brought_up_leaves_one_or_the_other)
{
    for (unsigned long nth = 1; nth < 40; nth++) {
        store_scene scene = {.arena = qll_arena_open((size_t)1 << 28)};
        make_version_1(&scene);
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
        CHECK(version == 1 || version == QLL_STORE_VERSION);
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

int main(int count, char **arguments)
{
    if (count > 1) {
        kill_runs = (unsigned)strtoul(arguments[1], NULL, 10);
        drop_runs = kill_runs * 10;
    }
    dropping_memory_install();
    TEST_RUN(a_kill_loses_nothing_that_was_acknowledged);
    TEST_RUN(a_power_cut_loses_nothing_that_was_acknowledged);
    TEST_RUN(the_layer_catches_a_store_that_does_not_sync);
    TEST_RUN(the_nth_write_that_fails_is_one_problem);
    TEST_RUN(a_full_disk_is_one_problem);
    TEST_RUN(the_nth_sync_that_fails_is_one_problem);
    TEST_RUN(the_nth_allocation_that_fails_is_one_problem);
    TEST_RUN(a_store_of_a_newer_version_is_left_alone);
    TEST_RUN(a_foreign_file_is_left_alone);
    TEST_RUN(what_is_not_there_is_not_made_by_a_reader);
    TEST_RUN(a_damaged_page_is_one_problem);
    TEST_RUN(a_read_only_disk_is_read_and_one_problem_to_write);
    TEST_RUN(version_1_is_brought_up_and_copied_first);
    TEST_RUN(a_power_cut_while_it_is_brought_up_leaves_one_or_the_other);
    TEST_RUN(a_backup_is_whole_while_others_write);
    return TEST_END();
}
