/* The tables about a station beside the JSON: settings, points, verdicts, shares of time, the way, the tests. */
#ifndef QUELL_TESTS_TOLD_STATION_H
#define QUELL_TESTS_TOLD_STATION_H

#include "told.h"

#include <float.h>

/* ---- settings ---- */

/* "A", or "2A" where there are stages. */
static inline const char *branch_name(const told *of, const qll_node *stages, size_t stage,
                                      size_t branch)
{
    char *text = qll_arena_take(of->arena, 16, 1);
    bool is_staged = stages->child_count > 1;
    snprintf(text, 16, is_staged ? "%zu%c" : "%.0zu%c", is_staged ? stage + 1 : (size_t)0,
             (char)('A' + branch));
    return text;
}

/* What the table under @p caption shows of a valve. */
typedef void valve_row(const told *of, const html_table *table, size_t row, const qll_node *branch);

static inline void want_valves(const told *of, const qll_node *stages, qll_message caption,
                               valve_row *want)
{
    const html_table *table = want_table(of, caption, 0);
    size_t row = 0;
    for (const qll_node *stage = stages->first_child; table != NULL && stage != NULL;
         stage = stage->next) {
        for (const qll_node *branch = first_of(stage, "branches"); branch != NULL;
             branch = branch->next) {
            row += 1;
            CHECK_TEXT(table->cells[row * table->columns],
                       branch_name(of, stages, stage->index, branch->index));
            want(of, table, row, branch);
        }
    }
    if (table != NULL) {
        want_row_count(of, table, row);
    }
}

static inline void want_valve(const told *of, const html_table *table, size_t row,
                              const qll_node *branch)
{
    const qll_node *setting = qll_node_find(branch, "setting");
    qll_writer size = qll_writer_new(of->arena);
    qll_units_write_pipe_size(&size, number_at(branch, "nominal_mm") / 1000.0, of->units);
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_VALVE), text_at(branch, "valve", of->arena));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_SIZE), qll_writer_text(&size).bytes);
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_SET_POINT),
              quantity(of, number_at(branch, "set_pressure_pa_gauge"), QLL_KIND_PRESSURE));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_LOCKUP),
              quantity(of, number_at(setting, "lockup_pa_gauge"), QLL_KIND_PRESSURE));
}

/* Of the cover. */
static inline void want_set(const told *of, const html_table *table, size_t row,
                            const qll_node *branch)
{
    const qll_node *setting = qll_node_find(branch, "setting");
    const qll_filling fillings[] = {
        {"pressure", quantity(of, number_at(setting, "reading_pa_gauge"), QLL_KIND_PRESSURE)},
        {"flow", quantity(of, number_at(setting, "flow_m3s"), QLL_KIND_FLOW)}};
    bool is_direct = strcmp(text_at(branch, "acting", of->arena), "direct") == 0;
    bool is_set = isfinite(number_at(setting, "reading_pa_gauge"));
    want_valve(of, table, row, branch);
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_ACTING),
              say(of, is_direct ? QLL_SAYS_ACTING_DIRECT : QLL_SAYS_ACTING_PILOT));
    want_cell(of, table, row, say(of, QLL_SAYS_HEAD_READS),
              is_set ? filled(of, QLL_SAYS_READS_AT, fillings, 2) : "-");
}

/* ---- from no flow to the peak ---- */

/* "A", "1A 2A+B": which valves pass water. */
static inline const char *working_at(const told *of, const qll_node *point)
{
    char *text = qll_arena_take(of->arena, 64, 1);
    size_t size = 0;
    const qll_node *stages = qll_node_find(point, "stages");
    for (const qll_node *stage = stages->first_child; stage != NULL; stage = stage->next) {
        bool is_first = true;
        for (const qll_node *branch = first_of(stage, "branches"); branch != NULL;
             branch = branch->next) {
            if (qll_node_find(branch, "cavitation_margin") == NULL) {
                continue; /* only a valve that works has one */
            }
            const char *name = branch_name(of, stages, stage->index, branch->index);
            const char *letter = name + strlen(name) - 1;
            size += (size_t)snprintf(text + size, 64 - size, "%s%s",
                                     is_first && size > 0 ? " "
                                     : is_first           ? ""
                                                          : "+",
                                     is_first ? name : letter);
            is_first = false;
        }
    }
    return size == 0 ? "-" : text;
}

static inline double fastest_at(const qll_node *point)
{
    double fastest = 0;
    for (const qll_node *stage = first_of(point, "stages"); stage != NULL; stage = stage->next) {
        for (const qll_node *branch = first_of(stage, "branches"); branch != NULL;
             branch = branch->next) {
            fastest = fmax(fastest, number_at(branch, "velocity_m_s"));
        }
    }
    return fastest;
}

static inline double ratio_at(const qll_node *point)
{
    double greatest = NAN;
    for (const qll_node *stage = first_of(point, "stages"); stage != NULL; stage = stage->next) {
        greatest = fmax(greatest, number_at(stage, "ratio_gauge"));
    }
    return greatest;
}

/* Does row @p row show @p point, in every column? */
static inline bool shows_point(const told *of, const html_table *table, size_t row,
                               const qll_node *point)
{
    const qll_kind kind = QLL_KIND_PRESSURE;
    double flow = number_at(point, "flow_m3s");
    const qll_node *first = first_of(point, "stages");
    bool runs = flow > 0 && is_true_at(point, "passes");
    const char *velocity = quantity(of, runs ? fastest_at(point) : (double)NAN, QLL_KIND_VELOCITY);
    const char *loud = level(of, number_at(point, "level_dba"), (double)NAN, "");
    bool is_staged = first != NULL && first->next != NULL;
    return shows(table, row, head_of(of, QLL_SAYS_HEAD_FLOW, QLL_KIND_FLOW),
                 flow > 0 ? bare(of, quantity(of, flow, QLL_KIND_FLOW)) : say(of, QLL_SAYS_NONE))
           && shows(table, row, head_of(of, QLL_SAYS_HEAD_INLET, kind),
                    bare(of, quantity(of, number_at(point, "inlet_pa_gauge"), kind)))
           && (!is_staged
               || shows(table, row, head_of(of, QLL_SAYS_HEAD_BETWEEN, kind),
                        bare(of, quantity(of, number_at(first, "outlet_pa_gauge"), kind))))
           && shows(table, row, head_of(of, QLL_SAYS_HEAD_OUTLET, kind),
                    bare(of, quantity(of, number_at(point, "outlet_pa_gauge"), kind)))
           && shows(table, row, say(of, QLL_SAYS_HEAD_WORKS), working_at(of, point))
           && shows(table, row, head_of(of, QLL_SAYS_HEAD_VELOCITY, QLL_KIND_VELOCITY),
                    bare(of, velocity))
           && shows(table, row, head_in(of, QLL_SAYS_HEAD_LEVEL, "dB(A)"), loud)
           && shows(table, row, say(of, QLL_SAYS_HEAD_RATIO),
                    figure(of, flow > 0 ? ratio_at(point) : (double)NAN, 1));
}

/* The table shows some of the points, in their order, the first and the last among them. */
static inline void want_points(const told *of, qll_message caption)
{
    const html_table *table = want_table(of, caption, 0);
    const qll_node *point = first_of(of->root, "points");
    for (size_t row = 1; table != NULL && row < table->rows; row++) {
        bool is_first = row == 1;
        while (point != NULL && !is_first && !shows_point(of, table, row, point)) {
            point = point->next;
        }
        bool is_end = row + 1 < table->rows || (point != NULL && point->next == NULL);
        if (!CHECK(point != NULL && shows_point(of, table, row, point) && is_end)
            || point == NULL) {
            printf("    %s: %s, row %zu is no point that was told\n", of->name, table->caption,
                   row);
            return;
        }
        point = point->next;
    }
}

/* ---- verdicts ---- */

/* A figure of a verdict as a row holds it against the other: a valve's velocity at the design peak against the most
 * that water may run through a valve, 15 ft/s; the band it averages in is no limit. */
static inline double verdict_number(const told *of, const qll_node *verdict, const char *key)
{
    const bool is_velocity = strcmp(text_at(verdict, "rule", of->arena), "velocity") == 0;
    const double at_peak = number_at(verdict, "value_at_peak");
    if (!is_velocity || !isfinite(at_peak)) {
        return number_at(verdict, key);
    }
    const bool is_good = strcmp(text_at(verdict, "verdict", of->arena), "good") == 0;
    const double limit = is_good ? 15.0 * 0.3048 : number_at(verdict, "limit");
    return strcmp(key, "value") == 0 ? at_peak : limit;
}

/* A difference of under 1 psi or 0.1 bar by itself: no finer than 0.1 psi or 0.01 bar. */
static inline const char *small_difference(const told *of, double pa)
{
    const bool is_us = of->units == QLL_UNITS_US;
    const double step_pa = is_us ? 0.1 * 6894.757293168361 : 1e3;
    const char *least = is_us ? "<0.1 psi" : "<0.01 bar";
    const bool is_less = pa > 0.0 && pa < 0.5 * step_pa;
    const double shown_pa = fabs(pa) < step_pa && pa != 0.0 ? copysign(step_pa, pa) : pa;
    return is_less ? least : quantity(of, shown_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

static inline const char *verdict_figure(const told *of, const qll_node *verdict, const char *key)
{
    const char *unit = text_at(verdict, "unit", of->arena);
    const char *rule = text_at(verdict, "rule", of->arena);
    double value = verdict_number(of, verdict, key);
    /* Past its limit and yet good: how long stands for how much. */
    const qll_node *past = qll_node_find(verdict, "past_limit_share");
    if (past != NULL) {
        const double share = number_at(verdict, "past_limit_share");
        return strcmp(key, "value") == 0 ? percent(of, fmax(share, DBL_MIN)) : "-";
    }
    /* A swing that would grow, but for the friction that holds it. */
    const char *grade = text_at(verdict, "verdict", of->arena);
    if (strcmp(rule, "hunting") == 0 && strcmp(grade, "good") == 0
        && number_at(verdict, "value") < 0.0) {
        return "-";
    }
    double other = verdict_number(of, verdict, strcmp(key, "value") == 0 ? "limit" : "value");
    if (strcmp(rule, "capacity") == 0 || strcmp(rule, "low-flow") == 0) {
        return percent(of, value);
    }
    if (strcmp(unit, "dB(A)") == 0) {
        return level(of, value, other, " dB(A)");
    }
    if (strcmp(unit, "1") == 0) {
        return figure_beside(of, value, other, strcmp(rule, "ratio") == 0 ? 1 : 2);
    }

    const bool is_small = fabs(value) < (of->units == QLL_UNITS_US ? 6894.757293168361 : 1e4);
    if (strcmp(unit, "Pa") == 0 && is_small) {
        return small_difference(of, value);
    }

    static const struct {
        const char *unit;
        qll_kind kind;
    } kinds[] = {{"Pa", QLL_KIND_PRESSURE_DIFFERENCE},
                 {"Pa gauge", QLL_KIND_PRESSURE},
                 {"m/s", QLL_KIND_VELOCITY},
                 {"m3", QLL_KIND_VOLUME}};

    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strcmp(unit, kinds[i].unit) == 0) {
            return quantity_beside(of, value, other, kinds[i].kind);
        }
    }
    return NULL;
}

/* The row that begins with @p name; 0 if there is none. */
static inline size_t row_named(const html_table *table, const char *name)
{
    for (size_t row = 1; row < table->rows; row++) {
        if (strcmp(table->cells[row * table->columns], name) == 0) {
            return row;
        }
    }
    return 0;
}

static inline size_t word_at(const char *const *words, size_t count, const char *word)
{
    size_t found = 0;
    while (found < count && strcmp(words[found], word) != 0) {
        found += 1;
    }
    return found;
}

/* The sheet's table of what each limit rests on has that of @p rule. */
static inline void want_limit_from(const told *of, size_t rule)
{
    const html_table *from = want_table(of, QLL_SAYS_LIMITS_FROM, 0);
    const char *name = qll_say_rule(of->language, (qll_rule)rule);
    if (from == NULL || !CHECK(row_named(from, name) > 0)) {
        return;
    }
    const bool is_us = of->units == QLL_UNITS_US;
    const qll_filling limits[] = {{"loss", is_us ? "20 psi" : "1.4 bar"},
                                  {"valve", is_us ? "15.0 ft/s" : "4.6 m/s"},
                                  {"low", is_us ? "8.0 ft/s" : "2.4 m/s"},
                                  {"high", is_us ? "5.0 ft/s" : "1.5 m/s"}};
    qll_writer wanted = qll_writer_new(of->arena);
    qll_say_with(&wanted, of->language, (qll_message)((size_t)QLL_SAYS_LIMIT_FROM_DELIVERY + rule),
                 limits, 4);
    want_cell(of, from, row_named(from, name), say(of, QLL_SAYS_HEAD_LIMIT_FROM),
              qll_writer_text(&wanted).bytes);
}

static inline void want_verdicts(const told *of, const qll_node *station)
{
    const html_table *table = want_table(of, QLL_SAYS_VERDICTS, 0);
    const qll_node *holds = first_of(station, "sensitivity");
    size_t count = 0;
    for (const qll_node *verdict = first_of(station, "verdicts"); table != NULL && verdict != NULL;
         verdict = verdict->next, holds = holds == NULL ? NULL : holds->next) {
        size_t rule = word_at(qll_rule_words, QLL_RULE_COUNT, text_at(verdict, "rule", of->arena));
        size_t grade =
            word_at(qll_grade_words, QLL_GRADE_COUNT, text_at(verdict, "verdict", of->arena));
        size_t row = rule == QLL_RULE_COUNT
                         ? 0
                         : row_named(table, qll_say_rule(of->language, (qll_rule)rule));
        count += 1;
        if (!CHECK(row > 0 && grade < QLL_GRADE_COUNT)) {
            continue;
        }
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_VERDICT),
                  say(of, (qll_message)((size_t)QLL_SAYS_GRADE_GOOD + grade)));
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_VALUE),
                  verdict_figure(of, verdict, "value"));
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_LIMIT),
                  verdict_figure(of, verdict, "limit"));
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_HOLDS),
                  percent(of, number_at(holds, "holds_share")));
        if (grade != QLL_GRADE_UNKNOWN) { /* else it was held against nothing */
            want_limit_from(of, rule);
        }
        if (of->language == QLL_LANGUAGE_EN) {
            want_cell(of, table, row, say(of, QLL_SAYS_HEAD_SAYS),
                      text_at(verdict, "says", of->arena));
        }
    }
    if (table != NULL) {
        want_row_count(of, table, count);
        CHECK(count >= 8);
    }
}

/* ---- time, the way, the tests ---- */

static inline void want_time(const told *of, const qll_node *station)
{
    static const struct {
        const char *key;
        qll_message says;
    } rows[] = {{"idle", QLL_SAYS_SHARE_IDLE},
                {"below_stable", QLL_SAYS_SHARE_BELOW_STABLE},
                {"below_band", QLL_SAYS_SHARE_BELOW_BAND},
                {"in_band", QLL_SAYS_SHARE_IN_BAND},
                {"above_band", QLL_SAYS_SHARE_ABOVE_BAND},
                {"full_travel", QLL_SAYS_SHARE_FULL_TRAVEL},
                {"cavitating", QLL_SAYS_SHARE_CAVITATING}};

    const html_table *table = want_table(of, QLL_SAYS_TIME, 0);
    const qll_node *shares = qll_node_find(station, "time_shares");
    for (size_t i = 0; table != NULL && i < sizeof rows / sizeof rows[0]; i++) {
        size_t row = row_named(table, say(of, rows[i].says));
        CHECK(row > 0);
        want_cell(of, table, row, say(of, QLL_SAYS_HEAD_OF_TIME),
                  percent(of, number_at(shares, rows[i].key)));
    }
}

/* The step that comes nearest to what is allowed it, or passes it most. */
static inline const qll_node *fastest_step(const qll_node *ladder)
{
    const qll_node *fastest = NULL;
    double greatest = 0.0;
    for (const qll_node *step = first_of(ladder, "steps"); step != NULL; step = step->next) {
        double share = number_at(step, "velocity_m_s") / number_at(step, "velocity_max_m_s");
        if (share > greatest) {
            greatest = share;
            fastest = step;
        }
    }
    return fastest;
}

static inline void want_step(const told *of, const html_table *table, size_t row,
                             const qll_node *night, const qll_node *peak, const qll_node *fast)
{
    const qll_kind kind = QLL_KIND_PRESSURE;
    want_cell(of, table, row, head_of(of, QLL_SAYS_HEAD_NIGHT, kind),
              bare(of, quantity(of, number_at(night, "pressure_pa_gauge"), kind)));
    want_cell(of, table, row, head_of(of, QLL_SAYS_HEAD_PEAK, kind),
              bare(of, quantity(of, number_at(peak, "pressure_pa_gauge"), kind)));
    want_cell(of, table, row, head_of(of, QLL_SAYS_HEAD_VELOCITY, QLL_KIND_VELOCITY),
              bare(of, quantity_beside(of, number_at(fast, "velocity_m_s"),
                                       number_at(fast, "velocity_max_m_s"), QLL_KIND_VELOCITY)));
}

static inline const qll_node *last_of(const qll_node *node)
{
    while (node != NULL && node->next != NULL) {
        node = node->next;
    }
    return node;
}

static inline void want_way(const told *of)
{
    const qll_node *ladders = qll_node_find(of->root, "ladder");
    const html_table *table = ladders->child_count == 0 ? NULL : want_table(of, QLL_SAYS_WAY, 0);
    if (table == NULL) {
        return;
    }
    const qll_node *nights = ladders->first_child;
    const qll_node *peaks = nights;
    for (size_t i = 0; i < ladders->child_count / 2; i++) {
        peaks = peaks->next;
    }
    size_t row = 0;
    const qll_node *night = first_of(nights, "steps");
    for (const qll_node *peak = first_of(peaks, "steps"); peak != NULL; peak = peak->next) {
        row += 1;
        want_step(of, table, row, night, peak, peak);
        night = night == NULL ? NULL : night->next;
    }
    for (nights = nights->next, peaks = peaks->next; peaks != NULL;
         nights = nights->next, peaks = peaks->next) {
        row += 1;
        want_step(of, table, row, last_of(first_of(nights, "steps")),
                  last_of(first_of(peaks, "steps")), fastest_step(peaks));
    }
    want_row_count(of, table, row);
}

/* A line of the commissioning sheet: what it should show holds each of @p shown. */
static inline void want_line(const told *of, const html_table *table, size_t row,
                             const char *const *shown, size_t count)
{
    const char *cell = html_cell_at(table, row, say(of, QLL_SAYS_HEAD_SHOULD));
    for (size_t i = 0; i < count; i++) {
        if (!CHECK(cell != NULL && strstr(cell, shown[i]) != NULL)) {
            printf("    %s: line %zu has no \"%s\"\n", of->name, row, shown[i]);
        }
    }
}

/* Setting and lock-up of each valve, a line for each cock, then the fall-off. */
static inline void want_tests(const told *of, const qll_node *stages)
{
    const qll_node *tests = qll_node_find(of->root, "commissioning");
    const qll_kind kind = QLL_KIND_PRESSURE;
    const html_table *table = want_table(of, QLL_SAYS_TEST_SET, 0);
    double tolerance = number_at(tests, "set_tolerance_pa");
    size_t row = 0;
    size_t cocks = 0;
    for (const qll_node *stage = stages->first_child; table != NULL && stage != NULL;
         stage = stage->next) {
        for (const qll_node *branch = first_of(stage, "branches"); branch != NULL;
             branch = branch->next) {
            const qll_node *setting = qll_node_find(branch, "setting");
            const char *place = text_at(qll_node_find(branch, "strainer"), "place", of->arena);
            double expected = number_at(setting, "reading_pa_gauge");
            const double line_pa = of->units == QLL_UNITS_SI ? 1e4 : QLL_PSI_PA;
            double below_lockup = number_at(setting, "lockup_pa_gauge") - line_pa;
            double most = fmax(fmin(expected + tolerance, below_lockup), expected);
            const char *const shown[] = {bare(of, quantity(of, expected - tolerance, kind)),
                                         quantity(of, most, kind),
                                         quantity(of, number_at(setting, "inlet_pa_gauge"), kind)};
            const char *lockup = quantity(of, number_at(setting, "lockup_pa_gauge"), kind);
            if (isfinite(expected)) {
                row += 1;
                want_line(of, table, row, shown, 3);
            }
            row += 1;
            want_line(of, table, row, &lockup, 1);
            cocks += strcmp(place, "ahead of the valve") == 0 ? 1 : 0;
        }
    }
    row += cocks;
    for (const qll_node *test = first_of(tests, "falloff"); table != NULL && test != NULL;
         test = test->next) {
        const char *const shown[] = {quantity(of, number_at(test, "outlet_pa_gauge"), kind),
                                     quantity(of, number_at(test, "least_pa_gauge"), kind),
                                     quantity(of, number_at(test, "inlet_pa_gauge"), kind)};
        row += 1;
        want_line(of, table, row, shown, 3);
    }
    if (table != NULL) {
        want_row_count(of, table, row);
    }
}

#endif
