#include "base/quote.h"
#include "documents/survey_parts.h"

#include <math.h>
#include <stdint.h>

/* No run of pipe has more of one kind (our assumption). */
#define QLL_FITTINGS_MAX 1000.0

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
        (void)qll_reader_wrong_kind(&pass->reader, node, "a pipe family in quotes, \"copper L\"");
        return NULL;
    }
    const qll_pipe_family *family = qll_pipe_family_find(qll_text_trimmed(node->text));
    if (family == NULL) {
        (void)qll_reader_unknown_word(&pass->reader, qll_at(node), "a pipe family",
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
    qll_writer says = qll_reader_says(&pass->reader);
    qll_write_found(&says, node);
    qll_write(&says, " is not a size of ");
    qll_write(&says, family->word);
    qll_write(&says, "; its sizes are ");
    const char *comma = "";
    for (size_t i = 0; i < pipes->count; i++) {
        const qll_pipe_size *size = &pipes->sizes[i];
        if (!is_of(size, family)) {
            continue;
        }
        qll_write(&says, comma);
        qll_write(&says, size->nominal);
        comma = ", ";
        if (nearest == NULL
            || fabs(size->nominal_m - nominal_m) < fabs(nearest->nominal_m - nominal_m)) {
            nearest = size;
        }
    }
    const char *word = nearest == NULL ? NULL : nearest->nominal;
    (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD, &says,
                            qll_hint_word(word, pass->reader.arena));
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

static double read_count(qll_survey_pass *pass, const qll_node *node)
{
    if (node->kind != QLL_NODE_NUMBER) {
        (void)qll_reader_wrong_kind(&pass->reader, node, "how many there are, a whole number");
        return NAN;
    }
    if (node->number < 0.0 || node->number > QLL_FITTINGS_MAX
        || node->number != floor(node->number)) {
        qll_writer says = qll_reader_says(&pass->reader);
        qll_write_found(&says, node);
        qll_write(&says, " is not a whole number from 0 to 1000; fittings are counted");
        (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE, &says, "");
        return NAN;
    }
    return node->number;
}

/* Sum of the K of all fittings; NaN without a bore. */
static double read_fittings(qll_survey_pass *pass, const qll_object *object, double bore_m)
{
    const qll_node *fittings = qll_object_find(object, "fittings");
    if (fittings == NULL) {
        const qll_field *field = qll_group_field(object->group, "fittings");
        qll_object_assume_word(object, field);
        return 0.0;
    }
    if (fittings->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, fittings,
                                    "an object, fitting to count: {\"elbow 90\": 4}");
        return NAN;
    }
    double sum = 0.0;
    for (const qll_node *child = fittings->first_child; child != NULL; child = child->next) {
        const qll_fitting *fitting = qll_fitting_find(child->key);
        if (fitting != NULL) {
            sum += read_count(pass, child) * qll_fitting_k(fitting, bore_m);
        } else if (!qll_reader_drops(&pass->reader, qll_at_key(child))) {
            (void)qll_reader_unknown_word(&pass->reader, qll_at_key(child), "a fitting",
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
