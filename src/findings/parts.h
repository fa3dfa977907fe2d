/* Which parts of an answer are left out, as a question may ask (qll_part of quell/quell.h). */
#ifndef QUELL_FINDINGS_PARTS_H
#define QUELL_FINDINGS_PARTS_H

#include "quell/quell.h"

/** A set of parts: one bit each. */
#define QLL_PART_BIT(part) (1U << (unsigned)(part))

/** Whether @p part is in an answer from which the set @p left_out is. */
static inline bool qll_has_part(unsigned left_out, qll_part part)
{
    return (left_out & QLL_PART_BIT(part)) == 0;
}

#endif
