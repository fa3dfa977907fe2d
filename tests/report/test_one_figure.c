/* A figure is one number wherever it stands: in the JSON, in a table under its head, in a verdict. Tables are
 * read by caption, head and row, so that exchanged columns are seen. */
#include "building_answers.h"
#include "example_subject.h"
#include "html_tables.h"
#include "report/points.h"

static const struct {
    const char *name, *units;
} examples[] = {
    {"hillside", "us"},
    {"house", "si"},
    {"low-street", "us"},
    {"metered", "si"},
    {"metered", "us"},
    {"morning-rush", "si"},
    {"repurposed-building", "us"},
    {"first-answer", "us"},
};

/* An example's findings, its design/1 document and its sheets. */
typedef struct scene {
    asking of;
    const qll_design_findings *found;
    const qll_node *root;
    qll_sheet sheet;
    qll_arena *arena;
} scene;

static bool make_scene(scene *made, size_t example, qll_language language, qll_arena *arena)
{
    qll_subject subject;
    example_begin(&made->of, examples[example].name, examples[example].units, arena);
    made->of.asked.language = language;
    if (!example_find(&made->of, QLL_REPORT_OF_DESIGN, arena, &subject)) {
        return false;
    }
    made->arena = arena;
    made->found = &made->of.designed.findings;
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_design_write(&json, made->found);
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    bool well =
        qll_document_read(qll_writer_text(&writer), "answer", arena, document, &problems) == QLL_OK;
    made->root = document->root;
    qll_report_make(&subject, QLL_SECTIONS_ALL, QLL_REPORT_LENGTH_FULL, arena, &made->sheet);
    return CHECK(well) && made->found->design->count > 0;
}

static double number_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

static const qll_table_block *table_of(const scene *made, qll_message caption)
{
    const char *wanted = qll_say(made->sheet.language, caption);
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        const qll_section_sheet *section = &made->sheet.sections[s];
        for (size_t b = 0; b < section->block_count; b++) {
            const qll_block *block = &section->blocks[b];
            if (block->kind == QLL_BLOCK_TABLE && html_is_captioned(block->table.caption, wanted)) {
                return &block->table;
            }
        }
    }
    CHECK(false);
    return NULL;
}

/* The cell of a row, from 0, under the head that begins as @p head says; its last occurrence. */
static const char *cell_of(const scene *made, const qll_table_block *table, size_t row,
                           qll_message head)
{
    const char *wanted = qll_say(made->sheet.language, head);
    const char *found = NULL;
    for (size_t c = 0; c < table->column_count; c++) {
        if (strncmp(table->cells[c].text, wanted, strlen(wanted)) == 0) {
            found = table->cells[(row + 1) * table->column_count + c].text;
        }
    }
    return found == NULL ? "no such head" : found;
}

/* ---- ratios ---- */

/* The greatest ratio of the stages of a JSON point, each of them that of the pressures beside it. */
static double worst_ratio(const qll_node *point)
{
    double worst = NAN;
    const qll_node *stage = qll_node_find(point, "stages")->first_child;
    for (; stage != NULL; stage = stage->next) {
        double ratio = number_at(stage, "ratio_gauge");
        double outlet_pa_gauge = number_at(stage, "outlet_pa_gauge");
        if (isnan(outlet_pa_gauge)) {
            continue; /* it cannot pass the flow, or would stand below no pressure */
        }
        CHECK(isnan(ratio) == (outlet_pa_gauge <= 0.0));
        if (!isnan(ratio)) {
            CHECK_NEAR(ratio, number_at(stage, "inlet_pa_gauge") / outlet_pa_gauge, 1e-9);
        }
        worst = fmax(worst, ratio);
    }
    return worst;
}

static size_t check_point_ratios(const scene *made)
{
    const qll_design_findings *found = made->found;
    const qll_table_block *table = table_of(made, QLL_SAYS_POINTS);
    const qll_node *point = qll_node_find(made->root, "points")->first_child;
    size_t row = 0;
    size_t ratios = 0;
    for (size_t i = 0; table != NULL && point != NULL; i++, point = point->next) {
        double worst = worst_ratio(point);
        if (!qll_point_is_shown(&found->design->shown[0].station, found->points, found->point_count,
                                i)) {
            continue;
        }
        char wanted[32] = "-";
        if (number_at(point, "flow_m3s") > 0.0 && isfinite(worst)) {
            snprintf(wanted, sizeof wanted, "%.1f", worst);
            ratios += 1;
        }
        CHECK_TEXT(cell_of(made, table, row, QLL_SAYS_HEAD_RATIO), wanted);
        row += 1;
    }
    CHECK(table != NULL && row + 1 == table->row_count);
    return ratios;
}

/* Pressure before the first stage at night, by the ladder of the JSON; it lists the stages last. */
static double night_inlet_pa_gauge(const scene *made, size_t stage_count)
{
    const qll_node *steps =
        qll_node_find(qll_node_find(made->root, "ladder")->first_child, "steps");
    size_t count = 0;
    for (const qll_node *step = steps->first_child; step != NULL; step = step->next) {
        count += 1;
    }
    const qll_node *step = steps->first_child;
    for (size_t i = 0; i + 1 + stage_count < count; i++) {
        step = step->next;
    }
    return number_at(step, "pressure_pa_gauge");
}

/* As the trade reads it: what stands before a stage at night over what the stage is meant to hold. */
static double rule_ratio(const scene *made, const qll_node *station)
{
    const qll_station *first = &made->found->design->shown[0].station;
    double inlet_pa_gauge = night_inlet_pa_gauge(made, first->stage_count);
    double worst = 1.0;
    const qll_node *stage = qll_node_find(station, "stages")->first_child;
    for (; stage != NULL; stage = stage->next) {
        double held_pa_gauge = 0.0;
        const qll_node *branch = qll_node_find(stage, "branches")->first_child;
        for (; branch != NULL; branch = branch->next) {
            held_pa_gauge = fmax(held_pa_gauge, number_at(branch, "set_pressure_pa_gauge"));
        }
        held_pa_gauge =
            stage->next == NULL ? made->found->demand.survey->site.set_pa_gauge : held_pa_gauge;
        worst = fmax(worst, inlet_pa_gauge / held_pa_gauge);
        inlet_pa_gauge = held_pa_gauge;
    }
    return worst;
}

static void check_verdict_ratio(const scene *made)
{
    const qll_node *station = qll_node_find(made->root, "stations")->first_child;
    const qll_node *verdict = qll_node_find(station, "verdicts")->first_child;
    while (verdict != NULL && !qll_text_is(qll_node_find(verdict, "rule")->text, "ratio")) {
        verdict = verdict->next;
    }
    if (!CHECK(verdict != NULL)) {
        return;
    }
    const double ratio = number_at(verdict, "value");
    CHECK_NEAR(ratio, rule_ratio(made, station), 1e-6);
    char wanted[32];
    snprintf(wanted, sizeof wanted, "%.1f", ratio);
    const qll_table_block *table = table_of(made, QLL_SAYS_VERDICTS);
    size_t seen = 0;
    for (size_t row = 0; table != NULL && row + 1 < table->row_count; row++) {
        const char *rule = cell_of(made, table, row, QLL_SAYS_HEAD_RULE);
        if (strcmp(rule, qll_say_rule(made->sheet.language, QLL_RULE_RATIO)) == 0) {
            const char *value = cell_of(made, table, row, QLL_SAYS_HEAD_VALUE);
            CHECK(strncmp(value, wanted, strlen(wanted)) == 0);
            CHECK(strstr(cell_of(made, table, row, QLL_SAYS_HEAD_SAYS), wanted) != NULL);
            seen += 1;
        }
    }
    CHECK(seen == 1);
}

/* ---- settings ---- */

/* A cell shows @p si as a gauge or a bucket gives it, or "-". */
static void check_reading(const scene *made, const char *cell, double si, qll_kind kind)
{
    CHECK_TEXT(cell, qll_quantity_text(made->arena, si, kind, made->sheet.units));
}

static void check_row(const scene *made, size_t row, const qll_node *branch)
{
    const qll_table_block *set = table_of(made, QLL_SAYS_SET);
    const qll_node *setting = qll_node_find(branch, "setting");

    const struct {
        qll_message in_set;
        double si;
        qll_kind kind;
    } wanted[] = {
        {QLL_SAYS_HEAD_SET_POINT, number_at(branch, "set_pressure_pa_gauge"), QLL_KIND_PRESSURE},
        {QLL_SAYS_HEAD_LOCKUP, number_at(setting, "lockup_pa_gauge"), QLL_KIND_PRESSURE},
    };

    for (size_t i = 0; set != NULL && i < sizeof wanted / sizeof *wanted; i++) {
        check_reading(made, cell_of(made, set, row, wanted[i].in_set), wanted[i].si,
                      wanted[i].kind);
    }
}

static void check_settings(const scene *made)
{
    const qll_node *station = qll_node_find(made->root, "stations")->first_child;
    size_t row = 0;
    const qll_node *stage = qll_node_find(station, "stages")->first_child;
    for (; stage != NULL; stage = stage->next) {
        const qll_node *branch = qll_node_find(stage, "branches")->first_child;
        for (; branch != NULL; branch = branch->next) {
            check_row(made, row, branch);
            row += 1;
        }
    }
    CHECK(row > 0);
}

TEST(a_figure_is_one_number_wherever_it_stands)
{
    size_t stations = 0;
    size_t ratios = 0;
    for (size_t i = 0; i < 2 * sizeof examples / sizeof *examples; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        static scene made;
        const qll_language language = i % 2 == 0 ? QLL_LANGUAGE_EN : QLL_LANGUAGE_ES;
        if (make_scene(&made, i / 2, language, arena)) {
            ratios += check_point_ratios(&made);
            check_verdict_ratio(&made);
            check_settings(&made);
            stations += 1;
        }
        qll_arena_close(arena);
    }
    CHECK(stations > 8 && ratios > 100);
}

int main(void)
{
    TEST_RUN(a_figure_is_one_number_wherever_it_stands);
    return TEST_END();
}
