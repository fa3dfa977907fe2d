/* The answers hold what contract.md promises: read back and walked, name by name. */
#include "ask_files.h"
#include "base/document.h"
#include "check.h"

/* What must stand at a path. */
typedef enum expectation {
    A_TEXT,
    A_NUMBER,
    A_FIGURE, /* a number, or null where it is unknown */
    A_BOOL,
    A_LIST,
    A_FULL_LIST, /* with at least one entry */
    AN_OBJECT,
    A_WHOLE,
} expectation;

typedef struct promise {
    const char *path; /* "[]": in every entry of the list */
    expectation expected;
} promise;

static const promise common[] = {
    {"quell",           A_TEXT     },
    {"problems",        A_LIST     },
    {"assumed",         A_FULL_LIST},
    {"assumed[].what",  A_TEXT     },
    {"assumed[].value", A_TEXT     },
    {"assumed[].why",   A_TEXT     },
    {"sources",         A_FULL_LIST},
    {"sources[]",       A_TEXT     },
    {"cautions",        A_FULL_LIST},
    {"cautions[]",      A_TEXT     },
};

static const promise refusal[] = {
    {"quell",               A_TEXT     },
    {"problems",            A_FULL_LIST},
    {"problems[].severity", A_TEXT     },
    {"problems[].where",    A_TEXT     },
    {"problems[].says",     A_TEXT     },
    {"problems[].hint",     A_TEXT     },
};

static const promise demand[] = {
    {"scenarios",                                A_FULL_LIST},
    {"scenarios[].name",                         A_TEXT     },
    {"scenarios[].peak_flow_m3s",                A_NUMBER   },
    {"scenarios[].basis",                        A_TEXT     },
    {"scenarios[].estimates",                    A_FULL_LIST},
    {"scenarios[].estimates[].method",           A_TEXT     },
    {"scenarios[].estimates[].peak_flow_m3s",    A_NUMBER   },
    {"scenarios[].estimates[].source",           A_TEXT     },
    {"scenarios[].idle_share",                   A_NUMBER   },
    {"scenarios[].flow_duration",                A_FULL_LIST},
    {"scenarios[].flow_duration[].flow_m3s",     A_NUMBER   },
    {"scenarios[].flow_duration[].time_share",   A_NUMBER   },
    {"scenarios[].flow_duration[].volume_share", A_NUMBER   },
};

/* Under a station of design, and at the root of check. */
static const promise judged[] = {
    {"verdicts",                 A_FULL_LIST},
    {"verdicts[].rule",          A_TEXT     },
    {"verdicts[].verdict",       A_TEXT     },
    {"verdicts[].value",         A_FIGURE   },
    {"verdicts[].limit",         A_FIGURE   },
    {"verdicts[].says",          A_TEXT     },
    {"time_shares",              AN_OBJECT  },
    {"time_shares.idle",         A_NUMBER   },
    {"time_shares.below_stable", A_NUMBER   },
    {"time_shares.below_band",   A_NUMBER   },
    {"time_shares.in_band",      A_NUMBER   },
    {"time_shares.above_band",   A_NUMBER   },
    {"time_shares.full_travel",  A_NUMBER   },
    {"time_shares.cavitating",   A_NUMBER   },
};

static const promise station[] = {
    {"stages",                                    A_FULL_LIST},
    {"stages[].branches",                         A_FULL_LIST},
    {"stages[].branches[].valve",                 A_TEXT     },
    {"stages[].branches[].nominal_mm",            A_NUMBER   },
    {"stages[].branches[].set_pressure_pa_gauge", A_NUMBER   },
    {"stages[].branches[].strainer",              AN_OBJECT  },
    {"worst",                                     AN_OBJECT  },
    {"typical",                                   AN_OBJECT  },
    {"price",                                     A_FIGURE   },
};

static const promise design[] = {
    {"stations",    A_FULL_LIST},
    {"recommended", A_WHOLE    },
    {"reason",      A_TEXT     },
};

static const promise point[] = {
    {"flow_m3s",                         A_NUMBER   },
    {"inlet_pa_gauge",                   A_NUMBER   },
    {"outlet_pa_gauge",                  A_FIGURE   },
    {"stages",                           A_FULL_LIST},
    {"stages[].inlet_pa_gauge",          A_FIGURE   },
    {"stages[].outlet_pa_gauge",         A_FIGURE   },
    {"stages[].ratio_gauge",             A_FIGURE   },
    {"stages[].xf",                      A_FIGURE   },
    {"stages[].sigma",                   A_FIGURE   },
    {"stages[].regime",                  A_TEXT     },
    {"stages[].branches",                A_FULL_LIST},
    {"stages[].branches[].valve",        A_TEXT     },
    {"stages[].branches[].flow_m3s",     A_FIGURE   },
    {"stages[].branches[].opening",      A_FIGURE   },
    {"stages[].branches[].kv_m3h",       A_FIGURE   },
    {"stages[].branches[].velocity_m_s", A_FIGURE   },
    {"stages[].branches[].stable",       A_BOOL     },
    {"stages[].branches[].full_travel",  A_BOOL     },
};

static const promise check[] = {
    {"points", A_FULL_LIST},
    {"causes", A_LIST     },
};

static const promise calc[] = {
    {"name",                 A_TEXT     },
    {"inputs",               AN_OBJECT  },
    {"results",              AN_OBJECT  },
    {"results.velocity_m_s", A_NUMBER   },
    {"steps",                A_FULL_LIST},
    {"source",               A_TEXT     },
};

#define PROMISES(list) list, sizeof list / sizeof list[0]

static bool is_as_expected(const qll_node *node, expectation expected)
{
    switch (expected) {
    case A_TEXT: return node->kind == QLL_NODE_TEXT;
    case A_NUMBER: return node->kind == QLL_NODE_NUMBER;
    case A_FIGURE: return node->kind == QLL_NODE_NUMBER || node->kind == QLL_NODE_NULL;
    case A_BOOL: return node->kind == QLL_NODE_TRUE || node->kind == QLL_NODE_FALSE;
    case A_LIST: return node->kind == QLL_NODE_LIST;
    case A_FULL_LIST: return node->kind == QLL_NODE_LIST && node->child_count > 0;
    case AN_OBJECT: return node->kind == QLL_NODE_OBJECT;
    case A_WHOLE: return node->kind == QLL_NODE_NUMBER && floor(node->number) == node->number;
    }
    return false;
}

/* Follows @p path from @p node; every entry of a list must keep the promise. */
static bool holds(const qll_node *node, const char *path, expectation expected)
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

static void check_promises(const qll_node *node, const char *of, const promise *promises,
                           size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char what[160];
        snprintf(what, sizeof what, "%s: %s", of, promises[i].path);
        check_report(holds(node, promises[i].path, promises[i].expected), __FILE__, __LINE__, what);
    }
}

static double number_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

static const qll_node *list_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child == NULL ? NULL : child->first_child;
}

/* The flow classes of the time shares sum to 1 (contract.md). */
static void check_shares(const qll_node *judged_node)
{
    const qll_node *shares = qll_node_find(judged_node, "time_shares");
    if (!CHECK(shares != NULL)) {
        return;
    }
    double sum = number_at(shares, "idle") + number_at(shares, "below_stable")
                 + number_at(shares, "below_band") + number_at(shares, "in_band")
                 + number_at(shares, "above_band");
    CHECK_WITHIN(sum, 1.0, 1e-9);
}

static const qll_node *ask(const qll_question *question, qll_status wanted, qll_arena *arena)
{
    qll_answer answer;
    qll_status status = qll_ask(question, arena, &answer);
    for (size_t i = 0; status != wanted && i < answer.problem_count; i++) {
        printf("    %s: %s\n", answer.problems[i].place.path, answer.problems[i].text);
    }
    if (!CHECK(status == wanted) || !CHECK(answer.bytes != NULL)) {
        return NULL;
    }
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    qll_text text = {answer.bytes, answer.size};
    bool well = qll_document_read(text, "answer", arena, document, &problems) == QLL_OK;
    return CHECK(well) ? document->root : NULL;
}

TEST(demand_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "demand/1"));
        check_promises(root, "demand", PROMISES(common));
        check_promises(root, "demand", PROMISES(demand));
        for (const qll_node *one = list_at(root, "scenarios"); one != NULL; one = one->next) {
            const qll_node *last = NULL;
            bool rising = true;
            for (const qll_node *p = list_at(one, "flow_duration"); p != NULL; p = p->next) {
                rising = rising
                         && (last == NULL
                             || (number_at(p, "flow_m3s") > number_at(last, "flow_m3s")
                                 && number_at(p, "time_share") >= number_at(last, "time_share")));
                last = p;
            }
            CHECK(rising);
            CHECK_WITHIN(number_at(last, "time_share"), 1.0, 0.0);
            CHECK_WITHIN(number_at(last, "volume_share"), 1.0, 0.0);
            CHECK_WITHIN(number_at(list_at(one, "flow_duration"), "flow_m3s"), 0.0, 0.0);
            CHECK_WITHIN(number_at(list_at(one, "flow_duration"), "time_share"),
                         number_at(one, "idle_share"), 1e-12);
        }
    }
    qll_arena_close(arena);
}

TEST(design_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DESIGN, "flats.json", "valves.json", arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "design/1"));
        check_promises(root, "design", PROMISES(common));
        check_promises(root, "design", PROMISES(design));
        size_t count = 0;
        for (const qll_node *one = list_at(root, "stations"); one != NULL; one = one->next) {
            check_promises(one, "station", PROMISES(station));
            check_promises(one, "station", PROMISES(judged));
            check_shares(one);
            check_promises(qll_node_find(one, "worst"), "worst", PROMISES(point));
            check_promises(qll_node_find(one, "typical"), "typical", PROMISES(point));
            count += 1;
        }
        CHECK(number_at(root, "recommended") < (double)count);
        CHECK(qll_node_find(root, "sensitivity") == NULL);
    }
    qll_arena_close(arena);
}

TEST(check_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_CHECK, "flats.json", "valves.json", arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "check/1"));
        check_promises(root, "check", PROMISES(common));
        check_promises(root, "check", PROMISES(check));
        check_promises(root, "check", PROMISES(judged));
        check_shares(root);
        double flow = -1.0;
        for (const qll_node *one = list_at(root, "points"); one != NULL; one = one->next) {
            check_promises(one, "point", PROMISES(point));
            CHECK(number_at(one, "flow_m3s") >= flow);
            flow = number_at(one, "flow_m3s");
        }
    }
    qll_arena_close(arena);
}

TEST(calc_keeps_the_contract)
{
    static const char *const arguments[] = {"flow=12 gpm", "bore=1 in"};
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {
        .verb = QLL_VERB_CALC,
        .form = QLL_FORM_JSON,
        .calc = "velocity",
        .arguments = arguments,
        .argument_count = 2,
    };
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "calc/1"));
        check_promises(root, "calc", PROMISES(calc));
        /* 12 US gallons of 3.785411784 L a minute; 1 in = 25.4 mm (NIST SP 811). */
        const qll_node *inputs = qll_node_find(root, "inputs");
        CHECK_NEAR(number_at(inputs, "flow_m3s"), 12.0 * 3.785411784e-3 / 60.0, 1e-12);
        CHECK_NEAR(number_at(inputs, "bore_m"), 0.0254, 1e-12);
        double area_m2 = 3.14159265358979324 * 0.0127 * 0.0127;
        CHECK_NEAR(number_at(qll_node_find(root, "results"), "velocity_m_s"),
                   12.0 * 3.785411784e-3 / 60.0 / area_m2, 1e-12);
    }
    qll_arena_close(arena);
}

TEST(every_calculation_is_listed_with_its_inputs)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {.verb = QLL_VERB_CALC, .form = QLL_FORM_JSON};
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        static const promise list[] = {
            {"calculations",                A_FULL_LIST},
            {"calculations[].name",         A_TEXT     },
            {"calculations[].inputs",       A_LIST     },
            {"calculations[].inputs[].key", A_TEXT     },
            {"calculations[].formula",      A_TEXT     },
            {"calculations[].source",       A_TEXT     },
            {"calculations[].validity",     A_TEXT     },
        };
        check_promises(root, "calc list", PROMISES(list));
    }
    qll_arena_close(arena);
}

TEST(refusals_keep_the_contract)
{
    static const qll_verb verbs[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK};
    for (size_t i = 0; i < 3; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        qll_question question = survey_question(verbs[i], "refused.json", NULL, arena);
        const qll_node *root = ask(&question, QLL_REFUSED, arena);
        if (root != NULL) {
            check_promises(root, qll_verb_words[verbs[i]], PROMISES(refusal));
        }
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(demand_keeps_the_contract);
    TEST_RUN(design_keeps_the_contract);
    TEST_RUN(check_keeps_the_contract);
    TEST_RUN(calc_keeps_the_contract);
    TEST_RUN(every_calculation_is_listed_with_its_inputs);
    TEST_RUN(refusals_keep_the_contract);
    return TEST_END();
}
