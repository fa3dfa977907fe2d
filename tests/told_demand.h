/* The tables about the water beside the JSON: estimates, flow duration, hours, scenarios side by side. */
#ifndef QUELL_TESTS_TOLD_DEMAND_H
#define QUELL_TESTS_TOLD_DEMAND_H

#include "documents/write_common.h"
#include "told.h"

static inline void want_estimates(const told *of, const qll_node *scenario)
{
    const html_table *table = want_table(of, QLL_SAYS_ESTIMATES, scenario->index);
    size_t row = 0;
    for (const qll_node *one = first_of(scenario, "estimates"); table != NULL && one != NULL;
         one = one->next) {
        row += 1;
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_DESIGN_PEAK),
                  quantity(of, number_at(one, "peak_flow_m3s"), QLL_KIND_FLOW));
        if (of->language == QLL_LANGUAGE_EN) {
            want_cell(of, table, row, say(of, QLL_SAYS_HEAD_TABLE),
                      text_at(one, "table", of->arena));
        }
        bool is_named = false;
        for (int m = 0; m < QLL_PEAK_METHOD_COUNT; m++) {
            const qll_filling method = {"method", qll_say_method(of->language, (qll_peak_method)m)};
            is_named =
                is_named
                || (strcmp(qll_method_word((qll_peak_method)m), text_at(one, "method", of->arena))
                        == 0
                    && shows(table, row, say(of, QLL_SAYS_HEAD_METHOD),
                             is_true_at(one, "chosen")
                                 ? filled(of, QLL_SAYS_METHOD_USED, &method, 1)
                                 : method.text));
        }
        if (!CHECK(is_named)) {
            printf("    %s: %s, row %zu\n", of->name, table->caption, row);
        }
    }
    if (table != NULL) {
        want_row_count(of, table, row);
    }
}

/* The page without the marks that keep a number and its unit together. */
static inline const char *with_plain_spaces(const char *page, qll_arena *arena)
{
    char *plain = qll_arena_copy(arena, page, strlen(page));
    char *to = plain;
    for (const char *at = page; *at != '\0'; to++) {
        bool is_space = strncmp(at, "&nbsp;", 6) == 0;
        *to = is_space ? ' ' : *at;
        at += is_space ? 6 : 1;
    }
    *to = '\0';
    return plain;
}

/* Between what the methods lie that were not chosen: said of every scenario that has some. */
static inline void want_between(const told *of, const char *page)
{
    const char *plain = with_plain_spaces(page, of->arena);
    for (const qll_node *one = first_of(of->root, "scenarios"); one != NULL; one = one->next) {
        double low = INFINITY;
        double high = -INFINITY;
        for (const qll_node *e = first_of(one, "estimates"); e != NULL; e = e->next) {
            if (!is_true_at(e, "chosen")) {
                low = fmin(low, number_at(e, "peak_flow_m3s"));
                high = fmax(high, number_at(e, "peak_flow_m3s"));
            }
        }
        const qll_filling fillings[] = {
            {"low", quantity(of, low, QLL_KIND_FLOW)},
            {"high", quantity(of, high, QLL_KIND_FLOW)},
            {"peak", quantity(of, number_at(one, "peak_flow_m3s"), QLL_KIND_FLOW)}};
        const char *says = filled(of, QLL_SAYS_METHODS_BETWEEN, fillings, 3);
        if (isfinite(low) && !CHECK(strstr(plain, says) != NULL)) {
            printf("    %s: %s\n", of->name, says);
        }
    }
}

/* The flow that is not passed for @p share of the time: by hand, off the list. */
static inline double not_passed(const qll_node *scenario, double share)
{
    double flow = NAN;
    for (const qll_node *point = first_of(scenario, "flow_duration"); point != NULL;
         point = point->next) {
        flow = number_at(point, "flow_m3s");
        if (number_at(point, "time_share") >= share - 1e-12) {
            break;
        }
    }
    return flow;
}

/* One number of decimals in a column: 0.1 gpm, 0.01 L/s, a digit more where no hour reaches 1 gpm, 0.1 L/s; none, and
 * what would read as none, by itself. */
static inline const char *column_flow(const told *of, double flow_m3s, double greatest_m3s)
{
    const bool is_si = of->units == QLL_UNITS_SI;
    const double unit_m3s = is_si ? 1e-3 : 0.003785411784 / 60.0;
    const int decimals = (is_si ? 2 : 1) + (greatest_m3s < (is_si ? 1e-4 : unit_m3s) ? 1 : 0);
    if (isnan(flow_m3s) || flow_m3s / unit_m3s < 0.5 * pow(10.0, -decimals)) {
        return quantity(of, flow_m3s, QLL_KIND_FLOW);
    }
    qll_writer writer = qll_writer_new(of->arena);
    qll_write_format(&writer, "%.*f %s", decimals, flow_m3s / unit_m3s, is_si ? "L/s" : "gpm");
    return qll_writer_text(&writer).bytes;
}

static inline void want_duration(const told *of, const qll_node *scenario, double peak_m3s)
{
    static const double shares[] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};
    const html_table *table = want_table(of, QLL_SAYS_DURATION, scenario->index);
    for (size_t i = 0; table != NULL && i < sizeof shares / sizeof shares[0]; i++) {
        double flow_m3s = not_passed(scenario, shares[i]);
        want_cell(of, table, i + 1, say(of, QLL_SAYS_HEAD_SHARE), percent(of, shares[i]));
        want_cell(of, table, i + 1, say(of, QLL_SAYS_HEAD_AT_OR_BELOW),
                  column_flow(of, flow_m3s, HUGE_VAL));
        want_cell(of, table, i + 1, say(of, QLL_SAYS_HEAD_OF_PEAK),
                  percent(of, flow_m3s / peak_m3s));
    }
}

/* The design peak before it is cut to what the service carries: that of the method that was chosen. */
static inline double chosen_peak(const qll_node *scenario)
{
    for (const qll_node *one = first_of(scenario, "estimates"); one != NULL; one = one->next) {
        if (is_true_at(one, "chosen")) {
            return number_at(one, "peak_flow_m3s");
        }
    }
    return (double)NAN;
}

/* Of a log, weekdays beside weekends; @p nth counts the tables of its kind. */
static inline void want_hours(const told *of, const qll_node *scenario, size_t nth)
{
    const qll_node *log = qll_node_find(scenario, "log");
    bool is_log = log != NULL && log->kind != QLL_NODE_NULL;
    const html_table *table = want_table(of, is_log ? QLL_SAYS_HOURS_WEEK : QLL_SAYS_HOURS, nth);
    size_t row = 0;
    double greatest_m3s = 0.0;
    for (const qll_node *hour = first_of(scenario, "hours"); hour != NULL; hour = hour->next) {
        greatest_m3s = fmax(greatest_m3s, number_at(hour, "mean_flow_m3s"));
    }
    for (const qll_node *hour = first_of(scenario, "hours"); table != NULL && hour != NULL;
         hour = hour->next) {
        double mean_m3s = number_at(hour, "mean_flow_m3s");
        if (isnan(mean_m3s)) {
            continue;
        }
        char name[16];
        snprintf(name, sizeof name, "%02.0f:00", number_at(hour, "hour"));
        row += 1;
        want_cell(of, table, row, say(of, QLL_SAYS_FIGURE_HOUR), name);
        want_cell(
            of, table, row, say(of, is_log ? QLL_SAYS_HEAD_WEEKDAYS : QLL_SAYS_HEAD_MEAN),
            column_flow(of, is_log ? number_at(hour, "weekday_flow_m3s") : mean_m3s, greatest_m3s));
        if (is_log) {
            want_cell(of, table, row, say(of, QLL_SAYS_HEAD_WEEKENDS),
                      column_flow(of, number_at(hour, "weekend_flow_m3s"), greatest_m3s));
        }
    }
    if (table != NULL) {
        want_row_count(of, table, row);
    }
}

/* One without a name is called by its number, in the language of the sheet. */
static inline const char *scenario_name(const told *of, const qll_node *scenario)
{
    const char *name = text_at(scenario, "name", of->arena);
    const size_t number = scenario->index + 1;
    char bare[32];
    snprintf(bare, sizeof bare, "scenario %zu", number);
    const qll_wording wording = {.language = of->language};
    const qll_said called = {QLL_TEXT_SCENARIO_NUMBER, {qll_as_whole(number)}};
    return strcmp(name, bare) == 0 ? qll_said_text(of->arena, &wording, &called) : name;
}

/* One row of the table that has all scenarios, as of both: water, and changes. */
static inline void want_flows(const told *of, const html_table *table, const qll_node *scenario)
{
    size_t row = scenario->index + 1;
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_SCENARIO), scenario_name(of, scenario));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_DESIGN_PEAK),
              quantity(of, number_at(scenario, "peak_flow_m3s"), QLL_KIND_FLOW));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_MEAN),
              quantity(of, number_at(scenario, "mean_flow_m3s"), QLL_KIND_FLOW));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_99_PERCENT),
              quantity(of, not_passed(scenario, 0.99), QLL_KIND_FLOW));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_NOBODY_DRAWS),
              percent(of, number_at(scenario, "no_fixture_open_share")));
}

static inline void want_water(const told *of)
{
    const html_table *table = want_table(of, QLL_SAYS_WATER, 0);
    for (const qll_node *scenario = first_of(of->root, "scenarios");
         table != NULL && scenario != NULL; scenario = scenario->next) {
        want_flows(of, table, scenario);
    }
}

static inline void want_changes(const told *of)
{
    const qll_node *change = first_of(of->root, "comparison");
    const html_table *table = change == NULL ? NULL : want_table(of, QLL_SAYS_CHANGES, 0);
    if (table == NULL) {
        return;
    }
    const qll_filling low = {"flow",
                             quantity(of, number_at(change, "low_flow_m3s"), QLL_KIND_FLOW)};
    const char *head = filled(of, QLL_SAYS_HEAD_OR_LESS, &low, 1);
    for (const qll_node *scenario = first_of(of->root, "scenarios"); scenario != NULL;
         scenario = scenario->next) {
        size_t row = scenario->index + 1;
        want_flows(of, table, scenario);
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_NO_FLOW),
                  percent(of, number_at(scenario, "idle_share")));
        want_cell(of, table, row, head,
                  percent(of, number_at(change, row == 1 ? "low_share_from" : "low_share_to")));
        change = row == 1 || change == NULL ? change : change->next;
    }
}

/* Of every scenario; @p has_hours those of a demand. */
static inline void want_scenarios(const told *of, bool is_whole)
{
    size_t counts[2] = {0, 0}; /* tables of hours without a log and with one */
    for (const qll_node *scenario = first_of(of->root, "scenarios"); scenario != NULL;
         scenario = scenario->next) {
        const qll_node *log = qll_node_find(scenario, "log");
        bool is_log = log != NULL && log->kind != QLL_NODE_NULL;
        want_estimates(of, scenario);
        if (is_whole) {
            want_duration(of, scenario, chosen_peak(scenario));
            want_hours(of, scenario, counts[is_log]);
            counts[is_log] += 1;
        }
    }
}

#endif
