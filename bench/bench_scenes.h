/* The two made-up buildings on which the search and the sensitivity are timed. */
#ifndef QUELL_BENCH_SCENES_H
#define QUELL_BENCH_SCENES_H

#include "search_scene.h"

#include <time.h>

/** Of the processor, so that other work on the machine does not count. */
static inline double seconds_now(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

typedef struct named_scene {
    const char *name;
    scene given;
} named_scene;

static const named_scene named_scenes[] = {
    {"flats 2:1",
     {.static_low_psi = 100.0,
      .static_high_psi = 118.0,
      .set_psi = 58.0,
      .peak_gpm = 87.0,
      .typical_gpm = 4.0,
      .spread = 1.1,
      .idle_share = 0.41,
      .class_count = 40}},
    {"tower 4:1",
     {.static_low_psi = 190.0,
      .static_high_psi = 215.0,
      .set_psi = 55.0,
      .peak_gpm = 150.0,
      .typical_gpm = 12.0,
      .spread = 1.2,
      .idle_share = 0.2,
      .class_count = 40}},
};

#endif
