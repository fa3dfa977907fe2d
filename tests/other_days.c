/* A second generator, written from docs/theory/pressure_log.md after the findings were frozen: no equations of motion but
 * closed forms, one draw at a time, other laws for the valve, the noise and the waves. */
#include "numeric/sample.h"
#include "pressure_days.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define QLL_TURN 6.283185307179586
#define QLL_KPA  1000.0

typedef struct site {
    day_state state;
    qll_random *random;
    double street, beat[2], beat_s[2], beat_phase[2]; /* supply: level and two slow sines */
    double saw, saw_s;
    double set, loss, bend; /* outlet = set - loss (Q / 0.3 L/s)^bend */
    double lock_up, follow; /* over the set-point at rest; per kPa of the inlet */
    double screen;          /* flow at which the screen takes all there is, L/s */
    double leak_s;          /* time constant of a seat that leaks; 0 = tight */
    double heat_rate, heat_s,
        heat_share; /* rise while heating, kPa/s; how long; in which share of rests */
    double drift, step, step_at_s;
    double clog, clog_s, shut_at_s; /* lost at 0.3 L/s in the end; how soon; at once from then on */
    double swing, swing_s;
    double slug, slug_rate;
} site;

static double between(qll_random *r, double low, double high)
{
    return low + (high - low) * qll_random_unit(r);
}

static double exponential(qll_random *r, double mean)
{
    return -mean * log(1.0 - qll_random_unit(r));
}

static site site_of(day_state state, qll_random *r)
{
    site s = {.state = state, .random = r};
    s.street = between(r, 580.0, 900.0);
    for (int i = 0; i < 2; i++) {
        s.beat[i] = between(r, 4.0, 14.0);
        s.beat_s[i] = between(r, 5000.0, 86400.0);
        s.beat_phase[i] = between(r, 0.0, QLL_TURN);
    }
    s.set = between(r, 300.0, 450.0);
    s.loss = between(r, 12.0, 35.0);
    s.bend = between(r, 0.6, 1.1);
    s.lock_up = between(r, 5.0, 25.0);
    s.follow = between(r, 0.0, 0.06);
    s.screen = 0.0;
    s.heat_rate = between(r, 0.01, 0.07);
    s.heat_s = between(r, 300.0, 1500.0);
    s.heat_share = between(r, 0.1, 0.4);
    if (state == QLL_DAY_CREEP) {
        s.heat_share = 0.0;
        s.leak_s = exp(between(r, log(300.0), log(60000.0)));
    } else if (state == QLL_DAY_EXPANSION) {
        s.heat_rate = between(r, 0.35, 1.2);
        s.heat_share = between(r, 0.25, 0.5);
    } else if (state == QLL_DAY_STRAINER) {
        s.screen = between(r, 0.24, 0.34);
    } else if (state == QLL_DAY_SUPPLY) {
        s.saw = between(r, 160.0, 280.0);
        s.saw_s = between(r, 900.0, 9000.0);
        s.street += 150.0;
    } else if (state == QLL_DAY_INLET_EFFECT) {
        s.follow = between(r, 0.2, 0.5);
        s.beat[0] = between(r, 25.0, 40.0);
    } else if (state == QLL_DAY_LOCK_UP) {
        s.lock_up = between(r, 95.0, 160.0);
    } else if (state == QLL_DAY_HUNTING) {
        s.swing = between(r, 8.0, 35.0);
        s.swing_s = between(r, 6.0, 30.0);
    } else if (state == QLL_DAY_AIR) {
        s.slug = between(r, 20.0, 80.0);
        s.slug_rate = between(r, 0.03, 0.15);
    } else if (state == QLL_DAY_DRIFT) {
        s.drift = (qll_random_unit(r) < 0.5 ? -1.0 : 1.0) * between(r, 1.2, 3.0) / 86400.0;
    } else if (state == QLL_DAY_STEP) {
        s.step = (qll_random_unit(r) < 0.5 ? -1.0 : 1.0) * between(r, 22.0, 60.0);
        s.step_at_s = between(r, 7.0, 14.0) * 86400.0;
    } else if (state == QLL_DAY_CLOGGING) {
        s.clog = between(r, 25.0, 60.0);
        s.clog_s = between(r, 5.0, 15.0) * 86400.0;
    } else if (state == QLL_DAY_HALF_SHUT) {
        s.clog = between(r, 22.0, 60.0);
        s.shut_at_s = between(r, 6.0, 15.0) * 86400.0;
    }
    return s;
}

static double inlet_at(const site *s, double t)
{
    double p = s->street;
    for (int i = 0; i < 2; i++) {
        p += s->beat[i] * sin(QLL_TURN * t / s->beat_s[i] + s->beat_phase[i]);
    }
    if (s->saw > 0.0) {
        p += s->saw * (fabs(2.0 * fmod(t / s->saw_s, 1.0) - 1.0) - 0.5);
    }
    return p;
}

static double set_at(const site *s, double t)
{
    return s->set + s->drift * t + (s->step != 0.0 && t > s->step_at_s ? s->step : 0.0)
           + s->follow * (inlet_at(s, t) - s->street);
}

/* While water runs: a power of the flow, and beyond what the screen lets through a collapse. */
static double running(const site *s, double t, double lps)
{
    const double clogged = s->clog_s > 0.0    ? 1.0 - exp(-t / s->clog_s)
                           : t > s->shut_at_s ? 1.0
                                              : 0.0;
    const double kept = set_at(s, t) - s->loss * pow(lps / 0.3, s->bend)
                        - s->clog * clogged * (lps / 0.3) * (lps / 0.3);
    if (s->screen <= 0.0) {
        return kept;
    }
    const double left = inlet_at(s, t) * (1.0 - (lps / s->screen) * (lps / s->screen));
    return fmax(fmin(kept, left), 15.0);
}

/* Seconds into a rest that began at @p t0; the heater fires at @p heat_at, if at all. */
static double resting(const site *s, double t0, double since, double heat_at)
{
    const double closed = set_at(s, t0 + since) + s->lock_up * (1.0 - exp(-since / 2.5));
    double p = closed;
    if (s->leak_s > 0.0) {
        const double inlet = inlet_at(s, t0 + since);
        p = inlet - (inlet - closed) * exp(-since / s->leak_s);
    }
    if (heat_at >= 0.0 && since > heat_at) {
        const double heated = fmin(since - heat_at, s->heat_s);
        const double cools = fmax(since - heat_at - s->heat_s, 0.0);
        p += s->heat_rate * heated * exp(-cools / 20000.0);
    }
    return fmin(p, 1000.0);
}

typedef struct teller {
    qll_random *random;
    double noise_pa, before[2];
} teller;

/* Noise that remembers a little, and a gauge of 0.05 psi. */
static double tell(teller *of, int gauge, double kpa)
{
    of->before[gauge] =
        0.3 * of->before[gauge] + sqrt(1.0 - 0.09) * of->noise_pa * qll_sample_normal(of->random);
    const double step = 344.738;
    return step * floor((kpa * QLL_KPA + of->before[gauge]) / step + 0.5);
}

static double share_of_day(double t)
{
    const double hour = fmod(t / 3600.0, 24.0);
    return hour < 5.5 ? 0.06 : hour < 9.0 ? 2.2 : hour < 16.0 ? 0.9 : hour < 22.0 ? 1.6 : 0.5;
}

/* What the outlet shows at @p t while @p lps runs; @p phase is that of what swings. */
static double swinging(site *s, double t, double lps, double interval_s, double *phase)
{
    qll_random *r = s->random;
    double p = running(s, t, lps);
    *phase += interval_s / (s->swing_s > 0.0 ? s->swing_s : 1.0) * between(r, 0.97, 1.03);
    p += s->swing * (4.0 * fabs(fmod(*phase, 1.0) - 0.5) - 1.0); /* triangles */
    if (qll_random_unit(r) < s->slug_rate * interval_s) {
        p += s->slug * (qll_random_unit(r) < 0.5 ? -1.0 : 1.0) * between(r, 0.6, 1.4);
    }
    return p;
}

static void live(day_log *log, site *s, double length_s, double interval_s, double noise_pa)
{
    qll_random *r = s->random;
    teller of = {.random = r, .noise_pa = noise_pa};
    double t0 = 0.0;
    double until = 0.0;
    double lps = 0.0;
    double heat_at = -1.0;
    double swing_phase = 0.0;
    for (size_t row = 0; (double)row * interval_s < length_s; row++) {
        const double t = (double)row * interval_s;
        if (t >= until) {
            const bool runs = lps == 0.0;
            t0 = t;
            lps = runs ? 0.05 * pow(8.4, qll_random_unit(r)) : 0.0;
            until = t
                    + (runs ? 15.0 + exponential(r, 90.0)
                            : 20.0 + exponential(r, 420.0 / share_of_day(t)));
            heat_at = !runs && qll_random_unit(r) < s->heat_share ? between(r, 0.0, 400.0) : -1.0;
        }
        const double p = lps > 0.0 ? swinging(s, t, lps, interval_s, &swing_phase)
                                   : resting(s, t0, t - t0, heat_at);
        log->value[QLL_CHANNEL_INLET][log->count] = tell(&of, 0, inlet_at(s, t));
        log->value[QLL_CHANNEL_OUTLET][log->count] = tell(&of, 1, p);
        log->value[QLL_CHANNEL_FLOW][log->count] =
            lps > 0.0 ? 1e-3 * fmax(lps + 0.002 * qll_sample_normal(r), 0.0) : 0.0;
        log->count += 1;
    }
}

/* Fast: square waves that die away (water hammer in one pipe), single blows for chatter, triangles for hunting. */
static void live_fast(day_log *log, site *s, size_t count, double rate_hz, double noise_pa)
{
    qll_random *r = s->random;
    teller of = {.random = r, .noise_pa = noise_pa};
    const double blow_hz = between(r, 8.0, 60.0);
    const double blow = between(r, 20.0, 80.0);
    const double own_hz = between(r, 120.0, 250.0);
    const double swing_hz = between(r, 0.06, 0.8);
    const double swing = between(r, 9.0, 40.0);
    double next_close = between(r, 5.0, 40.0);
    double closed_at = -100.0;
    double wave = 0.0;
    double wave_hz = 10.0;
    double next_blow = 0.0;
    double blow_at = -1.0;
    const double lps = between(r, 0.04, 0.1);
    for (size_t i = 0; i < count; i++) {
        const double t = (double)i / rate_hz;
        const bool runs = fmod(t / ((double)count / rate_hz) * 3.0, 1.0) < 0.7;
        double p = runs ? s->set - s->loss * 0.3 : s->set + s->lock_up;
        if (s->state == QLL_DAY_HAMMER && t > next_close) {
            closed_at = t;
            wave = between(r, 150.0, 700.0);
            wave_hz = between(r, 6.0, 35.0);
            next_close = t + between(r, 15.0, 60.0);
        }
        if (t >= closed_at && t < closed_at + 3.0) {
            const double phase = fmod((t - closed_at) * wave_hz, 1.0);
            p += wave * exp(-(t - closed_at) / 0.35) * (phase < 0.5 ? 1.0 : -1.0);
        }
        if (s->state == QLL_DAY_CHATTER && runs) {
            if (t >= next_blow) {
                blow_at = t;
                next_blow = t + between(r, 0.97, 1.03) / blow_hz;
            }
            p +=
                blow * exp(-(t - blow_at) * blow_hz * 2.0) * cos(QLL_TURN * own_hz * (t - blow_at));
            p += 0.5 * blow * sin(QLL_TURN * blow_hz * t);
        }
        if (s->state == QLL_DAY_QUICK_HUNTING && runs) {
            p += swing * (4.0 * fabs(fmod(t * swing_hz, 1.0) - 0.5) - 1.0);
        }
        log->value[QLL_CHANNEL_INLET][i] = tell(&of, 0, inlet_at(s, t));
        log->value[QLL_CHANNEL_OUTLET][i] = tell(&of, 1, fmax(p, -98.0));
        log->value[QLL_CHANNEL_FLOW][i] = runs ? lps / 1e3 : 0.0;
    }
    log->count = count;
}

static void spoil(day_log *log, site *s)
{
    double *outlet = log->value[QLL_CHANNEL_OUTLET];
    if (s->state == QLL_DAY_STUCK) {
        const size_t from = log->count / 3;
        for (size_t i = from; i < from + 4000 && i < log->count; i++) {
            outlet[i] = outlet[from];
        }
    }
    for (size_t i = 0; i < log->count && s->state == QLL_DAY_CLIPPED; i++) {
        outlet[i] = fmin(outlet[i], (s->set + 0.5 * s->lock_up) * QLL_KPA);
    }
    if (s->state == QLL_DAY_SWAPPED) {
        log->value[QLL_CHANNEL_OUTLET] = log->value[QLL_CHANNEL_INLET];
        log->value[QLL_CHANNEL_INLET] = outlet;
    }
}

day_log other_day_make(day_state state, uint64_t seed, double noise_pa, qll_arena *arena)
{
    qll_random random = qll_random_seeded(seed * 7919U + 31U * (uint64_t)state + 5U);
    site s = site_of(state, &random);
    day_log log = {.interval_ms = 1000};
    double length_s = 86400.0;
    double rate_hz = 0.0;
    if (state >= QLL_DAY_WEEKS && state <= QLL_DAY_STEP) {
        length_s = 86400.0 * 22.0;
        log.interval_ms = 20000;
    } else if (state >= QLL_DAY_MONTH) {
        length_s = 86400.0 * 22.0;
        log.interval_ms = 8000;
    } else if (state >= QLL_DAY_QUICK) {
        rate_hz = state <= QLL_DAY_QUICK_HUNTING ? 8.0 : state <= QLL_DAY_HAMMER ? 200.0 : 500.0;
        length_s = state <= QLL_DAY_QUICK_HUNTING ? 1000.0 : 240.0;
        log.interval_ms = (int64_t)(1000.0 / rate_hz);
    } else if (qll_random_unit(&random) < 0.3 && state != QLL_DAY_HUNTING && state != QLL_DAY_AIR) {
        log.interval_ms = 2000;
    }
    const size_t room = (size_t)(length_s * 1000.0 / (double)log.interval_ms) + 2;
    log.at_ms = qll_arena_take(arena, room, sizeof *log.at_ms);
    for (size_t c = 0; c <= QLL_CHANNEL_FLOW; c++) {
        log.value[c] = qll_arena_take(arena, room, sizeof *log.value[c]);
        if (log.value[c] == NULL || log.at_ms == NULL) {
            abort();
        }
    }
    if (rate_hz > 0.0) {
        live_fast(&log, &s, (size_t)(length_s * rate_hz), rate_hz, noise_pa);
    } else {
        live(&log, &s, length_s, (double)log.interval_ms / 1000.0, noise_pa);
    }
    for (size_t i = 0; i < log.count; i++) {
        log.at_ms[i] = INT64_C(1775001600000) + (int64_t)i * log.interval_ms; /* 2026-04-01 */
    }
    spoil(&log, &s);
    return log;
}
