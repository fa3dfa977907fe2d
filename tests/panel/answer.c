#include "answer.h"

#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void must(bool holds, const char *what, const char *why)
{
    if (!holds) {
        printf("%s: %s\n", what, why);
        exit(1);
    }
}

json_t *panel_read(const char *path)
{
    char name[512];
    (void)snprintf(name, sizeof name, "%s/%s", QUELL_ROOT, path);
    json_error_t error;
    json_t *root = json_load_file(name, 0, &error);
    must(root != NULL, name, error.text);
    return root;
}

panel_answer panel_ask(const panel_question *question)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    char *survey = json_dumps(question->survey, 0);
    char *catalogue = question->catalogue == NULL ? NULL : json_dumps(question->catalogue, 0);
    must(arena != NULL && survey != NULL, "panel", "no memory");
    const qll_question asked = {
        .verb = QLL_VERB_DESIGN,
        .form = QLL_FORM_JSON,
        .document = {"survey.json", survey, strlen(survey)},
        .catalogue = {"catalogue.json", catalogue, catalogue == NULL ? 0 : strlen(catalogue)},
        .attachments = question->attachments,
        .attachment_count = question->attachment_count,
    };
    qll_answer answer = {0};
    panel_answer said = {.status = qll_ask(&asked, arena, &answer)};
    if (answer.bytes != NULL) {
        json_error_t error;
        said.root = json_loadb(answer.bytes, answer.size, 0, &error);
        must(said.root != NULL, "the answer is no JSON", error.text);
    }
    free(survey);
    free(catalogue);
    qll_arena_close(arena);
    return said;
}

void panel_release(panel_answer *answer)
{
    json_decref(answer->root);
    answer->root = NULL;
}

bool panel_answered(const panel_answer *answer)
{
    return answer->status == QLL_OK && answer->root != NULL;
}

const char *panel_complaint(const panel_answer *answer)
{
    return panel_text(json_array_get(json_object_get(answer->root, "problems"), 0), "says");
}

const json_t *panel_chosen(const panel_answer *answer)
{
    const json_t *recommended = json_object_get(answer->root, "recommended");
    if (!panel_answered(answer) || json_is_true(json_object_get(answer->root, "no_valve_needed"))
        || !json_is_integer(recommended) || json_integer_value(recommended) < 0) {
        return NULL;
    }
    return json_array_get(json_object_get(answer->root, "stations"),
                          (size_t)json_integer_value(recommended));
}

panel_shape panel_shape_of(const panel_answer *answer)
{
    panel_shape shape = {"refused"};
    const json_t *station = panel_chosen(answer);
    if (station == NULL) {
        (void)snprintf(shape.text, sizeof shape.text, "%s",
                       panel_answered(answer) ? "none" : "refused");
        return shape;
    }
    size_t index;
    const json_t *stage;
    size_t used = 0;
    json_array_foreach(json_object_get(station, "stages"), index, stage)
    {
        int added =
            snprintf(shape.text + used, sizeof shape.text - used, "%s%zu", index == 0 ? "" : "+",
                     json_array_size(json_object_get(stage, "branches")));
        used += added > 0 && (size_t)added < sizeof shape.text - used ? (size_t)added : 0;
    }
    return shape;
}

double panel_number(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

const char *panel_text(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    return text == NULL ? "" : text;
}

double panel_amount(const char *text)
{
    double value = 0.0;
    size_t size = strcspn(text, " ");
    return qll_text_number((qll_text){text, size}, &value) == size && size > 0 ? value
                                                                               : (double)NAN;
}

json_t *panel_quantity(double value, const char *unit)
{
    return json_sprintf("%.10g %s", value, unit);
}

static json_t *valve_called(const json_t *catalogue, const char *id, size_t size)
{
    size_t index;
    json_t *valve;
    json_array_foreach(json_object_get(catalogue, "valves"), index, valve)
    {
        const char *own = panel_text(valve, "id");
        if (strlen(own) == size && strncmp(own, id, size) == 0) {
            return valve;
        }
    }
    return NULL;
}

json_t *panel_catalogue_of(const json_t *catalogue, const char *ids)
{
    json_t *some = json_array();
    json_t *few = json_object();
    must(some != NULL && few != NULL, "panel", "no memory");
    for (const char *id = ids; *id != '\0';) {
        size_t size = strcspn(id, " ");
        json_t *valve = valve_called(catalogue, id, size);
        must(valve != NULL, id, "is not in the catalogue");
        must(json_array_append(some, valve) == 0, "panel", "no memory");
        id += size + (id[size] == ' ' ? 1 : 0);
    }
    const char *money = panel_text(catalogue, "currency");
    must(json_object_set_new(few, "catalogue", json_integer(1)) == 0
             && json_object_set_new(few, "valves", some) == 0
             && (money[0] == '\0' || json_object_set_new(few, "currency", json_string(money)) == 0),
         "panel", "no memory");
    return few;
}
