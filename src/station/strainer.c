/* docs/theory/strainer.md. */
#include "station/strainer.h"

#include "base/count.h"
#include "base/customary.h"
#include "station/branch_curve.h"

#include <math.h>

/* What a pair of gauges is read to, and what a screen may cost half blocked: 2 psi (our
 * assumption). */
#define QLL_SCREEN_LOSS_PA  (2.0 * QLL_PSI_PA)
/* The least that a pair of gauges shows: a line in psi. */
#define QLL_SCREEN_SHOWN_PA QLL_PSI_PA
/* Open share of a screen of which nothing is known: woven screens of 20 to 60 mesh have 0.36 to 0.40
 * (ASTM E11), and the larger share gives the larger ratio. */
#define QLL_SCREEN_OPEN     0.40
/* Sizes above the valve's own that are tried. */
#define QLL_SIZES_UP        2

/* Finest first. Our assumption: 20 to 60 mesh; a pilot-operated valve's wide seat needs no finer than 40, its
 * pilot has a screen of its own. */
static const int meshes[] = {60, 50, 40, 30, 20};
#define QLL_MESHES     QLL_COUNT(meshes)
#define QLL_MESH_PILOT 2

static double head(double open)
{
    return (1.0 - open * open) / (open * open);
}

double qll_screen_blocked_ratio(double open, double blocked)
{
    if (!(open > 0.0 && open < 1.0 && blocked >= 0.0 && blocked < 1.0)) {
        return NAN;
    }
    return head(open * (1.0 - blocked)) / head(open);
}

static void put_losses(qll_strainer *strainer, const qll_site *site, double clean_pa,
                       double half_blocked_pa)
{
    strainer->clean_pa = clean_pa;
    strainer->half_blocked_pa = half_blocked_pa;
    strainer->clean_me_pa = fmax(half_blocked_pa, QLL_SCREEN_LOSS_PA);
    strainer->half_blocked_kv_m3h =
        strainer->at_flow_m3s / (qll_flow_per_kv(&site->water) * sqrt(half_blocked_pa));
}

static void use_own(const qll_branch *branch, const qll_site *site, qll_strainer *strainer)
{
    strainer->in_body = true;
    if (isnan(strainer->at_flow_m3s)) {
        return;
    }
    double root =
        strainer->at_flow_m3s / (qll_flow_per_kv(&site->water) * branch->valve->strainer_kv_m3h);
    double clean_pa = root * root;
    put_losses(strainer, site, clean_pa,
               clean_pa * qll_screen_blocked_ratio(QLL_SCREEN_OPEN, QLL_STRAINER_BLOCKED));
}

/* Index of the station's pipe size with the branch's bore, or where it would stand. */
static size_t size_of(const qll_branch *branch, const qll_site *site)
{
    size_t at = 0;
    while (at + 1 < site->station_size_count
           && site->station_sizes[at]->bore_m < branch->pipe_bore_m * (1.0 - 1e-9)) {
        at += 1;
    }
    return at;
}

/* True if the finest screen in a bore that is cheap enough half blocked was put. */
static bool put_screen(const qll_branch *branch, const qll_site *site, double bore_m,
                       qll_strainer *strainer)
{
    double flow_m3s = strainer->at_flow_m3s;
    size_t first = branch->valve->acting == QLL_ACTING_PILOT ? QLL_MESH_PILOT : 0;
    for (size_t i = first; i < QLL_MESHES; i++) {
        const qll_screen screen = qll_screen_mesh(meshes[i]);
        strainer->mesh = meshes[i];
        if (isnan(flow_m3s)) {
            return true;
        }
        double half_pa =
            qll_screen_drop_pa(&screen, bore_m, QLL_STRAINER_BLOCKED, flow_m3s, &site->water);
        put_losses(strainer, site, qll_screen_drop_pa(&screen, bore_m, 0.0, flow_m3s, &site->water),
                   half_pa);
        if (half_pa <= QLL_SCREEN_LOSS_PA) {
            return true;
        }
    }
    return false;
}

qll_strainer qll_strainer_choose(const qll_branch *branch, const qll_site *site,
                                 double peak_flow_m3s)
{
    qll_strainer strainer = {.nominal_m = branch->valve->nominal_m,
                             .at_flow_m3s = peak_flow_m3s > 0.0 ? peak_flow_m3s : (double)NAN,
                             .clean_pa = NAN,
                             .half_blocked_pa = NAN,
                             .clean_me_pa = NAN,
                             .half_blocked_kv_m3h = NAN};
    if (branch->valve->strainer_kv_m3h > 0.0) {
        use_own(branch, site, &strainer);
        return strainer;
    }
    if (put_screen(branch, site, branch->pipe_bore_m, &strainer)) {
        return strainer;
    }
    size_t own = size_of(branch, site);
    for (size_t up = 1; up <= QLL_SIZES_UP && own + up < site->station_size_count; up++) {
        const qll_pipe_size *size = site->station_sizes[own + up];
        strainer.nominal_m = size->nominal_m;
        if (put_screen(branch, site, size->bore_m, &strainer)) {
            break;
        }
    }
    return strainer;
}

qll_strainer **qll_strainers_room(const qll_station *station, qll_arena *arena)
{
    qll_strainer **room = qll_arena_take(arena, station->stage_count, sizeof(void *));
    for (size_t k = 0; room != NULL && k < station->stage_count; k++) {
        room[k] = qll_arena_take(arena, station->stages[k].branch_count, sizeof *room[k]);
        if (room[k] == NULL) {
            return NULL;
        }
    }
    return room;
}

void qll_strainers_choose(const qll_station *station, const qll_site *site,
                          const qll_operating_point *peaks, size_t count,
                          qll_strainer *const *strainers)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            double most_m3s = 0.0;
            for (size_t i = 0; i < count; i++) {
                most_m3s = fmax(most_m3s, peaks[i].branches[k][j].flow_m3s);
            }
            strainers[k][j] = qll_strainer_choose(&station->stages[k].branches[j], site, most_m3s);
        }
    }
}

void qll_strainers_spare(const qll_station *station, double spare_pa,
                         qll_strainer *const *strainers)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            qll_strainer *strainer = &strainers[k][j];
            if (spare_pa < strainer->clean_me_pa) {
                bool tells = spare_pa >= QLL_SCREEN_SHOWN_PA && spare_pa > strainer->clean_pa;
                strainer->clean_me_pa = tells ? spare_pa : (double)NAN;
            }
        }
    }
}

/* 1/Kv^2 adds up in series. */
static double with_screen(double series_kv_m3h, double screen_kv_m3h)
{
    if (!(screen_kv_m3h > 0.0)) {
        return series_kv_m3h;
    }
    if (!(series_kv_m3h > 0.0)) {
        return screen_kv_m3h;
    }
    return 1.0 / hypot(1.0 / series_kv_m3h, 1.0 / screen_kv_m3h);
}

qll_status qll_strainers_block(const qll_station *station, qll_strainer *const *strainers,
                               qll_arena *arena, qll_station *blocked)
{
    qll_stage *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    if (stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *of = &station->stages[k];
        qll_branch *branches = qll_arena_take(arena, of->branch_count, sizeof *branches);
        if (branches == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t j = 0; j < of->branch_count; j++) {
            const qll_strainer *strainer = &strainers[k][j];
            branches[j] = of->branches[j];
            /* The clean screen of a body is in the series already, and gives way to the dirty one;
             * the reducers stay. */
            bool gives_way = strainer->in_body && strainer->half_blocked_kv_m3h > 0.0;
            branches[j].series_kv_m3h =
                with_screen(gives_way ? branches[j].reducer_kv_m3h : branches[j].series_kv_m3h,
                            strainer->half_blocked_kv_m3h);
        }
        stages[k] = *of;
        stages[k].branches = branches;
    }
    *blocked = (qll_station){.stages = stages, .stage_count = station->stage_count};
    return QLL_OK;
}
