#include "report/sections.h"

#include <math.h>
#include <string.h>

/* A table a plumber takes in at a glance: the smallest flow, the peak, and as many between. */
#define QLL_ROWS_SHOWN 14

void qll_section(qll_writer *writer, const char *heading)
{
    qll_write(writer, "\n");
    qll_write(writer, heading);
    qll_write(writer, "\n");
}

void qll_section_assumed(qll_writer *writer, const qll_assumed *assumed)
{
    if (assumed == NULL || assumed->first == NULL) {
        return;
    }
    qll_section(writer, "ASSUMED (not given; check it)");
    for (const qll_assumption *entry = assumed->first; entry != NULL; entry = entry->next) {
        qll_writer line = qll_writer_new(writer->arena);
        qll_write(&line, entry->what);
        qll_write(&line, ": ");
        qll_write(&line, entry->value);
        qll_write(&line, " (");
        qll_write(&line, entry->why);
        qll_write(&line, ")");
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  - ", qll_writer_text(&line));
    }
}

void qll_section_sources(qll_writer *writer, const char *const *sources, size_t count)
{
    if (count == 0) {
        return;
    }
    qll_section(writer, "SOURCES");
    for (size_t i = 0; i < count; i++) {
        qll_write_wrapped(writer, "  - ", qll_text_of(sources[i]));
    }
}

void qll_section_cautions(qll_writer *writer)
{
    size_t count = 0;
    const char *const *cautions = qll_cautions(&count);
    qll_section(writer, "CAUTIONS");
    for (size_t i = 0; i < count; i++) {
        qll_write_wrapped(writer, "  ! ", qll_text_of(cautions[i]));
    }
}

void qll_section_verdicts(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_assessment *assessment)
{
    static const char *const marks[QLL_GRADE_COUNT] = {"  good    ", "  CAUTION ", "  FAIL    "};
    for (int grade = QLL_GRADE_FAIL; grade >= QLL_GRADE_GOOD; grade--) {
        for (size_t i = 0; i < assessment->verdict_count; i++) {
            const qll_verdict *verdict = &assessment->verdicts[i];
            if ((int)verdict->grade != grade) {
                continue;
            }
            qll_writer first = qll_writer_new(writer->arena);
            qll_write(&first, marks[grade]);
            qll_write_format(&first, "%-11s ", qll_rule_words[verdict->rule]);
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

/* What stands out about one working branch; the station is good where nothing does. */
static const char *branch_note(const qll_limits *limits, const qll_branch_state *state,
                               bool in_charge)
{
    if (state->cavitation.regime >= QLL_REGIME_DAMAGING) {
        return "FAIL: cavitation eats the seat";
    }
    if (qll_is_too_fast(limits, state->velocity_m_s, in_charge)) {
        return "FAIL: too fast";
    }
    if (!state->stable && in_charge) {
        return "caution: may chatter";
    }
    if (state->cavitation.regime == QLL_REGIME_AUDIBLE) {
        return "caution: cavitation audible";
    }
    if (in_charge && state->velocity_m_s > limits->velocity_high_m_s) {
        return "caution: fast";
    }
    return in_charge && state->full_travel ? "caution: wide open" : "good";
}

/* Fail before caution before good; the first of equals. */
static const char *graver(const char *a, const char *b)
{
    const char order[] = "gcF";
    return strchr(order, b[0]) > strchr(order, a[0]) ? b : a;
}

/* What stands out at one operating point. */
static const char *point_note(const qll_wording *wording, const qll_station *station,
                              const qll_operating_point *point)
{
    const char *note = "good";
    if (!point->passes) {
        return "FAIL: cannot pass it";
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        size_t count = station->stages[s].branch_count;
        size_t charge = qll_in_charge(point->branches[s], count);
        for (size_t b = 0; b < count; b++) {
            const qll_branch_state *state = &point->branches[s][b];
            if (state->working) {
                note = graver(note, branch_note(&wording->site->limits, state, b == charge));
            }
        }
    }
    return note;
}

/* "A", "A+B", "1A 2A+B": which valves pass water. */
static void write_working(qll_writer *writer, const qll_station *station,
                          const qll_operating_point *point)
{
    bool any = false;
    for (size_t s = 0; s < station->stage_count; s++) {
        bool first = true;
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (!point->branches[s][b].working) {
                continue;
            }
            if (first && station->stage_count > 1) {
                qll_write_format(writer, "%s%zu", any ? " " : "", s + 1);
            }
            qll_write(writer, first ? "" : "+");
            qll_write_byte(writer, (char)('A' + (int)(b < 26 ? b : 25)), 1);
            first = false;
            any = true;
        }
    }
    qll_write(writer, any ? "" : "none");
}

static double fastest_m_s(const qll_station *station, const qll_operating_point *point)
{
    double fastest = 0;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            fastest = fmax(fastest, point->branches[s][b].velocity_m_s);
        }
    }
    return fastest;
}

static double worst_ratio(const qll_station *station, const qll_operating_point *point,
                          double barometric_pa)
{
    double worst = NAN;
    for (size_t s = 0; s < station->stage_count; s++) {
        double outlet = point->stage_outlet_pa[s] - barometric_pa;
        if (outlet > 0) {
            worst = fmax(worst, (point->stage_inlet_pa[s] - barometric_pa) / outlet);
        }
    }
    return worst;
}

static void point_row(qll_columns *table, const qll_wording *wording, const qll_station *station,
                      const qll_operating_point *point)
{
    double atmosphere = wording->site->barometric_pa;
    if (point->flow_m3s > 0) {
        qll_cell_quantity(table, point->flow_m3s, QLL_KIND_FLOW, wording->units);
    } else {
        qll_columns_put(table, "none");
    }
    qll_cell_quantity(table, point->inlet_pa - atmosphere, QLL_KIND_PRESSURE, wording->units);
    if (station->stage_count > 1) {
        qll_cell_quantity(table, point->stage_outlet_pa[0] - atmosphere, QLL_KIND_PRESSURE,
                          wording->units);
    }
    qll_cell_quantity(table, point->outlet_pa - atmosphere, QLL_KIND_PRESSURE, wording->units);
    write_working(&table->cell, station, point);
    qll_columns_next(table);
    qll_cell_quantity(table, point->flow_m3s > 0 ? fastest_m_s(station, point) : (double)NAN,
                      QLL_KIND_VELOCITY, wording->units);
    double ratio = worst_ratio(station, point, atmosphere);
    if (isfinite(ratio) && point->flow_m3s > 0) {
        qll_write_format(&table->cell, "%.1f", ratio);
    } else {
        qll_write(&table->cell, "-");
    }
    qll_columns_next(table);
    qll_columns_put(table, point_note(wording, station, point));
}

static size_t working_count(const qll_station *station, const qll_operating_point *point)
{
    size_t working = 0;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            working += point->branches[s][b].working ? 1 : 0;
        }
    }
    return working;
}

/* Evenly spread rows, the first and the last, and every row at which another valve comes in. */
static bool is_shown(const qll_station *station, const qll_operating_point *points, size_t count,
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

void qll_section_points(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                        const qll_operating_point *points, size_t count)
{
    bool staged = station->stage_count > 1;
    qll_columns table = qll_columns_new(writer, staged ? "rrrrlrrl" : "rrrlrrl");
    const char *const heads[] = {"flow",  "inlet",    "between", "outlet",
                                 "works", "velocity", "ratio",   ""};
    for (size_t i = 0; i < 8; i++) {
        if (i != 2 || staged) {
            qll_columns_put(&table, heads[i]);
        }
    }
    const char *pressure = qll_units_name(QLL_KIND_PRESSURE, wording->units);
    qll_columns_put(&table, qll_units_name(QLL_KIND_FLOW, wording->units));
    for (int i = 0; i < (staged ? 3 : 2); i++) {
        qll_columns_put(&table, pressure);
    }
    qll_columns_put(&table, "");
    qll_columns_put(&table, qll_units_name(QLL_KIND_VELOCITY, wording->units));
    qll_columns_put(&table, "");
    qll_columns_put(&table, "");
    for (size_t i = 0; i < count; i++) {
        if (is_shown(station, points, count, i)) {
            point_row(&table, wording, station, &points[i]);
        }
    }
    qll_columns_flush(&table);
}

void qll_section_shares(qll_writer *writer, const qll_time_shares *shares)
{
    const struct {
        const char *what;
        double share;
    } rows[] = {
        {"nobody draws", shares->idle},
        {"below least stable flow", shares->below_stable},
        {"slower than the velocity band", shares->below_band},
        {"in the velocity band", shares->in_band},
        {"faster than the velocity band", shares->above_band},
        {"(of these) wide open", shares->full_travel},
        {"(of these) cavitating audibly", shares->cavitating},
    };

    qll_columns table = qll_columns_new(writer, "lrl");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        qll_columns_put(&table, rows[i].what);
        qll_write_format(&table.cell, "%.1f %%", 100 * rows[i].share);
        qll_columns_next(&table);
        qll_write_byte(&table.cell, '#', (size_t)(rows[i].share * 40 + 0.5));
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}
