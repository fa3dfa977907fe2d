/* What a log of pressures was found to say. */
#ifndef QUELL_FINDINGS_PRESSURE_H
#define QUELL_FINDINGS_PRESSURE_H

#include "base/assumed.h"
#include "base/problems.h"
#include "findings/drawn.h"
#include "signals/pressure_log.h"
#include "wording/wording.h"

/** A moment as the clock of the place showed it, or seconds since the log began. */
typedef struct qll_log_moment {
    bool is_elapsed, has_offset;
    double elapsed_s;
    int year, month, day, hour, minute;
    double second;
    int offset_minutes;
} qll_log_moment;

typedef struct qll_log_stretch {
    qll_log_moment from, to;
} qll_log_stretch;

typedef struct qll_pressure_findings {
    const char *name; /* of the file */
    const qll_pressure_result *result;
    qll_log_stretch whole;
    const qll_log_stretch *at;   /* [finding] */
    const qll_log_stretch *gaps; /* [gap listed] */
    size_t act_count;            /* of strength 0.5 or more; they come first */
    const char *survey;          /* name of the one that it is compared with; NULL = none */
    qll_unit_system units;
    qll_language language;
    const qll_assumed *assumed;
    const qll_problems *problems;
    qll_sheets_told page;
} qll_pressure_findings;

/** From here on a finding is acted on. */
#define QLL_STRENGTH_ACT 0.5

#endif
