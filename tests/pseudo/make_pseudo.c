/* Writes the texts of a language that nobody speaks: the English ones, every piece between the holes in
 * brackets. It is a third language made as docs/howto/add_a_language.md says, by a machine. */
#include "wording/language.h"

#include <stdio.h>
#include <string.h>

static void put_byte(char byte)
{
    if (byte == '"' || byte == '\\') {
        putchar('\\');
    }
    if (byte == '\n') {
        fputs("\\n", stdout);
    } else {
        putchar(byte);
    }
}

/* Where a hole or a mark of an optional part at @p at ends; @p at itself where there is none. */
static const char *skip_mark(const char *at, bool is_template)
{
    if (is_template && (*at == '[' || *at == ']')) {
        return at + 1;
    }
    const char *close = *at == '{' ? strchr(at, '}') : NULL;
    bool is_figure = close == at + 2 && at[1] >= '1' && at[1] <= '9';
    return close != NULL && (is_template || is_figure) ? close + 1 : at;
}

static void put_text(const char *text, bool is_template)
{
    bool is_open = false;
    putchar('"');
    for (const char *at = text; *at != '\0';) {
        const char *end = skip_mark(at, is_template);
        if ((end == at) != is_open) {
            fputs(is_open ? "\xE2\x80\xBA" : "\xE2\x80\xB9", stdout);
            is_open = !is_open;
        }
        end = end == at ? at + 1 : end;
        for (; at < end; at++) {
            put_byte(*at);
        }
    }
    puts(is_open ? "\xE2\x80\xBA\"," : "\",");
}

static void put_messages(const char *table, size_t first, size_t end)
{
    printf("const char *const qll_%s_pseudo[%zu] = {\n", table, end - first);
    for (size_t i = first; i < end; i++) {
        put_text(qll_say(QLL_LANGUAGE_EN, (qll_message)i), true);
    }
    puts("};");
}

static void put_said(const char *table, size_t first, size_t end)
{
    printf("const char *const qll_%s_pseudo[%zu] = {\n", table, end - first);
    for (size_t i = first; i < end; i++) {
        const char *says = qll_said_entry(QLL_LANGUAGE_EN, (qll_text_id)i);
        put_text(says == NULL ? "" : says, false);
    }
    puts("};");
}

int main(void)
{
    puts("#include \"wording/language.h\"");
    put_messages("findings", 0, QLL_FINDING_COUNT);
    put_messages("messages", 0, QLL_PEAKS_FIRST);
    put_messages("remarks", QLL_PEAKS_FIRST, QLL_REPORT_FIRST);
    put_messages("report", QLL_REPORT_FIRST, QLL_FORMS_FIRST);
    put_messages("forms", QLL_FORMS_FIRST, QLL_DESIGN_FIRST);
    put_messages("design", QLL_DESIGN_FIRST, QLL_CALC_FIRST);
    put_messages("calc", QLL_CALC_FIRST, QLL_PRESSURE_FIRST);
    put_messages("pressure", QLL_PRESSURE_FIRST, QLL_LISTEN_FIRST);
    put_messages("sound", QLL_LISTEN_FIRST, QLL_MESSAGE_COUNT);
#define QLL_PUT_PART(part, table, list) \
    put_said(#table, QLL_TEXT_FIRST_##part, QLL_TEXT_END_##part);
    QLL_TEXT_PART_LIST(QLL_PUT_PART)
#undef QLL_PUT_PART
    return 0;
}
