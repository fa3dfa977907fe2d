/* What docs/formats/answers.md promises of an answer, name by name, and how it is looked for. */
#ifndef QUELL_TESTS_PROMISES_H
#define QUELL_TESTS_PROMISES_H

#include "ask_files.h"
#include "base/document.h"
#include "check.h"

/* What must stand at a path. */
typedef enum expectation {
    QLL_A_TEXT,
    QLL_A_NUMBER,
    QLL_A_FIGURE, /* a number, or null where it is unknown */
    QLL_A_BOOL,
    QLL_A_LIST,
    QLL_A_FULL_LIST, /* with at least one entry */
    QLL_AN_OBJECT,
    QLL_A_WHOLE,
} expectation;

typedef struct promise {
    const char *path; /* "[]": in every entry of the list */
    expectation expected;
} promise;

static const promise common[] = {
    {"quell", QLL_A_TEXT},          {"problems", QLL_A_LIST},        {"assumed", QLL_A_FULL_LIST},
    {"assumed[].what", QLL_A_TEXT}, {"assumed[].value", QLL_A_TEXT}, {"assumed[].why", QLL_A_TEXT},
    {"sources", QLL_A_FULL_LIST},   {"sources[]", QLL_A_TEXT},       {"cautions", QLL_A_FULL_LIST},
    {"cautions[]", QLL_A_TEXT},
};

static const promise refusal[] = {
    {"quell", QLL_A_TEXT},
    {"problems", QLL_A_FULL_LIST},
    {"problems[].severity", QLL_A_TEXT},
    {"problems[].where", QLL_A_TEXT},
    {"problems[].says", QLL_A_TEXT},
    {"problems[].path", QLL_A_TEXT},
    {"problems[].hint", QLL_A_TEXT},
};

static const promise demand[] = {
    {"scenarios", QLL_A_FULL_LIST},
    {"scenarios[].name", QLL_A_TEXT},
    {"scenarios[].peak_flow_m3s", QLL_A_NUMBER},
    {"scenarios[].basis", QLL_A_TEXT},
    {"scenarios[].estimates", QLL_A_FULL_LIST},
    {"scenarios[].estimates[].method", QLL_A_TEXT},
    {"scenarios[].estimates[].peak_flow_m3s", QLL_A_NUMBER},
    {"scenarios[].estimates[].source", QLL_A_TEXT},
    {"scenarios[].idle_share", QLL_A_NUMBER},
    {"scenarios[].no_fixture_open_share", QLL_A_FIGURE},
    {"scenarios[].leak_only_share", QLL_A_FIGURE},
    {"scenarios[].hours", QLL_A_FULL_LIST},
    {"scenarios[].hours[].mean_flow_m3s", QLL_A_FIGURE},
    {"scenarios[].flow_duration", QLL_A_FULL_LIST},
    {"scenarios[].flow_duration[].flow_m3s", QLL_A_NUMBER},
    {"scenarios[].flow_duration[].time_share", QLL_A_NUMBER},
    {"scenarios[].flow_duration[].volume_share", QLL_A_NUMBER},
};

static const promise design[] = {
    {"stations", QLL_A_FULL_LIST},
    {"stations[].roles", QLL_A_LIST},
    {"stations[].fit", QLL_A_BOOL},
    {"stations[].breaks", QLL_A_LIST},
    {"stations[].cost", QLL_AN_OBJECT},
    {"stations[].cost.installed", QLL_A_NUMBER},
    {"stations[].cost.callback_share", QLL_A_NUMBER},
    {"stations[].cost.callback", QLL_A_NUMBER},
    {"stations[].cost.expected", QLL_A_NUMBER},
    {"stations[].cost.mechanisms", QLL_A_FULL_LIST},
    {"stations[].cost.mechanisms[].mechanism", QLL_A_TEXT},
    {"stations[].cost.mechanisms[].share", QLL_A_NUMBER},
    {"recommended", QLL_A_WHOLE},
    {"reason", QLL_A_TEXT},
    {"no_valve_needed", QLL_A_BOOL},
    {"fit_to_install", QLL_A_BOOL},
    {"need", QLL_AN_OBJECT},
    {"need.static_pa_gauge", QLL_A_FIGURE},
    {"need.permitted_pa_gauge", QLL_A_NUMBER},
    {"need.inlet_peak_pa_gauge", QLL_A_FIGURE},
    {"need.outlets", QLL_A_LIST},
    {"need.outlets[].name", QLL_A_TEXT},
    {"need.outlets[].static_pa_gauge", QLL_A_FIGURE},
    {"need.outlets[].peak_pa_gauge", QLL_A_FIGURE},
    {"need.outlets[].in_hand_pa", QLL_A_FIGURE},
    {"hangs_on", QLL_A_LIST},
    {"hangs_on[].what", QLL_A_TEXT},
    {"hangs_on[].says", QLL_A_TEXT},
    {"points", QLL_A_FULL_LIST},
};

static const promise way[] = {
    {"ladder", QLL_A_FULL_LIST},
    {"ladder[].at", QLL_A_TEXT},
    {"ladder[].steps", QLL_A_FULL_LIST},
    {"ladder[].steps[].what", QLL_A_TEXT},
    {"ladder[].steps[].pressure_pa_gauge", QLL_A_FIGURE},
    {"ladder[].steps[].velocity_m_s", QLL_A_FIGURE},
    {"ladder[].steps[].too_fast", QLL_A_BOOL},
    {"maps", QLL_A_FULL_LIST},
    {"maps[].stage", QLL_A_WHOLE},
    {"maps[].branch", QLL_A_WHOLE},
    {"maps[].inlet_pa_gauge", QLL_A_FULL_LIST},
    {"maps[].flow_m3s", QLL_A_FULL_LIST},
    {"maps[].cells", QLL_A_FULL_LIST},
};

#define CHECK_OF(list) (list), sizeof(list) / sizeof((list)[0])

static inline bool is_as_expected(const qll_node *node, expectation expected)
{
    switch (expected) {
    case QLL_A_TEXT: return node->kind == QLL_NODE_TEXT;
    case QLL_A_NUMBER: return node->kind == QLL_NODE_NUMBER;
    case QLL_A_FIGURE: return node->kind == QLL_NODE_NUMBER || node->kind == QLL_NODE_NULL;
    case QLL_A_BOOL: return node->kind == QLL_NODE_TRUE || node->kind == QLL_NODE_FALSE;
    case QLL_A_LIST: return node->kind == QLL_NODE_LIST;
    case QLL_A_FULL_LIST: return node->kind == QLL_NODE_LIST && node->child_count > 0;
    case QLL_AN_OBJECT: return node->kind == QLL_NODE_OBJECT;
    case QLL_A_WHOLE: return node->kind == QLL_NODE_NUMBER && floor(node->number) == node->number;
    }
    return false;
}

/* Follows @p path from @p node; every entry of a list must keep the promise. */
static inline bool holds(const qll_node *node, const char *path, expectation expected)
{
    if (path[0] == '\0') {
        return is_as_expected(node, expected);
    }
    if (path[0] == '[') {
        path += path[2] == '.' ? 3 : 2;
        for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
            if (!holds(child, path, expected)) {
                return false;
            }
        }
        return true;
    }
    char key[64] = {0};
    size_t size = strcspn(path, ".[");
    if (size >= sizeof key) {
        return false;
    }
    memcpy(key, path, size);
    const qll_node *child = qll_node_find(node, key);
    if (child == NULL) {
        return false;
    }
    path += size;
    return holds(child, path[0] == '.' ? path + 1 : path, expected);
}

static inline void check_promises(const qll_node *node, const char *of, const promise *promises,
                                  size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char what[160];
        snprintf(what, sizeof what, "%s: %s", of, promises[i].path);
        check_report(holds(node, promises[i].path, promises[i].expected), __FILE__, __LINE__, what);
    }
}

static inline double number_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

static inline const qll_node *list_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child == NULL ? NULL : child->first_child;
}

static inline const qll_node *read_answer(qll_text text, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    bool well = qll_document_read(text, "answer", arena, document, &problems) == QLL_OK;
    return CHECK(well) ? document->root : NULL;
}

static inline const qll_node *ask(const qll_question *question, qll_status wanted, qll_arena *arena)
{
    qll_answer answer;
    qll_status status = qll_ask(question, arena, &answer);
    for (size_t i = 0; status != wanted && i < answer.problem_count; i++) {
        printf("    %s: %s\n", answer.problems[i].place.path, answer.problems[i].text);
    }
    if (!CHECK(status == wanted) || !CHECK(answer.bytes != NULL)) {
        return NULL;
    }
    return read_answer((qll_text){answer.bytes, answer.size}, arena);
}

#endif
