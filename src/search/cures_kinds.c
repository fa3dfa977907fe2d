/* The kinds of cures that are searched for: every valve and every set-point of a kind, the cheapest first. What
 * is installed is a lower bound of what is expected, so a kind ends where that alone is no better. */
#include "search/between.h"
#include "search/curing.h"

#include <math.h>
#include <string.h>

qll_status qll_curing_room(qll_curing *curing)
{
    const size_t stages = curing->given->station->stage_count + 1;
    curing->stages = qll_arena_take(curing->arena, stages, sizeof *curing->stages);
    curing->branches =
        qll_arena_take(curing->arena, stages * QLL_HAZARD_BRANCHES, sizeof *curing->branches);
    return curing->stages == NULL || curing->branches == NULL ? QLL_NO_MEMORY : QLL_OK;
}

bool qll_curing_goes_on(qll_curing *curing)
{
    const qll_cures_case *given = curing->given;
    if (given->progress != NULL && !curing->is_stopped) {
        curing->is_stopped = !given->progress(curing->told, given->progress_context);
    }
    return !curing->is_stopped;
}

/* ---- work in a pipe that is there ---- */

double qll_cure_opened(const qll_curing *curing)
{
    const qll_costs *costs = curing->yardstick->site->costs;
    return costs->visit + qll_costs_beside(costs, curing->yardstick->pipe_m);
}

/* Tapping a pipe for a valve beside: up to half the pipe's size by an outlet strapped or welded on (common practice, no
 * source), at what a valve side by side costs at its own size; else the pipe is cut. */
static double tapped(const qll_costs *costs, const qll_valve *valve, double pipe_m)
{
    /* Standards' inches differ in their last bits. */
    const double half_m = 0.5 * 1.02 * pipe_m;
    return qll_costs_beside(costs, valve->nominal_m <= half_m ? valve->nominal_m : pipe_m);
}

/* ---- a station tried ---- */

static qll_branch *branch_of(const qll_curing *curing, size_t stage, size_t branch)
{
    return &curing->branches[stage * QLL_HAZARD_BRANCHES + branch];
}

/* Lays out what is there, behind @p before empty stages. */
static void lay(qll_curing *curing, size_t before)
{
    const qll_station *there = curing->given->station;
    curing->stage_count = there->stage_count + before;
    for (size_t k = 0; k < there->stage_count; k++) {
        const qll_stage *stage = &there->stages[k];
        curing->stages[k + before] = (qll_stage){.branches = branch_of(curing, k + before, 0),
                                                 .branch_count = stage->branch_count};
        memcpy(branch_of(curing, k + before, 0), stage->branches,
               stage->branch_count * sizeof *stage->branches);
    }
}

static void move_stage(const qll_curing *curing, size_t stage, double by_pa)
{
    for (size_t j = 0; j < curing->stages[stage].branch_count; j++) {
        branch_of(curing, stage, j)->set_pa_gauge += by_pa;
    }
}

static double set_of(const qll_branch *branch)
{
    return branch->set_pa_gauge;
}

static double tightness_of(const qll_branch *branch)
{
    return -branch->valve->kv_m3h;
}

/* The branches of a stage by what falls from each to the next. */
static void sort_stage(const qll_curing *curing, size_t stage, double (*falls)(const qll_branch *))
{
    for (size_t i = 1; i < curing->stages[stage].branch_count; i++) {
        qll_branch moved = *branch_of(curing, stage, i);
        size_t at = i;
        while (at > 0 && falls(branch_of(curing, stage, at - 1)) < falls(&moved)) {
            *branch_of(curing, stage, at) = *branch_of(curing, stage, at - 1);
            at--;
        }
        *branch_of(curing, stage, at) = moved;
    }
}

/* Each stage is set with the highest set-point of the one before at its inlet, as one that is there is. */
static qll_station station_of(const qll_curing *curing)
{
    double inlet_pa_gauge = curing->given->station->stages[0].set_inlet_pa_gauge;
    for (size_t k = 0; k < curing->stage_count; k++) {
        sort_stage(curing, k, set_of); /* a stage wants its branches so */
        curing->stages[k].set_inlet_pa_gauge = inlet_pa_gauge;
        inlet_pa_gauge = qll_stage_highest_set_pa_gauge(&curing->stages[k]);
    }
    return (qll_station){.stages = curing->stages, .stage_count = curing->stage_count};
}

/* Expected cost that is still worth a look. */
static double limit_of(const qll_curing *curing)
{
    return curing->is_better ? curing->best.cost.expected : curing->as_is;
}

static bool keeps_ranges(const qll_station *station)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            if (qll_breach_of_range(branch->valve, branch->set_pa_gauge) > QLL_PRACTICE_SLACK) {
                return false;
            }
        }
    }
    return true;
}

/* Where the work is done, for whoever tells of it. */
typedef struct work {
    qll_cure_kind kind;
    double installed;
    size_t stage;
    const qll_valve *valve; /* the new one; NULL = none */
} work;

static size_t place_of(const qll_stage *stage, const qll_valve *valve)
{
    size_t j = 0;
    while (j + 1 < stage->branch_count && stage->branches[j].valve != valve) {
        j++;
    }
    return j;
}

/* So many stations are looked at in some milliseconds. */
#define QLL_LOOKS_PER_ASK 16

/* False from the moment on that progress says stop: what is left of the loops goes by then. */
static bool is_to_be_looked_at(qll_curing *curing)
{
    curing->look_count += 1;
    return curing->look_count % QLL_LOOKS_PER_ASK != 0 ? !curing->is_stopped
                                                       : qll_curing_goes_on(curing);
}

/* Takes the station laid out if it is fit and the best of its kind. */
static qll_status look(qll_curing *curing, const work *done)
{
    if (!(done->installed < limit_of(curing)) || !is_to_be_looked_at(curing)) {
        return QLL_OK;
    }
    const qll_station station = station_of(curing);
    qll_cure cure = {.kind = done->kind, .stage = done->stage};
    if (!keeps_ranges(&station)) {
        return QLL_OK;
    }
    if (qll_station_fitness(&station, curing->yardstick, curing->arena, &cure.fitness) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    if (!cure.fitness.is_fit) {
        return QLL_OK;
    }
    if (qll_station_measure(&station, curing->yardstick, curing->arena, &cure.cost) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    cure.cost.installed = done->installed;
    cure.cost.expected = done->installed + cure.cost.callback_share * cure.cost.callback;
    if (!(cure.cost.expected < limit_of(curing))) {
        return QLL_OK;
    }
    cure.branch = done->valve == NULL ? 0 : place_of(&station.stages[done->stage], done->valve);
    curing->best = cure;
    curing->is_better = true;
    return qll_station_copy(&station, curing->arena, &curing->best.station);
}

/* ---- set-points ---- */

/* How far a stage may be moved before anything else is done: not, and the last one to the pressure that is
 * wanted. */
enum {
    QLL_MOVES_MOST = 2
};

static size_t list_moves(const qll_curing *curing, size_t stage, double by_pa[QLL_MOVES_MOST])
{
    const qll_station *there = curing->given->station;
    by_pa[0] = 0.0;
    if (stage + 1 < there->stage_count) {
        return 1;
    }
    by_pa[1] = curing->yardstick->site->set_pa_gauge
               - qll_stage_highest_set_pa_gauge(&there->stages[stage]);
    return by_pa[1] == 0.0 ? 1 : 2;
}

/* ---- a small valve beside ---- */

/* The most a valve may pass full open to stand beside those of a stage as the small one. */
static double small_kv_m3h(const qll_stage *stage)
{
    double least = INFINITY;
    for (size_t j = 0; j < stage->branch_count; j++) {
        least = fmin(least, stage->branches[j].valve->kv_m3h);
    }
    return least / QLL_LARGER_LEAST;
}

/* The small one above those that are there, or at their pressure and they below it. */
static qll_status look_beside(qll_curing *curing, const qll_part *part, const work *done,
                              double by_pa)
{
    const size_t stage = done->stage;
    for (size_t i = 0; i < (size_t)2 * QLL_OFFSET_COUNT; i++) {
        const double offset_pa = qll_offsets_pa[i % QLL_OFFSET_COUNT];
        const bool is_above = i < QLL_OFFSET_COUNT;
        lay(curing, 0);
        move_stage(curing, stage, by_pa);
        qll_branch small = part->branch;
        small.set_pa_gauge =
            qll_stage_highest_set_pa_gauge(&curing->stages[stage]) + (is_above ? offset_pa : 0.0);
        move_stage(curing, stage, is_above ? 0.0 : -offset_pa);
        *branch_of(curing, stage, curing->stages[stage].branch_count) = small;
        curing->stages[stage].branch_count += 1;
        if (look(curing, done) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    return QLL_OK;
}

static qll_status look_beside_stage(qll_curing *curing, size_t stage)
{
    const double most_kv_m3h = small_kv_m3h(&curing->given->station->stages[stage]);
    const qll_costs *costs = curing->yardstick->site->costs;
    double by_pa[QLL_MOVES_MOST];
    const size_t moves = list_moves(curing, stage, by_pa);
    for (size_t i = 0; i < curing->pool.count; i++) {
        const qll_part *part = &curing->pool.parts[i];
        const qll_valve *valve = part->branch.valve;
        if (!(part->cost + costs->visit < limit_of(curing))) {
            break;
        }
        if (valve->kv_m3h > most_kv_m3h) {
            continue;
        }
        const work done = {QLL_CURE_SMALL_BESIDE,
                           part->cost + costs->visit
                               + tapped(costs, valve, curing->yardstick->pipe_m),
                           stage, valve};
        for (size_t m = 0; m < moves; m++) {
            if (look_beside(curing, part, &done, by_pa[m]) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
        }
    }
    return QLL_OK;
}

qll_status qll_cure_small_beside(qll_curing *curing)
{
    const qll_station *there = curing->given->station;
    qll_status status = QLL_OK;
    for (size_t k = 0; k < there->stage_count && status == QLL_OK; k++) {
        if (there->stages[k].branch_count < QLL_HAZARD_BRANCHES) {
            status = look_beside_stage(curing, k);
        }
    }
    return status;
}

/* ---- a smaller valve ---- */

static qll_status look_in_place(qll_curing *curing, size_t stage, size_t branch)
{
    const qll_valve *old = curing->given->station->stages[stage].branches[branch].valve;
    const double anyway = qll_cure_opened(curing);
    double by_pa[QLL_MOVES_MOST];
    const size_t moves = list_moves(curing, stage, by_pa);
    for (size_t i = 0; i < curing->pool.count; i++) {
        const qll_part *part = &curing->pool.parts[i];
        const work done = {QLL_CURE_SMALLER_VALVE, part->cost + anyway, stage, part->branch.valve};
        if (!(done.installed < limit_of(curing))) {
            break;
        }
        if (!(part->branch.valve->kv_m3h < old->kv_m3h)) {
            continue;
        }
        for (size_t m = 0; m < moves; m++) {
            lay(curing, 0);
            qll_branch *in = branch_of(curing, stage, branch);
            double set_pa_gauge = in->set_pa_gauge;
            *in = part->branch;
            in->set_pa_gauge = set_pa_gauge;
            move_stage(curing, stage, by_pa[m]);
            if (look(curing, &done) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
        }
    }
    return QLL_OK;
}

qll_status qll_cure_smaller_valve(qll_curing *curing)
{
    const qll_station *there = curing->given->station;
    qll_status status = QLL_OK;
    for (size_t k = 0; k < there->stage_count; k++) {
        for (size_t j = 0; j < there->stages[k].branch_count && status == QLL_OK; j++) {
            status = look_in_place(curing, k, j);
        }
    }
    return status;
}

/* ---- a stage before ---- */

static qll_status look_before(qll_curing *curing, double by_pa)
{
    const double anyway = curing->yardstick->site->costs->stage + qll_cure_opened(curing);
    const size_t last = curing->given->station->stage_count; /* once there is one more */
    lay(curing, 1);
    move_stage(curing, last, by_pa);
    double between_pa_gauge[QLL_BETWEEN_MOST];
    const size_t count = qll_between_pressures(
        curing->yardstick, qll_stage_highest_set_pa_gauge(&curing->stages[1]), between_pa_gauge);
    for (size_t i = 0; i < curing->pool.count; i++) {
        const qll_part *part = &curing->pool.parts[i];
        const work done = {QLL_CURE_STAGE_BEFORE, part->cost + anyway, 0, part->branch.valve};
        if (!(done.installed < limit_of(curing))) {
            break;
        }
        for (size_t b = 0; b < count; b++) {
            curing->stages[0] = (qll_stage){.branches = branch_of(curing, 0, 0), .branch_count = 1};
            *branch_of(curing, 0, 0) = part->branch;
            branch_of(curing, 0, 0)->set_pa_gauge = between_pa_gauge[b];
            if (look(curing, &done) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
        }
    }
    return QLL_OK;
}

qll_status qll_cure_stage_before(qll_curing *curing)
{
    const size_t stages = curing->given->station->stage_count;
    qll_status status = QLL_OK;
    double by_pa[QLL_MOVES_MOST];
    const size_t moves = list_moves(curing, stages - 1, by_pa);
    for (size_t m = 0; m < moves && stages < QLL_STAGES_MOST && status == QLL_OK; m++) {
        status = look_before(curing, by_pa[m]);
    }
    return status;
}

/* ---- other settings ---- */

/* How the valves of a stage may stand to one another: as they do; the first to open at the stage's pressure
 * and each next one an offset below; the last at it and each before an offset above. */
enum {
    QLL_SPREAD_AS_IS = 0,
    QLL_SPREAD_BELOW = 1,
    QLL_SPREAD_ABOVE = 1 + QLL_OFFSET_COUNT,
    QLL_SPREADS = 1 + 2 * QLL_OFFSET_COUNT,
    QLL_BASES_MOST = QLL_MOVES_MOST + QLL_BETWEEN_MOST,
};

/* Set-points of a stage that are tried: as it is, then each pressure with each spread. */
typedef struct settings {
    size_t base_count, spread_count;
    double base_pa_gauge[QLL_BASES_MOST]; /* the first: as it is */
} settings;

static settings settings_of(qll_curing *curing, size_t stage)
{
    const qll_station *there = curing->given->station;
    const bool is_last = stage + 1 == there->stage_count;
    lay(curing, 0);
    settings made = {.base_count = 1, .spread_count = 1};
    made.base_pa_gauge[0] = qll_stage_highest_set_pa_gauge(&curing->stages[stage]);
    if (there->stages[stage].branch_count > 1) {
        made.spread_count = is_last ? QLL_SPREADS : QLL_SPREAD_ABOVE;
    }
    double by_pa[QLL_MOVES_MOST];
    if (list_moves(curing, stage, by_pa) > 1) {
        made.base_pa_gauge[made.base_count] = curing->yardstick->site->set_pa_gauge;
        made.base_count += 1;
    }
    if (!is_last && there->stage_count == 2) {
        made.base_count +=
            qll_between_pressures(curing->yardstick, curing->yardstick->site->set_pa_gauge,
                                  &made.base_pa_gauge[made.base_count]);
    }
    return made;
}

static void set_stage(const qll_curing *curing, size_t stage, double base_pa_gauge, size_t spread)
{
    if (spread == QLL_SPREAD_AS_IS) {
        move_stage(curing, stage,
                   base_pa_gauge - qll_stage_highest_set_pa_gauge(&curing->stages[stage]));
        return;
    }
    const bool is_above = spread >= QLL_SPREAD_ABOVE;
    const double offset_pa =
        qll_offsets_pa[spread - (is_above ? QLL_SPREAD_ABOVE : QLL_SPREAD_BELOW)];
    const size_t count = curing->stages[stage].branch_count;
    sort_stage(curing, stage, tightness_of); /* small valves open first */
    for (size_t j = 0; j < count; j++) {
        double steps = is_above ? (double)(count - 1 - j) : -(double)j;
        branch_of(curing, stage, j)->set_pa_gauge = base_pa_gauge + steps * offset_pa;
    }
}

/* Every stage at each of its settings, with every setting of the others. */
qll_status qll_cure_settings(qll_curing *curing)
{
    settings all[QLL_STAGES_MOST];
    const size_t stages = curing->given->station->stage_count;
    const work done = {QLL_CURE_SETTINGS, curing->yardstick->site->costs->visit, 0, NULL};
    size_t ways = 1;
    if (stages > QLL_STAGES_MOST) {
        return QLL_OK;
    }
    for (size_t k = 0; k < stages; k++) {
        all[k] = settings_of(curing, k);
        ways *= all[k].base_count * all[k].spread_count;
    }
    /* The first way is how it is. */
    for (size_t way = 1; way < ways; way++) {
        lay(curing, 0);
        size_t rest = way;
        for (size_t k = 0; k < stages; k++) {
            size_t own = rest % (all[k].base_count * all[k].spread_count);
            rest /= all[k].base_count * all[k].spread_count;
            set_stage(curing, k, all[k].base_pa_gauge[own / all[k].spread_count],
                      own % all[k].spread_count);
        }
        if (look(curing, &done) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    return QLL_OK;
}
