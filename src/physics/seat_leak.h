/* How much a seat lets through, from a creep test: docs/theory/seat_leak.md. */
#ifndef QUELL_PHYSICS_SEAT_LEAK_H
#define QUELL_PHYSICS_SEAT_LEAK_H

/** A creep test with the inlet's stop closed for the draw, then open for the rise. All over 0. */
typedef struct qll_creep_test {
    double drawn_m3; /* drawn with the inlet closed */
    double fall_pa;  /* of the outlet meanwhile */
    double rise_pa;  /* of the outlet at no flow, the inlet open */
    double time_s;   /* that it took; rise_pa may be 0 */
} qll_creep_test;

/** What the seat lets through, m3/s (eq. 1, 2). NaN for what makes no sense. */
double qll_seat_leak_m3s(const qll_creep_test *test);

/** The most a good seat of that size lets through, m3/s: 0.2 mL/min for each inch (our assumption, after the 10 cm3/h
 * for each inch of inlet that a test laboratory's page prints for metal-seated relief valves). */
double qll_seat_leak_good_m3s(double nominal_m);

/** From here on a seat is to be repaired, m3/s: 3 mL/min, a drop a second (our assumption). */
double qll_seat_leak_bad_m3s(void);

/** A drop of water, m3 (20 to the milliliter, common practice). */
double qll_drop_m3(void);

#endif
