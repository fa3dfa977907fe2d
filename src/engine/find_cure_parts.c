/* What is bought for each cure: of the parts of the station as it is then, those that are not there yet. */
#include "engine/find.h"

#include <math.h>
#include <stdint.h>

static bool buys_a_valve(const qll_cure *cure)
{
    return cure->kind >= QLL_CURE_SMALL_BESIDE && cure->kind <= QLL_CURE_WHOLE;
}

static bool is_bought(const qll_cure *cure, const qll_piece *piece)
{
    const bool is_of_valve = piece->branch == cure->branch && piece->stage == cure->stage;
    switch (cure->kind) {
    case QLL_CURE_SMALL_BESIDE:
        return is_of_valve || piece->kind == QLL_PIECE_TEE || piece->kind == QLL_PIECE_ELBOW;
    case QLL_CURE_SMALLER_VALVE:
        return is_of_valve && piece->kind != QLL_PIECE_STOP; /* they stay */
    case QLL_CURE_STAGE_BEFORE:
        return is_of_valve || (piece->kind == QLL_PIECE_GAUGE && piece->joint == cure->stage + 1);
    case QLL_CURE_WHOLE: return true;
    case QLL_CURE_SETTINGS:
    case QLL_CURE_TANK:
    case QLL_CURE_STRAINER:
    case QLL_CURE_COUNT: break;
    }
    return false;
}

/* Of @p all what @p cure buys, in place. A branch takes a tee and an elbow at either end. */
static void keep_bought(const qll_cure *cure, const qll_pieces *all, qll_piece *kept, size_t *count)
{
    for (size_t i = 0; i < all->count; i++) {
        const qll_piece *piece = &all->pieces[i];
        if (!is_bought(cure, piece)) {
            continue;
        }
        kept[*count] = *piece;
        if (cure->kind == QLL_CURE_SMALL_BESIDE && piece->branch == SIZE_MAX) {
            kept[*count].count = 2;
        }
        *count += 1;
    }
}

static qll_status find_parts(const qll_cure *cure, const qll_yardstick *yardstick,
                             qll_unit_system units, qll_arena *arena, qll_cure_parts *found)
{
    const qll_extra_parts none = {(double)NAN, (double)NAN};
    qll_assessment assessment;
    qll_pieces all;
    qll_status status = qll_station_assess(&cure->station, yardstick, arena, &assessment);
    if (status == QLL_OK) {
        status =
            qll_pieces_of(&cure->station, yardstick->site, &assessment, none, units, arena, &all);
    }
    qll_piece *kept = status == QLL_OK ? qll_arena_take(arena, all.count, sizeof *kept) : NULL;
    if (kept == NULL) {
        return QLL_NO_MEMORY;
    }
    *found = (qll_cure_parts){.strainers = assessment.strainers, .pieces = {.pieces = kept}};
    keep_bought(cure, &all, kept, &found->pieces.count);
    return QLL_OK;
}

qll_status qll_find_cure_parts(const qll_cures *cures, const qll_yardstick *yardstick,
                               qll_unit_system units, qll_arena *arena,
                               const qll_cure_parts **found)
{
    qll_cure_parts *parts = qll_arena_take(arena, cures->count, sizeof *parts);
    qll_status status = parts == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t i = 0; status == QLL_OK && i < cures->count; i++) {
        parts[i] = (qll_cure_parts){.strainers = NULL};
        if (buys_a_valve(&cures->cures[i])) {
            status = find_parts(&cures->cures[i], yardstick, units, arena, &parts[i]);
        }
    }
    *found = parts;
    return status;
}
