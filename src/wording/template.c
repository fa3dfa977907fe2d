#include "wording/template.h"

#include <string.h>

typedef struct filler {
    qll_token_function *token;
    const void *context;
    const char *unknown; /* NULL = leave it out */
} filler;

/* Writes @p text with its tokens filled in; false if one of them was not known. */
static bool write_filled(qll_writer *writer, qll_text text, const filler *with)
{
    bool known = true;
    size_t at = 0;
    while (at < text.size) {
        const char *open = memchr(text.bytes + at, '{', text.size - at);
        size_t plain = open == NULL ? text.size - at : (size_t)(open - text.bytes) - at;
        qll_write_text(writer, (qll_text){text.bytes + at, plain});
        at += plain;
        if (open == NULL) {
            break;
        }
        const char *close = memchr(open, '}', text.size - at);
        if (close == NULL) {
            return false;
        }
        qll_text name = {open + 1, (size_t)(close - open) - 1};
        if (!with->token(writer, name, with->context)) {
            known = false;
            qll_write(writer, with->unknown == NULL ? "" : with->unknown);
        }
        at = (size_t)(close - text.bytes) + 1;
    }
    return known;
}

/* Writes a [part] only if all its tokens are known. */
static void write_part(qll_writer *writer, qll_text part, const filler *with)
{
    filler silent = *with;
    silent.unknown = NULL;
    qll_writer trial = qll_writer_new(writer->arena);
    bool known = write_filled(&trial, part, &silent);
    if (known) {
        qll_write_text(writer, qll_writer_text(&trial));
    }
}

void qll_template_write(qll_writer *writer, const char *closed, qll_token_function *token,
                        const void *context, const char *unknown)
{
    const filler with = {token, context, unknown};
    qll_text rest = qll_text_of(closed);
    while (rest.size > 0) {
        const char *open = memchr(rest.bytes, '[', rest.size);
        const char *close = open == NULL ? NULL : memchr(open, ']', rest.size);
        size_t plain = close == NULL ? rest.size : (size_t)(open - rest.bytes);
        (void)write_filled(writer, (qll_text){rest.bytes, plain}, &with);
        if (close == NULL) {
            break;
        }
        write_part(writer, (qll_text){open + 1, (size_t)(close - open) - 1}, &with);
        size_t used = (size_t)(close - rest.bytes) + 1;
        rest = (qll_text){rest.bytes + used, rest.size - used};
    }
}
