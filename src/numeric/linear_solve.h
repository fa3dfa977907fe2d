/* Small dense systems of linear equations. */
#ifndef QUELL_NUMERIC_LINEAR_SOLVE_H
#define QUELL_NUMERIC_LINEAR_SOLVE_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Splits a square matrix into triangles, rows exchanged for the greatest pivot.
 *
 * @param matrix row by row, @p count squared; replaced by its triangles
 * @param order  room for @p count; the row exchanged with each
 * @return false where it has no inverse, or holds what is no number
 */
bool qll_lu_split(double *matrix, size_t count, size_t *order);

/** Solves with the triangles of qll_lu_split(); @p values are the right side, and then the answer. */
void qll_lu_solve(const double *triangles, size_t count, const size_t *order, double *values);

#endif
