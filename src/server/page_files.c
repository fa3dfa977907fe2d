#include "server/page_files.h"

#include "base/count.h"
#include "base/digest.h"
#include "host/host.h"

#include <string.h>

#define PACKED ".br"

static const char *type_of(const char *name)
{
    static const struct {
        const char *ending, *type;
    } types[] = {
        {".html", "text/html; charset=utf-8"},
        {".js", "text/javascript; charset=utf-8"},
        {".css", "text/css; charset=utf-8"},
        {".wasm", "application/wasm"},
        {".svg", "image/svg+xml"},
        {".webmanifest", "application/manifest+json"},
        {".md", "text/plain; charset=utf-8"},
    };

    for (size_t i = 0; i < QLL_COUNT(types); i++) {
        if (qll_text_ends_in(qll_text_of(name), types[i].ending)) {
            return types[i].type;
        }
    }
    return "application/octet-stream";
}

static qll_status read_file(const char *folder, const char *name, qll_arena *arena,
                            qll_page_file *file, const char **why)
{
    qll_writer path = qll_writer_new(arena);
    qll_write_format(&path, "%s/%s", folder, name);
    *file = (qll_page_file){.name = name, .type = type_of(name)};
    const qll_status status = qll_host_read(qll_writer_text(&path).bytes, arena, &file->bytes, why);
    qll_writer tag = qll_writer_new(arena);
    qll_write(&tag, "\"");
    qll_digest_write(&tag, file->bytes, QLL_DIGEST_SIZE / 2);
    qll_write(&tag, "\"");
    file->tag = qll_writer_text(&tag).bytes;
    return path.no_memory || tag.no_memory ? QLL_NO_MEMORY : status;
}

/* The file that @p packed is the packed form of; NULL. */
static qll_page_file *unpacked_of(qll_page_file *files, size_t count, const qll_page_file *packed)
{
    const size_t size = strlen(packed->name) - strlen(PACKED);
    for (size_t i = 0; i < count; i++) {
        if (strlen(files[i].name) == size && strncmp(files[i].name, packed->name, size) == 0) {
            return &files[i];
        }
    }
    return NULL;
}

/* Puts what is packed into its file; returns how many files are left. */
static size_t put_packed(qll_page_file *files, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        /* Names come in order: a file stands before its packed form. */
        qll_page_file *whole = qll_text_ends_in(qll_text_of(files[i].name), PACKED)
                                   ? unpacked_of(files, kept, &files[i])
                                   : NULL;
        if (whole == NULL) {
            files[kept++] = files[i];
        } else {
            whole->packed = files[i].bytes;
            whole->packed_tag = files[i].tag;
        }
    }
    return kept;
}

qll_status qll_page_files_read(const char *folder, qll_arena *arena, qll_page_files *files,
                               const char **why)
{
    const char *const *names = NULL;
    size_t count = 0;
    *files = (qll_page_files){0};
    qll_status status = qll_host_list(folder, arena, &names, &count, why);
    qll_page_file *read = status == QLL_OK ? qll_arena_take(arena, count, sizeof *read) : NULL;
    if (status == QLL_OK && read == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = read_file(folder, names[i], arena, &read[i], why);
    }
    if (status == QLL_OK) {
        *files = (qll_page_files){read, put_packed(read, count)};
    }
    return status;
}

const qll_page_file *qll_page_files_find(const qll_page_files *files, const char *path)
{
    const char *name = strcmp(path, "/") == 0 ? "index.html" : path + (path[0] == '/' ? 1 : 0);
    for (size_t i = 0; i < files->count; i++) {
        if (strcmp(files->files[i].name, name) == 0) {
            return &files->files[i];
        }
    }
    return NULL;
}
