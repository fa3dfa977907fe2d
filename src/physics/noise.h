/* Sound level outside the pipe behind a reducing valve: IEC 60534-8-4, liquid flow. */
#ifndef QUELL_PHYSICS_NOISE_H
#define QUELL_PHYSICS_NOISE_H

#include "base/said.h"

typedef enum qll_noise_edition {
    QLL_NOISE_2015, /* third-octave bands, summed with the A-weights */
    QLL_NOISE_2005, /* closed form of one overall transmission loss */
    QLL_NOISE_EDITION_COUNT
} qll_noise_edition;

/** Why there is no level; in the order in which they are looked for. */
typedef enum qll_noise_limit {
    QLL_NOISE_WITHIN,   /* there is a level */
    QLL_NOISE_NO_CASE,  /* a number is missing or makes no sense */
    QLL_NOISE_PLASTIC,  /* the method is for metal pipe */
    QLL_NOISE_NO_DROP,  /* the outlet is not below the inlet */
    QLL_NOISE_FLASHING, /* the outlet is not above vapour pressure */
    QLL_NOISE_CHOKED,   /* xF at or above FL^2: the cavitation terms blow up */
    QLL_NOISE_XF_HIGH,  /* xF above 0.8, the same (our assumption) */
    QLL_NOISE_LIMIT_COUNT
} qll_noise_limit;

/** Why, as people read it: "the outlet is at or below vapour pressure"; nothing where there is one. */
extern const qll_text_id qll_noise_limit_texts[QLL_NOISE_LIMIT_COUNT];

typedef enum qll_coefficient_form {
    QLL_FORM_KV, /* m3/h at 1 bar: N14 = 0.0049, N34 = 1.0 (from memory) */
    QLL_FORM_CV, /* gpm at 1 psi: N14 = 0.0046, N34 = 1.17 */
    QLL_FORM_COUNT
} qll_coefficient_form;

/** The straight metal pipe behind the valve, and the air around it. */
typedef struct qll_noise_pipe {
    double bore_m, wall_m;
    double wall_density_kg_m3, wall_sound_speed_m_s;
    double air_density_kg_m3, air_sound_speed_m_s;
    bool is_plastic;
} qll_noise_pipe;

/* Air of 20 degC at sea level. */
#define QLL_AIR_DENSITY_KG_M3   1.2
#define QLL_AIR_SOUND_SPEED_M_S 343.0

/** Third octaves from 12.5 Hz to 20 kHz. */
#define QLL_NOISE_BAND_COUNT 33

/** A pipe made ready: everything that does not depend on valve, pressures or flow. */
typedef struct qll_noise_path {
    qll_noise_limit limit; /* WITHIN, NO_CASE or PLASTIC */
    double bore_m;
    double ring_hz;      /* fr */
    double ring_loss_db; /* TLfr, below 0 */
    double spread_db;    /* 10 lg((Di + 2 tp + 2 m)/(Di + 2 tp)) */
    double spread_share; /* 10^(-spread_db/10) */
    /* Per band, for the fast total. */
    double weight[QLL_NOISE_BAND_COUNT];        /* 10^((TL + A)/10) */
    double cube[QLL_NOISE_BAND_COUNT];          /* f^3/4 */
    double inverse[QLL_NOISE_BAND_COUNT];       /* f^-1 */
    double power[QLL_NOISE_BAND_COUNT];         /* f^1.5/4 */
    double inverse_power[QLL_NOISE_BAND_COUNT]; /* f^-1.5 */
} qll_noise_path;

void qll_noise_path_make(const qll_noise_pipe *pipe, qll_noise_path *path);

/** A valve with a globe body, as reducing valves have, at one point of work. */
typedef struct qll_noise_case {
    double mass_flow_kg_s;
    double inlet_pa, outlet_pa;                                /* absolute */
    double density_kg_m3, vapour_pressure_pa, sound_speed_m_s; /* of the liquid */
    double coefficient;                                        /* at the opening of the moment */
    qll_coefficient_form form;
    double fl, fd;
    double xfz;          /* measured, at 6 bar; NaN = estimated as of a single flow path */
    double valve_bore_m; /* d */
    double seat_bore_m;  /* do; NaN = d (our assumption) */
} qll_noise_case;

/** The sound inside the pipe, with the symbols of the standard. NaN where there is none. */
typedef struct qll_noise_source {
    qll_noise_limit limit;
    double xf;                    /* (p1 - p2)/(p1 - pv) */
    double xfz, xfzp1;            /* onset of cavitation at 6 bar and at this inlet */
    bool is_cavitating;           /* xf above xfzp1 */
    double critical_drop_pa;      /* dpc */
    double jet_m;                 /* Dj */
    double jet_velocity_m_s;      /* Uvc */
    double stream_power_w;        /* Wm */
    double efficiency_turbulent;  /* eta_t */
    double efficiency_cavitating; /* eta_c; 0 when turbulent */
    double sound_power_w;         /* Wa */
    double inside_db;             /* Lpi */
    double strouhal;              /* NStr */
    double peak_turbulent_hz;     /* fp,turb */
    double peak_cavitating_hz;    /* fp,cav; NaN when turbulent */
} qll_noise_source;

typedef struct qll_noise_band {
    double centre_hz;
    double turbulent_db;  /* Fturb(f) */
    double cavitating_db; /* Fcav(f); NaN when turbulent */
    double inside_db;     /* Lpi(f) */
    double loss_db;       /* TL(f) */
    double outside_db;    /* Lpe,1m(f) */
    double weight_db;     /* A(f) */
} qll_noise_band;

typedef struct qll_noise {
    qll_noise_source source;
    double ring_hz, ring_loss_db, spread_db;
    double peak_loss_db;                          /* dTL(fp,turb); 2005 only, else NaN */
    double loss_turbulent_db, loss_cavitating_db; /* TLturb, TLcav; 2005 only, else NaN */
    qll_noise_band bands[QLL_NOISE_BAND_COUNT];   /* by the edition's own spectrum */
    double level_dba;                             /* LpAe,1m; NaN beyond the method */
} qll_noise;

/**
 * Level 1 m from the pipe's wall, with every intermediate value. docs/theory/noise.md.
 *
 * The 2005 level is the closed form; its bands are on an octave footing and must not be summed
 * against the 2015 ones. Beyond the method (source.limit) the level is NaN, and the rest is filled
 * as far as the formulas go. Source: IEC 60534-8-4:2005 and :2015 by way of open libraries; checked
 * by tests/reference/noise_2005.csv, noise_2015.csv, noise_bands.csv.
 */
void qll_noise_of(const qll_noise_case *given, const qll_noise_path *path,
                  qll_noise_edition edition, qll_noise *noise);

/** The 2015 level alone, dB(A); NaN beyond the method, then @p limit (may be NULL) says why. */
double qll_noise_level_dba(const qll_noise_case *given, const qll_noise_path *path,
                           qll_noise_limit *limit);

/**
 * Energy 10^(L/10) of the 2015 level by the flow alone, the cavitation terms left out: what the level
 * would be were there no cavitation, so that cavitation can be judged by its own margin. Beyond the
 * method (choked, flashing, xF high) it goes on with the critical drop as its cap. Below xFzp1 it is the
 * energy of qll_noise_level_dba().
 *
 * @return 0 without a drop; NaN where the path has no wall or is plastic, or the case makes no sense
 */
double qll_noise_turbulent_energy(const qll_noise_case *given, const qll_noise_path *path);

/**
 * A-weighted energy 1 m from the wall over the energy inside, of the flow's own noise when its spectrum
 * peaks at @p peak_hz (> 0); @p path must be WITHIN. Equations 10, 15 to 17 of docs/theory/noise.md.
 */
double qll_noise_flow_shape(const qll_noise_path *path, double peak_hz);

/* How far xFz may be off (our assumptions): estimated by formula, and read from a data sheet. */
#define QLL_XFZ_UNCERTAINTY_ESTIMATED 0.10
#define QLL_XFZ_UNCERTAINTY_SHEET     0.05

typedef struct qll_noise_range {
    qll_noise_limit limit;
    double low_dba, level_dba, high_dba;
} qll_noise_range;

/** The 2015 level for xFz and for xFz plus and minus @p xfz_uncertainty (kept in 0.05 to 0.95). */
qll_noise_range qll_noise_range_of(const qll_noise_case *given, const qll_noise_path *path,
                                   double xfz_uncertainty);

/** Levels of independent sources together, by energy, dB; -infinity for none. */
double qll_level_sum_db(const double *levels_db, size_t count);

#endif
