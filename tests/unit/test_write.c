/* Files are replaced whole or not at all; what goes wrong is said. */
#include "check.h"
#include "host/host.h"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static char folder[] = "/tmp/quell-write-??????"; /* mkdtemp() wants six X */

static const char *path_of(const char *name)
{
    static char path[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void put(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    if (CHECK(file != NULL)) {
        fputs(text, file);
        fclose(file);
    }
}

static const char *get(const char *path)
{
    static char text[64];
    memset(text, 0, sizeof text);
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return "(none)";
    }
    size_t size = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    text[size] = '\0';
    return text;
}

static mode_t mode_at(const char *path)
{
    struct stat found = {0};
    CHECK(stat(path, &found) == 0);
    return found.st_mode & 07777;
}

/* How many files lie about: a failed write leaves none behind. */
static int file_count(void)
{
    DIR *opened = opendir(folder);
    int count = 0;
    if (CHECK(opened != NULL)) {
        while (readdir(opened) != NULL) {
            count += 1;
        }
        closedir(opened);
    }
    return count - 2; /* itself and its parent */
}

static qll_status write_text(const char *path, const char *text, const char **why)
{
    static char kept[128];
    qll_arena *arena = qll_arena_open(1 << 20);
    const char *says = "";
    qll_status status = qll_host_write(path, qll_text_of(text), arena, &says);
    snprintf(kept, sizeof kept, "%s", says);
    *why = kept;
    qll_arena_close(arena);
    return status;
}

TEST(a_new_file_gets_the_usual_mode)
{
    const char *why = "";
    mode_t mask = umask(027);
    CHECK(write_text(path_of("new"), "first", &why) == QLL_OK);
    umask(mask);
    CHECK_TEXT(get(path_of("new")), "first");
    CHECK(mode_at(path_of("new")) == 0640);
    CHECK(file_count() == 1);
}

TEST(an_old_file_is_replaced_and_keeps_its_mode)
{
    const char *why = "";
    put(path_of("old"), "before");
    CHECK(chmod(path_of("old"), 0604) == 0);
    CHECK(write_text(path_of("old"), "after", &why) == QLL_OK);
    CHECK_TEXT(get(path_of("old")), "after");
    CHECK(mode_at(path_of("old")) == 0604);
}

TEST(a_link_stays_a_link)
{
    const char *why = "";
    char target[256];
    snprintf(target, sizeof target, "%s", path_of("target"));
    put(target, "before");
    CHECK(symlink(target, path_of("link")) == 0);
    CHECK(write_text(path_of("link"), "after", &why) == QLL_OK);
    struct stat found = {0};
    CHECK(lstat(path_of("link"), &found) == 0 && S_ISLNK(found.st_mode));
    CHECK_TEXT(get(target), "after");
}

/* Root may hand files over: what it replaces stays its owner's, and lends the owner's rights as before. */
TEST(an_old_file_stays_its_owners)
{
    if (geteuid() != 0) {
        return;
    }
    const char *why = "";
    const uid_t owner = 65534;
    put(path_of("another's"), "before");
    CHECK(chown(path_of("another's"), owner, owner) == 0);
    CHECK(chmod(path_of("another's"), 04664) == 0);
    CHECK(write_text(path_of("another's"), "after", &why) == QLL_OK);
    struct stat found = {0};
    CHECK(stat(path_of("another's"), &found) == 0 && found.st_uid == owner
          && found.st_gid == owner);
    CHECK((found.st_mode & 07777) == 04664);
    CHECK_TEXT(get(path_of("another's")), "after");
}

/* Where the old owner's file cannot be given back to it, the new one lends nobody's rights. */
TEST(rights_are_not_lent_by_another_owner)
{
    const char *why = "";
    if (geteuid() != 0) {
        return;
    }
    CHECK(mkdir(path_of("open"), 0700) == 0 && chmod(path_of("open"), 0777) == 0);
    put(path_of("open/roots"), "before");
    CHECK(chmod(path_of("open/roots"), 04666) == 0);
    CHECK(chmod(folder, 0755) == 0);
    CHECK(seteuid(65534) == 0);
    CHECK(write_text(path_of("open/roots"), "after", &why) == QLL_OK);
    CHECK(seteuid(0) == 0);
    CHECK(mode_at(path_of("open/roots")) == 0666);
}

/* A limit on the size of files stands in for a full disk: the write fails half way. */
TEST(what_does_not_fit_leaves_the_old_file_whole)
{
    const char *why = "";
    put(path_of("kept"), "before");
    int count = file_count();
    struct rlimit old = {0};
    CHECK(getrlimit(RLIMIT_FSIZE, &old) == 0);
    struct rlimit small = {.rlim_cur = 4, .rlim_max = old.rlim_max};
    (void)signal(SIGXFSZ, SIG_IGN);
    CHECK(setrlimit(RLIMIT_FSIZE, &small) == 0);
    qll_status status = write_text(path_of("kept"), "much more than four bytes", &why);
    CHECK(setrlimit(RLIMIT_FSIZE, &old) == 0);
    CHECK(status == QLL_IO);
    CHECK(why[0] != '\0');
    CHECK_TEXT(get(path_of("kept")), "before");
    CHECK(file_count() == count);
}

/* Of a run that was killed while it wrote; one that is being written is held locked. */
TEST(left_over_files_are_taken_away)
{
    const char *why = "";
    put(path_of(".quell-abcdef"), "half of a");
    put(path_of(".quell-abcdefg"), "somebody else's");
    put(path_of(".quell-locked"), "half of a");
    const int held = open(path_of(".quell-locked"), O_RDONLY | O_CLOEXEC);
    CHECK(held >= 0 && flock(held, LOCK_EX | LOCK_NB) == 0);
    CHECK(write_text(path_of("swept"), "whole", &why) == QLL_OK);
    CHECK_TEXT(get(path_of(".quell-abcdef")), "(none)");
    CHECK_TEXT(get(path_of(".quell-abcdefg")), "somebody else's");
    CHECK_TEXT(get(path_of(".quell-locked")), "half of a");
    CHECK(close(held) == 0);
    CHECK(write_text(path_of("swept"), "whole", &why) == QLL_OK);
    CHECK_TEXT(get(path_of(".quell-locked")), "(none)");
}

TEST(a_link_to_nothing_is_not_replaced)
{
    const char *why = "";
    CHECK(symlink("nowhere", path_of("dangling")) == 0);
    CHECK(write_text(path_of("dangling"), "x", &why) == QLL_IO);
    CHECK_TEXT(why, "it is a link to a file that is not there");
    struct stat found = {0};
    CHECK(lstat(path_of("dangling"), &found) == 0 && S_ISLNK(found.st_mode));
}

TEST(one_file_has_many_names)
{
    char target[256];
    char other[256];
    snprintf(target, sizeof target, "%s", path_of("named"));
    put(target, "x");
    CHECK(symlink(target, path_of("named too")) == 0);
    snprintf(other, sizeof other, "%s", path_of("named too"));
    CHECK(qll_host_same_file(target, other));
    CHECK(link(target, path_of("named hard")) == 0);
    CHECK(qll_host_same_file(target, path_of("named hard")));
    put(path_of("another"), "x");
    CHECK(!qll_host_same_file(target, path_of("another")));
    CHECK(!qll_host_same_file(target, path_of("not there")));
    CHECK(!qll_host_same_file("/dev/null", "/dev/null"));
}

/* A signal that comes while a file is filled waits: the file is whole, or there is none, and nothing lies about. */
TEST(a_signal_leaves_nothing_half_done)
{
    static char text[1 << 20];
    memset(text, 'x', sizeof text - 1);
    int count = file_count();
    for (int i = 0; i < 20; i++) {
        const pid_t child = fork();
        if (child == 0) {
            const char *why = "";
            for (;;) {
                (void)write_text(path_of("signalled"), text, &why);
            }
        }
        struct timespec wait = {.tv_nsec = 1000000L * (1 + i)};
        (void)nanosleep(&wait, NULL);
        int status = 0;
        CHECK(kill(child, i % 2 == 0 ? SIGTERM : SIGHUP) == 0);
        CHECK(waitpid(child, &status, 0) == child && WIFSIGNALED(status));
        struct stat found = {0};
        CHECK(stat(path_of("signalled"), &found) != 0 || found.st_size == (off_t)sizeof text - 1);
    }
    (void)unlink(path_of("signalled"));
    CHECK(file_count() == count);
}

TEST(a_full_device_says_so)
{
    const char *why = "";
    CHECK(write_text("/dev/full", "anything", &why) == QLL_IO);
    CHECK_TEXT(why, "No space left on device");
    struct stat found = {0};
    CHECK(stat("/dev/full", &found) == 0 && S_ISCHR(found.st_mode));
    CHECK(write_text("/dev/null", "anything", &why) == QLL_OK);
}

/* As one who may write neither the file, nor its folder. */
static void cannot_write_into_folders(void)
{
    const char *why = "";
    CHECK(write_text(path_of("locked file"), "x", &why) == QLL_IO);
    CHECK_TEXT(why, "Permission denied");
    CHECK_TEXT(get(path_of("locked file")), "before");
    CHECK(write_text(path_of("locked/file"), "x", &why) == QLL_IO);
    CHECK_TEXT(why, "its folder takes no new file: Permission denied");
    /* This file may be written, but its folder takes no other in its place. */
    CHECK(write_text(path_of("locked/open"), "x", &why) == QLL_IO);
    CHECK_TEXT(why, "its folder takes no new file: Permission denied");
    CHECK_TEXT(get(path_of("locked/open")), "before");
}

TEST(folders_that_cannot_be_written_say_so)
{
    const char *why = "";
    CHECK(write_text(path_of("no/such/folder"), "x", &why) == QLL_IO);
    CHECK_TEXT(why, "No such file or directory");
    CHECK(write_text(folder, "x", &why) == QLL_IO);
    CHECK_TEXT(why, "Is a directory");
    put(path_of("locked file"), "before");
    CHECK(chmod(path_of("locked file"), 0444) == 0);
    CHECK(mkdir(path_of("locked"), 0755) == 0);
    put(path_of("locked/open"), "before");
    CHECK(chmod(path_of("locked/open"), 0666) == 0 && chmod(path_of("locked"), 0555) == 0);
    CHECK(chmod(folder, 0755) == 0);
    /* Root may write anywhere, and so somebody else tries. */
    (void)fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        const int before = check_failures;
        if (geteuid() == 0) {
            CHECK(setuid(65534) == 0);
        }
        cannot_write_into_folders();
        (void)fflush(stdout);
        _exit(check_failures == before ? 0 : 1);
    }
    int status = 0;
    CHECK(waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

TEST(the_date_can_be_told)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    CHECK(setenv("SOURCE_DATE_EPOCH", "1769860800", 1) == 0);
    CHECK_TEXT(qll_host_created(arena), "2026-01-31T12:00:00Z");
    CHECK(setenv("SOURCE_DATE_EPOCH", "soon", 1) == 0);
    CHECK(strlen(qll_host_created(arena)) == strlen("2026-01-31T12:00:00Z"));
    qll_arena_close(arena);
}

int main(void)
{
    memset(folder + strlen(folder) - 6, 'X', 6);
    if (mkdtemp(folder) == NULL) {
        printf("no folder to work in\n");
        return 1;
    }
    TEST_RUN(a_new_file_gets_the_usual_mode);
    TEST_RUN(an_old_file_is_replaced_and_keeps_its_mode);
    TEST_RUN(a_link_stays_a_link);
    TEST_RUN(an_old_file_stays_its_owners);
    TEST_RUN(rights_are_not_lent_by_another_owner);
    TEST_RUN(what_does_not_fit_leaves_the_old_file_whole);
    TEST_RUN(left_over_files_are_taken_away);
    TEST_RUN(a_link_to_nothing_is_not_replaced);
    TEST_RUN(one_file_has_many_names);
    TEST_RUN(a_signal_leaves_nothing_half_done);
    TEST_RUN(a_full_device_says_so);
    TEST_RUN(folders_that_cannot_be_written_say_so);
    TEST_RUN(the_date_can_be_told);
    char command[300];
    snprintf(command, sizeof command, "chmod -R u+w %s; rm -rf %s", folder, folder);
    if (system(command) != 0) {
        printf("%s stays behind\n", folder);
    }
    return TEST_END();
}
