/* What moves: hunting, chatter, hammer, air. */
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_HUNT_RUNS       2
#define QLL_HUNT_CYCLES     24.0
#define QLL_HUNT_OFTEN      0.25
#define QLL_WAVES_LOOK      0.3 /* an hour */
#define QLL_WAVES_ACT       3.0
#define QLL_WAVES_SURE      12.0
#define QLL_WAVE_LOOK_PA    100e3
#define QLL_WAVE_ACT_PA     345e3 /* 50 psi */
#define QLL_WAVE_SURE_PA    1e6
#define QLL_AIR_LEAST       5
#define QLL_AIR_BOTH        0.2
#define QLL_AIR_REST_SHARE  0.2
#define QLL_CHATTER_LEAST_S 5.0

/* True if it is one to act on. */
static bool judge_hunting(qll_judging *j, double air_strength)
{
    const qll_hunt *hunt = &j->state->hunt;
    const double share = hunt->looked_s > 0.0 ? hunt->seen_s / hunt->looked_s : 0.0;
    if (air_strength >= 0.5 && share < QLL_HUNT_OFTEN) {
        return false; /* slugs of air beat evenly now and then */
    }
    if (hunt->run_count < QLL_HUNT_RUNS && hunt->cycles < QLL_HUNT_CYCLES) {
        return false;
    }
    const double amplitude_pa = sqrt(2.0) * hunt->best_rms_pa;
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_HUNTING,
                                                  qll_grade(hunt->best_rms_pa, 1.5e3, 3e3, 10e3),
                                                  amplitude_pa, hunt->first_ms, hunt->last_ms);
    if (found != NULL) {
        found->frequency_hz = hunt->frequency_hz;
        found->share = share;
    }
    return found != NULL && found->strength >= 0.5;
}

/* True if it is one to act on. */
static bool judge_chatter(qll_judging *j)
{
    const qll_fast *fast = &j->state->fast;
    if (!fast->hears || fast->hum_rest_s >= QLL_CHATTER_LEAST_S) {
        return false; /* mains hum is a fault of the logger */
    }
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_CHATTER,
                        qll_grade(fast->best_minute_s, 1.0, QLL_CHATTER_LEAST_S, 20.0),
                        fast->chatter_pa, fast->heard_first_ms, fast->heard_last_ms);
    if (found != NULL) {
        found->frequency_hz = fast->chatter_hz;
        found->share = fast->heard_s;
    }
    return found != NULL && found->strength >= 0.5;
}

static void judge_hammer(qll_judging *j)
{
    const qll_fast *fast = &j->state->fast;
    const double hours =
        fmax((double)(j->state->last_ms - j->state->first_ms) / 3600e3 - j->state->gap_s / 3600.0,
             1.0 / 60.0);
    const double per_hour = (double)fast->wave_count / hours;
    if (fast->wave_count == 0) {
        return;
    }
    /* In a short log one wave is no rate. */
    const double often = fast->wave_count >= 3
                             ? qll_grade(per_hour, QLL_WAVES_LOOK, QLL_WAVES_ACT, QLL_WAVES_SURE)
                             : 0.0;
    const double hard =
        qll_grade(fast->peak_pa, QLL_WAVE_LOOK_PA, QLL_WAVE_ACT_PA, QLL_WAVE_SURE_PA);
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_HAMMER, fmax(fmax(often, hard), 0.1), fast->peak_pa,
                        fast->first_ms, fast->last_ms);
    if (found != NULL) {
        found->per_hour = per_hour;
        found->count = (double)fast->wave_count;
        found->rise_s = fast->rise_s;
        found->frequency_hz = fast->ring_hz;
    }
}

/* Jumps an hour of running water; 0 where they are too few, of one side only, or there at rest too. */
static double jumps_per_hour(const qll_air *air)
{
    const double count = (double)(air->up + air->down);
    const double least = (double)(air->up < air->down ? air->up : air->down);
    if (count < QLL_AIR_LEAST || least < QLL_AIR_BOTH * count || air->run_s <= 0.0) {
        return 0.0;
    }
    const double per_hour = 3600.0 * count / air->run_s;
    const double rest_per_hour =
        air->rest_s > 0.0 ? 3600.0 * (double)air->at_rest / air->rest_s : 0.0;
    return rest_per_hour > QLL_AIR_REST_SHARE * per_hour ? 0.0 : per_hour;
}

static void add_air(qll_judging *j, double strength, double per_hour)
{
    const qll_air *air = &j->state->air;
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_AIR, strength,
                                                  per_hour / 3600.0, air->first_ms, air->last_ms);
    if (found != NULL) {
        found->per_hour = per_hour;
        found->level_pa_gauge = air->size_pa / (double)(air->up + air->down);
    }
}

void qll_judge_motion(qll_judging *j)
{
    const bool chatters = judge_chatter(j);
    const double per_hour = jumps_per_hour(&j->state->air);
    const double air_strength = qll_grade(per_hour / 60.0, 0.3, 1.0, 5.0);
    /* Averages of chatter swing, and an outlet that swings has outliers without air. */
    const bool hunts = !chatters && judge_hunting(j, air_strength);
    judge_hammer(j);
    if (!hunts) {
        add_air(j, air_strength, per_hour);
    }
}
