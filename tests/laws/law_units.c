/* What must hold for every unit, spelling and quantity. */
#include "base/random.h"
#include "base/units_table.h"
#include "check.h"
#include "said.h"

#include <stdlib.h>

static qll_arena *arena;

static const char *spelling_of(const qll_unit *unit, size_t i)
{
    return i == 0 ? unit->name : i <= QLL_UNIT_SPELLINGS ? unit->spellings[i - 1] : NULL;
}

static bool measures(const qll_unit *unit, int kind)
{
    return (unit->kinds & qll_unit_kind_bit((qll_kind)kind)) != 0;
}

static bool read_quantity(double value, const char *spelling, int kind, qll_quantity *quantity,
                          qll_units_refusal *refusal)
{
    qll_writer writer = qll_writer_new(arena);
    qll_write_number(&writer, value);
    qll_write(&writer, " ");
    qll_write(&writer, spelling);
    return qll_units_read(qll_writer_text(&writer), (qll_kind)kind, arena, quantity, refusal);
}

static double read_si(double value, const char *spelling, int kind)
{
    qll_quantity quantity = {.si = (double)NAN};
    qll_units_refusal refusal;
    if (!CHECK(read_quantity(value, spelling, kind, &quantity, &refusal))) {
        printf("    %s\n", said_text(arena, &refusal.says));
    }
    return quantity.si;
}

/* Reading is affine: equal steps in the unit are equal steps in SI, and every spelling of a unit
 * gives the same. */
TEST(units_are_read_in_proportion)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
            if (!measures(unit, kind)) {
                continue;
            }
            double zero = read_si(0.0, unit->name, kind);
            double one = read_si(1.0, unit->name, kind);
            for (size_t j = 0; spelling_of(unit, j) != NULL; j++) {
                double some = read_si(-37.25, spelling_of(unit, j), kind);
                CHECK_WITHIN(some, zero - 37.25 * (one - zero), 1e-12 * (fabs(some) + fabs(zero)));
                double back = some * unit->per / unit->factor - unit->shift;
                CHECK_NEAR(back, -37.25, 1e-14);
            }
        }
    }
}

TEST(every_unit_is_refused_where_it_measures_something_else)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const char *name = qll_units_table[i].name;
        for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
            if (qll_units_match(qll_text_of(name), (qll_kind)kind) != NULL) {
                continue;
            }
            qll_quantity quantity;
            qll_units_refusal refusal;
            CHECK(!read_quantity(2.5, name, kind, &quantity, &refusal));
            CHECK(refusal.code == QLL_CODE_WRONG_UNIT);
            CHECK(strstr(said_text(arena, &refusal.says), qll_units_kind_phrase((qll_kind)kind))
                  != NULL);
        }
    }
}

static qll_text shouted(const char *spelling)
{
    qll_writer writer = qll_writer_new(arena);
    for (const char *byte = spelling; *byte != '\0'; byte++) {
        bool is_small = *byte >= 'a' && *byte <= 'z';
        qll_write_byte(&writer, is_small ? (char)(*byte - 'a' + 'A') : *byte, 1);
    }
    return qll_writer_text(&writer);
}

static void check_shouted(const qll_unit *unit, const char *spelling)
{
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        if (measures(unit, kind)) {
            const qll_unit *found = qll_units_match(shouted(spelling), (qll_kind)kind);
            CHECK(found == unit || (found == NULL && unit->case_matters));
        }
    }
}

/* Capitals decide nothing but between milli and mega. */
TEST(capitals_never_change_the_meaning)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        for (size_t j = 0; spelling_of(unit, j) != NULL; j++) {
            check_shouted(unit, spelling_of(unit, j));
        }
    }
}

TEST(gauge_is_absolute_only_in_a_vacuum)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        qll_quantity read;
        qll_units_refusal refusal;
        if (!measures(unit, QLL_KIND_PRESSURE)) {
            continue;
        }
        CHECK(read_quantity(20.0, unit->name, QLL_KIND_PRESSURE, &read, &refusal));
        for (int step = 0; step <= 3; step++) {
            double atmosphere = step * 35e3;
            double absolute = qll_units_absolute_pa(read, atmosphere);
            double gauge = qll_units_gauge_pa(read, atmosphere);
            CHECK_WITHIN(absolute - gauge, atmosphere, 1e-6);
            CHECK((absolute == gauge) == (atmosphere == 0.0));
            CHECK((unit->absolute ? absolute : gauge) == read.si);
        }
    }
}

static qll_text written(double si, int kind, int system)
{
    qll_writer writer = qll_writer_new(arena);
    qll_units_write(&writer, si, (qll_kind)kind, (qll_unit_system)system);
    return qll_writer_text(&writer);
}

/* What is written for people reads as the same kind, and writes the same again. */
TEST(written_quantities_read_back_and_settle)
{
    qll_random random = qll_random_seeded(1);
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        for (int i = 0; i < 400; i++) {
            double si = pow(10.0, 16.0 * qll_random_unit(&random) - 8.0);
            si = qll_random_unit(&random) < 0.5 ? -si : si;
            int system = i % 2;
            qll_text once = written(si, kind, system);
            qll_quantity back;
            qll_units_refusal refusal;
            if (!CHECK(qll_units_read(once, (qll_kind)kind, arena, &back, &refusal))) {
                printf("    %s\n", said_text(arena, &refusal.says));
                continue;
            }
            CHECK_TEXT(written(back.si, kind, system).bytes, once.bytes);
        }
    }
}

TEST(inch_fractions_add_up)
{
    for (int whole = 0; whole <= 12; whole++) {
        for (int below = 2; below <= 64; below *= 2) {
            for (int above = 1; above < below; above++) {
                qll_writer writer = qll_writer_new(arena);
                qll_write_format(&writer, "%d-%d/%d\"", whole, above, below);
                qll_quantity quantity = {.si = (double)NAN};
                qll_units_refusal refusal;
                CHECK(qll_units_read(qll_writer_text(&writer), QLL_KIND_LENGTH, arena, &quantity,
                                     &refusal));
                CHECK_NEAR(quantity.si, (whole + (double)above / below) * 0.0254, 1e-15);
            }
        }
    }
}

/* ---- how quantities are rounded ---- */

/* Kinds that gauges, meters and thermometers read. */
static const qll_kind rounded_kinds[] = {
    QLL_KIND_PRESSURE, QLL_KIND_PRESSURE_DIFFERENCE, QLL_KIND_FLOW, QLL_KIND_VELOCITY,
    QLL_KIND_VOLUME,   QLL_KIND_TEMPERATURE,
};
#define TEST_ROUNDED_KINDS (sizeof rounded_kinds / sizeof rounded_kinds[0])

/* Up to a thousand times what such a thing is, from @p least_share of it. */
static double drawn_si(qll_random *random, qll_kind kind, double least_share)
{
    static const double usual[QLL_KIND_COUNT] = {
        [QLL_KIND_PRESSURE] = 3e5, [QLL_KIND_PRESSURE_DIFFERENCE] = 3e4,
        [QLL_KIND_FLOW] = 5e-4,    [QLL_KIND_VELOCITY] = 2.0,
        [QLL_KIND_VOLUME] = 0.02,  [QLL_KIND_TEMPERATURE] = 20.0,
    };
    return usual[kind] * pow(1e3 / least_share, qll_random_unit(random)) * least_share;
}

/* The next that can be shown, up or down from @p shown. */
static double neighbour(double shown, double direction, qll_kind kind, int system)
{
    double far = fabs(shown) * 1e-6 + 1e-12;
    double next = shown;
    while (fabs(next - shown) <= 1e-9 * fabs(shown)) {
        next = qll_units_rounded(shown + direction * far, kind, (qll_unit_system)system);
        far *= 1.5;
    }
    return next;
}

/* More is never shown as less, what is rounded stays, and of all that can be shown nothing lies nearer: the
 * error is half a step at most. */
TEST(quantities_are_rounded_to_the_nearest_in_order)
{
    qll_random random = qll_random_seeded(20);
    for (size_t i = 0; i < 20000; i++) {
        qll_kind kind = rounded_kinds[i % TEST_ROUNDED_KINDS];
        int system = (int)(i / TEST_ROUNDED_KINDS % 2);
        double si = drawn_si(&random, kind, 1e-3) * (i % 5 == 0 ? -1.0 : 1.0);
        double more = si + fabs(si) * (i % 3 == 0 ? 1e-3 : 0.1) * qll_random_unit(&random);
        double shown = qll_units_rounded(si, kind, (qll_unit_system)system);
        double shown_more = qll_units_rounded(more, kind, (qll_unit_system)system);
        double again = qll_units_rounded(shown, kind, (qll_unit_system)system);
        double last_bits = 1e-9 * (fabs(si) + 1e-6);
        double other = neighbour(shown, si > shown ? 1.0 : -1.0, kind, system);
        bool is_ordered = CHECK(shown <= shown_more + last_bits);
        bool is_settled = CHECK(fabs(again - shown) <= last_bits);
        bool is_nearest = CHECK(fabs(shown - si) <= fabs(other - si) + last_bits);
        if (!is_ordered || !is_settled || !is_nearest) {
            printf("    %s, %.17g: %s\n", qll_units_kind_phrase(kind), si,
                   written(si, (int)kind, system).bytes);
        }
    }
}

/* Beside each other, what is a thousandth more reads as more. */
TEST(a_limit_never_reads_as_what_passes_it)
{
    qll_random random = qll_random_seeded(21);
    for (size_t i = 0; i < 5000; i++) {
        qll_kind kind = rounded_kinds[i % 4];
        qll_unit_system system = (qll_unit_system)(i / 4 % 2);
        double si = drawn_si(&random, kind, 1.0);
        double limit = si * (1.0 + (qll_random_unit(&random) - 0.5) * 0.1);
        qll_writer one = qll_writer_new(arena);
        qll_writer two = qll_writer_new(arena);
        qll_units_write_beside(&one, si, limit, kind, system);
        qll_units_write_beside(&two, limit, si, kind, system);
        double value = strtod(qll_writer_text(&one).bytes, NULL);
        double other = strtod(qll_writer_text(&two).bytes, NULL);
        bool is_equal = value == other && fabs(si - limit) < 1e-3 * si;
        if (!CHECK(is_equal || (value != other && (value > other) == (si > limit)))) {
            printf("    %.17g beside %.17g: %s, %s\n", si, limit, qll_writer_text(&one).bytes,
                   qll_writer_text(&two).bytes);
        }
    }
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 28);
    TEST_RUN(units_are_read_in_proportion);
    TEST_RUN(every_unit_is_refused_where_it_measures_something_else);
    TEST_RUN(capitals_never_change_the_meaning);
    TEST_RUN(gauge_is_absolute_only_in_a_vacuum);
    TEST_RUN(written_quantities_read_back_and_settle);
    TEST_RUN(inch_fractions_add_up);
    TEST_RUN(quantities_are_rounded_to_the_nearest_in_order);
    TEST_RUN(a_limit_never_reads_as_what_passes_it);
    qll_arena_close(arena);
    return TEST_END();
}
