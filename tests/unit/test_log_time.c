/* Dates are checked against the C library's own calendar, stamps against ISO 8601 and RFC 3339. */
#include "check.h"
#include "signals/log_time.h"
#include "signals/log_zone.h"

#include <time.h>

static const int64_t day_ms = INT64_C(86400000);

/* 2017-06-28 18:30:58 UTC; from `date -u -d`. */
static const int64_t evening_ms = INT64_C(1498674658000);

static int64_t read_stamp(const char *text, qll_log_order order)
{
    qll_stamp stamp;
    if (!qll_stamp_read(qll_text_of(text), order, &stamp)) {
        return -1;
    }
    return stamp.local_ms - (int64_t)stamp.offset_s * 1000;
}

TEST(the_calendar_is_the_c_librarys)
{
    for (int64_t day = -100; day < 60000; day++) {
        time_t seconds = (time_t)(day * 86400);
        const struct tm *parts = gmtime(&seconds);
        int year = 0;
        int month = 0;
        int of_month = 0;
        qll_calendar_date(day, &year, &month, &of_month);
        CHECK(year == parts->tm_year + 1900 && month == parts->tm_mon + 1
              && of_month == parts->tm_mday);
        CHECK(qll_calendar_days(year, month, of_month) == day);
    }
}

/* From 1990 to 2099, as far as a date is one: each in every order. */
TEST(every_day_of_the_calendar_is_read)
{
    static const int64_t first = 7305; /* 1990-01-01 */
    static const int64_t last = 47481; /* 2099-12-31 */
    for (int64_t day = first - 1; day <= last + 1; day++) {
        time_t seconds = (time_t)(day * 86400);
        const struct tm *parts = gmtime(&seconds);
        char texts[3][32];
        (void)strftime(texts[0], sizeof texts[0], "%Y-%m-%d 06:00", parts);
        (void)strftime(texts[1], sizeof texts[1], "%d.%m.%Y 06:00", parts);
        (void)strftime(texts[2], sizeof texts[2], "%m/%d/%Y 06:00", parts);
        static const qll_log_order orders_of[] = {QLL_LOG_ORDER_YEAR_FIRST, QLL_LOG_ORDER_DAY_FIRST,
                                                  QLL_LOG_ORDER_MONTH_FIRST};
        for (size_t i = 0; i < 3; i++) {
            bool is_within = day >= first && day <= last;
            int64_t want = is_within ? day * day_ms + day_ms / 4 : -1;
            if (!CHECK(read_stamp(texts[i], orders_of[i]) == want)) {
                printf("    %s\n", texts[i]);
            }
        }
    }
}

TEST(stamps_of_every_form_are_read)
{
    CHECK(read_stamp("2017-06-28T18:30:58Z", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("2017-06-28 18:30:58", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("2017-06-28T12:30:58-06:00", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("2017-06-28T20:30:58.250+0200", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms + 250);
    CHECK(read_stamp("20170628T183058", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("20170628183058", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("17-6-28 18:30:58", QLL_LOG_ORDER_YEAR_FIRST) == evening_ms);
    CHECK(read_stamp("28/06/2017 18:30:58", QLL_LOG_ORDER_DAY_FIRST) == evening_ms);
    CHECK(read_stamp("28.06.2017 18:30:58", QLL_LOG_ORDER_DAY_FIRST) == evening_ms);
    CHECK(read_stamp("6/28/2017 6:30:58 PM", QLL_LOG_ORDER_MONTH_FIRST) == evening_ms);
    CHECK(read_stamp("6/28/17 6:30:58 p.m.", QLL_LOG_ORDER_MONTH_FIRST) == evening_ms);
    CHECK(read_stamp("2017-06-28 24:00", QLL_LOG_ORDER_YEAR_FIRST)
          == read_stamp("2017-06-29 00:00", QLL_LOG_ORDER_YEAR_FIRST));
    CHECK(read_stamp("2016-02-29", QLL_LOG_ORDER_YEAR_FIRST) % day_ms == 0);
    CHECK(read_stamp("6/28/2017 12:30 AM", QLL_LOG_ORDER_MONTH_FIRST) % day_ms == 1800000);
}

TEST(what_is_no_stamp_is_not_read)
{
    static const char *const texts[] = {"",
                                        "2017-06-31",
                                        "2017-13-01",
                                        "2015-02-29",
                                        "1970-01-01",
                                        "2100-01-01",
                                        "2017-06-28 24:01",
                                        "2017-06-28 12:60",
                                        "2017-06/28",
                                        "2017-06-28 12:30 XM",
                                        "2017-06-28 13:00 PM",
                                        "2017-06-28x",
                                        "2017062818",
                                        "2017-6",
                                        "2017-06-28T12:30+15",
                                        "12:30"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (!CHECK(read_stamp(texts[i], QLL_LOG_ORDER_YEAR_FIRST) == -1)) {
            printf("    \"%s\"\n", texts[i]);
        }
    }
}

static unsigned orders(const char *text)
{
    return qll_stamp_orders(qll_text_of(text));
}

TEST(a_date_tells_its_order_or_not)
{
    const unsigned year = 1U << QLL_LOG_ORDER_YEAR_FIRST;
    const unsigned day = 1U << QLL_LOG_ORDER_DAY_FIRST;
    const unsigned month = 1U << QLL_LOG_ORDER_MONTH_FIRST;
    CHECK(orders("2017-06-28") == year && orders("19-10-4 13:10:06") == year);
    CHECK(orders("01/03/2016") == (day | month) && orders("13/03/2016") == day);
    CHECK(orders("03/13/2016") == month && orders("01.03.2016") == day);
    CHECK(orders("10/11/12") == (year | day | month) && orders("10/11/45") == (day | month));
    CHECK(orders("13/13/2016") == 0 && orders("1498674658") == 0);
}

TEST(clocks_and_unix_time_are_read)
{
    int64_t ms = 0;
    CHECK(qll_stamp_clock(qll_text_of("0"), &ms) && ms == 0);
    CHECK(qll_stamp_clock(qll_text_of("15"), &ms) && ms == 900000);
    CHECK(qll_stamp_clock(qll_text_of("1345"), &ms) && ms == 49500000);
    CHECK(qll_stamp_clock(qll_text_of("2400"), &ms) && ms == day_ms);
    CHECK(qll_stamp_clock(qll_text_of("7:05:01.5"), &ms) && ms == 25501500);
    CHECK(!qll_stamp_clock(qll_text_of("2401"), &ms) && !qll_stamp_clock(qll_text_of("1360"), &ms));
    CHECK(qll_stamp_unix(qll_text_of("1498674658"), &ms) && ms == evening_ms);
    CHECK(qll_stamp_unix(qll_text_of("1498674658.25"), &ms) && ms == evening_ms + 250);
    CHECK(qll_stamp_unix(qll_text_of("1498674658000"), &ms) && ms == evening_ms);
    CHECK(!qll_stamp_unix(qll_text_of("123"), &ms) && !qll_stamp_unix(qll_text_of("0"), &ms));
    CHECK(!qll_stamp_unix(qll_text_of("1498674658x"), &ms));
}

/* The short way to a number gives the long way's double, bit for bit. */
TEST(plain_numbers_are_the_nearest_doubles)
{
    uint64_t state = 1;
    for (int i = 0; i < 200000; i++) {
        state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
        uint64_t digits = (state >> 8) % UINT64_C(1000000000000000);
        uint64_t whole = digits >> (state % 50);
        char text[64];
        snprintf(text, sizeof text, "%s%llu.%0*llu", (state & 64) != 0 ? "-" : "",
                 (unsigned long long)whole % 100000, (int)(state % 10) + 1,
                 (unsigned long long)(digits % 10));
        double fast = 0.0;
        double slow = 0.0;
        size_t size = qll_plain_number(qll_text_of(text), &fast);
        CHECK(size == strlen(text) && qll_text_number(qll_text_of(text), &slow) == size);
        CHECK(fast == slow);
    }
    double value = 0.0;
    CHECK(qll_plain_number(qll_text_of("1234567890123456"), &value) == 0);
    CHECK(qll_plain_number(qll_text_of("1e3"), &value) == 0);
    CHECK(qll_plain_number(qll_text_of("."), &value) == 0);
    CHECK(qll_plain_number(qll_text_of("5."), &value) == 1 && value == 5.0);
}

TEST(letters_of_a_zone_and_names_of_months)
{
    static const char *const texts[] = {"08-Jul-2024 10:05",  "8 July 2024 10:05",
                                        "Jul 8, 2024 10:05",  "2024-Jul-08 10:05 EDT",
                                        "8 juil. 2024 10:05", "08-jul-24 10:05 UTC"};
    qll_stamp want;
    qll_stamp got;
    CHECK(qll_stamp_read(qll_text_of("2024-07-08 10:05"), QLL_LOG_ORDER_YEAR_FIRST, &want));
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        CHECK(qll_stamp_read(qll_text_of(texts[i]), QLL_LOG_ORDER_YEAR_FIRST, &got));
        CHECK(got.local_ms == want.local_ms && got.has_name);
        CHECK(got.has_offset == (i == 5));
    }
    CHECK(!qll_stamp_read(qll_text_of("8 Jut 2024"), QLL_LOG_ORDER_YEAR_FIRST, &got));
    CHECK(!qll_stamp_read(qll_text_of("31-Jun-2024"), QLL_LOG_ORDER_YEAR_FIRST, &got));
    int64_t ms = 0;
    CHECK(qll_stamp_serial(qll_text_of("45481.420139"), &ms));
    CHECK(ms == want.local_ms);
    CHECK(!qll_stamp_serial(qll_text_of("1234.5"), &ms));
}

int main(void)
{
    TEST_RUN(the_calendar_is_the_c_librarys);
    TEST_RUN(every_day_of_the_calendar_is_read);
    TEST_RUN(stamps_of_every_form_are_read);
    TEST_RUN(what_is_no_stamp_is_not_read);
    TEST_RUN(a_date_tells_its_order_or_not);
    TEST_RUN(clocks_and_unix_time_are_read);
    TEST_RUN(plain_numbers_are_the_nearest_doubles);
    TEST_RUN(letters_of_a_zone_and_names_of_months);
    return TEST_END();
}
