/* What a reader who does not see needs of a page, checked on its bytes: a language, a title, headings in
 * order, heads of tables with a scope, drawings with a name; and nothing that runs or is fetched. */
#ifndef QUELL_TESTS_HTML_CHECK_H
#define QUELL_TESTS_HTML_CHECK_H

#include "check.h"

#include <stdlib.h>

/* Deeper than any page of ours. */
#define TEST_HTML_DEPTH 64
#define TEST_HTML_IDS   512

typedef struct html_page {
    char open[TEST_HTML_DEPTH][16]; /* elements that are open */
    int depth;
    int heading; /* level of the last */
    int title_count, heading_count[7], figure_count, table_count;
    char *ids[TEST_HTML_IDS];
    int id_count;
} html_page;

/* The value of attribute @p name in a tag of @p size bytes, copied into @p value; false if absent. */
static inline bool html_attribute(const char *tag, size_t size, const char *name, char *value,
                                  size_t room)
{
    size_t length = strlen(name);
    for (size_t i = 1; i + length + 2 < size; i++) {
        if ((tag[i - 1] == ' ' || tag[i - 1] == '\n') && strncmp(tag + i, name, length) == 0
            && tag[i + length] == '=' && tag[i + length + 1] == '"') {
            const char *from = tag + i + length + 2;
            const char *to = memchr(from, '"', size - (size_t)(from - tag));
            if (to == NULL || (size_t)(to - from) >= room) {
                return false;
            }
            memcpy(value, from, (size_t)(to - from));
            value[to - from] = '\0';
            return true;
        }
    }
    return false;
}

static inline bool html_is_void(const char *name)
{
    static const char *const names[] = {"meta", "br", "hr", "img", "input", "link"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(name, names[i]) == 0) {
            return true;
        }
    }
    return false;
}

static inline void html_see_id(html_page *page, const char *id)
{
    for (int i = 0; i < page->id_count; i++) {
        if (!CHECK(strcmp(page->ids[i], id) != 0)) {
            printf("    id %s stands twice\n", id);
        }
    }
    if (CHECK(page->id_count < TEST_HTML_IDS)) {
        char *copy = malloc(strlen(id) + 1);
        if (copy != NULL) {
            memcpy(copy, id, strlen(id) + 1);
            page->ids[page->id_count] = copy;
            page->id_count += 1;
        }
    }
}

static inline void html_see_open(html_page *page, const char *name, const char *tag, size_t size)
{
    char value[2048];
    static const char *const forbidden[] = {"script", "iframe", "object", "embed",
                                            "form",   "link",   "img"};
    for (size_t i = 0; i < sizeof forbidden / sizeof forbidden[0]; i++) {
        if (!CHECK(strcmp(name, forbidden[i]) != 0)) {
            printf("    <%s>\n", name);
        }
    }
    CHECK(!html_attribute(tag, size, "onload", value, sizeof value));
    CHECK(!html_attribute(tag, size, "onclick", value, sizeof value));
    CHECK(!html_attribute(tag, size, "src", value, sizeof value));
    CHECK(!html_attribute(tag, size, "style", value, sizeof value));
    if (html_attribute(tag, size, "id", value, sizeof value)) {
        html_see_id(page, value);
    }
    if (strcmp(name, "html") == 0) {
        CHECK(html_attribute(tag, size, "lang", value, sizeof value) && strlen(value) == 2);
    }
    if (strcmp(name, "th") == 0) {
        CHECK(html_attribute(tag, size, "scope", value, sizeof value)
              && (strcmp(value, "col") == 0 || strcmp(value, "row") == 0));
    }
    if (strcmp(name, "svg") == 0) {
        page->figure_count += 1;
        CHECK(html_attribute(tag, size, "role", value, sizeof value) && strcmp(value, "img") == 0);
        CHECK(html_attribute(tag, size, "aria-labelledby", value, sizeof value));
    }
    if (name[0] == 'h' && name[1] >= '1' && name[1] <= '6' && name[2] == '\0') {
        int level = name[1] - '0';
        if (!CHECK(level <= page->heading + 1)) {
            printf("    h%d follows h%d\n", level, page->heading);
        }
        page->heading = level;
        page->heading_count[level] += 1;
    }
    page->title_count += strcmp(name, "title") == 0 && page->depth == 2 ? 1 : 0;
    page->table_count += strcmp(name, "table") == 0 ? 1 : 0;
}

/* One tag from "<" on; how many bytes it takes. */
static inline size_t html_see_tag(html_page *page, const char *tag)
{
    const char *end = strchr(tag, '>');
    if (!CHECK(end != NULL)) {
        return strlen(tag);
    }
    size_t size = (size_t)(end - tag) + 1;
    bool closes = tag[1] == '/';
    const char *from = tag + (closes ? 2 : 1);
    size_t length = strcspn(from, " \n/>");
    char name[16] = "";
    if (!CHECK(length > 0 && length < sizeof name)) {
        return size;
    }
    memcpy(name, from, length);
    if (closes) {
        if (CHECK(page->depth > 0)) {
            page->depth -= 1;
            CHECK_TEXT(page->open[page->depth], name);
        }
        return size;
    }
    html_see_open(page, name, tag, size);
    if (end[-1] != '/' && !html_is_void(name) && CHECK(page->depth < TEST_HTML_DEPTH)) {
        memcpy(page->open[page->depth], name, sizeof name);
        page->depth += 1;
    }
    return size;
}

static inline void html_forget(html_page *page)
{
    for (int i = 0; i < page->id_count; i++) {
        free(page->ids[i]);
    }
    page->id_count = 0;
}

/* Checks @p html, a whole page closed by a zero byte. */
static inline void html_check(const char *html, html_page *page)
{
    memset(page, 0, sizeof *page);
    static const char doctype[] = "<!DOCTYPE html>\n";
    CHECK(strncmp(html, doctype, strlen(doctype)) == 0);
    const char *at = html + strlen(doctype);
    while (*at != '\0') {
        bool in_style = page->depth > 0 && strcmp(page->open[page->depth - 1], "style") == 0;
        if (*at == '<' && (!in_style || strncmp(at, "</style", 7) == 0)) {
            at += html_see_tag(page, at);
        } else {
            CHECK((unsigned char)*at >= 0x20 || *at == '\n');
            at += 1;
        }
    }
    CHECK(page->depth == 0);
    CHECK(page->title_count == 1);
    CHECK(page->heading_count[1] == 1);
    CHECK(strstr(html, "http://") == NULL || strstr(html, "http://www.w3.org/") != NULL);
    CHECK(strstr(html, "@import") == NULL && strstr(html, "url(") == NULL);
    html_forget(page);
}

/* The text of @p html with its tags taken off and its references put back, in place. */
static inline void html_strip(char *html)
{
    static const struct {
        const char *reference;
        char stands_for;
    } references[] = {
        {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};

    char *to = html;
    for (const char *from = html; *from != '\0';) {
        if (*from == '<') {
            from += strcspn(from, ">");
            from += *from == '>' ? 1 : 0;
            *to++ = '\n';
            continue;
        }
        char byte = *from;
        size_t size = 1;
        for (size_t i = 0; i < sizeof references / sizeof references[0]; i++) {
            size_t length = strlen(references[i].reference);
            if (strncmp(from, references[i].reference, length) == 0) {
                byte = references[i].stands_for;
                size = length;
            }
        }
        *to++ = byte;
        from += size;
    }
    *to = '\0';
}

#endif
