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

/* Parts of an hour. */
enum {
    QLL_OUT_OF_BREAK,
    QLL_IN_BREAK, /* empty without breaks */
    QLL_HOUR_PARTS
};

/* Mean and deviation in closed form: of the visits, of the common factor, and of break and rest; and when nobody
 * draws in each. */
static void describe_hour(const qll_day_model *model, const qll_flow_law *laws, size_t h,
                          qll_pulse_hour *hour, double none[QLL_HOUR_PARTS])
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
    none[QLL_IN_BREAK] = none_share(flowing * inside, model->rate_cv);
    none[QLL_OUT_OF_BREAK] = none_share(flowing * outside, model->rate_cv);
    *hour = (qll_pulse_hour){.busy_count = busy,
                             .mean_m3s = mean,
                             .deviation_m3s = sqrt(fmax(square + moment - mean * mean, 0.0)),
                             .none_share = in_break * none[QLL_IN_BREAK]
                                           + (1.0 - in_break) * none[QLL_OUT_OF_BREAK]};
}

/* ---- uses hour by hour ---- */

/* The day being put together. */
typedef struct day_parts {
    const qll_day_model *model;
    qll_flow_law laws[QLL_SHAPES_MOST];
    qll_distribution hours[24][QLL_HOUR_PARTS]; /* of the uses alone */
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

/* Break and rest of an hour each by itself, for flows by the clock that stop within it. */
static qll_status make_hour(const qll_day_model *model, const use_flow *use, qll_arena *arena,
                            qll_distribution parts[QLL_HOUR_PARTS])
{
    if (!(model->break_share > 0.0)) {
        parts[QLL_IN_BREAK] = (qll_distribution){.step = model->step_m3s};
        return hour_part(model, use, 1.0, arena, &parts[QLL_OUT_OF_BREAK]);
    }
    const qll_status status =
        hour_part(model, use, qll_day_model_break_factor(model, true), arena, &parts[QLL_IN_BREAK]);
    return status == QLL_OK ? hour_part(model, use, qll_day_model_break_factor(model, false), arena,
                                        &parts[QLL_OUT_OF_BREAK])
                            : status;
}

static size_t widest_of(const qll_distribution parts[QLL_HOUR_PARTS])
{
    const size_t rest = parts[QLL_OUT_OF_BREAK].count;
    const size_t within = parts[QLL_IN_BREAK].count;
    return rest > within ? rest : within;
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
        const qll_status status = make_hour(model, &use, arena, day->hours[h]);
        if (status != QLL_OK) {
            return status;
        }
        const size_t widest_part = widest_of(day->hours[h]);
        day->widest = widest_part > day->widest ? widest_part : day->widest;
    }
    return QLL_OK;
}

/* ---- the quantile of an hour ---- */

static double base_of(const day_parts *day, const qll_steady *stretch)
{
    return day->model->steady_m3s[stretch->hour] + stretch->flow_m3s;
}

static double part_s(const qll_steady *stretch, size_t part)
{
    return part == QLL_IN_BREAK ? stretch->break_s : stretch->duration_s - stretch->break_s;
}

/* Share of hour @p h at or below @p flow_m3s; @p below are the sums of its parts' distributions, a row each. */
static double share_below(const day_parts *day, size_t h, const double *below, double flow_m3s)
{
    double share = 0.0;
    for (size_t s = 0; s < day->stretch_count; s++) {
        const qll_steady *stretch = &day->stretches[s];
        const double steps =
            floor((flow_m3s - base_of(day, stretch)) / day->model->step_m3s + 1e-6);
        for (size_t part = 0; part < QLL_HOUR_PARTS; part++) {
            const double within_s = part_s(stretch, part);
            if (stretch->hour != h || steps < 0.0 || !(within_s > 0.0)) {
                continue;
            }
            double sum = 0.0;
            const double last = (double)(day->hours[h][part].count - 1);
            for (size_t leak = 0; leak < day->leaks.count && (double)leak <= steps; leak++) {
                const double left = fmin(steps - (double)leak, last);
                sum += day->leaks.p[leak] * below[part * day->widest + (size_t)left];
            }
            share += sum * within_s / 3600.0;
        }
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
        size_t high = widest_of(day->hours[h]) + day->leaks.count;
        while (low < high) {
            const size_t middle = low + (high - low) / 2;
            const double flow_m3s = base_m3s + day->model->step_m3s * (double)middle;
            if (share_below(day, h, below, flow_m3s) < quantile - QLL_HOUR_TIE) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        if (low < widest_of(day->hours[h]) + day->leaks.count) {
            least = fmin(least, base_m3s + day->model->step_m3s * (double)low);
        }
    }
    return least;
}

/* Sums of an hour's parts into @p below, and the mean of both. */
static double sum_parts(const day_parts *day, size_t h, double *below)
{
    const double in_break = day->model->break_s / 3600.0;
    double mean_m3s = 0.0;
    for (size_t part = 0; part < QLL_HOUR_PARTS; part++) {
        const qll_distribution flow = day->hours[h][part];
        double *row = below + part * day->widest;
        for (size_t i = 0; i < flow.count; i++) {
            row[i] = flow.p[i] + (i > 0 ? row[i - 1] : 0.0);
        }
        const double share = part == QLL_IN_BREAK ? in_break : 1.0 - in_break;
        mean_m3s += flow.count > 0 ? share * qll_distribution_mean(flow) : 0.0;
    }
    return mean_m3s;
}

static qll_status describe_hours(const qll_scenario *scenario, const day_parts *parts,
                                 qll_arena *arena, qll_pulse_day *day)
{
    double *below = qll_arena_take(arena, parts->widest, QLL_HOUR_PARTS * sizeof *below);
    double none[24][QLL_HOUR_PARTS];
    if (below == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t h = 0; h < 24; h++) {
        describe_hour(parts->model, parts->laws, h, &day->hours[h], none[h]);
        day->none_share += day->hours[h].none_share / 24.0;
        const double mean_m3s = sum_parts(parts, h, below);
        day->hours[h].quantile_m3s = hour_quantile(parts, h, below, scenario->quantile);
        day->hours[h].flow_mean_m3s = mean_m3s + qll_distribution_mean(parts->leaks);
    }
    for (size_t s = 0; s < parts->stretch_count; s++) {
        const qll_steady *stretch = &parts->stretches[s];
        const double base_m3s = base_of(parts, stretch);
        qll_pulse_hour *hour = &day->hours[stretch->hour];
        hour->flow_mean_m3s += base_m3s * stretch->duration_s / 3600.0;
        for (size_t part = 0; part < QLL_HOUR_PARTS && base_m3s <= 0.0; part++) {
            day->weep_share += none[stretch->hour][part] * part_s(stretch, part) / QLL_DAY_S;
        }
    }
    return QLL_OK;
}

/* ---- the day ---- */

/* Adds the hours of all stretches whose base is @p base_m3s, with leaks, to the cells. */
static size_t base_cells(const day_parts *day, double base_m3s, double *mixed, qll_flow_time *cells)
{
    memset(mixed, 0, day->widest * sizeof *mixed);
    for (size_t s = 0; s < day->stretch_count; s++) {
        if (base_of(day, &day->stretches[s]) != base_m3s) {
            continue;
        }
        for (size_t part = 0; part < QLL_HOUR_PARTS; part++) {
            const qll_distribution *hour = &day->hours[day->stretches[s].hour][part];
            const double within_s = part_s(&day->stretches[s], part);
            for (size_t i = 0; i < hour->count; i++) {
                mixed[i] += within_s * hour->p[i];
            }
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
