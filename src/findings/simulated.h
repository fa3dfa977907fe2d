/* What an event in the pipes came to. */
#ifndef QUELL_FINDINGS_SIMULATED_H
#define QUELL_FINDINGS_SIMULATED_H

#include "findings/findings.h"
#include "transient/event_cures.h"
#include "transient/hammer.h"
#include "transient/run.h"

/** What is shown of a joint. */
typedef struct qll_place_found {
    qll_said name;
    const qll_joint_seen *seen;
    double limit_pa_gauge; /* that it is made for */
} qll_place_found;

/** What is shown of a pipe. */
typedef struct qll_pipe_found {
    qll_said name;
    double wave_speed_m_s; /* as the run took it */
    double speed_off;      /* over the true one, less 1 */
    size_t cells;          /* 0 = in one piece */
    double right_from_s;   /* in one piece: what takes this long or longer is right within 5 % */
    double high_pa_gauge, rating_pa_gauge;
} qll_pipe_found;

typedef struct qll_simulated_findings {
    qll_demand_findings demand;
    const qll_station *station;
    qll_event_kind event;
    const char *event_word;
    qll_said says;   /* what happens */
    size_t followed; /* draw of the run's tree */
    double static_pa_gauge;
    double within_s;              /* in which it moves, or a night; NaN of heater and day */
    double before_m3s, after_m3s; /* drawn; NaN where no draw changes */
    double leak_m3s;              /* of a seat; NaN but of creep */
    const qll_run_found *run;
    qll_hammer hammer;
    qll_event_verdict verdicts[2]; /* hammer, hunting */
    const qll_place_found *places;
    size_t place_count;
    const qll_pipe_found *pipes;    /* [line of the run's tree] */
    const char *const *valve_names; /* [valve of the run's tree] */
    const qll_said *notes;
    size_t note_count;
    const qll_event_cure *cures;
    const qll_said *cure_says; /* [cure] */
    size_t cure_count;
} qll_simulated_findings;

#endif
