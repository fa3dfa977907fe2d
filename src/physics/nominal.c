#include "physics/nominal.h"

#include "base/count.h"
#include "base/customary.h"

#include <math.h>

static const double mm_m = 0.001;

/* Inch sizes and their DN numbers where they differ by more than the tolerance, or might. */
static const double dn_of_inch[][2] = {
    {0.125, 6}, {0.25, 8}, {0.375, 10}, {0.5, 15}, {0.75, 20}, {1, 25},
    {1.25, 32}, {1.5, 40}, {2, 50},     {2.5, 65}, {3, 80},    {3.5, 90},
    {4, 100},   {5, 125},  {6, 150},    {8, 200},  {10, 250},  {12, 300},
};

enum {
    QLL_PAIR_COUNT = QLL_COUNT(dn_of_inch)
};

static qll_text after(qll_text text, size_t size)
{
    return (qll_text){.bytes = text.bytes + size, .size = text.size - size};
}

static qll_text number_at_start(qll_text text, double *value)
{
    size_t size = qll_text_number(text, value);
    if (size == 0) {
        *value = NAN;
        return text;
    }
    return after(text, size);
}

/* "2", "3/4", "1-1/4", each alone or before "in". */
static double inches(qll_text text)
{
    double whole = NAN;
    qll_text rest = number_at_start(text, &whole);
    if (rest.size > 1 && rest.bytes[0] == '-') {
        double over = NAN;
        rest = number_at_start(after(rest, 1), &over);
        if (!(rest.size > 1 && rest.bytes[0] == '/')) {
            return NAN;
        }
        double under = NAN;
        rest = number_at_start(after(rest, 1), &under);
        whole += under > 0 ? over / under : (double)NAN;
    } else if (rest.size > 1 && rest.bytes[0] == '/') {
        double under = NAN;
        rest = number_at_start(after(rest, 1), &under);
        whole = under > 0 ? whole / under : (double)NAN;
    }
    rest = qll_text_trimmed(rest);
    return rest.size == 0 || qll_text_is(rest, "in") ? whole * QLL_INCH_M : (double)NAN;
}

double qll_nominal_read_m(qll_text printed)
{
    qll_text text = qll_text_trimmed(printed);
    double number = NAN;
    if (text.size > 2 && text.bytes[0] == 'D' && text.bytes[1] == 'N') {
        qll_text rest = number_at_start(qll_text_trimmed(after(text, 2)), &number);
        return rest.size == 0 && number > 0 ? number * mm_m : (double)NAN;
    }
    qll_text rest = qll_text_trimmed(number_at_start(text, &number));
    if (rest.size > 1 && rest.bytes[0] == 'x') {
        return number > 0 ? number * mm_m : (double)NAN;
    }
    double size = inches(text);
    return size > 0 ? size : (double)NAN;
}

static bool near(double a, double b)
{
    const double tolerance = 0.02;
    return fabs(a - b) <= tolerance * fmax(a, b);
}

bool qll_nominal_same(double a_m, double b_m)
{
    if (!(a_m > 0 && b_m > 0)) {
        return false;
    }
    if (near(a_m, b_m)) {
        return true;
    }
    /* A pair is compared closely: 16 mm plastic pipe is not "DN 15". */
    const double exact = 1e-6;
    for (size_t i = 0; i < QLL_PAIR_COUNT; i++) {
        double inch = dn_of_inch[i][0] * QLL_INCH_M;
        double dn = dn_of_inch[i][1] * mm_m;
        if ((fabs(a_m - inch) < exact && fabs(b_m - dn) < exact)
            || (fabs(b_m - inch) < exact && fabs(a_m - dn) < exact)) {
            return true;
        }
    }
    return false;
}

bool qll_nominal_has_valves(double nominal_m)
{
    static const double pipe_only_in[] = {0.625, 3.5};
    const double exact = 1e-6;
    for (size_t i = 0; i < QLL_COUNT(pipe_only_in); i++) {
        if (fabs(nominal_m - pipe_only_in[i] * QLL_INCH_M) < exact) {
            return false;
        }
    }
    return true;
}
