#include "base/words.h"
#include "check.h"

static const char *const words[] = {"psi",         "bar", "kPa", "shower", "lavatory faucet",
                                    "set_pressure"};

static const char *nearest(const char *given)
{
    const char *found =
        qll_words_nearest(qll_text_of(given), words, sizeof words / sizeof words[0]);
    return found == NULL ? "(none)" : found;
}

TEST(slips_of_the_hand_are_seen_through)
{
    CHECK_TEXT(nearest("psi"), "psi");
    CHECK_TEXT(nearest("PSI"), "psi");
    CHECK_TEXT(nearest("pis"), "psi");
    CHECK_TEXT(nearest("ps"), "psi");
    CHECK_TEXT(nearest("kpa"), "kPa");
    CHECK_TEXT(nearest("showr"), "shower");
    CHECK_TEXT(nearest("sohwer"), "shower");
    CHECK_TEXT(nearest("setpressure"), "set_pressure");
    CHECK_TEXT(nearest("lavatory faucets"), "lavatory faucet");
}

TEST(what_is_far_gets_no_hint)
{
    CHECK_TEXT(nearest(""), "(none)");
    CHECK_TEXT(nearest("x"), "(none)");
    CHECK_TEXT(nearest("furlong"), "(none)");
    CHECK_TEXT(nearest("shxxxr"), "(none)");
    CHECK(qll_words_nearest(qll_text_of("psi"), NULL, 0) == NULL);
}

/* Restricted distance: "ca" to "abc" is 3, not 2, since no stretch is edited twice. One more letter
 * lets a third be one edit only. */
TEST(swapped_neighbours_cost_one_edit)
{
    static const char *const abc[] = {"abc"};
    CHECK(qll_words_nearest(qll_text_of("acb"), abc, 1) != NULL);
    CHECK(qll_words_nearest(qll_text_of("ca"), abc, 1) == NULL);
    CHECK(qll_words_nearest(qll_text_of("cab"), abc, 1) == NULL);
}

TEST(ties_go_to_the_earlier_word)
{
    static const char *const pair[] = {"gpm", "gph"};
    CHECK_TEXT(qll_words_nearest(qll_text_of("gpx"), pair, 2), "gpm");
}

TEST(very_long_words_are_not_tried)
{
    static const char *const one[] = {
        "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"};
    CHECK(qll_words_nearest(qll_text_of("aaaa"), one, 1) == NULL);
    CHECK(qll_words_nearest(qll_text_of(one[0]), one, 1) == NULL);
}

TEST(a_word_has_its_place_to_the_letter)
{
    CHECK(qll_words_place(qll_text_of("kPa"), words, 6) == 2);
    CHECK(qll_words_place(qll_text_of("kpa"), words, 6) == 6);
    CHECK(qll_words_place(qll_text_of("psi"), NULL, 0) == 0);
}

TEST(a_list_holds_whole_words_only)
{
    CHECK(qll_words_hold("over_set_near_inlet", '_', qll_text_of("over")));
    CHECK(qll_words_hold("over_set_near_inlet", '_', qll_text_of("inlet")));
    CHECK(!qll_words_hold("over_set_near_inlet", '_', qll_text_of("in")));
    CHECK(!qll_words_hold("over_set_near_inlet", '_', qll_text_of("near_inlet")));
    CHECK(!qll_words_hold("", ' ', qll_text_of("")));
}

int main(void)
{
    TEST_RUN(slips_of_the_hand_are_seen_through);
    TEST_RUN(what_is_far_gets_no_hint);
    TEST_RUN(swapped_neighbours_cost_one_edit);
    TEST_RUN(ties_go_to_the_earlier_word);
    TEST_RUN(very_long_words_are_not_tried);
    TEST_RUN(a_word_has_its_place_to_the_letter);
    TEST_RUN(a_list_holds_whole_words_only);
    return TEST_END();
}
