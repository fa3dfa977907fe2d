/* Tests of lists, searches, people and attachments: part of test_store.c, which runs them on the same database. */
#ifndef QUELL_TESTS_STORE_LISTS_H
#define QUELL_TESTS_STORE_LISTS_H

#include "base/count.h"
#include "store/counted_store.h"

TEST(lists_go_by_name_page_by_page)
{
    store_scene scene;
    begin(&scene);
    for (unsigned i = 0; i < 57; i++) {
        char name[40];
        (void)snprintf(name, sizeof name, "%s %02u", i % 2 == 0 ? "oak" : "Oak", (i * 31) % 29);
        const char *kept = qll_arena_copy(scene.arena, name, strlen(name));
        (void)scene_put(&scene, scene_site(scene.arena, 1000 + i, 100 + i, kept));
    }
    unsigned seen = 0;
    qll_store_sites page = {0};
    qll_site_row last = {0};
    do {
        CHECK(qll_store_list(scene.store, seen == 0 ? NULL : &last, 10, scene.arena, &page,
                             &scene.why)
              == QLL_OK);
        for (size_t i = 0; i < page.count; i++) {
            const int order =
                last.name_key == NULL ? -1 : strcmp(last.name_key, page.list[i].name_key);
            CHECK(order < 0 || (order == 0 && strcmp(last.site, page.list[i].site) < 0));
            last = page.list[i];
            seen += 1;
        }
    } while (page.count == 10);
    CHECK(seen == 57);
    end(&scene);
}

static size_t find(store_scene *scene, const char *words)
{
    qll_store_sites sites = {0};
    CHECK(qll_store_search(scene->store, words, 100, scene->arena, &sites, &scene->why) == QLL_OK);
    return sites.count;
}

TEST(a_search_finds_sites_by_beginnings_of_words)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar Court, 12 Mill Lane"));
    (void)scene_put(&scene, scene_site(scene.arena, 11, 2, "Cedar House, 7 Oak Street"));
    CHECK(find(&scene, "cedar") == 2);
    CHECK(find(&scene, "ced mil") == 1);
    CHECK(find(&scene, "MILL 12") == 1);
    CHECK(find(&scene, "edar") == 0);
    CHECK(find(&scene, "") == 0 && find(&scene, " \"*'()&|!:;--") == 0);
    CHECK(find(&scene, "\"cedar\" OR NOT 'oak' -- ")
          == 0); /* words like others: no site has "or" */
    CHECK(find(&scene, "cedar' & 'oak") == 1);
    /* A new version is found by its new name, and by the old one no more. */
    qll_record renamed = scene_version(scene.arena, 12, QLL_RECORD_SITE, 1, 10);
    renamed.title = "Birch Court";
    renamed.words = renamed.title;
    (void)scene_put(&scene, renamed);
    CHECK(find(&scene, "birch") == 1 && find(&scene, "mill") == 0);
    end(&scene);
}

static size_t called(store_scene *scene, const char *text)
{
    qll_store_sites sites = {0};
    CHECK(qll_store_called(scene->store, text, scene->arena, &sites, &scene->why) == QLL_OK);
    return sites.count;
}

TEST(a_site_is_meant_by_name_by_id_or_by_words)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar Court"));
    (void)scene_put(&scene, scene_site(scene.arena, 11, 2, "Cedar House"));
    CHECK(called(&scene, "CEDAR court") == 1);
    CHECK(called(&scene, "00000000-0000-4000-8000-000000000002") == 1);
    CHECK(called(&scene, "0000") == 2 && called(&scene, "000") == 0);
    CHECK(called(&scene, "house") == 1 && called(&scene, "cedar") == 2);
    CHECK(called(&scene, "birch") == 0);
    end(&scene);
}

TEST(planned_sites_are_told_with_their_last_service)
{
    store_scene scene;
    begin(&scene);
    (void)scene_put(&scene, scene_site(scene.arena, 10, 1, "Cedar"));
    (void)scene_put(&scene, scene_site(scene.arena, 11, 5, "Oak"));
    qll_record plan = scene_version(scene.arena, 20, QLL_RECORD_PLAN, 2, 0);
    plan.every_months = 6;
    plan.day = "2026-02-28";
    (void)scene_put(&scene, plan);
    qll_store_sites sites = {0};
    CHECK(qll_store_planned(scene.store, scene.arena, &sites, &scene.why) == QLL_OK);
    if (CHECK(sites.count == 1)) {
        CHECK_TEXT(sites.list[0].name, "Cedar");
        CHECK_TEXT(sites.list[0].plan_day, "2026-02-28");
        CHECK(sites.list[0].every_months == 6 && sites.list[0].service_day == NULL);
    }
    end(&scene);
}

TEST(what_was_worked_out_is_kept_and_callbacks_are_told)
{
    store_scene scene;
    begin(&scene);
    const qll_kept_answer answers[] = {{"b", "2", "2026-01-02", "later"},
                                       {"b", "1", "2026-01-01", "first"},
                                       {"b", "1", "2026-05-01", "again"},
                                       {"a", "1", "2026-01-03", "other"}};
    CHECK(qll_store_keep(scene.store, answers, QLL_COUNT(answers), &scene.why) == QLL_OK);
    qll_kept_answers kept = {0};
    CHECK(qll_store_kept(scene.store, scene.arena, &kept, &scene.why) == QLL_OK);
    if (CHECK(kept.count == 3)) {
        CHECK_TEXT(kept.list[0].site, "a");
        CHECK_TEXT(kept.list[1].answer, "first");
        CHECK_TEXT(kept.list[1].day, "2026-01-01");
        CHECK_TEXT(kept.list[2].digest, "2");
    }
    qll_record back = scene_record(scene.arena, 10, QLL_RECORD_VISIT, 1);
    back.title = "callback";
    back.day = "2026-03-01";
    (void)scene_put(&scene, back);
    qll_record service = scene_record(scene.arena, 11, QLL_RECORD_VISIT, 1);
    service.title = "service";
    service.day = "2026-02-01";
    (void)scene_put(&scene, service);
    qll_store_callbacks called_back = {0};
    CHECK(qll_store_called_back(scene.store, scene.arena, &called_back, &scene.why) == QLL_OK);
    CHECK(called_back.count == 1);
    CHECK_TEXT(called_back.list[0].day, "2026-03-01");
    /* It moves no due date. */
    qll_store_sites sites = {0};
    CHECK(qll_store_list(scene.store, NULL, 10, scene.arena, &sites, &scene.why) == QLL_OK);
    CHECK_TEXT(sites.list[0].service_day, "2026-02-01");
    qll_records standing = {0};
    (void)scene_put(&scene, scene_version(scene.arena, 20, QLL_RECORD_SURVEY, 30, 0));
    (void)scene_put(&scene, scene_version(scene.arena, 21, QLL_RECORD_SURVEY, 30, 20));
    CHECK(qll_store_surveys(scene.store, 1, 10, scene.arena, &standing, &scene.why) == QLL_OK);
    CHECK(standing.count == 1);
    CHECK_TEXT(standing.list[0].id, scene_id(scene.arena, 21));
    end(&scene);
}

TEST(people_have_one_password)
{
    store_scene scene;
    begin(&scene);
    const char *password = NULL;
    CHECK(qll_store_person(scene.store, "ana", scene.arena, &password, &scene.why) == QLL_OK);
    CHECK(password == NULL);
    CHECK(qll_store_put_person(scene.store, "ben", "two", &scene.why) == QLL_OK);
    CHECK(qll_store_put_person(scene.store, "ana", "one", &scene.why) == QLL_OK);
    CHECK(qll_store_put_person(scene.store, "ana", "three", &scene.why) == QLL_OK);
    CHECK(qll_store_person(scene.store, "ana", scene.arena, &password, &scene.why) == QLL_OK);
    CHECK_TEXT(password, "three");
    const char *const *names = NULL;
    size_t count = 0;
    CHECK(qll_store_people(scene.store, scene.arena, &names, &count, &scene.why) == QLL_OK);
    if (CHECK(count == 2)) {
        CHECK_TEXT(names[0], "ana");
        CHECK_TEXT(names[1], "ben");
    }
    end(&scene);
}

/* sha256sum of "abc" (FIPS 180-2, B.1). */
static const char abc[] = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

static qll_status put_part(store_scene *scene, const char *sha256, uint64_t begins,
                           const char *bytes, qll_store_held *held)
{
    const qll_store_part part = {sha256, 3, begins, qll_text_of(bytes)};
    return qll_store_put_part(scene->store, &part, held, &scene->why);
}

TEST(a_photo_comes_in_parts_and_is_whole_once_its_hash_is_right)
{
    store_scene scene;
    begin(&scene);
    qll_store_held held = {0};
    CHECK(qll_store_attachment(scene.store, abc, &held, &scene.why) == QLL_OK && held.size == 0);
    CHECK(put_part(&scene, abc, 0, "a", &held) == QLL_OK && held.held == 1 && !held.is_whole);
    /* Sent again, and with more behind it. */
    CHECK(put_part(&scene, abc, 0, "a", &held) == QLL_OK && held.held == 1);
    CHECK(put_part(&scene, abc, 0, "ab", &held) == QLL_OK && held.held == 2);
    CHECK(put_part(&scene, abc, 3, "", &held) == QLL_REFUSED
          && scene.why.id == QLL_TEXT_STORE_PART_GAP);
    CHECK(put_part(&scene, abc, 2, "cd", &held) == QLL_REFUSED
          && scene.why.id == QLL_TEXT_STORE_PART_SIZE);
    CHECK(put_part(&scene, "ABC", 0, "a", &held) == QLL_REFUSED
          && scene.why.id == QLL_TEXT_STORE_PART_NAME);
    qll_text bytes = {0};
    CHECK(qll_store_read_attachment(scene.store, abc, 0, scene.arena, &bytes, &scene.why)
          == QLL_OK);
    CHECK(bytes.size == 0); /* not before it is whole */
    CHECK(put_part(&scene, abc, 2, "x", &held) == QLL_REFUSED
          && scene.why.id == QLL_TEXT_STORE_PART_HASH);
    CHECK(held.held == 0);
    CHECK(put_part(&scene, abc, 0, "ab", &held) == QLL_OK && held.held == 2);
    CHECK(put_part(&scene, abc, 2, "c", &held) == QLL_OK && held.is_whole);
    CHECK(put_part(&scene, abc, 0, "abc", &held) == QLL_OK && held.is_whole && held.held == 3);
    qll_writer all = qll_writer_new(scene.arena);
    do {
        CHECK(qll_store_read_attachment(scene.store, abc, all.size, scene.arena, &bytes, &scene.why)
              == QLL_OK);
        qll_write_text(&all, bytes);
    } while (bytes.size > 0);
    CHECK(qll_text_is(qll_writer_text(&all), "abc"));
    qll_store_wholes wholes = {0};
    CHECK(qll_store_attachments(scene.store, scene.arena, &wholes, &scene.why) == QLL_OK);
    CHECK(wholes.count == 1 && wholes.list[0].size == 3);
    end(&scene);
}

TEST(bytes_of_every_value_come_back)
{
    store_scene scene;
    begin(&scene);
    char all[256];
    for (int i = 0; i < 256; i++) {
        all[i] = (char)i;
    }
    /* printf of bytes 0 to 255 through sha256sum. */
    const char *sha256 = "40aff2e9d2d8922e47afd4648e6967497158785fbd1da870e7110266bf944880";
    const qll_store_part part = {sha256, sizeof all, 0, {all, sizeof all}};
    qll_store_held held = {0};
    CHECK(qll_store_put_part(scene.store, &part, &held, &scene.why) == QLL_OK && held.is_whole);
    qll_text bytes = {0};
    CHECK(qll_store_read_attachment(scene.store, sha256, 0, scene.arena, &bytes, &scene.why)
          == QLL_OK);
    CHECK(bytes.size == sizeof all && memcmp(bytes.bytes, all, sizeof all) == 0);
    end(&scene);
}

TEST(another_handle_sees_what_was_acknowledged)
{
    store_scene scene;
    begin(&scene);
    qll_store *other = NULL;
    CHECK(qll_store_open(scene.place, QLL_STORE_READ, scene.arena, &other, &scene.why) == QLL_OK);
    (void)scene_put(&scene, scene_record(scene.arena, 1, QLL_RECORD_VISIT, 9));
    qll_records records = {0};
    CHECK(qll_store_changes(other, 0, 10, scene.arena, &records, &scene.why) == QLL_OK);
    CHECK(records.count == 1);
    qll_store_close(other);
    end(&scene);
}

#endif
