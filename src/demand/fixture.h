/* Kinds of fixtures: their fixture units, flow and probability of use (data/fixtures.csv). */
#ifndef QUELL_DEMAND_FIXTURE_H
#define QUELL_DEMAND_FIXTURE_H

#include "base/problems.h"
#include "base/text.h"
#include "demand/outlet.h"

/** What a fixture is in a bathroom. */
typedef enum qll_in_bathroom {
    QLL_IN_BATHROOM_NOTHING,
    QLL_IN_BATHROOM_CLOSET,
    QLL_IN_BATHROOM_BASIN,
    QLL_IN_BATHROOM_BATH, /* bathtub or shower */
} qll_in_bathroom;

#define QLL_PARTS_MAX 3 /* of one bathroom group */

/** One row of data/fixtures.csv. NaN where a table has no entry. */
typedef struct qll_fixture_kind {
    const char *word;               /* what a survey writes: "shower", "water closet, tank" */
    const char *synonyms;           /* further words, separated by '|' */
    double ipc_private, ipc_public; /* IPC Table E103.3(2), total wsfu */
    double upc_private, upc_public; /* UPC Table 610.3 */
    bool flushometer;               /* belongs to the flushometer column of the curve */
    double use_probability;         /* busy in the peak hour (Peak Water Demand Study 2017) */
    double flow_m3s;                /* its flow in the same study, else the code's */
    /* Where each group of values comes from; "" where there is none. */
    const char *ipc_source, *upc_source, *use_source, *flow_source;
    double outlet_count;        /* 3 for a bathroom group, else 1 */
    qll_outlet_response outlet; /* to pressure */
    double din_flow_m3s;        /* calculation flow of DIN 1988-300, cold and hot together */
    double en_units;            /* EN 806-3:2006 Table 2 */
    double bs_units;            /* BS 6700:1997 Table D.1 */
    double bs_units_busy;       /* the same where people queue (schools, offices); NaN = the same */
    const char *din_source, *en_source, *bs_source;
    bool private_in_hotel, private_in_hospital; /* is taken to stand in a guest or patient room */
    qll_in_bathroom in_bathroom;
    const struct qll_fixture_kind *parts[QLL_PARTS_MAX]; /* of a group; the closet first */
    size_t part_count;                                   /* 0 = a single fixture */
    const struct qll_fixture_kind *group; /* of a closet: the bathroom group it belongs to */
} qll_fixture_kind;

typedef struct qll_fixture_table {
    const qll_fixture_kind *kinds;
    size_t count;
    const char *const *words; /* all words and synonyms, for hints */
    size_t word_count;
} qll_fixture_table;

/** Reads the embedded data/fixtures.csv. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_fixture_table_read(qll_arena *arena, qll_fixture_table *table);

/** The kind called @p word or by a synonym, ignoring case; NULL if unknown. */
const qll_fixture_kind *qll_fixture_find(const qll_fixture_table *table, qll_text word);

#endif
