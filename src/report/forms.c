#include "report/forms.h"

void qll_form_reading(qll_report *report)
{
    qll_sheet_cell_box(report->sheet, qll_units_name(QLL_KIND_PRESSURE, report->wording.units),
                       QLL_BOX_READING_MM);
}

void qll_form_box(qll_report *report, double least_mm)
{
    qll_sheet_cell_box(report->sheet, "", least_mm);
}

const char *qll_form_gauge(const qll_report *report, size_t joint)
{
    return qll_gauge_name(report->arena, joint);
}

const char *qll_form_gauges_from(const qll_report *report, size_t joint)
{
    const size_t last = report->chosen->station.stage_count;
    qll_writer list = qll_writer_new(report->arena);
    for (size_t at = joint; at <= last; at++) {
        if (at > joint) {
            qll_write(&list, at < last ? ", " : qll_report_says(report, QLL_SAYS_AND));
        }
        qll_write(&list, qll_form_gauge(report, at));
    }
    return qll_writer_text(&list).bytes;
}
