#include "base/units.h"

#include "base/count.h"
#include "base/quote.h"
#include "base/units_amount.h"
#include "base/units_table.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Beyond this nothing is meant, and products of what is read would leave the range of a double. */
#define QLL_SI_MOST 1e100

static const struct {
    const char *si_unit, *key_end, *phrase, *example;
} kinds[QLL_KIND_COUNT] = {

#define ROW(name, si_unit, key_end, phrase, example) {si_unit, key_end, phrase, example},
    QLL_KIND_LIST(ROW)
#undef ROW
};

const char *qll_units_si(qll_kind kind)
{
    assert(kind < QLL_KIND_COUNT);
    return kinds[kind].si_unit;
}

const char *qll_units_key_end(qll_kind kind)
{
    assert(kind < QLL_KIND_COUNT);
    return kinds[kind].key_end;
}

const char *qll_units_kind_phrase(qll_kind kind)
{
    assert(kind < QLL_KIND_COUNT);
    return kinds[kind].phrase;
}

const char *qll_units_example(qll_kind kind)
{
    assert(kind < QLL_KIND_COUNT);
    return kinds[kind].example;
}

double qll_units_absolute_pa(qll_quantity pressure, double barometric_pa)
{
    return pressure.base == QLL_PRESSURE_ABSOLUTE ? pressure.si : pressure.si + barometric_pa;
}

double qll_units_gauge_pa(qll_quantity pressure, double barometric_pa)
{
    return pressure.base == QLL_PRESSURE_GAUGE ? pressure.si : pressure.si - barometric_pa;
}

/* One reading: what is read, and where a refusal goes. */
typedef struct quantity_reading {
    qll_text text; /* the whole quantity, trimmed */
    qll_kind kind;
    qll_arena *arena;
    qll_units_refusal *refusal;
} quantity_reading;

/* Always false, for the caller to return. */
static bool refuse(const quantity_reading *reading, qll_code code, const qll_said *says)
{
    *reading->refusal = (qll_units_refusal){
        .code = code,
        .says = *says,
        .hint = "",
        .corrected = "",
    };
    return false;
}

/* The same with the whole as it should be. */
static bool refuse_corrected(const quantity_reading *reading, qll_code code, const qll_said *says,
                             const char *corrected)
{
    (void)refuse(reading, code, says);
    if (corrected != NULL) {
        reading->refusal->hint = corrected;
        reading->refusal->corrected = corrected;
    }
    return false;
}

static bool refuse_with_example(const quantity_reading *reading, qll_code code, qll_text_id says)
{
    const qll_said said = {says, {qll_as_quoted(reading->text), qll_as_example(reading->kind)}};
    return refuse(reading, code, &said);
}

static bool refuse_kind(const quantity_reading *reading, const qll_unit *unit)
{
    qll_kind measured = QLL_KIND_NUMBER;
    while ((unit->kinds & qll_unit_kind_bit(measured)) == 0) {
        measured += 1;
    }
    return refuse(reading, QLL_CODE_WRONG_UNIT,
                  QLL_SAYS_WITH(IS_OF_KIND, qll_as_quoted(reading->text), qll_as_kind(measured),
                                qll_as_kind(reading->kind)));
}

static bool starts_second_number(qll_text rest)
{
    static const char *const dashes[] = {"-", "\u2013"};
    for (size_t i = 0; i < QLL_COUNT(dashes); i++) {
        size_t size = strlen(dashes[i]);
        if (size <= rest.size && memcmp(rest.bytes, dashes[i], size) == 0) {
            rest = (qll_text){.bytes = rest.bytes + size, .size = rest.size - size};
            break;
        }
    }
    return qll_amount_starts(qll_text_trimmed(rest));
}

static const char *joined(qll_arena *arena, qll_text before, const char *between, qll_text after)
{
    qll_writer writer = qll_writer_new(arena);
    qll_write_text(&writer, before);
    qll_write(&writer, between);
    qll_write_text(&writer, after);
    return qll_writer_text(&writer).bytes;
}

/* What the user wrote with one change, as a hint; NULL if it is too odd to be offered again. */
static const char *corrected(const quantity_reading *reading, qll_text before, const char *change,
                             qll_text after)
{
    bool is_plain = reading->text.size <= QLL_QUOTE_CHARACTERS;
    for (size_t i = 0; i < reading->text.size && is_plain; i++) {
        is_plain = reading->text.bytes[i] >= ' ' && reading->text.bytes[i] <= '~';
    }
    if (!is_plain) {
        return NULL;
    }
    return joined(reading->arena, before, change, after);
}

static bool refuse_unit(const quantity_reading *reading, qll_text unit_text)
{
    const qll_unit *other = qll_units_match(unit_text, QLL_KIND_COUNT);
    if (other != NULL) {
        return refuse_kind(reading, other);
    }
    if (starts_second_number(unit_text)) {
        return refuse_with_example(reading, QLL_CODE_NO_NUMBER, QLL_TEXT_IS_NOT_ONE_NUMBER);
    }
    const char *nearest = qll_units_nearest(unit_text, reading->kind);
    qll_said says = {nearest == NULL ? QLL_TEXT_UNIT_UNKNOWN_WRITE : QLL_TEXT_UNIT_UNKNOWN,
                     {qll_as_quoted(reading->text), qll_as_quoted(unit_text)}};
    if (nearest == NULL) {
        says.arguments[2] = qll_as_example(reading->kind);
        return refuse(reading, QLL_CODE_UNKNOWN_UNIT, &says);
    }
    const qll_text before = {reading->text.bytes, reading->text.size - unit_text.size};
    const char *whole = corrected(reading, before, nearest, (qll_text){.bytes = NULL});
    (void)refuse_corrected(reading, QLL_CODE_UNKNOWN_UNIT, &says, whole);
    reading->refusal->hint = nearest;
    return false;
}

static bool refuse_comma(const quantity_reading *reading)
{
    qll_text text = reading->text;
    size_t comma = 0;
    while (text.bytes[comma] != ',') {
        comma += 1;
    }
    size_t start = comma;
    while (start > 0 && qll_is_digit(text.bytes[start - 1])) {
        start -= 1;
    }
    size_t end = comma + 1;
    while (end < text.size && qll_is_digit(text.bytes[end])) {
        end += 1;
    }
    qll_text before = {.bytes = text.bytes + start, .size = comma - start};
    qll_text after = {.bytes = text.bytes + comma + 1, .size = end - comma - 1};
    bool has_more = end < text.size && text.bytes[end] == ',';
    /* "1,200" may be twelve hundred or one and a fifth: nobody can tell. */
    bool may_be_thousands = has_more || (after.size == 3 && !qll_text_is(before, "0"));
    if (may_be_thousands || text.size > QLL_QUOTE_CHARACTERS) {
        return refuse(reading, QLL_CODE_NO_NUMBER, QLL_SAYS_WITH(HAS_COMMA, qll_as_quoted(text)));
    }
    const char *right = joined(reading->arena, before, ".", after);
    const char *wrong = joined(reading->arena, before, ",", after);
    const qll_said says = {QLL_TEXT_HAS_DECIMAL_COMMA,
                           {qll_as_quoted(text), qll_as_is(right), qll_as_is(wrong)}};
    qll_text to_comma = {.bytes = text.bytes, .size = comma};
    qll_text from_comma = {.bytes = after.bytes, .size = text.size - comma - 1};
    return refuse_corrected(reading, QLL_CODE_NO_NUMBER, &says,
                            corrected(reading, to_comma, ".", from_comma));
}

static bool refuse_amount(const quantity_reading *reading, qll_amount_state state)
{
    switch (state) {
    case QLL_AMOUNT_READ: break;
    case QLL_AMOUNT_NONE:
        return refuse_with_example(reading, QLL_CODE_NO_NUMBER,
                                   reading->text.size == 0 ? QLL_TEXT_IS_EMPTY
                                                           : QLL_TEXT_STARTS_WITHOUT_NUMBER);
    case QLL_AMOUNT_TOO_LARGE:
        return refuse_with_example(reading, QLL_CODE_OUT_OF_RANGE, QLL_TEXT_IS_TOO_LARGE);
    case QLL_AMOUNT_FRACTION:
        return refuse_with_example(reading, QLL_CODE_NO_NUMBER, QLL_TEXT_ODD_FRACTION);
    case QLL_AMOUNT_COMMA: return refuse_comma(reading);
    }
    return false;
}

static bool convert(const quantity_reading *reading, double value, const qll_unit *unit,
                    qll_quantity *quantity)
{
    double si = (value + unit->shift) * unit->factor / unit->per;
    if (!(fabs(si) <= QLL_SI_MOST)) {
        return refuse_amount(reading, QLL_AMOUNT_TOO_LARGE);
    }
    quantity->si = si;
    quantity->base = unit->absolute ? QLL_PRESSURE_ABSOLUTE : QLL_PRESSURE_GAUGE;
    return true;
}

/* Size of the feet mark, with its blanks and dash, in front of inches: `'-`, ` ft `; or 0. */
static size_t feet_mark_size(qll_text rest)
{
    size_t size = 0;
    while (
        size < rest.size
        && !qll_amount_starts((qll_text){.bytes = rest.bytes + size, .size = rest.size - size})) {
        size += 1;
    }
    if (size == rest.size || rest.bytes[size] == '.') {
        return 0;
    }
    qll_text mark = qll_text_trimmed((qll_text){.bytes = rest.bytes, .size = size});
    if (mark.size > 0 && mark.bytes[mark.size - 1] == '-') {
        mark.size -= 1;
        mark = qll_text_trimmed(mark);
    }
    const qll_unit *foot = qll_units_find("ft", QLL_KIND_LENGTH);
    return qll_units_match(mark, QLL_KIND_LENGTH) == foot ? size : 0;
}

/* The inches that stand behind whole feet: `6'-4"`, `6 ft 4-1/2 in`. */
static bool read_inches(const quantity_reading *reading, double feet, qll_text text,
                        qll_quantity *quantity)
{
    double inches = 0.0;
    qll_text mark = text;
    qll_amount_state state = qll_amount_read(text, &inches, &mark);
    if (state != QLL_AMOUNT_READ) {
        return refuse_amount(reading, state);
    }
    const qll_unit *inch = qll_units_find("in", QLL_KIND_LENGTH);
    const qll_argument given = qll_as_quoted(reading->text);
    if (mark.size == 0) {
        return refuse_corrected(reading, QLL_CODE_NO_UNIT, QLL_SAYS_WITH(NO_INCH_MARK, given),
                                corrected(reading, reading->text, "\"", (qll_text){.bytes = NULL}));
    }
    if (qll_units_match(mark, QLL_KIND_LENGTH) != inch) {
        return refuse(reading, QLL_CODE_UNKNOWN_UNIT, QLL_SAYS_WITH(FEET_WITHOUT_INCHES, given));
    }
    if (inches >= 12.0 || feet != trunc(feet)) {
        return refuse(reading, QLL_CODE_OUT_OF_RANGE, QLL_SAYS_WITH(ODD_FEET, given));
    }
    return convert(reading, copysign(fabs(feet) * 12.0 + inches, feet), inch, quantity);
}

typedef struct prefix {
    const char *word;
    const char *unit;
    qll_kind kind;
} prefix;

/* Sizes and coefficients are also written with the name in front: "DN 50", "NPS 2", "Cv 12". */
static const prefix prefixes[] = {
    {"DN", "mm", QLL_KIND_LENGTH},
    {"NPS", "in", QLL_KIND_LENGTH},
    {"Kv", "m3/h", QLL_KIND_FLOW_COEFFICIENT},
    {"Cv", "Cv", QLL_KIND_FLOW_COEFFICIENT},
};

static bool same_letter(char a, char b)
{
    return a == b || (a >= 'A' && a <= 'Z' && a - 'A' == b - 'a')
           || (a >= 'a' && a <= 'z' && a - 'a' == b - 'A');
}

/* The unit that the word in front stands for, and the text after it; or NULL. */
static const qll_unit *take_prefix(qll_text *text)
{
    for (size_t i = 0; i < QLL_COUNT(prefixes); i++) {
        const char *word = prefixes[i].word;
        size_t size = 0;
        while (word[size] != '\0' && size < text->size
               && same_letter(text->bytes[size], word[size])) {
            size += 1;
        }
        qll_text after =
            qll_text_trimmed((qll_text){.bytes = text->bytes + size, .size = text->size - size});
        if (word[size] == '\0' && qll_amount_starts(after)) {
            *text = after;
            return qll_units_find(prefixes[i].unit, prefixes[i].kind);
        }
    }
    return NULL;
}

/* What stands behind the number. */
static bool read_unit(const quantity_reading *reading, double value, qll_text rest,
                      qll_quantity *quantity)
{
    const qll_unit *unit = qll_units_match(rest, reading->kind);
    if (unit != NULL) {
        return convert(reading, value, unit, quantity);
    }
    bool is_other = qll_units_match(rest, QLL_KIND_COUNT) != NULL;
    size_t mark_size = is_other || reading->kind != QLL_KIND_LENGTH ? 0 : feet_mark_size(rest);
    if (mark_size > 0) {
        qll_text inches = {.bytes = rest.bytes + mark_size, .size = rest.size - mark_size};
        return read_inches(reading, value, inches, quantity);
    }
    return refuse_unit(reading, rest);
}

/* The name in front is unit enough; the same unit behind the number does no harm: `NPS 2"`. */
static bool read_named(const quantity_reading *reading, double value, qll_text rest,
                       const qll_unit *named, qll_quantity *quantity)
{
    if (rest.size == 0 || qll_units_match(rest, reading->kind) == named) {
        return convert(reading, value, named, quantity);
    }
    return refuse(
        reading, QLL_CODE_WRONG_UNIT,
        QLL_SAYS_WITH(UNIT_IN_FRONT, qll_as_quoted(reading->text), qll_as_is(named->name)));
}

bool qll_units_read(qll_text text, qll_kind kind, qll_arena *arena, qll_quantity *quantity,
                    qll_units_refusal *refusal)
{
    assert(kind < QLL_KIND_COUNT);
    quantity_reading reading = {
        .text = qll_text_trimmed(text), .kind = kind, .arena = arena, .refusal = refusal};
    qll_text rest = reading.text;
    const qll_unit *named = take_prefix(&rest);
    if (named != NULL && (named->kinds & qll_unit_kind_bit(kind)) == 0) {
        return refuse_kind(&reading, named);
    }
    /* "120/60 psi" is before and behind a valve; only sizes go by halves: "3/2 in". */
    if (kind != QLL_KIND_LENGTH && kind != QLL_KIND_NUMBER && qll_amount_is_two(rest)) {
        return refuse_with_example(&reading, QLL_CODE_NO_NUMBER, QLL_TEXT_IS_NOT_ONE_NUMBER);
    }
    double value = 0.0;
    qll_amount_state state = qll_amount_read(rest, &value, &rest);
    if (state != QLL_AMOUNT_READ) {
        return refuse_amount(&reading, state);
    }
    if (named != NULL) {
        return read_named(&reading, value, rest, named, quantity);
    }
    if (rest.size > 0) {
        return read_unit(&reading, value, rest, quantity);
    }
    if (kind != QLL_KIND_NUMBER) {
        return refuse_with_example(&reading, QLL_CODE_NO_UNIT, QLL_TEXT_HAS_NO_UNIT);
    }
    static const qll_unit one = {.factor = 1.0, .per = 1.0};
    return convert(&reading, value, &one, quantity);
}
