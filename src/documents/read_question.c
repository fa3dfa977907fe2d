#include "documents/read_question.h"

#include "base/count.h"
#include "base/words.h"

#include <stddef.h>

const char *const qll_form_words[QLL_QUESTION_FORM_COUNT + 1] = {
    [QLL_FORM_TEXT] = "text", [QLL_FORM_JSON] = "json",     [QLL_FORM_HTML] = "html",
    [QLL_FORM_SVG] = "svg",   [QLL_FORM_SCHEMA] = "schema", [QLL_QUESTION_FORM_COUNT] = "pdf"};

const char *const qll_question_document_keys[QLL_QUESTION_DOCUMENT_COUNT] = {
#define QLL_QUESTION_DOCUMENT_KEY(name, key) [QLL_QUESTION_##name] = (key),
    QLL_QUESTION_DOCUMENT_LIST(QLL_QUESTION_DOCUMENT_KEY)
#undef QLL_QUESTION_DOCUMENT_KEY
};

#define QLL_MEMBER(name, means)                               \
    {                                                         \
#        name, offsetof(qll_question, name), QLL_TEXT_##means \
    }

static const qll_question_member members[] = {
    QLL_MEMBER(units, CLI_OPTION_IS_UNITS),
    QLL_MEMBER(language, CLI_OPTION_IS_LANGUAGE),
    QLL_MEMBER(parts, CLI_OPTION_IS_PARTS),
    QLL_MEMBER(figures, CLI_OPTION_IS_FIGURES),
    QLL_MEMBER(flow, CLI_OPTION_IS_FLOW),
    QLL_MEMBER(inlet, CLI_OPTION_IS_INLET),
    QLL_MEMBER(event, CLI_OPTION_IS_EVENT),
    QLL_MEMBER(outlet, CLI_OPTION_IS_OUTLET),
    QLL_MEMBER(before, CLI_OPTION_IS_BEFORE),
    QLL_MEMBER(within, CLI_OPTION_IS_WITHIN),
    QLL_MEMBER(seed, CLI_OPTION_IS_SEED),
    QLL_MEMBER(of, CLI_OPTION_IS_OF),
    QLL_MEMBER(sections, CLI_OPTION_IS_SECTIONS),
    QLL_MEMBER(length, CLI_OPTION_IS_LENGTH),
    QLL_MEMBER(date, CLI_OPTION_IS_DATE),
    QLL_MEMBER(plot, CLI_OPTION_IS_PLOT),
    QLL_MEMBER(begins, CLI_OPTION_IS_BEGINS),
    QLL_MEMBER(calc, QUESTION_CALC),
    QLL_MEMBER(about, QUESTION_ABOUT),
    QLL_MEMBER(key, QUESTION_KEY),
};

static const char *const others[] = {"verb", "form", "help", "arguments"};

const qll_question_member *qll_question_members(size_t *count)
{
    *count = QLL_COUNT(members);
    return members;
}

/* Every key there may be. */
static size_t
list_keys(const char *keys[QLL_COUNT(members) + QLL_COUNT(others) + QLL_QUESTION_DOCUMENT_COUNT])
{
    size_t count = 0;
    for (size_t i = 0; i < QLL_QUESTION_DOCUMENT_COUNT; i++) {
        keys[count++] = qll_question_document_keys[i];
    }
    for (size_t i = 0; i < QLL_COUNT(others); i++) {
        keys[count++] = others[i];
    }
    for (size_t i = 0; i < QLL_COUNT(members); i++) {
        keys[count++] = members[i].key;
    }
    return count;
}

static void refuse_unknown(qll_reader *reader, const qll_node *root)
{
    const char *keys[QLL_COUNT(members) + QLL_COUNT(others) + QLL_QUESTION_DOCUMENT_COUNT];
    const size_t count = list_keys(keys);
    for (const qll_node *child = root->first_child; child != NULL; child = child->next) {
        if (qll_words_place(child->key, keys, count) < count
            || qll_reader_drops(reader, qll_at_key(child))) {
            continue;
        }
        const char *nearest = qll_words_nearest(child->key, keys, count);
        const qll_said says = {QLL_TEXT_KEY_UNKNOWN,
                               {qll_as_quoted(child->key), qll_as_text(QLL_TEXT_QUESTION_A),
                                qll_as_words(reader->arena, keys, count)}};
        (void)qll_reader_refuse_fixed(reader, qll_at_key(child), QLL_CODE_UNKNOWN_KEY, &says,
                                      qll_hint_word(nearest, reader->arena),
                                      qll_fix_text(QLL_FIX_RENAME, nearest, reader->arena));
    }
}

/* Closed by a zero byte; NULL where it is no text. */
static const char *text_at(qll_reader *reader, const qll_node *node)
{
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_TEXT));
        return NULL;
    }
    return qll_text_closed(node->text, reader->arena);
}

static void read_texts(qll_reader *reader, const qll_node *root, qll_question *question)
{
    for (size_t i = 0; i < QLL_COUNT(members); i++) {
        const qll_node *node = qll_node_find(root, members[i].key);
        const char **member = (const char **)(void *)((char *)question + members[i].at);
        if (node != NULL) {
            *member = text_at(reader, node);
        }
    }
}

static void read_form(qll_reader *reader, const qll_node *root, qll_question *question,
                      bool *on_paper)
{
    const size_t count = QLL_QUESTION_FORM_COUNT + (on_paper == NULL ? 0 : 1);
    const qll_node *node = qll_node_find(root, "form");
    question->form = QLL_FORM_JSON;
    if (node == NULL || text_at(reader, node) == NULL) {
        return;
    }
    const size_t form = qll_words_place(node->text, qll_form_words, count);
    if (form < QLL_QUESTION_FORM_COUNT) {
        question->form = (qll_form)form;
    } else if (form < count) {
        *on_paper = true;
    } else {
        (void)qll_reader_unknown_word(reader, qll_at(node), QLL_SAYS(QUESTION_FORM), qll_form_words,
                                      count);
    }
}

static void read_help(qll_reader *reader, const qll_node *root, qll_question *question)
{
    const qll_node *node = qll_node_find(root, "help");
    if (node == NULL) {
        return;
    }
    question->help = node->kind == QLL_NODE_TRUE;
    if (node->kind != QLL_NODE_TRUE && node->kind != QLL_NODE_FALSE) {
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_FLAG));
    }
}

static void read_arguments(qll_reader *reader, const qll_node *root, qll_question *question)
{
    const qll_node *list = qll_node_find(root, "arguments");
    if (list == NULL) {
        return;
    }
    if (list->kind != QLL_NODE_LIST) {
        (void)qll_reader_wrong_kind(reader, list, QLL_SAYS(EXPECT_LIST));
        return;
    }
    const char **arguments = qll_reader_take(reader, list->child_count, sizeof *arguments);
    size_t count = 0;
    for (const qll_node *one = list->first_child; arguments != NULL && one != NULL;
         one = one->next) {
        arguments[count] = text_at(reader, one);
        count += arguments[count] != NULL;
    }
    question->arguments = arguments;
    question->argument_count = count;
}

void qll_question_read(qll_reader *reader, const qll_node *root, qll_question *question,
                       bool *on_paper)
{
    if (root->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(reader, root, QLL_SAYS(EXPECT_OBJECT));
        return;
    }
    refuse_unknown(reader, root);
    read_texts(reader, root, question);
    read_form(reader, root, question, on_paper);
    read_help(reader, root, question);
    read_arguments(reader, root, question);
}
