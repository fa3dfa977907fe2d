/* The hard rules of practice: what makes a station unfit to install, and by how much.
 * docs/theory/recommendation.md, 1. */
#ifndef QUELL_STATION_FITNESS_H
#define QUELL_STATION_FITNESS_H

#include "station/measure.h"
#include "station/operate.h"

/** X(NAME, word): hard rules. */
#define QLL_PRACTICE_LIST(X) \
    X(RATING, "rating")      \
    X(SIZE, "size")          \
    X(PILOT, "pilot")        \
    X(RATIO, "ratio")        \
    X(ORDER, "order")        \
    X(HANDOVER, "hand-over") \
    X(SPEED, "speed")        \
    X(DELIVERY, "delivery")  \
    X(STATIC, "static")

typedef enum qll_practice {
#define QLL_PRACTICE_NAME(name, word) QLL_PRACTICE_##name,
    QLL_PRACTICE_LIST(QLL_PRACTICE_NAME)
#undef QLL_PRACTICE_NAME
    QLL_PRACTICE_COUNT
} qll_practice;

extern const char *const qll_practice_words[QLL_PRACTICE_COUNT];

/* What two figures that should be equal may differ by in their last bits. */
#define QLL_PRACTICE_SLACK 1e-9
/* A breach of pressure is counted in these: what a plumber would not argue about. */
#define QLL_BREACH_PA      (10.0 * 6894.757293168361)

/* Pressures are shown to a tenth of a psi and judged to it: "80.0 psi is above 80.0 psi" is nothing to argue about. */
#define QLL_PRESSURE_SLACK_PA (0.05 * 6894.757293168361)

/** True if what is short by @p short_pa breaks a rule; what cannot be computed does. */
static inline bool qll_breaks_pa(double short_pa)
{
    return !(short_pa <= QLL_PRESSURE_SLACK_PA);
}

/* Every set-point stands clear of the next stage's by so much. */
#define QLL_CLEAR_PA        (10.0 * 6894.757293168361)
/* Through a valve's own size at the design peak: 15 ft/s (common practice, no source). */
#define QLL_SPEED_MOST_M_S  (15.0 * 0.3048)
/* A valve still has so much of its travel in hand when the next one takes over (our assumption). */
#define QLL_HANDOVER_TRAVEL 0.9
/* Of neighbours in a stage the next one's full Kv is at least so many times that of the one before: a
 * small valve and a large one (common practice, no source). */
#define QLL_LARGER_LEAST    2.0
/* The least service a pilot-operated valve goes into, with what two standards' inches differ by. */
#define QLL_PILOT_LEAST_M   (1.5 * 0.0254 * 0.95)

/** How far each rule is broken, in parts of what it allows; 0 = kept. */
typedef struct qll_fitness {
    double breach[QLL_PRACTICE_COUNT];
    double total;
    double value[QLL_PRACTICE_COUNT]; /* what was found: a pressure, ratio, velocity, size (SI) */
    double limit[QLL_PRACTICE_COUNT];
    bool is_fit;
} qll_fitness;

/* The parts, each the breach of one rule; a search asks them one by one. */

/** Of a valve in its pipe, whatever the station: SIZE, PILOT and the temperature of RATING. */
void qll_fitness_of_valve(const qll_site *site, const qll_valve *valve, qll_fitness *fitness);

/** A set-point within the range of its valve, Pa gauge; 0 if it is. */
double qll_breach_of_range(const qll_valve *valve, double set_pa_gauge);

/** Neighbours of a stage at two inlets, gauge. */
double qll_breach_of_handover(const qll_stage *stage, double low_pa_gauge, double high_pa_gauge);

/** Greatest gauge ratio of a stage: inlet over the pressure it is meant to hold. */
double qll_practice_ratio(double inlet_pa_gauge, double held_pa_gauge);

/** Whether one stage may take that drop. */
bool qll_keeps_ratio(const qll_site *site, double inlet_pa_gauge, double held_pa_gauge);

/** The pressure stage @p stage is meant to hold, gauge: the wanted one, or before the last stage the
 * highest set-point. */
double qll_held_pa_gauge(const qll_site *site, const qll_station *station, size_t stage);

/** Looks at every hard rule of @p station. Gives back all it takes of @p arena. */
QLL_MUST_USE qll_status qll_station_fitness(const qll_station *station,
                                            const qll_yardstick *yardstick, qll_arena *arena,
                                            qll_fitness *fitness);

#endif
