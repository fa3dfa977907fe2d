/* Sources named in the rows:
 * SI Brochure: BIPM, The International System of Units, 9th edition (2019).
 * SP 811: NIST Special Publication 811 (2008), appendix B.8 and B.9; the exact quotients here round
 *     to the digits printed there.
 * definition: follows from the relation named, with the inch of 25.4 mm and the pound of 0.45359237
 *     kg (agreement of 1959, SP 811 appendix B), the standard acceleration of free fall 9.80665
 *     m/s2 (3rd CGPM, 1901), the US gallon of 231 in3 and the imperial gallon of 4.54609 L.
 * Factors stand as quotients of numbers that a double holds exactly, so that "1-1/2 in" becomes the
 * double nearest to 0.0381 and not its neighbour. */
#include "base/units_table.h"

#define INCH_M          127.0, 5000.0
#define FOOT_M          381.0, 1250.0
#define INCH_M3         2048383.0, 125e9
#define FOOT_M3         55306341.0
#define FOOT_M3_PER     1953125000.0
#define GALLON_M3       (231.0 * 2048383.0)
#define GALLON_M3_PER   125e9
#define IMPERIAL_M3     454609.0
#define IMPERIAL_M3_PER 1e8
#define POUND_KG        45359237.0
#define POUND_KG_PER    1e8
/* 0.45359237 * 9.80665 / 0.0254^2 */
#define PSI_PA          (45359237.0 * 980665.0), 6451600000.0
#define KSI_PA          (45359237.0 * 980665.0), 6451600.0
/* Conventional water, 1000 kg/m3, and mercury, 13595.1 kg/m3, under 9.80665 m/s2. */
#define WATER_PA_M      980665.0, 100.0
#define WATER_PA_FT     (381.0 * 980665.0), 125000.0
#define WATER_PA_IN     (127.0 * 980665.0), 500000.0
#define MERCURY_PA_IN   (127.0 * 135951.0 * 980665.0), 5e9
#define MERCURY_PA_MM   (135951.0 * 980665.0), 1e9
/* Cv / Kv = (m3/h in US gpm) / sqrt(bar in psi); tests/unit/test_units.c derives it again. */
#define KV_PER_CV       1.0, 1.1560992283536566

#define BIT(kind)   (1U << (unsigned)QLL_KIND_##kind)
#define PRESSURE    BIT(PRESSURE)
#define DROP        BIT(PRESSURE_DIFFERENCE)
#define MODULUS     BIT(MODULUS)
#define FLOW        BIT(FLOW)
#define MASS_FLOW   BIT(MASS_FLOW)
#define LENGTH      BIT(LENGTH)
#define VOLUME      BIT(VOLUME)
#define SPEED       (BIT(VELOCITY) | BIT(SPEED_OF_SOUND))
#define WARMTH      BIT(TEMPERATURE)
#define WARMING     BIT(TEMPERATURE_DIFFERENCE)
#define COEFFICIENT BIT(FLOW_COEFFICIENT)
#define DENSITY     BIT(DENSITY)
#define VISCOSITY   BIT(VISCOSITY)
#define TIME        BIT(TIME)
#define ABSOLUTE    .absolute = true
#define AS_TYPED    .case_matters = true

/* kinds, name, {other spellings}, factor, per, marks, source */
/* clang-format off */
const qll_unit qll_units_table[] = {
    {PRESSURE | DROP | MODULUS, "psi", {"lb/in2", "lbs/in2", "lbf/in2", "lb/sq in", "pounds per square inch"},
        PSI_PA, .source = "definition, lbf/in2; SP 811"},
    {PRESSURE, "psig", {"psi g", "psi gauge", "lb/in2 gauge"}, PSI_PA, .source = "as psi"},
    {PRESSURE, "psia", {"psi a", "psi abs", "psi absolute", "lb/in2 abs"}, PSI_PA, ABSOLUTE, .source = "as psi"},
    {DROP, "psid", {"psi diff"}, PSI_PA, .source = "as psi"},
    {MODULUS, "ksi", {"kpsi"}, KSI_PA, .source = "definition, 1000 psi; SP 811"},
    {PRESSURE | DROP | MODULUS, "bar", {"bars"}, 1e5, 1, .source = "definition; SP 811"},
    {PRESSURE, "barg", {"bar g", "bar gauge"}, 1e5, 1, .source = "as bar"},
    {PRESSURE, "bara", {"bar a", "bar abs", "bar absolute"}, 1e5, 1, ABSOLUTE, .source = "as bar"},
    {PRESSURE | DROP, "mbar", {"millibar"}, 100, 1, AS_TYPED, .source = "definition, bar/1000; SP 811"},
    {PRESSURE, "mbar abs", {"mbar a"}, 100, 1, ABSOLUTE, AS_TYPED, .source = "as mbar"},
    {PRESSURE | DROP | MODULUS, "Pa", {"pascal"}, 1, 1, .source = "SI Brochure"},
    {PRESSURE, "Pa abs", {"Pa absolute"}, 1, 1, ABSOLUTE, .source = "as Pa"},
    {PRESSURE | DROP | MODULUS, "kPa", {NULL}, 1e3, 1, .source = "SI Brochure, kilo"},
    {PRESSURE, "kPag", {"kPa g", "kPa gauge"}, 1e3, 1, .source = "as kPa"},
    {PRESSURE, "kPa abs", {"kPa a", "kPa absolute"}, 1e3, 1, ABSOLUTE, .source = "as kPa"},
    {PRESSURE | DROP | MODULUS, "MPa", {NULL}, 1e6, 1, AS_TYPED, .source = "SI Brochure, mega"},
    {PRESSURE, "MPa abs", {"MPa a", "MPa absolute"}, 1e6, 1, ABSOLUTE, AS_TYPED, .source = "as MPa"},
    {MODULUS, "GPa", {NULL}, 1e9, 1, .source = "SI Brochure, giga"},
    {PRESSURE | DROP, "kg/cm2", {"kgf/cm2", "kp/cm2"}, 980665, 10, .source = "definition, kgf/cm2; SP 811"},
    {PRESSURE | DROP, "atm", {NULL}, 101325, 1, .source = "10th CGPM, 1954; SP 811"},
    {PRESSURE | DROP, "mH2O", {"m H2O", "m head", "m of head", "m WC", "m wg", "m water"},
        WATER_PA_M, .source = "conventional water; SP 811"},
    {PRESSURE | DROP, "ft head", {"ft H2O", "ft of head", "ft WC", "ft water", "feet head", "feet of head"},
        WATER_PA_FT, .source = "conventional water; SP 811"},
    {PRESSURE | DROP, "inH2O", {"in H2O", "in WC", "in wg", "in water"},
        WATER_PA_IN, .source = "conventional water; SP 811"},
    {PRESSURE | DROP, "inHg", {"in Hg"}, MERCURY_PA_IN, .source = "conventional mercury; SP 811"},
    {PRESSURE, "inHg abs", {"in Hg abs"}, MERCURY_PA_IN, ABSOLUTE, .source = "as inHg"},
    {PRESSURE | DROP, "mmHg", {"mm Hg"}, MERCURY_PA_MM, .source = "conventional mercury; SP 811"},
    {PRESSURE, "mmHg abs", {"mm Hg abs"}, MERCURY_PA_MM, ABSOLUTE, .source = "as mmHg"},
    {PRESSURE | DROP, "torr", {NULL}, 101325, 760, .source = "definition, atm/760; SP 811"},

    {FLOW, "gpm", {"gal/min", "US gpm", "US gal/min", "gallons/min", "gal per min", "gallons per minute"},
        GALLON_M3, GALLON_M3_PER * 60, .source = "definition; SP 811"},
    {FLOW, "gph", {"gal/h", "gal/hr", "US gph", "gallons/hour", "gallons per hour"},
        GALLON_M3, GALLON_M3_PER * 3600, .source = "definition"},
    {FLOW, "gpd", {"gal/d", "gal/day", "US gpd", "gallons/day", "gallons per day"},
        GALLON_M3, GALLON_M3_PER * 86400, .source = "definition; SP 811"},
    {FLOW, "imp gpm", {"imp gal/min", "imperial gpm", "igpm", "UK gpm", "UK gal/min"},
        IMPERIAL_M3, IMPERIAL_M3_PER * 60, .source = "definition"},
    {FLOW, "imp gph", {"imp gal/h", "imperial gph", "UK gph", "UK gal/h"},
        IMPERIAL_M3, IMPERIAL_M3_PER * 3600, .source = "definition"},
    {FLOW, "L/s", {"lps", "L/sec", "dm3/s", "litres per second", "liters per second"}, 1, 1e3, .source = "SI Brochure"},
    {FLOW, "L/min", {"lpm", "dm3/min", "litres per minute", "liters per minute"}, 1, 6e4, .source = "SI Brochure"},
    {FLOW, "L/h", {"lph", "L/hr", "litres per hour", "liters per hour"}, 1, 3.6e6, .source = "SI Brochure"},
    {FLOW, "m3/h", {"m3/hr", "cu m/h", "cmh"}, 1, 3600, .source = "SI Brochure"},
    {FLOW, "m3/s", {"m3/sec", "cu m/s"}, 1, 1, .source = "SI Brochure"},
    {FLOW, "m3/min", {NULL}, 1, 60, .source = "SI Brochure"},
    {FLOW, "m3/d", {"m3/day"}, 1, 86400, .source = "SI Brochure"},
    {FLOW, "ft3/min", {"cfm", "cu ft/min"}, FOOT_M3, FOOT_M3_PER * 60, .source = "definition; SP 811"},
    {FLOW, "ft3/s", {"cfs", "cu ft/s"}, FOOT_M3, FOOT_M3_PER, .source = "definition; SP 811"},

    {MASS_FLOW, "kg/s", {"kg/sec"}, 1, 1, .source = "SI Brochure"},
    {MASS_FLOW, "kg/min", {NULL}, 1, 60, .source = "SI Brochure"},
    {MASS_FLOW, "kg/h", {"kg/hr"}, 1, 3600, .source = "SI Brochure"},
    {MASS_FLOW, "lb/s", {"lbm/s", "lb/sec"}, POUND_KG, POUND_KG_PER, .source = "definition; SP 811"},
    {MASS_FLOW, "lb/min", {"lbm/min"}, POUND_KG, POUND_KG_PER * 60, .source = "definition; SP 811"},
    {MASS_FLOW, "lb/h", {"lb/hr", "lbm/h", "lbs/h", "lbs/hr", "pph"},
        POUND_KG, POUND_KG_PER * 3600, .source = "definition; SP 811"},

    {LENGTH, "in", {"inch", "inches", "ins", "\"", "''"}, INCH_M, .source = "definition; SP 811"},
    {LENGTH, "ft", {"foot", "feet", "'"}, FOOT_M, .source = "definition, 12 in; SP 811"},
    {LENGTH, "yd", {"yard", "yards"}, 3 * FOOT_M, .source = "definition, 3 ft"},
    {LENGTH, "mm", {"millimetre", "millimeter", "millimetres", "millimeters"}, 1, 1e3, .source = "SI Brochure, milli"},
    {LENGTH, "cm", {"centimetre", "centimeter", "centimetres", "centimeters"}, 1, 100, .source = "SI Brochure, centi"},
    {LENGTH, "m", {"metre", "meter", "metres", "meters"}, 1, 1, .source = "SI Brochure"},
    {LENGTH, "um", {"micron", "microns", "micrometre", "micrometer"}, 1, 1e6, .source = "SI Brochure, micro"},

    {VOLUME, "gal", {"gals", "gallon", "gallons", "US gal", "US gallon", "US gallons"},
        GALLON_M3, GALLON_M3_PER, .source = "definition; SP 811"},
    {VOLUME, "imp gal", {"imp gallon", "imp gallons", "imperial gal", "imperial gallon", "imperial gallons", "UK gal"},
        IMPERIAL_M3, IMPERIAL_M3_PER, .source = "definition; SP 811"},
    {VOLUME, "L", {"litre", "liter", "litres", "liters", "ltr", "dm3"}, 1, 1e3, .source = "SI Brochure"},
    {VOLUME, "mL", {"millilitre", "milliliter", "cm3", "cc"}, 1, 1e6, AS_TYPED, .source = "SI Brochure, milli"},
    {VOLUME, "m3", {"cu m", "cubic metre", "cubic meter", "cubic metres", "cubic meters"}, 1, 1, .source = "SI Brochure"},
    {VOLUME, "ft3", {"cu ft", "cubic foot", "cubic feet"}, FOOT_M3, FOOT_M3_PER, .source = "definition; SP 811"},
    {VOLUME, "in3", {"cu in", "cubic inch", "cubic inches"}, INCH_M3, .source = "definition; SP 811"},

    {SPEED, "ft/s", {"fps", "ft/sec", "feet per second"}, FOOT_M, .source = "definition; SP 811"},
    {SPEED, "ft/min", {"fpm", "feet per minute"}, FOOT_M * 60, .source = "definition; SP 811"},
    {SPEED, "m/s", {"m/sec", "metres per second", "meters per second"}, 1, 1, .source = "SI Brochure"},

    {WARMTH, "degF", {"deg F", "F", "fahrenheit"}, 5, 9, .shift = -32, .source = "SP 811"},
    {WARMTH, "degC", {"deg C", "C", "celsius"}, 1, 1, .source = "SI Brochure"},
    {WARMTH, "K", {"kelvin"}, 1, 1, .shift = -273.15, .source = "SI Brochure"},
    {WARMING, "degF", {"deg F", "F", "F deg", "fahrenheit"}, 5, 9, .source = "SP 811"},
    {WARMING, "K", {"kelvin", "degC", "deg C", "C", "C deg", "celsius"}, 1, 1, .source = "SI Brochure"},

    {COEFFICIENT, "m3/h", {"Kv", "m3/hr", "m3/h at 1 bar", "m3/h/bar^0.5", "m3/h.bar^0.5", "m3/h/\u221A" "bar"},
        1, 1, .source = "IEC 60534-1 (from memory): m3/h at 1 bar"},
    {COEFFICIENT, "Cv", {"gpm/psi^0.5", "gpm/\u221A" "psi", "gpm at 1 psi"},
        KV_PER_CV, .rounded = true, .source = "definition, US gpm at 1 psi"},

    {DENSITY, "kg/m3", {NULL}, 1, 1, .source = "SI Brochure"},
    {DENSITY, "kg/L", {"g/cm3", "g/mL"}, 1e3, 1, .source = "SI Brochure"},
    {DENSITY, "lb/ft3", {"lb/cu ft", "lbm/ft3", "pcf"}, POUND_KG * 19.53125, FOOT_M3, .source = "definition; SP 811"},

    {VISCOSITY, "Pa.s", {"Pa s"}, 1, 1, .source = "SI Brochure"},
    {VISCOSITY, "mPa.s", {"mPa s"}, 1, 1e3, AS_TYPED, .source = "SI Brochure, milli"},
    {VISCOSITY, "cP", {"cps", "centipoise"}, 1, 1e3, .source = "definition, 0.01 poise; SP 811"},

    {TIME, "s", {"sec", "secs", "second", "seconds"}, 1, 1, .source = "SI Brochure"},
    {TIME, "ms", {"millisecond", "milliseconds"}, 1, 1e3, AS_TYPED, .source = "SI Brochure, milli"},
    {TIME, "min", {"mins", "minute", "minutes"}, 60, 1, .source = "SI Brochure"},
    {TIME, "h", {"hr", "hrs", "hour", "hours"}, 3600, 1, .source = "SI Brochure"},
    {TIME, "day", {"d", "days"}, 86400, 1, .source = "SI Brochure"},
};
/* clang-format on */
const size_t qll_units_table_count = sizeof qll_units_table / sizeof qll_units_table[0];
