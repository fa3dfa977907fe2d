/* The peak by simultaneous use and its normal approximation (docs/theory/simultaneous_use.md). */
#include "demand/peaks.h"

#include <assert.h>
#include <math.h>

static const qll_remark *simultaneous_reason(qll_peaks *all)
{
    const qll_scenario *scenario = &all->apart;
    if (!qll_scenario_has_fixtures(scenario)) {
        return qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_FIXTURES});
    }
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        qll_remark reason = {.id = QLL_REMARK_COUNT, .name = load->kind->word};
        if (load->count == 0) {
            continue;
        }
        if (isnan(qll_load_probability(load))) {
            reason.id = QLL_REMARK_NO_PROBABILITY;
        } else if (isnan(qll_load_flow_m3s(load))) {
            reason.id = QLL_REMARK_NO_FLOW;
        } else if (isnan(load->use_probability) && !qll_use_is_dwelling(scenario->use)) {
            reason.id = QLL_REMARK_HOMES_ONLY;
        }
        if (reason.id != QLL_REMARK_COUNT) {
            return qll_peaks_remark(all, reason);
        }
    }
    return NULL;
}

static bool all_probabilities_given(const qll_scenario *scenario)
{
    for (size_t i = 0; i < scenario->load_count; i++) {
        if (scenario->loads[i].count > 0 && isnan(scenario->loads[i].use_probability)) {
            return false;
        }
    }
    return true;
}

qll_use_group qll_use_group_of(const qll_scenario *scenario, const qll_fixture_load *load)
{
    qll_use_group group = {.count = load->count,
                           .flow_m3s = qll_load_flow_m3s(load),
                           .probability = qll_load_probability(load)};
    if (scenario->outlet_pa_gauge > 0.0) {
        const double reference_pa = scenario->reference_pa_gauge > 0.0
                                        ? scenario->reference_pa_gauge
                                        : QLL_OUTLET_REFERENCE_PA_GAUGE;
        const double ratio =
            qll_outlet_flow_ratio(load->kind->outlet, scenario->outlet_pa_gauge, reference_pa);
        group.flow_m3s *= ratio;
        if (load->kind->outlet.is_volumetric && !isnan(group.probability)) {
            group.probability = fmin(group.probability / ratio, 1.0);
        }
    }
    return group;
}

/* Where the approximation may be used: the 2017 study's own branch, and what was found in it. */
static const qll_remark *normal_notes(qll_peaks *all, const qll_simultaneous *use)
{
    const bool is_within = use->busy_count >= 5.0;
    qll_remarks notes = {0};
    qll_peaks_note(
        all, &notes,
        (qll_remark){.id = is_within ? QLL_REMARK_NORMAL_WITHIN : QLL_REMARK_NORMAL_OUTSIDE,
                     .figures = {use->busy_count}});
    qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_NORMAL_LOW});
    return notes.first;
}

static const qll_remark *exact_notes(qll_peaks *all, const qll_simultaneous *use, bool is_given)
{
    qll_remarks notes = {0};
    qll_peaks_note(all, &notes,
                   (qll_remark){.id = QLL_REMARK_QUANTILE, .figures = {all->scenario->quantile}});
    if (use->rounding_m3s > 0.0) {
        qll_peaks_note(
            all, &notes,
            (qll_remark){.id = QLL_REMARK_STEPS, .figures = {use->step_m3s, use->rounding_m3s}});
    }
    qll_peaks_note_apart(all, &notes);
    if (!is_given) {
        qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_HOMES});
    }
    qll_peaks_note_continuous(all, &notes);
    return notes.first;
}

static void add_simultaneous(qll_peaks *all, const qll_simultaneous *use)
{
    const bool given = all_probabilities_given(&all->apart);
    qll_peak_estimate estimate = {
        .method = QLL_PEAK_SIMULTANEOUS_USE,
        .peak_m3s = use->flow_m3s + all->continuous_m3s,
        .table = {.id = given ? QLL_TEXT_TABLE_PROBABILITIES : QLL_TEXT_TABLE_STUDY},
        .source = {.id = given ? QLL_TEXT_SOURCE_PROBABILITIES : QLL_TEXT_SOURCE_STUDY},
        .notes = exact_notes(all, use, given),
    };
    qll_peaks_add(all, estimate);
    estimate.method = QLL_PEAK_NORMAL_APPROXIMATION;
    estimate.peak_m3s = use->normal_m3s + all->continuous_m3s;
    estimate.source = (qll_said){.id = QLL_TEXT_SOURCE_NORMAL};
    estimate.notes = normal_notes(all, use);
    qll_peaks_add(all, estimate);
}

qll_status qll_estimate_use(qll_peaks *all, qll_simultaneous *use)
{
    const qll_scenario *scenario = &all->apart;
    const qll_remark *reason = simultaneous_reason(all);
    all->reasons[QLL_PEAK_SIMULTANEOUS_USE] = reason;
    all->reasons[QLL_PEAK_NORMAL_APPROXIMATION] = reason;
    if (reason != NULL) {
        return QLL_OK;
    }
    qll_use_group *groups = qll_arena_take(all->arena, scenario->load_count, sizeof *groups);
    if (groups == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->count > 0) {
            groups[count] = qll_use_group_of(scenario, load);
            count += 1;
        }
    }
    const qll_status status =
        qll_simultaneous_use(groups, count, scenario->quantile, all->arena, use);
    assert(status != QLL_REFUSED);
    if (status == QLL_OK) {
        add_simultaneous(all, use);
    }
    return status;
}
