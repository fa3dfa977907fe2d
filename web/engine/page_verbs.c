/* The questions that the page never asks. Linked before the core, these stand for its own, which then stay out of the module with all
 * that they alone need. */
#include "engine/engine.h"

static qll_status refuse(qll_asked *asked)
{
    (void)asked;
    return QLL_WRONG_USE;
}

qll_status qll_ask_calc(qll_asked *asked)
{
    return refuse(asked);
}

qll_status qll_ask_fit(qll_asked *asked)
{
    return refuse(asked);
}

qll_status qll_ask_import(qll_asked *asked)
{
    return refuse(asked);
}

qll_status qll_ask_list(qll_asked *asked)
{
    return refuse(asked);
}

qll_status qll_ask_learn(qll_asked *asked)
{
    return refuse(asked);
}

qll_status qll_ask_simulate(qll_asked *asked)
{
    return refuse(asked);
}
