/* Everything a customer reads, by name: one folder of texts per language. How to add a message or a
 * language: docs/howto/add_a_language.md. */
#ifndef QUELL_WORDING_MESSAGES_H
#define QUELL_WORDING_MESSAGES_H

#include "quell/languages.h"

#include "demand/flow_run.h"
#include "demand/remark.h"
#include "demand/scenario.h"
#include "handbook/names.h"
#include "search/design.h"
#include "signals/pressure_log.h"
#include "signals/sound.h"
#include "station/installing.h"
#include "station/parts_list.h"

typedef enum qll_language {
#define QLL_LANGUAGE_NAME(name, code) QLL_LANGUAGE_##name,
    QLL_LANGUAGE_LIST(QLL_LANGUAGE_NAME)
#undef QLL_LANGUAGE_NAME
    QLL_LANGUAGE_COUNT
} qll_language;

extern const char
    *const qll_language_words[]; /* [QLL_LANGUAGE_COUNT] of whatever list wording was built with */

/** The cautions, for everything that leads to a hand on a valve. */
/* clang-format off */
#define QLL_CAUTION_LIST(X)                                                                        \
    X(RELIEVE) X(SCALDS) X(CLOSED) X(FIRE) X(BACKFLOW) X(LICENSED) X(ESTIMATES)

/* What an estimate is, for whoever must choose between figures; below or above the design peak. */
#define QLL_ADVICE_LIST(X)                                                                         \
    X(LESS_CODE) X(LESS_CHANCE) X(LESS_ORDINARY) X(LESS_MEASURED)                                  \
    X(MORE_CODE) X(MORE_CHANCE) X(MORE_ORDINARY) X(MORE_MEASURED)

/* Names and half-sentences that several sentences share. */
#define QLL_PHRASE_LIST(X)                                                                        \
    X(THE_STATION) X(STAGE) X(THE_VALVE) X(STAGE_THE_VALVE) X(THE_OUTLET) X(LOWEST_OUTLET) X(STATION_OUTLET) X(UNKNOWN)              \
    X(SERVICE_VELOCITY) X(SERVICE_PRESSURE) X(PEAK_OF_CODE) X(PEAK_AS_GIVEN) X(PEAK_BY_METHOD)    \
    X(UNDER_ONE_PERCENT) X(LESS_THAN) X(FIGURE_CLOSER) X(ONE_VALVE) X(IN_PARALLEL) X(IN_SERIES) X(THEN)      \
    X(DISAGREEMENT) X(DISAGREES) X(GRADE_GOOD) X(GRADE_UNKNOWN) X(GRADE_CAUTION) X(GRADE_FAIL) X(MARK_GOOD)     \
    X(MARK_UNKNOWN) X(MARK_CAUTION) X(MARK_FAIL) X(ACTING_DIRECT) X(ACTING_PILOT) X(DAY_WEEKDAY) X(DAY_SATURDAY) X(DAY_SUNDAY)    \


/* Column heads, notes and sentences of the sheets. */
#define QLL_SHEET_LIST(X)                                                                         \
    X(HEAD_VALVE) X(HEAD_SIZE) X(HEAD_ACTING) X(HEAD_SET_POINT) X(HEAD_READS) X(HEAD_LOCKUP)      \
    X(HEAD_FLOW) X(HEAD_INLET) X(HEAD_BETWEEN) X(HEAD_OUTLET) X(HEAD_WORKS) X(HEAD_VELOCITY)      \
    X(HEAD_RATIO) X(HEAD_LEVEL) X(HEAD_STATION) X(HEAD_PRICE)              \
    X(HEAD_DESIGN_PEAK) X(HEAD_MEAN) X(HEAD_99_PERCENT) X(HEAD_NOBODY_DRAWS) X(HEAD_BY) X(NONE)   \
    X(NOTE_CANNOT_PASS) X(NOTE_SEAT) X(NOTE_TOO_FAST) X(NOTE_LOW_FLOW) X(NOTE_AUDIBLE)             \
    X(NOTE_FAST) X(NOTE_WIDE_OPEN) X(SHARE_IDLE) X(SHARE_BELOW_STABLE) X(SHARE_BELOW_BAND)        \
    X(SHARE_IN_BAND) X(SHARES_OF_WORST) X(HAMMER_QUICK_CURE) X(SHARE_ABOVE_BAND) X(SHARE_FULL_TRAVEL) X(SHARE_CAVITATING) X(HOW_TO_SET)   \
    X(HANDOVER) X(STRAINER_IN_BODY) X(STRAINER_AHEAD) X(READS_AT)   \
                      \
    X(STEP_MAIN) X(STEP_PIPE) X(STEP_METER) X(STEP_BACKFLOW) X(STEP_STRAINER) X(STEP_DEVICE)      \
    X(STEP_STAGE) X(STEP_STATION) X(HEAD_BEHIND) X(HEAD_NIGHT) X(HEAD_PEAK) X(NOTE_AT_MOST) X(MORE_OUTLETS)

/* Words in plots and schematics. */
#define QLL_FIGURE_LIST(X)                                                                         \
    X(FIGURE_BEYOND) X(FIGURE_SHARE) X(FIGURE_OF_TIME) X(FIGURE_OF_WATER) X(FIGURE_BAND)           \
    X(FIGURE_HOUR) X(FIGURE_FULL_TRAVEL) X(FIGURE_AT_PEAK) X(FIGURE_BUILDING_TIME)                 \
    X(FIGURE_SHUT) X(FIGURE_AT) X(FIGURE_FREQUENCY) X(FIGURE_LEVEL) X(FIGURE_PRICE)                \
    X(FIGURE_NOISE) X(FIGURE_OTHERS) X(FIGURE_LOWEST) X(FIGURE_HIGHEST) X(FIGURE_MIDDLE)           \
    X(FIGURE_WANTED) X(FIGURE_NEVER_ABOVE) X(FIGURE_ALLOWED) X(FIGURE_ALONE) X(FIGURE_BETWEEN) X(FIGURE_SET)         \
    X(FIGURE_FROM_MAIN) X(FIGURE_TO_BUILDING) X(FIGURE_ISOLATING) X(FIGURE_STRAINER)               \
    X(FIGURE_UNION) X(FIGURE_FLANGE) X(FIGURE_DIRECT) X(FIGURE_PILOT) X(FIGURE_GAUGE) X(FIGURE_COCK)                \
    X(FIGURE_HOSE_VALVE) X(FIGURE_RELIEF) X(FIGURE_NO_MORE)

/* Names of the answers, in the order of qll_report_of; headings of the terminal and of a check. */
#define QLL_NAMES_LIST(X)                                                                         \
    X(NAME_DEMAND) X(NAME_DESIGN) X(NAME_CHECK) X(HOURS) X(THERE_NOW) X(WHY_NOISY) X(NOT_NOISY)    \
    X(INLET_MIDDLE) X(INLETS) X(INLETS_SHORT) X(ASSUMED_SHORT)

/* What a meter's log says, and what changes between scenarios. */
#define QLL_METERED_LIST(X)                                                                       \
    X(LOG_READ) X(LOG_PEAKS) X(LOG_OVER) X(LOG_NIGHT) X(LOG_NEVER_ZERO) X(LOG_MENDED) X(HEAD_MENDED)             \
    X(HOURS_WEEK) X(HEAD_WEEKDAYS) X(HEAD_WEEKENDS) X(CHANGES)                        \
    X(HEAD_OR_LESS) X(CHANGE) X(LOW_FLOW_MEANS)

/* What a fit of a valve to its capacity points says. */
#define QLL_FIT_LIST(X)                                                                           \
    X(NAME_FIT) X(FIT_POINTS) X(FIT_ENTRY) X(FIT_STRAIGHT) X(FIT_HAS_BAND)           \
    X(FIT_HAS_POINTS) X(HEAD_SET) X(HEAD_FALLOFF) X(HEAD_OPENING) X(HEAD_FITTED) X(HEAD_OFF_BY)

/* What the list of a catalogue says. */
#define QLL_CATALOGUE_LIST(X)                                                                     \
    X(NAME_LIST) X(HEAD_FULL_OPEN) X(HEAD_LEAST_SET) X(HEAD_MOST_SET) X(HEAD_MOST_INLET)         \
    X(LIST_INVENTED) X(LIST_NAMES)

/* Words in remarks on a demand, and the sentence around one about a whole scenario. */
#define QLL_SAID_LIST(X) X(WARNING) X(OF_SCENARIO) X(PRIVATE) X(PUBLIC)

/* What only the sheets of a report say; catalogues of their own, report_*.c. */
#define QLL_REPORT_LIST(X)                                                                         \
    X(PAGE_OF) X(CONTENTS) X(HEADING_NUMBERED) X(HEADING_APPENDIX) X(CAPTION_TABLE)                \
    X(CAPTION_FIGURE) X(TITLE_PROJECT) X(TITLE_CUSTOMER) X(TITLE_ADDRESS) X(TITLE_PREPARED_BY)     \
    X(TITLE_LICENSE) X(TITLE_DATE) X(TITLE_REVISION) X(TITLE_SURVEY) X(TITLE_CASE)                 \
    X(TITLE_CATALOGUE) X(TITLE_PROGRAM) X(TITLE_STAMP) X(SURVEY_WITH_DIGEST)                       \
    X(CATALOGUE_INVENTED) X(SECTION_NOT_FIT) X(SECTION_NO_VALVE) X(SECTION_THERE)                  \
    X(SECTION_DRAWING) X(SECTION_CURES) X(SECTION_FIGURES) X(LIMITS_FROM) X(METHODS_BETWEEN)       \
    X(METHOD_OTHER) X(RULES_MET) X(ASSUMED_REASONS) X(TITLE_DEMAND) X(TITLE_DESIGN)                \
    X(TITLE_CHECK) X(SECTION_COVER) X(SECTION_SURVEY) X(SECTION_DEMAND) X(SECTION_STATION)         \
    X(SECTION_VERDICTS) X(SECTION_EXPECT) X(SECTION_COMMISSIONING) X(SECTION_SERVICE)              \
    X(SECTION_ALTERNATIVES) X(SECTION_CAUTIONS) X(SECTION_SOURCES) X(COVER_CAUTIONS)               \
    X(COVER_FAILS) X(FIGURES) X(FACT_PEAK) X(FACT_IDLE) X(FACT_SUPPLY) X(FACT_LOCKUP) X(RANGE)     \
    X(WHY_THIS) X(SITE) X(WATER_TEMPERATURE) X(LIMIT_RATIO) X(HEATER) X(TANK) X(FLOW_TEST)         \
    X(BEFORE) X(ELEMENT_PIPE) X(ELEMENT_LOSS) X(OUTLETS) X(SCENARIOS) X(ASSUMED) X(HEAD_FIGURE)    \
    X(HEAD_VALUE) X(HEAD_PRESSURE) X(HEAD_ELEMENT) X(HEAD_BORE) X(HEAD_LENGTH)                     \
    X(HEAD_LOSS_AT_PEAK) X(HEAD_OUTLET_NAME) X(HEAD_HEIGHT) X(HEAD_NEEDS) X(HEAD_SCENARIO)         \
    X(HEAD_USE) X(HEAD_PEOPLE) X(HEAD_FIXTURES) X(HEAD_TAKEN) X(HEAD_WHY) X(ESTIMATES)             \
    X(HEAD_METHOD) X(HEAD_TABLE) X(METHOD_USED) X(NOTE_OF) X(DRAWN) X(DRAWN_METERED) X(DURATION)   \
    X(HEAD_SHARE) X(HEAD_AT_OR_BELOW) X(HEAD_OF_PEAK) X(PARTS) X(HEAD_PART) X(HEAD_COUNT)          \
    X(STRAINERS) X(HEAD_RULE) X(HEAD_VERDICT) X(HEAD_LIMIT) X(HEAD_SAYS) X(HEAD_LIMIT_FROM)        \
    X(VERDICTS) X(POINTS) X(POINTS_THERE) X(POINT_ASKED) X(WAY) X(HEAD_NOTE) X(WITH_UNIT)          \
    X(TIME) X(HEAD_OF_TIME) X(SOURCES_ARE) X(PICTURE_SCHEMATIC) X(PICTURE_DAY)                     \
    X(PICTURE_DURATION) X(PICTURE_FALLOFF) X(PICTURE_LADDER) X(PICTURE_MAP) X(PICTURE_NOISE)       \
    X(PICTURE_SPECTRUM) X(PICTURE_CANDIDATES) X(SHOWS_SCHEMATIC) X(SHOWS_DAY) X(SHOWS_DURATION)    \
    X(SHOWS_FALLOFF) X(SHOWS_LADDER) X(SHOWS_MAP) X(SHOWS_NOISE) X(SHOWS_SPECTRUM)                 \
    X(NOTE_MEANS_SEAT) X(NOTE_MEANS_TOO_FAST) X(NOTE_MEANS_LOW_FLOW) X(NOTE_MEANS_AUDIBLE)        \
    X(NOTE_MEANS_FAST) X(NOTE_MEANS_WIDE_OPEN) X(NOTES_ARE)                                      \
    X(SHOWS_CANDIDATES) X(HEAD_HOLDS) X(HOLDS_MEANS) X(VERDICTS_NOMINAL) X(WHAT_AND_KEY) X(ELEMENT_AND) X(NOT_GIVEN)

/* What is taken to the station, in catalogues of its own, forms_*.c: how a flow is made to run, measured, and a
 * valve set with it (says_flow.c); parts and what to heed; the sheets to fill in. */
#define QLL_FLOW_LIST(X)                                                                          \
    X(MAKE_FLOW) X(MAKE_FLOW_MORE) X(MAKE_FLOW_SHORT) X(MAKE_FLOW_BUSY) X(RUN_LIKE) X(TAP_TRICKLE) X(TAP_HALF)      \
    X(TAP_LAVATORY) X(TAP_SHOWER) X(MEASURE_JUG) X(MEASURE_JUG_QUARTS)                            \
    X(MEASURE_BUCKET) X(MEASURE_HAND) X(MEASURE_HAND_LARGE) X(MEASURE_HAND_TURN) X(MEASURE_MINUTE) X(METER_TOO_LARGE)  \
    X(AND)                                                                                        \
    X(JUG) X(JUG_SI) X(BUCKET) X(BUCKET_SI) X(SET_VALVE) X(SET_ADD) X(SET_TAKE_OFF)
#define QLL_FORM_LIST(X)                                                                          \
    X(PARTS_ARE) X(PIECE_FLANGE) X(PARTS_OF_CURE) X(INSTALLING) X(COMMISSION_FIRST) X(GAUGES_USED) \
    X(AT_REST) X(DONE_BY) X(HEAD_LICENSE) X(HEAD_DATE)          \
    X(HEAD_SIGNATURE) X(HEAD_LINE) X(HEAD_DO) X(HEAD_SHOULD) X(HEAD_INLET_NOW) X(HEAD_FOUND)      \
    X(HEAD_LEFT) X(HEAD_PASS) X(HEAD_FAIL) X(HEAD_REMARKS) X(TEST_SET) X(DO_ALONE) X(DO_SET)      \
    X(SHOULD_SET) X(DO_LOCKUP) X(DO_LOCKUP_ALL) X(SHOULD_LOCKUP) X(DO_COCK) X(SHOULD_COCK)             \
    X(DO_FALLOFF) X(SHOULD_FALLOFF) X(TEST_CREEP) X(CREEP_STEP_SAFE) X(CREEP_STEP_SHUT)           \
    X(CREEP_STEP_DRAW) X(CREEP_STEP_SEAT) X(CREEP_STEP_BACK)                   \
    X(CREEP_READINGS) X(BEFORE_START) X(SIGNED) X(HEAD_MINUTES) X(AT_SECONDS)               \
    X(LIMITS_ARE) X(SERVICE) X(HEAD_TASK) X(HEAD_EVERY) X(HEAD_ACT_WHEN)          \
    X(EVERY_3_MONTHS) X(EVERY_6_MONTHS) X(EVERY_YEAR) X(EVERY_5_YEARS) X(SERVICE_GAUGES)          \
    X(SERVICE_GAUGES_WHEN) X(SERVICE_READING) X(SERVICE_STRAINER) X(SERVICE_STRAINER_WHEN) X(SERVICE_SCREEN)         \
    X(SERVICE_SCREEN_WHEN) X(SERVICE_CREEP) X(SERVICE_CREEP_WHEN) X(SERVICE_STOPS)                \
    X(SERVICE_STOPS_WHEN) X(SERVICE_RELIEF) X(SERVICE_RELIEF_WHEN) X(SERVICE_REBUILD)             \
    X(SERVICE_REBUILD_WHEN) X(INTERVALS_ARE) X(SERVICE_LOG) X(HEAD_BY_WHOM)

/* What is said of the station that a design came to (says_design.c, says_choice.c); catalogues of their
 * own, design_*.c. What follows the lists of the search and of the rules stands behind these. */
#define QLL_DESIGN_LIST(X)                                                                         \
    X(CHANCE_ONE_IN) X(CHANCE_TWO_THIRDS) X(CHANCE_THREE_QUARTERS) X(CHANCE_HARDLY)                \
    X(CHANCE_NEARLY) X(CHANCE_ABOUT) X(CHANCE_TIMES) X(MONEY_IN) X(INSTALL) X(PURCHASE_ONE)        \
    X(CALLBACK) X(GLANCE) X(GLANCE_NOT_FIT) X(GLANCE_NO_VALVE) X(COST_IN) X(COST_OWN) X(STOPPED) X(SIMPLER_CHEAPER) X(SIMPLER_DEARER)             \
    X(ONE_VALVE_DOES) X(ALONE) X(ALONE_DIRECT) X(ALONE_PILOT) X(NOT_FIT) X(NOTHING_FITS) X(IN_THE_WAY) X(WOULD_MEND) X(NEAREST)                     \
    X(MENDS_CATALOGUE) X(BREAKS_SET_RANGE) X(BREAKS_TEMPERATURE) X(NO_VALVE) X(NO_VALVE_PLACE)     \
    X(NO_VALVE_SHORT) X(NO_VALVE_ALWAYS) X(WITHOUT_VALVE) X(HEAD_STILL) X(HEAD_AT_PEAK)            \
    X(HEAD_IN_HAND) X(SHORT_BY) X(SET) X(ALSO) X(HEAD_INSTALLED) X(HEAD_INSTALLED_IN)              \
    X(HEAD_CALLBACK) X(HEAD_WHY_NOT) X(SIMPLER_ONE) X(AS_GOOD_ONE) X(NEAREST_ONE)                  \
    X(WHY_NOT_FIT) X(WHY_NOT_CALLBACK) X(WHY_NOT_DEARER) X(WHY_NOT_ALIKE) X(NO_OTHERS) X(HANGS_ON)              \
    X(HANGS_ON_NOTHING) X(HANG) X(HANG_INSTEAD) X(HANG_NO_NEED) X(HANG_NOT_FIT)                    \
    X(JUST_OVER) X(JUST_UNDER) X(OR_MORE) X(OR_LESS)                                                                     \
    X(HEARD_SAME_ROOM) X(HEARD_NEXT_ROOM) X(HEARD_PLANT_ROOM) X(ASSUMED_LINE) X(NO_WATER) X(WATER) \
    X(WATER_OF)
/* Beside the remarks on a peak, in their catalogues remarks_*.c. */
#define QLL_PEAK_TEXT_LIST(X) \
    X(CLOCK_NO_DRAW) X(CARRIES_VELOCITY) X(CARRIES_PRESSURE) X(HEAD_NO_FLOW)

/* What would cure a station that is there (says_cures.c). */
#define QLL_CURES_LIST(X)                                                                         \
    X(CURES) X(CURE_NOW) X(CURE_NONE) X(CURE_SETTINGS) X(CURE_SMALL_BESIDE)                 \
    X(CURE_SMALLER_VALVE) X(CURE_STAGE_BEFORE) X(CURE_WHOLE) X(CURE_IN_PARALLEL) X(CURE_TANK) X(CURE_STRAINER)        \
    X(CURE_LEAVE) X(CURE_SET) X(CURE_AND) X(CURE_VALVE_AT) X(CURE_COST) X(CURE_COST_SAME)        \
    X(NO_CAUSE)

/* Words that are results of a calculation: X(NAME, word); and what stands around a calculation's figures;
 * catalogues of their own, calc_*.c. */
#define QLL_CALC_WORD_LIST(X)                                                                     \
    X(QUIET, "quiet") X(NEAR_ONSET, "near onset") X(AUDIBLE, "audible") X(DAMAGING, "damaging")   \
    X(CHOKED, "choked") X(TURBULENT, "turbulent") X(TRANSITIONAL, "transitional")                 \
    X(LAMINAR, "laminar") X(CAVITATING, "cavitating")
#define QLL_CALC_TEXT_LIST(X) \
    X(STEPS) X(SOURCE) X(HOLDS) X(WITH) X(FROM) X(ABSOLUTE) X(YES) X(NO)

/* What a log of pressures says (says_pressure.c, report/log_sheet.c); catalogues of their own, pressure_*.c. */
#define QLL_PRESSURE_SAYS_LIST(X)                                                                  \
    X(CREEP_RISES) X(EXPANSION_SWELLS) X(EXPANSION_OVER_INLET) X(LOCK_UP_HIGH) X(FALL_OFF_SEEN)    \
    X(FALL_OFF_COMPARED) X(FALL_OFF_GROWS) X(FALL_OFF_STEP) X(FALL_OFF_OF_INLET)                   \
    X(INLET_EFFECT_SEEN) X(SUPPLY_SWINGS) X(DRIFT_SLOW) X(DRIFT_STEP)         \
    X(DRIFT_FROM_SURVEY) X(HUNTING_SEEN) X(CHATTER_SEEN) X(HAMMER_SEEN) X(STRAINER_SEEN)           \
    X(AIR_SEEN) X(FAULT_STUCK) X(FAULT_CLIPPED) X(FAULT_CLOCK) X(FAULT_GAPS) X(FAULT_VALUES)       \
    X(FAULT_SWAPPED) X(FAULT_GLITCHES) X(FAULT_HUM) X(UNJUDGED_RATE) X(UNJUDGED_CHANNEL)           \
    X(UNJUDGED_TIME) X(UNJUDGED_TIME_LEAST) X(UNJUDGED_NIGHTS) X(UNJUDGED_DAYS) X(UNJUDGED_STEP) X(NAME_LOG)        \
    X(LOG_IS) X(LOG_ACT) X(LOG_NOTHING) X(LOG_LOOK) X(LOG_COMPARED) X(STRENGTH_ACT)                \
    X(STRENGTH_LOOK) X(LOG_WHEN) X(LOG_ELAPSED) X(LOG_FIGURES) X(LOG_UNJUDGED) X(LOG_GAPS)         \
    X(LOG_GAPS_MORE) X(LOG_MENDS) X(HEAD_FROM) X(HEAD_TO) X(FACT_INLET) X(FACT_OUTLET)             \
    X(FACT_SET_POINT) X(FACT_LOCK_UP) X(FACT_SHOULD_SET) X(FACT_SHOULD_LOCK_UP) X(FACT_FALL_OFF)   \
    X(FACT_EFFECT) X(FACT_WINDOWS) X(FACT_RUNS) X(FACT_CYCLES) X(FACT_NOISE) X(FACT_STEP)          \
    X(PLOT_OUTLET) X(PLOT_OUTLET_AT) X(PLOT_INLET) X(PLOT_FLOW)

/* What a recording says (says_sound.c), a catalogue of its own, sound_*.c; behind it what a recording cannot tell. */
#define QLL_LISTEN_LIST(X)                                                                        \
    X(HEARD_SQUEAL) X(HEARD_HISS) X(HEARD_CHATTER) X(HEARD_HAMMER) X(HEARD_RUSH) X(HEARD_NONE)    \
    X(HEARD_OTHER) X(HEARD_PERHAPS) X(HEARD_NO_LOUDER) X(SEAT_TONE_WITHIN) X(SEAT_TONE_OUTSIDE)   \
    X(SEAT_TONE_ALONE) X(NAME_LISTEN) X(LISTEN_EVENTS) X(LISTEN_MEASURED) X(LISTEN_LIMITS)        \
    X(LISTEN_SPECTRUM) X(LISTEN_SPECTROGRAM) X(SHOWS_LISTEN_SPECTRUM) X(SHOWS_LISTEN_SPECTROGRAM) \
    X(HEAD_FROM_S) X(HEAD_TO_S) X(HEAD_HEARD) X(HEAD_PITCH) X(HEAD_OVER) X(EVENT_TONE) X(EVENT_THUMP) \
    X(EVENTS_MORE) X(FIGURE_RECORDED) X(FIGURE_QUIET) X(FIGURE_TIME) X(FIGURE_FAINT)              \
    X(FIGURE_LOW) X(FIGURE_LOUD) X(FIGURE_LOUDEST) X(LISTEN_LASTS) X(LISTEN_LEVEL)                \
    X(LISTEN_TONE) X(LISTEN_SLOPE) X(LISTEN_HIGH) X(LISTEN_LOW) X(LISTEN_RHYTHM) X(LISTEN_THUMPS) \
    X(LISTEN_KURTOSIS) X(LISTEN_CLIPPED) X(LISTEN_DRAWINGS) X(FIGURE_PITCH) X(FIGURE_UNDER_FULL)  \
    X(BESIDE) X(BESIDE_IS) X(BANGS_TOGETHER) X(BANGS_CHANCE) X(BANGS_FEW) X(RATIO_TOGETHER)      \
    X(RATIO_CHANCE) X(RATIO_FEW) X(SWING_TOGETHER) X(SWING_CHANCE) X(SWING_FEW) X(ONE_IN)        \
    X(ONE_IN_MORE) X(ONE_IN_MOST) X(BESIDE_CLOCKS) X(HEAD_AT_S) X(HEAD_IN_LOG) X(BESIDE_LEVEL) X(BESIDE_HIGH)   \
    X(BESIDE_DRAWING) X(SHOWS_BESIDE)

/* What a key of a survey or catalogue is that may be left out: X(NAME, key). */
/* clang-format on */

/** Every message. Those of findings, rules and the like follow the lists of their own headers, so
 * that a new one asks for its words in every language. */
/* clang-format off */
typedef enum qll_message {
#define QLL_SAYS_FINDING_NAME(name)      QLL_SAYS_FINDING_##name,
#define QLL_SAYS_RULE_NAME(name, word)   QLL_SAYS_RULE_##name,
#define QLL_SAYS_METHOD_NAME(name, word) QLL_SAYS_METHOD_##name,
#define QLL_SAYS_REASON_NAME(name)       QLL_SAYS_REASON_##name,
#define QLL_SAYS_CAUTION_NAME(name)      QLL_SAYS_CAUTION_##name,
#define QLL_SAYS_ADVICE_NAME(name)       QLL_SAYS_ADVICE_##name,
#define QLL_SAYS_MEND_NAME(name, w, s)   QLL_SAYS_MEND_##name,
#define QLL_SAYS_LOG_NOTE(name, w, warns) QLL_SAYS_NOTE_##name,
#define QLL_SAYS_LIMIT_NAME(name, word)  QLL_SAYS_LIMIT_FROM_##name,
#define QLL_SAYS_USE_NAME(name, ...)     QLL_SAYS_USE_##name,
#define QLL_SAYS_PEOPLE_NAME(name, ...)  QLL_SAYS_PEOPLE_##name,
#define QLL_SAYS_REMARK_NAME(name)       QLL_SAYS_REMARK_##name,
#define QLL_SAYS_MECHANISM_NAME(name, w) QLL_SAYS_MECHANISM_##name,
#define QLL_SAYS_BREAKS_NAME(name, word) QLL_SAYS_BREAKS_##name,
#define QLL_SAYS_MENDS_NAME(name, word)  QLL_SAYS_MENDS_##name,
#define QLL_SAYS_ROLE_NAME(name, word)   QLL_SAYS_ROLE_##name,
#define QLL_SAYS_CLOSE_NAME(name)        QLL_SAYS_CLOSE_##name,
#define QLL_SAYS_MORE_NAME(name, word)   QLL_SAYS_MORE_##name,
#define QLL_SAYS_LESS_NAME(name, word)   QLL_SAYS_LESS_##name,
#define QLL_SAYS_CALC_TITLE(name) QLL_SAYS_CALC_TITLE_##name,
#define QLL_SAYS_CALC_VALID(name) QLL_SAYS_CALC_VALID_##name,
#define QLL_SAYS_CALC_SOURCE(name) QLL_SAYS_CALC_SOURCE_##name,
#define QLL_SAYS_CALC_STEP(name) QLL_SAYS_CALC_STEP_##name,
#define QLL_SAYS_CALC_FROM(name) QLL_SAYS_CALC_FROM_##name,
#define QLL_SAYS_CALC_FIGURE(name, w) QLL_SAYS_CALC_FIGURE_##name,
#define QLL_SAYS_CALC_WORD(name, w) QLL_SAYS_CALC_WORD_##name,
#define QLL_SAYS_CALC_TEXT(name) QLL_SAYS_CALC_TEXT_##name,
#define QLL_SAYS_TAPS_NAME(name, word)    QLL_SAYS_TAPS_##name,
#define QLL_SAYS_PIECE_NAME(name, word)   QLL_SAYS_PIECE_##name,
#define QLL_SAYS_INSTALL_NAME(name, word) QLL_SAYS_INSTALL_##name,
#define QLL_SAYS_PRESSURE_NAME(name, word, kind) QLL_SAYS_PRESSURE_##name,
#define QLL_SAYS_CHANNEL_NAME(name, word) QLL_SAYS_CHANNEL_##name,
#define QLL_SAYS_UNTOLD_NAME(name, word) QLL_SAYS_UNTOLD_##name,
#define QLL_SAYS_NAME(name)              QLL_SAYS_##name,
    QLL_FINDING_LIST(QLL_SAYS_FINDING_NAME)
    QLL_RULE_LIST(QLL_SAYS_RULE_NAME)
    QLL_PEAK_METHOD_LIST(QLL_SAYS_METHOD_NAME)
    QLL_REASON_LIST(QLL_SAYS_REASON_NAME)
    QLL_CAUTION_LIST(QLL_SAYS_CAUTION_NAME)
    QLL_ADVICE_LIST(QLL_SAYS_ADVICE_NAME)
    QLL_PHRASE_LIST(QLL_SAYS_NAME)
    QLL_SHEET_LIST(QLL_SAYS_NAME)
    QLL_NAMES_LIST(QLL_SAYS_NAME)
    QLL_FIGURE_LIST(QLL_SAYS_NAME)
    QLL_METERED_LIST(QLL_SAYS_NAME)
    QLL_LOG_MEND_LIST(QLL_SAYS_MEND_NAME)
    QLL_LOG_NOTE_LIST(QLL_SAYS_LOG_NOTE)
    QLL_FIT_LIST(QLL_SAYS_NAME)
    QLL_CATALOGUE_LIST(QLL_SAYS_NAME)
    QLL_SAID_LIST(QLL_SAYS_NAME)
    QLL_USE_LIST(QLL_SAYS_PEOPLE_NAME)
    QLL_REMARK_LIST(QLL_SAYS_REMARK_NAME)
    QLL_PEAK_TEXT_LIST(QLL_SAYS_NAME)
    QLL_USE_LIST(QLL_SAYS_USE_NAME)
    QLL_RULE_LIST(QLL_SAYS_LIMIT_NAME)
    QLL_REPORT_LIST(QLL_SAYS_NAME)
    QLL_CURES_LIST(QLL_SAYS_NAME)
    QLL_FLOW_LIST(QLL_SAYS_NAME)
    QLL_TAP_LIST(QLL_SAYS_TAPS_NAME)
    QLL_FORM_LIST(QLL_SAYS_NAME)
    QLL_PIECE_LIST(QLL_SAYS_PIECE_NAME)
    QLL_INSTALL_LIST(QLL_SAYS_INSTALL_NAME)
    QLL_DESIGN_LIST(QLL_SAYS_NAME)
    QLL_MECHANISM_LIST(QLL_SAYS_MECHANISM_NAME)
    QLL_PRACTICE_LIST(QLL_SAYS_BREAKS_NAME)
    QLL_PRACTICE_LIST(QLL_SAYS_MENDS_NAME)
    QLL_ROLE_LIST(QLL_SAYS_ROLE_NAME)
    QLL_CLOSE_LIST(QLL_SAYS_CLOSE_NAME)
    QLL_DATUM_LIST(QLL_SAYS_MORE_NAME)
    QLL_DATUM_LIST(QLL_SAYS_LESS_NAME)
    QLL_CALC_LIST(QLL_SAYS_CALC_TITLE)
    QLL_CALC_LIST(QLL_SAYS_CALC_VALID)
    QLL_CALC_LIST(QLL_SAYS_CALC_SOURCE)
    QLL_CALC_STEP_LIST(QLL_SAYS_CALC_STEP)
    QLL_CALC_STEP_LIST(QLL_SAYS_CALC_FROM)
    QLL_CALC_FIGURE_LIST(QLL_SAYS_CALC_FIGURE)
    QLL_CALC_WORD_LIST(QLL_SAYS_CALC_WORD)
    QLL_CALC_TEXT_LIST(QLL_SAYS_CALC_TEXT)
    QLL_PRESSURE_WORD_LIST(QLL_SAYS_PRESSURE_NAME)
    QLL_CHANNEL_LIST(QLL_SAYS_CHANNEL_NAME)
    QLL_PRESSURE_SAYS_LIST(QLL_SAYS_NAME)
    QLL_LISTEN_LIST(QLL_SAYS_NAME)
    QLL_SOUND_LIMIT_LIST(QLL_SAYS_UNTOLD_NAME)
    QLL_MESSAGE_COUNT,
    QLL_PEAKS_FIRST = QLL_SAYS_REMARK_UNITS_SPLIT,
    QLL_REPORT_FIRST = QLL_SAYS_USE_APARTMENT,
    QLL_FORMS_FIRST = QLL_SAYS_MAKE_FLOW,
    QLL_DESIGN_FIRST = QLL_SAYS_CHANCE_ONE_IN,
    QLL_CALC_FIRST = QLL_SAYS_CALC_TITLE_VELOCITY,
    QLL_PRESSURE_FIRST = QLL_SAYS_PRESSURE_CREEP,
    QLL_LISTEN_FIRST = QLL_SAYS_HEARD_SQUEAL
} qll_message;
#undef QLL_SAYS_FINDING_NAME
#undef QLL_SAYS_RULE_NAME
#undef QLL_SAYS_METHOD_NAME
#undef QLL_SAYS_REASON_NAME
#undef QLL_SAYS_CAUTION_NAME
#undef QLL_SAYS_ADVICE_NAME
#undef QLL_SAYS_MEND_NAME
#undef QLL_SAYS_LOG_NOTE
#undef QLL_SAYS_NAME
#undef QLL_SAYS_PRESSURE_NAME
#undef QLL_SAYS_CHANNEL_NAME
#undef QLL_SAYS_LIMIT_NAME
#undef QLL_SAYS_TAPS_NAME
#undef QLL_SAYS_UNTOLD_NAME
#undef QLL_SAYS_PIECE_NAME
#undef QLL_SAYS_INSTALL_NAME
#undef QLL_SAYS_USE_NAME
#undef QLL_SAYS_PEOPLE_NAME
#undef QLL_SAYS_REMARK_NAME
#undef QLL_SAYS_MECHANISM_NAME
#undef QLL_SAYS_BREAKS_NAME
#undef QLL_SAYS_MENDS_NAME
#undef QLL_SAYS_ROLE_NAME
#undef QLL_SAYS_CLOSE_NAME
#undef QLL_SAYS_MORE_NAME
#undef QLL_SAYS_LESS_NAME
#undef QLL_SAYS_CALC_TITLE
#undef QLL_SAYS_CALC_VALID
#undef QLL_SAYS_CALC_SOURCE
#undef QLL_SAYS_CALC_STEP
#undef QLL_SAYS_CALC_FROM
#undef QLL_SAYS_CALC_FIGURE
#undef QLL_SAYS_CALC_WORD
#undef QLL_SAYS_CALC_TEXT

/* clang-format on */

/** The name of @p message, for tests: "FINDING_STATIC_MET". */
const char *qll_message_name(qll_message message);

/** The entry of one catalogue, or NULL. */
const char *qll_message_entry(qll_language language, qll_message message);

/** The message in @p language; in the first language if that one lacks it; never NULL. A message with
 * {tokens} is a template for qll_say_with(). */
const char *qll_say(qll_language language, qll_message message);

/** Names for people; machine documents keep the words of the headers. */
const char *qll_say_rule(qll_language language, qll_rule rule);
const char *qll_say_method(qll_language language, qll_peak_method method);
const char *qll_say_mend(qll_language language, qll_log_mend_kind kind);

/** A word of a template and what stands for it; text NULL = not known. */
typedef struct qll_filling {
    const char *token;
    const char *text;
} qll_filling;

/** Writes the message with its tokens filled in; see template.h. */
void qll_say_with(qll_writer *writer, qll_language language, qll_message message,
                  const qll_filling *fillings, size_t count);

#endif
