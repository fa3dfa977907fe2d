/* The sheets of every example, in both languages and both systems of units, laid out on pages: nothing lies
 * on anything, nothing is cut, no page is left all but empty, and nothing is said in another language. */
#include "drawn.h"
#include "example_subject.h"
#include "report/layout.h"
#include "report/pictures.h"

/* Every example; those in both systems that have most, and least, on their sheets. */
static const struct {
    const char *name, *units;
} examples[] = {
    {"hillside", "us"},     {"hillside", "si"},     {"house", "us"},
    {"low-street", "us"},   {"low-street", "si"},   {"metered", "us"},
    {"metered", "si"},      {"morning-rush", "si"}, {"repurposed-building", "us"},
    {"first-answer", "us"},
};

/* ---- pages ---- */

/* No word ends in an ellipsis: nothing was too long for its place. */
static void check_uncut(const qll_canvas *pages)
{
    static const char dots[] = "\xE2\x80\xA6";
    for (size_t i = 0; i < pages->count; i++) {
        qll_text text = pages->items[i].text;
        bool is_cut = pages->items[i].kind == QLL_ITEM_TEXT && text.size >= 3
                      && memcmp(text.bytes + text.size - 3, dots, 3) == 0;
        if (!CHECK(!is_cut)) {
            printf("    %s\n", text.bytes);
        }
    }
}

/* A page as a canvas of its own, so that texts of different pages are not compared. */
static qll_canvas page_of(const qll_canvas *pages, size_t page)
{
    qll_canvas alone = *pages;
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(pages, page, &first, &end);
    alone.items += first;
    alone.count = end - first;
    return alone;
}

/* How far down the page is written, as a share of it; its foot apart. */
static double filled_share(const qll_canvas *page)
{
    double lowest_mm = 0;
    for (size_t i = 0; i < page->count; i++) {
        const qll_item *item = &page->items[i];
        bool is_foot = item->point_count > 0 && item->points[0].y_mm > page->height_mm - 18.0;
        if (item->kind == QLL_ITEM_TEXT && !is_foot) {
            lowest_mm = fmax(lowest_mm, item->points[0].y_mm);
        }
    }
    return lowest_mm / page->height_mm;
}

/* Where no valve is needed there is nothing to set, to commission or to service. */
static void check_page_count(size_t page_count, bool is_needed, const char *name)
{
    const size_t least = is_needed ? 9 : 4;
    const size_t most = is_needed ? 18 : 6;
    if (!CHECK(page_count >= least && page_count <= most)) {
        printf("    %s: %zu pages\n", name, page_count);
    }
}

static void check_pages(const qll_canvas *pages, const char *name)
{
    CHECK(drawn_outside(pages) == 0);
    check_uncut(pages);
    for (size_t i = 0; i < pages->page_count; i++) {
        const qll_canvas page = page_of(pages, i);
        size_t overlaps = drawn_overlaps(&page);
        double share = filled_share(&page);
        bool is_last = i + 1 == pages->page_count;
        if (!CHECK(overlaps == 0) || !CHECK(is_last || share > 0.2)) {
            printf("    %s, page %zu of %zu, %.0f %% filled\n", name, i + 1, pages->page_count,
                   100.0 * share);
        }
    }
}

/* ---- figures ---- */

static bool says_unit(const qll_canvas *canvas, const char *unit)
{
    char ending[32];
    snprintf(ending, sizeof ending, ", %s", unit);
    size_t length = strlen(ending);
    for (size_t i = 0; i < canvas->count; i++) {
        qll_text text = canvas->items[i].text;
        if (canvas->items[i].kind == QLL_ITEM_TEXT && text.size > length
            && memcmp(text.bytes + text.size - length, ending, length) == 0) {
            return true;
        }
    }
    return false;
}

/* Both axes of every plot name their unit; a price has none. */
static void check_axes(const qll_design_findings *findings, qll_arena *arena)
{
    qll_unit_system system = findings->demand.survey->units;
    const char *flow = qll_units_name(QLL_KIND_FLOW, system);
    const char *pressure = qll_units_name(QLL_KIND_PRESSURE, system);

    const struct {
        qll_picture_kind kind;
        const char *units[2];
    } wanted[] = {
        {QLL_PICTURE_DAY, {"h", flow}},          {QLL_PICTURE_DURATION, {flow, "%"}},
        {QLL_PICTURE_FALLOFF, {flow, pressure}}, {QLL_PICTURE_LADDER, {pressure, pressure}},
        {QLL_PICTURE_MAP, {flow, pressure}},     {QLL_PICTURE_NOISE, {flow, "dB(A)"}},
        {QLL_PICTURE_SPECTRUM, {"Hz", "dB"}},
    };

    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        size_t count = qll_picture_count(findings, wanted[i].kind);
        for (size_t n = 0; n < count; n++) {
            qll_figure_block figure;
            const qll_picture picture = {wanted[i].kind, n};
            CHECK(qll_picture_draw(findings, picture, arena, &figure) == QLL_OK);
            CHECK(says_unit(figure.canvas, wanted[i].units[0]));
            CHECK(says_unit(figure.canvas, wanted[i].units[1]));
            CHECK(figure.low != NULL || wanted[i].kind == QLL_PICTURE_MAP);
            CHECK(figure.low == NULL || figure.low->height_mm < figure.canvas->height_mm);
        }
    }
}

/* ---- the other language ---- */

static const qll_wording english = {.units = QLL_UNITS_US};
static const qll_wording spanish = {.units = QLL_UNITS_US, .language = QLL_LANGUAGE_ES};

/* That every text has its Spanish twin is unit.said's; here, that what is assumed is named in words. */
static void check_spanish(const qll_demand_findings *demand, qll_arena *arena)
{
    for (const qll_assumption *one = demand->assumed->first; one != NULL; one = one->next) {
        const char *named = qll_wording_key(arena, &english, &one->what);
        bool has_words = strchr(named, '(') != NULL || strchr(named, '.') == NULL;
        if (!CHECK(has_words && strcmp(named, qll_wording_key(arena, &spanish, &one->what)) != 0)) {
            printf("    assumed: \"%s\"\n", named);
        }
        CHECK(one->why.id != QLL_TEXT_NONE && one->value.form != QLL_ARGUMENT_NONE);
    }
    CHECK(demand->source_count > 0);
    for (size_t i = 0; i < demand->source_count; i++) {
        CHECK(demand->sources[i].id != QLL_TEXT_NONE);
    }
}

static void check_languages(qll_subject *subject, const char *name, const char *units,
                            qll_arena *arena)
{
    for (int l = 0; l < QLL_LANGUAGE_COUNT; l++) {
        char whole[128];
        snprintf(whole, sizeof whole, "%s of %s %s %s", qll_report_of_words[subject->of], name,
                 units, qll_language_words[l]);
        subject->found.demand.language = (qll_language)l;
        qll_sheet sheet;
        qll_canvas pages;
        qll_report_make(subject, QLL_SECTIONS_ALL, arena, &sheet);
        qll_layout_pages(&sheet, arena, &pages);
        if (subject->of == QLL_REPORT_OF_DESIGN) {
            check_page_count(pages.page_count, subject->found.design->need.is_needed, whole);
        }
        check_pages(&pages, whole);
    }
}

TEST(sheets_of_the_examples_are_whole)
{
    for (size_t e = 0; e < sizeof examples / sizeof examples[0]; e++) {
        for (int of = 0; of < QLL_REPORT_OF_COUNT; of++) {
            qll_arena *arena = qll_arena_open((size_t)1 << 30);
            static asking made;
            qll_subject subject;
            example_begin(&made, examples[e].name, examples[e].units, arena);
            if (example_find(&made, (qll_report_of)of, arena, &subject)) {
                check_languages(&subject, examples[e].name, examples[e].units, arena);
                check_axes(&subject.found, arena);
                check_spanish(&subject.found.demand, arena);
            }
            qll_arena_close(arena);
        }
    }
}

int main(void)
{
    TEST_RUN(sheets_of_the_examples_are_whole);
    return TEST_END();
}
