#include "engine/draw.h"

#include "engine/progress.h"
#include "report/svg.h"

static qll_status draw(qll_asked *asked, const qll_subject *subject, qll_picture picture,
                       qll_drawn_figure *drawn)
{
    qll_figure_block figure;
    qll_status status = qll_picture_draw(&subject->found, picture, asked->arena, &figure);
    if (status != QLL_OK) {
        return status;
    }
    qll_writer svg = qll_writer_new(asked->arena);
    const qll_svg_about about = {
        .id = figure.id, .title = figure.title, .description = figure.description, .is_part = true};
    qll_svg_write(&svg, figure.canvas, 0, &about);
    *drawn = (qll_drawn_figure){.name = figure.id,
                                .title = figure.title,
                                .description = figure.description,
                                .svg = qll_writer_text(&svg),
                                .frame = figure.canvas->frame};
    return drawn->svg.bytes == NULL ? QLL_NO_MEMORY : QLL_OK;
}

/* Every drawing once, in the order asked for. */
static bool is_drawn(const qll_picture *drawn, size_t count, qll_picture picture)
{
    for (size_t i = 0; i < count; i++) {
        if (drawn[i].kind == picture.kind && drawn[i].number == picture.number) {
            return true;
        }
    }
    return false;
}

/* Which drawings the words mean, into @p pictures or, if that is NULL, only counted. */
static size_t list_pictures(qll_asked *asked, const qll_subject *subject, qll_picture *pictures)
{
    size_t count = 0;
    for (size_t i = 0; i < asked->figure_count; i++) {
        const qll_picture_kind kind = (qll_picture_kind)asked->figures[i].kind;
        const size_t there = qll_picture_count(&subject->found, kind);
        const size_t number = asked->figures[i].number;
        const bool is_each = number == SIZE_MAX;
        if (pictures != NULL && !is_each && there > 0 && number >= there) {
            qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--figures", QLL_SAYS(FIGURE_NUMBER),
                             NULL);
        }
        for (size_t n = is_each ? 0 : number; n < there && (is_each || n == number); n++) {
            const qll_picture picture = {kind, n};
            if (pictures == NULL) {
                count += 1;
            } else if (!is_drawn(pictures, count, picture)) {
                pictures[count] = picture;
                count += 1;
            }
        }
    }
    return count;
}

qll_status qll_draw_figures(qll_asked *asked, const qll_subject *subject,
                            qll_demand_findings *demand)
{
    if (asked->figures == NULL) {
        return QLL_OK;
    }
    const size_t most = list_pictures(asked, subject, NULL);
    qll_picture *pictures = qll_arena_take(asked->arena, most, sizeof *pictures);
    qll_drawn_figure *drawn = qll_arena_take(asked->arena, most, sizeof *drawn);
    if (pictures == NULL || drawn == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t count = list_pictures(asked, subject, pictures);
    qll_status status = qll_problems_status(&asked->problems);
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = draw(asked, subject, pictures[i], &drawn[i]);
        status = status == QLL_OK ? qll_progress_step(asked, i, count) : status;
    }
    demand->drawn = drawn;
    demand->drawn_count = count;
    return status;
}
