/* An answer before it is written: sections of blocks. The pens are sheet_text.h, html.h and layout.h. */
#ifndef QUELL_REPORT_SHEET_H
#define QUELL_REPORT_SHEET_H

#include "base/units.h"
#include "report/canvas.h"
#include "wording/messages.h"

/** X(NAME, word of --sections). In the order of a design's report; the cautions are in every one. */
#define QLL_SECTION_LIST(X)           \
    X(COVER, "cover")                 \
    X(CAUTIONS, "cautions")           \
    X(STATION, "station")             \
    X(COMMISSIONING, "commissioning") \
    X(SERVICE, "service")             \
    X(VERDICTS, "verdicts")           \
    X(ALTERNATIVES, "alternatives")   \
    X(EXPECT, "expect")               \
    X(DEMAND, "demand")               \
    X(SURVEY, "survey")               \
    X(FIGURES, "figures")             \
    X(SOURCES, "sources")

typedef enum qll_section_kind {
#define QLL_SECTION_NAME(name, word) QLL_SECTION_##name,
    QLL_SECTION_LIST(QLL_SECTION_NAME)
#undef QLL_SECTION_NAME
    QLL_SECTION_COUNT
} qll_section_kind;

extern const char *const qll_section_words[QLL_SECTION_COUNT];

typedef enum qll_block_kind {
    QLL_BLOCK_HEADING, /* within a section, level 3 */
    QLL_BLOCK_PARAGRAPH,
    QLL_BLOCK_LEAD, /* a paragraph in larger letters: the one sentence to remember */
    QLL_BLOCK_LIST,
    QLL_BLOCK_STEPS, /* a numbered list */
    QLL_BLOCK_CAUTIONS,
    QLL_BLOCK_TABLE,
    QLL_BLOCK_FIGURE,
    QLL_BLOCK_VERBATIM, /* lines to be copied as they stand, each closed by a newline */
} qll_block_kind;

/** How a cell stands out; always beside a word that says the same. */
typedef enum qll_tone {
    QLL_TONE_PLAIN,
    QLL_TONE_GOOD,
    QLL_TONE_CAUTION,
    QLL_TONE_FAIL,
    QLL_TONE_COUNT
} qll_tone;

typedef struct qll_cell {
    const char *text;
    qll_tone tone;
    bool is_box;   /* empty, to be written in by hand; the text names its unit */
    double box_mm; /* its least width on paper */
} qll_cell;

/** Least widths of what is written in by hand, mm: a tick, a letter, a reading with its unit, a date or a name. No box
 * on paper is less high than the last (our assumption: a hand's figures are 5 to 7 mm high). */
#define QLL_BOX_TICK_MM    8.0
#define QLL_BOX_READING_MM 15.0
#define QLL_BOX_DATE_MM    28.0
#define QLL_BOX_NAME_MM    40.0
#define QLL_BOX_HIGH_MM    10.0

typedef struct qll_table_block {
    const char *caption;
    const char *align;              /* one 'l' or 'r' per column */
    const qll_cell *cells;          /* the first row holds the column heads; rows are complete */
    size_t column_count, row_count; /* heads counted */
    bool has_row_heads;             /* the first cell of a row names it */
    bool names_itself;              /* its heads say what it is: on paper its caption is left out */
    bool fills_page; /* its last row is repeated on paper as often as the page has room */
} qll_table_block;

typedef struct qll_figure_block {
    const qll_canvas *canvas; /* its first page */
    const qll_canvas *low;    /* the same in less height, for what is left of a page; NULL = none */
    const qll_canvas *half; /* the same in less than half the width, beside another; NULL = none */
    const char *id;         /* unique in the report: letters, digits, "-" */
    const char *title, *description;
} qll_figure_block;

typedef struct qll_block {
    qll_block_kind kind;
    const char *text;         /* heading, paragraph, lead, verbatim */
    const char *const *items; /* list, steps, cautions */
    size_t item_count;
    qll_table_block table;
    qll_figure_block figure;
} qll_block;

/** What a number is given to: sections of one chapter stand under one, those of an appendix have letters. */
typedef enum qll_chapter {
    QLL_CHAPTER_NONE, /* sheets without numbers */
    QLL_CHAPTER_INSTALL,
    QLL_CHAPTER_COMMISSIONING,
    QLL_CHAPTER_SERVICE,
    QLL_CHAPTER_WHY,
    QLL_CHAPTER_EXPECT,
    QLL_CHAPTER_DEMAND,
    QLL_CHAPTER_SURVEY, /* the appendix begins */
    QLL_CHAPTER_FIGURES,
    QLL_CHAPTER_SOURCES
} qll_chapter;

typedef struct qll_section_sheet {
    qll_section_kind kind;
    qll_chapter chapter;
    int level;           /* of its heading: 2, or 3 of one that does not begin its chapter */
    const char *heading; /* number and all */
    const qll_block *blocks;
    size_t block_count;
} qll_section_sheet;

/** Whether the first two of @p count blocks are figures that stand side by side. */
bool qll_are_beside(const qll_block *blocks, size_t count);

/** A line of the title block. */
typedef struct qll_title_field {
    const char *label;
    const char *value; /* "" = room to write in */
    bool is_wide;      /* takes a row for itself */
} qll_title_field;

/** What an official sheet is known by; none where there are no fields. */
typedef struct qll_title_block {
    const qll_title_field *fields;
    size_t field_count;
    const char *stamp; /* what the box beside them is for */
} qll_title_block;

/** Grows in an arena. What finds no room there is left out; the arena counts it. */
typedef struct qll_sheet {
    qll_arena *arena;
    qll_language language;
    qll_unit_system units; /* Letter for US, A4 for SI */
    const char *title;     /* what it is */
    const char *subject;   /* the name of the survey */
    qll_title_block title_block;
    bool runs_on; /* sheets of a few pages: no section begins a page of its own */
    size_t chapter_count, appendix_count; /* numbers given away, as the next three */
    size_t table_count, figure_count;
    qll_section_sheet sections[QLL_SECTION_COUNT];
    size_t section_count;
    qll_block *blocks; /* of the section that is being written */
    size_t block_count, block_room;
    const char **items; /* of the list that is being written */
    size_t item_count, item_room;
    qll_cell *cells; /* of the table that is being written */
    size_t cell_count, cell_room;
} qll_sheet;

qll_sheet qll_sheet_new(qll_arena *arena, qll_language language, qll_unit_system units);

/** Begins a section; a section without blocks is left out. Texts are kept, not copied. */
void qll_sheet_section(qll_sheet *sheet, qll_section_kind kind, const char *heading);

/** The same in @p chapter: it is numbered, and so are its tables and figures. */
void qll_sheet_numbered(qll_sheet *sheet, qll_section_kind kind, qll_chapter chapter,
                        const char *heading);

/** Whether a sheet is taken to the station, and read there alone. */
static inline bool qll_is_carried(qll_section_kind kind)
{
    return kind == QLL_SECTION_COMMISSIONING || kind == QLL_SECTION_SERVICE;
}

/** Whether the section belongs to the appendix. */
static inline bool qll_is_appendix(const qll_section_sheet *section)
{
    return section->chapter >= QLL_CHAPTER_SURVEY;
}

/** Ends the last section; nothing may follow. */
void qll_sheet_end(qll_sheet *sheet);

/** Heading, paragraph, lead or verbatim. */
void qll_sheet_text(qll_sheet *sheet, qll_block_kind kind, const char *text);

/** An item for the list that qll_sheet_list() closes. */
void qll_sheet_item(qll_sheet *sheet, const char *text);

/** Makes one block of the items since the last list; no block of none. */
void qll_sheet_list(qll_sheet *sheet, qll_block_kind kind);

/** Cells for the table that qll_sheet_table() closes, row by row, the column heads first. */
void qll_sheet_cell(qll_sheet *sheet, const char *text);
void qll_sheet_cell_tone(qll_sheet *sheet, const char *text, qll_tone tone);
void qll_sheet_cell_box(qll_sheet *sheet, const char *unit, double least_mm);

/** Makes a table of the cells since the last one; no block if there is no row but the heads. */
void qll_sheet_table(qll_sheet *sheet, const char *caption, const char *align, bool has_row_heads);

/** The table that was made last, still to be told how it stands on paper; NULL where it found no room. */
qll_table_block *qll_sheet_last_table(qll_sheet *sheet);

/** Takes number and caption from the table that was made last: its heads say what it is, and @p caption is only for
 * those who do not see them. */
void qll_sheet_name_by_heads(qll_sheet *sheet, const char *caption);

void qll_sheet_figure(qll_sheet *sheet, const qll_figure_block *figure);

#endif
