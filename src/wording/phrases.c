/* Texts that modules below write beside their figures, and what they are in other languages. Names of
 * standards, works and keys stay as they are. In the first language * stands for any words; {1}, {2} put
 * them back, themselves translated if they are known. */
#include "wording/messages.h"

#include <string.h>

/* The most words a pattern stands for. */
#define QLL_CAPTURES 8

typedef struct phrase {
    const char *en;
    const char *es;
} phrase;

/* clang-format off */
static const phrase phrases[] = {
    /* warnings of what documents hold: documents, engine/ask_fit.c */
    {"without a \"flow_test\" the main is taken to keep its static at every flow; a real main "
     "falls, so delivery at the design peak is judged too kindly",
     "sin \"flow_test\" se supone que la red mantiene su presión estática con cualquier caudal; "
     "una red real cae, así que la entrega en el caudal punta se juzga con demasiada "
     "indulgencia"},
    {"* is rare: few mains stand above 250 psi; check the gauge and its unit",
     "{1} es raro: pocas redes pasan de 250 psi; compruebe el manómetro y su unidad"},
    {"* is rare: few mains stand below 15 psi; check the gauge and its unit",
     "{1} es raro: pocas redes bajan de 15 psi; compruebe el manómetro y su unidad"},
    {"* is not below the lowest supply, *: while the main stands there the station cannot hold it",
     "{1} no está por debajo del suministro mínimo, {2}: mientras la red esté ahí la estación no "
     "puede mantenerla"},
    {"* is more than an open pipe end passes in the size *; check the number and its unit",
     "{1} es más de lo que pasa un tubo abierto del tamaño {2}; compruebe el número y su unidad"},
    {"no point lies beyond full travel, so that the full Kv is not known; full travel is taken at "
     "the last point",
     "ningún punto queda más allá de la carrera completa, así que no se conoce el Kv completo; la "
     "carrera completa se toma en el último punto"},
    {"add a column kv with the full Kv of the sheet",
     "añada una columna kv con el Kv completo de la ficha"},
};

/* clang-format on */

/* Takes @p text apart by @p pattern; false if it is another text. */
static bool matches(const char *pattern, qll_text text, qll_text *captures)
{
    size_t capture = 0;
    size_t at = 0;
    const char *rest = pattern;
    for (;;) {
        size_t size = strcspn(rest, "*");
        if (text.size - at < size || memcmp(text.bytes + at, rest, size) != 0) {
            return false;
        }
        at += size;
        rest += size;
        if (*rest == '\0') {
            return at == text.size;
        }
        /* The words up to where the next piece of the pattern stands first; the last take all. */
        rest += 1;
        size_t next = strcspn(rest, "*");
        size_t end = next == 0 ? text.size : at;
        while (end + next <= text.size && next > 0 && memcmp(text.bytes + end, rest, next) != 0) {
            end += 1;
        }
        bool is_last = rest[next] == '\0' && next > 0;
        if (is_last && text.size >= at + next) {
            end = text.size - next;
        }
        if (end + next > text.size || end == at || capture == QLL_CAPTURES) {
            return false;
        }
        captures[capture] = (qll_text){text.bytes + at, end - at};
        capture += 1;
        at = end;
    }
}

static void write_phrase(qll_writer *writer, qll_text text, int depth);

/* Writes @p says with {1}, {2} filled in. */
static void write_filled(qll_writer *writer, const char *says, const qll_text *captures, int depth)
{
    while (*says != '\0') {
        size_t size = strcspn(says, "{");
        qll_write_text(writer, (qll_text){says, size});
        says += size;
        if (*says == '{' && says[1] >= '1' && says[1] < '1' + QLL_CAPTURES && says[2] == '}') {
            write_phrase(writer, captures[says[1] - '1'], depth + 1);
            says += 3;
        } else if (*says == '{') {
            qll_write(writer, "{");
            says += 1;
        }
    }
}

static bool write_known(qll_writer *writer, qll_text text, int depth)
{
    qll_text captures[QLL_CAPTURES];
    for (size_t i = 0; i < sizeof phrases / sizeof phrases[0]; i++) {
        if (matches(phrases[i].en, text, captures)) {
            write_filled(writer, phrases[i].es, captures, depth);
            return true;
        }
    }
    return false;
}

static void write_phrase(qll_writer *writer, qll_text text, int depth)
{
    /* What a pattern took out is a word or two: it is looked up once, not taken apart again. */
    if (depth > 1 || !write_known(writer, text, depth)) {
        qll_write_text(writer, text);
    }
}

const char *qll_phrase(qll_arena *arena, qll_language language, const char *text)
{
    if (language == QLL_LANGUAGE_EN) {
        return text;
    }
    qll_writer writer = qll_writer_new(arena);
    write_phrase(&writer, qll_text_of(text), 0);
    return qll_writer_text(&writer).bytes;
}
