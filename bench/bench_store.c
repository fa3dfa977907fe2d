/* A firm's records: 10,000 sites with 20 visits each (200,000 readings), and what a person asks of them. The goal is 50 ms for each. */
#include "host/host.h"
#include "store_scene.h"

#include <sys/stat.h>

#define BENCH_SITES  10000U
#define BENCH_VISITS 20U

static const qll_telling telling = {.form = QLL_FORM_JSON, .today = "2026-11-30", .most = 200};

/* The format is one of this file. */
static const char *text_of(qll_arena *arena, const char *format, unsigned a, unsigned b)
{
    qll_writer text = qll_writer_new(arena);
    const unsigned numbers[] = {a, b};
    size_t next = 0;
    for (const char *c = format; *c != '\0'; c++) {
        if (*c == '#') {
            qll_write_format(&text, "%zu", (size_t)numbers[next % 2]);
            next++;
        } else if (*c == '@') {
            qll_write_format(&text, "%d%d", (int)(numbers[next % 2] / 10),
                             (int)(numbers[next % 2] % 10));
            next++;
        } else {
            qll_write_byte(&text, *c, 1);
        }
    }
    return qll_writer_text(&text).bytes;
}

static unsigned site_number(unsigned site)
{
    return 1000000U + site;
}

/* The records of a site: itself, a plan, and visits over the years with a set-point that creeps. */
static size_t records_of(qll_arena *arena, unsigned site, qll_record *records)
{
    const unsigned base = 2000000U + site * 100U;
    records[0] =
        scene_site(arena, base, site_number(site),
                   text_of(arena, "Building #, # Mill Lane", site * 7919U % BENCH_SITES, site));
    records[0].body = qll_text_of(
        text_of(arena, "{\"name\":\"Building #\",\"address\":\"# Mill Lane\"}", site, site));
    records[1] = scene_version(arena, base + 1, QLL_RECORD_PLAN, base + 2, 0);
    records[1].site = records[0].site;
    records[1].every_months = 12;
    records[1].day = "2020-01-01";
    records[1].body = qll_text_of("{\"every_months\":12,\"first\":\"2020-01-01\"}");
    for (unsigned v = 0; v < BENCH_VISITS; v++) {
        qll_record *visit = &records[2 + v];
        *visit = scene_record(arena, base + 10 + v, QLL_RECORD_VISIT, site_number(site));
        visit->title = "service";
        visit->day = text_of(arena, "20@-@-15", 7 + v, 1 + site % 12);
        visit->body = qll_text_of(text_of(
            arena,
            "{\"purpose\":\"service\",\"case\":{\"case\":1,\"readings\":[{\"gauge\":\"outlet\",\"pressure\":\"#.5 psi\",\"flow\":\"5 gpm\"},{\"gauge\":\"outlet\",\"pressure\":\"# psi\",\"flow\":\"0 gpm\"}]}}",
            58 + (v + site) % 4, 63 + v / 3));
        visit->written_at = text_of(arena, "20@-@-15T10:00:00Z", 7 + v, 1 + site % 12);
        visit->written_ms = 1168855200000LL + (long long)v * 31557600000LL + site;
    }
    return 2 + BENCH_VISITS;
}

static void fill(store_scene *scene)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    for (unsigned from = 0; from < BENCH_SITES; from += 50) {
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_record *records =
            qll_arena_take(arena, (size_t)50 * (2 + BENCH_VISITS), sizeof *records);
        qll_put *puts = qll_arena_take(arena, (size_t)50 * (2 + BENCH_VISITS), sizeof *puts);
        size_t count = 0;
        for (unsigned site = from; site < from + 50; site++) {
            count += records_of(arena, site, records + count);
        }
        if (qll_store_put(scene->store, records, count, QLL_PUT_BESIDE, arena, puts, &scene->why)
            != QLL_OK) {
            scene_say(&scene->why);
            exit(1);
        }
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
}

typedef void question(store_scene *scene, unsigned which);

static void ask_list(store_scene *scene, unsigned which)
{
    qll_store_sites rows = {0};
    qll_answer answer;
    const qll_site_row after = {
        .name_key = text_of(scene->arena, "building #", which * 37U % BENCH_SITES, 0), .site = ""};
    CHECK(qll_store_list(scene->store, &after, 50, scene->arena, &rows, &scene->why) == QLL_OK);
    CHECK(qll_tell_sites(&telling, rows.list, rows.count, scene->arena, &answer) == QLL_OK);
}

static void ask_search(store_scene *scene, unsigned which)
{
    qll_store_sites rows = {0};
    qll_answer answer;
    CHECK(qll_store_search(scene->store,
                           text_of(scene->arena, "build # mill", which * 41U % BENCH_SITES, 0), 50,
                           scene->arena, &rows, &scene->why)
          == QLL_OK);
    CHECK(qll_tell_sites(&telling, rows.list, rows.count, scene->arena, &answer) == QLL_OK);
    CHECK(rows.count > 0);
}

static void ask_due(store_scene *scene, unsigned which)
{
    qll_store_sites rows = {0};
    qll_answer answer;
    (void)which;
    CHECK(qll_store_planned(scene->store, scene->arena, &rows, &scene->why) == QLL_OK);
    CHECK(rows.count == BENCH_SITES);
    CHECK(qll_tell_due(&telling, rows.list, rows.count, scene->arena, &answer) == QLL_OK);
}

static void ask_trend(store_scene *scene, unsigned which)
{
    qll_store_sites rows = {0};
    qll_records records = {0};
    qll_answer answer;
    const char *site = scene_id(scene->arena, site_number(which * 31U % BENCH_SITES));
    CHECK(qll_store_called(scene->store, site, scene->arena, &rows, &scene->why) == QLL_OK);
    CHECK(rows.count == 1);
    CHECK(qll_store_of_site(scene->store, site, NULL, 1000, scene->arena, &records, &scene->why)
          == QLL_OK);
    CHECK(
        qll_tell_trend(&telling, &rows.list[0], records.list, records.count, scene->arena, &answer)
        == QLL_OK);
}

static void ask_put(store_scene *scene, unsigned which)
{
    qll_record visit =
        scene_record(scene->arena, 9000000U + which, QLL_RECORD_VISIT, site_number(which));
    visit.title = "service";
    visit.day = "2026-11-30";
    CHECK(scene_put(scene, visit).outcome == QLL_PUT_NEW);
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return a < b ? -1 : a > b ? 1 : 0;
}

static void measure(store_scene *scene, const char *name, question *ask)
{
    enum {
        QLL_RUNS = 41
    };

    double times_ms[QLL_RUNS];
    for (unsigned i = 0; i < QLL_RUNS; i++) {
        const qll_arena_mark mark = qll_arena_now(scene->arena);
        const double from_s = qll_host_now_s();
        ask(scene, i + 1);
        times_ms[i] = (qll_host_now_s() - from_s) * 1e3;
        qll_arena_reset(scene->arena, mark);
    }
    qsort(times_ms, QLL_RUNS, sizeof *times_ms, by_size);
    printf("%-34s median %7.2f ms, worst of %d %7.2f ms\n", name, times_ms[QLL_RUNS / 2], QLL_RUNS,
           times_ms[QLL_RUNS - 1]);
}

int main(void)
{
    store_scene scene;
    scene_begin(&scene);
    double from_s = qll_host_now_s();
    fill(&scene);
    printf("%u sites, %u visits, two readings each: put in %.1f s\n", BENCH_SITES,
           BENCH_SITES * BENCH_VISITS, qll_host_now_s() - from_s);
    measure(&scene, "a page of the list, 50 sites", ask_list);
    measure(&scene, "a search", ask_search);
    measure(&scene, "the due list, 200 of 10,000", ask_due);
    measure(&scene, "one trend, 20 visits", ask_trend);
    measure(&scene, "a visit put and acknowledged", ask_put);
    char copy[160];
    (void)snprintf(copy, sizeof copy, "%s/copy.db", scene.folder);
    from_s = qll_host_now_s();
    CHECK(qll_store_backup(scene.store, copy, scene.arena, &scene.why) == QLL_OK);
    struct stat file;
    (void)stat(copy, &file);
    printf("%-34s %.1f s, %.0f MB\n", "a backup", qll_host_now_s() - from_s,
           (double)file.st_size / 1e6);
    from_s = qll_host_now_s();
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_OK);
    printf("%-34s %.1f s\n", "the check of all of it", qll_host_now_s() - from_s);
    scene_end(&scene);
    return check_failures > 0;
}
