/* How a tree is put together; for src/transient/tree*.c alone. */
#ifndef QUELL_TRANSIENT_TREE_PARTS_H
#define QUELL_TRANSIENT_TREE_PARTS_H

#include "transient/tree.h"

/** A tree that grows: arrays with room for all that the order can ask. */
typedef struct qll_tree_grows {
    const qll_tree_order *order;
    qll_arena *arena;
    qll_problems *problems;
    qll_tree *tree;
    qll_line *lines;
    qll_tree_pipe *pipes;
    size_t line_count;
    qll_joint *joints;
    bool *is_bare; /* [joint] no pipe and no main stands there */
    size_t joint_count;
    qll_boundary *boundaries;
    size_t boundary_count;
    bool has_memory; /* false once something was not to be had */
} qll_tree_grows;

/** What a line is made of. */
typedef struct qll_tree_run {
    const qll_pipe_run *pipe;
    qll_tree_pipe origin;
    double usual_m3s;   /* its friction is exact there; over 0 */
    double beside_pa;   /* lost beside its own at that flow: meter, strainer */
    double elevation_m; /* of its far end */
} qll_tree_run;

/** A joint without a pipe; where it is. */
size_t qll_tree_add_joint(qll_tree_grows *of, double elevation_m, double start_pa_gauge);

/** A pipe from @p from to a new joint, which is returned. */
size_t qll_tree_add_line(qll_tree_grows *of, size_t from, const qll_tree_run *run);

/** A boundary at one joint, or between two. */
void qll_tree_add_boundary(qll_tree_grows *of, const qll_boundary_kind *kind, void *state,
                           size_t first, size_t second);

/** A piece of station pipe behind @p from, which loses @p beside_pa at the peak; its far joint. */
size_t qll_tree_add_header(qll_tree_grows *of, size_t from, double beside_pa);

/** Everything before the station; the joint at its inlet. */
size_t qll_tree_lay_service(qll_tree_grows *of);

/** The station behind @p inlet; its outlet. QLL_OK, QLL_REFUSED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_tree_lay_station(qll_tree_grows *of, size_t inlet, size_t *outlet);

/** The ways behind @p outlet and the draws at their ends. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_tree_lay_ways(qll_tree_grows *of, size_t outlet);

/** Pressure at which a tree begins to be searched for its rest, behind the station. */
double qll_tree_outlet_pa_gauge(const qll_tree_order *order);

#endif
