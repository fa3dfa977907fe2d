/* The same: loads, units, dates and encodings that logs come with. */
#include "log_ask.h"

TEST(d2_a_load_that_never_changes_is_kept)
{
    scene at = begin("Time,Flow (gpm)\n");
    double sum = 0.0;
    for (size_t i = 0; i < TEST_ROWS; i++) {
        const size_t of_day = i % 1440;
        const double flow = of_day >= 480 && of_day < 1080 ? 4.0 : flow_gpm(i);
        sum += flow;
        row(&at, i, flow);
    }
    ask(&at, "");
    check_mean(&at, sum / TEST_ROWS);
    CHECK(number(at.of_log, "unknown_s") == 0.0 && mended(&at, "steady") > 400.0);
    end(&at);
}

/* Ten hours of one value, each day its own, that neither end in no flow nor come again: over 6 h of it a meter hangs. Two
 * such days hang as long as either of them. */
TEST(d2_a_meter_that_hangs_twice_hangs_as_often)
{
    static const double values[] = {4.037, 3.911};
    double rows[3];
    double unknown_s[3];
    for (int days = 1; days <= 3; days++) {
        scene at = begin("Time,Flow (gpm)\n");
        for (size_t i = 0; i < TEST_ROWS; i++) {
            const size_t of_day = i % 1440;
            const bool hangs =
                of_day >= 480 && of_day < 1080 && ((unsigned)days >> (i / 1440) & 1U) != 0;
            row(&at, i, hangs ? values[i / 1440] : of_day == 1080 ? 2.5 : flow_gpm(i));
        }
        ask(&at, "");
        rows[days - 1] = mended(&at, "stuck");
        unknown_s[days - 1] = number(at.of_log, "unknown_s");
        CHECK(isnan(mended(&at, "steady")));
        end(&at);
    }
    /* The first 6 h of 10 are believed. */
    CHECK_WITHIN(rows[0], 240.0, 1.0);
    CHECK_WITHIN(unknown_s[0], 60.0 * rows[0], 0.0);
    CHECK(rows[2] == rows[0] + rows[1] && unknown_s[2] == unknown_s[0] + unknown_s[1]);
}

TEST(d3_a_log_mostly_unknown_says_so)
{
    for (int form = 0; form < 2; form++) {
        scene at = begin("Time,Flow (gpm)\n");
        for (size_t i = 0; i < TEST_ROWS; i++) {
            const bool ends = i > 0 && flow_gpm(i - 1) > 0.0;
            if (flow_gpm(i) > 0.0 || ends || i % 30 == 0 || i == TEST_ROWS - 1) {
                row(&at, i, flow_gpm(i));
            }
        }
        ask(&at, form == 0 ? "" : "\"heartbeat\": \"31 min\"");
        if (form == 1) {
            check_mean(&at, mean_gpm());
        } else {
            CHECK(at.status == QLL_OK && is_said(&at, "of the log's time is unknown"));
        }
        end(&at);
    }
}

TEST(d4_units_of_us_meters_are_known)
{
    static const struct {
        const char *header;
        double unit_gal;
    } forms[] = {{"Time,Usage (CCF)\n", 748.0519480519481},
                 {"Time,Usage (kgal)\n", 1000.0},
                 {"Time,Flow (MGD)\n", 1e6 / 1440.0},
                 {"Time,GPM\n", 1.0}};

    for (size_t f = 0; f < sizeof forms / sizeof *forms; f++) {
        scene at = begin(forms[f].header);
        for (size_t i = 0; i < TEST_ROWS; i++) {
            stamp(&at, i, "24");
            qll_write_format(&at.log, ",%.12f\n", flow_gpm(i) / forms[f].unit_gal);
        }
        ask(&at, "");
        check_mean(&at, mean_gpm());
        end(&at);
    }
}

TEST(d5_second_lines_month_names_and_serial_days_are_read)
{
    static const char *const headers[] = {"Time,Flow\n,gpm\n", "Time,Flow (gpm)\n",
                                          "Date Time,Flow (gpm)\n", "Zeit,Durchflu\xDF (gpm)\n"};
    for (size_t form = 0; form < 4; form++) {
        scene at = begin(headers[form]);
        for (size_t i = 0; i < TEST_ROWS; i++) {
            if (form == 1) {
                qll_write_format(&at.log, "%02zu-Jul-2024 %02zu:%02zu", 8 + i / 1440, i / 60 % 24,
                                 i % 60);
            } else if (form == 2) {
                qll_write_format(&at.log, "%.6f", 45481.0 + (double)i / 1440.0);
            } else {
                stamp(&at, i, "24");
            }
            qll_write_format(&at.log, ",%.3f\n", flow_gpm(i));
        }
        ask(&at, form == 3 ? "\"value_column\": \"Durchflu\xC3\x9F (gpm)\"" : "");
        check_mean(&at, mean_gpm());
        end(&at);
    }
}

/* "Date, Hour": 7 is seven o'clock, and the rows are an hour apart. */
TEST(d5_a_column_of_hours_is_read)
{
    scene at = begin("Date,Hour,Gallons\n");
    double sum = 0.0;
    for (size_t hour = 0; hour < 48; hour++) {
        double gallons = 0.0;
        for (size_t i = hour * 60; i < hour * 60 + 60; i++) {
            gallons += flow_gpm(i);
        }
        sum += gallons;
        qll_write_format(&at.log, "2024-07-%02zu,%zu,%.3f\n", 18 + hour / 24, hour % 24, gallons);
    }
    ask(&at, "");
    check_mean(&at, sum / 2880.0);
    CHECK(number(at.of_log, "interval_s") == 3600.0);
    end(&at);
}

TEST(d5_a_date_that_contradicts_names_its_row)
{
    scene at = begin("Time,Flow (gpm)\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        qll_write_format(&at.log, "%02zu/07/2024 %02zu:%02zu,%.3f\n", 12 + i / 1440, i / 60 % 24,
                         i % 60, flow_gpm(i));
    }
    ask(&at, "\"order\": \"month first\"");
    is_refused(&at, QLL_CODE_OUT_OF_RANGE, "line 1442");
    end(&at);
}

TEST(d7_a_gap_longer_than_the_log_is_refused)
{
    scene at = begin("Time;Flow (gpm)\n");
    for (size_t i = 0; i < TEST_ROWS; i++) { /* 8 and 9 July, written with dots */
        qll_write_format(&at.log, "07.%02zu.2024 %02zu:%02zu;%.3f\n", 8 + i / 1440, i / 60 % 24,
                         i % 60, flow_gpm(i));
    }
    ask(&at, "");
    is_refused(&at, QLL_CODE_CONTRADICTION, "days without a row");
    end(&at);
}

/* ---- the meter itself ---- */

/* Five hours at 1 s of uses that stop at once, seen by a meter that lags by @p lag_s. */
static void write_lagging(scene *at, double lag_s)
{
    double seen = 0.0;
    for (size_t s = 0; s < 18000; s++) {
        const double flow = s % 600 < 90 ? 3.0 + (double)(s / 600 % 4) : 0.0;
        seen += lag_s > 0.0 ? (flow - seen) / lag_s : flow - seen;
        qll_write_format(&at->log, "2024-07-18 %02zu:%02zu:%02zu,%.3f\n", s / 3600, s / 60 % 60,
                         s % 60, seen < 0.01 ? 0.0 : seen);
    }
}

TEST(a_meter_that_settles_slowly_is_recognised)
{
    for (int damped = 0; damped < 2; damped++) {
        scene at = begin("Time,Flow (gpm)\n");
        write_lagging(&at, damped == 1 ? 19.0 : 0.0);
        ask(&at, "");
        const double damping_s = number(at.of_log, "damping_s");
        CHECK(damped == 1 ? fabs(damping_s - 18.5) < 1.0 : isnan(damping_s));
        CHECK(is_said(&at, "to settle") == (damped == 1));
        end(&at);
    }
}

/* ---- what it costs ---- */

TEST(empty_lines_are_passed_over)
{
    scene at = begin("Time,Flow (gpm)\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        row(&at, i, flow_gpm(i));
        qll_write(&at.log, i % 3 == 0 ? "\n\n\n\n\n\n\n\n\n\n\n" : i % 3 == 1 ? "\r\n \n" : "");
    }
    ask(&at, "");
    check_mean(&at, mean_gpm());
    CHECK(number(at.of_log, "rows") == TEST_ROWS);
    end(&at);
}

int main(void)
{
    TEST_RUN(d2_a_load_that_never_changes_is_kept);
    TEST_RUN(d2_a_meter_that_hangs_twice_hangs_as_often);
    TEST_RUN(d3_a_log_mostly_unknown_says_so);
    TEST_RUN(d4_units_of_us_meters_are_known);
    TEST_RUN(d5_second_lines_month_names_and_serial_days_are_read);
    TEST_RUN(d5_a_column_of_hours_is_read);
    TEST_RUN(d5_a_date_that_contradicts_names_its_row);
    TEST_RUN(d7_a_gap_longer_than_the_log_is_refused);
    TEST_RUN(a_meter_that_settles_slowly_is_recognised);
    TEST_RUN(empty_lines_are_passed_over);
    return TEST_END();
}
