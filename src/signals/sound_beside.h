/* A recording and a log of pressures of the same minutes, side by side: what is heard when something moves, and how likely two clocks
 * that know nothing of each other would show as much. docs/theory/side_by_side.md */
#ifndef QUELL_SIGNALS_SOUND_BESIDE_H
#define QUELL_SIGNALS_SOUND_BESIDE_H

#include "base/text.h"
#include "signals/log_channels.h"
#include "signals/sound.h"

/* Two clocks may differ by so much either way. */
#define QLL_BESIDE_CLOCKS_S  5.0
/* What chance gives more often is no sign. */
#define QLL_BESIDE_CHANCE    0.01
/* The least that both must cover together. */
#define QLL_BESIDE_LEAST_S   30.0
/* A pressure that leaves its last half second by less is no surge: 5 psi, what a gauge shows plainly (our assumption). */
#define QLL_BESIDE_SURGE_PA  34473.8
/* From here on a surge is hammer (docs/theory/pressure_log.md). */
#define QLL_BESIDE_HAMMER_PA 100e3

/** When a recording began, by the log's clock. */
typedef struct qll_begins {
    bool is_elapsed; /* so many seconds after the log began */
    double elapsed_s;
    int64_t local_ms; /* else as a clock showed, from 1970-01-01 */
    bool has_offset;  /* local minus universal time is known */
    int32_t offset_s;
} qll_begins;

/** Reads "2026-11-30 14:05:00", "2026-11-30T14:05:00.5+01:00", or "12.5 s" after the log began. False if it is neither. */
bool qll_begins_read(qll_text text, qll_begins *begins);

/** Finds such a moment in the name of a file: "REC_20261130_140500.wav", "2026-11-30 14.05.00.flac". */
bool qll_begins_in(qll_text name, qll_begins *begins);

/** The minutes that a log is looked at in. */
typedef struct qll_beside_window {
    qll_begins begins;
    double duration_s, column_s; /* of the recording, and of its bands over time */
    size_t column_count;
} qll_beside_window;

/** A pressure that leaves its last half second. */
typedef struct qll_surge {
    double at_s;      /* of the recording */
    double change_pa; /* the farthest from it within a second */
} qll_surge;

/** What may go together: X(NAME, word). */
#define QLL_BESIDE_LIST(X)   \
    X(BANGS, "bangs-surges") \
    X(RATIO, "hiss-ratio")   \
    X(SWING, "swing-hunting")

typedef enum qll_beside_kind {
#define QLL_BESIDE_NAME(name, word) QLL_BESIDE_##name,
    QLL_BESIDE_LIST(QLL_BESIDE_NAME)
#undef QLL_BESIDE_NAME
    QLL_BESIDE_COUNT
} qll_beside_kind;

/** The word of @p kind, for machines. */
const char *qll_beside_word(qll_beside_kind kind);

/** What was compared. What does not apply is NaN or 0. */
typedef struct qll_together {
    bool is_judged; /* there was enough of either */
    bool coincides; /* chance would do it less often than QLL_BESIDE_CHANCE */
    double chance;  /* that clocks which know nothing of each other would show as much */
    double lag_s;   /* the log's clock less the recording's, where they agree best */
    size_t heard, logged, paired; /* BANGS: thumps, surges, and how many go together */
    double per_hour; /* BANGS: of those that go together, hard as hammer; NaN where there is none */
    double correlation;         /* RATIO */
    double heard_hz, logged_hz; /* SWING */
} qll_together;

typedef struct qll_beside_result {
    double overlap_s;            /* of recording and log */
    double log_from_s, log_to_s; /* the whole log, by the recording's clock */
    double interval_s;           /* of the log's rows */
    const qll_surge *surges;     /* within the recording, with QLL_BESIDE_CLOCKS_S on either side */
    size_t surge_count;
    qll_together together[QLL_BESIDE_COUNT];
    size_t column_count;
    const double *time_s;             /* [column] its middle */
    const double *level_db, *high_db; /* [column] of 89 Hz to 10 kHz, of 4 to 10 kHz */
    const double
        *pa[QLL_CHANNEL_COUNT]; /* [column] mean of each channel in SI; NULL = the log has none */
} qll_beside_result;

typedef struct qll_beside qll_beside;

/** Who takes the rows of such a log; what it begins is a qll_beside. @p window must outlive the reading. */
qll_channel_taker qll_beside_taker_of(qll_beside_window *window);

/**
 * Puts what was taken beside what was heard.
 *
 * @return QLL_OK, QLL_NO_MEMORY; QLL_REFUSED where both have under QLL_BESIDE_LEAST_S in common: overlap_s, log_from_s and
 *         log_to_s say what there is
 */
QLL_MUST_USE qll_status qll_beside_judge(qll_beside *beside, const qll_sound_result *heard,
                                         qll_arena *arena, qll_beside_result *result);

#endif
