#include "engine/draw.h"
#include "engine/find.h"
#include "engine/find_motion.h"
#include "engine/keep.h"
#include "engine/progress.h"

#include <string.h>

/* The recommended station at no flow and at every flow class, at the middle supply. */
static qll_status operate(qll_asked *asked, const qll_site *site, qll_design_findings *findings)
{
    const qll_design *design = findings->design;
    const qll_station *station = &design->shown[0].station;
    const qll_duty *duty = findings->duty;
    size_t middle = duty->supply_count / 2;
    size_t count = duty->flow_count;
    if (!qll_has_part(asked->skipped, QLL_PART_POINTS)) {
        return QLL_OK;
    }
    qll_operating_point *points = qll_arena_take(asked->arena, count + 1, sizeof *points);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_station_operate(station, site, duty->inlet_static_pa[middle], 0.0,
                                            asked->arena, &points[0]);
    for (size_t f = 0; f < count && status == QLL_OK; f++) {
        status = qll_station_operate(station, site, duty->inlet_pa[middle * count + f],
                                     duty->flow_m3s[f], asked->arena, &points[f + 1]);
    }
    findings->points = points;
    findings->point_count = count + 1;
    return status;
}

/* Every figure of the stations that are shown, and the way through the recommended one. Whoever stops by now still
 * gets the station. */
static qll_status find_figures(qll_asked *asked, const qll_site *site,
                               qll_design_findings *findings)
{
    const qll_design *design = findings->design;
    const qll_unit_system units = findings->demand.survey->units;
    qll_station_figures *figures = qll_arena_take(asked->arena, design->count, sizeof *figures);
    qll_status status = figures == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t i = 0; i < design->count && status == QLL_OK; i++) {
        const qll_shown *shown = &design->shown[i];
        const qll_standing at = {&shown->station, site, findings->duty};
        status = qll_find_station(&at, &shown->assessment.closed, units, asked->arena, &figures[i]);
    }
    qll_progress_phase(asked, QLL_SHARE_CHOSEN, QLL_SHARE_CLOSE);
    const qll_standing first = {&design->shown[0].station, site, findings->duty};
    if (status == QLL_OK) {
        status = operate(asked, site, findings);
    }
    if (status == QLL_OK) {
        status = qll_find_way(asked, &first, &findings->way);
    }
    if (status == QLL_OK && qll_asked_draws(asked)) {
        status = qll_find_curves(&first, asked->arena, &findings->curves);
    }
    findings->figures = figures;
    return status == QLL_OK ? qll_find_job(&first, asked->arena, findings) : status;
}

/* The recommended station, run; its verdicts are those of a copy, for the search's are as it found them. */
static qll_status run_water(qll_asked *asked, qll_designed *designed)
{
    qll_design *design = &designed->design;
    if (!qll_has_part(asked->skipped, QLL_PART_MOTION)) {
        return QLL_OK;
    }
    qll_shown *shown = qll_arena_take(asked->arena, design->count, sizeof *shown);
    if (shown == NULL) {
        return QLL_NO_MEMORY;
    }
    memcpy(shown, design->shown, design->count * sizeof *shown);
    design->shown = shown;
    const qll_event_case of = {&designed->prepared, &designed->duty, &shown[0].station};
    return qll_find_motion(asked, &of, &shown[0].assessment, &designed->findings.moving);
}

static void write_answer(qll_asked *asked, const qll_design_findings *findings)
{
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_design_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else {
        const qll_subject subject = qll_subject_of_design(findings);
        qll_answer_print(&asked->writer, &subject);
    }
}

/* The station is chosen once for all questions that hang on the same. */
static qll_status choose(qll_asked *asked, qll_designed *designed)
{
    const qll_design *kept = NULL;
    const qll_status status = qll_keep_design(asked, designed, &kept);
    if (kept != NULL) {
        designed->design = *kept;
        return QLL_OK;
    }
    return status == QLL_OK ? qll_design_choose(asked, designed) : status;
}

qll_status qll_find_design(qll_asked *asked, qll_designed *designed)
{
    *designed = (qll_designed){0};
    qll_status status = qll_design_prepare(asked, designed);
    if (status != QLL_OK) {
        return status;
    }
    const qll_site *site = &designed->prepared.survey.site;
    status = choose(asked, designed);
    if (status != QLL_OK) {
        return status;
    }
    if (designed->design.count > 0 && qll_has_part(asked->skipped, QLL_PART_MOTION)
        && qll_motion_can_run(site)) {
        qll_motion_sources(asked, &designed->prepared);
    }
    designed->findings = (qll_design_findings){
        .demand = qll_prepared_findings(asked, &designed->prepared),
        .catalogue = &designed->catalogue,
        .duty = &designed->duty,
        .design = &designed->design,
    };
    status = qll_find_upstream(site, designed->duty.peak_m3s, asked->arena,
                               &designed->findings.demand.upstream_drop_pa);
    if (status != QLL_OK || designed->design.count == 0) {
        return status;
    }
    status = find_figures(asked, site, &designed->findings);
    return status == QLL_OK ? run_water(asked, designed) : status;
}

qll_status qll_ask_design(qll_asked *asked)
{
    qll_designed designed;
    qll_status status = qll_find_design(asked, &designed);
    if (status != QLL_OK) {
        return status;
    }
    const qll_subject subject = qll_subject_of_design(&designed.findings);
    qll_progress_phase(asked, QLL_SHARE_CLOSE, 1.0);
    status = qll_draw_figures(asked, &subject, &designed.findings.demand);
    if (status != QLL_OK) {
        return status;
    }
    write_answer(asked, &designed.findings);
    return qll_asked_finish(asked);
}
