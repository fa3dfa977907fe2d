/* Quantities for people: which unit, and how many digits. docs/formats/units.md states the rules. */
#include "base/count.h"
#include "base/customary.h"
#include "base/print.h"
#include "base/units.h"
#include "base/units_table.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* One line of the rounding rules: as many decimals as `significant` digits need, but not fewer than
 * `least` nor more than `most`. The lines of a kind and system stand in rising order; the first one
 * names the customary unit. */
typedef struct number_style {
    qll_kind kind;
    qll_unit_system system;
    const char *unit;
    double below_si; /* used for magnitudes below this, in SI */
    int significant, least, most;
    bool drops_zeros; /* "50 mm", not "50.0 mm" */
} number_style;

#define QLL_ANY HUGE_VAL
#define QLL_US  QLL_UNITS_US
#define QLL_SI  QLL_UNITS_SI

/* clang-format off */
static const number_style styles[] = {
    {QLL_KIND_NUMBER,                 QLL_US, "",       QLL_ANY,           3, 0, 4, true },
    {QLL_KIND_NUMBER,                 QLL_SI, "",       QLL_ANY,           3, 0, 4, true },
    {QLL_KIND_PRESSURE,               QLL_US, "psi",    QLL_PSI_PA,         2, 0, 2, true },
    {QLL_KIND_PRESSURE,               QLL_US, "psi",    20.0 * QLL_PSI_PA,  1, 1, 1, true },
    {QLL_KIND_PRESSURE,               QLL_US, "psi",    QLL_ANY,            1, 0, 0, false},
    {QLL_KIND_PRESSURE,               QLL_SI, "bar",    50.0,               2, 2, 3, true },
    {QLL_KIND_PRESSURE,               QLL_SI, "bar",    1e5,                2, 2, 3, false},
    {QLL_KIND_PRESSURE,               QLL_SI, "bar",    QLL_ANY,            1, 1, 1, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_US, "psi",    0.1 * QLL_PSI_PA,   1, 0, 2, true },
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_US, "psi",    10.0 * QLL_PSI_PA,  1, 1, 1, true },
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_US, "psi",    QLL_ANY,            1, 0, 0, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_SI, "bar",    1e3,                1, 0, 3, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_SI, "bar",    5e4,                1, 2, 2, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_SI, "bar",    QLL_ANY,            1, 1, 1, false},
    {QLL_KIND_FLOW,                   QLL_US, "gpm",    0.1 * QLL_GPM_M3S,  1, 0, 3, true },
    {QLL_KIND_FLOW,                   QLL_US, "gpm",    50 * QLL_GPM_M3S,  1, 1, 1, true },
    {QLL_KIND_FLOW,                   QLL_US, "gpm",    QLL_ANY,            1, 0, 0, false},
    {QLL_KIND_FLOW,                   QLL_SI, "L/s",    1e-5,               1, 0, 4, false},
    {QLL_KIND_FLOW,                   QLL_SI, "L/s",    1e-2,               1, 2, 2, false},
    {QLL_KIND_FLOW,                   QLL_SI, "L/s",    QLL_ANY,            3, 0, 1, false},
    {QLL_KIND_MASS_FLOW,              QLL_US, "lb/h",   QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_MASS_FLOW,              QLL_SI, "kg/s",   QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_LENGTH,                 QLL_US, "in",     0.1 * QLL_INCH_M,  2, 0, 6, false},
    {QLL_KIND_LENGTH,                 QLL_US, "in",     12.5 * QLL_INCH_M, 4, 2, 2, false},
    {QLL_KIND_LENGTH,                 QLL_US, "ft",     QLL_ANY,           3, 0, 1, true },
    {QLL_KIND_LENGTH,                 QLL_SI, "mm",     1e-3,          2, 0, 4, true },
    {QLL_KIND_LENGTH,                 QLL_SI, "mm",     1.0,           4, 0, 1, true },
    {QLL_KIND_LENGTH,                 QLL_SI, "m",      QLL_ANY,           3, 0, 1, true },
    {QLL_KIND_VOLUME,                 QLL_US, "gal",    QLL_ANY,           2, 0, 2, true },
    {QLL_KIND_VOLUME,                 QLL_SI, "L",      QLL_ANY,           2, 0, 2, true },
    {QLL_KIND_VELOCITY,               QLL_US, "ft/s",   QLL_ANY,           1, 1, 1, false},
    {QLL_KIND_VELOCITY,               QLL_SI, "m/s",    QLL_ANY,           1, 1, 1, false},
    {QLL_KIND_TEMPERATURE,            QLL_US, "degF",   QLL_ANY,           1, 0, 0, true },
    {QLL_KIND_TEMPERATURE,            QLL_SI, "degC",   QLL_ANY,           1, 0, 0, true },
    {QLL_KIND_TEMPERATURE_DIFFERENCE, QLL_US, "degF",   QLL_ANY,           4, 0, 1, true },
    {QLL_KIND_TEMPERATURE_DIFFERENCE, QLL_SI, "K",      QLL_ANY,           4, 0, 1, true },
    {QLL_KIND_FLOW_COEFFICIENT,       QLL_US, "Cv",     QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_FLOW_COEFFICIENT,       QLL_SI, "m3/h",   QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_DENSITY,                QLL_US, "lb/ft3", QLL_ANY,           4, 0, 2, false},
    {QLL_KIND_DENSITY,                QLL_SI, "kg/m3",  QLL_ANY,           4, 0, 2, false},
    {QLL_KIND_VISCOSITY,              QLL_US, "cP",     QLL_ANY,           3, 0, 4, false},
    {QLL_KIND_VISCOSITY,              QLL_SI, "mPa.s",  QLL_ANY,           3, 0, 4, false},
    {QLL_KIND_MODULUS,                QLL_US, "ksi",    QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_MODULUS,                QLL_SI, "GPa",    QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_TIME,                   QLL_US, "s",      120.0,         3, 0, 3, true },
    {QLL_KIND_TIME,                   QLL_US, "min",    7200.0,        3, 0, 1, true },
    {QLL_KIND_TIME,                   QLL_US, "h",      QLL_ANY,           3, 0, 1, true },
    {QLL_KIND_TIME,                   QLL_SI, "s",      120.0,         3, 0, 3, true },
    {QLL_KIND_TIME,                   QLL_SI, "min",    7200.0,        3, 0, 1, true },
    {QLL_KIND_TIME,                   QLL_SI, "h",      QLL_ANY,           3, 0, 1, true },
    {QLL_KIND_SPEED_OF_SOUND,         QLL_US, "ft/s",   QLL_ANY,           1, 0, 0, false},
    {QLL_KIND_SPEED_OF_SOUND,         QLL_SI, "m/s",    QLL_ANY,           1, 0, 0, false},
    {QLL_KIND_MASS,                   QLL_US, "lb",     QLL_ANY,           3, 0, 4, true },
    {QLL_KIND_MASS,                   QLL_SI, "kg",     QLL_ANY,           3, 0, 4, true },
    {QLL_KIND_SPRING_RATE,            QLL_US, "lbf/in", QLL_ANY,           3, 0, 2, true },
    {QLL_KIND_SPRING_RATE,            QLL_SI, "N/mm",   QLL_ANY,           3, 0, 2, true },
    {QLL_KIND_DAMPING,                QLL_US, "lbf.s/in", QLL_ANY,         3, 0, 4, true },
    {QLL_KIND_DAMPING,                QLL_SI, "N.s/m",  QLL_ANY,           3, 0, 2, true },
};
/* clang-format on */
#define QLL_STYLE_COUNT QLL_COUNT(styles)

typedef struct pipe_size {
    double size_in;
    int dn;
    const char *text;
} pipe_size;

/* The sizes of the trade: nominal inches of ASME B36.10M up to 12 in and the DN of ISO 6708 that
 * goes with each. */
static const pipe_size pipe_sizes[] = {
    {0.375, 10, "3/8"},  {0.5, 15, "1/2"},   {0.75, 20, "3/4"}, {1.0, 25, "1"},
    {1.25, 32, "1-1/4"}, {1.5, 40, "1-1/2"}, {2.0, 50, "2"},    {2.5, 65, "2-1/2"},
    {3.0, 80, "3"},      {4.0, 100, "4"},    {5.0, 125, "5"},   {6.0, 150, "6"},
    {8.0, 200, "8"},     {10.0, 250, "10"},  {12.0, 300, "12"},
};

/* How near to a trade size a length in inches is written as one (our assumption). */
#define QLL_PIPE_SIZE_SHARE 0.02

static const number_style *customary(qll_kind kind, qll_unit_system system)
{
    for (size_t i = 0; i < QLL_STYLE_COUNT; i++) {
        if (styles[i].kind == kind && styles[i].system == system) {
            return &styles[i];
        }
    }
    assert(false);
    return &styles[0];
}

static bool follows(const number_style *style, const number_style *next)
{
    return next < styles + QLL_STYLE_COUNT && next->kind == style->kind
           && next->system == style->system;
}

/* The line for this magnitude; if @p keeps_unit, the last that still has the customary unit. */
static const number_style *style_for(double si, qll_kind kind, qll_unit_system system,
                                     bool keeps_unit)
{
    const number_style *found = customary(kind, system);
    const char *unit = found->unit;
    while (fabs(si) >= found->below_si && follows(found, found + 1)) {
        bool changes_unit = !qll_text_is(qll_text_of(unit), found[1].unit);
        if (keeps_unit && changes_unit) {
            break;
        }
        found += 1;
    }
    return found;
}

static int decimals_for(double value, const number_style *style)
{
    int decimals = style->least;
    if (value != 0.0) {
        double needed = style->significant - 1 - floor(log10(fabs(value)));
        decimals = needed < style->least  ? style->least
                   : needed > style->most ? style->most
                                          : (int)needed;
    }
    return decimals;
}

/* Below this, what is set by a jug to the quarter gallon is written so: 0.75 gpm (our choice). */
#define QLL_JUG_GPM 20.0

static bool is_by_the_jug(double value, const number_style *style)
{
    return style->kind == QLL_KIND_FLOW && style->system == QLL_UNITS_US && style->most == 1
           && fabs(value) < QLL_JUG_GPM && fabs(4.0 * value - round(4.0 * value)) < 1e-6;
}

static double to_decimals(double value, int decimals)
{
    double step = pow(10.0, -decimals);
    return fabs(value) < 1e15 ? round(value / step) * step : value;
}

/* The decimals of a value, with so many digits @p more. */
static int decimals_of(double value, const number_style *style, int more)
{
    int decimals = decimals_for(value, style) + more;
    bool is_whole_tenth = fabs(10.0 * value - round(10.0 * value)) < 1e-6;
    return decimals == 1 && !is_whole_tenth && is_by_the_jug(value, style) ? 2 : decimals;
}

/* The value as the style shows it, as near as a double comes to that. */
static double rounded_by(double value, const number_style *style, int more)
{
    return to_decimals(value, decimals_of(value, style, more));
}

static void write_value(qll_writer *writer, double value, const number_style *style, int more)
{
    /* Rounding up may make the number one digit longer: 99.97 is 100, not 100.0. */
    double rounded = rounded_by(value, style, more);
    int decimals = decimals_of(rounded, style, more);
    rounded = rounded == 0.0 ? 0.0 : rounded; /* no negative zero */
    if (!style->drops_zeros || decimals == 0) {
        qll_write_format(writer, "%.*f", decimals, rounded);
        return;
    }
    char digits[512]; /* a double has 309 of them before its point at most */
    size_t size = qll_number_print(digits, sizeof digits, 'f', decimals, rounded);
    while (digits[size - 1] == '0') {
        size -= 1;
    }
    size -= digits[size - 1] == '.' ? 1 : 0;
    qll_write_text(writer, (qll_text){.bytes = digits, .size = size});
}

static bool is_about(double value, double size)
{
    return fabs(value - size) <= QLL_PIPE_SIZE_SHARE * size;
}

/* The trade size that the length is meant to be, or NULL. */
static const char *pipe_size_text(double length_in)
{
    for (size_t i = 0; i < QLL_COUNT(pipe_sizes); i++) {
        if (is_about(length_in, pipe_sizes[i].size_in)) {
            return pipe_sizes[i].text;
        }
    }
    return NULL;
}

static double value_in(double si, const qll_unit *unit)
{
    return si * unit->per / unit->factor - unit->shift;
}

/* A unit as people read it; the table has names that every keyboard can write. */
static const char *shown_name(const char *unit)
{
    return strcmp(unit, "degF") == 0 ? "\u00B0F" : strcmp(unit, "degC") == 0 ? "\u00B0C" : unit;
}

/* Where lengths are written in ft or m. */
#define QLL_LONG_M 100.0

/* A quantity as it is shown. */
typedef struct shown_quantity {
    const number_style *style;
    const qll_unit *unit; /* NULL of a number */
    double value;         /* in the unit, not rounded */
} shown_quantity;

static double shown_si(const shown_quantity *shown, int more)
{
    double rounded = rounded_by(shown->value, shown->style, more);
    return shown->unit == NULL
               ? rounded
               : (rounded + shown->unit->shift) * shown->unit->factor / shown->unit->per;
}

static shown_quantity shown_with(double si, const number_style *style)
{
    const qll_unit *unit =
        style->kind == QLL_KIND_NUMBER ? NULL : qll_units_find(style->unit, style->kind);
    assert(unit != NULL || style->kind == QLL_KIND_NUMBER);
    return (shown_quantity){style, unit, unit == NULL ? si : value_in(si, unit)};
}

static shown_quantity shown_of(double si, qll_kind kind, qll_unit_system system, bool keeps_unit)
{
    assert(isfinite(si));
    shown_quantity shown = shown_with(si, style_for(si, kind, system, keeps_unit));
    /* What rounding lifts over a limit is written as what lies there: 2 min, not 120 s. */
    double rounded_si = shown_si(&shown, 0);
    /* No length is a height or a run of none, not a bore. */
    bool is_none = kind == QLL_KIND_LENGTH && rounded_si == 0.0;
    return shown_with(si, style_for(is_none ? QLL_LONG_M : rounded_si, kind, system, keeps_unit));
}

static const char *write_styled(qll_writer *writer, const shown_quantity *shown, int more)
{
    assert(isfinite(shown->value));
    const number_style *style = shown->style;
    bool is_inch = style->kind == QLL_KIND_LENGTH && style->unit[0] == 'i';
    const char *size = is_inch ? pipe_size_text(shown->value) : NULL;
    if (size != NULL) {
        qll_write(writer, size);
    } else {
        write_value(writer, shown->value, style, more);
    }
    return shown->unit == NULL ? "" : shown_name(shown->unit->name);
}

static void write_with_unit(qll_writer *writer, const shown_quantity *shown, int more)
{
    const char *unit = write_styled(writer, shown, more);
    if (unit[0] != '\0') {
        qll_write(writer, " ");
        qll_write(writer, unit);
    }
}

void qll_units_write(qll_writer *writer, double si, qll_kind kind, qll_unit_system system)
{
    const shown_quantity shown = shown_of(si, kind, system, false);
    write_with_unit(writer, &shown, 0);
}

double qll_units_rounded(double si, qll_kind kind, qll_unit_system system)
{
    const shown_quantity shown = shown_of(si, kind, system, false);
    return shown_si(&shown, 0);
}

/* So many digits more at most; what they do not tell apart is as good as equal (our choice). */
#define QLL_MORE_DIGITS 3

/* What is shown in full as it stands, a limit of 55 dB(A), needs no further digits beside a 54.8. */
static bool is_exact(double shown, double value)
{
    return fabs(shown - value) <= 1e-9 * fabs(value);
}

void qll_units_write_beside(qll_writer *writer, double si, double other_si, qll_kind kind,
                            qll_unit_system system)
{
    const shown_quantity shown = shown_of(si, kind, system, false);
    int more = 0;
    if (isfinite(other_si) && !is_exact(shown_si(&shown, 0), si)) {
        const shown_quantity other = shown_of(other_si, kind, system, false);
        double gap = fabs(si - other_si);
        while (more < QLL_MORE_DIGITS
               && !(fabs(shown_si(&shown, more) - shown_si(&other, more)) > 0.01 * gap)) {
            more += 1;
        }
        more = more == QLL_MORE_DIGITS ? 0 : more;
    }
    write_with_unit(writer, &shown, more);
}

int qll_decimals_beside(double value, double other, int decimals)
{
    const bool may_differ =
        isfinite(value) && isfinite(other) && !is_exact(to_decimals(value, decimals), value);
    for (int more = 0; may_differ && more < QLL_MORE_DIGITS; more++) {
        double gap =
            fabs(to_decimals(value, decimals + more) - to_decimals(other, decimals + more));
        if (gap > 0.01 * fabs(value - other)) {
            return decimals + more;
        }
    }
    return decimals;
}

void qll_units_write_pipe_size(qll_writer *writer, double nominal_m, qll_unit_system system)
{
    assert(isfinite(nominal_m));
    for (size_t i = 0; i < QLL_COUNT(pipe_sizes); i++) {
        const pipe_size *size = &pipe_sizes[i];
        if (!is_about(nominal_m / QLL_INCH_M, size->size_in)
            && !is_about(nominal_m * 1e3, (double)size->dn)) {
            continue;
        }
        if (system == QLL_UNITS_US) {
            qll_write(writer, size->text);
            qll_write(writer, " in");
        } else {
            qll_write_format(writer, "DN %d", size->dn);
        }
        return;
    }
    qll_units_write(writer, nominal_m, QLL_KIND_LENGTH, system);
}

void qll_units_write_bare(qll_writer *writer, double si, qll_kind kind, qll_unit_system system)
{
    const shown_quantity shown = shown_of(si, kind, system, true);
    (void)write_styled(writer, &shown, 0);
}

bool qll_units_is_customary(qll_text unit, qll_kind kind, qll_unit_system system)
{
    for (size_t i = 0; i < QLL_STYLE_COUNT; i++) {
        if (styles[i].kind == kind && styles[i].system == system
            && qll_text_is(unit, styles[i].unit)) {
            return true;
        }
    }
    return false;
}

const char *qll_units_name(qll_kind kind, qll_unit_system system)
{
    return shown_name(customary(kind, system)->unit);
}
