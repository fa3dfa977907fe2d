#include "report/html.h"

#include "report/markup.h"
#include "report/svg.h"
#include "report/theme.h"

#include <string.h>

static const char style_screen[] =
    "body{font-family:Inter,Helvetica,Arial,sans-serif;font-size:1rem;line-height:1.45;color:#111;"
    "background:#fff;max-width:62rem;margin:0 auto;padding:1rem;overflow-wrap:break-word}\n"
    "h1{font-size:1.8rem;line-height:1.2;margin:.5rem 0}h2{font-size:1.35rem;margin:2rem 0 .5rem;"
    "border-bottom:2px solid #111;padding-bottom:.2rem}h3{font-size:1.1rem;margin:1.4rem 0 .4rem}\n"
    ".subject{font-size:1.2rem;margin:0 0 1rem}.lead{font-size:1.2rem}\n"
    "a{color:#003d7a;display:inline-block;padding:.65rem 0}"
    "nav ul{list-style:none;padding:0;columns:16rem}\n"
    "table{border-collapse:collapse;width:100%;margin:.6rem 0 1rem;font-size:.92rem}\n"
    "caption{text-align:left;font-weight:bold;padding:.3rem 0}\n"
    "th,td{border:1px solid #767676;padding:.25rem .5rem;vertical-align:top;text-align:left}\n"
    "thead th{background:#e8e8e8}tbody th{font-weight:normal}.r{text-align:right}\n"
    "td.box{min-width:5rem;height:2.75rem;border:2px solid #111;text-align:right;color:#444}\n"
    ".quiet{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}"
    ".wide{overflow-x:auto}.wide :is(th,td){white-space:nowrap}\n"
    "figure{margin:1rem 0}figcaption{font-size:.92rem}.drawn{overflow-x:auto}"
    ".drawn svg{max-width:100%;min-width:38rem;height:auto}pre{white-space:pre-wrap}\n"
    ".pair{display:flex;flex-wrap:wrap;gap:0 1.5rem}.pair figure{flex:1 1 21rem;min-width:0}"
    ".pair .drawn svg{width:100%;max-width:30rem;min-width:20.5rem}\n"
    ".caution{border:3px solid #111;padding:.3rem 1rem;background:#fff8d6}\n"
    ".title{display:flex;flex-wrap:wrap;border:1px solid #111}.title dl{flex:3 1 20rem;display:flex;"
    "flex-wrap:wrap;margin:0}.title dl div{flex:1 1 40%;display:flex;gap:.5rem;border-bottom:1px solid #767676;"
    "padding:.2rem .4rem;min-height:1.5rem}.title .whole{flex-basis:100%}.title dt{flex:0 0 7rem;"
    "color:#444}.title dd{margin:0}.stamp{flex:1 1 10rem;min-height:6rem;margin:0;padding:.2rem .4rem;"
    "border-left:1px solid #111;color:#444}\n";

/* Wide tables become cards: a row one below the other, each cell behind the head of its column. */
static const char style_narrow[] =
    "@media screen and (max-width:48rem){\n"
    ".cards thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}\n"
    ".cards :is(table,caption,tbody,tr){display:block}.cards tr{border:1px solid #767676;"
    "margin:0 0 .8rem}\n"
    ".cards :is(td,tbody th){display:grid;grid-template-columns:minmax(6rem,38%) 1fr;gap:.8rem;"
    "border-width:0 0 1px;min-height:1.5rem;text-align:left}\n"
    ".title dl div{flex-basis:100%}.cards tbody th{display:block;font-weight:bold}.cards td:empty:not(.box){display:none}\n"
    ".cards td::before{content:attr(data-label)}.cards td.box{align-items:center;height:auto;"
    "min-height:2.75rem;border:2px solid #111}"
    ".log tbody tr:nth-child(n+4){display:none}}\n";

static const char style_dark[] = "@media screen and (prefers-color-scheme:dark){\n"
                                 ":root{color-scheme:dark}body{color:#e8e8e8;background:#1c1c1c}\n"
                                 "h2,.caution,td.box,.cards td.box{border-color:#e8e8e8}\n"
                                 "a{color:#9ecbff;background:#1c1c1c}\n"
                                 "thead th{color:#e8e8e8;background:#3a3a3a}\n"
                                 "td.box{color:#c8c8c8;background:#1c1c1c}\n"
                                 ".caution{color:#e8e8e8;background:#3a3418}"
                                 ".title,.stamp{border-color:#e8e8e8}"
                                 ".title dt,.stamp{color:#c8c8c8;background:#1c1c1c}\n";

static const char style_print[] =
    "body{max-width:none;padding:0;font-size:9.5pt;line-height:1.3;print-color-adjust:exact}"
    "nav,.up{display:none}"
    "h1{font-size:16pt}h2{font-size:13pt;margin:4mm 0 1.5mm}h3{font-size:11pt;margin:3mm 0 1mm}"
    ".lead,.subject{font-size:11pt}p,ul,ol{margin:1.5mm 0}"
    "table,figcaption{font-size:9pt}table{margin:1mm 0 2mm}th,td{padding:.5mm 1.2mm}"
    "td.box{height:10mm}figure{margin:2mm 0}.drawn,.wide{overflow:visible}.wide :is(th,td){white-space:normal}.drawn svg{min-width:0}"
    ".pair{flex-wrap:nowrap;gap:4mm}.pair figure{flex:1 1 0}.pair .drawn svg{min-width:0;width:100%}\n"
    "h2,h3,caption,thead{break-after:avoid}tr,li,figure,.pair,.kept,.caution{break-inside:avoid}"
    ".caution ul{padding:0}.caution li{display:inline}.caution li+li::before{content:\" \\2022  \"}"
    "tbody tr:first-child{break-before:avoid}thead{display:table-header-group}"
    "#commissioning,#service,#service+section,.whole-log,.appendix{break-before:page}p,li{orphans:2;widows:2}}\n";

qll_ink qll_tone_ink(qll_tone tone)
{
    static const qll_ink inks[QLL_TONE_COUNT] = {
        [QLL_TONE_PLAIN] = {{0.067, 0.067, 0.067}, {1.0, 1.0, 1.0}},
        [QLL_TONE_GOOD] = {{0.0, 0.31, 0.16}, {1.0, 1.0, 1.0}},
        [QLL_TONE_CAUTION] = {{0.29, 0.20, 0.0}, {1.0, 0.95, 0.75}},
        [QLL_TONE_FAIL] = {{0.55, 0.0, 0.0}, {1.0, 0.90, 0.90}},
    };
    return inks[tone];
}

qll_ink qll_tone_ink_in_the_dark(qll_tone tone)
{
    static const qll_ink inks[QLL_TONE_COUNT] = {
        [QLL_TONE_PLAIN] = {{0.91, 0.91, 0.91}, {0.11, 0.11, 0.11}},
        [QLL_TONE_GOOD] = {{0.60, 0.90, 0.72}, {0.06, 0.20, 0.13}},
        [QLL_TONE_CAUTION] = {{1.0, 0.86, 0.50}, {0.25, 0.19, 0.04}},
        [QLL_TONE_FAIL] = {{1.0, 0.72, 0.70}, {0.32, 0.06, 0.06}},
    };
    return inks[tone];
}

static const char *const tone_classes[QLL_TONE_COUNT] = {"", "good", "warn", "fail"};

static void write_tones(qll_writer *writer, qll_ink ink_of(qll_tone))
{
    for (int tone = QLL_TONE_GOOD; tone < QLL_TONE_COUNT; tone++) {
        qll_ink ink = ink_of((qll_tone)tone);
        qll_write_format(writer, ".%s{font-weight:bold;color:", tone_classes[tone]);
        qll_markup_write_colour(writer, ink.ink);
        qll_write(writer, ";background:");
        qll_markup_write_colour(writer, ink.paper);
        qll_write(writer, "}\n");
    }
}

/* The colours of every drawing of the sheet. */
static qll_theme_used drawn_names(const qll_sheet *sheet)
{
    qll_theme_used used = {.fills = {false}};
    for (size_t s = 0; s < sheet->section_count; s++) {
        for (size_t b = 0; b < sheet->sections[s].block_count; b++) {
            const qll_block *block = &sheet->sections[s].blocks[b];
            if (block->kind == QLL_BLOCK_FIGURE) {
                const qll_canvas *canvas = block->figure.canvas; /* in half the width the same */
                qll_theme_see(&used, canvas->items, canvas->count);
            }
        }
    }
    return used;
}

static void write_style(qll_writer *writer, const qll_sheet *sheet)
{
    const qll_theme_used used = drawn_names(sheet);
    qll_write(writer, "<style>\n");
    qll_write(writer, style_screen);
    write_tones(writer, qll_tone_ink);
    qll_write(writer, style_narrow);
    qll_write(writer, style_dark);
    write_tones(writer, qll_tone_ink_in_the_dark);
    qll_theme_write_dark(writer, &used);
    qll_write(writer, sheet->units == QLL_UNITS_SI ? "}\n@page{size:A4;margin:21mm 18mm}\n"
                                                   : "}\n@page{size:letter;margin:16mm 18mm}\n");
    qll_write(writer, "@media print{");
    qll_write(writer, style_print);
    qll_write(writer, "</style>\n");
}

static bool is_digit(qll_text text, size_t at)
{
    return at < text.size && text.bytes[at] >= '0' && text.bytes[at] <= '9';
}

static bool is_letter(qll_text text, size_t at)
{
    return at < text.size
           && ((text.bytes[at] >= 'a' && text.bytes[at] <= 'z')
               || (text.bytes[at] >= 'A' && text.bytes[at] <= 'Z'));
}

/* The hyphen of "2-1/2", or of a name such as "G-D20". */
static bool is_joint(qll_text text, size_t at)
{
    const qll_text behind = {text.bytes + at + 1, text.size - at - 1};
    if (text.bytes[at] != '-' || at == 0) {
        return false;
    }
    const bool is_one_letter = is_letter(text, at - 1) && (at == 1 || text.bytes[at - 2] == ' ');
    return (is_one_letter && (is_letter(text, at + 1) || is_digit(text, at + 1)))
           || (is_digit(text, at - 1) && is_digit(text, at + 1)
               && memchr(behind.bytes, '/', behind.size) != NULL);
}

/* Text from anywhere; a number stays with its unit, and "2-1/2" is one word. */
static void write_shown(qll_writer *writer, const char *closed)
{
    qll_text text = qll_text_clean(qll_text_of(closed), writer->arena);
    size_t start = 0;
    for (size_t i = 0; i < text.size; i++) {
        const qll_text behind = {text.bytes + i + 1, text.size - i - 1};
        bool is_glued =
            text.bytes[i] == ' ' && qll_text_is_number_and_unit((qll_text){text.bytes, i}, behind);
        if (is_glued || is_joint(text, i)) {
            qll_markup_write_clean(writer, (qll_text){text.bytes + start, i - start});
            qll_write(writer, is_glued ? "&nbsp;" : "&#8209;");
            start = i + 1;
        }
    }
    qll_markup_write_clean(writer, (qll_text){text.bytes + start, text.size - start});
}

static void write_element(qll_writer *writer, const char *open, const char *text, const char *close)
{
    qll_write(writer, open);
    write_shown(writer, text);
    qll_write(writer, close);
}

static void write_items(qll_writer *writer, const qll_block *block, const char *tag)
{
    qll_write_format(writer, "<%s>\n", tag);
    for (size_t i = 0; i < block->item_count; i++) {
        write_element(writer, "<li>", block->items[i], "</li>\n");
    }
    qll_write_format(writer, "</%s>\n", tag);
}

static void write_heads(qll_writer *writer, const qll_table_block *table)
{
    qll_write(writer, "<thead><tr>");
    for (size_t c = 0; c < table->column_count; c++) {
        const char *text = table->cells[c].text;
        /* A column of marks has no head to read out. */
        if (text[0] == '\0') {
            qll_write(writer, "<td></td>");
            continue;
        }
        write_element(writer,
                      table->align[c] == 'r' ? "<th scope=\"col\" class=\"r\">"
                                             : "<th scope=\"col\">",
                      text, "</th>");
    }
    qll_write(writer, "</tr></thead>\n<tbody>\n");
}

/* Tables with so many columns find no room on a narrow screen; with so few rows one page of print holds them. */
#define QLL_WIDE_COLUMNS 4
#define QLL_KEPT_ROWS    12
/* What is no longer than this, "12.5 psi" or "cavitates hard", is read at a glance. */
#define QLL_SHORT_CELL   16

static bool is_all_short(const qll_table_block *table)
{
    bool is = true;
    for (size_t i = 0; i < table->row_count * table->column_count; i++) {
        const qll_cell *cell = &table->cells[i];
        is = is && !cell->is_box && qll_text_width(qll_text_of(cell->text)) <= QLL_SHORT_CELL;
    }
    return is;
}

/* How a table stands on a narrow screen: figures scroll, so that they can be compared; sentences and boxes are cards. */
typedef enum table_form {
    QLL_FORM_PLAIN,
    QLL_FORM_CARDS,
    QLL_FORM_SCROLLED
} table_form;

static table_form form_of(const qll_table_block *table)
{
    const bool has_reasons = table->column_count == 3 && table->align[2] == 'l';
    if (table->column_count < QLL_WIDE_COLUMNS && !has_reasons) {
        return QLL_FORM_PLAIN;
    }
    return is_all_short(table) ? QLL_FORM_SCROLLED : QLL_FORM_CARDS;
}

/* Behind the head of its column, for a screen on which rows are cards. */
static void write_cell(qll_writer *writer, const qll_table_block *table, table_form form,
                       const qll_cell *cell, size_t column)
{
    if (column == 0 && table->has_row_heads && cell->text[0] != '\0') {
        write_element(writer, "<th scope=\"row\">", cell->text, "</th>");
        return;
    }
    bool right = table->align[column] == 'r' && !cell->is_box;
    const char *tone = cell->is_box ? "box" : tone_classes[cell->tone];
    qll_write(writer, "<td");
    if (right || tone[0] != '\0') {
        qll_write_format(writer, " class=\"%s%s%s\"", right ? "r" : "",
                         right && tone[0] != '\0' ? " " : "", tone);
    }
    if (form == QLL_FORM_CARDS && table->cells[column].text[0] != '\0') {
        qll_write(writer, " data-label=\"");
        qll_markup_write(writer, table->cells[column].text);
        qll_write(writer, "\"");
    }
    write_element(writer, ">", cell->text, "</td>");
}

/* Whoever has only keys scrolls it by them. */
static void write_scrolled(qll_writer *writer, const char *name)
{
    qll_write(writer, " tabindex=\"0\" role=\"group\" aria-label=\"");
    qll_markup_write(writer, name);
    qll_write(writer, "\"");
}

static void write_row(qll_writer *writer, const qll_table_block *table, table_form form, size_t row)
{
    qll_write(writer, "<tr>");
    for (size_t c = 0; c < table->column_count; c++) {
        write_cell(writer, table, form, &table->cells[row * table->column_count + c], c);
    }
    qll_write(writer, "</tr>\n");
}

/* Rows of a log: a page of them, or where every page counts fewer (our choice). */
#define QLL_LOG_ROWS_PAGE  20
#define QLL_LOG_ROWS_SHORT 8

/* A table that fills its page has @p log_rows rows: in print nobody knows what its page leaves. */
static void write_table(qll_writer *writer, const qll_table_block *table, size_t log_rows)
{
    const table_form form = form_of(table);
    static const char *const forms[] = {"", " cards", " wide"};
    qll_write_format(writer, "<div class=\"%s%s%s\"",
                     table->row_count <= QLL_KEPT_ROWS ? "kept" : "long", forms[form],
                     !table->fills_page              ? ""
                     : log_rows > QLL_LOG_ROWS_SHORT ? " log whole-log"
                                                     : " log");
    if (form == QLL_FORM_SCROLLED) {
        write_scrolled(writer, table->caption);
    }
    qll_write(writer, "><table>\n");
    if (table->caption[0] != '\0') {
        write_element(writer, table->names_itself ? "<caption class=\"quiet\">" : "<caption>",
                      table->caption, "</caption>\n");
    }
    write_heads(writer, table);
    for (size_t row = 1; row < table->row_count; row++) {
        write_row(writer, table, form, row);
    }
    for (size_t row = table->row_count; table->fills_page && row <= log_rows; row++) {
        write_row(writer, table, form, table->row_count - 1);
    }
    qll_write(writer, "</tbody></table></div>\n");
}

static void write_figure(qll_writer *writer, const qll_figure_block *figure,
                         const qll_canvas *canvas)
{
    const qll_svg_about about = {.id = figure->id,
                                 .title = figure->title,
                                 .description = figure->description,
                                 .is_part = true,
                                 .is_styled = true};
    qll_write(writer, "<figure>\n<div class=\"drawn\"");
    write_scrolled(writer, figure->title);
    qll_write(writer, ">");
    qll_svg_write(writer, canvas, 0, &about);
    write_element(writer, "</div>\n<figcaption>", figure->title, "</figcaption></figure>\n");
}

/* Line by line, as a newline is no character that may be shown. */
static void write_verbatim(qll_writer *writer, const char *lines)
{
    qll_write(writer, "<pre>");
    while (*lines != '\0') {
        size_t size = strcspn(lines, "\n");
        qll_markup_write_clean(writer, qll_text_clean((qll_text){lines, size}, writer->arena));
        qll_write(writer, "\n");
        lines += size + (lines[size] == '\n' ? 1 : 0);
    }
    qll_write(writer, "</pre>\n");
}

static void write_block(qll_writer *writer, const qll_sheet *sheet, const qll_block *block)
{
    switch (block->kind) {
    case QLL_BLOCK_HEADING: write_element(writer, "<h3>", block->text, "</h3>\n"); break;
    case QLL_BLOCK_PARAGRAPH: write_element(writer, "<p>", block->text, "</p>\n"); break;
    case QLL_BLOCK_LEAD: write_element(writer, "<p class=\"lead\">", block->text, "</p>\n"); break;
    case QLL_BLOCK_LIST: write_items(writer, block, "ul"); break;
    case QLL_BLOCK_STEPS: write_items(writer, block, "ol"); break;
    case QLL_BLOCK_CAUTIONS:
        qll_write(writer, "<div class=\"caution\" role=\"note\">\n");
        write_items(writer, block, "ul");
        qll_write(writer, "</div>\n");
        break;
    case QLL_BLOCK_TABLE:
        write_table(writer, &block->table, sheet->runs_on ? QLL_LOG_ROWS_SHORT : QLL_LOG_ROWS_PAGE);
        break;
    case QLL_BLOCK_FIGURE: write_figure(writer, &block->figure, block->figure.canvas); break;
    case QLL_BLOCK_VERBATIM: write_verbatim(writer, block->text); break;
    }
}

/* So many chapters are found without (our choice; on paper it is pages that count). */
#define QLL_CHAPTERS_WITHOUT_CONTENTS 4

static bool has_contents(const qll_sheet *sheet)
{
    return sheet->chapter_count + sheet->appendix_count > QLL_CHAPTERS_WITHOUT_CONTENTS;
}

static void write_contents(qll_writer *writer, const qll_sheet *sheet)
{
    if (!has_contents(sheet)) {
        return;
    }
    const char *says = qll_say(sheet->language, QLL_SAYS_CONTENTS);
    qll_write_format(writer, "<nav id=\"contents\" aria-label=\"%s\">\n<ul>\n", says);
    for (size_t i = 0; i < sheet->section_count; i++) {
        const qll_section_sheet *section = &sheet->sections[i];
        if (section->level == 2) {
            qll_write_format(writer, "<li><a href=\"#%s\">", qll_section_words[section->kind]);
            write_element(writer, "", section->heading, "</a></li>\n");
        }
    }
    qll_write(writer, "</ul>\n</nav>\n");
}

/* The first of those behind the official sheets, where these do not run on. */
static bool begins_appendix(const qll_sheet *sheet, const qll_section_sheet *section)
{
    return !sheet->runs_on && section > sheet->sections && qll_is_appendix(section)
           && !qll_is_appendix(section - 1);
}

static void write_section(qll_writer *writer, const qll_sheet *sheet,
                          const qll_section_sheet *section)
{
    const char *word = qll_section_words[section->kind];
    qll_write_format(writer, "<section id=\"%s\"%s", word,
                     begins_appendix(sheet, section) ? " class=\"appendix\"" : "");
    if (section->heading[0] != '\0') {
        qll_write_format(writer, " aria-labelledby=\"%s-heading\">\n", word);
        qll_write_format(writer, "<h%d id=\"%s-heading\">", section->level, word);
        write_element(writer, "", section->heading, section->level == 2 ? "</h2>\n" : "</h3>\n");
    } else {
        qll_write(writer, ">\n");
    }
    for (size_t i = 0; i < section->block_count; i++) {
        const qll_block *block = &section->blocks[i];
        if (qll_are_beside(block, section->block_count - i)) {
            qll_write(writer, "<div class=\"pair\">\n");
            write_figure(writer, &block[0].figure, block[0].figure.half);
            write_figure(writer, &block[1].figure, block[1].figure.half);
            qll_write(writer, "</div>\n");
            i += 1;
        } else {
            write_block(writer, sheet, block);
        }
    }
    if (has_contents(sheet) && section->level == 2) {
        write_element(writer, "<p class=\"up\"><a href=\"#contents\">",
                      qll_say(sheet->language, QLL_SAYS_CONTENTS), "</a></p>\n");
    }
    qll_write(writer, "</section>\n");
}

static void write_title_block(qll_writer *writer, const qll_title_block *block)
{
    if (block->field_count == 0) {
        return;
    }
    qll_write(writer, "<div class=\"title\"><dl>\n");
    for (size_t i = 0; i < block->field_count; i++) {
        const qll_title_field *field = &block->fields[i];
        qll_write(writer, field->is_wide ? "<div class=\"whole\">" : "<div>");
        write_element(writer, "<dt>", field->label, "</dt>");
        write_element(writer, "<dd>", field->value, "</dd></div>\n");
    }
    write_element(writer, "</dl><p class=\"stamp\">", block->stamp, "</p></div>\n");
}

void qll_html_write(qll_writer *writer, const qll_sheet *sheet)
{
    qll_write(writer, "<!DOCTYPE html>\n<html lang=\"");
    qll_write(writer, qll_language_words[sheet->language]);
    qll_write(writer, "\">\n<head>\n<meta charset=\"utf-8\">\n"
                      "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n");
    const bool has_subject = sheet->subject[0] != '\0';
    write_element(writer, "<title>", sheet->title, has_subject ? ": " : "");
    write_element(writer, "", sheet->subject, "</title>\n");
    write_style(writer, sheet);
    qll_write(writer, "</head>\n<body>\n<header>\n");
    write_element(writer, "<h1>", sheet->title, "</h1>\n");
    if (has_subject) {
        write_element(writer, "<p class=\"subject\">", sheet->subject, "</p>\n");
    }
    write_title_block(writer, &sheet->title_block);
    write_contents(writer, sheet);
    qll_write(writer, "</header>\n<main>\n");
    for (size_t i = 0; i < sheet->section_count; i++) {
        write_section(writer, sheet, &sheet->sections[i]);
    }
    qll_write(writer, "</main>\n</body>\n</html>\n");
}
