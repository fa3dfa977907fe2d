/* A meter that settles slowly: every stop decays by the same factor from row to row. The time constant is by definition
 * the time between two rows over the logarithm of their ratio. */
#include "check.h"
#include "signals/log_damping.h"

#include <math.h>

#define QLL_STOPS 12
#define QLL_FALL  14 /* rows of each */

/* Flows that run at 1 and then stop: each row is the one before times a factor, @p early in the first half of a fall and
 * @p late in the second. Rows are a second apart. */
static double time_constant_s(double early, double late)
{
    static qll_damping damping;
    int64_t at_ms = 0;
    qll_damping_begin(&damping, 1000);
    for (size_t stop = 0; stop < QLL_STOPS; stop++) {
        double flow = 1.0;
        for (size_t row = 0; row < QLL_FALL; row++) {
            qll_damping_look(&damping, &at_ms, &flow, 1);
            at_ms += 1000;
            flow *= row < QLL_FALL / 2 ? early : late;
        }
        flow = 0.0;
        qll_damping_look(&damping, &at_ms, &flow, 1);
        at_ms += 1000;
    }
    return qll_damping_time_s(&damping);
}

TEST(a_damped_meter_has_its_time_constant)
{
    CHECK_WITHIN(time_constant_s(exp(-1.0 / 4.0), exp(-1.0 / 4.0)), 4.0, 1e-6);
    CHECK_WITHIN(time_constant_s(exp(-1.0 / 7.0), exp(-1.0 / 7.0)), 7.0, 1e-6);
}

/* A valve that closes does not decay evenly, whichever half is the faster one. */
TEST(a_fall_that_is_not_even_has_none)
{
    CHECK(isnan(time_constant_s(exp(-1.0 / 3.0), exp(-1.0 / 6.0))));
    CHECK(isnan(time_constant_s(exp(-1.0 / 6.0), exp(-1.0 / 3.0))));
}

int main(void)
{
    TEST_RUN(a_damped_meter_has_its_time_constant);
    TEST_RUN(a_fall_that_is_not_even_has_none);
    return TEST_END();
}
