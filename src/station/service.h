/* What the service can carry to the station, whatever valve stands there: docs/theory/service.md. */
#ifndef QUELL_STATION_SERVICE_H
#define QUELL_STATION_SERVICE_H

#include "station/site.h"

typedef enum qll_service_limit {
    QLL_SERVICE_UNLIMITED, /* by what the survey says */
    QLL_SERVICE_VELOCITY,  /* in its narrowest pipe */
    QLL_SERVICE_PRESSURE,  /* that it leaves at the station */
} qll_service_limit;

typedef struct qll_service {
    qll_service_limit limit;
    double flow_m3s;          /* what it carries: the lesser of the next two; NaN = no limit */
    double velocity_flow_m3s; /* eq. 1; NaN without a pipe before the station */
    double pressure_flow_m3s; /* eq. 3; NaN where the supply never falls so far */
    double pipe_nominal_m;    /* of the narrowest pipe; NaN = not known */
    double inlet_pa_gauge;    /* eq. 2: least to be left at the station; NaN = not known */
} qll_service;

/** The service of @p site at its lowest supply. */
qll_service qll_service_of(const qll_site *site);

/**
 * The peak to design for: what the service carries of @p peak_m3s. A peak that was metered ran through
 * the service, so that the pipe's velocity does not cut it.
 */
double qll_service_peak_m3s(const qll_service *service, double peak_m3s, bool is_metered);

#endif
