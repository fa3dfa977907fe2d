#include "transient/hammer.h"

#include "base/customary.h"
#include "physics/material.h"

#include <math.h>

static const double quarter_turn = 0.78539816339744831; /* pi/4 */
/* Fixtures and stops (PDI-WH 201, from memory). */
static const double fixtures_pa_gauge = 150 * QLL_PSI_PA;
/* Of layered pipe: 10 bar, half as much more in a surge (from memory). */
static const double layered_pa_gauge = 15e5;

double qll_pipe_rating_pa_gauge(const qll_pipe_size *size)
{
    const qll_material *material =
        size == NULL ? NULL : qll_material_find(qll_text_of(size->material));
    return material == NULL ? layered_pa_gauge : material->surge_pa_gauge;
}

/* ---- places ---- */

static bool is_behind(const qll_tree *tree, size_t joint)
{
    bool behind = joint == tree->outlet_joint;
    for (size_t i = 0; i < tree->network.line_count; i++) {
        const bool touches =
            tree->network.lines[i].from == joint || tree->network.lines[i].to == joint;
        behind = behind || (touches && tree->pipes[i].part == QLL_TREE_WAY);
    }
    return behind;
}

double qll_hammer_limit_pa_gauge(const qll_tree *tree, size_t joint)
{
    double limit_pa_gauge = is_behind(tree, joint) ? fixtures_pa_gauge : (double)INFINITY;
    for (size_t i = 0; i < tree->network.line_count; i++) {
        if (tree->network.lines[i].from == joint || tree->network.lines[i].to == joint) {
            limit_pa_gauge = fmin(limit_pa_gauge, qll_pipe_rating_pa_gauge(tree->pipes[i].size));
        }
    }
    return limit_pa_gauge;
}

static double stood_high(const qll_joint_seen *seen)
{
    return fmax(seen->before_pa_gauge, seen->after_pa_gauge);
}

static double stood_low(const qll_joint_seen *seen)
{
    return fmin(seen->before_pa_gauge, seen->after_pa_gauge);
}

/* Vapor at a joint over the least cell of the pipes there. */
static double joint_cavity_share(const qll_run_found *found, size_t joint)
{
    double cell_m3 = INFINITY;
    for (size_t i = 0; i < found->tree.network.line_count; i++) {
        const qll_line *line = &found->tree.network.lines[i];
        if ((line->from == joint || line->to == joint) && found->grid.pipes[i].cells > 0) {
            cell_m3 = fmin(cell_m3, quarter_turn * line->bore_m * line->bore_m * line->length_m
                                        / (double)found->grid.pipes[i].cells);
        }
    }
    return found->joints[joint].cavity_m3 / cell_m3;
}

/* ---- the verdict ---- */

/* How grave a joint is by each kind: over 1 it holds. */
static void weigh(const qll_run_found *found, size_t joint, double *weights)
{
    const qll_joint_seen *seen = &found->joints[joint];
    const double rise_pa = seen->high_pa_gauge - stood_high(seen);
    weights[QLL_HAMMER_PARTS] = seen->cavity_m3 > 0 ? 1 + seen->cavity_m3 : 0;
    weights[QLL_HAMMER_OVER] =
        rise_pa > 0 ? seen->high_pa_gauge / qll_hammer_limit_pa_gauge(&found->tree, joint) : 0;
    weights[QLL_HAMMER_RISE] = rise_pa / QLL_HAMMER_RISE_PA;
    weights[QLL_HAMMER_DIP] = is_behind(&found->tree, joint) && stood_low(seen) > 0
                                  ? 2 - seen->low_pa_gauge / (stood_low(seen) / 2)
                                  : 0;
}

/* Vapor within a pipe counts at its end. */
static void see_vapour(const qll_run_found *found, qll_hammer *hammer)
{
    for (size_t i = 0; i < found->tree.network.line_count; i++) {
        if (found->lines[i].cavity_share > hammer->cavity_share) {
            hammer->cavity_share = found->lines[i].cavity_share;
            hammer->kind = QLL_HAMMER_PARTS;
            hammer->joint = found->tree.network.lines[i].to;
        }
    }
    for (size_t j = 0; j < found->tree.network.joint_count; j++) {
        const double share = joint_cavity_share(found, j);
        if (share > hammer->cavity_share) {
            hammer->cavity_share = share;
            hammer->kind = QLL_HAMMER_PARTS;
            hammer->joint = j;
        }
    }
}

static void see_force(const qll_run_found *found, qll_hammer *hammer)
{
    for (size_t i = 0; i < found->tree.network.line_count; i++) {
        const qll_line *line = &found->tree.network.lines[i];
        const double stood_pa =
            fmax(stood_high(&found->joints[line->from]), stood_high(&found->joints[line->to]));
        const double force_n =
            quarter_turn * line->bore_m * line->bore_m * (found->lines[i].high_pa_gauge - stood_pa);
        if (force_n > hammer->force_n) {
            hammer->force_n = force_n;
            hammer->force_line = i;
        }
    }
}

qll_hammer qll_hammer_of(const qll_run_found *found)
{
    qll_hammer hammer = {.kind = QLL_HAMMER_NONE};
    double worst[QLL_HAMMER_NONE] = {0};
    size_t where[QLL_HAMMER_NONE] = {0};
    for (size_t j = 0; j < found->tree.network.joint_count; j++) {
        double weights[QLL_HAMMER_NONE];
        weigh(found, j, weights);
        for (int kind = 0; kind < QLL_HAMMER_NONE; kind++) {
            if (weights[kind] > worst[kind]) {
                worst[kind] = weights[kind];
                where[kind] = j;
            }
        }
    }
    hammer.joint = where[QLL_HAMMER_RISE];
    for (int kind = QLL_HAMMER_NONE - 1; kind >= 0; kind--) {
        if (worst[kind] > 1) {
            hammer.kind = (qll_hammer_kind)kind;
            hammer.joint = where[kind];
        }
    }
    see_vapour(found, &hammer);
    see_force(found, &hammer);
    const qll_joint_seen *seen = &found->joints[hammer.joint];
    hammer.high_pa_gauge = seen->high_pa_gauge;
    hammer.low_pa_gauge = seen->low_pa_gauge;
    hammer.rise_pa = seen->high_pa_gauge - stood_high(seen);
    hammer.stood_pa_gauge = stood_low(seen);
    hammer.limit_pa_gauge = qll_hammer_limit_pa_gauge(&found->tree, hammer.joint);
    return hammer;
}
