/* One rule over all mending: what was left out or put right is counted in rows, water and time; from a
 * few per cent on it is said, and beyond the shares below the log is refused with its cause. All shares
 * are our choice. */
#include "signals/log_reader.h"

#include <math.h>

/* Rows left out because another stands at their time, or time had passed them. */
#define QLL_LOST_SHARE     0.05
/* Rows that cannot be, negative flows aside: those are an analogue meter's zero point as a rule. */
#define QLL_BAD_SHARE      0.25
#define QLL_NEGATIVE_SHARE 0.5
/* Fewer rows are never a rule. */
#define QLL_LOST_LEAST     3
/* From here on it is said: of the rows, of the water, of the time. */
#define QLL_SAID_ROWS      0.02
#define QLL_SAID_WATER     0.05
#define QLL_SAID_TIME      (1.0 / 3.0)
/* Water without a time, refused. */
#define QLL_UNPLACED_SHARE 0.5
/* A row this many times over all others is no flow of the building, if there are so few of them ... */
#define QLL_ODD_TIMES      10.0
#define QLL_ODD_ROWS       3.5
/* ... among so many. */
#define QLL_ODD_AMONG      100.0
/* One row with so much of the water, in a log of so many. */
#define QLL_HEAVY_SHARE    0.04
#define QLL_HEAVY_AMONG    500
/* Hours 1 to 12, and 0 and 13 to 23. */
#define QLL_HALF_DAY       0x1FFEU
#define QLL_DAY_S          86400.0
/* Time constants until a stop shows as none. */
#define QLL_SETTLED        4.0
/* A gap over three days and over all that is known is a date misread, or two logs. */
#define QLL_GAP_LEAST_S    (3.0 * QLL_DAY_S)

static long long sum_of(const qll_flow_log_result *result, const qll_log_mend_kind *kinds,
                        size_t count)
{
    long long sum = 0;
    for (size_t i = 0; i < count; i++) {
        sum += result->mends[kinds[i]].count;
    }
    return sum;
}

static long long lost_count(const qll_flow_log_result *result)
{
    return result->mends[QLL_LOG_MEND_LATE].count + result->mends[QLL_LOG_MEND_CONFLICT].count;
}

static long long bad_count(const qll_flow_log_result *result)
{
    static const qll_log_mend_kind bad[] = {QLL_LOG_MEND_STAMP,      QLL_LOG_MEND_UNREADABLE,
                                            QLL_LOG_MEND_SENTINEL,   QLL_LOG_MEND_ABSURD,
                                            QLL_LOG_MEND_IMPOSSIBLE, QLL_LOG_MEND_SHORT_ROW,
                                            QLL_LOG_MEND_BACKWARDS,  QLL_LOG_MEND_WRONG_READING};
    return sum_of(result, bad, sizeof bad / sizeof *bad);
}

/* Rows of the meter that is read. */
static long long all_rows(const qll_flow_log_result *result)
{
    static const qll_log_mend_kind out[] = {QLL_LOG_MEND_STAMP, QLL_LOG_MEND_SHORT_ROW,
                                            QLL_LOG_MEND_LATE, QLL_LOG_MEND_CONFLICT,
                                            QLL_LOG_MEND_DUPLICATE};
    return result->row_count + sum_of(result, out, sizeof out / sizeof *out);
}

static bool refuse(qll_flow_log *log, qll_code code, const qll_said *says, const qll_said *hint)
{
    return qll_log_refuse(&log->look, code, 0, says, hint);
}

static qll_argument rows(long long count)
{
    return qll_as_whole((size_t)count);
}

/* ---- rows ---- */

static bool check_clock(qll_flow_log *log, const qll_flow_log_result *result)
{
    const qll_log_lane *lane = &log->lanes[0];
    const bool half = lane->half_turns > 0 && (lane->hours & ~QLL_HALF_DAY) == 0;
    const long long back = lost_count(result) + result->mends[QLL_LOG_MEND_OUT_OF_ORDER].count
                           + result->mends[QLL_LOG_MEND_DUPLICATE].count;
    if (!half || (double)back <= QLL_LOST_SHARE * (double)all_rows(result)
        || back < QLL_LOST_LEAST) {
        return true;
    }
    return qll_log_refuse_half_clock(&log->look, log->shape->first_line);
}

static bool check_marks(qll_flow_log *log)
{
    const qll_log_lane *lane = &log->lanes[0];
    if (log->shape->decimal_open
        && (lane->comma_count > 0 || (lane->three_count > 0 && lane->decimal_count == 0))) {
        return qll_log_refuse(&log->look, QLL_CODE_CONTRADICTION, log->shape->first_line,
                              lane->comma_count > 0 ? QLL_SAYS(LOG_COMMAS_LATER)
                                                    : QLL_SAYS(LOG_POINTS_LATER),
                              QLL_SAYS(ASK_DECIMAL));
    }
    return true;
}

static bool refuse_lost(qll_flow_log *log, const qll_flow_log_result *result)
{
    const long long late = result->mends[QLL_LOG_MEND_LATE].count;
    const long long other = result->mends[QLL_LOG_MEND_CONFLICT].count;
    const qll_argument all = rows(all_rows(result));
    if (late >= other) {
        return refuse(log, QLL_CODE_NOT_RISING, QLL_SAYS_WITH(LOG_ROWS_LATE, rows(late), all),
                      QLL_SAYS(HINT_SORT_OR_FILE));
    }
    return refuse(log, QLL_CODE_CONTRADICTION, QLL_SAYS_WITH(LOG_ROWS_REPEATED, rows(other), all),
                  QLL_SAYS(ASK_METER_OR_SUM));
}

static bool refuse_bad(qll_flow_log *log, const qll_flow_log_result *result)
{
    const long long negative = result->mends[QLL_LOG_MEND_NEGATIVE].count;
    const long long absurd = result->mends[QLL_LOG_MEND_ABSURD].count;
    const long long back = result->mends[QLL_LOG_MEND_BACKWARDS].count
                           + result->mends[QLL_LOG_MEND_WRONG_READING].count;
    const long long bad = bad_count(result);
    const qll_log_mend *stamp = &result->mends[QLL_LOG_MEND_STAMP];
    qll_said says = {QLL_TEXT_LOG_ROWS_BAD,
                     {rows(bad + negative), rows(all_rows(result)), rows(negative), rows(absurd)}};
    if (back > 0) {
        says.arguments[4] =
            qll_as_said(log->arena, (qll_said){QLL_TEXT_LOG_ROWS_BACKWARDS, {rows(back)}});
    }
    says.arguments[5] = rows(bad - absurd - back);
    if (stamp->count > 0 && stamp->first_line > 0) {
        says.arguments[6] =
            qll_as_said(log->arena, (qll_said){QLL_TEXT_LOG_ROWS_DATE, {rows(stamp->first_line)}});
    }
    return refuse(log, QLL_CODE_OUT_OF_RANGE, &says, QLL_SAYS(HINT_CHECK_VALUE));
}

static bool check_rows(qll_flow_log *log, const qll_flow_log_result *result)
{
    const double all = (double)all_rows(result);
    const long long lost = lost_count(result);
    const double bad = (double)bad_count(result);
    const double negative = (double)result->mends[QLL_LOG_MEND_NEGATIVE].count;
    if (lost >= QLL_LOST_LEAST && (double)lost > QLL_LOST_SHARE * all
        && log->options.repeated != QLL_LOG_REPEATED_LAST) {
        return refuse_lost(log, result);
    }
    if (bad > QLL_BAD_SHARE * all || bad + negative > QLL_NEGATIVE_SHARE * all) {
        return refuse_bad(log, result);
    }
    return true;
}

/* ---- time and water ---- */

/* To a tenth. */
static qll_argument days(double time_s)
{
    return qll_as_number(round(10.0 * time_s / QLL_DAY_S) / 10.0);
}

static bool check_gap(qll_flow_log *log, const qll_flow_log_result *result)
{
    const double gap_s = (double)log->lanes[0].records.hole_ms / 1000.0;
    if (!(gap_s > QLL_GAP_LEAST_S && gap_s > result->covered_s)) {
        return true;
    }
    return refuse(log, QLL_CODE_CONTRADICTION,
                  QLL_SAYS_WITH(LOG_GAP, days(gap_s), days(result->covered_s)),
                  QLL_SAYS(ASK_ORDER_OR_CUT));
}

static bool check_water(qll_flow_log *log, const qll_flow_log_result *result)
{
    if (!(result->covered_s > 0.0)) {
        return refuse(log, QLL_CODE_EMPTY_LIST, QLL_SAYS(LOG_NO_FLOW), NULL);
    }
    if (result->unplaced_m3 > QLL_UNPLACED_SHARE * result->volume_m3
        && result->row_count > QLL_HEAVY_AMONG) {
        const double share = result->unplaced_m3 / result->volume_m3;
        return refuse(log, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(LOG_UNPLACED, qll_as_number(round(100.0 * share))),
                      QLL_SAYS(HINT_CHECK_VALUE));
    }
    return true;
}

/* ---- odd rows ---- */

/* Few rows that lie far over all others. */
static void find_odd(qll_flow_log *log, const qll_flow_log_result *result)
{
    const double rows = result->covered_s / result->interval_s;
    if (result->kind == QLL_LOG_KIND_EVENTS || result->has_coarse_step
        || rows * (1.0 - result->idle_share) < QLL_ODD_AMONG) {
        return;
    }
    for (size_t i = result->point_count; i-- > 1;) {
        const double below = result->points[i - 1].flow_m3s;
        const double over_rows = (1.0 - result->points[i - 1].time_share) * rows;
        if (over_rows > QLL_ODD_ROWS || below <= 0.0) {
            return;
        }
        if (result->points[i].flow_m3s >= QLL_ODD_TIMES * below) {
            log->wants = QLL_LOG_AGAIN_ODD;
            log->odd_m3s = result->max_m3s;
            log->next_m3s = below;
            return;
        }
    }
}

/* ---- notes ---- */

static void note(qll_flow_log_result *result, qll_log_note_kind kind, qll_log_note figures)
{
    result->notes[kind] = figures;
    result->notes[kind].holds = true;
}

static void note_rows(qll_flow_log *log, qll_flow_log_result *result)
{
    static const qll_log_mend_kind touched[] = {QLL_LOG_MEND_LATE,     QLL_LOG_MEND_CONFLICT,
                                                QLL_LOG_MEND_EMPTY,    QLL_LOG_MEND_POOR_SIGNAL,
                                                QLL_LOG_MEND_NEGATIVE, QLL_LOG_MEND_STUCK};
    const double all = (double)all_rows(result);
    const double count =
        (double)(sum_of(result, touched, sizeof touched / sizeof *touched) + bad_count(result));
    if (count > QLL_SAID_ROWS * all) {
        note(result, QLL_LOG_NOTE_MENDED_ROWS,
             (qll_log_note){.share = count / all, .count = count, .of = all});
    }
    const double most_m3 = result->max_m3s * result->interval_s;
    if (log->wants == QLL_LOG_AGAIN_ODD) {
        note(result, QLL_LOG_NOTE_ODD_ROW,
             (qll_log_note){.flow_m3s = log->odd_m3s, .count = log->odd_m3s / log->next_m3s});
    } else if (result->row_count >= QLL_HEAVY_AMONG
               && most_m3 > QLL_HEAVY_SHARE * result->volume_m3) {
        note(result, QLL_LOG_NOTE_HEAVY_ROW,
             (qll_log_note){.flow_m3s = result->max_m3s, .share = most_m3 / result->volume_m3});
    }
}

static void note_rest(qll_flow_log_result *result)
{
    if (result->unplaced_m3 > QLL_SAID_WATER * result->volume_m3) {
        note(result, QLL_LOG_NOTE_UNPLACED_WATER,
             (qll_log_note){.share = result->unplaced_m3 / result->volume_m3,
                            .volume_m3 = result->unplaced_m3});
    }
    const double time_s = result->unknown_s + result->covered_s;
    if (result->unknown_s > QLL_SAID_TIME * time_s) {
        note(result, QLL_LOG_NOTE_UNKNOWN_TIME,
             (qll_log_note){.share = result->unknown_s / time_s, .time_s = result->unknown_s});
    }
    if (!isnan(result->step_m3s)) {
        const double volume_m3 = result->step_m3s * result->interval_s;
        const qll_log_note step = {.flow_m3s = result->step_m3s, .volume_m3 = volume_m3};
        note(result, result->has_coarse_step ? QLL_LOG_NOTE_COARSE_STEP : QLL_LOG_NOTE_STEP, step);
    }
    if (!isnan(result->damping_s)) {
        note(result, QLL_LOG_NOTE_DAMPED,
             (qll_log_note){.time_s = QLL_SETTLED * result->damping_s});
    }
}

bool qll_log_trust_rows(qll_flow_log *log, const qll_flow_log_result *result)
{
    if (!check_clock(log, result)) {
        return false;
    }
    if (result->mends[QLL_LOG_MEND_LATE].count > 0) {
        log->wants = QLL_LOG_AGAIN_ORDER;
    }
    return check_marks(log) && check_rows(log, result);
}

bool qll_log_trust(qll_flow_log *log, qll_flow_log_result *result)
{
    if (!qll_log_trust_rows(log, result) || !check_water(log, result) || !check_gap(log, result)) {
        return false;
    }
    if (log->wants == QLL_LOG_AGAIN_NOT) {
        find_odd(log, result);
    }
    note_rows(log, result);
    note_rest(result);
    return true;
}
