/* What a review found wrong with the reading of logs, each with its input, through `quell demand`. */
#include "log_ask.h"

/* ---- W3 ---- */

TEST(w3_lists_of_uses_go_through_demand_and_design)
{
    for (int form = 0; form < 3; form++) {
        scene at = begin(form == 0   ? "StartTime,EndTime,Volume(gal)\n"
                         : form == 1 ? "StartTime,Duration(min),Volume(gal)\n"
                                     : "StartTime,EndTime,Duration(min),Volume(gal)\n");
        for (size_t i = 0; i < 72; i++) {
            stamp(&at, i * 11, "24");
            if (form != 1) {
                qll_write(&at.log, ",");
                stamp(&at, i * 11 + 3, "24");
            }
            qll_write(&at.log, form == 0 ? "" : ",3");
            qll_write_format(&at.log, ",%zu\n", 3 + i % 9);
        }
        ask(&at, form == 1 ? "\"kind\": \"events\"" : "");
        if (CHECK(at.status == QLL_OK)) {
            CHECK_NEAR(number(at.scenario, "peak_flow_m3s"), 11.0 / 3.0 * gpm, 1e-6);
            CHECK_TEXT(qll_text_closed(qll_node_find(at.of_log, "kind")->text, at.arena), "events");
        }
        scene design = begin("");
        qll_write_text(&design.log, at.bytes);
        ask_verb(&design, form == 1 ? "\"kind\": \"events\"" : "", QLL_VERB_DESIGN);
        CHECK(design.status == QLL_OK);
        end(&design);
        end(&at);
    }
}

/* ---- W4 ---- */

TEST(w4_newest_first_and_joined_files_are_read_by_time)
{
    for (int form = 0; form < 4; form++) {
        scene at = begin("Time,Flow (gpm)\n");
        for (size_t i = 0; i < TEST_ROWS; i++) {
            const size_t reversed = TEST_ROWS - 1 - i;
            const size_t swapped = (i + 1440) % TEST_ROWS; /* two days in the wrong order */
            const size_t minute = form == 0 ? i : form == 1 ? reversed : swapped;
            if (form == 3 && i % 1440 == 0) {
                qll_write(&at.log, "Time,Flow (gpm)\n");
            }
            row(&at, minute, flow_gpm(minute));
        }
        ask(&at, "");
        check_mean(&at, mean_gpm());
        if (at.status == QLL_OK) {
            CHECK(number(at.of_log, "rows") == TEST_ROWS && number(at.of_log, "unknown_s") == 0.0);
            CHECK(isnan(mended(&at, "late")));
        }
        end(&at);
    }
}

TEST(w4_a_clock_of_twelve_hours_is_refused)
{
    scene at = begin("Time,Flow (gpm)\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        stamp(&at, i, "12");
        qll_write_format(&at.log, ",%.3f\n", flow_gpm(i));
    }
    ask(&at, "");
    is_refused(&at, QLL_CODE_CONTRADICTION, "AM or PM");
    end(&at);
}

/* ---- W5 ---- */

TEST(w5_points_that_part_thousands_are_refused_or_read)
{
    for (int form = 0; form < 3; form++) {
        scene at = begin(form == 1 ? "Zeit;Durchfluss (L/h)\n" : "Zeit;Reading (L)\n");
        double litres = form == 2 ? 999100.0 : 498000.0;
        for (size_t i = 0; i < TEST_ROWS; i++) {
            litres += flow_gpm(i) * 3.785411784;
            const unsigned long value = (unsigned long)(form == 1 ? flow_gpm(i) * 227.12 : litres);
            stamp(&at, i, "24");
            qll_write(&at.log, ";");
            if (value >= 1000000) {
                qll_write_format(&at.log, "%lu.%03lu.%03lu\n", value / 1000000, value / 1000 % 1000,
                                 value % 1000);
            } else if (value >= 1000) {
                qll_write_format(&at.log, "%lu.%03lu\n", value / 1000, value % 1000);
            } else {
                qll_write_format(&at.log, "%lu\n", value);
            }
        }
        ask(&at, "");
        if (form == 2) { /* 1.005.815: two points can be thousands only */
            CHECK(at.status == QLL_OK);
            CHECK_NEAR(number(at.scenario, "mean_flow_m3s"), mean_gpm() * gpm, 1e-3);
        } else {
            is_refused(&at, QLL_CODE_CONTRADICTION, "thousands or decimals");
        }
        end(&at);
    }
}

/* ---- W6 ---- */

static void write_sites(scene *at)
{
    for (size_t i = 0; i < TEST_ROWS; i++) {
        for (size_t site = 0; site < 2; site++) {
            stamp(at, i, "24");
            qll_write_format(&at->log, ",%s,%.3f\n", site == 0 ? "north" : "south",
                             flow_gpm((i + site * 500) % TEST_ROWS));
        }
    }
}

TEST(w6_two_flows_of_one_stamp_are_refused_chosen_or_added)
{
    static const char *const headers[] = {"Time,Site,Flow (gpm)\n", "Time,Wing,Flow (gpm)\n"};
    for (size_t h = 0; h < 2; h++) {
        scene at = begin(headers[h]);
        write_sites(&at);
        ask(&at, "");
        is_refused(&at, QLL_CODE_CONTRADICTION, h == 0 ? "\"Site\"" : "\"Wing\"");
        end(&at);
        at = begin(headers[h]);
        write_sites(&at);
        ask(&at, "\"repeated\": \"sum\"");
        check_mean(&at, 2.0 * mean_gpm());
        CHECK(mended(&at, "added") == TEST_ROWS);
        end(&at);
        at = begin(headers[h]);
        write_sites(&at);
        ask(&at,
            h == 0 ? "\"meter\": \"south\"" : "\"meter_column\": \"Wing\", \"meter\": \"south\"");
        check_mean(&at, mean_gpm());
        end(&at);
    }
}

/* ---- W7 ---- */

TEST(w7_a_unit_that_changes_is_heeded)
{
    const double factor = gpm / 1e-3;
    scene at = begin("Time,Value,Unit\n");
    scene json = begin("");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        const double value = i < 1000 ? flow_gpm(i) : flow_gpm(i) * factor;
        const char *unit = i < 1000 ? "gpm" : "L/s";
        stamp(&at, i, "24");
        qll_write_format(&at.log, ",%.9f,%s\n", value, unit);
        qll_write(&json.log, "{\"time\": \"");
        stamp(&json, i, "24");
        qll_write_format(&json.log, "\", \"value\": %.9f, \"unit\": \"%s\"}\n", value, unit);
    }
    ask(&at, "");
    check_mean(&at, mean_gpm());
    CHECK(mended(&at, "changed-unit") == TEST_ROWS - 1000);
    ask(&json, "");
    check_mean(&json, mean_gpm());
    end(&at);
    end(&json);
}

/* ---- W8 ---- */

TEST(w8_one_wrong_reading_is_stepped_over)
{
    scene at = begin("Time,Reading (gal)\n");
    double reading = 48120.0;
    for (size_t i = 0; i < TEST_ROWS; i++) {
        reading += flow_gpm(i);
        row(&at, i, reading + (i == 1500 ? 800.0 : 0.0));
    }
    ask(&at, "");
    CHECK(at.status == QLL_OK && mended(&at, "wrong-reading") == 1.0);
    CHECK_NEAR(number(at.of_log, "volume_m3"), (reading - 48120.0 - flow_gpm(0)) * gpm * 60.0,
               1e-6);
    CHECK(number(at.scenario, "peak_flow_m3s") < 40.0 * gpm);
    end(&at);
}

TEST(w8_one_absurd_row_is_stepped_over)
{
    scene at = begin("Time,Flow (gpm)\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        row(&at, i, i == 1503 ? 900.0 : flow_gpm(i));
    }
    ask(&at, "");
    CHECK(at.status == QLL_OK && is_said(&at, "900 gpm"));
    CHECK(number(at.scenario, "peak_flow_m3s") < 40.0 * gpm);
    CHECK(mended(&at, "absurd") == 1.0 && number(at.of_log, "unknown_s") == 60.0);
    end(&at);
}

/* ---- W9 ---- */

/* 0.4 to 1.0 gpm, never none. */
static double low_gpm(size_t minute)
{
    return 0.4 + 0.6 * (double)(minute * 7919 % 101) / 100.0;
}

/* No mean of fewer than four steps of @p step, in gpm times seconds. */
static void check_resolved(const scene *at, double step)
{
    const qll_node *peak = qll_node_find(at->of_log, "peaks")->first_child;
    for (; peak != NULL; peak = peak->next) {
        const double least = 4.0 * step / number(peak, "averaging_s");
        const double rolling = number(peak, "rolling_flow_m3s");
        CHECK(isnan(rolling) || rolling >= least * gpm * 0.999999);
    }
}

/* Pulses, a volume, or a register. */
static double coarse_value(int form, double counted, double before, double step)
{
    if (form == 0) {
        return (counted - before) / step;
    }
    return form == 2 ? counted - before : 48100.0 + counted;
}

TEST(w9_a_coarse_step_gives_neither_idle_share_nor_peak)
{
    for (int form = 0; form < 4; form++) {
        const double step = form == 3 ? 100.0 : 10.0;
        const size_t every = form == 3 ? 15 : 1;
        scene at = begin(form == 0   ? "10 gal/pulse\nTime,Pulses\n"
                         : form == 2 ? "Time,Usage (gal)\n"
                                     : "Time,Reading (gal)\n");
        double volume = 0.0;
        double before = 0.0;
        for (size_t i = 0; i < TEST_ROWS; i++) {
            volume += low_gpm(i);
            const double counted = floor(volume / step) * step;
            if (i % every == every - 1) {
                row(&at, i, coarse_value(form, counted, before, step));
                before = counted;
            }
        }
        ask(&at, "");
        if (CHECK(at.status == QLL_OK)) {
            CHECK(is_said(&at, "the meter counts in steps of"));
            CHECK(isnan(number(at.scenario, "idle_share")));
            const double rate = step / (double)every;
            CHECK_NEAR(number(at.of_log, "step_flow_m3s"), rate * gpm, 1e-6);
            CHECK_NEAR(number(at.scenario, "mean_flow_m3s"), volume / TEST_ROWS * gpm, 0.02);
            check_resolved(&at, rate * 60.0 * (double)every);
        }
        end(&at);
    }
}

TEST(w9_a_fine_step_keeps_both)
{
    scene at = begin("0.1 gal/pulse\nTime,Pulses\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        row(&at, i, round(flow_gpm(i) * 10.0));
    }
    ask(&at, "");
    CHECK(at.status == QLL_OK && number(at.scenario, "idle_share") > 0.5);
    CHECK(!is_said(&at, "counts in steps"));
    end(&at);
}

/* ---- W10 ---- */

TEST(w10_two_weights_of_a_pulse_are_refused)
{
    scene at = begin("meter 2 in, 10 gal/pulse, K = 0.1 gal/pulse\nTime,Pulses\n");
    for (size_t i = 0; i < TEST_ROWS; i++) {
        row(&at, i, round(flow_gpm(i)));
    }
    ask(&at, "");
    is_refused(&at, QLL_CODE_CONTRADICTION, "two different weights");
    end(&at);
}

int main(void)
{
    TEST_RUN(w3_lists_of_uses_go_through_demand_and_design);
    TEST_RUN(w4_newest_first_and_joined_files_are_read_by_time);
    TEST_RUN(w4_a_clock_of_twelve_hours_is_refused);
    TEST_RUN(w5_points_that_part_thousands_are_refused_or_read);
    TEST_RUN(w6_two_flows_of_one_stamp_are_refused_chosen_or_added);
    TEST_RUN(w7_a_unit_that_changes_is_heeded);
    TEST_RUN(w8_one_wrong_reading_is_stepped_over);
    TEST_RUN(w8_one_absurd_row_is_stepped_over);
    TEST_RUN(w9_a_coarse_step_gives_neither_idle_share_nor_peak);
    TEST_RUN(w9_a_fine_step_keeps_both);
    TEST_RUN(w10_two_weights_of_a_pulse_are_refused);
    return TEST_END();
}
