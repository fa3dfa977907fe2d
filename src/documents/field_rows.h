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

/** What holds where it is not given, how it is written, what it is: wording/en/describe_en.c. */
#define QLL_ELSE(name)  .computed = QLL_TEXT_ELSE_##name
#define QLL_FORM(name)  .form = QLL_TEXT_FORM_##name
#define QLL_MEANS(name) .means = QLL_TEXT_MEANS_##name

/** One of a list of words in sight; one of a table's. */
#define QLL_WORDS(list)  .words = (list), .word_count = QLL_COUNT(list)
#define QLL_NAMES(which) .names = QLL_VOCABULARY_##which

/** A list of at most so many: more than any building, visit or data sheet has (our assumption). */
#define QLL_ENTRIES(most_count) .entries_most = (most_count)
/** Data sheets and flow tests have a handful of points; a hundred are a digitised curve. */
#define QLL_POINTS_MAX          200

/** The group of a table: what it is called in sentences, and where such objects stand. */
#define QLL_GROUP(group_name, text_name, where, fields)                                        \
    const qll_field_group qll_group_##group_name = {QLL_TEXT_GROUP_##text_name, where, fields, \
                                                    QLL_COUNT(fields), false}

/** The same of objects that may hold more than is read. */
#define QLL_OPEN_GROUP(group_name, text_name, where, fields)                                   \
    const qll_field_group qll_group_##group_name = {QLL_TEXT_GROUP_##text_name, where, fields, \
                                                    QLL_COUNT(fields), true}

#endif
