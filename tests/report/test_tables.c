/* Every figure is the same wherever it stands: the tables of the sheets are read back by caption, head and
 * row, in both languages and both systems of units, and held against the JSON after rounding; the same rows
 * are looked for in the text of the terminal, and in that of a PDF.
 *
 * test_tables                   every example: design, check and demand
 * test_tables lines TEXT HTML   the rows of a page's tables in the text of a PDF (pdftotext -layout)
 */
#include "example_subject.h"
#include "report/html.h"
#include "told_demand.h"
#include "told_station.h"

#include <stdlib.h>

static const char *const examples[] = {
    "first-answer",        "hillside", "house", "low-street", "metered", "morning-rush",
    "repurposed-building",
};

/* ---- rows in lines of text ---- */

/* The figures of a row: cells that a pen neither wraps nor breaks. */
static size_t figures_of(const html_table *table, size_t row, const char **figures, size_t room)
{
    size_t count = 0;
    for (size_t c = 0; c < table->columns && count < room; c++) {
        const char *cell = table->cells[row * table->columns + c];
        bool is_figure = (cell[0] >= '0' && cell[0] <= '9') || cell[0] == '<' || cell[0] == '-';
        bool is_valve = cell[1] >= 'A' && cell[1] <= 'Z'; /* "1A 2A" may wrap */
        if (is_figure && !is_valve && strlen(cell) < 12 && strchr(cell, ',') == NULL) {
            figures[count] = cell;
            count += 1;
        }
    }
    return count;
}

/* How many of the @p size bytes at @p at are @p figure, with or without its blank, which is drawn narrow; 0 if
 * they are not. */
static size_t figure_size(const char *at, size_t size, const char *figure)
{
    size_t taken = 0;
    for (; *figure != '\0'; figure++) {
        bool is_there = taken < size && at[taken] == *figure;
        if (!is_there && *figure != ' ') {
            return 0;
        }
        taken += is_there ? 1 : 0;
    }
    return taken == size || at[taken] == ' ' ? taken : 0;
}

/* Do the figures stand on the line of @p size bytes in their order, each a word or two of its own? */
static bool stand_on(const char *line, size_t size, const char *const *figures, size_t count)
{
    size_t found = 0;
    for (size_t i = 0; i < size && found < count;) {
        bool begins = i == 0 || line[i - 1] == ' ';
        size_t taken = begins ? figure_size(line + i, size - i, figures[found]) : 0;
        found += taken > 0 ? 1 : 0;
        i += taken > 0 ? taken : 1;
    }
    return found == count;
}

/* The line behind the one from @p from on that has all figures; NULL if there is none. */
static const char *line_with(const char *from, const char *const *figures, size_t count)
{
    for (const char *line = from; *line != '\0';) {
        size_t size = strcspn(line, "\n");
        const char *next = line + size + (line[size] == '\n' ? 1 : 0);
        if (stand_on(line, size, figures, count)) {
            return next;
        }
        line = next;
    }
    return NULL;
}

/* Every row of @p table with two figures or more stands on a line of @p text, one below the other; a long narrow table is set
 * in columns, each of which begins at the top again. */
static size_t want_lines(const char *name, const char *text, const html_table *table)
{
    const char *from = text;
    size_t seen = 0;
    for (size_t row = 1; row < table->rows; row++) {
        const char *figures[16];
        size_t count = figures_of(table, row, figures, 16);
        if (count < 2) {
            continue;
        }
        const char *behind = line_with(from, figures, count);
        behind = behind == NULL ? line_with(text, figures, count) : behind;
        if (!CHECK(behind != NULL)) {
            printf("    %s: %s, row %zu (%s ... %s) is on no line\n", name, table->caption, row,
                   figures[0], figures[count - 1]);
        }
        from = behind == NULL ? from : behind;
        seen += 1;
    }
    return seen;
}

/* The tables under one caption, each looked for from its own caption in the text on: alike rows may stand in
 * two of them. */
static size_t want_each(const told *of, const char *text, qll_message caption)
{
    size_t seen = 0;
    const html_table *table = html_table_named(&of->tables, say(of, caption), 0);
    for (size_t nth = 0; table != NULL; nth++) {
        const char *found = strstr(text, say(of, caption));
        text = CHECK(found != NULL) ? found + 1 : text;
        seen += want_lines(of->name, text, table);
        table = html_table_named(&of->tables, say(of, caption), nth + 1);
    }
    return seen;
}

/* The share of time that each name has, on one line with it. */
static void want_shares(const told *of, const char *text)
{
    const html_table *table = html_table_named(&of->tables, say(of, QLL_SAYS_TIME), 0);
    for (size_t row = 1; table != NULL && row < table->rows; row++) {
        const char *const both[] = {table->cells[row * table->columns],
                                    table->cells[row * table->columns + 1]};
        if (!CHECK(line_with(text, both, 2) != NULL)) {
            printf("    %s: %s, %s\n", of->name, both[0], both[1]);
        }
    }
}

/* What a terminal shows whole. */
static void want_text(const told *of, qll_report_of answer, const char *text)
{
    static const qll_message captions[] = {QLL_SAYS_SET,   QLL_SAYS_POINTS,  QLL_SAYS_POINTS_THERE,
                                           QLL_SAYS_WATER, QLL_SAYS_CHANGES, QLL_SAYS_WITHOUT_VALVE,
                                           QLL_SAYS_WAY};
    size_t seen = 0;
    size_t count = sizeof captions / sizeof captions[0];
    /* The way is left to the sheets of a design. */
    for (size_t i = 0; i < (answer == QLL_REPORT_OF_CHECK ? count : count - 1); i++) {
        const html_table *table = html_table_named(&of->tables, say(of, captions[i]), 0);
        seen += table == NULL ? 0 : want_lines(of->name, text, table);
    }
    want_shares(of, text);
    if (answer == QLL_REPORT_OF_DEMAND) {
        seen += want_each(of, text, QLL_SAYS_DURATION);
        seen += want_each(of, text, QLL_SAYS_HOURS);
        seen += want_each(of, text, QLL_SAYS_HOURS_WEEK);
    }
    CHECK(seen > 0);
}

/* ---- one answer ---- */

static void want_installed(const told *of, const qll_design_findings *found)
{
    const qll_node *stations = qll_node_find(of->root, "stations");
    if (stations->child_count < 2) {
        return;
    }
    const html_table *table = want_table(of, QLL_SAYS_ALSO, 0);
    const char *head = qll_wording_money(of->arena, of->language, found->catalogue->currency,
                                         QLL_SAYS_HEAD_INSTALLED_IN, QLL_SAYS_HEAD_INSTALLED);
    for (const qll_node *one = stations->first_child; table != NULL && one != NULL;
         one = one->next) {
        const qll_node *cost = qll_node_find(one, "cost");
        qll_writer chance = qll_writer_new(of->arena);
        qll_wording_chance(&chance, of->language, number_at(cost, "callback_share"),
                           QLL_CHANCE_BARE);
        want_cell(of, table, one->index + 1, head, figure(of, number_at(cost, "installed"), 0));
        want_cell(of, table, one->index + 1, say(of, QLL_SAYS_HEAD_CALLBACK),
                  qll_writer_text(&chance).bytes);
    }
}

/* What is to be done where the station is put in: a line for each that the document names, in its order. */
static void want_installing(const told *of, const char *page)
{
    const char *plain = with_plain_spaces(page, of->arena);
    const char *at = strstr(plain, say(of, QLL_SAYS_INSTALLING));
    const char *end = at == NULL ? NULL : strstr(at, "</ul>");
    if (!CHECK(end != NULL)) {
        return;
    }
    for (const qll_node *one = first_of(of->root, "installing"); one != NULL; one = one->next) {
        size_t i = 0;
        while (i < QLL_INSTALL_COUNT && !qll_text_is(one->text, qll_install_words[i])) {
            i += 1;
        }
        const char *says = say(of, (qll_message)((size_t)QLL_SAYS_INSTALL_FLUSH + i));
        const char *item = strstr(at, "<li>");
        const size_t fixed = strcspn(says, "{[-'\"");
        if (!CHECK(item != NULL && item < end) || !CHECK(strncmp(item + 4, says, fixed) == 0)) {
            printf("    %s: %s\n", of->name, says);
            return;
        }
        at = item + 4;
    }
    const char *more = strstr(at, "<li>");
    CHECK(more == NULL || more > end);
}

/* Every valve that is put in, of a catalog that leaves figures open, stands beside what was taken for them. */
static void want_assumed(const told *of, const qll_design_findings *found)
{
    const html_table *table = want_table(of, QLL_SAYS_ASSUMED, 0);
    const qll_station *station = &found->design->shown[0].station;
    for (size_t s = 0; table != NULL && s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            const qll_valve *valve = station->stages[s].branches[b].valve;
            size_t named = 0;
            for (size_t row = 1; row < table->rows; row++) {
                named += strstr(table->cells[row * table->columns], valve->id) != NULL ? 1 : 0;
            }
            if (!CHECK((named > 0) == (valve->defaulted != 0))) {
                printf("    %s: %s\n", of->name, valve->id);
            }
        }
    }
}

static void want_design(const told *of, const qll_design_findings *found, const char *page)
{
    const qll_node *station = first_of(of->root, "stations");
    want_water(of);
    want_scenarios(of, false);
    want_installed(of, found);
    if (station == NULL) {
        return; /* no valve is needed */
    }
    want_installing(of, page);
    want_assumed(of, found);
    const qll_node *stages = qll_node_find(station, "stages");
    want_valves(of, stages, QLL_SAYS_SET, want_set);
    want_points(of, QLL_SAYS_POINTS);
    want_verdicts(of, station);
    want_time(of, station);
    want_way(of);
    want_tests(of, stages);
}

/* The line of every strainer says when it wants cleaning. */
static void want_strainers(const told *of, const char *page)
{
    const char *at = strstr(page, say(of, QLL_SAYS_STRAINERS));
    CHECK(at != NULL);
    for (const qll_node *stage = first_of(of->root, "stages"); stage != NULL; stage = stage->next) {
        const qll_node *branch = first_of(stage, "branches");
        for (; at != NULL && branch != NULL; branch = branch->next) {
            const double clean_me_pa = number_at(qll_node_find(branch, "strainer"), "clean_me_pa");
            const char *text = quantity(of, clean_me_pa, QLL_KIND_PRESSURE_DIFFERENCE);
            qll_writer shown = qll_writer_new(of->arena);
            qll_write(&shown, bare(of, text));
            qll_write(&shown, "&nbsp;"); /* a number keeps its unit */
            qll_write(&shown, strrchr(text, ' ') == NULL ? "" : strrchr(text, ' ') + 1);
            at = isfinite(clean_me_pa) ? strstr(at, qll_writer_text(&shown).bytes) : at;
            CHECK(at != NULL);
        }
    }
}

static void want_check(const told *of, const char *page)
{
    want_strainers(of, page);
    want_water(of);
    want_scenarios(of, false);
    want_valves(of, qll_node_find(of->root, "stages"), QLL_SAYS_SET, want_set);
    want_points(of, QLL_SAYS_POINTS_THERE);
    want_verdicts(of, of->root);
    want_time(of, of->root);
    want_way(of);
}

/* The page, the document and the text of one answer, which must show the same. */
static void want_same(const char *name, qll_subject *subject, qll_language language,
                      qll_arena *arena)
{
    subject->found.demand.language = language;
    qll_sheet sheet;
    qll_report_make(subject, QLL_SECTIONS_ALL, QLL_REPORT_LENGTH_FULL, arena, &sheet);
    qll_writer page = qll_writer_new(arena);
    qll_html_write(&page, &sheet);
    qll_writer document = qll_writer_new(arena);
    qll_json json = qll_json_new(&document);
    const qll_report_facts facts = {.of = qll_report_of_words[subject->of],
                                    .check = subject->check};
    qll_report_write(&json, &subject->found, &facts);
    qll_writer text = qll_writer_new(arena);
    qll_answer_print(&text, subject);
    const told of = {.name = name,
                     .language = language,
                     .units = sheet.units,
                     .tables = html_tables_of(qll_writer_text(&page).bytes, arena),
                     .root = told_json(qll_writer_text(&document), arena),
                     .arena = arena};
    switch (subject->of) {
    case QLL_REPORT_OF_DESIGN:
        want_design(&of, &subject->found, qll_writer_text(&page).bytes);
        break;
    case QLL_REPORT_OF_CHECK: want_check(&of, qll_writer_text(&page).bytes); break;
    case QLL_REPORT_OF_DEMAND:
        want_scenarios(&of, true);
        want_between(&of, qll_writer_text(&page).bytes);
        want_changes(&of);
        break;
    case QLL_REPORT_OF_DIAGNOSE: /* of a case, not of a survey */
    case QLL_REPORT_OF_COUNT: break;
    }
    want_text(&of, subject->of, qll_writer_text(&text).bytes);
}

/* ---- every example ---- */

static size_t same_in_all(qll_report_of of)
{
    static const char *const systems[] = {"us", "si"};
    size_t found = 0;
    for (size_t e = 0; e < 2 * sizeof examples / sizeof examples[0]; e++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        static asking made;
        qll_subject subject;
        example_begin(&made, examples[e / 2], systems[e % 2], arena);
        bool is_found = example_find(&made, of, arena, &subject);
        for (int l = 0; is_found && l < QLL_LANGUAGE_COUNT; l++) {
            char name[128];
            snprintf(name, sizeof name, "%s of %s, %s, %s", qll_report_of_words[of],
                     examples[e / 2], systems[e % 2], qll_language_words[l]);
            want_same(name, &subject, (qll_language)l, arena);
        }
        found += is_found ? 1 : 0;
        qll_arena_close(arena);
    }
    return found;
}

TEST(a_design_shows_what_it_tells)
{
    CHECK(same_in_all(QLL_REPORT_OF_DESIGN) == 14);
}

TEST(a_check_shows_what_it_tells)
{
    CHECK(same_in_all(QLL_REPORT_OF_CHECK) == 8);
}

TEST(a_demand_shows_what_it_tells)
{
    CHECK(same_in_all(QLL_REPORT_OF_DEMAND) == 14);
}

/* ---- for the tests of the PDF ---- */

static int check_lines(const char *printed, const char *page)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const qll_text text = test_file(printed, arena);
    const qll_text sheets = test_file(page, arena);
    size_t seen = 0;
    if (CHECK(text.bytes != NULL) && CHECK(sheets.bytes != NULL)) {
        const html_tables tables = html_tables_of(sheets.bytes, arena);
        for (size_t i = 0; i < tables.count; i++) {
            seen += want_lines(page, text.bytes, &tables.tables[i]);
        }
    }
    CHECK(seen > 20);
    qll_arena_close(arena);
    return TEST_END();
}

int main(int count, char **arguments)
{
    if (count == 4 && strcmp(arguments[1], "lines") == 0) {
        return check_lines(arguments[2], arguments[3]);
    }
    TEST_RUN(a_design_shows_what_it_tells);
    TEST_RUN(a_check_shows_what_it_tells);
    TEST_RUN(a_demand_shows_what_it_tells);
    return TEST_END();
}
