/* Quantities for people: which unit, and how many digits. docs/formats/units.md states the rules. */
#include "base/count.h"
#include "base/customary.h"
#include "base/units.h"
#include "base/units_table.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
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
    {QLL_KIND_PRESSURE,               QLL_US, "psi",    QLL_ANY,           3, 0, 1, false},
    {QLL_KIND_PRESSURE,               QLL_SI, "bar",    QLL_ANY,           3, 2, 2, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_US, "psi",    QLL_PSI_PA,        2, 0, 2, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_US, "psi",    QLL_ANY,           3, 0, 1, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_SI, "bar",    1e4,           2, 0, 3, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    QLL_SI, "bar",    QLL_ANY,           3, 2, 2, false},
    {QLL_KIND_FLOW,                   QLL_US, "gpm",    QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_FLOW,                   QLL_SI, "L/s",    1e-3,          2, 0, 4, false},
    {QLL_KIND_FLOW,                   QLL_SI, "L/s",    QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_MASS_FLOW,              QLL_US, "lb/h",   QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_MASS_FLOW,              QLL_SI, "kg/s",   QLL_ANY,           3, 0, 3, false},
    {QLL_KIND_LENGTH,                 QLL_US, "in",     0.1 * QLL_INCH_M,  2, 0, 6, false},
    {QLL_KIND_LENGTH,                 QLL_US, "in",     12.5 * QLL_INCH_M, 4, 2, 2, false},
    {QLL_KIND_LENGTH,                 QLL_US, "ft",     QLL_ANY,           3, 0, 1, false},
    {QLL_KIND_LENGTH,                 QLL_SI, "mm",     1e-3,          2, 0, 4, true },
    {QLL_KIND_LENGTH,                 QLL_SI, "mm",     1.0,           4, 0, 1, true },
    {QLL_KIND_LENGTH,                 QLL_SI, "m",      QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_VOLUME,                 QLL_US, "gal",    QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_VOLUME,                 QLL_SI, "L",      QLL_ANY,           3, 0, 2, false},
    {QLL_KIND_VELOCITY,               QLL_US, "ft/s",   QLL_ANY,           1, 1, 1, false},
    {QLL_KIND_VELOCITY,               QLL_SI, "m/s",    QLL_ANY,           1, 2, 2, false},
    {QLL_KIND_TEMPERATURE,            QLL_US, "degF",   QLL_ANY,           4, 0, 1, true },
    {QLL_KIND_TEMPERATURE,            QLL_SI, "degC",   QLL_ANY,           4, 0, 1, true },
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

/* The value as the style shows it, as near as a double comes to that. */
static double rounded_by(double value, const number_style *style)
{
    double step = pow(10.0, -decimals_for(value, style));
    return fabs(value) < 1e15 ? round(value / step) * step : value;
}

static void write_value(qll_writer *writer, double value, const number_style *style)
{
    /* Rounding up may make the number one digit longer: 99.97 is 100, not 100.0. */
    double rounded = rounded_by(value, style);
    int decimals = decimals_for(rounded, style);
    value = rounded == 0.0 ? 0.0 : value;
    if (!style->drops_zeros || decimals == 0) {
        qll_write_format(writer, "%.*f", decimals, value);
        return;
    }
    char digits[64];
    int size = snprintf(digits, sizeof digits, "%.*f", decimals, value);
    assert(size > 0 && (size_t)size < sizeof digits);
    while (digits[size - 1] == '0') {
        size -= 1;
    }
    size -= digits[size - 1] == '.' ? 1 : 0;
    qll_write_text(writer, (qll_text){.bytes = digits, .size = (size_t)size});
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
static const char *shown(const char *unit)
{
    return strcmp(unit, "degF") == 0 ? "\u00B0F" : strcmp(unit, "degC") == 0 ? "\u00B0C" : unit;
}

/* Where lengths are written in ft or m. */
#define QLL_LONG_M 100.0

static const char *write_styled(qll_writer *writer, double si, qll_kind kind,
                                qll_unit_system system, bool keeps_unit)
{
    assert(isfinite(si));
    const number_style *style = style_for(si, kind, system, keeps_unit);
    if (kind == QLL_KIND_NUMBER) {
        write_value(writer, si, style);
        return "";
    }
    const qll_unit *unit = qll_units_find(style->unit, kind);
    assert(unit != NULL);
    /* What rounding lifts over a limit is written as what lies there: 2 min, not 120 s. */
    double rounded = rounded_by(value_in(si, unit), style);
    double rounded_si = (rounded + unit->shift) * unit->factor / unit->per;
    /* No length is a height or a run of none, not a bore. */
    bool is_none = kind == QLL_KIND_LENGTH && rounded_si == 0.0;
    style = style_for(is_none ? QLL_LONG_M : rounded_si, kind, system, keeps_unit);
    unit = qll_units_find(style->unit, kind);
    assert(unit != NULL);
    double value = value_in(si, unit);
    assert(isfinite(value));
    bool is_inch = kind == QLL_KIND_LENGTH && system == QLL_UNITS_US && style->unit[0] == 'i';
    const char *size = is_inch ? pipe_size_text(value) : NULL;
    if (size != NULL) {
        qll_write(writer, size);
    } else {
        write_value(writer, value, style);
    }
    return shown(unit->name);
}

void qll_units_write(qll_writer *writer, double si, qll_kind kind, qll_unit_system system)
{
    const char *unit = write_styled(writer, si, kind, system, false);
    if (unit[0] != '\0') {
        qll_write(writer, " ");
        qll_write(writer, unit);
    }
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
    (void)write_styled(writer, si, kind, system, true);
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
    return shown(customary(kind, system)->unit);
}
