/* The SQL of the store, embedded by cmake/embed.cmake. */
#ifndef QUELL_STORE_SQL_H
#define QUELL_STORE_SQL_H

#include <stddef.h>

#define QLL_SQL_FILE(symbol)                        \
    extern const unsigned char qll_file_##symbol[]; \
    extern const size_t qll_file_##symbol##_size

QLL_SQL_FILE(store_1);
QLL_SQL_FILE(store_2);
QLL_SQL_FILE(store_3);
QLL_SQL_FILE(store_search_1);
QLL_SQL_FILE(store_search_1_postgres);
QLL_SQL_FILE(store_statements);
QLL_SQL_FILE(store_search);
QLL_SQL_FILE(store_search_postgres);

#undef QLL_SQL_FILE

#endif
