/* What must hold in any answer as JSON, whatever was asked: figures that can be, shares of a whole that make the whole, and no
 * good verdict beside a figure that forbids it. */
#ifndef QUELL_FUZZ_ANSWER_HOLDS_H
#define QUELL_FUZZ_ANSWER_HOLDS_H

#include "base/document.h"
#include "require.h"
#include "station/fitness.h"

#include <math.h>

static inline double number_of(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

/** Whether the key is of a share of time, of water or of chance: "time_share", not what a figure misses by. */
static inline bool is_share(qll_text key)
{
    static const char *const ends[] = {
        "idle_share", "fixture_open_share", "only_share",     "time_share",     "volume_share",
        "zero_share", "holds_share",        "callback_share", "low_share_from", "low_share_to"};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        size_t size = strlen(ends[i]);
        if (key.size >= size && memcmp(key.bytes + key.size - size, ends[i], size) == 0) {
            return true;
        }
    }
    return false;
}

/** A number that is none, written out. */
static inline bool is_none_in_words(qll_text text)
{
    static const char *const none[] = {"nan", "-nan", "inf", "-inf", "NaN", "Infinity"};
    bool found = false;
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        found = found || qll_text_is(text, none[i]);
    }
    return found;
}

/** No figure that is none, no share outside the whole. */
static inline void require_figures(const qll_node *node)
{
    bool is_number = node->kind == QLL_NODE_NUMBER;
    QLL_REQUIRE(!is_number || isfinite(node->number));
    QLL_REQUIRE(!is_number || !is_share(node->key)
                || (node->number >= 0.0 && node->number <= 1.0 + 1e-12));
    QLL_REQUIRE(node->kind != QLL_NODE_TEXT || !qll_text_is(node->key, "value")
                || !is_none_in_words(node->text));
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        require_figures(child);
    }
}

static inline void require_duration(const qll_node *list)
{
    double flow = -1.0;
    double time = 0.0;
    double volume = 0.0;
    for (const qll_node *point = list->first_child; point != NULL; point = point->next) {
        QLL_REQUIRE(number_of(point, "flow_m3s") > flow);
        QLL_REQUIRE(number_of(point, "time_share") >= time);
        flow = number_of(point, "flow_m3s");
        time = number_of(point, "time_share");
        double here = number_of(point, "volume_share");
        QLL_REQUIRE(isnan(here) || here >= volume);
        volume = isnan(here) ? volume : here;
    }
    QLL_REQUIRE(list->first_child == NULL || fabs(time - 1.0) < 1e-9);
}

static inline void require_time_shares(const qll_node *shares)
{
    static const char *const parts[] = {"idle", "below_stable", "below_band", "in_band",
                                        "above_band"};
    double sum = 0.0;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        double share = number_of(shares, parts[i]);
        QLL_REQUIRE(share >= 0.0);
        sum += share;
    }
    QLL_REQUIRE(fabs(sum - 1.0) < 1e-6);
}

/** A verdict says good: its figure is there where the rule has one, and on the right side of what it is held against. */
static inline void require_good(const qll_node *verdict)
{
    static const char *const rules[] = {"static",   "ratio",    "rating",
                                        "capacity", "delivery", "strainer"};
    const qll_text rule = qll_node_find(verdict, "rule")->text;
    double value = number_of(verdict, "value");
    double limit = number_of(verdict, "limit");
    bool is_pressure = !qll_text_is(qll_node_find(verdict, "unit")->text, "1");
    /* What is in hand at an outlet stands over 0; everything else below its limit. */
    bool is_in_hand = qll_text_is(rule, "delivery") && limit == 0.0;
    double over = is_in_hand ? -value : value - limit;
    /* Pressures are judged with a slack (station/fitness.h). */
    double slack = (is_pressure ? 1.01 * QLL_PRESSURE_SLACK_PA : 0.0) + 1e-9 * fabs(limit);
    bool is_one = false;
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        is_one = is_one || qll_text_is(rule, rules[i]);
    }
    QLL_REQUIRE(!is_one || !isfinite(over) || over <= slack);
}

/** Everything of an answer that can be looked at without knowing the question. */
static inline void require_answer_holds(const qll_node *node)
{
    if (node->parent == NULL) {
        require_figures(node);
    }
    if (node->kind == QLL_NODE_LIST && qll_text_is(node->key, "flow_duration")) {
        require_duration(node);
    } else if (node->kind == QLL_NODE_OBJECT && qll_text_is(node->key, "time_shares")) {
        require_time_shares(node);
    } else if (node->kind == QLL_NODE_OBJECT && qll_node_find(node, "rule") != NULL
               && qll_node_find(node, "verdict") != NULL
               && qll_text_is(qll_node_find(node, "verdict")->text, "good")) {
        require_good(node);
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        require_answer_holds(child);
    }
}

/** Reads an answer back and looks at it. */
static inline void require_json_answer(const qll_answer *answer, qll_arena *arena)
{
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    qll_text text = {answer->bytes, answer->size};
    qll_status status = qll_document_read(text, "answer", arena, &document, &problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    if (status == QLL_OK) {
        require_answer_holds(document.root);
    }
}

/** An answer or a problem, never neither; both clean. */
static inline void require_answered(qll_status status, qll_form form, const qll_answer *answer,
                                    qll_arena *arena)
{
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED || status == QLL_NO_MEMORY
                || status == QLL_WRONG_USE || status == QLL_STOPPED);
    QLL_REQUIRE(status != QLL_OK || (answer->bytes != NULL && answer->size > 0));
    QLL_REQUIRE(status != QLL_REFUSED || answer->problem_count > 0);
    if (answer->bytes != NULL && form == QLL_FORM_JSON) {
        require_json_answer(answer, arena);
    } else if (answer->bytes != NULL) {
        require_clean_text((qll_text){answer->bytes, answer->size});
    }
    qll_problems problems = qll_problems_none(arena);
    for (size_t i = 0; i < answer->problem_count; i++) {
        (void)said_add(&problems, &answer->problems[i]);
    }
    require_clean_problems(&problems);
}

#endif
