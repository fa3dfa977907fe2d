/* The sheets of every example, in both languages and both systems of units, laid out on pages: nothing lies
 * on anything, nothing is cut, no page is left all but empty, and nothing is said in another language. */
#include "drawn.h"
#include "example_subject.h"
#include "report/layout.h"
#include "report/pictures.h"
#include "wording/language.h"

/* Every example; those in both systems that have most, and least, on their sheets. Of ordinary sites those with one valve
 * in each of two stages, and with two in each. */
static const struct {
    const char *name, *units;
} examples[] = {
    {"hillside", "us"},
    {"hillside", "si"},
    {"house", "us"},
    {"low-street", "us"},
    {"low-street", "si"},
    {"metered", "us"},
    {"metered", "si"},
    {"morning-rush", "si"},
    {"repurposed-building", "us"},
    {"first-answer", "us"},
    {"first-answer", "si"},
    {"house-165-50-1-3-2", "us"},
    {"flats-60-200", "us"},
    {"house-185-55-1.25-3-0", "us"},
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

/* How far down the page is written, as a share of what may be written on; its foot apart. */
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
    return (lowest_mm - 14.0) / (page->height_mm - 14.0 - 18.0);
}

/* ---- official sheets ---- */

/* The page that a heading stands on, from 0; the number of pages if none does. */
static size_t page_headed(const qll_canvas *pages, const char *heading)
{
    for (size_t page = 0; page < pages->page_count; page++) {
        const qll_canvas alone = page_of(pages, page);
        for (size_t i = 0; i < alone.count; i++) {
            const qll_mark *mark = &alone.items[i].mark;
            bool is_heading =
                alone.items[i].kind == QLL_ITEM_BEGIN && mark->kind == QLL_MARK_HEADING;
            if (is_heading && strcmp(mark->text, heading) == 0) {
                return page;
            }
        }
    }
    return pages->page_count;
}

static size_t appendix_page(const qll_canvas *pages, const qll_sheet *sheet)
{
    for (size_t i = 0; i < sheet->section_count; i++) {
        if (qll_is_appendix(&sheet->sections[i])) {
            return page_headed(pages, sheet->sections[i].heading);
        }
    }
    return pages->page_count;
}

/* Behind each chapter's heading in the contents stands its page; there are contents from seven pages on. */
static void check_contents(const qll_canvas *pages, const qll_sheet *sheet)
{
    const qll_canvas first = page_of(pages, 0);
    size_t found = 0;
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        for (size_t i = 0; section->level == 2 && i + 1 < first.count; i++) {
            const qll_item *item = &first.items[i];
            const qll_item *number = &first.items[i + 1];
            bool is_entry = item->kind == QLL_ITEM_TEXT && number->kind == QLL_ITEM_TEXT
                            && strcmp(item->text.bytes, section->heading) == 0;
            if (is_entry) {
                char wanted[16];
                snprintf(wanted, sizeof wanted, "%zu", page_headed(pages, section->heading) + 1);
                CHECK_TEXT(number->text.bytes, wanted);
                found += 1;
            }
        }
    }
    const size_t chapters = sheet->chapter_count + sheet->appendix_count;
    CHECK(found == (pages->page_count > 6 ? chapters : 0));
}

/* A plain house takes four pages, all in all; any other eight before its appendix. */
static void check_page_count(const qll_canvas *pages, const qll_sheet *sheet, const char *name)
{
    const size_t body = sheet->runs_on ? pages->page_count : appendix_page(pages, sheet);
    const size_t most = sheet->runs_on ? 4 : 8;
    if (!CHECK(body >= 1 && body <= most)) {
        printf("    %s: %zu pages, %zu before the appendix\n", name, pages->page_count, body);
    }
}

/* Rows of the log on paper: its first boxes begin at the margin, as wide as a date asks for; so does that for the name
 * of who did the work. */
static size_t log_rows(const qll_canvas *pages)
{
    size_t count = 0;
    for (size_t i = 0; i < pages->count; i++) {
        const qll_item *item = &pages->items[i];
        if (item->kind == QLL_ITEM_PATH && item->is_closed && item->point_count == 4
            && !item->paint.is_filled) {
            const double left_mm = fmin(item->points[0].x_mm, item->points[2].x_mm);
            const double wide_mm = fabs(item->points[2].x_mm - item->points[0].x_mm);
            count += left_mm < 20.0 && fabs(wide_mm - QLL_BOX_NAME_MM) < 1.0 ? 1 : 0;
        }
    }
    return count == 0 ? 0 : count - 1;
}

/* One valve leaves room for many rows on its four pages; two stages for two at least. */
static void check_log(const qll_canvas *pages, const qll_subject *subject, const qll_sheet *sheet,
                      const char *name)
{
    if (subject->of != QLL_REPORT_OF_DESIGN || subject->found.design->count == 0) {
        return;
    }
    const bool is_tight = sheet->runs_on && subject->found.design->shown[0].station.stage_count > 1;
    const size_t rows = log_rows(pages);
    if (!CHECK(rows >= (is_tight ? 2 : 10))) {
        printf("    %s: %zu rows\n", name, rows);
    }
}

/* Sheets in SI do not say that US units were taken for them. */
static void check_units(const qll_sheet *sheet, const char *name)
{
    const char *units = qll_said_entry(sheet->language, QLL_TEXT_LABEL_UNITS);
    for (size_t s = 0; s < sheet->section_count && sheet->units == QLL_UNITS_SI; s++) {
        for (size_t b = 0; b < sheet->sections[s].block_count; b++) {
            const qll_block *block = &sheet->sections[s].blocks[b];
            const bool is_text = block->kind == QLL_BLOCK_PARAGRAPH;
            if (!CHECK(!is_text || strstr(block->text, units) == NULL)) {
                printf("    %s: %s\n", name, block->text);
            }
        }
    }
}

/* Letters of text, tables and figures. */
static void check_letters(const qll_canvas *pages, const char *name)
{
    const double least_mm = 9.0 * QLL_POINT_MM - 1e-6;
    for (size_t i = 0; i < pages->count; i++) {
        const qll_item *item = &pages->items[i];
        if (item->kind == QLL_ITEM_TEXT && !CHECK(item->letters.size_mm >= least_mm)) {
            printf("    %s: %.1f pt \"%s\"\n", name, item->letters.size_mm / QLL_POINT_MM,
                   item->text.bytes);
        }
    }
}

/* "Table 3. " begins the third captioned table; @p number counts on. */
static void check_number(qll_language language, qll_message caption, size_t *number,
                         const char *text)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_writer digits = qll_writer_new(arena);
    qll_writer wanted = qll_writer_new(arena);
    *number += 1;
    qll_write_format(&digits, "%zu", *number);
    const qll_filling fillings[] = {{"number", qll_writer_text(&digits).bytes}, {"what", ""}};
    qll_say_with(&wanted, language, caption, fillings, 2);
    const qll_text begins = qll_text_trimmed(qll_writer_text(&wanted));
    if (!CHECK(strncmp(text, begins.bytes, begins.size) == 0)) {
        printf("    \"%s\" is no %s\n", text, begins.bytes);
    }
    qll_arena_close(arena);
}

/* Every chapter, table and figure is numbered once and in order, and each section is in its chapter. */
static void check_numbers(const qll_sheet *sheet)
{
    size_t chapters = 0;
    size_t letters = 0;
    size_t tables = 0;
    size_t figures = 0;
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        bool begins = s == 0 || section->chapter != section[-1].chapter;
        CHECK(section->level == (begins ? 2 : 3));
        CHECK(s == 0 || section->chapter >= section[-1].chapter);
        if (begins && !qll_is_appendix(section)) {
            check_number(sheet->language, QLL_SAYS_HEADING_NUMBERED, &chapters, section->heading);
        }
        const char *colon = strchr(section->heading, ':');
        if (begins && qll_is_appendix(section) && CHECK(colon != NULL && colon[-2] == ' ')) {
            CHECK(colon[-1] == (char)('A' + (char)letters));
            letters += 1;
        }
        for (size_t b = 0; b < section->block_count; b++) {
            const qll_block *block = &section->blocks[b];
            if (block->kind == QLL_BLOCK_TABLE && block->table.caption[0] != '\0'
                && !block->table.names_itself) {
                check_number(sheet->language, QLL_SAYS_CAPTION_TABLE, &tables,
                             block->table.caption);
            } else if (block->kind == QLL_BLOCK_FIGURE) {
                check_number(sheet->language, QLL_SAYS_CAPTION_FIGURE, &figures,
                             block->figure.title);
            }
        }
    }
    CHECK(chapters > 0 && letters > 0 && tables > 0);
}

/* The cautions stand on the first page, and at the head of every sheet that is carried to the station. */
static void check_cautions(const qll_sheet *sheet)
{
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        bool is_carried = qll_is_carried(section->kind) || section->kind == QLL_SECTION_CAUTIONS;
        CHECK(!is_carried
              || (section->block_count > 0 && section->blocks[0].kind == QLL_BLOCK_CAUTIONS));
    }
}

static bool stands_on(const qll_canvas *page, const char *text)
{
    for (size_t i = 0; i < page->count; i++) {
        if (page->items[i].kind == QLL_ITEM_TEXT && strcmp(page->items[i].text.bytes, text) == 0) {
            return true;
        }
    }
    return false;
}

/* Every field of the title block stands on the first page, filled or to be filled; so do the cautions. */
static void check_first_page(const qll_canvas *pages, const qll_sheet *sheet, bool is_of_station,
                             const char *name)
{
    const qll_canvas first = page_of(pages, 0);
    const qll_title_block *block = &sheet->title_block;
    CHECK(block->field_count >= 9 && stands_on(&first, block->stamp));
    for (size_t i = 0; i < block->field_count; i++) {
        CHECK(stands_on(&first, block->fields[i].label));
    }
    const char *cautions = qll_say(sheet->language, QLL_SAYS_SECTION_CAUTIONS);
    if (is_of_station && !CHECK(stands_on(&first, cautions))) {
        printf("    %s: no cautions on the first page\n", name);
    }
}

/* No key of a survey, no file and no place of a document stands on a sheet. */
static void check_no_machine_talk(const qll_canvas *pages, const char *name)
{
    static const char *const machine[] = {"data/",    "docs/",    ".md",
                                          "(limits.", "(supply.", "scenarios["};
    for (size_t i = 0; i < pages->count; i++) {
        const qll_text text = pages->items[i].text;
        for (size_t m = 0;
             pages->items[i].kind == QLL_ITEM_TEXT && m < sizeof machine / sizeof *machine; m++) {
            if (!CHECK(strstr(text.bytes, machine[m]) == NULL)) {
                printf("    %s: \"%s\"\n", name, text.bytes);
            }
        }
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
        if (!CHECK(overlaps == 0) || !CHECK(is_last || share >= 0.5)) {
            printf("    %s, page %zu of %zu, %.0f %% filled\n", name, i + 1, pages->page_count,
                   100.0 * share);
        }
    }
}

/* ---- figures ---- */

static bool ends_in(const qll_canvas *canvas, size_t item, const char *ending)
{
    const qll_text text = canvas->items[item].text;
    const size_t length = strlen(ending);
    return canvas->items[item].kind == QLL_ITEM_TEXT && text.size >= length
           && memcmp(text.bytes + text.size - length, ending, length) == 0;
}

/* Behind what the axis is of, or alone in the line after it. */
static bool says_unit(const qll_canvas *canvas, const char *unit)
{
    char ending[32];
    snprintf(ending, sizeof ending, ", %s", unit);
    for (size_t i = 0; i < canvas->count; i++) {
        const bool is_alone =
            i > 0 && qll_text_is(canvas->items[i].text, unit) && ends_in(canvas, i - 1, ",");
        if (is_alone || ends_in(canvas, i, ending)) {
            return true;
        }
    }
    return false;
}

/* Both axes of every plot name their unit; a price has none, and hours are counted by their name. */
static void check_axes(const qll_design_findings *findings, qll_arena *arena)
{
    qll_unit_system system = findings->demand.survey->units;
    const char *flow = qll_units_name(QLL_KIND_FLOW, system);
    const char *pressure = qll_units_name(QLL_KIND_PRESSURE, system);

    const struct {
        qll_picture_kind kind;
        const char *units[2];
    } wanted[] = {
        {QLL_PICTURE_DAY, {NULL, flow}},         {QLL_PICTURE_DURATION, {flow, "%"}},
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
            const char *across = wanted[i].units[0];
            CHECK(across == NULL || says_unit(figure.canvas, across));
            CHECK(says_unit(figure.canvas, wanted[i].units[1]));
            /* Another size for what is left of a page: less high, or beside another. */
            CHECK((figure.low == NULL) != (figure.half == NULL));
            CHECK(figure.low == NULL || figure.low->height_mm < figure.canvas->height_mm);
            CHECK(figure.half == NULL || 2 * figure.half->width_mm <= figure.canvas->width_mm);
            CHECK(figure.half == NULL || across == NULL || says_unit(figure.half, across));
            CHECK(figure.half == NULL || says_unit(figure.half, wanted[i].units[1]));
        }
    }
}

/* ---- the other language ---- */

static const qll_wording english = {.units = QLL_UNITS_US};

/* What else was looked at stands in the full sheets, a row each, with what it costs to install. */
static void check_others(const qll_subject *subject, const qll_sheet *sheet, const char *name)
{
    size_t rows = 0;
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        for (size_t b = 0; section->kind == QLL_SECTION_ALTERNATIVES && b < section->block_count;
             b++) {
            const qll_block *block = &section->blocks[b];
            rows += block->kind == QLL_BLOCK_TABLE ? block->table.row_count - 1 : 0;
        }
    }
    const size_t count = subject->found.design->count;
    const bool has_them = subject->of == QLL_REPORT_OF_DESIGN && !sheet->runs_on && count > 1;
    if (!CHECK(rows == (has_them ? count : 0))) {
        printf("    %s: %zu of %zu stations\n", name, rows, count);
    }
}

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
        qll_report_make(subject, QLL_SECTIONS_ALL, QLL_REPORT_LENGTH_COUNT, arena, &sheet);
        qll_layout_pages(&sheet, arena, &pages);
        if (subject->of != QLL_REPORT_OF_DEMAND) {
            check_page_count(&pages, &sheet, whole);
        }
        check_pages(&pages, whole);
        check_letters(&pages, whole);
        check_log(&pages, subject, &sheet, whole);
        check_units(&sheet, whole);
        check_numbers(&sheet);
        check_contents(&pages, &sheet);
        check_cautions(&sheet);
        check_others(subject, &sheet, whole);
        check_first_page(&pages, &sheet, subject->of != QLL_REPORT_OF_DEMAND, whole);
        check_no_machine_talk(&pages, whole);
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
