/* The exact day of the Poisson rectangular pulse model (docs/theory/pulse.md).
 *
 * 1. Visits that share their hours have one law of flow; what changes from hour to hour is how many
 *    draw at once, and where some uses have their own hours the mixture of the laws.
 * 2. Flows are laid on a grid so that their mean is kept: the weight of a grid point is the mean of
 *    the triangle over it (pulse.md, eq. 6).
 * 3. Continuous flows are added as they are, off the grid; leaks are on it, and independent of the hour:
 *    they are added once to all hours of one continuous flow. */
#include "demand/day_model.h"
#include "demand/demand.h"
#include "demand/flow_law.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* What may be lost of an hour at its upper end. */
#define QLL_HOUR_TAIL 1e-12
/* As for qll_distribution_quantile(). */
#define QLL_HOUR_TIE  1e-12

/* ---- hours and the day ---- */

/* Share of time that nobody draws where on average @p busy uses run at once. */
static double none_share(double busy, double cv)
{
    const double spread = cv * cv * busy;
    return spread > 0.0 ? exp(-log1p(spread) / (cv * cv)) : exp(-busy);
}

/* Mean and deviation in closed form: of the visits, of the common factor, and of break and rest. */
static void describe_hour(const qll_day_model *model, const qll_flow_law *laws, size_t h,
                          qll_pulse_hour *hour)
{
    double mean = 0.0;
    double square = 0.0;
    double busy = 0.0;
    double flowing = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        busy += use->busy * model->shapes[use->shape][h];
        mean += use->busy * model->shapes[use->shape][h] * use->flow_m3s.mean;
    }
    for (size_t s = 0; s < model->shape_count; s++) {
        square += laws[s].square_m6s2 * model->shapes[s][h];
        flowing += laws[s].flowing * model->shapes[s][h];
    }
    const double in_break = model->break_s / 3600.0;
    const double inside = qll_day_model_break_factor(model, true);
    const double outside = qll_day_model_break_factor(model, false);
    const double factor_square = in_break * inside * inside + (1.0 - in_break) * outside * outside;
    const double moment = mean * mean * factor_square * (1.0 + model->rate_cv * model->rate_cv);
    *hour = (qll_pulse_hour){.busy_count = busy,
                             .mean_m3s = mean,
                             .deviation_m3s = sqrt(fmax(square + moment - mean * mean, 0.0)),
                             .none_share = in_break * none_share(flowing * inside, model->rate_cv)
                                           + (1.0 - in_break)
                                                 * none_share(flowing * outside, model->rate_cv)};
}

/* ---- uses hour by hour ---- */

/* The day being put together. */
typedef struct day_parts {
    const qll_day_model *model;
    qll_flow_law laws[QLL_SHAPES_MOST];
    qll_distribution hours[24]; /* of the uses alone */
    qll_distribution leaks;
    const qll_steady *stretches;
    size_t stretch_count;
    size_t widest; /* grid points of an hour, at most */
} day_parts;

/* The flow of a visit that draws in hour @p h, and how many do at once. */
typedef struct use_flow {
    qll_distribution size;
    double flowing; /* whose flow is not 0 on the grid */
} use_flow;

/* Laws of several shapes in the shares they have in the hour; @p room for the widest. */
static use_flow flow_of_hour(const day_parts *day, size_t h, double *room)
{
    use_flow mixed = {.size = {.step = day->model->step_m3s, .count = 1, .p = room}};
    size_t shapes = 0;
    for (size_t s = 0; s < day->model->shape_count; s++) {
        const qll_flow_law *law = &day->laws[s];
        const double flowing = law->flowing * law->kept * day->model->shapes[s][h];
        if (flowing > 0.0) {
            mixed.flowing += flowing;
            mixed.size.count =
                law->flow.count > mixed.size.count ? law->flow.count : mixed.size.count;
            shapes += 1;
        }
    }
    memset(room, 0, mixed.size.count * sizeof *room);
    for (size_t s = 0; s < day->model->shape_count; s++) {
        const qll_flow_law *law = &day->laws[s];
        const double flowing = law->flowing * law->kept * day->model->shapes[s][h];
        if (flowing > 0.0 && shapes == 1) {
            mixed.size.p = law->flow.p;
            return mixed;
        }
        for (size_t j = 0; flowing > 0.0 && j < law->flow.count; j++) {
            room[j] += flowing / mixed.flowing * law->flow.p[j];
        }
    }
    return mixed;
}

static qll_status hour_part(const qll_day_model *model, const use_flow *use, double factor,
                            qll_arena *arena, qll_distribution *flow)
{
    const qll_random_count number = {.mean = use->flowing * factor, .cv = model->rate_cv};
    return qll_compound(number, use->size, QLL_HOUR_TAIL, arena, flow);
}

/* Break and rest of an hour as one distribution, by their shares of time. */
static qll_status hour_with_break(const qll_day_model *model, const use_flow *use, qll_arena *arena,
                                  qll_distribution *flow)
{
    const double in_break = model->break_s / 3600.0;
    qll_distribution rest;
    qll_status status = hour_part(model, use, qll_day_model_break_factor(model, true), arena, flow);
    if (status == QLL_OK) {
        status = hour_part(model, use, qll_day_model_break_factor(model, false), arena, &rest);
    }
    if (status != QLL_OK) {
        return status;
    }
    const bool is_longer = rest.count > flow->count;
    const qll_distribution longer = is_longer ? rest : *flow;
    const qll_distribution shorter = is_longer ? *flow : rest;
    const double longer_share = is_longer ? 1.0 - in_break : in_break;
    for (size_t i = 0; i < longer.count; i++) {
        longer.p[i] *= longer_share;
        longer.p[i] += i < shorter.count ? (1.0 - longer_share) * shorter.p[i] : 0.0;
    }
    *flow = longer;
    return QLL_OK;
}

static qll_status make_hours(day_parts *day, qll_arena *arena)
{
    const qll_day_model *model = day->model;
    size_t widest = 1;
    if (model->visit_count > 0) {
        const qll_status status = qll_flow_laws_make(model, arena, day->laws);
        if (status != QLL_OK) {
            return status;
        }
    }
    for (size_t s = 0; s < model->shape_count; s++) {
        widest = day->laws[s].flow.count > widest ? day->laws[s].flow.count : widest;
    }
    double *room = qll_arena_take(arena, widest, sizeof *room);
    if (room == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t h = 0; h < 24; h++) {
        const use_flow use = flow_of_hour(day, h, room);
        const qll_status status = model->break_share > 0.0
                                      ? hour_with_break(model, &use, arena, &day->hours[h])
                                      : hour_part(model, &use, 1.0, arena, &day->hours[h]);
        if (status != QLL_OK) {
            return status;
        }
        day->widest = day->hours[h].count > day->widest ? day->hours[h].count : day->widest;
    }
    return QLL_OK;
}

/* ---- the quantile of an hour ---- */

static double base_of(const day_parts *day, const qll_steady *stretch)
{
    return day->model->steady_m3s[stretch->hour] + stretch->flow_m3s;
}

/* Share of hour @p h at or below @p flow_m3s; @p below are the sums of the hour's distribution. */
static double share_below(const day_parts *day, size_t h, const double *below, double flow_m3s)
{
    double share = 0.0;
    for (size_t s = 0; s < day->stretch_count; s++) {
        const qll_steady *stretch = &day->stretches[s];
        const double steps =
            floor((flow_m3s - base_of(day, stretch)) / day->model->step_m3s + 1e-6);
        if (stretch->hour != h || steps < 0.0) {
            continue;
        }
        double sum = 0.0;
        const double last = (double)(day->hours[h].count - 1);
        for (size_t leak = 0; leak < day->leaks.count && (double)leak <= steps; leak++) {
            const double left = fmin(steps - (double)leak, last);
            sum += day->leaks.p[leak] * below[(size_t)left];
        }
        share += sum * stretch->duration_s / 3600.0;
    }
    return share;
}

/* Least flow on the grid above one of the hour's bases that is not passed for @p quantile of it. */
static double hour_quantile(const day_parts *day, size_t h, const double *below, double quantile)
{
    double least = HUGE_VAL;
    for (size_t s = 0; s < day->stretch_count; s++) {
        if (day->stretches[s].hour != h) {
            continue;
        }
        const double base_m3s = base_of(day, &day->stretches[s]);
        size_t low = 0;
        size_t high = day->hours[h].count + day->leaks.count;
        while (low < high) {
            const size_t middle = low + (high - low) / 2;
            const double flow_m3s = base_m3s + day->model->step_m3s * (double)middle;
            if (share_below(day, h, below, flow_m3s) < quantile - QLL_HOUR_TIE) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        if (low < day->hours[h].count + day->leaks.count) {
            least = fmin(least, base_m3s + day->model->step_m3s * (double)low);
        }
    }
    return least;
}

static qll_status describe_hours(const qll_scenario *scenario, const day_parts *parts,
                                 qll_arena *arena, qll_pulse_day *day)
{
    double *below = qll_arena_take(arena, parts->widest, sizeof *below);
    if (below == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t h = 0; h < 24; h++) {
        describe_hour(parts->model, parts->laws, h, &day->hours[h]);
        day->none_share += day->hours[h].none_share / 24.0;
        const qll_distribution flow = parts->hours[h];
        below[0] = flow.p[0];
        for (size_t i = 1; i < flow.count; i++) {
            below[i] = below[i - 1] + flow.p[i];
        }
        day->hours[h].quantile_m3s = hour_quantile(parts, h, below, scenario->quantile);
        day->hours[h].flow_mean_m3s =
            qll_distribution_mean(flow) + qll_distribution_mean(parts->leaks);
    }
    for (size_t s = 0; s < parts->stretch_count; s++) {
        const qll_steady *stretch = &parts->stretches[s];
        const double base_m3s = base_of(parts, stretch);
        qll_pulse_hour *hour = &day->hours[stretch->hour];
        hour->flow_mean_m3s += base_m3s * stretch->duration_s / 3600.0;
        day->weep_share +=
            base_m3s <= 0.0 ? hour->none_share * stretch->duration_s / QLL_DAY_S : 0.0;
    }
    return QLL_OK;
}

/* ---- the day ---- */

/* Adds the hours of all stretches whose base is @p base_m3s, with leaks, to the cells. */
static size_t base_cells(const day_parts *day, double base_m3s, double *mixed, qll_flow_time *cells)
{
    memset(mixed, 0, day->widest * sizeof *mixed);
    for (size_t s = 0; s < day->stretch_count; s++) {
        const qll_distribution *hour = &day->hours[day->stretches[s].hour];
        if (base_of(day, &day->stretches[s]) != base_m3s) {
            continue;
        }
        for (size_t i = 0; i < hour->count; i++) {
            mixed[i] += day->stretches[s].duration_s * hour->p[i];
        }
    }
    const size_t count = day->widest + day->leaks.count - 1;
    for (size_t i = 0; i < count; i++) {
        cells[i] = (qll_flow_time){.flow_m3s = base_m3s + day->model->step_m3s * (double)i};
    }
    for (size_t leak = 0; leak < day->leaks.count; leak++) {
        for (size_t i = 0; i < day->widest && day->leaks.p[leak] > 0.0; i++) {
            cells[leak + i].time += day->leaks.p[leak] * mixed[i];
        }
    }
    return count;
}

/* True if no stretch before @p at has its base. */
static bool is_first(const day_parts *day, size_t at)
{
    for (size_t s = 0; s < at; s++) {
        if (base_of(day, &day->stretches[s]) == base_of(day, &day->stretches[at])) {
            return false;
        }
    }
    return true;
}

static qll_status join_hours(const day_parts *parts, qll_arena *arena, qll_pulse_day *day)
{
    size_t bases = 0;
    for (size_t s = 0; s < parts->stretch_count; s++) {
        bases += is_first(parts, s);
    }
    const size_t room = bases * (parts->widest + parts->leaks.count);
    qll_flow_time *cells = qll_arena_take(arena, room, sizeof *cells);
    double *mixed = qll_arena_take(arena, parts->widest, sizeof *mixed);
    if (cells == NULL || mixed == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t s = 0; s < parts->stretch_count; s++) {
        if (is_first(parts, s)) {
            count += base_cells(parts, base_of(parts, &parts->stretches[s]), mixed, cells + count);
        }
    }
    return qll_duration_make(cells, count, arena, &day->duration);
}

qll_status qll_pulse_day_exact(const qll_scenario *scenario, qll_arena *arena, qll_pulse_day *day)
{
    *day = (qll_pulse_day){0};
    qll_day_model model;
    day_parts parts = {.model = &model, .widest = 1};
    qll_status status = qll_day_model_make(scenario, arena, &model);
    if (status == QLL_OK) {
        status = qll_steady_day(scenario, arena, &parts.stretches, &parts.stretch_count);
    }
    if (status == QLL_OK) {
        status = qll_leak_law_make(&model, arena, &parts.leaks);
    }
    if (status == QLL_OK) {
        status = make_hours(&parts, arena);
    }
    if (status != QLL_OK) {
        return status;
    }
    day->step_m3s = model.step_m3s;
    day->leak_m3s = model.leak_m3s;
    day->no_leak_share = qll_no_leak_share(&model.leaks);
    day->shape_source = model.shape_source;
    day->is_other_day = model.is_other_day;
    status = describe_hours(scenario, &parts, arena, day);
    if (status == QLL_OK) {
        status = join_hours(&parts, arena, day);
    }
    day->volume_m3 = day->duration.mean_m3s * QLL_DAY_S;
    return status;
}
