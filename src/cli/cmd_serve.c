/* quell serve: the page and the API on this machine; and putting people into the file of those who may log in. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "cli/stored.h"
#include "host/host.h"
#include "server/limits.h"
#include "server/listen.h"
#include "server/person.h"
#include "wording/says_reason.h"

#include <string.h>

static const char usual_address[] = "127.0.0.1";
static const unsigned usual_port = 8080;

/* As many names as anybody would give one machine. */
#define QLL_HOSTS_MOST 32

/* What serving takes, as it is put together. */
typedef struct serving {
    const qll_cli_line *line;
    qll_arena *arena;
    qll_listen_plan listen;
    qll_server_plan server;
    const char *names[QLL_HOSTS_MOST];
} serving;

static qll_status complain(const serving *of, qll_text_id says)
{
    qll_cli_complain(of->arena, of->line->language, (qll_said){.id = says});
    return QLL_WRONG_USE;
}

/* ---- people ---- */

/* Asks for a password, twice where somebody types it. */
static qll_status ask_password(const qll_cli_line *line, qll_arena *arena, const char **password)
{
    qll_writer prompt = qll_writer_new(arena);
    qll_cli_say(
        &prompt, line->language,
        (qll_said){QLL_TEXT_CLI_SERVE_ASK, {qll_cli_visible(arena, line->values[QLL_CLI_ADD])}});
    qll_status status = qll_host_read_secret(qll_writer_text(&prompt).bytes, arena, password);
    if (status != QLL_OK) {
        return status;
    }
    const size_t size = *password == NULL ? 0 : strlen(*password);
    if (size < QLL_PASSWORD_LEAST || size > QLL_PASSWORD_MOST) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_SERVE_SHORT});
        return QLL_REFUSED;
    }
    const char *again = *password;
    if (qll_host_is_asked()) {
        status = qll_host_read_secret(qll_cli_text(line->language, QLL_TEXT_CLI_SERVE_ASK_AGAIN),
                                      arena, &again);
    }
    if (status == QLL_OK && (again == NULL || strcmp(again, *password) != 0)) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_SERVE_DIFFERENT});
        return QLL_REFUSED;
    }
    return status;
}

static qll_status keep_person(const qll_cli_line *line, const char *keyed, qll_arena *arena)
{
    qll_store *store = NULL;
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status =
        qll_store_open(qll_cli_store_place(line, arena), QLL_STORE_MAKE, arena, &store, &why);
    if (status == QLL_OK) {
        status = qll_store_put_person(store, line->values[QLL_CLI_ADD], keyed, &why);
    }
    if (status != QLL_OK && status != QLL_NO_MEMORY) {
        qll_cli_complain(arena, line->language, why);
    }
    qll_store_close(store);
    return status;
}

static qll_status add_person(const qll_cli_line *line, qll_arena *arena)
{
    const char *name = line->values[QLL_CLI_ADD];
    const char *password = NULL;
    char keyed[QLL_PASSWORD_SIZE];
    const bool has_place = qll_cli_store_place(line, arena) != NULL;
    if (!has_place || !qll_name_is_fit(qll_text_of(name))) {
        qll_cli_complain(
            arena, line->language,
            (qll_said){.id = has_place ? QLL_TEXT_CLI_SERVE_NAME : QLL_TEXT_CLI_STORE_NOWHERE});
        return QLL_WRONG_USE;
    }
    qll_status status = ask_password(line, arena, &password);
    if (status != QLL_OK) {
        return status;
    }
    if (!qll_secret_begin() || !qll_password_key(qll_text_of(password), keyed)) {
        return QLL_NO_MEMORY;
    }
    status = keep_person(line, keyed, arena);
    if (status == QLL_OK) {
        qll_cli_complain(arena, line->language,
                         (qll_said){QLL_TEXT_CLI_SERVE_ADDED, {qll_cli_visible(arena, name)}});
    }
    return status;
}

/* ---- what it takes ---- */

/* The number of --port; false where it is none. */
static bool read_port(serving *of)
{
    const char *word = of->line->values[QLL_CLI_PORT];
    unsigned port = 0;
    const size_t digits = word == NULL ? 0 : strlen(word);
    bool is_port = digits <= 5;
    for (size_t i = 0; i < digits && is_port; i++) {
        is_port = qll_is_digit(word[i]);
        port = 10 * port + (unsigned)(word[i] - '0');
    }
    of->listen.port = word == NULL ? usual_port : port;
    return is_port && of->listen.port <= 65535;
}

static void add_name(serving *of, const char *name)
{
    if (of->server.names.count < QLL_HOSTS_MOST) {
        of->names[of->server.names.count] = name;
        of->server.names.count += 1;
    }
}

/* What it is called: what it is called at home, its address, and what the user says. */
static void name_it(serving *of)
{
    const char *address = of->listen.address;
    const char *rest = of->line->values[QLL_CLI_HOST];
    add_name(of, "localhost");
    add_name(of, usual_address);
    add_name(of, "[::1]");
    if (!qll_address_is_any(address)) {
        qll_writer name = qll_writer_new(of->arena);
        qll_write_format(&name, strchr(address, ':') == NULL ? "%s" : "[%s]", address);
        add_name(of, qll_writer_text(&name).bytes);
    }
    while (rest != NULL && rest[0] != '\0') {
        const size_t size = strcspn(rest, ",");
        const char *name = qll_text_closed(qll_text_trimmed((qll_text){rest, size}), of->arena);
        add_name(of, name == NULL ? "" : name);
        rest += size + (rest[size] == ',');
    }
    of->server.names.names = of->names;
}

/* An address that others can reach is given only where they have to log in, and cannot be overheard. */
static qll_status check_reach(const serving *of)
{
    const char *const *values = of->line->values;
    if ((values[QLL_CLI_CERTIFICATE] == NULL) != (values[QLL_CLI_KEY] == NULL)) {
        return complain(of, QLL_TEXT_CLI_SERVE_NEEDS_BOTH);
    }
    if (qll_address_is_loopback(of->listen.address)) {
        return QLL_OK;
    }
    if (values[QLL_CLI_CERTIFICATE] == NULL) {
        return complain(of, QLL_TEXT_CLI_SERVE_NEEDS_CERTIFICATE);
    }
    return qll_address_is_any(of->listen.address) && values[QLL_CLI_HOST] == NULL
               ? complain(of, QLL_TEXT_CLI_SERVE_NEEDS_HOST)
               : QLL_OK;
}

static qll_status read_pem(const serving *of, qll_cli_option option, const char **pem)
{
    qll_input input = {0};
    const char *path = of->line->values[option];
    *pem = NULL;
    if (path == NULL) {
        return QLL_OK;
    }
    const qll_status status = qll_cli_read(path, of->line->language, of->arena, &input);
    *pem = status == QLL_OK ? input.bytes : NULL;
    return status;
}

static qll_status read_secrets(serving *of)
{
    const qll_status status = read_pem(of, QLL_CLI_CERTIFICATE, &of->listen.certificate);
    return status == QLL_OK ? read_pem(of, QLL_CLI_KEY, &of->listen.key) : status;
}

static qll_status read_page(serving *of)
{
    const char *folder = NULL;
    const char *why = "";
    qll_status status = qll_host_shared("page", of->arena, &folder);
    if (status == QLL_OK && folder != NULL) {
        status = qll_page_files_read(folder, of->arena, &of->server.page, &why);
    }
    if (status == QLL_IO) {
        qll_cli_complain(of->arena, of->line->language,
                         qll_cli_of_file(of->arena, QLL_TEXT_CLI_CANNOT_READ, folder, why));
    }
    return status;
}

/* ---- serving ---- */

static const char *address_of(const serving *of)
{
    const bool is_home = qll_address_is_loopback(of->listen.address);
    const char *name = is_home ? "localhost" : of->names[of->server.names.count - 1];
    qll_writer writer = qll_writer_new(of->arena);
    qll_write_format(&writer, "%s://%s:%zu/", of->server.names.is_secure ? "https" : "http", name,
                     (size_t)of->server.names.port);
    return qll_writer_text(&writer).bytes;
}

static qll_status complain_listen(const serving *of, qll_status status, const char *why)
{
    const qll_argument address = qll_cli_visible(of->arena, of->listen.address);
    qll_cli_complain(of->arena, of->line->language,
                     status == QLL_WRONG_USE
                         ? (qll_said){QLL_TEXT_CLI_SERVE_ADDRESS, {address}}
                         : (qll_said){QLL_TEXT_CLI_SERVE_CANNOT, {address, qll_as_reason(why)}});
    return status;
}

static qll_status complain_open(const serving *of, qll_status status, qll_said why)
{
    if (status == QLL_WRONG_USE) {
        return complain(of, QLL_TEXT_CLI_SERVE_NEEDS_PEOPLE);
    }
    if (status != QLL_NO_MEMORY) {
        qll_cli_complain(of->arena, of->line->language, why);
    }
    return status;
}

/* Until somebody stops it. */
static qll_status run(serving *of, qll_listener *listener)
{
    qll_server *server = NULL;
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_server_open(&of->server, of->arena, &server, &why);
    if (status != QLL_OK) {
        qll_listen_close(listener);
        return complain_open(of, status, why);
    }
    status = qll_listen_begin(listener, server);
    if (status != QLL_OK) {
        qll_cli_complain(of->arena, of->line->language,
                         (qll_said){QLL_TEXT_CLI_SERVE_BAD_CERTIFICATE,
                                    {qll_cli_visible(of->arena, of->listen.address)}});
    } else {
        if (of->server.page.count == 0) {
            qll_cli_complain(of->arena, of->line->language,
                             (qll_said){.id = QLL_TEXT_CLI_SERVE_NO_PAGE});
        }
        qll_cli_complain(of->arena, of->line->language,
                         (qll_said){QLL_TEXT_CLI_SERVE_READY, {qll_as_is(address_of(of))}});
        qll_host_await_stop();
    }
    qll_listen_close(listener);
    qll_server_close(server);
    if (status == QLL_OK) {
        qll_cli_complain(of->arena, of->line->language, (qll_said){.id = QLL_TEXT_CLI_SERVE_ENDED});
    }
    return status;
}

static qll_status serve(serving *of)
{
    qll_listener *listener = NULL;
    const char *why = "";
    qll_status status = read_secrets(of);
    status = status == QLL_OK ? read_page(of) : status;
    if (status != QLL_OK) {
        return status;
    }
    status = qll_listen_open(&of->listen, of->arena, &listener, &of->server.names.port, &why);
    if (status == QLL_IO || status == QLL_WRONG_USE) {
        return complain_listen(of, status, why);
    }
    if (status != QLL_OK) {
        return status;
    }
    name_it(of);
    /* From here on, so that no thread but this one meets a signal. */
    qll_host_hold_signals();
    return run(of, listener);
}

qll_status qll_cli_serve(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    (void)command;
    if (line->values[QLL_CLI_ADD] != NULL) {
        return add_person(line, arena);
    }
    const char *address = line->values[QLL_CLI_ADDRESS];
    const size_t processors = qll_host_processors();
    serving of = {.line = line,
                  .arena = arena,
                  .listen = {.address = address == NULL ? usual_address : address},
                  .server = {.names = {.is_secure = line->values[QLL_CLI_CERTIFICATE] != NULL},
                             .store = qll_cli_store_place(line, arena),
                             .runs_at_once = processors < 4 ? 4 : processors,
                             .patience_s = QLL_PATIENCE_S,
                             .tells = true,
                             .print = qll_cli_print_pdf}};
    if (!read_port(&of)) {
        qll_cli_complain(arena, line->language,
                         (qll_said){QLL_TEXT_CLI_SERVE_PORT,
                                    {qll_cli_visible(arena, line->values[QLL_CLI_PORT])}});
        return QLL_WRONG_USE;
    }
    of.server.must_login = !qll_address_is_loopback(of.listen.address);
    const qll_status status = check_reach(&of);
    return status == QLL_OK ? serve(&of) : status;
}
