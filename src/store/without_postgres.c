/* In place of database_postgres.c where the headers of libpq are not there. */
#include "store/database.h"

qll_status qll_database_open_postgres(const char *place, qll_database **database, qll_said *why)
{
    (void)place;
    *database = NULL;
    *why = (qll_said){QLL_TEXT_STORE_NO_POSTGRES, {qll_as_is("libpq-dev")}};
    return QLL_IO;
}
