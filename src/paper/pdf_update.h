/* Adds to a finished PDF what cairo cannot say: language, and alternative texts of figures. */
#ifndef QUELL_PAPER_PDF_UPDATE_H
#define QUELL_PAPER_PDF_UPDATE_H

#include "report/canvas.h"

/**
 * @p pdf with an incremental update behind it (ISO 32000-1, 7.5.6): the document's language, that a viewer
 * shows its title, and the text of each FIGURE mark of @p canvas at its Figure element, in order.
 *
 * A PDF that is not laid out as cairo 1.16 does comes back as it is; a test says whether it was.
 *
 * @return a text in @p arena; "" without memory, which the arena counts
 */
qll_text qll_pdf_update(qll_text pdf, const qll_canvas *canvas, const char *language,
                        qll_arena *arena);

#endif
