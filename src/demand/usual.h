/* What a building usually has, by what it counts: data/usual_fixtures.csv. */
#ifndef QUELL_DEMAND_USUAL_H
#define QUELL_DEMAND_USUAL_H

#include "demand/scenario.h"

/** X(NAME, word in the table; a survey's key but for half baths): what buildings count. */
#define QLL_USUAL_COUNT_LIST(X) \
    X(HOMES, "homes")           \
    X(BATHS, "baths")           \
    X(HALF_BATHS, "half baths") \
    X(ROOMS, "rooms")           \
    X(BEDS, "beds")             \
    X(PUPILS, "pupils")         \
    X(SEATS, "seats")           \
    X(EMPLOYEES, "employees")

typedef enum qll_usual_count {
#define QLL_USUAL_COUNT_NAME(name, word) QLL_USUAL_##name,
    QLL_USUAL_COUNT_LIST(QLL_USUAL_COUNT_NAME)
#undef QLL_USUAL_COUNT_NAME
    QLL_USUAL_COUNTS
} qll_usual_count;

extern const char *const qll_usual_count_words[QLL_USUAL_COUNTS];

/** One row: each x count / of, rounded up, at least `least`, for counts from `from` to `to`. */
typedef struct qll_usual_row {
    qll_use use;
    qll_usual_count counts;
    const qll_fixture_kind *kind; /* NULL = people */
    qll_occupancy occupancy;
    double each, of, least, from, to;
} qll_usual_row;

typedef struct qll_usual_table {
    const qll_usual_row *rows;
    size_t count;
} qll_usual_table;

/** How many there are of each; 0 = none. */
typedef struct qll_usual_counted {
    double of[QLL_USUAL_COUNTS];
} qll_usual_counted;

/** Reads the embedded data/usual_fixtures.csv. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_usual_table_read(qll_arena *arena, const qll_fixture_table *fixtures,
                                             qll_usual_table *table);

/** People of such a building; 0 where the table has none. */
double qll_usual_people(const qll_usual_table *table, qll_use use,
                        const qll_usual_counted *counted);

/** Its fixtures, into @p loads with room for table->count; how many loads that are. */
size_t qll_usual_loads(const qll_usual_table *table, qll_use use, const qll_usual_counted *counted,
                       qll_fixture_load *loads);

#endif
