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

#include "base/count.h"

/* Pairs stand for factor and per; where a row divides on, the two have names of their own. */
#define QLL_INCH_M          127.0, 5000.0
#define QLL_FOOT_M          381.0, 1250.0
#define QLL_INCH_M3         2048383.0, 125e9
#define QLL_FOOT_M3         55306341.0
#define QLL_FOOT_M3_PER     1953125000.0
#define QLL_GALLON_M3       (231.0 * 2048383.0)
#define QLL_GALLON_M3_PER   125e9
#define QLL_IMPERIAL_M3     454609.0
#define QLL_IMPERIAL_M3_PER 1e8
#define QLL_POUND_KG        45359237.0
#define QLL_POUND_KG_PER    1e8
/* 0.45359237 * 9.80665 / 0.0254^2 */
#define QLL_PSI_PA          (45359237.0 * 980665.0), 6451600000.0
#define QLL_KSI_PA          (45359237.0 * 980665.0), 6451600.0
/* The pound of force over an inch: 0.45359237 * 9.80665 / 0.0254. */
#define QLL_POUND_N_IN      (45359237.0 * 980665.0), 254e9
/* Conventional water, 1000 kg/m3, and mercury, 13595.1 kg/m3, under 9.80665 m/s2. */
#define QLL_WATER_PA_M      980665.0, 100.0
#define QLL_WATER_PA_FT     (381.0 * 980665.0), 125000.0
#define QLL_WATER_PA_IN     (127.0 * 980665.0), 500000.0
#define QLL_MERCURY_PA_IN   (127.0 * 135951.0 * 980665.0), 5e9
#define QLL_MERCURY_PA_MM   (135951.0 * 980665.0), 1e9
/* Cv / Kv = (m3/h in US gpm) / sqrt(bar in psi); tests/unit/test_units.c derives it again. */
#define QLL_KV_PER_CV       1.0, 1.1560992283536566

#define QLL_BIT(kind)   ((uint64_t)1 << (unsigned)QLL_KIND_##kind)
#define QLL_PRESSURE    QLL_BIT(PRESSURE)
#define QLL_DROP        QLL_BIT(PRESSURE_DIFFERENCE)
#define QLL_MODULUS     QLL_BIT(MODULUS)
#define QLL_FLOW        QLL_BIT(FLOW)
#define QLL_MASS_FLOW   QLL_BIT(MASS_FLOW)
#define QLL_LENGTH      QLL_BIT(LENGTH)
#define QLL_VOLUME      QLL_BIT(VOLUME)
#define QLL_SPEED       (QLL_BIT(VELOCITY) | QLL_BIT(SPEED_OF_SOUND))
#define QLL_WARMTH      QLL_BIT(TEMPERATURE)
#define QLL_WARMING     QLL_BIT(TEMPERATURE_DIFFERENCE)
#define QLL_COEFFICIENT QLL_BIT(FLOW_COEFFICIENT)
#define QLL_DENSITY     QLL_BIT(DENSITY)
#define QLL_VISCOSITY   QLL_BIT(VISCOSITY)
#define QLL_TIME        QLL_BIT(TIME)
#define QLL_MASS        QLL_BIT(MASS)
#define QLL_SPRING_RATE QLL_BIT(SPRING_RATE)
#define QLL_DAMPING     QLL_BIT(DAMPING)
#define QLL_ABSOLUTE    .absolute = true
#define QLL_AS_TYPED    .case_matters = true

/* kinds, name, {other spellings}, factor, per, marks, source */
/* clang-format off */
const qll_unit qll_units_table[] = {
    {QLL_PRESSURE | QLL_DROP | QLL_MODULUS, "psi", {"lb/in2", "lbs/in2", "lbf/in2", "lb/sq in", "pounds per square inch"},
        QLL_PSI_PA, .source = "definition, lbf/in2; SP 811"},
    {QLL_PRESSURE, "psig", {"psi g", "psi gauge", "lb/in2 gauge"}, QLL_PSI_PA, .source = "as psi"},
    {QLL_PRESSURE, "psia", {"psi a", "psi abs", "psi absolute", "lb/in2 abs"}, QLL_PSI_PA, QLL_ABSOLUTE, .source = "as psi"},
    {QLL_DROP, "psid", {"psi diff"}, QLL_PSI_PA, .source = "as psi"},
    {QLL_MODULUS, "ksi", {"kpsi"}, QLL_KSI_PA, .source = "definition, 1000 psi; SP 811"},
    {QLL_PRESSURE | QLL_DROP | QLL_MODULUS, "bar", {"bars"}, 1e5, 1, .source = "definition; SP 811"},
    {QLL_PRESSURE, "barg", {"bar g", "bar gauge"}, 1e5, 1, .source = "as bar"},
    {QLL_PRESSURE, "bara", {"bar a", "bar abs", "bar absolute"}, 1e5, 1, QLL_ABSOLUTE, .source = "as bar"},
    {QLL_PRESSURE | QLL_DROP, "mbar", {"millibar"}, 100, 1, QLL_AS_TYPED, .source = "definition, bar/1000; SP 811"},
    {QLL_PRESSURE, "mbar abs", {"mbar a"}, 100, 1, QLL_ABSOLUTE, QLL_AS_TYPED, .source = "as mbar"},
    {QLL_PRESSURE | QLL_DROP | QLL_MODULUS, "Pa", {"pascal"}, 1, 1, .source = "SI Brochure"},
    {QLL_PRESSURE, "Pa abs", {"Pa absolute"}, 1, 1, QLL_ABSOLUTE, .source = "as Pa"},
    {QLL_PRESSURE | QLL_DROP | QLL_MODULUS, "kPa", {NULL}, 1e3, 1, .source = "SI Brochure, kilo"},
    {QLL_PRESSURE, "kPag", {"kPa g", "kPa gauge"}, 1e3, 1, .source = "as kPa"},
    {QLL_PRESSURE, "kPa abs", {"kPa a", "kPa absolute"}, 1e3, 1, QLL_ABSOLUTE, .source = "as kPa"},
    {QLL_PRESSURE | QLL_DROP | QLL_MODULUS, "MPa", {NULL}, 1e6, 1, QLL_AS_TYPED, .source = "SI Brochure, mega"},
    {QLL_PRESSURE, "MPa abs", {"MPa a", "MPa absolute"}, 1e6, 1, QLL_ABSOLUTE, QLL_AS_TYPED, .source = "as MPa"},
    {QLL_MODULUS, "GPa", {NULL}, 1e9, 1, .source = "SI Brochure, giga"},
    {QLL_PRESSURE | QLL_DROP, "kg/cm2", {"kgf/cm2", "kp/cm2"}, 980665, 10, .source = "definition, kgf/cm2; SP 811"},
    {QLL_PRESSURE | QLL_DROP, "atm", {NULL}, 101325, 1, .source = "10th CGPM, 1954; SP 811"},
    {QLL_PRESSURE | QLL_DROP, "mH2O", {"m H2O", "m head", "m of head", "m WC", "m wg", "m water"},
        QLL_WATER_PA_M, .source = "conventional water; SP 811"},
    {QLL_PRESSURE | QLL_DROP, "ft head", {"ft H2O", "ft of head", "ft WC", "ft water", "feet head", "feet of head"},
        QLL_WATER_PA_FT, .source = "conventional water; SP 811"},
    {QLL_PRESSURE | QLL_DROP, "inH2O", {"in H2O", "in WC", "in wg", "in water"},
        QLL_WATER_PA_IN, .source = "conventional water; SP 811"},
    {QLL_PRESSURE | QLL_DROP, "inHg", {"in Hg"}, QLL_MERCURY_PA_IN, .source = "conventional mercury; SP 811"},
    {QLL_PRESSURE, "inHg abs", {"in Hg abs"}, QLL_MERCURY_PA_IN, QLL_ABSOLUTE, .source = "as inHg"},
    {QLL_PRESSURE | QLL_DROP, "mmHg", {"mm Hg"}, QLL_MERCURY_PA_MM, .source = "conventional mercury; SP 811"},
    {QLL_PRESSURE, "mmHg abs", {"mm Hg abs"}, QLL_MERCURY_PA_MM, QLL_ABSOLUTE, .source = "as mmHg"},
    {QLL_PRESSURE | QLL_DROP, "torr", {NULL}, 101325, 760, .source = "definition, atm/760; SP 811"},

    {QLL_FLOW, "gpm", {"gal/min", "US gpm", "US gal/min", "gallons/min", "gal per min", "gallons per minute"},
        QLL_GALLON_M3, QLL_GALLON_M3_PER * 60, .source = "definition; SP 811"},
    {QLL_FLOW, "gph", {"gal/h", "gal/hr", "US gph", "gallons/hour", "gallons per hour"},
        QLL_GALLON_M3, QLL_GALLON_M3_PER * 3600, .source = "definition"},
    {QLL_FLOW, "gpd", {"gal/d", "gal/day", "US gpd", "gallons/day", "gallons per day"},
        QLL_GALLON_M3, QLL_GALLON_M3_PER * 86400, .source = "definition; SP 811"},
    {QLL_FLOW, "MGD", {"US mgd", "million gallons per day", "million gallons/day"},
        QLL_GALLON_M3 * 1e6, QLL_GALLON_M3_PER * 86400, .source = "definition"},
    {QLL_FLOW, "imp gpm", {"imp gal/min", "imperial gpm", "igpm", "UK gpm", "UK gal/min"},
        QLL_IMPERIAL_M3, QLL_IMPERIAL_M3_PER * 60, .source = "definition"},
    {QLL_FLOW, "imp gph", {"imp gal/h", "imperial gph", "UK gph", "UK gal/h"},
        QLL_IMPERIAL_M3, QLL_IMPERIAL_M3_PER * 3600, .source = "definition"},
    {QLL_FLOW, "L/s", {"lps", "L/sec", "dm3/s", "litres per second", "liters per second"}, 1, 1e3, .source = "SI Brochure"},
    {QLL_FLOW, "L/min", {"lpm", "dm3/min", "litres per minute", "liters per minute"}, 1, 6e4, .source = "SI Brochure"},
    {QLL_FLOW, "mL/min", {"millilitres per minute", "milliliters per minute", "cm3/min", "cc/min"}, 1, 6e7, QLL_AS_TYPED, .source = "SI Brochure, milli"},
    {QLL_FLOW, "L/h", {"lph", "L/hr", "litres per hour", "liters per hour"}, 1, 3.6e6, .source = "SI Brochure"},
    {QLL_FLOW, "m3/h", {"m3/hr", "cu m/h", "cmh"}, 1, 3600, .source = "SI Brochure"},
    {QLL_FLOW, "m3/s", {"m3/sec", "cu m/s"}, 1, 1, .source = "SI Brochure"},
    {QLL_FLOW, "m3/min", {NULL}, 1, 60, .source = "SI Brochure"},
    {QLL_FLOW, "m3/d", {"m3/day"}, 1, 86400, .source = "SI Brochure"},
    {QLL_FLOW, "ft3/min", {"cfm", "cu ft/min"}, QLL_FOOT_M3, QLL_FOOT_M3_PER * 60, .source = "definition; SP 811"},
    {QLL_FLOW, "ft3/s", {"cfs", "cu ft/s"}, QLL_FOOT_M3, QLL_FOOT_M3_PER, .source = "definition; SP 811"},

    {QLL_MASS_FLOW, "kg/s", {"kg/sec"}, 1, 1, .source = "SI Brochure"},
    {QLL_MASS_FLOW, "kg/min", {NULL}, 1, 60, .source = "SI Brochure"},
    {QLL_MASS_FLOW, "kg/h", {"kg/hr"}, 1, 3600, .source = "SI Brochure"},
    {QLL_MASS_FLOW, "lb/s", {"lbm/s", "lb/sec"}, QLL_POUND_KG, QLL_POUND_KG_PER, .source = "definition; SP 811"},
    {QLL_MASS_FLOW, "lb/min", {"lbm/min"}, QLL_POUND_KG, QLL_POUND_KG_PER * 60, .source = "definition; SP 811"},
    {QLL_MASS_FLOW, "lb/h", {"lb/hr", "lbm/h", "lbs/h", "lbs/hr", "pph"},
        QLL_POUND_KG, QLL_POUND_KG_PER * 3600, .source = "definition; SP 811"},

    {QLL_LENGTH, "in", {"inch", "inches", "ins", "\"", "''"}, QLL_INCH_M, .source = "definition; SP 811"},
    {QLL_LENGTH, "ft", {"foot", "feet", "'"}, QLL_FOOT_M, .source = "definition, 12 in; SP 811"},
    {QLL_LENGTH, "yd", {"yard", "yards"}, 3 * 381, 1250, .source = "definition, 3 ft"},
    {QLL_LENGTH, "mm", {"millimetre", "millimeter", "millimetres", "millimeters"}, 1, 1e3, .source = "SI Brochure, milli"},
    {QLL_LENGTH, "cm", {"centimetre", "centimeter", "centimetres", "centimeters"}, 1, 100, .source = "SI Brochure, centi"},
    {QLL_LENGTH, "m", {"metre", "meter", "metres", "meters"}, 1, 1, .source = "SI Brochure"},
    {QLL_LENGTH, "um", {"micron", "microns", "micrometre", "micrometer"}, 1, 1e6, .source = "SI Brochure, micro"},

    {QLL_VOLUME, "gal", {"gals", "gallon", "gallons", "US gal", "US gallon", "US gallons"},
        QLL_GALLON_M3, QLL_GALLON_M3_PER, .source = "definition; SP 811"},
    {QLL_VOLUME, "kgal", {"kgals", "thousand gallons"},
        QLL_GALLON_M3 * 1e3, QLL_GALLON_M3_PER, .source = "definition"},
    {QLL_VOLUME, "CCF", {"HCF", "hundred cubic feet"},
        QLL_FOOT_M3 * 100, QLL_FOOT_M3_PER, .source = "definition; utilities' bills, common practice"},
    {QLL_VOLUME, "imp gal", {"imp gallon", "imp gallons", "imperial gal", "imperial gallon", "imperial gallons", "UK gal"},
        QLL_IMPERIAL_M3, QLL_IMPERIAL_M3_PER, .source = "definition; SP 811"},
    {QLL_VOLUME, "L", {"litre", "liter", "litres", "liters", "ltr", "dm3"}, 1, 1e3, .source = "SI Brochure"},
    {QLL_VOLUME, "mL", {"millilitre", "milliliter", "cm3", "cc"}, 1, 1e6, QLL_AS_TYPED, .source = "SI Brochure, milli"},
    {QLL_VOLUME, "m3", {"cu m", "cubic metre", "cubic meter", "cubic metres", "cubic meters"}, 1, 1, .source = "SI Brochure"},
    {QLL_VOLUME, "ft3", {"cu ft", "cubic foot", "cubic feet"}, QLL_FOOT_M3, QLL_FOOT_M3_PER, .source = "definition; SP 811"},
    {QLL_VOLUME, "in3", {"cu in", "cubic inch", "cubic inches"}, QLL_INCH_M3, .source = "definition; SP 811"},

    {QLL_SPEED, "ft/s", {"fps", "ft/sec", "feet per second"}, QLL_FOOT_M, .source = "definition; SP 811"},
    {QLL_SPEED, "ft/min", {"fpm", "feet per minute"}, 381, 1250 * 60, .source = "definition; SP 811"},
    {QLL_SPEED, "m/s", {"m/sec", "metres per second", "meters per second"}, 1, 1, .source = "SI Brochure"},

    {QLL_WARMTH, "degF", {"deg F", "F", "fahrenheit"}, 5, 9, .shift = -32, .source = "SP 811"},
    {QLL_WARMTH, "degC", {"deg C", "C", "celsius"}, 1, 1, .source = "SI Brochure"},
    {QLL_WARMTH, "K", {"kelvin"}, 1, 1, .shift = -273.15, .source = "SI Brochure"},
    {QLL_WARMING, "degF", {"deg F", "F", "F deg", "fahrenheit"}, 5, 9, .source = "SP 811"},
    {QLL_WARMING, "K", {"kelvin", "degC", "deg C", "C", "C deg", "celsius"}, 1, 1, .source = "SI Brochure"},

    {QLL_COEFFICIENT, "m3/h", {"Kv", "m3/hr", "m3/h at 1 bar", "m3/h/bar^0.5", "m3/h.bar^0.5", "m3/h/\u221Abar"},
        1, 1, .source = "IEC 60534-1 (from memory): m3/h at 1 bar"},
    {QLL_COEFFICIENT, "Cv", {"gpm/psi^0.5", "gpm/\u221Apsi", "gpm at 1 psi"},
        QLL_KV_PER_CV, .rounded = true, .source = "definition, US gpm at 1 psi"},

    {QLL_DENSITY, "kg/m3", {NULL}, 1, 1, .source = "SI Brochure"},
    {QLL_DENSITY, "kg/L", {"g/cm3", "g/mL"}, 1e3, 1, .source = "SI Brochure"},
    {QLL_DENSITY, "lb/ft3", {"lb/cu ft", "lbm/ft3", "pcf"}, QLL_POUND_KG * 19.53125, QLL_FOOT_M3, .source = "definition; SP 811"},

    {QLL_VISCOSITY, "Pa.s", {"Pa s"}, 1, 1, .source = "SI Brochure"},
    {QLL_VISCOSITY, "mPa.s", {"mPa s"}, 1, 1e3, QLL_AS_TYPED, .source = "SI Brochure, milli"},
    {QLL_VISCOSITY, "cP", {"cps", "centipoise"}, 1, 1e3, .source = "definition, 0.01 poise; SP 811"},

    {QLL_TIME, "s", {"sec", "secs", "second", "seconds"}, 1, 1, .source = "SI Brochure"},
    {QLL_TIME, "ms", {"millisecond", "milliseconds"}, 1, 1e3, QLL_AS_TYPED, .source = "SI Brochure, milli"},
    {QLL_TIME, "min", {"mins", "minute", "minutes"}, 60, 1, .source = "SI Brochure"},
    {QLL_TIME, "h", {"hr", "hrs", "hour", "hours"}, 3600, 1, .source = "SI Brochure"},
    {QLL_TIME, "day", {"d", "days"}, 86400, 1, .source = "SI Brochure"},

    {QLL_MASS, "kg", {"kilogram", "kilograms"}, 1, 1, .source = "SI Brochure"},
    {QLL_MASS, "g", {"gram", "grams"}, 1, 1e3, .source = "SI Brochure"},
    {QLL_MASS, "lb", {"lbs", "lbm", "pound", "pounds"}, QLL_POUND_KG, QLL_POUND_KG_PER, .source = "definition; SP 811"},
    {QLL_MASS, "oz", {"ounce", "ounces"}, QLL_POUND_KG, QLL_POUND_KG_PER * 16, .source = "definition, lb/16; SP 811"},

    {QLL_SPRING_RATE, "N/m", {NULL}, 1, 1, .source = "SI Brochure"},
    {QLL_SPRING_RATE, "N/mm", {"kN/m"}, 1e3, 1, .source = "SI Brochure, milli"},
    {QLL_SPRING_RATE, "lbf/in", {"lb/in", "lbs/in", "pounds per inch"}, QLL_POUND_N_IN, .source = "definition; SP 811"},

    {QLL_DAMPING, "N.s/m", {"N s/m"}, 1, 1, .source = "SI Brochure"},
    {QLL_DAMPING, "lbf.s/in", {"lbf s/in", "lb.s/in", "lb s/in"}, QLL_POUND_N_IN, .source = "definition, as lbf/in"},
};
/* clang-format on */
const size_t qll_units_table_count = QLL_COUNT(qll_units_table);
