/* Any JSON as a survey: read to finite figures that make sense, or refused at a place. */
#include "documents/read_survey.h"
#include "require.h"

#include <math.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_run(const qll_pipe_run *run)
{
    QLL_REQUIRE(run->bore_m > 0.0 && run->length_m >= 0.0 && run->minor_loss >= 0.0);
    QLL_REQUIRE(isfinite(run->rise_m) && isfinite(run->minor_loss));
}

static void require_curve(const qll_point *points, size_t count)
{
    QLL_REQUIRE(count >= 1);
    for (size_t i = 0; i < count; i++) {
        QLL_REQUIRE(isfinite(points[i].y) && points[i].x >= 0.0);
        QLL_REQUIRE(i == 0 || points[i].x > points[i - 1].x);
    }
}

static void require_element(const qll_element *element)
{
    if (element->loss.count > 0) {
        require_curve(element->loss.points, element->loss.count);
        return;
    }
    switch (element->kind) {
    case QLL_ELEMENT_PIPE: require_run(&element->pipe); break;
    case QLL_ELEMENT_METER: QLL_REQUIRE(element->meter != NULL); break;
    case QLL_ELEMENT_BACKFLOW: QLL_REQUIRE(element->backflow.rated_flow_m3s > 0.0); break;
    case QLL_ELEMENT_STRAINER:
        QLL_REQUIRE(element->screen.opening_m > 0.0 && element->bore_m > 0.0);
        QLL_REQUIRE(element->blocked >= 0.0 && element->blocked < 1.0);
        break;
    case QLL_ELEMENT_LOSS: QLL_REQUIRE(false); break;
    }
}

static void require_site(const qll_site *site)
{
    const qll_supply *supply = &site->supply;
    require_curve(supply->test, supply->count);
    QLL_REQUIRE(supply->test[0].x == 0.0);
    QLL_REQUIRE(supply->static_high_pa_gauge >= supply->test[0].y);
    QLL_REQUIRE(supply->static_low_pa_gauge <= supply->test[0].y);
    QLL_REQUIRE(site->water.density_kg_m3 > 0.0 && site->barometric_pa > 0.0);
    QLL_REQUIRE(site->set_pa_gauge < supply->static_high_pa_gauge);
    QLL_REQUIRE(site->set_pa_gauge <= site->static_max_pa_gauge);
    for (size_t i = 0; i < site->upstream_count; i++) {
        require_element(&site->upstream[i]);
    }
    for (size_t i = 0; i < site->outlet_count; i++) {
        QLL_REQUIRE(isfinite(site->outlets[i].elevation_m) && site->outlets[i].name != NULL);
        for (size_t p = 0; p < site->outlets[i].path_count; p++) {
            require_run(&site->outlets[i].path[p].pipe);
        }
    }
    const qll_limits *limits = &site->limits;
    QLL_REQUIRE(limits->velocity_low_m_s < limits->velocity_high_m_s);
    QLL_REQUIRE(limits->velocity_high_m_s <= limits->velocity_max_m_s);
    QLL_REQUIRE(limits->ratio_preferred <= limits->ratio_max);
    QLL_REQUIRE(isnan(limits->falloff_share)
                || (limits->falloff_share > 0.0 && limits->falloff_share < 1.0));
    QLL_REQUIRE(site->station_size_count > 0);
}

static void require_scenario(const qll_scenario *scenario, const qll_survey_log *log)
{
    QLL_REQUIRE(scenario->name != NULL && scenario->use < QLL_USE_COUNT);
    QLL_REQUIRE(scenario->people >= 1.0 || (log->name != NULL && scenario->people == 0.0));
    QLL_REQUIRE(scenario->weight > 0.0 && qll_scenario_fault(scenario).id == QLL_TEXT_NONE);
    QLL_REQUIRE(scenario->quantile > 0.0 && scenario->quantile < 1.0);
    QLL_REQUIRE((scenario->peak_method == QLL_PEAK_GIVEN) == (scenario->peak_given_m3s > 0.0));
    for (size_t i = 0; i < scenario->load_count; i++) {
        QLL_REQUIRE(scenario->loads[i].kind != NULL && scenario->loads[i].count > 0);
    }
    for (size_t i = 0; i < scenario->continuous_count; i++) {
        const qll_continuous *flow = &scenario->continuous[i];
        QLL_REQUIRE(flow->flow_m3s >= 0.0 && flow->from_s >= 0.0 && flow->to_s <= 86400.0);
    }
}

static void require_survey(const qll_survey *survey)
{
    require_site(&survey->site);
    QLL_REQUIRE(survey->scenario_count > 0 && survey->name != NULL);
    for (size_t i = 0; i < survey->scenario_count; i++) {
        require_scenario(&survey->scenarios[i], &survey->logs[i]);
    }
    for (size_t i = 0; i < survey->existing_count; i++) {
        QLL_REQUIRE(survey->existing[i].branch_count > 0);
        QLL_REQUIRE(survey->existing[i].branches[0].valve_id != NULL);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static qll_tables tables;
    static qll_arena *tables_arena;
    if (tables_arena == NULL) {
        tables_arena = qll_arena_open((size_t)64 * 1024 * 1024);
        QLL_REQUIRE(qll_tables_read(tables_arena, &tables) == QLL_OK);
    }
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document document;
    qll_survey survey;
    qll_text source = {(const char *)data, size};
    qll_status status = qll_document_read(source, "survey.json", arena, &document, &problems);
    if (status == QLL_OK) {
        status = qll_survey_read(&document, &tables, arena, &survey, &assumed, &problems);
        QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
        QLL_REQUIRE((status == QLL_OK) == (problems.refusal_count == 0));
        require_clean_problems(&problems);
    }
    if (status == QLL_OK) {
        require_survey(&survey);
    }
    qll_arena_close(arena);
    return 0;
}
