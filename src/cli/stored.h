/* What the commands about records share: the store, who writes, the day, and the site that somebody means. */
#ifndef QUELL_CLI_STORED_H
#define QUELL_CLI_STORED_H

#include "quell/records.h"

#include "cli/options.h"
#include "store/store.h"

typedef struct qll_cli_site {
    const qll_cli_line *line;
    qll_arena *arena;
    qll_store *store;
    qll_telling telling;
    const char *moment; /* now */
    const char *who;
} qll_cli_site;

/** Where the records are that @p line means: --store, $QUELL_STORE, or the user's data folder; NULL = nobody knows. */
const char *qll_cli_store_place(const qll_cli_line *line, qll_arena *arena);

/** Opens the store that @p line names; complains if it cannot. Ended with qll_store_close() of its store. */
QLL_MUST_USE qll_status qll_cli_site_open(const qll_cli_line *line, qll_store_use use,
                                          qll_arena *arena, qll_cli_site *site);

/** The one site that @p text means; complains where there is none, or more than one. */
QLL_MUST_USE qll_status qll_cli_site_find(qll_cli_site *site, const char *text, qll_site_row *row);

/** Complains of @p why where @p status is no QLL_OK, and hands it on. */
QLL_MUST_USE qll_status qll_cli_site_said(const qll_cli_site *site, qll_status status,
                                          const qll_said *why);

/** All that stands of a site. Complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_site_records(qll_cli_site *site, const char *id,
                                             qll_records *records);

/** All sites, or those in which @p words are. Complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_site_rows(qll_cli_site *site, const char *words,
                                          qll_store_sites *rows);

/** Keeps @p record; complains if it cannot, or is refused. */
QLL_MUST_USE qll_status qll_cli_site_put(qll_cli_site *site, const qll_record *record);

/** Keeps the files that @p survey, which was kept already, names beside @p path; complains of those that cannot be had. */
QLL_MUST_USE qll_status qll_cli_site_keep_logs(qll_cli_site *site, const char *path,
                                               const qll_record *survey);

/** Prints an answer, and its problems on standard error. */
QLL_MUST_USE qll_status qll_cli_site_answer(const qll_cli_site *site, qll_status status,
                                            const qll_answer *answer);

/** Writes an answer to the file of -o, else to standard output; complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_site_hand_out(const qll_cli_site *site, const qll_answer *answer);

/** A new id; complains where the system gives none. */
QLL_MUST_USE qll_status qll_cli_site_id(const qll_cli_site *site, const char **id);

#endif
