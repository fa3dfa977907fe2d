#include "numeric/linear_solve.h"

#include <assert.h>
#include <float.h>
#include <math.h>

static size_t greatest_below(const double *matrix, size_t count, size_t column)
{
    size_t best = column;
    for (size_t i = column + 1; i < count; i++) {
        if (fabs(matrix[i * count + column]) > fabs(matrix[best * count + column])) {
            best = i;
        }
    }
    return best;
}

static void swap_rows(double *matrix, size_t count, size_t a, size_t b)
{
    for (size_t j = 0; a != b && j < count; j++) {
        double kept = matrix[a * count + j];
        matrix[a * count + j] = matrix[b * count + j];
        matrix[b * count + j] = kept;
    }
}

bool qll_lu_split(double *matrix, size_t count, size_t *order)
{
    assert(matrix != NULL && order != NULL);
    for (size_t k = 0; k < count; k++) {
        order[k] = greatest_below(matrix, count, k);
        swap_rows(matrix, count, k, order[k]);
        double pivot = matrix[k * count + k];
        /* Of less than that there is no inverse. */
        if (!isfinite(pivot) || fabs(pivot) < DBL_MIN) {
            return false;
        }
        double inverse = 1 / pivot;
        matrix[k * count + k] = inverse; /* whoever solves need not divide */
        for (size_t i = k + 1; i < count; i++) {
            double factor = matrix[i * count + k] * inverse;
            matrix[i * count + k] = factor;
            for (size_t j = k + 1; factor != 0 && j < count; j++) {
                matrix[i * count + j] -= factor * matrix[k * count + j];
            }
        }
    }
    return true;
}

void qll_lu_solve(const double *triangles, size_t count, const size_t *order, double *values)
{
    assert(triangles != NULL && order != NULL && values != NULL);
    for (size_t k = 0; k < count; k++) {
        double kept = values[order[k]];
        values[order[k]] = values[k];
        values[k] = kept;
    }
    for (size_t i = 1; i < count; i++) {
        double sum = values[i];
        for (size_t j = 0; j < i; j++) {
            sum -= triangles[i * count + j] * values[j];
        }
        values[i] = sum;
    }
    for (size_t i = count; i-- > 0;) {
        double sum = values[i];
        for (size_t j = i + 1; j < count; j++) {
            sum -= triangles[i * count + j] * values[j];
        }
        values[i] = sum * triangles[i * count + i];
    }
}
