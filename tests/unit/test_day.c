/* Days by Python's datetime (its proleptic Gregorian calendar), moments by its fromisoformat(). */
#include "check.h"
#include "records/day.h"

static void check_day(const char *text, int days)
{
    int day = -1;
    char written[QLL_DAY_SIZE];
    CHECK(qll_day_read(text, &day) && day == days);
    qll_day_write(days, written);
    CHECK_TEXT(written, text);
}

TEST(days_are_those_of_the_calendar)
{
    /* (date(...) - date(1970, 1, 1)).days */
    check_day("1970-01-01", 0);
    check_day("1999-12-31", 10956);
    check_day("2000-02-29", 11016);
    check_day("2026-11-30", 20787);
    check_day("2100-03-01", 47541);
    check_day("2199-12-31", 84005);
}

TEST(every_day_is_written_and_read_back)
{
    bool all = true;
    for (int day = 0; day <= 84005; day++) {
        char text[QLL_DAY_SIZE];
        int again = -1;
        qll_day_write(day, text);
        all = all && qll_day_read(text, &again) && again == day;
    }
    CHECK(all);
}

TEST(what_is_no_day_is_refused)
{
    static const char *const wrong[] = {"",           "2026-11-31", "2026-02-29", "2100-02-29",
                                        "2026-13-01", "2026-00-10", "2026-1-01",  "2026-11-1",
                                        "1969-12-31", "2200-01-01", "2026/11/30", "2026-11-30 ",
                                        "2026-11-3O", "-2026-11-30"};
    int day = 7;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        if (!CHECK(!qll_day_read(wrong[i], &day))) {
            printf("    %s\n", wrong[i]);
        }
    }
    CHECK(day == 7);
}

static void check_months(const char *from, int months, const char *to)
{
    int day = 0;
    char text[QLL_DAY_SIZE];
    CHECK(qll_day_read(from, &day));
    qll_day_write(qll_day_after_months(day, months), text);
    CHECK_TEXT(text, to);
}

TEST(months_later_is_the_same_day_or_the_last_of_the_month)
{
    check_months("2026-11-30", 12, "2027-11-30");
    check_months("2026-11-30", 3, "2027-02-28");
    check_months("2023-11-30", 3, "2024-02-29");
    check_months("2024-02-29", 12, "2025-02-28");
    check_months("2026-12-31", 1, "2027-01-31");
    check_months("2026-12-31", 2, "2027-02-28");
    check_months("2026-08-31", 120, "2036-08-31");
}

static void check_moment(const char *text, long long ms)
{
    long long found = -1;
    int day = 0;
    if (!CHECK(qll_moment_read(text, &found, &day) && found == ms)) {
        printf("    %s: %lld\n", text, found);
    }
}

TEST(moments_are_counted_from_1970_in_utc)
{
    check_moment("1970-01-01T00:00:00Z", 0);
    check_moment("2026-11-20T21:40:00-07:00", 1795236000000);
    check_moment("2026-11-21T04:40:00Z", 1795236000000);
    check_moment("2026-11-21T10:25:00.25+05:45", 1795236000250);
    check_moment("2026-11-21T04:40:00.0005Z", 1795236000000);
    long long ms = 0;
    int day = 0;
    char text[QLL_DAY_SIZE];
    CHECK(qll_moment_read("2026-11-20T21:40:00-07:00", &ms, &day));
    qll_day_write(day, text);
    CHECK_TEXT(text, "2026-11-20"); /* the day that it was there */
}

TEST(what_is_no_moment_is_refused)
{
    static const char *const wrong[] = {
        "2026-11-20",           "2026-11-20T21:40:00",       "2026-11-20 21:40:00Z",
        "2026-11-20T24:00:00Z", "2026-11-20T21:60:00Z",      "2026-11-20T21:40:60Z",
        "2026-11-20T21:40Z",    "2026-11-20T21:40:00.Z",     "2026-11-20T21:40:00-0700",
        "2026-11-20T21:40:00z", "2026-11-20T21:40:00-24:00", "2026-11-20T21:40:00Z "};
    long long ms = 0;
    int day = 0;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        if (!CHECK(!qll_moment_read(wrong[i], &ms, &day))) {
            printf("    %s\n", wrong[i]);
        }
    }
}

int main(void)
{
    TEST_RUN(days_are_those_of_the_calendar);
    TEST_RUN(every_day_is_written_and_read_back);
    TEST_RUN(what_is_no_day_is_refused);
    TEST_RUN(months_later_is_the_same_day_or_the_last_of_the_month);
    TEST_RUN(moments_are_counted_from_1970_in_utc);
    TEST_RUN(what_is_no_moment_is_refused);
    return TEST_END();
}
