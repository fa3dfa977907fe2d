/* WAV files written by hand, so that their headers can lie. */
#ifndef QUELL_TESTS_WAV_H
#define QUELL_TESTS_WAV_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct wav {
    unsigned rate_hz, channels, bits; /* 8, 16, 24; 32 = float */
    double seconds;
    uint32_t claimed_size; /* of the samples, in the header; 0 = the truth */
    size_t cut_to;         /* bytes that are kept of the file; 0 = all */
    bool has_nan;
} wav;

static inline void wav_put(FILE *file, uint32_t value, int bytes)
{
    for (int i = 0; i < bytes; i++) {
        fputc((int)(value >> (8 * i) & 0xFFU), file);
    }
}

/* A tone of 3 kHz at a fifth of full scale. */
static inline void wav_put_sample(FILE *file, const wav *of, size_t j)
{
    const double x = 0.2 * sin(6.28318530717958647692 * 3000.0 * (double)j / of->rate_hz);
    if (of->bits == 32) {
        const float value = of->has_nan && j % 1000 == 7 ? NAN : (float)x;
        fwrite(&value, sizeof value, 1, file);
    } else if (of->bits == 8) {
        fputc((int)(128.0 + 127.0 * x), file);
    } else {
        wav_put(file, (uint32_t)(int32_t)(x * (of->bits == 16 ? 32767.0 : 8388607.0)),
                (int)of->bits / 8);
    }
}

/* Writes @p of to a new file below /tmp; @p path has room for 32. */
static inline bool wav_write(const wav *of, char *path)
{
    snprintf(path, 32, "/tmp/quell_wav_%c%c%c%c%c%c", 'X', 'X', 'X', 'X', 'X', 'X');
    const int descriptor = mkstemp(path);
    FILE *file = descriptor < 0 ? NULL : fdopen(descriptor, "wb");
    if (file == NULL) {
        return false;
    }
    const size_t count = (size_t)(of->seconds * of->rate_hz);
    const uint32_t frame = of->channels * of->bits / 8, size = (uint32_t)count * frame;
    const uint32_t claimed = of->claimed_size == 0 ? size : of->claimed_size;
    fwrite("RIFF", 1, 4, file);
    wav_put(file, claimed + 36, 4);
    fwrite("WAVEfmt ", 1, 8, file);
    wav_put(file, 16, 4);
    wav_put(file, of->bits == 32 ? 3 : 1, 2);
    wav_put(file, of->channels, 2);
    wav_put(file, of->rate_hz, 4);
    wav_put(file, of->rate_hz * frame, 4);
    wav_put(file, frame, 2);
    wav_put(file, of->bits, 2);
    fwrite("data", 1, 4, file);
    wav_put(file, claimed, 4);
    for (size_t j = 0; j < count; j++) {
        for (unsigned c = 0; c < of->channels; c++) {
            wav_put_sample(file, of, j);
        }
    }
    const bool is_written = fclose(file) == 0;
    return is_written && (of->cut_to == 0 || truncate(path, (off_t)of->cut_to) == 0);
}

#endif
