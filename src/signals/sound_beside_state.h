/* What is kept of a log while it goes by: beside.h. */
#ifndef QUELL_SIGNALS_SOUND_BESIDE_STATE_H
#define QUELL_SIGNALS_SOUND_BESIDE_STATE_H

#include "signals/sound_beside.h"

/* The rows before one that it is held against: half a second of them, five at least, no more than these. */
#define QLL_BESIDE_BEFORE_MOST  512
#define QLL_BESIDE_BEFORE_LEAST 5
#define QLL_BESIDE_BEFORE_MS    500

struct qll_beside {
    qll_beside_window window;
    qll_arena *arena;
    int64_t began_ms;    /* the recording, by the rows' clock */
    bool from_first;     /* so long after the first row */
    int64_t interval_ms; /* usual */
    bool has[QLL_CHANNEL_COUNT];
    qll_channel watched; /* whose surges are looked for */
    bool is_short_of_memory;
    int64_t first_ms, last_ms;
    long long row_count;         /* of the whole log */
    size_t margin, column_count; /* columns before the recording, and all */
    double *sums[QLL_CHANNEL_COUNT];
    double *counts[QLL_CHANNEL_COUNT];
    double before[QLL_BESIDE_BEFORE_MOST], sorted[QLL_BESIDE_BEFORE_MOST];
    int64_t before_ms[QLL_BESIDE_BEFORE_MOST];
    size_t before_count, next; /* rows kept, and the place of the next */
    double surge_base_pa;      /* what the last surge left */
    int64_t surge_ms;
    qll_surge *surges;
    size_t surge_count, surge_room;
};

/* What cavitation has and flow loses: 4 kHz and up. */
#define QLL_BESIDE_HIGH_HZ 4000.0
#define QLL_BESIDE_SILENCE 1e-20

qll_together qll_together_none(void);

/* Fills in result->together: thumps and surges; level against ratio, and swing against hunting. The channels of @p wide have the
 * margin on either side. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_beside_pair(const qll_sound_result *heard, qll_arena *arena,
                                        qll_beside_result *result);
QLL_MUST_USE qll_status qll_beside_move(const qll_beside *beside,
                                        const double *const wide[QLL_CHANNEL_COUNT],
                                        qll_arena *arena, qll_beside_result *result);

/* How likely chance does as well: @p as_good of @p tried shifts of one clock against the other did. */
double qll_beside_chance(size_t as_good, size_t tried);

#endif
