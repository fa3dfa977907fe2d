/* What the person at the station needs to put it in, to start it and to look after it. */
#ifndef QUELL_FINDINGS_JOB_H
#define QUELL_FINDINGS_JOB_H

#include "demand/flow_run.h"
#include "station/commissioning.h"
#include "station/installing.h"
#include "station/parts_list.h"

/** A valve is set by itself: how its flow is made to run, and the most that its outlet gauge may show. */
typedef struct qll_setting_test {
    qll_flow_run run;
    double most_pa_gauge;
} qll_setting_test;

typedef struct qll_job {
    const qll_branch_sizes *const *sizes; /* [stage][branch] */
    qll_pieces pieces;
    qll_installing installing;
    const qll_setting_test *const *setting_tests; /* [stage][branch]; who is there on the day */
    qll_flow_run falloff_runs[QLL_FALLOFF_TESTS];
} qll_job;

/** What a cure buys of the station as it is then; of one that buys no valve there are no pieces. */
typedef struct qll_cure_parts {
    qll_strainer *const *strainers; /* [stage][branch] of that station */
    qll_pieces pieces;
} qll_cure_parts;

#endif
