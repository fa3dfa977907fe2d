/* What a pipeline is made of; for src/dynamics/pipeline*.c alone. */
#ifndef QUELL_DYNAMICS_PIPELINE_STATE_H
#define QUELL_DYNAMICS_PIPELINE_STATE_H

#include "dynamics/pipeline.h"
#include "dynamics/short_pipe.h"
#include "dynamics/sweep.h"

/* One end of a pipe. */
typedef struct qll_line_end {
    size_t joint;
    double rise_pa;    /* rho g z: P less the pressure there */
    double arrived_pa; /* the wave that arrived at the end of the last step */
    double arrives_pa; /* and of this one */
    double flow_m3s;   /* from the pipe's first joint to its last */
} qll_line_end;

typedef struct qll_pipe {
    qll_cells cells; /* count 0 where it is lumped */
    double cell_m3;
    qll_waves now, next;
    double *cavity_m3;
    qll_envelope envelope;
    qll_line_end first, last;
    double cavities_m3, cavity_most_m3;
} qll_pipe;

/* What pressures a joint has seen. */
typedef struct qll_seen {
    double high_pa, low_pa;
    double before_pa; /* the last step */
} qll_seen;

struct qll_pipeline {
    double time_s;
    double loop_s;  /* through the tree and back */
    double quiet_s; /* how long nothing has moved */
    bool is_watched;
    bool in_pieces; /* the last step was a quiet one */
    double vapour_pa_gauge;
    qll_grid grid;
    qll_pipe *pipes;
    qll_short_pipe *short_pipes; /* all of them, for quiet steps */
    size_t pipe_count;
    qll_meeting_node *nodes;
    qll_seen *seen;
    const qll_joint *joints;
    size_t joint_count;
    const qll_boundary *boundaries;
    size_t boundary_count;
    qll_meeting *waves; /* boundaries and lumped pipes */
    qll_meeting *quiet; /* boundaries and all pipes in one piece */
};

#endif
