/* Noise, and the set of stations to choose from. */
#include "base/count.h"
#include "report/figure_parts.h"
#include "wording/texts.h"

#include <math.h>

/* So far below the loudest nothing is heard beside it (our assumption). */
#define QLL_DECIBELS_SHOWN 50.0

/* "level 3 ft from the pipe" */
static const char *level_word(const qll_figure *figure)
{
    const qll_filling near = {"near", qll_text_near(figure->units)};
    qll_writer word = qll_writer_new(figure->canvas->arena);
    qll_say_with(&word, figure->language, QLL_SAYS_FIGURE_LEVEL, &near, 1);
    return qll_writer_text(&word).bytes;
}

static qll_curve_drawn *level_curves(const qll_figure *figure, const qll_level_curve *given,
                                     size_t count, qll_extent *x, qll_extent *levels)
{
    qll_curve_drawn *curves = qll_figure_take(figure, count, sizeof *curves);
    if (curves == NULL) {
        return NULL;
    }
    *x = qll_extent_of(INFINITY, -INFINITY);
    *levels = qll_extent_of(INFINITY, -INFINITY);
    for (size_t i = 0; i < count; i++) {
        curves[i] = qll_curve_of(given[i].name, given[i].x, given[i].level_db, given[i].count,
                                 qll_look_of(i), QLL_NORMAL_MM);
        curves[i].tag = given[i].tag;
        qll_extent_see_all(x, given[i].x, given[i].count);
        qll_extent_see_all(levels, given[i].level_db, given[i].count);
    }
    return curves;
}

void qll_figure_spectrum(const qll_figure *figure, const qll_level_curve *curves, size_t count)
{
    /* The nominal middles of octaves (IEC 61260). */
    static const double octaves[] = {16, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000};
    qll_extent frequencies;
    qll_extent levels;
    qll_curve_drawn *drawn = level_curves(figure, curves, count, &frequencies, &levels);
    if (drawn == NULL) {
        return;
    }
    qll_plot plot = {
        .x = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_FREQUENCY), "Hz", 1,
                             frequencies),
        .y = qll_figure_axis(
            level_word(figure), "dB", 1,
            qll_extent_of(fmax(levels.low, levels.high - QLL_DECIBELS_SHOWN), levels.high)),
        .curves = drawn,
        .curve_count = count,
    };
    plot.x.is_log = true;
    plot.x.at = octaves;
    plot.x.at_count = QLL_COUNT(octaves);
    qll_plot_draw(figure->canvas, figure->area, &plot);
}

/* Curves that end at the frame have their names over each other: a little further there is room beside them. */
#define QLL_ROOM_FOR_TAGS 1.06

void qll_figure_noise(const qll_figure *figure, const qll_level_curve *curves, size_t count,
                      const qll_guide *levels, size_t level_count)
{
    qll_extent flows;
    qll_extent seen;
    qll_curve_drawn *drawn = level_curves(figure, curves, count, &flows, &seen);
    if (drawn == NULL) {
        return;
    }
    qll_extent_see_guides(&seen, levels, level_count);
    seen.low = fmax(seen.low, seen.high - QLL_DECIBELS_SHOWN);
    qll_plot plot = {
        .x = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_FLOW), QLL_KIND_FLOW, figure->units,
                         0, count > 1 ? QLL_ROOM_FOR_TAGS * flows.high : flows.high),
        .y = qll_figure_axis(level_word(figure), "dB(A)", 1, seen),
        .curves = drawn,
        .curve_count = count,
        .levels = levels,
        .level_count = level_count,
    };
    qll_plot_draw(figure->canvas, figure->area, &plot);
}

static qll_curve_drawn candidate(const qll_candidate_drawn *one, qll_marker marker,
                                 qll_extent *prices, qll_extent *shares)
{
    qll_extent_see(prices, one->installed);
    qll_extent_see(shares, one->callback_share);
    qll_curve_drawn drawn = qll_curve_of("", &one->installed, &one->callback_share, 1,
                                         (qll_look){QLL_DASH_SOLID, marker, QLL_BLACK}, 0);
    drawn.tag = one->tag;
    return drawn;
}

void qll_figure_candidates(const qll_figure *figure, const qll_candidates_figure *shown)
{
    qll_curve_drawn *curves = qll_figure_take(figure, shown->count + 1, sizeof *curves);
    if (curves == NULL) {
        return;
    }
    qll_extent prices = {INFINITY, 0};
    qll_extent shares = {0, 0};
    size_t count = 0;
    bool others_named = false;
    for (size_t i = 0; i < shown->count; i++) {
        bool is_best = i == shown->recommended;
        qll_curve_drawn *one = &curves[count++];
        *one = candidate(&shown->candidates[i], is_best ? QLL_MARKER_DIAMOND : QLL_MARKER_CIRCLE,
                         &prices, &shares);
        one->is_strong = is_best;
        if (is_best) {
            one->name = qll_figure_word(figure, QLL_SAYS_ROLE_RECOMMENDED);
        } else if (!others_named) {
            one->name = qll_figure_word(figure, QLL_SAYS_FIGURE_OTHERS);
            others_named = true;
        }
    }
    qll_plot plot = {
        .x = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_PRICE),
                             shown->currency == NULL ? "" : shown->currency, 1,
                             qll_extent_of(0, prices.high)),
        .y = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_NOISE), "", 1, shares),
        .curves = curves,
        .curve_count = count,
    };
    qll_plot_draw(figure->canvas, figure->area, &plot);
}
