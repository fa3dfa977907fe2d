/* Control valve sizing for liquids in full: choke, reducers at the valve, low Reynolds numbers. */
#ifndef QUELL_PHYSICS_SIZING_H
#define QUELL_PHYSICS_SIZING_H

#include <math.h>
#include <stdbool.h>

/**
 * The shared expressions of IEC 60534-2-1 / ISA-75.01.01; valve.c uses the first three alone.
 * docs/theory/sizing.md. NaN in, NaN out.
 */

/** Liquid critical pressure ratio factor FF = 0.96 - 0.28 sqrt(pv/pc). */
static inline double qll_sizing_ff(double vapour_pressure_pa, double critical_pressure_pa)
{
    return 0.96 - 0.28 * sqrt(vapour_pressure_pa / critical_pressure_pa);
}

/**
 * Drop beyond which flow no longer grows, Pa: r^2 (p1 - FF pv), p1 absolute; 0 for an inlet below
 * FF pv. @p recovery is FL, or FLP/FP with reducers.
 */
static inline double qll_sizing_choked_drop_pa(double inlet_pa, double recovery, double ff,
                                               double vapour_pressure_pa)
{
    double head = inlet_pa - ff * vapour_pressure_pa;
    return head < 0 ? 0 : recovery * recovery * head;
}

/** Flow of a liquid through Kv = 1 at @p drop_pa, turbulent, m3/s. */
double qll_sizing_unit_flow_m3s(double drop_pa, double density_kg_m3);

typedef struct qll_sizing_case {
    double inlet_pa, outlet_pa; /* absolute */
    double density_kg_m3;
    double vapour_pressure_pa, critical_pressure_pa;
    double viscosity_pa_s;
    double fl, fd;
    double valve_bore_m;    /* d; NaN = unknown */
    double pipe_in_bore_m;  /* D1; NaN = the valve's own */
    double pipe_out_bore_m; /* D2; NaN = the valve's own */
} qll_sizing_case;

/** Loss coefficients of the reducers at the valve, on its bore; all 0 without reducers. */
typedef struct qll_sizing_loss {
    double inlet, outlet;                   /* xi1, xi2 */
    double inlet_velocity, outlet_velocity; /* xiB1, xiB2: change of velocity head */
    double sum;                             /* xi1 + xi2 + xiB1 - xiB2 */
} qll_sizing_loss;

/**
 * Kv of the reducers alone, m3/h, such that 1/(Kv FP)^2 = 1/Kv^2 + 1/series^2 at any Kv; NaN where
 * there are none, or none that lose pressure.
 */
double qll_sizing_series_kv(const qll_sizing_case *given);

/** FLP/FP at @p kv_m3h: stands for FL in the choked drop of a valve with reducers. FL without. */
double qll_sizing_recovery(const qll_sizing_case *given, double kv_m3h);

typedef enum qll_sizing_regime {
    QLL_SIZING_TURBULENT,    /* valve Reynolds number 10 000 and above */
    QLL_SIZING_TRANSITIONAL, /* 10 to 10 000 */
    QLL_SIZING_LAMINAR,      /* below 10 */
    QLL_SIZING_REGIME_COUNT
} qll_sizing_regime;

extern const char *const qll_sizing_regime_words[QLL_SIZING_REGIME_COUNT];

typedef struct qll_sizing {
    double kv_m3h;
    double flow_m3s;
    double ff;
    double choked_drop_pa; /* with reducers (FLP/FP)^2 (p1 - FF pv) */
    double drop_pa;        /* the one that counts: at most the choked one */
    bool choked;
    qll_sizing_loss loss;
    double fp, flp;  /* 1 and FL without reducers */
    double reynolds; /* of the valve, Rev */
    double fr;       /* 1 when turbulent */
    qll_sizing_regime regime;
    int iterations; /* of the search that FR needs; 0 when turbulent */
    bool converged; /* to 1e-9 of Kv or flow */
} qll_sizing;

/** Valve Reynolds number at @p kv_m3h passing @p flow_m3s; 0 at no flow. */
double qll_sizing_reynolds(const qll_sizing_case *given, double kv_m3h, double flow_m3s);

/**
 * Reynolds number factor FR, at most 1, for Rev below 10 000 (1 above). Full trim is Kv/d^2 >=
 * 0.016 * 0.865 (Kv in m3/h, d in mm), reduced trim is below; an unknown bore counts as the smallest
 * reduced trim, whose FR is the least. In transition FR is not let fall below the laminar value at
 * Rev 10, so that it never falls as Rev rises (both our assumptions).
 */
double qll_sizing_fr(const qll_sizing_case *given, double kv_m3h, double reynolds);

/**
 * Kv that passes @p flow_m3s (>= 0). FP and FLP are solved in closed form, FR by a bracketed
 * search. Source: IEC 60534-2-1:2011; checked by tests/reference/sizing.csv.
 *
 * @return kv_m3h NaN and converged false if no Kv passes the flow (no drop; reducers that take it
 *         all) or the case makes no sense
 */
qll_sizing qll_sizing_kv(const qll_sizing_case *given, double flow_m3s);

/** Flow that @p kv_m3h (>= 0) passes; the inverse, with the same failures in flow_m3s. */
qll_sizing qll_sizing_flow(const qll_sizing_case *given, double kv_m3h);

#endif
