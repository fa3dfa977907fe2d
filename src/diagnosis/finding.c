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
    bool is_reading;     /* its value is what a gauge would read, however little is wrong with it */
    const char *same_fact; /* evidence that tells the same, and goes before; NULL */
} finding_row;

static const finding_row log_rows[] = {
    {.word = "creep", .evidence = "log_noflow_slope", .outcome = "rising_always"},
    {.word = "thermal-expansion",
     .evidence = "log_noflow_slope",
     .outcome = "rising_after_heating"},
    {.word = "lock-up", .evidence = "lockup_vs_set", .is_reading = true},
    {.word = "fall-off", .evidence = "falloff", .is_reading = true},
    {.word = "fall-off-drift", .evidence = "log_falloff_trend", .outcome = "worsening"},
    {.word = "inlet-effect", .evidence = "log_inlet_effect", .same_fact = "inlet_sweep"},
    {.word = "supply-swing", .evidence = "log_p1"},
    {.word = "set-point-drift",
     .evidence = "log_setpoint_drift",
     .outcome = "up",
     .falling = "down"},
    {.word = "hunting", .evidence = "log_oscillation"},
    {.word = "chatter", .evidence = "log_oscillation", .outcome = "fast_gt_1Hz"},
    {.word = "hammer", .evidence = "log_spikes"},
    {.word = "strainer", .evidence = "log_falloff_trend", .outcome = "worsening"},
    {.word = "air", .evidence = "air_seen", .outcome = "yes"},
    {.word = "logger-fault"},
};

static const finding_row sound_rows[] = {
    {.word = "squeal", .evidence = "sound_class", .outcome = "squeal"},
    {.word = "hiss", .evidence = "sound_class", .outcome = "cavitation"},
    {.word = "chatter", .evidence = "sound_class", .outcome = "chatter"},
    {.word = "hammer", .evidence = "sound_class", .outcome = "hammer"},
    {.word = "rush", .evidence = "sound_class", .outcome = "flow_rush"},
    {.word = "none", .evidence = "sound_class", .outcome = "none_other"},
    {.word = "other", .evidence = "sound_class", .outcome = "none_other"},
};

/* What goes together in both: the hiss that falls with the ratio is the test of the inlet stop, made by the street. */
static const finding_row both_rows[] = {
    {.word = "bangs-surges", .evidence = "log_spikes"},
    {.word = "hiss-ratio", .evidence = "split_drop_test", .outcome = "falls"},
    {.word = "swing-hunting", .evidence = "log_oscillation"},
};

const char *const qll_finding_keys[QLL_FINDING_OF_COUNT] = {
#define QLL_FINDING_OF_KEY(name, key) [QLL_FINDING_OF_##name] = (key),
    QLL_FINDING_OF_LIST(QLL_FINDING_OF_KEY)
#undef QLL_FINDING_OF_KEY
};

static const struct {
    const finding_row *rows;
    size_t count;
} tables[QLL_FINDING_OF_COUNT] = {
    [QLL_FINDING_OF_LOG] = {log_rows, QLL_COUNT(log_rows)},
    [QLL_FINDING_OF_SOUND] = {sound_rows, QLL_COUNT(sound_rows)},
    [QLL_FINDING_OF_BOTH] = {both_rows, QLL_COUNT(both_rows)},
};

static const finding_row *row_of(qll_text word, qll_finding_of of)
{
    for (size_t i = 0; i < tables[of].count; i++) {
        if (qll_text_is(word, tables[of].rows[i].word)) {
            return &tables[of].rows[i];
        }
    }
    return NULL;
}

qll_status qll_finding_words(qll_finding_of of, qll_arena *arena, const char *const **words,
                             size_t *count)
{
    *count = tables[of].count;
    const char **made = qll_arena_take(arena, *count, sizeof *made);
    for (size_t i = 0; made != NULL && i < *count; i++) {
        made[i] = tables[of].rows[i].word;
    }
    *words = made;
    return made == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_kind qll_finding_kind(const qll_knowledge *knowledge, const char *word)
{
    const finding_row *row = row_of(qll_text_of(word), QLL_FINDING_OF_LOG);
    const size_t evidence = row == NULL || row->evidence == NULL
                                ? QLL_NOT_KNOWN
                                : qll_evidence_called(knowledge, qll_text_of(row->evidence));
    const bool is_measured = evidence != QLL_NOT_KNOWN && knowledge->evidence[evidence].is_measured;
    return is_measured ? knowledge->evidence[evidence].measure : QLL_KIND_NUMBER;
}

qll_found_answer qll_finding_answer(const qll_knowledge *knowledge, const qll_case_finding *finding)
{
    const finding_row *row = row_of(qll_text_of(finding->word), finding->of);
    qll_found_answer answer = {
        .evidence = QLL_NOT_KNOWN,
        .outcome = QLL_NOT_KNOWN,
        .same_fact = QLL_NOT_KNOWN,
        .figure = (double)NAN,
        .is_there = finding->strength >= 0.5,
    };
    if (row == NULL || row->evidence == NULL) {
        return answer;
    }
    answer.evidence = qll_evidence_called(knowledge, qll_text_of(row->evidence));
    const qll_evidence *evidence = &knowledge->evidence[answer.evidence];
    answer.same_fact = row->same_fact == NULL
                           ? QLL_NOT_KNOWN
                           : qll_evidence_called(knowledge, qll_text_of(row->same_fact));
    if (!answer.is_there && !row->is_reading) {
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
