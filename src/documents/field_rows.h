/* Short words for the tables of fields, in which a field is a row: its key, the form of its value,
 * its range, whether it is needed or what holds without it, and for the manual how it is written and
 * what it means. clang-format would give every member a line of its own, so the tables are kept from
 * it. */
#ifndef QUELL_DOCUMENTS_FIELD_ROWS_H
#define QUELL_DOCUMENTS_FIELD_ROWS_H

#include "base/count.h"
#include "documents/field.h"

/** A range, ends included, and why it ends there; NUMBER where the value has no unit. */
#define QLL_WITHIN(kind_name, from, to, because_name)            \
    .kind = QLL_KIND_##kind_name, .least = (from), .most = (to), \
    .because = QLL_TEXT_BECAUSE_##because_name

/** Must be there; where it is missing, the text says what it means. */
#define QLL_NEEDED(means_name) .obligatory = true, .means = QLL_TEXT_MEANS_##means_name

/** Taken where it is not given, and listed as assumed for this reason. */
#define QLL_DEFAULT(taken, why_name) .fallback = (taken), .why = {.id = QLL_TEXT_WHY_##why_name}

/** One of a list of words in sight. */
#define QLL_WORDS(list) .words = (list), .word_count = QLL_COUNT(list)

/** The group of a table: what it is called in sentences, and where such objects stand. */
#define QLL_GROUP(group_name, text_name, where, fields)                                        \
    const qll_field_group qll_group_##group_name = {QLL_TEXT_GROUP_##text_name, where, fields, \
                                                    QLL_COUNT(fields)}

#endif
