/* A recording for tests: a tone in noise. */
#ifndef QUELL_TESTS_HUM_H
#define QUELL_TESTS_HUM_H

#include "quell/quell.h"

#include <math.h>

/* Six seconds of a tone in noise, at a rate that takes little time. */
static inline qll_status hum(void *context, qll_samples_sink *sink, void *sink_context,
                             const char **why)
{
    float block[400];
    unsigned state = 1;
    (void)context;
    (void)why;
    for (size_t i = 0; i < 48000; i += 400) {
        for (size_t j = 0; j < 400; j++) {
            state = 1103515245U * state + 12345U;
            block[j] =
                0.1F * (float)sin(1.9 * (double)(i + j)) + 0.01F * (float)(state >> 16) / 65536.0F;
        }
        const qll_status status = sink(sink_context, block, 400);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

#endif
