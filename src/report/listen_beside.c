#include "report/listen_beside.h"

#include "base/count.h"
#include "report/listen_figures.h"

#include <math.h>

/* More times than these nobody reads on a sheet. */
#define QLL_TIMES_SHOWN 20

static const char *seconds(const qll_report *report, double at_s)
{
    qll_writer text = qll_writer_new(report->arena);
    qll_write_format(&text, "%.1f", at_s);
    return qll_writer_text(&text).bytes;
}

static void write_thump(qll_report *report, const qll_sound_event *event)
{
    qll_sheet_cell(report->sheet, seconds(report, event->from_s));
    qll_report_cell(report, QLL_SAYS_EVENT_THUMP);
    qll_sheet_cell(report->sheet, "");
}

static void write_surge(qll_report *report, const qll_surge *surge)
{
    qll_writer change = qll_writer_new(report->arena);
    qll_write(&change, surge->change_pa > 0.0 ? "+" : "");
    qll_write(&change, qll_report_quantity(report, surge->change_pa, QLL_KIND_PRESSURE_DIFFERENCE));
    qll_sheet_cell(report->sheet, seconds(report, surge->at_s));
    qll_sheet_cell(report->sheet, "");
    qll_sheet_cell(report->sheet, qll_writer_text(&change).bytes);
}

/* Thumps and surges in the order of their times, each by its own clock. */
static void write_times(qll_report *report, const qll_listen_findings *findings)
{
    const qll_sound_result *heard = findings->result;
    const qll_beside_result *beside = findings->beside->result;
    static const qll_message heads[] = {QLL_SAYS_HEAD_AT_S, QLL_SAYS_HEAD_HEARD,
                                        QLL_SAYS_HEAD_IN_LOG};
    qll_report_heads(report, heads, QLL_COUNT(heads));
    size_t shown = 0, surge = 0, event = 0;
    while (shown < QLL_TIMES_SHOWN && (surge < beside->surge_count || event < heard->event_count)) {
        const bool is_thump =
            event < heard->event_count && heard->events[event].kind == QLL_SOUND_HAMMER;
        if (event < heard->event_count && !is_thump) {
            event += 1;
            continue;
        }
        if (surge < beside->surge_count
            && (!is_thump || beside->surges[surge].at_s < heard->events[event].from_s)) {
            write_surge(report, &beside->surges[surge++]);
        } else if (is_thump) {
            write_thump(report, &heard->events[event++]);
        }
        shown += 1;
    }
    qll_report_table(report, QLL_MESSAGE_COUNT, "rll", false);
}

static void write_clocks(qll_report *report, double lag_s)
{
    qll_writer time = qll_writer_new(report->arena);
    qll_write_format(&time, "%.1f s", lag_s);
    const qll_filling filling = {"time", qll_writer_text(&time).bytes};
    qll_report_paragraph(report, QLL_SAYS_BESIDE_CLOCKS, &filling, 1);
}

void qll_listen_write_beside(qll_report *report, const qll_listen_findings *findings)
{
    const qll_beside_result *beside = findings->beside->result;
    const qll_filling what[] = {
        {"name", findings->beside->name},
        {"time", qll_report_quantity(report, beside->overlap_s, QLL_KIND_TIME)},
        {"interval", qll_report_quantity(report, beside->interval_s, QLL_KIND_TIME)},
    };
    qll_report_paragraph(report, QLL_SAYS_BESIDE_IS, what, QLL_COUNT(what));
    double lag_s = NAN;
    for (size_t kind = 0; kind < QLL_BESIDE_COUNT; kind++) {
        const qll_together *together = &beside->together[kind];
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_together(&says, &report->wording, (qll_beside_kind)kind, together);
        qll_report_paragraph_of(report, &says);
        lag_s = together->coincides && isnan(lag_s) ? together->lag_s : lag_s;
    }
    if (fabs(lag_s) >= 0.5) {
        write_clocks(report, lag_s);
    }
    if (beside->surge_count > 0 || beside->together[QLL_BESIDE_BANGS].heard > 0) {
        write_times(report, findings);
    }
    if (!report->is_plain) {
        qll_listen_beside_figure(report->sheet, findings);
    }
}
