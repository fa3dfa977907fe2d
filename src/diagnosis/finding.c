/* What findings of a log or a recording answer. */
#include "diagnosis/finding.h"

#include "base/count.h"

#include <math.h>
#include <string.h>

/* The evidence that a finding answers, and how: by its value where the evidence is measured, else by one answer.
 * Where it is not there, the first answer of the evidence holds, which is "no" of its kind; NULL as evidence: it
 * answers nothing. */
typedef struct finding_row {
    const char *word;
    const char *evidence;
    const char *outcome; /* NULL = by value */
    const char *falling; /* where the value is below 0; NULL = the same */
} finding_row;

static const finding_row log_rows[] = {
    {"creep", "log_noflow_slope", "rising_always", NULL},
    {"thermal-expansion", "log_noflow_slope", "rising_after_heating", NULL},
    {"lock-up", NULL, NULL, NULL},
    {"fall-off", NULL, NULL, NULL},
    {"inlet-effect", "log_inlet_effect", NULL, NULL},
    {"supply-swing", "log_p1", NULL, NULL},
    {"set-point-drift", "log_setpoint_drift", "up", "down"},
    {"hunting", "log_oscillation", NULL, NULL},
    {"chatter", "log_oscillation", "fast_gt_1Hz", NULL},
    {"hammer", "log_spikes", NULL, NULL},
    {"strainer", "log_falloff_trend", "worsening", NULL},
    {"air", "air_seen", "yes", NULL},
    {"logger-fault", NULL, NULL, NULL},
};

static const finding_row sound_rows[] = {
    {"squeal", "sound_class", "squeal", NULL},    {"hiss", "sound_class", "cavitation", NULL},
    {"chatter", "sound_class", "chatter", NULL},  {"hammer", "sound_class", "hammer", NULL},
    {"rush", "sound_class", "flow_rush", NULL},   {"none", "sound_class", "none_other", NULL},
    {"other", "sound_class", "none_other", NULL},
};

static const finding_row *row_of(qll_text word, bool is_of_sound)
{
    const finding_row *rows = is_of_sound ? sound_rows : log_rows;
    const size_t count = is_of_sound ? QLL_COUNT(sound_rows) : QLL_COUNT(log_rows);
    for (size_t i = 0; i < count; i++) {
        if (qll_text_is(word, rows[i].word)) {
            return &rows[i];
        }
    }
    return NULL;
}

qll_status qll_finding_words(bool is_of_sound, qll_arena *arena, const char *const **words,
                             size_t *count)
{
    const finding_row *rows = is_of_sound ? sound_rows : log_rows;
    *count = is_of_sound ? QLL_COUNT(sound_rows) : QLL_COUNT(log_rows);
    const char **made = qll_arena_take(arena, *count, sizeof *made);
    for (size_t i = 0; made != NULL && i < *count; i++) {
        made[i] = rows[i].word;
    }
    *words = made;
    return made == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_kind qll_finding_kind(const qll_knowledge *knowledge, const char *word)
{
    const finding_row *row = row_of(qll_text_of(word), false);
    const size_t evidence = row == NULL || row->evidence == NULL
                                ? QLL_NOT_KNOWN
                                : qll_evidence_called(knowledge, qll_text_of(row->evidence));
    const bool is_measured = evidence != QLL_NOT_KNOWN && knowledge->evidence[evidence].is_measured;
    return is_measured ? knowledge->evidence[evidence].measure : QLL_KIND_NUMBER;
}

qll_found_answer qll_finding_answer(const qll_knowledge *knowledge, const qll_case_finding *finding)
{
    const finding_row *row = row_of(qll_text_of(finding->word), finding->is_of_sound);
    qll_found_answer answer = {
        .evidence = QLL_NOT_KNOWN, .outcome = QLL_NOT_KNOWN, .figure = (double)NAN};
    if (row == NULL || row->evidence == NULL) {
        return answer;
    }
    answer.evidence = qll_evidence_called(knowledge, qll_text_of(row->evidence));
    const qll_evidence *evidence = &knowledge->evidence[answer.evidence];
    answer.is_there = finding->strength >= 0.5;
    if (!answer.is_there) {
        answer.outcome = 0;
    } else if (row->outcome == NULL) {
        answer.figure = finding->value;
        answer.outcome = qll_outcome_of(evidence, finding->value);
    } else {
        const bool falls = row->falling != NULL && finding->value < 0.0;
        answer.outcome =
            qll_outcome_called(evidence, qll_text_of(falls ? row->falling : row->outcome));
    }
    return answer;
}
