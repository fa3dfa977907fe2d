/* What valves pass and do between outlets one below the other, whatever stands beside them: docs/theory/search.md, B8. */
#ifndef QUELL_SEARCH_OUTLET_TABLE_H
#define QUELL_SEARCH_OUTLET_TABLE_H

#include "search/foretold.h"
#include "station/hazard_terms.h"

#include <string.h>

enum {
    /* Outlets from the highest that a second valve may stand set at down, and what lies between them. */
    QLL_OUTLET_COUNT = 33,
    QLL_SPAN_COUNT = QLL_OUTLET_COUNT - 1,
};

/* What a float may make of so many sums. */
#define QLL_SUMMED_DOWN (1.0 - 2e-5)

/** One valve at its set-point behind the inlets of one supply. */
typedef struct qll_outlet_table {
    /* [outlet] what it passes, at least and at most */
    float least_m3s[QLL_OUTLET_COUNT], most_m3s[QLL_OUTLET_COUNT];
    /* [span] at least: energy of its noise, cavitation and chatter times the flow of the stage */
    float energy[QLL_SPAN_COUNT];
    float row_m3s[QLL_SPAN_COUNT][QLL_ROWS_PER_BRANCH];
} qll_outlet_table;

/** What a table is made for. */
typedef struct qll_outlet_frame {
    const qll_stage_place *place;
    double
        set_pa_gauge; /* of second valves: the outlets begin at the highest that one may stand at */
    double low_inlet_pa, high_inlet_pa; /* all inlets lie between, absolute */
    double upper_psi, lower_psi; /* steps between outlets, in the upper half and the lower one */
} qll_outlet_frame;

/** The outlets of a table, falling, absolute. */
void qll_outlets_of(const qll_searching *searching, const qll_outlet_frame *frame,
                    double outlet_pa[QLL_OUTLET_COUNT]);

/** Makes the table of @p part at @p set_pa_gauge, which does not sink as the inlet rises. */
void qll_outlet_table_make(const qll_searching *searching, const qll_outlet_frame *frame,
                           const qll_part *part, double set_pa_gauge, qll_outlet_table *made);

/** What both valves of a pair pass at each outlet, at least and at most. */
typedef struct qll_both_pass {
    float least_m3s[QLL_OUTLET_COUNT], most_m3s[QLL_OUTLET_COUNT];
} qll_both_pass;

static inline void qll_pass_together(const qll_outlet_table *const tables[2], qll_both_pass *made)
{
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        made->least_m3s[k] = tables[0]->least_m3s[k] + tables[1]->least_m3s[k];
        made->most_m3s[k] = tables[0]->most_m3s[k] + tables[1]->most_m3s[k];
    }
}

/** Spans between which the outlet lies at one flow: from the one, before the other. */
typedef struct qll_spans {
    size_t from, to;
} qll_spans;

/** Moves on to a flow that is no less than the last: the outlet lies between those at which both together surely pass no
 * more, and surely no less. False where it lies below all. */
static inline bool qll_spans_find(const qll_both_pass *both, double flow_m3s, qll_spans *at)
{
    while (at->from + 1 < QLL_SPAN_COUNT && (double)both->most_m3s[at->from + 1] <= flow_m3s) {
        at->from += 1;
    }
    while (at->to < QLL_OUTLET_COUNT && (double)both->least_m3s[at->to] < flow_m3s) {
        at->to += 1;
    }
    return at->to < QLL_OUTLET_COUNT;
}

/** The least that a branch does in any of the spans, times the flow of the stage; returns the energy of its noise. */
static inline float qll_spans_least(const qll_outlet_table *table, qll_spans at,
                                    float row_m3s[QLL_ROWS_PER_BRANCH])
{
    float energy = table->energy[at.from];
    memcpy(row_m3s, table->row_m3s[at.from], QLL_ROWS_PER_BRANCH * sizeof *row_m3s);
    for (size_t k = at.from + 1; k < at.to; k++) {
        energy = table->energy[k] < energy ? table->energy[k] : energy;
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            row_m3s[r] = table->row_m3s[k][r] < row_m3s[r] ? table->row_m3s[k][r] : row_m3s[r];
        }
    }
    return energy;
}

/** e^-2x at most: below the line less of the series than all of it. */
static inline double qll_falls_to(double severity)
{
    const double x = QLL_COMPLAINT * severity;
    return 1.0 / (1.0 + x * (1.0 + x * (0.5 + x * (1.0 / 6.0 + x / 24.0))));
}

#endif
