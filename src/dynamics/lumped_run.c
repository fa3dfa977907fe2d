/* Between events the equations are smooth and go to the stepper; an event is found on what the stepper
 * says of the inside of its step, and the step is then tried again up to there. */
#include "dynamics/lumped_run.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Rounding of a share of a step; of a time over the duration. */
static const double share_rounding = 1e-12;
static const double time_rounding = 1e-14;
static const double lift_rounding = 1e-9; /* of full travel: beyond a pilot valve's stop */
static const double first_step_s = 1e-6;

typedef struct runner {
    qll_lumped *lumped;
    const qll_run_order *order;
    qll_rosenbrock stepper;
    double *scale, *sampled;
    double time_s, step_s;
    size_t sample;
    qll_run_count *count;
} runner;

typedef enum event_kind {
    QLL_HAPPENS_NONE,
    QLL_HAPPENS_REGION_BELOW,
    QLL_HAPPENS_REGION_ABOVE,
    QLL_HAPPENS_STOPS,  /* speed falls to 0 under friction */
    QLL_HAPPENS_BREAKS, /* what holds it gives way */
    QLL_HAPPENS_HELD    /* a pilot valve comes to its stop */
} event_kind;

typedef struct event {
    event_kind kind;
    size_t valve;
    double share;
} event;

static bool has_friction(const qll_regulator *valve)
{
    return valve->acting == QLL_ACTING_DIRECT && valve->friction_n > 0;
}

static qll_regulator_place place_within(const runner *r, size_t j, double share)
{
    const qll_lumped *l = r->lumped;
    const qll_rosenbrock *s = &r->stepper;
    return (qll_regulator_place){.lift_m = qll_rosenbrock_within(s, 2 * j, share),
                                 .second = qll_rosenbrock_within(s, 2 * j + 1, share),
                                 .inlet_pa = qll_lumped_has_before(l)
                                                 ? qll_rosenbrock_within(s, l->at.inlet, share)
                                                 : l->around.supply_pa,
                                 .outlet_pa = qll_rosenbrock_within(s, l->at.outlet, share)};
}

/* By how much the force on a held valve is beyond what holds it. */
static double beyond_hold(const runner *r, size_t j, double share)
{
    const qll_regulator *valve = &r->lumped->valves[j];
    qll_regulator_place place = place_within(r, j, share);
    double push = qll_regulator_push(valve, r->lumped->modes[j].region, &place);
    if (valve->acting == QLL_ACTING_PILOT) {
        return place.lift_m <= valve->full_m / 2 ? push : -push;
    }
    return fabs(push) - valve->breakaway * valve->friction_n;
}

/* Over 0 once the event has happened. */
static double event_measure(const runner *r, event_kind kind, size_t j, double share)
{
    const qll_lumped *l = r->lumped;
    const qll_regulator *valve = &l->valves[j];
    size_t region = l->modes[j].region;
    switch (kind) {
    case QLL_HAPPENS_REGION_BELOW:
        return qll_regulator_region_from(valve, region)
               - qll_rosenbrock_within(&r->stepper, 2 * j, share);
    case QLL_HAPPENS_REGION_ABOVE:
        return qll_rosenbrock_within(&r->stepper, 2 * j, share)
               - qll_regulator_region_to(valve, region);
    case QLL_HAPPENS_STOPS: {
        double speed = qll_rosenbrock_within(&r->stepper, 2 * j + 1, share);
        return l->modes[j].drive == QLL_DRIVE_UP ? -speed : speed;
    }
    case QLL_HAPPENS_BREAKS: return beyond_hold(r, j, share);
    case QLL_HAPPENS_HELD: {
        double lift_m = qll_rosenbrock_within(&r->stepper, 2 * j, share);
        return fmax(-lift_m, lift_m - valve->full_m) - lift_rounding * valve->full_m;
    }
    case QLL_HAPPENS_NONE:
    default: return -1;
    }
}

static bool can_happen(const runner *r, event_kind kind, size_t j)
{
    const qll_regulator *valve = &r->lumped->valves[j];
    qll_drive drive = r->lumped->modes[j].drive;
    bool pilot = valve->acting == QLL_ACTING_PILOT;
    switch (kind) {
    case QLL_HAPPENS_REGION_BELOW:
        return drive != QLL_DRIVE_HELD && r->lumped->modes[j].region > (pilot ? 1 : 0);
    case QLL_HAPPENS_REGION_ABOVE:
        return drive != QLL_DRIVE_HELD
               && r->lumped->modes[j].region + (pilot ? 1 : 0) < valve->opening.count;
    case QLL_HAPPENS_STOPS: return drive == QLL_DRIVE_UP || drive == QLL_DRIVE_DOWN;
    case QLL_HAPPENS_BREAKS: return drive == QLL_DRIVE_HELD;
    case QLL_HAPPENS_HELD: return pilot && drive != QLL_DRIVE_HELD;
    case QLL_HAPPENS_NONE:
    default: return false;
    }
}

/* The share of the step at which a measure that is over 0 at @p high became so. */
static double first_share(const runner *r, event_kind kind, size_t j, double high)
{
    double low = high;
    double at_low = 1;
    for (int halving = 0; at_low > 0 && halving < 40; halving++) {
        low = halving == 0 ? 0 : high * ldexp(1, -halving);
        double measure = event_measure(r, kind, j, low);
        /* From exactly 0 at the beginning it may first go the other way. */
        at_low = low == 0 && measure == 0 ? 1 : measure;
    }
    if (at_low > 0) {
        return 0;
    }
    while (high - low > share_rounding) {
        double middle = low + (high - low) / 2;
        if (event_measure(r, kind, j, middle) > 0) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

/* The first event of the step that was tried, looked for in its middle and at its end. */
static event first_event(const runner *r)
{
    event first = {.kind = QLL_HAPPENS_NONE, .share = 1};
    for (size_t j = 0; j < r->lumped->valve_count; j++) {
        for (event_kind kind = QLL_HAPPENS_REGION_BELOW; kind <= QLL_HAPPENS_HELD; kind++) {
            if (!can_happen(r, kind, j)) {
                continue;
            }
            bool middle = event_measure(r, kind, j, 0.5) > 0;
            if (!middle && !(event_measure(r, kind, j, 1) > 0)) {
                continue;
            }
            double share = first_share(r, kind, j, middle ? 0.5 : 1);
            if (first.kind == QLL_HAPPENS_NONE || share < first.share) {
                first = (event){kind, j, share};
            }
        }
    }
    return first;
}

/* A plug without speed: held where friction is enough, or off the way it is pushed. */
static void settle(qll_lumped *l, size_t j, double *values, double hold_n)
{
    qll_regulator_place place = qll_lumped_place(l, values, j);
    double push = qll_regulator_push(&l->valves[j], l->modes[j].region, &place);
    values[2 * j + 1] = 0;
    l->modes[j].drive = fabs(push) <= hold_n ? QLL_DRIVE_HELD
                        : push > 0           ? QLL_DRIVE_UP
                                             : QLL_DRIVE_DOWN;
}

static void cross(runner *r, const event *what)
{
    qll_lumped *l = r->lumped;
    size_t j = what->valve;
    bool up = what->kind == QLL_HAPPENS_REGION_ABOVE;
    double *values = r->stepper.values;
    qll_regulator_mode *mode = &l->modes[j];
    values[2 * j] = up ? qll_regulator_region_to(&l->valves[j], mode->region)
                       : qll_regulator_region_from(&l->valves[j], mode->region);
    mode->region = up ? mode->region + 1 : mode->region - 1;
    bool seat = mode->region == 0;
    if ((seat || (up && mode->region == l->valves[j].opening.count))
        && r->order->watch.blow != NULL) {
        r->order->watch.blow(r->order->watch.context, r->time_s, j, seat, fabs(values[2 * j + 1]));
    }
}

static void apply(runner *r, const event *what)
{
    qll_lumped *l = r->lumped;
    size_t j = what->valve;
    const qll_regulator *valve = &l->valves[j];
    double *values = r->stepper.values;
    switch (what->kind) {
    case QLL_HAPPENS_REGION_BELOW:
    case QLL_HAPPENS_REGION_ABOVE: cross(r, what); break;
    case QLL_HAPPENS_STOPS: settle(l, j, values, valve->breakaway * valve->friction_n); break;
    case QLL_HAPPENS_BREAKS:
        if (valve->acting == QLL_ACTING_PILOT) {
            l->modes[j].drive = QLL_DRIVE_FREE;
        } else {
            settle(l, j, values, -1);
        }
        break;
    case QLL_HAPPENS_HELD:
        values[2 * j] = values[2 * j] <= valve->full_m / 2 ? 0 : valve->full_m;
        l->modes[j].drive = QLL_DRIVE_HELD;
        break;
    case QLL_HAPPENS_NONE:
    default: break;
    }
}

static void sample(runner *r, double step_s)
{
    const qll_run_watch *watch = &r->order->watch;
    while (watch->every_s > 0) {
        double at = (double)r->sample * watch->every_s;
        if (at > r->time_s + step_s || at > r->order->duration_s) {
            return;
        }
        double share = step_s > 0 ? fmin(fmax((at - r->time_s) / step_s, 0), 1) : 1;
        for (size_t i = 0; i < r->lumped->at.count; i++) {
            r->sampled[i] =
                step_s > 0 ? qll_rosenbrock_within(&r->stepper, i, share) : r->stepper.values[i];
        }
        watch->sample(watch->context, at, r->sampled);
        r->sample += 1;
    }
}

static double longest_step_s(const runner *r)
{
    if (r->order->step_most_s == 0) {
        return INFINITY;
    }
    for (size_t j = 0; j < r->lumped->valve_count; j++) {
        if (r->lumped->modes[j].drive != QLL_DRIVE_HELD) {
            return r->order->step_most_s;
        }
    }
    return INFINITY;
}

/* Tries ever shorter steps until one is good; false where none is. */
static bool good_step(runner *r, double most_s)
{
    double step = fmin(fmin(r->step_s, longest_step_s(r)), most_s);
    for (;;) {
        if (r->count->steps + r->count->refused >= r->order->steps_most
            || !(step > time_rounding * most_s) || !(step > 0)) {
            return false;
        }
        double error = qll_rosenbrock_try(&r->stepper, step, r->order->tolerance);
        double next = qll_rosenbrock_next_step(step, error);
        if (error <= 1) {
            r->step_s = step < r->step_s && next > step ? fmax(r->step_s, next) : next;
            return true;
        }
        r->count->refused += 1;
        step = next;
    }
}

static void advance(runner *r)
{
    sample(r, r->stepper.step);
    r->time_s += r->stepper.step;
    r->count->steps += 1;
    qll_rosenbrock_take(&r->stepper);
}

/* One step, or the part of one up to an event. */
static bool step_once(runner *r, double until_s)
{
    qll_rosenbrock_begin(&r->stepper);
    if (!good_step(r, until_s - r->time_s)) {
        return false;
    }
    event what = first_event(r);
    if (what.kind == QLL_HAPPENS_NONE) {
        advance(r);
        return true;
    }
    double length = what.share * r->stepper.step;
    if (what.share > share_rounding && length > time_rounding * r->time_s) {
        double error = qll_rosenbrock_try(&r->stepper, length, r->order->tolerance);
        if (!(error < (double)INFINITY)) {
            return false;
        }
        advance(r);
    }
    apply(r, &what);
    r->count->events += 1;
    return r->count->events < r->order->steps_most;
}

static bool run_until(runner *r, double until_s)
{
    while (r->time_s < until_s - time_rounding * r->order->duration_s) {
        if (!step_once(r, until_s)) {
            return false;
        }
    }
    return true;
}

static bool run(runner *r)
{
    const qll_taps_move *move = &r->order->move;
    double end = r->order->duration_s;
    if (!run_until(r, fmin(move->from_s, end))) {
        return false;
    }
    if (move->to_s > move->from_s) {
        const double taps = r->stepper.values[r->lumped->at.taps];
        r->lumped->taps_rate = (move->opening_after - taps) / (move->to_s - move->from_s);
        r->step_s = fmin(r->step_s, move->to_s - move->from_s);
    }
    bool arrived = run_until(r, fmin(move->to_s, end));
    r->lumped->taps_rate = 0;
    if (!arrived) {
        return false;
    }
    if (move->to_s <= end) {
        r->stepper.values[r->lumped->at.taps] = move->opening_after;
        r->step_s = fmin(r->step_s, first_step_s);
    }
    return run_until(r, end);
}

/* So large that an error of that size does not matter. */
static void lay_scale(const qll_lumped *l, double *scale)
{
    double most_m3s = 0;
    for (size_t j = 0; j < l->valve_count; j++) {
        const qll_regulator *valve = &l->valves[j];
        double full = valve->opening.points[valve->opening.count - 1].y;
        most_m3s += full * sqrt(l->around.supply_pa);
        bool pilot = valve->acting == QLL_ACTING_PILOT;
        scale[2 * j] = 0.01 * valve->full_m;
        scale[2 * j + 1] =
            pilot ? 1e3 : 0.01 * valve->full_m * sqrt(valve->spring_n_m / valve->mass_kg);
    }
    for (size_t i = l->at.outlet; i < l->at.count; i++) {
        scale[i] = 1e3; /* Pa */
    }
    if (qll_lumped_has_behind(l)) {
        scale[l->at.flow_out] = 0.001 * most_m3s;
    }
    if (qll_lumped_has_before(l)) {
        scale[l->at.flow_in] = 0.001 * most_m3s;
    }
    scale[l->at.taps] = 1;
}

static bool is_sound(const qll_run_order *order)
{
    const qll_taps_move *move = &order->move;
    return order->duration_s > 0 && isfinite(order->duration_s) && order->tolerance > 0
           && order->tolerance <= 0.1 && move->from_s >= 0 && move->to_s >= move->from_s
           && isfinite(move->to_s) && move->opening_after >= 0 && isfinite(move->opening_after)
           && order->step_most_s >= 0 && order->watch.every_s >= 0 && isfinite(order->watch.every_s)
           && (order->watch.every_s == 0 || order->watch.sample != NULL);
}

/* Under friction a valve at rest is held, or goes the way it is pushed. */
static void take_hold(qll_lumped *l, double *values)
{
    for (size_t j = 0; j < l->valve_count; j++) {
        const qll_regulator *valve = &l->valves[j];
        if (has_friction(valve) && values[2 * j + 1] == 0) {
            settle(l, j, values, valve->breakaway * valve->friction_n);
        } else if (has_friction(valve)) {
            l->modes[j].drive = values[2 * j + 1] > 0 ? QLL_DRIVE_UP : QLL_DRIVE_DOWN;
        }
    }
}

qll_status qll_lumped_run(qll_lumped *lumped, const qll_run_order *order, double *values,
                          qll_arena *arena, qll_run_count *count)
{
    assert(lumped != NULL && order != NULL && values != NULL && arena != NULL && count != NULL);
    *count = (qll_run_count){0};
    if (!is_sound(order)) {
        return QLL_REFUSED;
    }
    size_t n = lumped->at.count;
    qll_arena_mark mark = qll_arena_now(arena);
    runner r = {.lumped = lumped,
                .order = order,
                .scale = qll_arena_take(arena, n, sizeof(double)),
                .sampled = qll_arena_take(arena, n, sizeof(double)),
                .step_s = first_step_s,
                .count = count};
    qll_rates system = {
        .count = n, .rates = qll_lumped_rates, .slopes = qll_lumped_slopes, .context = lumped};
    qll_status status = r.scale != NULL && r.sampled != NULL
                            ? qll_rosenbrock_make(&system, r.scale, arena, &r.stepper)
                            : QLL_NO_MEMORY;
    if (status == QLL_OK) {
        lay_scale(lumped, r.scale);
        take_hold(lumped, values);
        memcpy(r.stepper.values, values, n * sizeof *values);
        count->finished = run(&r);
        sample(&r, 0);
        memcpy(values, r.stepper.values, n * sizeof *values);
    }
    qll_arena_reset(arena, mark);
    return status;
}
