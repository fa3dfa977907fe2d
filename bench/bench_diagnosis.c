/* How well made-up cases are diagnosed, the table of docs/theory/diagnosis.md 6, and how long one takes. */
#include "diagnosis_world.h"

#include <stdio.h>
#include <time.h>

static void say(const char *what, const world_score *score)
{
    const double cases = (double)score->cases;
    printf("| %s | %.3f | %.3f | %.3f | %.3f | %.3f | %.1f | %.0f |\n", what, score->brier / cases,
           score->log_loss / cases, (double)score->hits / cases,
           (double)score->hits_of_three / cases, world_calibration(score), score->answers / cases,
           score->minutes / cases);
}

static void say_bins(const world_score *score)
{
    printf("said, came true, cases, by tenths of the likeliest cause's share:\n");
    for (size_t b = 0; b < 10; b++) {
        if (score->bin_count[b] > 0) {
            const double count = (double)score->bin_count[b];
            printf("  %.2f  %.2f  %zu\n", score->bin_said[b] / count, score->bin_hit[b] / count,
                   score->bin_count[b]);
        }
    }
}

/* Mean of draws, with the standard deviation from draw to draw, which is the standard error of one. */
typedef struct draws {
    double sum, squares, least, most;
    int count;
} draws;

static void draws_add(draws *to, double value)
{
    to->sum += value;
    to->squares += value * value;
    to->least = to->count == 0 ? value : fmin(to->least, value);
    to->most = to->count == 0 ? value : fmax(to->most, value);
    to->count += 1;
}

static void say_draws(const char *what, const draws *of)
{
    const double mean = of->sum / of->count;
    const double spread = sqrt((of->squares - of->sum * mean) / (of->count - 1));
    printf("  %s: mean %.4f, %.4f from draw to draw, %.4f of the mean, %.3f to %.3f\n", what, mean,
           spread, spread / sqrt(of->count), of->least, of->most);
}

/* What world_calibration() asks of several draws together. */
static void pool(world_score *all, const world_score *score)
{
    all->cases += score->cases;
    for (size_t b = 0; b < 10; b++) {
        all->bin_said[b] += score->bin_said[b];
        all->bin_hit[b] += score->bin_hit[b];
        all->bin_count[b] += score->bin_count[b];
    }
}

/* How often the answers of one group repeat each other, in truth and in what is believed. */
typedef struct copying {
    double alike;        /* in the world: correlation of two answers of a group */
    double copied_share; /* in the model: rho of docs/theory/diagnosis.md 1 */
} copying;

/* One world with one rho, draw by draw, the same cases for each rho. */
static void say_draws_of(const qll_knowledge *shipped, unsigned site, copying how, qll_arena *arena)
{
    enum {
        QLL_DRAWS = 40,
        QLL_ALL_DRAWS = 5,
        QLL_POLICY_DRAWS = 10
    };

    qll_knowledge knowledge = *shipped;
    knowledge.copied_share = how.copied_share;
    draws brier = {0}, calibration = {0}, all = {0}, all_calibration = {0};
    for (uint64_t seed = 0; seed < QLL_DRAWS + QLL_ALL_DRAWS; seed++) {
        const bool is_all = seed >= QLL_DRAWS;
        world of = {.knowledge = &knowledge,
                    .site = site,
                    .is_masked = true,
                    .alike = how.alike,
                    .random = qll_random_seeded(7000 + seed)};
        const world_score score = world_visit(&of, 3000, is_all ? 2 : 1, arena);
        draws_add(is_all ? &all : &brier, score.brier / (double)score.cases);
        draws_add(is_all ? &all_calibration : &calibration, world_calibration(&score));
    }
    printf("masked, answers alike %.1f, copied share %.2f:\n", how.alike, how.copied_share);
    say_draws("visit, Brier", &brier);
    say_draws("visit, calibration error", &calibration);
    say_draws("all, Brier", &all);
    say_draws("all, calibration error", &all_calibration);
    draws policy = {0}, policy_calibration = {0}, answers = {0}, hits = {0};
    world_score pooled = {0};
    for (uint64_t seed = 0; seed < QLL_POLICY_DRAWS; seed++) {
        world of = {.knowledge = &knowledge,
                    .site = site,
                    .is_masked = true,
                    .alike = how.alike,
                    .random = qll_random_seeded(7100 + seed)};
        const world_score score = world_policy(&of, 1000, arena);
        const double cases = (double)score.cases;
        draws_add(&policy, score.brier / cases);
        draws_add(&policy_calibration, world_calibration(&score));
        pool(&pooled, &score);
        draws_add(&answers, score.answers / cases);
        draws_add(&hits, (double)score.hits / cases);
    }
    say_draws("next test, Brier", &policy);
    say_draws("next test, calibration error", &policy_calibration);
    printf("  next test, calibration error of all draws together: %.4f\n",
           world_calibration(&pooled));
    say_draws("next test, answers", &answers);
    say_draws("next test, first right", &hits);
    (void)fflush(stdout);
}

static void say_many_draws(const qll_knowledge *shipped, unsigned site, qll_arena *arena)
{
    static const double alike[] = {0.0, 0.3, 0.6};
    static const double copied[] = {0.0, 0.05, 0.1, 0.3};
    for (size_t a = 0; a < sizeof alike / sizeof *alike; a++) {
        for (size_t c = 0; c < sizeof copied / sizeof *copied; c++) {
            say_draws_of(shipped, site, (copying){alike[a], copied[c]}, arena);
        }
    }
}

static void time_one(const qll_knowledge *knowledge, unsigned site)
{
    enum {
        QLL_ROUNDS = 2000
    };

    world of = {.knowledge = knowledge, .site = site, .random = qll_random_seeded(9)};
    qll_arena *lasting = qll_arena_open((size_t)1 << 20);
    world_case one = {.answers =
                          qll_arena_take(lasting, knowledge->evidence_count, sizeof(size_t))};
    world_draw(&of, &one);
    const size_t half = knowledge->evidence_count / 2;
    for (size_t e = half; e < knowledge->evidence_count; e++) {
        one.answers[e] = QLL_NOT_KNOWN;
    }
    const qll_known known = {.site = site, .answers = one.answers};
    const clock_t start = clock();
    for (int n = 0; n < QLL_ROUNDS; n++) {
        qll_arena *arena = qll_arena_open((size_t)16 << 20);
        qll_diagnosis diagnosis;
        if (qll_diagnose(knowledge, &known, NULL, arena, &diagnosis) != QLL_OK) {
            printf("no memory\n");
        }
        qll_arena_close(arena);
    }
    printf("%zu causes, %zu pieces of evidence, half of them known: %.3f ms with the next test\n",
           knowledge->cause_count, knowledge->evidence_count,
           1000.0 * (double)(clock() - start) / CLOCKS_PER_SEC / QLL_ROUNDS);
    qll_arena_close(lasting);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_knowledge knowledge;
    if (qll_knowledge_read(arena, &knowledge) != QLL_OK) {
        return 1;
    }
    const unsigned site = QLL_SITE_HAS_BIT(QLL_SITE_HAS_WATER_HEATER)
                          | QLL_SITE_HAS_BIT(QLL_SITE_HAS_BACKFLOW_PREVENTER);
    static const char *const names[2][4] = {
        {"exact, seven questions", "exact, visit", "exact, all", "exact, next test"},
        {"masked, seven questions", "masked, visit", "masked, all", "masked, next test"}};
    for (int is_masked = 0; is_masked < 2; is_masked++) {
        world of = {.knowledge = &knowledge,
                    .site = site,
                    .is_masked = is_masked == 1,
                    .random = qll_random_seeded(41)};
        for (int level = 0; level < 3; level++) {
            const world_score score = world_visit(&of, 3000, level, arena);
            say(names[is_masked][level], &score);
        }
        const world_score policy = world_policy(&of, 1000, arena);
        say(names[is_masked][3], &policy);
        say_bins(&policy);
    }
    say_many_draws(&knowledge, site, arena);
    time_one(&knowledge, (1U << QLL_SITE_HAS_COUNT) - 1U);
    qll_arena_close(arena);
    return 0;
}
