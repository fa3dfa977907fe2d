/* What to heed while a station is put in: docs/theory/parts.md. */
#ifndef QUELL_STATION_INSTALLING_H
#define QUELL_STATION_INSTALLING_H

#include "station/verdict.h"

/** X(NAME, word for machines). */
#define QLL_INSTALL_LIST(X)             \
    X(FLUSH, "flush")                   \
    X(POSITION, "position")             \
    X(POSITION_PILOT, "position-pilot") \
    X(SPACE, "space")                   \
    X(STRAIGHT, "straight-pipe")        \
    X(STAGES, "between-stages")         \
    X(DRAIN, "drain")                   \
    X(ACCESS, "access")                 \
    X(FROST, "frost")                   \
    X(RELIEF, "relief-valve")           \
    X(SPARE, "spare")                   \
    X(BRANCHES, "one-branch-at-a-time") \
    X(GROWTH, "growth")

typedef enum qll_install_kind {
#define QLL_INSTALL_NAME(name, word) QLL_INSTALL_##name,
    QLL_INSTALL_LIST(QLL_INSTALL_NAME)
#undef QLL_INSTALL_NAME
    QLL_INSTALL_COUNT
} qll_install_kind;

extern const char *const qll_install_words[QLL_INSTALL_COUNT];

typedef struct qll_installing {
    bool applies[QLL_INSTALL_COUNT];
    double space_m;            /* free over caps and under strainers */
    double before_m, behind_m; /* straight pipe at the largest valve */
    double highest_pa_gauge;   /* what a valve stuck open lets through */
    double rated_pa_gauge;     /* what faucets are rated for */
    double
        relief_pa_gauge; /* where a relief valve behind the station opens; NaN = none is advised */
} qll_installing;

/** What is known of the building besides its site. */
typedef struct qll_occupied {
    bool is_never_without; /* its water may not be cut off for an hour */
    bool may_grow;
} qll_occupied;

/** What applies to @p station; lengths and pressures are round in @p units. */
qll_installing qll_installing_of(const qll_station *station, const qll_site *site,
                                 const qll_assessment *assessment, qll_occupied occupied,
                                 qll_unit_system units);

#endif
