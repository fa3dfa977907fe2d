/* The peak by simultaneous use and its normal approximation (docs/theory/simultaneous_use.md). */
#include "demand/peaks.h"

#include <assert.h>
#include <math.h>

static const char *simultaneous_reason(qll_peaks *all)
{
    const qll_scenario *scenario = all->scenario;
    if (!qll_scenario_has_fixtures(scenario)) {
        return "the scenario lists no fixtures";
    }
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        qll_writer writer = qll_writer_new(all->arena);
        if (load->count > 0 && isnan(qll_load_probability(load))) {
            qll_write_format(&writer,
                             "no probability of use is published for \"%s\"; give it a "
                             "use_probability",
                             load->kind->word);
            return qll_peaks_written(all, &writer);
        }
        if (load->count > 0 && isnan(qll_load_flow_m3s(load))) {
            qll_write_format(&writer, "no flow is published for \"%s\"; give it a flow",
                             load->kind->word);
            return qll_peaks_written(all, &writer);
        }
        if (load->count > 0 && isnan(load->use_probability)
            && !qll_use_is_dwelling(scenario->use)) {
            qll_write_format(&writer,
                             "the published probabilities of use hold for homes only; give "
                             "\"%s\" and every other fixture a use_probability of its own",
                             load->kind->word);
            return qll_peaks_written(all, &writer);
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
static const char *normal_note(qll_peaks *all, const qll_simultaneous *use)
{
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note,
                     "For comparison. The study uses it where 5 fixtures or more are busy on "
                     "average; here %.2f are, %s that range. Even there it lies below the exact "
                     "value: by 5 %% for the 270 fixtures of 27 dwellings.",
                     use->busy_count, use->busy_count >= 5.0 ? "within" : "outside");
    return qll_peaks_written(all, &note);
}

static void add_simultaneous(qll_peaks *all, const qll_simultaneous *use)
{
    const bool given = all_probabilities_given(all->scenario);
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note, "Not passed for %.4g %% of the peak hour; exact.",
                     100.0 * all->scenario->quantile);
    if (use->rounding_m3s > 0.0) {
        qll_write_format(
            &note, " Flows are laid on steps of %.6f L/s, which moves it by less than %.6f L/s.",
            use->step_m3s * 1e3, use->rounding_m3s * 1e3);
    }
    if (!given) {
        qll_write(&note, " The probabilities are those of each home's own peak hour; taken for all "
                         "homes at once they are on the safe side.");
    }
    qll_write(&note, qll_peaks_continuous_note(all));
    qll_peak_estimate estimate = {
        .method = QLL_PEAK_SIMULTANEOUS_USE,
        .peak_m3s = use->flow_m3s + all->continuous_m3s,
        .table = given ? "probabilities of use given in the survey"
                       : "Peak Water Demand Study 2017, as carried in UPC Appendix M",
        .source = given ? "probabilities of use given in the survey; exact binomial convolution"
                        : "Peak Water Demand Study (2017), Table of fixture flows and "
                          "probabilities, as carried in UPC Appendix M; exact binomial convolution",
        .note = qll_peaks_written(all, &note),
    };
    qll_peaks_add(all, estimate);
    estimate.method = QLL_PEAK_NORMAL_APPROXIMATION;
    estimate.peak_m3s = use->normal_m3s + all->continuous_m3s;
    estimate.source = "mean plus z standard deviations of the same probabilities (Wistort 1994, "
                      "from memory)";
    estimate.note = normal_note(all, use);
    qll_peaks_add(all, estimate);
}

qll_status qll_estimate_use(qll_peaks *all, qll_simultaneous *use)
{
    const qll_scenario *scenario = all->scenario;
    const char *reason = simultaneous_reason(all);
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
