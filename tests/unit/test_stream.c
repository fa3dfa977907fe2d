/* Files as streams: plain, packed, cut short, not there. */
#include "check.h"
#include "host/stream.h"

#include <stdint.h>
#include <stdlib.h>

typedef struct tally {
    size_t size, blocks;
    uint32_t sum;
    size_t most_blocks; /* then the sink refuses */
} tally;

static qll_status count(void *context, const char *bytes, size_t size)
{
    tally *to = context;
    for (size_t i = 0; i < size; i++) {
        to->sum = to->sum * 31 + (unsigned char)bytes[i];
    }
    to->size += size;
    to->blocks += 1;
    return to->blocks < to->most_blocks ? QLL_OK : QLL_REFUSED;
}

static tally all_of(const char *path, qll_status wanted, const char *part)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_host_file file = {.path = path, .arena = arena};
    tally to = {.most_blocks = SIZE_MAX};
    const char *why = "";
    CHECK(qll_host_stream(&file, count, &to, &why) == wanted);
    CHECK(strstr(why, part) != NULL);
    qll_arena_close(arena);
    return to;
}

static const char real_path[] = QUELL_ROOT "/tests/data/real/campus-residential-1s.csv.gz";

/* Writes the first @p size bytes of the packed log, or @p size bytes of text. */
static void write_file(const char *path, bool packed, size_t size)
{
    char *bytes = calloc(size + 1, 1);
    FILE *from = packed ? fopen(real_path, "rb") : NULL;
    FILE *file = fopen(path, "wb");
    if (CHECK(bytes != NULL && file != NULL && (from != NULL || !packed))) {
        CHECK(!packed || fread(bytes, 1, size, from) == size);
        CHECK(fwrite(bytes, 1, size, file) == size);
        fclose(file);
    }
    if (from != NULL) {
        fclose(from);
    }
    free(bytes);
}

/* Sizes by gzip -l and wc -c. */
TEST(a_packed_file_comes_unpacked_every_time)
{
    tally first = all_of(real_path, QLL_OK, "");
    tally second = all_of(real_path, QLL_OK, "");
    CHECK(first.size == 3963923);
    CHECK(first.sum == second.sum && first.size == second.size);
}

TEST(a_plain_file_comes_as_it_is)
{
    char path[] = "stream_plain.tmp";
    write_file(path, false, (size_t)3 * 8192);
    CHECK(all_of(path, QLL_OK, "").size == (size_t)3 * 8192);
    write_file(path, false, 0);
    CHECK(all_of(path, QLL_OK, "").size == 0);
    CHECK(remove(path) == 0);
}

/* What stands in the middle is what the stream had there, packed or not. */
TEST(a_file_is_read_again_at_any_place)
{
    static const char *const paths[] = {real_path, QUELL_ROOT "/tests/data/logs/shape_1.csv"};
    for (size_t i = 0; i < 2; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 20);
        qll_host_file file = {.path = paths[i], .arena = arena};
        qll_reread again = {0};
        const char *why = "";
        const tally once = all_of(paths[i], QLL_OK, "");
        if (CHECK(qll_host_again(&file, &again, &why) == QLL_OK)
            && CHECK(again.size == once.size)) {
            tally to = {.most_blocks = SIZE_MAX};
            char bytes[1000];
            for (uint64_t at = 0; at < again.size; at += sizeof bytes) {
                size_t size = sizeof bytes;
                CHECK(again.read_at(again.context, at, bytes, &size, &why) == QLL_OK);
                (void)count(&to, bytes, size);
            }
            CHECK(to.size == once.size && to.sum == once.sum);
            size_t size = sizeof bytes;
            CHECK(again.read_at(again.context, 10, bytes, &size, &why) == QLL_OK);
            CHECK(size == sizeof bytes);
            again.close(again.context);
        }
        qll_arena_close(arena);
    }
}

TEST(what_is_no_file_is_not_read_again)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_reread again = {0};
    const char *why = "";
    qll_host_file pipe = {.path = "/dev/null", .arena = arena};
    CHECK(qll_host_again(&pipe, &again, &why) == QLL_IO);
    qll_host_file nothing = {.path = "nowhere.csv", .arena = arena};
    CHECK(qll_host_again(&nothing, &again, &why) == QLL_IO);
    qll_arena_close(arena);
}

TEST(a_damaged_file_says_so)
{
    char path[] = "stream_cut.tmp";
    write_file(path, true, 5000);
    CHECK(all_of(path, QLL_IO, "gzip").size > 0);
    CHECK(remove(path) == 0);
    CHECK(all_of("stream_nowhere.tmp", QLL_IO, "No such file").size == 0);
    CHECK(all_of(QUELL_ROOT, QLL_IO, "directory").size == 0);
}

TEST(a_sink_that_has_enough_ends_it)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    const char *const paths[] = {real_path, QUELL_ROOT "/data/pipes.csv"};
    for (size_t i = 0; i < 2; i++) {
        qll_host_file file = {.path = paths[i], .arena = arena};
        tally to = {.most_blocks = 1};
        const char *why = "";
        CHECK(qll_host_stream(&file, count, &to, &why) == QLL_REFUSED);
        CHECK(to.blocks == 1);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_packed_file_comes_unpacked_every_time);
    TEST_RUN(a_plain_file_comes_as_it_is);
    TEST_RUN(a_file_is_read_again_at_any_place);
    TEST_RUN(what_is_no_file_is_not_read_again);
    TEST_RUN(a_damaged_file_says_so);
    TEST_RUN(a_sink_that_has_enough_ends_it);
    return TEST_END();
}
