/* Method: interpolate, truncate, project (Oliveira and Takahashi, ACM Trans. Math. Software 47(1),
 * 2020; from memory). A false-position point is moved a little towards the middle, so that both
 * ends of the bracket close in, and is held within a radius of the middle that shrinks so fast that
 * bisection's number of evaluations is never exceeded by more than one. Smooth functions converge
 * faster than linearly. Holds throughout: f(low) and f(high) have opposite signs. */
#include "numeric/root.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

enum {
    QLL_EVALUATIONS_MOST = 200
};

/* The method's own constants, as its authors recommend: kappa1 = 0.2/(b - a), kappa2 = 2. */
static const double truncation = 0.2;

typedef struct bracket {
    double low, high;
    double f_low, f_high;
} bracket;

static double width(const bracket *b)
{
    return b->high - b->low;
}

/* The next point to look at; strictly inside the bracket unless no double lies there. */
static double next_point(const bracket *b, double first_width, double radius)
{
    double middle = b->low + width(b) / 2;
    double guess = (b->f_high * b->low - b->f_low * b->high) / (b->f_high - b->f_low);
    if (!isfinite(guess)) {
        return middle;
    }
    double towards = middle >= guess ? 1 : -1;
    double shift = truncation / first_width * width(b) * width(b);
    double truncated = shift <= fabs(middle - guess) ? guess + towards * shift : middle;
    double point = fabs(truncated - middle) <= radius ? truncated : middle - towards * radius;
    return point > b->low && point < b->high ? point : middle;
}

static qll_root nothing(int iterations)
{
    return (qll_root){.value = NAN, .residual = NAN, .iterations = iterations, .converged = false};
}

static qll_root better_end(const bracket *b, int iterations, bool converged)
{
    bool low = fabs(b->f_low) <= fabs(b->f_high);
    return (qll_root){.value = low ? b->low : b->high,
                      .residual = low ? b->f_low : b->f_high,
                      .iterations = iterations,
                      .converged = converged};
}

qll_root qll_root_find(double low, double high, double tolerance, qll_function *f, void *context)
{
    assert(f != NULL && tolerance > 0);
    if (!(low <= high) || !isfinite(low) || !isfinite(high) || !isfinite(high - low)) {
        return nothing(0);
    }
    bracket b = {.low = low, .high = high, .f_low = f(low, context), .f_high = f(high, context)};
    int iterations = 2;
    if (isnan(b.f_low) || isnan(b.f_high)) {
        return nothing(iterations);
    }
    if (b.f_low == 0 || b.f_high == 0) {
        return better_end(&b, iterations, true);
    }
    if ((b.f_low < 0) == (b.f_high < 0)) {
        return nothing(iterations);
    }
    double first_width = width(&b);
    /* Half the bracket that bisection would have left, doubled once: one evaluation of slack. */
    double allowed = first_width;
    while (width(&b) > tolerance && iterations < QLL_EVALUATIONS_MOST) {
        double radius = fmax(allowed - width(&b) / 2, 0);
        double x = next_point(&b, first_width, radius);
        if (x <= b.low || x >= b.high) {
            return better_end(&b, iterations, true); /* neighbouring doubles: no finer bracket */
        }
        double fx = f(x, context);
        iterations += 1;
        allowed /= 2;
        if (isnan(fx)) {
            return nothing(iterations);
        }
        if (fx == 0) {
            return (qll_root){
                .value = x, .residual = 0, .iterations = iterations, .converged = true};
        }
        if ((fx < 0) == (b.f_low < 0)) {
            b.low = x;
            b.f_low = fx;
        } else {
            b.high = x;
            b.f_high = fx;
        }
    }
    return better_end(&b, iterations, width(&b) <= tolerance);
}
