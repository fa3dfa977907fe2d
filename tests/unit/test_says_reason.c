/* Why a file fails, in another language: the English words are the C library's own. */
#include "check.h"
#include "wording/messages.h"
#include "wording/says_reason.h"
#include "wording/wording.h"

#include <errno.h>
#include <string.h>

static const char *say(qll_arena *arena, qll_language language, const char *why)
{
    const qll_wording wording = {.language = language};
    const qll_said said = {QLL_TEXT_HINT_AS_ARGUMENT, {qll_as_is("x"), qll_as_reason(why)}};
    return qll_said_text(arena, &wording, &said);
}

TEST(what_the_system_says_is_said_in_spanish)
{
    static const int errors[] = {ENOENT, EACCES, EISDIR,       ENOTDIR, ENOSPC,
                                 EROFS,  EIO,    ENAMETOOLONG, EFBIG};
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++) {
        const char *system = strerror(errors[i]);
        CHECK(strstr(say(arena, QLL_LANGUAGE_EN, system), system) != NULL);
        if (!CHECK(strstr(say(arena, QLL_LANGUAGE_ES, system), system) == NULL)) {
            printf("    %s\n", system);
        }
    }
    /* What nobody has other words for stays as it is. */
    CHECK_TEXT(say(arena, QLL_LANGUAGE_ES, "Stale file handle"), "x: Stale file handle");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(what_the_system_says_is_said_in_spanish);
    return TEST_END();
}
