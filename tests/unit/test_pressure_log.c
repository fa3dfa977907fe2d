#include "base/text.h"
#include "check.h"
#include "pressure_days.h"
#include "pressure_found.h"
#include "signals/flow_log.h"
#include "signals/log_zone.h"
#include "signals/pressure_log.h"

#include <stdlib.h>

#define QLL_PSI 6894.757293168361

/* A log that grows, and what it says. */
typedef struct scene {
    qll_arena *arena;
    qll_writer text;
    qll_flow_log_options options;
    qll_problems problems;
    qll_status status;
    qll_pressure_result result;
} scene;

static scene begin(const char *header)
{
    scene at = {.arena = qll_arena_open((size_t)256 << 20),
                .options = qll_flow_log_options_default()};
    at.text = qll_writer_new(at.arena);
    at.problems = qll_problems_none(at.arena);
    qll_write(&at.text, header);
    return at;
}

static void read_in(scene *at, size_t block)
{
    static const qll_pressure_expect none = {0};
    const qll_text text = qll_writer_text(&at->text);
    qll_flow_log *log = qll_pressure_log_open(&at->options, at->arena);
    at->status = log == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t i = 0; i < text.size && at->status == QLL_OK; i += block) {
        at->status =
            qll_flow_log_feed(log, text.bytes + i, text.size - i < block ? text.size - i : block);
    }
    if (log != NULL) {
        at->status = qll_flow_log_finish(log, &at->result.log, &at->problems);
    }
    if (at->status == QLL_OK) {
        CHECK(qll_pressure_judge(at->result.log.taken, &none, at->arena, &at->result));
    }
}

static void end(scene *at)
{
    qll_arena_close(at->arena);
}

/* ---- what is read ---- */

/* Two pressures of different units, absolute and gauge, a flow, and a time zone behind decimals of seconds. */
TEST(columns_are_told_apart_by_title_and_unit)
{
    scene at = begin("# made up\nTimestamp,Upstream (psia),P2 [bar],Flow (gpm),Temp (degF)\n");
    for (int i = 0; i < 400; i++) {
        qll_write_format(&at.text, "2026-03-01T00:%02d:%02d.%d+01:00,%.1f,%.2f,%.1f,%d\n", i / 120,
                         i / 2 % 60, i % 2 * 5, 114.7, 4.0, 0.0, 50);
    }
    read_in(&at, 1 << 20);
    CHECK(at.status == QLL_OK && at.result.log.row_count == 400);
    CHECK_WITHIN(at.result.log.interval_s, 0.5, 1e-9);
    CHECK_WITHIN(at.result.log.first_unix_s, 1772319600.0, 1e-3);
    CHECK_WITHIN(at.result.features.inlet_median_pa_gauge, 100.0 * QLL_PSI, 400.0);
    CHECK_WITHIN(at.result.features.outlet_median_pa_gauge, 4e5, 400.0);
    CHECK(at.result.has[QLL_CHANNEL_TEMPERATURE]);
    end(&at);
}

/* Units in the cells, which change down the file: converted, and counted. */
TEST(units_in_cells_are_heeded_row_by_row)
{
    scene at = begin("time;outlet\n");
    for (int i = 0; i < 100; i++) {
        qll_write_format(&at.text,
                         i < 60 ? "2026-03-01 00:%02d:00;60.0 psi\n"
                                : "2026-03-01 01:%02d:00;4.137 bar\n",
                         i % 60);
    }
    read_in(&at, 1000);
    CHECK(at.status == QLL_OK && at.result.log.row_count == 100);
    CHECK(at.result.log.mends[QLL_LOG_MEND_UNIT].count == 40);
    CHECK_WITHIN(at.result.features.outlet_median_pa_gauge, 60.0 * QLL_PSI, 400.0);
    end(&at);
}

/* Seconds since the log began, as loggers of high rates write them. */
TEST(times_may_run_from_the_start)
{
    scene at = begin("Time (s)\tOutlet (kPa)\n");
    for (int i = 0; i < 2000; i++) {
        qll_write_format(&at.text, "%.3f\t%.1f\n", i * 0.001, 400.0 + i % 3);
    }
    read_in(&at, 4096);
    CHECK(at.status == QLL_OK && at.result.log.is_elapsed && at.result.log.row_count == 2000);
    CHECK_WITHIN(at.result.log.interval_s, 0.001, 1e-9);
    end(&at);
}

/* The zone is the survey's or the command line's where the stamps have none. */
TEST(times_without_a_zone_are_in_the_one_that_is_given)
{
    scene at = begin("time,outlet (kPa)\n");
    at.options.zone = "-07:00";
    for (int i = 0; i < 100; i++) {
        qll_write_format(&at.text, "2026-03-01 00:%02d:%02d,400.0\n", i / 60, i % 60);
    }
    read_in(&at, 4096);
    CHECK(at.status == QLL_OK && at.result.log.offset_known);
    CHECK_WITHIN(at.result.log.first_unix_s, 1772323200.0 + 7 * 3600.0, 1e-3);
    CHECK(at.result.log.zone != NULL
          && qll_zone_offset_s(at.result.log.zone, (int64_t)1772348400000) == -7 * 3600);
    end(&at);
}

/* A row of JSON that has no time stands at none, not at the one before. */
TEST(a_row_without_a_time_is_left_out)
{
    scene at = begin("");
    for (int i = 0; i < 200; i++) {
        if (i % 50 != 7) {
            qll_write_format(&at.text, "{\"time\":\"2026-03-01T00:%02d:%02dZ\",", i / 60, i % 60);
        } else {
            qll_write(&at.text, "{");
        }
        qll_write_format(&at.text, "\"outlet_kPa\":%d}\n", 400 + i % 3);
    }
    read_in(&at, 4096);
    CHECK(at.status == QLL_OK && at.result.log.row_count == 196);
    CHECK(at.result.log.mends[QLL_LOG_MEND_STAMP].count == 4);
    end(&at);
}

TEST(bad_values_are_unknown_and_counted)
{
    scene at = begin("time,outlet_kPa,inlet_kPa\n");
    static const char *const cells[] = {"-9999", "NaN", "", "abc", "-500", "99999"};
    for (int i = 0; i < 600; i++) {
        qll_write_format(&at.text, "2026-03-01 00:%02d:%02d,%s,700.5\n", i / 60, i % 60,
                         i % 100 < 6 ? cells[i % 100] : "400.2");
    }
    read_in(&at, 500);
    const qll_log_mend *mends = at.result.log.mends;
    CHECK(at.status == QLL_OK && at.result.log.row_count == 600);
    CHECK(mends[QLL_LOG_MEND_SENTINEL].count == 12 && mends[QLL_LOG_MEND_EMPTY].count == 12);
    CHECK(mends[QLL_LOG_MEND_UNREADABLE].count == 6 && mends[QLL_LOG_MEND_IMPOSSIBLE].count == 6);
    const qll_pressure_finding *fault = pressure_found(&at.result, QLL_PRESSURE_WORD_LOGGER_FAULT);
    CHECK(fault != NULL && fault->fault == QLL_LOGGER_FAULT_VALUES && fault->strength >= 0.5);
    end(&at);
}

static void refused(const char *header, const char *row, qll_text_id says)
{
    scene at = begin(header);
    for (int i = 0; i < 50; i++) {
        qll_write_format(&at.text, "2026-03-01 00:%02d:00", i);
        qll_write(&at.text, row);
    }
    read_in(&at, 1000);
    if (!CHECK(at.status == QLL_REFUSED && at.problems.kept_count > 0
               && at.problems.kept[0].says->id == says)) {
        printf("    after \"%s\"\n", header);
    }
    end(&at);
}

/* Nothing is guessed. */
TEST(what_the_log_does_not_say_is_refused)
{
    refused("time,Pressure (psi)\n", ",60.1\n", QLL_TEXT_LOG_WHICH_PRESSURE);
    refused("time,P1 (psi),Pressure (psi)\n", ",60.1,90.2\n", QLL_TEXT_LOG_WHICH_PRESSURE);
    refused("time,level (ft)\n", ",60.1\n", QLL_TEXT_LOG_NO_PRESSURE);
    refused("time,outlet\n", ",60.1\n", QLL_TEXT_LOG_CHANNEL_NO_UNIT);
    refused("time,outlet (gpm)\n", ",60.1\n", QLL_TEXT_LOG_CHANNEL_UNIT);
    refused("time,P2 (psi),Downstream (psi)\n", ",60.1,60.2\n", QLL_TEXT_LOG_TWO_COLUMNS);
    refused("time,outlet (psi)\n", ",sixty\n", QLL_TEXT_LOG_ROWS_BAD);
    refused("", "\n", QLL_TEXT_LOG_NO_PRESSURE);
}

/* The fast way and the general way give the same. */
TEST(blocks_and_crumbs_say_the_same)
{
    static scene of[2];
    for (int way = 0; way < 2; way++) {
        of[way] = begin("time,inlet (kPa),spare,outlet (kPa),flow (L/s)\n");
        for (int i = 0; i < 4000; i++) {
            qll_write_format(&of[way].text, "2026-03-01T%02d:%02d:%02dZ,%.1f,x,%.1f,%.3f\n",
                             i / 3600, i / 60 % 60, i % 60, 700.0 + i % 7,
                             i % 50 == 0 ? -9999.0 : 400.0 + i % 5, i % 900 < 700 ? 0.0 : 0.12);
        }
        read_in(&of[way], way == 0 ? (size_t)1 << 20 : 61);
        CHECK(of[way].status == QLL_OK);
    }
    CHECK(of[0].result.log.row_count == of[1].result.log.row_count);
    CHECK(of[0].result.features.outlet_median_pa_gauge
          == of[1].result.features.outlet_median_pa_gauge);
    CHECK(of[0].result.features.run_count == of[1].result.features.run_count
          && of[0].result.features.run_count > 0.0);
    CHECK(of[0].result.log.mends[QLL_LOG_MEND_SENTINEL].count == 80
          && of[1].result.log.mends[QLL_LOG_MEND_SENTINEL].count == 80);
    end(&of[0]);
    end(&of[1]);
}

TEST(gaps_are_listed_and_never_bridged)
{
    scene at = begin("time,outlet (kPa),flow (L/s)\n");
    for (int i = 0; i < 1200; i++) {
        const int minute = i / 60 + (i >= 600 ? 30 : 0);
        qll_write_format(&at.text, "2026-03-01 00:%02d:%02d,400.%d,0\n", minute % 60, i % 60,
                         i % 3);
    }
    read_in(&at, 999);
    CHECK(at.status == QLL_OK && at.result.gap_total == 1 && at.result.gap_count == 1);
    CHECK_WITHIN(at.result.gap_s, 1801.0, 1e-6);
    CHECK(at.result.features.window_count == 0.0); /* two of ten minutes are none of eleven */
    end(&at);
}

/* What a rate or a channel cannot show is said, with what would do. */
TEST(what_cannot_be_judged_says_why)
{
    scene at = begin("time,inlet (psi)\n");
    for (int i = 0; i < 96; i++) {
        qll_write_format(&at.text, "2026-03-%02d %02d:%02d:00,%d\n", 1 + i / 96, i / 4 % 24,
                         i % 4 * 15, 80 + i % 20);
    }
    read_in(&at, 4096);
    const qll_unjudged *unjudged = at.result.unjudged;
    CHECK(at.status == QLL_OK);
    CHECK(unjudged[QLL_PRESSURE_WORD_CREEP].why == QLL_UNJUDGED_CHANNEL);
    CHECK(unjudged[QLL_PRESSURE_WORD_HAMMER].holds
          && !unjudged[QLL_PRESSURE_WORD_SUPPLY_SWING].holds);
    CHECK(pressure_found(&at.result, QLL_PRESSURE_WORD_SUPPLY_SWING) != NULL);
    end(&at);
}

/* A row each 15 min, of the channels that are named. */
static void slow_log(scene *at, const char *header, const char *values)
{
    *at = begin(header);
    for (int i = 0; i < 200; i++) {
        qll_write_format(&at->text, "2026-03-%02d %02d:%02d:00%s\n", 1 + i / 96, i / 4 % 24,
                         i % 4 * 15, values);
    }
    read_in(at, 4096);
    CHECK(at->status == QLL_OK);
}

/* The table of docs/theory/pressure_log.md: the least rows a second; and the channels without which nothing of it is seen. */
TEST(what_a_rate_or_a_channel_cannot_show_says_what_would)
{
    static const struct {
        qll_pressure_word word;
        bool inlet, flow; /* beside the outlet, which all want */
        double rows_per_s;
    } words[] = {
        {QLL_PRESSURE_WORD_CREEP, false, false, 1.0 / 60.0},
        {QLL_PRESSURE_WORD_THERMAL_EXPANSION, false, false, 1.0 / 60.0},
        {QLL_PRESSURE_WORD_SET_POINT_DRIFT, false, false, 1.0 / 60.0},
        {QLL_PRESSURE_WORD_INLET_EFFECT, true, false, 1.0 / 60.0},
        {QLL_PRESSURE_WORD_LOCK_UP, false, true, 0.1},
        {QLL_PRESSURE_WORD_FALL_OFF, false, true, 0.1},
        {QLL_PRESSURE_WORD_FALL_OFF_DRIFT, false, true, 0.1},
        {QLL_PRESSURE_WORD_STRAINER, false, true, 0.1},
        {QLL_PRESSURE_WORD_AIR, false, true, 1.0},
        {QLL_PRESSURE_WORD_HUNTING, false, false, 5.0},
        {QLL_PRESSURE_WORD_HAMMER, false, false, 100.0},
        {QLL_PRESSURE_WORD_CHATTER, false, false, 500.0},
    };

    static scene all, outlet, inlet; /* too large for a frame */
    slow_log(&all, "time,inlet (psi),outlet (psi),flow (gpm)\n", ",90.5,60.5,0.0");
    slow_log(&outlet, "time,outlet (psi)\n", ",60.5");
    slow_log(&inlet, "time,inlet (psi)\n", ",90.5");
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const int before = check_failures;
        const qll_unjudged *slow = &all.result.unjudged[words[i].word];
        CHECK(slow->holds && slow->why == QLL_UNJUDGED_RATE);
        CHECK_NEAR(slow->needs, words[i].rows_per_s, 1e-12);
        const qll_unjudged *alone = &outlet.result.unjudged[words[i].word];
        CHECK(alone->holds);
        CHECK((alone->why == QLL_UNJUDGED_CHANNEL) == (words[i].inlet || words[i].flow));
        CHECK(!words[i].inlet || alone->channel == QLL_CHANNEL_INLET);
        CHECK(!words[i].flow || alone->channel == QLL_CHANNEL_FLOW);
        const qll_unjudged *other = &inlet.result.unjudged[words[i].word];
        CHECK(other->holds && other->why == QLL_UNJUDGED_CHANNEL
              && other->channel == QLL_CHANNEL_OUTLET);
        if (check_failures != before) {
            printf("    word %d\n", (int)words[i].word);
        }
    }
    CHECK(!all.result.unjudged[QLL_PRESSURE_WORD_SUPPLY_SWING].holds);
    CHECK(!inlet.result.unjudged[QLL_PRESSURE_WORD_SUPPLY_SWING].holds);
    CHECK(outlet.result.unjudged[QLL_PRESSURE_WORD_SUPPLY_SWING].channel == QLL_CHANNEL_INLET);
    end(&all);
    end(&outlet);
    end(&inlet);
}

/* ---- what is found ---- */

/* One log of each state of each generator; bench_pressure_days counts many. */
TEST(each_state_is_found)
{
    static const day_state states[] = {QLL_DAY_HEALTHY,  QLL_DAY_CREEP,         QLL_DAY_EXPANSION,
                                       QLL_DAY_STRAINER, QLL_DAY_HUNTING,       QLL_DAY_SUPPLY,
                                       QLL_DAY_AIR,      QLL_DAY_LOCK_UP,       QLL_DAY_STUCK,
                                       QLL_DAY_HAMMER,   QLL_DAY_QUICK_HUNTING, QLL_DAY_CHATTER,
                                       QLL_DAY_SWAPPED};
    static qll_pressure_result result;
    for (size_t i = 0; i < sizeof states / sizeof *states; i++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        const day_log log = day_make(states[i], 1, 800.0, arena);
        const unsigned found = day_found(&log, false, arena, &result);
        if (!CHECK(found == day_truth(states[i]))) {
            printf("    %s: found %x, is %x\n", day_names[states[i]], found, day_truth(states[i]));
        }
        for (size_t k = 0; k < result.finding_count; k++) {
            CHECK(result.findings[k].strength > 0.0 && result.findings[k].strength <= 1.0);
            CHECK(result.findings[k].from_unix_s <= result.findings[k].to_unix_s);
        }
        qll_arena_close(arena);
    }
}

/* dp/dt = q / C: a rise laid down by hand is told to a tenth. */
TEST(a_rise_has_its_rate)
{
    scene at = begin("time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    for (int i = 0; i < 8 * 7200; i += 5) {
        const int since = i % 7200;
        const double outlet = since < 200 ? 390.0 : 400.0 + 0.3 * (since - 200) / 60.0;
        qll_write_format(&at.text, "2026-03-01 %02d:%02d:%02d,700.0,%.2f,%.2f\n", i / 3600,
                         i / 60 % 60, i % 60, outlet, since < 200 ? 0.2 : 0.0);
    }
    read_in(&at, 100000);
    const qll_pressure_finding *creep = pressure_found(&at.result, QLL_PRESSURE_WORD_CREEP);
    CHECK(at.status == QLL_OK && creep != NULL);
    if (creep != NULL) {
        CHECK_NEAR(creep->value, 300.0 / 60.0, 0.1);
        CHECK(creep->strength == 1.0 && creep->share == 1.0 && creep->stretch != NULL);
    }
    end(&at);
}

/* A second of a blow is kept, with the fifth of a second before it. From 10 to 90 % of its height it takes a row, as
 * IEEE 181 counts: a row that is at 90 % has arrived. */
TEST(a_blow_keeps_its_second_and_its_rise)
{
    scene at = begin("time,outlet (kPa)\n");
    for (int row = 0; row < 6000; row++) {
        const double over = row == 3000 ? 180.0 : row == 3001 || row == 3002 ? 200.0 : 0.0;
        qll_write_format(&at.text, "2026-03-01 10:%02d:%02d.%02d,%.1f\n", row / 6000,
                         row / 100 % 60, row % 100, 400.0 + over);
    }
    read_in(&at, 100000);
    const qll_pressure_finding *hammer = pressure_found(&at.result, QLL_PRESSURE_WORD_HAMMER);
    if (CHECK(at.status == QLL_OK && hammer != NULL && hammer->stretch != NULL)) {
        CHECK_WITHIN(hammer->stretch->to_unix_s - hammer->stretch->from_unix_s, 1.19, 0.002);
        CHECK_WITHIN(hammer->rise_s, 0.01, 1e-9);
        CHECK_NEAR(hammer->value, 200e3, 1e-6);
    }
    end(&at);
}

/* One blow of 50 psi or three an hour are to be acted on, a single small one is not: docs/theory/pressure_log.md. Ten minutes
 * at 100 Hz, made up; a blow rings at 12 Hz and dies away in tenths of a second. */
TEST(blows_tell_by_their_height_or_by_their_number)
{
    static const struct {
        double height_kpa;
        int count;
        bool is_to_act;
    } logs[] = {{700.0, 1, true}, {140.0, 6, true}, {140.0, 1, false}, {700.0, 6, true}};

    for (size_t i = 0; i < sizeof logs / sizeof logs[0]; i++) {
        scene at = begin("time,outlet (kPa)\n");
        for (int row = 0; row < 60000; row++) {
            const double since_s = (row % (60000 / logs[i].count)) / 100.0 - 40.0;
            const double ring =
                since_s < 0.0 ? 0.0
                              : exp(-since_s / 0.12) * sin(6.283185307179586 * 12.0 * since_s);
            qll_write_format(&at.text, "2026-03-01 10:%02d:%02d.%02d,%.1f\n", row / 6000,
                             row / 100 % 60, row % 100,
                             400.0 + 0.5 * (row % 7 - 3) + 1.2 * logs[i].height_kpa * ring);
        }
        read_in(&at, 100000);
        const qll_pressure_finding *hammer = pressure_found(&at.result, QLL_PRESSURE_WORD_HAMMER);
        if (CHECK(at.status == QLL_OK && hammer != NULL)) {
            CHECK(hammer->count == logs[i].count);
            CHECK_NEAR(hammer->value, 1e3 * logs[i].height_kpa, 0.15);
            CHECK_NEAR(hammer->per_hour, 6.0 * logs[i].count, 1e-4);
            CHECK((hammer->strength >= 0.5) == logs[i].is_to_act);
        }
        end(&at);
    }
}

/* Rows that come as they like, 1 to 3 s apart: 12 kPa at 0.04 Hz, laid down by hand, keep their frequency. */
TEST(hunting_has_its_frequency_though_rows_come_unevenly)
{
    static const int steps_s[] = {1, 2, 1, 3, 1, 1, 2};
    scene at = begin("time,outlet (kPa),flow (L/s)\n");
    int time_s = 0;
    for (size_t row = 0; time_s < 7200; row++) {
        const double swing = 12.0 * sin(6.283185307179586 * 0.04 * time_s);
        qll_write_format(&at.text, "2026-03-01 %02d:%02d:%02d,%.2f,0.5\n", 8 + time_s / 3600,
                         time_s / 60 % 60, time_s % 60, 400.0 + swing + 0.1 * (double)(row % 5));
        time_s += steps_s[row * 7919 % 7];
    }
    read_in(&at, 4096);
    const qll_pressure_finding *hunting = pressure_found(&at.result, QLL_PRESSURE_WORD_HUNTING);
    if (CHECK(at.status == QLL_OK && hunting != NULL)) {
        CHECK_NEAR(hunting->frequency_hz, 0.04, 0.05);
        CHECK_NEAR(hunting->value, 12e3, 0.15);
    }
    end(&at);
}

TEST(every_allocation_may_fail)
{
    static const qll_pressure_expect none = {0};
    scene at = begin("time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    for (int i = 0; i < 3000; i++) {
        qll_write_format(&at.text, "2026-03-01 %02d:%02d:%02d,700.0,%d,%d\n", i / 3600, i / 60 % 60,
                         i % 60, 400 + i % 9, i % 2);
    }
    const qll_text text = qll_writer_text(&at.text);
    size_t failed = 0;
    for (size_t nth = 1; nth < 80; nth++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        qll_problems problems = qll_problems_none(arena);
        static qll_pressure_result result;
        qll_arena_fail(arena, nth, true);
        qll_flow_log *log = qll_pressure_log_open(&at.options, arena);
        qll_status status =
            log == NULL ? QLL_NO_MEMORY : qll_flow_log_feed(log, text.bytes, text.size);
        if (log != NULL) {
            status = qll_flow_log_finish(log, &result.log, &problems);
        }
        if (status == QLL_OK && !qll_pressure_judge(result.log.taken, &none, arena, &result)) {
            status = QLL_NO_MEMORY;
        }
        failed += status == QLL_NO_MEMORY ? 1U : 0U;
        CHECK(status == QLL_NO_MEMORY || status == QLL_OK);
        qll_arena_close(arena);
    }
    CHECK(failed > 20);
    end(&at);
}

int main(void)
{
    TEST_RUN(columns_are_told_apart_by_title_and_unit);
    TEST_RUN(units_in_cells_are_heeded_row_by_row);
    TEST_RUN(times_may_run_from_the_start);
    TEST_RUN(times_without_a_zone_are_in_the_one_that_is_given);
    TEST_RUN(a_row_without_a_time_is_left_out);
    TEST_RUN(bad_values_are_unknown_and_counted);
    TEST_RUN(what_the_log_does_not_say_is_refused);
    TEST_RUN(blocks_and_crumbs_say_the_same);
    TEST_RUN(gaps_are_listed_and_never_bridged);
    TEST_RUN(what_cannot_be_judged_says_why);
    TEST_RUN(what_a_rate_or_a_channel_cannot_show_says_what_would);
    TEST_RUN(each_state_is_found);
    TEST_RUN(a_rise_has_its_rate);
    TEST_RUN(a_blow_keeps_its_second_and_its_rise);
    TEST_RUN(blows_tell_by_their_height_or_by_their_number);
    TEST_RUN(hunting_has_its_frequency_though_rows_come_unevenly);
    TEST_RUN(every_allocation_may_fail);
    return TEST_END();
}
