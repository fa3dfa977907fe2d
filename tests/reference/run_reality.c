/* Measured beside modelled. Flats: one night of a campus residential building at 1 s; how much water there
 * is comes from the first half of the log, and the second half is compared, by the building's own hours
 * and with the meter's lag laid on the model. A house: the figures printed of a log of 4.9 days at 4 s
 * (mean 0.172 gpm, 99 % 3.75, 99.9 % 10.6) that is not kept here. */
#include "demand/day_model.h"
#include "demand/demand.h"
#include "demand/meter_lag.h"
#include "demand/simulate.h"
#include "host/unpack.h"
#include "log_scene.h"
#include "truth.h"

#include <stdlib.h>

#define TEST_NIGHTS  100
#define TEST_ROWS    54922
#define TEST_HALF    (TEST_ROWS / 2)
/* The log's first second, 18:30:58, of the day it begins on. */
#define TEST_FIRST_S 66658

static const char path[] = "tests/data/real/campus-residential-1s.csv.gz";
static const double gpm_m3s = 3.785411784e-3 / 60.0;

/* ---- the log ---- */

/* Text of rows that come in pieces; the fourth column is the flow in gpm. */
typedef struct tape {
    char line[256];
    size_t size;
    double *flow_m3s;
    size_t count;
} tape;

static void take_line(tape *to)
{
    to->line[to->size] = '\0';
    const char *at = to->line;
    for (int comma = 0; at != NULL && comma < 3; comma++) {
        at = strchr(at, ',');
        at = at == NULL ? NULL : at + 1;
    }
    char *end = NULL;
    const double gpm = at == NULL ? -1.0 : strtod(at, &end);
    if (at != NULL && end != at && to->count < TEST_ROWS) {
        to->flow_m3s[to->count] = gpm * gpm_m3s;
        to->count += 1;
    }
    to->size = 0;
}

static qll_status feed(void *context, const char *bytes, size_t size)
{
    tape *to = context;
    for (size_t i = 0; i < size; i++) {
        if (bytes[i] == '\n') {
            take_line(to);
        } else if (to->size + 1 < sizeof to->line) {
            to->line[to->size] = bytes[i];
            to->size += 1;
        }
    }
    return QLL_OK;
}

static void read_log(tape *to)
{
    size_t size = 0;
    char *bytes = log_scene_bytes(path, &size);
    qll_unpack *unpack = qll_unpack_open(feed, to);
    CHECK(bytes != NULL && unpack != NULL);
    CHECK(qll_unpack_feed(unpack, bytes, size) == QLL_OK && qll_unpack_finish(unpack) == QLL_OK);
    qll_unpack_close(unpack);
    free(bytes);
    CHECK(to->count == TEST_ROWS);
}

/* ---- figures of a stretch of seconds ---- */

#define TEST_BANDS 6
static const double bands_gpm[TEST_BANDS + 1] = {0, 1, 2, 3, 5, 8, 1000};

typedef struct figures {
    double mean, idle, most_99, most_999, greatest, minute, quarter; /* gpm but for idle */
    double water[TEST_BANDS];                                        /* shares */
} figures;

static int by_size(const void *left, const void *right)
{
    const double a = *(const double *)left;
    const double b = *(const double *)right;
    return (a > b) - (a < b);
}

static double greatest_mean(const double *flow, size_t count, size_t window)
{
    double sum = 0.0;
    double greatest = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += flow[i] - (i >= window ? flow[i - window] : 0.0);
        greatest = i + 1 >= window ? fmax(greatest, sum) : greatest;
    }
    return greatest / (double)window / gpm_m3s;
}

/* Sorts @p flow. */
static figures figures_of(double *flow, size_t count)
{
    figures of = {.minute = greatest_mean(flow, count, 60),
                  .quarter = greatest_mean(flow, count, 900)};
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += flow[i] / gpm_m3s;
        of.idle += flow[i] <= 0.0 ? 1.0 / (double)count : 0.0;
        for (size_t b = 0; b < TEST_BANDS; b++) {
            const bool inside =
                flow[i] >= bands_gpm[b] * gpm_m3s && flow[i] < bands_gpm[b + 1] * gpm_m3s;
            of.water[b] += inside ? flow[i] / gpm_m3s : 0.0;
        }
    }
    for (size_t b = 0; b < TEST_BANDS; b++) {
        of.water[b] /= sum;
    }
    qsort(flow, count, sizeof *flow, by_size);
    of.mean = sum / (double)count;
    of.most_99 = flow[(size_t)ceil(0.99 * (double)count) - 1] / gpm_m3s;
    of.most_999 = flow[(size_t)ceil(0.999 * (double)count) - 1] / gpm_m3s;
    of.greatest = flow[count - 1] / gpm_m3s;
    return of;
}

static void print(const char *name, const figures *of)
{
    printf("%-22s mean %.3f idle %.3f 99 %% %.2f 99.9 %% %.2f greatest %.1f minute %.2f "
           "15 min %.2f water",
           name, of->mean, of->idle, of->most_99, of->most_999, of->greatest, of->minute,
           of->quarter);
    for (size_t b = 0; b < TEST_BANDS; b++) {
        printf(" %.3f", of->water[b]);
    }
    printf("\n");
}

/* ---- flats ---- */

/* The log's own hours; those it does not hold flow as its mean, which no figure here depends on. */
static void own_hours(const tape *log, double *hourly)
{
    double sums[24] = {0};
    size_t counts[24] = {0};
    double all = 0.0;
    for (size_t i = 0; i < log->count; i++) {
        const size_t hour = (TEST_FIRST_S + i) / 3600 % 24;
        sums[hour] += log->flow_m3s[i];
        counts[hour] += 1;
        all += log->flow_m3s[i] / (double)log->count;
    }
    double sum = 0.0;
    for (size_t h = 0; h < 24; h++) {
        hourly[h] = counts[h] > 0 ? sums[h] / (double)counts[h] : all;
        sum += hourly[h];
    }
    for (size_t h = 0; h < 24; h++) {
        hourly[h] *= 24.0 / sum;
    }
}

/* People whose water, by the hours, is that of the log's first half. */
static double people_of_first_half(const tape *log, const double *hourly, double day_volume_m3)
{
    double measured = 0.0;
    double share = 0.0;
    for (size_t i = 0; i < TEST_HALF; i++) {
        measured += log->flow_m3s[i];
        share += hourly[(TEST_FIRST_S + i) / 3600 % 24];
    }
    return measured / (share * day_volume_m3 / QLL_DAY_S);
}

typedef struct recorder {
    double *flow_m3s; /* of a whole day */
} recorder;

static void record(void *context, const qll_second_block *block)
{
    recorder *to = context;
    memcpy(to->flow_m3s + block->first_s, block->flow_m3s, block->count * sizeof *block->flow_m3s);
}

/* The log's second half, 2:08 to 9:46, on simulated days; pooled, but greatest means averaged. */
static figures simulate(const qll_scenario *scenario, double lag_s, qll_arena *arena)
{
    const size_t count = TEST_ROWS - TEST_HALF;
    const size_t from = (TEST_FIRST_S + TEST_HALF) % QLL_DAY_SECONDS;
    recorder day = {.flow_m3s = qll_arena_take(arena, QLL_DAY_SECONDS, sizeof(double))};
    double *all = qll_arena_take(arena, TEST_NIGHTS * count, sizeof *all);
    qll_simulator *simulator = NULL;
    CHECK(qll_simulator_make(scenario, 1, arena, &simulator) == QLL_OK);
    double minute = 0.0;
    double quarter = 0.0;
    double greatest = 0.0;
    for (size_t night = 0; night < TEST_NIGHTS; night++) {
        qll_simulator_day(simulator, record, &day);
        /* The least that the log shows is 1/128 gpm. */
        qll_meter_lag meter = {.lag_s = lag_s, .least_m3s = gpm_m3s / 128.0};
        qll_meter_lag_show(&meter, 1.0, day.flow_m3s, QLL_DAY_SECONDS);
        double *part = all + night * count;
        memcpy(part, day.flow_m3s + from, count * sizeof *part);
        minute += greatest_mean(part, count, 60) / TEST_NIGHTS;
        quarter += greatest_mean(part, count, 900) / TEST_NIGHTS;
        greatest += greatest_mean(part, count, 1) / TEST_NIGHTS;
    }
    figures of = figures_of(all, TEST_NIGHTS * count);
    of.minute = minute;
    of.quarter = quarter;
    of.greatest = greatest;
    return of;
}

static void check_flats(qll_arena *arena)
{
    tape log = {.flow_m3s = qll_arena_take(arena, TEST_ROWS, sizeof(double))};
    read_log(&log);
    qll_scenario flats = {.name = "campus",
                          .use = QLL_USE_APARTMENT,
                          .homes = 0.0, /* half of the night nothing flows: nobody leaks */
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = NAN,
                          .quantile = 0.99,
                          .day_volume_m3 = 45.0 * 60.0 * gpm_m3s,
                          .habits = QLL_HABITS_US,
                          .has_visits = true,
                          .has_hourly = true};
    own_hours(&log, flats.hourly);
    flats.people = people_of_first_half(&log, flats.hourly, flats.day_volume_m3);
    const figures measured = figures_of(log.flow_m3s + TEST_HALF, TEST_ROWS - TEST_HALF);
    const figures lagged = simulate(&flats, 18.7, arena);
    const figures plain = simulate(&flats, 0.0, arena);
    printf("%.1f people\n", flats.people);
    print("measured", &measured);
    print("modelled, lag 18.7 s", &lagged);
    print("modelled, no lag", &plain);
    CHECK_NEAR(lagged.mean, measured.mean, 0.05);
    CHECK_NEAR(lagged.most_99, measured.most_99, 0.15);
    CHECK_NEAR(lagged.most_999, measured.most_999, 0.25);
    CHECK_WITHIN(lagged.idle, measured.idle, 0.05);
    CHECK_NEAR(lagged.quarter, measured.quarter, 0.25);
    for (size_t b = 0; b < TEST_BANDS; b++) {
        CHECK_WITHIN(lagged.water[b], measured.water[b], 0.05);
    }
}

/* ---- a house ---- */

static double water_above(const qll_duration *day, double flow_m3s)
{
    size_t at = 0;
    while (at < day->count && day->points[at].flow_m3s <= flow_m3s) {
        at += 1;
    }
    return at == 0 ? 1.0 : 1.0 - day->points[at - 1].volume_share;
}

/* Four people (assumed; nobody knows) by the defaults of a US house, in summer; and with sprinklers in
 * autumn. Its greatest flows come from sprinklers of 10 gpm for 3 min, which no default has. */
static void check_house(qll_arena *arena)
{
    static const qll_outdoor outdoor[] = {QLL_OUTDOOR_HOSE, QLL_OUTDOOR_IRRIGATION};
    static const qll_season season[] = {QLL_SEASON_SUMMER, QLL_SEASON_AUTUMN};
    for (size_t i = 0; i < 2; i++) {
        const qll_scenario house = {.name = "house",
                                    .use = QLL_USE_HOUSE,
                                    .people = 4,
                                    .homes = 1,
                                    .peak_method = QLL_PEAK_METHOD_COUNT,
                                    .peak_given_m3s = NAN,
                                    .quantile = 0.99,
                                    .day_volume_m3 = 53.0 * 60.0 * gpm_m3s,
                                    .habits = QLL_HABITS_US,
                                    .has_visits = true,
                                    .hour_cv = 1.1,
                                    .building_hour_cv = 0.13,
                                    .outdoor = outdoor[i],
                                    .season = season[i]};
        qll_pulse_day day;
        CHECK(qll_pulse_day_exact(&house, arena, &day) == QLL_OK);
        const double mean = day.duration.mean_m3s / gpm_m3s;
        const double most_99 = qll_duration_quantile(&day.duration, 0.99) / gpm_m3s;
        const double most_999 = qll_duration_quantile(&day.duration, 0.999) / gpm_m3s;
        printf("house %zu: mean %.3f busy %.3f 99 %% %.2f 99.9 %% %.2f (%+.0f %%) above 5 gpm "
               "%.3f\n",
               i, mean, 1.0 - day.none_share, most_99, most_999, (most_999 / 10.6 - 1.0) * 100.0,
               water_above(&day.duration, 5.0 * gpm_m3s));
        CHECK_NEAR(mean, 0.172, 0.25);
        CHECK_NEAR(most_99, 3.75, 0.25);
        CHECK_WITHIN(1.0 - day.none_share, 0.070, 0.03);
    }
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    check_flats(arena);
    check_house(arena);
    qll_arena_close(arena);
    return TEST_END();
}
