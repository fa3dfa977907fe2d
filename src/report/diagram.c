/* Where the parts of a station's drawing go. Rows are branches; a stage with fewer than the largest stage
 * stands centred. Between stages runs one pipe with a gauge. */
#include "report/diagram.h"

#include "base/count.h"
#include "report/figure_parts.h"
#include "report/symbols.h"

#include <math.h>

/* Sizes at scale 1, mm. */
#define QLL_JOINT_MM  15.0 /* from one stage's manifold to the next, with the gauge */
#define QLL_END_MM    9.0  /* of pipe at either end */
#define QLL_BRANCH_MM 30.0 /* least length of a branch with all its parts */
#define QLL_ROW_MM    21.0 /* least height of a row with its words */
#define QLL_BYPASS_MM 11.0

#define QLL_WORDS_MM         (8 * QLL_POINT_MM)
#define QLL_LEGEND_MM        10.0
#define QLL_LEGEND_SYMBOL_MM 7.2 /* of a symbol and what parts it from its words */
#define QLL_LEGEND_GAP_MM    4.0

/* Longer branches and higher rows only spread the drawing out. */
#define QLL_BRANCH_MOST_MM 62.0
#define QLL_ROW_MOST_MM    28.0

typedef struct drawing {
    const qll_figure *figure;
    const qll_diagram *diagram;
    qll_sketch sketch;
    double branch_mm, row_mm;
    double left_mm;   /* of the pipe that comes in */
    double middle_mm; /* y of the pipes between stages */
    double bottom_mm; /* below the last row */
} drawing;

static const qll_letters words = {.size_mm = QLL_WORDS_MM};

static size_t most_branches(const qll_station *station)
{
    size_t most = 1;
    for (size_t s = 0; s < station->stage_count; s++) {
        most = station->stages[s].branch_count > most ? station->stages[s].branch_count : most;
    }
    return most;
}

/* The share of a row that lies above its pipe. */
#define QLL_ROW_ABOVE 0.44

static void lay_out(drawing *made)
{
    const qll_box *area = &made->figure->area;
    const qll_station *station = made->diagram->station;
    double stages = (double)station->stage_count;
    double rows = (double)most_branches(station);
    double height =
        area->height_mm - QLL_LEGEND_MM - (made->diagram->has_bypass ? QLL_BYPASS_MM : 0);
    double needs = stages * QLL_BRANCH_MM + (stages + 1) * QLL_JOINT_MM + 2 * QLL_END_MM;
    made->row_mm = fmin(height / rows, QLL_ROW_MOST_MM);
    double scale = fmin(fmin(made->row_mm / QLL_ROW_MM, area->width_mm / needs), 1.15);
    made->sketch = (qll_sketch){made->figure->canvas, scale};
    double ends = scale * ((stages + 1) * QLL_JOINT_MM + 2 * QLL_END_MM);
    made->branch_mm = fmin((area->width_mm - ends) / stages, QLL_BRANCH_MOST_MM);
    double width = stages * made->branch_mm + ends;
    made->left_mm = area->x_mm + (area->width_mm - width) / 2;
    double top = area->y_mm + (height - rows * made->row_mm) / 2;
    made->middle_mm = top + (rows / 2 - 0.5 + QLL_ROW_ABOVE) * made->row_mm;
    made->bottom_mm = top + rows * made->row_mm;
}

static double joint_mm(const drawing *made)
{
    return QLL_JOINT_MM * made->sketch.scale;
}

/* The manifold before stage @p stage, or behind the last one. */
static double manifold_mm(const drawing *made, size_t stage)
{
    double end = QLL_END_MM * made->sketch.scale;
    return made->left_mm + end + joint_mm(made)
           + (double)stage * (made->branch_mm + joint_mm(made));
}

static double row_mm(const drawing *made, size_t stage, size_t branch)
{
    double count = (double)made->diagram->station->stages[stage].branch_count;
    return made->middle_mm + ((double)branch - (count - 1) / 2) * made->row_mm;
}

/* Name and id, size, set-point, in three lines below the valve. */
static void label_branch(const drawing *made, size_t stage, size_t index, double left, double y)
{
    const qll_station *station = made->diagram->station;
    const qll_branch *branch = &station->stages[stage].branches[index];
    qll_canvas *canvas = made->figure->canvas;
    double below = 3.1 * made->sketch.scale;
    double room = made->row_mm * (1 - QLL_ROW_ABOVE) - below;
    double line = fmin(room / 3, 1.3 * QLL_WORDS_MM);
    qll_letters letters = words;
    letters.size_mm = fmin(QLL_WORDS_MM, line / 1.25);
    letters.anchor = QLL_ANCHOR_MIDDLE;
    letters.weight = QLL_WEIGHT_BOLD;
    qll_xy at = {left + made->branch_mm / 2, y + below + 0.8 * line};
    double width = made->branch_mm - 1.5;

    qll_writer name = qll_writer_new(canvas->arena);
    qll_valve_name_write(&name, station, stage, index);
    qll_write(&name, "  ");
    qll_write(&name, branch->valve->id);
    (void)qll_canvas_text_fit(canvas, at, qll_writer_text(&name), width, &letters);
    letters.weight = QLL_WEIGHT_REGULAR;

    qll_writer size = qll_writer_new(canvas->arena);
    qll_units_write_pipe_size(&size, branch->valve->nominal_m, made->figure->units);
    at.y_mm += line;
    (void)qll_canvas_text_fit(canvas, at, qll_writer_text(&size), width, &letters);

    qll_writer set = qll_writer_new(canvas->arena);
    qll_write(&set, qll_say(made->figure->language, QLL_SAYS_FIGURE_SET));
    qll_write(&set, " ");
    if (isfinite(branch->set_pa_gauge)) {
        qll_units_write(&set, branch->set_pa_gauge, QLL_KIND_PRESSURE, made->figure->units);
    }
    at.y_mm += line;
    (void)qll_canvas_text_fit(canvas, at, qll_writer_text(&set), width, &letters);
}

static void draw_branch(const drawing *made, size_t stage, size_t index)
{
    const qll_branch *branch = &made->diagram->station->stages[stage].branches[index];
    const qll_sketch *sketch = &made->sketch;
    double left = manifold_mm(made, stage);
    double y = row_mm(made, stage, index);
    double length = made->branch_mm;
    qll_symbol_pipe(sketch, (qll_xy){left, y}, (qll_xy){left + length, y});
    qll_symbol_isolating(sketch, (qll_xy){left + 0.11 * length, y}, false);
    qll_symbol_strainer(sketch, (qll_xy){left + 0.28 * length, y});
    qll_symbol_union(sketch, (qll_xy){left + 0.41 * length, y});
    qll_symbol_reducing(sketch, (qll_xy){left + 0.55 * length, y},
                        branch->valve->acting == QLL_ACTING_PILOT);
    qll_symbol_union(sketch, (qll_xy){left + 0.75 * length, y});
    qll_symbol_isolating(sketch, (qll_xy){left + 0.89 * length, y}, false);
    label_branch(made, stage, index, left, y);
}

static void draw_stage(const drawing *made, size_t stage)
{
    size_t count = made->diagram->station->stages[stage].branch_count;
    double left = manifold_mm(made, stage);
    double right = left + made->branch_mm;
    if (count == 0) {
        qll_symbol_pipe(&made->sketch, (qll_xy){left, made->middle_mm},
                        (qll_xy){right, made->middle_mm});
        return;
    }
    double top = row_mm(made, stage, 0);
    double bottom = row_mm(made, stage, count - 1);
    if (count > 1) {
        qll_symbol_pipe(&made->sketch, (qll_xy){left, top}, (qll_xy){left, bottom});
        qll_symbol_pipe(&made->sketch, (qll_xy){right, top}, (qll_xy){right, bottom});
    }
    for (size_t b = 0; b < count; b++) {
        draw_branch(made, stage, b);
    }
}

/* The pipe before stage @p index, or behind the last, with its gauge. */
static void draw_joint(const drawing *made, size_t index)
{
    size_t stages = made->diagram->station->stage_count;
    double right = manifold_mm(made, index);
    double left = right - joint_mm(made);
    double end = QLL_END_MM * made->sketch.scale;
    double from = index == 0 ? left - end : left;
    double to = index == stages ? right + end : right;
    qll_symbol_pipe(&made->sketch, (qll_xy){from, made->middle_mm}, (qll_xy){to, made->middle_mm});
    qll_writer name = qll_writer_new(made->figure->canvas->arena);
    qll_write_format(&name, "P%zu", index);
    const char *text = qll_writer_text(&name).bytes;
    qll_symbol_gauge(&made->sketch, (qll_xy){(left + right) / 2, made->middle_mm}, text);
    if (index == 0) {
        qll_symbol_arrow(&made->sketch, (qll_xy){from + 3.4 * made->sketch.scale, made->middle_mm});
    }
    if (index == stages) {
        qll_symbol_arrow(&made->sketch, (qll_xy){to, made->middle_mm});
    }
}

/* What comes in and goes out, in the room below the end pipes. */
static void draw_end_words(const drawing *made)
{
    const qll_diagram *diagram = made->diagram;
    qll_language language = made->figure->language;
    const char *in = diagram->inlet_says != NULL ? diagram->inlet_says
                                                 : qll_say(language, QLL_SAYS_FIGURE_FROM_MAIN);
    const char *out = diagram->outlet_says != NULL ? diagram->outlet_says
                                                   : qll_say(language, QLL_SAYS_FIGURE_TO_BUILDING);
    double width = QLL_END_MM * made->sketch.scale + joint_mm(made) - 2;
    double y = made->middle_mm + 1.2 * made->sketch.scale;
    double height = made->row_mm * (1 - QLL_ROW_ABOVE) - 1.5 * made->sketch.scale;
    qll_letters letters = words;
    (void)qll_canvas_text_box(made->figure->canvas, (qll_box){made->left_mm, y, width, height},
                              qll_text_of(in), &letters);
    double right = manifold_mm(made, diagram->station->stage_count) - joint_mm(made) + 2;
    letters.anchor = QLL_ANCHOR_END;
    (void)qll_canvas_text_box(made->figure->canvas, (qll_box){right, y, width, height},
                              qll_text_of(out), &letters);
}

static void draw_bypass(const drawing *made)
{
    double end = QLL_END_MM * made->sketch.scale;
    double y = made->bottom_mm + 3.2 * made->sketch.scale;
    double left = made->left_mm + end;
    double right = manifold_mm(made, made->diagram->station->stage_count);
    /* The words at the ends stand clear of it. */
    left = fmax(left, manifold_mm(made, 0) - 1.5 * made->sketch.scale);
    right = right - joint_mm(made) + 1.5 * made->sketch.scale;
    const qll_xy corners[] = {
        {left, made->middle_mm}, {left, y}, {right, y}, {right, made->middle_mm}};
    for (size_t i = 0; i + 1 < 4; i++) {
        qll_symbol_pipe(&made->sketch, corners[i], corners[i + 1]);
    }
    double middle = (left + right) / 2;
    qll_symbol_isolating(&made->sketch, (qll_xy){middle, y}, true);
    (void)qll_canvas_text_fit(
        made->figure->canvas,
        (qll_xy){middle + 4 * made->sketch.scale, y + 1.1 * QLL_WORDS_MM + 0.6},
        qll_text_of(qll_say(made->figure->language, QLL_SAYS_FIGURE_BYPASS)), right - middle,
        &words);
}

typedef void draw_symbol(const qll_sketch *sketch, qll_xy at);

static void isolating(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_isolating(sketch, at, false);
}

static void direct(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_reducing(sketch, at, false);
}

static void piloted(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_reducing(sketch, at, true);
}

static void gauge(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_gauge(sketch, at, "P");
}

static bool has_acting(const qll_station *station, qll_acting acting)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (station->stages[s].branches[b].valve->acting == acting) {
                return true;
            }
        }
    }
    return false;
}

/* A hair more than the text, so that it stands in one line where there is room. */
static double legend_text_mm(const drawing *made, qll_message says, const qll_letters *letters)
{
    qll_text text = qll_text_of(qll_say(made->figure->language, says));
    return qll_text_width_mm(text, letters->size_mm, letters->weight) + 0.01;
}

/* What the symbols mean, in one line at the bottom. */
static void draw_legend(const drawing *made)
{
    const struct {
        draw_symbol *draw;
        qll_message says;
        bool is_there;
    } rows[] = {
        {isolating, QLL_SAYS_FIGURE_ISOLATING, true},
        {qll_symbol_strainer, QLL_SAYS_FIGURE_STRAINER, true},
        {qll_symbol_union, QLL_SAYS_FIGURE_UNION, true},
        {direct, QLL_SAYS_FIGURE_DIRECT, has_acting(made->diagram->station, QLL_ACTING_DIRECT)},
        {piloted, QLL_SAYS_FIGURE_PILOT, has_acting(made->diagram->station, QLL_ACTING_PILOT)},
        {gauge, QLL_SAYS_FIGURE_GAUGE, true},
    };

    const qll_box *area = &made->figure->area;
    const size_t count = QLL_COUNT(rows);
    const qll_letters letters = {.size_mm = 7 * QLL_POINT_MM};
    double most_mm = area->width_mm;
    double room_mm = area->width_mm;
    for (size_t i = 0; i < count; i++) {
        room_mm -= rows[i].is_there ? QLL_LEGEND_SYMBOL_MM + QLL_LEGEND_GAP_MM : 0;
    }
    /* Only the longest words break, so far that all have room. */
    for (double taken_mm = INFINITY; taken_mm > room_mm && most_mm > 5;) {
        taken_mm = 0;
        most_mm *= 0.97;
        for (size_t i = 0; i < count; i++) {
            double own_mm = legend_text_mm(made, rows[i].says, &letters);
            taken_mm += rows[i].is_there ? fmin(own_mm, most_mm) : 0;
        }
    }
    const qll_sketch sketch = {made->figure->canvas, 0.75};
    double y = area->y_mm + area->height_mm - 3.4;
    double x = area->x_mm;
    for (size_t i = 0; i < count; i++) {
        if (!rows[i].is_there) {
            continue;
        }
        qll_text text = qll_text_of(qll_say(made->figure->language, rows[i].says));
        double width = fmin(legend_text_mm(made, rows[i].says, &letters), most_mm);
        bool is_line = qll_text_line_count(text, width, letters.size_mm, letters.weight) < 2;
        double line = QLL_LINE_EM * letters.size_mm;
        rows[i].draw(&sketch, (qll_xy){x + 3, y});
        qll_box box = {x + QLL_LEGEND_SYMBOL_MM, y - (is_line ? 0.5 : 1.0) * line, width,
                       2 * line + 0.01};
        (void)qll_canvas_text_box(made->figure->canvas, box, text, &letters);
        x += QLL_LEGEND_SYMBOL_MM + width + QLL_LEGEND_GAP_MM;
    }
}

void qll_diagram_draw(const qll_figure *figure, const qll_diagram *diagram)
{
    drawing made = {.figure = figure, .diagram = diagram};
    if (diagram->station->stage_count == 0
        || !(figure->area.width_mm > 20 && figure->area.height_mm > 20)) {
        return; /* nothing to draw, or nowhere to draw it */
    }
    lay_out(&made);
    for (size_t i = 0; i <= diagram->station->stage_count; i++) {
        draw_joint(&made, i);
    }
    if (diagram->has_bypass) {
        draw_bypass(&made);
    }
    for (size_t s = 0; s < diagram->station->stage_count; s++) {
        draw_stage(&made, s);
    }
    draw_end_words(&made);
    draw_legend(&made);
}
