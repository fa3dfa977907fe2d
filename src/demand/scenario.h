/* One way the building is used: what draws water there. */
#ifndef QUELL_DEMAND_SCENARIO_H
#define QUELL_DEMAND_SCENARIO_H

#include "demand/duration.h"
#include "demand/fixture.h"
#include "numeric/curve.h"

#include <stdint.h>

/* clang-format off */
/**
 * X(NAME, word in a survey, end-use set of data/enduse.csv, profile of data/diurnal.csv, use of
 *   data/din1988.csv, building of data/gpm_per_fixture.csv); "" where a table has none.
 */
#define QLL_USE_LIST(X)                                                                         \
    X(APARTMENT, "apartment", "quell default dwelling", "apartment_measured_ES",                \
      "residential, assisted living, senior residence", "apartments")                           \
    X(HOUSE, "house", "quell default dwelling", "apartment_measured_ES",                        \
      "residential, assisted living, senior residence", "apartments")                           \
    X(OFFICE, "office", "quell default office", "office", "office / administration", "office")  \
    X(HOTEL, "hotel", "quell default hotel guest", "hotel", "hotel", "hotels and clubs")        \
    X(SCHOOL, "school", "quell default school", "school_DE", "school", "schools")               \
    X(HOSPITAL, "hospital", "quell default hospital", "hospital_CH", "bed wing of hospital",    \
      "hospitals")                                                                              \
    X(RESTAURANT, "restaurant", "quell default restaurant", "restaurant_DE", "", "")

/* clang-format on */

typedef enum qll_use {
#define QLL_USE_NAME(name, word, set, profile, din, building) QLL_USE_##name,
    QLL_USE_LIST(QLL_USE_NAME)
#undef QLL_USE_NAME
    QLL_USE_COUNT
} qll_use;

extern const char *const qll_use_words[QLL_USE_COUNT];

/** True where people live: fixtures are private, use probabilities of homes hold. */
bool qll_use_is_dwelling(qll_use use);

/* Dwellings where a survey does not count them: people / 2.3, as in the reference building of
 * docs/theory/pulse.md (our assumption). */
#define QLL_PEOPLE_PER_HOME 2.3

/* No building is larger; they bound time and memory (our assumption). */
#define QLL_PEOPLE_MAX        1e6
#define QLL_FIXTURE_COUNT_MAX 1000000 /* of all loads together */

/** Whether a fixture serves a family or a single person (IPC chapter 2, from memory) or anybody. */
typedef enum qll_occupancy {
    QLL_OCCUPANCY_USUAL, /* as the kind is taken to stand in such a building */
    QLL_OCCUPANCY_PRIVATE,
    QLL_OCCUPANCY_PUBLIC,
    QLL_OCCUPANCY_COUNT
} qll_occupancy;

extern const char *const qll_occupancy_words[QLL_OCCUPANCY_COUNT - 1]; /* from private on */

typedef struct qll_fixture_load {
    const qll_fixture_kind *kind;
    size_t count;
    qll_occupancy occupancy;
    double flow_m3s;        /* the survey's own; NaN = the kind's */
    double use_probability; /* the survey's own; NaN = the kind's */
} qll_fixture_load;

/** A flow that runs by the clock; from == to means all day; from > to runs over midnight. */
typedef struct qll_continuous {
    const char *name;
    double flow_m3s;
    double from_s, to_s; /* time of day, 0 to 86400 */
} qll_continuous;

/**
 * X(NAME, word): how the design peak may be found.
 *
 * FIXTURE_UNITS_UPC is a word a survey may ask for and is answered with the reason why it is not
 * computed: docs/theory/fixture_units.md, section 4.
 */
#define QLL_PEAK_METHOD_LIST(X)                     \
    X(FIXTURE_UNITS_IPC, "fixture-units IPC")       \
    X(FIXTURE_UNITS_UPC, "fixture-units UPC")       \
    X(SIMULTANEOUS_USE, "simultaneous-use")         \
    X(NORMAL_APPROXIMATION, "normal-approximation") \
    X(DIN_1988_300, "din-1988-300")                 \
    X(LOADING_UNITS_EN, "loading-units EN 806-3")   \
    X(LOADING_UNITS_BS, "loading-units BS 6700")    \
    X(PER_FIXTURE, "gallons-per-fixture")           \
    X(PULSE_MODEL, "pulse-model")                   \
    X(METERED, "metered")                           \
    X(GIVEN, "given")

typedef enum qll_peak_method {
#define QLL_PEAK_METHOD_NAME(name, word) QLL_PEAK_##name,
    QLL_PEAK_METHOD_LIST(QLL_PEAK_METHOD_NAME)
#undef QLL_PEAK_METHOD_NAME
    QLL_PEAK_METHOD_COUNT
} qll_peak_method;

extern const char *const qll_peak_method_words[QLL_PEAK_METHOD_COUNT];

/** Weekday unless the survey says otherwise. */
typedef enum qll_day_kind {
    QLL_DAY_WEEKDAY,
    QLL_DAY_SATURDAY,
    QLL_DAY_SUNDAY,
    QLL_DAY_KIND_COUNT
} qll_day_kind;

extern const char *const qll_day_kind_words[QLL_DAY_KIND_COUNT];

/** Whose habits: volumes and uses where the survey gives none (docs/theory/habits.md). */
typedef enum qll_habits {
    QLL_HABITS_METRIC, /* measured in Europe */
    QLL_HABITS_US,
    QLL_HABITS_COUNT
} qll_habits;

extern const char *const qll_habits_words[QLL_HABITS_COUNT];

/** What homes draw outdoors. */
typedef enum qll_outdoor {
    QLL_OUTDOOR_NONE,
    QLL_OUTDOOR_HOSE,
    QLL_OUTDOOR_IRRIGATION, /* and the hose */
    QLL_OUTDOOR_COUNT
} qll_outdoor;

extern const char *const qll_outdoor_words[QLL_OUTDOOR_COUNT];

typedef enum qll_season {
    QLL_SEASON_SUMMER,
    QLL_SEASON_SPRING,
    QLL_SEASON_AUTUMN,
    QLL_SEASON_WINTER,
    QLL_SEASON_COUNT
} qll_season;

extern const char *const qll_season_words[QLL_SEASON_COUNT];

/** The tables of loading units; each has a graph from units to flow that is not in the program. */
typedef enum qll_loading_table {
    QLL_LOADING_EN, /* EN 806-3:2006 Table 2 */
    QLL_LOADING_BS, /* BS 6700:1997 Table D.1 */
    QLL_LOADING_TABLE_COUNT
} qll_loading_table;

/** Points read off a table's graph by the user: x = units from 0, y = m3/s, both rising. */
typedef struct qll_loading_graph {
    const qll_point *points;
    size_t count; /* 0 = none */
} qll_loading_graph;

/** The greatest mean flow over any stretch of @p averaging_s in a log. */
typedef struct qll_metered_peak {
    double averaging_s;
    double flow_m3s;
} qll_metered_peak;

/** Mean flow of a local hour; NaN where the log holds none of it. */
typedef struct qll_metered_hour {
    double mean_m3s, weekday_m3s, weekend_m3s;
} qll_metered_hour;

/** What a meter's log says of the flow. */
typedef struct qll_metered {
    const char *name;      /* of the log, for answers */
    qll_duration duration; /* at least one point */
    const qll_metered_peak *peaks;
    size_t peak_count;      /* at least 1; averaging times rising */
    double interval_s;      /* between readings; 0 of a list of uses: it has none */
    double time_s;          /* logged in all, over 0 */
    bool idle_unknown;      /* its meter counts too coarsely to say when nothing flows */
    double night_least_m3s; /* least mean of an hour of the night; NaN if none is whole */
    qll_metered_hour hours[24];
    uint64_t seed; /* of the simulation that says what its readings hide */
    /* Asked after each of its days; false to stop. NULL = it goes on. */
    bool (*goes_on)(void *context);
    void *goes_on_context;
} qll_metered;

/** Rooms, beds, seats and the like that a survey counts, and how many people they would make. */
typedef struct qll_counted {
    const char *key; /* "rooms"; NULL = none are counted */
    double count, people;
} qll_counted;

/** Everything from `metered` on may stay zero: then it is off, or the tables' value holds. */
typedef struct qll_scenario {
    const char *name; /* one without a name is called by its number */
    size_t number;    /* that number, from 1; 0 = it has a name of its own */
    qll_use use;
    double people; /* 0 to QLL_PEOPLE_MAX, always given: residents, occupants, guests, pupils,
                      beds, or the meals of a day */
    double homes;  /* NaN if not given: then people / QLL_PEOPLE_PER_HOME for dwellings */
    const qll_fixture_load *loads;
    size_t load_count;
    const qll_continuous *continuous;
    size_t continuous_count;
    double weight;               /* among the scenarios of a survey, default 1 */
    qll_peak_method peak_method; /* QLL_PEAK_METHOD_COUNT = choose: see demand.h */
    double peak_given_m3s;       /* for QLL_PEAK_GIVEN, continuous flows included; else NaN */
    double quantile;             /* of simultaneous use and the pulse model, default 0.99 */
    const qll_metered *metered;  /* a log; then the flow duration is the log's */
    qll_loading_graph graphs[QLL_LOADING_TABLE_COUNT];
    qll_day_kind day;
    double day_volume_m3; /* per person and day, leaks left aside; scales the rates of uses */
    double rate_cv;       /* day-to-day variation of rates (gamma), 0 to 2: docs/theory/pulse.md */
    double
        volume_ln_sigma; /* deviation of the volume's logarithm; 0 = the survey gives the volume */
    qll_habits habits;
    bool has_visits;         /* uses come in visits where data/visits.csv has them; else alone */
    double hour_cv;          /* of the factor on a home's rates of one hour (gamma), 0 to 3 */
    double building_hour_cv; /* of the factor on those of the whole building, 0 to 1 */
    qll_outdoor outdoor;     /* of each home */
    qll_season season;
    bool has_hourly;
    double hourly[24];      /* the building's own hours, mean 1, in place of the table's */
    double break_share;     /* share of an hour's uses inside one break, 0 to 1 ... */
    double break_s;         /* ... of this length at the start of each hour, up to 3600 */
    double outlet_pa_gauge; /* pressure at the outlets; their flows follow it */
    qll_counted counted;
    double reference_pa_gauge; /* at which the flows of tables and survey hold; 0 = 60 psi */
} qll_scenario;

/** Dwellings of a scenario: as given; else one for a house, and people / QLL_PEOPLE_PER_HOME for flats. */
double qll_scenario_homes(const qll_scenario *scenario);

/** What is wrong with a scenario's numbers, a clause for a problem; QLL_TEXT_NONE if nothing is. */
qll_said qll_scenario_fault(const qll_scenario *scenario);

bool qll_scenario_has_fixtures(const qll_scenario *scenario);

/** True where @p load is counted as private: as the survey says, else in dwellings, and where its kind
 * is taken to stand in guest or patient rooms. */
bool qll_load_is_private(const qll_scenario *scenario, const qll_fixture_load *load);

/**
 * The same scenario with every group of fixtures taken apart into single ones, for methods that count
 * those; a group with a flow or a probability of its own stays one fixture.
 *
 * @param groups how many groups were taken apart
 * @return QLL_OK or QLL_NO_MEMORY; loads live in @p arena
 */
QLL_MUST_USE qll_status qll_scenario_apart(const qll_scenario *scenario, qll_arena *arena,
                                           qll_scenario *apart, double *groups);

/** The survey's own value, else the kind's; NaN if there is none. */
double qll_load_flow_m3s(const qll_fixture_load *load);
double qll_load_probability(const qll_fixture_load *load);

#endif
