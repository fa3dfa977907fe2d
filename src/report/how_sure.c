/* How sure the verdicts are. */
#include "report/sections.h"

/* A verdict that holds less often than this is worth a line (our choice). */
#define QLL_HOLDS_OFTEN 0.9

static size_t count_unsure(const qll_assessment *assessment, const qll_sensitivity *sensitivity)
{
    size_t count = 0;
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        qll_rule rule = assessment->verdicts[i].rule;
        count += sensitivity->holds_share[rule] < QLL_HOLDS_OFTEN ? 1 : 0;
    }
    return count;
}

static void unsure_row(qll_columns *table, qll_language language, const qll_verdict *verdict,
                       double holds_share)
{
    qll_columns_put(table, "");
    qll_columns_put(table, qll_say_rule(language, verdict->rule));
    qll_message grade = (qll_message)((size_t)QLL_SAYS_GRADE_GOOD + (size_t)verdict->grade);
    qll_columns_put(table, qll_say(language, grade));
    qll_write_format(&table->cell, "%.0f %%", 100.0 * holds_share);
    qll_columns_next(table);
}

void qll_section_how_sure(qll_writer *writer, qll_language language,
                          const qll_assessment *assessment, const qll_sensitivity *sensitivity)
{
    qll_writer draws = qll_writer_new(writer->arena);
    qll_write_format(&draws, "%zu", sensitivity->draw_count);
    writer->no_memory = writer->no_memory || draws.no_memory;
    const qll_filling filling = {"draws", qll_writer_text(&draws).bytes};
    bool is_sure = count_unsure(assessment, sensitivity) == 0;
    qll_section_says(writer, language, QLL_SAYS_PLAIN_HOW_SURE);
    qll_section_says_with(writer, language, is_sure ? QLL_SAYS_SURE_OF_ALL : QLL_SAYS_SURE_BUT_FOR,
                          &filling, 1);
    if (is_sure) {
        return;
    }
    qll_columns table = qll_columns_new(writer, "lllr");
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        const qll_verdict *verdict = &assessment->verdicts[i];
        double holds_share = sensitivity->holds_share[verdict->rule];
        if (holds_share < QLL_HOLDS_OFTEN) {
            unsure_row(&table, language, verdict, holds_share);
        }
    }
    qll_columns_flush(&table);
}
