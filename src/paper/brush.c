#include "paper/brush.h"

#include <math.h>
#include <pango/pangofc-fontmap.h>
#include <string.h>

const char qll_paper_font_folder[] = QUELL_FONT_FOLDER;

#define QLL_FAMILY "Inter"

/* As qll_text_width_mm() counts: figures of equal width, no letters joined or swapped for their
 * neighbours' sake ("->" must not become an arrow: what is written is what can be searched for). */
#define QLL_FONT_FEATURES "tnum=1, calt=0, liga=0"

static const char *const weight_files[QLL_WEIGHT_COUNT] = {
    [QLL_WEIGHT_REGULAR] = "Inter-Regular.otf",
    [QLL_WEIGHT_BOLD] = "Inter-Bold.otf",
};

static bool add_file(qll_brush *brush, const char *folder, const char *name, qll_arena *arena)
{
    qll_writer path = qll_writer_new(arena);
    qll_write(&path, folder);
    qll_write(&path, "/");
    qll_write(&path, name);
    const char *closed = qll_writer_text(&path).bytes;
    return FcConfigAppFontAddFile(brush->fonts, (const FcChar8 *)closed) == FcTrue;
}

static qll_status refuse_font(const char *folder, qll_arena *arena, const char **why)
{
    qll_writer says = qll_writer_new(arena);
    qll_write_format(&says,
                     "the font Inter (%s, %s) is not in %s, and nothing can be drawn without it; "
                     "install Debian's package fonts-inter",
                     weight_files[QLL_WEIGHT_REGULAR], weight_files[QLL_WEIGHT_BOLD], folder);
    *why = qll_writer_text(&says).bytes;
    return QLL_IO;
}

/* A machine without the font would silently draw nothing: ask for it by name and see what comes. */
static bool has_family(const qll_brush *brush)
{
    PangoFontDescription *wanted = pango_font_description_from_string(QLL_FAMILY " 10");
    PangoFont *font = pango_context_load_font(brush->context, wanted);
    pango_font_description_free(wanted);
    if (font == NULL) {
        return false;
    }
    PangoFontDescription *got = pango_font_describe(font);
    const char *family = pango_font_description_get_family(got);
    bool same = family != NULL && strcmp(family, QLL_FAMILY) == 0;
    pango_font_description_free(got);
    g_object_unref(font);
    return same;
}

static void make_context(qll_brush *brush)
{
    brush->map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(brush->map), brush->fonts);
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(brush->map), 72);
    brush->context = pango_font_map_create_context(brush->map);
    /* Paper has no pixels to fit to: the same line has the same width in PDF and PNG. */
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(brush->context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(brush->context, FALSE);
    pango_context_set_language(brush->context, pango_language_from_string("en"));
    pango_context_set_base_dir(brush->context, PANGO_DIRECTION_LTR);
    brush->layout = pango_layout_new(brush->context);
    pango_layout_set_single_paragraph_mode(brush->layout, TRUE);
    pango_layout_set_auto_dir(brush->layout, FALSE);
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new(QLL_FONT_FEATURES));
    pango_layout_set_attributes(brush->layout, attributes);
    pango_attr_list_unref(attributes);
}

qll_status qll_brush_open(qll_brush *brush, const char *folder, qll_arena *arena, const char **why)
{
    *why = "";
    *brush = (qll_brush){.fonts = FcConfigCreate()};
    if (brush->fonts == NULL) {
        return QLL_NO_MEMORY;
    }
    const char *from = folder == NULL ? qll_paper_font_folder : folder;
    for (size_t i = 0; i < QLL_WEIGHT_COUNT; i++) {
        if (!add_file(brush, from, weight_files[i], arena)) {
            return refuse_font(from, arena, why);
        }
    }
    if (FcConfigBuildFonts(brush->fonts) != FcTrue) {
        return QLL_NO_MEMORY;
    }
    make_context(brush);
    return has_family(brush) ? QLL_OK : refuse_font(from, arena, why);
}

void qll_brush_close(qll_brush *brush)
{
    g_clear_object(&brush->layout);
    g_clear_object(&brush->context);
    if (brush->map != NULL) {
        /* pango 1.50 keeps its reference to the configuration when the map ends. */
        pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(brush->map), NULL);
    }
    g_clear_object(&brush->map);
    if (brush->fonts != NULL) {
        FcConfigDestroy(brush->fonts);
        brush->fonts = NULL;
    }
}

static void set_colour(cairo_t *cairo, qll_colour colour)
{
    cairo_set_source_rgb(cairo, colour.red, colour.green, colour.blue);
}

/* Fills and strokes the path that cairo holds, and forgets it. */
static void paint(cairo_t *cairo, const qll_paint *paint)
{
    if (paint->is_filled) {
        set_colour(cairo, paint->fill);
        cairo_fill_preserve(cairo);
    }
    if (paint->pen.width_mm > 0) {
        size_t count = 0;
        double points[4] = {0};
        const double *lengths = qll_dash_lengths_mm(paint->pen.dash, &count);
        for (size_t i = 0; i < count; i++) {
            points[i] = QLL_POINTS(lengths[i]);
        }
        set_colour(cairo, paint->pen.colour);
        cairo_set_dash(cairo, points, (int)count, 0);
        cairo_set_line_width(cairo, QLL_POINTS(paint->pen.width_mm));
        cairo_stroke_preserve(cairo);
    }
    cairo_new_path(cairo);
}

static void draw_path(cairo_t *cairo, const qll_item *item)
{
    for (size_t i = 0; i < item->point_count; i++) {
        cairo_line_to(cairo, QLL_POINTS(item->points[i].x_mm), QLL_POINTS(item->points[i].y_mm));
    }
    if (item->is_closed) {
        cairo_close_path(cairo);
    }
    paint(cairo, &item->paint);
}

static void draw_circle(cairo_t *cairo, const qll_item *item)
{
    cairo_arc(cairo, QLL_POINTS(item->points[0].x_mm), QLL_POINTS(item->points[0].y_mm),
              QLL_POINTS(item->radius_mm), 0, 2 * acos(-1.0));
    cairo_close_path(cairo);
    paint(cairo, &item->paint);
}

static void draw_text(const qll_brush *brush, cairo_t *cairo, const qll_item *item)
{
    const qll_letters *letters = &item->letters;
    PangoFontDescription *font = pango_font_description_new();
    pango_font_description_set_family_static(font, QLL_FAMILY);
    pango_font_description_set_weight(
        font, letters->weight == QLL_WEIGHT_BOLD ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, QLL_POINTS(letters->size_mm) * PANGO_SCALE);
    pango_layout_set_font_description(brush->layout, font);
    pango_font_description_free(font);
    pango_layout_set_text(brush->layout, item->text.bytes, (int)item->text.size);

    int width = 0;
    pango_layout_get_size(brush->layout, &width, NULL);
    double drawn = (double)width / PANGO_SCALE;
    double room = QLL_POINTS(item->width_mm);
    double narrower = drawn > room ? room / drawn : 1;
    double share = letters->anchor == QLL_ANCHOR_START ? 0
                   : letters->anchor == QLL_ANCHOR_END ? 1
                                                       : 0.5;
    cairo_save(cairo);
    set_colour(cairo, letters->colour);
    cairo_translate(cairo, QLL_POINTS(item->points[0].x_mm), QLL_POINTS(item->points[0].y_mm));
    cairo_rotate(cairo, -letters->turned_deg * acos(-1.0) / 180);
    cairo_scale(cairo, narrower, 1);
    cairo_move_to(cairo, -share * drawn,
                  -(double)pango_layout_get_baseline(brush->layout) / PANGO_SCALE);
    pango_cairo_show_layout(cairo, brush->layout);
    cairo_restore(cairo);
    cairo_new_path(cairo);
}

void qll_brush_draw(const qll_brush *brush, cairo_t *cairo, const qll_item *item)
{
    switch (item->kind) {
    case QLL_ITEM_PATH: draw_path(cairo, item); break;
    case QLL_ITEM_CIRCLE: draw_circle(cairo, item); break;
    case QLL_ITEM_TEXT: draw_text(brush, cairo, item); break;
    case QLL_ITEM_BEGIN:
    case QLL_ITEM_END:
    case QLL_ITEM_PLACE:
    case QLL_ITEM_PAGE: break;
    }
}

cairo_status_t qll_brush_take_bytes(void *closure, const unsigned char *bytes, unsigned int size)
{
    qll_writer *writer = closure;
    qll_write_text(writer, (qll_text){(const char *)bytes, size});
    return CAIRO_STATUS_SUCCESS;
}

qll_status qll_brush_status(cairo_status_t status, const char **why)
{
    if (status == CAIRO_STATUS_SUCCESS) {
        return QLL_OK;
    }
    if (status == CAIRO_STATUS_NO_MEMORY) {
        return QLL_NO_MEMORY;
    }
    *why = cairo_status_to_string(status);
    return QLL_IO;
}
