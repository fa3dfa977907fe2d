/* The store, record by record: what docs/theory/records.md says of facts, documents, merging and receipts. The same program runs on
 * SQLite and, told where, on PostgreSQL (tests/store/postgres.sh). */
#include "base/count.h"
#include "store/counted_store.h"
#include "store/store_lists.h"
#include "store/store_logs.h"
#include "store/store_marks.h"

static qll_records get(store_scene *scene, unsigned number)
{
    qll_records records = {0};
    CHECK(qll_store_get(scene->store, scene_id(scene->arena, number), scene->arena, &records,
                        &scene->why)
          == QLL_OK);
    return records;
}

TEST(a_record_comes_back_as_it_went_in)
{
    store_scene scene;
    begin(&scene);
    qll_record site = scene_site(scene.arena, 2, 1, "Cedar Court");
    site.body = qll_text_of("{\"name\":\"Cedar Court \\u00fc \xc3\xbc\"}");
    CHECK(scene_put(&scene, site).outcome == QLL_PUT_NEW);
    qll_record version = scene_version(scene.arena, 3, QLL_RECORD_SITE, 1, 2);
    version.parents[1] = scene_id(scene.arena, 77);
    version.parent_count = 2;
    version.title = "Cedar Court";
    CHECK(scene_put(&scene, version).receipt == 2);
    const qll_records one = get(&scene, 2);
    const qll_records two = get(&scene, 3);
    if (CHECK(one.count == 1 && two.count == 1)) {
        CHECK_TEXT(one.list[0].id, site.id);
        CHECK_TEXT(one.list[0].site, site.site);
        CHECK_TEXT(one.list[0].document, site.document);
        CHECK_TEXT(one.list[0].who, "ana");
        CHECK_TEXT(one.list[0].written_at, site.written_at);
        CHECK_TEXT(one.list[0].title, "Cedar Court");
        CHECK(one.list[0].written_ms == site.written_ms);
        CHECK(one.list[0].kind == QLL_RECORD_SITE);
        CHECK(one.list[0].receipt == 1);
        CHECK(one.list[0].corrects == NULL && one.list[0].day == NULL);
        CHECK(qll_text_equal(one.list[0].body, site.body));
        CHECK(two.list[0].parent_count == 2);
        CHECK_TEXT(two.list[0].parents[0], scene_id(scene.arena, 2));
        CHECK_TEXT(two.list[0].parents[1], scene_id(scene.arena, 77));
    }
    CHECK(get(&scene, 4).count == 0);
    end(&scene);
}

TEST(put_twice_it_is_there_once)
{
    store_scene scene;
    begin(&scene);
    const qll_record visit = scene_record(scene.arena, 5, QLL_RECORD_VISIT, 1);
    const qll_put first = scene_put(&scene, visit);
    const qll_put second = scene_put(&scene, visit);
    CHECK(first.outcome == QLL_PUT_NEW && second.outcome == QLL_PUT_SAME);
    CHECK(first.receipt == 1 && second.receipt == 1);
    qll_record other = visit;
    other.body = qll_text_of("{\"day\":\"2026-11-20\"}");
    const qll_put third = scene_put(&scene, other);
    CHECK(third.outcome == QLL_PUT_REFUSED && third.why.id == QLL_TEXT_STORE_SAME_ID);
    other = visit;
    other.who = "ben";
    CHECK(scene_put(&scene, other).outcome == QLL_PUT_REFUSED);
    CHECK(qll_text_is(get(&scene, 5).list[0].body, "{}"));
    long long receipt = 0;
    CHECK(qll_store_receipt(scene.store, &receipt, &scene.why) == QLL_OK && receipt == 1);
    end(&scene);
}

TEST(one_refused_record_leaves_the_others_of_a_batch)
{
    store_scene scene;
    begin(&scene);
    qll_record batch[3] = {scene_record(scene.arena, 1, QLL_RECORD_VISIT, 9),
                           scene_record(scene.arena, 1, QLL_RECORD_TEST, 9),
                           scene_record(scene.arena, 2, QLL_RECORD_TEST, 9)};
    qll_put puts[3];
    CHECK(qll_store_put(scene.store, batch, 3, QLL_PUT_BESIDE, scene.arena, puts, &scene.why)
          == QLL_OK);
    CHECK(puts[0].outcome == QLL_PUT_NEW && puts[0].receipt == 1);
    CHECK(puts[1].outcome == QLL_PUT_REFUSED && puts[1].receipt == 0);
    CHECK(puts[2].outcome == QLL_PUT_NEW && puts[2].receipt == 2);
    end(&scene);
}

TEST(changes_come_in_the_order_of_receipts_and_none_is_skipped)
{
    store_scene scene;
    begin(&scene);
    for (unsigned i = 1; i <= 25; i++) {
        (void)scene_put(&scene, scene_record(scene.arena, 100 - i, QLL_RECORD_READING, 1));
    }
    long long after = 0;
    unsigned seen = 0;
    qll_records page = {0};
    do {
        CHECK(qll_store_changes(scene.store, after, 10, scene.arena, &page, &scene.why) == QLL_OK);
        for (size_t i = 0; i < page.count; i++) {
            seen += 1;
            CHECK(page.list[i].receipt == (long long)seen);
            CHECK_TEXT(page.list[i].id, scene_id(scene.arena, 100 - seen));
        }
        after = page.count == 0 ? after : page.list[page.count - 1].receipt;
    } while (page.count == 10);
    CHECK(seen == 25);
    end(&scene);
}

static size_t heads(store_scene *scene, unsigned document, const char *first)
{
    qll_records records = {0};
    CHECK(qll_store_heads(scene->store, scene_id(scene->arena, document), scene->arena, &records,
                          &scene->why)
          == QLL_OK);
    if (records.count > 0 && first != NULL) {
        CHECK_TEXT(records.list[0].id, first);
    }
    return records.count;
}

TEST(a_conflict_is_kept_shown_and_settled_by_a_third_version)
{
    store_scene scene;
    begin(&scene);
    CHECK(scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar")).head_count == 1);
    CHECK(scene_put(&scene, scene_version(scene.arena, 11, QLL_RECORD_SITE, 1, 10)).head_count
          == 1);
    CHECK(scene_put(&scene, scene_version(scene.arena, 12, QLL_RECORD_SITE, 1, 10)).head_count
          == 2);
    CHECK(heads(&scene, 1, scene_id(scene.arena, 12)) == 2);
    qll_store_sites sites = {0};
    CHECK(qll_store_conflicts(scene.store, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK(sites.count == 1 && sites.list[0].conflicts == 1);
    /* One that comes from one of them alone settles nothing. */
    CHECK(scene_put(&scene, scene_version(scene.arena, 13, QLL_RECORD_SITE, 1, 11)).head_count
          == 2);
    qll_record third = scene_version(scene.arena, 14, QLL_RECORD_SITE, 1, 12);
    third.parents[1] = scene_id(scene.arena, 13);
    third.parent_count = 2;
    CHECK(scene_put(&scene, third).head_count == 1);
    CHECK(heads(&scene, 1, third.id) == 1);
    CHECK(qll_store_conflicts(scene.store, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK(sites.count == 0);
    qll_records all = {0};
    CHECK(qll_store_versions(scene.store, third.document, scene.arena, &all, &scene.why) == QLL_OK);
    CHECK(all.count == 5);
    end(&scene);
}

/* Of site @p number: its last service, months between services and conflicts, as lists show them. */
static void check_listed(store_scene *scene, unsigned number, const char *service_day,
                         int every_months, size_t conflicts)
{
    qll_store_sites sites = {0};
    const char *id = scene_id(scene->arena, number);
    CHECK(qll_store_called(scene->store, id, scene->arena, &sites, &scene->why) == QLL_OK);
    if (CHECK(sites.count == 1)) {
        const char *day = sites.list[0].service_day;
        CHECK((day == NULL) == (service_day == NULL));
        CHECK(day == NULL || service_day == NULL || strcmp(day, service_day) == 0);
        CHECK(sites.list[0].every_months == every_months);
        CHECK(sites.list[0].conflicts == conflicts);
    }
}

static qll_record service(store_scene *scene, unsigned number, unsigned site, unsigned corrects)
{
    qll_record record = scene_record(scene->arena, number, QLL_RECORD_VISIT, site);
    record.title = "service";
    record.day = "2026-11-20";
    record.corrects = corrects == 0 ? NULL : scene_id(scene->arena, corrects);
    return record;
}

TEST(a_correction_takes_another_one_off_the_list_of_its_site)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, service(&scene, 10, 1, 0));
    (void)scene_put(&scene, service(&scene, 11, 2, 10));
    check_listed(&scene, 1, NULL, 0, 0);
    check_listed(&scene, 2, "2026-11-20", 0, 0);
    (void)scene_put(&scene, service(&scene, 12, 3, 10));
    check_listed(&scene, 2, NULL, 0, 0);
    check_listed(&scene, 3, "2026-11-20", 0, 0);
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_OK);
    end(&scene);
}

TEST(a_plan_that_moves_to_another_site_leaves_the_first_and_is_in_conflict_at_both)
{
    store_scene scene;
    begin(&scene);
    qll_record plan = scene_version(scene.arena, 10, QLL_RECORD_PLAN, 5, 0);
    plan.every_months = 12;
    (void)scene_put(&scene, plan);
    check_listed(&scene, 1, NULL, 12, 0);
    qll_record moved = scene_version(scene.arena, 11, QLL_RECORD_PLAN, 5, 10);
    moved.site = scene_id(scene.arena, 2);
    moved.every_months = 12;
    (void)scene_put(&scene, moved);
    check_listed(&scene, 1, NULL, 0, 0);
    check_listed(&scene, 2, NULL, 12, 0);
    qll_record other = scene_version(scene.arena, 12, QLL_RECORD_PLAN, 5, 10);
    other.every_months = 6;
    (void)scene_put(&scene, other);
    check_listed(&scene, 1, NULL, 6, 1);
    check_listed(&scene, 2, NULL, 12, 1);
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_OK);
    end(&scene);
}

TEST(a_version_put_onto_what_stands_is_refused_when_that_has_moved_on)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar"));
    qll_record onto = scene_version(scene.arena, 11, QLL_RECORD_SITE, 1, 10);
    qll_put put;
    CHECK(qll_store_put(scene.store, &onto, 1, QLL_PUT_ONTO, scene.arena, &put, &scene.why)
          == QLL_OK);
    CHECK(put.outcome == QLL_PUT_NEW);
    qll_record late = scene_version(scene.arena, 12, QLL_RECORD_SITE, 1, 10);
    CHECK(qll_store_put(scene.store, &late, 1, QLL_PUT_ONTO, scene.arena, &put, &scene.why)
          == QLL_OK);
    CHECK(put.outcome == QLL_PUT_REFUSED && put.why.id == QLL_TEXT_STORE_NOT_ONTO);
    CHECK(heads(&scene, 1, onto.id) == 1);
    /* The same again is no new version. */
    CHECK(qll_store_put(scene.store, &onto, 1, QLL_PUT_ONTO, scene.arena, &put, &scene.why)
          == QLL_OK);
    CHECK(put.outcome == QLL_PUT_SAME);
    end(&scene);
}

TEST(nothing_comes_from_itself)
{
    store_scene scene;
    begin(&scene);
    qll_record own = scene_version(scene.arena, 10, QLL_RECORD_SITE, 1, 10);
    CHECK(scene_put(&scene, own).why.id == QLL_TEXT_STORE_OWN_PARENT);
    /* 12 comes from 11, 11 from 10: 10 cannot come from 12. */
    (void)scene_put(&scene, scene_version(scene.arena, 12, QLL_RECORD_SITE, 1, 11));
    (void)scene_put(&scene, scene_version(scene.arena, 11, QLL_RECORD_SITE, 1, 10));
    CHECK(scene_put(&scene, scene_version(scene.arena, 10, QLL_RECORD_SITE, 1, 12)).outcome
          == QLL_PUT_REFUSED);
    CHECK(heads(&scene, 1, NULL) == 1);
    qll_record fact = scene_record(scene.arena, 20, QLL_RECORD_VISIT, 1);
    fact.corrects = fact.id;
    CHECK(scene_put(&scene, fact).outcome == QLL_PUT_REFUSED);
    end(&scene);
}

static qll_records of_site(store_scene *scene, unsigned site)
{
    qll_records records = {0};
    CHECK(qll_store_of_site(scene->store, scene_id(scene->arena, site), NULL, 1000, scene->arena,
                            &records, &scene->why)
          == QLL_OK);
    return records;
}

TEST(a_correction_takes_the_place_of_a_fact)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 1, 1, "Cedar"));
    qll_record visit = scene_record(scene.arena, 10, QLL_RECORD_VISIT, 1);
    visit.day = "2026-11-20";
    visit.title = "service";
    qll_record correction = scene_record(scene.arena, 11, QLL_RECORD_VISIT, 1);
    correction.corrects = visit.id;
    correction.day = "2025-11-20";
    correction.title = "commissioning";
    /* It may come first. */
    (void)scene_put(&scene, correction);
    (void)scene_put(&scene, visit);
    qll_records stands = of_site(&scene, 1);
    CHECK(stands.count == 2);
    CHECK_TEXT(stands.list[1].id, correction.id);
    qll_store_sites sites = {0};
    CHECK(qll_store_list(scene.store, NULL, 10, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK_TEXT(sites.list[0].service_day, "2025-11-20");
    /* Of two corrections the one written last stands. */
    qll_record later = scene_record(scene.arena, 12, QLL_RECORD_VISIT, 1);
    later.corrects = visit.id;
    (void)scene_put(&scene, later);
    stands = of_site(&scene, 1);
    CHECK(stands.count == 2);
    CHECK_TEXT(stands.list[1].id, later.id);
    /* It is at another site: neither has it then. */
    qll_record moved = scene_record(scene.arena, 13, QLL_RECORD_VISIT, 2);
    moved.corrects = later.id;
    moved.day = "2026-01-31";
    moved.title = "service";
    (void)scene_put(&scene, moved);
    CHECK(of_site(&scene, 1).count == 1);
    CHECK(of_site(&scene, 2).count == 1);
    CHECK(qll_store_list(scene.store, NULL, 10, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK(sites.count == 2);
    CHECK_TEXT(sites.list[0].service_day, "2026-01-31"); /* by name: site 2 has none yet */
    CHECK(sites.list[1].service_day == NULL);
    end(&scene);
}

/* The same records in any order leave the same store, but for receipts. */
TEST(the_order_of_arrival_changes_nothing)
{
    qll_random random = qll_random_seeded(7);
    char *wanted = NULL;
    const unsigned rounds = 30 / TEST_ONE_IN;
    for (unsigned round = 0; round < rounds; round++) {
        store_scene scene;
        begin(&scene);
        qll_arena *arena = scene.arena;
        qll_record set[8] = {
            scene_site(arena, 10, 1, "Cedar"),
            scene_version(arena, 11, QLL_RECORD_SITE, 1, 10),
            scene_version(arena, 12, QLL_RECORD_SITE, 1, 10),
            scene_version(arena, 20, QLL_RECORD_PLAN, 2, 0),
            scene_record(arena, 30, QLL_RECORD_VISIT, 1),
            scene_record(arena, 31, QLL_RECORD_VISIT, 1),
            scene_record(arena, 32, QLL_RECORD_VISIT, 1),
            scene_record(arena, 33, QLL_RECORD_VISIT, 1),
        };
        set[1].title = "Cedar Court";
        set[2].title = "Cedar House";
        set[3].every_months = 12;
        for (size_t i = 4; i < QLL_COUNT(set); i++) {
            set[i].title = "service";
        }
        set[4].day = "2026-01-01";
        set[5].corrects = set[4].id;
        set[5].day = "2026-02-01";
        set[6].corrects = set[4].id;
        set[6].day = "2026-03-01";
        set[7].corrects = set[6].id;
        set[7].day = "2025-03-01";
        for (size_t i = QLL_COUNT(set); round > 0 && i > 1; i--) {
            const size_t other = (size_t)(qll_random_unit(&random) * (double)i);
            const qll_record kept = set[i - 1];
            set[i - 1] = set[other];
            set[other] = kept;
        }
        for (size_t i = 0; i < QLL_COUNT(set); i++) {
            CHECK(scene_put(&scene, set[i]).outcome == QLL_PUT_NEW);
        }
        qll_writer told = qll_writer_new(arena);
        const qll_records stands = of_site(&scene, 1);
        for (size_t i = 0; i < stands.count; i++) {
            qll_write_format(&told, "%s ", stands.list[i].id);
        }
        qll_store_sites sites = {0};
        CHECK(qll_store_list(scene.store, NULL, 10, arena, &sites, &scene.why) == QLL_OK);
        qll_write_format(&told, "%s %s %d %zu", sites.list[0].name, sites.list[0].service_day,
                         sites.list[0].every_months, sites.list[0].conflicts);
        const char *text = qll_writer_text(&told).bytes;
        if (wanted == NULL) {
            wanted = malloc(strlen(text) + 1);
            memcpy(wanted, text, strlen(text) + 1);
            CHECK(stands.count == 4);
            CHECK(strstr(text, "Cedar House 2025-03-01 12 1") != NULL);
        }
        CHECK_TEXT(text, wanted);
        end(&scene);
    }
    free(wanted);
}

/* Of the store's own memory, and of the caller's: nothing is kept by halves, and the next try succeeds. */
TEST(an_allocation_that_fails_changes_nothing)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar"));
    const qll_record version = scene_version(scene.arena, 11, QLL_RECORD_SITE, 1, 10);
    unsigned failures = 0;
    for (int whose = 0; whose < 2; whose++) {
        qll_status status = QLL_NO_MEMORY;
        for (size_t nth = 1; status == QLL_NO_MEMORY && nth < 500; nth++) {
            qll_arena *caller = qll_arena_open((size_t)1 << 24);
            qll_put put = {0};
            qll_records found = {0};
            qll_arena_fail(whose == 0 ? scene.store->arena : caller, nth, true);
            const qll_record other =
                scene_version(scene.arena, 12 + (unsigned)whose, QLL_RECORD_SITE, 1, 10);
            status = qll_store_put(scene.store, &other, 1, QLL_PUT_ONTO, caller, &put, &scene.why);
            qll_arena_fail(scene.store->arena, 0, false);
            failures += status == QLL_NO_MEMORY ? 1 : 0;
            CHECK(status == QLL_OK || status == QLL_NO_MEMORY);
            CHECK(qll_store_get(scene.store, other.id, scene.arena, &found, &scene.why) == QLL_OK);
            CHECK(status == QLL_OK || found.count == 0);
            qll_arena_close(caller);
        }
        CHECK(status == QLL_OK);
    }
    CHECK(failures > 3);
    for (size_t nth = 1; nth < 30; nth++) {
        qll_arena *caller = qll_arena_open((size_t)1 << 24);
        qll_records heads = {0};
        qll_arena_fail(caller, nth, true);
        const qll_status status =
            qll_store_heads(scene.store, version.document, caller, &heads, &scene.why);
        CHECK(status == QLL_NO_MEMORY || (status == QLL_OK && heads.count == 1));
        qll_arena_close(caller);
    }
    end(&scene);
}

TEST(every_statement_was_run)
{
    for (int i = 0; i < QLL_STATEMENT_COUNT; i++) {
        if (!CHECK(ran[i])) {
            printf("    %s\n", qll_statement_words[i]);
        }
    }
}

int main(int count, char **arguments)
{
    scene_database = count > 1 ? arguments[1] : NULL;
    TEST_RUN(a_record_comes_back_as_it_went_in);
    TEST_RUN(put_twice_it_is_there_once);
    TEST_RUN(one_refused_record_leaves_the_others_of_a_batch);
    TEST_RUN(changes_come_in_the_order_of_receipts_and_none_is_skipped);
    TEST_RUN(a_conflict_is_kept_shown_and_settled_by_a_third_version);
    TEST_RUN(a_correction_takes_another_one_off_the_list_of_its_site);
    TEST_RUN(a_plan_that_moves_to_another_site_leaves_the_first_and_is_in_conflict_at_both);
    TEST_RUN(a_version_put_onto_what_stands_is_refused_when_that_has_moved_on);
    TEST_RUN(nothing_comes_from_itself);
    TEST_RUN(a_correction_takes_the_place_of_a_fact);
    TEST_RUN(the_order_of_arrival_changes_nothing);
    TEST_RUN(lists_go_by_name_page_by_page);
    TEST_RUN(a_search_finds_sites_by_beginnings_of_words);
    TEST_RUN(a_site_is_meant_by_name_by_id_or_by_words);
    TEST_RUN(planned_sites_are_told_with_their_last_service);
    TEST_RUN(what_was_worked_out_is_kept_and_callbacks_are_told);
    TEST_RUN(people_have_one_password);
    TEST_RUN(a_photo_comes_in_parts_and_is_whole_once_its_hash_is_right);
    TEST_RUN(bytes_of_every_value_come_back);
    TEST_RUN(a_log_goes_with_the_survey_that_names_it);
    TEST_RUN(another_handle_sees_what_was_acknowledged);
    TEST_RUN(an_allocation_that_fails_changes_nothing);
    TEST_RUN(a_mark_names_the_store_and_all_that_came_before);
    TEST_RUN(every_statement_was_run);
    return TEST_END();
}
