#include "store/database.h"

#include <string.h>

qll_value_of qll_sql_text(const char *closed)
{
    return closed == NULL ? (qll_value_of){.is = QLL_COLUMN_NULL}
                          : (qll_value_of){.is = QLL_COLUMN_TEXT, .text = {closed, strlen(closed)}};
}

qll_value_of qll_sql_part(qll_text text)
{
    return (qll_value_of){.is = QLL_COLUMN_TEXT, .text = text};
}

qll_value_of qll_sql_whole(long long whole)
{
    return (qll_value_of){.is = QLL_COLUMN_WHOLE, .whole = whole};
}

qll_value_of qll_sql_bytes(qll_text bytes)
{
    return (qll_value_of){.is = QLL_COLUMN_BYTES, .text = bytes};
}
