#include "demand/scenario.h"
#include "documents/field_rows.h"
#include "documents/survey_fields.h"
#include "signals/flow_log.h"

/* How the building is used: who draws water, by what, and what a meter says of it. */

/* In the order of their enumerations, of which the first member means that nothing is said. */
static const char *const log_kinds[] = {"flow", "volume", "pulses", "register", "events"};
static const char *const log_orders[] = {"year first", "day first", "month first"};
static const char *const log_stamps[] = {"start", "end"};
static const char *const log_repeated[] = {"last", "sum"};
static const char *const decimal_marks[] = {"point", "comma"};
_Static_assert(QLL_COUNT(log_kinds) + 1 == QLL_LOG_KIND_COUNT, "every kind has a word");
_Static_assert(QLL_COUNT(log_orders) + 1 == QLL_LOG_ORDER_COUNT, "every order has words");
_Static_assert(QLL_COUNT(log_repeated) + 1 == QLL_LOG_REPEATED_COUNT, "every way has a word");
_Static_assert(QLL_COUNT(log_stamps) + 1 == QLL_LOG_STAMP_COUNT, "every stamp has a word");

/* What a count of rooms, beds, pupils, seats or employees is good for. */
#define QLL_COUNTED                                                                               \
    "; gives `people` where they are not counted and, where no `fixtures` are listed, the usual " \
    "ones of data/usual_fixtures.csv"

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field scenario_fields[] = {
    {"name", QLL_VALUE_TEXT, .computed = "\"scenario 1\" and so on",
        .meaning = "what it is called in answers; no two alike"},
    {"use", QLL_VALUE_WORD, .words = qll_use_words, .word_count = QLL_USE_COUNT,
        .computed = "\"apartment\" where a `log` says the rest", .means = QLL_TEXT_MEANS_USE},
    {"people", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "100000", SOMEBODY_DRAWS),
        .computed = "2.3 for each of `homes`, else by `baths`, `rooms`, `beds`, `pupils`, `seats` or `employees` (our assumption)",
        .meaning = "how many residents, occupants, guests, pupils, beds or meals of a day; overrides what `rooms` and the like would give; without a `log` one of these is needed"},
    {"homes", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        .computed = "1 in a house, `people` over 2.3 in apartments (our assumption)", .meaning = "how many homes"},
    {"baths", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.5", "20", ONE_HOME),
        .computed = "where fixtures are taken: 2 in a house, 1 in an apartment (our assumption)",
        .meaning = "bathrooms of each home, half ones as .5; where no `fixtures` are listed the usual ones of data/usual_fixtures.csv are taken, and in a house one person more than whole baths"},
    {"rooms", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        .meaning = "a hotel's guest rooms" QLL_COUNTED},
    {"beds", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        .meaning = "a hospital's beds" QLL_COUNTED},
    {"pupils", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "100000", ONE_BUILDING),
        .meaning = "a school's students" QLL_COUNTED},
    {"seats", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        .meaning = "a restaurant's seats" QLL_COUNTED},
    {"employees", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "100000", ONE_BUILDING),
        .meaning = "who works in an office" QLL_COUNTED},
    {"fixtures", QLL_VALUE_LIST,
        .meaning = "what draws water; may be left out where `homes`, `baths`, `rooms`, `beds`, `pupils`, `seats` or `employees` say how large the building is, where there is a `log`, or `peak` is a flow or \"pulse-model\""},
    {"continuous", QLL_VALUE_LIST, .meaning = "flows that run by the clock"},
    {"weight", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.001", "1000", WEIGHTS), QLL_DEFAULT("1", ALL_ALIKE),
        .meaning = "how much it counts among the scenarios"},
    {"peak", QLL_VALUE_OWN, QLL_WITHIN(FLOW, "0.1 gpm", "20000 gpm", BUILDING_FLOW),
        .computed = "the method of docs/theory/demand.md", .form = "a peak method, or a flow",
        .meaning = "how the design peak is found, or the design peak itself"},
    {"quantile", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.5", "0.9999", QUANTILE),
        QLL_DEFAULT("0.99", STUDY_QUANTILE), .meaning = "share of the peak hour that the probability methods cover"},
    {"log", QLL_VALUE_TEXT,
        .meaning = "a file with the meter's log, beside the survey or by its whole path, gzip or not; it gives the flow duration and a peak"},
    {"pulse", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.00001 gal", "10000 gal", PULSE),
        .computed = "what the log's first lines say", .meaning = "the volume of one pulse of the log"},
    {"time_zone", QLL_VALUE_TEXT, .computed = "the log's own clock, without summer time",
        .form = "\"America/Denver\", \"-07:00\", or a rule, \"MST7MDT,M3.2.0,M11.1.0\"",
        .meaning = "of the log's local stamps, or of the place where its stamps are UTC"},
    {"log_format", QLL_VALUE_OBJECT, .computed = "as the log's header and rows say",
        .meaning = "what the log does not say itself"},
    {"day", QLL_VALUE_WORD, .words = qll_day_kind_words, .word_count = QLL_DAY_KIND_COUNT,
        QLL_DEFAULT("weekday", MOST_DAYS), .meaning = "which day of the week the computed flow duration is of"},
    {"volume_per_person", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "2600 gal", VOLUME),
        .computed = "by `use` and `habits` in data/habits.csv: 45 gal or 120 L in an apartment",
        .meaning = "water for each of `people` and day, leaks and outdoors left aside; scales how often water is used"},
    {"variation", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", DAYS_WITHOUT), QLL_DEFAULT("0", DAYS_BY_CHANCE),
        .meaning = "how much a home's use varies from day to day: standard deviation over mean"},
    {"variation_hour", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "3", HOURS_WITHOUT),
        .computed = "1.1 in homes, 0 elsewhere",
        .meaning = "how much a home's use varies from hour to hour: standard deviation over mean; elsewhere of the whole building"},
    {"habits", QLL_VALUE_WORD, .words = qll_habits_words, .word_count = QLL_HABITS_COUNT,
        .computed = "by the survey's `units`",
        .meaning = "whose volumes, uses and leaks hold where the survey gives none: those of Europe or of the US"},
    {"hourly", QLL_VALUE_OWN, .computed = "the hours of data/diurnal.csv",
        .form = "24 numbers from midnight on: [0.5, 0.3, ...]",
        .meaning = "the building's own hours, of the `day` asked for: water or a share of it, in any unit; what runs by the clock keeps its own"},
    {"outdoor", QLL_VALUE_WORD, .words = qll_outdoor_words, .word_count = QLL_OUTDOOR_COUNT,
        .computed = "\"hose\" in houses, \"none\" elsewhere",
        .meaning = "what each home uses outdoors; \"irrigation\" is sprinklers and the hose; only in homes"},
    {"season", QLL_VALUE_WORD, .words = qll_season_words, .word_count = QLL_SEASON_COUNT,
        QLL_DEFAULT("summer", SUMMER), .meaning = "scales what is drawn `outdoor`"},
    {"breaks", QLL_VALUE_OBJECT, .computed = "0.6 in 15 min in schools, none elsewhere",
        .meaning = "the break of every hour, in schools and factories"},
    {"outlet_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "300 psi", OUTLETS_WORK),
        .computed = "60 psi, where flows are as in the tables", .means = QLL_TEXT_MEANS_OUTLET_PRESSURE},
    {"reference_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "300 psi", OUTLETS_WORK),
        .computed = "60 psi (IPC 604.4, from memory)",
        .meaning = "pressure at which the flows of tables and survey hold"},
    {"loading_units", QLL_VALUE_OBJECT, .computed = "sums of loading units only",
        .meaning = "points read off a code's graph, from loading units to flow"},
};
QLL_GROUP(scenario, SCENARIO, "scenarios[]", scenario_fields);

static const qll_field log_fields[] = {
    {"kind", QLL_VALUE_WORD, QLL_WORDS(log_kinds), .computed = "by the column's name and unit",
        .meaning = "what the rows hold: a flow, the volume or pulses of an interval, a register that counts up, or uses with start and end"},
    {"unit", QLL_VALUE_TEXT, .computed = "what the header says",
        .form = "a unit of a flow or a volume, \"gpm\", or \"pulses\"",
        .meaning = "of the values; goes before what the header says"},
    {"value_column", QLL_VALUE_TEXT, .computed = "the only one that can be meant",
        .meaning = "name of the column that is read"},
    {"time_column", QLL_VALUE_TEXT, .computed = "the only one that can be meant",
        .meaning = "name of the column of stamps"},
    {"meter", QLL_VALUE_TEXT, .computed = "the only one in the log",
        .meaning = "which of several meters in one log is taken"},
    {"meter_column", QLL_VALUE_TEXT, .computed = "the one whose name says so",
        .meaning = "name of the column that names the meter"},
    {"repeated", QLL_VALUE_WORD, QLL_WORDS(log_repeated), .computed = "refused where they are many",
        .meaning = "what is done with rows of one date and time that hold different values: the last counts, or they are added up"},
    {"key", QLL_VALUE_TEXT, .computed = "the only one in the log",
        .meaning = "which quantity of a log of keys and values is taken"},
    {"order", QLL_VALUE_WORD, QLL_WORDS(log_orders), .computed = "the one that fits every row",
        .meaning = "of the numbers of a date"},
    {"decimal", QLL_VALUE_WORD, QLL_WORDS(decimal_marks), .computed = "the one that fits the first rows",
        .meaning = "the decimal mark of the values"},
    {"stamp", QLL_VALUE_WORD, QLL_WORDS(log_stamps), .computed = "start for flows, end for volumes and pulses",
        .meaning = "which end of its interval a stamp marks"},
    {"most_flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0.1 gpm", "20000 gpm", METER_PASSES),
        .computed = "1585 gpm, 0.1 m3/s (our assumption)",
        .meaning = "the most the meter can pass; what is more is a fault"},
    {"dead_band", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "100 gpm", METER_BLIND), .computed = "none",
        .meaning = "flows up to it are taken as none: the zero point of an analog meter"},
    {"least_quality", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1000", QUALITY), .computed = "any over 0",
        .meaning = "rows of a lower signal quality are unknown"},
    {"heartbeat", QLL_VALUE_QUANTITY, QLL_WITHIN(TIME, "0 s", "24 h", SILENCE),
        .computed = "seen in the log's first rows",
        .meaning = "a silence up to it means no flow, in logs that write only while water runs"},
};
QLL_GROUP(log, LOG, "scenarios[].log_format", log_fields);

static const qll_field breaks_fields[] = {
    {"share", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), QLL_NEEDED(BREAK_SHARE)},
    {"length", QLL_VALUE_QUANTITY, QLL_WITHIN(TIME, "1 min", "60 min", BREAK), QLL_NEEDED(BREAK_LENGTH)},
};
QLL_GROUP(breaks, BREAKS, "scenarios[].breaks", breaks_fields);

static const qll_field loading_fields[] = {
    {"en_806_3", QLL_VALUE_LIST, .meaning = "points of the graph of EN 806-3, Figure B.1"},
    {"bs_6700", QLL_VALUE_LIST, .meaning = "points of the graph of BS 6700, Figure D.1"},
};
QLL_GROUP(loading, LOADING, "scenarios[].loading_units", loading_fields);

static const qll_field graph_fields[] = {
    {"units", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1000000", ONE_BUILDING), QLL_NEEDED(LOADING_UNITS)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", BUILDING_FLOW), QLL_NEEDED(GRAPH_FLOW)},
};
QLL_GROUP(graph_en, GRAPH, "scenarios[].loading_units.en_806_3[]", graph_fields);
QLL_GROUP(graph_bs, GRAPH, "scenarios[].loading_units.bs_6700[]", graph_fields);

static const qll_field fixture_fields[] = {
    {"fixture", QLL_VALUE_OWN, QLL_NEEDED(FIXTURE), .form = "a fixture"},
    {"count", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "50000", ONE_BUILDING), QLL_NEEDED(COUNT)},
    {"occupancy", QLL_VALUE_WORD, .words = qll_occupancy_words, .word_count = QLL_OCCUPANCY_COUNT - 1,
        .computed = "private in homes and for what is in guest and patient rooms (columns hotel and hospital of data/fixtures.csv), else public",
        .meaning = "whether it serves one family or person, or anybody (IPC chapter 2, from memory); decides its fixture units. A shared laundry is public"},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0.05 gpm", "500 gpm", FIXTURE_FLOW),
        .computed = "that of data/fixtures.csv", .meaning = "its flow while it runs"},
    {"use_probability", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.0001", "1", PROBABILITY),
        .computed = "that of data/fixtures.csv", .meaning = "share of the peak hour in which it runs"},
};
QLL_GROUP(fixture, FIXTURE, "scenarios[].fixtures[]", fixture_fields);

static const qll_field continuous_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(DRAWS)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", BUILDING_FLOW), QLL_NEEDED(ITS_FLOW)},
    {"hours", QLL_VALUE_OWN, QLL_DEFAULT("00:00-24:00", NO_HOURS), .form = "\"09:00-17:00\"",
        .meaning = "when it runs; may run over midnight, and all day where it ends when it begins"},
};
QLL_GROUP(continuous, CONTINUOUS, "scenarios[].continuous[]", continuous_fields);
/* clang-format on */
