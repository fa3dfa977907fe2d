/* Processor seconds of a search against the number of valves, on five surveys of the panel, beside a fixed
 * loop that tells how fast the machine is; one that takes long is asked again and stopped; then a harsh case that is
 * stopped. CSV on stdout. */
#include "base/files.h"
#include "engine/engine.h"
#include "varied_valves.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#define BENCH_ARENA     ((size_t)1 << 31)
#define BENCH_STOP_S    15.0
#define BENCH_GIVE_UP_S 600.0
#define BENCH_TEXT      65536
#define BENCH_SEED      20240611

/** Of the processor, so that other work on the machine does not count. */
static double seconds_now(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

/* Some 0.1 s of logarithms, roots and divisions: the same work on every machine. */
static double calibrate(void)
{
    double from = seconds_now();
    volatile double sum = 0.0;
    for (int i = 1; i <= 10000000; i++) {
        double x = (double)i;
        sum = sum + sqrt(x) / (1.0 + log(x));
    }
    return seconds_now() - from;
}

typedef struct building {
    const char *survey;
    bool is_high; /* moved to 180 / 170 psi, flow test 175 to 160 psi */
} building;

static const building buildings[] = {
    {"house-110-60-1-2-2", false}, {"house-110-60-0.75-1-2", false}, {"flats-40-105", false},
    {"flats-100-125", false},      {"hotel-80-110", true},
};

#define BENCH_BUILDINGS (sizeof buildings / sizeof *buildings)

typedef struct prepared_site {
    qll_question question;
    qll_asked asked;
    qll_prepared prepared;
    qll_catalogue unused; /* gives the costs their money */
    qll_duty duty;
    qll_unknowns unknowns;
    qll_yardstick yardstick;
} prepared_site;

static bool read_survey(const char *name, char *text, size_t *size)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/tests/panel/surveys/%s.json", QUELL_ROOT, name);
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return false;
    }
    *size = fread(text, 1, BENCH_TEXT, file);
    (void)fclose(file);
    return *size < BENCH_TEXT;
}

static void move_supply(qll_site *site)
{
    static qll_point test[2];
    test[0] = (qll_point){site->supply.test[0].x, 175.0 * TEST_VARIED_PSI};
    test[1] = (qll_point){site->supply.test[1].x, 160.0 * TEST_VARIED_PSI};
    site->supply.test = test;
    site->supply.static_high_pa_gauge = 180.0 * TEST_VARIED_PSI;
    site->supply.static_low_pa_gauge = 170.0 * TEST_VARIED_PSI;
}

static bool prepare(const building *of, qll_arena *arena, prepared_site *made)
{
    static char text[BENCH_TEXT];
    size_t size = 0;
    if (!read_survey(of->survey, text, &size)) {
        return false;
    }
    made->question = (qll_question){.verb = QLL_VERB_DESIGN,
                                    .form = QLL_FORM_JSON,
                                    .document = {.name = of->survey, .bytes = text, .size = size}};
    made->asked = (qll_asked){.question = &made->question,
                              .arena = arena,
                              .problems = qll_problems_none(arena),
                              .assumed = qll_assumed_none(arena),
                              .writer = qll_writer_new(arena)};
    if (qll_prepare_survey(&made->asked, &made->prepared) != QLL_OK
        || qll_prepare_catalogue(&made->asked, &made->prepared, &made->unused) != QLL_OK) {
        return false;
    }
    qll_site *site = &made->prepared.survey.site;
    if (of->is_high) {
        move_supply(site);
    }
    qll_prepare_header(&made->asked, &made->prepared);
    return qll_prepare_duty(&made->asked, &made->prepared, &made->duty) == QLL_OK
           && qll_unknowns_make(&made->duty, 1.0, arena, &made->unknowns) == QLL_OK
           && qll_yardstick_make(site, &made->duty, &made->unknowns, arena, &made->yardstick)
                  == QLL_OK;
}

static void print_station(const qll_station *station)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            printf("%s%g in@%.0f", j > 0 ? "+" : (k > 0 ? " / " : ""),
                   branch->valve->nominal_m / TEST_VARIED_INCH,
                   branch->set_pa_gauge / TEST_VARIED_PSI);
        }
    }
}

/** When a search is to stop, and the longest time in which it did not ask. */
typedef struct patience {
    double until_s, asked_s, longest_s;
} patience;

static patience patience_of(double seconds)
{
    double now_s = seconds_now();
    return (patience){.until_s = now_s + seconds, .asked_s = now_s};
}

static bool goes_on(double share, void *context)
{
    (void)share;
    patience *at = context;
    double now_s = seconds_now();
    at->longest_s = fmax(at->longest_s, now_s - at->asked_s);
    at->asked_s = now_s;
    return now_s < at->until_s;
}

typedef struct outcome {
    double seconds;
    double expected, floor; /* NaN where nothing was found */
} outcome;

static bool search_one(const char *name, qll_yardstick *yardstick, const qll_catalogue *catalogue,
                       const qll_search_options *options, qll_arena *arena, outcome *got)
{
    qll_search_result found;
    size_t before = qll_arena_size(arena);
    patience *until = options->progress_context;
    double from = seconds_now();
    until->asked_s = from;
    if (qll_search(yardstick, catalogue, options, arena, &found) != QLL_OK) {
        return false;
    }
    got->seconds = seconds_now() - from;
    (void)goes_on(1.0, until);
    got->expected = found.kind_count > 0 ? found.kinds[0].cost.expected : (double)NAN;
    got->floor = found.kind_count > 0 ? found.floor : (double)NAN;
    printf("%s,%zu,%.3f,%.3f,%zu,%zu,%zu,%zu,%.1f,", name, catalogue->count, got->seconds,
           until->longest_s, found.counts.admitted, found.counts.leads, found.counts.bounded,
           found.counts.measured, (double)(qll_arena_size(arena) - before) / 1048576.0);
    if (found.kind_count > 0) {
        const qll_cost *cost = &found.kinds[0].cost;
        printf("%.2f,%.2f,%.2f,%.3f,%s,", cost->expected, cost->installed, found.floor,
               cost->callback_share,
               found.stopped ? "stopped" : (found.is_fit ? "fit" : "not fit"));
        print_station(&found.kinds[0].station);
    }
    printf("\n");
    (void)fflush(stdout);
    return true;
}

static bool run_one(const building *of, size_t count, double most_s, outcome *got)
{
    qll_arena *arena = qll_arena_open(BENCH_ARENA);
    prepared_site site;
    qll_catalogue catalogue;
    patience until = patience_of(most_s);
    qll_search_options options = qll_search_options_default();
    options.progress = goes_on;
    options.progress_context = &until;
    bool holds = prepare(of, arena, &site)
                 && varied_catalogue(BENCH_SEED, count, 0, TEST_VARIED_SIZES - 1, arena, &catalogue)
                 && search_one(of->survey, &site.yardstick, &catalogue, &options, arena, got);
    qll_arena_close(arena);
    return holds;
}

/* People in the same room, a visit of 900, and no valve below @p least: what wins brings somebody back often. */
static bool run_harsh(const building *of, size_t count, size_t least)
{
    qll_arena *arena = qll_arena_open(BENCH_ARENA);
    prepared_site site;
    qll_catalogue catalogue;
    outcome got;
    bool holds = prepare(of, arena, &site);
    if (holds) {
        qll_site *given = &site.prepared.survey.site;
        static qll_costs costs;
        costs = *given->costs;
        costs.visit = 900.0;
        given->costs = &costs;
        given->people = QLL_PEOPLE_SAME_ROOM;
        patience until = patience_of(BENCH_STOP_S);
        qll_search_options options = qll_search_options_default();
        options.progress = goes_on;
        options.progress_context = &until;
        holds =
            qll_yardstick_make(given, &site.duty, &site.unknowns, arena, &site.yardstick) == QLL_OK
            && varied_catalogue(BENCH_SEED, count, least, TEST_VARIED_SIZES - 1, arena, &catalogue)
            && search_one(of->survey, &site.yardstick, &catalogue, &options, arena, &got);
    }
    qll_arena_close(arena);
    return holds;
}

/* What somebody has who does not wait for the end. */
static bool run_stopped(const building *of, size_t count, const outcome *whole)
{
    outcome got;
    if (!run_one(of, count, BENCH_STOP_S, &got)) {
        return false;
    }
    printf("# stopped after %g s: %.2f %% above the least, which is %.2f %% above the floor then\n",
           BENCH_STOP_S, 100.0 * (got.expected / whole->expected - 1.0),
           100.0 * (whole->expected / got.floor - 1.0));
    return true;
}

static bool run_building(const building *of, size_t most)
{
    static const size_t counts[] = {20, 40, 80, 160, 320, 1000, 5000};
    outcome at_1000 = {NAN, NAN, NAN};
    for (size_t k = 0; k < sizeof counts / sizeof *counts && counts[k] <= most; k++) {
        outcome got;
        if (!run_one(of, counts[k], BENCH_GIVE_UP_S, &got)
            || (got.seconds > BENCH_STOP_S && !run_stopped(of, counts[k], &got))) {
            printf("# %s, %zu valves: failed\n", of->survey, counts[k]);
            return false;
        }
        if (counts[k] == 1000) {
            at_1000 = got;
        } else if (counts[k] == 5000) {
            printf("# growth exponent 1,000 to 5,000 valves: %.2f\n",
                   log(got.seconds / at_1000.seconds) / log(5.0));
        }
    }
    return true;
}

/* With a number: no catalogue longer than that. With part of a name: those buildings only. */
int main(int argc, char **argv)
{
    const size_t most = argc > 1 ? strtoul(argv[1], NULL, 10) : 5000;
    const char *name = argc > 2 ? argv[2] : "";
    bool holds = true;
    printf(
        "building,valves,seconds,longest_wait_s,admitted,leads,bounded,measured,arena_mib,expected,installed,"
        "floor,chance,is,station\n");
    printf("# calibration %.3f s\n", calibrate());
    for (size_t i = 0; i < BENCH_BUILDINGS; i++) {
        holds = (strstr(buildings[i].survey, name) == NULL || run_building(&buildings[i], most))
                && holds;
    }
    printf("# calibration %.3f s\n", calibrate());
    printf(
        "# harsh: same room, visit 900, sizes from 1-1/4 in up (houses: 3/4 in), stopped at %g s\n",
        BENCH_STOP_S);
    for (size_t i = 0; i < BENCH_BUILDINGS; i++) {
        holds = (strstr(buildings[i].survey, name) == NULL
                 || run_harsh(&buildings[i], most < 1000 ? most : 1000, i < 2 ? 1 : 3))
                && holds;
    }
    struct rusage used;
    if (getrusage(RUSAGE_SELF, &used) == 0) {
        printf("# peak memory %.0f MiB\n", (double)used.ru_maxrss / 1024.0);
    }
    return holds ? 0 : 1;
}
