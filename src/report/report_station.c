/* Parts and settings. */
#include "base/count.h"
#include "base/customary.h"
#include "report/report_parts.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* ---- parts ---- */

/* What a list is of. */
typedef struct listed {
    const qll_station *station;
    qll_strainer *const *strainers; /* [stage][branch] */
    const qll_pieces *pieces;
} listed;

/* By the drawing: "A", "TA", "P0"; "" of what has no letter there. */
static const char *mark_of(const qll_report *report, const qll_piece *piece)
{
    switch (piece->kind) {
    case QLL_PIECE_COCK:
        return qll_cock_name(report->arena, &report->chosen->station, piece->stage, piece->branch);
    case QLL_PIECE_GAUGE: return qll_gauge_name(report->arena, piece->joint);
    case QLL_PIECE_HOSE_VALVE: return "D";
    case QLL_PIECE_RELIEF: return "R";
    case QLL_PIECE_VALVE:
    case QLL_PIECE_STRAINER:
    case QLL_PIECE_SCREEN:
    case QLL_PIECE_STOP:
    case QLL_PIECE_UNION:
    case QLL_PIECE_REDUCER: return qll_report_branch(report, piece->stage, piece->branch);
    case QLL_PIECE_TEE:
    case QLL_PIECE_ELBOW:
    case QLL_PIECE_TEST_GAUGE:
    case QLL_PIECE_TANK:
    case QLL_PIECE_COUNT: break;
    }
    return "";
}

/* Rows of the list that are one on the sheet: of one kind and branch, whatever their sizes. */
static size_t alike_count(const qll_pieces *pieces, size_t first)
{
    const qll_piece *piece = &pieces->pieces[first];
    size_t end = first + 1;
    while (piece->branch != SIZE_MAX && end < pieces->count
           && pieces->pieces[end].kind == piece->kind && pieces->pieces[end].stage == piece->stage
           && pieces->pieces[end].branch == piece->branch) {
        end += 1;
    }
    return end - first;
}

static const char *size_of(const qll_report *report, const qll_piece *piece)
{
    if (piece->kind != QLL_PIECE_REDUCER) {
        return isfinite(piece->nominal_m) ? qll_report_size(report, piece->nominal_m) : "";
    }
    /* The unit once: "4 x 3 in", "DN 80 x 65". */
    const bool is_si = report->wording.units == QLL_UNITS_SI;
    const qll_text larger = qll_text_of(qll_report_size(report, piece->nominal_m));
    const char *smaller = qll_report_size(report, piece->smaller_m);
    const char *blank = strrchr(is_si ? smaller : larger.bytes, ' ');
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_text(&writer, is_si || blank == NULL
                                ? larger
                                : (qll_text){larger.bytes, (size_t)(blank - larger.bytes)});
    qll_write(&writer, " x ");
    qll_write(&writer, is_si && blank != NULL ? blank + 1 : smaller);
    return qll_writer_text(&writer).bytes;
}

/* "1-1/4 in, 1 in"; how many there are of a size beside it, where several share the row. */
static const char *sizes_of(const qll_report *report, const qll_piece *pieces, size_t count)
{
    qll_writer sizes = qll_writer_new(report->arena);
    for (size_t i = 0; i < count; i++) {
        qll_write(&sizes, i == 0 ? "" : ", ");
        qll_write(&sizes, size_of(report, &pieces[i]));
        if (count > 1 && pieces[i].count > 1) {
            qll_write_format(&sizes, " (%zu)", pieces[i].count);
        }
    }
    return qll_writer_text(&sizes).bytes;
}

/* "16 bar", "2.5 bar": where a scale ends, and what a thing is rated for, is a round figure. */
static const char *scale_text(const qll_report *report, double pa_gauge)
{
    bool is_si = report->wording.units == QLL_UNITS_SI;
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%g %s",
                     round(pa_gauge / (is_si ? 1e4 : QLL_PSI_PA)) / (is_si ? 10.0 : 1.0),
                     qll_units_name(QLL_KIND_PRESSURE, report->wording.units));
    return qll_writer_text(&writer).bytes;
}

static const char *name_of(const qll_report *report, const listed *of, const qll_piece *piece)
{
    const bool is_of_branch = piece->branch != SIZE_MAX;
    const qll_valve *valve =
        is_of_branch ? of->station->stages[piece->stage].branches[piece->branch].valve : NULL;
    const qll_strainer *strainer =
        is_of_branch ? &of->strainers[piece->stage][piece->branch] : NULL;
    bool has_loss = strainer != NULL && isfinite(strainer->clean_pa);
    qll_writer scratch = qll_writer_new(report->arena);
    const qll_filling fillings[] = {
        {"clean", has_loss ? qll_text_difference(&scratch, report->wording.language,
                                                 strainer->clean_pa, report->wording.units)
                           : NULL},
        {"flow",
         has_loss ? qll_report_quantity(report, strainer->at_flow_m3s, QLL_KIND_FLOW) : NULL},
        {"valve", valve == NULL ? NULL : valve->id},
        {"acting", valve == NULL
                       ? NULL
                       : qll_report_says(report, (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT
                                                               + (size_t)valve->acting))},
        {"mesh", strainer == NULL || strainer->mesh <= 0
                     ? NULL
                     : qll_report_count(report, (size_t)strainer->mesh)},
        {"limit", scale_text(report, piece->scale_pa_gauge)},
        {"pressure", qll_report_quantity(report, piece->pressure_pa_gauge, QLL_KIND_PRESSURE)},
        {"volume", qll_report_quantity(report, piece->volume_m3, QLL_KIND_VOLUME)},
    };
    const bool is_flange = piece->kind == QLL_PIECE_UNION && piece->nominal_m > QLL_UNION_MOST_M;
    const qll_message says = is_flange ? QLL_SAYS_PIECE_FLANGE
                                       : (qll_message)((size_t)QLL_SAYS_PIECE_VALVE + piece->kind);
    return qll_report_fill(report, says, fillings, QLL_COUNT(fillings));
}

/* A row of the list: what reads alike is one, of whatever branches. */
typedef struct part_row {
    const char *marks; /* on the drawing: "A", "1A, 2B"; "" of what has none */
    const char *name;
    const char *sizes;
    size_t count;
} part_row;

/* The row that reads like @p made, or the place behind the last. */
static size_t row_like(const part_row *rows, size_t count, const part_row *made)
{
    size_t at = 0;
    while (
        at < count
        && (strcmp(rows[at].name, made->name) != 0 || strcmp(rows[at].sizes, made->sizes) != 0)) {
        at += 1;
    }
    return at;
}

static void add_row(const qll_report *report, part_row *rows, size_t *count, const part_row *made)
{
    part_row *row = &rows[row_like(rows, *count, made)];
    if (row == &rows[*count]) {
        *row = *made;
        *count += 1;
        return;
    }
    qll_writer marks = qll_writer_new(report->arena);
    qll_write(&marks, row->marks);
    qll_write(&marks, row->marks[0] != '\0' && made->marks[0] != '\0' ? ", " : "");
    qll_write(&marks, made->marks);
    row->marks = qll_writer_text(&marks).bytes;
    row->count += made->count;
}

static void write_rows(qll_report *report, const listed *of, bool has_marks)
{
    part_row *rows = qll_arena_take(report->arena, of->pieces->count, sizeof *rows);
    size_t row_count = 0;
    for (size_t i = 0; rows != NULL && i < of->pieces->count;) {
        const qll_piece *piece = &of->pieces->pieces[i];
        const size_t alike = alike_count(of->pieces, i);
        part_row row = {.marks = mark_of(report, piece),
                        .name = name_of(report, of, piece),
                        .sizes = sizes_of(report, piece, alike)};
        for (size_t k = 0; k < alike; k++) {
            row.count += piece[k].count;
        }
        add_row(report, rows, &row_count, &row);
        i += alike;
    }
    for (size_t i = 0; i < row_count; i++) {
        if (has_marks) {
            qll_sheet_cell(report->sheet, rows[i].marks);
        }
        qll_sheet_cell(report->sheet, rows[i].name);
        qll_sheet_cell(report->sheet, rows[i].sizes);
        qll_sheet_cell(report->sheet, qll_report_count(report, rows[i].count));
    }
}

static const qll_message part_heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_PART, QLL_SAYS_HEAD_SIZE,
                                         QLL_SAYS_HEAD_COUNT};

static void write_parts(qll_report *report)
{
    const listed of = {&report->chosen->station, report->chosen->assessment.strainers,
                       &report->found->job->pieces};
    qll_report_heads(report, part_heads, QLL_COUNT(part_heads));
    write_rows(report, &of, true);
    qll_report_table(report, QLL_SAYS_PARTS, "lllr", true);
    qll_report_paragraph(report, QLL_SAYS_PARTS_ARE, NULL, 0);
}

void qll_report_cure_parts(qll_report *report)
{
    const qll_cures *cures = report->check->cures;
    size_t first = 0;
    while (first < cures->count && report->check->cure_parts[first].pieces.count == 0) {
        first += 1;
    }
    if (first == cures->count) {
        return;
    }
    const qll_cure_parts *parts = &report->check->cure_parts[first];
    const listed of = {&cures->cures[first].station, parts->strainers, &parts->pieces};
    const qll_filling number = {"number", qll_report_count(report, first + 1)};
    qll_report_heads(report, part_heads + 1, QLL_COUNT(part_heads) - 1);
    write_rows(report, &of, false);
    qll_sheet_table(report->sheet, qll_report_fill(report, QLL_SAYS_PARTS_OF_CURE, &number, 1),
                    "llr", true);
}

/* ---- putting it in ---- */

/* A length to a whole inch or centimetre, never less. */
static const char *fitted_length(const qll_report *report, double length_m)
{
    bool is_si = report->wording.units == QLL_UNITS_SI;
    double step_m = is_si ? 0.01 : 0.0254;
    double steps = ceil(length_m / step_m - 1e-6);
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, is_si ? "%.0f cm" : "%.0f in", steps);
    return qll_writer_text(&writer).bytes;
}

static void write_installing(qll_report *report)
{
    const qll_installing *job = &report->found->job->installing;
    const qll_filling fillings[] = {
        {"space", fitted_length(report, job->space_m)},
        {"before", fitted_length(report, job->before_m)},
        {"behind", fitted_length(report, job->behind_m)},
        {"highest", qll_report_quantity(report, job->highest_pa_gauge, QLL_KIND_PRESSURE)},
        {"limit", scale_text(report, job->rated_pa_gauge)},
        {"pressure", qll_report_quantity(report, job->relief_pa_gauge, QLL_KIND_PRESSURE)},
    };
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_INSTALLING));
    for (size_t i = 0; i < QLL_INSTALL_COUNT; i++) {
        if (job->applies[i]) {
            qll_sheet_item(report->sheet,
                           qll_report_fill(report,
                                           (qll_message)((size_t)QLL_SAYS_INSTALL_FLUSH + i),
                                           fillings, QLL_COUNT(fillings)));
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

void qll_report_strainers(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_STRAINERS));
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            qll_writer line = qll_writer_new(report->arena);
            qll_wording_strainer(&line, &report->wording, station,
                                 &report->chosen->assessment.strainers[s][b], s, b);
            qll_sheet_item(report->sheet, qll_writer_text(&line).bytes);
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

void qll_report_drawing(qll_report *report)
{
    qll_report_picture(report, QLL_PICTURE_SCHEMATIC, 0);
}

/* What is told of strainers stands among the parts and in the service log; on a terminal there is no log. */
void qll_report_station(qll_report *report)
{
    qll_report_drawing(report);
    write_parts(report);
    if (!report->is_plain) {
        write_installing(report);
    }
    if (report->is_plain) {
        qll_report_strainers(report);
    }
}
