#include "judge.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const double psi = 6894.757293168361;
static const double foot = 0.3048;
static const double slack_in = 0.01;

/* "1|2" */
static unsigned set_of(qll_text cell)
{
    unsigned set = 0;
    for (size_t i = 0; i < cell.size; i++) {
        if (cell.bytes[i] >= '0' && cell.bytes[i] <= '9') {
            set |= 1u << (unsigned)(cell.bytes[i] - '0');
        }
    }
    return set;
}

static bool is_in(unsigned set, size_t number)
{
    return number < 10 && (set >> number & 1u) != 0;
}

panel_want panel_want_of(const qll_table *table, size_t row)
{
    size_t acting = qll_table_column(table, "acting");
    return (panel_want){
        .stages = set_of(qll_table_cell(table, row, qll_table_column(table, "stages"))),
        .branches = set_of(qll_table_cell(table, row, qll_table_column(table, "branches"))),
        .smallest_from_in =
            qll_table_number(table, row, qll_table_column(table, "smallest_from_in")),
        .smallest_to_in = qll_table_number(table, row, qll_table_column(table, "smallest_to_in")),
        .largest_from_in = qll_table_number(table, row, qll_table_column(table, "largest_from_in")),
        .largest_to_in = qll_table_number(table, row, qll_table_column(table, "largest_to_in")),
        .direct = qll_text_is(qll_table_cell(table, row, acting), "direct"),
    };
}

void panel_say(panel_faults *faults, const char *format, ...)
{
    size_t room = sizeof faults->text - faults->used;
    int mark = snprintf(faults->text + faults->used, room, "%s", faults->count == 0 ? "" : "; ");
    faults->used += mark > 0 && (size_t)mark < room ? (size_t)mark : 0;
    room = sizeof faults->text - faults->used;
    va_list given;
    va_start(given, format);
    int added = vsnprintf(faults->text + faults->used, room, format, given);
    va_end(given);
    faults->used += added > 0 && (size_t)added < room ? (size_t)added : 0;
    faults->count += 1;
}

/* "1-1/4 in" and "40 mm" in inches. */
static double inches_of(const char *text)
{
    double sum = 0.0;
    const char *at = text;
    while (*at >= '0' && *at <= '9') {
        double number = 0.0;
        double under = 1.0;
        at += qll_text_number((qll_text){at, strspn(at, "0123456789.")}, &number);
        if (*at == '/') {
            at += 1 + qll_text_number((qll_text){at + 1, strspn(at + 1, "0123456789")}, &under);
        }
        sum += number / under;
        at += *at == '-' ? 1 : 0;
    }
    return strcmp(at, " mm") == 0 ? sum / 25.4 : sum;
}

double panel_service_in(const json_t *survey)
{
    double most = -1.0;
    size_t index;
    const json_t *part;
    json_array_foreach(json_object_get(survey, "upstream"), index, part)
    {
        if (json_object_get(part, "pipe") != NULL) {
            most = fmax(most, inches_of(panel_text(part, "nominal")));
        }
    }
    return most > 0.0 ? most : 99.0;
}

static const json_t *branches_of(const json_t *stage)
{
    return json_object_get(stage, "branches");
}

/* The smallest or largest of a stage; the first in the list where several are. */
static const json_t *extreme(const json_t *stage, bool largest)
{
    const json_t *found = json_array_get(branches_of(stage), 0);
    size_t index;
    const json_t *branch;
    json_array_foreach(branches_of(stage), index, branch)
    {
        double nominal = panel_number(branch, "nominal_mm");
        double best = panel_number(found, "nominal_mm");
        /* Of two of one size the later is the large one, as in a list sorted by size. */
        if (largest ? nominal >= best : nominal < best) {
            found = branch;
        }
    }
    return found;
}

static void judge_sizes(const panel_want *want, const json_t *stage, double service_in,
                        panel_faults *faults)
{
    const json_t *small = extreme(stage, false);
    const json_t *large = extreme(stage, true);
    double small_in = panel_number(small, "nominal_mm") / 25.4;
    double large_in = panel_number(large, "nominal_mm") / 25.4;
    if (!(large_in <= service_in + slack_in)) {
        panel_say(faults, "%.4g in on a %.4g in service", large_in, service_in);
    }
    bool several = json_array_size(branches_of(stage)) > 1;
    if (several
        && !(small_in >= want->smallest_from_in - slack_in
             && small_in <= want->smallest_to_in + slack_in)) {
        panel_say(faults, "smallest %.4g in, want %g to %g", small_in, want->smallest_from_in,
                  want->smallest_to_in);
    }
    if (!(large_in >= want->largest_from_in - slack_in
          && large_in <= want->largest_to_in + slack_in)) {
        panel_say(faults, "largest %.4g in, want %g to %g", large_in, want->largest_from_in,
                  want->largest_to_in);
    }
    if (several
        && !(panel_number(small, "set_pressure_pa_gauge")
             > panel_number(large, "set_pressure_pa_gauge"))) {
        panel_say(faults, "the small valve is not set above the large one");
    }
    size_t index;
    const json_t *branch;
    json_array_foreach(branches_of(stage), index, branch)
    {
        if (want->direct && strcmp(panel_text(branch, "acting"), "direct") != 0) {
            panel_say(faults, "%s is pilot-operated", panel_text(branch, "valve"));
        }
    }
}

/* The lowest and highest set-point of a stage. */
static void set_points(const json_t *stage, double *low_pa, double *high_pa)
{
    *low_pa = INFINITY;
    *high_pa = -INFINITY;
    size_t index;
    const json_t *branch;
    json_array_foreach(branches_of(stage), index, branch)
    {
        double set_pa = panel_number(branch, "set_pressure_pa_gauge");
        *low_pa = fmin(*low_pa, set_pa);
        *high_pa = fmax(*high_pa, set_pa);
    }
}

static void judge_stages(const panel_want *want, const json_t *station, double service_in,
                         panel_faults *faults)
{
    const json_t *stages = json_object_get(station, "stages");
    double before_low_pa = INFINITY;
    bool odd_branches = false;
    size_t index;
    const json_t *stage;
    json_array_foreach(stages, index, stage)
    {
        double low_pa, high_pa;
        set_points(stage, &low_pa, &high_pa);
        if (!(before_low_pa >= high_pa + 10.0 * psi - 1.0)) {
            panel_say(faults, "a stage is set below, or hardly above, the next");
        }
        before_low_pa = low_pa;
        odd_branches = odd_branches || !is_in(want->branches, json_array_size(branches_of(stage)));
        judge_sizes(want, stage, service_in, faults);
    }
    if (!is_in(want->stages, json_array_size(stages))) {
        panel_say(faults, "%zu stages", json_array_size(stages));
    }
    if (odd_branches) {
        panel_say(faults, "too many or too few valves side by side");
    }
}

/* Size of the first valve of the station with this id; a branch of a point names its valve only. */
static double nominal_mm_of(const json_t *station, const char *valve)
{
    size_t s;
    const json_t *stage;
    json_array_foreach(json_object_get(station, "stages"), s, stage)
    {
        size_t b;
        const json_t *branch;
        json_array_foreach(branches_of(stage), b, branch)
        {
            if (strcmp(panel_text(branch, "valve"), valve) == 0) {
                return panel_number(branch, "nominal_mm");
            }
        }
    }
    return 1e3;
}

static void judge_velocity(const json_t *answer, const json_t *station, panel_faults *faults)
{
    const double pi = 3.14159265358979323846;
    const json_t *points = json_object_get(answer, "points");
    size_t count = json_array_size(points);
    const json_t *peak = json_array_get(points, count == 0 ? 0 : count - 1);
    size_t s;
    const json_t *stage;
    json_array_foreach(json_object_get(peak, "stages"), s, stage)
    {
        size_t b;
        const json_t *branch;
        json_array_foreach(branches_of(stage), b, branch)
        {
            const char *valve = panel_text(branch, "valve");
            double bore_m = nominal_mm_of(station, valve) * 1e-3;
            double velocity_m_s = panel_number(branch, "flow_m3s") / (pi / 4.0 * bore_m * bore_m);
            if (velocity_m_s / foot > 15.5) {
                panel_say(faults, "%.0f ft/s through %s", velocity_m_s / foot, valve);
            }
        }
    }
}

static void judge_verdicts(const json_t *station, panel_faults *faults)
{
    size_t index;
    const json_t *verdict;
    json_array_foreach(json_object_get(station, "verdicts"), index, verdict)
    {
        if (strcmp(panel_text(verdict, "verdict"), "fail") == 0) {
            panel_say(faults, "fails %s", panel_text(verdict, "rule"));
        }
    }
}

panel_faults panel_judge(const panel_want *want, const json_t *survey, const panel_answer *answer)
{
    panel_faults faults = {.count = 0};
    if (!panel_answered(answer)) {
        panel_say(&faults, "refused: %.90s", panel_complaint(answer));
        return faults;
    }
    const json_t *station = panel_chosen(answer);
    if (station == NULL) {
        if (!is_in(want->stages, 0)) {
            panel_say(&faults, "says no valve is needed");
        }
        return faults;
    }
    if (want->stages == 1u) {
        panel_say(&faults, "no valve is needed, proposes %s", panel_shape_of(answer).text);
        return faults;
    }
    judge_stages(want, station, panel_service_in(survey), &faults);
    judge_velocity(answer->root, station, &faults);
    judge_verdicts(station, &faults);
    if (faults.count > 0) {
        panel_say(&faults, "(%s side by side)", panel_shape_of(answer).text);
    }
    return faults;
}
