#include "host/identity.h"

#include "base/text.h"
#include "host/host.h"

#include <pwd.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <time.h>
#include <unistd.h>

const char *qll_host_uuid(qll_arena *arena)
{
    unsigned char bytes[16];
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes) {
        return NULL;
    }
    /* Version and variant: RFC 9562, 4.1 and 4.2. */
    bytes[6] = (unsigned char)((bytes[6] & 0x0fU) | 0x40U);
    bytes[8] = (unsigned char)((bytes[8] & 0x3fU) | 0x80U);
    qll_writer text = qll_writer_new(arena);
    for (size_t i = 0; i < sizeof bytes; i++) {
        const bool is_hyphen = i == 4 || i == 6 || i == 8 || i == 10;
        qll_write(&text, is_hyphen ? "-" : "");
        qll_write_byte(&text, "0123456789abcdef"[bytes[i] >> 4], 1);
        qll_write_byte(&text, "0123456789abcdef"[bytes[i] & 15U], 1);
    }
    return text.no_memory ? NULL : qll_writer_text(&text).bytes;
}

const char *qll_host_moment(qll_arena *arena)
{
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    if (epoch != NULL && epoch[0] != '\0') {
        const char *created = qll_host_created(arena);
        return created[0] == '\0' ? NULL : created;
    }
    const time_t now = time(NULL);
    struct tm parts;
    char text[32];
    if (localtime_r(&now, &parts) == NULL
        || strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%S%z", &parts) != 24) {
        return NULL;
    }
    /* strftime() writes "-0700". */
    qll_writer moment = qll_writer_new(arena);
    qll_write_text(&moment, (qll_text){text, 22});
    qll_write(&moment, ":");
    qll_write(&moment, text + 22);
    return moment.no_memory ? NULL : qll_writer_text(&moment).bytes;
}

const char *qll_host_user(qll_arena *arena)
{
    const struct passwd *user = getpwuid(geteuid());
    return user == NULL || user->pw_name == NULL
               ? NULL
               : qll_arena_copy(arena, user->pw_name, strlen(user->pw_name));
}

const char *qll_host_setting(const char *name)
{
    const char *value = getenv(name);
    return value == NULL || value[0] == '\0' ? NULL : value;
}

const char *qll_host_data_file(const char *name, qll_arena *arena)
{
    const char *data = qll_host_setting("XDG_DATA_HOME");
    const char *home = qll_host_setting("HOME");
    const char *why = "";
    if (data == NULL && home == NULL) {
        return NULL;
    }
    qll_writer path = qll_writer_new(arena);
    if (data != NULL) {
        qll_write(&path, data);
    } else {
        /* Each folder in turn: a new user has none of them. */
        qll_write_format(&path, "%s/.local", home);
        (void)!qll_host_make_folder(qll_writer_text(&path).bytes, arena, &why);
        qll_write(&path, "/share");
    }
    (void)!qll_host_make_folder(qll_writer_text(&path).bytes, arena, &why);
    qll_write(&path, "/quell");
    (void)!qll_host_make_folder(qll_writer_text(&path).bytes, arena, &why);
    qll_write_format(&path, "/%s", name);
    return path.no_memory ? NULL : qll_writer_text(&path).bytes;
}
