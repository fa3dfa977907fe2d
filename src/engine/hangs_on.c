/* docs/theory/hangs_on.md. */
#include "engine/hangs_on.h"

#include "base/customary.h"
#include "engine/moved.h"
#include "engine/progress.h"

#include <math.h>
#include <string.h>

#define QLL_HALVINGS       7
/* So often the two stations known are halved by before the whole search is. */
#define QLL_ROUNDS         4
/* Larger catalogues are asked by so many of each size and kind. */
#define QLL_ASKED_WHOLE    64
#define QLL_ASKED_PER_SIZE 6

/** What is compared: no valve, nothing fit, or how many valves stand where. */
typedef struct shape {
    bool is_needed, is_fit;
    size_t stage_count;
    size_t branches[QLL_STAGES_MOST];
} shape;

/* A station that was the best somewhere, and what of that place it is built for. */
typedef struct known {
    shape shape;
    qll_station station;
    double wanted_pa_gauge;
    const qll_pipe_size *header; /* what its valves are connected to */
} known;

typedef struct asking {
    qll_asked *asked;
    const qll_designed *designed;
    qll_catalogue catalogue;
    shape now;
    known known_now;
    bool is_stopped; /* progress said stop: nothing more is asked */
} asking;

static shape shape_of(bool is_needed, bool is_fit, const qll_station *station)
{
    shape made = {.is_needed = is_needed, .is_fit = is_fit};
    if (is_needed && is_fit) {
        made.stage_count = station->stage_count;
        for (size_t k = 0; k < station->stage_count && k < QLL_STAGES_MOST; k++) {
            made.branches[k] = station->stages[k].branch_count;
        }
    }
    return made;
}

static bool is_same(const shape *a, const shape *b)
{
    return a->is_needed == b->is_needed && a->is_fit == b->is_fit
           && a->stage_count == b->stage_count
           && memcmp(a->branches, b->branches, sizeof a->branches) == 0;
}

/* ---- asking again ---- */

/* Place of a valve in the catalogue asked, whichever copy of it is meant. */
static size_t index_of(const asking *at, const qll_valve *valve)
{
    size_t i = 0;
    while (i + 1 < at->catalogue.count && strcmp(at->catalogue.valves[i].id, valve->id) != 0) {
        i++;
    }
    return i;
}

/* A station known from elsewhere as it would stand there: set to the wanted pressure of there, with the valves of
 * that catalogue. */
static qll_status move_station(const asking *at, const qll_moved *to, const known *one,
                               qll_station *there)
{
    qll_arena *arena = at->asked->arena;
    const qll_site *site = &to->prepared.survey.site;
    const qll_station *station = &one->station;
    const double change_pa = site->set_pa_gauge - one->wanted_pa_gauge;
    qll_stage *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    if (stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *from = &station->stages[k];
        qll_branch *branches = qll_arena_take(arena, from->branch_count, sizeof *branches);
        if (branches == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t j = 0; j < from->branch_count; j++) {
            branches[j] = from->branches[j];
            branches[j].valve = &to->catalogue.valves[index_of(at, from->branches[j].valve)];
            branches[j].set_pa_gauge += k + 1 == station->stage_count ? change_pa : 0.0;
        }
        stages[k] = *from;
        stages[k].branches = branches;
    }
    stages[0].set_inlet_pa_gauge = qll_duty_set_inlet_pa_gauge(&to->duty, site);
    *there = (qll_station){.stages = stages, .stage_count = station->stage_count};
    return QLL_OK;
}

/* Moves a known station there, and says what it is expected to cost; INFINITY where it is not fit, or the pipe is
 * not the one that it is connected to. */
static qll_status cost_there(const asking *at, const qll_moved *to, qll_yardstick *yardstick,
                             known *one, double *expected)
{
    *expected = INFINITY;
    if (one->station.stage_count == 0 || to->prepared.survey.site.header != one->header) {
        return QLL_OK;
    }
    qll_fitness fitness;
    qll_cost cost;
    if (move_station(at, to, one, &one->station) != QLL_OK
        || qll_station_fitness(&one->station, yardstick, at->asked->arena, &fitness) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    one->wanted_pa_gauge = to->prepared.survey.site.set_pa_gauge;
    if (!fitness.is_fit) {
        return QLL_OK;
    }
    if (qll_station_measure(&one->station, yardstick, at->asked->arena, &cost) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    *expected = cost.expected;
    return QLL_OK;
}

/* The best there: what the search finds, or one of @p knowns set to what is wanted there. */
static qll_status search_there(asking *at, const qll_moved *to, qll_yardstick *yardstick,
                               const known knowns[2], bool may_guess, known *found)
{
    qll_search_options options = qll_search_options_default();
    options.kinds_most = 1;
    options.fit_only = true;
    options.progress = at->asked->question->progress == NULL ? NULL : qll_progress_tell;
    options.progress_context = at->asked;
    options.told = 1.0; /* the design itself is done */
    bool has_known = false;
    for (size_t i = 0; i < 2; i++) {
        double expected = INFINITY;
        known moved = knowns[i];
        if (cost_there(at, to, yardstick, &moved, &expected) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        if (expected < options.known) {
            options.known = expected;
            has_known = true;
            *found = moved;
        }
    }
    if (may_guess && has_known) {
        return QLL_OK;
    }
    qll_search_result result;
    if (qll_search(yardstick, &to->catalogue, &options, at->asked->arena, &result) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    at->is_stopped = result.stopped;
    if (result.kind_count == 0 && has_known) {
        return QLL_OK;
    }
    *found = (known){.shape = shape_of(true, false, NULL)};
    if (result.kind_count > 0) {
        found->station = result.kinds[0].station;
        found->wanted_pa_gauge = to->prepared.survey.site.set_pa_gauge;
        found->header = to->prepared.survey.site.header;
        found->shape = shape_of(true, result.is_fit, &found->station);
    }
    return QLL_OK;
}

/* With @p may_guess the better of the two known is taken for the best of all. */
static qll_status ask_again(asking *at, const qll_move *one, double value, const known knowns[2],
                            bool may_guess, known *found)
{
    qll_moved *to = qll_arena_take(at->asked->arena, 1, sizeof *to);
    qll_unknowns unknowns;
    qll_yardstick yardstick;
    if (to == NULL
        || qll_moved_make(at->asked, at->designed, &at->catalogue, one, value, to) != QLL_OK
        || qll_unknowns_make(&to->duty, to->demand_factor, at->asked->arena, &unknowns) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const qll_site *site = &to->prepared.survey.site;
    if (!qll_station_is_needed(site)) {
        *found = (known){.shape = shape_of(false, true, NULL)};
        return QLL_OK;
    }
    return qll_yardstick_make(site, &to->duty, &unknowns, at->asked->arena, &yardstick) == QLL_OK
               ? search_there(at, to, &yardstick, knowns, may_guess, found)
               : QLL_NO_MEMORY;
}

/* A range with the shape at hand at one end and another at the other. */
typedef struct bracket {
    double same, other;
    known found; /* at other */
} bracket;

/* What is found on the way where neither known station is fit is known from then on. */
static qll_status halve(asking *at, const qll_move *one, const known knowns[2], bool may_guess,
                        bracket *between)
{
    known met[2] = {knowns[0], knowns[1]};
    qll_status status = QLL_OK;
    for (int i = 0; i < QLL_HALVINGS && status == QLL_OK && !at->is_stopped; i++) {
        double middle = 0.5 * (between->same + between->other);
        known here;
        status = ask_again(at, one, middle, met, may_guess, &here);
        if (status == QLL_OK && !is_same(&here.shape, &at->now)) {
            met[1] = here.shape.is_fit && here.station.stage_count > 0 ? here : met[1];
            between->found = here;
            between->other = middle;
        } else {
            between->same = middle;
        }
    }
    return status;
}

/* Halves by the two stations that are known, and asks what that gives on both sides. Where an answer is another
 * one, it is known from then on, and what lies beyond is halved again. */
static qll_status narrow(asking *at, const qll_move *one, known knowns[2], bracket *between)
{
    for (int round = 0; round < QLL_ROUNDS && !at->is_stopped; round++) {
        bracket guessed = *between;
        known other = {.station = {.stage_count = 0}};
        known same = other;
        qll_status status = halve(at, one, knowns, true, &guessed);
        if (status == QLL_OK) {
            status = ask_again(at, one, guessed.other, knowns, false, &other);
        }
        if (status != QLL_OK) {
            return status;
        }
        if (is_same(&other.shape, &at->now)) {
            between->same = guessed.other;
            knowns[0] = other;
            continue;
        }
        between->other = guessed.other;
        between->found = other;
        status = ask_again(at, one, guessed.same, knowns, false, &same);
        if (status != QLL_OK) {
            return status;
        }
        if (is_same(&same.shape, &at->now)) {
            between->same = guessed.same;
            return QLL_OK;
        }
        between->other = guessed.same;
        between->found = same;
        if (same.shape.is_fit) {
            knowns[1] = same;
        }
    }
    return halve(at, one, knowns, false, between);
}

static qll_status look_at(asking *at, const qll_move *one, qll_hang *hangs, size_t *count)
{
    known knowns[2] = {at->known_now, {.station = {.stage_count = 0}}};
    bracket between = {.same = one->now, .other = one->end};
    qll_arena_mark mark = qll_arena_now(at->asked->arena);
    qll_status status = ask_again(at, one, one->end, knowns, false, &between.found);
    if (status == QLL_OK && is_same(&between.found.shape, &at->now)) {
        qll_arena_reset(at->asked->arena, mark);
        return QLL_OK;
    }
    if (status == QLL_OK && between.found.shape.is_fit) {
        knowns[1] = between.found;
    }
    if (status == QLL_OK && one->is_halved) {
        status = narrow(at, one, knowns, &between);
    }
    if (status != QLL_OK || at->is_stopped) {
        return status;
    }
    qll_hang *hang = &hangs[*count];
    *hang = (qll_hang){.datum = one->datum,
                       .now = one->now,
                       .at = between.other,
                       .is_needed = between.found.shape.is_needed,
                       .is_fit = between.found.shape.is_fit};
    *count += 1;
    return qll_station_copy(&between.found.station, at->asked->arena, &hang->instead);
}

/* ---- which data, and how far ---- */

enum {
    QLL_MOVES_MOST = 2 * QLL_DATUM_COUNT
};

static size_t list_moves(const qll_designed *designed, qll_move moves[QLL_MOVES_MOST])
{
    const qll_site *site = &designed->prepared.survey.site;
    const double street_pa = site->supply.static_high_pa_gauge;
    const double wanted_pa = site->set_pa_gauge;
    const double visit = site->costs->visit;
    const double habit = 1.42; /* e^0.35 */
    double peak_m3s = 0.0;
    for (size_t s = 0; s < designed->duty.scenario_count; s++) {
        peak_m3s = fmax(peak_m3s, designed->duty.scenarios[s].code_peak_m3s);
    }
    const qll_move all[] = {
        {street_pa, street_pa - 10.0 * QLL_PSI_PA, QLL_DATUM_STREET, true},
        {street_pa, street_pa + 10.0 * QLL_PSI_PA, QLL_DATUM_STREET, true},
        {wanted_pa, wanted_pa - 5.0 * QLL_PSI_PA, QLL_DATUM_WANTED, true},
        {wanted_pa, wanted_pa + 5.0 * QLL_PSI_PA, QLL_DATUM_WANTED, true},
        {1.0, 1.0 / habit, QLL_DATUM_DEMAND, true},
        {1.0, habit, QLL_DATUM_DEMAND, true},
        {peak_m3s, 0.75 * peak_m3s, QLL_DATUM_PEAK, true},
        {peak_m3s, 1.25 * peak_m3s, QLL_DATUM_PEAK, true},
        {visit, 0.5 * visit, QLL_DATUM_VISIT, true},
        {visit, 2.0 * visit, QLL_DATUM_VISIT, true},
        {1.0, 0.5, QLL_DATUM_LEAST_FLOW, true},
        {1.0, 2.0, QLL_DATUM_LEAST_FLOW, true},
    };
    size_t count = 0;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        bool makes_sense =
            all[i].datum != QLL_DATUM_WANTED || (all[i].end > 0.0 && all[i].end < street_pa);
        makes_sense = makes_sense && (all[i].datum != QLL_DATUM_STREET || all[i].end > wanted_pa);
        if (makes_sense && all[i].end != all[i].now) {
            moves[count] = all[i];
            count += 1;
        }
    }
    for (int people = 0; people < QLL_PEOPLE_COUNT; people++) {
        if (people != (int)site->people) {
            moves[count] =
                (qll_move){(double)site->people, (double)people, QLL_DATUM_PEOPLE, false};
            count += 1;
        }
    }
    return count;
}

static bool is_at_hand(const qll_designed *designed, const qll_valve *valve)
{
    const qll_station *station = &designed->design.shown[0].station;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            if (station->stages[k].branches[j].valve == valve) {
                return true;
            }
        }
    }
    return false;
}

/* How many valves of its size and kind cost less than valve @p index. */
static size_t cheaper_like(const qll_catalogue *catalogue, const qll_costs *costs, size_t index)
{
    const qll_valve *of = &catalogue->valves[index];
    double price = qll_costs_valve(costs, of);
    size_t count = 0;
    for (size_t i = 0; i < catalogue->count && count < QLL_ASKED_PER_SIZE; i++) {
        const qll_valve *other = &catalogue->valves[i];
        bool is_like = other->nominal_m == of->nominal_m && other->acting == of->acting;
        double theirs = is_like ? qll_costs_valve(costs, other) : (double)INFINITY;
        count += theirs < price || (theirs == price && strcmp(other->id, of->id) < 0) ? 1 : 0;
    }
    return count;
}

static qll_status take_catalogue(asking *at)
{
    const qll_catalogue *all = &at->designed->catalogue;
    at->catalogue = *all;
    if (all->count <= QLL_ASKED_WHOLE) {
        return QLL_OK;
    }
    qll_valve *valves = qll_arena_take(at->asked->arena, all->count, sizeof *valves);
    qll_opening_law *laws = qll_arena_take(at->asked->arena, all->count, sizeof *laws);
    if (valves == NULL || laws == NULL) {
        return QLL_NO_MEMORY;
    }
    at->catalogue.count = 0;
    const qll_costs *costs = at->designed->prepared.survey.site.costs;
    for (size_t i = 0; i < all->count; i++) {
        if (is_at_hand(at->designed, &all->valves[i])
            || cheaper_like(all, costs, i) < QLL_ASKED_PER_SIZE) {
            valves[at->catalogue.count] = all->valves[i];
            laws[at->catalogue.count] = all->laws[i];
            at->catalogue.count += 1;
        }
    }
    at->catalogue.valves = valves;
    at->catalogue.laws = laws;
    return QLL_OK;
}

qll_status qll_find_hangs(qll_asked *asked, qll_designed *designed)
{
    qll_design *design = &designed->design;
    if (design->count == 0 || design->stopped) {
        return QLL_OK;
    }
    asking at = {.asked = asked, .designed = designed};
    at.now = shape_of(true, design->is_fit, &design->shown[0].station);
    if (design->is_fit) {
        at.known_now = (known){.shape = at.now,
                               .station = design->shown[0].station,
                               .wanted_pa_gauge = designed->prepared.survey.site.set_pa_gauge,
                               .header = designed->prepared.survey.site.header};
    }
    qll_hang *hangs = qll_arena_take(asked->arena, QLL_MOVES_MOST, sizeof *hangs);
    qll_status status = hangs == NULL ? QLL_NO_MEMORY : take_catalogue(&at);
    qll_move moves[QLL_MOVES_MOST];
    const size_t move_count = list_moves(designed, moves);
    size_t count = 0;
    for (size_t i = 0; i < move_count && status == QLL_OK && !at.is_stopped; i++) {
        const double width = QLL_SHARE_CHOSEN - QLL_SHARE_SEARCHED;
        const double done = QLL_SHARE_SEARCHED + width * (double)i / (double)move_count;
        qll_progress_phase(asked, done, done); /* what is asked within a move tells no more */
        at.is_stopped = !qll_progress_tell(1.0, asked);
        status = at.is_stopped ? QLL_OK : look_at(&at, &moves[i], hangs, &count);
    }
    if (at.is_stopped) {
        /* A list that is cut short says of what is not in it that nothing hangs on it. */
        design->stopped = true;
        asked->left_out |= QLL_PART_BIT(QLL_PART_HANGS_ON);
    }
    design->hangs = hangs;
    design->hang_count = count;
    return status;
}
