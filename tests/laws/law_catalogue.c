/* What a catalogue holds is all there when it is written: every member of the tables of fields that read it. */
#include "base/random.h"
#include "check.h"
#include "documents/catalogue_fields.h"
#include "documents/describe.h"
#include "documents/read_catalogue.h"

#include <stdlib.h>

/* Every member of a catalogue, between a direct valve, a piloted one, and one whose band stands alone. A number between
 * strokes is drawn. */
static const char every_member[] =
    "{\"catalogue\": 1, \"name\": \"drawn\", \"invented\": true, \"currency\": \"USD\","
    "\"costs\": {\"visit\": ~400~, \"stage\": ~120~, \"sizes\": ["
    "{\"nominal\": \"1 in\", \"branch\": ~210~, \"beside\": ~170~, \"direct\": ~160~, \"pilot\": ~900~},"
    "{\"nominal\": \"2 in\", \"branch\": ~530~, \"beside\": ~390~, \"direct\": ~620~, \"pilot\": ~1400~}]},"
    "\"valves\": ["
    "{\"id\": \"A\", \"nominal\": \"~0.75~ in\", \"acting\": \"direct\", \"kv\": \"~2.2~ m3/h\","
    "\"set_range\": [\"~25~ psi\", \"~5~ bar\"], \"inlet_max\": \"~300~ psi\", \"temperature_max\": \"~140~ degF\","
    "\"falloff\": {\"inlet\": \"~100~ psi\", \"set\": \"~350~ kPa\", \"points\": ["
    "{\"flow\": \"~2~ gpm\", \"falloff\": \"~3~ psi\"}, {\"flow\": \"~0.4~ L/s\", \"falloff\": \"~0.5~ bar\"}]},"
    "\"lockup_rise\": \"~4~ psi\", \"inlet_effect\": ~0.06~, \"flow_min\": \"~0.6~ gpm\", \"hysteresis\": \"~10~ kPa\","
    "\"fl\": ~0.88~, \"fd\": ~0.5~, \"xfz\": ~0.42~, \"seat_bore\": \"~10.5~ mm\", \"bypass\": true,"
    "\"strainer_kv\": \"~9~ m3/h\", \"moving_mass\": \"~0.3~ lb\", \"spring_rate\": \"~60~ N/mm\","
    "\"damping\": \"~12~ N.s/m\", \"diaphragm\": \"~1.5~ in\", \"price\": ~140~, \"lead_days\": ~20~},"
    "{\"id\": \"B\", \"nominal\": \"~3~ in\", \"acting\": \"pilot\", \"kv\": \"~95~ Cv\","
    "\"set_range\": [\"~30~ psi\", \"~150~ psi\"], \"inlet_max\": \"~20~ bar\","
    "\"falloff\": {\"inlet\": \"~120~ psi\", \"set\": \"~60~ psi\", \"band\": \"~4~ psi\"}, \"stroke_time\": \"~8~ s\"},"
    "{\"id\": \"C\", \"nominal\": \"~40~ mm\", \"acting\": \"direct\", \"kv\": \"~11~ m3/h\","
    "\"set_range\": [\"~2~ bar\", \"~5~ bar\"], \"inlet_max\": \"~16~ bar\", \"band\": \"~1.1~ bar\"}]}";

/* Each drawn number within 3 % of the one that stands there, so that no two contradict each other. Half of them have the
 * digits that a person types, half all that a double has. */
static qll_text drawn(qll_random *random, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    const char *from = every_member;
    for (const char *stroke = strchr(from, '~'); stroke != NULL; stroke = strchr(from, '~')) {
        qll_write_text(&writer, (qll_text){from, (size_t)(stroke - from)});
        const double number = strtod(stroke + 1, NULL) * (0.97 + 0.06 * qll_random_unit(random));
        qll_write_format(&writer, "%.*g", qll_random_unit(random) < 0.5 ? 3 : 17, number);
        from = strchr(stroke + 1, '~') + 1;
    }
    qll_write(&writer, from);
    return qll_writer_text(&writer);
}

static bool read_catalogue(qll_text text, qll_arena *arena, qll_document *document,
                           qll_catalogue *catalogue)
{
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    return qll_document_read(text, "drawn", arena, document, &problems) == QLL_OK
           && qll_catalogue_read(document, arena, catalogue, &assumed, &problems) == QLL_OK;
}

/* Two spellings of one quantity are the same where both are read as the same double. */
static bool is_same_leaf(const qll_field *field, const qll_node *one, const qll_node *other,
                         qll_arena *arena)
{
    if (one->kind != other->kind) {
        return false;
    }
    if (one->kind == QLL_NODE_NUMBER) {
        return one->number == other->number;
    }
    if (one->kind != QLL_NODE_TEXT) {
        return true;
    }
    if (field->value != QLL_VALUE_QUANTITY && field->value != QLL_VALUE_PAIR) {
        return qll_text_equal(one->text, other->text);
    }
    qll_quantity of_one, of_other;
    qll_units_refusal refusal;
    return qll_units_read(one->text, field->kind, arena, &of_one, &refusal)
           && qll_units_read(other->text, field->kind, arena, &of_other, &refusal)
           && of_one.si == of_other.si;
}

/* A band that stands alone is written among what belongs to it, where it means the same. */
static const qll_node *written_of(const qll_node *valve_or_other, const qll_field *field)
{
    const qll_node *node = qll_node_find(valve_or_other, field->key);
    if (node == NULL && strcmp(field->key, "band") == 0) {
        const qll_node *falloff = qll_node_find(valve_or_other, "falloff");
        node = falloff == NULL ? NULL : qll_node_find(falloff, "band");
    }
    return node;
}

typedef struct comparing {
    qll_arena *arena;
    const qll_field_group *const *groups;
    size_t group_count;
    size_t seen;
} comparing;

static void compare(comparing *with, const qll_field_group *group, const qll_node *before,
                    const qll_node *after);

/* All that stands at one field: a leaf, the two of a pair, an object, or a list of them. */
static void compare_field(comparing *with, const qll_field_group *group, const qll_field *field,
                          const qll_node *before, const qll_node *after)
{
    const qll_groups_inside inside = qll_groups_in(with->groups, with->group_count, group, field);
    if (field->value == QLL_VALUE_OBJECT) {
        compare(with, inside.groups[0], before, after);
        return;
    }
    if (before->kind != QLL_NODE_LIST) {
        with->seen += 1;
        CHECK(is_same_leaf(field, before, after, with->arena));
        return;
    }
    if (!CHECK(before->child_count == after->child_count)) {
        return;
    }
    const qll_node *other = after->first_child;
    for (const qll_node *one = before->first_child; one != NULL;
         one = one->next, other = other->next) {
        if (inside.count > 0) {
            compare(with, inside.groups[0], one, other);
        } else {
            with->seen += 1;
            CHECK(is_same_leaf(field, one, other, with->arena));
        }
    }
}

static void compare(comparing *with, const qll_field_group *group, const qll_node *before,
                    const qll_node *after)
{
    for (size_t f = 0; f < group->count; f++) {
        const qll_field *field = &group->fields[f];
        const qll_node *node = qll_node_find(before, field->key);
        const qll_node *again = written_of(after, field);
        if (node == NULL) {
            continue;
        }
        if (CHECK(again != NULL)) {
            compare_field(with, group, field, node, again);
        } else {
            printf("    %s is left out\n", qll_field_path(with->arena, group, field));
        }
    }
}

TEST(all_that_is_read_is_written)
{
    qll_random random = qll_random_seeded(41);
    for (int trial = 0; trial < 200; trial++) {
        qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
        qll_document first, second;
        qll_catalogue catalogue, again;
        if (!CHECK(read_catalogue(drawn(&random, arena), arena, &first, &catalogue))) {
            return;
        }
        qll_writer writer = qll_writer_new(arena);
        qll_json json = qll_json_new(&writer);
        qll_catalogue_write(&json, &catalogue);
        CHECK(read_catalogue(qll_writer_text(&writer), arena, &second, &again));
        comparing with = {.arena = arena};
        with.groups = qll_catalogue_groups(&with.group_count);
        compare(&with, &qll_group_catalogue, first.root, second.root);
        CHECK(with.seen > 50);
        /* Once written, it is written the same. */
        qll_writer twice = qll_writer_new(arena);
        json = qll_json_new(&twice);
        qll_catalogue_write(&json, &again);
        CHECK(qll_text_equal(qll_writer_text(&writer), qll_writer_text(&twice)));
        qll_arena_close(arena);
    }
}

/* Does any object below @p node that @p group reads have @p key? */
static bool has_key(comparing *with, const qll_field_group *at, const qll_node *node,
                    const qll_field_group *group, const char *key)
{
    if (at == group && qll_node_find(node, key) != NULL) {
        return true;
    }
    for (size_t f = 0; f < at->count; f++) {
        const qll_node *child = qll_node_find(node, at->fields[f].key);
        const qll_groups_inside inside =
            qll_groups_in(with->groups, with->group_count, at, &at->fields[f]);
        if (child == NULL || inside.count == 0) {
            continue;
        }
        const bool is_list = child->kind == QLL_NODE_LIST;
        for (const qll_node *entry = is_list ? child->first_child : child; entry != NULL;
             entry = is_list ? entry->next : NULL) {
            if (has_key(with, inside.groups[0], entry, group, key)) {
                return true;
            }
        }
    }
    return false;
}

/* A member that comes to the tables comes to the document above. */
TEST(every_member_is_asked)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    qll_random random = qll_random_seeded(43);
    qll_document document;
    qll_catalogue catalogue;
    CHECK(read_catalogue(drawn(&random, arena), arena, &document, &catalogue));
    comparing with = {.arena = arena};
    with.groups = qll_catalogue_groups(&with.group_count);
    for (size_t g = 0; g < with.group_count; g++) {
        for (size_t f = 0; f < with.groups[g]->count; f++) {
            const qll_field *field = &with.groups[g]->fields[f];
            if (!CHECK(has_key(&with, &qll_group_catalogue, document.root, with.groups[g],
                               field->key))) {
                printf("    %s\n", qll_field_path(arena, with.groups[g], field));
            }
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(all_that_is_read_is_written);
    TEST_RUN(every_member_is_asked);
    return TEST_END();
}
