#include "base/units.h"
#include "base/units_table.h"
#include "check.h"
#include "said.h"

static qll_arena *arena;

static const char *text_of(qll_writer *writer)
{
    return qll_writer_text(writer).bytes;
}

/* SI value of what is read; NaN and a printed refusal otherwise. */
static double read_si(const char *text, qll_kind kind)
{
    qll_quantity quantity = {.si = (double)NAN};
    qll_units_refusal refusal = {.hint = ""};
    if (!qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal)) {
        printf("    %s\n", said_text(arena, &refusal.says));
        return (double)NAN;
    }
    return quantity.si;
}

static double length_m(const char *text)
{
    return read_si(text, QLL_KIND_LENGTH);
}

static double pressure_pa(const char *text)
{
    return read_si(text, QLL_KIND_PRESSURE);
}

static double flow_m3s(const char *text)
{
    return read_si(text, QLL_KIND_FLOW);
}

static void check_refused(const char *text, qll_kind kind, qll_code code, const char *sentence,
                          const char *hint)
{
    qll_quantity quantity = {.si = -7.0};
    qll_units_refusal refusal = {.code = QLL_CODE_COUNT, .hint = ""};
    CHECK(!qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal));
    CHECK_TEXT(qll_code_word(refusal.code), qll_code_word(code));
    CHECK_TEXT(said_text(arena, &refusal.says), sentence);
    CHECK_TEXT(refusal.hint, hint);
    CHECK_WITHIN(quantity.si, -7.0, 0.0);
}

TEST(lengths_read_as_a_plumber_writes_them)
{
    static const char *const one_and_a_half[] = {
        "1.5 in",      "1-1/2\"",        "1-1/2 in",        "1 1/2 in",   "1 1/2\"",   "1\u00BD in",
        "1 \u00BD in", "1-\u00BD\u2033", "3/2 in",          "1.5in.",     "1-1/2''",   "1.5 inches",
        "NPS 1-1/2",   "nps 1\u00BD\"",  "1 1\u20442 INCH", "+1.5\u201D", " 1.5\tin ",
    };
    for (size_t i = 0; i < sizeof one_and_a_half / sizeof one_and_a_half[0]; i++) {
        CHECK_WITHIN(length_m(one_and_a_half[i]), 0.0381, 0.0);
    }
    CHECK_WITHIN(length_m("1/2\""), 0.0127, 0.0);
    CHECK_WITHIN(length_m("\u215D in"), 0.015875, 0.0);
    CHECK_WITHIN(length_m("2 in"), 0.0508, 0.0);
    CHECK_WITHIN(length_m("DN 50"), 0.05, 0.0);
    CHECK_WITHIN(length_m("dn50"), 0.05, 0.0);
    CHECK_WITHIN(length_m("DN 50 mm"), 0.05, 0.0);
    CHECK_WITHIN(length_m("15 mm"), 0.015, 0.0);
    CHECK_WITHIN(length_m("1.5 \u00B5m"), 1.5e-6, 0.0);
    CHECK_WITHIN(length_m("-3 m"), -3.0, 0.0);
    CHECK_WITHIN(length_m("\u22123 m"), -3.0, 0.0);
}

TEST(feet_and_inches_add_up)
{
    static const char *const same[] = {
        "6'-4\"",
        "6' 4\"",
        "6'4\"",
        "6 ft 4 in",
        "6ft-4in",
        "6 ft. 4 in.",
        "6\u2032 - 4\u2033",
        "6 feet 4 inches",
    };
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        CHECK_NEAR(length_m(same[i]), 76 * 0.0254, 1e-15);
    }
    CHECK_NEAR(length_m("6' 4-1/2\""), 76.5 * 0.0254, 1e-15);
    CHECK_NEAR(length_m("-6'-4\""), -76 * 0.0254, 1e-15);
    CHECK_NEAR(length_m("-0'-4\""), -4 * 0.0254, 1e-15);
    CHECK_NEAR(length_m("52'"), 52 * 0.3048, 1e-15);
}

TEST(pressures_know_their_base)
{
    static const char *const absolute[] = {"5 psia",    "5 PSIA",    "5 bara",        "5 bar(a)",
                                           "5 bar abs", "5 kPa abs", "5 kPa (abs)",   "5 Pa abs",
                                           "5 MPa abs", "5 mbara",   "5 psi absolute"};
    static const char *const gauge[] = {
        "5 psi",   "5 psig",        "5 lb/in\u00B2", "5 bar",         "5 barg",   "5 bar(g)",
        "5 kPa",   "5 kPag",        "5 kg/cm2",      "5 ft head",     "5 m head", "5 mWC",
        "5 ftH2O", "5 ft H\u2082O", "5 inH2O",       "5 feet of head"};
    qll_quantity quantity;
    qll_units_refusal refusal;
    for (size_t i = 0; i < sizeof absolute / sizeof absolute[0]; i++) {
        CHECK(qll_units_read(qll_text_of(absolute[i]), QLL_KIND_PRESSURE, arena, &quantity,
                             &refusal));
        CHECK(quantity.base == QLL_PRESSURE_ABSOLUTE);
    }
    for (size_t i = 0; i < sizeof gauge / sizeof gauge[0]; i++) {
        CHECK(qll_units_read(qll_text_of(gauge[i]), QLL_KIND_PRESSURE, arena, &quantity, &refusal));
        CHECK(quantity.base == QLL_PRESSURE_GAUGE);
    }
    qll_quantity reading = {.si = 400e3, .base = QLL_PRESSURE_GAUGE};
    CHECK_WITHIN(qll_units_absolute_pa(reading, 101325.0), 501325.0, 0.0);
    CHECK_WITHIN(qll_units_gauge_pa(reading, 101325.0), 400e3, 0.0);
    reading.base = QLL_PRESSURE_ABSOLUTE;
    CHECK_WITHIN(qll_units_absolute_pa(reading, 101325.0), 400e3, 0.0);
    CHECK_WITHIN(qll_units_gauge_pa(reading, 101325.0), 298675.0, 0.0);
}

TEST(capitals_are_forgiven_where_nothing_is_lost)
{
    CHECK_WITHIN(pressure_pa("95 PSI"), pressure_pa("95 psi"), 0.0);
    CHECK_WITHIN(pressure_pa("4 Bar"), 4e5, 0.0);
    CHECK_WITHIN(pressure_pa("4 KPA"), 4e3, 0.0);
    CHECK_WITHIN(pressure_pa("4 Mpa"), 4e6, 0.0);
    CHECK_WITHIN(flow_m3s("12 GPM"), flow_m3s("12 gpm"), 0.0);
    CHECK_WITHIN(flow_m3s("12 l/S"), 0.012, 0.0);
    check_refused("5 mPa", QLL_KIND_PRESSURE, QLL_CODE_UNKNOWN_UNIT,
                  "\"5 mPa\": unit \"mPa\" is not known", "MPa");
    check_refused("5 Mbar", QLL_KIND_PRESSURE, QLL_CODE_UNKNOWN_UNIT,
                  "\"5 Mbar\": unit \"Mbar\" is not known", "mbar");
    check_refused("5 MPa.s", QLL_KIND_VISCOSITY, QLL_CODE_UNKNOWN_UNIT,
                  "\"5 MPa.s\": unit \"MPa.s\" is not known", "mPa.s");
}

TEST(gallons_are_american_unless_named_imperial)
{
    CHECK_NEAR(read_si("1 gal", QLL_KIND_VOLUME), 3.785411784e-3, 1e-15);
    CHECK_NEAR(read_si("1 imp gal", QLL_KIND_VOLUME), 4.54609e-3, 1e-15);
    CHECK_NEAR(flow_m3s("1 imp gpm") / flow_m3s("1 gpm"), 4.54609 / 3.785411784, 1e-15);
    CHECK_WITHIN(flow_m3s("1 US gal / min"), flow_m3s("1 gpm"), 0.0);
    CHECK_WITHIN(flow_m3s("1 m\u00B3/h"), flow_m3s("1 m^3/h"), 0.0);
}

TEST(temperatures_and_their_differences_differ)
{
    CHECK_WITHIN(read_si("212 \u00B0F", QLL_KIND_TEMPERATURE), 100.0, 0.0);
    CHECK_WITHIN(read_si("-40 F", QLL_KIND_TEMPERATURE), -40.0, 0.0);
    CHECK_WITHIN(read_si("273.15 K", QLL_KIND_TEMPERATURE), 0.0, 0.0);
    CHECK_WITHIN(read_si("9 degF", QLL_KIND_TEMPERATURE_DIFFERENCE), 5.0, 0.0);
    CHECK_WITHIN(read_si("9 F deg", QLL_KIND_TEMPERATURE_DIFFERENCE), 5.0, 0.0);
    CHECK_WITHIN(read_si("5 K", QLL_KIND_TEMPERATURE_DIFFERENCE), 5.0, 0.0);
}

/* Cv is the flow in US gpm at 1 psi, Kv that in m3/h at 1 bar, of the same water. */
TEST(cv_and_kv_differ_by_their_definition)
{
    double kv_of_cv = read_si("1 Cv", QLL_KIND_FLOW_COEFFICIENT);
    double gpm_in_m3h = 231.0 * 0.0254 * 0.0254 * 0.0254 * 60.0;
    double psi_in_bar = 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1e5;
    CHECK_NEAR(kv_of_cv, gpm_in_m3h / sqrt(psi_in_bar), 1e-14);
    CHECK_WITHIN(read_si("Kv 18", QLL_KIND_FLOW_COEFFICIENT), 18.0, 0.0);
    CHECK_WITHIN(read_si("18 m3/h at 1 bar", QLL_KIND_FLOW_COEFFICIENT), 18.0, 0.0);
    CHECK_WITHIN(read_si("1 gpm/psi^0.5", QLL_KIND_FLOW_COEFFICIENT), kv_of_cv, 0.0);
    CHECK_WITHIN(read_si("1 gpm/\u221Apsi", QLL_KIND_FLOW_COEFFICIENT), kv_of_cv, 0.0);
}

TEST(numbers_take_no_unit)
{
    CHECK_WITHIN(read_si("0.05", QLL_KIND_NUMBER), 0.05, 0.0);
    CHECK_WITHIN(read_si("1/4", QLL_KIND_NUMBER), 0.25, 0.0);
    check_refused("3 psi", QLL_KIND_NUMBER, QLL_CODE_WRONG_UNIT,
                  "\"3 psi\" is a pressure; a number without unit is expected here", "");
    check_refused("x", QLL_KIND_NUMBER, QLL_CODE_NO_NUMBER,
                  "\"x\" does not start with a number; write a number without unit, for example "
                  "\"2.5\"",
                  "");
}

TEST(refusals_say_what_is_accepted)
{
    check_refused("95", QLL_KIND_PRESSURE, QLL_CODE_NO_UNIT,
                  "\"95\" has no unit; write a pressure with its unit, for example \"95 psi\"", "");
    check_refused("12 gpm", QLL_KIND_PRESSURE, QLL_CODE_WRONG_UNIT,
                  "\"12 gpm\" is a flow; a pressure is expected here", "");
    check_refused("8 psig", QLL_KIND_PRESSURE_DIFFERENCE, QLL_CODE_WRONG_UNIT,
                  "\"8 psig\" is a pressure; a pressure difference is expected here", "");
    check_refused("DN 50", QLL_KIND_FLOW, QLL_CODE_WRONG_UNIT,
                  "\"DN 50\" is a length; a flow is expected here", "");
    check_refused("40 pis", QLL_KIND_PRESSURE, QLL_CODE_UNKNOWN_UNIT,
                  "\"40 pis\": unit \"pis\" is not known", "psi");
    check_refused(
        "40 furlongs", QLL_KIND_PRESSURE, QLL_CODE_UNKNOWN_UNIT,
        "\"40 furlongs\": unit \"furlongs\" is not known; write a pressure with its unit, "
        "for example \"95 psi\"",
        "");
    check_refused("", QLL_KIND_FLOW, QLL_CODE_NO_NUMBER,
                  "\"\" is empty; write a flow with its unit, for example \"12 gpm\"", "");
    check_refused("3-6 ft/s", QLL_KIND_VELOCITY, QLL_CODE_NO_NUMBER,
                  "\"3-6 ft/s\" is not one number; write a velocity with its unit, for example "
                  "\"6 ft/s\"",
                  "");
    check_refused("1e400 psi", QLL_KIND_PRESSURE, QLL_CODE_OUT_OF_RANGE,
                  "\"1e400 psi\" is too large to be meant; write a pressure with its unit, for "
                  "example \"95 psi\"",
                  "");
    check_refused("1e305 MPa", QLL_KIND_PRESSURE, QLL_CODE_OUT_OF_RANGE,
                  "\"1e305 MPa\" is too large to be meant; write a pressure with its unit, for "
                  "example \"95 psi\"",
                  "");
}

/* The reading before a valve and behind it, as people note them, is no fraction. */
TEST(two_readings_are_no_fraction)
{
    static const char *const two[] = {"120/60 psi", "60/120 psi",  "45/60 psi",
                                      "-10/5 psi",  "100/100 psi", "+120\u204460 psi"};
    for (size_t i = 0; i < sizeof two / sizeof two[0]; i++) {
        qll_quantity quantity = {.si = -7.0};
        qll_units_refusal refusal = {.hint = ""};
        CHECK(!qll_units_read(qll_text_of(two[i]), QLL_KIND_PRESSURE, arena, &quantity, &refusal));
        CHECK(refusal.code == QLL_CODE_NO_NUMBER);
    }
    check_refused("120/60 psi", QLL_KIND_PRESSURE, QLL_CODE_NO_NUMBER,
                  "\"120/60 psi\" is not one number; write a pressure with its unit, for example "
                  "\"95 psi\"",
                  "");
    CHECK_WITHIN(pressure_pa("1/2 psi"), 0.5 * pressure_pa("1 psi"), 1e-9);
    CHECK_WITHIN(pressure_pa("-3/4 psi"), -0.75 * pressure_pa("1 psi"), 1e-9);
    CHECK_WITHIN(pressure_pa("60-1/2 psi"), 60.5 * pressure_pa("1 psi"), 1e-6);
    CHECK_WITHIN(flow_m3s("1/10 gpm"), 0.1 * flow_m3s("1 gpm"), 1e-15);
    CHECK_WITHIN(length_m("11/16 in"), 11.0 / 16.0 * 0.0254, 1e-15);
}

TEST(commas_are_not_guessed)
{
    check_refused("0,35 L/s", QLL_KIND_FLOW, QLL_CODE_NO_NUMBER,
                  "\"0,35 L/s\" has a decimal comma; write 0.35, not 0,35", "0.35 L/s");
    check_refused("-1,5 m", QLL_KIND_LENGTH, QLL_CODE_NO_NUMBER,
                  "\"-1,5 m\" has a decimal comma; write 1.5, not 1,5", "-1.5 m");
    check_refused("0,35\tL/s", QLL_KIND_FLOW, QLL_CODE_NO_NUMBER,
                  "\"0,35\\tL/s\" has a decimal comma; write 0.35, not 0,35", "");
    check_refused("1,200 gpm", QLL_KIND_FLOW, QLL_CODE_NO_NUMBER,
                  "\"1,200 gpm\" has a comma; write a decimal point, and nothing between thousands",
                  "");
}

TEST(broken_lengths_are_refused)
{
    check_refused("6'-4", QLL_KIND_LENGTH, QLL_CODE_NO_UNIT,
                  "\"6'-4\" has no inch mark; write for example 6'-4\"", "6'-4\"");
    check_refused(
        "6'-14\"", QLL_KIND_LENGTH, QLL_CODE_OUT_OF_RANGE,
        "\"6'-14\\\"\" needs whole feet and less than 12 inches; write for example 6'-4\"", "");
    check_refused(
        "6.5' 4\"", QLL_KIND_LENGTH, QLL_CODE_OUT_OF_RANGE,
        "\"6.5' 4\\\"\" needs whole feet and less than 12 inches; write for example 6'-4\"", "");
    check_refused("6' 4 lb", QLL_KIND_LENGTH, QLL_CODE_UNKNOWN_UNIT,
                  "\"6' 4 lb\" has feet that are not followed by inches; write for example 6'-4\"",
                  "");
    check_refused("1/0 in", QLL_KIND_LENGTH, QLL_CODE_NO_NUMBER,
                  "\"1/0 in\" holds a fraction that cannot be meant; write a length with its unit, "
                  "for example \"1-1/2 in\"",
                  "");
    check_refused("DN 2 in", QLL_KIND_LENGTH, QLL_CODE_WRONG_UNIT,
                  "\"DN 2 in\" has a unit of its own in front; write nothing, or mm, after the "
                  "number",
                  "");
    qll_quantity quantity;
    qll_units_refusal refusal;
    static const char *const more[] = {"1-5/4 in", "5 ft3",  "6ft.4in", "2 in 3",
                                       "--2 in",   "1 1 in", "1-8/8 in"};
    for (size_t i = 0; i < sizeof more / sizeof more[0]; i++) {
        CHECK(!qll_units_read(qll_text_of(more[i]), QLL_KIND_LENGTH, arena, &quantity, &refusal));
    }
}

TEST(hostile_text_is_quoted_harmlessly)
{
    check_refused(
        "4\x01\xFF psi", QLL_KIND_PRESSURE, QLL_CODE_UNKNOWN_UNIT,
        "\"4\\u0001\uFFFD psi\": unit \"\\u0001\uFFFD psi\" is not known; write a pressure with its unit, for "
        "example \"95 psi\"",
        "");
    qll_writer writer = qll_writer_new(arena);
    qll_write_byte(&writer, '9', 100000);
    qll_write(&writer, "e-99999 psi");
    qll_quantity quantity;
    qll_units_refusal refusal;
    qll_text large = qll_writer_text(&writer);
    CHECK(qll_units_read(large, QLL_KIND_PRESSURE, arena, &quantity, &refusal));
    large.size = 100000;
    CHECK(!qll_units_read(large, QLL_KIND_PRESSURE, arena, &quantity, &refusal));
    CHECK(strlen(said_text(arena, &refusal.says)) < 200);
    writer = qll_writer_new(arena);
    qll_write_byte(&writer, '9', 10000);
    qll_write(&writer, ",5 psi");
    CHECK(!qll_units_read(qll_writer_text(&writer), QLL_KIND_PRESSURE, arena, &quantity, &refusal));
    CHECK(strlen(said_text(arena, &refusal.says)) < 200);
    writer = qll_writer_new(arena);
    qll_write(&writer, "9 ");
    qll_write_byte(&writer, 'p', 100000);
    CHECK(!qll_units_read(qll_writer_text(&writer), QLL_KIND_PRESSURE, arena, &quantity, &refusal));
    CHECK(strlen(said_text(arena, &refusal.says)) < 250);
}

TEST(a_refusal_without_memory_still_has_a_sentence)
{
    qll_arena *full = qll_arena_open(1 << 16);
    qll_arena_fail(full, 1, true);
    qll_quantity quantity;
    qll_units_refusal refusal;
    CHECK(!qll_units_read(qll_text_of("0,35 L/s"), QLL_KIND_FLOW, full, &quantity, &refusal));
    CHECK(refusal.says.id == QLL_TEXT_HAS_DECIMAL_COMMA);
    CHECK_TEXT(refusal.hint, "");
    qll_arena_close(full);
}

static void check_written(double si, qll_kind kind, const char *us, const char *metric)
{
    qll_writer writer = qll_writer_new(arena);
    qll_units_write(&writer, si, kind, QLL_UNITS_US);
    CHECK_TEXT(text_of(&writer), us);
    writer = qll_writer_new(arena);
    qll_units_write(&writer, si, kind, QLL_UNITS_SI);
    CHECK_TEXT(text_of(&writer), metric);
}

TEST(quantities_are_rounded_by_their_kind)
{
    check_written(pressure_pa("19.97 psi"), QLL_KIND_PRESSURE, "20 psi", "1.4 bar");
    check_written(pressure_pa("4.26 psi"), QLL_KIND_PRESSURE, "4.3 psi", "0.29 bar");
    check_written(pressure_pa("-0.001 psi"), QLL_KIND_PRESSURE, "0 psi", "0 bar");
    check_written(pressure_pa("0.026 psi"), QLL_KIND_PRESSURE_DIFFERENCE, "0.03 psi", "0.002 bar");
    check_written(pressure_pa("0.36 psi"), QLL_KIND_PRESSURE_DIFFERENCE, "0.4 psi", "0.02 bar");
    check_written(pressure_pa("14.6 psi"), QLL_KIND_PRESSURE_DIFFERENCE, "15 psi", "1.0 bar");
    check_written(flow_m3s("12.25 gpm"), QLL_KIND_FLOW, "12.25 gpm", "0.77 L/s");
    check_written(flow_m3s("1234.5 gpm"), QLL_KIND_FLOW, "1235 gpm", "77.9 L/s");
    check_written(flow_m3s("0.75 gpm"), QLL_KIND_FLOW, "0.75 gpm", "0.05 L/s");
    check_written(flow_m3s("0.799 gpm"), QLL_KIND_FLOW, "0.8 gpm", "0.05 L/s");
    check_written(flow_m3s("2.27 gpm"), QLL_KIND_FLOW, "2.3 gpm", "0.14 L/s");
    check_written(flow_m3s("0.0634 gpm"), QLL_KIND_FLOW, "0.06 gpm", "0.004 L/s");
    check_written(0.0, QLL_KIND_FLOW, "0 gpm", "0 L/s");
    check_written(1.768, QLL_KIND_VELOCITY, "5.8 ft/s", "1.8 m/s");
    check_written(length_m("52 ft"), QLL_KIND_LENGTH, "52 ft", "15.8 m");
    check_written(length_m("52.5 ft"), QLL_KIND_LENGTH, "52.5 ft", "16 m");
    check_written(length_m("0.0015 mm"), QLL_KIND_LENGTH, "0.000059 in", "0.0015 mm");
    check_written(read_si("4.5 gal", QLL_KIND_VOLUME), QLL_KIND_VOLUME, "4.5 gal", "17 L");
    check_written(read_si("60 degF", QLL_KIND_TEMPERATURE), QLL_KIND_TEMPERATURE, "60 °F", "16 °C");
    check_written(0.0, QLL_KIND_LENGTH, "0 ft", "0 m");
    check_written(5.0, QLL_KIND_TEMPERATURE_DIFFERENCE, "9 °F", "5 K");
    check_written(18.0, QLL_KIND_FLOW_COEFFICIENT, "20.8 Cv", "18.0 m3/h");
    check_written(999.1, QLL_KIND_DENSITY, "62.37 lb/ft3", "999.1 kg/m3");
    check_written(1.1e-3, QLL_KIND_VISCOSITY, "1.10 cP", "1.10 mPa.s");
    check_written(2.18e9, QLL_KIND_MODULUS, "316 ksi", "2.18 GPa");
    check_written(1800.0, QLL_KIND_TIME, "30 min", "30 min");
    check_written(90.0, QLL_KIND_TIME, "90 s", "90 s");
    check_written(10800.0, QLL_KIND_TIME, "3 h", "3 h");
    check_written(1480.0, QLL_KIND_SPEED_OF_SOUND, "4856 ft/s", "1480 m/s");
    check_written(0.3, QLL_KIND_MASS_FLOW, "2381 lb/h", "0.300 kg/s");
    check_written(2.5, QLL_KIND_NUMBER, "2.5", "2.5");
}

static const char *beside(const char *pressure, const char *other)
{
    qll_writer writer = qll_writer_new(arena);
    qll_units_write_beside(&writer, pressure_pa(pressure), pressure_pa(other), QLL_KIND_PRESSURE,
                           QLL_UNITS_US);
    return qll_writer_text(&writer).bytes;
}

/* By hand: no figure stands on the wrong side of its limit. */
TEST(a_limit_is_told_from_what_passes_it)
{
    CHECK_TEXT(beside("80.3 psi", "80 psi"), "80.3 psi");
    CHECK_TEXT(beside("80 psi", "80.3 psi"), "80 psi"); /* it is 80, to any digit */
    CHECK_TEXT(beside("79.96 psi", "80.3 psi"), "80.0 psi");
    CHECK_TEXT(beside("79.96 psi", "80 psi"), "79.96 psi");
    CHECK_TEXT(beside("80.6 psi", "80 psi"), "81 psi");
    CHECK_TEXT(beside("80 psi", "80 psi"), "80 psi");
    CHECK_TEXT(beside("80.0001 psi", "80 psi"), "80 psi");
    CHECK(qll_decimals_beside(2.04, 2.0, 1) == 2);
    CHECK(qll_decimals_beside(2.06, 2.0, 1) == 1);
    CHECK(qll_decimals_beside(2.0, 2.0, 1) == 1);
    CHECK(qll_decimals_beside((double)NAN, 2.0, 1) == 1);
}

TEST(pipe_sizes_are_written_as_fractions)
{
    check_written(0.0127, QLL_KIND_LENGTH, "1/2 in", "12.7 mm");
    check_written(0.0381, QLL_KIND_LENGTH, "1-1/2 in", "38.1 mm");
    check_written(0.05, QLL_KIND_LENGTH, "2 in", "50 mm");
    check_written(0.0508 * 1.019, QLL_KIND_LENGTH, "2 in", "51.8 mm");
    check_written(0.0508 * 1.021, QLL_KIND_LENGTH, "2.04 in", "51.9 mm");
    check_written(0.3048, QLL_KIND_LENGTH, "12 in", "304.8 mm");
    check_written(0.1778, QLL_KIND_LENGTH, "7.00 in", "177.8 mm");
}

TEST(columns_keep_one_unit)
{
    CHECK_TEXT(qll_units_name(QLL_KIND_LENGTH, QLL_UNITS_US), "in");
    CHECK_TEXT(qll_units_name(QLL_KIND_LENGTH, QLL_UNITS_SI), "mm");
    CHECK_TEXT(qll_units_name(QLL_KIND_NUMBER, QLL_UNITS_SI), "");
    qll_writer writer = qll_writer_new(arena);
    qll_units_write_bare(&writer, 3.048, QLL_KIND_LENGTH, QLL_UNITS_US);
    qll_write(&writer, " ");
    qll_units_write_bare(&writer, 2.0, QLL_KIND_LENGTH, QLL_UNITS_SI);
    qll_write(&writer, " ");
    qll_units_write_bare(&writer, 7200.0, QLL_KIND_TIME, QLL_UNITS_US);
    qll_write(&writer, " ");
    qll_units_write_bare(&writer, 1e300, QLL_KIND_VELOCITY, QLL_UNITS_SI);
    CHECK(strncmp(text_of(&writer), "120.00 2000 7200 1", 18) == 0);
}

/* What a kind is called and exemplified by is itself readable, in both systems. */
TEST(examples_read_as_their_own_kind)
{
    for (int i = 0; i < QLL_KIND_COUNT; i++) {
        qll_kind kind = (qll_kind)i;
        CHECK(isfinite(read_si(qll_units_example(kind), kind)));
        CHECK(strncmp(qll_units_kind_phrase(kind), "a ", 2) == 0);
        for (int system = QLL_UNITS_US; kind != QLL_KIND_NUMBER && system <= QLL_UNITS_SI;
             system++) {
            qll_text name = qll_text_of(qll_units_name(kind, (qll_unit_system)system));
            CHECK(qll_units_match(name, kind) != NULL);
        }
    }
}

static const char *pipe_size(double nominal_m, qll_unit_system system)
{
    qll_writer writer = qll_writer_new(arena);
    qll_units_write_pipe_size(&writer, nominal_m, system);
    return qll_writer_text(&writer).bytes;
}

/* ISO 6708: DN 40 goes with 1-1/2 in; a size is named the same whichever way it was given. */
TEST(pipe_sizes_are_named_as_the_trade_does)
{
    CHECK_TEXT(pipe_size(0.0381, QLL_UNITS_US), "1-1/2 in");
    CHECK_TEXT(pipe_size(0.0381, QLL_UNITS_SI), "DN 40");
    CHECK_TEXT(pipe_size(0.040, QLL_UNITS_US), "1-1/2 in");
    CHECK_TEXT(pipe_size(0.020, QLL_UNITS_US), "3/4 in");
    CHECK_TEXT(pipe_size(0.01905, QLL_UNITS_SI), "DN 20");

    /* ISO 6708 beside ASME B36.10M, all of them both ways. */
    static const struct {
        double inch;
        int dn;
        const char *us, *si;
    } sizes[] = {
        {0.375, 10, "3/8 in", "DN 10"},  {0.5, 15, "1/2 in", "DN 15"},
        {0.75, 20, "3/4 in", "DN 20"},   {1, 25, "1 in", "DN 25"},
        {1.25, 32, "1-1/4 in", "DN 32"}, {1.5, 40, "1-1/2 in", "DN 40"},
        {2, 50, "2 in", "DN 50"},        {2.5, 65, "2-1/2 in", "DN 65"},
        {3, 80, "3 in", "DN 80"},        {4, 100, "4 in", "DN 100"},
        {5, 125, "5 in", "DN 125"},      {6, 150, "6 in", "DN 150"},
        {8, 200, "8 in", "DN 200"},      {10, 250, "10 in", "DN 250"},
        {12, 300, "12 in", "DN 300"},
    };

    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        CHECK_TEXT(pipe_size(sizes[i].inch * 0.0254, QLL_UNITS_SI), sizes[i].si);
        CHECK_TEXT(pipe_size(sizes[i].inch * 0.0254, QLL_UNITS_US), sizes[i].us);
        CHECK_TEXT(pipe_size(sizes[i].dn * 0.001, QLL_UNITS_SI), sizes[i].si);
        CHECK_TEXT(pipe_size(sizes[i].dn * 0.001, QLL_UNITS_US), sizes[i].us);
    }
    CHECK_TEXT(pipe_size(0.028, QLL_UNITS_SI), "28 mm");
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 26);
    TEST_RUN(lengths_read_as_a_plumber_writes_them);
    TEST_RUN(feet_and_inches_add_up);
    TEST_RUN(pressures_know_their_base);
    TEST_RUN(capitals_are_forgiven_where_nothing_is_lost);
    TEST_RUN(gallons_are_american_unless_named_imperial);
    TEST_RUN(temperatures_and_their_differences_differ);
    TEST_RUN(cv_and_kv_differ_by_their_definition);
    TEST_RUN(numbers_take_no_unit);
    TEST_RUN(refusals_say_what_is_accepted);
    TEST_RUN(two_readings_are_no_fraction);
    TEST_RUN(commas_are_not_guessed);
    TEST_RUN(broken_lengths_are_refused);
    TEST_RUN(hostile_text_is_quoted_harmlessly);
    TEST_RUN(a_refusal_without_memory_still_has_a_sentence);
    TEST_RUN(quantities_are_rounded_by_their_kind);
    TEST_RUN(a_limit_is_told_from_what_passes_it);
    TEST_RUN(pipe_sizes_are_written_as_fractions);
    TEST_RUN(columns_keep_one_unit);
    TEST_RUN(examples_read_as_their_own_kind);
    TEST_RUN(pipe_sizes_are_named_as_the_trade_does);
    qll_arena_close(arena);
    return TEST_END();
}
