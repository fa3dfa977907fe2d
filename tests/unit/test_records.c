/* Records in and out, and what is told of them: docs/formats/record.md. */
#include "quell/records.h"

#include "base/document.h"
#include "base/text.h"
#include "check.h"

#include <math.h>
#include <stdlib.h>

static const char site_id[] = "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90";

static qll_status read_with(qll_arena *arena, const char *json, qll_record *record,
                            qll_answer *answer)
{
    const qll_input input = {"record.json", json, strlen(json)};
    return qll_record_read(NULL, &input, "en", arena, record, answer);
}

/* A record of @p kind with that body; members between. */
static const char *record_json(qll_arena *arena, const char *kind, const char *members,
                               const char *body)
{
    qll_writer text = qll_writer_new(arena);
    qll_write_format(&text,
                     "{\"record\": 1, \"id\": \"11111111-2222-4333-8444-555555555555\", \"kind\": "
                     "\"%s\", \"site\": \"%s\", %s \"who\": \"ana\", \"at\": "
                     "\"2026-11-20T21:40:00-07:00\", \"body\": %s}",
                     kind, site_id, members, body);
    return qll_writer_text(&text).bytes;
}

static void check_refused(const char *json, const char *path, const char *said)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_record record;
    qll_answer answer;
    if (CHECK(read_with(arena, json, &record, &answer) == QLL_REFUSED)) {
        CHECK_TEXT(answer.problems[0].place.path, path);
        if (!CHECK(strstr(answer.problems[0].text, said) != NULL)) {
            printf("    %s\n", answer.problems[0].text);
        }
    }
    qll_arena_close(arena);
}

TEST(a_site_is_read_and_written_as_it_was)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_record record;
    qll_answer answer;
    const char *members = "\"document\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90\", \"parents\": "
                          "[\"aaaaaaaa-2222-4333-8444-555555555555\"],";
    const char *json = record_json(arena, "site", members,
                                   "{ \"name\" : \"Cedar \\\"Court\\\" { [\", \"address\": "
                                   "\"12 Mill Lane\" }");
    CHECK(read_with(arena, json, &record, &answer) == QLL_OK);
    CHECK_TEXT(record.title, "Cedar \"Court\" { [");
    CHECK_TEXT(record.words, "Cedar \"Court\" { [ 12 Mill Lane");
    CHECK(record.written_ms == 1795236000000);
    CHECK(record.parent_count == 1 && record.corrects == NULL && record.day == NULL);
    CHECK(qll_text_is(record.body, "{\"name\":\"Cedar \\\"Court\\\" { [\",\"address\":\"12 Mill "
                                   "Lane\"}"));
    qll_text written = {0};
    CHECK(qll_record_write(&record, arena, &written) == QLL_OK);
    qll_record again;
    CHECK(read_with(arena, written.bytes, &again, &answer) == QLL_OK);
    qll_text twice = {0};
    CHECK(qll_record_write(&again, arena, &twice) == QLL_OK);
    CHECK_TEXT(twice.bytes, written.bytes);
    qll_arena_close(arena);
}

TEST(a_visit_tells_its_purpose_and_its_day)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_record record;
    qll_answer answer;
    CHECK(read_with(arena, record_json(arena, "visit", "", "{\"purpose\": \"callback\"}"), &record,
                    &answer)
          == QLL_OK);
    CHECK_TEXT(record.title, "callback");
    CHECK_TEXT(record.day, "2026-11-20"); /* there, not in UTC */
    CHECK(read_with(arena,
                    record_json(arena, "visit", "",
                                "{\"purpose\": \"service\", \"day\": \"2024-02-29\", \"case\": "
                                "{\"case\": 1, \"readings\": [{\"gauge\": \"outlet\", "
                                "\"pressure\": \"61 psi\", \"flow\": \"0 gpm\"}]}}"),
                    &record, &answer)
          == QLL_OK);
    CHECK_TEXT(record.day, "2024-02-29");
    qll_arena_close(arena);
}

TEST(a_plan_begins_so_many_months_after_it_was_written)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_record record;
    qll_answer answer;
    const char *members = "\"document\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b91\",";
    CHECK(read_with(arena, record_json(arena, "plan", members, "{\"every_months\": 3}"), &record,
                    &answer)
          == QLL_OK);
    CHECK(record.every_months == 3);
    CHECK_TEXT(record.day, "2027-02-20");
    qll_arena_close(arena);
}

/* Of 3 bytes, "abc" (FIPS 180-2, B.1). */
static const char *log_body(qll_arena *arena, const char *survey, long size)
{
    qll_writer text = qll_writer_new(arena);
    qll_write_format(&text,
                     "{\"survey\": \"%s\", \"name\": \"log.csv\", \"sha256\": "
                     "\"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad\", "
                     "\"size\": %ld, \"type\": \"text/csv\"}",
                     survey, size);
    return qll_writer_text(&text).bytes;
}

TEST(a_log_belongs_to_the_survey_that_names_it)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_record record;
    qll_answer answer;
    const char *json = record_json(arena, "log", "", log_body(arena, site_id, 3));
    CHECK(read_with(arena, json, &record, &answer) == QLL_OK);
    CHECK(record.kind == QLL_RECORD_LOG && qll_record_is_fact(record.kind));
    CHECK_TEXT(record.title, "log.csv");
    qll_text written = {0};
    CHECK(qll_record_write(&record, arena, &written) == QLL_OK);
    qll_record again;
    CHECK(read_with(arena, written.bytes, &again, &answer) == QLL_OK);
    CHECK(qll_text_equal(again.body, record.body));
    qll_arena_close(arena);
}

TEST(what_cannot_be_meant_is_refused_at_its_place)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    const char *plan = "\"document\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b91\",";
    check_refused(record_json(arena, "visit",
                              "\"document\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b91\",",
                              "{\"purpose\": \"service\"}"),
                  "document", "is a fact");
    check_refused(record_json(arena, "plan", "", "{\"every_months\": 3}"), "document", "needs");
    check_refused(record_json(arena, "plan",
                              "\"document\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b91\", "
                              "\"corrects\": \"0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b92\",",
                              "{\"every_months\": 3}"),
                  "corrects", "corrects nothing");
    check_refused(record_json(arena, "plan", plan, "{\"every_months\": 0}"), "body.every_months",
                  "");
    check_refused(
        record_json(arena, "plan", plan, "{\"every_months\": 6, \"first\": \"2026-02-30\"}"),
        "body.first", "no day");
    check_refused(record_json(arena, "site", plan, "{\"name\": \"x\"}"), "document", "same id");
    check_refused(
        record_json(arena, "visit", "\"corrects\": \"0B8C9F3E\",", "{\"purpose\": \"service\"}"),
        "corrects", "no UUID");
    check_refused(record_json(arena, "visit", "", "{\"purpose\": \"lunch\"}"), "body.purpose", "");
    check_refused(record_json(arena, "visit", "",
                              "{\"purpose\": \"service\", \"case\": {\"case\": 1, "
                              "\"readings\": [{\"gauge\": \"outlet\", "
                              "\"pressure\": \"61\"}]}}"),
                  "body.case.readings[0].pressure", "");
    check_refused(record_json(arena, "photo", "",
                              "{\"sha256\": \"BA78\", \"size\": 3, \"type\": \"image/jpeg\"}"),
                  "body.sha256", "SHA-256");
    check_refused(record_json(arena, "log", "", log_body(arena, "2", 3)), "body.survey", "no UUID");
    check_refused(record_json(arena, "log", plan, log_body(arena, site_id, 3)), "document",
                  "is a fact");
    check_refused(record_json(arena, "log", "", log_body(arena, site_id, 67108865)), "body.size",
                  "");
    check_refused(record_json(arena, "log", "", "{\"name\": \"log.csv\"}"), "body.survey", "");
    check_refused(record_json(arena, "visit", "", "[]"), "body", "");
    check_refused(record_json(arena, "picnic", "", "{}"), "kind", "");
    qll_arena_close(arena);
}

/* ---- what is told ---- */

static const qll_site_row rows[] = {
    {.site = "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90",
     .name =
         "Cedar; Court, \\ \xc3\x81vila, a name that is long enough to be folded over two lines of a calendar",
     .name_key = "cedar",
     .plan_day = "2026-01-01",
     .every_months = 12,
     .service_day = "2025-11-30"},
    {.site = "1b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90",
     .name = "Oak",
     .name_key = "oak",
     .plan_day = "2026-11-29",
     .every_months = 6},
    {.site = "2b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90", .name = "Birch", .name_key = "birch"},
    {.site = "3b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90",
     .name = "Elm",
     .name_key = "elm",
     .plan_day = "2026-12-31",
     .every_months = 6},
};

static const char *tell_due(qll_arena *arena, const char *today)
{
    const qll_telling telling = {.form = QLL_FORM_JSON, .today = today};
    qll_answer answer;
    CHECK(qll_tell_due(&telling, rows, 4, arena, &answer) == QLL_OK);
    return answer.bytes;
}

static void check_due(const char *json, qll_arena *arena, size_t at, const char *name,
                      const char *due, const char *state)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    CHECK(qll_document_read(qll_text_of(json), "", arena, &document, &problems) == QLL_OK);
    const qll_node *site = qll_node_find(document.root, "sites")->first_child;
    for (size_t i = 0; i < at && site != NULL; i++) {
        site = site->next;
    }
    if (CHECK(site != NULL)) {
        CHECK(strncmp(qll_node_find(site, "name")->text.bytes, name, strlen(name)) == 0);
        CHECK(qll_text_is(qll_node_find(site, "due")->text, due));
        CHECK(qll_text_is(qll_node_find(site, "state")->text, state));
    }
}

TEST(due_days_follow_the_last_service_or_the_plan)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    const char *json = tell_due(arena, "2026-11-30");
    check_due(json, arena, 0, "Oak", "2026-11-29", "overdue");
    check_due(json, arena, 1, "Cedar", "2026-11-30", "soon");
    check_due(json, arena, 2, "Elm", "2026-12-31", "later");
    check_due(tell_due(arena, "2026-12-01"), arena, 2, "Elm", "2026-12-31", "soon");
    qll_arena_close(arena);
}

/* RFC 5545: lines end in CRLF and have 75 octets at most (3.1), no character is cut, texts are escaped (3.3.11). */
TEST(a_calendar_is_one_by_the_book)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    const qll_telling telling = {.form = QLL_FORM_TEXT, .today = "2026-11-30"};
    qll_answer answer;
    CHECK(qll_tell_calendar(&telling, rows, 4, "20261130T120000Z", arena, &answer) == QLL_OK);
    size_t events = 0;
    const char *line = answer.bytes;
    qll_writer unfolded = qll_writer_new(arena);
    while (line[0] != '\0') {
        const char *end = strstr(line, "\r\n");
        if (!CHECK(end != NULL)) {
            break;
        }
        CHECK((size_t)(end - line) <= 75);
        CHECK(memchr(line, '\n', (size_t)(end - line)) == NULL);
        CHECK((line[0] & '\xc0') != '\x80' && (line[1] & '\xc0') != '\x80');
        events += strncmp(line, "BEGIN:VEVENT", 12) == 0 ? 1 : 0;
        qll_write(&unfolded, line[0] == ' ' ? "" : "\n");
        qll_write_text(&unfolded, (qll_text){line + (line[0] == ' ' ? 1 : 0),
                                             (size_t)(end - line) - (line[0] == ' ' ? 1 : 0)});
        line = end + 2;
    }
    CHECK(events == 3);
    const char *all = qll_writer_text(&unfolded).bytes;
    CHECK(strstr(all,
                 "\nSUMMARY:Service: Cedar\\; Court\\, \\\\ \xc3\x81vila\\, a name that is long "
                 "enough to be folded over two lines of a calendar\n")
          != NULL);
    CHECK(strstr(all, "\nDTSTART;VALUE=DATE:20261130\nDTEND;VALUE=DATE:20261201\n") != NULL);
    CHECK(strstr(all, "\nDTSTAMP:20261130T120000Z\n") != NULL);
    CHECK(strncmp(answer.bytes, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:", 37) == 0);
    qll_arena_close(arena);
}

/* A visit of that day with two readings of the outlet, psi, and with what was left. */
static qll_record visit_of(qll_arena *arena, unsigned number, const char *day, double set_psi,
                           double left_psi)
{
    qll_writer body = qll_writer_new(arena);
    qll_write_format(&body,
                     "{\"purpose\":\"service\",\"day\":\"%s\",\"case\":{\"case\":1,\"readings\":[{"
                     "\"gauge\":\"outlet\",\"pressure\":\"%.2f psi\",\"flow\":\"5 gpm\"},"
                     "{\"gauge\":\"outlet\",\"pressure\":\"%.2f psi\",\"flow\":\"5 gpm\",\"as\":"
                     "\"left\"}]}}",
                     day, set_psi, left_psi);
    qll_writer id = qll_writer_new(arena);
    qll_write_format(&id, "11111111-2222-4333-8444-55555555555%d", (int)number);
    return (qll_record){.id = qll_writer_text(&id).bytes,
                        .kind = QLL_RECORD_VISIT,
                        .site = site_id,
                        .who = "ana",
                        .written_at = "2026-11-20T21:40:00-07:00",
                        .body = qll_writer_text(&body)};
}

static const qll_node *trend_of(qll_arena *arena, const qll_record *records, size_t count)
{
    const qll_telling telling = {.form = QLL_FORM_JSON, .today = "2026-11-30"};
    qll_answer answer;
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_tell_trend(&telling, &rows[0], records, count, arena, &answer) == QLL_OK);
    CHECK(qll_document_read((qll_text){answer.bytes, answer.size}, "", arena, &document, &problems)
          == QLL_OK);
    return qll_node_find(document.root, "trends")->first_child;
}

/* It creeps up by 1 psi a year, and is set back to 60 each time: what a hand turned is no drift. */
TEST(a_trend_leaves_out_what_a_hand_turned)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    static const char *const days[] = {"2019-11-30", "2020-11-30", "2021-11-30", "2022-11-30",
                                       "2023-11-30", "2024-11-30", "2025-11-30"};
    qll_record records[7];
    for (unsigned i = 0; i < 7; i++) {
        records[i] = visit_of(arena, i, days[i], i == 0 ? 60.0 : 61.0, 60.0);
    }
    const qll_node *set = trend_of(arena, records, 7);
    const double psi_pa = 6894.757293168361;
    CHECK_NEAR(qll_node_find(set, "slope_pa_year")->number, psi_pa, 1e-3);
    CHECK_NEAR(qll_node_find(set, "level_pa")->number, 60.0 * psi_pa, 1e-3);
    CHECK(qll_node_find(set, "sure")->kind == QLL_NODE_TRUE);
    /* Never set back: the same slope, six psi higher, and past the limit of five. */
    for (unsigned i = 0; i < 7; i++) {
        records[i] = visit_of(arena, i, days[i], 60.0 + i, 60.0 + i);
    }
    set = trend_of(arena, records, 7);
    CHECK_NEAR(qll_node_find(set, "slope_pa_year")->number, psi_pa, 1e-3);
    CHECK_NEAR(qll_node_find(set, "level_pa")->number, 66.0 * psi_pa, 1e-3);
    CHECK(qll_text_is(qll_node_find(set, "service_day")->text, "2025-11-30"));
    qll_arena_close(arena);
}

/* The series of @p frame that is drawn as @p kind, the first of them. */
static const qll_node *series_of(const qll_node *frame, const char *kind)
{
    const qll_node *one = qll_node_find(frame, "series")->first_child;
    while (one != NULL && !qll_text_is(qll_node_find(one, "kind")->text, kind)) {
        one = one->next;
    }
    return one;
}

static double point_at(const qll_node *series, size_t at, bool is_y)
{
    const qll_node *point = qll_node_find(series, "points")->first_child;
    for (; at > 0 && point != NULL; at--) {
        point = point->next;
    }
    return point == NULL ? (double)NAN
           : is_y        ? point->first_child->next->number
                         : point->first_child->number;
}

/* Half a psi a year from 60 psi: 63 psi after six years, and off by 5 psi four years later. */
TEST(a_trend_is_drawn_as_it_is_told)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    static const char *const days[] = {"2019-11-30", "2020-11-30", "2021-11-30", "2022-11-30",
                                       "2023-11-30", "2024-11-30", "2025-11-30"};
    static const double day_numbers[] = {18230, 18596, 18961, 19326, 19691, 20057, 20422};
    const double psi_pa = 6894.757293168361;
    qll_record records[7];
    for (unsigned i = 0; i < 7; i++) {
        records[i] = visit_of(arena, i, days[i], 60.0 + i / 2.0, 60.0 + i / 2.0);
    }
    const qll_telling telling = {
        .form = QLL_FORM_JSON, .units = "si", .today = "2026-11-30", .has_sheets = true};
    qll_answer answer;
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_tell_trend(&telling, &rows[0], records, 7, arena, &answer) == QLL_OK);
    CHECK(qll_document_read((qll_text){answer.bytes, answer.size}, "", arena, &document, &problems)
          == QLL_OK);
    const qll_node *figures = qll_node_find(document.root, "figures");
    CHECK(figures->child_count == 1); /* lock-up and strainer loss were never read */
    const qll_node *frame = qll_node_find(figures->first_child, "frame");
    CHECK(qll_node_find(qll_node_find(frame, "x"), "day")->kind == QLL_NODE_TRUE);
    CHECK(qll_node_find(qll_node_find(frame, "y"), "day") == NULL);
    const qll_node *marks = series_of(frame, "marks");
    for (size_t i = 0; i < 7; i++) {
        CHECK_NEAR(point_at(marks, i, false), day_numbers[i], 1e-9);
        CHECK_NEAR(point_at(marks, i, true), (60.0 + (double)i / 2.0) * psi_pa, 1e-3);
    }
    const qll_node *line = series_of(frame, "line");
    const double years = (point_at(line, 1, false) - point_at(line, 0, false)) / 365.25;
    CHECK_NEAR(point_at(line, 0, false), 18230, 1e-9);
    CHECK_NEAR(point_at(line, 0, true), 60.0 * psi_pa, 0.01 * psi_pa);
    CHECK_NEAR((point_at(line, 1, true) - point_at(line, 0, true)) / years, 0.5 * psi_pa,
               0.002 * psi_pa);
    CHECK_NEAR(point_at(series_of(frame, "upright"), 0, false), 21883, 4); /* 2029-11-30 */
    const char *html = qll_text_closed(qll_node_find(document.root, "html")->text, arena);
    CHECK(strstr(html, "id=\"trend-set-point-svg\"") != NULL);
    CHECK(strstr(html, "2029-1") != NULL && strstr(html, ">2024<") != NULL);
    qll_telling page = telling;
    page.form = QLL_FORM_HTML;
    CHECK(qll_tell_trend(&page, &rows[0], records, 7, arena, &answer) == QLL_OK);
    CHECK_TEXT(answer.bytes, html);
    qll_arena_close(arena);
}

TEST(readings_are_rows_by_the_book)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    const qll_record record = visit_of(arena, 1, "2026-11-20", 61.0, 60.0);
    qll_answer answer;
    CHECK(qll_tell_readings(&rows[0], &record, 1, true, arena, &answer) == QLL_OK);
    CHECK(strncmp(answer.bytes, "site,name,record,day,who,gauge,as,pressure_pa_gauge,flow_m3s\r\n",
                  62)
          == 0);
    CHECK(strstr(answer.bytes, ",\"Cedar; Court, \\ ") != NULL);
    CHECK(strstr(answer.bytes, ",2026-11-20,ana,outlet,left,413685.4375901017,0.000315450982\r\n")
          != NULL);
    qll_arena_close(arena);
}

/* ---- an export, in crumbs ---- */

typedef struct split_found {
    size_t records, attachments;
    char all[512];
} split_found;

static qll_status take_split(void *context, qll_text json, qll_split_of of)
{
    split_found *found = context;
    found->records += of == QLL_SPLIT_RECORD ? 1 : 0;
    found->attachments += of == QLL_SPLIT_ATTACHMENT ? 1 : 0;
    strncat(found->all, json.bytes, json.size);
    return QLL_OK;
}

TEST(an_export_is_read_in_crumbs_of_any_size)
{
    const char *text =
        "{\"records\": 1, \"list\": [ {\"a\": \"}]{[\\\"\", \"b\": [1, {}]} , {\"c\": 2} ],"
        " \"attachments\": [{\"d\": []}] }";
    for (size_t crumb = 1; crumb < 30; crumb += 3) {
        qll_arena *arena = qll_arena_open((size_t)1 << 20);
        split_found found = {0};
        qll_record_split *split = qll_record_split_begin(take_split, &found, arena);
        qll_status status = QLL_OK;
        for (size_t at = 0; at < strlen(text) && status == QLL_OK; at += crumb) {
            const size_t left = strlen(text) - at;
            status = qll_record_split_take(split, text + at, left < crumb ? left : crumb);
        }
        CHECK(status == QLL_OK && qll_record_split_is_whole(split));
        CHECK(found.records == 2 && found.attachments == 1);
        CHECK_TEXT(found.all, "{\"a\": \"}]{[\\\"\", \"b\": [1, {}]}{\"c\": 2}{\"d\": []}");
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(a_site_is_read_and_written_as_it_was);
    TEST_RUN(a_visit_tells_its_purpose_and_its_day);
    TEST_RUN(a_plan_begins_so_many_months_after_it_was_written);
    TEST_RUN(a_log_belongs_to_the_survey_that_names_it);
    TEST_RUN(what_cannot_be_meant_is_refused_at_its_place);
    TEST_RUN(due_days_follow_the_last_service_or_the_plan);
    TEST_RUN(a_calendar_is_one_by_the_book);
    TEST_RUN(a_trend_leaves_out_what_a_hand_turned);
    TEST_RUN(a_trend_is_drawn_as_it_is_told);
    TEST_RUN(readings_are_rows_by_the_book);
    TEST_RUN(an_export_is_read_in_crumbs_of_any_size);
    return TEST_END();
}
