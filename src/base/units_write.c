/* Quantities for people: which unit, and how many digits. docs/formats/units.md states the rules. */
#include "base/units.h"
#include "base/units_table.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

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

#define PSI_PA 6894.757293168361
#define INCH_M 0.0254
#define ANY    HUGE_VAL
#define US     QLL_UNITS_US
#define SI     QLL_UNITS_SI

/* clang-format off */
static const number_style styles[] = {
    {QLL_KIND_NUMBER,                 US, "",       ANY,           3, 0, 4, true },
    {QLL_KIND_NUMBER,                 SI, "",       ANY,           3, 0, 4, true },
    {QLL_KIND_PRESSURE,               US, "psi",    ANY,           3, 0, 1, false},
    {QLL_KIND_PRESSURE,               SI, "bar",    ANY,           3, 2, 2, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    US, "psi",    PSI_PA,        2, 0, 2, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    US, "psi",    ANY,           3, 0, 1, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    SI, "bar",    1e4,           2, 0, 3, false},
    {QLL_KIND_PRESSURE_DIFFERENCE,    SI, "bar",    ANY,           3, 2, 2, false},
    {QLL_KIND_FLOW,                   US, "gpm",    ANY,           3, 0, 3, false},
    {QLL_KIND_FLOW,                   SI, "L/s",    1e-3,          2, 0, 4, false},
    {QLL_KIND_FLOW,                   SI, "L/s",    ANY,           3, 0, 2, false},
    {QLL_KIND_MASS_FLOW,              US, "lb/h",   ANY,           3, 0, 2, false},
    {QLL_KIND_MASS_FLOW,              SI, "kg/s",   ANY,           3, 0, 3, false},
    {QLL_KIND_LENGTH,                 US, "in",     0.1 * INCH_M,  2, 0, 6, false},
    {QLL_KIND_LENGTH,                 US, "in",     12.5 * INCH_M, 4, 2, 2, false},
    {QLL_KIND_LENGTH,                 US, "ft",     ANY,           3, 0, 1, false},
    {QLL_KIND_LENGTH,                 SI, "mm",     1e-3,          2, 0, 4, true },
    {QLL_KIND_LENGTH,                 SI, "mm",     1.0,           4, 0, 1, true },
    {QLL_KIND_LENGTH,                 SI, "m",      ANY,           3, 0, 2, false},
    {QLL_KIND_VOLUME,                 US, "gal",    ANY,           3, 0, 2, false},
    {QLL_KIND_VOLUME,                 SI, "L",      ANY,           3, 0, 2, false},
    {QLL_KIND_VELOCITY,               US, "ft/s",   ANY,           1, 1, 1, false},
    {QLL_KIND_VELOCITY,               SI, "m/s",    ANY,           1, 2, 2, false},
    {QLL_KIND_TEMPERATURE,            US, "degF",   ANY,           4, 0, 1, true },
    {QLL_KIND_TEMPERATURE,            SI, "degC",   ANY,           4, 0, 1, true },
    {QLL_KIND_TEMPERATURE_DIFFERENCE, US, "degF",   ANY,           4, 0, 1, true },
    {QLL_KIND_TEMPERATURE_DIFFERENCE, SI, "K",      ANY,           4, 0, 1, true },
    {QLL_KIND_FLOW_COEFFICIENT,       US, "Cv",     ANY,           3, 0, 3, false},
    {QLL_KIND_FLOW_COEFFICIENT,       SI, "m3/h",   ANY,           3, 0, 3, false},
    {QLL_KIND_DENSITY,                US, "lb/ft3", ANY,           4, 0, 2, false},
    {QLL_KIND_DENSITY,                SI, "kg/m3",  ANY,           4, 0, 2, false},
    {QLL_KIND_VISCOSITY,              US, "cP",     ANY,           3, 0, 4, false},
    {QLL_KIND_VISCOSITY,              SI, "mPa.s",  ANY,           3, 0, 4, false},
    {QLL_KIND_MODULUS,                US, "ksi",    ANY,           3, 0, 2, false},
    {QLL_KIND_MODULUS,                SI, "GPa",    ANY,           3, 0, 3, false},
    {QLL_KIND_TIME,                   US, "s",      120.0,         3, 0, 3, true },
    {QLL_KIND_TIME,                   US, "min",    7200.0,        3, 0, 1, true },
    {QLL_KIND_TIME,                   US, "h",      ANY,           3, 0, 1, true },
    {QLL_KIND_TIME,                   SI, "s",      120.0,         3, 0, 3, true },
    {QLL_KIND_TIME,                   SI, "min",    7200.0,        3, 0, 1, true },
    {QLL_KIND_TIME,                   SI, "h",      ANY,           3, 0, 1, true },
    {QLL_KIND_SPEED_OF_SOUND,         US, "ft/s",   ANY,           1, 0, 0, false},
    {QLL_KIND_SPEED_OF_SOUND,         SI, "m/s",    ANY,           1, 0, 0, false},
};
/* clang-format on */
#define STYLE_COUNT (sizeof styles / sizeof styles[0])

typedef struct pipe_size {
    double size_in;
    const char *text;
} pipe_size;

/* The inch sizes of the trade (nominal sizes of ASME B36.10M up to 12 in). */
static const pipe_size pipe_sizes[] = {
    {0.375, "3/8"}, {0.5, "1/2"}, {0.75, "3/4"},  {1.0, "1"},   {1.25, "1-1/4"},
    {1.5, "1-1/2"}, {2.0, "2"},   {2.5, "2-1/2"}, {3.0, "3"},   {4.0, "4"},
    {5.0, "5"},     {6.0, "6"},   {8.0, "8"},     {10.0, "10"}, {12.0, "12"},
};

/* How near to a trade size a length in inches is written as one (our assumption). */
#define PIPE_SIZE_SHARE 0.02

static const number_style *customary(qll_kind kind, qll_unit_system system)
{
    for (size_t i = 0; i < STYLE_COUNT; i++) {
        if (styles[i].kind == kind && styles[i].system == system) {
            return &styles[i];
        }
    }
    assert(false);
    return &styles[0];
}

static bool follows(const number_style *style, const number_style *next)
{
    return next < styles + STYLE_COUNT && next->kind == style->kind
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

/* The trade size that the length is meant to be, or NULL. */
static const char *pipe_size_text(double length_in)
{
    for (size_t i = 0; i < sizeof pipe_sizes / sizeof pipe_sizes[0]; i++) {
        double size_in = pipe_sizes[i].size_in;
        if (fabs(length_in - size_in) <= PIPE_SIZE_SHARE * size_in) {
            return pipe_sizes[i].text;
        }
    }
    return NULL;
}

static double value_in(double si, const qll_unit *unit)
{
    return si * unit->per / unit->factor - unit->shift;
}

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
    style = style_for((rounded + unit->shift) * unit->factor / unit->per, kind, system, keeps_unit);
    unit = qll_units_find(style->unit, kind);
    assert(unit != NULL);
    double value = value_in(si, unit);
    bool is_inch = kind == QLL_KIND_LENGTH && system == QLL_UNITS_US && style->unit[0] == 'i';
    const char *size = is_inch ? pipe_size_text(value) : NULL;
    if (size != NULL) {
        qll_write(writer, size);
    } else {
        write_value(writer, value, style);
    }
    return unit->name;
}

void qll_units_write(qll_writer *writer, double si, qll_kind kind, qll_unit_system system)
{
    const char *unit = write_styled(writer, si, kind, system, false);
    if (unit[0] != '\0') {
        qll_write(writer, " ");
        qll_write(writer, unit);
    }
}

void qll_units_write_bare(qll_writer *writer, double si, qll_kind kind, qll_unit_system system)
{
    (void)write_styled(writer, si, kind, system, true);
}

const char *qll_units_name(qll_kind kind, qll_unit_system system)
{
    return customary(kind, system)->unit;
}
