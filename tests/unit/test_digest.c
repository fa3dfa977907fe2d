/* Digests of published messages: NIST, "Example values" of SHA-256 (the first, second and fifth), and the
 * two of FIPS 180-2, B.1 and B.3, which are among them; the others by coreutils' sha256sum, which knows
 * nothing of us: they stand on either side of a block's end. */
#include "base/digest.h"
#include "check.h"

#include <string.h>

static void check_digest(char byte, size_t times, const char *whole, const char *wanted)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    qll_writer message = qll_writer_new(arena);
    qll_write(&message, whole);
    qll_write_byte(&message, byte, times);
    qll_writer digest = qll_writer_new(arena);
    qll_digest_write(&digest, qll_writer_text(&message), QLL_DIGEST_SIZE);
    const char *made = qll_writer_text(&digest).bytes;
    if (!CHECK(strcmp(made, wanted) == 0)) {
        printf("    %s\n    %s\n", made, wanted);
    }
    qll_arena_close(arena);
}

TEST(published_messages_have_their_digests)
{
    check_digest(' ', 0, "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    check_digest(' ', 0, "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    check_digest(' ', 0, "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                 "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    check_digest('a', 1000000, "",
                 "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(the_ends_of_blocks_are_right)
{
    check_digest('x', 55, "", "d5e285683cd4efc02d021a5c62014694958901005d6f71e89e0989fac77e4072");
    check_digest('x', 56, "", "04c26261370ee7541549d16dee320c723e3fd14671e66a099afe0a377c16888e");
    check_digest('x', 63, "", "75220b47218278e656f2013bb8f0c455a25eaf01e86c64924e9d48d89776d6f2");
    check_digest('x', 64, "", "7ce100971f64e7001e8fe5a51973ecdfe1ced42befe7ee8d5fd6219506b5393c");
    check_digest('x', 65, "", "9537c5fdf120482f7d58d25e9ed583f52c02b4e304ea814db1633ad565aed7e9");
    check_digest('x', 119, "", "000b48d4edf0fa7bee3c6236ecd2785baa5db4eeb8bb54341b029e0d9fa5fb0c");
    check_digest('x', 120, "", "13f05a0b594787f5ecd315edc96141bd3243203d1b7d4f0836f37308b276ba98");
}

TEST(the_first_bytes_are_written_alone)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 16);
    qll_writer digest = qll_writer_new(arena);
    qll_digest_write(&digest, qll_text_of("abc"), 6);
    CHECK(strcmp(qll_writer_text(&digest).bytes, "ba7816bf8f01") == 0);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(published_messages_have_their_digests);
    TEST_RUN(the_ends_of_blocks_are_right);
    TEST_RUN(the_first_bytes_are_written_alone);
    return TEST_END();
}
