/* How what gauges read moves over the years (docs/theory/records.md 6). */
#include "documents/write_records.h"
#include "engine/tell.h"
#include "engine/visits.h"
#include "report/html.h"
#include "report/layout.h"
#include "report/records_sheet.h"

#include <math.h>

/* A pressure that is off by this is wanted right again: the step of lockup_vs_set in data/evidence.csv, 5 psi, exactly. */
#define QLL_OFF_PA (5.0 * 6894.757293168361)

/* A screen half plugged loses so many times what a clean one does (docs/theory/strainer.md 1, b = 0.5), and a pair of gauges shows
 * 2 psi (the same, 4). */
#define QLL_HALF_PLUGGED  4.57
#define QLL_LEAST_LOSS_PA (2.0 * 6894.757293168361)

/* The outlet's gauge of a visit with water running, or without; as found, or as left. NaN where nobody read it. */
static double outlet_pa(const qll_visit *visit, bool flows, bool is_left)
{
    double pa = (double)NAN;
    for (size_t i = 0; visit->has_case && i < visit->read.of.reading_count; i++) {
        const qll_gauge_reading *reading = &visit->read.of.readings[i];
        if (reading->gauge == QLL_GAUGE_OUTLET && reading->is_left == is_left
            && (flows ? reading->flow_m3s > 0.0 : reading->flow_m3s <= 0.0)) {
            pa = reading->pressure_pa_gauge;
        }
    }
    return pa;
}

/* A course of readings whose adjustments are taken out: what was left otherwise than it was found was turned by a hand, and
 * that is no drift. */
static size_t gauge_points(const qll_dated_visits *visits, bool flows, qll_drift_point *points,
                           double *turned_pa)
{
    size_t count = 0;
    *turned_pa = 0.0;
    for (size_t i = 0; i < visits->count; i++) {
        const qll_visit *visit = &visits->list[i].visit;
        const double found_pa = outlet_pa(visit, flows, false);
        const double left_pa = outlet_pa(visit, flows, true);
        if (isfinite(found_pa)) {
            points[count] = (qll_drift_point){.day = (double)visits->list[i].day_number,
                                              .value = found_pa - *turned_pa};
            count += 1;
            *turned_pa += isfinite(left_pa) ? left_pa - found_pa : 0.0;
        }
    }
    /* As it is set today, not as it once was. */
    for (size_t i = 0; i < count; i++) {
        points[i].value += *turned_pa;
    }
    return count;
}

/* Losses go with the square of the flow; those at a flow that is known are compared at that of the last one. */
static size_t strainer_points(const qll_dated_visits *visits, qll_drift_point *points)
{
    size_t count = 0;
    double flow_m3s = (double)NAN;
    for (size_t i = 0; i < visits->count; i++) {
        const qll_visit *visit = &visits->list[i].visit;
        flow_m3s = isfinite(visit->strainer_loss_pa) && visit->strainer_flow_m3s > 0.0
                       ? visit->strainer_flow_m3s
                       : flow_m3s;
    }
    bool is_clean = false;
    for (size_t i = 0; i < visits->count; i++) {
        const qll_visit *visit = &visits->list[i].visit;
        const bool has_flow = visit->strainer_flow_m3s > 0.0;
        if (isfinite(visit->strainer_loss_pa) && has_flow == isfinite(flow_m3s)) {
            const double ratio = has_flow ? flow_m3s / visit->strainer_flow_m3s : 1.0;
            points[count] = (qll_drift_point){.day = (double)visits->list[i].day_number,
                                              .value = visit->strainer_loss_pa * ratio * ratio,
                                              .begins = is_clean};
            count += 1;
            is_clean = false;
        }
        is_clean = is_clean || visit->is_strainer_cleaned;
    }
    return count;
}

/* What the last stage is set to, by the last visit that tells; else where the readings began. */
static double set_pa(const qll_dated_visits *visits, const qll_drift_point *points, size_t count)
{
    double pa = (double)NAN;
    for (size_t i = 0; i < visits->count; i++) {
        const qll_visit *visit = &visits->list[i].visit;
        pa = visit->has_case && isfinite(visit->read.of.set_pa_gauge) ? visit->read.of.set_pa_gauge
                                                                      : pa;
    }
    return isfinite(pa) || count == 0 ? pa : points[0].value;
}

/* The least loss since it was cleaned is that of a clean screen. */
static double strainer_limit_pa(const qll_drift_point *points, size_t count)
{
    double least_pa = (double)NAN;
    for (size_t i = 0; i < count; i++) {
        least_pa = points[i].begins ? points[i].value : fmin(least_pa, points[i].value);
    }
    return isnan(least_pa) ? least_pa : fmax(QLL_HALF_PLUGGED * least_pa, QLL_LEAST_LOSS_PA);
}

static qll_status find_course(qll_arena *arena, const qll_drift_point *points, size_t count,
                              double low_pa, double high_pa, qll_course *course)
{
    *course = (qll_course){.points = points, .count = count, .limit = (double)NAN};
    const qll_status status = qll_drift_of(points, count, arena, &course->drift);
    if (status == QLL_OK) {
        course->reached = qll_drift_reaches(&course->drift, low_pa, high_pa);
        course->limit = !qll_drift_is_sure(&course->drift)   ? (double)NAN
                        : course->drift.slope_per_year > 0.0 ? high_pa
                                                             : low_pa;
    }
    return status;
}

static qll_status find_trend(qll_arena *arena, const qll_record *records, size_t count,
                             qll_recorded_trend *found)
{
    qll_dated_visits visits;
    qll_status status = qll_visits_among(records, count, arena, &visits);
    qll_drift_point *points =
        status == QLL_OK
            ? qll_arena_take(arena, QLL_FOLLOWED_COUNT * (visits.count + 1), sizeof *points)
            : NULL;
    if (points == NULL) {
        return status == QLL_OK ? QLL_NO_MEMORY : status;
    }
    qll_drift_point *lock_up = points + visits.count + 1;
    qll_drift_point *strainer = lock_up + visits.count + 1;
    double turned_pa = 0.0;
    const size_t set_count = gauge_points(&visits, true, points, &turned_pa);
    const size_t lock_up_count = gauge_points(&visits, false, lock_up, &turned_pa);
    const size_t strainer_count = strainer_points(&visits, strainer);
    const double wanted_pa = set_pa(&visits, points, set_count);
    const double none = (double)NAN;
    status = find_course(arena, points, set_count, wanted_pa - QLL_OFF_PA, wanted_pa + QLL_OFF_PA,
                         &found->courses[QLL_FOLLOWED_SET]);
    if (status == QLL_OK) {
        status = find_course(arena, lock_up, lock_up_count, none, wanted_pa + QLL_OFF_PA,
                             &found->courses[QLL_FOLLOWED_LOCK_UP]);
    }
    if (status == QLL_OK) {
        status = find_course(arena, strainer, strainer_count, none,
                             strainer_limit_pa(strainer, strainer_count),
                             &found->courses[QLL_FOLLOWED_STRAINER]);
    }
    return status;
}

static bool make_page(qll_tell *tell, const qll_recorded_trend *found, qll_sheets_told *page)
{
    qll_sheet sheet;
    qll_trend_sheet(found, tell->arena, &sheet);
    qll_writer html = qll_writer_new(tell->arena);
    qll_html_write(&html, &sheet);
    *page = (qll_sheets_told){.html = qll_writer_text(&html).bytes};
    return page->html != NULL
           && qll_html_drawn(&sheet, tell->arena, &page->drawn, &page->drawn_count);
}

static void write_trend(qll_tell *tell, qll_form form, const qll_recorded_trend *found)
{
    if (form == QLL_FORM_HTML) {
        qll_write(&tell->writer, found->page.html);
    } else if (form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&tell->writer);
        qll_trend_write(&json, found);
        qll_write(&tell->writer, "\n");
    } else {
        qll_trend_print(&tell->writer, found);
    }
}

/* Trends that are being told. */
typedef struct telling_trend {
    qll_tell tell;
    qll_recorded_trend found;
} telling_trend;

/* Begins to tell, as text or as JSON, and finds all that is told. */
static qll_status begin_trend(const qll_telling *telling, const qll_site_row *row,
                              const qll_record *records, size_t count, qll_arena *arena,
                              telling_trend *of, qll_answer *answer)
{
    qll_telling told = *telling;
    told.form = telling->form == QLL_FORM_HTML ? QLL_FORM_JSON : telling->form;
    of->found = (qll_recorded_trend){.row = row};
    qll_status status = qll_tell_begin(&told, arena, &of->tell, answer);
    status = status == QLL_OK ? find_trend(arena, records, count, &of->found) : status;
    of->found.wording = of->tell.wording;
    return status;
}

qll_status qll_tell_trend(const qll_telling *telling, const qll_site_row *row,
                          const qll_record *records, size_t count, qll_arena *arena,
                          qll_answer *answer)
{
    telling_trend of;
    const qll_status status = begin_trend(telling, row, records, count, arena, &of, answer);
    const bool has_page =
        telling->form == QLL_FORM_HTML || (telling->form == QLL_FORM_JSON && telling->has_sheets);
    if (status != QLL_OK) {
        return status;
    }
    if (has_page && !make_page(&of.tell, &of.found, &of.found.page)) {
        return QLL_NO_MEMORY;
    }
    write_trend(&of.tell, telling->form, &of.found);
    return qll_tell_end(&of.tell, answer);
}

qll_status qll_make_trend(const qll_telling *telling, const qll_site_row *row,
                          const qll_record *records, size_t count, qll_sheets_form form,
                          qll_arena *arena, qll_made_report *made)
{
    telling_trend of;
    qll_answer answer = {0};
    qll_sheet sheet;
    qll_status status = form != QLL_SHEETS_PDF && form != QLL_SHEETS_HTML ? QLL_WRONG_USE : QLL_OK;
    if (status == QLL_OK) {
        status = begin_trend(telling, row, records, count, arena, &of, &answer);
    }
    if (status != QLL_OK) {
        return status;
    }
    qll_trend_sheet(&of.found, arena, &sheet);
    *made = (qll_made_report){.form = form,
                              .title = sheet.title,
                              .subject = row->name,
                              .language = qll_language_words[of.found.wording.language]};
    qll_canvas *pages = qll_arena_take(arena, 1, sizeof *pages);
    if (form == QLL_SHEETS_HTML) {
        qll_html_write(&of.tell.writer, &sheet);
    } else if (pages != NULL) {
        qll_layout_pages(&sheet, arena, pages);
        made->pages = pages;
    }
    status = qll_tell_end(&of.tell, &answer);
    made->text = (qll_text){answer.bytes, answer.size};
    return status;
}
