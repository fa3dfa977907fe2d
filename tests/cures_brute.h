/* A building with a station in it, asked about as `check` is, and every arrangement of docs/theory/cures.md tried
 * without any short way. */
#ifndef QUELL_TESTS_CURES_BRUTE_H
#define QUELL_TESTS_CURES_BRUTE_H

#include "check.h"
#include "engine/engine.h"
#include "said.h"
#include "search/cures.h"
#include "station/connection.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double psi = 6894.757293168361;

/* A building that is asked about; its parts point at one another. */
typedef struct building {
    qll_arena *arena;
    qll_question question;
    qll_asked asked;
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_duty duty;
    qll_unknowns unknowns;
    qll_yardstick yardstick;
    qll_station station;
    qll_assessment assessment;
    qll_cures cures;
} building;

typedef struct given {
    double static_psi, set_psi, peak_gpm;
    const char *pipe;
    const char *existing;
    const char *more;      /* of downstream */
    const char *catalogue; /* NULL = the generic one */
} given;

static inline bool open_building(const given *of, building *made)
{
    *made = (building){.arena = qll_arena_open((size_t)1 << 29)};
    char *survey = qll_arena_take(made->arena, 4096, 1);
    int size = snprintf(
        survey, 4096,
        "{\"survey\":1,\"supply\":{\"static_high\":\"%g psi\",\"flow_test\":[{\"flow\":\"0 gpm\","
        "\"pressure\":\"%g psi\"},{\"flow\":\"100 gpm\",\"pressure\":\"%g psi\"}]},"
        "\"upstream\":[{\"pipe\":\"copper L\",\"nominal\":\"%s\",\"length\":\"40 ft\"}],"
        "\"downstream\":{\"set_pressure\":\"%g psi\",\"static_max\":\"85 psi\"%s},"
        "\"scenarios\":[{\"name\":\"flats\",\"use\":\"apartment\",\"people\":30,\"homes\":14,\"volume_per_person\":\"28.6 gal\","
        "\"fixtures\":[{\"fixture\":\"shower\",\"count\":14},{\"fixture\":\"kitchen faucet\","
        "\"count\":14},{\"fixture\":\"lavatory faucet\",\"count\":14}],\"peak\":\"%g gpm\"}],\"existing\":{\"stages\":[%s]}}",
        of->static_psi, of->static_psi - 4.0, of->static_psi - 10.0, of->pipe, of->set_psi,
        of->more, of->peak_gpm, of->existing);
    const char *catalogue = of->catalogue;
    made->question = (qll_question){.verb = QLL_VERB_CHECK, .form = QLL_FORM_JSON};
    made->question.document = (qll_input){.name = "survey", .bytes = survey, .size = (size_t)size};
    if (catalogue != NULL) {
        made->question.catalogue =
            (qll_input){.name = "catalogue", .bytes = catalogue, .size = strlen(catalogue)};
    }
    made->asked = (qll_asked){.question = &made->question,
                              .arena = made->arena,
                              .problems = qll_problems_none(made->arena),
                              .assumed = {.arena = made->arena}};
    bool is_read =
        qll_prepare_survey(&made->asked, &made->prepared) == QLL_OK
        && qll_prepare_catalogue(&made->asked, &made->prepared, &made->catalogue) == QLL_OK;
    for (size_t i = 0; i < made->asked.problems.kept_count && !is_read; i++) {
        printf("%s\n", said_problem(&made->asked.problems, i).text);
    }
    if (!CHECK(is_read)) {
        return false;
    }
    qll_prepare_header(&made->asked, &made->prepared);
    const qll_site *site = &made->prepared.survey.site;
    return CHECK(qll_survey_existing(&made->prepared.survey, &made->catalogue, made->arena,
                                     &made->station, &made->asked.assumed, &made->asked.problems)
                 == QLL_OK)
           && CHECK(qll_prepare_duty(&made->asked, &made->prepared, &made->duty) == QLL_OK)
           && CHECK(qll_unknowns_make(&made->duty, 1.0, made->arena, &made->unknowns) == QLL_OK)
           && CHECK(
               qll_yardstick_make(site, &made->duty, &made->unknowns, made->arena, &made->yardstick)
               == QLL_OK);
}

/* ---- everything tried ---- */

#define TEST_STAGES_MOST   4
#define TEST_BRANCHES_MOST 6

/* A station by value. */
typedef struct layout {
    size_t stages;
    size_t branches[TEST_STAGES_MOST];
    qll_branch at[TEST_STAGES_MOST][TEST_BRANCHES_MOST];
} layout;

typedef struct brute {
    building *of;
    double best[QLL_CURE_COUNT]; /* expected cost; INFINITY = none is fit */
    size_t tried;
} brute;

static const double offsets_psi[] = {3.0, 4.0, 6.0, 8.0, 10.0};

static inline layout layout_of(const qll_station *station)
{
    layout made = {.stages = station->stage_count};
    for (size_t k = 0; k < station->stage_count; k++) {
        made.branches[k] = station->stages[k].branch_count;
        for (size_t j = 0; j < made.branches[k]; j++) {
            made.at[k][j] = station->stages[k].branches[j];
        }
    }
    return made;
}

static inline double highest_of(const layout *of, size_t stage)
{
    double highest = -INFINITY;
    for (size_t j = 0; j < of->branches[stage]; j++) {
        highest = fmax(highest, of->at[stage][j].set_pa_gauge);
    }
    return highest;
}

/* Higher set-points first, as a search hands stations over. */
static inline void sort_stage(qll_branch *branches, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j + 1 < count; j++) {
            if (branches[j].set_pa_gauge < branches[j + 1].set_pa_gauge) {
                qll_branch moved = branches[j];
                branches[j] = branches[j + 1];
                branches[j + 1] = moved;
            }
        }
    }
}

static inline void look_at(brute *at, qll_cure_kind kind, const layout *of, double installed)
{
    layout copy = *of;
    qll_stage stages[TEST_STAGES_MOST];
    double inlet_pa_gauge = at->of->station.stages[0].set_inlet_pa_gauge;
    for (size_t k = 0; k < copy.stages; k++) {
        sort_stage(copy.at[k], copy.branches[k]);
        stages[k] = (qll_stage){copy.at[k], copy.branches[k], inlet_pa_gauge};
        inlet_pa_gauge = highest_of(&copy, k);
    }
    const qll_station station = {stages, copy.stages};
    qll_fitness fitness;
    qll_cost cost;
    at->tried += 1;
    if (CHECK(qll_station_fitness(&station, &at->of->yardstick, at->of->arena, &fitness) == QLL_OK)
        && fitness.is_fit
        && CHECK(qll_station_measure(&station, &at->of->yardstick, at->of->arena, &cost)
                 == QLL_OK)) {
        at->best[kind] = fmin(at->best[kind], installed + cost.callback_share * cost.callback);
    }
}

static inline qll_branch branch_at(brute *at, size_t valve, double set_pa_gauge)
{
    qll_branch made = {.valve = &at->of->catalogue.valves[valve],
                       .law = &at->of->catalogue.laws[valve],
                       .set_pa_gauge = set_pa_gauge};
    CHECK(qll_branch_connect(&at->of->prepared.survey.site, at->of->arena, &made) == QLL_OK);
    return made;
}

static inline layout moved_by(const layout *of, size_t stage, double by_pa)
{
    layout made = *of;
    for (size_t j = 0; j < made.branches[stage]; j++) {
        made.at[stage][j].set_pa_gauge += by_pa;
    }
    return made;
}

/* One valve and what is round it, by the catalogue's price: all of these have one. */
static inline double part_of(const brute *at, size_t valve)
{
    const qll_valve *of = &at->of->catalogue.valves[valve];
    return of->price + qll_costs_branch(at->of->yardstick.site->costs, of->nominal_m);
}

static inline void try_beside(brute *at, const layout *base, size_t stage, size_t valve)
{
    const qll_costs *costs = at->of->yardstick.site->costs;
    const double pipe_m = at->of->yardstick.pipe_m;
    const double own_m = at->of->catalogue.valves[valve].nominal_m;
    const double installed = part_of(at, valve) + costs->visit
                             + qll_costs_beside(costs, own_m < 0.505 * pipe_m ? own_m : pipe_m);
    for (size_t j = 0; j < base->branches[stage]; j++) {
        if (at->of->catalogue.valves[valve].kv_m3h > 0.5 * base->at[stage][j].valve->kv_m3h) {
            return;
        }
    }
    for (size_t o = 0; o < 5; o++) {
        const double offset_pa = offsets_psi[o] * psi;
        const double highest_pa = highest_of(base, stage);
        layout above = *base;
        above.at[stage][above.branches[stage]++] = branch_at(at, valve, highest_pa + offset_pa);
        look_at(at, QLL_CURE_SMALL_BESIDE, &above, installed);
        layout below = moved_by(base, stage, -offset_pa);
        below.at[stage][below.branches[stage]++] = branch_at(at, valve, highest_pa);
        look_at(at, QLL_CURE_SMALL_BESIDE, &below, installed);
    }
}

static inline void try_in_place(brute *at, const layout *base, size_t stage, size_t valve)
{
    const qll_costs *costs = at->of->yardstick.site->costs;
    const double installed =
        part_of(at, valve) + costs->visit + qll_costs_beside(costs, at->of->yardstick.pipe_m);
    for (size_t j = 0; j < base->branches[stage]; j++) {
        if (at->of->catalogue.valves[valve].kv_m3h < base->at[stage][j].valve->kv_m3h) {
            layout made = *base;
            made.at[stage][j] = branch_at(at, valve, base->at[stage][j].set_pa_gauge);
            look_at(at, QLL_CURE_SMALLER_VALVE, &made, installed);
        }
    }
}

/* Pressures between two stages of which the second holds @p held_pa_gauge, by the words of search.md: equal xF, so
 * that the pressures over the vapour's are in geometric progression; to 5 psi, and two steps to either side. */
static inline size_t between(const brute *at, double held_pa_gauge, double made[5])
{
    const qll_site *site = &at->of->prepared.survey.site;
    const double atmosphere = site->barometric_pa;
    const double vapour = site->water.vapour_pressure_pa;
    const double high_pa = at->of->duty.inlet_static_pa[2];
    const double middle_pa =
        sqrt((high_pa - vapour) * (held_pa_gauge + atmosphere - vapour)) + vapour - atmosphere;
    const double nearest = round(middle_pa / (5.0 * psi));
    size_t count = 0;
    for (int step = -2; step <= 2; step++) {
        double pa_gauge = (nearest + step) * 5.0 * psi;
        if (pa_gauge >= held_pa_gauge + 5.0 * psi && pa_gauge <= high_pa - atmosphere - 5.0 * psi
            && (high_pa - atmosphere) / pa_gauge <= site->limits.ratio_max
            && pa_gauge / held_pa_gauge <= site->limits.ratio_max) {
            made[count++] = pa_gauge;
        }
    }
    return count;
}

static inline void try_before(brute *at, const layout *base, size_t valve)
{
    const qll_costs *costs = at->of->yardstick.site->costs;
    const double installed = part_of(at, valve) + costs->visit + costs->stage
                             + qll_costs_beside(costs, at->of->yardstick.pipe_m);
    double pressures[5];
    const size_t count = between(at, highest_of(base, 0), pressures);
    for (size_t i = 0; i < count && base->stages < 3; i++) {
        layout made = {.stages = base->stages + 1, .branches = {1}};
        made.at[0][0] = branch_at(at, valve, pressures[i]);
        for (size_t k = 0; k < base->stages; k++) {
            made.branches[k + 1] = base->branches[k];
            memcpy(made.at[k + 1], base->at[k], sizeof base->at[k]);
        }
        look_at(at, QLL_CURE_STAGE_BEFORE, &made, installed);
    }
}

/* Settings of a station of one stage with at most two valves, smaller first. */
static inline void try_settings(brute *at, const layout *there)
{
    const double wanted_pa = at->of->prepared.survey.site.set_pa_gauge;
    const double now_pa = highest_of(there, 0);
    const double visit = at->of->yardstick.site->costs->visit;
    const double bases[] = {now_pa, wanted_pa};
    for (size_t b = 0; b < 2; b++) {
        layout moved = moved_by(there, 0, bases[b] - now_pa);
        if (b > 0 && wanted_pa != now_pa) {
            look_at(at, QLL_CURE_SETTINGS, &moved, visit);
        }
        const bool has_two = there->branches[0] == 2;
        const size_t small =
            has_two && there->at[0][1].valve->kv_m3h < there->at[0][0].valve->kv_m3h ? 1 : 0;
        for (size_t o = 0; has_two && o < 5; o++) {
            moved.at[0][small].set_pa_gauge = bases[b];
            moved.at[0][1 - small].set_pa_gauge = bases[b] - offsets_psi[o] * psi;
            look_at(at, QLL_CURE_SETTINGS, &moved, visit);
            moved.at[0][small].set_pa_gauge = bases[b] + offsets_psi[o] * psi;
            moved.at[0][1 - small].set_pa_gauge = bases[b];
            look_at(at, QLL_CURE_SETTINGS, &moved, visit);
        }
    }
}

static inline void try_all(brute *at)
{
    for (size_t kind = 0; kind < QLL_CURE_COUNT; kind++) {
        at->best[kind] = INFINITY;
    }
    const layout there = layout_of(&at->of->station);
    const size_t last = there.stages - 1;
    const double by_pa = at->of->prepared.survey.site.set_pa_gauge - highest_of(&there, last);
    const layout moved = moved_by(&there, last, by_pa);
    for (size_t i = 0; i < at->of->catalogue.count; i++) {
        for (size_t k = 0; k <= last; k++) {
            try_beside(at, &there, k, i);
            try_in_place(at, &there, k, i);
        }
        try_beside(at, &moved, last, i);
        try_in_place(at, &moved, last, i);
        try_before(at, &there, i);
        try_before(at, &moved, i);
    }
    if (there.stages == 1) {
        try_settings(at, &there);
    }
}

#endif
