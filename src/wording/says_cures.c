/* What would cure a station that is there, as a plumber says it. */
#include "base/count.h"
#include "station/tank_size.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* Above this a chance is a caution: docs/theory/recommendation.md, 5. */
#define QLL_WORTH_SAYING 0.1

/* A cure on its way into words. */
typedef struct saying {
    qll_writer *writer;
    const qll_wording *wording;
    const qll_cures *cures;
    const qll_cure *cure;
    const qll_station *there;
} saying;

static const char *set_of(const saying *of, const qll_branch *branch)
{
    return qll_text_quantity(of->writer, branch->set_pa_gauge, QLL_KIND_PRESSURE,
                             of->wording->units);
}

/* The branch of a stage that is there now with this valve and set-point; NULL if none is so. */
static const qll_branch *as_it_was(const qll_stage *was, const qll_branch *branch)
{
    for (size_t j = 0; j < was->branch_count; j++) {
        if (was->branches[j].valve == branch->valve
            && was->branches[j].set_pa_gauge == branch->set_pa_gauge) {
            return &was->branches[j];
        }
    }
    return NULL;
}

/* Whether a valve is the one that the cure puts in. */
static bool is_new(const qll_cure *cure, size_t stage, size_t branch)
{
    return cure->kind != QLL_CURE_SETTINGS && cure->stage == stage && cure->branch == branch;
}

/* What becomes of the valves that stay: those beside the new one are named anyway, others where they are set
 * anew. "leave the 3 in at 60 psi and set the 2 in to 55 psi" */
static const char *others_of(const saying *of)
{
    const qll_cure *cure = of->cure;
    const size_t before = cure->station.stage_count - of->there->stage_count;
    qll_writer all = qll_writer_new(of->writer->arena);
    size_t count = 0;
    for (size_t k = before; k < cure->station.stage_count; k++) {
        const qll_stage *stage = &cure->station.stages[k];
        for (size_t j = 0; j < stage->branch_count; j++) {
            const qll_branch *branch = &stage->branches[j];
            bool stays = as_it_was(&of->there->stages[k - before], branch) != NULL;
            bool is_beside = cure->kind == QLL_CURE_SMALL_BESIDE && cure->stage == k;
            bool is_behind = cure->kind == QLL_CURE_STAGE_BEFORE && k == 1;
            if (is_new(cure, k, j) || (stays && !is_beside && !is_behind)) {
                continue;
            }
            const qll_filling fillings[] = {
                {"size", qll_text_size(of->writer, branch->valve->nominal_m, of->wording->units)},
                {"set", set_of(of, branch)}};
            qll_write(&all, count == 0 ? "" : qll_say(of->wording->language, QLL_SAYS_CURE_AND));
            qll_say_with(&all, of->wording->language,
                         stays ? QLL_SAYS_CURE_LEAVE : QLL_SAYS_CURE_SET, fillings, 2);
            count += 1;
        }
    }
    return count == 0 ? NULL : qll_writer_text(&all).bytes;
}

/* All valves with their ids and settings, of a station that is built anew. */
static const char *valves_of(const saying *of)
{
    const qll_station *station = &of->cure->station;
    qll_writer all = qll_writer_new(of->writer->arena);
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            const qll_filling fillings[] = {
                {"size", qll_text_size(of->writer, branch->valve->nominal_m, of->wording->units)},
                {"valve", branch->valve->id},
                {"set", set_of(of, branch)}};
            if (j > 0) {
                qll_write(&all, qll_say(of->wording->language, QLL_SAYS_CURE_AND));
            } else if (k > 0) {
                qll_write(&all, qll_say(of->wording->language, QLL_SAYS_THEN));
            }
            qll_say_with(&all, of->wording->language, QLL_SAYS_CURE_VALVE_AT, fillings, 3);
        }
        if (station->stages[k].branch_count > 1) {
            qll_write(&all, qll_say(of->wording->language, QLL_SAYS_CURE_IN_PARALLEL));
        }
    }
    return qll_writer_text(&all).bytes;
}

/* The valve that gives way, of those that are there. */
static const qll_branch *replaced(const saying *of)
{
    const qll_stage *was = &of->there->stages[of->cure->stage];
    const qll_stage *then = &of->cure->station.stages[of->cure->stage];
    for (size_t j = 0; j < was->branch_count; j++) {
        size_t same = 0;
        while (same < then->branch_count && then->branches[same].valve != was->branches[j].valve) {
            same++;
        }
        if (same == then->branch_count) {
            return &was->branches[j];
        }
    }
    return &was->branches[0];
}

/* "about 1370 for parts and work, and a callback goes from 1 in 2 to 1 in 30" */
static const char *cost_of(const saying *of)
{
    const qll_language language = of->wording->language;
    qll_writer amount = qll_writer_new(of->writer->arena);
    qll_writer now = qll_writer_new(of->writer->arena);
    qll_writer then = qll_writer_new(of->writer->arena);
    qll_wording_about(&amount, of->wording, of->cure->cost.installed);
    qll_wording_chance(&now, language, of->cures->now.callback_share, QLL_CHANCE_BARE);
    qll_wording_chance(&then, language, of->cure->cost.callback_share, QLL_CHANCE_BARE);
    const qll_filling fillings[] = {{"value", qll_writer_text(&amount).bytes},
                                    {"before", qll_writer_text(&now).bytes},
                                    {"after", qll_writer_text(&then).bytes}};
    const bool is_same = qll_text_is(qll_text_of(fillings[1].text), fillings[2].text);
    return qll_text_said(of->writer, language,
                         is_same ? QLL_SAYS_CURE_COST_SAME : QLL_SAYS_CURE_COST, fillings, 3);
}

static void say_work(const saying *of)
{
    static const qll_message says[QLL_CURE_COUNT] = {
        [QLL_CURE_SETTINGS] = QLL_SAYS_CURE_SETTINGS,
        [QLL_CURE_SMALL_BESIDE] = QLL_SAYS_CURE_SMALL_BESIDE,
        [QLL_CURE_SMALLER_VALVE] = QLL_SAYS_CURE_SMALLER_VALVE,
        [QLL_CURE_STAGE_BEFORE] = QLL_SAYS_CURE_STAGE_BEFORE,
    };
    const qll_cure *cure = of->cure;
    const qll_branch *new = &cure->station.stages[cure->stage].branches[cure->branch];
    const bool replaces = cure->kind == QLL_CURE_SMALLER_VALVE;
    const qll_filling fillings[] = {
        {"size", qll_text_size(of->writer, new->valve->nominal_m, of->wording->units)},
        {"valve", new->valve->id},
        {"set", set_of(of, new)},
        {"old", replaces
                    ? qll_text_size(of->writer, replaced(of)->valve->nominal_m, of->wording->units)
                    : NULL},
        {"others", others_of(of)},
        {"cost", cost_of(of)},
    };
    qll_say_with(of->writer, of->wording->language, says[cure->kind], fillings,
                 QLL_COUNT(fillings));
}

static void say_whole(const saying *of)
{
    const qll_filling fillings[] = {{"valves", valves_of(of)}, {"cost", cost_of(of)}};
    qll_say_with(of->writer, of->wording->language, QLL_SAYS_CURE_WHOLE, fillings, 2);
}

static void say_tank(const saying *of)
{
    const qll_verdict *verdict = of->cure->verdict;
    const qll_unit_system units = of->wording->units;
    const double sold_m3 = qll_tank_sold_m3(verdict->value, units);
    const qll_filling fillings[] = {
        {"tank", qll_text_quantity(of->writer, sold_m3, QLL_KIND_VOLUME, units)},
        {"precharge",
         qll_text_quantity(of->writer, verdict->value_at_peak, QLL_KIND_PRESSURE, units)}};
    qll_say_with(of->writer, of->wording->language, QLL_SAYS_CURE_TANK, fillings, 2);
}

static void say_strainer(const saying *of)
{
    const qll_filling filling = {"loss",
                                 qll_text_difference(of->writer, of->wording->language,
                                                     of->cure->verdict->value, of->wording->units)};
    qll_say_with(of->writer, of->wording->language, QLL_SAYS_CURE_STRAINER, &filling, 1);
}

void qll_wording_cure(qll_writer *writer, const qll_wording *wording, const qll_cures *cures,
                      const qll_station *there, const qll_cure *cure)
{
    const saying of = {writer, wording, cures, cure, there};
    switch (cure->kind) {
    case QLL_CURE_SETTINGS:
    case QLL_CURE_SMALL_BESIDE:
    case QLL_CURE_SMALLER_VALVE:
    case QLL_CURE_STAGE_BEFORE: say_work(&of); break;
    case QLL_CURE_WHOLE: say_whole(&of); break;
    case QLL_CURE_TANK: say_tank(&of); break;
    case QLL_CURE_STRAINER: say_strainer(&of); break;
    case QLL_CURE_COUNT: break;
    }
}

bool qll_is_worth_saying(const qll_cost *cost)
{
    return cost->callback_share > QLL_WORTH_SAYING;
}

void qll_wording_as_it_is(qll_writer *writer, const qll_wording *wording, const qll_cures *cures,
                          const qll_station *there)
{
    qll_writer chance = qll_writer_new(writer->arena);
    qll_wording_chance(&chance, wording->language, cures->now.callback_share, QLL_CHANCE_ABOUT);
    qll_writer breaks = qll_writer_new(writer->arena);
    size_t count = 0;
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (cures->fitness.breach[r] > 0.0) {
            qll_write(&breaks, count == 0 ? "" : " ");
            qll_wording_breach(&breaks, wording, there, &cures->fitness, (qll_practice)r);
            count += 1;
        }
    }
    const char *why = qll_say_mechanism(wording->language, &cures->now);
    const qll_filling fillings[] = {{"chance", qll_writer_text(&chance).bytes},
                                    {"why", qll_is_worth_saying(&cures->now) ? why : NULL},
                                    {"breaks", count == 0 ? NULL : qll_writer_text(&breaks).bytes}};
    qll_say_with(writer, wording->language, QLL_SAYS_CURE_NOW, fillings, 3);
}
