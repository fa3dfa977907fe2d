#include "search/lead.h"

/* Points that are solved together. */
#define QLL_BATCH_POINTS 32

bool qll_leads_alone(const qll_tally_stage *of, double inlet_pa, double outlet_pa)
{
    const qll_stage *stage = &of->stage;
    if (stage->branch_count == 1) {
        return true;
    }
    const double change_pa = inlet_pa - of->site->barometric_pa - stage->set_inlet_pa_gauge;
    const double outlet_pa_gauge = outlet_pa - of->site->barometric_pa;
    const qll_branch *first = &stage->branches[0];
    const double falloff_pa = qll_branch_moved_set_pa(first, change_pa) - outlet_pa_gauge;
    bool alone = falloff_pa < first->law->full_falloff_pa;
    for (size_t j = 1; j < stage->branch_count; j++) {
        alone = alone && outlet_pa_gauge >= qll_branch_moved_set_pa(&stage->branches[j], change_pa);
    }
    return alone;
}

/** Points that wait to be solved together. */
typedef struct batch {
    double inlet_pa[QLL_BATCH_POINTS], flow_m3s[QLL_BATCH_POINTS];
    size_t at[QLL_BATCH_POINTS];
    size_t count;
} batch;

static void solve_batch(const qll_tally_stage *of, batch *waiting, qll_tally_term *lead,
                        qll_tally_term *terms)
{
    qll_tally_term solved[QLL_BATCH_POINTS];
    qll_tally_many(of, waiting->inlet_pa, waiting->flow_m3s, waiting->count, solved);
    for (size_t i = 0; i < waiting->count; i++) {
        const size_t at = waiting->at[i];
        terms[at] = solved[i];
        if (qll_leads_alone(of, waiting->inlet_pa[i], solved[i].outlet_pa)) {
            lead[at] = solved[i];
        }
    }
    waiting->count = 0;
}

void qll_terms_find(const qll_tally_stage *of, const double *inlet_pa, const double *flow_m3s,
                    size_t count, qll_tally_term *lead, qll_tally_term *terms)
{
    batch waiting = {.count = 0};
    for (size_t i = 0; i < count; i++) {
        if (qll_term_is_known(&lead[i]) && qll_leads_alone(of, inlet_pa[i], lead[i].outlet_pa)) {
            terms[i] = lead[i];
            continue;
        }
        waiting.inlet_pa[waiting.count] = inlet_pa[i];
        waiting.flow_m3s[waiting.count] = flow_m3s[i];
        waiting.at[waiting.count] = i;
        waiting.count += 1;
        if (waiting.count == QLL_BATCH_POINTS) {
            solve_batch(of, &waiting, lead, terms);
        }
    }
    solve_batch(of, &waiting, lead, terms);
}
