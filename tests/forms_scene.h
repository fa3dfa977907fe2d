/* The sheets that go to the station, of every example in both languages. */
#ifndef QUELL_TESTS_FORMS_SCENE_H
#define QUELL_TESTS_FORMS_SCENE_H

#include "example_subject.h"
#include "report/pictures.h"

static const struct {
    const char *name, *units;
} examples[] = {
    {"hillside", "us"},     {"hillside", "si"},     {"house", "us"},
    {"house", "si"},        {"metered", "si"},      {"morning-rush", "us"},
    {"morning-rush", "si"}, {"first-answer", "us"}, {"repurposed-building", "us"},
};

#define TEST_EXAMPLES (sizeof examples / sizeof *examples)

/* An example, its forms in one language, and its drawing. */
typedef struct scene {
    asking of;
    qll_subject subject;
    qll_sheet sheet;
    const qll_canvas *drawing;
} scene;

static inline void make_forms(scene *made, qll_language language, qll_arena *arena)
{
    const unsigned forms = QLL_SECTION_BIT(QLL_SECTION_STATION)
                           | QLL_SECTION_BIT(QLL_SECTION_COMMISSIONING)
                           | QLL_SECTION_BIT(QLL_SECTION_SERVICE);
    qll_figure_block figure;
    made->subject.found.demand.language = language;
    qll_report_make(&made->subject, forms, QLL_REPORT_LENGTH_FULL, arena, &made->sheet);
    CHECK(qll_picture_draw(&made->subject.found, (qll_picture){QLL_PICTURE_SCHEMATIC, 0}, arena,
                           &figure)
          == QLL_OK);
    made->drawing = figure.canvas;
}

typedef void form_check(const scene *made, qll_arena *arena);

/* Every example in both languages. */
static inline void each_form(form_check *check)
{
    for (size_t i = 0; i < TEST_EXAMPLES; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        static scene made;
        example_begin(&made.of, examples[i].name, examples[i].units, arena);
        if (CHECK(example_find(&made.of, QLL_REPORT_OF_DESIGN, arena, &made.subject))) {
            for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
                make_forms(&made, (qll_language)language, arena);
                check(&made, arena);
            }
        }
        qll_arena_close(arena);
    }
}

/* The table whose first heads are @p first and @p second; NULL if there is none. */
static inline const qll_table_block *table_of(const scene *made, qll_message first,
                                              qll_message second)
{
    const qll_language language = made->sheet.language;
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            if (block->kind == QLL_BLOCK_TABLE
                && strcmp(block->table.cells[0].text, qll_say(language, first)) == 0
                && strcmp(block->table.cells[1].text, qll_say(language, second)) == 0) {
                return &block->table;
            }
        }
    }
    return NULL;
}

#endif
