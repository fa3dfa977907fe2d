/* Offsets are checked against the C library's reading of the same POSIX rules. */
#include "check.h"
#include "signals/log_zone.h"

#include <stdlib.h>
#include <time.h>

static qll_zone zone_of(const char *text)
{
    qll_zone zone = {0};
    if (!CHECK(qll_zone_read(qll_text_of(text), &zone))) {
        printf("    \"%s\"\n", text);
    }
    return zone;
}

TEST(offsets_are_the_c_librarys)
{
    static const char *const rules[] = {"UTC0",
                                        "MST7MDT,M3.2.0,M11.1.0",
                                        "CET-1CEST,M3.5.0,M10.5.0/3",
                                        "AEST-10AEDT,M10.1.0,M4.1.0/3",
                                        "IST-5:30",
                                        "<-03>3",
                                        "EST5EDT4,J60,J300/1:30",
                                        "EST5EDT,59,299"};
    for (size_t r = 0; r < sizeof rules / sizeof *rules; r++) {
        qll_zone zone = zone_of(rules[r]);
        setenv("TZ", rules[r], 1);
        tzset();
        size_t differences = 0;
        for (time_t at = 631152000; at < 2500000000; at += 37800) {
            struct tm parts;
            localtime_r(&at, &parts);
            differences +=
                qll_zone_offset_s(&zone, (int64_t)at * 1000) != parts.tm_gmtoff ? 1U : 0U;
        }
        if (!CHECK(differences == 0)) {
            printf("    %s: %zu\n", rules[r], differences);
        }
    }
}

TEST(names_and_offsets_are_read)
{
    qll_zone denver = zone_of("America/Denver");
    CHECK(denver.standard_s == -7 * 3600 && denver.summer_s == -6 * 3600 && denver.has_summer);
    CHECK(zone_of("Asia/Kolkata").standard_s == 19800);
    CHECK(zone_of("-07:00").standard_s == -25200 && zone_of("+0530").standard_s == 19800);
    CHECK(zone_of("+2").standard_s == 7200 && zone_of("Z").standard_s == 0);
    static const char *const wrong[] = {
        "",           "Denver",         "+15:00", "+01:60", "MST",
        "MST7MDT,M3", "MST7MDT,M3.2.0", "M7",     "<MST7",  "MST7MDT,M13.2.0,M11.1.0",
        "+01:00x"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        qll_zone zone;
        if (!CHECK(!qll_zone_read(qll_text_of(wrong[i]), &zone))) {
            printf("    \"%s\"\n", wrong[i]);
        }
    }
    CHECK_TEXT(qll_zone_nearest(qll_text_of("Amerika/Denver")), "America/Denver");
}

/* 2024-11-03 in Denver: 01:30 came twice; 2024-03-10: 02:30 never was. */
TEST(an_hour_comes_twice_or_never)
{
    qll_zone zone = zone_of("America/Denver");
    qll_zone_oddity oddity = QLL_ZONE_PLAIN;
    int64_t local_ms = (qll_calendar_days(2024, 11, 3) * 86400 + 5400) * 1000;
    int64_t first = qll_zone_utc_ms(&zone, local_ms, true, &oddity);
    CHECK(oddity == QLL_ZONE_TWICE);
    int64_t second = qll_zone_utc_ms(&zone, local_ms, false, &oddity);
    CHECK(second - first == 3600000 && first == local_ms + INT64_C(6) * 3600000);
    local_ms = (qll_calendar_days(2024, 3, 10) * 86400 + 9000) * 1000;
    CHECK(qll_zone_utc_ms(&zone, local_ms, true, &oddity) == local_ms + INT64_C(7) * 3600000);
    CHECK(oddity == QLL_ZONE_NEVER);
}

int main(void)
{
    TEST_RUN(offsets_are_the_c_librarys);
    TEST_RUN(names_and_offsets_are_read);
    TEST_RUN(an_hour_comes_twice_or_never);
    return TEST_END();
}
