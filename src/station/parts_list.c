/* docs/theory/parts.md. */
#include "station/parts_list.h"

#include "base/count.h"
#include "base/customary.h"
#include "physics/nominal.h"

#include <math.h>

/* Most rows that a branch has: valve, strainer, two stops, union, three reducers, cock. */
#define QLL_BRANCH_ROWS  9
/* And the station besides its gauges: tees, elbows, test gauge, hose valve, relief valve, tank. */
#define QLL_STATION_ROWS 6

const char *const qll_piece_words[QLL_PIECE_COUNT] = {
#define QLL_PIECE_WORD(name, word) [QLL_PIECE_##name] = (word),
    QLL_PIECE_LIST(QLL_PIECE_WORD)
#undef QLL_PIECE_WORD
};

/* As the station's pipe is sold, where its sizes are known. */
static double sold_m(const qll_site *site, double nominal_m)
{
    const qll_pipe_size *size = qll_site_size(site, nominal_m);
    return size == NULL ? nominal_m : size->nominal_m;
}

static int change(double from_m, double to_m)
{
    return qll_nominal_same(from_m, to_m) ? 0 : to_m > from_m ? 1 : -1;
}

qll_branch_sizes qll_branch_sizes_of(const qll_station *station, const qll_site *site,
                                     const qll_assessment *assessment, size_t stage, size_t branch)
{
    const qll_strainer *strainer = &assessment->strainers[stage][branch];
    double valve_m = sold_m(site, station->stages[stage].branches[branch].valve->nominal_m);
    double pipe_m = site->header == NULL ? valve_m : sold_m(site, site->header->nominal_m);
    double strainer_m = strainer->in_body ? valve_m : sold_m(site, strainer->nominal_m);
    return (qll_branch_sizes){
        .pipe_m = pipe_m,
        .strainer_m = strainer_m,
        .valve_m = valve_m,
        .in = change(pipe_m, strainer_m),
        .between = change(strainer_m, valve_m),
        .out = change(valve_m, pipe_m),
        .has_cock = !strainer->in_body,
    };
}

/* ---- gauges ---- */

/* Where scales end: ASME B40.100 in psi, EN 837-1 in bar (both from memory). */
static const double scales_psi[] = {30, 60, 100, 160, 200, 300, 400, 600, 1000};
static const double scales_bar[] = {2.5, 4, 6, 10, 16, 25, 40, 60, 100};

/* What stands there for long reaches no further than so far up the scale (common practice, no source). */
#define QLL_SCALE_SHARE 0.8

static double scale_pa_gauge(double most_pa_gauge, qll_unit_system units)
{
    const double *ends = units == QLL_UNITS_SI ? scales_bar : scales_psi;
    double unit_pa = units == QLL_UNITS_SI ? QLL_BAR_PA : QLL_PSI_PA;
    size_t at = 0;
    while (at + 1 < QLL_COUNT(scales_psi) && QLL_SCALE_SHARE * ends[at] * unit_pa < most_pa_gauge) {
        at += 1;
    }
    return ends[at] * unit_pa;
}

/* ---- the list ---- */

typedef struct listing {
    const qll_station *station;
    const qll_site *site;
    const qll_assessment *assessment;
    qll_extra_parts extra;
    qll_unit_system units;
    qll_piece *pieces;
    size_t count;
} listing;

static qll_piece *add(listing *list, qll_piece_kind kind, double nominal_m, size_t count)
{
    qll_piece *made = &list->pieces[list->count++];
    *made = (qll_piece){.kind = kind,
                        .branch = SIZE_MAX,
                        .count = count,
                        .nominal_m = nominal_m,
                        .smaller_m = NAN,
                        .scale_pa_gauge = NAN,
                        .pressure_pa_gauge = NAN,
                        .volume_m3 = NAN};
    return made;
}

/* A reducer where the size changes; one row for all alike of a branch, which begins at row @p first. */
static void add_reducer(listing *list, size_t first, double from_m, double to_m)
{
    if (qll_nominal_same(from_m, to_m)) {
        return;
    }
    double larger_m = fmax(from_m, to_m);
    double smaller_m = fmin(from_m, to_m);
    for (size_t i = first; i < list->count; i++) {
        qll_piece *piece = &list->pieces[i];
        if (piece->kind == QLL_PIECE_REDUCER && qll_nominal_same(piece->nominal_m, larger_m)
            && qll_nominal_same(piece->smaller_m, smaller_m)) {
            piece->count += 1;
            return;
        }
    }
    add(list, QLL_PIECE_REDUCER, larger_m, 1)->smaller_m = smaller_m;
}

static void add_branch(listing *list, size_t stage, size_t branch)
{
    const qll_branch_sizes sizes =
        qll_branch_sizes_of(list->station, list->site, list->assessment, stage, branch);
    size_t first = list->count;
    add(list, QLL_PIECE_VALVE, list->station->stages[stage].branches[branch].valve->nominal_m, 1);
    add(list, sizes.has_cock ? QLL_PIECE_STRAINER : QLL_PIECE_SCREEN, sizes.strainer_m, 1);
    /* The stop before it has the strainer's size, so that nothing is narrower than need be. */
    add(list, QLL_PIECE_STOP, sizes.strainer_m, sizes.between == 0 ? 2 : 1);
    if (sizes.between != 0) {
        add(list, QLL_PIECE_STOP, sizes.valve_m, 1);
    }
    add(list, QLL_PIECE_UNION, sizes.valve_m, 2);
    add_reducer(list, first, sizes.pipe_m, sizes.strainer_m);
    add_reducer(list, first, sizes.strainer_m, sizes.valve_m);
    add_reducer(list, first, sizes.valve_m, sizes.pipe_m);
    if (sizes.has_cock) {
        add(list, QLL_PIECE_COCK, NAN, 1);
    }
    for (size_t i = first; i < list->count; i++) {
        list->pieces[i].stage = stage;
        list->pieces[i].branch = branch;
    }
}

static bool has_cock(const listing *list)
{
    bool has = false;
    for (size_t i = 0; i < list->count; i++) {
        has = has || list->pieces[i].kind == QLL_PIECE_COCK;
    }
    return has;
}

/* The most that stands at a gauge for long, gauge Pa. */
static double most_pa_gauge(const listing *list, size_t joint)
{
    if (joint == 0) {
        return qll_site_still_pa_gauge(list->site);
    }
    const qll_stage *stage = &list->station->stages[joint - 1];
    /* What a relief valve opens at stands there before it is seen. */
    bool is_last = joint == list->station->stage_count;
    double most = is_last ? fmax(list->extra.relief_pa_gauge, 0.0) : 0.0;
    for (size_t b = 0; b < stage->branch_count; b++) {
        const qll_branch *branch = &stage->branches[b];
        most = fmax(most, branch->set_pa_gauge + branch->valve->lockup_rise_pa);
    }
    return most;
}

/* Each as fine as the pressure there lets it be: valves are set by what they show. */
static void add_gauges(listing *list)
{
    for (size_t joint = 0; joint <= list->station->stage_count; joint++) {
        qll_piece *gauge = add(list, QLL_PIECE_GAUGE, NAN, 1);
        gauge->joint = joint;
        gauge->scale_pa_gauge = scale_pa_gauge(most_pa_gauge(list, joint), list->units);
    }
    if (has_cock(list)) {
        add(list, QLL_PIECE_TEST_GAUGE, NAN, 1)->scale_pa_gauge =
            scale_pa_gauge(most_pa_gauge(list, 0), list->units);
    }
}

static void add_station(listing *list)
{
    const qll_extra_parts extra = list->extra;
    const qll_station *station = list->station;
    size_t beside = qll_station_valve_count(station) - station->stage_count;
    double small_m = list->units == QLL_UNITS_SI ? 0.020 : 0.75 * QLL_INCH_M;
    if (beside > 0) {
        double pipe_m = qll_branch_sizes_of(station, list->site, list->assessment, 0, 0).pipe_m;
        add(list, QLL_PIECE_TEE, pipe_m, 2 * beside);
        add(list, QLL_PIECE_ELBOW, pipe_m, 2 * beside);
    }
    add_gauges(list);
    add(list, QLL_PIECE_HOSE_VALVE, small_m, 1);
    if (isfinite(extra.relief_pa_gauge)) {
        add(list, QLL_PIECE_RELIEF, small_m, 1)->pressure_pa_gauge = extra.relief_pa_gauge;
    }
    if (isfinite(extra.tank_m3)) {
        qll_piece *tank = add(list, QLL_PIECE_TANK, NAN, 1);
        tank->volume_m3 = extra.tank_m3;
        tank->pressure_pa_gauge = list->assessment->closed.precharge_pa_gauge;
    }
}

qll_status qll_pieces_of(const qll_station *station, const qll_site *site,
                         const qll_assessment *assessment, qll_extra_parts extra,
                         qll_unit_system units, qll_arena *arena, qll_pieces *pieces)
{
    size_t most = QLL_BRANCH_ROWS * qll_station_valve_count(station) + station->stage_count + 1
                  + QLL_STATION_ROWS;
    listing list = {
        .station = station, .site = site, .assessment = assessment, .extra = extra, .units = units};
    list.pieces = qll_arena_take(arena, most, sizeof *list.pieces);
    if (list.pieces == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            add_branch(&list, s, b);
        }
    }
    add_station(&list);
    *pieces = (qll_pieces){list.pieces, list.count};
    return QLL_OK;
}
