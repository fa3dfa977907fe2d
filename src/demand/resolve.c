/* A building is looked for whose readings, as far apart as the log's, show the log's greatest mean on an
 * average day; how far its seconds rise above that is what the log hides. */
#include "demand/resolve.h"

#include "demand/day_model.h"
#include "demand/simulate.h"
#include "numeric/root.h"

#include <math.h>

/* Days are simulated until so many uses were drawn, within these limits: the ratio's error is about
 * 2 %, and the whole search takes a quarter of a second for any usual building (our choice). */
#define QLL_RESOLVE_USES       1e6
#define QLL_RESOLVE_DAYS_LEAST 3
#define QLL_RESOLVE_DAYS_MOST  40
/* The building is found when its people are within this share (of the logarithm). */
#define QLL_RESOLVE_TOLERANCE  0.02
/* Fewer people than the log's mean can mean are tried down to this share of them. */
#define QLL_RESOLVE_LEAST      1e-3
/* No larger building is simulated: its ratio is near 1, and a larger one's lies between (our choice). */
#define QLL_RESOLVE_PEOPLE     20000.0
/* People whose mean flow tells that of one. */
#define QLL_RESOLVE_SAMPLE     1000.0

/* One day: its greatest second, and its water from midnight to the end of every second. */
typedef struct day_tape {
    double greatest_m3s;
    double *volume_m3;
} day_tape;

static void record(void *context, const qll_second_block *block)
{
    day_tape *day = context;
    const double *flow_m3s = block->flow_m3s;
    double *volume_m3 = day->volume_m3 + block->first_s;
    double greatest_m3s = day->greatest_m3s;
    for (size_t s = 0; s < block->count; s++) {
        greatest_m3s = flow_m3s[s] > greatest_m3s ? flow_m3s[s] : greatest_m3s;
        volume_m3[s + 1] = volume_m3[s] + flow_m3s[s];
    }
    day->greatest_m3s = greatest_m3s;
}

/* The greatest mean over @p window_s seconds that begin at a reading. */
static double greatest_mean(const day_tape *day, size_t window_s, size_t reading_s)
{
    double greatest_m3 = 0.0;
    for (size_t s = 0; s + window_s <= QLL_DAY_SECONDS; s += reading_s) {
        greatest_m3 = fmax(greatest_m3, day->volume_m3[s + window_s] - day->volume_m3[s]);
    }
    return greatest_m3 / (double)window_s;
}

static size_t whole_seconds(double time_s)
{
    return (size_t)fmin(fmax(round(time_s), 1.0), QLL_DAY_SECONDS);
}

/* ---- the building ---- */

/* Its uses alone; what flows all the time is a continuous flow. */
static qll_scenario uses_of(const qll_scenario *scenario, double people)
{
    return (qll_scenario){.name = scenario->name,
                          .number = scenario->number,
                          .use = scenario->use,
                          .people = people,
                          .homes = 0.0,
                          .weight = 1.0,
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = (double)NAN,
                          .quantile = scenario->quantile,
                          .day = scenario->day,
                          .break_share = scenario->break_share,
                          .break_s = scenario->break_s};
}

/* Mean flow and uses of a day of one person. */
static qll_status describe_person(const qll_scenario *scenario, qll_arena *arena, double *mean_m3s,
                                  double *uses)
{
    const qll_scenario sample = uses_of(scenario, QLL_RESOLVE_SAMPLE);
    const qll_arena_mark mark = qll_arena_now(arena);
    qll_day_model model;
    const qll_status status = qll_day_model_make(&sample, arena, &model);
    *mean_m3s = 0.0;
    *uses = 0.0;
    double shape = 0.0;
    for (size_t h = 0; status == QLL_OK && h < 24; h++) {
        shape += model.shapes[0][h] / 24.0;
    }
    for (size_t i = 0; status == QLL_OK && i < model.use_count; i++) {
        const qll_end_use *use = &model.uses[i];
        const double busy = use->busy * shape / QLL_RESOLVE_SAMPLE;
        *mean_m3s += busy * use->flow_m3s.mean;
        *uses += busy * QLL_DAY_S / use->duration_s.mean;
    }
    qll_arena_reset(arena, mark);
    return status;
}

/* The search at hand: the log, and what the last building that was tried has shown. */
typedef struct search {
    const qll_scenario *scenario;
    qll_arena *arena;
    double target_m3s; /* greatest mean of the log */
    double steady_m3s;
    double person_uses;
    double seconds_m3s, means_m3s; /* greatest of an average day */
    size_t days;
    qll_status status;
} search;

/* Simulates a building of @p people. */
static qll_status simulate(search *at, double people)
{
    const qll_metered *meter = at->scenario->metered;
    const size_t window_s = whole_seconds(meter->peaks[0].averaging_s);
    const size_t reading_s = whole_seconds(meter->interval_s);
    const qll_continuous steady = {.name = "steady", .flow_m3s = at->steady_m3s};
    qll_scenario building = uses_of(at->scenario, people);
    building.continuous = &steady;
    building.continuous_count = 1;
    qll_simulator *simulator = NULL;
    const qll_status status = qll_simulator_make(&building, meter->seed, at->arena, &simulator);
    if (status != QLL_OK) {
        return status;
    }
    day_tape day = {.volume_m3 =
                        qll_arena_take(at->arena, QLL_DAY_SECONDS + 1, sizeof *day.volume_m3)};
    if (day.volume_m3 == NULL) {
        return QLL_NO_MEMORY;
    }
    const double uses = fmax(people * at->person_uses, 1.0);
    at->days =
        (size_t)fmin(fmax(QLL_RESOLVE_USES / uses, QLL_RESOLVE_DAYS_LEAST), QLL_RESOLVE_DAYS_MOST);
    at->seconds_m3s = 0.0;
    at->means_m3s = 0.0;
    for (size_t i = 0; i < at->days; i++) {
        day.greatest_m3s = 0.0;
        qll_simulator_day(simulator, record, &day);
        at->seconds_m3s += day.greatest_m3s / (double)at->days;
        at->means_m3s += greatest_mean(&day, window_s, reading_s) / (double)at->days;
        if (meter->goes_on != NULL && !meter->goes_on(meter->goes_on_context)) {
            return QLL_STOPPED;
        }
    }
    return QLL_OK;
}

/* How far the readings of the building rise above those of the log. */
static double excess(double ln_people, void *context)
{
    search *at = context;
    const qll_arena_mark mark = qll_arena_now(at->arena);
    const qll_status status = at->status == QLL_OK ? simulate(at, exp(ln_people)) : at->status;
    qll_arena_reset(at->arena, mark);
    at->status = status;
    return status == QLL_OK ? at->means_m3s - at->target_m3s : (double)NAN;
}

/* The building's people; where even the most or the fewest do not fit, these. */
static double find_people(search *at, double most)
{
    const double high = log(most);
    const double low = log(most * QLL_RESOLVE_LEAST);
    const qll_root root = qll_root_find(low, high, QLL_RESOLVE_TOLERANCE, excess, at);
    if (root.converged) {
        return exp(root.value);
    }
    return excess(low, at) > 0.0 ? exp(low) : most;
}

qll_status qll_resolve(const qll_scenario *scenario, qll_arena *arena, qll_resolved *resolved)
{
    const qll_metered *meter = scenario->metered;
    *resolved = (qll_resolved){.factor = 1.0};
    search at = {.scenario = scenario, .arena = arena, .target_m3s = meter->peaks[0].flow_m3s};
    if (meter->interval_s <= QLL_SECONDS_S || at.target_m3s <= 0.0) {
        return QLL_OK;
    }
    at.steady_m3s =
        isnan(meter->night_least_m3s) ? 0.0 : fmin(meter->night_least_m3s, at.target_m3s);
    double person_m3s = 0.0;
    at.status = describe_person(scenario, arena, &person_m3s, &at.person_uses);
    if (at.status != QLL_OK) {
        return at.status;
    }
    /* No mean of a day lies over the day's greatest. */
    const double most = fmin((at.target_m3s - at.steady_m3s) / person_m3s, QLL_RESOLVE_PEOPLE);
    if (most <= 0.0) {
        return QLL_OK;
    }
    resolved->people = find_people(&at, most);
    (void)excess(log(resolved->people), &at);
    resolved->steady_m3s = at.steady_m3s;
    resolved->days = at.days;
    resolved->factor = at.means_m3s > 0.0 ? fmax(at.seconds_m3s / at.means_m3s, 1.0) : 1.0;
    return at.status;
}
