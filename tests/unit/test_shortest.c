/* The C library's printf and strtod are the witnesses: the same text, for every number there is. */
#include "base/random.h"
#include "base/shortest.h"
#include "check.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void expected(double value, char text[QLL_SHORTEST_ROOM])
{
    for (int digits = 15; digits <= 17; digits++) {
        (void)snprintf(text, QLL_SHORTEST_ROOM, "%.*g", digits, value);
        if (strtod(text, NULL) == value) {
            return;
        }
    }
}

static bool agrees(double value)
{
    char own[QLL_SHORTEST_ROOM] = "?";
    char theirs[QLL_SHORTEST_ROOM];
    expected(value, theirs);
    const bool is_within = value == 0 || (fabs(value) >= 1e-5 && fabs(value) < 1e15);
    const bool is_written = qll_shortest(value, own);
    const bool is_right = is_written == is_within && strcmp(own, is_within ? theirs : "?") == 0;
    if (!is_right) {
        printf("    %a: %s, not %s\n", value, own, theirs);
    }
    return is_right;
}

static bool agree_around(double value)
{
    return agrees(value) && agrees(-value) && agrees(nextafter(value, 0))
           && agrees(nextafter(value, INFINITY));
}

TEST(powers_of_two_and_ten_and_their_neighbors)
{
    for (int e = -20; e <= 53; e++) {
        CHECK(agree_around(ldexp(1, e)));
        CHECK(agree_around(ldexp(3, e)));
    }
    for (int e = -7; e <= 16; e++) {
        CHECK(agree_around(pow(10, e)));
        CHECK(agree_around(9.99999999999999 * pow(10, e)));
        CHECK(agree_around(5.5 * pow(10, e)));
    }
    CHECK(agrees(0) && agrees(-0.0) && agrees(1.0 / 3) && agrees(6894.757293168361));
    CHECK(agrees(5e-324) && agrees(1.7976931348623157e308));
}

TEST(random_bits)
{
    qll_random random = qll_random_seeded(11);
    for (int i = 0; i < 400000; i++) {
        uint64_t bits = qll_random_bits(&random);
        /* Exponents from 2^-18 to 2^50, where the work is done; a few beyond. */
        const uint64_t exponent = 1023 - 18 + (bits >> 52) % 69;
        bits = (bits & UINT64_C(0x800FFFFFFFFFFFFF)) | exponent << 52;
        double value;
        memcpy(&value, &bits, sizeof value);
        if (!CHECK(agrees(value))) {
            return;
        }
    }
}

/* What people write: few digits, often halves, where rounding is a tie and digits fall off. */
TEST(short_decimals)
{
    qll_random random = qll_random_seeded(12);
    for (int i = 0; i < 200000; i++) {
        const double whole = floor(qll_random_unit(&random) * 1e8);
        const double value = whole / pow(10, (double)(qll_random_bits(&random) % 10));
        if (!CHECK(agrees(value) && agrees(whole + 0.5) && agrees(ldexp(whole, -20)))) {
            return;
        }
    }
}

int main(void)
{
    TEST_RUN(powers_of_two_and_ten_and_their_neighbors);
    TEST_RUN(random_bits);
    TEST_RUN(short_decimals);
    return TEST_END();
}
