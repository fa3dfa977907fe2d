#include "base/random.h"
#include "check.h"
#include "numeric/eigenvalues.h"
#include "numeric/linear_solve.h"

#include <stdlib.h>

#define TEST_MOST 12

static qll_arena *arena;

static int by_re_then_im(const void *a, const void *b)
{
    const qll_eigenvalue *x = a, *y = b;
    if (fabs(x->re - y->re) > 1e-9) {
        return x->re < y->re ? -1 : 1;
    }
    return x->im < y->im ? -1 : x->im > y->im;
}

static void find(const double *matrix, size_t n, qll_eigenvalue *values)
{
    double copy[TEST_MOST * TEST_MOST];
    memcpy(copy, matrix, n * n * sizeof *copy);
    CHECK(qll_eigenvalues(copy, n, arena, values) == QLL_OK);
    qsort(values, n, sizeof *values, by_re_then_im);
}

/* 2 - 2 cos(k pi/(n + 1)): the second difference (any textbook of numerical analysis). */
TEST(second_difference)
{
    double matrix[TEST_MOST * TEST_MOST] = {0};
    for (size_t i = 0; i < TEST_MOST; i++) {
        matrix[i * TEST_MOST + i] = 2;
        if (i > 0) {
            matrix[i * TEST_MOST + i - 1] = matrix[(i - 1) * TEST_MOST + i] = -1;
        }
    }
    qll_eigenvalue values[TEST_MOST];
    find(matrix, TEST_MOST, values);
    for (size_t k = 0; k < TEST_MOST; k++) {
        CHECK_WITHIN(values[k].re, 2 - 2 * cos((double)(k + 1) * acos(-1) / (TEST_MOST + 1)),
                     1e-13);
        CHECK_WITHIN(values[k].im, 0, 1e-13);
    }
}

/* A cyclic exchange has the roots of one, and every first shift of a QR step leaves it as it is. */
TEST(roots_of_one)
{
    double matrix[25] = {0};
    for (size_t i = 0; i < 5; i++) {
        matrix[i * 5 + (i + 4) % 5] = 1;
    }
    qll_eigenvalue values[5];
    find(matrix, 5, values);
    CHECK_WITHIN(values[4].re, 1, 1e-13);
    CHECK_WITHIN(values[3].re, cos(acos(-1) * 0.4), 1e-13);
    CHECK_WITHIN(values[3].im, sin(acos(-1) * 0.4), 1e-13);
    CHECK_WITHIN(values[0].im, -sin(acos(-1) * 0.8), 1e-13);
}

/* The roots of a polynomial, from its companion matrix with rows and columns of very different sizes. */
TEST(badly_scaled_companion)
{
    const double roots[] = {-4, -3, -2, -1, 0.5};
    double polynomial[6] = {1};
    for (size_t k = 0; k < 5; k++) {
        for (size_t i = k + 1; i > 0; i--) {
            polynomial[i] -= roots[k] * polynomial[i - 1];
        }
    }
    double matrix[25] = {0};
    for (size_t j = 0; j < 5; j++) {
        matrix[j] = -polynomial[j + 1];
        if (j > 0) {
            matrix[j * 5 + j - 1] = 1;
        }
    }
    for (size_t i = 0; i < 25; i++) {
        const size_t row = i / 5, column = i % 5;
        matrix[i] *= pow(10, 4 * ((double)row - (double)column));
    }
    qll_eigenvalue values[5];
    find(matrix, 5, values);
    for (size_t k = 0; k < 5; k++) {
        CHECK_WITHIN(values[k].re, roots[k], 1e-11);
        CHECK_WITHIN(values[k].im, 0, 1e-11);
    }
}

static double determinant(const double *matrix, size_t n)
{
    double copy[TEST_MOST * TEST_MOST];
    size_t order[TEST_MOST];
    memcpy(copy, matrix, n * n * sizeof *copy);
    CHECK(qll_lu_split(copy, n, order));
    double product = 1;
    for (size_t i = 0; i < n; i++) {
        product *= (order[i] == i ? 1 : -1) / copy[i * n + i]; /* inverses stand on the diagonal */
    }
    return product;
}

/* Sum, sum of squares and product are trace, trace of the square and determinant. */
TEST(random_matrices_keep_their_invariants)
{
    qll_random random = qll_random_seeded(7);
    for (size_t n = 1; n <= TEST_MOST; n++) {
        double matrix[TEST_MOST * TEST_MOST], trace = 0, square = 0;
        for (size_t i = 0; i < n * n; i++) {
            matrix[i] = 2 * qll_random_unit(&random) - 1;
        }
        for (size_t i = 0; i < n; i++) {
            trace += matrix[i * n + i];
            for (size_t j = 0; j < n; j++) {
                square += matrix[i * n + j] * matrix[j * n + i];
            }
        }
        qll_eigenvalue values[TEST_MOST];
        find(matrix, n, values);
        double sum = 0, squares = 0, re = 1, im = 0;
        for (size_t k = 0; k < n; k++) {
            const qll_eigenvalue v = values[k];
            sum += v.re;
            squares += v.re * v.re - v.im * v.im;
            double turned = re * v.re - im * v.im;
            im = re * v.im + im * v.re;
            re = turned;
        }
        CHECK_WITHIN(sum, trace, 1e-12);
        CHECK_WITHIN(squares, square, 1e-12);
        double product = determinant(matrix, n);
        CHECK_WITHIN(re, product, 1e-12 * (1 + fabs(product)));
        CHECK_WITHIN(im, 0, 1e-12 * (1 + fabs(product)));
    }
}

TEST(what_is_no_number_is_refused)
{
    double matrix[4] = {1, NAN, 0, 1};
    qll_eigenvalue values[2];
    CHECK(qll_eigenvalues(matrix, 2, arena, values) == QLL_REFUSED);
    double zero[4] = {0};
    CHECK(qll_eigenvalues(zero, 2, arena, values) == QLL_OK && values[0].re == 0);
    size_t order[2];
    double singular[4] = {1, 2, 2, 4};
    CHECK(!qll_lu_split(singular, 2, order));
}

TEST(no_memory_is_said)
{
    double matrix[4] = {1, 2, 3, 4};
    qll_eigenvalue values[2];
    qll_arena_fail(arena, 1, false);
    CHECK(qll_eigenvalues(matrix, 2, arena, values) == QLL_NO_MEMORY);
}

int main(void)
{
    arena = qll_arena_open(1 << 20);
    TEST_RUN(second_difference);
    TEST_RUN(roots_of_one);
    TEST_RUN(badly_scaled_companion);
    TEST_RUN(random_matrices_keep_their_invariants);
    TEST_RUN(what_is_no_number_is_refused);
    TEST_RUN(no_memory_is_said);
    qll_arena_close(arena);
    return TEST_END();
}
