/* Logs of pressures beside a station in a known state, from physics: a supply, people who draw, a valve that droops, water
 * that expands, a seat that leaks, gauges that are noisy. Nothing here is shared with the program but published constants;
 * ranges are made up. */
#ifndef QUELL_TESTS_PRESSURE_DAYS_H
#define QUELL_TESTS_PRESSURE_DAYS_H

#include "signals/pressure_log.h"

/** What is wrong, if anything; and how fast the logger is. */
typedef enum day_state {
    DAY_HEALTHY, /* a day at 1 s, as the next seven */
    DAY_CREEP,
    DAY_EXPANSION,
    DAY_STRAINER,
    DAY_HUNTING,
    DAY_SUPPLY,
    DAY_AIR,
    DAY_INLET_EFFECT,
    DAY_LOCK_UP,
    DAY_STUCK,
    DAY_CLIPPED,
    DAY_SWAPPED,
    DAY_WEEKS, /* 21 to 28 days at 30 s, healthy */
    DAY_DRIFT,
    DAY_STEP,
    DAY_QUICK, /* 20 min at 10 Hz, healthy */
    DAY_QUICK_HUNTING,
    DAY_FAST, /* 5 min at 250 Hz, healthy */
    DAY_HAMMER,
    DAY_FASTEST, /* 2 min at 1 kHz, healthy */
    DAY_CHATTER,
    DAY_STATES
} day_state;

extern const char *const day_names[DAY_STATES];

/** What must be found, as bits of qll_pressure_word. */
unsigned day_truth(day_state state);

typedef struct day_log {
    int64_t interval_ms;
    size_t count;
    int64_t *at_ms;
    double *value[QLL_CHANNEL_COUNT]; /* no temperature */
    /* what the valve would do if nothing were wrong with it */
    double set_pa, droop_pa, kvs_m3h, inlet_effect, inlet_reference_pa;
} day_log;

/** A log of that state; @p noise_pa of both gauges. Its arrays come from @p arena. */
day_log day_make(day_state state, uint64_t seed, double noise_pa, qll_arena *arena);

/** A log of that state by a second generator, which shares nothing with the first but this header; no rows of a state that
 * it does not know (other_days.c). Written after the findings were frozen. */
day_log other_day_make(day_state state, uint64_t seed, double noise_pa, qll_arena *arena);

/** Words found with a strength of 0.5 or more, as bits. @p with_survey: compared with what the valve should do. */
unsigned day_found(const day_log *log, bool with_survey, qll_arena *arena,
                   qll_pressure_result *result);

#endif
