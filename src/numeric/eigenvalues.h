/* Eigenvalues of a small real matrix. */
#ifndef QUELL_NUMERIC_EIGENVALUES_H
#define QUELL_NUMERIC_EIGENVALUES_H

#include "quell/arena.h"
#include "quell/problems.h"

/** One eigenvalue. */
typedef struct qll_eigenvalue {
    double re, im;
} qll_eigenvalue;

/**
 * The eigenvalues of a real matrix of any shape: balanced, brought to Hessenberg form, then QR steps
 * with Wilkinson's shift (Golub and Van Loan, Matrix Computations, chapter 7; from memory).
 *
 * @param matrix row by row, @p count squared; destroyed
 * @param values room for @p count; in no order
 * @param arena  scratch, given back
 * @return QLL_OK; QLL_REFUSED where the matrix holds what is no number or the steps do not end;
 *         QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_eigenvalues(double *matrix, size_t count, qll_arena *arena,
                                        qll_eigenvalue *values);

#endif
