#include "report/theme.h"

#include "report/markup.h"

#include <math.h>

enum {
    QLL_INK = 100,
    QLL_TONES = 101,
    QLL_CURVES = 5
};

_Static_assert(QLL_TONES + QLL_CURVES == QLL_THEME_NAMES, "colours");

typedef struct named_colour {
    const char *name;
    qll_colour light, dark;
} named_colour;

/* Of qll_look_of(); in the dark lighter and less strong: our choice, as bright against the paper there as here. */
static const named_colour curves[QLL_CURVES] = {
    {"blue", {0, 0.447, 0.698}, {0.4, 0.741, 0.929}},
    {"vermilion", {0.835, 0.369, 0}, {1, 0.62, 0.361}},
    {"green", {0, 0.62, 0.451}, {0.298, 0.839, 0.659}},
    {"purple", {0.8, 0.475, 0.655}, {0.886, 0.639, 0.78}},
    {"grey", {0.35, 0.35, 0.35}, {0.72, 0.72, 0.72}},
};

/* Paper and ink of a page in the dark. */
#define QLL_DARK_PAPER 0.11
#define QLL_DARK_INK   0.91

static bool is_near(double a, double b)
{
    return fabs(a - b) < 1e-3;
}

/* The place of a colour's name; QLL_THEME_NAMES if it has none. */
static size_t name_of(qll_colour colour)
{
    for (size_t i = 0; i < QLL_CURVES; i++) {
        const qll_colour *light = &curves[i].light;
        if (is_near(colour.red, light->red) && is_near(colour.green, light->green)
            && is_near(colour.blue, light->blue)) {
            return QLL_TONES + i;
        }
    }
    bool is_grey = is_near(colour.red, colour.green) && is_near(colour.red, colour.blue);
    bool is_within = colour.red >= 0 && colour.red <= 1;
    return is_grey && is_within ? (size_t)lround((1 - colour.red) * QLL_INK)
                                : (size_t)QLL_THEME_NAMES;
}

/* "ink", "paper", "tone-25", "blue" */
static void write_name(qll_writer *writer, size_t name)
{
    if (name >= QLL_TONES) {
        qll_write(writer, curves[name - QLL_TONES].name);
    } else if (name == 0 || name == QLL_INK) {
        qll_write(writer, name == 0 ? "paper" : "ink");
    } else {
        qll_write_format(writer, "tone-%zu", name);
    }
}

static qll_colour light_of(size_t name)
{
    return name >= QLL_TONES ? curves[name - QLL_TONES].light : QLL_GREY((double)name / QLL_INK);
}

static qll_colour dark_of(size_t name)
{
    double level = QLL_DARK_PAPER + (QLL_DARK_INK - QLL_DARK_PAPER) * (double)name / QLL_INK;
    return name >= QLL_TONES ? curves[name - QLL_TONES].dark : (qll_colour){level, level, level};
}

static bool is_stroked(const qll_paint *paint)
{
    return paint->pen.width_mm > 0;
}

void qll_theme_write_class(qll_writer *writer, const qll_paint *paint)
{
    size_t fill = paint->is_filled ? name_of(paint->fill) : (size_t)QLL_THEME_NAMES;
    size_t line = is_stroked(paint) ? name_of(paint->pen.colour) : (size_t)QLL_THEME_NAMES;
    if (fill == QLL_THEME_NAMES && line == QLL_THEME_NAMES) {
        return;
    }
    qll_write(writer, " class=\"");
    if (fill < QLL_THEME_NAMES) {
        qll_write(writer, "f-");
        write_name(writer, fill);
    }
    if (line < QLL_THEME_NAMES) {
        qll_write(writer, fill < QLL_THEME_NAMES ? " s-" : "s-");
        write_name(writer, line);
    }
    qll_write(writer, "\"");
}

static void use(qll_theme_used *used, const qll_item *item)
{
    if (item->kind == QLL_ITEM_TEXT) {
        used->fills[name_of(item->letters.colour)] = true;
    } else if (item->kind == QLL_ITEM_PATH || item->kind == QLL_ITEM_CIRCLE) {
        size_t fill = item->paint.is_filled ? name_of(item->paint.fill) : (size_t)QLL_THEME_NAMES;
        used->fills[fill] = true;
        used->lines[is_stroked(&item->paint) ? name_of(item->paint.pen.colour)
                                             : (size_t)QLL_THEME_NAMES] = true;
    }
}

void qll_theme_see(qll_theme_used *used, const qll_item *items, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        use(used, &items[i]);
    }
}

/* "#map-2-svg .f-ink{fill:var(--quell-ink,#000000)}" */
static void write_rule(qll_writer *writer, const char *id, const char *property, size_t name,
                       bool has_dark)
{
    qll_write(writer, "#");
    qll_markup_write(writer, id);
    qll_write_format(writer, "-svg .%c-", property[0]);
    write_name(writer, name);
    qll_write_format(writer, "{%s:var(--quell-", property);
    write_name(writer, name);
    qll_write(writer, has_dark ? ",light-dark(" : ",");
    qll_markup_write_colour(writer, light_of(name));
    if (has_dark) {
        qll_write(writer, ",");
        qll_markup_write_colour(writer, dark_of(name));
        qll_write(writer, ")");
    }
    qll_write(writer, ")}\n");
}

static void write_rules(qll_writer *writer, const qll_theme_used *used, const char *id,
                        bool has_dark)
{
    for (size_t name = 0; name < QLL_THEME_NAMES; name++) {
        if (used->fills[name]) {
            write_rule(writer, id, "fill", name, has_dark);
        }
        if (used->lines[name]) {
            write_rule(writer, id, "stroke", name, has_dark);
        }
    }
}

void qll_theme_write_style(qll_writer *writer, const qll_theme_used *used, const char *id)
{
    qll_write(writer, "<style>\n");
    write_rules(writer, used, id, false);
    /* Whoever does not know light-dark() keeps what is above. */
    qll_write(writer, "@supports (color:light-dark(#000,#fff)){\n");
    write_rules(writer, used, id, true);
    qll_write(writer, "}\n</style>\n");
}

/* "svg .f-ink{fill:#e8e8e8}" */
static void write_dark(qll_writer *writer, const char *property, size_t name)
{
    qll_write_format(writer, "svg .%c-", property[0]);
    write_name(writer, name);
    qll_write_format(writer, "{%s:", property);
    qll_markup_write_colour(writer, dark_of(name));
    qll_write(writer, "}\n");
}

void qll_theme_write_dark(qll_writer *writer, const qll_theme_used *used)
{
    for (size_t name = 0; name < QLL_THEME_NAMES; name++) {
        if (used->fills[name]) {
            write_dark(writer, "fill", name);
        }
        if (used->lines[name]) {
            write_dark(writer, "stroke", name);
        }
    }
}
