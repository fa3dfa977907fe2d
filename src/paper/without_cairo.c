/* Stands in for the other files of this module where cairo and pango are not installed: quell then
 * answers everything but cannot draw on paper. */
#include "paper/paper.h"

const char qll_paper_font_folder[] = "";

static const char why[] =
    "this quell was built without cairo and pango and cannot make PDF or PNG; "
    "install Debian's packages libcairo2-dev and libpango1.0-dev and build it "
    "again";

qll_status qll_pdf_write(const qll_canvas *canvas, const qll_paper_about *about,
                         const char *font_folder, qll_arena *arena, qll_paper *paper)
{
    (void)canvas;
    (void)about;
    (void)font_folder;
    (void)arena;
    *paper = (qll_paper){.why = why};
    return QLL_IO;
}

qll_status qll_png_write(const qll_canvas *canvas, size_t page, double dots_per_mm,
                         const char *font_folder, qll_arena *arena, qll_paper *paper)
{
    (void)canvas;
    (void)page;
    (void)dots_per_mm;
    (void)font_folder;
    (void)arena;
    *paper = (qll_paper){.why = why};
    return QLL_IO;
}
