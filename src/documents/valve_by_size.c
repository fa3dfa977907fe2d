#include "documents/valve_by_size.h"

#include "base/count.h"
#include "base/quote.h"
#include "base/words.h"
#include "physics/nominal.h"

#include <string.h>

/* So many ids of a catalogue are looked through for a hint. */
#define QLL_IDS_TRIED 2000
/* So many ids near a misspelt one, and so many valves there are, are named (our choice). */
#define QLL_IDS_NEAR  3
#define QLL_IDS_NAMED 12

/* ---- "3 in direct" ---- */

typedef struct size_and_kind {
    double nominal_m;
    qll_acting acting; /* QLL_ACTING_COUNT = either */
} size_and_kind;

/* Cuts "direct", "direct-acting", "pilot" or "pilot-operated" off the end of @p text. */
static qll_acting cut_kind(qll_text *text)
{
    static const struct {
        const char *word;
        qll_acting acting;
    } kinds[] = {
        {"direct-acting", QLL_ACTING_DIRECT}, {"direct acting", QLL_ACTING_DIRECT},
        {"direct", QLL_ACTING_DIRECT},        {"pilot-operated", QLL_ACTING_PILOT},
        {"pilot operated", QLL_ACTING_PILOT}, {"pilot", QLL_ACTING_PILOT},
    };

    for (size_t i = 0; i < QLL_COUNT(kinds); i++) {
        size_t size = strlen(kinds[i].word);
        if (text->size > size
            && memcmp(text->bytes + text->size - size, kinds[i].word, size) == 0) {
            *text = qll_text_trimmed((qll_text){text->bytes, text->size - size});
            return kinds[i].acting;
        }
    }
    return QLL_ACTING_COUNT;
}

static bool read_size(const char *name, qll_arena *arena, size_and_kind *wanted)
{
    qll_text text = qll_text_trimmed(qll_text_of(name));
    qll_quantity size;
    qll_units_refusal refusal;
    wanted->acting = cut_kind(&text);
    if (!qll_units_read(text, QLL_KIND_LENGTH, arena, &size, &refusal)) {
        return false;
    }
    wanted->nominal_m = size.si;
    return true;
}

static bool is_wanted(const qll_valve *valve, const size_and_kind *wanted)
{
    return qll_nominal_same(valve->nominal_m, wanted->nominal_m)
           && (wanted->acting == QLL_ACTING_COUNT || valve->acting == wanted->acting);
}

static bool holds_set(const qll_valve *valve, double set_pa_gauge)
{
    return set_pa_gauge >= valve->set_min_pa_gauge && set_pa_gauge <= valve->set_max_pa_gauge;
}

/* ---- sentences ---- */

static size_t refuse(const qll_existing_branch *branch, const qll_catalogue *catalogue,
                     const qll_said *says, const char *nearest, qll_problems *problems)
{
    qll_fix fix = qll_fix_text(QLL_FIX_REPLACE, nearest, problems->arena);
    fix.path = branch->place.path;
    (void)qll_problems_add(problems, (qll_fault){.code = QLL_CODE_UNKNOWN_WORD,
                                                 .level = QLL_REFUSAL,
                                                 .place = branch->place,
                                                 .says = says,
                                                 .hint = qll_hint_word(nearest, problems->arena),
                                                 .fix = fix});
    return catalogue->count;
}

/* Ids nearest to @p name, the nearest first. */
static size_t near_ids(const qll_catalogue *catalogue, const char *name, qll_arena *arena,
                       const char *near[QLL_IDS_NEAR])
{
    size_t tried = catalogue->count < QLL_IDS_TRIED ? catalogue->count : QLL_IDS_TRIED;
    const char **ids = qll_arena_take(arena, tried, sizeof *ids);
    for (size_t i = 0; ids != NULL && i < tried; i++) {
        ids[i] = catalogue->valves[i].id;
    }
    size_t count = 0;
    while (ids != NULL && count < QLL_IDS_NEAR) {
        near[count] = qll_words_nearest(qll_text_of(name), ids, tried);
        if (near[count] == NULL) {
            break;
        }
        for (size_t i = 0; i < tried; i++) {
            if (ids[i] == near[count]) {
                ids[i] = ids[tried - 1];
                tried -= 1;
                break;
            }
        }
        count += 1;
    }
    return count;
}

static size_t refuse_name(const qll_existing_branch *branch, const qll_catalogue *catalogue,
                          qll_problems *problems)
{
    qll_arena *arena = problems->arena;
    const char *near[QLL_IDS_NEAR];
    size_t count = near_ids(catalogue, branch->valve_id, arena, near);
    qll_said says = {count > 1 ? QLL_TEXT_VALVE_UNKNOWN_NEAR : QLL_TEXT_VALVE_UNKNOWN,
                     {qll_as_quoted(qll_text_of(branch->valve_id)),
                      qll_as_quoted(qll_text_of(catalogue->name))}};
    qll_writer list = qll_writer_new(arena);
    for (size_t i = 0; count > 1 && i < count; i++) {
        qll_write(&list, i == 0 ? "" : ", ");
        qll_write_visible(&list, qll_text_of(near[i]));
    }
    says.arguments[2] = qll_as_is_text(qll_writer_text(&list));
    return refuse(branch, catalogue, &says, count > 0 ? near[0] : NULL, problems);
}

/* "G-D80 (3 in direct, 25.0 psi to 75.0 psi)" */
static qll_argument as_valve(qll_arena *arena, const qll_valve *valve)
{
    return qll_as_said(
        arena,
        (qll_said){valve->acting == QLL_ACTING_PILOT ? QLL_TEXT_VALVE_PILOT : QLL_TEXT_VALVE_DIRECT,
                   {qll_as_is(valve->id), qll_as_size(valve->nominal_m),
                    qll_as_quantity(valve->set_min_pa_gauge, QLL_KIND_PRESSURE),
                    qll_as_quantity(valve->set_max_pa_gauge, QLL_KIND_PRESSURE)}});
}

/* None fits: those of the size and kind where there are some, else all. */
static size_t refuse_none(const qll_existing_branch *branch, const qll_catalogue *catalogue,
                          const size_and_kind *wanted, qll_problems *problems)
{
    size_t of_size = 0;
    for (size_t i = 0; i < catalogue->count; i++) {
        of_size += is_wanted(&catalogue->valves[i], wanted) ? 1 : 0;
    }
    qll_arena *arena = problems->arena;
    qll_argument list = {.form = QLL_ARGUMENT_NONE};
    size_t named = 0;
    size_t all = of_size > 0 ? of_size : catalogue->count;
    for (size_t i = 0; i < catalogue->count && named < QLL_IDS_NAMED; i++) {
        if (of_size == 0 || is_wanted(&catalogue->valves[i], wanted)) {
            const qll_argument valve = as_valve(arena, &catalogue->valves[i]);
            const qll_said longer = {QLL_TEXT_VALVE_AND_NEXT, {list, valve}};
            list = named == 0 ? valve : qll_as_said(arena, longer);
            named += 1;
        }
    }
    if (all > named) {
        list = qll_as_said(arena,
                           (qll_said){QLL_TEXT_VALVES_AND_MORE, {list, qll_as_whole(all - named)}});
    }
    const qll_said says = {of_size > 0 ? QLL_TEXT_VALVE_NONE_SET : QLL_TEXT_VALVE_NONE,
                           {qll_as_quoted(qll_text_of(catalogue->name)),
                            qll_as_quoted(qll_text_of(branch->valve_id)), list,
                            qll_as_quantity(branch->set_pa_gauge, QLL_KIND_PRESSURE)}};
    return refuse(branch, catalogue, &says, NULL, problems);
}

static void assume(const qll_existing_branch *branch, const qll_valve *valve, size_t count,
                   qll_assumed *assumed)
{
    qll_said why = {.id = QLL_TEXT_WHY_ONLY_ONE};
    if (count > 1) {
        why = (qll_said){QLL_TEXT_WHY_MIDDLE_ONE, {qll_as_whole(count)}};
    }
    qll_assumed_add(assumed, qll_as_is(branch->place.path), qll_as_is(valve->id), why);
}

/* ---- the whole ---- */

size_t qll_valve_by_size(const qll_catalogue *catalogue, const qll_existing_branch *branch,
                         qll_assumed *assumed, qll_problems *problems)
{
    size_and_kind wanted;
    if (!read_size(branch->valve_id, problems->arena, &wanted)) {
        return refuse_name(branch, catalogue, problems);
    }
    size_t *found = qll_arena_take(problems->arena, catalogue->count, sizeof *found);
    if (found == NULL) {
        return catalogue->count;
    }
    size_t count = 0;
    for (size_t i = 0; i < catalogue->count; i++) {
        const qll_valve *valve = &catalogue->valves[i];
        if (!is_wanted(valve, &wanted) || !holds_set(valve, branch->set_pa_gauge)) {
            continue;
        }
        /* By rising Kv; equal ones in the catalogue's order. */
        size_t at = count;
        for (; at > 0 && catalogue->valves[found[at - 1]].kv_m3h > valve->kv_m3h; at--) {
            found[at] = found[at - 1];
        }
        found[at] = i;
        count += 1;
    }
    if (count == 0) {
        return refuse_none(branch, catalogue, &wanted, problems);
    }
    size_t middle = found[(count - 1) / 2];
    assume(branch, &catalogue->valves[middle], count, assumed);
    return middle;
}
