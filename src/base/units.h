/* The unit table: "2 in", "120 psi", "0.35 L/s" to SI, and SI to what the user reads. */
#ifndef QUELL_BASE_UNITS_H
#define QUELL_BASE_UNITS_H

#include "quell/problems.h"

#include "base/said.h"
#include "base/text.h"

/** How a pressure was meant. Only "psia", "bara", "kPa abs" and the like say absolute. */
typedef enum qll_pressure_base {
    QLL_PRESSURE_GAUGE,
    QLL_PRESSURE_ABSOLUTE,
} qll_pressure_base;

typedef enum qll_unit_system {
    QLL_UNITS_US,
    QLL_UNITS_SI,
} qll_unit_system;

typedef struct qll_quantity {
    double si;
    qll_pressure_base base; /* for QLL_KIND_PRESSURE only */
} qll_quantity;

/**
 * Why a quantity was not read: NO_NUMBER, NO_UNIT, UNKNOWN_UNIT, WRONG_UNIT, or OUT_OF_RANGE for
 * what is over 1e100 in SI.
 */
typedef struct qll_units_refusal {
    qll_code code;
    qll_said says;    /* a whole sentence, which quotes the input */
    const char *hint; /* nearest spelling of the unit, or the whole as it should be; "" if none */
    const char *corrected; /* the whole as it should be; "" where nobody can tell */
} qll_units_refusal;

/**
 * Reads one quantity with its unit, the way a plumber writes it: "120 psi", "1-1/2\"", "6'-4\"",
 * "2 in", "0.35 L/s", "55 degF", "12 gpm", "-3 psi".
 *
 * Fractions, "1½ in", "DN 50", "NPS 2" and "Cv 12" are read too; a comma in the number is refused.
 * Nothing may follow the unit. A unit of another kind is refused as WRONG_UNIT, a bare number as
 * NO_UNIT (except QLL_KIND_NUMBER, where any unit is refused). Gallons are US gallons; an imperial
 * gallon must be asked for by name ("imp gal", "imp gpm").
 *
 * @param refusal filled on failure; what it quotes of @p text must live as long
 * @return true and @p quantity in SI, or false
 */
QLL_MUST_USE bool qll_units_read(qll_text text, qll_kind kind, qll_arena *arena,
                                 qll_quantity *quantity, qll_units_refusal *refusal);

/** Gauge to absolute and back; the atmosphere is always the caller's. */
double qll_units_absolute_pa(qll_quantity pressure, double barometric_pa);
double qll_units_gauge_pa(qll_quantity pressure, double barometric_pa);

/**
 * Writes @p si for people in the customary unit of @p system, rounded by the rule of its kind, for
 * example "60 psi", "4.1 bar", "12.3 gpm", "0.78 L/s", "2 in", "50 mm", "5.8 ft/s": as gauges and
 * meters read, one rule wherever it stands.
 *
 * Long lengths are written in ft or m, long times in min or h. The rules: docs/formats/units.md.
 *
 * @param si finite; a pressure as it shall be read, gauge or absolute
 */
void qll_units_write(qll_writer *writer, double si, qll_kind kind, qll_unit_system system);

/** What qll_units_write() shows, in SI. */
double qll_units_rounded(double si, qll_kind kind, qll_unit_system system);

/**
 * The same beside @p other_si, a limit or what is held against one: with as many digits more as it takes
 * to tell the two apart, so that no 80 psi breaks a limit of 80 psi. Both sides are written so. What differs by
 * less than the third digit more is equal; NaN = nothing beside.
 */
void qll_units_write_beside(qll_writer *writer, double si, double other_si, qll_kind kind,
                            qll_unit_system system);

/** The decimals, @p decimals or up to two more, that tell the plain number @p value from @p other. */
int qll_decimals_beside(double value, double other, int decimals);

/** A nominal pipe or valve size as the trade calls it: "1-1/2 in" or "DN 40" (ISO 6708), whichever of
 * the two it was given as; other lengths as qll_units_write(). */
void qll_units_write_pipe_size(qll_writer *writer, double nominal_m, qll_unit_system system);

/**
 * The same without the unit, for table columns, and the unit alone, for their heads. Here the unit
 * never changes with the magnitude: lengths are in in or mm, times in s.
 */
void qll_units_write_bare(qll_writer *writer, double si, qll_kind kind, qll_unit_system system);
const char *qll_units_name(qll_kind kind, qll_unit_system system);

/** Is @p unit, as qll_units_write() spells it, one that it uses for @p kind in @p system? */
bool qll_units_is_customary(qll_text unit, qll_kind kind, qll_unit_system system);

/** The system whose unit a typed @p quantity has, and false where it has none that belongs to one. */
bool qll_units_system_of(qll_text quantity, qll_unit_system *system);

/** The SI unit of @p kind as answers name it, "m3/s", and what a key in it ends in, "_m3s"; of a gauge
 * pressure, "Pa gauge" and "_pa_gauge". */
const char *qll_units_si(qll_kind kind);
const char *qll_units_key_end(qll_kind kind);

/** What a quantity of @p kind is called in a sentence: "a pressure", "a flow". */
const char *qll_units_kind_phrase(qll_kind kind);

/** An example of a well-written quantity of @p kind: "95 psi". */
const char *qll_units_example(qll_kind kind);

#endif
