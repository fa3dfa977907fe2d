#include "base/units.h"
#include "check.h"
#include "documents/catalogue_fields.h"
#include "documents/survey_fields.h"

static const char *shown(qll_arena *arena, const char *kept, qll_unit_system system)
{
    qll_writer writer = qll_writer_new(arena);
    qll_units_write_kept(&writer, kept, system);
    return qll_writer_text(&writer).bytes;
}

/* 1 ft = 0.3048 m, 1 psi = 6894.757 Pa: NIST SP 811, appendix B. */
TEST(quantities_are_shown_in_the_readers_units)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const char *kept = "{a length: 1000 ft} take {a pressure difference: 0.5 psi} off";
    CHECK_TEXT(shown(arena, kept, QLL_UNITS_US), "1000 ft take 0.5 psi off");
    CHECK_TEXT(shown(arena, kept, QLL_UNITS_SI), "305 m take 0.034 bar off");
    CHECK_TEXT(shown(arena, "{a pressure: 3 bar}", QLL_UNITS_US), "43.5 psi");
    CHECK_TEXT(shown(arena, "{a pressure: 3 bar}", QLL_UNITS_SI), "3 bar");
    CHECK_TEXT(shown(arena, "{a pressure: 22064 kPa abs}", QLL_UNITS_US), "3200 psia");
    CHECK_TEXT(shown(arena, "{a pressure: 22064 kPa abs}", QLL_UNITS_SI), "220.64 bara");
    CHECK_TEXT(shown(arena, "{a temperature: 180 degF}", QLL_UNITS_SI), "82.2 °C");
    qll_arena_close(arena);
}

TEST(what_is_kept_in_si_comes_back)
{
    static const double values[] = {1e-9, 0.1, 6.309019640343866e-5, 413685.4375875017};
    qll_arena *arena = qll_arena_open(1 << 20);
    for (int kind = 1; kind < QLL_KIND_COUNT; kind++) {
        for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
            qll_writer kept = qll_writer_new(arena);
            qll_writer wanted = qll_writer_new(arena);
            qll_units_keep(&kept, values[i], (qll_kind)kind);
            qll_units_write(&wanted, values[i], (qll_kind)kind, QLL_UNITS_US);
            const char *text = shown(arena, qll_writer_text(&kept).bytes, QLL_UNITS_US);
            CHECK_TEXT(text, qll_writer_text(&wanted).bytes);
        }
    }
    qll_writer number = qll_writer_new(arena);
    qll_units_keep(&number, 0.05, QLL_KIND_NUMBER);
    qll_units_keep_text(&number, qll_text_of(" 2"), QLL_KIND_NUMBER);
    CHECK_TEXT(qll_writer_text(&number).bytes, "0.05 2");
    qll_arena_close(arena);
}

TEST(other_braces_stay)
{
    static const char *const others[] = {
        "",
        "{",
        "}",
        "{}",
        "{{",
        "a { b",
        "{a length}",
        "{a length: }",
        "{a length: 3}",
        "{a length: 3 psi}",
        "{a length: 1e99 m}",
        "{a size: 3 m}",
        "{a length: 3 m",
        "é{¡}",
    };
    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        CHECK_TEXT(shown(arena, others[i], QLL_UNITS_US), others[i]);
    }
    CHECK_TEXT(shown(arena, "{{a length: 3 ft}}", QLL_UNITS_US), "{3 ft}");
    qll_arena_close(arena);
}

static void want_kept(qll_arena *arena, const char *text)
{
    for (int system = 0; text != NULL && system < 2; system++) {
        const char *says = shown(arena, text, (qll_unit_system)system);
        if (!CHECK(strchr(says, '{') == NULL && strchr(says, '}') == NULL)) {
            printf("    \"%s\"\n", says);
        }
    }
}

TEST(every_quantity_of_the_fields_can_be_read)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    for (int document = 0; document < 2; document++) {
        size_t count = 0;
        const qll_field_group *const *groups =
            document == 0 ? qll_survey_groups(&count) : qll_catalogue_groups(&count);
        for (size_t g = 0; g < count; g++) {
            for (size_t f = 0; f < groups[g]->count; f++) {
                want_kept(arena, groups[g]->fields[f].why);
                want_kept(arena, groups[g]->fields[f].computed);
            }
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(quantities_are_shown_in_the_readers_units);
    TEST_RUN(what_is_kept_in_si_comes_back);
    TEST_RUN(other_braces_stay);
    TEST_RUN(every_quantity_of_the_fields_can_be_read);
    return TEST_END();
}
