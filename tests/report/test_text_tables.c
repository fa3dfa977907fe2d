/* The answers that are text or JSON only, a list of valves, a fit and calculations: every figure that the text
 * shows is the JSON's after rounding, in both languages and both systems of units. Tables are read by head and
 * row, so that columns that are exchanged are found; a calculation's figures are read back by the readers of
 * units. */
#include "ask_files.h"
#include "base/count.h"
#include "base/table.h"
#include "reference/truth.h"
#include "told.h"
#include "wording/says_calc.h"

#define TEST_COLUMNS_MOST 12

/* ---- a table of the terminal ---- */

/* A cell, or a piece of a head, and the columns of the screen on which it stands. */
typedef struct piece {
    const char *text;
    size_t start, end;
} piece;

typedef struct screen_table {
    const told *of;
    const char *heads[TEST_COLUMNS_MOST];
    const char *const *rows; /* [row * columns + column] */
    size_t columns, row_count;
} screen_table;

/* The pieces of a line, which two blanks or more part. */
static size_t pieces_of(qll_text line, piece *pieces, qll_arena *arena)
{
    size_t count = 0;
    size_t column = 0;
    size_t begun = 0;
    bool is_open = false;
    for (size_t i = 0; i <= line.size; i++) {
        bool is_end = i == line.size
                      || (line.bytes[i] == ' ' && (i + 1 == line.size || line.bytes[i + 1] == ' '));
        if (is_open && is_end) {
            pieces[count - 1].end = column;
            pieces[count - 1].text = qll_arena_copy(arena, line.bytes + begun, i - begun);
            is_open = false;
        } else if (!is_open && !is_end && line.bytes[i] != ' ' && count < TEST_COLUMNS_MOST) {
            pieces[count] = (piece){.start = column};
            count += 1;
            begun = i;
            is_open = true;
        }
        column += i < line.size && ((unsigned char)line.bytes[i] & 0xC0) != 0x80 ? 1 : 0;
    }
    return count;
}

static qll_text next_line(const char **at)
{
    qll_text line = {*at, strcspn(*at, "\n")};
    *at += line.size + ((*at)[line.size] == '\n' ? 1 : 0);
    return line;
}

/* The line that begins with @p cell, and the blank line before the heads above it. */
static const char *first_row(const char *text, const char *cell, const char **above,
                             qll_arena *arena)
{
    piece pieces[TEST_COLUMNS_MOST];
    *above = text;
    for (const char *at = text; *at != '\0';) {
        const char *start = at;
        qll_text line = next_line(&at);
        if (pieces_of(line, pieces, arena) > 1 && strcmp(pieces[0].text, cell) == 0) {
            return start;
        }
        *above = line.size == 0 ? at : *above;
    }
    return NULL;
}

/* What stands above a column, from the top down. */
static const char *head_over(const char *above, const char *rows, const piece *column,
                             qll_arena *arena)
{
    qll_writer head = qll_writer_new(arena);
    piece pieces[TEST_COLUMNS_MOST];
    while (above < rows) {
        const qll_text line = next_line(&above);
        const bool is_heading = line.size > 0 && line.bytes[0] != ' '; /* of the section */
        size_t count = is_heading ? 0 : pieces_of(line, pieces, arena);
        for (size_t i = 0; i < count; i++) {
            if (pieces[i].start < column->end && column->start < pieces[i].end) {
                qll_write(&head, head.size == 0 ? "" : " ");
                qll_write(&head, pieces[i].text);
            }
        }
    }
    return qll_writer_text(&head).bytes;
}

/* The table of @p row_count rows whose first cell is @p cell. */
static screen_table table_with(const told *of, const char *text, const char *cell, size_t row_count)
{
    screen_table table = {.of = of, .row_count = row_count};
    const char *above = text;
    const char *rows = first_row(text, cell, &above, of->arena);
    if (!CHECK(rows != NULL)) {
        printf("    %s: no row of %s\n", of->name, cell);
        return table;
    }
    const char **cells = qll_arena_take(of->arena, row_count * TEST_COLUMNS_MOST, sizeof *cells);
    piece column[TEST_COLUMNS_MOST];
    const char *at = rows;
    for (size_t r = 0; r < row_count; r++) {
        piece pieces[TEST_COLUMNS_MOST];
        size_t count = pieces_of(next_line(&at), pieces, of->arena);
        table.columns = r == 0 ? count : table.columns;
        CHECK(count == table.columns);
        for (size_t c = 0; c < table.columns; c++) {
            cells[r * table.columns + c] = c < count ? pieces[c].text : "";
            column[c] = r == 0 ? pieces[c] : column[c];
            column[c].start = pieces[c].start < column[c].start ? pieces[c].start : column[c].start;
            column[c].end = pieces[c].end > column[c].end ? pieces[c].end : column[c].end;
        }
    }
    for (size_t c = 0; c < table.columns; c++) {
        table.heads[c] = head_over(above, rows, &column[c], of->arena);
    }
    table.rows = cells;
    return table;
}

static void want(const screen_table *table, size_t row, const char *head, const char *text)
{
    for (size_t c = 0; c < table->columns; c++) {
        if (strcmp(table->heads[c], head) == 0) {
            CHECK_TEXT(table->rows[row * table->columns + c], text);
            return;
        }
    }
    CHECK(table->columns == 0);
    printf("    %s: no head \"%s\"\n", table->of->name, head);
}

static void want_quantity(const screen_table *table, size_t row, qll_message head,
                          const qll_node *node, const char *key, qll_kind kind)
{
    const told *of = table->of;
    want(table, row, head_of(of, head, kind), bare(of, quantity(of, number_at(node, key), kind)));
}

/* ---- questions ---- */

static const char *const systems[] = {"us", "si"};

/* The answer as text, and as JSON in @p of. */
static const char *ask(qll_question question, told *of)
{
    qll_answer answer;
    question.form = QLL_FORM_JSON;
    CHECK(qll_ask(&question, of->arena, &answer) == QLL_OK);
    of->root = told_json((qll_text){answer.bytes, answer.size}, of->arena);
    question.form = QLL_FORM_TEXT;
    CHECK(qll_ask(&question, of->arena, &answer) == QLL_OK);
    return qll_arena_copy(of->arena, answer.bytes, answer.size);
}

/* @p question in a language and a system of units, the @p nth of four. */
static const char *ask_nth(qll_question question, const char *name, size_t nth, told *of)
{
    of->name = name;
    of->language = (qll_language)(nth / 2);
    of->units = nth % 2 == 0 ? QLL_UNITS_US : QLL_UNITS_SI;
    question.language = qll_language_words[nth / 2];
    question.units = systems[nth % 2];
    return ask(question, of);
}

TEST(a_list_of_valves_shows_what_it_tells)
{
    for (size_t nth = 0; nth < 4; nth++) {
        told of = {.arena = qll_arena_open((size_t)1 << 26)};
        const char *text = ask_nth((qll_question){.verb = QLL_VERB_LIST}, "list", nth, &of);
        const qll_node *valves = qll_node_find(of.root, "valves");
        const qll_node *valve = valves->first_child;
        const screen_table table =
            table_with(&of, text, text_at(valve, "id", of.arena), valves->child_count);
        CHECK(table.columns == 8 && valves->child_count > 20);
        for (size_t row = 0; valve != NULL; valve = valve->next, row++) {
            bool is_pilot = strcmp(text_at(valve, "acting", of.arena), "pilot") == 0;
            qll_writer size = qll_writer_new(of.arena);
            qll_units_write_pipe_size(&size, number_at(valve, "nominal_m"), of.units);
            want(&table, row, say(&of, QLL_SAYS_HEAD_VALVE), text_at(valve, "id", of.arena));
            want(&table, row, say(&of, QLL_SAYS_HEAD_SIZE), qll_writer_text(&size).bytes);
            want(&table, row, say(&of, QLL_SAYS_HEAD_ACTING),
                 say(&of, is_pilot ? QLL_SAYS_ACTING_PILOT : QLL_SAYS_ACTING_DIRECT));
            want_quantity(&table, row, QLL_SAYS_HEAD_FULL_OPEN, valve, "kv_m3h",
                          QLL_KIND_FLOW_COEFFICIENT);
            want_quantity(&table, row, QLL_SAYS_HEAD_LEAST_SET, valve, "set_min_pa_gauge",
                          QLL_KIND_PRESSURE);
            want_quantity(&table, row, QLL_SAYS_HEAD_MOST_SET, valve, "set_max_pa_gauge",
                          QLL_KIND_PRESSURE);
            want_quantity(&table, row, QLL_SAYS_HEAD_MOST_INLET, valve, "inlet_max_pa_gauge",
                          QLL_KIND_PRESSURE);
            want(&table, row, say(&of, QLL_SAYS_HEAD_PRICE),
                 figure(&of, number_at(valve, "price"), 0));
        }
        qll_arena_close(of.arena);
    }
}

TEST(a_fit_shows_what_it_tells)
{
    for (size_t nth = 0; nth < 4; nth++) {
        told of = {.arena = qll_arena_open((size_t)1 << 26)};
        const qll_question question = {.verb = QLL_VERB_FIT,
                                       .document = test_input("capacity.csv", of.arena)};
        const char *text = ask_nth(question, "fit", nth, &of);
        const qll_node *points = qll_node_find(of.root, "points");
        const qll_node *point = points->first_child;
        const screen_table table = table_with(
            &of, text,
            bare(&of, quantity(&of, number_at(point, "inlet_pa_gauge"), QLL_KIND_PRESSURE)),
            points->child_count);
        CHECK(table.columns == 7 && points->child_count == 4);
        for (size_t row = 0; point != NULL; point = point->next, row++) {
            char off[32];
            snprintf(off, sizeof off, "%+.1f %%", 100 * number_at(point, "residual_share"));
            want_quantity(&table, row, QLL_SAYS_HEAD_INLET, point, "inlet_pa_gauge",
                          QLL_KIND_PRESSURE);
            want_quantity(&table, row, QLL_SAYS_HEAD_SET, point, "set_pa_gauge", QLL_KIND_PRESSURE);
            want_quantity(&table, row, QLL_SAYS_HEAD_FALLOFF, point, "falloff_pa",
                          QLL_KIND_PRESSURE_DIFFERENCE);
            want_quantity(&table, row, QLL_SAYS_HEAD_FLOW, point, "flow_m3s", QLL_KIND_FLOW);
            want_quantity(&table, row, QLL_SAYS_HEAD_OPENING, point, "kv_m3h",
                          QLL_KIND_FLOW_COEFFICIENT);
            want_quantity(&table, row, QLL_SAYS_HEAD_FITTED, point, "fitted_flow_m3s",
                          QLL_KIND_FLOW);
            want(&table, row, say(&of, QLL_SAYS_HEAD_OFF_BY), off);
        }
        qll_arena_close(of.arena);
    }
}

/* ---- calculations ---- */

/* A number as it is shown, what its last digit stands for, and what follows it. */
static double shown(const char *text, double *digit, const char **rest)
{
    char *end = NULL;
    double value = strtod(text, &end);
    size_t mantissa = strspn(text, "-0123456789.");
    const char *point = memchr(text, '.', mantissa);
    int places = point == NULL ? 0 : (int)(text + mantissa - point) - 1;
    int tens = text[mantissa] == 'e' ? (int)strtol(text + mantissa + 1, NULL, 10) : 0;
    *digit = pow(10, tens - places);
    *rest = end;
    return value;
}

static bool ends_in(const char *key, const char *ending)
{
    size_t size = strlen(key);
    size_t least = strlen(ending);
    return least > 0 && size >= least && strcmp(key + size - least, ending) == 0;
}

static double read_si(double value, const char *unit, qll_kind kind, qll_arena *arena)
{
    char text[80];
    qll_quantity quantity = {.si = (double)NAN};
    qll_units_refusal refusal;
    snprintf(text, sizeof text, "%.15f%s", value, unit);
    return qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal) ? quantity.si
                                                                               : (double)NAN;
}

/* What one of @p unit is in SI, by the reader of units; 1 where the figure has no kind. */
static double scale_of(const told *of, const char *key, const char *unit)
{
    if (ends_in(key, "_pa_per_k")) {
        /* 6894.757 Pa a psi, 1.8 degrees Fahrenheit a kelvin */
        return of->units == QLL_UNITS_US ? 6894.757293168361 * 1.8 : 1e5;
    }
    if (ends_in(key, "_share")) {
        return 0.01;
    }
    for (int k = 1; k < QLL_KIND_COUNT; k++) {
        double si = ends_in(key, qll_units_key_end((qll_kind)k))
                        ? read_si(1, unit, (qll_kind)k, of->arena)
                              - read_si(0, unit, (qll_kind)k, of->arena)
                        : (double)NAN;
        if (isfinite(si)) {
            return si;
        }
    }
    return unit[0] == '\0' || strcmp(unit, " Hz") == 0 || strcmp(unit, " W") == 0
                   || strncmp(unit, " dB", 3) == 0
               ? 1
               : (double)NAN;
}

static void want_figure(const told *of, const char *key, double value, const char *text)
{
    double digit = 0;
    const char *unit = "";
    double number = shown(text, &digit, &unit);
    double scale = scale_of(of, key, unit);
    if (!CHECK(fabs(number * scale - value) <= 0.5001 * digit * scale)) {
        printf("    %s: %s shows \"%s\", told is %.10g\n", of->name, key, text, value);
    }
}

/* One result, whose first line has its name. */
static const char *want_result(const told *of, const qll_node *result, const char *at)
{
    const char *key = qll_text_closed(result->key, of->arena);
    bool is_list = result->kind == QLL_NODE_LIST;
    const qll_node *one = is_list ? result->first_child : result;
    for (bool is_first = true; one != NULL; one = is_list ? one->next : NULL, is_first = false) {
        piece pieces[TEST_COLUMNS_MOST] = {0};
        size_t count = pieces_of(next_line(&at), pieces, of->arena);
        /* The only result stands in a line of its own. */
        const char *name = qll_say_calc_figure(of->language, key);
        const size_t size = strlen(name);
        if (is_first && count == 1 && strncmp(pieces[0].text, name, size) == 0) {
            pieces[1].text = pieces[0].text + size + 1;
            pieces[0].text = name;
            count = 2;
        }
        if (!CHECK(count == (is_first ? 2U : 1U))) {
            printf("    %s: %s\n", of->name, key);
            return at;
        }
        if (is_first) {
            CHECK_TEXT(pieces[0].text, name);
        }
        const char *value = pieces[count - 1].text;
        if (one->kind == QLL_NODE_NUMBER) {
            want_figure(of, key, one->number, value);
        } else if (one->kind == QLL_NODE_NULL) {
            CHECK_TEXT(value, "-");
        } else if (one->kind == QLL_NODE_TEXT && of->language == QLL_LANGUAGE_EN) {
            qll_writer word = qll_writer_new(of->arena);
            qll_write_text(&word, one->text);
            CHECK_TEXT(value, qll_writer_text(&word).bytes);
        } else if (one->kind != QLL_NODE_TEXT) {
            CHECK_TEXT(value, say(of, one->kind == QLL_NODE_TRUE ? QLL_SAYS_CALC_TEXT_YES
                                                                 : QLL_SAYS_CALC_TEXT_NO));
        }
    }
    return at;
}

/* A list of objects: a table of its own. */
static void want_objects(const told *of, const qll_node *list, const char *text)
{
    const qll_node *one = list->first_child;
    double digit = 0;
    char first[32];
    snprintf(first, sizeof first, "%.4g", one->first_child->number);
    const char *caption = qll_say_calc_figure(of->language, qll_text_closed(list->key, of->arena));
    const char *at = strstr(text, caption);
    CHECK(at != NULL);
    const screen_table table =
        table_with(of, at == NULL ? text : at + strlen(caption), first, list->child_count);
    for (size_t row = 0; one != NULL; one = one->next, row++) {
        size_t column = 0;
        for (const qll_node *field = one->first_child; field != NULL; field = field->next) {
            const char *rest = "";
            const char *key = qll_text_closed(field->key, of->arena);
            const char *cell = table.rows[row * table.columns + column];
            CHECK_TEXT(table.heads[column], qll_say_calc_figure(of->language, key));
            const double number = shown(cell, &digit, &rest);
            CHECK_WITHIN(number, field->number, 0.5001 * digit);
            column += 1;
        }
    }
}

static size_t want_calculation(const told *of, const char *text)
{
    const char *at = strchr(text, '\n') + 1;
    (void)next_line(&at);
    const qll_node *results = qll_node_find(of->root, "results");
    for (const qll_node *one = results->first_child; one != NULL; one = one->next) {
        bool is_table = one->kind == QLL_NODE_LIST && one->first_child->kind == QLL_NODE_OBJECT;
        if (is_table) {
            want_objects(of, one, text);
        } else {
            at = want_result(of, one, at);
        }
    }
    return results->child_count;
}

/* "velocity|flow=15 gpm|bore=1 in". */
static qll_question question_of(qll_text row, qll_arena *arena)
{
    const char **parts = qll_arena_take(arena, 24, sizeof *parts);
    size_t count = 0;
    for (char *at = qll_arena_copy(arena, row.bytes, row.size); at != NULL && count < 24;) {
        char *bar = strchr(at, '|');
        parts[count++] = at;
        at = bar == NULL ? NULL : bar + 1;
        if (bar != NULL) {
            *bar = '\0';
        }
    }
    return (qll_question){.verb = QLL_VERB_CALC,
                          .calc = parts[0],
                          .arguments = parts + 1,
                          .argument_count = count - 1};
}

TEST(a_calculation_shows_what_it_tells)
{
    qll_arena *of_rows = qll_arena_open((size_t)1 << 24);
    const qll_table table = truth_read("tests/reference/calc.csv", of_rows);
    const size_t column = qll_table_column(&table, "arguments");
    size_t results = 0;
    for (size_t nth = 0; nth < 4 * table.row_count; nth++) {
        told of = {.arena = qll_arena_open((size_t)1 << 26)};
        const qll_text row = qll_table_cell(&table, nth / 4, column);
        const char *name = qll_arena_copy(of.arena, row.bytes, row.size);
        const char *text = ask_nth(question_of(row, of.arena), name, nth % 4, &of);
        results += want_calculation(&of, text);
        qll_arena_close(of.arena);
    }
    CHECK(results > 400);
    qll_arena_close(of_rows);
}

int main(void)
{
    TEST_RUN(a_list_of_valves_shows_what_it_tells);
    TEST_RUN(a_fit_shows_what_it_tells);
    TEST_RUN(a_calculation_shows_what_it_tells);
    return TEST_END();
}
