/* A page of ours beside the JSON of the same answer: what a cell must show of a member, rounded as people read
 * it. */
#ifndef QUELL_TESTS_TOLD_H
#define QUELL_TESTS_TOLD_H

#include "base/document.h"
#include "check.h"
#include "html_tables.h"
#include "wording/texts.h"

typedef struct told {
    const char *name; /* of the case, for people */
    qll_language language;
    qll_unit_system units;
    html_tables tables;
    const qll_node *root;
    qll_arena *arena;
} told;

/* ---- of the document ---- */

static inline const qll_node *told_json(qll_text text, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_document_read(text, "answer", arena, document, &problems) == QLL_OK);
    return document->root;
}

/* NaN where the member is null or not there. */
static inline double number_at(const qll_node *node, const char *key)
{
    const qll_node *found = node == NULL ? NULL : qll_node_find(node, key);
    return found != NULL && found->kind == QLL_NODE_NUMBER ? found->number : (double)NAN;
}

static inline const char *text_at(const qll_node *node, const char *key, qll_arena *arena)
{
    const qll_node *found = node == NULL ? NULL : qll_node_find(node, key);
    return found == NULL ? "" : qll_text_closed(found->text, arena);
}

static inline bool is_true_at(const qll_node *node, const char *key)
{
    const qll_node *found = qll_node_find(node, key);
    return found != NULL && found->kind == QLL_NODE_TRUE;
}

/* The first of a list; NULL where there is none. */
static inline const qll_node *first_of(const qll_node *node, const char *key)
{
    const qll_node *found = node == NULL ? NULL : qll_node_find(node, key);
    return found == NULL ? NULL : found->first_child;
}

/* ---- as people read it ---- */

static inline const char *say(const told *of, qll_message message)
{
    return qll_say(of->language, message);
}

static inline const char *quantity(const told *of, double si, qll_kind kind)
{
    return qll_quantity_text(of->arena, si, kind, of->units);
}

static inline const char *quantity_beside(const told *of, double si, double other, qll_kind kind)
{
    qll_writer writer = qll_writer_new(of->arena);
    return isfinite(si) ? qll_text_beside(&writer, si, other, kind, of->units) : "-";
}

/* Without its unit. */
static inline const char *bare(const told *of, const char *text)
{
    const char *unit = strrchr(text, ' ');
    return unit == NULL ? text
                        : qll_text_closed((qll_text){text, (size_t)(unit - text)}, of->arena);
}

static inline const char *percent(const told *of, double share)
{
    qll_writer writer = qll_writer_new(of->arena);
    return qll_text_bare_share(&writer, share);
}

/* Beside what it is held against; NaN = nothing. */
static inline const char *figure_beside(const told *of, double value, double other, int decimals)
{
    qll_writer writer = qll_writer_new(of->arena);
    return isfinite(value) ? qll_text_decimals(&writer, value, other, decimals) : "-";
}

static inline const char *figure(const told *of, double value, int decimals)
{
    return figure_beside(of, value, (double)NAN, decimals);
}

/* "<20" of what no room is as quiet as. */
static inline const char *level(const told *of, double dba, double other, const char *unit)
{
    char *text = qll_arena_take(of->arena, 32, 1);
    bool is_low = dba < QLL_LEVEL_SHOWN_DBA;
    snprintf(text, 32, "%s%s%s", is_low ? "<" : "",
             is_low ? figure(of, QLL_LEVEL_SHOWN_DBA, 0) : figure_beside(of, dba, other, 0), unit);
    return isfinite(dba) ? text : "-";
}

static inline const char *filled(const told *of, qll_message message, const qll_filling *fillings,
                                 size_t count)
{
    qll_writer writer = qll_writer_new(of->arena);
    qll_say_with(&writer, of->language, message, fillings, count);
    return qll_writer_text(&writer).bytes;
}

/* "flow, gpm". */
static inline const char *head_in(const told *of, qll_message what, const char *unit)
{
    const qll_filling fillings[] = {{"what", say(of, what)}, {"unit", unit}};
    return filled(of, QLL_SAYS_WITH_UNIT, fillings, 2);
}

static inline const char *head_of(const told *of, qll_message what, qll_kind kind)
{
    return head_in(of, what, qll_units_name(kind, of->units));
}

/* ---- of the page ---- */

/* The table; NULL, and a failure, if the page has none. */
static inline const html_table *want_table(const told *of, qll_message caption, size_t nth)
{
    const html_table *table = html_table_named(&of->tables, say(of, caption), nth);
    if (!CHECK(table != NULL)) {
        printf("    %s: no table \"%s\"\n", of->name, say(of, caption));
    }
    return table;
}

static inline bool shows(const html_table *table, size_t row, const char *head, const char *text)
{
    const char *cell = html_cell_at(table, row, head);
    return cell != NULL && text != NULL && strcmp(cell, text) == 0;
}

static inline void want_cell(const told *of, const html_table *table, size_t row, const char *head,
                             const char *text)
{
    const char *cell = html_cell_at(table, row, head);
    if (!CHECK(cell != NULL && text != NULL && strcmp(cell, text) == 0)) {
        printf("    %s: %s, row %zu, \"%s\" shows \"%s\", told is \"%s\"\n", of->name,
               table->caption, row, head, cell == NULL ? "(null)" : cell,
               text == NULL ? "(null)" : text);
    }
}

static inline void want_row_count(const told *of, const html_table *table, size_t count)
{
    if (!CHECK(table->rows == count + 1)) {
        printf("    %s: %s has %zu rows, told are %zu\n", of->name, table->caption, table->rows - 1,
               count);
    }
}

#endif
