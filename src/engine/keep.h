/* What a keeper holds: each thing in an arena of its own, found again by a key that holds all it hangs on. */
#ifndef QUELL_ENGINE_KEEP_H
#define QUELL_ENGINE_KEEP_H

#include "quell/kept.h"

#include "engine/engine.h"

/** A scenario with its demand, as it was worked out in an arena of its own. */
struct qll_kept_scenario {
    qll_arena *arena;
    qll_text key;
    size_t last_used;                  /* the question that used it last */
    const qll_flow_log_result *result; /* NULL without a log */
    const qll_problems *log_problems;  /* warnings that came with the log */
    const qll_metered *metered;
    qll_demand demand;
};

/** A question begins. */
void qll_keep_begin(qll_kept *kept);

/** The tables, read once; NULL where nothing is kept or there was no memory. */
const qll_tables *qll_keep_tables(qll_kept *kept);

/** A catalogue with what was assumed and warned of when it was read. */
typedef struct qll_kept_catalogue {
    qll_arena *arena;
    qll_text name, bytes;
    qll_catalogue catalogue;
    qll_assumed assumed;
    qll_problems problems;
} qll_kept_catalogue;

/** Room for the catalogue that @p input is; found tells that it is there already. NULL where nothing is kept. */
qll_kept_catalogue *qll_keep_catalogue(qll_kept *kept, const qll_input *input, bool *found);

/** Takes back the room of a catalogue that was refused or found no memory. */
void qll_drop_catalogue(qll_kept *kept);

/** Finds or works out what may be kept of all scenarios of @p prepared; NULL stays where it may not. QLL_OK, QLL_STOPPED or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_keep_scenarios(qll_asked *asked, qll_prepared *prepared);

/** A station that was chosen, with the survey, the catalogue and the duty it was chosen by. */
typedef struct qll_kept_design {
    qll_arena *arena; /* NULL: none */
    qll_text key;
    qll_designed designed;
    bool has_hangs;         /* what it hangs on was asked for, and is in it */
    qll_arena *hangs_arena; /* where that was found later than the rest; NULL */
    bool has_no_room;       /* one was too large to be kept: no other is tried */
} qll_kept_design;

/** The keeper's place for it. */
qll_kept_design *qll_keep_design_place(qll_kept *kept);

/** Whether @p catalogue is the one that is kept: what points into it lives as long. */
bool qll_keep_has_catalogue(const qll_kept *kept, const qll_catalogue *catalogue);

/** An arena that leaves the keeper under its ceiling; NULL where there is no room. */
qll_arena *qll_keep_open_within(const qll_kept *kept);

/** Takes back the room of a design. */
void qll_drop_design(qll_kept_design *design);

/** Finds or works out the station for what was prepared of @p designed; @p design stays NULL where it may not be kept. QLL_OK,
 * QLL_STOPPED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_keep_design(qll_asked *asked, const qll_designed *designed,
                                        const qll_design **design);

#endif
