/* What a choice hangs on, proven by asking the whole question again on both sides. docs/theory/hangs_on.md. */
#include "ask_files.h"
#include "check.h"
#include "engine/hangs_on.h"
#include "engine/moved.h"

#define TEST_HANG_PSI   6894.757293168361
#define TEST_HANG_ARENA ((size_t)1 << 31)
/* docs/theory/hangs_on.md: the answer a 128th of the range before it is not another one. */
#define TEST_HANG_SHARE (1.0 / 128.0)

/** A question and its answer; points into itself. */
typedef struct hang_case {
    qll_arena *arena;
    qll_question question;
    qll_asked asked;
    qll_designed designed;
} hang_case;

/* Takes a list and its key out of a document of which it is not the last member. */
static void cut_list(qll_input *document, const char *key, qll_arena *arena)
{
    const char *bytes = document->bytes;
    size_t from = 0;
    while (from < document->size && strncmp(bytes + from, key, strlen(key)) != 0) {
        from++;
    }
    size_t to = from;
    int depth = 0;
    do {
        depth += to < document->size && bytes[to] == '[' ? 1 : 0;
        depth -= to < document->size && bytes[to] == ']' ? 1 : 0;
        to++;
    } while (to < document->size && (depth > 0 || bytes[to - 1] != ']'));
    if (!CHECK(to < document->size && bytes[to] == ',')) {
        return;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write_text(&writer, (qll_text){bytes, from});
    qll_write_text(&writer, (qll_text){bytes + to + 1, document->size - to - 1});
    const qll_text text = qll_writer_text(&writer);
    document->bytes = text.bytes;
    document->size = text.size;
}

/** What is asked: a survey of tests/, and a list that is taken out of it, or NULL. */
typedef struct survey_of {
    const char *folder, *name, *without;
} survey_of;

static bool open_case(const survey_of *of, hang_case *at)
{
    memset(at, 0, sizeof *at);
    at->arena = qll_arena_open(TEST_HANG_ARENA);
    at->question = (qll_question){.verb = QLL_VERB_DESIGN,
                                  .form = QLL_FORM_JSON,
                                  .document = test_input_in(of->folder, of->name, at->arena)};
    if (of->without != NULL) {
        cut_list(&at->question.document, of->without, at->arena);
    }
    at->asked = (qll_asked){.question = &at->question,
                            .arena = at->arena,
                            .seed = 1,
                            .problems = qll_problems_none(at->arena),
                            .assumed = qll_assumed_none(at->arena),
                            .writer = qll_writer_new(at->arena)};
    return CHECK(qll_find_design(&at->asked, &at->designed) == QLL_OK)
           && CHECK(at->designed.design.count > 0);
}

/** A kind of station: all that must be alike for two answers to be of one kind. */
typedef struct kind {
    bool is_needed, is_fit;
    size_t stage_count;
    size_t branches[QLL_STAGES_MOST];
} kind;

static kind kind_of(bool is_needed, bool is_fit, const qll_station *station)
{
    kind made = {.is_needed = is_needed, .is_fit = is_fit};
    for (size_t k = 0; is_needed && is_fit && k < station->stage_count; k++) {
        made.stage_count = station->stage_count;
        made.branches[k] = station->stages[k].branch_count;
    }
    return made;
}

static bool is_like(const kind *a, const kind *b)
{
    bool is =
        a->is_needed == b->is_needed && a->is_fit == b->is_fit && a->stage_count == b->stage_count;
    for (size_t k = 0; k < QLL_STAGES_MOST; k++) {
        is = is && a->branches[k] == b->branches[k];
    }
    return is;
}

/** The best of the moved question. */
typedef struct best {
    kind kind;
    double expected; /* NaN where none stands */
    qll_station station;
    qll_moved *to;
    qll_yardstick *yardstick;
} best;

/* The whole question: all of the catalogue, no station known beforehand. */
static bool ask_at(hang_case *at, const qll_move *move, double value, best *found)
{
    qll_unknowns *unknowns = qll_arena_take(at->arena, 1, sizeof *unknowns);
    *found = (best){.expected = NAN,
                    .to = qll_arena_take(at->arena, 1, sizeof *found->to),
                    .yardstick = qll_arena_take(at->arena, 1, sizeof *found->yardstick)};
    if (unknowns == NULL || found->to == NULL || found->yardstick == NULL) {
        return CHECK(false);
    }
    if (!CHECK(qll_moved_make(&at->asked, &at->designed, &at->designed.catalogue, move, value,
                              found->to)
               == QLL_OK)) {
        return false;
    }
    const qll_site *site = &found->to->prepared.survey.site;
    if (!qll_station_is_needed(site)) {
        found->kind = kind_of(false, true, NULL);
        return true;
    }
    const qll_search_options options = qll_search_options_default();
    qll_search_result result;
    if (!CHECK(qll_unknowns_make(&found->to->duty, found->to->demand_factor, at->arena, unknowns)
               == QLL_OK)
        || !CHECK(qll_yardstick_make(site, &found->to->duty, unknowns, at->arena, found->yardstick)
                  == QLL_OK)
        || !CHECK(qll_search(found->yardstick, &found->to->catalogue, &options, at->arena, &result)
                  == QLL_OK)
        || !CHECK(result.kind_count > 0)) {
        return false;
    }
    found->station = result.kinds[0].station;
    found->expected = result.kinds[0].cost.expected;
    found->kind = kind_of(true, result.is_fit, &found->station);
    return true;
}

static double now_of(const qll_designed *designed, qll_datum datum)
{
    const qll_site *site = &designed->prepared.survey.site;
    double peak_m3s = 0.0;
    for (size_t s = 0; s < designed->duty.scenario_count; s++) {
        peak_m3s = fmax(peak_m3s, designed->duty.scenarios[s].code_peak_m3s);
    }
    switch (datum) {
    case QLL_DATUM_STREET: return site->supply.static_high_pa_gauge;
    case QLL_DATUM_WANTED: return site->set_pa_gauge;
    case QLL_DATUM_PEAK: return peak_m3s;
    case QLL_DATUM_PEOPLE: return (double)site->people;
    case QLL_DATUM_VISIT: return site->costs->visit;
    case QLL_DATUM_DEMAND:
    case QLL_DATUM_LEAST_FLOW:
    case QLL_DATUM_COUNT: break;
    }
    return 1.0;
}

/* The table of docs/theory/hangs_on.md: where a datum goes, down or up. */
static double end_of(qll_datum datum, double now, bool is_up)
{
    switch (datum) {
    case QLL_DATUM_STREET: return now + (is_up ? 10.0 : -10.0) * TEST_HANG_PSI;
    case QLL_DATUM_WANTED: return now + (is_up ? 5.0 : -5.0) * TEST_HANG_PSI;
    case QLL_DATUM_DEMAND: return now * (is_up ? 1.42 : 1.0 / 1.42);
    case QLL_DATUM_PEAK: return now * (is_up ? 1.25 : 0.75);
    case QLL_DATUM_VISIT:
    case QLL_DATUM_LEAST_FLOW: return now * (is_up ? 2.0 : 0.5);
    case QLL_DATUM_PEOPLE:
    case QLL_DATUM_COUNT: break;
    }
    return NAN;
}

static void print_side(const char *what, double value, const best *found)
{
    printf("    %s %.9g: needed %d, fit %d, stages", what, value, found->kind.is_needed,
           found->kind.is_fit);
    for (size_t k = 0; k < found->kind.stage_count; k++) {
        printf(" %zu", found->kind.branches[k]);
    }
    printf(", %.2f\n", found->expected);
}

/* The very station that is told is the best at the place that is told, set to what is wanted there. */
static void check_instead(hang_case *at, const qll_hang *hang, const best *there)
{
    const qll_station *told = &hang->instead;
    if (!there->kind.is_needed || !there->kind.is_fit || !CHECK(told->stage_count > 0)) {
        return;
    }
    const double wanted_pa_gauge = there->to->prepared.survey.site.set_pa_gauge;
    const qll_stage *last = &told->stages[told->stage_count - 1];
    double nearest_pa = INFINITY;
    for (size_t j = 0; j < last->branch_count; j++) {
        nearest_pa = fmin(nearest_pa, fabs(last->branches[j].set_pa_gauge - wanted_pa_gauge));
    }
    CHECK(nearest_pa < 1.0);
    qll_cost cost;
    if (CHECK(qll_station_measure(told, there->yardstick, at->arena, &cost) == QLL_OK)) {
        if (!CHECK_WITHIN(cost.expected, there->expected, 0.011)) {
            printf("    %s of %s\n", qll_datum_words[hang->datum], at->question.document.name);
        }
    }
}

static void prove(hang_case *at, const qll_hang *hang)
{
    const qll_design *design = &at->designed.design;
    const kind here = kind_of(true, design->is_fit, &design->shown[0].station);
    CHECK_NEAR(hang->now, now_of(&at->designed, hang->datum), 1e-12);
    const qll_move move = {.datum = hang->datum, .now = hang->now, .end = hang->at};
    double before = hang->now;
    if (hang->datum != QLL_DATUM_PEOPLE) {
        const double end = end_of(hang->datum, hang->now, hang->at > hang->now);
        before = hang->at - TEST_HANG_SHARE * (end - hang->now);
        CHECK((hang->at - hang->now) * (end - hang->at) >= 0.0 && hang->at != hang->now);
        before = (before - hang->now) * (end - hang->now) > 0.0 ? before : hang->now;
    }
    best same, other;
    if (!ask_at(at, &move, before, &same) || !ask_at(at, &move, hang->at, &other)) {
        return;
    }
    const kind told = kind_of(hang->is_needed, hang->is_fit, &hang->instead);
    bool holds = CHECK(is_like(&same.kind, &here));
    holds = CHECK(!is_like(&other.kind, &here)) && holds;
    holds = CHECK(is_like(&other.kind, &told)) && holds;
    check_instead(at, hang, &other);
    if (!holds) {
        printf("    %s of %s\n", qll_datum_words[hang->datum], at->question.document.name);
        print_side("before", before, &same);
        print_side("at", hang->at, &other);
    }
}

static bool is_told(const qll_design *design, qll_datum datum, double now, double end)
{
    for (size_t i = 0; i < design->hang_count; i++) {
        const qll_hang *hang = &design->hangs[i];
        if (hang->datum == datum
            && (datum == QLL_DATUM_PEOPLE ? hang->at == end
                                          : (hang->at - now) * (end - now) > 0.0)) {
            return true;
        }
    }
    return false;
}

/* Every end of every range: there is a hang if and only if the kind is another one there. */
static size_t check_ends(hang_case *at)
{
    const qll_design *design = &at->designed.design;
    const qll_site *site = &at->designed.prepared.survey.site;
    const kind here = kind_of(true, design->is_fit, &design->shown[0].station);
    size_t quiet = 0;
    for (int d = 0; d < QLL_DATUM_COUNT; d++) {
        const double now = now_of(&at->designed, (qll_datum)d);
        for (int way = 0; way < 2; way++) {
            double end = end_of((qll_datum)d, now, way == 1);
            if (d == QLL_DATUM_PEOPLE) {
                end = (double)(((int)site->people + 1 + way) % QLL_PEOPLE_COUNT);
            }
            const qll_move move = {.datum = (qll_datum)d, .now = now, .end = end};
            best there;
            if (!ask_at(at, &move, end, &there)) {
                continue;
            }
            bool is_other = !is_like(&there.kind, &here);
            if (!CHECK(is_told(design, (qll_datum)d, now, end) == is_other)) {
                print_side(qll_datum_words[d], end, &there);
            }
            quiet += is_other ? 0 : 1;
        }
    }
    return quiet;
}

static const survey_of surveys[] = {
    {"panel/sites", "a.json", NULL},
    {"panel/sites", "d.json", NULL},
    {"panel/surveys", "flats-12-125.json", NULL},
    {"panel/surveys", "flats-6-105.json", NULL},
    {"panel/surveys", "house-165-50-1-3-2.json", NULL},
    {"panel/surveys", "house-85-60-1-2-2.json", NULL},
    {"panel/surveys", "shop-120.json", NULL},
    {"cli", "house.json", NULL},
};

typedef struct proofs {
    size_t proven, quiet, by_datum[QLL_DATUM_COUNT], to_none, to_unfit;
} proofs;

static void prove_all(const survey_of *of, proofs *sum)
{
    hang_case at;
    if (open_case(of, &at)) {
        const qll_design *design = &at.designed.design;
        for (size_t h = 0; h < design->hang_count; h++) {
            prove(&at, &design->hangs[h]);
            sum->by_datum[design->hangs[h].datum] += 1;
            sum->to_none += design->hangs[h].is_needed ? 0 : 1;
            sum->to_unfit += design->is_fit && !design->hangs[h].is_fit ? 1 : 0;
            sum->proven += 1;
        }
        sum->quiet += check_ends(&at);
    }
    qll_arena_close(at.arena);
}

TEST(on_both_sides_stands_what_is_told)
{
    proofs sum = {0};
    for (size_t i = 0; i < sizeof surveys / sizeof *surveys; i++) {
        prove_all(&surveys[i], &sum);
    }
    printf("    %zu hangs, %zu to no valve, %zu ends with the kind at hand:", sum.proven,
           sum.to_none, sum.quiet);
    for (size_t d = 0; d < QLL_DATUM_COUNT; d++) {
        printf(" %s %zu", qll_datum_words[d], sum.by_datum[d]);
    }
    printf("\n");
    CHECK(sum.proven > 12 && sum.to_none > 0 && sum.quiet > 60);
    for (size_t d = 0; d < QLL_DATUM_COUNT; d++) {
        CHECK(sum.by_datum[d] > 0);
    }
}

/* The wanted pressure moves: a station that was found 5 psi away must be set again from what it was found for,
 * else it is 5 psi too high here, or nothing where the wanted pressure stands still. */
TEST(a_station_found_at_another_wanted_pressure_is_set_again)
{
    proofs sum = {0};
    prove_all(&(survey_of){"panel/sites", "b.json", NULL}, &sum);
    prove_all(&(survey_of){"panel/sites", "j-irrigation.json", NULL}, &sum);
    CHECK(sum.by_datum[QLL_DATUM_WANTED] > 0);
}

/* No service is known: the station's pipe follows the peak, and a station found for another pipe does not cost
 * here what it would there. */
TEST(a_station_found_for_another_pipe_is_not_taken)
{
    proofs sum = {0};
    prove_all(&(survey_of){"panel/surveys", "flats-12-125.json", "\"upstream\""}, &sum);
    prove_all(&(survey_of){"panel/surveys", "house-150-60-1-3-2.json", "\"upstream\""}, &sum);
    CHECK(sum.by_datum[QLL_DATUM_PEAK] > 0);
}

/* Where nothing fits any more. */
TEST(what_fits_no_more_is_told)
{
    proofs sum = {0};
    prove_all(&(survey_of){"panel/sites", "a.json", "\"upstream\""}, &sum);
    CHECK(sum.to_unfit > 0);
}

int main(void)
{
    TEST_RUN(on_both_sides_stands_what_is_told);
    TEST_RUN(a_station_found_at_another_wanted_pressure_is_set_again);
    TEST_RUN(a_station_found_for_another_pipe_is_not_taken);
    TEST_RUN(what_fits_no_more_is_told);
    return TEST_END();
}
