/* Any CSV as a sheet of capacity points: refused at a place, or fitted to a law that rises and to an
 * entry that a catalogue reads; what people read of it is clean text in every language. */
#include "quell/quell.h"

#include "base/document.h"
#include "documents/catalogue_fields.h"
#include "documents/read_capacity.h"
#include "documents/valve_table.h"
#include "require.h"

#include <math.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_sheet(const qll_capacity_sheet *sheet)
{
    QLL_REQUIRE(sheet->count >= 2 && sheet->id != NULL && isfinite(sheet->nominal_m));
    QLL_REQUIRE(sheet->acting < QLL_ACTING_COUNT);
    QLL_REQUIRE(isfinite(sheet->set_min_pa_gauge) && isfinite(sheet->set_max_pa_gauge));
    QLL_REQUIRE(isfinite(sheet->inlet_max_pa_gauge));
    for (size_t i = 0; i < sheet->count; i++) {
        const qll_capacity_point *point = &sheet->points[i];
        QLL_REQUIRE(isfinite(point->inlet_pa_gauge) && isfinite(point->set_pa_gauge));
        QLL_REQUIRE(isfinite(point->flow_m3s) && isfinite(point->falloff_pa));
    }
}

static void require_fit(const qll_capacity_sheet *sheet, const qll_valve_fit *fit)
{
    QLL_REQUIRE(isfinite(fit->kv_m3h) && fit->kv_m3h > 0.0);
    QLL_REQUIRE(isfinite(fit->band_pa) && fit->band_pa > 0.0);
    QLL_REQUIRE(fit->law_count >= 1 && fit->law_count <= sheet->count);
    for (size_t i = 1; i < fit->law_count; i++) {
        QLL_REQUIRE(fit->law[i].x > fit->law[i - 1].x && fit->law[i].y > fit->law[i - 1].y);
    }
    double worst = 0.0;
    for (size_t i = 0; i < sheet->count; i++) {
        QLL_REQUIRE(isfinite(fit->rows[i].residual_share));
        worst = fmax(worst, fabs(fit->rows[i].residual_share));
    }
    QLL_REQUIRE(worst == fit->worst_share && fit->rms_share <= worst * (1.0 + 1e-12));
}

/* The reader and the fit on their own; true if there is a law. */
static bool read_and_fit(qll_text source, qll_arena *arena)
{
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_table table;
    qll_capacity_sheet sheet;
    qll_status status = qll_valve_table_read(source, "points.csv", arena, &table, &problems);
    if (status == QLL_OK) {
        status = qll_capacity_read(&table, arena, &sheet, &assumed, &problems);
    }
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    QLL_REQUIRE((status == QLL_OK) == (problems.refusal_count == 0));
    require_clean_problems(&problems);
    if (status != QLL_OK) {
        return false;
    }
    require_sheet(&sheet);
    qll_valve_fit fit;
    QLL_REQUIRE(qll_valve_fit_make(sheet.points, sheet.count, sheet.kv_m3h, 0.9, arena, &fit)
                == QLL_OK);
    if (fit.fault != QLL_FIT_SOUND) {
        QLL_REQUIRE(!qll_capacity_refuse(&table, &fit, arena, &problems));
        require_clean_problems(&problems);
        return false;
    }
    require_fit(&sheet, &fit);
    return true;
}

static void require_entry(const qll_answer *answer, qll_arena *arena)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    qll_text text = {answer->bytes, answer->size};
    QLL_REQUIRE(qll_document_read(text, "answer", arena, &document, &problems) == QLL_OK);
    const qll_node *entry = qll_node_find(document.root, "catalogue");
    QLL_REQUIRE(entry != NULL);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_reader reader = qll_reader_new(&document, arena, &assumed);
    qll_catalogue catalogue;
    qll_catalogue_read_root(&reader, entry, &catalogue);
    QLL_REQUIRE(qll_reader_end(&reader, &problems) == QLL_OK);
    QLL_REQUIRE(catalogue.count == 1 && problems.refusal_count == 0);
}

/* The same question as JSON and as text: both are answered, or both refused. */
static void ask(qll_text source, const char *language, const char *units, bool is_sound,
                qll_arena *arena)
{
    qll_question question = {
        .verb = QLL_VERB_FIT,
        .form = QLL_FORM_JSON,
        .language = language,
        .units = units,
        .document = {.name = "points.csv", .bytes = source.bytes, .size = source.size}};
    qll_answer json;
    qll_answer text;
    const qll_status status = qll_ask(&question, arena, &json);
    question.form = QLL_FORM_TEXT;
    QLL_REQUIRE(qll_ask(&question, arena, &text) == status);
    QLL_REQUIRE(status == QLL_REFUSED || (status == QLL_OK && is_sound));
    QLL_REQUIRE(status != QLL_REFUSED || text.problem_count > 0);
    if (status == QLL_OK) {
        require_entry(&json, arena);
        require_clean_text((qll_text){text.bytes, text.size});
    }
    qll_problems problems = qll_problems_none(arena);
    for (size_t i = 0; i < text.problem_count; i++) {
        (void)said_add(&problems, &text.problems[i]);
    }
    require_clean_problems(&problems);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_text source = {(const char *)data, size};
    /* The engine wants a document, be it empty. */
    source.bytes = size == 0 ? "" : source.bytes;
    const bool is_sound = read_and_fit(source, arena);
    ask(source, "en", "us", is_sound, arena);
    ask(source, "es", "si", is_sound, arena);
    qll_arena_close(arena);
    return 0;
}
