/* How libFuzzer changes a request, so that it gets past the guard and into what answers: it gets another route, or the one that its
 * record belongs to, with the If-Match that its parents ask for; its headers are left out, doubled or exchanged; its body is changed
 * by nodes. Now and then bytes are changed, as libFuzzer does by itself. */
#include "base/count.h"
#include "base/text.h"
#include "libfuzzer.h"
#include "mutate_json.h"
#include "server/routes.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A request: its first line, its other lines, its body. */
typedef struct pieces {
    qll_text line, headers, body;
} pieces;

static size_t below(qll_random *random, size_t count)
{
    return (size_t)(qll_random_bits(random) % count);
}

static pieces take_apart(const char *data, size_t size)
{
    pieces of = {{data, 0}, {data, 0}, {data + size, 0}};
    while (of.line.size < size && data[of.line.size] != '\n') {
        of.line.size += 1;
    }
    size_t at = of.line.size < size ? of.line.size + 1 : size;
    of.headers.bytes = data + at;
    while (at < size && data[at] != '\n') {
        while (at < size && data[at] != '\n') {
            at += 1;
        }
        at += at < size ? 1 : 0;
    }
    of.headers.size = (size_t)(data + at - of.headers.bytes);
    at += at < size ? 1 : 0;
    of.body = (qll_text){data + at, size - at};
    return of;
}

static size_t put_together(const char *line, qll_text headers, const char *more, qll_text body,
                           char *out, size_t most)
{
    const int size =
        snprintf(out, most, "%s\n%.*s%s\n", line, (int)headers.size, headers.bytes, more);
    if (size < 0 || (size_t)size + body.size > most) {
        return 0;
    }
    memcpy(out + size, body.bytes, body.size);
    return (size_t)size + body.size;
}

/* ---- routes ---- */

static const char *const ids[] = {
    "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90",
    "5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c10",
    "0123456789abcdef0123456789abcdef",
    "none",
    "..",
    "%2e%2e",
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"};
static const char *const values[] = {"0",
                                     "1",
                                     "-1",
                                     "501",
                                     "999999999999999999",
                                     "9999999999999999999",
                                     "",
                                     "ced",
                                     "a \" b*",
                                     "us",
                                     "si",
                                     "0b8c9f3e-5a51-4d5e-9d0e-2f6f1c7a8b90"};

static size_t another_route(const pieces *of, char *out, size_t most, qll_random *random)
{
    char line[400];
    size_t count = 0;
    const qll_route *all = qll_routes(&count);
    const qll_route *route = &all[below(random, count)];
    const size_t before = strcspn(route->path, "{");
    int size =
        snprintf(line, sizeof line, "%s %.*s%s", qll_method_words[route->method], (int)before,
                 route->path, route->path[before] == '{' ? ids[below(random, QLL_COUNT(ids))] : "");
    const char *rest = route->arguments == NULL ? "" : route->arguments;
    for (char mark = '?'; *rest != '\0'; mark = '&') {
        const size_t key = strcspn(rest, ",");
        if (below(random, 2) == 0) {
            size += snprintf(line + size, sizeof line - (size_t)size, "%c%.*s=%s", mark, (int)key,
                             rest, values[below(random, QLL_COUNT(values))]);
        }
        rest += key + (rest[key] == ',');
    }
    return put_together(line, of->headers, "", of->body, out, most);
}

/* The texts of 36 bytes behind @p key, one after the other; NULL at the end. */
static const char *next_id(qll_text text, const char **from, const char *key)
{
    const char *end = text.bytes + text.size;
    const size_t size = strlen(key);
    for (const char *at = *from; at + size + 38 <= end; at++) {
        const char *open = at + size;
        if (memcmp(at, key, size) != 0) {
            continue;
        }
        while (open < end && strchr(": [", *open) != NULL) {
            open += 1;
        }
        if (open + 38 <= end && open[0] == '"' && open[37] == '"') {
            *from = open + 37;
            return open + 1;
        }
    }
    return NULL;
}

/* A record to the address that its id says, and what it says it comes from. */
static size_t own_route(const pieces *of, char *out, size_t most)
{
    char line[80];
    char match[80] = "";
    const char *from = of->body.bytes;
    const char *id = next_id(of->body, &from, "\"id\"");
    if (id == NULL) {
        return 0;
    }
    (void)snprintf(line, sizeof line, "PUT /api/records/%.36s", id);
    from = of->body.bytes;
    const char *parent = next_id(of->body, &from, "\"parents\"");
    if (parent != NULL) {
        (void)snprintf(match, sizeof match, "If-Match: \"%.36s\"\n", parent);
    }
    const qll_text home = qll_text_of("Host: localhost:8080\nContent-Type: application/json\n");
    return put_together(line, home, match, of->body, out, most);
}

/* ---- headers ---- */

static const char *const headers[] = {"Host: localhost:8080",
                                      "Host: example.org",
                                      "Content-Type: application/json",
                                      "Content-Type: application/octet-stream",
                                      "Content-Range: bytes 0-2/3",
                                      "Content-Range: bytes 1-0/99999999999999999999",
                                      "Range: bytes=0-",
                                      "Range: bytes=9-1",
                                      "If-Match: \"5f2b8c1e-0d34-4a77-9b0c-7e2f4d6a8c10\"",
                                      "If-Match: \"",
                                      "Origin: http://localhost:8080",
                                      "Origin: null",
                                      "Sec-Fetch-Site: cross-site",
                                      "Cookie: quell=0123; a",
                                      "Accept-Language: es;q=1, en",
                                      "Accept-Encoding: gzip",
                                      "Transfer-Encoding: chunked",
                                      "Content-Length: 3",
                                      "If-None-Match: \"a\""};

static size_t another_header(const pieces *of, char *out, size_t most, qll_random *random)
{
    char line[400];
    char more[200] = "";
    (void)snprintf(line, sizeof line, "%.*s", (int)of->line.size, of->line.bytes);
    qll_text kept = of->headers;
    const bool drops = below(random, 2) == 0;
    if (drops) {
        const char *end = memchr(kept.bytes, '\n', kept.size);
        const size_t first = end == NULL ? kept.size : (size_t)(end - kept.bytes) + 1;
        kept = (qll_text){kept.bytes + first, kept.size - first};
    }
    if (!drops || below(random, 2) == 0) {
        (void)snprintf(more, sizeof more, "%s\n", headers[below(random, QLL_COUNT(headers))]);
    }
    return put_together(line, kept, more, of->body, out, most);
}

/* ---- bodies ---- */

static size_t another_body(const pieces *of, uint8_t *data, size_t max_size, qll_random *random)
{
    const size_t before = (size_t)((const uint8_t *)of->body.bytes - data);
    const size_t made = qll_mutate_json(data + before, of->body.size, max_size - before, random);
    return made == 0 ? 0 : before + made;
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size, unsigned int seed)
{
    qll_random random = qll_random_seeded(seed);
    const pieces of = take_apart((const char *)data, size);
    const size_t way = below(&random, 10);
    size_t made = 0;
    char *out = way < 4 ? malloc(max_size + 1) : NULL;
    if (out != NULL) {
        made = way == 0   ? another_route(&of, out, max_size, &random)
               : way == 1 ? own_route(&of, out, max_size)
                          : another_header(&of, out, max_size, &random);
        memcpy(data, out, made);
        free(out);
    } else if (way > 4) {
        made = another_body(&of, data, max_size, &random);
    }
    return made > 0 ? made : LLVMFuzzerMutate(data, size, max_size);
}
