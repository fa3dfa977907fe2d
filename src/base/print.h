/* A number as printf writes it in the C locale, whatever locale the process has chosen. */
#ifndef QUELL_BASE_PRINT_H
#define QUELL_BASE_PRINT_H

#include <stddef.h>

/** Writes @p value as %.*f, %.*e or %.*g (@p letter) do in the C locale; returns its size. @p to must have room for all of it,
 * and for the zero byte that closes it. */
size_t qll_number_print(char *to, size_t room, char letter, int decimals, double value);

#endif
