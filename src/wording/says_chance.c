/* Chances and money in words. */
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* Above this a callback is nearly sure. */
#define QLL_CHANCE_MOST 0.85

/* "1 in 8"; false for what is no figure. */
static bool write_bare_chance(qll_writer *writer, qll_language language, double share)
{
    if (!(share >= QLL_CHANCE_LEAST) || share > QLL_CHANCE_MOST) {
        qll_write(writer, qll_say(language, share > QLL_CHANCE_MOST ? QLL_SAYS_CHANCE_NEARLY
                                                                    : QLL_SAYS_CHANCE_HARDLY));
        return false;
    }
    if (share > 0.58) {
        qll_write(writer, qll_say(language, share > 0.71 ? QLL_SAYS_CHANCE_THREE_QUARTERS
                                                         : QLL_SAYS_CHANCE_TWO_THIRDS));
        return true;
    }
    const qll_filling filling = {"count", qll_text_whole(writer, fmax(round(1.0 / share), 2.0))};
    qll_say_with(writer, language, QLL_SAYS_CHANCE_ONE_IN, &filling, 1);
    return true;
}

void qll_wording_chance(qll_writer *writer, qll_language language, double share,
                        qll_chance_form form)
{
    qll_writer bare = qll_writer_new(writer->arena);
    bool is_figure = write_bare_chance(&bare, language, share);
    const qll_filling value = {"value", qll_writer_text(&bare).bytes};
    if (!is_figure || form == QLL_CHANCE_BARE) {
        qll_write(writer, value.text);
        return;
    }
    qll_say_with(writer, language,
                 form == QLL_CHANCE_TIMES ? QLL_SAYS_CHANCE_TIMES : QLL_SAYS_CHANCE_ABOUT, &value,
                 1);
}

void qll_wording_amount(qll_writer *writer, const qll_wording *wording, double amount)
{
    const qll_filling fillings[] = {{"value", qll_text_whole(writer, amount)},
                                    {"unit", wording->currency}};
    if (wording->currency == NULL) {
        qll_write(writer, fillings[0].text);
    } else {
        qll_say_with(writer, wording->language, QLL_SAYS_MONEY_IN, fillings, 2);
    }
}

#define QLL_AMOUNT_STEP 10.0

void qll_wording_about(qll_writer *writer, const qll_wording *wording, double amount)
{
    qll_wording_amount(writer, wording, QLL_AMOUNT_STEP * round(amount / QLL_AMOUNT_STEP));
}

const char *qll_say_mechanism(qll_language language, const qll_cost *cost)
{
    size_t most = 0;
    for (size_t m = 1; m < QLL_MECHANISM_COUNT; m++) {
        most = cost->mechanism_share[m] > cost->mechanism_share[most] ? m : most;
    }
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_MECHANISM_CHATTER + most));
}
