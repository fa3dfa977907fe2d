/* What a row of the table from no flow to the peak says of its operating point. */
#ifndef QUELL_REPORT_POINTS_H
#define QUELL_REPORT_POINTS_H

#include "wording/wording.h"

/** What stands out at a point: NOTE_* of messages.h, or GRADE_GOOD. */
typedef struct qll_note {
    qll_grade grade;
    qll_message says;
} qll_note;

/** The gravest note of all valves at @p point. */
qll_note qll_note_of(const qll_operating_point *point);

/** "low flow", "FAIL: cannot pass it". */
void qll_note_write(qll_writer *writer, qll_language language, qll_note note);

/** What the notes of @p seen troubles mean, as one sentence; nothing where there are none. */
void qll_notes_mean(qll_writer *writer, const qll_wording *wording,
                    const bool seen[QLL_TROUBLE_COUNT]);

/** "A", "A+B", "1A 2A+B": which valves pass water; "-" if none does. */
void qll_point_write_working(qll_writer *writer, const qll_station *station,
                             const qll_operating_point *point);

/** Evenly spread rows, the first and the last, and every row at which another valve comes in. */
bool qll_point_is_shown(const qll_station *station, const qll_operating_point *points, size_t count,
                        size_t at);

/** Where the time goes: a message and a share for each row. */
#define QLL_SHARE_ROWS 7

typedef struct qll_share_row {
    qll_message says;
    double share;
} qll_share_row;

void qll_share_rows(const qll_time_shares *shares, qll_share_row rows[QLL_SHARE_ROWS]);

#endif
