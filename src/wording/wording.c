#include "wording/wording.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

/* Design.md section 8; shown wherever an answer leads to a hand on a valve. */
static const char *const cautions[] = {
    "Isolate the station and relieve the pressure before you open anything.",
    "Hot water scalds: let the heater cool or drain safely first.",
    ("Behind a reducing valve the system is closed: it needs expansion control and a working relief "
     "valve."),
    "Never size or alter fire-protection water with this tool.",
    "Backflow protection and the local plumbing code come first.",
    "Where the law asks for a licensed plumber, let a licensed plumber do the work.",
    "Figures for noise and chatter are estimates.",
};

const char *const *qll_cautions(size_t *count)
{
    *count = sizeof cautions / sizeof cautions[0];
    return cautions;
}

static const qll_branch *branch_at(const qll_station *station, const qll_spot *spot)
{
    if (spot->stage >= station->stage_count) {
        return NULL;
    }
    const qll_stage *stage = &station->stages[spot->stage];
    return spot->branch < stage->branch_count ? &stage->branches[spot->branch] : NULL;
}

void qll_wording_spot(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                      const qll_spot *spot)
{
    const qll_branch *branch = branch_at(station, spot);
    if (spot->stage < station->stage_count && station->stage_count > 1) {
        qll_write_format(writer, "stage %zu", spot->stage + 1);
        qll_write(writer, branch == NULL ? "" : ", ");
    }
    if (branch != NULL) {
        qll_write(writer, "the ");
        qll_units_write_pipe_size(writer, branch->valve->nominal_m, wording->units);
        qll_write(writer, " valve ");
        qll_write(writer, branch->valve->id);
    }
}

static void write_stage(qll_writer *writer, const qll_wording *wording, const qll_stage *stage)
{
    for (size_t b = 0; b < stage->branch_count; b++) {
        qll_write(writer, b == 0 ? "" : " + ");
        qll_units_write_pipe_size(writer, stage->branches[b].valve->nominal_m, wording->units);
    }
    qll_write(writer, stage->branch_count > 1 ? " in parallel" : "");
}

void qll_wording_station(qll_writer *writer, const qll_wording *wording, const qll_station *station)
{
    if (station->stage_count == 1 && station->stages[0].branch_count == 1) {
        qll_write(writer, "one valve, ");
        write_stage(writer, wording, &station->stages[0]);
        return;
    }
    if (station->stage_count > 1) {
        qll_write_format(writer, "%zu stages in series: ", station->stage_count);
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        qll_write(writer, s == 0 ? "" : ", then ");
        write_stage(writer, wording, &station->stages[s]);
    }
}
