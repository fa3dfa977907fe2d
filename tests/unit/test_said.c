/* Texts that are stored as values: every language has them whole, and figures come in the units asked. */
#include "base/files.h"
#include "base/table.h"
#include "check.h"
#include "wording/language.h"
#include "wording/wording.h"

static const char *shown(qll_arena *arena, const qll_argument argument, qll_unit_system units)
{
    const qll_wording wording = {.units = units};
    return qll_argument_text(arena, &wording, &argument);
}

static qll_argument written(const char *text, qll_kind kind)
{
    return qll_as_written(qll_text_of(text), kind);
}

/* 1 ft = 0.3048 m, 1 psi = 6894.757 Pa: NIST SP 811, appendix B. */
TEST(quantities_are_shown_in_the_readers_units)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_argument height = written("1000 ft", QLL_KIND_LENGTH);
    CHECK_TEXT(shown(arena, height, QLL_UNITS_US), "1000 ft");
    CHECK_TEXT(shown(arena, height, QLL_UNITS_SI), "305 m");
    const qll_argument bar = written("3 bar", QLL_KIND_PRESSURE);
    CHECK_TEXT(shown(arena, bar, QLL_UNITS_US), "44 psi");
    CHECK_TEXT(shown(arena, bar, QLL_UNITS_SI), "3 bar");
    const qll_argument absolute = written("22064 kPa abs", QLL_KIND_PRESSURE);
    CHECK_TEXT(shown(arena, absolute, QLL_UNITS_US), "3200 psia");
    CHECK_TEXT(shown(arena, absolute, QLL_UNITS_SI), "220.6 bara");
    CHECK_TEXT(shown(arena, written("180 degF", QLL_KIND_TEMPERATURE), QLL_UNITS_SI), "82 °C");
    CHECK_TEXT(shown(arena, written("1e99 m", QLL_KIND_LENGTH), QLL_UNITS_SI), "1e99 m");
    CHECK_TEXT(shown(arena, written("3 psi", QLL_KIND_LENGTH), QLL_UNITS_US), "3 psi");
    qll_arena_close(arena);
}

/* What a gauge and a tape show: a line of a gauge in bar is 0.05 bar (our assumption), heights are said in round figures.
 * 5 psi are 0.345 bar, 1000 ft 304.8 m (NIST SP 811, appendix B). */
TEST(rules_of_thumb_are_round_in_both_systems)
{
    static const struct {
        double si;
        qll_kind kind;
        const char *us, *metric;
    } rules[] = {
        {304.8, QLL_KIND_LENGTH, "1000 ft", "300 m"},
        {0.52 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "0.52 psi", "0.036 bar"},
        {1e4, QLL_KIND_PRESSURE_DIFFERENCE, "1 psi", "0.1 bar"},
        {3 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "3 psi", "0.2 bar"},
        {5 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "5 psi", "0.35 bar"},
        {-5 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "-5 psi", "-0.35 bar"},
        {3.5e4, QLL_KIND_PRESSURE_DIFFERENCE, "5 psi", "0.35 bar"},
        {10 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "10 psi", "0.7 bar"},
        {15 * 6894.757, QLL_KIND_PRESSURE_DIFFERENCE, "15 psi", "1 bar"},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        const qll_argument rule = qll_as_thumb(rules[i].si, rules[i].kind);
        CHECK_TEXT(shown(arena, rule, QLL_UNITS_US), rules[i].us);
        CHECK_TEXT(shown(arena, rule, QLL_UNITS_SI), rules[i].metric);
    }
    qll_arena_close(arena);
}

TEST(texts_stand_in_texts_and_braces_stay)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_said more = {QLL_TEXT_AND_MORE, {qll_as_is("{1}, {x"), qll_as_whole(3)}};
    const qll_said all = {QLL_TEXT_WHAT_OF_VALVES, {qll_as_said(arena, more), qll_as_is("fd")}};
    const qll_wording english = {.units = QLL_UNITS_US};
    const qll_wording spanish = {.units = QLL_UNITS_US, .language = QLL_LANGUAGE_ES};
    CHECK_TEXT(qll_said_text(arena, &english, &all), "{1}, {x and 3 more: fd");
    CHECK_TEXT(qll_said_text(arena, &spanish, &all), "{1}, {x y 3 más: fd");
    qll_said ring = {.id = QLL_TEXT_VALUE};
    ring.arguments[0] = (qll_argument){.form = QLL_ARGUMENT_SAID, .said = &ring};
    CHECK_TEXT(qll_said_text(arena, &english, &ring), "");
    qll_arena_close(arena);
}

/* The figures that @p text asks for, as bits. */
static unsigned figures_of(const char *text)
{
    unsigned set = 0;
    for (const char *at = strchr(text, '{'); at != NULL; at = strchr(at + 1, '{')) {
        if (at[1] >= '1' && at[1] <= '9' && at[2] == '}') {
            set |= 1U << (unsigned)(at[1] - '1');
        }
    }
    return set;
}

TEST(every_text_is_there_in_every_language_with_its_figures)
{
    CHECK(qll_text_named(qll_text_of("nothing of the kind")) == QLL_TEXT_NONE);
    for (int id = QLL_TEXT_NONE + 1; id < QLL_TEXT_COUNT; id++) {
        const char *name = qll_text_name((qll_text_id)id);
        CHECK(qll_text_named(qll_text_of(name)) == (qll_text_id)id);
        const char *english = qll_said_entry(QLL_LANGUAGE_EN, (qll_text_id)id);
        for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
            const char *says = qll_said_entry((qll_language)language, (qll_text_id)id);
            if (!CHECK(says != NULL && says[0] != '\0')
                || !CHECK(figures_of(says) == figures_of(english)
                          && figures_of(says) < 1U << QLL_ARGUMENTS)) {
                printf("    %s, %s\n", name, qll_language_words[language]);
            }
        }
    }
}

/* Rows of data name their texts; what they say is what the row says. */
static void check_rows(const unsigned char *bytes, size_t size, const char *column)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_table table;
    CHECK(qll_table_read_own(bytes, size, arena, &table) == QLL_OK && table.row_count > 0);
    for (size_t row = 0; row < table.row_count; row++) {
        const qll_text_id id = qll_text_named(qll_table_cell_in(&table, row, "says"));
        CHECK(id != QLL_TEXT_NONE);
        CHECK_TEXT(qll_said_entry(QLL_LANGUAGE_EN, id),
                   qll_text_closed(qll_table_cell_in(&table, row, column), arena));
    }
    qll_arena_close(arena);
}

TEST(rows_of_data_are_said_as_they_stand)
{
    check_rows(qll_file_habits, qll_file_habits_size, "source");
    check_rows(qll_file_diurnal, qll_file_diurnal_size, "source");
    check_rows(qll_file_diurnal_by_sa, qll_file_diurnal_by_sa_size, "source");
    check_rows(qll_file_din1988, qll_file_din1988_size, "use");
}

int main(void)
{
    TEST_RUN(quantities_are_shown_in_the_readers_units);
    TEST_RUN(rules_of_thumb_are_round_in_both_systems);
    TEST_RUN(texts_stand_in_texts_and_braces_stay);
    TEST_RUN(every_text_is_there_in_every_language_with_its_figures);
    TEST_RUN(rows_of_data_are_said_as_they_stand);
    return TEST_END();
}
