#include "base/quote.h"
#include "documents/survey_parts.h"

#include <math.h>
#include <stdint.h>

const qll_pipe_family *qll_read_family(qll_survey_pass *pass, const qll_object *object,
                                       const char *key)
{
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        const qll_field *field = qll_group_field(object->group, key);
        if (field->fallback == NULL) {
            return NULL;
        }
        qll_object_assume_word(object, field);
        return qll_pipe_family_find(qll_text_of(field->fallback));
    }
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_FAMILY));
        return NULL;
    }
    const qll_pipe_family *family = qll_pipe_family_find(qll_text_trimmed(node->text));
    if (family == NULL) {
        (void)qll_reader_unknown_word(&pass->reader, qll_at(node), QLL_SAYS(A_FAMILY),
                                      pass->family_words, pass->family_count);
    } else if (!qll_text_is(qll_text_trimmed(node->text), family->word)) {
        qll_object_assume(object, key, qll_as_word(family->word),
                          (qll_said){.id = QLL_TEXT_WHY_GALVANIZED});
    }
    return family;
}

static bool is_of(const qll_pipe_size *size, const qll_pipe_family *family)
{
    return qll_text_is(qll_text_of(size->standard), family->standard);
}

static void refuse_size(qll_survey_pass *pass, const qll_node *node, const qll_pipe_family *family,
                        double nominal_m)
{
    const qll_pipe_table *pipes = &pass->tables->pipes;
    const qll_pipe_size *nearest = NULL;
    qll_arena *arena = pass->reader.arena;
    qll_writer sizes = qll_writer_new(arena);
    const char *comma = "";
    for (size_t i = 0; i < pipes->count; i++) {
        const qll_pipe_size *size = &pipes->sizes[i];
        if (!is_of(size, family)) {
            continue;
        }
        qll_write(&sizes, comma);
        qll_write(&sizes, size->nominal);
        comma = ", ";
        if (nearest == NULL
            || fabs(size->nominal_m - nominal_m) < fabs(nearest->nominal_m - nominal_m)) {
            nearest = size;
        }
    }
    const char *word = nearest == NULL ? NULL : nearest->nominal;
    const qll_said says = {
        QLL_TEXT_SIZE_UNKNOWN,
        {qll_as_found(node), qll_as_is(family->word), qll_as_is_text(qll_writer_text(&sizes))}};
    (void)qll_reader_refuse_fixed(&pass->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD, &says,
                                  qll_hint_word(word, arena),
                                  qll_fix_text(QLL_FIX_REPLACE, word, arena));
}

const qll_pipe_size *qll_read_size(qll_survey_pass *pass, const qll_object *object,
                                   const qll_pipe_family *family)
{
    double nominal_m = qll_object_quantity(object, "nominal");
    if (family == NULL || isnan(nominal_m)) {
        return NULL;
    }
    const qll_pipe_size *size = qll_pipe_find(&pass->tables->pipes, family, nominal_m);
    if (size == NULL) {
        refuse_size(pass, qll_object_find(object, "nominal"), family, nominal_m);
    }
    return size;
}

static double read_count(qll_survey_pass *pass, const qll_field *field, const qll_node *node)
{
    if (node->kind != QLL_NODE_NUMBER) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_HOW_MANY));
        return NAN;
    }
    const qll_pair range = qll_field_range(field, pass->reader.arena);
    if (node->number < range.low || node->number > range.high
        || node->number != floor(node->number)) {
        (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE,
                                QLL_SAYS_WITH(FITTINGS_NOT_WHOLE, qll_as_found(node),
                                              qll_as_is(field->least), qll_as_is(field->most)),
                                NULL);
        return NAN;
    }
    return node->number;
}

/* Sum of the K of all fittings; NaN without a bore. */
static double read_fittings(qll_survey_pass *pass, const qll_object *object, double bore_m)
{
    const qll_node *fittings = qll_object_find(object, "fittings");
    const qll_field *field = qll_group_field(object->group, "fittings");
    if (fittings == NULL) {
        qll_object_assume_word(object, field);
        return 0.0;
    }
    if (fittings->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, fittings, QLL_SAYS(EXPECT_FITTINGS));
        return NAN;
    }
    double sum = 0.0;
    for (const qll_node *child = fittings->first_child; child != NULL; child = child->next) {
        const qll_fitting *fitting = qll_fitting_find(child->key);
        if (fitting != NULL) {
            sum += read_count(pass, field, child) * qll_fitting_k(fitting, bore_m);
        } else if (!qll_reader_drops(&pass->reader, qll_at_key(child))) {
            (void)qll_reader_unknown_word(&pass->reader, qll_at_key(child), QLL_SAYS(A_FITTING),
                                          pass->fitting_words, pass->fitting_count);
        }
    }
    return sum;
}

qll_read_run qll_read_pipe(qll_survey_pass *pass, const qll_object *object)
{
    const qll_pipe_family *family = qll_read_family(pass, object, "pipe");
    const qll_pipe_size *size = qll_read_size(pass, object, family);
    double bore_m = size == NULL ? (double)NAN : size->bore_m;
    return (qll_read_run){
        .size = size,
        .run = {.bore_m = bore_m,
                .length_m = qll_object_quantity(object, "length"),
                .roughness_m = size == NULL ? (double)NAN : size->roughness_m,
                .minor_loss = read_fittings(pass, object, bore_m)},
    };
}
