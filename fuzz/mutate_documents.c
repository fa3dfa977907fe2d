/* How libFuzzer changes a document: by nodes; now and then bytes, as it does by itself. */
#include "libfuzzer.h"
#include "mutate_json.h"

#include <stdbool.h>

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size, unsigned int seed)
{
    qll_random random = qll_random_seeded(seed);
    const bool is_plain = qll_random_bits(&random) % 16 == 0;
    const size_t made = is_plain ? 0 : qll_mutate_json(data, size, max_size, &random);
    return made > 0 ? made : LLVMFuzzerMutate(data, size, max_size);
}

/* One document with a node of another in the place of one of its own. */
size_t LLVMFuzzerCustomCrossOver(const uint8_t *data1, size_t size1, const uint8_t *data2,
                                 size_t size2, uint8_t *out, size_t max_out_size, unsigned int seed)
{
    qll_random random = qll_random_seeded(seed);
    const qll_text one = {(const char *)data1, size1};
    const qll_text other = {(const char *)data2, size2};
    return qll_cross_json(one, other, out, max_out_size, &random);
}
