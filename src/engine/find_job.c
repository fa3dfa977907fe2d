/* What the person at the station needs: its parts, what to heed, its tests, and how their flows are made to run. */
#include "engine/find.h"

#include <math.h>

/* From so many homes on a building is one whose water is missed at once, whatever the hour (our assumption). */
#define QLL_HOMES_NEVER_WITHOUT 20.0

/* A flow that is passed for less of the time than the rest of this comes by itself in no test (our assumption). */
#define QLL_REACHED_SHARE 0.99

static qll_occupied occupied_of(const qll_survey *survey)
{
    qll_occupied occupied = {0};
    for (size_t i = 0; i < survey->scenario_count; i++) {
        const qll_scenario *scenario = &survey->scenarios[i];
        bool is_lived_in = scenario->use == QLL_USE_HOSPITAL || scenario->use == QLL_USE_HOTEL;
        bool is_tower = scenario->use == QLL_USE_APARTMENT
                        && qll_scenario_homes(scenario) >= QLL_HOMES_NEVER_WITHOUT;
        occupied.is_never_without = occupied.is_never_without || is_lived_in || is_tower;
        occupied.may_grow = occupied.may_grow || scenario->use != QLL_USE_HOUSE;
    }
    return occupied;
}

/* Sizes of each branch, and how it is set. */
static qll_status find_branches(const qll_standing *at, const qll_design_findings *findings,
                                qll_arena *arena, qll_job *job)
{
    const qll_station *station = at->station;
    const qll_survey *survey = findings->demand.survey;
    const size_t valves = qll_station_valve_count(station);
    const qll_branch_sizes **sizes =
        qll_arena_take(arena, station->stage_count, sizeof(const qll_branch_sizes *));
    const qll_setting_test **tests =
        qll_arena_take(arena, station->stage_count, sizeof(const qll_setting_test *));
    qll_branch_sizes *size = qll_arena_take(arena, valves, sizeof *size);
    qll_setting_test *test = qll_arena_take(arena, valves, sizeof *test);
    qll_status status =
        sizes == NULL || tests == NULL || size == NULL || test == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t s = 0; status == QLL_OK && s < station->stage_count; s++) {
        sizes[s] = size;
        tests[s] = test;
        for (size_t b = 0; status == QLL_OK && b < station->stages[s].branch_count; b++) {
            const qll_setting *setting = &findings->figures[0].settings[s][b];
            *size++ = qll_branch_sizes_of(station, at->site, &findings->design->shown[0].assessment,
                                          s, b);
            test->most_pa_gauge = qll_setting_most_pa_gauge(
                setting, findings->commissioning->set_tolerance_pa, survey->units);
            status = qll_flow_run_of(&survey->scenarios[0], setting->flow_m3s, arena, &test->run);
            test += 1;
        }
    }
    job->sizes = sizes;
    job->setting_tests = tests;
    return status;
}

/* The most that a building can be made to draw for a test: half its peak where one person opens the fixtures for it, else
 * what its people draw at most but for one hundredth of the time, and the hose valve. */
static qll_status find_reach(const qll_standing *at, const qll_scenario *scenario, qll_arena *arena,
                             double *reach_m3s)
{
    const qll_duty_scenario *drawn = &at->duty->scenarios[0];
    const double usual_m3s =
        qll_curve_inverse((qll_curve){drawn->time_at_or_below, drawn->count}, QLL_REACHED_SHARE);
    const double half_m3s = 0.5 * at->duty->peak_m3s;
    qll_flow_run run;
    const qll_status status = qll_flow_run_of(scenario, half_m3s, arena, &run);
    const bool is_by_hand = !run.is_short && !run.is_for_busiest_hour;
    *reach_m3s = is_by_hand ? half_m3s : QLL_HOSE_VALVE_M3S + fmax(usual_m3s, 0.0);
    return status;
}

qll_status qll_find_job(const qll_standing *at, qll_arena *arena, qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_assessment *assessment = &findings->design->shown[0].assessment;
    qll_job *job = qll_arena_take(arena, 1, sizeof *job);
    qll_commissioning *tests = qll_arena_take(arena, 1, sizeof *tests);
    if (job == NULL || tests == NULL) {
        return QLL_NO_MEMORY;
    }
    findings->job = job;
    findings->commissioning = tests;
    *job = (qll_job){.installing = qll_installing_of(at->station, at->site, assessment,
                                                     occupied_of(survey), survey->units)};
    const qll_extra_parts extra = {job->installing.relief_pa_gauge,
                                   findings->figures[0].tank_part_m3};
    qll_status status =
        qll_pieces_of(at->station, at->site, assessment, extra, survey->units, arena, &job->pieces);
    double reach_m3s = NAN;
    if (status == QLL_OK) {
        status = find_reach(at, &survey->scenarios[0], arena, &reach_m3s);
    }
    if (status == QLL_OK) {
        status = qll_commissioning_make(at->station, at->site, at->duty->peak_m3s, reach_m3s,
                                        survey->units, arena, tests);
    }
    if (status == QLL_OK) {
        status = find_branches(at, findings, arena, job);
    }
    for (size_t i = 0; i < QLL_FALLOFF_TESTS && status == QLL_OK; i++) {
        status = qll_flow_run_of(&survey->scenarios[0], tests->falloff[i].flow_m3s, arena,
                                 &job->falloff_runs[i]);
    }
    return status;
}
