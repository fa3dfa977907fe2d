#include "wording/says_calc.h"

#include "base/customary.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

#define QLL_FAHRENHEIT_PER_K 1.8

static const char *say_of(qll_language language, qll_message first, size_t index)
{
    return qll_say(language, (qll_message)((size_t)first + index));
}

const char *qll_say_calc_title(qll_language language, const qll_calc *calc)
{
    return say_of(language, QLL_SAYS_CALC_TITLE_VELOCITY, calc->id);
}

const char *qll_say_calc_validity(qll_language language, const qll_calc *calc)
{
    return say_of(language, QLL_SAYS_CALC_VALID_VELOCITY, calc->id);
}

const char *qll_say_calc_source(qll_language language, const qll_calc *calc)
{
    return say_of(language, QLL_SAYS_CALC_SOURCE_VELOCITY, calc->id);
}

const char *qll_say_calc_step(qll_language language, qll_calc_step_id step)
{
    return say_of(language, QLL_SAYS_CALC_STEP_VELOCITY, step);
}

const char *qll_say_calc_from(qll_language language, qll_calc_step_id step)
{
    return say_of(language, QLL_SAYS_CALC_FROM_VELOCITY, step);
}

const char *qll_say_calc_figure(qll_language language, const char *key)
{
    static const char *const keys[QLL_CALC_FIGURE_COUNT] = {
#define QLL_FIGURE_KEY(name, key) [QLL_CALC_FIGURE_##name] = (key),
        QLL_CALC_FIGURE_LIST(QLL_FIGURE_KEY)
#undef QLL_FIGURE_KEY
    };
    for (size_t i = 0; i < QLL_CALC_FIGURE_COUNT; i++) {
        if (strcmp(keys[i], key) == 0) {
            return say_of(language, QLL_SAYS_CALC_FIGURE_VELOCITY, i);
        }
    }
    return key;
}

static const char *say_word(qll_language language, const char *word)
{
    static const struct {
        const char *word;
        qll_message says;
    } words[] = {

#define QLL_CALC_WORD(name, word) {(word), QLL_SAYS_CALC_WORD_##name},
        QLL_CALC_WORD_LIST(QLL_CALC_WORD)
#undef QLL_CALC_WORD
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strcmp(words[i].word, word) == 0) {
            return qll_say(language, words[i].says);
        }
    }
    return word;
}

/* A plain number, or one of a unit for which there is no kind. */
static void write_number(qll_writer *writer, double value, const char *unit)
{
    double magnitude = fabs(value);
    bool is_plain = value == 0 || (magnitude >= 1e-3 && magnitude < 1e7);
    if (is_plain && magnitude >= 1e3) {
        qll_write_format(writer, "%.0f", value);
    } else {
        qll_write_format(writer, is_plain ? "%.4g" : "%.3g", value);
    }
    qll_write(writer, unit);
}

static bool ends_in(const char *key, const char *ending)
{
    size_t size = strlen(key);
    size_t least = strlen(ending);
    return size >= least && strcmp(key + size - least, ending) == 0;
}

void qll_wording_calc_figure(qll_writer *writer, const char *key, double si, qll_kind kind,
                             qll_unit_system units)
{
    if (!isfinite(si)) {
        qll_write(writer, "-");
    } else if (kind != QLL_KIND_NUMBER) {
        qll_units_write(writer, si, kind, units);
    } else if (ends_in(key, "_dba")) {
        qll_write_format(writer, "%.0f dB(A)", si);
    } else if (ends_in(key, "_db")) {
        qll_write_format(writer, "%.1f dB", si);
    } else if (ends_in(key, "_hz")) {
        write_number(writer, si, " Hz");
    } else if (ends_in(key, "_w")) {
        write_number(writer, si, " W");
    } else if (ends_in(key, "_share")) {
        write_number(writer, 100 * si, " %");
    } else if (ends_in(key, "_pa_per_k")) {
        bool is_us = units == QLL_UNITS_US;
        write_number(writer, is_us ? si / QLL_PSI_PA / QLL_FAHRENHEIT_PER_K : si / 1e5,
                     is_us ? " psi/\u00B0F" : " bar/K");
    } else {
        write_number(writer, si, "");
    }
}

void qll_wording_calc_bare(qll_writer *writer, const char *key, double si)
{
    if (ends_in(key, "_db")) {
        qll_write_format(writer, "%.1f", si);
    } else {
        write_number(writer, si, "");
    }
}

void qll_wording_calc_value(qll_writer *writer, qll_language language, qll_unit_system units,
                            const qll_calc_result *result, size_t index)
{
    if (result->word != NULL) {
        qll_write(writer, say_word(language, result->word));
    } else if (result->is_flag) {
        qll_write(writer, qll_say(language, result->values[index] != 0 ? QLL_SAYS_CALC_TEXT_YES
                                                                       : QLL_SAYS_CALC_TEXT_NO));
    } else {
        const char *key =
            result->field_count > 0 ? result->fields[index % result->field_count] : result->key;
        qll_wording_calc_figure(writer, key, result->values[index], result->kind, units);
    }
}

void qll_wording_calc_found(qll_writer *writer, qll_language language, qll_unit_system units,
                            const qll_calc_step *step)
{
    const char *between = "";
    for (size_t i = 0; i < step->figure_count; i++) {
        const qll_calc_figure *figure = &step->figures[i];
        if (figure->key != NULL) {
            qll_write(writer, between);
            qll_write(writer, qll_say_calc_figure(language, figure->key));
            qll_write(writer, " ");
            qll_wording_calc_figure(writer, figure->key, figure->value, figure->kind, units);
            between = "; ";
        }
    }
}

/* "p1 = 115 psi absolute" */
static void write_given(qll_writer *writer, qll_language language, qll_unit_system units,
                        const qll_calc_figure *figure)
{
    qll_writer value = qll_writer_new(writer->arena);
    qll_wording_calc_figure(&value, "", figure->value, figure->kind, units);
    qll_write(writer, figure->symbol);
    qll_write(writer, " = ");
    const qll_filling filling = {"pressure", qll_writer_text(&value).bytes};
    if (figure->is_absolute) {
        qll_say_with(writer, language, QLL_SAYS_CALC_TEXT_ABSOLUTE, &filling, 1);
    } else {
        qll_write(writer, filling.text);
    }
}

void qll_wording_calc_formula(qll_writer *writer, qll_language language, qll_unit_system units,
                              const qll_calc_step *step)
{
    qll_write(writer, qll_say_calc_step(language, step->id));
    qll_writer given = qll_writer_new(writer->arena);
    size_t count = 0;
    for (size_t i = 0; i < step->figure_count; i++) {
        if (step->figures[i].key == NULL) {
            qll_write(&given, count == 0 ? "" : ", ");
            write_given(&given, language, units, &step->figures[i]);
            count += 1;
        }
    }
    if (count > 0) {
        const qll_filling filling = {"figures", qll_writer_text(&given).bytes};
        qll_write(writer, ", ");
        qll_say_with(writer, language, QLL_SAYS_CALC_TEXT_WITH, &filling, 1);
    }
}
