/* The fewest digits that read back as the same number, in integers alone: what printf and strtod give, many times faster
 * where these work in 128-bit software floats. */
#ifndef QUELL_BASE_SHORTEST_H
#define QUELL_BASE_SHORTEST_H

#include <stdbool.h>

#define QLL_SHORTEST_ROOM 32

/**
 * Writes @p value with as many digits as it takes, 15 to 17, trailing zeros left out: the text of "%.*g" with the first of these
 * numbers of digits that reads back as @p value, and closed by a zero.
 *
 * @param value finite
 * @return false, and nothing written, where its size is not 0 nor from 1e-5 to below 1e15
 */
bool qll_shortest(double value, char text[QLL_SHORTEST_ROOM]);

#endif
