/* The page's files, in memory from the start: what is asked for is looked up among them and never on the disk, so that no path
 * leads anywhere else. */
#ifndef QUELL_SERVER_PAGE_FILES_H
#define QUELL_SERVER_PAGE_FILES_H

#include "quell/problems.h"

#include "base/text.h"

typedef struct qll_page_file {
    const char *name; /* "page.js" */
    const char *type; /* "text/javascript; charset=utf-8" */
    const char *tag;  /* of its bytes, for If-None-Match, with its quotes */
    qll_text bytes;
    const char *packed_tag;
    qll_text
        packed; /* the same by Brotli (RFC 7932), from "page.js.br" beside it; empty where there is none */
} qll_page_file;

typedef struct qll_page_files {
    const qll_page_file *files;
    size_t count; /* 0 = this copy came without the page */
} qll_page_files;

/**
 * Reads all files of @p folder; what lies packed beside its file becomes a part of that.
 *
 * @param files in @p arena
 * @param why   on QLL_IO what the system says of it
 * @return QLL_OK, QLL_IO or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_page_files_read(const char *folder, qll_arena *arena,
                                            qll_page_files *files, const char **why);

/** The file that @p path ("/page.js", "/") leads to; NULL where there is none. */
const qll_page_file *qll_page_files_find(const qll_page_files *files, const char *path);

#endif
