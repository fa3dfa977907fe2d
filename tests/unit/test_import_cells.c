/* A catalogue's table cell by cell: each column in each unit that its name may end in, a unit in the cell, the place of what is
 * refused, and what one row may not say together. Units by NIST SP 811; rules by docs/formats/catalogue.md. */
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/valve_table.h"
#include "said.h"

#include <stddef.h>
#include <stdlib.h>

/* ---- units ---- */

typedef struct unit {
    const char *suffix, *text; /* at the end of a column's name; in a cell */
    double times, plus;        /* SI = times number + plus */
} unit;

typedef enum kind {
    TEST_NUMBER,
    TEST_PRESSURE,
    TEST_FLOW,
    TEST_LENGTH,
    TEST_KV,
    TEST_TEMPERATURE,
    TEST_MASS,
    TEST_SPRING,
    TEST_DAMPING,
    TEST_TIME,
    TEST_KINDS
} kind;

#define TEST_INCH      0.0254
#define TEST_LBF       (0.45359237 * 9.80665)
#define TEST_GPM       (231.0 * TEST_INCH * TEST_INCH * TEST_INCH / 60.0)
/* A Cv passes 1 gpm at 1 psi; a Kv 1 m3/h at 1 bar: gpm in m3/h times the root of bar over psi. */
#define TEST_KV_PER_CV (TEST_GPM * 3600.0 * sqrt(1e5 / (TEST_LBF / (TEST_INCH * TEST_INCH))))

static const unit *units_of(kind of, size_t *count)
{
    static unit all[TEST_KINDS][3] = {
        [TEST_NUMBER] = {{"", "", 1.0, 0.0}},
        [TEST_PRESSURE] = {{"_psi", "psi", TEST_LBF / (TEST_INCH * TEST_INCH), 0.0},
                           {"_bar", "bar", 1e5, 0.0},
                           {"_kpa", "kPa", 1e3, 0.0}},
        [TEST_FLOW] = {{"_gpm", "gpm", TEST_GPM, 0.0},
                       {"_lps", "L/s", 1e-3, 0.0},
                       {"_m3h", "m3/h", 1.0 / 3600.0, 0.0}},
        [TEST_LENGTH] = {{"_in", "in", TEST_INCH, 0.0}, {"_mm", "mm", 1e-3, 0.0}},
        [TEST_KV] = {{"_m3h", "m3/h", 1.0, 0.0}, {"_cv", "Cv", 0.0, 0.0}},
        [TEST_TEMPERATURE] = {{"_degf", "degF", 1.0 / 1.8, -32.0 / 1.8},
                              {"_degc", "degC", 1.0, 0.0}},
        [TEST_MASS] = {{"_lb", "lb", 0.45359237, 0.0}, {"_kg", "kg", 1.0, 0.0}},
        [TEST_SPRING] = {{"_lbf_in", "lbf/in", TEST_LBF / TEST_INCH, 0.0},
                         {"_n_mm", "N/mm", 1e3, 0.0}},
        [TEST_DAMPING] = {{"_n_s_m", "N.s/m", 1.0, 0.0}},
        [TEST_TIME] = {{"_s", "s", 1.0, 0.0}},
    };
    all[TEST_KV][1].times = TEST_KV_PER_CV;
    *count = 0;
    while (*count < 3 && all[of][*count].suffix != NULL) {
        *count += 1;
    }
    return all[of];
}

/* ---- columns ---- */

typedef struct column {
    const char *name;
    kind of;
    double si; /* a value that fits the others */
    ptrdiff_t at;
    bool is_pilot, is_band; /* of a valve of that kind only */
} column;

#define TEST_AT(member) (ptrdiff_t) offsetof(qll_valve, member)
#define TEST_FLOW_1     (-1)
#define TEST_DROP_1     (-2)
#define TEST_FLOW_2     (-3)
#define TEST_DROP_2     (-4)

static const column columns[] = {
    {"nominal", TEST_LENGTH, 0.0508, TEST_AT(nominal_m), false, false},
    {"kv", TEST_KV, 17.5, TEST_AT(kv_m3h), false, false},
    {"set_min", TEST_PRESSURE, 170e3, TEST_AT(set_min_pa_gauge), false, false},
    {"set_max", TEST_PRESSURE, 510e3, TEST_AT(set_max_pa_gauge), false, false},
    {"inlet_max", TEST_PRESSURE, 2e6, TEST_AT(inlet_max_pa_gauge), false, false},
    {"temperature_max", TEST_TEMPERATURE, 71.0, TEST_AT(temperature_max_degc), false, false},
    {"falloff_inlet", TEST_PRESSURE, 700e3, TEST_AT(sheet_inlet_pa_gauge), false, false},
    {"falloff_set", TEST_PRESSURE, 345e3, TEST_AT(sheet_set_pa_gauge), false, false},
    {"falloff_1_flow", TEST_FLOW, 6e-4, TEST_FLOW_1, false, false},
    {"falloff_1_drop", TEST_PRESSURE, 12e3, TEST_DROP_1, false, false},
    {"falloff_2_flow", TEST_FLOW, 4e-3, TEST_FLOW_2, false, false},
    {"falloff_2_drop", TEST_PRESSURE, 60e3, TEST_DROP_2, false, false},
    {"band", TEST_PRESSURE, 55e3, TEST_AT(band_pa), false, true},
    {"lockup_rise", TEST_PRESSURE, 30e3, TEST_AT(lockup_rise_pa), false, false},
    {"inlet_effect", TEST_NUMBER, 0.07, TEST_AT(inlet_effect), false, false},
    {"flow_min", TEST_FLOW, 4e-5, TEST_AT(flow_min_m3s), false, false},
    {"hysteresis", TEST_PRESSURE, 9e3, TEST_AT(hysteresis_pa), false, false},
    {"fl", TEST_NUMBER, 0.87, TEST_AT(fl), false, false},
    {"fd", TEST_NUMBER, 0.41, TEST_AT(fd), false, false},
    {"xfz", TEST_NUMBER, 0.43, TEST_AT(xfz), false, false},
    {"seat_bore", TEST_LENGTH, 0.027, TEST_AT(seat_bore_m), false, false},
    {"strainer_kv", TEST_KV, 40.0, TEST_AT(strainer_kv_m3h), false, false},
    {"moving_mass", TEST_MASS, 0.8, TEST_AT(moving_mass_kg), false, false},
    {"spring_rate", TEST_SPRING, 60e3, TEST_AT(spring_n_m), false, false},
    {"damping", TEST_DAMPING, 12.0, TEST_AT(damping_n_s_m), false, false},
    {"diaphragm", TEST_LENGTH, 0.09, TEST_AT(diaphragm_m), false, false},
    {"stroke_time", TEST_TIME, 8.0, TEST_AT(stroke_s), true, false},
    {"price", TEST_NUMBER, 780.0, TEST_AT(price), false, false},
    {"lead_days", TEST_NUMBER, 9.0, TEST_AT(lead_days), false, false},
};
#define TEST_COLUMNS (sizeof columns / sizeof columns[0])

static bool is_called(size_t c, const char *part)
{
    return strstr(columns[c].name, part) != NULL;
}

/* Does a valve of that kind have this column filled? */
static bool is_there(size_t c, bool is_pilot, bool is_band)
{
    const bool moves = is_called(c, "moving") || is_called(c, "spring") || is_called(c, "damping")
                       || is_called(c, "diaphragm");
    const bool is_point = is_called(c, "falloff");
    return !(columns[c].is_pilot && !is_pilot) && !(moves && is_pilot)
           && !(columns[c].is_band && !is_band) && !(is_point && is_band);
}

/* ---- a table, read ---- */

typedef struct scene {
    qll_arena *arena;
    qll_writer csv;
    qll_assumed assumed;
    qll_problems problems;
    qll_catalogue catalogue;
    qll_status status;
} scene;

static scene begin(void)
{
    scene at = {.arena = qll_arena_open((size_t)64 << 20)};
    at.csv = qll_writer_new(at.arena);
    at.assumed = qll_assumed_none(at.arena);
    at.problems = qll_problems_none(at.arena);
    return at;
}

static void import(scene *at)
{
    qll_table *table = qll_arena_take(at->arena, 1, sizeof *table);
    at->status = qll_valve_table_read(qll_writer_text(&at->csv), "valves.csv", at->arena, table,
                                      &at->problems);
    if (at->status == QLL_OK) {
        at->status =
            qll_catalogue_import(table, at->arena, &at->catalogue, &at->assumed, &at->problems);
    }
}

static void print(const scene *at)
{
    for (size_t i = 0; i < at->problems.kept_count; i++) {
        printf("    %s: %s\n", at->problems.kept[i].place.path,
               said_problem(&at->problems, i).text);
    }
}

/* What a row has of a column. */
static double value_of(const qll_valve *valve, ptrdiff_t at)
{
    if (at >= 0) {
        double value = 0.0;
        memcpy(&value, (const char *)valve + at, sizeof value);
        return value;
    }
    const size_t point = at == TEST_FLOW_1 || at == TEST_DROP_1 ? 0 : 1;
    if (!CHECK(valve->falloff_count == 2)) {
        return (double)NAN;
    }
    const bool is_flow = at == TEST_FLOW_1 || at == TEST_FLOW_2;
    return is_flow ? valve->falloff_points[point].x : valve->falloff_points[point].y;
}

/* The number to write, of six digits, and the SI value that it then is. */
static double rounded(const unit *in, double si, char *text, size_t room)
{
    (void)snprintf(text, room, "%.6g", (si - in->plus) / in->times);
    return in->times * strtod(text, NULL) + in->plus;
}

/* All columns in the units that are each kind's @p turn: in their names, or in the cells, where names have those of the turn
 * before or none. */
static void check_units(size_t turn, bool in_cells, bool is_pilot, bool is_band)
{
    scene at = begin();
    double want[TEST_COLUMNS];
    qll_write(&at.csv, "id,acting");
    for (size_t c = 0; c < TEST_COLUMNS; c++) {
        size_t count = 0;
        const unit *units = units_of(columns[c].of, &count);
        const char *suffix = units[(turn + (in_cells ? 1 : 0)) % count].suffix;
        qll_write_format(&at.csv, ",%s%s", columns[c].name, in_cells && turn == 0 ? "" : suffix);
    }
    qll_write_format(&at.csv, "\nA,%s", is_pilot ? "pilot" : "direct");
    for (size_t c = 0; c < TEST_COLUMNS; c++) {
        size_t count = 0;
        char number[64];
        const unit *units = units_of(columns[c].of, &count);
        const unit *in = &units[turn % count];
        want[c] = rounded(in, columns[c].si, number, sizeof number);
        if (!is_there(c, is_pilot, is_band)) {
            qll_write(&at.csv, ",");
        } else if (in_cells && columns[c].of != TEST_NUMBER) {
            qll_write_format(&at.csv, ", %s %s ", number, in->text);
        } else {
            qll_write_format(&at.csv, ",%s", number);
        }
    }
    qll_write(&at.csv, "\n");
    import(&at);
    if (!CHECK(at.status == QLL_OK && at.catalogue.count == 1)) {
        print(&at);
        qll_arena_close(at.arena);
        return;
    }
    const qll_valve *valve = &at.catalogue.valves[0];
    CHECK_TEXT(valve->id, "A");
    CHECK(valve->acting == (is_pilot ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT));
    for (size_t c = 0; c < TEST_COLUMNS; c++) {
        if (is_there(c, is_pilot, is_band)) {
            const double got = value_of(valve, columns[c].at);
            /* What a Cv is in Kv is rounded in the trade to 3 or 4 digits. */
            const double within = columns[c].of == TEST_KV ? 2e-4 : 1e-9;
            if (!CHECK(fabs(got - want[c]) <= within * fabs(want[c]))) {
                printf("    %s, turn %zu: %.12g, want %.12g\n", columns[c].name, turn, got,
                       want[c]);
            }
        }
    }
    /* Defaults are told from what the sheet says. */
    CHECK(valve->defaulted == 0 || is_pilot);
    qll_arena_close(at.arena);
}

TEST(each_column_is_read_in_each_of_its_units)
{
    for (size_t turn = 0; turn < 3; turn++) {
        for (size_t way = 0; way < 8; way++) {
            check_units(turn, way % 2 == 1, way / 2 % 2 == 1, way / 4 == 1);
        }
    }
}

/* ---- where it is wrong ---- */

/* Three good rows; the cell of one column in one of them is replaced. */
static void write_rows(scene *at, size_t row, size_t column_at, const char *cell)
{
    qll_write(&at->csv, "id,acting");
    for (size_t c = 0; c < TEST_COLUMNS; c++) {
        size_t count = 0;
        qll_write_format(&at->csv, ",%s%s", columns[c].name,
                         units_of(columns[c].of, &count)[0].suffix);
    }
    for (size_t r = 0; r < 3; r++) {
        qll_write_format(&at->csv, "\nvalve %zu,%s", r + 1, r == 1 ? "pilot" : "direct");
        for (size_t c = 0; c < TEST_COLUMNS; c++) {
            size_t count = 0;
            char number[64] = "";
            if (is_there(c, r == 1, r == 2)) {
                (void)rounded(units_of(columns[c].of, &count), columns[c].si, number,
                              sizeof number);
            }
            qll_write_format(&at->csv, ",%s", r == row && c == column_at ? cell : number);
        }
    }
    qll_write(&at->csv, "\n");
}

/* Line and column of the cell, counted from the bytes of the table. */
static void place_of(qll_text csv, size_t row, size_t cell, size_t *line, size_t *column_at)
{
    const char *at = csv.bytes;
    for (size_t r = 0; r <= row; r++) {
        at = strchr(at, '\n') + 1;
    }
    const char *start = at;
    for (size_t c = 0; c < cell; c++) {
        at = strchr(at, ',') + 1;
    }
    *line = row + 2;
    *column_at = (size_t)(at - start) + 1;
}

TEST(what_is_no_value_is_refused_in_its_cell)
{
    for (size_t row = 0; row < 3; row++) {
        for (size_t c = 0; c < TEST_COLUMNS; c++) {
            if (!is_there(c, row == 1, row == 2)) {
                continue;
            }
            scene at = begin();
            write_rows(&at, row, c, "much");
            const qll_text csv = qll_writer_text(&at.csv);
            import(&at);
            size_t line = 0;
            size_t column_at = 0;
            place_of(csv, row, 2 + c, &line, &column_at);
            size_t count = 0;
            char path[64];
            (void)snprintf(path, sizeof path, "row %zu, %s%s", row + 1, columns[c].name,
                           units_of(columns[c].of, &count)[0].suffix);
            if (CHECK(at.status == QLL_REFUSED && at.problems.kept_count == 1)) {
                const qll_place *place = &at.problems.kept[0].place;
                CHECK_TEXT(place->source, "valves.csv");
                CHECK_TEXT(place->path, path);
                CHECK((size_t)place->line == line && (size_t)place->column == column_at);
                CHECK(strstr(said_problem(&at.problems, 0).text, "much") != NULL);
            } else {
                printf("    %s\n", path);
                print(&at);
            }
            qll_arena_close(at.arena);
        }
    }
}

int main(void)
{
    TEST_RUN(each_column_is_read_in_each_of_its_units);
    TEST_RUN(what_is_no_value_is_refused_in_its_cell);
    return TEST_END();
}
