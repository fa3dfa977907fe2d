/* Pressure and flow in a tree of pipes, second by second or wave by wave: docs/theory/waves.md. */
#ifndef QUELL_DYNAMICS_PIPELINE_H
#define QUELL_DYNAMICS_PIPELINE_H

#include "dynamics/grid.h"
#include "dynamics/meeting.h"
#include "dynamics/network.h"

typedef struct qll_pipeline qll_pipeline;

/**
 * Makes the pipes of @p network ready, empty of any motion: qll_pipeline_rest() or qll_pipeline_begin()
 * comes next.
 *
 * @param network  its boundaries and their states must live as long as the pipeline
 * @param problems gets one entry for each thing refused
 * @return QLL_REFUSED, QLL_NO_MEMORY or QLL_OK; lives in @p arena
 */
QLL_MUST_USE qll_status qll_pipeline_make(const qll_network *network, const qll_grid_limits *limits,
                                          qll_problems *problems, qll_arena *arena,
                                          qll_pipeline **pipeline);

const qll_grid *qll_pipeline_grid(const qll_pipeline *pipeline);

/** Sets all to what would be if nothing had ever changed, at @p time_s; by how much the search for it was
 * still moving a pressure, Pa. */
double qll_pipeline_rest(qll_pipeline *pipeline, double time_s);

/** Sets pressures of joints and flows of pipes as given; boundaries take them as at rest. */
void qll_pipeline_begin(qll_pipeline *pipeline, double time_s, const double *joint_pa_gauge,
                        const double *line_m3s);

/** One step of the waves, of qll_pipeline_grid()->step_s; by how much the search for its end was still moving a
 * pressure, Pa. */
double qll_pipeline_step(qll_pipeline *pipeline);

/**
 * One step of @p step_s without waves: every pipe in one piece. Waves that are still under way are
 * lost: see qll_pipeline_is_quiet().
 */
double qll_pipeline_quiet_step(qll_pipeline *pipeline, double step_s);

/** The most that a joint moved in the last step, Pa. */
double qll_pipeline_moved_pa(const qll_pipeline *pipeline);

/** Whether no joint has moved by more than @p change_pa in any step for as long as waves need to go through the tree and
 * back, and no vapor is left. Asked after every step of the waves with the same change. */
bool qll_pipeline_is_quiet(qll_pipeline *pipeline, double change_pa);

double qll_pipeline_time_s(const qll_pipeline *pipeline);

/** A joint at the end of the last step. */
const qll_meeting_node *qll_pipeline_joint(const qll_pipeline *pipeline, size_t joint);

/** What is known of a pipe. */
typedef struct qll_line_now {
    double first_m3s, last_m3s; /* flow at its two ends */
    double cavity_m3;           /* of vapor within it */
    double cavity_most;         /* the greatest so far of one section over the volume of a cell */
    double held_m3; /* water over what it holds at P = 0, eq. 5; lumped: C times the mean P */
    double high_pa_gauge, low_pa_gauge; /* anywhere in it since watching began, joints included */
} qll_line_now;

qll_line_now qll_pipeline_line(const qll_pipeline *pipeline, size_t line);

/** Begins to keep the greatest and least pressure of every section, or begins anew. */
void qll_pipeline_watch(qll_pipeline *pipeline);

/** Greatest and least pressure since watching began at @p section (0 to cells) of a pipe that is not lumped, Pa gauge at
 * its height. */
typedef struct qll_range {
    double high_pa_gauge, low_pa_gauge;
} qll_range;

qll_range qll_pipeline_range(const qll_pipeline *pipeline, size_t line, size_t section);

#endif
