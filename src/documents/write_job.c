/* What is bought for the recommended station, and what to heed while it is put in. */
#include "documents/write_common.h"

#include <math.h>

/* @p key in mm; nothing where there is none. */
static void put_size(qll_json *json, const char *key, double nominal_m)
{
    qll_json_put_figure(json, key, nominal_m * 1000.0);
}

static void put_index_of(qll_json *json, const char *key, bool has, size_t index)
{
    qll_json_put_index(json, key, has ? index : SIZE_MAX);
}

static void put_piece(qll_json *json, const qll_piece *piece)
{
    bool is_of_branch = piece->branch != SIZE_MAX;
    qll_json_open_object(json);
    qll_json_put_text(json, "part", qll_piece_words[piece->kind]);
    qll_json_put_whole(json, "count", (long long)piece->count);
    put_index_of(json, "stage", is_of_branch, piece->stage);
    put_index_of(json, "branch", is_of_branch, piece->branch);
    put_index_of(json, "joint", piece->kind == QLL_PIECE_GAUGE, piece->joint);
    put_size(json, "nominal_mm", piece->nominal_m);
    put_size(json, "smaller_mm", piece->smaller_m);
    qll_json_put_figure(json, "scale_pa_gauge", piece->scale_pa_gauge);
    qll_json_put_figure(json, "pressure_pa_gauge", piece->pressure_pa_gauge);
    qll_json_put_figure(json, "volume_m3", piece->volume_m3);
    qll_json_close_object(json);
}

void qll_json_put_pieces(qll_json *json, const qll_pieces *pieces)
{
    qll_json_put_list(json, "parts");
    for (size_t i = 0; pieces != NULL && i < pieces->count; i++) {
        put_piece(json, &pieces->pieces[i]);
    }
    qll_json_close_list(json);
}

void qll_json_put_job(qll_json *json, const qll_job *job)
{
    qll_json_put_pieces(json, job == NULL ? NULL : &job->pieces);
    qll_json_put_list(json, "installing");
    for (size_t i = 0; job != NULL && i < QLL_INSTALL_COUNT; i++) {
        if (job->installing.applies[i]) {
            qll_json_text(json, qll_install_words[i]);
        }
    }
    qll_json_close_list(json);
}
