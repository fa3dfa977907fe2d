/* What libFuzzer gives and asks for. */
#ifndef QUELL_FUZZ_LIBFUZZER_H
#define QUELL_FUZZ_LIBFUZZER_H

#include <stddef.h>
#include <stdint.h>

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t max_size);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size, unsigned int seed);
size_t LLVMFuzzerCustomCrossOver(const uint8_t *data1, size_t size1, const uint8_t *data2,
                                 size_t size2, uint8_t *out, size_t max_out_size,
                                 unsigned int seed);

#endif
