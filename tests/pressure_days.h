/* Logs of pressures beside a station in a known state, from physics: a supply, people who draw, a valve that droops, water
 * that expands, a seat that leaks, gauges that are noisy. Nothing here is shared with the program but published constants;
 * ranges are made up. */
#ifndef QUELL_TESTS_PRESSURE_DAYS_H
#define QUELL_TESTS_PRESSURE_DAYS_H

#include "signals/pressure_log.h"

/** What is wrong, if anything; and how fast the logger is. */
typedef enum day_state {
    QLL_DAY_HEALTHY, /* a day at 1 s, as the next seven */
    QLL_DAY_CREEP,
    QLL_DAY_EXPANSION,
    QLL_DAY_STRAINER,
    QLL_DAY_HUNTING,
    QLL_DAY_SUPPLY,
    QLL_DAY_AIR,
    QLL_DAY_INLET_EFFECT,
    QLL_DAY_LOCK_UP,
    QLL_DAY_STUCK,
    QLL_DAY_CLIPPED,
    QLL_DAY_SWAPPED,
    QLL_DAY_WEEKS, /* 21 to 28 days at 30 s, healthy */
    QLL_DAY_DRIFT,
    QLL_DAY_STEP,
    QLL_DAY_QUICK, /* 20 min at 10 Hz, healthy */
    QLL_DAY_QUICK_HUNTING,
    QLL_DAY_FAST, /* 5 min at 250 Hz, healthy */
    QLL_DAY_HAMMER,
    QLL_DAY_FASTEST, /* 2 min at 1 kHz, healthy */
    QLL_DAY_CHATTER,
    QLL_DAY_MONTH, /* 21 to 28 days at 10 s, healthy */
    QLL_DAY_CLOGGING,
    QLL_DAY_HALF_SHUT, /* a stop valve before the valve, from one day on */
    QLL_DAY_STATES
} day_state;

extern const char *const day_names[QLL_DAY_STATES];

/** What must be found, as bits of qll_pressure_word. */
unsigned day_truth(day_state state);

/** Is just that found? What clogs or was half shut takes by the square of the flow, so it may be found as a strainer too. */
bool day_is_right(day_state state, unsigned found);

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
