#include "report/figures_of.h"

#include "report/figure_parts.h"

#include <math.h>
#include <stdint.h>

/* Appends @p found to @p ranges; returns how many. */
static size_t add_ranges(const qll_flow_range *found, size_t count, qll_range_drawn *ranges)
{
    for (size_t i = 0; i < count; i++) {
        ranges[i] = (qll_range_drawn){"", found[i].from_m3s, found[i].to_m3s};
    }
    return count;
}

static const char *valve_and_id(const qll_figure *figure, const qll_station *station, size_t stage,
                                size_t branch)
{
    qll_writer writer = qll_writer_new(figure->canvas->arena);
    qll_valve_name_write(&writer, station, stage, branch);
    qll_write(&writer, "  ");
    qll_write(&writer, station->stages[stage].branches[branch].valve->id);
    return qll_writer_text(&writer).bytes;
}

/* Adds a strip per valve, and the bands of the last stage's valves, which everybody hears. */
static void add_works(const qll_figure *figure, const qll_pictured *pictured,
                      qll_duration_figure *shown)
{
    const qll_station *station = pictured->station;
    size_t total = qll_station_valve_count(station);
    size_t room = pictured->wording->duty->flow_count / 2 + 1;
    qll_strip *strips = qll_figure_take(figure, total, sizeof *strips);
    qll_range_drawn *ranges = qll_figure_take(figure, total * room, sizeof *ranges);
    qll_range_drawn *bands = qll_figure_take(figure, total * room, sizeof *bands);
    if (strips == NULL || ranges == NULL || bands == NULL) {
        return;
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            const qll_valve_work *work = &pictured->curves->works[shown->work_count];
            qll_range_drawn *own = ranges + shown->work_count * room;
            size_t count = add_ranges(work->passing, work->passing_count, own);
            strips[shown->work_count] =
                (qll_strip){valve_and_id(figure, station, s, b), own, count};
            shown->work_count += 1;
            if (s + 1 == station->stage_count) {
                shown->band_count +=
                    add_ranges(work->in_band, work->in_band_count, bands + shown->band_count);
            }
        }
    }
    if (shown->band_count > 0) {
        bands[0].name = qll_say(figure->language, QLL_SAYS_FIGURE_BAND);
    }
    shown->works = strips;
    shown->bands = bands;
}

void qll_figure_duration_of(const qll_figure *figure, const qll_demand *demand,
                            const qll_pictured *pictured)
{
    const qll_duration *duration = &demand->day.duration;
    double *flow = qll_figure_take(figure, duration->count, sizeof *flow);
    double *time = qll_figure_take(figure, duration->count, sizeof *time);
    double *volume = qll_figure_take(figure, duration->count, sizeof *volume);
    if (flow == NULL || time == NULL || volume == NULL) {
        return;
    }
    for (size_t i = 0; i < duration->count; i++) {
        flow[i] = duration->points[i].flow_m3s;
        time[i] = duration->points[i].time_share;
        volume[i] = duration->points[i].volume_share;
    }
    qll_duration_figure shown = {.flow_m3s = flow,
                                 .time_share = time,
                                 .volume_share = volume,
                                 .count = duration->count,
                                 .idle_share = demand->day.none_share,
                                 .is_metered = demand->is_metered,
                                 .peak_m3s = demand->peak_m3s};
    if (pictured != NULL) {
        add_works(figure, pictured, &shown);
    }
    qll_figure_duration(figure, &shown);
}

void qll_figure_day_of(const qll_figure *figure, const qll_demand *demand)
{
    double mean[24];
    double seldom[24];
    bool has_quantile = false;
    for (size_t hour = 0; hour < 24; hour++) {
        /* A log need not hold every hour. */
        mean[hour] = fmax(demand->day.hours[hour].flow_mean_m3s, 0.0);
        seldom[hour] = demand->day.hours[hour].quantile_m3s;
        has_quantile = has_quantile || seldom[hour] > 0;
    }
    qll_figure_day(figure, &(qll_day_figure){.mean_m3s = mean,
                                             .seldom_more_m3s = has_quantile ? seldom : NULL,
                                             .seldom_share = demand->scenario->quantile,
                                             .peak_m3s = demand->peak_m3s});
}

void qll_figure_candidates_of(const qll_figure *figure, const qll_design *design,
                              const char *currency)
{
    qll_candidate_drawn *drawn = qll_figure_take(figure, design->count, sizeof *drawn);
    if (drawn == NULL) {
        return;
    }
    for (size_t i = 0; i < design->count; i++) {
        const qll_cost *cost = &design->shown[i].cost;
        qll_writer tag = qll_writer_new(figure->canvas->arena);
        qll_write_format(&tag, "%zu", i + 1);
        drawn[i] = (qll_candidate_drawn){qll_writer_text(&tag).bytes, cost->installed,
                                         cost->callback_share};
    }
    qll_candidates_figure shown = {
        .candidates = drawn,
        .count = design->count,
        .recommended = design->count > 0 ? 0 : SIZE_MAX,
        .currency = currency,
    };
    qll_figure_candidates(figure, &shown);
}
