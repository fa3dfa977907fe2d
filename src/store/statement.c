#include "store/statement.h"

#include "base/text.h"
#include "store/sql.h"

#include <assert.h>
#include <string.h>

const char *const qll_statement_words[QLL_STATEMENT_COUNT] = {
#define QLL_STATEMENT_WORD(name, word) [QLL_STATEMENT_##name] = (word),
    QLL_STATEMENT_LIST(QLL_STATEMENT_WORD)
#undef QLL_STATEMENT_WORD
};

static const char mark[] = "--: ";

/* The next line of @p rest, which moves on behind it. */
static qll_text next_line(qll_text *rest)
{
    const char *end = memchr(rest->bytes, '\n', rest->size);
    const qll_text line = {rest->bytes, end == NULL ? rest->size : (size_t)(end - rest->bytes)};
    const size_t taken = line.size + (end == NULL ? 0 : 1);
    *rest = (qll_text){rest->bytes + taken, rest->size - taken};
    return line;
}

static bool is_mark(qll_text line)
{
    return line.size > strlen(mark) && memcmp(line.bytes, mark, strlen(mark)) == 0;
}

/* The statement called @p word in @p file; nothing where there is none. */
static qll_text find_in(qll_text file, const char *word)
{
    qll_text rest = file;
    while (rest.size > 0) {
        const qll_text line = next_line(&rest);
        if (!is_mark(line)
            || !qll_text_is((qll_text){line.bytes + strlen(mark), line.size - strlen(mark)},
                            word)) {
            continue;
        }
        const char *begins = rest.bytes;
        const char *ends = begins;
        while (rest.size > 0) {
            const qll_text next = next_line(&rest);
            if (is_mark(next)) {
                break;
            }
            ends = next.bytes + next.size;
        }
        return qll_text_trimmed((qll_text){begins, (size_t)(ends - begins)});
    }
    return (qll_text){0};
}

qll_text qll_statement_text(qll_statement statement, qll_dialect dialect)
{
    const char *word = qll_statement_words[statement];
    const qll_text common = {(const char *)qll_file_store_statements,
                             qll_file_store_statements_size};
    const qll_text search = {(const char *)qll_file_store_search, qll_file_store_search_size};
    const qll_text search_postgres = {(const char *)qll_file_store_search_postgres,
                                      qll_file_store_search_postgres_size};
    const qll_text found = find_in(common, word);
    const qll_text text =
        found.size > 0 ? found
                       : find_in(dialect == QLL_DIALECT_SQLITE ? search : search_postgres, word);
    assert(text.size > 0);
    return text;
}
