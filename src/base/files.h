/* The tables of data/ as bytes in the program (made by cmake/embed.cmake). */
#ifndef QUELL_BASE_FILES_H
#define QUELL_BASE_FILES_H

#include <stddef.h>

/* One pair per embedded file: the bytes and their number. */
#define QLL_FILE(symbol)                            \
    extern const unsigned char qll_file_##symbol[]; \
    extern const size_t qll_file_##symbol##_size

QLL_FILE(pipes);
QLL_FILE(meter_loss);
QLL_FILE(fixtures);
QLL_FILE(usual_fixtures);
QLL_FILE(hunter_curve);
QLL_FILE(diurnal);
QLL_FILE(diurnal_by_sa);
QLL_FILE(enduse);
QLL_FILE(enduse_by_sa);
QLL_FILE(visits);
QLL_FILE(habits);
QLL_FILE(din1988);
QLL_FILE(gpm_per_fixture);
QLL_FILE(generic_catalogue);
QLL_FILE(installed_costs);
QLL_FILE(causes);
QLL_FILE(evidence);
QLL_FILE(likelihood);

#undef QLL_FILE

#endif
