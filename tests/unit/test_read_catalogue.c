/* Catalogues against figures converted by hand, tables against JSON, and what is written against
 * what was read. */
#include "base/files.h"
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/valve_table.h"
#include "said.h"

#include <stdlib.h>

/* 1 psi = 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)^2; 1 US gal = 231 in3 (NIST SP 811). */
static const double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
static const double gpm = 231.0 * 0.0254 * 0.0254 * 0.0254 / 60.0;

typedef struct scene {
    qll_arena *arena;
    qll_assumed assumed;
    qll_problems problems;
    qll_catalogue catalogue;
    qll_status status;
} scene;

static scene open_scene(void)
{
    scene opened = {.arena = qll_arena_open((size_t)64 * 1024 * 1024)};
    opened.assumed = qll_assumed_none(opened.arena);
    opened.problems = qll_problems_none(opened.arena);
    return opened;
}

static void read_json(scene *at, qll_text source)
{
    qll_document *document = qll_arena_take(at->arena, 1, sizeof *document);
    at->status = qll_document_read(source, "valves.json", at->arena, document, &at->problems);
    if (at->status == QLL_OK) {
        at->status =
            qll_catalogue_read(document, at->arena, &at->catalogue, &at->assumed, &at->problems);
    }
    for (size_t i = 0; i < at->problems.kept_count; i++) {
        printf("    %s: %s\n", at->problems.kept[i].place.path,
               said_problem(&at->problems, i).text);
    }
}

static void read_csv(scene *at, qll_text source)
{
    qll_table *table = qll_arena_take(at->arena, 1, sizeof *table);
    at->status = qll_valve_table_read(source, "valves.csv", at->arena, table, &at->problems);
    if (at->status == QLL_OK) {
        at->status =
            qll_catalogue_import(table, at->arena, &at->catalogue, &at->assumed, &at->problems);
    }
    for (size_t i = 0; i < at->problems.kept_count; i++) {
        printf("    %s: %s\n", at->problems.kept[i].place.path,
               said_problem(&at->problems, i).text);
    }
}

static qll_text file_text(const char *path, qll_arena *arena)
{
    static char bytes[64 * 1024];
    FILE *file = fopen(path, "rb");
    if (!CHECK(file != NULL)) {
        exit(1);
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    return (qll_text){qll_arena_copy(arena, bytes, size), size};
}

static qll_text generic_text(void)
{
    return (qll_text){(const char *)qll_file_generic_catalogue, qll_file_generic_catalogue_size};
}

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static void check_same_valve(const qll_valve *a, const qll_valve *b)
{
    CHECK_TEXT(a->id, b->id);
    CHECK(a->acting == b->acting && a->defaulted == b->defaulted && a->bypass == b->bypass);
    const double of_a[] = {a->nominal_m,
                           a->kv_m3h,
                           a->set_min_pa_gauge,
                           a->set_max_pa_gauge,
                           a->inlet_max_pa_gauge,
                           a->temperature_max_degc,
                           a->band_pa,
                           a->sheet_inlet_pa_gauge,
                           a->sheet_set_pa_gauge,
                           a->lockup_rise_pa,
                           a->inlet_effect,
                           a->flow_min_m3s,
                           a->hysteresis_pa,
                           a->fl,
                           a->fd,
                           a->xfz,
                           a->seat_bore_m,
                           a->moving_mass_kg,
                           a->spring_n_m,
                           a->damping_n_s_m,
                           a->diaphragm_m,
                           a->stroke_s,
                           a->strainer_kv_m3h,
                           a->price,
                           a->lead_days};
    const double of_b[] = {b->nominal_m,
                           b->kv_m3h,
                           b->set_min_pa_gauge,
                           b->set_max_pa_gauge,
                           b->inlet_max_pa_gauge,
                           b->temperature_max_degc,
                           b->band_pa,
                           b->sheet_inlet_pa_gauge,
                           b->sheet_set_pa_gauge,
                           b->lockup_rise_pa,
                           b->inlet_effect,
                           b->flow_min_m3s,
                           b->hysteresis_pa,
                           b->fl,
                           b->fd,
                           b->xfz,
                           b->seat_bore_m,
                           b->moving_mass_kg,
                           b->spring_n_m,
                           b->damping_n_s_m,
                           b->diaphragm_m,
                           b->stroke_s,
                           b->strainer_kv_m3h,
                           b->price,
                           b->lead_days};
    for (size_t i = 0; i < sizeof of_a / sizeof of_a[0]; i++) {
        if (!CHECK(same_number(of_a[i], of_b[i]))) {
            printf("    %s, member %zu: %.17g and %.17g\n", a->id, i, of_a[i], of_b[i]);
        }
    }
    if (!CHECK(a->falloff_count == b->falloff_count)) {
        return;
    }
    for (size_t i = 0; i < a->falloff_count; i++) {
        CHECK(a->falloff_points[i].x == b->falloff_points[i].x);
        CHECK(a->falloff_points[i].y == b->falloff_points[i].y);
    }
}

static qll_text written(const qll_catalogue *catalogue, qll_arena *arena)
{
    qll_writer *writer = qll_arena_take(arena, 1, sizeof *writer);
    *writer = qll_writer_new(arena);
    qll_json json = qll_json_new(writer);
    qll_catalogue_write(&json, catalogue);
    return qll_writer_text(writer);
}

static void check_round_trip(const scene *first)
{
    scene second = open_scene();
    read_json(&second, written(&first->catalogue, second.arena));
    CHECK(second.status == QLL_OK);
    CHECK_TEXT(second.catalogue.name, first->catalogue.name);
    CHECK(second.catalogue.invented == first->catalogue.invented);
    if (CHECK(second.catalogue.count == first->catalogue.count)) {
        for (size_t i = 0; i < second.catalogue.count; i++) {
            check_same_valve(&second.catalogue.valves[i], &first->catalogue.valves[i]);
        }
    }
    qll_text again = written(&second.catalogue, second.arena);
    CHECK(qll_text_equal(again, written(&first->catalogue, second.arena)));
    qll_arena_close(second.arena);
}

TEST(a_valve_is_read_in_si)
{
    scene at = open_scene();
    read_json(&at, file_text(QUELL_ROOT "/examples/own-catalogue/valves.json", at.arena));
    if (CHECK(at.status == QLL_OK && at.catalogue.count == 3)) {
        const qll_valve *small = &at.catalogue.valves[0];
        CHECK_NEAR(small->nominal_m, 0.75 * 0.0254, 1e-12);
        CHECK(small->acting == QLL_ACTING_DIRECT && at.catalogue.invented);
        CHECK_NEAR(small->set_max_pa_gauge, 75.0 * psi, 1e-12);
        CHECK_NEAR(small->temperature_max_degc, 60.0, 1e-12);
        CHECK_NEAR(small->falloff_points[1].x, 6.0 * gpm, 1e-12);
        CHECK_NEAR(small->falloff_points[1].y, 7.0 * psi, 1e-12);
        CHECK_NEAR(small->flow_min_m3s, 0.6 * gpm, 1e-12);
        CHECK_NEAR(small->seat_bore_m, 10.5e-3, 1e-12);
        CHECK_NEAR(small->moving_mass_kg, 0.3 * 0.45359237, 1e-12);
        CHECK_NEAR(small->spring_n_m, 60e3, 1e-12);
        CHECK_NEAR(small->damping_n_s_m, 12.0, 1e-12);
        CHECK_NEAR(small->diaphragm_m, 1.5 * 0.0254, 1e-12);
        CHECK(isnan(small->stroke_s) && qll_valve_says_motion(small));
        CHECK(small->defaulted == 0);
        const qll_valve *middle = &at.catalogue.valves[1];
        CHECK_NEAR(middle->nominal_m, 0.05, 1e-12);
        CHECK_NEAR(middle->kv_m3h, 16.0 / QLL_CV_PER_KV, 1e-12);
        CHECK_NEAR(middle->band_pa, 1.4e5, 1e-12);
        CHECK(middle->falloff_count == 0 && isnan(middle->strainer_kv_m3h));
        CHECK((middle->defaulted >> QLL_VALVE_FD & 1U) == 1U);
        CHECK((middle->defaulted >> QLL_VALVE_SEAT_BORE & 1U) == 1U);
        CHECK_NEAR(middle->seat_bore_m, 0.55 * 0.05, 1e-12);
        const qll_valve *large = &at.catalogue.valves[2];
        CHECK(large->acting == QLL_ACTING_PILOT);
        CHECK_NEAR(large->stroke_s, 8.0, 1e-12);
        CHECK((large->defaulted >> QLL_VALVE_MOVING_MASS & 1U) == 0U); /* no matter of a pilot */
        CHECK_NEAR(large->band_pa, 4.0 * psi, 1e-12);
        CHECK_NEAR(large->sheet_set_pa_gauge, 90.0 * psi, 1e-12); /* the middle of 30 to 150 */
    }
    qll_arena_close(at.arena);
}

TEST(a_table_and_json_of_the_same_valves_are_the_same)
{
    scene json = open_scene();
    scene csv = open_scene();
    read_json(&json, file_text(QUELL_ROOT "/examples/own-catalogue/valves.json", json.arena));
    read_csv(&csv, file_text(QUELL_ROOT "/examples/own-catalogue/valves.csv", csv.arena));
    CHECK(json.status == QLL_OK && csv.status == QLL_OK);
    CHECK_TEXT(json.catalogue.currency, "USD");
    CHECK_TEXT(csv.catalogue.currency, "USD");
    if (CHECK(csv.catalogue.count == 2)) {
        check_same_valve(&csv.catalogue.valves[0], &json.catalogue.valves[0]);
        check_same_valve(&csv.catalogue.valves[1], &json.catalogue.valves[1]);
    }
    check_round_trip(&csv);
    qll_arena_close(json.arena);
    qll_arena_close(csv.arena);
}

/* The same two valves as a spreadsheet of another country saves them. */
TEST(semicolons_tabs_and_decimal_commas_are_read)
{
    static const char *const tables[] = {
        "id,nominal_in,acting,kv_m3h,set_min_psi,set_max_psi,inlet_max_psi,band_psi,price_eur\n"
        "\"A;1,5\",2,direct,18.5,25,75,300,8.25,780.5\nB,1-1/4,pilot,6 m3/h,25,75,300,2,1250\n",
        "id;nominal_in;acting;kv_m3h;set_min_psi;set_max_psi;inlet_max_psi;band_psi;price_eur\n"
        "\"A;1,5\";2;direct;18,5;25;75;300;8,25;780,5\nB;1-1/4;pilot;6,0 m3/h;25;75;300;2;1250\n",
        "id\tnominal_in\tacting\tkv_m3h\tset_min_psi\tset_max_psi\tinlet_max_psi\tband_psi\t"
        "price_eur\nA;1,5\t2\tdirect\t18,500\t25\t75\t300\t8,25\t780,500\n"
        "B\t1-1/4\tpilot\t6\t25\t75\t300\t2\t1250\n"};
    for (size_t i = 0; i < 3; i++) {
        scene at = open_scene();
        read_csv(&at, qll_text_of(tables[i]));
        if (CHECK(at.status == QLL_OK && at.catalogue.count == 2)) {
            CHECK_TEXT(at.catalogue.valves[0].id, "A;1,5");
            CHECK_NEAR(at.catalogue.valves[0].kv_m3h, 18.5, 1e-12);
            CHECK_NEAR(at.catalogue.valves[0].band_pa, 8.25 * psi, 1e-12);
            CHECK_NEAR(at.catalogue.valves[0].price, 780.5, 0);
            CHECK_NEAR(at.catalogue.valves[1].nominal_m, 0.03175, 1e-12);
            CHECK_NEAR(at.catalogue.valves[1].kv_m3h, 6, 1e-12);
            CHECK_NEAR(at.catalogue.valves[1].price, 1250, 0);
            CHECK_TEXT(at.catalogue.currency, "EUR");
        }
        qll_arena_close(at.arena);
    }
}

TEST(what_is_written_reads_back_the_same)
{
    scene own = open_scene();
    read_json(&own, file_text(QUELL_ROOT "/examples/own-catalogue/valves.json", own.arena));
    check_round_trip(&own);
    scene generic = open_scene();
    read_json(&generic, generic_text());
    CHECK(generic.status == QLL_OK);
    check_round_trip(&generic);
    qll_arena_close(own.arena);
    qll_arena_close(generic.arena);
}

/* A catalogue keeps odd doubles too: no customary unit writes them in six decimals. */
TEST(odd_doubles_survive_the_round_trip)
{
    scene at = open_scene();
    read_json(
        &at,
        qll_text_of(
            "{\"catalogue\": 1, \"valves\": [{\"id\": \"odd\", \"nominal\": "
            "\"0.0333333333333333 m\", \"acting\": \"pilot\", \"kv\": "
            "\"17.123456789012345 m3/h\", \"set_range\": [\"123456.789012345 "
            "Pa\", \"0.5123456789 MPa\"], \"inlet_max\": \"16 bar\", \"bypass\": true, \"band\": "
            "\"0.123456789012 bar\", \"price\": 0.1}]}"));
    CHECK(at.status == QLL_OK && at.catalogue.valves[0].bypass);
    check_round_trip(&at);
    qll_arena_close(at.arena);
}

/* EN 1567 flows at 2 m/s, m3/h (from memory, widely quoted); bore arithmetic above DN 50. */
static const double flow_2_m_s[] = {1.27, 2.27, 3.6, 5.8, 9.1, 14.0, 23.9, 36.2};

TEST(generic_direct_valves_carry_the_usual_flow_at_the_usual_falloff)
{
    scene at = open_scene();
    read_json(&at, generic_text());
    CHECK(at.status == QLL_OK && at.catalogue.count == 22 && at.catalogue.invented);
    CHECK(strstr(at.catalogue.name, "invented") != NULL);
    for (size_t i = 0; i < sizeof flow_2_m_s / sizeof flow_2_m_s[0] && at.status == QLL_OK; i++) {
        const qll_valve *valve = &at.catalogue.valves[i];
        const qll_curve falloff = {valve->falloff_points, valve->falloff_count};
        double falloff_pa = qll_curve_at(falloff, flow_2_m_s[i] / 3600.0);
        CHECK(falloff_pa >= 9.5 * psi && falloff_pa <= 15.0 * psi);
        double drop_bar = (50.0 * psi + falloff_pa) / 1e5;
        double share = flow_2_m_s[i] / (valve->kv_m3h * sqrt(drop_bar));
        CHECK(share >= 0.45 && share <= 0.60);
        CHECK(valve->flow_min_m3s < 0.08 * flow_2_m_s[i] / 3600.0);
    }
    qll_arena_close(at.arena);
}

TEST(generic_valves_grow_with_their_size)
{
    scene at = open_scene();
    read_json(&at, generic_text());
    for (size_t i = 1; i < at.catalogue.count; i++) {
        const qll_valve *smaller = &at.catalogue.valves[i - 1];
        const qll_valve *larger = &at.catalogue.valves[i];
        if (larger->nominal_m < smaller->nominal_m) {
            continue; /* the next series begins */
        }
        CHECK(larger->kv_m3h > smaller->kv_m3h);
        CHECK(larger->price > smaller->price);
        CHECK(larger->flow_min_m3s > smaller->flow_min_m3s);
    }
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(a_valve_is_read_in_si);
    TEST_RUN(a_table_and_json_of_the_same_valves_are_the_same);
    TEST_RUN(semicolons_tabs_and_decimal_commas_are_read);
    TEST_RUN(what_is_written_reads_back_the_same);
    TEST_RUN(odd_doubles_survive_the_round_trip);
    TEST_RUN(generic_direct_valves_carry_the_usual_flow_at_the_usual_falloff);
    TEST_RUN(generic_valves_grow_with_their_size);
    return TEST_END();
}
