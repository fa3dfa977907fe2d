/* Changes that leave a document one. */
#ifndef QUELL_FUZZ_MUTATE_JSON_H
#define QUELL_FUZZ_MUTATE_JSON_H

#include "quell/text.h"

#include "base/random.h"

#include <stdint.h>

/** Changes one node of the JSON in @p data, which has room for @p most bytes. @return its size; 0: no document, or no room, and nothing is changed */
size_t qll_mutate_json(uint8_t *data, size_t size, size_t most, qll_random *random);

/** Writes @p one to @p out, a node of @p other in the place of one of its own. @return its size; 0 likewise */
size_t qll_cross_json(qll_text one, qll_text other, uint8_t *out, size_t most, qll_random *random);

#endif
