#include "store/inside.h"

#include "base/text.h"

#include <stdint.h>
#include <string.h>

qll_status qll_take_whole(void *context, const qll_value_of *row)
{
    *(long long *)context = row[0].whole;
    return QLL_OK;
}

const char *qll_column_text(const qll_value_of *column, qll_arena *arena)
{
    return column->is == QLL_COLUMN_NULL
               ? NULL
               : qll_arena_copy(arena, column->text.bytes, column->text.size);
}

void *qll_growing_add(qll_growing *growing)
{
    if (growing->count == growing->room) {
        const size_t room = growing->room == 0 ? 16 : growing->room * 2;
        void *items =
            room < growing->room ? NULL : qll_arena_take(growing->arena, room, growing->size);
        if (items == NULL) {
            return NULL;
        }
        if (growing->count > 0) {
            memcpy(items, growing->items, growing->count * growing->size);
        }
        growing->items = items;
        growing->room = room;
    }
    growing->count += 1;
    return (char *)growing->items + (growing->count - 1) * growing->size;
}

qll_status qll_store_begin(qll_store *store, long long *receipt, qll_said *why)
{
    const qll_database_kind *kind = store->database->kind;
    *receipt = 0;
    qll_status status = kind->begin(store->database, why);
    if (status == QLL_OK) {
        status = QLL_RUN_BARE(store, LOCK, qll_take_whole, receipt, why);
        status = status == QLL_OK ? QLL_OK : qll_store_end(store, status, why);
    }
    return status;
}

qll_status qll_store_end(qll_store *store, qll_status status, qll_said *why)
{
    const qll_database_kind *kind = store->database->kind;
    status = status == QLL_OK ? kind->commit(store->database, why) : status;
    if (status != QLL_OK) {
        kind->undo(store->database);
    }
    return status;
}

void qll_name_key(qll_writer *writer, const char *name)
{
    for (const char *c = name; *c != '\0'; c++) {
        qll_write_byte(writer, *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c, 1);
    }
}
