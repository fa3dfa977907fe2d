#include "demand/demand.h"

#include <assert.h>
#include <math.h>

#define QLL_DAY_S 86400.0

/* Estimates by method, and for a method that does not apply the reason, half a sentence. */
typedef struct peaks {
    const qll_scenario *scenario;
    qll_arena *arena;
    double continuous_m3s;
    bool applies[QLL_PEAK_METHOD_COUNT];
    qll_peak_estimate estimates[QLL_PEAK_METHOD_COUNT];
    const char *reasons[QLL_PEAK_METHOD_COUNT];
    bool no_memory;
} peaks;

static const char *written(peaks *all, qll_writer *writer)
{
    const qll_text text = qll_writer_text(writer);
    if (text.bytes == NULL) {
        all->no_memory = true;
        return "";
    }
    return text.bytes;
}

static void add_estimate(peaks *all, qll_peak_estimate estimate)
{
    assert(isfinite(estimate.peak_m3s));
    all->applies[estimate.method] = true;
    all->estimates[estimate.method] = estimate;
}

static const char *continuous_note(const peaks *all)
{
    return all->continuous_m3s > 0.0 ? " Continuous flows are added to it." : "";
}

static bool has_fixtures(const qll_scenario *scenario)
{
    for (size_t i = 0; i < scenario->load_count; i++) {
        if (scenario->loads[i].count > 0) {
            return true;
        }
    }
    return false;
}

/* ---- fixture units ---- */

static const char *units_reason(peaks *all, const qll_unit_sum *sum, double flow_m3s)
{
    if (!has_fixtures(all->scenario)) {
        return "the scenario lists no fixtures";
    }
    qll_writer writer = qll_writer_new(all->arena);
    if (sum->missing != NULL) {
        qll_write_format(&writer, "IPC Table E103.3(2) has no fixture units for \"%s\"",
                         sum->missing->word);
        return written(all, &writer);
    }
    if (isnan(flow_m3s)) {
        qll_write_format(&writer,
                         "its fixtures count %.1f units and IPC Table E103.3(3) ends at 5000",
                         sum->units);
        return written(all, &writer);
    }
    return NULL;
}

static qll_status estimate_units(peaks *all)
{
    all->reasons[QLL_PEAK_FIXTURE_UNITS_UPC] =
        "the UPC's fixture units belong on that code's own demand chart, which is not in the "
        "program, and on another code's curve they would be wrong; ask for \"fixture-units IPC\", "
        "or read the peak off the UPC chart and give it";
    qll_unit_curve curve;
    const qll_status status = qll_unit_curve_read(all->arena, &curve);
    if (status != QLL_OK) {
        return status;
    }
    const qll_unit_sum sum = qll_unit_sum_of(all->scenario);
    const double flow_m3s = qll_unit_curve_flow_m3s(&curve, sum.units, sum.column);
    all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] = units_reason(all, &sum, flow_m3s);
    if (all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] != NULL) {
        return QLL_OK;
    }
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(
        &note, "%.2f fixture units (%s), %s column, straight lines between the table's points.",
        sum.units, qll_use_is_dwelling(all->scenario->use) ? "private" : "public",
        sum.column == QLL_COLUMN_TANK ? "flush tank" : "flushometer");
    if (sum.other != NULL) {
        qll_write_format(&note, " The table has no %s entry for \"%s\"; the one it has is counted.",
                         qll_use_is_dwelling(all->scenario->use) ? "private" : "public",
                         sum.other->word);
    }
    qll_write(&note, continuous_note(all));
    add_estimate(all, (qll_peak_estimate){
                          .method = QLL_PEAK_FIXTURE_UNITS_IPC,
                          .peak_m3s = flow_m3s + all->continuous_m3s,
                          .table = "IPC 2018/2021 Appendix E, Tables E103.3(2) and E103.3(3)",
                          .source = "International Plumbing Code 2018/2021, Appendix E, Tables "
                                    "E103.3(2) and E103.3(3); continuous flows by E102.2.2",
                          .note = written(all, &note),
                      });
    return QLL_OK;
}

/* ---- simultaneous use ---- */

static double load_flow_m3s(const qll_fixture_load *load)
{
    return isnan(load->flow_m3s) ? load->kind->flow_m3s : load->flow_m3s;
}

static double load_probability(const qll_fixture_load *load)
{
    return isnan(load->use_probability) ? load->kind->use_probability : load->use_probability;
}

static const char *simultaneous_reason(peaks *all)
{
    const qll_scenario *scenario = all->scenario;
    if (!has_fixtures(scenario)) {
        return "the scenario lists no fixtures";
    }
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        qll_writer writer = qll_writer_new(all->arena);
        if (load->count > 0 && isnan(load_probability(load))) {
            qll_write_format(&writer,
                             "no probability of use is published for \"%s\"; give it a "
                             "use_probability",
                             load->kind->word);
            return written(all, &writer);
        }
        if (load->count > 0 && isnan(load_flow_m3s(load))) {
            qll_write_format(&writer, "no flow is published for \"%s\"; give it a flow",
                             load->kind->word);
            return written(all, &writer);
        }
        if (load->count > 0 && isnan(load->use_probability)
            && !qll_use_is_dwelling(scenario->use)) {
            qll_write_format(&writer,
                             "the published probabilities of use hold for homes only; give "
                             "\"%s\" and every other fixture a use_probability of its own",
                             load->kind->word);
            return written(all, &writer);
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

static void add_simultaneous(peaks *all, const qll_simultaneous *use)
{
    const bool given = all_probabilities_given(all->scenario);
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note, "Not passed for %.4g %% of the peak hour; exact.",
                     100.0 * all->scenario->quantile);
    if (use->rounding_m3s > 0.0) {
        qll_write_format(&note, " Flows are rounded to steps of %.6f L/s.", use->step_m3s * 1e3);
    }
    if (!given) {
        qll_write(&note, " The probabilities are those of each home's own peak hour; taken for all "
                         "homes at once they are on the safe side.");
    }
    qll_write(&note, continuous_note(all));
    qll_peak_estimate estimate = {
        .method = QLL_PEAK_SIMULTANEOUS_USE,
        .peak_m3s = use->flow_m3s + all->continuous_m3s,
        .table = given ? "probabilities of use given in the survey"
                       : "Peak Water Demand Study 2017, as carried in UPC Appendix M",
        .source = given ? "probabilities of use given in the survey; exact binomial convolution"
                        : "Peak Water Demand Study (2017), Table of fixture flows and "
                          "probabilities, as carried in UPC Appendix M; exact binomial convolution",
        .note = written(all, &note),
    };
    add_estimate(all, estimate);
    estimate.method = QLL_PEAK_NORMAL_APPROXIMATION;
    estimate.peak_m3s = use->normal_m3s + all->continuous_m3s;
    estimate.source = "mean plus z standard deviations of the same probabilities (Wistort 1994, "
                      "from memory)";
    estimate.note = "For comparison: it lies below the exact value, the more so the fewer the "
                    "fixtures.";
    add_estimate(all, estimate);
}

static qll_status estimate_simultaneous(peaks *all, qll_simultaneous *use)
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
            groups[count] = (qll_use_group){.count = load->count,
                                            .flow_m3s = load_flow_m3s(load),
                                            .probability = load_probability(load)};
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

/* ---- the pulse model and a given peak ---- */

static void estimate_pulse(peaks *all, const qll_pulse_day *day)
{
    double peak_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        peak_m3s = fmax(peak_m3s, day->hours[h].quantile_m3s);
    }
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note,
                     "Not passed for %.4g %% of the busiest hour of an average weekday, leak and "
                     "continuous flows included. Real days have busier hours than an average one: "
                     "read it as the flow the station works at, not as a code figure.",
                     100.0 * all->scenario->quantile);
    add_estimate(all, (qll_peak_estimate){
                          .method = QLL_PEAK_PULSE_MODEL,
                          .peak_m3s = peak_m3s,
                          .table = "our default end uses, data/enduse.csv and data/diurnal.csv",
                          .source = "Poisson rectangular pulses (Buchberger and Wu 1995), compound "
                                    "Poisson by hour; end uses partly our assumption, source in "
                                    "each row of data/enduse.csv",
                          .note = written(all, &note),
                      });
}

static void estimate_given(peaks *all)
{
    const double given = all->scenario->peak_given_m3s;
    if (isnan(given)) {
        all->reasons[QLL_PEAK_GIVEN] = "no peak is given";
        return;
    }
    if (given < all->continuous_m3s) {
        all->reasons[QLL_PEAK_GIVEN] =
            "the peak that is given is less than the continuous flows that run at one time";
        return;
    }
    add_estimate(all, (qll_peak_estimate){.method = QLL_PEAK_GIVEN,
                                          .peak_m3s = given,
                                          .table = "given in the survey",
                                          .source = "the survey's own design peak",
                                          .note = "Continuous flows are taken to be part of it."});
}

/* ---- refusals ---- */

static bool refuse(const peaks *all, qll_problems *problems, qll_code code, const char *says)
{
    qll_writer writer = qll_writer_new(all->arena);
    qll_write_format(&writer, "scenario \"%s\": %s", all->scenario->name, says);
    const qll_text text = qll_writer_text(&writer);
    return qll_problems_add(
        problems, (qll_problem){.code = code, .text = text.bytes == NULL ? says : text.bytes});
}

static bool is_between(double value, double least, double most)
{
    return value >= least && value <= most;
}

/* What the survey's reader has checked already, with places; a survey may have no reader. */
static bool check_scenario(const peaks *all, qll_problems *problems)
{
    const qll_scenario *scenario = all->scenario;
    if (!is_between(scenario->people, 0.0, QLL_PEOPLE_MAX)
        || !(isnan(scenario->homes) || is_between(scenario->homes, 0.0, QLL_PEOPLE_MAX))) {
        return refuse(all, problems, QLL_CODE_OUT_OF_RANGE,
                      "people and homes are numbers from 0 to 1,000,000");
    }
    if (!(scenario->quantile > 0.0 && scenario->quantile < 1.0)) {
        return refuse(all, problems, QLL_CODE_OUT_OF_RANGE,
                      "the quantile is a number over 0 and under 1, for example 0.99");
    }
    size_t left = QLL_FIXTURE_COUNT_MAX;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->count > left) {
            return refuse(all, problems, QLL_CODE_OUT_OF_RANGE,
                          "a building has at most 1,000,000 fixtures");
        }
        left -= load->count;
        if (!isnan(load->flow_m3s) && !(load->flow_m3s > 0.0 && isfinite(load->flow_m3s))) {
            return refuse(all, problems, QLL_CODE_OUT_OF_RANGE, "a fixture's flow is over 0");
        }
        if (!isnan(load->use_probability) && !is_between(load->use_probability, 0.0, 1.0)) {
            return refuse(all, problems, QLL_CODE_OUT_OF_RANGE,
                          "a use_probability is a number from 0 to 1");
        }
    }
    for (size_t i = 0; i < scenario->continuous_count; i++) {
        const qll_continuous *flow = &scenario->continuous[i];
        if (!(flow->flow_m3s >= 0.0 && isfinite(flow->flow_m3s))
            || !is_between(flow->from_s, 0.0, QLL_DAY_S)
            || !is_between(flow->to_s, 0.0, QLL_DAY_S)) {
            return refuse(all, problems, QLL_CODE_OUT_OF_RANGE,
                          "a continuous flow is not negative and its hours lie between 00:00 and "
                          "24:00");
        }
    }
    return true;
}

/* ---- the choice ---- */

/* The method of the design peak; QLL_PEAK_METHOD_COUNT with a problem if there is none. */
static qll_peak_method choose(const peaks *all, qll_problems *problems)
{
    const qll_peak_method asked = all->scenario->peak_method;
    qll_writer writer = qll_writer_new(all->arena);
    if (asked != QLL_PEAK_METHOD_COUNT) {
        if (all->applies[asked]) {
            return asked;
        }
        qll_write_format(&writer, "the design peak cannot be found by %s: %s",
                         qll_peak_method_words[asked], all->reasons[asked]);
        const char *says = qll_writer_text(&writer).bytes;
        refuse(all, problems, QLL_CODE_CONTRADICTION, says == NULL ? "" : says);
        return QLL_PEAK_METHOD_COUNT;
    }
    if (all->applies[QLL_PEAK_FIXTURE_UNITS_IPC]) {
        return QLL_PEAK_FIXTURE_UNITS_IPC;
    }
    const qll_peak_method next =
        all->applies[QLL_PEAK_SIMULTANEOUS_USE] ? QLL_PEAK_SIMULTANEOUS_USE : QLL_PEAK_PULSE_MODEL;
    qll_write_format(&writer,
                     "scenario \"%s\": the design peak is that of %s, which is no code figure, "
                     "because %s",
                     all->scenario->name, qll_peak_method_words[next],
                     all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC]);
    const char *says = qll_writer_text(&writer).bytes;
    qll_problems_add(problems, (qll_problem){.code = QLL_CODE_MISSING_KEY,
                                             .level = QLL_WARNING,
                                             .text = says == NULL ? "" : says});
    return next;
}

static qll_status list_estimates(const peaks *all, qll_peak_method method, qll_demand *demand)
{
    qll_peak_estimate *list = qll_arena_take(all->arena, QLL_PEAK_METHOD_COUNT, sizeof *list);
    if (list == NULL || all->no_memory) {
        return QLL_NO_MEMORY;
    }
    for (size_t m = 0; m < QLL_PEAK_METHOD_COUNT; m++) {
        if (!all->applies[m]) {
            continue;
        }
        if (m == method) {
            demand->chosen = demand->estimate_count;
            demand->peak_m3s = all->estimates[m].peak_m3s;
        }
        list[demand->estimate_count] = all->estimates[m];
        demand->estimate_count += 1;
    }
    demand->estimates = list;
    return QLL_OK;
}

static qll_status greatest_continuous(const qll_scenario *scenario, qll_arena *arena,
                                      double *flow_m3s)
{
    const qll_steady *stretches;
    size_t count;
    const qll_status status = qll_steady_day(scenario, arena, &stretches, &count);
    *flow_m3s = 0.0;
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        *flow_m3s = fmax(*flow_m3s, stretches[i].flow_m3s);
    }
    return status;
}

static qll_status estimate_all(peaks *all, qll_demand *demand)
{
    qll_status status = qll_pulse_day_exact(all->scenario, all->arena, &demand->day);
    if (status == QLL_OK) {
        status = estimate_units(all);
    }
    if (status == QLL_OK) {
        status = estimate_simultaneous(all, &demand->simultaneous);
    }
    if (status == QLL_OK) {
        estimate_pulse(all, &demand->day);
        estimate_given(all);
    }
    return status;
}

qll_status qll_demand_of(const qll_scenario *scenario, qll_arena *arena, qll_demand *demand,
                         qll_problems *problems)
{
    *demand = (qll_demand){.scenario = scenario};
    peaks all = {.scenario = scenario, .arena = arena};
    if (!check_scenario(&all, problems)) {
        return QLL_REFUSED;
    }
    qll_status status = greatest_continuous(scenario, arena, &all.continuous_m3s);
    if (status == QLL_OK) {
        demand->continuous_peak_m3s = all.continuous_m3s;
        status = estimate_all(&all, demand);
    }
    if (status != QLL_OK) {
        return status;
    }
    const qll_peak_method method = all.no_memory ? QLL_PEAK_PULSE_MODEL : choose(&all, problems);
    if (method == QLL_PEAK_METHOD_COUNT) {
        return QLL_REFUSED;
    }
    status = list_estimates(&all, method, demand);
    if (status == QLL_OK && demand->peak_m3s <= 0.0) {
        refuse(&all, problems, QLL_CODE_EMPTY_LIST,
               "nothing draws water; give people, fixtures or a continuous flow");
        return QLL_REFUSED;
    }
    return status;
}
