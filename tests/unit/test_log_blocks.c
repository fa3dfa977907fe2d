/* What a log says does not depend on how its bytes come: in blocks of any size, parted by empty lines, as a list, in long
 * stretches of any order. */
#include "growing.h"
#include "log_scene.h"

/* The size of the blocks is nothing the log knows of, nor are empty lines but by their number. */
static log_scene same_in_any_blocks(const char *bytes, size_t size)
{
    qll_flow_log_options options = qll_flow_log_options_default();
    options.unit = "gpm";
    log_scene whole = log_scene_text(bytes, size, &options, size);
    static const size_t blocks[] = {1, 7, 16, 61, 4096, 65536};
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++) {
        log_scene cut = log_scene_text(bytes, size, &options, blocks[i]);
        CHECK(cut.status == QLL_OK && whole.status == QLL_OK);
        CHECK(cut.result.volume_m3 == whole.result.volume_m3);
        CHECK(cut.result.line_count == whole.result.line_count);
        CHECK(cut.result.point_count == whole.result.point_count);
        for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
            CHECK_WITHIN(cut.result.peaks[w].rolling_m3s, whole.result.peaks[w].rolling_m3s, 0.0);
            CHECK_WITHIN(cut.result.peaks[w].block_m3s, whole.result.peaks[w].block_m3s, 0.0);
        }
        log_scene_end(&cut);
    }
    return whole;
}

/* Three hours at 1 s, made up, more than is looked at before the first row is taken; @p empty: at most so many empty lines
 * behind a row. */
static growing seconds_log(size_t empty, long long *added)
{
    growing text = {0};
    char row[100];
    *added = 0;
    grow(&text, "time,flow\n");
    for (size_t i = 0; i < 10800; i++) {
        snprintf(row, sizeof row, "2024-03-18 %02zu:%02zu:%02zu,%.1f\n", 6 + i / 3600, i / 60 % 60,
                 i % 60, i % 90 < 40 ? 1.0 + (double)(i % 37) / 10.0 : 0.0);
        grow(&text, row);
        for (size_t e = 0; empty > 0 && i % 7 == 3 && e <= i % empty; e++, *added += 1) {
            grow(&text, "\n");
        }
    }
    return text;
}

TEST(blocks_of_any_size_give_one_answer)
{
    size_t size = 0;
    char *bytes = log_scene_bytes("tests/data/logs/shape_3.csv", &size);
    log_scene real = same_in_any_blocks(bytes, size);
    log_scene_end(&real);
    free(bytes);
    long long none = 0;
    long long added = 0;
    growing plain = seconds_log(0, &none);
    growing spaced = seconds_log(20, &added);
    log_scene whole = same_in_any_blocks(plain.bytes, plain.size);
    log_scene parted = same_in_any_blocks(spaced.bytes, spaced.size);
    CHECK(added > 10000 && parted.result.line_count == whole.result.line_count + added);
    CHECK(parted.result.row_count == 10800 && whole.result.row_count == 10800);
    CHECK(parted.result.volume_m3 == whole.result.volume_m3);
    log_scene_end(&whole);
    log_scene_end(&parted);
    free(plain.bytes);
    free(spaced.bytes);
}

/* Two halves in the wrong order, each longer than what is read at once, say what they say in order. */
TEST(long_stretches_are_put_in_order)
{
    long long none = 0;
    growing plain = seconds_log(0, &none);
    const size_t head = strlen("time,flow\n");
    const size_t half = head + (plain.size - head) / 2; /* rows are of one length */
    growing turned = {0};
    char *rows = calloc(plain.size + 1, 1);
    if (!CHECK(rows != NULL)) {
        return;
    }
    memcpy(rows, plain.bytes, head);
    memcpy(rows + head, plain.bytes + half, plain.size - half);
    memcpy(rows + head + plain.size - half, plain.bytes + head, half - head);
    grow(&turned, rows);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.unit = "gpm";
    log_scene whole = log_scene_whole(plain.bytes, plain.size, &options);
    log_scene mixed = log_scene_whole(turned.bytes, turned.size, &options);
    CHECK(plain.bytes[half - 1] == '\n' && half - head > QLL_LOG_LINE_SIZE);
    if (CHECK(whole.status == QLL_OK && mixed.status == QLL_OK)) {
        CHECK(mixed.result.row_count == 10800 && whole.result.row_count == 10800);
        CHECK(mixed.result.volume_m3 == whole.result.volume_m3);
        for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
            CHECK(mixed.result.peaks[w].rolling_m3s == whole.result.peaks[w].rolling_m3s);
        }
    } else {
        log_scene_print(&mixed);
    }
    log_scene_end(&whole);
    log_scene_end(&mixed);
    free(plain.bytes);
    free(turned.bytes);
    free(rows);
}

/* Telemetry as one object a line, or as a list of them: brackets on lines of their own or beside the objects. */
TEST(a_list_of_objects_is_read_as_its_lines)
{
    static const struct {
        const char *open, *between, *close;
    } lists[] = {
        {"", "\n", "\n"}, {"[\n", ",\n", "\n]\n"}, {"[", ",\n", "]\n"}, {"[", " ,\r\n ", " ]"}};

    size_t size = 0;
    char *bytes = log_scene_bytes("tests/data/logs/shape_6.jsonl", &size);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.value_column = "meter1Pulse";
    options.pulse_m3 = 0.01;
    log_scene plain = log_scene_text(bytes, size, &options, size);
    CHECK(plain.status == QLL_OK && plain.result.row_count == 60);
    for (size_t l = 0; l < sizeof lists / sizeof *lists; l++) {
        growing text = {0};
        char line[400];
        grow(&text, lists[l].open);
        for (size_t at = 0; at < size;) {
            const char *stop = memchr(bytes + at, '\n', size - at);
            const size_t length = stop == NULL ? size - at : (size_t)(stop - bytes) - at;
            (void)snprintf(line, sizeof line, "%s%.*s", at > 0 ? lists[l].between : "", (int)length,
                           bytes + at);
            grow(&text, length > 0 ? line : "");
            at += length + 1;
        }
        grow(&text, lists[l].close);
        log_scene listed = log_scene_text(text.bytes, text.size, &options, 61);
        if (CHECK(listed.status == QLL_OK)) {
            CHECK(listed.result.row_count == plain.result.row_count);
            CHECK(listed.result.volume_m3 == plain.result.volume_m3);
            CHECK(listed.result.mends[QLL_LOG_MEND_SHORT_ROW].count == 0);
        } else {
            printf("    list %zu\n", l);
            log_scene_print(&listed);
        }
        log_scene_end(&listed);
        free(text.bytes);
    }
    log_scene_end(&plain);
    free(bytes);
}

int main(void)
{
    TEST_RUN(blocks_of_any_size_give_one_answer);
    TEST_RUN(long_stretches_are_put_in_order);
    TEST_RUN(a_list_of_objects_is_read_as_its_lines);
    return TEST_END();
}
