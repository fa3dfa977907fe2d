#include "noise_annex.h"

int main(void)
{
    noise_annex_rows("tests/reference/noise_2005.csv", QLL_NOISE_2005);
    return TEST_END();
}
