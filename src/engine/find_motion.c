#include "engine/find_motion.h"

#include "base/count.h"
#include "engine/find_event.h"
#include "engine/progress.h"

#include <math.h>

enum {
    QLL_OF_HAMMER,
    QLL_OF_HUNTING
};

/* One event from its order to what was found. */
typedef struct one_run {
    qll_event_plan event;
    qll_run_found run;
    qll_simulated_findings findings;
} one_run;

typedef struct moving {
    qll_asked *asked;
    const qll_event_case *of;
    qll_assessment *assessment;
    qll_moving_event *events;
    size_t count;
    size_t worst[2];         /* event of the gravest hammer, of the gravest hunting */
    qll_verdict verdicts[2]; /* what these say */
    one_run *said;           /* the last of them that was run, for its sentences */
    double from, to;         /* of the phase that all runs share */
} moving;

/* ---- one event ---- */

static qll_event_order order_of(const qll_moving_event *event)
{
    return (qll_event_order){.event = event->event_word, .outlet = event->outlet};
}

static qll_status run_one(const moving *m, const qll_moving_event *event, one_run *made)
{
    qll_asked *asked = m->asked;
    const qll_event_order order = order_of(event);
    made->findings = (qll_simulated_findings){.station = m->of->station, .run = &made->run};
    qll_status status = qll_event_plan_make(asked, m->of, &order, &made->event, &made->findings);
    if (status == QLL_OK) {
        status = qll_run_make(&made->event.plan, &asked->problems, qll_progress_tell, asked,
                              asked->arena, &made->run);
    }
    if (status != QLL_OK) {
        return status;
    }
    made->findings.demand = qll_prepared_findings(asked, m->of->prepared);
    return qll_find_event(asked, &made->findings);
}

/* Runs an event and keeps its figures; its memory is given back. */
static qll_status measure(moving *m, size_t index)
{
    const double step = (m->to - m->from) / (double)(m->count + 2);
    qll_progress_phase(m->asked, m->from + step * (double)index,
                       m->from + step * (double)(index + 1));
    const qll_arena_mark mark = qll_arena_now(m->asked->arena);
    one_run *made = qll_arena_take(m->asked->arena, 1, sizeof *made);
    const qll_status status = made == NULL ? QLL_NO_MEMORY : run_one(m, &m->events[index], made);
    if (status == QLL_OK) {
        qll_moving_event *event = &m->events[index];
        event->event = made->findings.event;
        event->says = made->findings.says;
        for (size_t i = 0; i < 2; i++) {
            event->verdicts[i] = made->findings.verdicts[i];
            event->verdicts[i].says = (qll_said){.id = QLL_TEXT_NONE};
        }
    }
    qll_arena_reset(m->asked->arena, mark);
    return status;
}

/* ---- which events ---- */

static bool can_close(const qll_outlet *outlet)
{
    return outlet->path_count > 0;
}

bool qll_motion_can_run(const qll_site *site)
{
    for (size_t i = 0; i < site->outlet_count; i++) {
        if (can_close(&site->outlets[i])) {
            return true;
        }
    }
    return false;
}

static qll_status list_events(moving *m)
{
    const qll_site *site = &m->of->prepared->survey.site;
    m->events = qll_arena_take(m->asked->arena, site->outlet_count + 1, sizeof *m->events);
    if (m->events == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < site->outlet_count; i++) {
        if (can_close(&site->outlets[i])) {
            m->events[m->count++] =
                (qll_moving_event){.event_word = "closure", .outlet = site->outlets[i].name};
        }
    }
    if (m->count > 0) {
        m->events[m->count++] = (qll_moving_event){.event_word = "demand"};
    }
    return QLL_OK;
}

/* ---- the worst of them ---- */

/* That something at an outlet closes so fast is our assumption, so it is a caution at most. */
static qll_grade grade_of(qll_event_kind event, qll_grade grade)
{
    return event == QLL_EVENT_CLOSURE && grade == QLL_GRADE_FAIL ? QLL_GRADE_CAUTION : grade;
}

static bool is_graver(const qll_moving_event *a, const qll_moving_event *b, size_t rule)
{
    const qll_grade own = grade_of(a->event, a->verdicts[rule].grade);
    const qll_grade other = grade_of(b->event, b->verdicts[rule].grade);
    return own != other ? own > other : a->verdicts[rule].gravity > b->verdicts[rule].gravity;
}

static void find_worst(moving *m)
{
    for (size_t rule = 0; rule < 2; rule++) {
        m->worst[rule] = 0;
        for (size_t i = 1; i < m->count; i++) {
            if (is_graver(&m->events[i], &m->events[m->worst[rule]], rule)) {
                m->worst[rule] = i;
            }
        }
    }
}

static qll_verdict verdict_of(size_t rule, const qll_simulated_findings *found,
                              const qll_said *says)
{
    static const qll_rule rules[] = {QLL_RULE_HAMMER, QLL_RULE_HUNTING};
    static const qll_finding usual[] = {QLL_FINDING_HAMMER_RUN, QLL_FINDING_HUNTING_RUN};
    static const qll_finding quick[] = {QLL_FINDING_HAMMER_QUICK, QLL_FINDING_HUNTING_QUICK};
    const qll_event_verdict *of = &found->verdicts[rule];
    const bool is_quick = found->event == QLL_EVENT_CLOSURE;
    qll_verdict verdict = qll_verdict_new(rules[rule], of->kind);
    verdict.grade = grade_of(found->event, of->grade);
    verdict.finding = (is_quick ? quick : usual)[rule];
    verdict.value = of->value;
    verdict.limit = of->limit;
    verdict.holds_share = (double)NAN;
    verdict.run_says = says;
    return verdict;
}

/* The worst is run once more, for the sentence about it, and once where it is so of both rules; it is the same run, so the
 * figures are too. */
static qll_status say_worst(moving *m, size_t rule)
{
    qll_progress_phase(m->asked, m->to, m->to);
    const bool is_run = m->said != NULL && m->worst[QLL_OF_HAMMER] == m->worst[QLL_OF_HUNTING];
    one_run *made = is_run ? m->said : qll_arena_take(m->asked->arena, 1, sizeof *made);
    qll_said *says = qll_arena_take(m->asked->arena, 2, sizeof *says);
    if (made == NULL || says == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = is_run ? QLL_OK : run_one(m, &m->events[m->worst[rule]], made);
    m->said = made;
    if (status == QLL_OK) {
        says[0] = made->findings.says;
        says[1] = made->findings.verdicts[rule].says;
        m->verdicts[rule] = verdict_of(rule, &made->findings, says);
    }
    return status;
}

/* ---- the whole ---- */

void qll_motion_sources(qll_asked *asked, qll_prepared *prepared)
{
    static const qll_text_id sources[] = {QLL_TEXT_SOURCE_WAVES, QLL_TEXT_SOURCE_MOTION,
                                          QLL_TEXT_SOURCE_HAMMER_LIMITS};
    for (size_t i = 0; i < QLL_COUNT(sources); i++) {
        qll_prepared_source(asked, prepared, (qll_said){.id = sources[i]});
    }
}

static void put_reason(moving *m, qll_finding finding)
{
    qll_verdict verdict = qll_verdict_new(QLL_RULE_HAMMER, QLL_KIND_NUMBER);
    verdict.grade = QLL_GRADE_UNKNOWN;
    verdict.holds_share = (double)NAN;
    verdict.finding = finding;
    qll_assessment_take_run(m->assessment, &verdict);
}

static qll_status run_all(moving *m)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; i < m->count && status == QLL_OK; i++) {
        status = measure(m, i);
    }
    if (status == QLL_OK) {
        find_worst(m);
        status = say_worst(m, QLL_OF_HAMMER);
    }
    if (status == QLL_OK) {
        status = say_worst(m, QLL_OF_HUNTING);
    }
    for (size_t rule = 0; rule < 2 && status == QLL_OK; rule++) {
        qll_assessment_take_run(m->assessment, &m->verdicts[rule]);
    }
    return status;
}

qll_status qll_find_motion(qll_asked *asked, const qll_event_case *of, qll_assessment *assessment,
                           const qll_moving **moving_found)
{
    const qll_problems known = asked->problems;
    moving m = {.asked = asked,
                .of = of,
                .assessment = assessment,
                .from = asked->phase_from,
                .to = asked->phase_to};
    qll_moving *found = qll_arena_take(asked->arena, 1, sizeof *found);
    if (found == NULL || list_events(&m) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    *moving_found = found;
    if (asked->is_stopped) {
        return QLL_OK; /* what was found by then is told */
    }
    const qll_status status = m.count > 0 ? run_all(&m) : QLL_OK;
    if (status == QLL_NO_MEMORY || status == QLL_STOPPED) {
        return status;
    }
    /* What keeps pipes from being run is no fault of an answer about a station. */
    asked->problems = known;
    if (status == QLL_OK) {
        *found = (qll_moving){m.events, m.count};
    }
    if (m.count == 0 || status == QLL_REFUSED) {
        put_reason(&m, m.count == 0 ? QLL_FINDING_HAMMER_NO_PIPES : QLL_FINDING_HAMMER_NO_TREE);
    }
    return QLL_OK;
}
