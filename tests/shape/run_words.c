/* The words of docs/words.md against the texts of every language.
 *
 *     run_words PAGE
 *
 * Between `<!-- words of CODE -->` and `<!-- end -->` the page holds a table; the last cell of a row names
 * what is not said, by commas. No text of that language may hold one of those words, alone or with
 * a plural's ending. Quoted and backquoted words, paths, holes and the program's verbs are machine words. */
#include "check.h"
#include "folder.h"
#include "wording/language.h"

#include <ctype.h>
#include <stdlib.h>

#define QLL_WORD_MOST  256
#define QLL_WORD_BYTES 64

typedef struct refused_words {
    char words[QLL_WORD_MOST][QLL_WORD_BYTES]; /* lower case */
    size_t count;
} refused_words;

/* ---- bytes ---- */

/* Of the capitals beyond ASCII those of Latin-1, which Spanish has: two bytes, the first 0xC3. */
static char small_of(unsigned char before, unsigned char byte)
{
    bool is_ascii = byte >= 'A' && byte <= 'Z';
    bool is_latin = before == 0xC3U && byte >= 0x80U && byte <= 0x9EU;
    return (char)(is_ascii || is_latin ? byte + 0x20U : byte);
}

static void make_small(char *text)
{
    unsigned char before = 0;
    for (char *at = text; *at != '\0'; at++) {
        unsigned char byte = (unsigned char)*at;
        *at = small_of(before, byte);
        before = byte;
    }
}

/* A hyphen joins: "no-flow" holds neither "no" nor "flow". */
static bool is_of_word(char byte)
{
    return isalnum((unsigned char)byte) || (unsigned char)byte >= 0x80 || byte == '-'
           || byte == '_';
}

/* Blanks what is the machine's: "...", `...`, {...}, a word with a slash, and "quell VERB". */
static void blank_machine_words(char *text)
{
    for (char *at = text; *at != '\0'; at++) {
        const char *closes = *at == '"' ? "\"" : *at == '`' ? "`" : *at == '{' ? "}" : NULL;
        char *end = closes == NULL ? NULL : strchr(at + 1, *closes);
        if (end != NULL) {
            memset(at, '.', (size_t)(end - at) + 1);
            at = end;
        }
    }
    for (char *word = text; *word != '\0';) {
        size_t size = strcspn(word, " ");
        bool is_verb = word - text >= 6 && strncmp(word - 6, "quell ", 6) == 0;
        if (is_verb || memchr(word, '/', size) != NULL) {
            memset(word, '.', size);
        }
        word += size + strspn(word + size, " ");
    }
}

static bool is_plural_end(const char *at)
{
    size_t size = *at == 's' ? 1 : at[0] == 'e' && at[1] == 's' ? 2 : 0;
    return !is_of_word(at[size]);
}

static bool holds(const char *text, const char *word)
{
    size_t size = strlen(word);
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        if ((at == text || !is_of_word(at[-1])) && is_plural_end(at + size)) {
            return true;
        }
    }
    return false;
}

/* The first of @p count refused words that @p says holds, or NULL. */
static const char *refused_in(const char (*words)[QLL_WORD_BYTES], size_t count, const char *says)
{
    char small[4096];
    if (!CHECK(strlen(says) < sizeof small)) {
        return NULL;
    }
    snprintf(small, sizeof small, "%s", says);
    blank_machine_words(small);
    make_small(small);
    for (size_t i = 0; i < count; i++) {
        if (holds(small, words[i])) {
            return words[i];
        }
    }
    return NULL;
}

/* ---- the page ---- */

static void take_words(refused_words *refused, const char *cell, size_t size)
{
    for (size_t at = 0; at < size;) {
        at += strspn(cell + at, " ,");
        size_t length = at < size ? strcspn(cell + at, ",|\n") : 0;
        length = length > size - at ? size - at : length;
        size_t used = length;
        while (used > 0 && cell[at + used - 1] == ' ') {
            used -= 1;
        }
        if (used > 0 && CHECK(used < QLL_WORD_BYTES && refused->count < QLL_WORD_MOST)) {
            snprintf(refused->words[refused->count], QLL_WORD_BYTES, "%.*s", (int)used, cell + at);
            make_small(refused->words[refused->count]);
            refused->count += 1;
        }
        at += length == 0 ? 1 : length;
    }
}

static void read_words(refused_words *refused, const char *page, const char *code)
{
    char head[64];
    snprintf(head, sizeof head, "<!-- words of %s -->\n", code);
    const char *at = strstr(page, head);
    const char *end = at == NULL ? NULL : strstr(at, "<!-- end -->");
    refused->count = 0;
    if (!CHECK(end != NULL)) {
        return;
    }
    at += strlen(head);
    for (size_t row = 0; at < end; row++) {
        const char *line_end = strchr(at, '\n');
        const char *last = line_end - 1;
        if (row >= 2 && CHECK(*last == '|')) {
            const char *cell = last;
            while (cell > at && cell[-1] != '|') {
                cell -= 1;
            }
            take_words(refused, cell, (size_t)(last - cell));
        }
        at = line_end + 1;
    }
}

/* ---- the texts ---- */

static void judge_text(const refused_words *refused, const char *code, const char *says)
{
    const char *word = says == NULL ? NULL : refused_in(refused->words, refused->count, says);
    if (!CHECK(word == NULL)) {
        printf("    %s: \"%s\" in \"%s\"; docs/words.md says what is said instead\n", code, word,
               says);
    }
}

static void check_language(const refused_words *refused, qll_language language)
{
    const char *code = qll_language_words[language];
    for (size_t i = 0; i < QLL_MESSAGE_COUNT; i++) {
        judge_text(refused, code, qll_say(language, (qll_message)i));
    }
#define QLL_CHECK_PART(part, table, list)                                    \
    for (size_t i = QLL_TEXT_FIRST_##part; i < QLL_TEXT_END_##part; i++) {   \
        judge_text(refused, code, qll_said_entry(language, (qll_text_id)i)); \
    }
    QLL_TEXT_PART_LIST(QLL_CHECK_PART)
#undef QLL_CHECK_PART
}

typedef struct planting {
    const char *before, *after;
    bool is_found;
} planting;

static void check_one(const char (*word)[QLL_WORD_BYTES], const planting *one)
{
    /* a path has no blanks */
    if (strchr(one->before, '/') != NULL && strchr(*word, ' ') != NULL) {
        return;
    }
    char text[256];
    snprintf(text, sizeof text, "%s%s%s", one->before, *word, one->after);
    text[0] = (char)toupper((unsigned char)text[0]);
    CHECK((refused_in(word, 1, text) != NULL) == one->is_found);
}

/* Every refused word is found where it is planted, and only there. */
static void check_planted(const refused_words *refused)
{
    static const planting plantings[] = {
        {"the ", ", then", true},    {"", "", true},
        {"(", "s)", true},           {"Two ", "es: one", true},
        {"its ", "'s end", true},    {"THE ", ".", true},
        {"the x", "x, then", false}, {"the \"", "\" of", false},
        {"write `", "`", false},     {"{", "} more", false},
        {"no-", " then", false},     {"docs/", ".md", false},
    };
    CHECK(refused->count > 40);
    for (size_t i = 0; i < refused->count; i++) {
        for (size_t p = 0; p < sizeof plantings / sizeof plantings[0]; p++) {
            check_one(&refused->words[i], &plantings[p]);
        }
    }
}

int main(int count, char **arguments)
{
    if (count != 2) {
        fprintf(stderr, "usage: run_words PAGE\n");
        return 2;
    }
    size_t size = 0;
    char *page = folder_read(arguments[1], &size);
    static refused_words refused;
    for (size_t i = 0; CHECK(page != NULL) && i < QLL_LANGUAGE_COUNT; i++) {
        read_words(&refused, page, qll_language_words[i]);
        check_planted(&refused);
        check_language(&refused, (qll_language)i);
    }
    free(page);
    return TEST_END();
}
