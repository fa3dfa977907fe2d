#include "base/digest.h"

#include <stdint.h>
#include <string.h>

#define QLL_BLOCK_SIZE 64

/* Fractions of the cube roots of the first 64 primes: FIPS 180-4, 4.2.2. */
static const uint32_t round_words[QLL_BLOCK_SIZE] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

static uint32_t turned(uint32_t word, unsigned bits)
{
    return word >> bits | word << (32 - bits);
}

static void take_block(uint32_t state[8], const uint8_t *block)
{
    uint32_t w[QLL_BLOCK_SIZE];
    for (size_t t = 0; t < 16; t++) {
        const uint8_t *byte = block + 4 * t;
        w[t] = (uint32_t)byte[0] << 24 | (uint32_t)byte[1] << 16 | (uint32_t)byte[2] << 8 | byte[3];
    }
    for (size_t t = 16; t < QLL_BLOCK_SIZE; t++) {
        const uint32_t sigma_0 = turned(w[t - 15], 7) ^ turned(w[t - 15], 18) ^ w[t - 15] >> 3;
        const uint32_t sigma_1 = turned(w[t - 2], 17) ^ turned(w[t - 2], 19) ^ w[t - 2] >> 10;
        w[t] = sigma_1 + w[t - 7] + sigma_0 + w[t - 16];
    }
    uint32_t v[8]; /* a to h of the standard */
    memcpy(v, state, sizeof v);
    for (size_t t = 0; t < QLL_BLOCK_SIZE; t++) {
        const uint32_t sum_1 = turned(v[4], 6) ^ turned(v[4], 11) ^ turned(v[4], 25);
        const uint32_t sum_0 = turned(v[0], 2) ^ turned(v[0], 13) ^ turned(v[0], 22);
        const uint32_t choice = (v[4] & v[5]) ^ (~v[4] & v[6]);
        const uint32_t majority = (v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]);
        const uint32_t first = v[7] + sum_1 + choice + round_words[t] + w[t];
        memmove(v + 1, v, 7 * sizeof v[0]);
        v[4] += first;
        v[0] = first + sum_0 + majority;
    }
    for (size_t i = 0; i < 8; i++) {
        state[i] += v[i];
    }
}

static void digest_of(qll_text text, uint8_t digest[QLL_DIGEST_SIZE])
{
    /* Fractions of the square roots of the first 8 primes: FIPS 180-4, 5.3.3. */
    uint32_t state[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                         0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    const uint8_t *bytes = (const uint8_t *)text.bytes;
    size_t whole = text.size - text.size % QLL_BLOCK_SIZE;
    for (size_t at = 0; at < whole; at += QLL_BLOCK_SIZE) {
        take_block(state, bytes + at);
    }
    /* A one bit, zeros, and the length in bits close the last block or two: FIPS 180-4, 5.1.1. */
    uint8_t last[2 * QLL_BLOCK_SIZE] = {0};
    size_t rest = text.size - whole;
    if (rest > 0) {
        memcpy(last, bytes + whole, rest);
    }
    last[rest] = 0x80;
    size_t end = rest + 9 <= QLL_BLOCK_SIZE ? QLL_BLOCK_SIZE : 2 * QLL_BLOCK_SIZE;
    uint64_t bits = (uint64_t)text.size * 8;
    for (size_t i = 0; i < 8; i++) {
        last[end - 1 - i] = (uint8_t)(bits >> (8 * i));
    }
    for (size_t at = 0; at < end; at += QLL_BLOCK_SIZE) {
        take_block(state, last + at);
    }
    for (size_t i = 0; i < QLL_DIGEST_SIZE; i++) {
        digest[i] = (uint8_t)(state[i / 4] >> (24 - 8 * (i % 4)));
    }
}

void qll_digest_write(qll_writer *writer, qll_text text, size_t size)
{
    static const char digits[] = "0123456789abcdef";
    uint8_t digest[QLL_DIGEST_SIZE];
    digest_of(text, digest);
    for (size_t i = 0; i < size && i < QLL_DIGEST_SIZE; i++) {
        qll_write_byte(writer, digits[digest[i] >> 4], 1);
        qll_write_byte(writer, digits[digest[i] & 15], 1);
    }
}
