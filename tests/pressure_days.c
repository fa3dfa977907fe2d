#include "pressure_days.h"

#include "numeric/sample.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define QLL_DAY_S 86400
#define QLL_TURN  6.283185307179586

static double between(qll_random *r, double low, double high)
{
    return low + (high - low) * qll_random_unit(r);
}

/* ---- the house ---- */

typedef struct house {
    day_state state;
    qll_random *random;
    /* supply */
    double street_pa, night_pa, street_r, wander_pa, wander;
    double cycle_pa, cycle_s, cycle_phase;
    /* valve */
    double set_pa, droop_pa, kvs_m3h, effect, lock_up_pa, screen_r;
    double drift_pa_s, step_pa, step_at_s;
    double clogs_r_s, shut_r,
        shut_at_s; /* what the screen's loss grows by, a second; a stop valve */
    /* behind it */
    double compliance, leak, heater_w, relief_pa;
    bool has_tank;
    double deficit_j, band_j;
    bool fires;
    double outlet_pa, rest_s, friction_pa, warm_j;
    /* hunting */
    double hunt_hz, hunt_pa, hunt_low, hunt_high, phase, swing;
    /* air */
    double air_rate, slug_pa;
    int slug_left;
} house;

/* Street pressure: more at night, wandering, less the more is drawn; a tank or a pump that cycles. */
static double street_of(house *h, double t_s, double flow)
{
    const double hour = fmod(t_s / 3600.0, 24.0);
    const double night = 0.5 * (1.0 + cos(QLL_TURN * (hour - 3.0) / 24.0));
    h->wander +=
        (-h->wander / 900.0) + h->wander_pa * sqrt(2.0 / 900.0) * qll_sample_normal(h->random);
    double cycle = 0.0;
    if (h->cycle_pa > 0.0) {
        const double at = fmod(t_s / h->cycle_s + h->cycle_phase, 1.0);
        cycle = h->cycle_pa * (at < 0.7 ? 0.5 - at / 0.7 : (at - 0.7) / 0.3 - 0.5);
    }
    return h->street_pa + h->night_pa * (night - 0.5) + h->wander + cycle
           - h->street_r * flow * flow;
}

static double set_now(const house *h, double street, double t_s)
{
    const double step = h->step_pa != 0.0 && t_s > h->step_at_s ? h->step_pa : 0.0;
    return h->set_pa + h->effect * (street - h->street_pa) + h->drift_pa_s * t_s + step;
}

/* The outlet at which the valve passes the flow: Kv opens straight with what the outlet lacks of the set-point. */
static double outlet_at(const house *h, double set, double street, double flow, double t_s)
{
    const double shut_r = h->shut_r > 0.0 && t_s > h->shut_at_s ? h->shut_r : 0.0;
    const double behind_screen = street - (h->screen_r + h->clogs_r_s * t_s + shut_r) * flow * flow;
    double low = 0.0;
    double high = fmin(set, behind_screen);
    for (int i = 0; i < 40; i++) {
        const double p = 0.5 * (low + high);
        const double open = fmin((set - p) / h->droop_pa, 1.0);
        const double passes = h->kvs_m3h / 3600.0 * open * sqrt(fmax(behind_screen - p, 0.0) / 1e5);
        if (passes > flow) {
            low = p;
        } else {
            high = p;
        }
    }
    return 0.5 * (low + high);
}

/* What is wrong in this state, put into a house that was healthy. */
static void make_faulty(house *h, day_state state, qll_random *r)
{
    switch (state) {
    case QLL_DAY_CREEP:
        if (qll_random_unit(r) < 0.4) {
            h->has_tank = false;
            h->heater_w = 0.0;
            h->compliance = between(r, 3e-10, 2e-9);
            h->leak = h->compliance * between(r, 60.0, 400.0) / sqrt(3e5);
        } else {
            h->leak = h->compliance * between(r, 1.8, 9.0) / sqrt(3e5);
        }
        break;
    case QLL_DAY_EXPANSION:
        h->has_tank = false;
        h->compliance = between(r, 2.5e-10, 9e-10);
        break;
    case QLL_DAY_STRAINER:
        h->screen_r = between(r, 0.9, 1.4) * (h->street_pa - h->set_pa) / (0.28e-3 * 0.28e-3);
        break;
    case QLL_DAY_SUPPLY:
        h->cycle_pa = between(r, 150e3, 260e3);
        h->cycle_s = between(r, 1200.0, 6000.0);
        h->cycle_phase = qll_random_unit(r);
        h->street_pa += 120e3;
        break;
    case QLL_DAY_INLET_EFFECT:
        h->effect = between(r, 0.22, 0.45);
        h->night_pa = between(r, 35e3, 60e3);
        break;
    case QLL_DAY_LOCK_UP: h->lock_up_pa = between(r, 100e3, 170e3); break;
    case QLL_DAY_HUNTING:
        h->hunt_hz = between(r, 0.03, 0.33);
        h->hunt_pa = between(r, 9e3, 40e3);
        h->hunt_low = 0.03;
        h->hunt_high = between(r, 0.2, 0.5);
        break;
    case QLL_DAY_AIR:
        h->air_rate = between(r, 1.0 / 25.0, 1.0 / 6.0);
        h->slug_pa = between(r, 25e3, 70e3);
        break;
    case QLL_DAY_DRIFT:
        h->drift_pa_s =
            (qll_random_unit(r) < 0.5 ? -1.0 : 1.0) * between(r, 1.3e3, 3e3) / QLL_DAY_S;
        break;
    case QLL_DAY_STEP:
        h->step_pa = (qll_random_unit(r) < 0.5 ? -1.0 : 1.0) * between(r, 25e3, 60e3);
        h->step_at_s = between(r, 6.0, 15.0) * QLL_DAY_S;
        break;
    case QLL_DAY_CLOGGING:
        h->clogs_r_s = between(r, 0.8, 1.3) * (h->street_pa - h->set_pa) / (0.3e-3 * 0.3e-3)
                       / (24.0 * QLL_DAY_S);
        break;
    case QLL_DAY_HALF_SHUT:
        h->shut_r = between(r, 0.7, 1.1) * (h->street_pa - h->set_pa) / (0.3e-3 * 0.3e-3);
        h->shut_at_s = between(r, 7.0, 14.0) * QLL_DAY_S;
        break;
    case QLL_DAY_HEALTHY:
    case QLL_DAY_MONTH:
    case QLL_DAY_STUCK:
    case QLL_DAY_CLIPPED:
    case QLL_DAY_SWAPPED:
    case QLL_DAY_WEEKS:
    case QLL_DAY_QUICK:
    case QLL_DAY_QUICK_HUNTING:
    case QLL_DAY_FAST:
    case QLL_DAY_HAMMER:
    case QLL_DAY_FASTEST:
    case QLL_DAY_CHATTER:
    case QLL_DAY_STATES: break;
    }
}

static house house_of(day_state state, qll_random *r)
{
    house h = {.state = state, .random = r};
    h.street_pa = between(r, 600e3, 820e3);
    h.night_pa = between(r, 15e3, 45e3);
    h.street_r = between(r, 1e10, 6e10);
    h.wander_pa = between(r, 3e3, 8e3);
    h.set_pa = between(r, 330e3, 430e3);
    h.droop_pa = between(r, 70e3, 130e3);
    h.kvs_m3h = between(r, 3.5, 6.5);
    h.effect = between(r, 0.01, 0.05);
    h.lock_up_pa = between(r, 6e3, 18e3);
    h.screen_r = between(r, 2e9, 1.2e10);
    h.has_tank = true;
    h.compliance = between(r, 1.2e-8, 2.6e-8);
    h.heater_w = between(r, 3.5e3, 11e3);
    h.relief_pa = between(r, 950e3, 1030e3);
    h.band_j = between(r, 2e6, 5e6);
    h.deficit_j = between(r, 0.0, 1e6);
    h.hunt_hz = 0.0;
    make_faulty(&h, state, r);
    h.outlet_pa = h.set_pa;
    return h;
}

/* ---- people ---- */

/* Flow of every second: draws by chance, more in the morning and the evening; kinds of draws with their own flows. */
static void draw_water(qll_random *r, double *flow, double *hot, size_t count)
{
    static const double by_hour[24] = {0.1, 0.05, 0.04, 0.04, 0.1, 0.5, 1.5, 2.4,
                                       2.0, 1.3,  1.0,  1.0,  1.1, 1.0, 0.9, 0.9,
                                       1.0, 1.4,  2.0,  2.1,  1.8, 1.4, 0.9, 0.4};
    const double per_day = between(r, 90.0, 190.0);
    memset(flow, 0, count * sizeof *flow);
    memset(hot, 0, count * sizeof *hot);
    for (size_t t = 0; t < count; t++) {
        const double rate = per_day / QLL_DAY_S * by_hour[t / 3600 % 24];
        if (qll_random_unit(r) >= rate) {
            continue;
        }
        const double kind = qll_random_unit(r);
        double lps = 0.0;
        double length = 0.0;
        double share = 0.0;
        if (kind < 0.55) { /* faucet */
            lps = between(r, 0.04, 0.13);
            length = exp(2.9 + 0.8 * qll_sample_normal(r));
            share = 0.5;
        } else if (kind < 0.8) { /* toilet */
            lps = between(r, 0.1, 0.18);
            length = between(r, 35.0, 70.0);
        } else if (kind < 0.92) { /* shower */
            lps = between(r, 0.1, 0.17);
            length = between(r, 180.0, 600.0);
            share = 0.65;
        } else { /* tub, hose */
            lps = between(r, 0.22, 0.45);
            length = between(r, 120.0, 500.0);
            share = 0.4;
        }
        for (size_t i = 0; i < (size_t)length && t + i < count; i++) {
            flow[t + i] += lps / 1000.0;
            hot[t + i] += share * lps / 1000.0;
        }
    }
}

/* ---- a second ---- */

/* What the heater expands, m3/s: beta P / (rho c) at 50 degC: beta 4.58e-4 1/K, rho 988, c 4181 (IAPWS). */
static double expansion_of(house *h, double hot)
{
    const double beta_over_rho_c = 4.58e-4 / (988.0 * 4181.0);
    h->deficit_j = fmin(h->deficit_j + hot * 988.0 * 4181.0 * 40.0, 20e6); /* 120 L, all cold */
    h->fires = h->deficit_j > (h->fires ? 0.0 : h->band_j);
    if (!h->fires) {
        h->deficit_j += 60.0; /* what its jacket loses */
        return 0.0;
    }
    h->deficit_j -= h->heater_w;
    return beta_over_rho_c * h->heater_w;
}

static double swing_of(house *h, double flow)
{
    const bool in_band = h->hunt_hz > 0.0 && flow > h->hunt_low / 1e3 && flow < h->hunt_high / 1e3;
    h->swing += (in_band ? 1.0 - h->swing : -h->swing) * 0.15;
    h->phase += QLL_TURN * h->hunt_hz * (1.0 + 0.02 * qll_sample_normal(h->random));
    return h->swing * h->hunt_pa * (sin(h->phase) + 0.2 * sin(2.0 * h->phase));
}

static double slugs_of(house *h, double flow)
{
    if (h->air_rate > 0.0 && flow > 2e-5 && qll_random_unit(h->random) < h->air_rate) {
        h->slug_left = 1 + (qll_random_unit(h->random) < 0.4);
        h->slug_pa = fabs(h->slug_pa) * (qll_random_unit(h->random) < 0.5 ? -1.0 : 1.0);
    }
    if (h->slug_left > 0) {
        h->slug_left -= 1;
        return h->slug_pa * between(h->random, 0.5, 1.3);
    }
    return 0.0;
}

static void live_second(house *h, double t_s, double flow, double hot, double *inlet,
                        double *outlet)
{
    const double street = street_of(h, t_s, flow);
    const double set = set_now(h, street, t_s) + h->friction_pa;
    const double expands = expansion_of(h, hot);
    if (flow > 1e-9) {
        const double wanted = outlet_at(h, set, street, flow, t_s);
        h->outlet_pa += (wanted - h->outlet_pa) * (1.0 - exp(-1.0 / 0.9));
        h->rest_s = 0.0;
        h->warm_j = 1.0;
    } else {
        if (h->rest_s == 0.0) {
            h->friction_pa = between(h->random, -1.5e3, 1.5e3);
        }
        h->rest_s += 1.0;
        const double closed = set_now(h, street, t_s) + h->friction_pa + h->lock_up_pa;
        if (h->outlet_pa < fmin(closed, street)) {
            h->outlet_pa += (fmin(closed, street) - h->outlet_pa) * (1.0 - exp(-1.0 / 3.0));
        }
        const double leaks = street > h->outlet_pa ? h->leak * sqrt(street - h->outlet_pa) : 0.0;
        /* Cold water in warm rooms, in pipes without a tank. */
        const double warms = h->has_tank ? 0.0 : h->compliance * 40.0 * h->warm_j;
        h->warm_j *= exp(-1.0 / 500.0);
        h->outlet_pa +=
            (leaks + expands + (h->state == QLL_DAY_EXPANSION ? warms : 0.0)) / h->compliance;
        if (h->state == QLL_DAY_CREEP && !h->has_tank && h->outlet_pa > street) {
            h->outlet_pa = street;
        }
        h->outlet_pa = fmin(h->outlet_pa, h->relief_pa);
        if (!h->has_tank && h->outlet_pa > closed) {
            h->outlet_pa -= (h->outlet_pa - closed) / 9000.0 * (h->state == QLL_DAY_EXPANSION);
        }
    }
    *inlet = street;
    *outlet = h->outlet_pa + swing_of(h, flow) + slugs_of(h, flow);
}

/* ---- the logger ---- */

static double reading(qll_random *r, double pa, double noise_pa)
{
    return 100.0 * floor((pa + noise_pa * qll_sample_normal(r)) / 100.0 + 0.5);
}

static double meter(qll_random *r, double flow)
{
    const double seen = flow * (1.0 + 0.01 * qll_sample_normal(r));
    return 2e-6 * floor(seen / 2e-6 + 0.5);
}

static void make_seconds(day_log *log, house *h, size_t seconds, size_t every, double noise_pa,
                         qll_arena *arena)
{
    double *flow = qll_arena_take(arena, seconds, sizeof *flow);
    double *hot = qll_arena_take(arena, seconds, sizeof *hot);
    if (flow == NULL || hot == NULL) {
        abort();
    }
    draw_water(h->random, flow, hot, seconds);
    for (size_t t = 0; t < seconds; t++) {
        double inlet = 0.0;
        double outlet = 0.0;
        live_second(h, (double)t, flow[t], hot[t], &inlet, &outlet);
        if (t % every == 0) {
            log->value[QLL_CHANNEL_INLET][log->count] = reading(h->random, inlet, noise_pa);
            log->value[QLL_CHANNEL_OUTLET][log->count] = reading(h->random, outlet, noise_pa);
            log->value[QLL_CHANNEL_FLOW][log->count] = meter(h->random, flow[t]);
            log->count += 1;
        }
    }
}

/* ---- fast logs: a steady or a changing flow for some minutes ---- */

typedef struct wave {
    double at_s, size_pa, hz, decay_s;
} wave;

/* Blows that the fast log of a house with water hammer shows, spread over its length; how many. */
static size_t make_waves(const house *h, double length_s, wave *waves)
{
    qll_random *r = h->random;
    if (h->state != QLL_DAY_HAMMER) {
        return 0;
    }
    const size_t count = 4 + (size_t)(6.0 * qll_random_unit(r));
    for (size_t i = 0; i < count; i++) {
        waves[i] = (wave){(double)(i + 1) * length_s / (double)(count + 1),
                          between(r, 180e3, 900e3), between(r, 5.0, 40.0), between(r, 0.1, 0.6)};
    }
    return count;
}

/* What the waves add at @p t_s: each rises within milliseconds and rings for four seconds. */
static double waves_at(const wave *waves, size_t count, double t_s)
{
    double sum = 0.0;
    for (size_t w = 0; w < count; w++) {
        const double since = t_s - waves[w].at_s;
        if (since >= 0.0 && since < 4.0) {
            sum += waves[w].size_pa * exp(-since / waves[w].decay_s)
                   * cos(QLL_TURN * waves[w].hz * since) * (1.0 - exp(-since / 0.006));
        }
    }
    return sum;
}

static void make_fast(day_log *log, house *h, double rate_hz, double noise_pa)
{
    qll_random *r = h->random;
    const double length_s = (double)log->count / rate_hz;
    wave waves[12] = {{0}};
    const size_t wave_count = make_waves(h, length_s, waves);
    const double chatter_hz =
        qll_random_unit(r) < 0.5 ? between(r, 9.0, 55.0) : between(r, 65.0, 280.0);
    const double chatter_pa = between(r, 9e3, 60e3);
    const double hunt_hz = between(r, 0.05, 0.9);
    const double hunt_pa = between(r, 8e3, 40e3);
    const double low_flow = between(r, 0.03, 0.08) / 1000.0;
    double flow = 0.0;
    double outlet = h->set_pa;
    double phase = 0.0;
    double next_s = 0.0;
    for (size_t i = 0; i < log->count; i++) {
        const double t = (double)i / rate_hz;
        if (t >= next_s) {
            const double kind = t == 0.0 ? 0.5 : qll_random_unit(r); /* low first */
            flow = kind < 0.35 ? 0.0 : kind < 0.7 ? low_flow : between(r, 0.1, 0.35) / 1000.0;
            next_s = t + between(r, 0.06, 0.2) * length_s;
        }
        const double street =
            h->street_pa + 3e3 * sin(QLL_TURN * t / 37.0) - h->street_r * flow * flow;
        const double wanted =
            flow > 0.0 ? outlet_at(h, h->set_pa, street, flow, t) : h->set_pa + h->lock_up_pa;
        outlet += (wanted - outlet) * (1.0 - exp(-1.0 / (0.5 * rate_hz)));
        double p = outlet;
        phase += QLL_TURN / rate_hz * (h->state == QLL_DAY_CHATTER ? chatter_hz : hunt_hz)
                 * (1.0 + 0.02 * qll_sample_normal(r));
        if (h->state == QLL_DAY_CHATTER && flow == low_flow) {
            /* A seat that is struck: short blows rather than a sine at low rates. */
            const double s = sin(phase);
            p += chatter_pa * (chatter_hz < 60.0 ? s * fabs(s) : s);
        }
        if (h->state == QLL_DAY_QUICK_HUNTING && flow > 0.0) {
            p += hunt_pa * (sin(phase) + 0.15 * sin(3.0 * phase));
        }
        p += waves_at(waves, wave_count, t);
        log->value[QLL_CHANNEL_INLET][i] = reading(r, street, noise_pa);
        log->value[QLL_CHANNEL_OUTLET][i] = reading(r, fmax(p, -98e3), noise_pa); /* water boils */
        log->value[QLL_CHANNEL_FLOW][i] = meter(r, flow);
    }
}

static void spoil(day_log *log, day_state state, qll_random *r)
{
    double *outlet = log->value[QLL_CHANNEL_OUTLET];
    if (state == QLL_DAY_STUCK) {
        const size_t from = (size_t)(between(r, 0.1, 0.7) * (double)log->count);
        const size_t length = (size_t)between(r, 3000.0, 20000.0);
        for (size_t i = from + 1; i < from + length && i < log->count; i++) {
            outlet[i] = outlet[from];
        }
    } else if (state == QLL_DAY_CLIPPED) {
        double most = 0.0;
        double sum = 0.0;
        for (size_t i = 0; i < log->count; i++) {
            sum += outlet[i];
            most = outlet[i] > most ? outlet[i] : most;
        }
        const double middle = sum / (double)log->count;
        const double end = middle + 0.1 * (most - middle);
        for (size_t i = 0; i < log->count; i++) {
            outlet[i] = outlet[i] > end ? end : outlet[i];
        }
    } else if (state == QLL_DAY_SWAPPED) {
        double *inlet = log->value[QLL_CHANNEL_INLET];
        log->value[QLL_CHANNEL_INLET] = outlet;
        log->value[QLL_CHANNEL_OUTLET] = inlet;
    }
}

day_log day_make(day_state state, uint64_t seed, double noise_pa, qll_arena *arena)
{
    qll_random random = qll_random_seeded(seed * 1000003U + (uint64_t)state);
    house h = house_of(state, &random);
    day_log log = {.interval_ms = 1000, .count = 0};
    size_t seconds = QLL_DAY_S;
    size_t every = 1;
    double rate_hz = 0.0;
    size_t room = QLL_DAY_S;
    if (state >= QLL_DAY_WEEKS && state <= QLL_DAY_STEP) {
        seconds = (size_t)(21 + (int)(8.0 * qll_random_unit(&random))) * QLL_DAY_S;
        every = 30;
        room = seconds / every + 1;
        log.interval_ms = 30000;
    } else if (state >= QLL_DAY_MONTH) {
        seconds = (size_t)(21 + (int)(8.0 * qll_random_unit(&random))) * QLL_DAY_S;
        every = 10;
        room = seconds / every + 1;
        log.interval_ms = 10000;
    } else if (state >= QLL_DAY_QUICK) {
        rate_hz = state <= QLL_DAY_QUICK_HUNTING ? 10.0 : state <= QLL_DAY_HAMMER ? 250.0 : 1000.0;
        room = (size_t)(rate_hz
                        * (state <= QLL_DAY_QUICK_HUNTING ? 1200.0
                           : state <= QLL_DAY_HAMMER      ? 300.0
                                                          : 120.0));
        log.interval_ms = (int64_t)(1000.0 / rate_hz);
    }
    log.at_ms = qll_arena_take(arena, room, sizeof *log.at_ms);
    for (size_t c = 0; c <= QLL_CHANNEL_FLOW; c++) {
        log.value[c] = qll_arena_take(arena, room, sizeof *log.value[c]);
        if (log.value[c] == NULL || log.at_ms == NULL) {
            abort();
        }
    }
    if (rate_hz > 0.0) {
        log.count = room;
        make_fast(&log, &h, rate_hz, noise_pa);
    } else {
        make_seconds(&log, &h, seconds, every, noise_pa, arena);
    }
    for (size_t i = 0; i < log.count; i++) {
        log.at_ms[i] = INT64_C(1772323200000) + (int64_t)i * log.interval_ms; /* 2026-03-01 */
    }
    spoil(&log, state, &random);
    log.set_pa = h.set_pa;
    log.droop_pa = h.droop_pa;
    log.kvs_m3h = h.kvs_m3h;
    log.inlet_effect = h.effect;
    log.inlet_reference_pa = h.street_pa;
    return log;
}
