/* Equation numbers are those of docs/theory/fitting.md. */
#include "physics/fitting.h"

#include "base/count.h"
#include "base/customary.h"
#include "physics/nominal.h"
#include "physics/pipe.h"

#include <assert.h>
#include <math.h>

/* Clean commercial steel, 0.00015 ft, on which the fT tables rest. */
static const double steel_roughness_m = 45.7e-6;

#define QLL_READ_ROW \
    "Technical Paper 410 form K = n fT, as an open fluid-dynamics library prints it"
#define QLL_MEMORY_ROW  "Technical Paper 410 form K = n fT, from memory"
#define QLL_TIMES_FT(n) (n), (double)NAN
#define QLL_FIXED(k)    (double)NAN, (k)

static const qll_fitting fittings[] = {
    {"elbow 90", QLL_TIMES_FT(30), QLL_READ_ROW},
    {"elbow 45", QLL_TIMES_FT(16), QLL_READ_ROW},
    {"long elbow 90", QLL_TIMES_FT(14), QLL_MEMORY_ROW},
    {"return bend", QLL_TIMES_FT(50), QLL_READ_ROW},
    {"tee run", QLL_TIMES_FT(20), QLL_MEMORY_ROW},
    {"tee branch", QLL_TIMES_FT(60), QLL_MEMORY_ROW},
    {"gate valve", QLL_TIMES_FT(8), QLL_READ_ROW},
    {"globe valve", QLL_TIMES_FT(340), QLL_READ_ROW},
    {"angle valve", QLL_TIMES_FT(150), QLL_READ_ROW},
    {"ball valve", QLL_TIMES_FT(3), QLL_MEMORY_ROW},
    {"butterfly valve", QLL_TIMES_FT(45), QLL_MEMORY_ROW},
    {"swing check", QLL_TIMES_FT(100), QLL_READ_ROW},
    {"straight swing check", QLL_TIMES_FT(50), QLL_READ_ROW},
    {"lift check", QLL_TIMES_FT(600), QLL_READ_ROW},
    {"coupling", QLL_FIXED(0.08), "threaded coupling K = 0.08, from memory"},
    {"union", QLL_FIXED(0.08), "threaded union K = 0.08, from memory"},
    {"pipe entrance", QLL_FIXED(0.5), "sharp-edged entrance K = 0.5, from memory"},
    {"pipe exit", QLL_FIXED(1), "all velocity head lost, K = 1"},
};

enum {
    QLL_FITTING_COUNT = QLL_COUNT(fittings)
};

/* What else a fitting is called: an elbow of which no angle is said is a quarter turn. */
static const qll_other_word other_words[] = {
    {"elbow", "elbow 90"},  {"ell", "elbow 90"},      {"90 elbow", "elbow 90"},
    {"90 ell", "elbow 90"}, {"45 elbow", "elbow 45"}, {"45 ell", "elbow 45"},
};

const qll_fitting *qll_fittings(size_t *count)
{
    assert(count != NULL);
    *count = QLL_FITTING_COUNT;
    return fittings;
}

const qll_other_word *qll_fitting_other_words(size_t *count)
{
    *count = QLL_COUNT(other_words);
    return other_words;
}

const qll_fitting *qll_fitting_find(qll_text word)
{
    for (size_t i = 0; i < QLL_COUNT(other_words); i++) {
        if (qll_text_is(word, other_words[i].said)) {
            word = qll_text_of(other_words[i].word);
        }
    }
    for (size_t i = 0; i < QLL_FITTING_COUNT; i++) {
        if (qll_text_is(word, fittings[i].word)) {
            return &fittings[i];
        }
    }
    return NULL;
}

double qll_fully_turbulent_factor(double relative_roughness)
{
    /* Eq. 2: Colebrook's formula as Re grows without end. */
    if (!(relative_roughness > 0 && relative_roughness <= 0.1)) {
        return NAN;
    }
    double x = 2 * log10(3.7 / relative_roughness);
    return 1 / (x * x);
}

double qll_fitting_k(const qll_fitting *fitting, double bore_m)
{
    assert(fitting != NULL);
    if (!(bore_m > 0)) {
        return NAN;
    }
    if (!isnan(fitting->fixed_k)) {
        return fitting->fixed_k;
    }
    return fitting->n_ft * qll_fully_turbulent_factor(steel_roughness_m / bore_m);
}

/* ASTM E11: numbers of sieves, and the opening and wire of each, mm. */
static const int meshes[] = {20, 30, 40, 50, 60, 80, 100};

static const struct {
    double opening_mm, wire_mm;
} sieves[QLL_COUNT(meshes)] = {
    {0.850, 0.500}, {0.600, 0.400}, {0.425, 0.280}, {0.300, 0.200},
    {0.250, 0.160}, {0.180, 0.125}, {0.150, 0.100},
};

const int *qll_screen_meshes(size_t *count)
{
    *count = QLL_COUNT(meshes);
    return meshes;
}

qll_screen qll_screen_mesh(int mesh)
{
    /* Gross screen over pipe area of a basket or Y strainer: 2 to 4 (common practice, no source);
     * the lower end is the safe side. */
    const double area_ratio = 2;
    for (size_t i = 0; i < QLL_COUNT(sieves); i++) {
        if (meshes[i] == mesh) {
            return (qll_screen){.opening_m = sieves[i].opening_mm * 0.001,
                                .wire_m = sieves[i].wire_mm * 0.001,
                                .area_ratio = area_ratio};
        }
    }
    return (qll_screen){.opening_m = NAN, .wire_m = NAN, .area_ratio = area_ratio};
}

/* Loss coefficient per (1 - a^2)/a^2 of round wires over Reynolds number: Blevins, Applied Fluid
 * Dynamics Handbook (1984), as an open fluid-dynamics library prints it. */
static const qll_point blevins[] = {
    {20, 1.30}, {30, 1.10},  {40, 0.95},  {60, 0.83},
    {80, 0.75}, {100, 0.70}, {200, 0.60}, {400, 0.52},
};

double qll_screen_drop_pa(const qll_screen *screen, double bore_m, double blocked, double flow_m3s,
                          const qll_water *water)
{
    assert(screen != NULL && water != NULL);
    if (!(flow_m3s >= 0) || !(bore_m > 0) || !(blocked >= 0 && blocked < 1)
        || !(screen->opening_m > 0) || !(screen->wire_m >= 0) || !(screen->area_ratio > 0)) {
        return NAN;
    }
    double open = screen->opening_m / (screen->opening_m + screen->wire_m);
    double share = open * open * (1 - blocked); /* eq. 3 and 5 */
    double approach = qll_pipe_velocity_m_s(flow_m3s, bore_m) / screen->area_ratio;
    /* Eq. 4: through the openings, on the width of one opening. */
    double reynolds = qll_pipe_reynolds(approach / share, screen->opening_m, water);
    const qll_curve curve = {.points = blevins, .count = QLL_COUNT(blevins)};
    double k = qll_curve_at(curve, reynolds) * (1 - share * share) / (share * share);
    return k * water->density_kg_m3 * approach * approach / 2;
}

const char *const qll_backflow_words[QLL_BACKFLOW_COUNT] = {
    [QLL_BACKFLOW_REDUCED_PRESSURE] = "reduced pressure",
    [QLL_BACKFLOW_DOUBLE_CHECK] = "double check",
};

/* Sizes, the rated flow of each and the greatest loss there that a reduced-pressure assembly may have:
 * ASSE 1013 and AWWA C511, from memory. */
static const double assembly_sizes_m[] = {0.75 * QLL_INCH_M, 1 * QLL_INCH_M,   1.5 * QLL_INCH_M,
                                          2 * QLL_INCH_M,    2.5 * QLL_INCH_M, 3 * QLL_INCH_M,
                                          4 * QLL_INCH_M};

static const struct {
    double rated_gpm, reduced_pressure_psi;
} assemblies[QLL_COUNT(assembly_sizes_m)] = {{30, 20},  {50, 18},  {100, 16}, {160, 16},
                                             {225, 16}, {320, 15}, {500, 14}};

const double *qll_backflow_sizes_m(size_t *count)
{
    *count = QLL_COUNT(assembly_sizes_m);
    return assembly_sizes_m;
}

qll_backflow qll_backflow_default(qll_backflow_kind kind, double nominal_m)
{
    const double double_check_psi = 10; /* greatest loss at rated flow, from memory */
    /* The step at which the checks open: within 6 to 12 psi from memory, the value our assumption;
     * two checks of 1 psi each, from memory. */
    const double opening_psi[QLL_BACKFLOW_COUNT] = {
        [QLL_BACKFLOW_REDUCED_PRESSURE] = 8, [QLL_BACKFLOW_DOUBLE_CHECK] = 2};
    assert(kind < QLL_BACKFLOW_COUNT);
    for (size_t i = 0; i < QLL_COUNT(assemblies); i++) {
        if (!qll_nominal_same(assembly_sizes_m[i], nominal_m)) {
            continue;
        }
        bool reduced = kind == QLL_BACKFLOW_REDUCED_PRESSURE;
        return (qll_backflow){
            .opening_pa = opening_psi[kind] * QLL_PSI_PA,
            .rated_flow_m3s = assemblies[i].rated_gpm * QLL_GPM_M3S,
            .rated_drop_pa =
                (reduced ? assemblies[i].reduced_pressure_psi : double_check_psi) * QLL_PSI_PA,
        };
    }
    return (qll_backflow){NAN, NAN, NAN};
}

double qll_backflow_drop_pa(const qll_backflow *backflow, double flow_m3s)
{
    assert(backflow != NULL);
    if (!(flow_m3s >= 0) || !(backflow->opening_pa >= 0) || !(backflow->rated_flow_m3s > 0)
        || !(backflow->rated_drop_pa >= backflow->opening_pa)) {
        return NAN;
    }
    if (flow_m3s == 0) {
        return 0; /* no loss is relied upon when nothing flows: the safe side for static pressure */
    }
    double share = flow_m3s / backflow->rated_flow_m3s;
    return backflow->opening_pa
           + (backflow->rated_drop_pa - backflow->opening_pa) * share * share; /* eq. 7 */
}
