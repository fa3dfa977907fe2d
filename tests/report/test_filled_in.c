/* The commissioning and the service sheet line by line: each figure that is to be read, each gauge that it is read at, each valve
 * once, in order, held against what was found of the station. */
#include "forms_scene.h"
#include "wording/texts.h"

/* ---- what a cell must have in it ---- */

static const qll_design_findings *found_of(const scene *made)
{
    return &made->subject.found;
}

static const qll_station *station_of(const scene *made)
{
    return &found_of(made)->design->shown[0].station;
}

static const char *shown(const scene *made, double si, qll_kind kind, qll_arena *arena)
{
    return qll_quantity_text(arena, si, kind, found_of(made)->demand.survey->units);
}

static const char *gauge(size_t joint, qll_arena *arena)
{
    char *name = qll_arena_take(arena, 24, 1);
    (void)snprintf(name, 24, "P%zu", joint);
    return name;
}

/* "A", "1A" where there are stages. */
static const char *valve(const scene *made, size_t stage, size_t branch, qll_arena *arena)
{
    char *name = qll_arena_take(arena, 24, 1);
    const char letter = (char)('A' + branch);
    if (station_of(made)->stage_count > 1) {
        (void)snprintf(name, 24, "%zu%c", stage + 1, letter);
    } else {
        (void)snprintf(name, 24, "%c", letter);
    }
    return name;
}

/* Does the text have the word, with nothing of a word or a number right before or behind it? */
static bool has_word(const char *text, const char *word)
{
    const size_t size = strlen(word);
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        const char before = at == text ? ' ' : at[-1];
        const bool begins = strchr(" (\"", before) != NULL;
        const bool ends = strchr(" .,:;)\"", at[size]) != NULL; /* the end too */
        const bool is_decimal = at[size] == '.' && at[size + 1] >= '0' && at[size + 1] <= '9';
        if (begins && ends && !is_decimal) {
            return true;
        }
    }
    return false;
}

static void want(const scene *made, const char *text, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!CHECK(has_word(text, words[i]))) {
            printf("    %s: \"%s\" lacks \"%s\"\n", made->of.survey, text, words[i]);
        }
    }
}

/* ---- lines ---- */

typedef struct reader {
    const scene *made;
    const qll_table_block *table;
    size_t row;
    qll_arena *arena;
} reader;

static const qll_cell *next_row(reader *at)
{
    if (!CHECK(at->row < at->table->row_count)) {
        return NULL;
    }
    at->row += 1;
    return &at->table->cells[(at->row - 1) * at->table->column_count];
}

static const qll_cell *next_line(reader *at)
{
    const qll_cell *cells = next_row(at);
    if (cells != NULL) {
        char number[24];
        (void)snprintf(number, sizeof number, "%zu", at->row - 1);
        CHECK_TEXT(cells[0].text, number);
        for (size_t c = 3; c < at->table->column_count; c++) {
            CHECK(cells[c].is_box);
        }
    }
    return cells;
}

static double tolerance_pa(const scene *made)
{
    return found_of(made)->commissioning->set_tolerance_pa;
}

/* 10 psi more before it: so much more behind it, where that is anything a gauge shows. */
static void want_note(const reader *at, const char *text, const char *inlet, double pa_per_10psi)
{
    const qll_wording wording = {.units = found_of(at->made)->demand.survey->units,
                                 .language = at->made->sheet.language};
    qll_writer writer = qll_writer_new(at->arena);
    const char *note = qll_wording_correction(&writer, &wording, inlet, pa_per_10psi);
    CHECK(note == NULL || strstr(text, note) != NULL);
}

static void check_set(reader *at, size_t stage, size_t branch)
{
    const scene *made = at->made;
    const qll_setting *setting = &found_of(made)->figures[0].settings[stage][branch];
    const char *inlet = gauge(stage, at->arena);
    const char *outlet = gauge(stage + 1, at->arena);
    const char *const read_at[] = {inlet, outlet};
    if (isfinite(setting->reading_pa_gauge)) {
        const qll_cell *cells = next_line(at);
        if (cells == NULL) {
            return;
        }
        want(made, cells[1].text, read_at, 2);
        const qll_stage *of = &station_of(made)->stages[stage];
        for (size_t b = 0; of->branch_count > 1 && b < of->branch_count; b++) {
            want(made, cells[1].text, (const char *[]){valve(made, stage, b, at->arena)}, 1);
        }
        const char *low = shown(made, setting->reading_pa_gauge - tolerance_pa(made),
                                QLL_KIND_PRESSURE, at->arena);
        const char *const should[] = {
            outlet, inlet, qll_text_closed((qll_text){low, strcspn(low, " ")}, at->arena),
            shown(made,
                  qll_setting_most_pa_gauge(setting, tolerance_pa(made),
                                            found_of(made)->demand.survey->units),
                  QLL_KIND_PRESSURE, at->arena),
            shown(made, setting->inlet_pa_gauge, QLL_KIND_PRESSURE, at->arena)};
        want(made, cells[2].text, should, 5);
        CHECK(strncmp(cells[2].text, outlet, strlen(outlet)) == 0);
        want_note(at, cells[2].text, inlet, setting->correction_pa_per_10psi);
    }
    const qll_cell *cells = next_line(at);
    if (cells != NULL) {
        want(made, cells[1].text, read_at, 2);
        const char *const should[] = {
            outlet, shown(made, setting->lockup_pa_gauge, QLL_KIND_PRESSURE, at->arena)};
        want(made, cells[2].text, should, 2);
    }
}

static void check_cock(reader *at, size_t stage, size_t branch)
{
    if (!found_of(at->made)->job->sizes[stage][branch].has_cock) {
        return;
    }
    const qll_cell *cells = next_line(at);
    if (cells != NULL) {
        char cock[32];
        (void)snprintf(cock, sizeof cock, "T%s", valve(at->made, stage, branch, at->arena));
        want(at->made, cells[1].text, (const char *[]){gauge(stage, at->arena), cock}, 2);
    }
}

static void check_falloff(reader *at, size_t index)
{
    const scene *made = at->made;
    const qll_falloff_test *test = &found_of(made)->commissioning->falloff[index];
    if (!isfinite(test->outlet_pa_gauge)) {
        return;
    }
    const qll_cell *cells = next_line(at);
    if (cells == NULL) {
        return;
    }
    const char *outlet = gauge(station_of(made)->stage_count, at->arena);
    want(made, cells[1].text, (const char *[]){"P0", outlet}, 2);
    const char *const should[] = {outlet, "P0",
                                  shown(made, test->outlet_pa_gauge, QLL_KIND_PRESSURE, at->arena),
                                  shown(made, test->least_pa_gauge, QLL_KIND_PRESSURE, at->arena),
                                  shown(made, test->inlet_pa_gauge, QLL_KIND_PRESSURE, at->arena)};
    want(made, cells[2].text, should, 5);
    want_note(at, cells[2].text, "P0", test->correction_pa_per_10psi);
}

static void each_branch(reader *at, void (*look)(reader *at, size_t stage, size_t branch))
{
    const qll_station *station = station_of(at->made);
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            look(at, s, b);
        }
    }
}

static void check_lines(const scene *made, qll_arena *arena)
{
    reader at = {made, table_of(made, QLL_SAYS_HEAD_LINE, QLL_SAYS_HEAD_DO), 1, arena};
    if (!CHECK(at.table != NULL && at.table->column_count == 8)) {
        return;
    }
    each_branch(&at, check_set);
    each_branch(&at, check_cock);
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        check_falloff(&at, i);
    }
    CHECK(at.row == at.table->row_count);
}

/* ---- creep ---- */

static const qll_block *steps_of(const scene *made)
{
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            if (block->kind == QLL_BLOCK_STEPS) {
                return block;
            }
        }
    }
    return NULL;
}

static const qll_table_block *creep_table(const scene *made)
{
    const char *minutes = qll_say(made->sheet.language, QLL_SAYS_HEAD_MINUTES);
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            if (block->kind == QLL_BLOCK_TABLE
                && strcmp(block->table.cells[0].text, minutes) == 0) {
                return &block->table;
            }
        }
    }
    return NULL;
}

/* Fifteen seconds and six moments up to half an hour, at every gauge; behind each stage there is a verdict. */
static void check_creep(const scene *made, qll_arena *arena)
{
    const qll_block *steps = steps_of(made);
    const qll_commissioning *tests = found_of(made)->commissioning;
    const char *outlet = gauge(station_of(made)->stage_count, arena);
    if (!CHECK(steps != NULL && steps->item_count == 5)) {
        return;
    }
    const char *const draw[] = {shown(made, tests->creep_draw_low_m3s, QLL_KIND_FLOW, arena),
                                shown(made, tests->creep_draw_high_m3s, QLL_KIND_FLOW, arena), "P0",
                                outlet};
    want(made, steps->items[2], draw, 4);
    const char *const limits[] = {
        outlet, shown(made, tests->creep_tight_pa, QLL_KIND_PRESSURE_DIFFERENCE, arena),
        shown(made, tests->creep_leaks_pa, QLL_KIND_PRESSURE_DIFFERENCE, arena)};
    want(made, steps->items[3], limits, 3);
    const qll_table_block *table = creep_table(made);
    const size_t gauges = station_of(made)->stage_count + 1;
    if (!CHECK(table != NULL && table->row_count == 1 + gauges && table->column_count == 10)) {
        return;
    }
    CHECK_TEXT(table->cells[1].text, "15 s");
    static const char *const minutes[] = {"1", "2", "5", "10", "15", "30"};
    for (size_t i = 0; i < 6; i++) {
        CHECK_TEXT(table->cells[2 + i].text, minutes[i]);
    }
    for (size_t g = 0; g < gauges; g++) {
        const qll_cell *cells = &table->cells[10 * (1 + g)];
        CHECK_TEXT(cells[0].text, gauge(g, arena));
        want(made, steps->items[2], (const char *[]){gauge(g, arena)}, 1);
        for (size_t c = 1; c < 10; c++) {
            CHECK(cells[c].is_box == (g > 0 || c < 8));
        }
    }
}

/* ---- service ---- */

static const qll_cell *next_task(reader *at, qll_message every)
{
    const qll_cell *cells = next_row(at);
    if (cells != NULL) {
        char letter[2] = {(char)('a' + at->row - 2), '\0'};
        CHECK_TEXT(cells[0].text, letter);
        CHECK_TEXT(cells[2].text, qll_say(at->made->sheet.language, every));
    }
    return cells;
}

static void plain_task(reader *at, qll_message task, qll_message every, qll_message act_when)
{
    const qll_cell *cells = next_task(at, every);
    if (cells != NULL) {
        CHECK_TEXT(cells[1].text, qll_say(at->made->sheet.language, task));
        CHECK_TEXT(cells[3].text, qll_say(at->made->sheet.language, act_when));
    }
}

/* Whether a row names the strainer of branch @p b of stage @p s; then it has its gauge, and its cock. */
static bool is_row_of(const scene *made, const qll_cell *cells, size_t s, size_t b,
                      qll_arena *arena)
{
    const qll_strainer *strainer = &found_of(made)->design->shown[0].assessment.strainers[s][b];
    const bool is_read = isfinite(strainer->clean_me_pa) && !strainer->in_body;
    if (!has_word(cells[1].text, valve(made, s, b, arena))) {
        return false;
    }
    char cock[32];
    (void)snprintf(cock, sizeof cock, "T%s", valve(made, s, b, arena));
    CHECK(has_word(cells[1].text, cock) == is_read);
    if (is_read) {
        const char *dirty =
            qll_text_reading(arena, strainer->clean_me_pa, found_of(made)->demand.survey->units);
        want(made, cells[1].text, (const char *[]){gauge(s, arena)}, 1);
        want(made, cells[3].text, &dirty, 1);
    }
    return true;
}

/* Every strainer stands in one row, beside those that are cleaned at the same reading, with the gauge and the cock of each. */
static void check_strainers(reader *at, qll_arena *arena)
{
    const scene *made = at->made;
    const qll_station *station = station_of(made);
    const size_t first = at->row;
    while (at->row < at->table->row_count
           && strcmp(at->table->cells[at->row * 4 + 2].text,
                     qll_say(made->sheet.language, QLL_SAYS_EVERY_6_MONTHS))
                  == 0) {
        (void)next_task(at, QLL_SAYS_EVERY_6_MONTHS);
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            size_t named = 0;
            for (size_t row = first; row < at->row; row++) {
                named += is_row_of(made, &at->table->cells[row * 4], s, b, arena) ? 1 : 0;
            }
            CHECK(named == 1);
        }
    }
}

/* Behind each stage: what stands there at no flow, whichever valve holds the most; behind the last it is the station's. */
static void check_gauges(reader *at, qll_arena *arena)
{
    const scene *made = at->made;
    const size_t stages = station_of(made)->stage_count;
    const qll_cell *cells = next_task(at, QLL_SAYS_EVERY_3_MONTHS);
    for (size_t s = 0; s < stages && cells != NULL; s++) {
        double most_pa_gauge = found_of(made)->design->shown[0].assessment.lockup_pa_gauge;
        if (s + 1 < stages) {
            most_pa_gauge = qll_stage_lockup_pa_gauge(station_of(made),
                                                      &found_of(made)->demand.survey->site, s);
        }
        want(made, cells[1].text, (const char *[]){gauge(s + 1, arena)}, 1);
        want(made, cells[3].text,
             (const char *[]){shown(made, most_pa_gauge, QLL_KIND_PRESSURE, arena)}, 1);
    }
}

static void check_tasks(const scene *made, qll_arena *arena)
{
    reader at = {made, NULL, 1, arena};
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            const bool is_tasks = block->kind == QLL_BLOCK_TABLE && block->table.column_count == 4
                                  && strcmp(block->table.cells[1].text,
                                            qll_say(made->sheet.language, QLL_SAYS_HEAD_TASK))
                                         == 0;
            at.table = is_tasks ? &block->table : at.table;
        }
    }
    if (!CHECK(at.table != NULL)) {
        return;
    }
    const qll_assessment *assessment = &found_of(made)->design->shown[0].assessment;
    check_gauges(&at, arena);
    check_strainers(&at, arena);
    const qll_cell *cells = next_task(&at, QLL_SAYS_EVERY_YEAR);
    if (cells != NULL) {
        const char *rise = shown(made, found_of(made)->commissioning->creep_tight_pa,
                                 QLL_KIND_PRESSURE_DIFFERENCE, arena);
        want(made, cells[3].text, &rise, 1);
    }
    plain_task(&at, QLL_SAYS_SERVICE_STOPS, QLL_SAYS_EVERY_YEAR, QLL_SAYS_SERVICE_STOPS_WHEN);
    /* Where there is a heater, or a relief valve among the parts. */
    if (assessment->closed.has_heater
        || isfinite(found_of(made)->job->installing.relief_pa_gauge)) {
        plain_task(&at, QLL_SAYS_SERVICE_RELIEF, QLL_SAYS_EVERY_YEAR, QLL_SAYS_SERVICE_RELIEF_WHEN);
    }
    plain_task(&at, QLL_SAYS_SERVICE_REBUILD, QLL_SAYS_EVERY_5_YEARS,
               QLL_SAYS_SERVICE_REBUILD_WHEN);
    CHECK(at.row == at.table->row_count);
}

/* Finding an example's station takes longer than all that is looked at in its sheets. */
static void check_sheets(const scene *made, qll_arena *arena)
{
    check_lines(made, arena);
    check_creep(made, arena);
    check_tasks(made, arena);
}

TEST(each_line_and_each_task_says_what_was_found)
{
    each_form(check_sheets);
}

int main(void)
{
    TEST_RUN(each_line_and_each_task_says_what_was_found);
    return TEST_END();
}
