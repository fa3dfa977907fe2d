/* Figures of a survey that can hardly belong to one building: a slip of the pen, most likely. */
#include "demand/peaks.h"

#include <math.h>

/* Bounds, all our assumption; what is beyond is read as it stands, and said. */
#define QLL_HOME_PEOPLE_MAX     12.0
#define QLL_PERSON_HOMES_MAX    4.0
#define QLL_PERSON_FIXTURES_MAX 40.0

/* The most people, pupils or meals that one fixture serves. */
static double most_people(qll_use use)
{
    switch (use) {
    case QLL_USE_APARTMENT:
    case QLL_USE_HOUSE:
    case QLL_USE_HOTEL:
    case QLL_USE_HOSPITAL: return 10.0;
    case QLL_USE_OFFICE:
    case QLL_USE_SCHOOL: return 100.0;
    case QLL_USE_RESTAURANT: return 200.0;
    case QLL_USE_COUNT: break;
    }
    return (double)INFINITY;
}

static double count_fixtures(const qll_scenario *scenario)
{
    double count = 0.0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        count += scenario->loads[i].kind->outlet_count * (double)scenario->loads[i].count;
    }
    return count;
}

static void remark_homes(qll_peaks *all, qll_remarks *warnings)
{
    const qll_scenario *scenario = all->scenario;
    const double people = scenario->people;
    const double homes = scenario->homes;
    qll_remark remark = {.code = QLL_CODE_CONTRADICTION, .figures = {people, homes}};
    if (people > QLL_HOME_PEOPLE_MAX * homes) {
        remark.id = QLL_REMARK_CROWDED_HOMES;
        remark.figures[2] = QLL_HOME_PEOPLE_MAX;
        qll_peaks_note(all, warnings, remark);
    } else if (homes > QLL_PERSON_HOMES_MAX * people) {
        remark.id = QLL_REMARK_EMPTY_HOMES;
        remark.figures[2] = QLL_PERSON_HOMES_MAX;
        qll_peaks_note(all, warnings, remark);
    }
}

void qll_remark_proportion(qll_peaks *all, qll_remarks *warnings)
{
    const qll_scenario *scenario = all->scenario;
    const double people = scenario->people;
    const double fixtures = count_fixtures(scenario);
    if (people > 0.0 && scenario->homes > 0.0) {
        remark_homes(all, warnings);
    }
    if (people <= 0.0 || fixtures <= 0.0) {
        return;
    }
    qll_remark remark = {
        .code = QLL_CODE_CONTRADICTION, .use = scenario->use, .figures = {people, fixtures}};
    if (people > most_people(scenario->use) * fixtures) {
        remark.id = QLL_REMARK_CROWDED;
        remark.figures[2] = most_people(scenario->use);
        qll_peaks_note(all, warnings, remark);
    } else if (fixtures > QLL_PERSON_FIXTURES_MAX * people) {
        remark.id = QLL_REMARK_EMPTY;
        remark.figures[2] = QLL_PERSON_FIXTURES_MAX;
        qll_peaks_note(all, warnings, remark);
    }
}
