#include "base/customary.h"
#include "check.h"
#include "demand/fixture.h"

#include <ctype.h>
#include <string.h>

static qll_fixture_table read_table(qll_arena *arena)
{
    qll_fixture_table table = {0};
    CHECK(qll_fixture_table_read(arena, &table) == QLL_OK);
    return table;
}

static const qll_fixture_kind *find(const qll_fixture_table *table, const char *word)
{
    return qll_fixture_find(table, qll_text_of(word));
}

TEST(plain_words_find_their_kind)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_fixture_table table = read_table(arena);
    static const char *const pairs[][2] = {
        {"shower", "shower"},
        {"WC", "water closet, tank"},
        {"toilet", "water closet, tank"},
        {"tank toilet", "water closet, tank"},
        {"basin", "lavatory faucet"},
        {"sink", "kitchen faucet"},
        {"tub", "bathtub"},
        {"tub/shower", "combination bath/shower"},
        {"washing machine", "clothes washer"},
        {"sillcock", "hose bibb"},
        {"bathroom", "bathroom group, tank"},
        {"half bath", "half bath, tank"},
        {"powder room", "half bath, tank"},
        {"  Kitchen Faucet ", "kitchen faucet"},
        {"WATER CLOSET, FLUSHOMETER", "water closet, flushometer"},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        const qll_fixture_kind *kind = find(&table, pairs[i][0]);
        CHECK_TEXT(kind == NULL ? NULL : kind->word, pairs[i][1]);
    }
    CHECK(find(&table, "urinal") == NULL); /* which one? it matters by a factor of three */
    CHECK(find(&table, "") == NULL);
    CHECK(find(&table, "showe") == NULL);
    CHECK(find(&table, "shower|") == NULL);
    qll_arena_close(arena);
}

static bool same(const char *a, const char *b)
{
    while (*a != '\0' && tolower((unsigned char)*a) == tolower((unsigned char)*b)) {
        a += 1;
        b += 1;
    }
    return tolower((unsigned char)*a) == tolower((unsigned char)*b);
}

TEST(every_word_names_one_kind)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_fixture_table table = read_table(arena);
    CHECK(table.count >= 24 && table.word_count > table.count);
    for (size_t i = 0; i < table.word_count; i++) {
        CHECK(table.words[i][0] != '\0');
        CHECK(find(&table, table.words[i]) != NULL);
        for (size_t j = i + 1; j < table.word_count; j++) {
            if (!CHECK(!same(table.words[i], table.words[j]))) {
                printf("    \"%s\" stands twice\n", table.words[i]);
            }
        }
    }
    qll_arena_close(arena);
}

TEST(every_value_is_sensible_and_has_a_source)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_fixture_table table = read_table(arena);
    for (size_t i = 0; i < table.count; i++) {
        const qll_fixture_kind *kind = &table.kinds[i];
        bool good = !isnan(kind->ipc_private) || !isnan(kind->ipc_public);
        good = good && kind->ipc_source[0] != '\0';
        good = good && (isnan(kind->upc_private) || kind->upc_source[0] != '\0');
        good = good && isnan(kind->use_probability) == (kind->use_source[0] == '\0');
        good = good && isnan(kind->flow_m3s) == (kind->flow_source[0] == '\0');
        /* A probability without a flow would be of no use. */
        good = good && (isnan(kind->use_probability) || !isnan(kind->flow_m3s));
        good = good && !(kind->use_probability <= 0.0 || kind->use_probability > 0.2);
        good = good && !(kind->flow_m3s < 0.4 * QLL_GPM_M3S || kind->flow_m3s > 30 * QLL_GPM_M3S);
        if (!CHECK(good)) {
            printf("    \"%s\"\n", kind->word);
        }
    }
    qll_arena_close(arena);
}

/* Peak Water Demand Study 2017, table of fixture flows and probabilities, q in L/s as printed. */
TEST(probabilities_and_flows_are_those_of_the_study)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_fixture_table table = read_table(arena);

    static const struct {
        const char *word;
        double p, flow_lps;
    } rows[] = {
        {"bar sink", 0.020, 0.0946},
        {"bathtub", 0.010, 0.3470},
        {"bidet", 0.010, 0.1262},
        {"clothes washer", 0.055, 0.2208},
        {"combination bath/shower", 0.055, 0.3470},
        {"dishwasher", 0.005, 0.0820},
        {"kitchen faucet", 0.020, 0.1388},
        {"laundry faucet", 0.020, 0.1262},
        {"lavatory faucet", 0.020, 0.0946},
        {"shower", 0.045, 0.1262},
        {"water closet, tank", 0.010, 0.1893},
    };

    size_t with_probability = 0;
    for (size_t i = 0; i < table.count; i++) {
        with_probability += isnan(table.kinds[i].use_probability) ? 0 : 1;
    }
    CHECK(with_probability == sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const qll_fixture_kind *kind = find(&table, rows[i].word);
        CHECK(kind != NULL && kind->use_probability == rows[i].p);
        CHECK_WITHIN(kind->flow_m3s * 1e3, rows[i].flow_lps, 6e-5);
    }
    qll_arena_close(arena);
}

/* No table has a half bath: it is its two fixtures. */
TEST(a_half_bath_is_a_lavatory_and_a_water_closet)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_fixture_table table = read_table(arena);
    const qll_fixture_kind *half = find(&table, "half bath");
    const qll_fixture_kind *lavatory = find(&table, "lavatory");
    const qll_fixture_kind *closet = find(&table, "toilet");
    CHECK_NEAR(half->ipc_private, lavatory->ipc_private + closet->ipc_private, 1e-12);
    CHECK_NEAR(half->ipc_public, lavatory->ipc_public + closet->ipc_public, 1e-12);
    CHECK_NEAR(half->upc_private, lavatory->upc_private + closet->upc_private, 1e-12);
    CHECK_NEAR(half->upc_public, lavatory->upc_public + closet->upc_public, 1e-12);
    CHECK_NEAR(half->outlet_count, 2, 0);
    CHECK(strstr(half->ipc_source, "our assumption") != NULL);
    qll_arena_close(arena);
}

TEST(every_failed_allocation_is_reported)
{
    for (size_t nth = 1;; nth++) {
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_fixture_table table;
        qll_arena_fail(arena, nth, false);
        const qll_status status = qll_fixture_table_read(arena, &table);
        qll_arena_close(arena);
        if (status == QLL_OK) {
            CHECK(nth > 100);
            break;
        }
        CHECK(status == QLL_NO_MEMORY);
    }
}

int main(void)
{
    TEST_RUN(plain_words_find_their_kind);
    TEST_RUN(every_word_names_one_kind);
    TEST_RUN(every_value_is_sensible_and_has_a_source);
    TEST_RUN(probabilities_and_flows_are_those_of_the_study);
    TEST_RUN(a_half_bath_is_a_lavatory_and_a_water_closet);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
