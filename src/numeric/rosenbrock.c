/* RODAS: E. Hairer and G. Wanner, Solving Ordinary Differential Equations II, section IV.7; coefficients
 * as in their program of that name. In the form that needs no product with the matrix of slopes: with
 * E = 1/(h gamma) - J, E U_i = f(y + sum a_ij U_j) + sum c_ij U_j / h. */
#include "numeric/rosenbrock.h"

#include "numeric/linear_solve.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

enum {
    QLL_STAGES = 6
};

static const double gamma_diagonal = 0.25;
/* Stage 6 starts where stage 5 ends, and the step ends where stage 6 does. */
static const double a[QLL_STAGES - 1][QLL_STAGES - 2] = {
    {0},
    {1.544},
    {0.9466785280815826, 0.2557011698983284},
    {3.314825187068521, 2.896124015972201, 0.9986419139977817},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950}};
static const double c[QLL_STAGES][QLL_STAGES - 1] = {
    {0},
    {-5.6688},
    {-2.430093356833875, -0.2063599157091915},
    {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
    {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
    {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136,
     -6.058818238834054}};
static const double within_2[QLL_STAGES - 1] = {10.12623508344586, -7.487995877610167,
                                                -34.80091861555747, -7.992771707568823,
                                                1.025137723295662};
static const double within_3[QLL_STAGES - 1] = {-0.6762803392801253, 6.087714651680015,
                                                16.43084320892478, 24.76722511418386,
                                                -6.594389125716872};

static const double safety = 0.8, grow_most = 3, shrink_most = 0.2;

qll_status qll_rosenbrock_make(const qll_rates *system, const double *scale, qll_arena *arena,
                               qll_rosenbrock *stepper)
{
    assert(system != NULL && scale != NULL && arena != NULL && stepper != NULL);
    size_t n = system->count;
    if (n > SIZE_MAX / sizeof(double) / (n + QLL_STAGES + 1)) {
        return QLL_NO_MEMORY;
    }
    *stepper = (qll_rosenbrock){.system = *system,
                                .scale = scale,
                                .values = qll_arena_take(arena, n, sizeof(double)),
                                .next = qll_arena_take(arena, n, sizeof(double)),
                                .first = qll_arena_take(arena, n, sizeof(double)),
                                .scratch = qll_arena_take(arena, n, sizeof(double)),
                                .stages = qll_arena_take(arena, QLL_STAGES * n, sizeof(double)),
                                .slopes = qll_arena_take(arena, n * n, sizeof(double)),
                                .matrix = qll_arena_take(arena, n * n, sizeof(double)),
                                .order = qll_arena_take(arena, n, sizeof(size_t))};
    bool is_whole = stepper->values != NULL && stepper->next != NULL && stepper->first != NULL
                    && stepper->scratch != NULL && stepper->stages != NULL
                    && stepper->slopes != NULL && stepper->matrix != NULL && stepper->order != NULL;
    return is_whole ? QLL_OK : QLL_NO_MEMORY;
}

void qll_rosenbrock_begin(qll_rosenbrock *stepper)
{
    size_t n = stepper->system.count;
    memset(stepper->slopes, 0, n * n * sizeof *stepper->slopes);
    stepper->system.rates(stepper->system.context, stepper->values, stepper->first);
    stepper->system.slopes(stepper->system.context, stepper->values, stepper->slopes);
}

/* sum factors[j] U_j, of one value. */
static double stage_sum(const qll_rosenbrock *stepper, size_t which, const double *factors,
                        size_t count)
{
    double sum = 0;
    for (size_t j = 0; j < count; j++) {
        sum += factors[j] * stepper->stages[j * stepper->system.count + which];
    }
    return sum;
}

static bool split_matrix(qll_rosenbrock *stepper)
{
    size_t n = stepper->system.count;
    for (size_t i = 0; i < n * n; i++) {
        stepper->matrix[i] = -stepper->slopes[i];
    }
    for (size_t i = 0; i < n; i++) {
        stepper->matrix[i * n + i] += 1 / (stepper->step * gamma_diagonal);
    }
    return qll_lu_split(stepper->matrix, n, stepper->order);
}

/* E U = rates + sum c U / h; rates stand in scratch. */
static void solve_stage(qll_rosenbrock *stepper, size_t stage, const double *rates)
{
    size_t n = stepper->system.count;
    double *own = &stepper->stages[stage * n];
    for (size_t i = 0; i < n; i++) {
        own[i] = rates[i] + stage_sum(stepper, i, c[stage], stage) / stepper->step;
    }
    qll_lu_solve(stepper->matrix, n, stepper->order, own);
}

double qll_rosenbrock_try(qll_rosenbrock *stepper, double step, double tolerance)
{
    assert(stepper != NULL && step > 0 && tolerance > 0);
    size_t n = stepper->system.count;
    stepper->step = step;
    if (!split_matrix(stepper)) {
        return INFINITY;
    }
    solve_stage(stepper, 0, stepper->first);
    for (size_t stage = 1; stage < QLL_STAGES; stage++) {
        for (size_t i = 0; i < n; i++) {
            stepper->next[i] = stage < QLL_STAGES - 1
                                   ? stepper->values[i] + stage_sum(stepper, i, a[stage], stage)
                                   : stepper->next[i] + stepper->stages[(stage - 1) * n + i];
        }
        stepper->system.rates(stepper->system.context, stepper->next, stepper->scratch);
        solve_stage(stepper, stage, stepper->scratch);
    }
    const double *last = &stepper->stages[(QLL_STAGES - 1) * n];
    double sum = 0;
    for (size_t i = 0; i < n; i++) {
        stepper->next[i] += last[i];
        double size = fmax(fabs(stepper->values[i]), fabs(stepper->next[i]));
        double error = last[i] / (tolerance * (stepper->scale[i] + size));
        sum += error * error;
    }
    return isfinite(sum) ? sqrt(sum / (double)n) : (double)INFINITY;
}

double qll_rosenbrock_within(const qll_rosenbrock *stepper, size_t which, double share)
{
    double left = 1 - share;
    double bend = stage_sum(stepper, which, within_2, QLL_STAGES - 1)
                  + share * stage_sum(stepper, which, within_3, QLL_STAGES - 1);
    return stepper->values[which] * left + share * (stepper->next[which] + left * bend);
}

void qll_rosenbrock_take(qll_rosenbrock *stepper)
{
    double *kept = stepper->values;
    stepper->values = stepper->next;
    stepper->next = kept;
}

double qll_rosenbrock_next_step(double step, double error)
{
    if (!(error < (double)INFINITY)) {
        return step * shrink_most;
    }
    double factor = error > 0 ? safety * pow(error, -0.25) : grow_most;
    return step * fmin(fmax(factor, shrink_most), grow_most);
}
