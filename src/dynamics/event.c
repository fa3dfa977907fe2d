#include "dynamics/event.h"

#include <assert.h>
#include <math.h>

static const double quiet_pa = 50;
static const double wakes_pa = 2e3;
/* Times this near are the same, s. */
static const double same_s = 1e-9;

qll_event qll_event_of(double until_s, const double *wakes_s, size_t wake_count)
{
    return (qll_event){.until_s = until_s,
                       .wakes_s = wakes_s,
                       .wake_count = wake_count,
                       .quiet_step_s = 1,
                       .quiet_pa = quiet_pa,
                       .wakes_pa = wakes_pa};
}

/* From now to the next time at which something moves, or the end. */
static double free_s(const qll_event *event, size_t *next, double now_s)
{
    while (*next < event->wake_count && event->wakes_s[*next] < now_s - same_s) {
        *next += 1;
    }
    const double to_s = *next < event->wake_count ? event->wakes_s[*next] : event->until_s;
    return fmin(to_s, event->until_s) - now_s;
}

qll_event_run qll_event_follow(const qll_event *event, qll_pipeline *pipeline)
{
    assert(event != NULL && pipeline != NULL);
    qll_event_run run = {0};
    const bool may_rest = event->quiet_step_s > 0;
    bool is_quiet = may_rest; /* it begins at rest */
    size_t next = 0;
    while (qll_pipeline_time_s(pipeline) < event->until_s - same_s) {
        const double room_s = free_s(event, &next, qll_pipeline_time_s(pipeline));
        double off_pa = 0;
        if (is_quiet && room_s > same_s) {
            const double step_s = fmin(event->quiet_step_s, room_s);
            off_pa = qll_pipeline_quiet_step(pipeline, step_s);
            is_quiet = qll_pipeline_moved_pa(pipeline) <= event->wakes_pa;
            run.quiet_steps += 1;
        } else {
            off_pa = qll_pipeline_step(pipeline);
            is_quiet = may_rest && qll_pipeline_is_quiet(pipeline, event->quiet_pa);
            run.wave_steps += 1;
        }
        run.worst_pa = fmax(run.worst_pa, off_pa);
        if (event->step != NULL) {
            event->step(pipeline, event->context);
        }
    }
    return run;
}
