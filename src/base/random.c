/* xoshiro256++ 1.0 by D. Blackman and S. Vigna ("Scrambled linear pseudorandom number generators",
 * ACM TOMS 47 (4), 2021), its state filled by splitmix64 as its authors advise. */
#include "base/random.h"

/* splitmix64: G. Steele, D. Lea, C. Flood, "Fast splittable pseudorandom number generators",
 * OOPSLA 2014, with the mixing constants of its published C form. */
static uint64_t splitmix(uint64_t *state)
{
    *state += UINT64_C(0x9E3779B97F4A7C15);
    uint64_t mixed = *state;
    mixed = (mixed ^ (mixed >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    mixed = (mixed ^ (mixed >> 27)) * UINT64_C(0x94D049BB133111EB);
    return mixed ^ (mixed >> 31);
}

static uint64_t turned_left(uint64_t bits, int by)
{
    return (bits << by) | (bits >> (64 - by));
}

qll_random qll_random_seeded(uint64_t seed)
{
    qll_random random = {.state = {0}};
    for (int i = 0; i < 4; i++) {
        random.state[i] = splitmix(&seed);
    }
    return random;
}

uint64_t qll_random_bits(qll_random *random)
{
    uint64_t *s = random->state;
    uint64_t result = turned_left(s[0] + s[3], 23) + s[0];
    uint64_t shifted = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= shifted;
    s[3] = turned_left(s[3], 45);
    return result;
}

double qll_random_unit(qll_random *random)
{
    /* The upper 53 bits, which a double holds exactly, times 2^-53. */
    return (double)(qll_random_bits(random) >> 11) * 0x1.0p-53;
}
