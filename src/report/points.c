/* The table of what happens from no flow to the peak. */
#include "report/points.h"

#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* A table a plumber takes in at a glance: the smallest flow, the peak, and as many between. */
#define QLL_ROWS_SHOWN 14

/* A note names what is seen at one point; how long it lasts, and so whether it fails, the verdicts
 * say. Only what cannot pass fails here as there. */
static qll_note note_of_trouble(qll_trouble trouble)
{
    static const qll_message says[QLL_TROUBLE_COUNT] = {
        [QLL_TROUBLE_NONE] = QLL_SAYS_GRADE_GOOD,
        [QLL_TROUBLE_TOO_FAST] = QLL_SAYS_NOTE_TOO_FAST,
        [QLL_TROUBLE_SEAT] = QLL_SAYS_NOTE_SEAT,
        [QLL_TROUBLE_LOW_FLOW] = QLL_SAYS_NOTE_LOW_FLOW,
        [QLL_TROUBLE_AUDIBLE] = QLL_SAYS_NOTE_AUDIBLE,
        [QLL_TROUBLE_FAST] = QLL_SAYS_NOTE_FAST,
        [QLL_TROUBLE_WIDE_OPEN] = QLL_SAYS_NOTE_WIDE_OPEN,
    };
    bool is_none = trouble == QLL_TROUBLE_NONE;
    return (qll_note){is_none ? QLL_GRADE_GOOD : QLL_GRADE_CAUTION, says[trouble]};
}

qll_note qll_note_of(const qll_operating_point *point)
{
    return point->passes ? note_of_trouble(point->trouble)
                         : (qll_note){QLL_GRADE_FAIL, QLL_SAYS_NOTE_CANNOT_PASS};
}

void qll_note_write(qll_writer *writer, qll_language language, qll_note note)
{
    if (note.grade == QLL_GRADE_FAIL) {
        qll_write(writer, qll_say(language, QLL_SAYS_MARK_FAIL));
        qll_write(writer, ": ");
    }
    qll_write(writer, qll_say(language, note.says));
}

/* What one note means; "" where it says so itself. */
static const char *meaning_of(qll_writer *writer, const qll_wording *wording, qll_trouble trouble)
{
    static const qll_message means[QLL_TROUBLE_COUNT] = {
        [QLL_TROUBLE_NONE] = QLL_MESSAGE_COUNT,
        [QLL_TROUBLE_TOO_FAST] = QLL_SAYS_NOTE_MEANS_TOO_FAST,
        [QLL_TROUBLE_SEAT] = QLL_SAYS_NOTE_MEANS_SEAT,
        [QLL_TROUBLE_LOW_FLOW] = QLL_SAYS_NOTE_MEANS_LOW_FLOW,
        [QLL_TROUBLE_AUDIBLE] = QLL_SAYS_NOTE_MEANS_AUDIBLE,
        [QLL_TROUBLE_FAST] = QLL_SAYS_NOTE_MEANS_FAST,
        [QLL_TROUBLE_WIDE_OPEN] = QLL_SAYS_NOTE_MEANS_WIDE_OPEN,
    };
    const qll_filling fillings[] = {
        {"most", qll_text_quantity(writer, QLL_SPEED_MOST_M_S, QLL_KIND_VELOCITY, wording->units)},
        {"high", qll_text_quantity(writer, wording->site->limits.velocity_high_m_s,
                                   QLL_KIND_VELOCITY, wording->units)}};
    return means[trouble] == QLL_MESSAGE_COUNT
               ? ""
               : qll_text_said(writer, wording->language, means[trouble], fillings, 2);
}

void qll_notes_mean(qll_writer *writer, const qll_wording *wording,
                    const bool seen[QLL_TROUBLE_COUNT])
{
    qll_writer all = qll_writer_new(writer->arena);
    for (size_t t = 0; t < QLL_TROUBLE_COUNT; t++) {
        const char *means = seen[t] ? meaning_of(writer, wording, (qll_trouble)t) : "";
        qll_write(&all, means[0] != '\0' && all.size > 0 ? ", " : "");
        qll_write(&all, means);
    }
    const qll_filling notes = {"what", qll_writer_text(&all).bytes};
    if (all.size > 0) {
        qll_say_with(writer, wording->language, QLL_SAYS_NOTES_ARE, &notes, 1);
    }
}

void qll_point_write_working(qll_writer *writer, const qll_station *station,
                             const qll_operating_point *point)
{
    bool any = false;
    for (size_t s = 0; s < station->stage_count; s++) {
        bool first = true;
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (!point->branches[s][b].working) {
                continue;
            }
            /* "1A+B 2A": the number of the stage once. */
            qll_write(writer, !first ? "+" : any ? " " : "");
            if (first) {
                qll_valve_name_write(writer, station, s, b);
            } else {
                qll_valve_letter_write(writer, b);
            }
            first = false;
            any = true;
        }
    }
    qll_write(writer, any ? "" : "-");
}

void qll_share_rows(const qll_time_shares *shares, qll_share_row rows[QLL_SHARE_ROWS])
{
    const qll_share_row made[QLL_SHARE_ROWS] = {
        {QLL_SAYS_SHARE_IDLE, shares->idle},
        {QLL_SAYS_SHARE_BELOW_STABLE, shares->below_stable},
        {QLL_SAYS_SHARE_BELOW_BAND, shares->below_band},
        {QLL_SAYS_SHARE_IN_BAND, shares->in_band},
        {QLL_SAYS_SHARE_ABOVE_BAND, shares->above_band},
        {QLL_SAYS_SHARE_FULL_TRAVEL, shares->full_travel},
        {QLL_SAYS_SHARE_CAVITATING, shares->cavitating},
    };
    memcpy(rows, made, sizeof made);
}

static size_t working_count(const qll_station *station, const qll_operating_point *point)
{
    size_t working = 0;
    for (size_t s = 0; s < station->stage_count; s++) {
        working += point->stages[s].working_count;
    }
    return working;
}

bool qll_point_is_shown(const qll_station *station, const qll_operating_point *points, size_t count,
                        size_t at)
{
    if (count <= QLL_ROWS_SHOWN || at <= 1 || at + 1 == count) {
        return true;
    }
    size_t here = at * (QLL_ROWS_SHOWN - 1) / (count - 1);
    size_t before = (at - 1) * (QLL_ROWS_SHOWN - 1) / (count - 1);
    return here != before
           || working_count(station, &points[at]) != working_count(station, &points[at - 1]);
}
