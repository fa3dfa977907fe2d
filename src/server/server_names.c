#include "server/server_names.h"

#include "server/http.h"

#include <string.h>

/* The port behind the colon at @p at; the usual one where there is none; 65536 where it is no port. */
static unsigned port_at(const qll_server_names *names, qll_text host, size_t at)
{
    if (at == host.size) {
        return names->is_secure ? 443 : 80;
    }
    unsigned port = 0;
    const size_t count = host.size - at - 1;
    for (size_t i = at + 1; i < host.size; i++) {
        if (!qll_is_digit(host.bytes[i]) || count > 5) {
            return 65536;
        }
        port = 10 * port + (unsigned)(host.bytes[i] - '0');
    }
    return count == 0 || port > 65535 ? 65536 : port;
}

/* Where the name ends: at a colon, but for those of an address in brackets. */
static size_t name_end(qll_text host)
{
    size_t at = 0;
    if (host.size > 0 && host.bytes[0] == '[') {
        const char *close = memchr(host.bytes, ']', host.size);
        at = close == NULL ? host.size : (size_t)(close - host.bytes) + 1;
    }
    while (at < host.size && host.bytes[at] != ':') {
        at += 1;
    }
    return at;
}

bool qll_names_have(const qll_server_names *names, qll_text host)
{
    const size_t end = name_end(host);
    if (port_at(names, host, end) != names->port) {
        return false;
    }
    for (size_t i = 0; i < names->count; i++) {
        if (qll_http_same((qll_text){host.bytes, end}, names->names[i])) {
            return true;
        }
    }
    return false;
}

bool qll_names_are_origin(const qll_server_names *names, qll_text origin)
{
    const char *scheme = names->is_secure ? "https://" : "http://";
    const size_t size = strlen(scheme);
    if (origin.size < size || memcmp(origin.bytes, scheme, size) != 0) {
        return false;
    }
    return qll_names_have(names, (qll_text){origin.bytes + size, origin.size - size});
}
