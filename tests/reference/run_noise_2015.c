#include "noise_annex.h"

int main(void)
{
    noise_annex_rows("tests/reference/noise_2015.csv", QLL_NOISE_2015);
    return TEST_END();
}
