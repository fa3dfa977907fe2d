#include "server/http.h"

#include "base/count.h"

#include <assert.h>
#include <string.h>

const char *const qll_method_words[QLL_METHOD_COUNT] = {
#define QLL_METHOD_WORD(name) [QLL_METHOD_##name] = #name,
    QLL_METHOD_LIST(QLL_METHOD_WORD)
#undef QLL_METHOD_WORD
};

static char small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

bool qll_http_same(qll_text a, const char *closed)
{
    size_t at = 0;
    while (at < a.size && closed[at] != '\0' && small(a.bytes[at]) == small(closed[at])) {
        at += 1;
    }
    return at == a.size && closed[at] == '\0';
}

const char *qll_http_field_of(const qll_http_request *request, const char *name)
{
    for (size_t i = 0; i < request->field_count; i++) {
        if (qll_http_same(qll_text_of(request->fields[i].name), name)) {
            return request->fields[i].value;
        }
    }
    return NULL;
}

const char *qll_http_argument_of(const qll_http_request *request, const char *name)
{
    for (size_t i = 0; i < request->argument_count; i++) {
        if (strcmp(request->arguments[i].name, name) == 0) {
            return request->arguments[i].value;
        }
    }
    return NULL;
}

size_t qll_http_field_count(const qll_http_request *request, const char *name)
{
    size_t count = 0;
    for (size_t i = 0; i < request->field_count; i++) {
        count += qll_http_same(qll_text_of(request->fields[i].name), name);
    }
    return count;
}

const char *qll_http_reason(int status)
{
    static const struct {
        int status;
        const char *reason; /* RFC 9110, 15; RFC 6585 */
    } reasons[] = {
        {400, "Bad Request"},
        {401, "Unauthorized"},
        {403, "Forbidden"},
        {404, "Not Found"},
        {405, "Method Not Allowed"},
        {409, "Conflict"},
        {411, "Length Required"},
        {412, "Precondition Failed"},
        {413, "Content Too Large"},
        {416, "Range Not Satisfiable"},
        {415, "Unsupported Media Type"},
        {421, "Misdirected Request"},
        {422, "Unprocessable Content"},
        {428, "Precondition Required"},
        {429, "Too Many Requests"},
        {500, "Internal Server Error"},
        {503, "Service Unavailable"},
        {507, "Insufficient Storage"},
    };

    for (size_t i = 0; i < QLL_COUNT(reasons); i++) {
        if (reasons[i].status == status) {
            return reasons[i].reason;
        }
    }
    return "";
}

void qll_http_reply_field(qll_http_reply *reply, const char *name, const char *value)
{
    assert(reply->field_count < QLL_REPLY_FIELDS);
    reply->fields[reply->field_count] = (qll_http_field){name, value};
    reply->field_count += 1;
}
