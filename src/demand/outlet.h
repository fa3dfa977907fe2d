/* How the flow of an outlet follows the pressure at it (docs/theory/fixture_pressure.md). */
#ifndef QUELL_DEMAND_OUTLET_H
#define QUELL_DEMAND_OUTLET_H

#include <stdbool.h>

typedef struct qll_outlet_response {
    bool is_regulated;  /* holds its flow above a knee of pressure: most showers and aerators */
    bool is_volumetric; /* runs until a volume is drawn: cistern, machine, flushometer, bath */
} qll_outlet_response;

/* Pressure above which a flow-regulated outlet holds its flow: 20 psi (our assumption). */
#define QLL_OUTLET_KNEE_PA_GAUGE      137895.1
/* At which table flows hold where nothing is said: 60 psi, as US fixture limits are stated for
 * faucets (IPC 604.4, from memory). */
#define QLL_OUTLET_REFERENCE_PA_GAUGE 413685.4

/**
 * Flow at @p pressure_pa_gauge over flow at @p reference_pa_gauge, from 0: an orifice, q ~ sqrt(p),
 * up to the knee if the outlet is regulated, everywhere if it is not.
 *
 * @return NaN unless the pressure is 0 or more and the reference over 0
 */
double qll_outlet_flow_ratio(qll_outlet_response outlet, double pressure_pa_gauge,
                             double reference_pa_gauge);

/** The same for leaks, q ~ p: between a hole, 0.5, and a split in plastic, 1.5 (from memory). */
double qll_leak_flow_ratio(double pressure_pa_gauge, double reference_pa_gauge);

#endif
