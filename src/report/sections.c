#include "report/sections.h"

#include "report/points.h"

#include <math.h>

void qll_section(qll_writer *writer, const char *heading)
{
    qll_write(writer, "\n");
    qll_write(writer, heading);
    qll_write(writer, "\n");
}

void qll_section_says(qll_writer *writer, qll_language language, qll_message heading)
{
    qll_section(writer, qll_say(language, heading));
}

void qll_columns_heads(qll_columns *columns, qll_language language, const qll_message *heads,
                       size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_columns_put(columns, heads[i] == QLL_MESSAGE_COUNT ? "" : qll_say(language, heads[i]));
    }
}

static void say_wrapped(qll_writer *writer, const char *indent, qll_language language,
                        qll_message message, const qll_filling *fillings, size_t count)
{
    qll_writer line = qll_writer_new(writer->arena);
    qll_say_with(&line, language, message, fillings, count);
    writer->no_memory = writer->no_memory || line.no_memory;
    qll_write_wrapped(writer, indent, qll_writer_text(&line));
}

void qll_section_says_with(qll_writer *writer, qll_language language, qll_message message,
                           const qll_filling *fillings, size_t count)
{
    say_wrapped(writer, "  ", language, message, fillings, count);
}

void qll_line_says_with(qll_writer *writer, qll_language language, qll_message message,
                        const qll_filling *fillings, size_t count)
{
    say_wrapped(writer, "", language, message, fillings, count);
}

static void write_argument(qll_writer *writer, const qll_wording *wording,
                           const qll_argument *argument)
{
    const char *says = qll_argument_text(writer->arena, wording, argument);
    writer->no_memory = writer->no_memory || says == NULL;
    qll_write(writer, says == NULL ? "" : says);
}

void qll_section_assumed(qll_writer *writer, const qll_wording *wording, const qll_assumed *assumed)
{
    if (assumed == NULL || assumed->first == NULL) {
        return;
    }
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_ASSUMED);
    for (const qll_assumption *entry = assumed->first; entry != NULL; entry = entry->next) {
        qll_writer line = qll_writer_new(writer->arena);
        write_argument(&line, wording, &entry->what);
        qll_write(&line, ": ");
        write_argument(&line, wording, &entry->value);
        qll_write(&line, " (");
        qll_wording_said(&line, wording, &entry->why);
        qll_write(&line, ")");
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  - ", qll_writer_text(&line));
    }
}

void qll_section_sources(qll_writer *writer, const qll_wording *wording, const qll_said *sources,
                         size_t count)
{
    if (count == 0) {
        return;
    }
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_SOURCES);
    for (size_t i = 0; i < count; i++) {
        qll_writer line = qll_writer_new(writer->arena);
        qll_wording_said(&line, wording, &sources[i]);
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  - ", qll_writer_text(&line));
    }
}

void qll_section_cautions(qll_writer *writer, qll_language language)
{
    qll_section_says(writer, language, QLL_SAYS_PLAIN_CAUTIONS);
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        qll_write_wrapped(writer, "  ! ", qll_text_of(qll_caution(language, i)));
    }
}

static size_t widest_of(qll_language language, qll_message first, size_t count)
{
    size_t widest = 0;
    for (size_t i = 0; i < count; i++) {
        const char *says = qll_say(language, (qll_message)((size_t)first + i));
        size_t width = qll_text_width(qll_text_of(says));
        widest = width > widest ? width : widest;
    }
    return widest;
}

/* Writes @p closed and blanks up to @p width columns. */
static void write_padded(qll_writer *writer, const char *closed, size_t width)
{
    size_t taken = qll_text_width(qll_text_of(closed));
    qll_write(writer, closed);
    qll_write_byte(writer, ' ', taken < width ? width - taken : 0);
}

/* The grade at the start of a line, as wide as any. */
static void write_mark(qll_writer *writer, qll_language language, qll_grade grade)
{
    size_t width = widest_of(language, QLL_SAYS_MARK_GOOD, QLL_GRADE_COUNT);
    qll_write(writer, "  ");
    qll_message mark = (qll_message)((size_t)QLL_SAYS_MARK_GOOD + (size_t)grade);
    write_padded(writer, qll_say(language, mark), width + 1);
}

void qll_section_verdicts(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_assessment *assessment)
{
    qll_language language = wording->language;
    size_t width = widest_of(language, QLL_SAYS_RULE_DELIVERY, QLL_RULE_COUNT) + 2;
    for (int grade = QLL_GRADE_FAIL; grade >= QLL_GRADE_GOOD; grade--) {
        for (size_t i = 0; i < assessment->verdict_count; i++) {
            const qll_verdict *verdict = &assessment->verdicts[i];
            if ((int)verdict->grade != grade) {
                continue;
            }
            qll_writer first = qll_writer_new(writer->arena);
            write_mark(&first, language, verdict->grade);
            write_padded(&first, qll_say_rule(language, verdict->rule), width);
            qll_writer line = qll_writer_new(writer->arena);
            qll_wording_verdict(&line, wording, station, verdict);
            if (first.no_memory || line.no_memory) {
                writer->no_memory = true;
                return;
            }
            qll_write_wrapped(writer, qll_writer_text(&first).bytes, qll_writer_text(&line));
        }
    }
}

void qll_cell_quantity(qll_columns *columns, double si, qll_kind kind, qll_unit_system units)
{
    if (isfinite(si)) {
        qll_units_write_bare(&columns->cell, si, kind, units);
    } else {
        qll_write(&columns->cell, "-");
    }
    qll_columns_next(columns);
}

void qll_section_shares(qll_writer *writer, qll_language language, const qll_time_shares *shares)
{
    qll_share_row rows[QLL_SHARE_ROWS];
    qll_share_rows(shares, rows);
    qll_columns table = qll_columns_new(writer, "lrl");
    for (size_t i = 0; i < QLL_SHARE_ROWS; i++) {
        qll_columns_put(&table, qll_say(language, rows[i].says));
        qll_write_format(&table.cell, "%.1f %%", 100 * rows[i].share);
        qll_columns_next(&table);
        qll_write_byte(&table.cell, '#', (size_t)(rows[i].share * 40 + 0.5));
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

void qll_section_service(qll_writer *writer, const qll_wording *wording,
                         const qll_demand_findings *findings, qll_message heading)
{
    qll_writer says = qll_writer_new(writer->arena);
    bool is_limit = qll_wording_service(&says, wording, findings->service, findings->demands);
    writer->no_memory = writer->no_memory || says.no_memory;
    if (!is_limit) {
        return;
    }
    if (heading != QLL_MESSAGE_COUNT) {
        qll_section_says(writer, wording->language, heading);
    }
    qll_write_wrapped(writer, "  ", qll_writer_text(&says));
}
