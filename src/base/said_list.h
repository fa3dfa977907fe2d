/* The names of all texts that are stored as values; the folders of src/wording have what they say. */
#ifndef QUELL_BASE_SAID_LIST_H
#define QUELL_BASE_SAID_LIST_H

#include "base/said_keys.h"

/* clang-format off */

/** X(NAME): why defaults are taken, what is taken, where figures come from. */
#define QLL_TEXT_REASON_LIST(X)                                                                   \
    /* why a default is taken */                                                                  \
    X(WHY_NO_NAME) X(WHY_NO_UNITS) X(WHY_SEA_LEVEL) X(WHY_GUEST_ROOMS) X(WHY_PATIENT_ROOMS)       \
    X(WHY_USUAL_COUNTED) X(WHY_USUAL_HOME) X(WHY_CLEAN_SCREEN) X(WHY_USUAL_SET) X(WHY_ALL_ALIKE)  \
    X(WHY_COLD_WATER) X(WHY_COPPER) X(WHY_WINTER) X(WHY_COMMON) X(WHY_STATIC_MAX)                 \
    X(WHY_NO_FITTINGS) X(WHY_NO_HOURS) X(WHY_NO_RISE) X(WHY_LEGIONELLA) X(WHY_LOWER_END)          \
    X(WHY_STUDY_QUANTILE) X(WHY_USUAL_PIPE) X(WHY_USUAL_RELIEF) X(WHY_WHOLE_FLOW)                 \
    X(WHY_MOST_DAYS) X(WHY_NO_PATH) X(WHY_NO_OUTLETS) X(WHY_NO_FLOW_TEST) X(WHY_NO_UPSTREAM)      \
    X(WHY_STATIC_AT_NO_FLOW) X(WHY_FALLOFF) X(WHY_PEOPLE_PER_HOME) X(WHY_DAYS_BY_CHANCE)          \
    X(WHY_SUMMER) X(WHY_UNITS_US) X(WHY_UNITS_METRIC) X(WHY_HOME_HOURS) X(WHY_HOURS_BY_CHANCE)    \
    X(WHY_EVEN_HOUR) X(WHY_BREAK) X(WHY_TABLE_FLOWS) X(WHY_HOSE_US) X(WHY_HOSE_METRIC)            \
    X(WHY_HOUSE_ONE_HOME) X(WHY_PEOPLE_IN_EACH) X(WHY_BETWEEN) X(WHY_NOT_IN_CATALOGUE)            \
    X(WHY_BAND_ALONE) X(WHY_SERVICE_SIZE) X(WHY_NO_PIPE_SIZE) X(WHY_WITHIN_BAND)                  \
    X(WHY_TEST_BEGINS) X(WHY_TEST_STATIC) X(WHY_PRECHARGE) X(WHY_COARSE_PEAK) X(WHY_NO_ID)        \
    X(WHY_MOST_DIRECT) X(WHY_POINTS_REACH) X(WHY_TENTH_BELOW) X(WHY_NOISE_FOLLOWS)                \
    X(WHY_SAME_MONEY) X(WHY_PRICE_DIRECT) X(WHY_PRICE_PILOT) X(WHY_ONLY_ONE) X(WHY_MIDDLE_ONE)    \
    X(WHY_GALVANIZED) X(WHY_DRAWN_TUBE) X(WHY_NO_MATERIAL) X(WHY_ONE_PATH) X(WHY_METALS)          \
    X(WHY_OURS)                                                                                   \
    /* what is taken instead */                                                                   \
    X(VALUE) X(VALUE_RANGE) X(VALUE_ABSOLUTE) X(VALUE_BY_SIZE) X(VALUE_NO_PIPES) X(VALUE_NONE)    \
    X(VALUE_NOTHING)                                                                              \
    X(VALUE_FLAT) X(VALUE_PRECHARGE) X(VALUE_BREAK) X(VALUE_SCENARIO) X(VALUE_FIXTURES)           \
    X(VALUE_FIXTURES_AS) X(VALUE_LIKE_PIPE) X(VALUE_LIKE_VALVE) X(VALUE_ESTIMATED_XFZ)            \
    X(VALUE_OURS) X(VALUE_LOCKUP_RISE) X(VALUE_INLET_EFFECT) X(VALUE_FLOW_MIN) X(VALUE_XFZ)       \
    X(VALUE_SEAT_BORE)                                                                            \
    /* whose default it is, where that is no key */                                               \
    X(WHAT_PIPE_LIMIT) X(WHAT_HEADER) X(WHAT_OF_VALVES) X(AND_MORE)                               \
    /* a day's water: data/habits.csv */                                                          \
    X(HABITS_APARTMENT_US) X(HABITS_HOME_METRIC) X(HABITS_HOUSE_US) X(HABITS_HOTEL_US)            \
    X(HABITS_HOTEL_METRIC) X(HABITS_OFFICE_US) X(HABITS_OFFICE_METRIC) X(HABITS_SCHOOL_US)        \
    X(HABITS_SCHOOL_METRIC) X(HABITS_RESTAURANT_US) X(HABITS_RESTAURANT_METRIC)                   \
    X(HABITS_HOSPITAL_US) X(HABITS_HOSPITAL_METRIC)                                               \
    /* where hours come from: data/diurnal*.csv */                                                \
    X(HOURS_ALICANTE) X(HOURS_MIDRISE_US) X(HOURS_DWELLING_CH) X(HOURS_OFFICE) X(HOURS_ASHRAE)    \
    X(HOURS_PRESENCE) X(HOURS_HOSPITAL_CH) X(HOURS_OWN)                                           \
    /* uses as DIN 1988-300 calls them: data/din1988.csv */                                       \
    X(DIN_RESIDENTIAL) X(DIN_HOSPITAL) X(DIN_HOTEL) X(DIN_SCHOOL) X(DIN_OFFICE) X(DIN_NURSING)    \
    X(DIN_WITHDRAWN)                                                                              \
    /* tables of estimates */                                                                     \
    X(TABLE_IPC) X(TABLE_TRADE) X(TABLE_OWN_USES) X(TABLE_GIVEN) X(TABLE_STUDY)                   \
    X(TABLE_PROBABILITIES) X(TABLE_DIN) X(TABLE_EN) X(TABLE_BS)                                   \
    /* sources */                                                                                 \
    X(SOURCE_KV) X(SOURCE_XFZ) X(SOURCE_COLEBROOK) X(SOURCE_BANDS) X(SOURCE_INVENTED)             \
    X(SOURCE_OPENING_LAW) X(SOURCE_IPC) X(SOURCE_STUDY) X(SOURCE_PROBABILITIES) X(SOURCE_NORMAL)  \
    X(SOURCE_DIN) X(SOURCE_TRADE) X(SOURCE_PULSES) X(SOURCE_EN) X(SOURCE_BS) X(SOURCE_LOG)        \
    X(SOURCE_LOG_RESOLVED) X(SOURCE_GIVEN) X(SOURCE_JUDGED) X(SOURCE_WORTH) X(WHY_NOT_TOLD) \
    X(SOURCE_TONES) X(SOURCE_IMPULSES)                        \
    X(SOURCE_WEIGHTING) X(SOURCE_VALVE_SPECTRA) X(SOURCE_STROUHAL) X(SOURCE_SOUND_RULES)                                                        \
    /* words for machines, as people read them */                                                 \
    X(WORD_SURVEY) X(WORD_PEAK) X(WORD_DIRECT) X(WORD_PILOT) X(WORD_COPPER_L) X(WORD_NEXT_ROOM)   \
    X(WORD_US) X(WORD_METRIC) X(WORD_HOSE) X(WORD_IRRIGATION) X(WORD_SUMMER) X(WORD_SPRING)       \
    X(WORD_AUTUMN) X(WORD_WINTER) X(WORD_WEEKDAY) X(WORD_SATURDAY) X(WORD_SUNDAY) X(WORD_NONE)    \
    X(WORD_PRIVATE) X(WORD_PUBLIC) X(WORD_APARTMENT) X(WORD_COPPER) X(WORD_CATALOGUE)             \
    /* why there is no sound level, or how much the one there is hangs on */                      \
    X(LEVEL_NO_CASE) X(LEVEL_PLASTIC) X(LEVEL_NO_DROP) X(LEVEL_FLASHING) X(LEVEL_CHOKED)          \
    X(LEVEL_XF_HIGH) X(LEVEL_BEYOND) X(LEVEL_ESTIMATED) X(LEVEL_FROM_SHEET)

/** X(NAME): what is wrong with a text, a table or a quantity, whatever it holds. */
#define QLL_TEXT_DOCUMENT_LIST(X)                                                                 \
    /* quantities by kind */                                                                      \
    X(KIND_NUMBER) X(KIND_PRESSURE) X(KIND_PRESSURE_DIFFERENCE) X(KIND_FLOW) X(KIND_MASS_FLOW)    \
    X(KIND_LENGTH) X(KIND_VOLUME) X(KIND_VELOCITY) X(KIND_TEMPERATURE)                            \
    X(KIND_TEMPERATURE_DIFFERENCE) X(KIND_FLOW_COEFFICIENT) X(KIND_DENSITY) X(KIND_VISCOSITY)     \
    X(KIND_MODULUS) X(KIND_TIME) X(KIND_SPEED_OF_SOUND)                                           \
    /* what a hint says */                                                                        \
    X(HINT_DID_YOU_MEAN) X(HINT_REMOVE_ONE) X(HINT_REMOVE_IT) X(HINT_ESCAPE_BACKSLASH)            \
    X(HINT_ESCAPE_BREAK) X(HINT_ESCAPE_TAB) X(HINT_ESCAPE_QUOTE) X(HINT_REMOVE_ZERO)              \
    X(HINT_QUANTITY_IN_QUOTES) X(HINT_REMOVE_COMMA) X(HINT_TRUE) X(HINT_FALSE) X(HINT_NULL)       \
    X(HINT_STRAIGHT_QUOTES) X(HINT_REMOVE_REMARK) X(HINT_REMOVE_PLUS) X(HINT_ZERO_BEFORE_POINT)   \
    X(HINT_TEXT_IN_QUOTES) X(HINT_KEY_IN_QUOTES) X(HINT_COLON) X(HINT_KEYS_IN_BRACES)             \
    X(HINT_COMMA_BEFORE) X(HINT_REMOVE_REST) X(HINT_UTF8) X(HINT_LINE_ENDS)                       \
    X(HINT_CELL_IN_QUOTES) X(HINT_QUOTE_TWICE) X(HINT_SEPARATOR_IN_QUOTES)                        \
    /* JSON */                                                                                    \
    X(DUPLICATE_KEY) X(NUMBER_TOO_LARGE) X(ESCAPE_HEX) X(ESCAPE_ZERO) X(ESCAPE_HALF)              \
    X(ESCAPE_UNKNOWN) X(TEXT_ENDS_NOT_ON_LINE) X(TEXT_ENDS_NOT) X(TEXT_CONTROL) X(NUMBER_POINT)   \
    X(NUMBER_EXPONENT) X(NUMBER_MINUS) X(NUMBER_ZERO) X(NUMBER_BEHIND) X(EMPTY_TEXT)              \
    X(TEXT_ENDS) X(TEXT_ENDS_OPEN) X(FOUND_TOKEN) X(FOUND_TEXT) X(FOUND_COMMA_KEY)                \
    X(FOUND_COMMA_VALUE) X(FOUND_BRACKET) X(NESTED_TOO_DEEP) X(TOO_MANY_VALUES)                   \
    X(EXPECT_ANY_VALUE) X(EXPECT_VALUE) X(EXPECT_VALUE_OR_END) X(EXPECT_KEY)                      \
    X(EXPECT_KEY_OR_END) X(EXPECT_COLON) X(EXPECT_COLON_BETWEEN) X(EXPECT_NOTHING)                \
    X(EXPECT_COMMA_OR_BRACE) X(EXPECT_COMMA_OR_BRACKET) X(EXPECT_BRACE) X(EXPECT_BRACKET)         \
    /* texts and tables */                                                                        \
    X(TOO_MANY_BYTES) X(IS_UTF16) X(NOT_UTF8) X(LONE_RETURN) X(TABLE_CONTROL)                     \
    X(QUOTE_NOT_CLOSED) X(QUOTE_INSIDE) X(TEXT_BEHIND_QUOTE) X(TWO_SEPARATORS)                    \
    X(SEPARATOR_COMMA) X(SEPARATOR_SEMICOLON) X(SEPARATOR_TAB) X(TABLE_EMPTY)                     \
    X(TOO_MANY_COLUMNS) X(FOUND_ONE_CELL) X(FOUND_CELLS) X(TOO_MANY_ROWS) X(COLUMN_NO_NAME)       \
    X(COLUMN_TWICE)                                                                               \
    /* quantities */                                                                              \
    X(WRITE_NUMBER) X(WRITE_QUANTITY) X(IS_NOT_ONE_NUMBER) X(IS_EMPTY) X(STARTS_WITHOUT_NUMBER)   \
    X(IS_TOO_LARGE) X(ODD_FRACTION) X(HAS_NO_UNIT) X(IS_OF_KIND) X(UNIT_UNKNOWN)                  \
    X(UNIT_UNKNOWN_WRITE) X(HAS_COMMA) X(HAS_DECIMAL_COMMA) X(NO_INCH_MARK)                       \
    X(FEET_WITHOUT_INCHES) X(ODD_FEET) X(UNIT_IN_FRONT)

/** X(NAME): what fields are and why their limits stand there. */
#define QLL_TEXT_FIELD_LIST(X)                                                                    \
    /* why limits of values stand where they do */                                                \
    X(BECAUSE_BUILDING_VALVES) X(BECAUSE_VALVE_KV) X(BECAUSE_VALVE_INLET)                         \
    X(BECAUSE_VALVE_TEMPERATURE) X(BECAUSE_VALVE_DROP) X(BECAUSE_INLET_EFFECT)                    \
    X(BECAUSE_VALVE_FLOW) X(BECAUSE_TRIM_FACTOR) X(BECAUSE_STYLE_MODIFIER) X(BECAUSE_PRICE)       \
    X(BECAUSE_TEN_YEARS) X(BECAUSE_OPENS_AS_FALLS) X(BECAUSE_COST) X(BECAUSE_UNITS_DRAW_MORE)     \
    X(BECAUSE_MAIN_FALLS) X(BECAUSE_DEVICE_TAKES) X(BECAUSE_DEAD_SEA) X(BECAUSE_ATMOSPHERE)       \
    X(BECAUSE_LIQUID) X(BECAUSE_MAIN_RATED) X(BECAUSE_MAIN_FLOW) X(BECAUSE_PIPE_SIZES)            \
    X(BECAUSE_ONE_BUILDING_LENGTH) X(BECAUSE_LIFT_400) X(BECAUSE_SCREEN_ROOM)                     \
    X(BECAUSE_OPENINGS) X(BECAUSE_DEVICE_LOSS) X(BECAUSE_SOMEBODY_DRAWS) X(BECAUSE_ONE_BUILDING)  \
    X(BECAUSE_ONE_HOME) X(BECAUSE_WEIGHTS) X(BECAUSE_QUANTILE) X(BECAUSE_PULSE)                   \
    X(BECAUSE_VOLUME) X(BECAUSE_DAYS_WITHOUT) X(BECAUSE_HOURS_WITHOUT) X(BECAUSE_OUTLETS_WORK)    \
    X(BECAUSE_METER_PASSES) X(BECAUSE_METER_BLIND) X(BECAUSE_QUALITY) X(BECAUSE_SILENCE)          \
    X(BECAUSE_SHARE) X(BECAUSE_BREAK) X(BECAUSE_FIXTURE_FLOW) X(BECAUSE_PROBABILITY)              \
    X(BECAUSE_BUILDING_FLOW) X(BECAUSE_SET_RANGE) X(BECAUSE_LIFT_200) X(BECAUSE_FIXTURE_NEEDS)    \
    X(BECAUSE_HEATERS) X(BECAUSE_RELIEF) X(BECAUSE_TANKS) X(BECAUSE_TANKS_CHARGED)                \
    X(BECAUSE_VELOCITY) X(BECAUSE_RATIO) X(BECAUSE_HOLDS_CLOSER) X(BECAUSE_VALVE_OUTLET)          \
    /* what keys mean that must be there */                                                       \
    X(MEANS_VERSION) X(MEANS_VALVES) X(MEANS_ID) X(MEANS_CONNECTIONS) X(MEANS_ACTING)             \
    X(MEANS_KV) X(MEANS_SET_RANGE) X(MEANS_INLET_MAX) X(MEANS_MEASURED_INLET)                     \
    X(MEANS_MEASURED_SET) X(MEANS_RISING_FLOW) X(MEANS_FALLOFF) X(MEANS_VALVE_SIZE)               \
    X(MEANS_SUPPLY) X(MEANS_SCENARIOS) X(MEANS_PRESSURE) X(MEANS_PIPE) X(MEANS_FAMILY_SIZE)       \
    X(MEANS_LENGTH) X(MEANS_METER) X(MEANS_BACKFLOW) X(MEANS_STRAINER) X(MEANS_DEVICE)            \
    X(MEANS_LOSS) X(MEANS_PRESSURE_LOST) X(MEANS_BREAK_SHARE) X(MEANS_BREAK_LENGTH)               \
    X(MEANS_LOADING_UNITS) X(MEANS_GRAPH_FLOW) X(MEANS_FIXTURE) X(MEANS_COUNT) X(MEANS_DRAWS)     \
    X(MEANS_ITS_FLOW) X(MEANS_NAME) X(MEANS_ELEVATION) X(MEANS_NEEDS) X(MEANS_HEATED)             \
    X(MEANS_TANK) X(MEANS_STAGES) X(MEANS_BRANCHES) X(MEANS_VALVE) X(MEANS_SET_PRESSURE)          \
    X(MEANS_USE) X(MEANS_OUTLET_PRESSURE) X(MEANS_GAUGE) X(MEANS_READING) X(MEANS_TEST) X(MEANS_FINDING) X(MEANS_CASES) X(MEANS_CAUSE) X(MEANS_SHARES)                                                         \
    /* objects of a survey or a catalogue */                                                      \
    X(GROUP_CATALOGUE) X(GROUP_VALVE) X(GROUP_FALLOFF) X(GROUP_FALLOFF_POINT) X(GROUP_COSTS)      \
    X(GROUP_SIZE_COST) X(GROUP_SURVEY) X(GROUP_PROJECT) X(GROUP_SITE) X(GROUP_WATER) X(GROUP_SUPPLY)               \
    X(GROUP_FLOW_TEST) X(GROUP_PIPE) X(GROUP_PATH) X(GROUP_METER) X(GROUP_BACKFLOW)               \
    X(GROUP_STRAINER) X(GROUP_DEVICE) X(GROUP_LOSS) X(GROUP_STATION_PIPE) X(GROUP_SCENARIO)       \
    X(GROUP_LOG) X(GROUP_BREAKS) X(GROUP_LOADING) X(GROUP_GRAPH) X(GROUP_FIXTURE)                 \
    X(GROUP_CONTINUOUS) X(GROUP_DOWNSTREAM) X(GROUP_OUTLET) X(GROUP_HEATER) X(GROUP_TANK)         \
    X(GROUP_LIMITS) X(GROUP_EXISTING) X(GROUP_STAGE) X(GROUP_BRANCH) X(GROUP_CASE) X(GROUP_READING) X(GROUP_TEST) X(GROUP_FINDING) X(GROUP_CASES) X(GROUP_LIKELIHOOD) X(GROUP_LIKELIHOOD_ROW)

/** X(NAME): what is wrong with a survey or a catalogue. */
#define QLL_TEXT_READER_LIST(X)                                                                   \
    /* what was found */                                                                          \
    X(FOUND_OBJECT) X(FOUND_LIST_OF_ONE) X(FOUND_LIST_OF) X(FOUND_HERE) X(ORIGIN) X(LIMIT_GIVEN)  \
    X(LIMIT_DEFAULT) X(LIMIT_ASSUMED)                                                             \
    /* what is expected */                                                                        \
    X(EXPECT_OBJECT) X(EXPECT_NUMBER) X(EXPECT_BARE_NUMBER) X(EXPECT_QUANTITY) X(EXPECT_PAIR)     \
    X(EXPECT_TEXT) X(EXPECT_WORD) X(EXPECT_FLAG) X(EXPECT_LIST) X(EXPECT_FAMILY)                  \
    X(EXPECT_HOW_MANY) X(EXPECT_FITTINGS) X(EXPECT_FIXTURE) X(EXPECT_HOURS) X(EXPECT_HOURLY)      \
    X(EXPECT_MESH)                                                                                \
    /* keys and words */                                                                          \
    X(KEY_UNKNOWN) X(KEY_MISSING) X(KEY_MISSING_EXAMPLE) X(VERSION_UNKNOWN) X(NO_SUCH_DOCUMENT)   \
    X(WORD_UNKNOWN) X(WORD_UNKNOWN_LISTED) X(A_WORD_FOR) X(A_FAMILY) X(A_FITTING) X(A_FIXTURE)    \
    X(A_PEAK) X(A_QUESTION) X(AN_ANSWER_TO) X(A_FINDING) X(A_CAUSE) X(CARRIES)                                                                          \
    /* values */                                                                                  \
    X(NO_UNIT_WRITE) X(BELOW_LEAST) X(ABOVE_MOST) X(NOT_WHOLE) X(LOWER_FIRST) X(X_NOT_RISING)     \
    X(Y_NOT_ABOVE) X(Y_BELOW) X(Y_ABOVE) X(NAME_EMPTY) X(NAME_LONG) X(NAME_CONTROL)               \
    X(LIST_EMPTY) X(LIST_EMPTY_OR_NONE) X(LIST_LONG)                                              \
    /* supply */                                                                                  \
    X(STATIC_MISSING) X(STATIC_MISSING_TEST) X(WARN_NO_FLOW_TEST) X(STATIC_BELOW_TEST)            \
    X(STATIC_ABOVE_HIGH) X(STATIC_ABOVE_TEST) X(WARN_STATIC_HIGH) X(WARN_STATIC_LOW)              \
    X(TWO_ATMOSPHERES)                                                                            \
    /* upstream */                                                                                \
    X(ENTRY_UNKNOWN) X(ENTRY_MISSING) X(ENTRY_TWICE) X(METER_NO_SIZE) X(BACKFLOW_NO_SIZE)         \
    X(METER_SIZE_UNKNOWN) X(METER_NEEDS_LOSS) X(BACKFLOW_SIZE_UNKNOWN) X(MESH_UNKNOWN)            \
    X(SIZE_UNKNOWN) X(FITTINGS_NOT_WHOLE)                                                         \
    /* downstream and limits */                                                                   \
    X(HEATER_HOT) X(HEATER_COLD) X(RELIEF_OPEN) X(SET_ABOVE_LOWEST) X(STATIC_BELOW_LOWEST)        \
    X(SET_ABOVE_STATIC) X(STATIC_BELOW_SET) X(SET_NOT_BELOW_SUPPLY) X(WARN_SET_ABOVE_LOWEST)      \
    X(FALLOFF_NOT_BELOW_SET) X(VELOCITY_IN_BAND) X(BAND_ABOVE_VELOCITY) X(RATIO_BELOW_PREFERRED)  \
    X(PREFERRED_ABOVE_RATIO) X(INLET_HIGHEST_STATIC) X(INLET_HIGHEST_SET)                         \
    /* scenarios */                                                                               \
    X(BELONGS_TO) X(BELONGS_TO_DWELLINGS) X(PART_OF_BATH) X(PEOPLE_MISSING_KEY)                   \
    X(PEOPLE_MISSING_HOMES) X(PEOPLE_MISSING_BATHS) X(FIXTURES_MISSING) X(FIXTURES_MISSING_OR)    \
    X(NAME_TWICE) X(LOG_KEYS_ALONE) X(OUTDOOR_ELSEWHERE) X(LOG_UNIT_UNKNOWN) X(ZONE_UNKNOWN)      \
    /* cases */                                                                                   \
    X(NOT_MEASURED) X(HINT_SAY_OUTCOME) X(MEASURED_NO_ANSWER) X(OUTCOME_NOT_MEASURED)             \
    X(TEST_NO_OUTCOME) X(SHARE_OUT) X(SHARES_NOT_ONE)                                                                            \
    /* catalogues */                                                                              \
    X(SHEET_SET_INLET) X(SHEET_INLET_MAX) X(SHEET_SET_RANGE) X(XFZ_ABOVE_FL) X(SEAT_ABOVE_BODY)   \
    X(WARN_KV_OPEN_PIPE) X(FALLOFF_MISSING) X(FALLOFF_TWICE) X(LAW_NOTHING_LEFT) X(LAW_KV)        \
    X(LAW_KV_AFTER) X(FLOW_MIN_ABOVE) X(ID_TWICE) X(CURRENCY_UNKNOWN) X(COST_SIZE_TWICE)          \
    X(VALVE_UNKNOWN) X(VALVE_UNKNOWN_NEAR) X(VALVE_NONE) X(VALVE_NONE_SET) X(VALVE_AND_NEXT)      \
    X(VALVE_DIRECT) X(VALVE_PILOT) X(VALVES_AND_MORE)                                             \
    /* tables of valves and points */                                                             \
    X(MARKS_MIXED) X(MARKS_UNKNOWN) X(HINT_DECIMAL_POINTS) X(ACTING_UNKNOWN) X(POINT_COUNT)       \
    X(POINT_ALONE) X(POINT_IMPOSSIBLE) X(POINTS_CONTRADICT) X(POINT_ABOVE_KV) X(COLUMN_UNKNOWN)   \
    X(COLUMN_SAME) X(COLUMN_MISSING) X(COLUMN_MISSING_IT) X(TABLE_NO_VALVES)                      \
    X(TABLE_MANY_VALVES)

/** X(NAME): what is wrong with a question. */
#define QLL_TEXT_ASK_LIST(X)                                                                      \
    X(RECORDING_MISSING) X(RECORDING_SHORT) X(HINT_RECORD_TEN) X(RECORDING_RATE) X(RECORDING_FAILED) \
    X(BEGINS_UNREADABLE) X(BEGINS_UNKNOWN) X(HINT_BEGINS) X(BESIDE_APART) X(WHAT_BEGINS) X(WHY_BEGINS_FILE) X(WHY_BEGINS_NAME) X(WHY_BEGINS_TOGETHER) \
    X(WHY_SEAT_LAND) X(WHAT_SEAT_LAND)                                                            \
    /* what a question asks for */                                                                \
    X(NO_QUESTION) X(NO_ANSWER) X(CASE_IS_OPEN) X(SEED_UNKNOWN) X(SECTION_UNKNOWN) X(FIGURE_UNKNOWN) X(FORM_WRONG) X(UNITS_UNKNOWN)           \
    X(SHEETS_UNKNOWN) X(LENGTH_UNKNOWN) X(DATE_UNKNOWN) X(PART_UNKNOWN) X(PARTS_NONE) X(FIGURES_NONE)                               \
    X(LANGUAGE_UNKNOWN) X(DOCUMENT_MISSING) X(CALC_UNKNOWN) X(HINT_CALC_LIST)                     \
    X(ARGUMENT_UNPARTED) X(HINT_ARGUMENT) X(FLOW_RANGE) X(INLET_RANGE) X(EXISTING_MISSING)        \
    X(HINT_ADD_EXISTING) X(WARN_FULL_TRAVEL) X(HINT_ADD_KV) X(FIGURE_NUMBER)                      \
    X(LOG_KEY_UNKNOWN) X(LOG_WORD_UNKNOWN) X(HINT_AS_ARGUMENT) X(LOG_NOT_HANDED_IN) X(LOG_NOT_READ) X(HINT_IN_SURVEY) X(VERB_UNKNOWN) X(DESCRIBED_UNKNOWN) X(DESCRIBED_KEY_UNKNOWN) X(SCHEMA_OF_ONE)                        \
    /* what a calculation takes */                                                                \
    X(CALC_USAGE) X(CALC_REQUIRED_KEY) X(CALC_OPTIONS) X(CALC_INPUTS) X(CALC_TAKES) X(CALC_TAKES_SUCH_AS) X(CALC_IS_REQUIRED)          \
    X(CALC_DEFAULTS) X(CALC_REPEATS) X(CALC_FORMULA) X(CALC_VALIDITY) X(CALC_SOURCE)

/** X(NAME): hints of a log that ask for what only the survey can say. */
#define QLL_TEXT_LOG_ASK_LIST(X)                                                                  \
    X(ASK_VALUE_COLUMN) X(ASK_KEY) X(ASK_METER) X(ASK_METER_OR_SUM) X(ASK_METER_COLUMN)           \
    X(ASK_REPEATED) X(ASK_PULSE) X(ASK_UNIT) X(ASK_KIND) X(ASK_DECIMAL) X(ASK_ORDER)              \
    X(ASK_ORDER_OR_CUT) X(ASK_CHANNEL) X(ASK_PRESSURES) X(ASK_CHANNEL_UNIT)

/** X(NAME): what is wrong with a log of a meter, and with the numbers of a scenario. */
#define QLL_TEXT_LOG_LIST(X)                                                                      \
    QLL_TEXT_LOG_ASK_LIST(X)                                                                      \
    /* what else to do */                                                                         \
    X(HINT_SORT) X(HINT_SORT_OR_FILE) X(HINT_ROW_PER_LINE) X(HINT_UNPACK) X(HINT_SAVE_UTF8)       \
    X(HINT_WHOLE_CLOCK) X(HINT_CHECK_VALUE) X(HINT_STAMPED_ROWS)                                  \
    /* the file */                                                                                \
    X(LOG_COMPRESSED) X(LOG_ZERO_BYTES) X(LOG_EMPTY) X(LOG_LINE_LONG)                             \
    /* columns and meters */                                                                      \
    X(LOG_NO_STAMPS) X(LOG_NO_COLUMN) X(LOG_NO_VALUE) X(LOG_TWO_COLUMNS) X(LOG_NO_END)            \
    X(LOG_KEYS_UNKNOWN) X(LOG_KEYS_SEVERAL) X(LOG_NO_METER) X(LOG_OTHER_METER)                    \
    X(LOG_NO_PRESSURE) X(LOG_WHICH_PRESSURE) X(LOG_CHANNEL_NO_UNIT) X(LOG_CHANNEL_UNIT)           \
    /* values and units */                                                                        \
    X(LOG_NO_PULSE) X(LOG_TWO_PULSES) X(LOG_NO_UNIT) X(LOG_NO_DURATION_UNIT) X(LOG_UNIT_NEITHER)  \
    X(LOG_UNIT_EITHER) X(LOG_UNIT_OF_FLOW) X(LOG_POINTS_OPEN) X(LOG_COMMAS_OPEN)                  \
    X(LOG_MARKS_MIXED) X(LOG_MARKS_BOTH) X(LOG_POINTS_LATER) X(LOG_COMMAS_LATER)                  \
    /* times */                                                                                   \
    X(LOG_DATES_OPEN) X(LOG_HALF_CLOCK) X(LOG_ONE_ROW) X(LOG_DAYS_APART) X(LOG_TOO_FAR)           \
    X(LOG_SHUFFLED) X(LOG_SAME_TIME) X(LOG_SAME_TIME_COLUMN)                                      \
    /* the whole log */                                                                           \
    X(LOG_ROWS_LATE) X(LOG_ROWS_REPEATED) X(LOG_ROWS_BAD) X(LOG_ROWS_BACKWARDS) X(LOG_ROWS_DATE)  \
    X(LOG_GAP) X(LOG_NO_FLOW) X(LOG_UNPLACED)                                                     \
    /* scenarios */                                                                               \
    X(FAULT_FIXTURES) X(FAULT_OCCUPANCY) X(FAULT_FIXTURE_FLOW) X(FAULT_PROBABILITY)               \
    X(FAULT_CONTINUOUS) X(FAULT_HOURS) X(FAULT_DAY) X(FAULT_DAY_VOLUME) X(FAULT_RATES)            \
    X(FAULT_HOUR_RATES) X(FAULT_WORDS) X(FAULT_BREAK) X(FAULT_OUTLETS) X(FAULT_DURATION)          \
    X(FAULT_READINGS) X(FAULT_LOG_PEAKS) X(FAULT_PEOPLE) X(FAULT_QUANTILE)

/** X(NAME): what a calculation asks for, and what is wrong with it. */
#define QLL_TEXT_HANDBOOK_LIST(X)                                                                 \
    /* what its inputs are */                                                                     \
    X(HELP_UNITS) X(HELP_CLOSETS) X(HELP_GROUP) X(HELP_QUANTILE) X(HELP_HEATED)                   \
    X(HELP_AS_IT_COMES) X(HELP_AS_KEPT) X(HELP_LINE) X(HELP_HIGHEST) X(HELP_WARMS)                \
    X(HELP_THROUGH_VALVE) X(HELP_BY_VOLUME) X(HELP_XFZ_OR_ESTIMATED) X(HELP_ENDS_OR_PIPE)         \
    X(HELP_SEAT) X(HELP_PIPE_BORE) X(HELP_PIPE_WALL) X(HELP_MATERIAL) X(HELP_IN_MATERIAL)         \
    X(HELP_AIR) X(HELP_IN_LIQUID) X(HELP_EDITION) X(HELP_THROUGH_PIPE) X(HELP_OF_PIPE)            \
    X(HELP_ROUGHNESS) X(HELP_REYNOLDS) X(HELP_RELATIVE) X(HELP_MESH) X(HELP_OPENING)              \
    X(HELP_WIRE) X(HELP_AREA_RATIO) X(HELP_BLOCKED) X(HELP_THROUGH_STRAINER) X(HELP_LIQUID)       \
    X(HELP_OF_WATER) X(HELP_VALVE_BORE) X(HELP_PIPE_BEFORE) X(HELP_PIPE_BEHIND) X(HELP_CRITICAL)  \
    X(HELP_INSTEAD) X(HELP_BEFORE_ALL) X(HELP_THROUGH_ALL) X(HELP_LEG) X(HELP_WALL)               \
    X(HELP_MODULUS) X(HELP_POISSON) X(HELP_ANCHORING) X(HELP_WAVE_SPEED) X(HELP_LOST_AT_ONCE)     \
    X(HELP_XFZ) X(HELP_BEFORE_FIRST) X(HELP_BEHIND_LAST) X(HELP_STAGES) X(HELP_XFZ_STAGES)        \
    X(HELP_BAROMETRIC) X(HELP_FAMILY) X(HELP_NOMINAL) X(HELP_BORE) X(HELP_FL) X(HELP_FD)          \
    X(HELP_KV) X(HELP_CV) X(HELP_DRAWN) X(HELP_FALL) X(HELP_RISE) X(HELP_TIME) X(HELP_VALVE_SIZE) X(HELP_BEFORE_VALVE) X(HELP_BEHIND_VALVE) X(HELP_ABSOLUTE_INSTEAD)      \
    /* what is wrong with what was given */                                                       \
    X(INPUT_BELOW) X(INPUT_ABOVE) X(INPUT_NOTHING) X(INPUT_NOT_ABOVE) X(INPUT_NOT_BELOW)          \
    X(INPUT_EITHER) X(INPUT_WITH) X(INPUT_TWICE) X(INPUT_PARTS) X(INPUT_ONCE_PER_STAGE)           \
    X(INPUT_LAYERS) X(INPUT_LEG_ABOVE) X(INPUT_TOO_MUCH) X(INPUT_NO_SIZE) X(INPUT_NO_LEVEL)       \
    X(INPUT_BOILS) X(INPUT_READ_AS_GAUGE) X(INPUT_BEYOND)

/** X(NAME): of what may be wrong (data/causes.csv), what is asked and answered (data/evidence.csv). */
#define QLL_TEXT_TROUBLE_LIST(X)                                                                  \
    /* what may be wrong */                                                                       \
    X(CAUSE_OVERSIZED_CHATTER) X(CAUSE_UNDERSIZED_VELOCITY) X(CAUSE_RATIO_CAVITATION)             \
    X(CAUSE_SEAT_DEBRIS) X(CAUSE_SEAT_WORN) X(CAUSE_STRAINER_CLOGGED) X(CAUSE_DIAPHRAGM_DAMAGED)  \
    X(CAUSE_STEM_STICKING) X(CAUSE_FIXTURE_NOISE) X(CAUSE_AIR_IN_LINE) X(CAUSE_PARALLEL_CLOSE)    \
    X(CAUSE_SERIES_SPLIT) X(CAUSE_THERMAL_EXPANSION) X(CAUSE_QUICK_CLOSING_HAMMER)                \
    X(CAUSE_SUPPLY_SWINGS) X(CAUSE_SHORT_STRAIGHT) X(CAUSE_SET_WRONG) X(CAUSE_BACKFLOW_CHATTER)   \
    X(CAUSE_PIPE_VELOCITY) X(CAUSE_LOOSE_PIPE) X(CAUSE_BYPASS_OR_CROSS) X(CAUSE_PILOT_HUNTING)    \
    X(CAUSE_GAUGE_FAULT) X(CAUSE_OTHER)                                                           \
    /* what cures it; {1} to {2} the distance between set-points, {3} the most velocity */        \
    X(CURE_OVERSIZED_CHATTER) X(CURE_UNDERSIZED_VELOCITY) X(CURE_RATIO_CAVITATION)                \
    X(CURE_SEAT_DEBRIS) X(CURE_SEAT_WORN) X(CURE_STRAINER_CLOGGED) X(CURE_DIAPHRAGM_DAMAGED)      \
    X(CURE_STEM_STICKING) X(CURE_FIXTURE_NOISE) X(CURE_AIR_IN_LINE) X(CURE_PARALLEL_CLOSE)        \
    X(CURE_SERIES_SPLIT) X(CURE_THERMAL_EXPANSION) X(CURE_QUICK_CLOSING_HAMMER)                   \
    X(CURE_SUPPLY_SWINGS) X(CURE_SHORT_STRAIGHT) X(CURE_SET_WRONG) X(CURE_BACKFLOW_CHATTER)       \
    X(CURE_PIPE_VELOCITY) X(CURE_LOOSE_PIPE) X(CURE_BYPASS_OR_CROSS) X(CURE_PILOT_HUNTING)        \
    X(CURE_GAUGE_FAULT) X(CURE_OTHER)                                                             \
    /* what is asked; {1} the amount of its row */                                                \
    X(ASK_SOUND_KIND) X(ASK_NOISE_WHEN) X(ASK_TIME_PATTERN) X(ASK_PRESSURE_COMPLAINT)             \
    X(ASK_ONSET) X(ASK_RELIEF_DRIPS) X(ASK_WHERE_HEARD) X(ASK_BONNET_LEAK) X(ASK_LOOK_PIPING)     \
    X(ASK_LOCKUP_VS_SET) X(ASK_CREEP_10MIN) X(ASK_CREEP_INLET_SHUT) X(ASK_HEATER_ISOLATION)       \
    X(ASK_PEAK_GAUGE_24H) X(ASK_FALLOFF) X(ASK_INLET_DROP) X(ASK_STRAINER_DP)                     \
    X(ASK_PRESSURE_RATIO) X(ASK_INLET_SWEEP) X(ASK_VELOCITY) X(ASK_LOW_FLOW_SHARE) X(ASK_THROTTLE_OR_ADD_FLOW)       \
    X(ASK_SPLIT_DROP_TEST) X(ASK_FIXTURE_ISOLATE) X(ASK_LOCATE_BY_EAR) X(ASK_FLUSH_TEST)          \
    X(ASK_ADJUST_RESPONSE) X(ASK_SPREAD_SETPOINTS) X(ASK_SLOW_PILOT) X(ASK_AIR_SEEN)              \
    X(ASK_HOLD_PIPE) X(ASK_HAMMER_TRIGGER) X(ASK_GAUGE_SWAP) X(ASK_LOG_NOFLOW_SLOPE)              \
    X(ASK_LOG_OSCILLATION) X(ASK_LOG_SPIKES) X(ASK_LOG_P1) X(ASK_LOG_INLET_EFFECT)                \
    X(ASK_LOG_FALLOFF_TREND) X(ASK_LOG_SETPOINT_DRIFT) X(ASK_SOUND_CLASS) X(ASK_TONE_MOVES)       \
    /* how it is done */                                                                          \
    X(HOW_BONNET_LEAK) X(HOW_LOOK_PIPING) X(HOW_LOCKUP_VS_SET) X(HOW_CREEP_10MIN)                 \
    X(HOW_CREEP_INLET_SHUT) X(HOW_HEATER_ISOLATION) X(HOW_PEAK_GAUGE_24H) X(HOW_FALLOFF)          \
    X(HOW_INLET_DROP) X(HOW_STRAINER_DP) X(HOW_PRESSURE_RATIO) X(HOW_INLET_SWEEP) X(HOW_VELOCITY)                    \
    X(HOW_LOW_FLOW_SHARE) X(HOW_THROTTLE_OR_ADD_FLOW) X(HOW_SPLIT_DROP_TEST)                      \
    X(HOW_FIXTURE_ISOLATE) X(HOW_LOCATE_BY_EAR) X(HOW_FLUSH_TEST) X(HOW_ADJUST_RESPONSE)          \
    X(HOW_SPREAD_SETPOINTS) X(HOW_SLOW_PILOT) X(HOW_AIR_SEEN) X(HOW_HOLD_PIPE)                    \
    X(HOW_HAMMER_TRIGGER) X(HOW_GAUGE_SWAP) X(HOW_LOG_NOFLOW_SLOPE) X(HOW_LOG_OSCILLATION)        \
    X(HOW_LOG_SPIKES) X(HOW_LOG_P1) X(HOW_LOG_INLET_EFFECT) X(HOW_LOG_FALLOFF_TREND)              \
    X(HOW_LOG_SETPOINT_DRIFT) X(HOW_SOUND_CLASS) X(HOW_TONE_MOVES)                                \
    /* answers; {1} and {2} its bounds */                                                         \
    X(ANSWER_NONE) X(ANSWER_HISS_CRACKLE) X(ANSWER_SQUEAL_WHISTLE) X(ANSWER_CHATTER_BUZZ)         \
    X(ANSWER_BANG_THUD) X(ANSWER_RUSH_ROAR) X(ANSWER_NO_NOISE) X(ANSWER_LOW_FLOW)                 \
    X(ANSWER_HIGH_FLOW) X(ANSWER_ANY_FLOW) X(ANSWER_VALVE_CLOSING) X(ANSWER_NO_FLOW_OR_RANDOM)    \
    X(ANSWER_NO_PATTERN) X(ANSWER_NIGHT) X(ANSWER_PEAK_HOURS) X(ANSWER_AFTER_HEATING)             \
    X(ANSWER_RANDOM) X(ANSWER_FINE) X(ANSWER_TOO_HIGH) X(ANSWER_LOW_WHEN_RUNNING)                 \
    X(ANSWER_SWINGS) X(ANSWER_SINCE_INSTALL) X(ANSWER_AFTER_WORKS) X(ANSWER_GRADUAL)              \
    X(ANSWER_SUDDEN) X(ANSWER_NO) X(ANSWER_YES) X(ANSWER_MANY_OR_STATION) X(ANSWER_ONE_FIXTURE)   \
    X(ANSWER_WITHIN) X(ANSWER_WELL_ABOVE) X(ANSWER_NEAR_INLET) X(ANSWER_WELL_BELOW)               \
    X(ANSWER_UP_TO) X(ANSWER_BETWEEN) X(ANSWER_OVER) X(ANSWER_NO_RISE) X(ANSWER_RISE)             \
    X(ANSWER_NO_RISE_ANYWAY) X(ANSWER_RISE_STOPS) X(ANSWER_RISE_CONTINUES) X(ANSWER_NORMAL)       \
    X(ANSWER_SLOW_HIGH_BELOW_INLET) X(ANSWER_ABOVE_INLET) X(ANSWER_SPIKES) X(ANSWER_SHEET_UP_TO)  \
    X(ANSWER_SHEET_BETWEEN) X(ANSWER_SHEET_OVER) X(ANSWER_UNDER) X(ANSWER_FROM) X(ANSWER_CLEAN)   \
    X(ANSWER_DIRTY) X(ANSWER_PLUGGED) X(ANSWER_RATIO_UP_TO) X(ANSWER_RATIO_BETWEEN)               \
    X(ANSWER_RATIO_OVER) X(ANSWER_SHARE_UNDER) X(ANSWER_SHARE_BETWEEN) X(ANSWER_SHARE_OVER)       \
    X(ANSWER_STOPS) X(ANSWER_SAME) X(ANSWER_WORSE) X(ANSWER_FALLS) X(ANSWER_NO_CHANGE)            \
    X(ANSWER_VALVE) X(ANSWER_FIXTURE) X(ANSWER_BACKFLOW_PREVENTER) X(ANSWER_PIPE)                 \
    X(ANSWER_NO_CREEP_ANYWAY) X(ANSWER_BETTER) X(ANSWER_SMOOTH) X(ANSWER_STICKS_OR_JUMPS)         \
    X(ANSWER_NO_RESPONSE) X(ANSWER_NO_HUNTING) X(ANSWER_NO_RATTLE) X(ANSWER_DIFFERS)              \
    X(ANSWER_FLAT) X(ANSWER_RISING_ALWAYS) X(ANSWER_RISING_AFTER_HEATING) X(ANSWER_FALLING)       \
    X(ANSWER_SLOW) X(ANSWER_FAST) X(ANSWER_RARE) X(ANSWER_FREQUENT) X(ANSWER_MOVE_UNDER)          \
    X(ANSWER_MOVE_BETWEEN) X(ANSWER_MOVE_OVER) X(ANSWER_STEADY) X(ANSWER_WORSENING) X(ANSWER_UP)  \
    X(ANSWER_DOWN) X(ANSWER_NONE_OTHER) X(ANSWER_SQUEAL) X(ANSWER_CAVITATION) X(ANSWER_CHATTER)   \
    X(ANSWER_HAMMER) X(ANSWER_FLOW_RUSH) X(ANSWER_NO_TONE) X(ANSWER_MOVES) X(ANSWER_FIXED)        \
    /* the sheet of a visit */                                                                    \
    X(VISIT_TITLE) X(VISIT_LIKELIEST) X(VISIT_NOT_SURE) X(VISIT_TWO) X(VISIT_TENTHS)              \
    X(VISIT_ONE_IN) X(VISIT_NEARLY) X(VISIT_HARDLY) X(VISIT_RELIEF_RUNS) X(VISIT_OUTLET_HIGH)     \
    X(VISIT_ABOVE_INLET) X(VISIT_CAUSES) X(VISIT_WHY) X(VISIT_DOUBTS) X(VISIT_NEXT)               \
    X(VISIT_CURE) X(VISIT_KNOWN) X(VISIT_WORK) X(VISIT_GAUGES) X(VISIT_HEAD_CAUSE)                \
    X(VISIT_HEAD_CHANCE) X(VISIT_HEAD_QUESTION) X(VISIT_HEAD_ANSWER) X(VISIT_HEAD_FROM)           \
    X(VISIT_HEAD_GAUGE) X(VISIT_HEAD_READS) X(VISIT_HEAD_FLOW) X(VISIT_HEAD_WHEN)                 \
    X(VISIT_SPEAKS_FOR) X(VISIT_SPEAKS_AGAINST) X(VISIT_DOUBT)                   \
    X(VISIT_NEXT_ONE) X(VISIT_NEXT_OR) X(VISIT_NEXT_LOG) X(VISIT_DONE_SURE) X(VISIT_DONE_LOG)     \
    X(VISIT_NO_CURE) X(VISIT_CONFIRM) X(VISIT_WITH_STATION) X(VISIT_FROM_TEST)                    \
    X(VISIT_FROM_SYMPTOM) X(VISIT_FROM_READING) X(VISIT_FROM_FINDING) X(VISIT_FROM_SURVEY)        \
    X(VISIT_GAUGE_INLET) X(VISIT_GAUGE_OUTLET) X(VISIT_AS_FOUND) X(VISIT_AS_LEFT)                 \
    X(VISIT_NOT_TOLD) X(VISIT_JUDGED) X(VISIT_PROMPT) X(VISIT_ASSUMED) X(VISIT_UNUSED)            \
    X(UNUSED_NO_QUESTION) X(UNUSED_NO_FIGURE) X(UNUSED_ANSWERED)

/* What is refused of moving water. */
#define QLL_TEXT_MOTION_LIST(X)                                                                   \
    X(PIPE_LENGTH) X(PIPE_BORE) X(PIPE_WAVE_SPEED) X(PIPES_IN_A_LOOP) X(MOVE_TIME) X(MOVE_ORDER)  \
    X(MOVE_SHARE) X(PIPE_NO_LENGTH) X(HINT_PIPE_NO_LENGTH) X(VALVE_CANNOT_MOVE) X(HINT_VALVE_CANNOT_MOVE)

/* What the command line refuses, and its help. */
#define QLL_TEXT_CLI_LIST(X) \
    X(CLI_NO_COMMAND) X(CLI_COMMAND_UNKNOWN) X(CLI_COMMAND_NEAR) X(CLI_COMMAND_HALF) \
    X(CLI_COMMAND_OPTION) X(CLI_COMMAND_WORDS) X(CLI_OPTION_UNKNOWN) X(CLI_OPTION_NEAR) \
    X(CLI_OPTION_ALONE) X(CLI_OPTION_VALUE) X(CLI_INPUT_TWICE) X(CLI_OUTPUT_MISSING) \
    X(CLI_OUTPUT_IS_INPUT) X(CLI_PLOT_NOT_SVG) X(CLI_SECTIONS_SVG) X(CLI_CANNOT_READ) \
    X(CLI_CANNOT_WRITE) X(CLI_CANNOT_ANSWER) X(CLI_STANDARD_INPUT) X(CLI_WARNING) X(CLI_MORE) \
    X(CLI_NO_MEMORY) X(CLI_STOPPED) X(CLI_HELP_START) X(CLI_HELP_OPTIONS) X(CLI_HELP_END) \
    X(CLI_HELP_USAGE) X(CLI_VALUE_FILE) X(CLI_VALUE_WHAT) X(CLI_VALUE_LIST) X(CLI_VALUE_DATE) X(CLI_VALUE_TIME) X(CLI_LISTEN_LOG_MISSING) \
    X(CLI_VALUE_NAME) X(CLI_VALUE_Q) X(CLI_VALUE_P) X(CLI_VALUE_N) X(CLI_TAKES_SURVEY) X(CLI_TAKES_CASE) X(CLI_TAKES_LOG) X(CLI_TAKES_RECORDING) X(CLI_LOG_TWICE) X(CLI_ONE_INPUT) \
    X(CLI_SHEETS_MISSING) X(CLI_JSON_OR_OUTPUT) \
    X(CLI_TAKES_CALC) X(CLI_TAKES_CSV) X(CLI_OPTION_IS_CATALOGUE) X(CLI_OPTION_IS_OUTPUT) \
    X(CLI_OPTION_IS_OF) X(CLI_OPTION_IS_SECTIONS) X(CLI_OPTION_IS_LENGTH) \
    X(CLI_OPTION_IS_DATE) X(CLI_OPTION_IS_PLOT) X(CLI_OPTION_IS_PARTS) \
    X(CLI_OPTION_IS_FIGURES) X(CLI_OPTION_IS_FLOW) X(CLI_OPTION_IS_INLET) \
    X(CLI_OPTION_IS_SURVEY) X(CLI_OPTION_IS_QUIET) X(CLI_OPTION_IS_LOG) X(CLI_OPTION_IS_BEGINS) X(CLI_OPTION_IS_LIKELIHOOD) X(CLI_OPTION_IS_LEARN) X(CLI_OPTION_IS_SEED) X(CLI_OPTION_IS_JSON) X(CLI_OPTION_IS_UNITS) \
    X(CLI_OPTION_IS_LANGUAGE) X(CLI_OPTION_IS_HELP) X(CLI_OPTION_IS_VERSION) \
    X(CLI_ANSWERS_DEMAND) X(CLI_DETAIL_DEMAND) X(CLI_ANSWERS_DESIGN) X(CLI_DETAIL_DESIGN) \
    X(CLI_ANSWERS_CHECK) X(CLI_DETAIL_CHECK) X(CLI_ANSWERS_REPORT) X(CLI_DETAIL_REPORT) \
    X(CLI_ANSWERS_LOG) X(CLI_DETAIL_LOG) X(CLI_ANSWERS_LISTEN) X(CLI_DETAIL_LISTEN) X(CLI_ANSWERS_DIAGNOSE) X(CLI_DETAIL_DIAGNOSE) X(CLI_ANSWERS_CALC) X(CLI_DETAIL_CALC) X(CLI_ANSWERS_IMPORT) X(CLI_DETAIL_IMPORT) \
    X(CLI_ANSWERS_FIT) X(CLI_DETAIL_FIT) X(CLI_ANSWERS_LIST) X(CLI_DETAIL_LIST) \
    X(CLI_TAKES_DESCRIBED) X(CLI_OPTION_IS_SCHEMA) X(CLI_ANSWERS_DESCRIBE) X(CLI_DETAIL_DESCRIBE)

/** X(PART, its table, its list). */
#define QLL_TEXT_PART_LIST(X) \
    X(REASON, reason, QLL_TEXT_REASON_LIST) \
    X(DOCUMENT, document, QLL_TEXT_DOCUMENT_LIST) \
    X(FIELD, field, QLL_TEXT_FIELD_LIST) \
    X(DESCRIBE, describe, QLL_TEXT_DESCRIBE_LIST) \
    X(LABEL, label, QLL_TEXT_LABEL_LIST) \
    X(WORD, word, QLL_TEXT_WORD_LIST) \
    X(READER, reader, QLL_TEXT_READER_LIST) \
    X(ASK, ask, QLL_TEXT_ASK_LIST) \
    X(HANDBOOK, handbook, QLL_TEXT_HANDBOOK_LIST) \
    X(LOG, log, QLL_TEXT_LOG_LIST) \
    X(TROUBLE, trouble, QLL_TEXT_TROUBLE_LIST) \
    X(MOTION, motion, QLL_TEXT_MOTION_LIST) \
    X(CLI, cli, QLL_TEXT_CLI_LIST)

/* clang-format on */

#endif
