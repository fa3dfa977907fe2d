/* A table is read in two passes over the same cells: the first checks and counts, so that memory is
 * taken at once and limits are met before anything is built; the second fills and cannot fail. */
#include "base/table.h"

#include "base/quote.h"
#include "base/source.h"

#include <assert.h>
#include <math.h>
#include <string.h>

typedef struct cell {
    size_t start;    /* byte on which it starts, the opening quote included */
    qll_text raw;    /* between the quotes if it has some */
    bool is_doubled; /* raw holds doubled quotes */
    bool is_last;    /* of its record */
} cell;

typedef struct reader {
    qll_scan scan;
    qll_table *table;
    int line;         /* of the byte line_at */
    size_t line_at;   /* how far lines have been counted */
    size_t pool_size; /* bytes of all cells with doubled quotes */
    size_t pool_used;
    char *pool;
} reader;

/* Bytes of the line break at @p at: 1 or 2, or 0 if there is none. */
static size_t break_size(const qll_scan *scan, size_t at)
{
    char byte = qll_scan_byte(scan, at);
    if (byte == '\n') {
        return 1;
    }
    return byte == '\r' && qll_scan_byte(scan, at + 1) == '\n' ? 2 : 0;
}

static bool at_end(const qll_scan *scan)
{
    return scan->at >= scan->source.size;
}

static bool refuse_control(const qll_scan *scan)
{
    if (qll_scan_byte(scan, scan->at) == '\r') {
        return qll_scan_refuse(scan, scan->at, QLL_CODE_SYNTAX, QLL_SAYS(LONE_RETURN),
                               QLL_SAYS(HINT_LINE_ENDS));
    }
    const qll_text character = {scan->source.bytes + scan->at, 1};
    return qll_scan_refuse(scan, scan->at, QLL_CODE_ENCODING,
                           QLL_SAYS_WITH(TABLE_CONTROL, qll_as_quoted(character)),
                           QLL_SAYS(HINT_REMOVE_IT));
}

static bool is_control(char byte)
{
    return ((unsigned char)byte < 0x20 && byte != '\t') || byte == 0x7F;
}

/* Moves behind the closing quote. */
static bool scan_quoted(qll_scan *scan, cell *one)
{
    scan->at += 1;
    one->raw.bytes = scan->source.bytes + scan->at;
    for (; !at_end(scan); scan->at++) {
        char byte = qll_scan_byte(scan, scan->at);
        if (byte == '"' && qll_scan_byte(scan, scan->at + 1) == '"') {
            one->is_doubled = true;
            scan->at += 1;
        } else if (byte == '"') {
            one->raw.size = (size_t)(scan->source.bytes + scan->at - one->raw.bytes);
            scan->at += 1;
            return true;
        } else if (is_control(byte) && byte != '\r' && byte != '\n') {
            return refuse_control(scan);
        }
    }
    return qll_scan_refuse(scan, one->start, QLL_CODE_SYNTAX, QLL_SAYS(QUOTE_NOT_CLOSED), NULL);
}

/* Moves to the separator or line break behind the cell. */
static bool scan_bare(qll_scan *scan, char separator, cell *one)
{
    one->raw.bytes = scan->source.bytes + scan->at;
    for (; !at_end(scan); scan->at++) {
        char byte = qll_scan_byte(scan, scan->at);
        if (byte == separator || break_size(scan, scan->at) > 0) {
            break;
        }
        if (byte == '"') {
            return qll_scan_refuse(scan, scan->at, QLL_CODE_SYNTAX, QLL_SAYS(QUOTE_INSIDE),
                                   QLL_SAYS(HINT_CELL_IN_QUOTES));
        }
        if (is_control(byte)) {
            return refuse_control(scan);
        }
    }
    one->raw.size = (size_t)(scan->source.bytes + scan->at - one->raw.bytes);
    return true;
}

static qll_argument separator_word(char separator)
{
    return qll_as_text(separator == ','   ? QLL_TEXT_SEPARATOR_COMMA
                       : separator == ';' ? QLL_TEXT_SEPARATOR_SEMICOLON
                                          : QLL_TEXT_SEPARATOR_TAB);
}

/* Reads the cell at scan->at and moves behind the separator or line break that ends it; false after
 * a refusal. */
static bool scan_cell(qll_scan *scan, char separator, cell *one)
{
    *one = (cell){.start = scan->at};
    bool is_quoted = qll_scan_byte(scan, scan->at) == '"';
    if (!(is_quoted ? scan_quoted(scan, one) : scan_bare(scan, separator, one))) {
        return false;
    }
    size_t line_break = break_size(scan, scan->at);
    if (at_end(scan) || line_break > 0) {
        one->is_last = true;
        scan->at += line_break;
        return true;
    }
    if (qll_scan_byte(scan, scan->at) == separator) {
        scan->at += 1;
        return true;
    }
    return qll_scan_refuse(scan, scan->at, QLL_CODE_SYNTAX,
                           QLL_SAYS_WITH(TEXT_BEHIND_QUOTE, separator_word(separator)),
                           QLL_SAYS(HINT_QUOTE_TWICE));
}

static void skip_empty_lines(qll_scan *scan)
{
    for (size_t size = break_size(scan, scan->at); size > 0; size = break_size(scan, scan->at)) {
        scan->at += size;
    }
}

/* Moves to the header, over empty lines and lines that start with '#'. */
static void skip_remarks(qll_scan *scan)
{
    skip_empty_lines(scan);
    while (qll_scan_byte(scan, scan->at) == '#') {
        while (!at_end(scan) && break_size(scan, scan->at) == 0) {
            scan->at += 1;
        }
        skip_empty_lines(scan);
    }
}

/* The cell's text, doubled quotes made single in the pool. */
static qll_text resolved(reader *work, const cell *one)
{
    if (!one->is_doubled) {
        return one->raw;
    }
    assert(one->raw.size <= work->pool_size - work->pool_used);
    char *start = work->pool + work->pool_used;
    size_t size = 0;
    for (size_t i = 0; i < one->raw.size; i++) {
        start[size] = one->raw.bytes[i];
        size += 1;
        i += one->raw.bytes[i] == '"' ? 1 : 0;
    }
    work->pool_used += size;
    return (qll_text){start, size};
}

/* What parts the columns of the header: the one of tab, semicolon and comma that stands in it outside
 * quotes. Names of columns hold none of them, so two of them leave it open. */
static bool find_separator(reader *work)
{
    static const char known[] = "\t;,";
    qll_scan *scan = &work->scan;
    bool is_quoted = false;
    char found = '\0';
    for (size_t at = scan->at; at < scan->source.size && break_size(scan, at) == 0; at++) {
        char byte = qll_scan_byte(scan, at);
        is_quoted = is_quoted != (byte == '"');
        if (is_quoted || byte == '\0' || strchr(known, byte) == NULL || byte == found) {
            continue;
        }
        if (found != '\0') {
            return qll_scan_refuse(
                scan, at, QLL_CODE_SYNTAX,
                QLL_SAYS_WITH(TWO_SEPARATORS, separator_word(found), separator_word(byte)), NULL);
        }
        found = byte;
    }
    work->table->separator = found == '\0' ? ',' : found;
    return true;
}

static bool count_columns(reader *work)
{
    qll_table *table = work->table;
    skip_remarks(&work->scan);
    table->header_start = work->scan.at;
    if (table->separator == '\0' && !find_separator(work)) {
        return false;
    }
    if (at_end(&work->scan)) {
        return qll_scan_refuse(&work->scan, work->scan.at, QLL_CODE_SYNTAX, QLL_SAYS(TABLE_EMPTY),
                               NULL);
    }
    cell one = {.is_last = false};
    while (!one.is_last) {
        if (table->column_count == QLL_TABLE_COLUMNS) {
            return qll_scan_refuse(&work->scan, work->scan.at, QLL_CODE_TOO_LARGE,
                                   QLL_SAYS_WITH(TOO_MANY_COLUMNS, qll_as_whole(QLL_TABLE_COLUMNS)),
                                   NULL);
        }
        if (!scan_cell(&work->scan, work->table->separator, &one)) {
            return false;
        }
        table->column_count += 1;
        work->pool_size += one.is_doubled ? one.raw.size : 0;
    }
    return true;
}

/* Lists a row with a wrong number of cells; places cost a walk over the text, so what the list
 * would not keep gets none. */
static void refuse_row(const reader *work, size_t cell_count, size_t offset)
{
    const qll_scan *scan = &work->scan;
    if (scan->problems->kept_count == QLL_PROBLEMS_KEPT) {
        qll_problems_add(scan->problems, (qll_fault){.code = QLL_CODE_BAD_ROW});
        return;
    }
    qll_writer path = qll_writer_new(scan->problems->arena);
    qll_write_format(&path, "row %zu", work->table->row_count + 1);
    const qll_argument expected = qll_as_whole(work->table->column_count);
    const qll_said one = {QLL_TEXT_FOUND_ONE_CELL, {expected}};
    const qll_said many = {QLL_TEXT_FOUND_CELLS, {qll_as_whole(cell_count), expected}};
    const qll_said hint = {QLL_TEXT_HINT_SEPARATOR_IN_QUOTES,
                           {separator_word(work->table->separator)}};
    qll_fault fault = {.code = QLL_CODE_BAD_ROW,
                       .place = qll_source_place(scan->source, scan->name, offset),
                       .says = cell_count == 1 ? &one : &many,
                       .hint = cell_count > work->table->column_count ? &hint : NULL};
    fault.place.path = qll_writer_text(&path).bytes;
    qll_problems_add(scan->problems, fault);
}

static bool count_row(reader *work)
{
    qll_scan *scan = &work->scan;
    const size_t expected = work->table->column_count;
    size_t cell_count = 0;
    size_t offset = scan->at;
    cell one = {.is_last = false};
    while (!one.is_last) {
        if (!scan_cell(scan, work->table->separator, &one)) {
            return false;
        }
        cell_count += 1;
        work->pool_size += one.is_doubled ? one.raw.size : 0;
        if (cell_count == expected + 1) {
            offset = one.start; /* the first that is too many */
        } else if (cell_count < expected && one.is_last) {
            offset = (size_t)(one.raw.bytes + one.raw.size - scan->source.bytes);
        }
    }
    if (cell_count != expected) {
        refuse_row(work, cell_count, offset);
    }
    return true;
}

static bool count_rows(reader *work)
{
    qll_scan *scan = &work->scan;
    for (skip_empty_lines(scan); !at_end(scan); skip_empty_lines(scan)) {
        if (work->table->row_count == QLL_TABLE_ROWS) {
            return qll_scan_refuse(scan, scan->at, QLL_CODE_TOO_LARGE,
                                   QLL_SAYS_WITH(TOO_MANY_ROWS, qll_as_whole(QLL_TABLE_ROWS)),
                                   NULL);
        }
        if (!count_row(work)) {
            return false;
        }
        work->table->row_count += 1;
    }
    return true;
}

/* Line of scan->at, counted on from the last time. */
static int line_here(reader *work)
{
    for (; work->line_at < work->scan.at; work->line_at++) {
        work->line += qll_scan_byte(&work->scan, work->line_at) == '\n' ? 1 : 0;
    }
    return work->line;
}

static void fill_record(reader *work, qll_text *cells)
{
    for (size_t i = 0; i < work->table->column_count; i++) {
        cell one;
        bool is_well = scan_cell(&work->scan, work->table->separator, &one);
        assert(is_well && one.is_last == (i + 1 == work->table->column_count));
        (void)is_well;
        cells[i] = resolved(work, &one);
    }
}

static bool fill_header(reader *work, qll_arena *arena)
{
    qll_table *table = work->table;
    qll_text *columns = qll_arena_take(arena, table->column_count, sizeof *columns);
    work->pool = qll_arena_take(arena, work->pool_size, 1);
    if (columns == NULL || work->pool == NULL) {
        return false;
    }
    work->scan.at = table->header_start;
    fill_record(work, columns);
    for (size_t i = 0; i < table->column_count; i++) {
        columns[i] = qll_text_trimmed(columns[i]);
    }
    table->columns = columns;
    return true;
}

static void refuse_column(const reader *work, size_t column, const qll_said *says)
{
    qll_place place =
        qll_table_place(work->table, QLL_TABLE_HEADER, column, work->scan.problems->arena);
    qll_problems_add(work->scan.problems,
                     (qll_fault){.code = QLL_CODE_BAD_COLUMN, .place = place, .says = says});
}

static void check_header(const reader *work)
{
    const qll_table *table = work->table;
    for (size_t i = 0; i < table->column_count; i++) {
        size_t first = 0;
        while (!qll_text_equal(table->columns[first], table->columns[i])) {
            first += 1;
        }
        if (table->columns[i].size == 0) {
            refuse_column(work, i, QLL_SAYS_WITH(COLUMN_NO_NAME, qll_as_whole(i + 1)));
        } else if (first < i) {
            refuse_column(work, i,
                          QLL_SAYS_WITH(COLUMN_TWICE, qll_as_quoted(table->columns[i]),
                                        qll_as_whole(first + 1)));
        }
    }
}

static bool fill_rows(reader *work, qll_arena *arena)
{
    qll_table *table = work->table;
    if (table->row_count > SIZE_MAX / table->column_count) {
        return false;
    }
    qll_text *cells = qll_arena_take(arena, table->row_count * table->column_count, sizeof *cells);
    int *lines = qll_arena_take(arena, table->row_count, sizeof *lines);
    size_t *starts = qll_arena_take(arena, table->row_count, sizeof *starts);
    char *pool = qll_arena_take(arena, work->pool_size, 1);
    if (cells == NULL || lines == NULL || starts == NULL || pool == NULL) {
        return false;
    }
    work->pool = pool;
    work->pool_used = 0;
    for (size_t row = 0; row < table->row_count; row++) {
        skip_empty_lines(&work->scan);
        lines[row] = line_here(work);
        starts[row] = work->scan.at;
        fill_record(work, cells + row * table->column_count);
    }
    table->cells = cells;
    table->lines = lines;
    table->starts = starts;
    return true;
}

/* @p table has its name, source and separator; '\0' = the header tells. */
static qll_status read_table(qll_arena *arena, qll_table *table, qll_problems *problems)
{
    const size_t refused_before = problems->refusal_count;
    const char *name = table->name;
    reader work = {.table = table, .line = 1};
    if (qll_source_open(&table->source, name, QLL_TABLE_SIZE, problems)) {
        work.scan = (qll_scan){.source = table->source, .name = name, .problems = problems};
        if (count_columns(&work)) {
            size_t rows_at = work.scan.at;
            if (!fill_header(&work, arena)) {
                return QLL_NO_MEMORY;
            }
            check_header(&work);
            work.pool_size = 0;
            bool is_well = count_rows(&work) && problems->refusal_count == refused_before;
            work.scan.at = rows_at;
            if (is_well && !fill_rows(&work, arena)) {
                return QLL_NO_MEMORY;
            }
        }
    }
    if (qll_problems_status(problems) == QLL_NO_MEMORY) {
        return QLL_NO_MEMORY;
    }
    return problems->refusal_count > refused_before ? QLL_REFUSED : QLL_OK;
}

qll_status qll_table_read(qll_text source, const char *name, qll_arena *arena, qll_table *table,
                          qll_problems *problems)
{
    *table = (qll_table){.name = name, .source = source, .separator = ','};
    return read_table(arena, table, problems);
}

qll_status qll_table_read_parted(qll_text source, const char *name, qll_arena *arena,
                                 qll_table *table, qll_problems *problems)
{
    *table = (qll_table){.name = name, .source = source};
    return read_table(arena, table, problems);
}

/* Byte on which the cell starts; the row's first byte if @p column is SIZE_MAX. */
static size_t cell_start(const qll_table *table, size_t row, size_t column)
{
    size_t start = row == QLL_TABLE_HEADER ? table->header_start : table->starts[row];
    if (column == SIZE_MAX) {
        return start;
    }
    qll_scan scan = {.source = table->source, .at = start};
    cell one = {.start = start};
    for (size_t i = 0; i <= column; i++) {
        bool is_well = scan_cell(&scan, table->separator, &one);
        assert(is_well);
        (void)is_well;
    }
    return one.start;
}

qll_place qll_table_place(const qll_table *table, size_t row, size_t column, qll_arena *arena)
{
    assert(row == QLL_TABLE_HEADER || row < table->row_count);
    assert(column == SIZE_MAX || column < table->column_count);
    qll_place place = qll_source_place(table->source, table->name, cell_start(table, row, column));
    qll_writer path = qll_writer_new(arena);
    if (row == QLL_TABLE_HEADER) {
        qll_write(&path, "header");
    } else {
        qll_write_format(&path, "row %zu", row + 1);
    }
    if (column != SIZE_MAX) {
        qll_text name = table->columns[column];
        qll_write(&path, name.size > 0 ? ", " : "");
        qll_write_text(&path, name);
    }
    place.path = qll_writer_text(&path).bytes;
    return place;
}
