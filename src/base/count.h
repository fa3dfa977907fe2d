/* How many entries a list in sight has. */
#ifndef QUELL_BASE_COUNT_H
#define QUELL_BASE_COUNT_H

#define QLL_COUNT(array) (sizeof(array) / sizeof((array)[0]))

#endif
