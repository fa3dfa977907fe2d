/* What a page needs to read the drawings of an HTML sheet by touch. */
#include "report/html.h"

static size_t count_figures(const qll_sheet *sheet)
{
    size_t count = 0;
    for (size_t s = 0; s < sheet->section_count; s++) {
        for (size_t i = 0; i < sheet->sections[s].block_count; i++) {
            count += sheet->sections[s].blocks[i].kind == QLL_BLOCK_FIGURE ? 1 : 0;
        }
    }
    return count;
}

static qll_drawn_figure drawn_of(const qll_figure_block *figure, const qll_canvas *canvas)
{
    return (qll_drawn_figure){.name = figure->id,
                              .title = figure->title,
                              .description = figure->description,
                              .svg = {NULL, 0},
                              .frame = canvas->frame};
}

bool qll_html_drawn(const qll_sheet *sheet, qll_arena *arena, const qll_drawn_figure **drawn,
                    size_t *count)
{
    qll_drawn_figure *made = qll_arena_take(arena, count_figures(sheet), sizeof *made);
    if (made == NULL) {
        return false;
    }
    size_t taken = 0;
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        size_t beside_until = 0; /* figures before it stand in half the width */
        for (size_t i = 0; i < section->block_count; i++) {
            const qll_block *block = &section->blocks[i];
            if (i >= beside_until && qll_are_beside(block, section->block_count - i)) {
                beside_until = i + 2;
            }
            if (block->kind == QLL_BLOCK_FIGURE) {
                const qll_figure_block *figure = &block->figure;
                made[taken] = drawn_of(figure, i < beside_until ? figure->half : figure->canvas);
                taken += 1;
            }
        }
    }
    *drawn = made;
    *count = taken;
    return true;
}
