#include "dynamics/motion_state.h"

#include "dynamics/linear.h"

#include <assert.h>
#include <math.h>

const char *const qll_motion_state_words[QLL_MOTION_STATE_COUNT] = {"stable", "hunting",
                                                                    "chattering", "slamming"};

/* Half swings over the set-point: up to which it stands still, and beyond which it is felt, without and with
 * blows on the seat. */
static const double still_swing = 1e-4;
static const double felt_swing = 0.05, felt_swing_hit = 0.02;
static const double chatter_from_hz = 20;
static const double growth_share = 0.7; /* of the time in which a swing grows, in one step */
static const double sample_s = 0.5e-3;  /* a swing of 300 Hz has six */
static const double settle_s = 0.05;    /* before the taps move */
static const size_t steps_most = 5000000;
/* A crossing counts once the pressure was this share of the half swing beyond the middle. */
static const double crossing_share = 0.2;

typedef struct watcher {
    const qll_lumped *lumped;
    double from_s;
    double *pressures; /* samples of the last part */
    size_t count, room;
    qll_motion_found *found;
} watcher;

static void watch_sample(void *context, double time_s, const double *values)
{
    watcher *w = context;
    double pa = values[w->lumped->at.outlet];
    w->found->least_ever_pa = fmin(w->found->least_ever_pa, pa);
    w->found->most_ever_pa = fmax(w->found->most_ever_pa, pa);
    if (time_s >= w->from_s && w->count < w->room) {
        w->pressures[w->count] = pa;
        w->count += 1;
    }
}

static void watch_blow(void *context, double time_s, size_t valve, bool seat, double speed_m_s)
{
    watcher *w = context;
    (void)valve;
    if (time_s >= w->from_s) {
        w->found->blows += seat ? 1 : 0;
        w->found->blow_m_s = fmax(w->found->blow_m_s, speed_m_s);
    }
}

/* Whole swings over the time they take, from rising crossing to rising crossing of the middle. */
static double frequency_hz(const qll_motion_samples *samples, double least_pa, double most_pa)
{
    double middle = (most_pa + least_pa) / 2;
    double beyond = crossing_share * (most_pa - least_pa) / 2;
    size_t first = 0, last = 0, crossings = 0;
    bool below = false;
    for (size_t i = 0; i < samples->count; i++) {
        double over = samples->pressure_pa[i] - middle;
        if (over < -beyond) {
            below = true;
        } else if (over > beyond && below) {
            below = false;
            first = crossings == 0 ? i : first;
            last = i;
            crossings += 1;
        }
    }
    return crossings < 2 ? 0
                         : (double)(crossings - 1) / ((double)(last - first) * samples->every_s);
}

void qll_motion_judge(const qll_motion_samples *samples, qll_motion_found *found)
{
    assert(samples->count > 0);
    double least_pa = samples->pressure_pa[0], most_pa = samples->pressure_pa[0];
    for (size_t i = 1; i < samples->count; i++) {
        least_pa = fmin(least_pa, samples->pressure_pa[i]);
        most_pa = fmax(most_pa, samples->pressure_pa[i]);
    }
    found->least_pa = least_pa;
    found->most_pa = most_pa;
    found->blows = samples->blows;
    found->swing = (most_pa - least_pa) / 2 / samples->set_pa_gauge;
    found->frequency_hz = frequency_hz(samples, least_pa, most_pa);
    found->is_felt = found->swing > (samples->blows > 0 ? felt_swing_hit : felt_swing);
    if (found->swing <= still_swing) {
        found->state = QLL_MOTION_STATE_STABLE;
    } else if (found->frequency_hz >= chatter_from_hz) {
        found->state = QLL_MOTION_STATE_CHATTERING;
    } else {
        found->state = samples->blows > 0 ? QLL_MOTION_STATE_SLAMMING : QLL_MOTION_STATE_HUNTING;
    }
}

static double highest_set_pa(const qll_lumped *l)
{
    double highest = 0;
    for (size_t j = 0; j < l->valve_count; j++) {
        highest = fmax(highest, l->valves[j].set_pa);
    }
    return highest - l->around.barometric_pa;
}

static bool is_sound(const qll_motion_event *event)
{
    return event->taps_s >= 0 && event->watched_s > 0 && isfinite(event->watched_s)
           && event->duration_s > settle_s + event->taps_s + event->watched_s
           && event->duration_s < 1e6;
}

static qll_status watched_run(qll_lumped *lumped, const qll_motion_event *event,
                              double opening_after, double step_most_s, double *values,
                              qll_arena *arena, qll_motion_found *found)
{
    watcher w = {.lumped = lumped,
                 .from_s = event->duration_s - event->watched_s,
                 .room = (size_t)(event->watched_s / sample_s) + 2,
                 .found = found};
    w.pressures = qll_arena_take(arena, w.room, sizeof *w.pressures);
    if (w.pressures == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_run_order order = {
        .move = {settle_s, settle_s + event->taps_s, opening_after},
        .duration_s = event->duration_s,
        .tolerance = event->tolerance,
        .step_most_s = step_most_s,
        .steps_most = steps_most,
        .watch = {.every_s = sample_s, .sample = watch_sample, .blow = watch_blow, .context = &w}};
    qll_status status = qll_lumped_run(lumped, &order, values, arena, &found->count);
    if (status == QLL_OK) {
        const qll_motion_samples samples = {w.pressures, w.count, sample_s, highest_set_pa(lumped),
                                            found->blows};
        qll_motion_judge(&samples, found);
    }
    return status;
}

qll_status qll_motion_run(qll_lumped *lumped, const qll_motion_event *event, qll_arena *arena,
                          qll_motion_found *found)
{
    assert(lumped != NULL && event != NULL && arena != NULL && found != NULL);
    *found = (qll_motion_found){.least_pa = INFINITY,
                                .most_pa = -INFINITY,
                                .least_ever_pa = INFINITY,
                                .most_ever_pa = -INFINITY};
    if (!is_sound(event)) {
        return QLL_REFUSED;
    }
    qll_arena_mark mark = qll_arena_now(arena);
    double *values = qll_arena_take(arena, lumped->at.count, sizeof *values);
    qll_status status = values != NULL ? QLL_OK : QLL_NO_MEMORY;
    double opening_after = 0, step_most_s = 0;
    if (status == QLL_OK) {
        status = qll_lumped_rest(lumped, event->flow_m3s, values) ? QLL_OK : QLL_REFUSED;
        opening_after = values[lumped->at.taps];
    }
    if (status == QLL_OK) {
        qll_linear linear;
        status = qll_lumped_linear(lumped, values, arena, &linear);
        step_most_s = isfinite(linear.grows_within_s) ? growth_share * linear.grows_within_s : 0;
    }
    if (status == QLL_OK && !qll_lumped_rest(lumped, event->flow_before_m3s, values)) {
        status = QLL_REFUSED;
    }
    if (status == QLL_OK) {
        status = watched_run(lumped, event, opening_after, step_most_s, values, arena, found);
    }
    qll_arena_reset(arena, mark);
    return status;
}
