#include "handbook/work_valve.h"

#include <math.h>

qll_work_pressures qll_work_pressures_read(qll_calc_work *work)
{
    qll_work_pressures read = {.inlet_pa = qll_work_absolute_pa(work, "inlet"),
                               .outlet_pa = qll_work_absolute_pa(work, "outlet")};
    read.water = qll_work_water(work, read.inlet_pa - work->barometric_pa);
    qll_work_within(work, "inlet", read.inlet_pa, 1e3, 10e6);
    if (read.outlet_pa >= read.inlet_pa) {
        qll_work_refuse(work, "outlet", 0, QLL_CODE_CONTRADICTION,
                        QLL_SAYS_WITH(INPUT_NOT_BELOW, qll_as_is("inlet")), NULL);
    }
    return read;
}

void qll_work_fluid_read(qll_calc_work *work, qll_water *water)
{
    if (qll_work_given(work, "density")) {
        water->density_kg_m3 = qll_work_number(work, "density");
        qll_work_within(work, "density", water->density_kg_m3, 500, 2000);
    }
    if (qll_work_given(work, "vapour_pressure")) {
        water->vapour_pressure_pa = qll_work_liquid_pa(work, "vapour_pressure");
    }
}

double qll_work_fl(qll_calc_work *work)
{
    double fl = qll_work_number(work, "fl");
    qll_work_within(work, "fl", fl, 0.2, 1);
    return fl;
}

double qll_work_fd(qll_calc_work *work)
{
    double fd = qll_work_number(work, "fd");
    qll_work_within(work, "fd", fd, 0.01, 1);
    return fd;
}

double qll_work_coefficient(qll_calc_work *work, bool *is_cv)
{
    *is_cv = qll_work_given(work, "cv");
    if (qll_work_given(work, "kv") == *is_cv) {
        qll_work_refuse(work, "kv", 0, QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("kv"), qll_as_is("cv")), NULL);
        return NAN;
    }
    const char *key = *is_cv ? "cv" : "kv";
    double value = qll_work_number(work, key);
    qll_work_within(work, key, value, 0, 1e5);
    return value;
}

double qll_work_length_or_none(qll_calc_work *work, const char *key)
{
    if (!qll_work_given(work, key)) {
        return NAN;
    }
    double length_m = qll_work_number(work, key);
    qll_work_within(work, key, length_m, 1e-3, 2.0);
    return length_m;
}
