/* What a reader who does not see, or sees no colour, needs of a page, checked on its bytes: a language, a
 * title, landmarks, headings in order and none empty, tables with a caption, heads with a scope and rows of
 * one length, drawings with a name and a description, contrast worked out (WCAG 2.1, 1.4.3 and 1.4.11), words
 * where there is colour; and nothing that runs or is fetched. */
#ifndef QUELL_TESTS_HTML_CHECK_H
#define QUELL_TESTS_HTML_CHECK_H

#include "check.h"
#include "contrast.h"

#include <stdlib.h>

/* Deeper than any page of ours. */
#define TEST_HTML_DEPTH 64
#define TEST_HTML_IDS   512

typedef struct html_page {
    char open[TEST_HTML_DEPTH][16]; /* elements that are open */
    int depth;
    int heading; /* level of the last */
    int title_count, heading_count[7], figure_count, table_count;
    int main_count, caption_count, figcaption_count;
    int cells, row_cells;         /* of the row that is read; of the table's first; -1 before it */
    size_t said[TEST_HTML_DEPTH]; /* bytes of text in each element that is open */
    bool toned[TEST_HTML_DEPTH];  /* it is told by its colour too */
    char *ids[TEST_HTML_IDS];
    int id_count;
    char *meant[TEST_HTML_IDS]; /* ids that something is labelled by */
    int meant_count;
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

static inline void html_keep(char **list, int *count, const char *word, size_t size)
{
    char *copy = CHECK(*count < TEST_HTML_IDS) ? calloc(size + 1, 1) : NULL;
    if (copy != NULL) {
        memcpy(copy, word, size);
        list[*count] = copy;
        *count += 1;
    }
}

static inline bool html_has_id(const html_page *page, const char *id)
{
    for (int i = 0; i < page->id_count; i++) {
        if (strcmp(page->ids[i], id) == 0) {
            return true;
        }
    }
    return false;
}

static inline void html_see_id(html_page *page, const char *id)
{
    if (!CHECK(!html_has_id(page, id))) {
        printf("    id %s stands twice\n", id);
    }
    html_keep(page->ids, &page->id_count, id, strlen(id));
}

/* The ids of a list of them. */
static inline void html_see_meant(html_page *page, const char *list)
{
    while (*list != '\0') {
        size_t size = strcspn(list, " ");
        html_keep(page->meant, &page->meant_count, list, size);
        list += size + strspn(list + size, " ");
    }
}

/* "#1a2b3c" at @p at; false if there is none. */
static inline bool html_colour(const char *at, qll_colour *colour)
{
    unsigned parts[3] = {0, 0, 0};
    if (*at != '#' || strspn(at + 1, "0123456789abcdef") < 3) {
        return false;
    }
    bool is_short = strspn(at + 1, "0123456789abcdef") < 6;
    for (size_t i = 0; i < 3; i++) {
        const char hex[] = {at[is_short ? 1 + i : 1 + 2 * i], at[is_short ? 1 + i : 2 + 2 * i], 0};
        parts[i] = (unsigned)strtoul(hex, NULL, 16);
    }
    *colour = (qll_colour){parts[0] / 255.0, parts[1] / 255.0, parts[2] / 255.0};
    return true;
}

/* The colour that @p property has in the rule from @p at to its "}"; left alone if it has none. */
static inline void html_rule_colour(const char *at, const char *property, qll_colour *colour)
{
    size_t length = strlen(property);
    size_t size = strcspn(at, "}");
    for (size_t i = 1; i + length < size; i++) {
        if ((at[i - 1] == '{' || at[i - 1] == ';') && strncmp(at + i, property, length) == 0) {
            (void)html_colour(at + i + length, colour);
        }
    }
}

/* Every rule's ink on its paper, or on the page's. */
static inline void html_check_style(const char *style)
{
    qll_colour ink = QLL_BLACK;
    qll_colour paper = QLL_WHITE;
    size_t rules = 0;
    const char *end = strstr(style, "</style>");
    for (const char *at = style; CHECK(end != NULL) && at < end;) {
        const char *open = memchr(at, '{', (size_t)(end - at));
        if (open == NULL) {
            break;
        }
        qll_colour own_ink = ink;
        qll_colour own_paper = paper;
        html_rule_colour(open, "color:", &own_ink);
        html_rule_colour(open, "background:", &own_paper);
        if (!CHECK(contrast_of(own_ink, own_paper) >= 4.5)) {
            printf("    %.60s\n", at);
        }
        bool is_page = strncmp(at, "body", 4) == 0 && rules == 0;
        ink = is_page ? own_ink : ink;
        paper = is_page ? own_paper : paper;
        rules += 1;
        at = open + 1;
    }
    CHECK(rules > 10);
}

/* Letters of a drawing: dark on white, or white on the black of a bubble; lines that are told by their
 * colour stand out from the paper. */
static inline void html_see_drawn(const char *name, const char *tag, size_t size)
{
    char value[64];
    qll_colour colour;
    if (strcmp(name, "text") == 0 && html_attribute(tag, size, "fill", value, sizeof value)
        && CHECK(html_colour(value, &colour))) {
        double ratio = contrast_of(colour, QLL_WHITE);
        CHECK(ratio >= 4.5 || ratio < 1.001);
    }
    if (html_attribute(tag, size, "stroke", value, sizeof value) && html_colour(value, &colour)) {
        bool is_grey = colour.red == colour.green && colour.green == colour.blue;
        CHECK(is_grey || contrast_of(colour, QLL_WHITE) >= 3.0);
    }
}

static inline void html_see_open(html_page *page, const char *name, const char *tag, size_t size)
{
    char value[2048];
    static const char *const forbidden[] = {"script", "iframe", "object", "embed", "form",
                                            "link",   "img",    "use",    "image", "base"};
    for (size_t i = 0; i < sizeof forbidden / sizeof forbidden[0]; i++) {
        if (!CHECK(strcmp(name, forbidden[i]) != 0)) {
            printf("    <%s>\n", name);
        }
    }
    CHECK(!html_attribute(tag, size, "onload", value, sizeof value));
    CHECK(!html_attribute(tag, size, "onclick", value, sizeof value));
    CHECK(!html_attribute(tag, size, "src", value, sizeof value));
    CHECK(!html_attribute(tag, size, "style", value, sizeof value));
    CHECK(!html_attribute(tag, size, "xlink:href", value, sizeof value));
    CHECK(!html_attribute(tag, size, "href", value, sizeof value) || value[0] == '#');
    html_see_drawn(name, tag, size);
    if (html_attribute(tag, size, "aria-labelledby", value, sizeof value)) {
        html_see_meant(page, value);
    }
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
        CHECK(strchr(value, ' ') != NULL); /* a name and a description */
    }
    page->main_count += strcmp(name, "main") == 0 ? 1 : 0;
    page->caption_count += strcmp(name, "caption") == 0 ? 1 : 0;
    page->figcaption_count += strcmp(name, "figcaption") == 0 ? 1 : 0;
    if (strcmp(name, "table") == 0) {
        page->row_cells = -1;
    }
    page->cells = strcmp(name, "tr") == 0 ? 0 : page->cells;
    page->cells += strcmp(name, "th") == 0 || strcmp(name, "td") == 0 ? 1 : 0;
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
/* What must not be empty, and is told by more than its colour. */
static inline void html_see_close(html_page *page, const char *name)
{
    static const char *const speaking[] = {"h1",      "h2",         "h3", "title", "desc",
                                           "caption", "figcaption", "th", "p",     "li"};
    size_t said = page->said[page->depth];
    for (size_t i = 0; i < sizeof speaking / sizeof speaking[0]; i++) {
        if (strcmp(name, speaking[i]) == 0 && !CHECK(said > 0)) {
            printf("    <%s> says nothing\n", name);
        }
    }
    CHECK(!page->toned[page->depth] || said > 2);
    if (strcmp(name, "tr") == 0) {
        CHECK(page->row_cells < 0 || page->cells == page->row_cells);
        page->row_cells = page->cells;
    }
    if (page->depth > 0) {
        page->said[page->depth - 1] += said;
    }
}

static inline size_t html_see_tag(html_page *page, const char *tag)
{
    const char *end = strchr(tag, '>');
    CHECK(end != NULL);
    if (end == NULL) {
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
            html_see_close(page, name);
        }
        return size;
    }
    html_see_open(page, name, tag, size);
    if (end[-1] != '/' && !html_is_void(name) && CHECK(page->depth < TEST_HTML_DEPTH)) {
        char class[64];
        memcpy(page->open[page->depth], name, sizeof name);
        page->said[page->depth] = 0;
        page->toned[page->depth] =
            html_attribute(tag, size, "class", class, sizeof class)
            && (strstr(class, "good") || strstr(class, "warn") || strstr(class, "fail"));
        page->depth += 1;
    }
    return size;
}

static inline void html_forget(html_page *page)
{
    for (int i = 0; i < page->id_count; i++) {
        free(page->ids[i]);
    }
    for (int i = 0; i < page->meant_count; i++) {
        free(page->meant[i]);
    }
    page->id_count = 0;
    page->meant_count = 0;
}

/* Reads elements and text from @p at to the end. */
static inline void html_read(html_page *page, const char *at)
{
    while (*at != '\0') {
        bool in_style = page->depth > 0 && strcmp(page->open[page->depth - 1], "style") == 0;
        if (*at == '<' && (!in_style || strncmp(at, "</style", 7) == 0)) {
            at += html_see_tag(page, at);
            continue;
        }
        CHECK((unsigned char)*at >= 0x20 || *at == '\n');
        if (page->depth > 0 && *at != ' ' && *at != '\n') {
            page->said[page->depth - 1] += 1;
        }
        at += 1;
    }
}

/* Checks @p html, a whole page closed by a zero byte. */
static inline void html_check(const char *html, html_page *page)
{
    memset(page, 0, sizeof *page);
    static const char doctype[] = "<!DOCTYPE html>\n";
    CHECK(strncmp(html, doctype, strlen(doctype)) == 0);
    html_read(page, html + strlen(doctype));
    CHECK(page->depth == 0);
    CHECK(page->title_count == 1);
    CHECK(page->heading_count[1] == 1);
    CHECK(page->main_count == 1);
    CHECK(page->caption_count == page->table_count);
    CHECK(page->figcaption_count == page->figure_count);
    for (int i = 0; i < page->meant_count; i++) {
        if (!CHECK(html_has_id(page, page->meant[i]))) {
            printf("    nothing is called %s\n", page->meant[i]);
        }
    }
    /* No address but the name of SVG: nothing is fetched from anywhere. */
    static const char svg[] = "xmlns=\"http://www.w3.org/2000/svg\"";
    for (const char *found = strstr(html, "://"); found != NULL; found = strstr(found + 3, "://")) {
        CHECK(found - html > 11 && strncmp(found - 11, svg, strlen(svg)) == 0);
    }
    CHECK(strstr(html, "@import") == NULL && strstr(html, "url(") == NULL);
    html_check_style(strstr(html, "<style>") == NULL ? "" : strstr(html, "<style>"));
    html_forget(page);
}

/* The text of @p html with its tags taken off and its references put back, in place. */
static inline void html_strip(char *html)
{
    static const struct {
        const char *reference;
        char stands_for;
    } references[] = {{"&amp;", '&'},  {"&nbsp;", ' '}, {"&lt;", '<'},   {"&gt;", '>'},
                      {"&quot;", '"'}, {"&#39;", '\''}, {"&#8209;", '-'}};

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
