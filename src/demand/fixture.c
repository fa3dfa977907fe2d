#include "demand/fixture.h"

#include "base/count.h"
#include "base/customary.h"
#include "base/files.h"
#include "base/table.h"

#include <assert.h>
#include <math.h>

/* The columns of data/fixtures.csv. */
typedef struct fixture_columns {
    size_t word, synonyms, ipc_private, ipc_public, ipc_source, upc_private, upc_public, upc_source,
        flushometer, use_probability, use_source, flow, flow_source, outlets, response, regulated,
        din_flow, din_source, en_units, en_source, bs_units, bs_units_busy, bs_source, hotel,
        hospital, bathroom, parts;
} fixture_columns;

static fixture_columns find_columns(const qll_table *table)
{
    return (fixture_columns){
        .word = qll_table_column(table, "word"),
        .synonyms = qll_table_column(table, "synonyms"),
        .ipc_private = qll_table_column(table, "ipc_private"),
        .ipc_public = qll_table_column(table, "ipc_public"),
        .ipc_source = qll_table_column(table, "ipc_source"),
        .upc_private = qll_table_column(table, "upc_private"),
        .upc_public = qll_table_column(table, "upc_public"),
        .upc_source = qll_table_column(table, "upc_source"),
        .flushometer = qll_table_column(table, "flushometer"),
        .use_probability = qll_table_column(table, "use_probability"),
        .use_source = qll_table_column(table, "use_source"),
        .flow = qll_table_column(table, "flow_gpm"),
        .flow_source = qll_table_column(table, "flow_source"),
        .outlets = qll_table_column(table, "outlets"),
        .response = qll_table_column(table, "response"),
        .regulated = qll_table_column(table, "regulated"),
        .din_flow = qll_table_column(table, "din_flow_lps"),
        .din_source = qll_table_column(table, "din_source"),
        .en_units = qll_table_column(table, "en_units"),
        .en_source = qll_table_column(table, "en_source"),
        .bs_units = qll_table_column(table, "bs_units"),
        .bs_units_busy = qll_table_column(table, "bs_units_busy"),
        .bs_source = qll_table_column(table, "bs_source"),
        .hotel = qll_table_column(table, "hotel"),
        .hospital = qll_table_column(table, "hospital"),
        .bathroom = qll_table_column(table, "bathroom"),
        .parts = qll_table_column(table, "parts"),
    };
}

static const char *closed_cell(const qll_table *table, size_t row, size_t column, qll_arena *arena)
{
    return qll_text_closed(qll_text_trimmed(qll_table_cell(table, row, column)), arena);
}

static qll_in_bathroom read_in_bathroom(qll_text word)
{
    if (qll_text_is(word, "closet")) {
        return QLL_IN_BATHROOM_CLOSET;
    }
    if (qll_text_is(word, "basin")) {
        return QLL_IN_BATHROOM_BASIN;
    }
    return qll_text_is(word, "bath") ? QLL_IN_BATHROOM_BATH : QLL_IN_BATHROOM_NOTHING;
}

static bool read_kind(const qll_table *table, size_t row, const fixture_columns *at,
                      qll_arena *arena, qll_fixture_kind *kind)
{
    *kind = (qll_fixture_kind){
        .word = closed_cell(table, row, at->word, arena),
        .synonyms = closed_cell(table, row, at->synonyms, arena),
        .ipc_private = qll_table_number(table, row, at->ipc_private),
        .ipc_public = qll_table_number(table, row, at->ipc_public),
        .upc_private = qll_table_number(table, row, at->upc_private),
        .upc_public = qll_table_number(table, row, at->upc_public),
        .flushometer = qll_text_is(qll_table_cell(table, row, at->flushometer), "yes"),
        .use_probability = qll_table_number(table, row, at->use_probability),
        .flow_m3s = qll_table_number(table, row, at->flow) * QLL_GPM_M3S,
        .ipc_source = closed_cell(table, row, at->ipc_source, arena),
        .upc_source = closed_cell(table, row, at->upc_source, arena),
        .use_source = closed_cell(table, row, at->use_source, arena),
        .flow_source = closed_cell(table, row, at->flow_source, arena),
        .outlet_count = qll_table_number(table, row, at->outlets),
        .outlet = {.is_regulated = qll_text_is(qll_table_cell(table, row, at->regulated), "yes"),
                   .is_volumetric =
                       qll_text_is(qll_table_cell(table, row, at->response), "volume")},
        .din_flow_m3s = qll_table_number(table, row, at->din_flow) * 1e-3,
        .en_units = qll_table_number(table, row, at->en_units),
        .bs_units = qll_table_number(table, row, at->bs_units),
        .bs_units_busy = qll_table_number(table, row, at->bs_units_busy),
        .din_source = closed_cell(table, row, at->din_source, arena),
        .en_source = closed_cell(table, row, at->en_source, arena),
        .bs_source = closed_cell(table, row, at->bs_source, arena),
        .private_in_hotel = qll_text_is(qll_table_cell(table, row, at->hotel), "private"),
        .private_in_hospital = qll_text_is(qll_table_cell(table, row, at->hospital), "private"),
        .in_bathroom = read_in_bathroom(qll_table_cell(table, row, at->bathroom)),
    };
    const char *const texts[] = {kind->word,       kind->synonyms,   kind->ipc_source,
                                 kind->upc_source, kind->use_source, kind->flow_source,
                                 kind->din_source, kind->en_source,  kind->bs_source};
    bool has_all = true;
    for (size_t i = 0; i < QLL_COUNT(texts); i++) {
        has_all = has_all && texts[i] != NULL;
    }
    return has_all;
}

/* Cuts the next word off a list separated by '|'; false at its end. */
static bool next_synonym(qll_text *rest, qll_text *word)
{
    if (rest->size == 0) {
        return false;
    }
    size_t size = 0;
    while (size < rest->size && rest->bytes[size] != '|') {
        size += 1;
    }
    *word = qll_text_trimmed((qll_text){.bytes = rest->bytes, .size = size});
    const size_t used = size < rest->size ? size + 1 : size;
    *rest = (qll_text){.bytes = rest->bytes + used, .size = rest->size - used};
    return true;
}

static size_t count_words(const qll_fixture_kind *kinds, size_t count)
{
    size_t words = count;
    for (size_t i = 0; i < count; i++) {
        qll_text rest = qll_text_of(kinds[i].synonyms);
        qll_text word;
        while (next_synonym(&rest, &word)) {
            words += 1;
        }
    }
    return words;
}

static bool list_words(qll_fixture_table *table, qll_arena *arena)
{
    const size_t most = count_words(table->kinds, table->count);
    const char **words = qll_arena_take(arena, most, sizeof *words);
    if (words == NULL) {
        return false;
    }
    size_t count = 0;
    for (size_t i = 0; i < table->count; i++) {
        words[count] = table->kinds[i].word;
        count += 1;
        qll_text rest = qll_text_of(table->kinds[i].synonyms);
        qll_text word;
        while (next_synonym(&rest, &word)) {
            words[count] = qll_text_closed(word, arena);
            if (words[count] == NULL) {
                return false;
            }
            count += 1;
        }
    }
    table->words = words;
    table->word_count = count;
    return true;
}

/* The parts of a group, once every kind has been read; and the group of its closet, if it is a whole
 * bathroom. */
static void find_parts(qll_fixture_kind *kinds, size_t count, size_t group, qll_text list)
{
    const qll_fixture_table table = {.kinds = kinds, .count = count};
    qll_fixture_kind *kind = &kinds[group];
    qll_text word;
    while (next_synonym(&list, &word)) {
        assert(kind->part_count < QLL_PARTS_MAX);
        kind->parts[kind->part_count] = qll_fixture_find(&table, word);
        assert(kind->parts[kind->part_count] != NULL);
        kind->part_count += 1;
    }
    if (kind->part_count == QLL_PARTS_MAX) {
        kinds[kind->parts[0] - kinds].group = kind;
    }
}

qll_status qll_fixture_table_read(qll_arena *arena, qll_fixture_table *table)
{
    qll_table rows;
    const qll_status status =
        qll_table_read_own(qll_file_fixtures, qll_file_fixtures_size, arena, &rows);
    if (status != QLL_OK) {
        return status;
    }
    qll_fixture_kind *kinds = qll_arena_take(arena, rows.row_count, sizeof *kinds);
    if (kinds == NULL) {
        return QLL_NO_MEMORY;
    }
    const fixture_columns at = find_columns(&rows);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!read_kind(&rows, row, &at, arena, &kinds[row])) {
            return QLL_NO_MEMORY;
        }
    }
    for (size_t row = 0; row < rows.row_count; row++) {
        find_parts(kinds, rows.row_count, row, qll_table_cell(&rows, row, at.parts));
    }
    *table = (qll_fixture_table){.kinds = kinds, .count = rows.row_count};
    return list_words(table, arena) ? QLL_OK : QLL_NO_MEMORY;
}

static char lower(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

static bool same_word(qll_text a, qll_text b)
{
    if (a.size != b.size) {
        return false;
    }
    for (size_t i = 0; i < a.size; i++) {
        if (lower(a.bytes[i]) != lower(b.bytes[i])) {
            return false;
        }
    }
    return true;
}

const qll_fixture_kind *qll_fixture_find(const qll_fixture_table *table, qll_text word)
{
    word = qll_text_trimmed(word);
    for (size_t i = 0; i < table->count; i++) {
        const qll_fixture_kind *kind = &table->kinds[i];
        if (same_word(word, qll_text_of(kind->word))) {
            return kind;
        }
        qll_text rest = qll_text_of(kind->synonyms);
        qll_text synonym;
        while (next_synonym(&rest, &synonym)) {
            if (same_word(word, synonym)) {
                return kind;
            }
        }
    }
    return NULL;
}
