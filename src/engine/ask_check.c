#include "engine/draw.h"
#include "engine/find.h"
#include "engine/find_motion.h"
#include "engine/progress.h"

/* One row of the answer: where the supply stands, and the flow. */
typedef struct check_row {
    double inlet_pa, flow_m3s;
    const char *supply;
} check_row;

typedef struct row_list {
    check_row *rows;
    size_t count;
} row_list;

/* What --flow and --inlet ask for. */
typedef struct overrides {
    bool has_flow, has_inlet;
    double flow_m3s, inlet_pa_gauge;
} overrides;

static bool read_quantity(qll_asked *asked, const char *option, const char *text, qll_kind kind,
                          qll_quantity *quantity)
{
    qll_units_refusal refusal = {0};
    if (!qll_units_read(qll_text_of(text), kind, asked->arena, quantity, &refusal)) {
        qll_asked_refuse(asked, refusal.code, option, &refusal.says,
                         qll_hint_word(refusal.hint, asked->arena));
        return false;
    }
    return true;
}

/* The bounds are ours: beyond any building's main, so that a slip of sign or unit shows. */
static bool read_given(qll_asked *asked, const qll_site *site, overrides *given)
{
    const qll_question *question = asked->question;
    qll_quantity quantity = {0};
    if (question->flow != NULL
        && read_quantity(asked, "--flow", question->flow, QLL_KIND_FLOW, &quantity)) {
        given->has_flow = true;
        given->flow_m3s = quantity.si;
        if (quantity.si < 0.0 || quantity.si > 1.0) {
            qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--flow", QLL_SAYS(FLOW_RANGE), NULL);
        }
    }
    if (question->inlet != NULL
        && read_quantity(asked, "--inlet", question->inlet, QLL_KIND_PRESSURE, &quantity)) {
        given->has_inlet = true;
        given->inlet_pa_gauge = qll_units_gauge_pa(quantity, site->barometric_pa);
        if (given->inlet_pa_gauge <= 0.0 || given->inlet_pa_gauge > 5e6) {
            qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--inlet", QLL_SAYS(INLET_RANGE), NULL);
        }
    }
    return asked->problems.refusal_count == 0;
}

/* The pressure of --inlet stands in for the supply and all that lies before the station, so that
 * points, verdicts and causes speak of the same water. */
static bool replace_supply(qll_asked *asked, qll_site *site, double inlet_pa_gauge)
{
    qll_point *test = qll_arena_take(asked->arena, 1, sizeof *test);
    if (test == NULL) {
        return false;
    }
    *test = (qll_point){.x = 0.0, .y = inlet_pa_gauge};
    site->supply = (qll_supply){
        .test = test,
        .count = 1,
        .static_high_pa_gauge = inlet_pa_gauge,
        .static_low_pa_gauge = inlet_pa_gauge,
    };
    site->upstream = NULL;
    site->upstream_count = 0;
    return true;
}

static void add_row(row_list *rows, double inlet_pa, double flow_m3s, const char *supply)
{
    rows->rows[rows->count] =
        (check_row){.inlet_pa = inlet_pa, .flow_m3s = flow_m3s, .supply = supply};
    rows->count += 1;
}

/* All flow classes at the middle supply, with the corners that must hold: highest supply at no flow
 * and at the smallest flow, lowest supply at the peak. */
static void add_duty_rows(row_list *rows, const qll_duty *duty)
{
    size_t count = duty->flow_count;
    size_t middle = duty->supply_count / 2;
    size_t high = duty->supply_count - 1;
    add_row(rows, duty->inlet_static_pa[middle], 0.0, "middle");
    add_row(rows, duty->inlet_static_pa[high], 0.0, "high");
    add_row(rows, duty->inlet_pa[high * count], duty->flow_m3s[0], "high");
    for (size_t f = 0; f < count; f++) {
        add_row(rows, duty->inlet_pa[middle * count + f], duty->flow_m3s[f], "middle");
    }
    add_row(rows, duty->inlet_pa[count - 1], duty->flow_m3s[count - 1], "low");
}

/* With --inlet there is one supply, so no corners. */
static void add_inlet_rows(row_list *rows, const qll_duty *duty)
{
    add_row(rows, duty->inlet_static_pa[0], 0.0, "given");
    for (size_t f = 0; f < duty->flow_count; f++) {
        add_row(rows, duty->inlet_pa[f], duty->flow_m3s[f], "given");
    }
}

static qll_status make_rows(qll_asked *asked, const qll_site *site, const qll_duty *duty,
                            const overrides *given, row_list *rows)
{
    rows->rows = qll_arena_take(asked->arena, duty->flow_count + 4, sizeof *rows->rows);
    if (rows->rows == NULL) {
        return QLL_NO_MEMORY;
    }
    if (given->has_flow) {
        double standing = duty->supply_static_pa_gauge[duty->supply_count / 2];
        add_row(rows, qll_site_inlet_pa(site, standing, given->flow_m3s), given->flow_m3s,
                given->has_inlet ? "given" : "middle");
    } else if (given->has_inlet) {
        add_inlet_rows(rows, duty);
    } else {
        add_duty_rows(rows, duty);
    }
    return QLL_OK;
}

/* Outlets at all rows with the set-points moved by @p bands of hysteresis. At no flow the lock-up is
 * where a falling flow ends, whichever way it came. */
static qll_status operate_shifted(qll_asked *asked, const qll_site *site, const row_list *rows,
                                  double bands, qll_check_findings *findings,
                                  const double **outlet_pa)
{
    double *outlets = qll_arena_take(asked->arena, rows->count, sizeof *outlets);
    qll_station shifted;
    qll_operator *made = NULL;
    qll_operating_point *point = NULL;
    if (outlets == NULL
        || qll_station_shift(findings->station, bands, asked->arena, &shifted) != QLL_OK
        || qll_operator_make(&shifted, site, asked->arena, &made) != QLL_OK
        || qll_points_make(&shifted, 1, asked->arena, &point) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < rows->count; i++) {
        qll_operate(made, &rows->rows[i].inlet_pa, &rows->rows[i].flow_m3s, 1, point);
        bool flows = rows->rows[i].flow_m3s > 0.0;
        outlets[i] = flows ? point->outlet_pa : findings->points[i].outlet_pa;
    }
    *outlet_pa = outlets;
    return QLL_OK;
}

static qll_status operate(qll_asked *asked, const qll_site *site, const row_list *rows,
                          qll_check_findings *findings)
{
    qll_operating_point *points = qll_arena_take(asked->arena, rows->count, sizeof *points);
    const char **supplies = qll_arena_take(asked->arena, rows->count, sizeof *supplies);
    if (points == NULL || supplies == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < rows->count; i++) {
        const check_row *one = &rows->rows[i];
        qll_status status = qll_station_operate(findings->station, site, one->inlet_pa,
                                                one->flow_m3s, asked->arena, &points[i]);
        if (status != QLL_OK) {
            return status;
        }
        supplies[i] = one->supply;
        if (qll_progress_step(asked, i, rows->count) != QLL_OK) {
            return QLL_STOPPED;
        }
    }
    findings->points = points;
    findings->point_supplies = supplies;
    findings->point_count = rows->count;
    qll_status status =
        operate_shifted(asked, site, rows, -0.5, findings, &findings->outlet_rising_pa);
    return status != QLL_OK
               ? status
               : operate_shifted(asked, site, rows, 0.5, findings, &findings->outlet_falling_pa);
}

/* What the station is judged and measured by. */
static qll_status take_yardstick(qll_asked *asked, const qll_check_findings *findings,
                                 qll_unknowns *unknowns, qll_yardstick *yardstick)
{
    qll_status status = findings->is_nominal
                            ? qll_unknowns_nominal(findings->duty, asked->arena, unknowns)
                            : qll_unknowns_make(findings->duty, 1.0, asked->arena, unknowns);
    return status == QLL_OK ? qll_yardstick_make(&findings->demand.survey->site, findings->duty,
                                                 unknowns, asked->arena, yardstick)
                            : status;
}

/* The verdicts, and what would cure what they find. */
static qll_status judge(qll_asked *asked, qll_check_findings *findings, qll_assessment *assessment,
                        qll_cures *cures)
{
    qll_progress_phase(asked, QLL_SHARE_OPERATED, QLL_SHARE_JUDGED);
    qll_unknowns unknowns;
    qll_yardstick yardstick;
    qll_status status = take_yardstick(asked, findings, &unknowns, &yardstick);
    if (status == QLL_OK) {
        status = qll_station_assess(findings->station, &yardstick, asked->arena, assessment);
    }
    if (status == QLL_OK) {
        status = qll_progress_step(asked, 0, 1);
    }
    qll_progress_phase(asked, QLL_SHARE_JUDGED, QLL_SHARE_CURED);
    const qll_cures_case given = {
        .station = findings->station,
        .assessment = assessment,
        .catalogue = findings->catalogue,
        .units = findings->demand.survey->units,
        .is_only_now = !qll_has_part(asked->skipped, QLL_PART_CURES),
        .progress = asked->question->progress == NULL ? NULL : qll_progress_tell,
        .progress_context = asked,
    };
    status = status == QLL_OK ? qll_cures_find(&given, &yardstick, asked->arena, cures) : status;
    return status == QLL_OK ? qll_find_cure_parts(cures, &yardstick, given.units, asked->arena,
                                                  &findings->cure_parts)
                            : status;
}

/* Judges the station over the whole duty and fills the findings. */
static qll_status examine(qll_asked *asked, const overrides *given, qll_assessment *assessment,
                          qll_check_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    row_list rows = {0};
    qll_cures *cures = qll_arena_take(asked->arena, 1, sizeof *cures);
    if (cures == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_progress_phase(asked, QLL_SHARE_PREPARED, QLL_SHARE_OPERATED);
    qll_status status = QLL_OK;
    if (qll_has_part(asked->skipped, QLL_PART_POINTS)) {
        status = make_rows(asked, &survey->site, findings->duty, given, &rows);
        status = status == QLL_OK ? operate(asked, &survey->site, &rows, findings) : status;
    }
    if (status == QLL_OK) {
        status = judge(asked, findings, assessment, cures);
    }
    const qll_standing at = {findings->station, &survey->site, findings->duty};
    qll_progress_phase(asked, QLL_SHARE_CURED, QLL_SHARE_CLOSE);
    if (status == QLL_OK) {
        status = qll_find_upstream(&survey->site, findings->duty->peak_m3s, asked->arena,
                                   &findings->demand.upstream_drop_pa);
    }
    if (status == QLL_OK) {
        status = qll_find_way(asked, &at, &findings->way);
    }
    if (status == QLL_OK) {
        status = qll_find_station(&at, &assessment->closed, survey->units, asked->arena,
                                  &findings->figures);
    }
    if (status == QLL_OK && qll_asked_draws(asked)) {
        status = qll_find_curves(&at, asked->arena, &findings->curves);
    }
    if (status != QLL_OK) {
        return status;
    }
    if (qll_has_part(asked->skipped, QLL_PART_NOISE)) {
        findings->loudest = qll_find_spectrum(&at, &assessment->loudest);
        findings->typical = qll_find_spectrum(&at, &assessment->typical);
    }
    findings->assessment = assessment;
    findings->cures = cures;
    return QLL_OK;
}

/* A report has it by itself; its own share of the progress is what is left of the close look. */
static qll_status run_water(qll_asked *asked, qll_checked *checked)
{
    const qll_event_case of = {&checked->prepared, &checked->duty, &checked->station};
    return qll_has_part(asked->skipped, QLL_PART_MOTION)
               ? qll_find_motion(asked, &of, &checked->assessment, &checked->findings.moving)
               : QLL_OK;
}

/* What is heard, by all verdicts: those of a run too. */
static qll_status find_causes(qll_asked *asked, qll_check_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_wording wording = {
        .units = survey->units,
        .language = asked->language,
        .site = &survey->site,
        .duty = findings->duty,
    };
    return qll_noise_causes(&wording, findings->station, findings->assessment,
                            &findings->cures->now, asked->arena, &findings->causes,
                            &findings->cause_count);
}

static qll_status refuse_without_station(qll_asked *asked, const qll_document *document)
{
    qll_fault fault = {
        .code = QLL_CODE_MISSING_KEY,
        .level = QLL_REFUSAL,
        .place = qll_node_place(document, document->root, false, asked->arena),
        .says = QLL_SAYS(EXISTING_MISSING),
        .hint = QLL_SAYS(HINT_ADD_EXISTING),
    };
    qll_problems_add(&asked->problems, fault);
    return qll_problems_status(&asked->problems);
}

/* Survey, catalogue and existing station; one pass shows the problems of survey and catalogue. */
qll_status qll_prepare_existing(qll_asked *asked, qll_prepared *prepared, qll_catalogue *catalogue,
                                qll_station *station)
{
    qll_status status = qll_prepare_survey(asked, prepared);
    if (status == QLL_NO_MEMORY) {
        return status;
    }
    qll_status second = qll_prepare_catalogue(asked, prepared, catalogue);
    if (status != QLL_OK || second != QLL_OK) {
        return status != QLL_OK ? status : second;
    }
    if (prepared->survey.existing_count == 0) {
        return refuse_without_station(asked, &prepared->document);
    }
    qll_prepare_header(asked, prepared);
    return qll_survey_existing(&prepared->survey, catalogue, asked->arena, station, &asked->assumed,
                               &asked->problems);
}

qll_status qll_find_check(qll_asked *asked, qll_checked *checked)
{
    *checked = (qll_checked){0};
    qll_prepared *prepared = &checked->prepared;
    qll_status status =
        qll_prepare_existing(asked, prepared, &checked->catalogue, &checked->station);
    if (status != QLL_OK) {
        return status;
    }
    qll_site *site = &prepared->survey.site;
    overrides given = {0};
    if (!read_given(asked, site, &given)) {
        return qll_problems_status(&asked->problems);
    }
    if (given.has_inlet && !replace_supply(asked, site, given.inlet_pa_gauge)) {
        return QLL_NO_MEMORY;
    }
    status = qll_prepare_duty(asked, prepared, &checked->duty);
    if (status != QLL_OK) {
        return status;
    }
    if (qll_has_part(asked->skipped, QLL_PART_MOTION)
        && qll_motion_can_run(&prepared->survey.site)) {
        qll_motion_sources(asked, prepared);
    }
    const unsigned goes_by_chance = QLL_PART_BIT(QLL_PART_CHANCE) | QLL_PART_BIT(QLL_PART_CAUSES)
                                    | QLL_PART_BIT(QLL_PART_CURES);
    checked->findings = (qll_check_findings){
        .demand = qll_prepared_findings(asked, prepared),
        .catalogue = &checked->catalogue,
        .duty = &checked->duty,
        .station = &checked->station,
        .is_nominal = (asked->skipped & goes_by_chance) == goes_by_chance,
    };
    status = examine(asked, &given, &checked->assessment, &checked->findings);
    status = status == QLL_OK ? run_water(asked, checked) : status;
    return status == QLL_OK ? find_causes(asked, &checked->findings) : status;
}

static qll_status write_answer(qll_asked *asked, qll_check_findings *findings)
{
    qll_subject subject;
    qll_status status = qll_subject_of_check(findings, asked->arena, &subject);
    qll_progress_phase(asked, QLL_SHARE_CLOSE, 1.0);
    status = status == QLL_OK ? qll_draw_figures(asked, &subject, &findings->demand) : status;
    if (status == QLL_OK && asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_check_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else if (status == QLL_OK) {
        qll_answer_print(&asked->writer, &subject);
    }
    return status;
}

qll_status qll_ask_check(qll_asked *asked)
{
    qll_checked checked;
    qll_status status = qll_find_check(asked, &checked);
    if (status == QLL_OK) {
        status = write_answer(asked, &checked.findings);
    }
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}
