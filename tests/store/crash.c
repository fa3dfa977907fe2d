/* A store under a file layer of its own: what was acknowledged is there after a crash that drops every write the disk was not told to
 * keep, and after a kill; the nth write, sync or allocation that fails, a full disk and a read-only one are one problem and change nothing.
 *
 *     crash [RUNS]     of each kind; without it a sample
 */
#include "base/digest.h"
#include "dropping_disk.h"
#include "filled_store.h"

#include <signal.h>
#include <sys/wait.h>

static unsigned kill_runs = 6, drop_runs = 20;

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
            (unsigned long)wanted * 3
            + (unsigned long)(qll_random_unit(&random) * (double)wanted * 6.0));
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
    fail_each(QLL_DROPPING_WRITE, false);
}

TEST(a_full_disk_is_one_problem)
{
    fail_each(QLL_DROPPING_WRITE, true);
}

TEST(the_nth_sync_that_fails_is_one_problem)
{
    fail_each(QLL_DROPPING_SYNC, false);
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

/* The photo that is put under a fault: more pages than one, in two parts. */
#define TEST_PHOTO_SIZE ((size_t)20000)

static void take_photo(char *bytes, qll_arena *arena, const char **sha256)
{
    qll_random random = qll_random_seeded(4);
    for (size_t i = 0; i < TEST_PHOTO_SIZE; i++) {
        bytes[i] = (char)qll_random_bits(&random);
    }
    qll_writer digest = qll_writer_new(arena);
    qll_digest_write(&digest, (qll_text){bytes, TEST_PHOTO_SIZE}, QLL_DIGEST_SIZE);
    *sha256 = qll_writer_text(&digest).bytes;
}

/* Puts its parts, from where the store says that it goes on. */
static qll_status put_photo(store_scene *scene, const char *bytes, const char *sha256)
{
    qll_store *store = NULL;
    qll_store_held held = {0};
    scene->why = (qll_said){.id = QLL_TEXT_NONE};
    qll_status status =
        qll_store_open(scene->place, QLL_STORE_WRITE, scene->arena, &store, &scene->why);
    status = status == QLL_OK ? qll_store_attachment(store, sha256, &held, &scene->why) : status;
    while (status == QLL_OK && !held.is_whole) {
        const size_t from = (size_t)held.held;
        const size_t size = from + TEST_PHOTO_SIZE / 2 > TEST_PHOTO_SIZE ? TEST_PHOTO_SIZE - from
                                                                         : TEST_PHOTO_SIZE / 2;
        const qll_store_part part = {sha256, TEST_PHOTO_SIZE, held.held, {bytes + from, size}};
        status = qll_store_put_part(store, &part, &held, &scene->why);
    }
    qll_store_close(store);
    return status;
}

/* A write or sync that fails while a photo comes leaves the parts that were acknowledged, and it goes on from there. */
static void fail_each_of_photo(dropping_fault fault)
{
    static char bytes[TEST_PHOTO_SIZE];
    bool failed = true;
    unsigned long failures = 0;
    for (unsigned long nth = 1; failed && nth < 2000; nth++) {
        store_scene scene;
        const char *sha256 = NULL;
        begin_filled(&scene);
        take_photo(bytes, scene.arena, &sha256);
        qll_random random = qll_random_seeded(nth);
        dropping_disk_begin(&random);
        dropping_disk_fault(fault, nth, false);
        const qll_status status = put_photo(&scene, bytes, sha256);
        failed = dropping_disk_failed();
        failures += failed ? 1 : 0;
        (void)dropping_disk_crash();
        dropping_disk_end();
        CHECK(status == QLL_OK || status == QLL_NO_MEMORY || scene.why.id != QLL_TEXT_NONE);
        CHECK(count_whole(&scene) == 1);
        CHECK(put_photo(&scene, bytes, sha256) == QLL_OK);
        CHECK(count_whole(&scene) == 1); /* the check goes through the hash of what is whole */
        scene_end(&scene);
    }
    CHECK(!failed && failures > 0);
}

TEST(a_photo_goes_on_where_a_fault_broke_it_off)
{
    fail_each_of_photo(QLL_DROPPING_WRITE);
    fail_each_of_photo(QLL_DROPPING_SYNC);
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
    TEST_RUN(a_photo_goes_on_where_a_fault_broke_it_off);
    TEST_RUN(a_read_only_disk_is_read_and_one_problem_to_write);
    return TEST_END();
}
