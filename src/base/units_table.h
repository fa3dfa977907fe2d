/* The rows of the unit table, for the reader and the writer of quantities. */
#ifndef QUELL_BASE_UNITS_TABLE_H
#define QUELL_BASE_UNITS_TABLE_H

#include "base/units.h"

#include <stdint.h>

#define QLL_UNIT_SPELLINGS 14

/* SI value = (value + shift) * factor / per. */
typedef struct qll_unit {
    uint64_t kinds;   /* bit qll_unit_kind_bit() of every kind it may measure; lowest names it */
    const char *name; /* as we write it */
    const char *spellings[QLL_UNIT_SPELLINGS]; /* as others write it; NULL after the last */
    double factor, per;
    double shift;      /* not 0 for temperatures only */
    bool absolute;     /* a pressure above vacuum */
    bool case_matters; /* the first letter tells milli from mega */
    bool rounded;      /* the factor is irrational; all others are exact by definition */
    const char *source;
} qll_unit;

extern const qll_unit qll_units_table[];
extern const size_t qll_units_table_count;

static inline uint64_t qll_unit_kind_bit(qll_kind kind)
{
    return (uint64_t)1 << (unsigned)kind;
}

/** The row that may measure @p kind and has exactly this name, or NULL. */
const qll_unit *qll_units_find(const char *name, qll_kind kind);

/**
 * The row that may measure @p kind (any, if QLL_KIND_COUNT) and is written like @p given.
 *
 * Capitals are forgiven unless the row says that case matters; superscripts, degree signs, prime
 * marks, middle dots and parentheses are read as what stands for them on a plain keyboard; a blank
 * of the table's spelling may be left out.
 */
const qll_unit *qll_units_match(qll_text given, qll_kind kind);

/** The spelling nearest to @p given among the units of @p kind, or NULL. */
const char *qll_units_nearest(qll_text given, qll_kind kind);

#endif
