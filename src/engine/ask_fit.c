#include "documents/read_capacity.h"
#include "documents/valve_table.h"
#include "engine/engine.h"
#include "report/report.h"

#include <math.h>
#include <string.h>

/* Beyond this the straight law misses more than readings do, and the points stand for themselves. */
#define QLL_STRAIGHT_MISSES QLL_FIT_AGREE
/* FL of a catalogue that gives none (docs/theory/valve.md). */
#define QLL_FIT_FL          0.9

/* To four digits, which is more than a sheet can be read to: what people see of it stays short. */
static double significant(double value, double (*rounded)(double))
{
    double scale = pow(10.0, 3.0 - floor(log10(value)));
    return rounded(value * scale) / scale;
}

/* The measured law as points at the pressures of the first row; from full Kv on there are none. */
static qll_status put_points(const qll_valve_fit *fit, qll_arena *arena, qll_valve *valve)
{
    qll_point *points = qll_arena_take(arena, fit->law_count, sizeof *points);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t i = 0; i < fit->law_count; i++) {
        double outlet_pa_gauge = valve->sheet_set_pa_gauge - fit->law[i].x;
        double kv_m3h = fmin(fit->law[i].y, valve->kv_m3h);
        bool is_full = count > 0 && fit->law[i - 1].y >= valve->kv_m3h;
        /* A fall-off greater than the set pressure of the first row has no outlet there. */
        if (is_full || outlet_pa_gauge < 0.0) {
            break;
        }
        double flow_m3s =
            qll_sheet_flow_m3s(kv_m3h, valve->sheet_inlet_pa_gauge, outlet_pa_gauge, QLL_FIT_FL);
        points[count] =
            (qll_point){significant(flow_m3s, floor), significant(fit->law[i].x, round)};
        count += 1;
    }
    valve->falloff_points = points;
    valve->falloff_count = count;
    return QLL_OK;
}

static qll_status make_valve(const qll_capacity_sheet *sheet, const qll_valve_fit *fit,
                             qll_arena *arena, qll_fit_findings *findings)
{
    bool straight = fit->worst_share <= QLL_STRAIGHT_MISSES;
    double last_kv = fit->law[fit->law_count - 1].y;
    qll_valve *valve = &findings->valve;
    *valve = (qll_valve){.id = sheet->id,
                         .nominal_m = sheet->nominal_m,
                         .acting = sheet->acting,
                         .kv_m3h = straight ? significant(fit->kv_m3h, round)
                                            : significant(last_kv, ceil),
                         .set_min_pa_gauge = sheet->set_min_pa_gauge,
                         .set_max_pa_gauge = sheet->set_max_pa_gauge,
                         .inlet_max_pa_gauge = sheet->inlet_max_pa_gauge,
                         .temperature_max_degc = NAN,
                         .sheet_inlet_pa_gauge = sheet->points[0].inlet_pa_gauge,
                         .sheet_set_pa_gauge = sheet->points[0].set_pa_gauge,
                         .band_pa = significant(fit->band_pa, round),
                         .lockup_rise_pa = NAN,
                         .inlet_effect = NAN,
                         .flow_min_m3s = NAN,
                         .hysteresis_pa = NAN,
                         .fl = NAN,
                         .fd = NAN,
                         .xfz = NAN,
                         .seat_bore_m = NAN,
                         .strainer_kv_m3h = NAN,
                         .price = NAN,
                         .lead_days = NAN};
    if (!isnan(sheet->kv_m3h)) {
        valve->kv_m3h = sheet->kv_m3h;
    }
    findings->is_straight = straight;
    return straight ? QLL_OK : put_points(fit, arena, valve);
}

/* What is handed out must be what design and check read: its ranges are those of a catalogue. */
static qll_status prove(qll_asked *asked, qll_fit_findings *findings)
{
    qll_writer writer = qll_writer_new(asked->arena);
    qll_json json = qll_json_new(&writer);
    qll_catalogue_write(&json, &findings->catalogue);
    qll_text text = qll_writer_text(&writer);
    qll_document document;
    qll_catalogue read;
    qll_status status =
        qll_document_read(text, "the fitted entry", asked->arena, &document, &asked->problems);
    return status == QLL_OK ? qll_catalogue_read(&document, asked->arena, &read, &asked->assumed,
                                                 &asked->problems)
                            : status;
}

static void write_answer(qll_asked *asked, const qll_fit_findings *findings)
{
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_fit_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_fit_print(&asked->writer, findings);
    }
}

static void warn_of_full_travel(qll_asked *asked, const qll_valve_fit *fit)
{
    if (!fit->full_travel_seen) {
        (void)qll_problems_add(
            &asked->problems,
            (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                        .level = QLL_WARNING,
                        .place = {.source = asked->question->document.name, .path = ""},
                        .says = QLL_SAYS(WARN_FULL_TRAVEL),
                        .hint = QLL_SAYS(HINT_ADD_KV)});
    }
}

qll_status qll_ask_fit(qll_asked *asked)
{
    const qll_input *input = &asked->question->document;
    qll_text source = {.bytes = input->bytes, .size = input->size};
    qll_table table;
    qll_status status = qll_valve_table_read(source, input->name == NULL ? "" : input->name,
                                             asked->arena, &table, &asked->problems);
    qll_capacity_sheet sheet;
    bool si = asked->question->units != NULL && strcmp(asked->question->units, "si") == 0;
    qll_unit_system units = si ? QLL_UNITS_SI : QLL_UNITS_US;
    if (status == QLL_OK) {
        status = qll_capacity_read(&table, asked->arena, &sheet, &asked->assumed, &asked->problems);
    }
    if (status != QLL_OK) {
        return status;
    }
    qll_valve_fit fit;
    status =
        qll_valve_fit_make(sheet.points, sheet.count, sheet.kv_m3h, QLL_FIT_FL, asked->arena, &fit);
    if (status == QLL_OK && !qll_capacity_refuse(&table, &fit, asked->arena, &asked->problems)) {
        return qll_problems_status(&asked->problems);
    }
    qll_fit_findings findings = {.sheet = &sheet,
                                 .fit = &fit,
                                 .units = units,
                                 .language = asked->language,
                                 .assumed = &asked->assumed,
                                 .problems = &asked->problems};
    if (status == QLL_OK) {
        status = make_valve(&sheet, &fit, asked->arena, &findings);
    }
    findings.catalogue =
        (qll_catalogue){.name = "fitted catalog", .valves = &findings.valve, .count = 1};
    if (status == QLL_OK) {
        status = prove(asked, &findings);
    }
    if (status != QLL_OK) {
        return status;
    }
    warn_of_full_travel(asked, &fit);
    write_answer(asked, &findings);
    return qll_asked_finish(asked);
}
