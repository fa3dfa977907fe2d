/* RFC 1952: the packed text below was made by the gzip program. */
#include "check.h"
#include "host/unpack.h"

#include <stdlib.h>

typedef struct taken {
    char bytes[256];
    size_t size;
    qll_status answer;
} taken;

static qll_status take(void *context, const char *bytes, size_t size)
{
    taken *into = context;
    if (CHECK(size <= sizeof into->bytes - into->size)) {
        memcpy(into->bytes + into->size, bytes, size);
        into->size += size;
    }
    return into->answer;
}

static const char text[] = "time,flow\n1,2\n";
static const char twice[] = "time,flow\n1,2\ntime,flow\n1,2\n";

static const unsigned char packed[] = {0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02,
                                       0x03, 0x2b, 0xc9, 0xcc, 0x4d, 0xd5, 0x49, 0xcb, 0xc9,
                                       0x2f, 0xe7, 0x32, 0xd4, 0x31, 0xe2, 0x02, 0x00, 0xcc,
                                       0xe8, 0x30, 0x94, 0x0e, 0x00, 0x00, 0x00};

/* Unpacks in blocks; the status of the end. */
static qll_status unpack(const unsigned char *bytes, size_t size, size_t block, taken *into)
{
    qll_unpack *unpack = qll_unpack_open(take, into);
    qll_status status = QLL_OK;
    for (size_t at = 0; at < size && status == QLL_OK; at += block) {
        status = qll_unpack_feed(unpack, (const char *)bytes + at,
                                 block < size - at ? block : size - at);
    }
    status = qll_unpack_finish(unpack);
    qll_unpack_close(unpack);
    return status;
}

TEST(blocks_of_any_size_are_unpacked)
{
    for (size_t block = 1; block <= sizeof packed; block++) {
        taken into = {.size = 0};
        CHECK(unpack(packed, sizeof packed, block, &into) == QLL_OK);
        CHECK(into.size == strlen(text) && memcmp(into.bytes, text, into.size) == 0);
    }
}

TEST(members_follow_one_another)
{
    unsigned char two[2 * sizeof packed];
    memcpy(two, packed, sizeof packed);
    memcpy(two + sizeof packed, packed, sizeof packed);
    taken into = {.size = 0};
    CHECK(unpack(two, sizeof two, 5, &into) == QLL_OK);
    CHECK(into.size == strlen(twice) && memcmp(into.bytes, twice, into.size) == 0);
}

TEST(damage_is_seen)
{
    unsigned char bytes[sizeof packed];
    for (size_t size = 1; size < sizeof packed; size++) {
        taken into = {.size = 0};
        CHECK(unpack(packed, size, 7, &into) == QLL_IO);
    }
    memcpy(bytes, packed, sizeof packed);
    bytes[sizeof packed - 8] ^= 1; /* of the checksum */
    taken into = {.size = 0};
    CHECK(unpack(bytes, sizeof bytes, 7, &into) == QLL_IO);
}

TEST(the_sink_may_stop_it)
{
    taken into = {.answer = QLL_REFUSED};
    CHECK(unpack(packed, sizeof packed, sizeof packed, &into) == QLL_REFUSED);
    CHECK(qll_unpack_is_packed((const char *)packed, 2));
    CHECK(!qll_unpack_is_packed((const char *)packed, 1) && !qll_unpack_is_packed("ti", 2));
    qll_unpack_close(NULL);
}

int main(void)
{
    TEST_RUN(blocks_of_any_size_are_unpacked);
    TEST_RUN(members_follow_one_another);
    TEST_RUN(damage_is_seen);
    TEST_RUN(the_sink_may_stop_it);
    return TEST_END();
}
