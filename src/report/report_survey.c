/* What was surveyed and assumed. */
#include "base/count.h"
#include "report/report_parts.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

static void write_heater(qll_report *report, const qll_site *site)
{
    if (site->heater.volume_m3 > 0) {
        qll_writer writer = qll_writer_new(report->arena);
        qll_write(&writer, qll_report_quantity(report, site->heater.volume_m3, QLL_KIND_VOLUME));
        qll_write(&writer, ", ");
        qll_write(&writer,
                  qll_report_quantity(report, site->heater.hot_degc, QLL_KIND_TEMPERATURE));
        qll_write(&writer, ", ");
        qll_write(&writer,
                  qll_report_quantity(report, site->heater.relief_pa_gauge, QLL_KIND_PRESSURE));
        qll_report_fact(report, QLL_SAYS_HEATER, qll_writer_text(&writer).bytes);
    }
    if (site->tank.volume_m3 > 0) {
        qll_report_fact(report, QLL_SAYS_TANK,
                        qll_report_quantity(report, site->tank.volume_m3, QLL_KIND_VOLUME));
    }
}

/* The rows of the table that is being written, but its heads, as one paragraph: "Site: supply: 110 psi; ...". */
static void write_in_a_row(qll_report *report, qll_message caption, size_t columns)
{
    qll_sheet *sheet = report->sheet;
    qll_writer rows = qll_writer_new(report->arena);
    qll_write(&rows, qll_report_says(report, caption));
    for (size_t i = columns; i + columns <= sheet->cell_count; i += columns) {
        qll_write(&rows, i == columns ? ": " : "; ");
        qll_write(&rows, sheet->cells[i].text);
        qll_write(&rows, ": ");
        qll_write(&rows, sheet->cells[i + 1].text);
    }
    sheet->cell_count = 0;
    qll_report_paragraph_of(report, &rows);
}

/* What the short sheets say among what was assumed, they do not say before it. */
static bool is_said_below(const qll_report *report, const char *key)
{
    const qll_assumption *one =
        report->is_short && report->assumed != NULL ? report->assumed->first : NULL;
    while (one != NULL && !qll_text_is(one->what.text, key)) {
        one = one->next;
    }
    return one != NULL;
}

static void site_fact(qll_report *report, const char *key, const char *what, const char *value)
{
    if (!is_said_below(report, key)) {
        qll_sheet_cell(report->sheet, what);
        qll_sheet_cell(report->sheet, value);
    }
}

/* A datum by the name of its key. */
static void site_datum(qll_report *report, const char *key, const char *value)
{
    site_fact(report, key, qll_report_key_name(report, key), value);
}

static void write_site(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_VALUE};
    const qll_site *site = report->wording.site;
    const qll_limits *limits = &site->limits;
    const qll_supply *supply = &site->supply;
    qll_report_heads(report, heads, 2);
    site_datum(report, "supply.static_high",
               qll_report_quantity(report, supply->static_high_pa_gauge, QLL_KIND_PRESSURE));
    site_datum(report, "supply.static_low",
               qll_report_quantity(report, supply->static_low_pa_gauge, QLL_KIND_PRESSURE));
    site_fact(report, "water.temperature", qll_report_says(report, QLL_SAYS_WATER_TEMPERATURE),
              qll_report_quantity(report, site->water.temperature_degc, QLL_KIND_TEMPERATURE));
    site_datum(report, "downstream.set_pressure",
               qll_report_quantity(report, site->set_pa_gauge, QLL_KIND_PRESSURE));
    site_datum(report, "downstream.static_max",
               qll_report_quantity(report, site->static_max_pa_gauge, QLL_KIND_PRESSURE));
    site_datum(report, "limits.velocity_band",
               qll_report_range(report, limits->velocity_low_m_s, limits->velocity_high_m_s,
                                QLL_KIND_VELOCITY));
    qll_writer ratio = qll_writer_new(report->arena);
    qll_write_format(&ratio, "%.1f:1, %.1f:1", limits->ratio_preferred, limits->ratio_max);
    /* One row of two data: below stand both, or here. */
    site_fact(report,
              is_said_below(report, "limits.ratio_max") ? "limits.ratio_preferred"
                                                        : "limits.ratio_max",
              qll_report_says(report, QLL_SAYS_LIMIT_RATIO), qll_writer_text(&ratio).bytes);
    write_heater(report, site);
    if (report->is_short) {
        write_in_a_row(report, QLL_SAYS_SITE, 2);
    } else {
        qll_report_table(report, QLL_SAYS_SITE, "lr", true);
    }
}

static void write_flow_test(qll_report *report)
{
    const qll_supply *supply = &report->wording.site->supply;
    if (supply->count < 2) {
        return;
    }
    qll_sheet_cell(report->sheet, qll_report_head(report, QLL_SAYS_HEAD_FLOW, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet,
                   qll_report_head(report, QLL_SAYS_HEAD_PRESSURE, QLL_KIND_PRESSURE));
    for (size_t i = 0; i < supply->count; i++) {
        qll_sheet_cell(report->sheet, qll_report_bare(report, supply->test[i].x, QLL_KIND_FLOW));
        qll_sheet_cell(report->sheet,
                       qll_report_bare(report, supply->test[i].y, QLL_KIND_PRESSURE));
    }
    qll_report_table(report, QLL_SAYS_FLOW_TEST, "rr", false);
}

/* "pipe, 4 in, ASTM B88 type L", as far as it is known. */
static const char *element_text(const qll_report *report, const qll_element *element,
                                qll_message name)
{
    const char *says = qll_report_says(report, name);
    const qll_pipe_size *size = element->kind == QLL_ELEMENT_PIPE ? element->size : NULL;
    if (size == NULL) {
        return says;
    }
    const qll_filling sized[] = {{"what", says},
                                 {"name", qll_report_size(report, size->nominal_m)}};
    const qll_filling made[] = {{"what", qll_report_fill(report, QLL_SAYS_ELEMENT_AND, sized, 2)},
                                {"name", size->standard}};
    return qll_report_fill(report, QLL_SAYS_ELEMENT_AND, made, 2);
}

/* Measured, and so no trade size: a 1-1/2 in copper tube is 1.505 in inside. */
static const char *bore_text(const qll_report *report, double bore_m)
{
    qll_writer bore = qll_writer_new(report->arena);
    if (report->wording.units == QLL_UNITS_SI) {
        qll_write_format(&bore, "%.1f mm", bore_m * 1e3);
    } else {
        qll_write_format(&bore, "%.2f in", bore_m / QLL_INCH_M);
    }
    return qll_writer_text(&bore).bytes;
}

static void write_upstream(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_ELEMENT, QLL_SAYS_HEAD_BORE,
                                        QLL_SAYS_HEAD_LENGTH, QLL_SAYS_HEAD_LOSS_AT_PEAK};
    static const qll_message names[] = {
        [QLL_ELEMENT_PIPE] = QLL_SAYS_ELEMENT_PIPE,
        [QLL_ELEMENT_METER] = QLL_SAYS_STEP_METER,
        [QLL_ELEMENT_BACKFLOW] = QLL_SAYS_STEP_BACKFLOW,
        [QLL_ELEMENT_STRAINER] = QLL_SAYS_STEP_STRAINER,
        [QLL_ELEMENT_LOSS] = QLL_SAYS_ELEMENT_LOSS,
    };
    const qll_site *site = report->wording.site;
    if (report->found->duty == NULL) {
        return; /* no station was asked for, and no loss was worked out */
    }
    qll_report_heads(report, heads, 4);
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        bool is_pipe = element->kind == QLL_ELEMENT_PIPE;
        qll_sheet_cell(report->sheet, element_text(report, element, names[element->kind]));
        qll_sheet_cell(report->sheet, is_pipe ? bore_text(report, element->pipe.bore_m) : "");
        qll_sheet_cell(
            report->sheet,
            is_pipe ? qll_report_quantity(report, element->pipe.length_m, QLL_KIND_LENGTH) : "");
        double drop_pa = report->found->demand.upstream_drop_pa[i];
        qll_writer scratch = qll_writer_new(report->arena);
        qll_sheet_cell(report->sheet,
                       qll_text_bare_difference(&scratch, drop_pa, report->wording.units));
    }
    qll_report_table(report, QLL_SAYS_BEFORE, "lrrr", true);
}

static void write_outlets(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_OUTLET_NAME, QLL_SAYS_HEAD_HEIGHT,
                                        QLL_SAYS_HEAD_NEEDS};
    const qll_site *site = report->wording.site;
    qll_report_heads(report, heads, 3);
    for (size_t i = 0; i < site->outlet_count; i++) {
        const qll_outlet *outlet = &site->outlets[i];
        qll_sheet_cell(report->sheet, outlet->name);
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, outlet->elevation_m, QLL_KIND_LENGTH));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, outlet->needs_pa_gauge, QLL_KIND_PRESSURE));
    }
    qll_report_table(report, QLL_SAYS_OUTLETS, "lrr", true);
}

static void write_scenarios(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SCENARIO, QLL_SAYS_HEAD_USE,
                                        QLL_SAYS_HEAD_PEOPLE, QLL_SAYS_HEAD_FIXTURES};
    const qll_survey *survey = report->found->demand.survey;
    qll_report_heads(report, heads, 4);
    for (size_t i = 0; i < survey->scenario_count; i++) {
        const qll_scenario *scenario = &survey->scenarios[i];
        size_t fixtures = 0;
        for (size_t f = 0; f < scenario->load_count; f++) {
            fixtures += scenario->loads[f].count;
        }
        /* A metered scenario need not say who uses the water, or through what. */
        const char *none = qll_report_says(report, QLL_SAYS_NOT_GIVEN);
        qll_sheet_cell(report->sheet, qll_report_scenario(report, scenario));
        qll_report_cell(report,
                        (qll_message)((size_t)QLL_SAYS_USE_APARTMENT + (size_t)scenario->use));
        qll_sheet_cell(report->sheet, scenario->people > 0 ? qll_report_quantity(
                                          report, scenario->people, QLL_KIND_NUMBER)
                                                           : none);
        qll_sheet_cell(report->sheet, fixtures > 0 ? qll_report_count(report, fixtures) : none);
    }
    qll_report_table(report, QLL_SAYS_SCENARIOS, "llrr", true);
}

const char *qll_report_assumed_line(qll_report *report, const qll_assumption *one)
{
    qll_arena *arena = report->arena;
    const char *what = qll_wording_key(arena, &report->wording, &one->what);
    const char *value = qll_argument_text(arena, &report->wording, &one->value);
    const char *why = qll_said_text(arena, &report->wording, &one->why);
    const qll_filling fillings[] = {{"what", what}, {"value", value}, {"why", why}};
    return qll_report_fill(report, QLL_SAYS_ASSUMED_LINE, fillings, 3);
}

static bool lacks(const qll_valve *valve, qll_text key)
{
    static const char *const keys[QLL_VALVE_DEFAULT_COUNT] = {
#define QLL_VALVE_KEY(name, key) [QLL_VALVE_##name] = (key),
        QLL_VALVE_DEFAULT_LIST(QLL_VALVE_KEY)
#undef QLL_VALVE_KEY
    };
    for (unsigned i = 0; i < QLL_VALVE_DEFAULT_COUNT; i++) {
        if (qll_text_is(key, keys[i])) {
            return (valve->defaulted >> i & 1U) != 0;
        }
    }
    return qll_text_is(key, "price") && !isfinite(valve->price);
}

/* Whether no branch before this one has the same valve. */
static bool is_first_of_its_kind(const qll_station *station, size_t stage, size_t branch)
{
    const qll_valve *valve = station->stages[stage].branches[branch].valve;
    for (size_t s = 0; s <= stage; s++) {
        size_t end = s < stage ? station->stages[s].branch_count : branch;
        for (size_t b = 0; b < end; b++) {
            if (station->stages[s].branches[b].valve == valve) {
                return false;
            }
        }
    }
    return true;
}

/* The valves of the station that lack what @p key says. */
static const char *valves_without(const qll_report *report, qll_text key)
{
    qll_writer ids = qll_writer_new(report->arena);
    const qll_station *station = &report->chosen->station;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            const qll_valve *valve = station->stages[s].branches[b].valve;
            if (lacks(valve, key) && is_first_of_its_kind(station, s, b)) {
                qll_write(&ids, ids.size == 0 ? "" : ", ");
                qll_write(&ids, valve->id);
            }
        }
    }
    return qll_writer_text(&ids).bytes;
}

/* What an option of an event is about; NULL for anything else. */
static const char *option_name(const qll_report *report, qll_text what)
{
    static const struct {
        const char *option;
        qll_text_id says;
    } options[] = {{"--outlet", QLL_TEXT_SIM_OUTLET},
                   {"--within", QLL_TEXT_SIM_WITHIN},
                   {"--flow", QLL_TEXT_SIM_FLOW},
                   {"--before", QLL_TEXT_SIM_BEFORE}};

    for (size_t i = 0; i < QLL_COUNT(options); i++) {
        if (qll_text_is(what, options[i].option)) {
            const qll_said says = {.id = options[i].says};
            return qll_said_text(report->arena, &report->wording, &says);
        }
    }
    return NULL;
}

/* The scenario that @p what is a figure of; SIZE_MAX if it is of none. */
static size_t scenario_of(qll_text what)
{
    static const char begins[] = "scenarios[";
    const size_t size = sizeof begins - 1;
    if (what.size <= size || memcmp(what.bytes, begins, size) != 0) {
        return SIZE_MAX;
    }
    size_t scenario = 0;
    size_t at = size;
    for (; at < what.size && what.bytes[at] >= '0' && what.bytes[at] <= '9'; at++) {
        scenario = 10 * scenario + (size_t)(what.bytes[at] - '0');
    }
    return at > size && at + 1 < what.size && what.bytes[at] == ']' ? scenario : SIZE_MAX;
}

/* What follows "scenarios[0]". */
static qll_text key_in_scenario(qll_text what)
{
    const char *end = memchr(what.bytes, ']', what.size);
    const size_t from = end == NULL ? 0 : (size_t)(end - what.bytes) + 1;
    return (qll_text){what.bytes + from, what.size - from};
}

/* Whether the same was assumed of every scenario: then one row without a name says it. */
static bool is_of_all_scenarios(const qll_report *report, const qll_assumption *one)
{
    const qll_text key = key_in_scenario(one->what.text);
    size_t alike = 0;
    for (const qll_assumption *other = report->assumed->first; other != NULL; other = other->next) {
        alike += scenario_of(other->what.text) != SIZE_MAX
                 && qll_text_equal(key_in_scenario(other->what.text), key)
                 && qll_argument_equal(&other->value, &one->value)
                 && qll_said_equal(&other->why, &one->why);
    }
    return alike == report->found->demand.survey->scenario_count;
}

/* "water per person per day, offices": which of several scenarios it is of. */
static const char *named_for(const qll_report *report, const qll_assumption *one, const char *what)
{
    const size_t scenario = scenario_of(one->what.text);
    const qll_survey *survey = report->found == NULL ? NULL : report->found->demand.survey;
    if (survey == NULL || scenario >= survey->scenario_count || survey->scenario_count < 2
        || is_of_all_scenarios(report, one)) {
        return what;
    }
    const qll_filling fillings[] = {
        {"what", what}, {"name", qll_report_scenario(report, &survey->scenarios[scenario])}};
    return qll_report_fill(report, QLL_SAYS_ELEMENT_AND, fillings, 2);
}

/* What it is a default of, without the key; NULL for one of valves that are not installed. */
static const char *assumed_name(const qll_report *report, const qll_assumption *one)
{
    const char *option = option_name(report, one->what.text);
    if (option != NULL) {
        return option;
    }
    const char *what = qll_wording_key_name(report->arena, &report->wording, &one->what);
    const qll_text key = qll_wording_key_of_valves(&one->what);
    if (key.size == 0) {
        return named_for(report, one, what);
    }
    const char *ids = report->chosen == NULL ? "" : valves_without(report, key);
    const qll_filling fillings[] = {{"what", what}, {"name", ids}};
    return ids[0] == '\0' ? NULL : qll_report_fill(report, QLL_SAYS_ELEMENT_AND, fillings, 2);
}

/* Whether @p key is the last of a path such as "scenarios[0].weight". */
static bool is_last_key(qll_text path, const char *key)
{
    const size_t size = strlen(key);
    return path.size > size && qll_text_is((qll_text){path.bytes + path.size - size, size}, key)
           && qll_text_is((qll_text){path.bytes + path.size - size - 1, 1}, ".");
}

/* Nobody can look at it on the site, the inside of a valve or what a method takes: the full sheets have it. */
static bool is_out_of_sight(const qll_argument *what)
{
    static const char *const of_methods[] = {"name",   "weight",    "quantile",       "day",
                                             "habits", "variation", "variation_hour", "breaks"};
    bool is = qll_wording_key_of_valves(what).size > 0
              || strncmp(what->text.bytes == NULL ? "" : what->text.bytes, "costs.", 6) == 0;
    for (size_t i = 0; i < QLL_COUNT(of_methods); i++) {
        is = is || is_last_key(what->text, of_methods[i]);
    }
    return is;
}

/* The survey's units are not those of the sheets where others were asked for. */
static bool is_overruled(const qll_report *report, const qll_assumption *one)
{
    return qll_text_is(one->what.text, "units") && report->wording.units == QLL_UNITS_SI;
}

/* A row, unless one before it reads the same: one of several scenarios or outlets says it. */
static void assumed_row(qll_report *report, const qll_assumption *one)
{
    const char *row[] = {assumed_name(report, one),
                         qll_argument_text(report->arena, &report->wording, &one->value),
                         qll_said_text(report->arena, &report->wording, &one->why)};
    const qll_sheet *sheet = report->sheet;
    bool is_said = row[0] == NULL || is_overruled(report, one)
                   || (report->is_short && is_out_of_sight(&one->what));
    for (size_t i = 0; i + 2 < sheet->cell_count && !is_said; i += 3) {
        is_said = strcmp(sheet->cells[i].text, row[0]) == 0
                  && strcmp(sheet->cells[i + 1].text, row[1]) == 0
                  && strcmp(sheet->cells[i + 2].text, row[2]) == 0;
    }
    for (size_t i = 0; i < 3 && !is_said; i++) {
        qll_sheet_cell(report->sheet, row[i]);
    }
}

void qll_report_assumed(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_TAKEN,
                                        QLL_SAYS_HEAD_WHY};
    const qll_assumption *first = report->assumed == NULL ? NULL : report->assumed->first;
    if (report->is_plain) {
        for (const qll_assumption *one = first; one != NULL; one = one->next) {
            qll_sheet_item(report->sheet, qll_report_assumed_line(report, one));
        }
        qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
        return;
    }
    qll_report_heads(report, heads, 3);
    for (const qll_assumption *one = first; one != NULL; one = one->next) {
        assumed_row(report, one);
    }
    if (report->is_short) {
        write_in_a_row(report, QLL_SAYS_ASSUMED, 3);
        qll_report_paragraph(report, QLL_SAYS_ASSUMED_REASONS, NULL, 0);
    } else {
        /* Of a case a heading of its own says it. */
        qll_report_table(
            report, report->of == QLL_REPORT_OF_DIAGNOSE ? QLL_MESSAGE_COUNT : QLL_SAYS_ASSUMED,
            "lll", true);
    }
}

void qll_report_survey(qll_report *report)
{
    write_site(report);
    if (!report->is_short) {
        write_flow_test(report);
        write_upstream(report);
        write_outlets(report);
        write_scenarios(report);
    }
    qll_report_assumed(report);
}
