#include "base/count.h"
#include "paper/brush.h"
#include "paper/pdf_update.h"

#include <cairo-pdf.h>
#include <stdint.h>

/* A PDF being drawn. */
typedef struct drawing {
    const qll_canvas *canvas;
    qll_brush brush;
    cairo_surface_t *surface;
    cairo_t *cairo;
    qll_arena *arena;
    size_t page;       /* from 0 */
    const char **open; /* tag names of the marks that are open; NULL for one without a tag */
    size_t depth;
    int parents[7]; /* [heading level]: its last entry in the outline; [0] is the root */
} drawing;

static const char *tag_of(const qll_mark *mark)
{
    static const char *const headings[] = {"H1", "H2", "H3", "H4", "H5", "H6"};
    switch (mark->kind) {
    case QLL_MARK_HEADING:
        return headings[mark->level < 1 ? 0 : mark->level > 6 ? 5 : mark->level - 1];
    case QLL_MARK_PARAGRAPH: return "P";
    case QLL_MARK_LIST: return "L";
    case QLL_MARK_LIST_ITEM: return "LI";
    case QLL_MARK_TABLE: return "Table";
    case QLL_MARK_ROW: return "TR";
    case QLL_MARK_HEAD_CELL: return "TH";
    case QLL_MARK_CELL: return "TD";
    case QLL_MARK_FIGURE: return "Figure";
    case QLL_MARK_LINK: return CAIRO_TAG_LINK;
    case QLL_MARK_DECORATION:
    case QLL_MARK_COUNT: break;
    }
    return NULL;
}

/* name='text' with what cairo's reader of attributes asks to be escaped. */
static const char *attribute(drawing *pdf, const char *name, const char *text)
{
    qll_writer writer = qll_writer_new(pdf->arena);
    qll_write_format(&writer, "%s='", name);
    for (; *text != '\0'; text++) {
        if (*text == '\'' || *text == '\\') {
            qll_write_byte(&writer, '\\', 1);
        }
        qll_write_byte(&writer, *text, 1);
    }
    qll_write(&writer, "'");
    return qll_writer_text(&writer).bytes;
}

/* True if some item of the canvas is the place that @p name means: a link to nowhere is an error to
 * cairo, and the whole PDF would fail. */
static bool has_place(const qll_canvas *canvas, const char *name)
{
    for (size_t i = 0; i < canvas->count; i++) {
        if (canvas->items[i].kind == QLL_ITEM_PLACE && qll_text_is(canvas->items[i].text, name)) {
            return true;
        }
    }
    return false;
}

/* The attributes of a link, or NULL if it leads nowhere. */
static const char *link_to(drawing *pdf, const char *target)
{
    if (target[0] == '#') {
        return has_place(pdf->canvas, target + 1) ? attribute(pdf, "dest", target + 1) : NULL;
    }
    qll_text text = qll_text_of(target);
    for (size_t i = 0; i < text.size; i++) {
        /* A URI is printable ASCII (RFC 3986). */
        if (text.bytes[i] <= ' ' || text.bytes[i] > '~') {
            return NULL;
        }
    }
    return text.size > 8 && qll_text_is((qll_text){target, 8}, "https://")
               ? attribute(pdf, "uri", target)
               : NULL;
}

/* Where the heading at item @p at begins: its first line of text. */
static void add_outline(drawing *pdf, size_t at)
{
    const qll_item *heading = &pdf->canvas->items[at];
    if (heading->mark.text[0] == '\0') {
        return;
    }
    double x_mm = 0;
    double y_mm = 0;
    for (size_t i = at + 1; i < pdf->canvas->count; i++) {
        const qll_item *item = &pdf->canvas->items[i];
        if (item->kind == QLL_ITEM_TEXT) {
            x_mm = item->points[0].x_mm;
            y_mm = item->points[0].y_mm - item->letters.size_mm;
        }
        if (item->kind != QLL_ITEM_BEGIN) {
            break;
        }
    }
    int level = heading->mark.level < 1 ? 1 : heading->mark.level > 6 ? 6 : heading->mark.level;
    /* Whole points, as cairo reads the rest with the decimal mark of the process's locale. */
    qll_writer target = qll_writer_new(pdf->arena);
    qll_write_format(&target, "page=%zu pos=[%.0f %.0f]", pdf->page + 1, QLL_POINTS(x_mm),
                     QLL_POINTS(y_mm));
    int entry =
        cairo_pdf_surface_add_outline(pdf->surface, pdf->parents[level - 1], heading->mark.text,
                                      qll_writer_text(&target).bytes, CAIRO_PDF_OUTLINE_FLAG_OPEN);
    for (int i = level; i <= 6; i++) {
        pdf->parents[i] = entry;
    }
}

static void begin(drawing *pdf, size_t at)
{
    const qll_mark *mark = &pdf->canvas->items[at].mark;
    const char *tag = tag_of(mark);
    const char *attributes = "";
    if (mark->kind == QLL_MARK_HEADING) {
        add_outline(pdf, at);
    } else if (mark->kind == QLL_MARK_LINK) {
        attributes = link_to(pdf, mark->text);
        tag = attributes == NULL ? NULL : tag;
    }
    if (tag != NULL) {
        cairo_tag_begin(pdf->cairo, tag, attributes);
    }
    pdf->open[pdf->depth] = tag;
    pdf->depth += 1;
}

static void end(drawing *pdf)
{
    if (pdf->depth > 0) {
        pdf->depth -= 1;
        if (pdf->open[pdf->depth] != NULL) {
            cairo_tag_end(pdf->cairo, pdf->open[pdf->depth]);
        }
    }
}

static void add_place(drawing *pdf, const qll_item *item)
{
    qll_writer writer = qll_writer_new(pdf->arena);
    qll_write(&writer, attribute(pdf, "name", item->text.bytes));
    /* Whole points, as in add_outline(). */
    qll_write_format(&writer, " x=%.0f y=%.0f", QLL_POINTS(item->points[0].x_mm),
                     QLL_POINTS(item->points[0].y_mm));
    cairo_tag_begin(pdf->cairo, CAIRO_TAG_DEST, qll_writer_text(&writer).bytes);
    cairo_tag_end(pdf->cairo, CAIRO_TAG_DEST);
}

static void draw_items(drawing *pdf)
{
    /* Tags count in cairo only below one that holds the whole document. */
    cairo_tag_begin(pdf->cairo, "Document", "");
    for (size_t i = 0; i < pdf->canvas->count; i++) {
        const qll_item *item = &pdf->canvas->items[i];
        switch (item->kind) {
        case QLL_ITEM_BEGIN: begin(pdf, i); break;
        case QLL_ITEM_END: end(pdf); break;
        case QLL_ITEM_PLACE: add_place(pdf, item); break;
        case QLL_ITEM_PAGE:
            cairo_show_page(pdf->cairo);
            pdf->page += 1;
            break;
        case QLL_ITEM_PATH:
        case QLL_ITEM_CIRCLE:
        case QLL_ITEM_TEXT: qll_brush_draw(&pdf->brush, pdf->cairo, item); break;
        }
    }
    while (pdf->depth > 0) {
        end(pdf);
    }
    cairo_tag_end(pdf->cairo, "Document");
    cairo_show_page(pdf->cairo);
}

static void set_metadata(drawing *pdf, const qll_paper_about *about)
{
    const struct {
        cairo_pdf_metadata_t what;
        const char *text;
    } rows[] = {
        {CAIRO_PDF_METADATA_TITLE, about->title},
        {CAIRO_PDF_METADATA_SUBJECT, about->subject},
        {CAIRO_PDF_METADATA_CREATOR, "quell"},
        {CAIRO_PDF_METADATA_CREATE_DATE, about->created},
    };

    for (size_t i = 0; i < QLL_COUNT(rows); i++) {
        qll_text text = qll_text_clean(qll_text_of(rows[i].text), pdf->arena);
        if (text.size > 0) {
            cairo_pdf_surface_set_metadata(pdf->surface, rows[i].what, text.bytes);
        }
    }
}

static qll_status draw(drawing *pdf, const qll_paper_about *about, qll_writer *writer,
                       const char **why)
{
    pdf->surface = cairo_pdf_surface_create_for_stream(qll_brush_take_bytes, writer,
                                                       QLL_POINTS(pdf->canvas->width_mm),
                                                       QLL_POINTS(pdf->canvas->height_mm));
    /* 1.4: objects stay readable for qll_pdf_update(). */
    cairo_pdf_surface_restrict_to_version(pdf->surface, CAIRO_PDF_VERSION_1_4);
    pdf->cairo = cairo_create(pdf->surface);
    set_metadata(pdf, about);
    draw_items(pdf);
    cairo_status_t drawn = cairo_status(pdf->cairo);
    cairo_destroy(pdf->cairo);
    cairo_surface_finish(pdf->surface);
    drawn = drawn == CAIRO_STATUS_SUCCESS ? cairo_surface_status(pdf->surface) : drawn;
    cairo_surface_destroy(pdf->surface);
    return qll_brush_status(drawn, why);
}

qll_status qll_pdf_write(const qll_canvas *canvas, const qll_paper_about *about,
                         const char *font_folder, qll_arena *arena, qll_paper *paper)
{
    *paper = (qll_paper){.why = "", .warning = ""};
    size_t refused = qll_arena_refused(arena);
    drawing pdf = {.canvas = canvas, .arena = arena};
    pdf.open = qll_arena_take(arena, canvas->count + 1, sizeof *pdf.open);
    if (pdf.open == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_brush_open(&pdf.brush, font_folder, arena, &paper->why);
    if (status == QLL_OK) {
        qll_writer writer = qll_writer_new(arena);
        status = draw(&pdf, about, &writer, &paper->why);
        if (status == QLL_OK) {
            const qll_text drawn = qll_writer_text(&writer);
            paper->bytes = qll_pdf_update(drawn, canvas, about->language, arena);
            if (paper->bytes.bytes == drawn.bytes) {
                paper->warning =
                    "this PDF names neither its language nor what its figures show: the "
                    "drawing library on this machine writes PDF in an unknown way";
            }
        }
    }
    qll_brush_close(&pdf.brush);
    return qll_arena_refused(arena) == refused ? status : QLL_NO_MEMORY;
}
