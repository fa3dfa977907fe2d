/* What a station does over all flows, as it is drawn. Pressures gauge. */
#ifndef QUELL_FINDINGS_STATION_CURVES_H
#define QUELL_FINDINGS_STATION_CURVES_H

#include "station/level.h"

/** Straight lines between so many points look the same as the curve. */
#define QLL_FALLOFF_POINTS 81
#define QLL_SOUND_POINTS   60

/** Flows at which there is a spectrum: a tenth, three tenths and all of the design peak. */
#define QLL_SPECTRA 3

typedef enum qll_falloff_kind {
    QLL_FALLOFF_MIDDLE,  /* the station at its middle supply */
    QLL_FALLOFF_LOWEST,  /* at its lowest */
    QLL_FALLOFF_HIGHEST, /* at its highest */
    QLL_FALLOFF_BETWEEN, /* behind a stage that is not the last, middle supply */
    QLL_FALLOFF_ALONE,   /* one valve of the last stage as if the others were shut, middle supply */
} qll_falloff_kind;

typedef struct qll_falloff_found {
    qll_falloff_kind kind;
    size_t stage, branch;          /* BETWEEN: the stage; ALONE: the valve */
    const double *outlet_pa_gauge; /* [QLL_FALLOFF_POINTS]; NaN = it does not pass the flow */
    double lockup_pa_gauge;        /* of the whole station, at no flow; else NaN */
    double full_travel_m3s;        /* from here on wide open; NaN = not reached */
} qll_falloff_found;

typedef struct qll_spectrum {
    double flow_m3s;
    bool has_level; /* false: nothing is known of the bands */
    qll_spectrum_band bands[QLL_NOISE_BAND_COUNT];
} qll_spectrum;

typedef struct qll_flow_range {
    double from_m3s, to_m3s;
} qll_flow_range;

/** Over which flows of the station a valve works, at the middle supply. */
typedef struct qll_valve_work {
    const qll_flow_range *passing; /* it passes water */
    size_t passing_count;
    const qll_flow_range *in_band; /* it passes most of its stage's, in the velocity band */
    size_t in_band_count;
} qll_valve_work;

/** Of one station of one building. */
typedef struct qll_station_curves {
    const double *falloff_m3s; /* [QLL_FALLOFF_POINTS], from next to nothing to beyond the peak */
    const qll_falloff_found *falloffs;
    size_t falloff_count;
    double never_above_pa_gauge; /* most at the station's outlet, for the lowest of the building */
    const double *sound_m3s;     /* [QLL_SOUND_POINTS], up to the peak, at the middle supply */
    const double *sound_dba;     /* likewise, of the whole station; NaN = no level */
    const double *const *valve_dba; /* [valve][QLL_SOUND_POINTS], stage by stage */
    qll_spectrum spectra[QLL_SPECTRA];
    const qll_valve_work *works; /* [valve], stage by stage */
} qll_station_curves;

#endif
