#include "server/listen.h"

#include "base/count.h"
#include "host/host.h"
#include "host/system_says.h"
#include "server/journal.h"
#include "server/limits.h"
#include "server/routes.h"
#include "server/wire.h"

#include <arpa/inet.h>
#include <errno.h>
#include <microhttpd.h>
#include <netdb.h>
#include <string.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

/* Replies that are under way get so long when the server is stopped. */
static const double farewell_s = 1.0;

struct qll_listener {
    qll_arena *arena;
    qll_listen_plan plan;
    qll_server *server;
    struct MHD_Daemon *daemon;
    int descriptor;
    qll_wires wires;
};

/* An exchange and its connection. */
typedef struct passing {
    qll_exchange exchange;
    struct MHD_Connection *connection;
    qll_wire *wire;
    size_t taken_size; /* of the body, so far */
    bool is_answered;
} passing;

/* ---- addresses ---- */

static bool read_address(const char *address, struct in_addr *four, struct in6_addr *six)
{
    *four = (struct in_addr){0};
    *six = in6addr_any;
    return inet_pton(AF_INET, address, four) == 1 || inet_pton(AF_INET6, address, six) == 1;
}

bool qll_address_is_loopback(const char *address)
{
    struct in_addr four;
    struct in6_addr six;
    return read_address(address, &four, &six)
           && ((ntohl(four.s_addr) >> 24) == 127 || IN6_IS_ADDR_LOOPBACK(&six));
}

bool qll_address_is_any(const char *address)
{
    struct in_addr four;
    struct in6_addr six;
    return read_address(address, &four, &six) && four.s_addr == 0 && IN6_IS_ADDR_UNSPECIFIED(&six);
}

/* ---- what comes in ---- */

static qll_method method_of(const char *word)
{
    int method = 0;
    while (method < QLL_METHOD_COUNT && strcmp(word, qll_method_words[method]) != 0) {
        method += 1;
    }
    return (qll_method)method;
}

typedef struct fields {
    qll_http_field *room;
    size_t count, most;
} fields;

static enum MHD_Result take_field(void *context, enum MHD_ValueKind kind, const char *name,
                                  const char *value)
{
    (void)kind;
    fields *all = context;
    if (all->count < all->most) {
        all->room[all->count] = (qll_http_field){name, value == NULL ? "" : value};
        all->count += 1;
    }
    return MHD_YES;
}

static const char *peer_of(struct MHD_Connection *connection, qll_arena *arena)
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    char text[NI_MAXHOST] = "";
    if (info != NULL && info->client_addr != NULL) {
        const socklen_t size = info->client_addr->sa_family == AF_INET6
                                   ? (socklen_t)sizeof(struct sockaddr_in6)
                                   : (socklen_t)sizeof(struct sockaddr_in);
        (void)getnameinfo(info->client_addr, size, text, sizeof text, NULL, 0, NI_NUMERICHOST);
    }
    const char *peer = qll_arena_copy(arena, text, strlen(text));
    return peer == NULL ? "" : peer;
}

/* Headers, or what is behind the question mark; room NULL without memory. */
static fields fields_of(struct MHD_Connection *connection, enum MHD_ValueKind kind,
                        qll_arena *arena)
{
    const int count = MHD_get_connection_values(connection, kind, NULL, NULL);
    fields all = {.most = count < 0 ? 0 : (size_t)count};
    all.room = qll_arena_take(arena, all.most, sizeof *all.room);
    if (all.room != NULL) {
        (void)MHD_get_connection_values(connection, kind, take_field, &all);
    }
    return all;
}

/* NULL without memory. */
static passing *begin(qll_listener *listener, struct MHD_Connection *connection,
                      const char *address, const char *method)
{
    qll_arena *arena = qll_arena_open(QLL_EXCHANGE_SIZE);
    passing *of = arena == NULL ? NULL : qll_arena_take(arena, 1, sizeof *of);
    if (of == NULL) {
        qll_arena_close(arena);
        return NULL;
    }
    const fields headers = fields_of(connection, MHD_HEADER_KIND, arena);
    const fields arguments = fields_of(connection, MHD_GET_ARGUMENT_KIND, arena);
    const char *path = qll_arena_copy(arena, address, strlen(address));
    if (headers.room == NULL || arguments.room == NULL || path == NULL) {
        qll_arena_close(arena);
        return NULL;
    }
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    *of = (passing){.exchange = {.server = listener->server,
                                 .arena = arena,
                                 .request = {.method = method_of(method),
                                             .path = path,
                                             .fields = headers.room,
                                             .field_count = headers.count,
                                             .arguments = arguments.room,
                                             .argument_count = arguments.count,
                                             .peer = peer_of(connection, arena)}},
                    .connection = connection,
                    .wire = info == NULL ? NULL : info->socket_context};
    return of;
}

/* Takes the next bytes of the body; false where there are more than were announced. */
static bool take_body(passing *of, const char *bytes, size_t size)
{
    char *room = qll_exchange_body(&of->exchange);
    if (room == NULL || size > of->exchange.body_size - of->taken_size) {
        return false;
    }
    memcpy(room + of->taken_size, bytes, size);
    of->taken_size += size;
    return true;
}

/* ---- what goes out ---- */

/* On everything. Nothing runs but our own files: no script inside a page, no other host, no frame around us. */
static const qll_http_field always[] = {
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; "
     "img-src 'self' data: blob:; media-src 'self' blob:; connect-src 'self'; worker-src 'self'; "
     "frame-src 'self' blob:; manifest-src 'self'; base-uri 'none'; form-action 'none'; "
     "frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
};

static struct MHD_Response *response_of(const qll_http_reply *reply)
{
    /* The library's own type for bytes that it only reads. */
    union {
        const void *read;
        void *handed;
    } bytes = {.read = reply->body.bytes == NULL ? "" : reply->body.bytes};
    struct MHD_Response *response = MHD_create_response_from_buffer(
        reply->body.size, bytes.handed,
        reply->is_lasting ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
    if (response == NULL) {
        return NULL;
    }
    for (size_t i = 0; i < QLL_COUNT(always); i++) {
        (void)MHD_add_response_header(response, always[i].name, always[i].value);
    }
    for (size_t i = 0; i < reply->field_count; i++) {
        (void)MHD_add_response_header(response, reply->fields[i].name, reply->fields[i].value);
    }
    if (!reply->is_lasting) {
        (void)MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
    }
    if (reply->type != NULL) {
        (void)MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, reply->type);
    }
    if (reply->closes) {
        (void)MHD_add_response_header(response, MHD_HTTP_HEADER_CONNECTION, "close");
    }
    return response;
}

static enum MHD_Result send_reply(qll_listener *listener, passing *of)
{
    const qll_http_reply *reply = &of->exchange.reply;
    struct MHD_Response *response = response_of(reply);
    if (response == NULL) {
        return MHD_NO;
    }
    qll_wire_now(&listener->wires, of->wire, QLL_WIRE_SENDS);
    const enum MHD_Result result =
        MHD_queue_response(of->connection, (unsigned)reply->status, response);
    MHD_destroy_response(response);
    return result;
}

/* ---- the library's calls ---- */

static void wake(void *waker)
{
    passing *of = waker;
    MHD_resume_connection(of->connection);
}

static enum MHD_Result answer(qll_listener *listener, passing *of)
{
    if (of->is_answered) {
        qll_exchange_resume(&of->exchange);
        return send_reply(listener, of);
    }
    of->is_answered = true;
    qll_wire_now(&listener->wires, of->wire, QLL_WIRE_WORKS);
    if (of->taken_size != of->exchange.body_size) {
        return MHD_NO;
    }
    if (qll_exchange_answer(&of->exchange)) {
        return send_reply(listener, of);
    }
    MHD_suspend_connection(of->connection);
    qll_exchange_park(&of->exchange, wake, of);
    return MHD_YES;
}

/* NOLINTNEXTLINE(readability-function-size): the library's own shape */
static enum MHD_Result take(void *context, struct MHD_Connection *connection, const char *address,
                            const char *method, const char *version, const char *bytes,
                            size_t *size, void **kept)
{
    (void)version;
    qll_listener *listener = context;
    passing *of = *kept;
    if (of == NULL) {
        of = begin(listener, connection, address, method);
        *kept = of;
        if (of == NULL) {
            return MHD_NO;
        }
        return qll_exchange_begin(&of->exchange) ? send_reply(listener, of) : MHD_YES;
    }
    if (*size > 0) {
        const bool is_taken = take_body(of, bytes, *size);
        *size = 0;
        return is_taken ? MHD_YES : MHD_NO;
    }
    return answer(listener, of);
}

/* Health and the page's files are asked for so often that nobody would read of it. */
static bool is_told(const qll_exchange *exchange)
{
    const int status = exchange->reply.status;
    return exchange->server->plan.tells && status != 0
           && (status >= 400 || exchange->route == NULL || exchange->route->body_most > 0
               || exchange->request.method == QLL_METHOD_DELETE);
}

static void tell(const qll_exchange *exchange)
{
    const qll_method method = exchange->request.method;
    qll_journal_write(&(qll_journal_entry){
        .event = "request",
        .method = method < QLL_METHOD_COUNT ? qll_method_words[method] : "other",
        .route = exchange->route == NULL ? "none" : exchange->route->path,
        .status = exchange->reply.status,
        .taken_size = exchange->body_size,
        .given_size = exchange->reply.body.size,
        .took_s = qll_host_now_s() - exchange->began_s});
}

static void end(void *context, struct MHD_Connection *connection, void **kept,
                enum MHD_RequestTerminationCode code)
{
    (void)connection;
    (void)code;
    qll_listener *listener = context;
    passing *of = *kept;
    if (of == NULL) {
        return;
    }
    if (is_told(&of->exchange)) {
        tell(&of->exchange);
    }
    qll_wire_now(&listener->wires, of->wire, QLL_WIRE_TAKES);
    qll_exchange_end(&of->exchange);
    qll_arena_close(of->exchange.arena);
    *kept = NULL;
}

static void notice(void *context, struct MHD_Connection *connection, void **socket_context,
                   enum MHD_ConnectionNotificationCode code)
{
    qll_listener *listener = context;
    if (code == MHD_CONNECTION_NOTIFY_CLOSED) {
        qll_wire_closed(&listener->wires, *socket_context);
        return;
    }
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    *socket_context =
        info == NULL ? NULL : qll_wire_opened(&listener->wires, (int)info->connect_fd);
}

/* Undoes %41 and the like. A zero byte would end the text for us and not for whoever looked at it before us: it becomes a byte
 * that leads nowhere. */
static size_t unescape(void *context, struct MHD_Connection *connection, char *text)
{
    (void)context;
    (void)connection;
    const size_t size = MHD_http_unescape(text);
    for (size_t i = 0; i < size; i++) {
        text[i] = text[i] == '\0' ? '\1' : text[i];
    }
    return size;
}

/* ---- open and close ---- */

/* A socket that listens there; -1 with errno. */
static int bind_to(const struct addrinfo *found)
{
    const int made =
        socket(found->ai_family, found->ai_socktype | SOCK_CLOEXEC, found->ai_protocol);
    const int yes = 1;
    if (made < 0) {
        return -1;
    }
    if (setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes) == 0
        && bind(made, found->ai_addr, found->ai_addrlen) == 0 && listen(made, SOMAXCONN) == 0) {
        return made;
    }
    const int error = errno;
    (void)close(made);
    errno = error;
    return -1;
}

static unsigned port_of(int descriptor)
{
    struct sockaddr_storage bound = {0};
    socklen_t size = sizeof bound;
    char port[NI_MAXSERV] = "";
    unsigned number = 0;
    if (getsockname(descriptor, (struct sockaddr *)&bound, &size) == 0
        && getnameinfo((const struct sockaddr *)&bound, size, NULL, 0, port, sizeof port,
                       NI_NUMERICSERV)
               == 0) {
        for (const char *at = port; qll_is_digit(*at); at++) {
            number = 10 * number + (unsigned)(*at - '0');
        }
    }
    return number;
}

qll_status qll_listen_open(const qll_listen_plan *plan, qll_arena *arena, qll_listener **listener,
                           unsigned *port, const char **why)
{
    const struct addrinfo wanted = {.ai_family = AF_UNSPEC,
                                    .ai_socktype = SOCK_STREAM,
                                    .ai_flags = AI_NUMERICHOST | AI_NUMERICSERV | AI_PASSIVE};
    struct addrinfo *found = NULL;
    qll_writer number = qll_writer_new(arena);
    qll_write_format(&number, "%zu", (size_t)plan->port);
    *listener = NULL;
    qll_listener *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL || !qll_wires_open(&made->wires, arena)) {
        return QLL_NO_MEMORY;
    }
    if (getaddrinfo(plan->address, qll_writer_text(&number).bytes, &wanted, &found) != 0) {
        return QLL_WRONG_USE;
    }
    const int descriptor = bind_to(found);
    const int error = errno;
    freeaddrinfo(found);
    if (descriptor < 0) {
        return qll_system_failed(error, arena, why);
    }
    made->arena = arena;
    made->plan = *plan;
    made->descriptor = descriptor;
    *port = port_of(descriptor);
    *listener = made;
    return QLL_OK;
}

qll_status qll_listen_begin(qll_listener *listener, qll_server *server)
{
    union {
        const char *read;
        void *handed;
    } certificate = {.read = listener->plan.certificate}, key = {.read = listener->plan.key};

    const bool is_secure = listener->plan.certificate != NULL;
    struct MHD_OptionItem tls[] = {
        {MHD_OPTION_HTTPS_MEM_CERT, 0, certificate.handed},
        {MHD_OPTION_HTTPS_MEM_KEY, 0, key.handed},
        {MHD_OPTION_HTTPS_PRIORITIES, 0,
         listener->arena == NULL
             ? NULL
             : qll_arena_copy(listener->arena, "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2", 42)},
        {MHD_OPTION_END, 0, NULL},
    };
    struct MHD_OptionItem none[] = {{MHD_OPTION_END, 0, NULL}};
    /* Not epoll: libmicrohttpd 0.9.75 waits once more where as many connections as it asks for at once (128) are ready
     * together, and nobody is served until the wait runs out (seen with 128 and 256). */
    const unsigned flags =
        MHD_USE_POLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME | (is_secure ? MHD_USE_TLS : 0U);
    listener->server = server;
    if (!qll_wires_begin(&listener->wires)) {
        return QLL_IO;
    }
    listener->daemon = MHD_start_daemon(
        flags, 0, NULL, NULL, take, listener, MHD_OPTION_LISTEN_SOCKET, listener->descriptor,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)QLL_CONNECTIONS_MOST, MHD_OPTION_CONNECTION_TIMEOUT,
        QLL_IDLE_S, MHD_OPTION_CONNECTION_MEMORY_LIMIT, QLL_HEADER_SIZE,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_COMPLETED, end, listener,
        MHD_OPTION_NOTIFY_CONNECTION, notice, listener, MHD_OPTION_UNESCAPE_CALLBACK, unescape,
        NULL, MHD_OPTION_ARRAY, is_secure ? tls : none, MHD_OPTION_END);
    return listener->daemon == NULL ? QLL_IO : QLL_OK;
}

void qll_listen_close(qll_listener *listener)
{
    if (listener == NULL) {
        return;
    }
    if (listener->daemon != NULL) {
        (void)MHD_quiesce_daemon(listener->daemon);
        qll_server_stop(listener->server);
        qll_wires_settle(&listener->wires, farewell_s);
        MHD_stop_daemon(listener->daemon);
    }
    qll_wires_close(&listener->wires);
    (void)close(listener->descriptor);
}
