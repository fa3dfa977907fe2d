#include "base/count.h"
#include "base/customary.h"
#include "base/files.h"
#include "physics/nominal.h"
#include "physics/pipe.h"

#include <assert.h>
#include <math.h>

static const double mm_m = 0.001;

/* Absolute roughness, m, and where it comes from. */
#define QLL_DRAWN      1.52e-6, "drawn tubing 1.52 um, open fluid-dynamics library's table"
#define QLL_GALVANISED 152e-6, "galvanised iron 152 um, open fluid-dynamics library's table"
#define QLL_STAINLESS  15e-6, "stainless steel 15 um, from memory"
#define QLL_PLASTIC    7e-6, "plastics 1.5 to 7 um, from memory; the upper end is our assumption"

/* Greatest velocity of cold water, m/s, and where it comes from. */
#define QLL_EIGHT_FEET \
    QLL_COPPER_COLD_M_S, "UPC 610.12, as an adoption quotes it: cold water in copper at most 8 ft/s"
#define QLL_EIGHT_CODE (8 * QLL_FOOT_M), "Chicago plumbing code 604.10.1.2: at most 8 ft/s"
#define QLL_EN_806     2.0, "EN 806-3: 2 m/s in risers and floor pipes, from memory"
#define QLL_AS_3500    3.0, "AS/NZS 3500.1: 3 m/s, from memory"

static const qll_pipe_family families[] = {
    {"copper K", "ASTM B88 type K", "copper", QLL_DRAWN, QLL_EIGHT_FEET},
    {"copper L", "ASTM B88 type L", "copper", QLL_DRAWN, QLL_EIGHT_FEET},
    {"copper M", "ASTM B88 type M", "copper", QLL_DRAWN, QLL_EIGHT_FEET},
    {"steel 40", "ASTM A53 / ASME B36.10M sch 40", "steel", QLL_GALVANISED, QLL_EIGHT_CODE},
    {"steel 80", "ASTM A53 / ASME B36.10M sch 80", "steel", QLL_GALVANISED, QLL_EIGHT_CODE},
    {"stainless 10S", "ASME B36.19M sch 10S", "stainless steel", QLL_STAINLESS, QLL_EIGHT_CODE},
    {"PEX", "ASTM F876 SDR9 (mean wall)", "PEX", QLL_PLASTIC, QLL_EIGHT_CODE},
    {"CPVC", "ASTM D2846 SDR11 CTS (mean wall)", "CPVC", QLL_PLASTIC, QLL_EIGHT_CODE},
    {"EN 1057", "EN 1057", "copper", QLL_DRAWN, QLL_EN_806},
    {"EN 1057 X", "EN 1057 thin series (UK table X)", "copper", QLL_DRAWN, QLL_EN_806},
    {"EN 10255", "EN 10255 series M", "steel", QLL_GALVANISED, QLL_EN_806},
    {"EN 10312", "EN 10312 series 2", "stainless steel", QLL_STAINLESS, QLL_EN_806},
    {"PP", "EN ISO 15874 (PP)", "PP", QLL_PLASTIC, QLL_EN_806},
    {"PVC-C", "EN ISO 15877 (PVC-C)", "CPVC", QLL_PLASTIC, QLL_EN_806},
    {"PB", "EN ISO 15876 (PB)", "PB", QLL_PLASTIC, QLL_EN_806},
    {"multilayer", "multilayer PE-X/Al/PE-HD", "multilayer", QLL_PLASTIC, QLL_EN_806},
    {"PE-X", "EN ISO 15875 S3.2", "PE-X", QLL_PLASTIC, QLL_EN_806},
    {"AS 1432", "AS 1432 type B", "copper", QLL_DRAWN, QLL_AS_3500},
};

enum {
    QLL_FAMILY_COUNT = QLL_COUNT(families)
};

/* What else a family is called. Galvanized water pipe is schedule 40 (common practice, no source). */
static const qll_other_word other_words[] = {
    {"galvanized", "steel 40"},       {"galvanised", "steel 40"},
    {"galvanized steel", "steel 40"}, {"galvanised steel", "steel 40"},
    {"galvanized iron", "steel 40"},
};

const qll_pipe_family *qll_pipe_families(size_t *count)
{
    assert(count != NULL);
    *count = QLL_FAMILY_COUNT;
    return families;
}

const qll_other_word *qll_pipe_other_words(size_t *count)
{
    *count = QLL_COUNT(other_words);
    return other_words;
}

const qll_pipe_family *qll_pipe_family_find(qll_text word)
{
    for (size_t i = 0; i < QLL_COUNT(other_words); i++) {
        if (qll_text_is(word, other_words[i].said)) {
            word = qll_text_of(other_words[i].word);
        }
    }
    for (size_t i = 0; i < QLL_FAMILY_COUNT; i++) {
        if (qll_text_is(word, families[i].word)) {
            return &families[i];
        }
    }
    return NULL;
}

static const qll_pipe_family *family_of_standard(qll_text standard)
{
    for (size_t i = 0; i < QLL_FAMILY_COUNT; i++) {
        if (qll_text_is(standard, families[i].standard)) {
            return &families[i];
        }
    }
    return NULL;
}

typedef struct columns {
    size_t standard, nominal, outside, bore, wall, provenance;
} columns;

/* False without memory. */
static bool read_row(const qll_table *csv, size_t row, const columns *at, qll_arena *arena,
                     const qll_pipe_family *family, qll_pipe_size *size)
{
    qll_text nominal = qll_table_cell(csv, row, at->nominal);
    *size = (qll_pipe_size){
        .standard = family->standard,
        .material = family->material,
        .nominal = qll_text_closed(nominal, arena),
        .nominal_m = qll_nominal_read_m(nominal),
        .outside_m = qll_table_number(csv, row, at->outside) * mm_m,
        .bore_m = qll_table_number(csv, row, at->bore) * mm_m,
        .wall_m = qll_table_number(csv, row, at->wall) * mm_m,
        .roughness_m = family->roughness_m,
        .velocity_max_m_s = family->velocity_max_m_s,
        .source = qll_text_closed(qll_table_cell(csv, row, at->provenance), arena),
    };
    return size->nominal != NULL && size->source != NULL;
}

qll_status qll_pipe_table_read(qll_arena *arena, qll_pipe_table *table)
{
    assert(arena != NULL && table != NULL);
    qll_table csv;
    qll_status status = qll_table_read_own(qll_file_pipes, qll_file_pipes_size, arena, &csv);
    if (status != QLL_OK) {
        return status;
    }
    const columns at = {.standard = qll_table_column(&csv, "standard"),
                        .nominal = qll_table_column(&csv, "nominal"),
                        .outside = qll_table_column(&csv, "OD_mm"),
                        .bore = qll_table_column(&csv, "ID_mm"),
                        .wall = qll_table_column(&csv, "wall_mm"),
                        .provenance = qll_table_column(&csv, "provenance")};
    qll_pipe_size *sizes = qll_arena_take(arena, csv.row_count, sizeof *sizes);
    if (sizes == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t row = 0; row < csv.row_count; row++) {
        const qll_pipe_family *family = family_of_standard(qll_table_cell(&csv, row, at.standard));
        if (family == NULL) {
            continue;
        }
        if (!read_row(&csv, row, &at, arena, family, &sizes[count])) {
            return QLL_NO_MEMORY;
        }
        count += 1;
    }
    *table = (qll_pipe_table){.sizes = sizes, .count = count};
    return QLL_OK;
}

const qll_pipe_size *qll_pipe_find(const qll_pipe_table *table, const qll_pipe_family *family,
                                   double nominal_m)
{
    assert(table != NULL && family != NULL);
    const qll_pipe_size *found = NULL;
    for (size_t i = 0; i < table->count; i++) {
        const qll_pipe_size *size = &table->sizes[i];
        /* Strings of one standard are one pointer: both come from the family. */
        if (size->standard == family->standard && qll_nominal_same(size->nominal_m, nominal_m)
            && (found == NULL || size->bore_m < found->bore_m)) {
            found = size;
        }
    }
    return found;
}
