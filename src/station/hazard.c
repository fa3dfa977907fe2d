/* docs/theory/recommendation.md, 4; every constant without a source is our assumption. */
#include "base/customary.h"
#include "station/hazard_terms.h"
#include "station/spread.h"

#include <math.h>
#include <string.h>

#define QLL_STARVED_SIGMA_PA (3.0 * QLL_PSI_PA)
#define QLL_GAP_SIGMA_PA     (2.0 * QLL_PSI_PA)
/* What a design peak weighs beside the flow duration. */
#define QLL_PEAK_WEIGHT      0.02

static qll_status shape_of(qll_yardstick *yardstick, const qll_noise_path *path, qll_arena *arena,
                           const qll_noise_shape **found)
{
    *found = NULL;
    if (path == NULL || path->limit != QLL_NOISE_WITHIN) {
        return QLL_OK;
    }
    for (size_t i = 0; i < yardstick->shape_count; i++) {
        if (yardstick->shapes[i]->path->bore_m == path->bore_m
            && yardstick->shapes[i]->path->ring_loss_db == path->ring_loss_db) {
            *found = yardstick->shapes[i];
            return QLL_OK;
        }
    }
    if (yardstick->shape_count == yardstick->shape_room) {
        size_t room = yardstick->shape_room == 0 ? 16 : 2 * yardstick->shape_room;
        const qll_noise_shape **shapes = qll_arena_take(arena, room, sizeof(void *));
        if (shapes == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t i = 0; i < yardstick->shape_count; i++) {
            shapes[i] = yardstick->shapes[i];
        }
        yardstick->shapes = shapes;
        yardstick->shape_room = room;
    }
    qll_noise_shape *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_noise_shape_make(path, made);
    yardstick->shapes[yardstick->shape_count] = made;
    yardstick->shape_count += 1;
    *found = made;
    return QLL_OK;
}

double qll_branch_chatters(const qll_valve *valve, double set_drop_pa, double set_pa_gauge)
{
    const double least_pa =
        QLL_PSI_PA; /* a valve set at its inlet's pressure takes hardly a drop */
    return qll_valve_chatter(valve, fmax(set_drop_pa, least_pa), set_pa_gauge).chatters;
}

qll_status qll_branch_ruler_make(qll_yardstick *yardstick, const qll_branch *branch,
                                 qll_arena *arena, qll_branch_ruler *made)
{
    const qll_valve *valve = branch->valve;
    const qll_noise_shape *shape = NULL;
    if (shape_of(yardstick, branch->path, arena, &shape) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const bool is_pilot = valve->acting == QLL_ACTING_PILOT;
    const double usual_pa = 60.0 * QLL_PSI_PA; /* its spread is the same anywhere */
    const qll_chatter_prior prior = qll_valve_chatter(valve, usual_pa, usual_pa);
    const double sigma_xfz =
        isnan(valve->xfz) ? QLL_XFZ_UNCERTAINTY_ESTIMATED : QLL_XFZ_UNCERTAINTY_SHEET;
    *made = (qll_branch_ruler){
        .speed_per_flow = qll_pipe_velocity_m_s(1.0, qll_branch_own_bore_m(branch)),
        .noise = qll_flow_noise_of(branch, &yardstick->site->water, shape),
        .chatters = NAN,
        .heard_share = is_pilot ? QLL_HEARD_PILOT_SHARE : 1.0,
    };
    const double *own = yardstick->unknowns->own_deviate;
    double xfz_least = qll_branch_xfz(branch, valve->kv_m3h) + sigma_xfz * own[0];
    made->per_xfz_least = 1.0 / fmax(xfz_least, QLL_XFZ_LEAST);
    for (size_t i = 0; i < QLL_OWN_NODES; i++) {
        made->stable_factor[i] = exp(prior.ln_sigma * own[i]);
        made->odds_factor[i] = exp(-QLL_HEARD_PER_LN_FLOW * prior.ln_sigma * own[i]);
        made->xfz_moves[i] = sigma_xfz * own[i];
    }
    return QLL_OK;
}

/* One branch at work, at its seat. */
typedef struct seat {
    const qll_branch_ruler *ruler;
    const qll_branch *branch;
    double flow_m3s, kv_m3h, share; /* of the station's flow */
    double inlet_pa, outlet_pa;     /* what strainer and reducers take comes off before it */
    double drop_pa, head_pa, power_w;
    double noise_most;
} seat;

static double scale_of(double x)
{
    double square = x * x;
    double fourth = square * square;
    return fourth * fourth;
}

/* No opening and no node of what is not known would make it cavitate: (drop/(head xFz))^8 p1/6 bar, the
 * eighth power of the margin, below 1. */
static bool is_surely_quiet(const seat *at)
{
    double ratio = at->drop_pa * at->ruler->per_xfz_least;
    return at->outlet_pa > 0.0 && ratio < at->head_pa
           && scale_of(ratio / at->head_pa) * at->inlet_pa < 6e5;
}

static void put_cavitation(const seat *at, double vapour_pressure_pa, double *row)
{
    if (is_surely_quiet(at)) {
        return;
    }
    const qll_cavitation_case own = {.inlet_pa = at->inlet_pa,
                                     .outlet_pa = at->outlet_pa,
                                     .vapour_pressure_pa = vapour_pressure_pa,
                                     .xfz = qll_branch_xfz(at->branch, at->kv_m3h)};
    const double margin = qll_cavitation_margin(&own);
    const double weight = at->share * at->power_w / (at->power_w + QLL_CAVITATION_HALF_W);
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        const double xfz = own.xfz + at->ruler->xfz_moves[d];
        row[d] =
            isnan(margin) ? at->share : weight * qll_cavitation_severity(xfz, margin * own.xfz);
    }
}

/* Wear, chatter and cavitation of one branch; false where it does no work. */
static bool put_branch(const qll_stage_ruler *ruler, const qll_stage_drop *drop, size_t branch,
                       seat *at, double *row)
{
    const qll_stage_solver *solver = ruler->solver;
    const qll_branch_load load = qll_branch_load_of(solver, branch, drop);
    if (!load.working) {
        return false;
    }
    const double root = load.flow_m3s * solver->legs[branch].series_per_flow;
    const double inlet_pa = drop->inlet_pa - root * root;
    *at = (seat){.ruler = &ruler->branches[branch],
                 .branch = &solver->stage->branches[branch],
                 .flow_m3s = load.flow_m3s,
                 .kv_m3h = load.kv_m3h,
                 .share = load.flow_m3s / drop->flow_m3s,
                 .inlet_pa = inlet_pa,
                 .outlet_pa = drop->outlet_pa,
                 .drop_pa = inlet_pa - drop->outlet_pa,
                 .head_pa = inlet_pa - solver->water.vapour_pressure_pa};
    if (!(at->drop_pa > 0.0)) {
        return false;
    }
    at->power_w = at->flow_m3s * at->drop_pa;
    const qll_valve *valve = at->branch->valve;
    const double choked_pa = valve->fl * valve->fl * at->head_pa;
    at->noise_most = qll_flow_noise_most(&at->ruler->noise, at->flow_m3s,
                                         at->drop_pa < choked_pa ? at->drop_pa : choked_pa);
    row[QLL_ROW_WEAR] += qll_wear_severity(at->share, at->flow_m3s * at->ruler->speed_per_flow);
    const double over = qll_over_stable(load.flow_m3s, load.stable_flow_m3s);
    const qll_chatter_terms chatters = {over, over, load.kv_m3h / valve->kv_m3h, at->share,
                                        at->power_w};
    qll_put_chatter(at->ruler, &chatters, &row[qll_row_chatter(branch)]);
    put_cavitation(at, solver->water.vapour_pressure_pa, &row[qll_row_cavitation(branch)]);
    return true;
}

static double energy_of(const seat *at)
{
    const qll_valve *valve = at->branch->valve;
    const double choked_pa = valve->fl * valve->fl * at->head_pa;
    const double xfz = qll_branch_xfz(at->branch, at->kv_m3h);
    return qll_flow_noise_energy(&at->ruler->noise, at->flow_m3s,
                                 at->drop_pa < choked_pa ? at->drop_pa : choked_pa, at->kv_m3h,
                                 qll_xfz_scaled(xfz, at->inlet_pa), pow(at->head_pa, -0.57));
}

/* Of all valves together; the most they could make is known at little cost. */
static double noise_severity(const qll_yardstick *yardstick, const seat *seats, size_t count)
{
    double most = 0.0;
    for (size_t j = 0; j < count; j++) {
        most += seats[j].noise_most;
    }
    if (!(most > yardstick->energy_from)) {
        return 0.0;
    }
    double energy = 0.0;
    for (size_t j = 0; j < count; j++) {
        energy += energy_of(&seats[j]);
    }
    return qll_heard_severity(yardstick, energy);
}

void qll_hazard_point(const qll_stage_ruler *ruler, double inlet_pa, double flow_m3s,
                      double outlet_pa, double need_pa, double *row)
{
    memset(row, 0, QLL_ROWS(ruler->branch_count) * sizeof *row);
    if (isnan(outlet_pa)) { /* it cannot pass: nobody is served */
        row[QLL_ROW_STARVED] = 1.0;
        row[QLL_ROW_WEAR] = 1.0;
        return;
    }
    const qll_stage_drop drop = qll_stage_drop_of(ruler->solver, inlet_pa, flow_m3s, outlet_pa);
    seat seats[QLL_HAZARD_BRANCHES];
    size_t open = 0;
    for (size_t j = 0; j < ruler->branch_count; j++) {
        open += put_branch(ruler, &drop, j, &seats[open], row) ? 1 : 0;
    }
    row[QLL_ROW_NOISE] = noise_severity(ruler->yardstick, seats, open);
    row[QLL_ROW_HUNTING] = open > 1 ? ruler->hunting : 0.0;
    if (ruler->is_last) {
        row[QLL_ROW_STARVED] = qll_short_chance(need_pa - outlet_pa);
    }
}

void qll_hazard_merge(const qll_unknowns *unknowns, size_t supply, qll_hazard_row *of_supply,
                      size_t rows, qll_hazard_sums *sums)
{
    for (size_t r = 0; r < rows; r++) {
        for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
            double weight = unknowns->supply_weight[n][supply];
            double *at = &sums->at[r][n * QLL_DEMAND_NODES];
            for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
                at[i] += weight * of_supply[r][i];
            }
        }
    }
}

double qll_peak_weight(const qll_yardstick *yardstick)
{
    return QLL_PEAK_WEIGHT / (double)yardstick->duty->scenario_count;
}

void qll_hazard_add_peaks(const qll_stage_ruler *ruler, const double *inlet_pa,
                          const double *outlet_pa, size_t stride, qll_hazard_sums *sums)
{
    const qll_yardstick *yardstick = ruler->yardstick;
    const size_t count = yardstick->duty->scenario_count;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    const double weight = qll_peak_weight(yardstick);
    for (size_t c = 0; c < count; c++) {
        double row[QLL_ROWS_MOST];
        qll_hazard_point(ruler, inlet_pa[c * stride], yardstick->peak_m3s[c], outlet_pa[c * stride],
                         yardstick->peak_need_pa[c], row);
        for (size_t r = 0; r < rows; r++) {
            double severity = weight * row[r];
            for (size_t k = 0; k < QLL_NODES && severity > 0.0; k++) {
                sums->at[r][k] += severity;
            }
        }
    }
}

static double mean_survival(const qll_hazard_sums *sums, size_t row, size_t node, double factor)
{
    double sum = 0.0;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        double severity = sums->at[row + d][node];
        sum += severity > 0.0 ? exp(-factor * severity) : 1.0;
    }
    return sum / QLL_OWN_NODES;
}

void qll_survival(const qll_hazard_sums *sums, const qll_branch_ruler *branches,
                  size_t branch_count, unsigned which, double factor, double survival[QLL_NODES])
{
    const double complaint = QLL_COMPLAINT * factor;
    for (size_t k = 0; k < QLL_NODES; k++) {
        double all = 0.0;
        all += (which & QLL_HEARS_NOISE) != 0 ? sums->at[QLL_ROW_NOISE][k] : 0.0;
        all += (which & QLL_HEARS_WEAR) != 0 ? sums->at[QLL_ROW_WEAR][k] : 0.0;
        all += (which & QLL_HEARS_STARVED) != 0 ? sums->at[QLL_ROW_STARVED][k] : 0.0;
        all += (which & QLL_HEARS_HUNTING) != 0 ? sums->at[QLL_ROW_HUNTING][k] : 0.0;
        double survives = exp(-complaint * all);
        for (size_t j = 0; j < branch_count; j++) {
            if ((which & QLL_HEARS_CAVITATION) != 0) {
                survives *= mean_survival(sums, qll_row_cavitation(j), k, complaint);
            }
            if ((which & QLL_HEARS_CHATTER) != 0) {
                double chatters = branches[j].chatters;
                survives *= 1.0 - chatters
                            + chatters * mean_survival(sums, qll_row_chatter(j), k, complaint);
            }
        }
        survival[k] = survives;
    }
}

void qll_survival_hunting(double severity, const double open_share[QLL_NODES],
                          double survival[QLL_NODES])
{
    for (size_t k = 0; k < QLL_NODES && severity > 0.0; k++) {
        survival[k] *= exp(-QLL_COMPLAINT * severity * open_share[k]);
    }
}

/* Of own nodes the one that does least harm: no other sums make more of it. */
static double best_survival(const qll_hazard_sums *sums, size_t row, size_t node)
{
    double least = sums->at[row][node];
    for (size_t d = 1; d < QLL_OWN_NODES; d++) {
        least = sums->at[row + d][node] < least ? sums->at[row + d][node] : least;
    }
    return exp(-QLL_COMPLAINT * least);
}

double qll_survival_besides(const qll_hazard_sums *sums, const qll_branch_ruler *branches,
                            size_t branch_count, size_t node)
{
    double survives = exp(-QLL_COMPLAINT
                          * (sums->at[QLL_ROW_NOISE][node] + sums->at[QLL_ROW_WEAR][node]
                             + sums->at[QLL_ROW_STARVED][node] + sums->at[QLL_ROW_HUNTING][node]));
    survives *= best_survival(sums, qll_row_cavitation(0), node);
    for (size_t j = 1; j < branch_count; j++) {
        const double chatters = branches[j].chatters;
        survives *= mean_survival(sums, qll_row_cavitation(j), node, QLL_COMPLAINT);
        survives *= 1.0 - chatters
                    + chatters * mean_survival(sums, qll_row_chatter(j), node, QLL_COMPLAINT);
    }
    return survives;
}

double qll_complaint_chance(double severity)
{
    return 1.0 - exp(-QLL_COMPLAINT * severity);
}

double qll_short_chance(double short_pa)
{
    return qll_spread_below(short_pa, QLL_STARVED_SIGMA_PA);
}

double qll_rest_chance(const qll_yardstick *yardstick, double outlet_pa)
{
    return qll_short_chance(outlet_pa - yardstick->rest_most_pa);
}

double qll_hunting_severity(double hysteresis_pa, double gap_pa)
{
    return qll_spread_below(hysteresis_pa - gap_pa, QLL_GAP_SIGMA_PA);
}
