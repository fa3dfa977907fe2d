/* Tests of marks (docs/theory/records.md 3): part of test_store.c, which runs them on the same database. */
#ifndef QUELL_TESTS_STORE_MARKS_H
#define QUELL_TESTS_STORE_MARKS_H

#include "base/count.h"
#include "store/counted_store.h"

static const char *mark_of(store_scene *scene, long long receipt)
{
    static char mark[QLL_STORE_MARK_SIZE];
    CHECK(qll_store_mark(scene->store, receipt, mark, &scene->why) == QLL_OK);
    return mark;
}

static void run_script(store_scene *scene, const char *text)
{
    CHECK(scene->store->database->kind->script(scene->store->database,
                                               (qll_text){text, strlen(text)}, &scene->why)
          == QLL_OK);
}

static bool knows(store_scene *scene, const char *mark)
{
    bool is_known = false;
    CHECK(qll_store_knows_mark(scene->store, mark, &is_known, &scene->why) == QLL_OK);
    return is_known;
}

/* SHA-256 by coreutils: printf '%s' "0.NAME ID" | sha256sum, and so on from "1." and its first 32 digits. */
TEST(a_mark_names_the_store_and_all_that_came_before)
{
    static const char first[] = "1.b07e993e3368a0c68cfbacdc51e31952";
    static const char second[] = "2.d72f1999da244b35a90229f5f9d39930";
    static const char third[] = "3.911b22cc6be004af9977afc5759f851b";
    static const char name[] = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    store_scene scene;
    begin(&scene);
    CHECK(strlen(mark_of(&scene, 0)) == QLL_RECORD_ID_SIZE + 2 && mark_of(&scene, 0)[16] == '4');
    CHECK(knows(&scene, mark_of(&scene, 0)));
    CHECK_TEXT(mark_of(&scene, 1), "");
    /* With a name that is known. */
    run_script(&scene,
               "UPDATE marks SET mark = '0.00000000-0000-4000-8000-000000000000' WHERE number = 0");
    (void)scene_put(&scene, scene_record(scene.arena, 1, QLL_RECORD_VISIT, 9));
    qll_store_held held;
    const qll_store_part part = {.sha256 = name, .size = 3, .bytes = {"abc", 3}};
    char mark[QLL_STORE_MARK_SIZE];
    CHECK(qll_store_mark_of_attachment(scene.store, name, mark, &scene.why) == QLL_OK);
    CHECK_TEXT(mark, "");
    CHECK(qll_store_put_part(scene.store, &part, &held, &scene.why) == QLL_OK && held.is_whole);
    CHECK(qll_store_put_part(scene.store, &part, &held, &scene.why) == QLL_OK);
    (void)scene_put(&scene, scene_record(scene.arena, 2, QLL_RECORD_VISIT, 9));
    (void)scene_put(&scene, scene_record(scene.arena, 1, QLL_RECORD_VISIT, 9));
    CHECK_TEXT(mark_of(&scene, 1), first);
    CHECK_TEXT(mark_of(&scene, 2), third);
    CHECK(qll_store_mark_of_attachment(scene.store, name, mark, &scene.why) == QLL_OK);
    CHECK_TEXT(mark, second);
    CHECK(knows(&scene, first) && knows(&scene, second) && knows(&scene, third));
    static const char *const strangers[] = {"",
                                            ".",
                                            "1",
                                            "1.",
                                            "x",
                                            "-1.a",
                                            "2.00",
                                            "99999999999999999999.0",
                                            "4.911b22cc6be004af9977afc5759f851b",
                                            "2.b07e993e3368a0c68cfbacdc51e31952",
                                            "1 OR 1=1"};
    for (size_t i = 0; i < QLL_COUNT(strangers); i++) {
        CHECK(!knows(&scene, strangers[i]));
    }
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_OK);
    run_script(&scene, "UPDATE marks SET mark = '2.x' WHERE number = 2");
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_REFUSED);
    CHECK(scene.why.id == QLL_TEXT_STORE_MARK_WRONG);
    run_script(&scene, "DELETE FROM marks WHERE number > 1");
    CHECK(qll_store_check(scene.store, scene.arena, &scene.why) == QLL_REFUSED);
    /* As a store of an older version is marked: all under a name of its own. */
    run_script(&scene, "DELETE FROM marks");
    CHECK(qll_marks_begin(scene.store, &scene.why) == QLL_OK);
    CHECK(!knows(&scene, first) && knows(&scene, mark_of(&scene, 2)));
    end(&scene);
}

#endif
