#include "wording/wording.h"

#include "base/count.h"
#include "wording/texts.h"

#include <math.h>

const char *qll_wording_money(qll_arena *arena, qll_language language, const char *currency,
                              qll_message in, qll_message own)
{
    if (currency == NULL) {
        return qll_say(language, own);
    }
    qll_writer writer = qll_writer_new(arena);
    const qll_filling filling = {"unit", currency};
    qll_say_with(&writer, language, in, &filling, 1);
    return qll_writer_text(&writer).bytes;
}

void qll_valve_letter_write(qll_writer *writer, size_t branch)
{
    qll_write_byte(writer, (char)('A' + (int)(branch < 26 ? branch : 25)), 1);
}

void qll_valve_name_write(qll_writer *writer, const qll_station *station, size_t stage,
                          size_t branch)
{
    if (station->stage_count > 1) {
        qll_write_format(writer, "%zu", stage + 1);
    }
    qll_valve_letter_write(writer, branch);
}

const char *qll_gauge_name(qll_arena *arena, size_t joint)
{
    qll_writer name = qll_writer_new(arena);
    qll_write_format(&name, "P%zu", joint);
    return qll_writer_text(&name).bytes;
}

const char *qll_cock_name(qll_arena *arena, const qll_station *station, size_t stage, size_t branch)
{
    qll_writer name = qll_writer_new(arena);
    qll_write(&name, "T");
    qll_valve_name_write(&name, station, stage, branch);
    return qll_writer_text(&name).bytes;
}

const char *qll_caution(qll_language language, size_t index)
{
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_CAUTION_RELIEVE + index));
}

void qll_wording_strainer(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_strainer *strainer, size_t stage,
                          size_t branch)
{
    qll_writer name = qll_writer_new(writer->arena);
    qll_valve_name_write(&name, station, stage, branch);
    const bool is_known = isfinite(strainer->clean_pa);
    const bool is_read = isfinite(strainer->clean_me_pa);
    const qll_unit_system units = wording->units;
    const qll_filling fillings[] = {
        {"valve", qll_writer_text(&name).bytes},
        {"gauge", qll_gauge_name(writer->arena, stage)},
        {"cock", qll_cock_name(writer->arena, station, stage, branch)},
        {"mesh", qll_text_whole(writer, strainer->mesh)},
        {"size", qll_text_size(writer, strainer->nominal_m, units)},
        {"clean", is_known
                      ? qll_text_difference(writer, wording->language, strainer->clean_pa, units)
                      : NULL},
        {"flow",
         is_known ? qll_text_quantity(writer, strainer->at_flow_m3s, QLL_KIND_FLOW, units) : NULL},
        {"dirty", is_read ? qll_text_reading(writer->arena, strainer->clean_me_pa, units) : NULL},
        {"months", is_known && !is_read ? "6" : NULL},
    };
    qll_say_with(writer, wording->language,
                 strainer->in_body ? QLL_SAYS_STRAINER_IN_BODY : QLL_SAYS_STRAINER_AHEAD, fillings,
                 QLL_COUNT(fillings));
}

/* Whether the way leads through more than one; of one alone nobody says "stage 1". */
static bool has_stages(const qll_ladder *ladder)
{
    size_t count = 0;
    for (size_t i = 0; i < ladder->count; i++) {
        count += ladder->steps[i].kind == QLL_STEP_STAGE ? 1 : 0;
    }
    return count > 1;
}

void qll_wording_step(qll_writer *writer, const qll_wording *wording, const qll_ladder *ladder,
                      const qll_ladder_step *step)
{
    static const qll_message words[] = {
        [QLL_STEP_MAIN] = QLL_SAYS_STEP_MAIN,         [QLL_STEP_PIPE] = QLL_SAYS_STEP_PIPE,
        [QLL_STEP_METER] = QLL_SAYS_STEP_METER,       [QLL_STEP_BACKFLOW] = QLL_SAYS_STEP_BACKFLOW,
        [QLL_STEP_STRAINER] = QLL_SAYS_STEP_STRAINER, [QLL_STEP_DEVICE] = QLL_SAYS_STEP_DEVICE,
        [QLL_STEP_STAGE] = QLL_SAYS_STEP_STAGE,       [QLL_STEP_OUTLET] = QLL_SAYS_HEAD_OUTLET,
    };

    if (step->kind == QLL_STEP_OUTLET && ladder->outlet < wording->site->outlet_count) {
        qll_write(writer, wording->site->outlets[ladder->outlet].name);
        return;
    }
    const bool is_only = step->kind == QLL_STEP_STAGE && !has_stages(ladder);
    const size_t number = step->kind == QLL_STEP_STAGE ? step->stage + 1 : 0;
    const qll_pipe_size *size = step->size;
    const qll_filling fillings[] = {
        {"stage", qll_text_whole(writer, (double)number)},
        {"size", size == NULL ? NULL : qll_text_size(writer, size->nominal_m, wording->units)},
    };
    qll_say_with(writer, wording->language, is_only ? QLL_SAYS_STEP_STATION : words[step->kind],
                 fillings, QLL_COUNT(fillings));
}
