/* Where the parts of a station's drawing go. Rows are branches: the first stands in line with the pipe, the others leave it
 * by tees and an elbow, as the parts list counts them. Between stages runs one pipe with a gauge. */
#include "report/diagram.h"

#include "base/count.h"
#include "report/figure_parts.h"
#include "report/symbols.h"

#include <math.h>

/* Sizes at scale 1, mm. */
#define QLL_JOINT_MM  15.0 /* from one stage's manifold to the next, with the gauge */
#define QLL_END_MM    9.0  /* of pipe at either end */
#define QLL_BRANCH_MM 42.0 /* least length of a branch with all its parts */
#define QLL_EXTRA_MM  7.0  /* of pipe for the hose valve or the relief valve */
#define QLL_ROW_MM    21.0 /* least height of a row with its words */

#define QLL_WORDS_MM         QLL_LETTERS_LEAST_MM
#define QLL_LEGEND_ROWS      2
#define QLL_LEGEND_ROW_MM    8.5
#define QLL_LEGEND_MM        (3.0 + QLL_LEGEND_ROWS * QLL_LEGEND_ROW_MM)
#define QLL_LEGEND_SYMBOL_MM 8.0 /* of a symbol and what parts it from its words */
#define QLL_LEGEND_GAP_MM    4.0

/* Longer branches and higher rows only spread the drawing out. */
#define QLL_BRANCH_MOST_MM 62.0
#define QLL_ROW_MOST_MM    28.0

typedef struct drawing {
    const qll_figure *figure;
    const qll_diagram *diagram;
    qll_sketch sketch;
    double branch_mm, row_mm;
    double left_mm; /* of the pipe that comes in */
    double pipe_mm; /* y of the pipes between stages */
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

/* The pipe behind the last stage is longer by what stands on it. */
static double extra_mm(const qll_diagram *diagram)
{
    return QLL_EXTRA_MM * ((diagram->sizes != NULL ? 1 : 0) + (diagram->has_relief ? 1 : 0));
}

static void lay_out(drawing *made)
{
    const qll_box *area = &made->figure->area;
    const qll_station *station = made->diagram->station;
    double stages = (double)station->stage_count;
    double rows = (double)most_branches(station);
    double height = area->height_mm - QLL_LEGEND_MM;
    double around = (stages + 1) * QLL_JOINT_MM + 2 * QLL_END_MM + extra_mm(made->diagram);
    double needs = stages * QLL_BRANCH_MM + around;
    made->row_mm = fmin(height / rows, QLL_ROW_MOST_MM);
    double scale = fmin(fmin(made->row_mm / QLL_ROW_MM, area->width_mm / needs), 1.15);
    made->sketch = (qll_sketch){made->figure->canvas, scale};
    double ends = scale * around;
    made->branch_mm = fmin((area->width_mm - ends) / stages, QLL_BRANCH_MOST_MM);
    double width = stages * made->branch_mm + ends;
    made->left_mm = area->x_mm + (area->width_mm - width) / 2;
    double top = area->y_mm + (height - rows * made->row_mm) / 2;
    made->pipe_mm = top + QLL_ROW_ABOVE * made->row_mm;
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

static double row_mm(const drawing *made, size_t branch)
{
    return made->pipe_mm + (double)branch * made->row_mm;
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

/* Where the parts of a branch stand, from its beginning, in its least length; a longer one spreads them out. */
typedef enum branch_place {
    QLL_PLACE_REDUCER_IN = 2,
    QLL_PLACE_STOP_IN = 6,
    QLL_PLACE_STRAINER = 12,
    QLL_PLACE_REDUCER = 16,
    QLL_PLACE_COCK = 19,
    QLL_PLACE_UNION_IN = 22,
    QLL_PLACE_VALVE = 27,
    QLL_PLACE_UNION_OUT = 33,
    QLL_PLACE_STOP_OUT = 36,
    QLL_PLACE_REDUCER_OUT = 40
} branch_place;

/* A branch that is being drawn. */
typedef struct branch_line {
    const drawing *made;
    double left_mm, y_mm;
} branch_line;

static qll_xy place(const branch_line *line, branch_place at)
{
    double share = (double)at / QLL_BRANCH_MM;
    return (qll_xy){line->left_mm + share * line->made->branch_mm, line->y_mm};
}

static void draw_reducer(const branch_line *line, branch_place at, int change)
{
    if (change != 0) {
        qll_symbol_reducer(&line->made->sketch, place(line, at), change > 0);
    }
}

/* What only a station that is to be put in shows. */
static void draw_put_in(const branch_line *line, size_t stage, size_t index)
{
    const qll_diagram *diagram = line->made->diagram;
    if (diagram->sizes == NULL) {
        return;
    }
    const qll_branch_sizes *sizes = &diagram->sizes[stage][index];
    draw_reducer(line, QLL_PLACE_REDUCER_IN, sizes->in);
    draw_reducer(line, QLL_PLACE_REDUCER, sizes->between);
    draw_reducer(line, QLL_PLACE_REDUCER_OUT, sizes->out);
    if (sizes->has_cock) {
        const char *name =
            qll_cock_name(line->made->figure->canvas->arena, diagram->station, stage, index);
        qll_symbol_cock(&line->made->sketch, place(line, QLL_PLACE_COCK), name);
    }
}

typedef void draw_symbol(const qll_sketch *sketch, qll_xy at);

static bool is_flanged(const qll_branch *branch)
{
    return branch->valve->nominal_m > QLL_UNION_MOST_M;
}

static void draw_branch(const drawing *made, size_t stage, size_t index)
{
    const qll_branch *branch = &made->diagram->station->stages[stage].branches[index];
    const qll_sketch *sketch = &made->sketch;
    const branch_line line = {made, manifold_mm(made, stage), row_mm(made, index)};
    double right = line.left_mm + made->branch_mm;
    qll_symbol_pipe(sketch, (qll_xy){line.left_mm, line.y_mm}, (qll_xy){right, line.y_mm});
    qll_symbol_isolating(sketch, place(&line, QLL_PLACE_STOP_IN));
    if (made->diagram->sizes != NULL) {
        qll_symbol_strainer(sketch, place(&line, QLL_PLACE_STRAINER));
    }
    draw_symbol *joint = is_flanged(branch) ? qll_symbol_flange : qll_symbol_union;
    joint(sketch, place(&line, QLL_PLACE_UNION_IN));
    qll_symbol_reducing(sketch, place(&line, QLL_PLACE_VALVE),
                        branch->valve->acting == QLL_ACTING_PILOT);
    joint(sketch, place(&line, QLL_PLACE_UNION_OUT));
    qll_symbol_isolating(sketch, place(&line, QLL_PLACE_STOP_OUT));
    draw_put_in(&line, stage, index);
    label_branch(made, stage, index, line.left_mm, line.y_mm);
}

static void draw_stage(const drawing *made, size_t stage)
{
    size_t count = made->diagram->station->stages[stage].branch_count;
    double left = manifold_mm(made, stage);
    double right = left + made->branch_mm;
    if (count == 0) {
        qll_symbol_pipe(&made->sketch, (qll_xy){left, made->pipe_mm},
                        (qll_xy){right, made->pipe_mm});
        return;
    }
    double top = row_mm(made, 0);
    double bottom = row_mm(made, count - 1);
    if (count > 1) {
        qll_symbol_pipe(&made->sketch, (qll_xy){left, top}, (qll_xy){left, bottom});
        qll_symbol_pipe(&made->sketch, (qll_xy){right, top}, (qll_xy){right, bottom});
    }
    for (size_t b = 0; b < count; b++) {
        draw_branch(made, stage, b);
    }
}

/* The hose valve and the relief valve, on the pipe behind the last stage from @p x_mm on. */
static void draw_behind(const drawing *made, double x_mm)
{
    double step_mm = QLL_EXTRA_MM * made->sketch.scale;
    if (made->diagram->has_relief) {
        qll_symbol_relief(&made->sketch, (qll_xy){x_mm, made->pipe_mm}, "R");
        x_mm += step_mm;
    }
    if (made->diagram->sizes != NULL) {
        qll_symbol_hose_valve(&made->sketch, (qll_xy){x_mm, made->pipe_mm}, "D");
    }
}

/* The pipe before stage @p index, or behind the last, with its gauge. */
static void draw_joint(const drawing *made, size_t index)
{
    size_t stages = made->diagram->station->stage_count;
    double right = manifold_mm(made, index);
    double left = right - joint_mm(made);
    double end = QLL_END_MM * made->sketch.scale;
    double extra = extra_mm(made->diagram) * made->sketch.scale;
    double from = index == 0 ? left - end : left;
    double to = index == stages ? right + extra + end : right;
    qll_symbol_pipe(&made->sketch, (qll_xy){from, made->pipe_mm}, (qll_xy){to, made->pipe_mm});
    qll_symbol_gauge(&made->sketch, (qll_xy){(left + right) / 2, made->pipe_mm},
                     qll_gauge_name(made->figure->canvas->arena, index));
    if (index == 0) {
        qll_symbol_arrow(&made->sketch, (qll_xy){from + 3.4 * made->sketch.scale, made->pipe_mm});
    }
    if (index == stages) {
        draw_behind(made, right);
        qll_symbol_arrow(&made->sketch, (qll_xy){to, made->pipe_mm});
    }
}

/* What comes in and goes out, in the room below the end pipes. */
static void draw_end_words(const drawing *made)
{
    qll_language language = made->figure->language;
    const char *in = qll_say(language, QLL_SAYS_FIGURE_FROM_MAIN);
    const char *out = qll_say(language, QLL_SAYS_FIGURE_TO_BUILDING);
    double width = QLL_END_MM * made->sketch.scale + joint_mm(made) - 2;
    double y = made->pipe_mm + 1.2 * made->sketch.scale;
    double height = made->row_mm * (1 - QLL_ROW_ABOVE) - 1.5 * made->sketch.scale;
    qll_letters letters = words;
    (void)qll_canvas_text_box(made->figure->canvas, (qll_box){made->left_mm, y, width, height},
                              qll_text_of(in), &letters);
    double right = manifold_mm(made, made->diagram->station->stage_count) - joint_mm(made) + 2;
    letters.anchor = QLL_ANCHOR_END;
    (void)qll_canvas_text_box(made->figure->canvas, (qll_box){right, y, width, height},
                              qll_text_of(out), &letters);
}

static void direct(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_reducing(sketch, at, false);
}

static void piloted(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_reducing(sketch, at, true);
}

static void reducer(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_reducer(sketch, at, false);
}

/* Those that stand on the pipe are drawn a little lower, so that their letter is level with the words. */
#define QLL_LEGEND_DOWN_MM 3.2

static qll_xy lower(qll_xy at)
{
    return (qll_xy){at.x_mm, at.y_mm + QLL_LEGEND_DOWN_MM};
}

static void gauge(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_gauge(sketch, lower(at), "P");
}

static void cock(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_cock(sketch, lower(at), "T");
}

static void hose_valve(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_hose_valve(sketch, lower(at), "D");
}

static void relief(const qll_sketch *sketch, qll_xy at)
{
    qll_symbol_relief(sketch, lower(at), "R");
}

/* Whether a branch that is to be put in needs a part. */
typedef bool needs_part(const qll_branch_sizes *sizes);

static bool needs_cock(const qll_branch_sizes *sizes)
{
    return sizes->has_cock;
}

static bool needs_reducer(const qll_branch_sizes *sizes)
{
    return sizes->in != 0 || sizes->between != 0 || sizes->out != 0;
}

static bool has_in_branch(const qll_diagram *diagram, needs_part *needs)
{
    for (size_t s = 0; diagram->sizes != NULL && s < diagram->station->stage_count; s++) {
        for (size_t b = 0; b < diagram->station->stages[s].branch_count; b++) {
            if (needs(&diagram->sizes[s][b])) {
                return true;
            }
        }
    }
    return false;
}

static bool has_joint(const qll_station *station, bool flanged)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (is_flanged(&station->stages[s].branches[b]) == flanged) {
                return true;
            }
        }
    }
    return false;
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

typedef struct legend_row {
    draw_symbol *draw;
    qll_message says;
} legend_row;

#define QLL_LEGEND_MOST 11

/* What is on the drawing. */
static size_t list_legend(const qll_diagram *diagram, legend_row *rows)
{
    const struct {
        legend_row row;
        bool is_there;
    } all[QLL_LEGEND_MOST] = {
        {{qll_symbol_isolating, QLL_SAYS_FIGURE_ISOLATING}, true},
        {{qll_symbol_strainer, QLL_SAYS_FIGURE_STRAINER}, diagram->sizes != NULL},
        {{qll_symbol_union, QLL_SAYS_FIGURE_UNION}, has_joint(diagram->station, false)},
        {{qll_symbol_flange, QLL_SAYS_FIGURE_FLANGE}, has_joint(diagram->station, true)},
        {{direct, QLL_SAYS_FIGURE_DIRECT}, has_acting(diagram->station, QLL_ACTING_DIRECT)},
        {{piloted, QLL_SAYS_FIGURE_PILOT}, has_acting(diagram->station, QLL_ACTING_PILOT)},
        {{gauge, QLL_SAYS_FIGURE_GAUGE}, true},
        {{cock, QLL_SAYS_FIGURE_COCK}, has_in_branch(diagram, needs_cock)},
        {{reducer, QLL_SAYS_PIECE_REDUCER}, has_in_branch(diagram, needs_reducer)},
        {{hose_valve, QLL_SAYS_FIGURE_HOSE_VALVE}, diagram->sizes != NULL},
        {{relief, QLL_SAYS_FIGURE_RELIEF}, diagram->has_relief},
    };

    size_t count = 0;
    for (size_t i = 0; i < QLL_LEGEND_MOST; i++) {
        if (all[i].is_there) {
            rows[count] = all[i].row;
            count += 1;
        }
    }
    return count;
}

/* The most that words may take so that all of a line have room: only the longest break. */
static double legend_words_mm(const drawing *made, const legend_row *rows, size_t count)
{
    const qll_letters letters = words;
    double most_mm = made->figure->area.width_mm;
    double room_mm = most_mm - (double)count * (QLL_LEGEND_SYMBOL_MM + QLL_LEGEND_GAP_MM);
    for (double taken_mm = INFINITY; taken_mm > room_mm && most_mm > 5;) {
        taken_mm = 0;
        most_mm *= 0.97;
        for (size_t i = 0; i < count; i++) {
            taken_mm += fmin(legend_text_mm(made, rows[i].says, &letters), most_mm);
        }
    }
    return most_mm;
}

/* One line of it. */
static void draw_legend_line(const drawing *made, const legend_row *rows, size_t count, double y)
{
    const qll_letters letters = words;
    const qll_sketch sketch = {made->figure->canvas, 0.75};
    double most_mm = legend_words_mm(made, rows, count);
    double x = made->figure->area.x_mm;
    for (size_t i = 0; i < count; i++) {
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

/* What the symbols mean, in lines at the bottom. */
static void draw_legend(const drawing *made)
{
    legend_row rows[QLL_LEGEND_MOST];
    size_t count = list_legend(made->diagram, rows);
    size_t first = (count + 1) / QLL_LEGEND_ROWS;
    double y = made->figure->area.y_mm + made->figure->area.height_mm - 3.4;
    draw_legend_line(made, rows, first, y - QLL_LEGEND_ROW_MM);
    draw_legend_line(made, rows + first, count - first, y);
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
    for (size_t s = 0; s < diagram->station->stage_count; s++) {
        draw_stage(&made, s);
    }
    draw_end_words(&made);
    draw_legend(&made);
}
