/* Gauge readings as CSV (RFC 4180). */
#include "engine/tell.h"
#include "engine/visits.h"

#include <math.h>
#include <string.h>

static void write_cell(qll_writer *writer, const char *text)
{
    if (strpbrk(text, ",\"\r\n") == NULL) {
        qll_write(writer, text);
        return;
    }
    qll_write(writer, "\"");
    for (const char *c = text; *c != '\0'; c++) {
        qll_write(writer, *c == '"' ? "\"" : "");
        qll_write_byte(writer, *c, 1);
    }
    qll_write(writer, "\"");
}

static void write_figure(qll_writer *writer, double value)
{
    if (isfinite(value)) {
        qll_write_number(writer, value);
    }
}

/* A row: @p gauge "inlet", "outlet" or "strainer". */
static void write_row(qll_writer *writer, const qll_site_row *site, const qll_dated_visit *visit,
                      const char *gauge, const qll_gauge_reading *reading)
{
    const char *const cells[] = {site->site,
                                 site->name,
                                 visit->record->id,
                                 visit->day,
                                 visit->record->who,
                                 gauge,
                                 reading->is_left ? "left" : "found"};
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        write_cell(writer, cells[i]);
        qll_write(writer, ",");
    }
    write_figure(writer, reading->pressure_pa_gauge);
    qll_write(writer, ",");
    write_figure(writer, reading->flow_m3s);
    qll_write(writer, "\r\n");
}

static void write_visit(qll_writer *writer, const qll_site_row *site, const qll_dated_visit *visit)
{
    const qll_case *of = &visit->visit.read.of;
    for (size_t i = 0; visit->visit.has_case && i < of->reading_count; i++) {
        write_row(writer, site, visit, qll_gauge_words[of->readings[i].gauge], &of->readings[i]);
    }
    if (isfinite(visit->visit.strainer_loss_pa)) {
        const qll_gauge_reading loss = {.pressure_pa_gauge = visit->visit.strainer_loss_pa,
                                        .flow_m3s = visit->visit.strainer_flow_m3s};
        write_row(writer, site, visit, "strainer", &loss);
    }
}

qll_status qll_tell_readings(const qll_site_row *row, const qll_record *records, size_t count,
                             bool with_heads, qll_arena *arena, qll_answer *answer)
{
    qll_tell tell = {
        .arena = arena,
        .refused_count = qll_arena_refused(arena),
        .writer = qll_writer_new(arena),
    };
    qll_dated_visits visits = {0};
    *answer = (qll_answer){0};
    const qll_status status = qll_visits_among(records, count, arena, &visits);
    if (status != QLL_OK) {
        return status;
    }
    if (with_heads) {
        qll_write(&tell.writer, "site,name,record,day,who,gauge,as,pressure_pa_gauge,flow_m3s\r\n");
    }
    for (size_t i = 0; row != NULL && i < visits.count; i++) {
        write_visit(&tell.writer, row, &visits.list[i]);
    }
    return qll_tell_end(&tell, answer);
}
