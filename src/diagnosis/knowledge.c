#include "diagnosis/knowledge.h"

#include "base/files.h"
#include "base/table.h"
#include "base/units.h"
#include "base/words.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char *const qll_site_has_words[QLL_SITE_HAS_COUNT] = {
#define QLL_SITE_HAS_WORD(name, word) [QLL_SITE_HAS_##name] = (word),
    QLL_SITE_HAS_LIST(QLL_SITE_HAS_WORD)
#undef QLL_SITE_HAS_WORD
};

const char *const qll_evidence_kind_words[QLL_EVIDENCE_KIND_COUNT] = {
#define QLL_EVIDENCE_KIND_WORD(name, word) [QLL_EVIDENCE_KIND_##name] = (word),
    QLL_EVIDENCE_KIND_LIST(QLL_EVIDENCE_KIND_WORD)
#undef QLL_EVIDENCE_KIND_WORD
};

/* The shipped model: docs/theory/diagnosis.md 1 and 3, our assumption. */
#define QLL_LOST_SHARE     0.2
#define QLL_COPIED_SHARE   0.05
#define QLL_CALLBACK_HOURS 2.5

/* Tables while they are read. */
typedef struct reading {
    qll_arena *arena;
    qll_evidence *evidence;
    size_t refused_count; /* of the arena, when the reading began */
    qll_knowledge *knowledge;
} reading;

/* Words that found no room are "": nothing is looked up among them. */
static bool starves(const reading *of)
{
    return qll_arena_refused(of->arena) != of->refused_count;
}

static const char *closed(const reading *of, qll_text text)
{
    const char *copy = qll_text_closed(text, of->arena);
    return copy == NULL ? "" : copy;
}

size_t qll_evidence_called(const qll_knowledge *knowledge, qll_text word)
{
    for (size_t i = 0; i < knowledge->evidence_count; i++) {
        if (qll_text_is(word, knowledge->evidence[i].word)) {
            return i;
        }
    }
    return QLL_NOT_KNOWN;
}

size_t qll_cause_called(const qll_knowledge *knowledge, qll_text word)
{
    for (size_t i = 0; i < knowledge->cause_count; i++) {
        if (qll_text_is(word, knowledge->causes[i].word)) {
            return i;
        }
    }
    return QLL_NOT_KNOWN;
}

size_t qll_outcome_called(const qll_evidence *evidence, qll_text word)
{
    size_t found = QLL_NOT_KNOWN;
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        if (qll_text_is(word, evidence->outcomes[o].word)) {
            return o;
        }
    }
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        if (qll_words_hold(evidence->outcomes[o].word, '_', word)) {
            if (found != QLL_NOT_KNOWN) {
                return QLL_NOT_KNOWN;
            }
            found = o;
        }
    }
    return found;
}

/* Two gauges read 65 and 60 psi: the 5 psi between them are off by some 1e-11 Pa. */
static bool is_from(const qll_outcome *outcome, double figure)
{
    const double rounding = 1e-9 * fmax(1.0, fabs(outcome->from));
    if (!isfinite(outcome->from)) {
        return figure >= outcome->from;
    }
    return outcome->is_over ? figure > outcome->from + rounding
                            : figure >= outcome->from - rounding;
}

size_t qll_outcome_of(const qll_evidence *evidence, double figure)
{
    size_t found = QLL_NOT_KNOWN;
    double least = -HUGE_VAL;
    const bool can_be = evidence->is_measured && !(evidence->is_share && figure > 1.0);
    for (size_t o = 0; can_be && o < evidence->outcome_count; o++) {
        const double from = evidence->outcomes[o].from;
        if (is_from(&evidence->outcomes[o], figure) && (found == QLL_NOT_KNOWN || from >= least)) {
            found = o;
            least = from;
        }
    }
    return found;
}

/* ---- evidence.csv ---- */

/* A limit is a quantity of the kind, or a plain number. */
static double read_amount(const reading *of, qll_text cell, qll_kind kind)
{
    if (cell.size == 0) {
        return NAN;
    }
    qll_quantity quantity = {0};
    qll_units_refusal refusal = {0};
    const bool is_read = qll_units_read(cell, kind, of->arena, &quantity, &refusal);
    assert(is_read || starves(of)); /* the table is ours */
    return is_read ? quantity.si : (double)NAN;
}

static qll_kind read_measure(qll_text cell)
{
    if (qll_text_is(cell, "velocity")) {
        return QLL_KIND_VELOCITY;
    }
    const bool is_number = qll_text_is(cell, "number") || qll_text_is(cell, "share");
    return is_number ? QLL_KIND_NUMBER : QLL_KIND_PRESSURE_DIFFERENCE;
}

/* "below": whatever is less than the others; "over 5 psi": more than that; nothing: no figure is this answer. */
static void read_from(const reading *of, const qll_table *table, size_t row, qll_kind kind,
                      qll_outcome *outcome)
{
    static const char over[] = "over ";
    const size_t size = sizeof over - 1;
    qll_text cell = qll_table_cell_in(table, row, "from");
    outcome->is_over = cell.size > size && memcmp(cell.bytes, over, size) == 0;
    if (outcome->is_over) {
        cell = (qll_text){cell.bytes + size, cell.size - size};
    }
    outcome->from = qll_text_is(cell, "below") ? -HUGE_VAL : read_amount(of, cell, kind);
}

/* The words of @p list, parted by ';', as outcomes of @p evidence. */
static void read_outcomes(const qll_evidence *evidence, qll_text list, bool *outcomes)
{
    const char *at = list.bytes;
    const char *const end = list.bytes + list.size;
    while (at < end) {
        const char *stop = memchr(at, ';', (size_t)(end - at));
        const size_t size = (size_t)((stop == NULL ? end : stop) - at);
        const size_t found = qll_outcome_called(evidence, (qll_text){at, size});
        assert(found != QLL_NOT_KNOWN);
        outcomes[found] = true;
        at += size + 1;
    }
}

/* "EVIDENCE in A;B", "EVIDENCE not A", "site FLAG", or nothing; of evidence that stands before. */
static qll_status read_condition(const reading *of, qll_text cell, qll_condition *condition)
{
    *condition = (qll_condition){.evidence = QLL_NOT_KNOWN};
    const char *blank = cell.size == 0 ? NULL : memchr(cell.bytes, ' ', cell.size);
    if (blank == NULL) {
        return QLL_OK;
    }
    const qll_text first = {cell.bytes, (size_t)(blank - cell.bytes)};
    qll_text rest = {blank + 1, cell.size - first.size - 1};
    if (qll_text_is(first, "site")) {
        condition->site =
            QLL_SITE_HAS_BIT(qll_words_place(rest, qll_site_has_words, QLL_SITE_HAS_COUNT));
        return QLL_OK;
    }
    condition->evidence = qll_evidence_called(of->knowledge, first);
    assert(condition->evidence != QLL_NOT_KNOWN);
    const qll_evidence *asked = &of->evidence[condition->evidence];
    bool *outcomes = qll_arena_take(of->arena, asked->outcome_count, sizeof *outcomes);
    if (outcomes == NULL) {
        return QLL_NO_MEMORY;
    }
    const bool is_not = rest.size > 4 && memcmp(rest.bytes, "not ", 4) == 0;
    const size_t skipped = is_not ? 4 : 3;
    read_outcomes(asked, (qll_text){rest.bytes + skipped, rest.size - skipped}, outcomes);
    for (size_t o = 0; is_not && o < asked->outcome_count; o++) {
        outcomes[o] = !outcomes[o];
    }
    condition->outcomes = outcomes;
    return QLL_OK;
}

/* The group called so; a new one where no evidence before has it. */
static size_t group_of(const qll_table *table, size_t row, size_t *group_of_row, size_t *count)
{
    const qll_text name = qll_table_cell_in(table, row, "group");
    for (size_t before = 0; before < row; before++) {
        if (qll_text_equal(qll_table_cell_in(table, before, "group"), name)) {
            return group_of_row[before];
        }
    }
    return (*count)++;
}

static qll_status read_evidence(const reading *of, const qll_table *table, size_t row,
                                qll_evidence *evidence)
{
    const qll_text measure = qll_table_cell_in(table, row, "measure");
    evidence->word = closed(of, qll_table_cell_in(table, row, "evidence"));
    evidence->kind = (qll_evidence_kind)qll_words_place(
        qll_table_cell_in(table, row, "kind"), qll_evidence_kind_words, QLL_EVIDENCE_KIND_COUNT);
    evidence->minutes = qll_table_number_in(table, row, "minutes");
    evidence->asks = qll_text_named(qll_table_cell_in(table, row, "asks"));
    evidence->how = qll_text_named(qll_table_cell_in(table, row, "how"));
    evidence->caution = closed(of, qll_table_cell_in(table, row, "caution"));
    evidence->amount =
        read_amount(of, qll_table_cell_in(table, row, "amount"), QLL_KIND_PRESSURE_DIFFERENCE);
    evidence->is_measured = measure.size > 0;
    evidence->is_share = qll_text_is(measure, "share");
    evidence->measure = read_measure(measure);
    evidence->first = row;
    return read_condition(of, qll_table_cell_in(table, row, "only_if"), &evidence->only_if);
}

static bool begins_evidence(const qll_table *table, size_t row)
{
    return row == 0
           || !qll_text_equal(qll_table_cell_in(table, row, "evidence"),
                              qll_table_cell_in(table, row - 1, "evidence"));
}

static qll_status read_all_evidence(reading *of)
{
    qll_table table;
    if (qll_table_read_own(qll_file_evidence, qll_file_evidence_size, of->arena, &table)
        != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_knowledge *knowledge = of->knowledge;
    qll_outcome *outcomes = qll_arena_take(of->arena, table.row_count, sizeof *outcomes);
    size_t *groups = qll_arena_take(of->arena, table.row_count, sizeof *groups);
    of->evidence = qll_arena_take(of->arena, table.row_count, sizeof *of->evidence);
    if (outcomes == NULL || groups == NULL || of->evidence == NULL) {
        return QLL_NO_MEMORY;
    }
    knowledge->evidence = of->evidence;
    knowledge->outcome_count = table.row_count;
    for (size_t row = 0; row < table.row_count; row++) {
        if (begins_evidence(&table, row)) {
            qll_evidence *begun = &of->evidence[knowledge->evidence_count];
            if (read_evidence(of, &table, row, begun) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
            begun->outcomes = &outcomes[row];
            knowledge->evidence_count += 1;
        }
        qll_evidence *evidence = &of->evidence[knowledge->evidence_count - 1];
        outcomes[row] = (qll_outcome){
            .word = closed(of, qll_table_cell_in(&table, row, "answer")),
            .says = qll_text_named(qll_table_cell_in(&table, row, "says")),
            .usual = qll_table_number_in(&table, row, "usual"),
        };
        read_from(of, &table, row, evidence->measure, &outcomes[row]);
        if (starves(of)) {
            return QLL_NO_MEMORY;
        }
        evidence->outcome_count += 1;
        groups[row] = group_of(&table, row, groups, &knowledge->group_count);
        evidence->group = groups[row];
    }
    return QLL_OK;
}

/* ---- causes.csv, likelihood.csv ---- */

static qll_cause read_cause(const reading *of, const qll_table *table, size_t row)
{
    const size_t confirm =
        qll_evidence_called(of->knowledge, qll_table_cell_in(table, row, "confirm"));
    const qll_text needs = qll_table_cell_in(table, row, "needs");
    return (qll_cause){
        .word = closed(of, qll_table_cell_in(table, row, "cause")),
        .weight = qll_table_number_in(table, row, "weight"),
        .needs = needs.size == 0 ? 0U
                                 : QLL_SITE_HAS_BIT(qll_words_place(needs, qll_site_has_words,
                                                                    QLL_SITE_HAS_COUNT)),
        .hours = qll_table_number_in(table, row, "hours"),
        .confirm = confirm,
        .confirm_outcome = confirm == QLL_NOT_KNOWN
                               ? QLL_NOT_KNOWN
                               : qll_outcome_called(&of->evidence[confirm],
                                                    qll_table_cell_in(table, row, "answer")),
        .cures = closed(of, qll_table_cell_in(table, row, "cures")),
        .says = qll_text_named(qll_table_cell_in(table, row, "says")),
        .cure = qll_text_named(qll_table_cell_in(table, row, "cure")),
    };
}

static qll_status read_causes(const reading *of)
{
    qll_table table;
    if (qll_table_read_own(qll_file_causes, qll_file_causes_size, of->arena, &table) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_cause *causes = qll_arena_take(of->arena, table.row_count, sizeof *causes);
    if (causes == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t row = 0; row < table.row_count; row++) {
        causes[row] = read_cause(of, &table, row);
    }
    if (starves(of)) {
        return QLL_NO_MEMORY;
    }
    of->knowledge->causes = causes;
    of->knowledge->cause_count = table.row_count;
    of->knowledge->other = qll_cause_called(of->knowledge, qll_text_of("other"));
    return QLL_OK;
}

/* "0.05 0.70 0.25", one for each outcome. */
static void read_shares(const qll_knowledge *knowledge, qll_text cell, size_t evidence,
                        size_t cause, double *likelihood)
{
    const qll_evidence *of = &knowledge->evidence[evidence];
    const char *at = cell.bytes;
    const char *const end = cell.bytes + cell.size;
    for (size_t o = 0; o < of->outcome_count && at < end; o++) {
        const char *stop = memchr(at, ' ', (size_t)(end - at));
        const size_t size = (size_t)((stop == NULL ? end : stop) - at);
        double share = NAN;
        const bool is_number = qll_text_number((qll_text){at, size}, &share) == size;
        assert(is_number);
        likelihood[(of->first + o) * knowledge->cause_count + cause] =
            is_number ? share : (double)NAN;
        at += size + 1;
    }
}

static qll_status read_likelihood(const reading *of)
{
    qll_knowledge *knowledge = of->knowledge;
    qll_table table;
    double *likelihood = qll_arena_take(
        of->arena, knowledge->outcome_count * knowledge->cause_count, sizeof *likelihood);
    if (likelihood == NULL
        || qll_table_read_own(qll_file_likelihood, qll_file_likelihood_size, of->arena, &table)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        const qll_evidence *evidence = &knowledge->evidence[e];
        for (size_t o = 0; o < evidence->outcome_count; o++) {
            for (size_t c = 0; c < knowledge->cause_count; c++) {
                likelihood[(evidence->first + o) * knowledge->cause_count + c] =
                    evidence->outcomes[o].usual;
            }
        }
    }
    for (size_t row = 0; row < table.row_count; row++) {
        read_shares(knowledge, qll_table_cell_in(&table, row, "shares"),
                    qll_evidence_called(knowledge, qll_table_cell_in(&table, row, "evidence")),
                    qll_cause_called(knowledge, qll_table_cell_in(&table, row, "cause")),
                    likelihood);
    }
    knowledge->likelihood = likelihood;
    return QLL_OK;
}

qll_status qll_knowledge_read(qll_arena *arena, qll_knowledge *knowledge)
{
    *knowledge = (qll_knowledge){
        .lost_share = QLL_LOST_SHARE,
        .copied_share = QLL_COPIED_SHARE,
        .callback_hours = QLL_CALLBACK_HOURS,
    };
    reading of = {
        .arena = arena, .refused_count = qll_arena_refused(arena), .knowledge = knowledge};
    qll_status status = read_all_evidence(&of);
    status = status == QLL_OK ? read_causes(&of) : status;
    return status == QLL_OK ? read_likelihood(&of) : status;
}
