/* What happens in time: an event in the survey's pipes, judged, with what would cure it. */
#include "quell/report.h"

#include "engine/event_plan.h"
#include "engine/find_event.h"
#include "engine/find_motion.h"
#include "engine/progress.h"
#include "report/report.h"

/* Runs of an event and of its cures, as shares of the whole. */
#define QLL_SHARE_RUN 0.5

/** Everything that the answer is made of; its parts point at one another. */
typedef struct simulated {
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_station station;
    qll_duty duty;
    qll_event_plan event;
    qll_run_found run;
    qll_simulated_findings findings;
} simulated;

/* The path of a problem of the tree is one of the survey: its line and column are added. */
static void place_problems(qll_asked *asked, const qll_document *document, size_t from)
{
    for (size_t i = from; i < asked->problems.kept_count; i++) {
        qll_place *place = &asked->problems.kept[i].place;
        const qll_node *node = qll_node_at(document->root, place->path);
        if (node != NULL) {
            *place = qll_node_place(document, node, false, asked->arena);
        }
    }
}

static qll_status run_event(qll_asked *asked, simulated *at)
{
    qll_progress_phase(asked, QLL_SHARE_PREPARED, QLL_SHARE_RUN);
    const size_t known = asked->problems.kept_count;
    const qll_status status = qll_run_make(&at->event.plan, &asked->problems, qll_progress_tell,
                                           asked, asked->arena, &at->run);
    place_problems(asked, &at->prepared.document, known);
    return status;
}

static qll_status find_cures(qll_asked *asked, simulated *at)
{
    qll_simulated_findings *found = &at->findings;
    if (found->event != QLL_EVENT_CLOSURE && found->event != QLL_EVENT_DEMAND) {
        return QLL_OK;
    }
    qll_progress_phase(asked, QLL_SHARE_RUN, QLL_SHARE_CLOSE);
    qll_event_cures tried = {0};
    const qll_status status =
        qll_event_cures_find(&at->event.plan, &at->run, found->event == QLL_EVENT_CLOSURE,
                             qll_progress_tell, asked, asked->arena, &tried);
    found->cures = tried.cures;
    found->cure_count = tried.count;
    return status;
}

static qll_status find(qll_asked *asked, simulated *at)
{
    qll_prepared *prepared = &at->prepared;
    qll_status status = qll_prepare_existing(asked, prepared, &at->catalogue, &at->station);
    status = status == QLL_OK ? qll_prepare_duty(asked, prepared, &at->duty) : status;
    if (status != QLL_OK) {
        return status;
    }
    at->findings = (qll_simulated_findings){.station = &at->station, .run = &at->run};
    const qll_event_case of = {prepared, &at->duty, &at->station};
    const qll_event_order order = qll_event_order_of(asked->question);
    status = qll_event_plan_make(asked, &of, &order, &at->event, &at->findings);
    status = status == QLL_OK ? run_event(asked, at) : status;
    status = status == QLL_OK ? find_cures(asked, at) : status;
    if (status == QLL_OK) {
        qll_motion_sources(asked, prepared);
        at->findings.demand = qll_prepared_findings(asked, prepared);
        status = qll_find_event(asked, &at->findings);
    }
    return status;
}

static qll_status make_sheets(qll_asked *asked, const qll_simulated_findings *findings)
{
    qll_sheet sheet;
    qll_simulated_make(findings, asked->arena, &sheet);
    return qll_asked_write_sheet(asked, &sheet);
}

static qll_status write_answer(qll_asked *asked, const qll_simulated_findings *findings)
{
    if (asked->made != NULL || asked->question->form == QLL_FORM_HTML) {
        return make_sheets(asked, findings);
    }
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_simulated_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_simulated_print(&asked->writer, findings);
    }
    return QLL_OK;
}

qll_status qll_ask_simulate(qll_asked *asked)
{
    simulated *at = qll_arena_take(asked->arena, 1, sizeof *at);
    if (at == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = find(asked, at);
    if (status == QLL_OK) {
        status = write_answer(asked, &at->findings);
    }
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}
