/* The names of all texts that are stored as values; the folders of src/wording have what they say. */
#ifndef QUELL_BASE_SAID_LIST_H
#define QUELL_BASE_SAID_LIST_H

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
    X(VALUE) X(VALUE_RANGE) X(VALUE_BY_SIZE) X(VALUE_NO_PIPES) X(VALUE_NONE) X(VALUE_NOTHING)     \
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
    /* where hours come from: data/diurnal.csv */                                                 \
    X(HOURS_ALICANTE) X(HOURS_MIDRISE_US) X(HOURS_DWELLING_CH) X(HOURS_OFFICE) X(HOURS_ASHRAE)    \
    X(HOURS_PRESENCE) X(HOURS_HOSPITAL_CH) X(HOURS_HOUSE) X(HOURS_OWN)                            \
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
    X(SOURCE_LOG_RESOLVED) X(SOURCE_GIVEN)                                                        \
    /* words for machines, as people read them */                                                 \
    X(WORD_SURVEY) X(WORD_PEAK) X(WORD_DIRECT) X(WORD_PILOT) X(WORD_COPPER_L) X(WORD_NEXT_ROOM)   \
    X(WORD_US) X(WORD_METRIC) X(WORD_HOSE) X(WORD_IRRIGATION) X(WORD_SUMMER) X(WORD_SPRING)       \
    X(WORD_AUTUMN) X(WORD_WINTER) X(WORD_WEEKDAY) X(WORD_SATURDAY) X(WORD_SUNDAY) X(WORD_NONE)    \
    X(WORD_PRIVATE) X(WORD_PUBLIC) X(WORD_APARTMENT) X(WORD_COPPER) X(WORD_CATALOGUE)

/** X(PART, its table, its list). */
#define QLL_TEXT_PART_LIST(X) \
    X(REASON, reason, QLL_TEXT_REASON_LIST)

/* clang-format on */

#endif
