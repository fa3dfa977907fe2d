/* The tables of a page of ours, read back by caption, head and row. */
#ifndef QUELL_TESTS_HTML_TABLES_H
#define QUELL_TESTS_HTML_TABLES_H

#include "base/text.h"
#include "html_check.h"

typedef struct html_table {
    const char *caption;
    size_t columns, rows; /* heads counted */
    const char **cells;   /* [row * columns + column]; the text alone, blanks squeezed */
} html_table;

typedef struct html_tables {
    html_table *tables;
    size_t count;
} html_tables;

/* The text between @p from and @p to without its tags, one blank between words. */
static inline const char *html_text(const char *from, const char *to, qll_arena *arena)
{
    char *text = qll_arena_copy(arena, from, (size_t)(to - from));
    html_strip(text);
    char *end = text;
    for (const char *at = text; *at != '\0'; at++) {
        bool is_blank = *at == ' ' || *at == '\n';
        if (!is_blank || (end > text && end[-1] != ' ')) {
            *end++ = is_blank ? ' ' : *at;
        }
    }
    end -= end > text && end[-1] == ' ' ? 1 : 0;
    *end = '\0';
    return text;
}

/* The next cell's tag at or behind @p at, before @p end; NULL if there is none. */
static inline const char *html_cell(const char *at, const char *end)
{
    for (; at + 4 < end; at++) {
        if (at[0] == '<' && at[1] == 't' && (at[2] == 'd' || at[2] == 'h')
            && (at[3] == '>' || at[3] == ' ')) {
            return at;
        }
    }
    return NULL;
}

static inline void html_table_read(html_table *table, const char *from, const char *end,
                                   qll_arena *arena)
{
    const char *caption = strstr(from, "<caption>");
    const char *closed = strstr(from, "</caption>");
    bool is_captioned = caption != NULL && caption < end && CHECK(closed != NULL && closed < end);
    table->caption = is_captioned ? html_text(caption, closed, arena) : "";
    size_t count = 0;
    for (const char *at = html_cell(from, end); at != NULL; at = html_cell(at + 1, end)) {
        count += 1;
    }
    table->cells = qll_arena_take(arena, count, sizeof *table->cells);
    size_t made = 0;
    for (const char *at = html_cell(from, end); at != NULL; at = html_cell(at + 1, end)) {
        const char *close = strstr(at, at[2] == 'd' ? "</td>" : "</th>");
        table->cells[made] = html_text(at, close == NULL ? end : close, arena);
        made += 1;
    }
    for (const char *at = strstr(from, "<tr>"); at != NULL && at < end;
         at = strstr(at + 1, "<tr>")) {
        table->rows += 1;
    }
    table->columns = table->rows == 0 ? 0 : count / table->rows;
    CHECK(table->rows >= 2 && table->columns * table->rows == count);
}

static inline html_tables html_tables_of(const char *html, qll_arena *arena)
{
    html_tables made = {0};
    for (const char *at = strstr(html, "<table>"); at != NULL; at = strstr(at + 1, "<table>")) {
        made.count += 1;
    }
    made.tables = qll_arena_take(arena, made.count, sizeof *made.tables);
    memset(made.tables, 0, made.count * sizeof *made.tables);
    const char *at = html;
    for (size_t i = 0; i < made.count; i++) {
        at = strstr(at, "<table>") + 1;
        html_table_read(&made.tables[i], at, strstr(at, "</table>"), arena);
    }
    return made;
}

/* "Table 3. Parts" is captioned "Parts". */
static inline bool html_is_captioned(const char *numbered, const char *caption)
{
    size_t size = strlen(numbered);
    size_t bare = strlen(caption);
    if (size <= bare + 2) {
        return strcmp(numbered, caption) == 0;
    }
    const char *end = numbered + size - bare;
    return strcmp(end, caption) == 0 && end[-1] == ' ' && end[-2] == '.';
}

/* The @p nth table (from 0) under @p caption; NULL if there is none. */
static inline const html_table *html_table_named(const html_tables *tables, const char *caption,
                                                 size_t nth)
{
    for (size_t i = 0; i < tables->count; i++) {
        if (html_is_captioned(tables->tables[i].caption, caption)) {
            if (nth == 0) {
                return &tables->tables[i];
            }
            nth -= 1;
        }
    }
    return NULL;
}

/* The cell of row @p row (from 1) under @p head; NULL, and a failure, if it is not there. */
static inline const char *html_cell_at(const html_table *table, size_t row, const char *head)
{
    for (size_t c = 0; c < table->columns && row < table->rows; c++) {
        if (strcmp(table->cells[c], head) == 0) {
            return table->cells[row * table->columns + c];
        }
    }
    (void)check_report(false, __FILE__, __LINE__, "the table has the row and the head");
    printf("    %s, row %zu of %zu: \"%s\"\n", table->caption, row, table->rows, head);
    return NULL;
}

#endif
