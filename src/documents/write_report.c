/* A report as machines read it: which file it went into, and the numbers that stand on its sheets. */
#include "documents/write_common.h"

static void put_files(qll_json *json, const qll_report_file *file)
{
    qll_json_put_list(json, "files");
    if (file != NULL) {
        qll_json_open_object(json);
        qll_json_put_text(json, "path", file->path);
        qll_json_put_text(json, "format", file->format);
        qll_json_put_whole(json, "bytes", (long long)file->size);
        if (file->page_count > 0) {
            qll_json_put_whole(json, "pages", (long long)file->page_count);
        } else {
            qll_json_put_null(json, "pages");
        }
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_commissioning(qll_json *json, const qll_design_findings *findings)
{
    qll_json_key(json, "commissioning");
    const qll_commissioning *tests = findings->commissioning;
    if (tests == NULL) {
        qll_json_null(json); /* there is no station */
        return;
    }
    qll_json_open_object(json);
    qll_json_put_figure(json, "set_tolerance_pa", tests->set_tolerance_pa);
    qll_json_put_list(json, "falloff");
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        const qll_falloff_test *test = &tests->falloff[i];
        qll_json_open_object(json);
        qll_json_put_figure(json, "flow_m3s", test->flow_m3s);
        qll_json_put_figure(json, "inlet_pa_gauge", test->inlet_pa_gauge);
        qll_json_put_figure(json, "outlet_pa_gauge", test->outlet_pa_gauge);
        qll_json_put_figure(json, "least_pa_gauge", test->least_pa_gauge);
        qll_json_put_figure(json, "correction_pa_per_10psi", test->correction_pa_per_10psi);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_figure(json, "creep_tight_pa", tests->creep_tight_pa);
    qll_json_put_figure(json, "creep_leaks_pa", tests->creep_leaks_pa);
    qll_json_close_object(json);
}

/* What the title block of the sheets says; null where it has a line to write on. */
static void put_title(qll_json *json, const qll_demand_findings *demand)
{
    const qll_project *project = &demand->survey->project;
    qll_json_key(json, "title");
    qll_json_open_object(json);
    qll_json_put_text_or_null(json, "project", project->name);
    qll_json_put_text_or_null(json, "customer", project->customer);
    qll_json_put_text_or_null(json, "address", project->address);
    qll_json_put_text_or_null(json, "prepared_by", project->prepared_by);
    qll_json_put_text_or_null(json, "license", project->license);
    qll_json_put_text_or_null(json, "revision", project->revision);
    qll_json_put_text_or_null(json, "date", demand->provenance.date);
    qll_json_put_text(json, "survey_file", demand->provenance.survey_file);
    qll_json_put_text(json, "survey_sha256_begins", demand->provenance.survey_digest);
    qll_json_put_text(json, "version", QLL_VERSION);
    qll_json_close_object(json);
}

void qll_json_put_made(qll_json *json, const qll_report_facts *facts,
                       const qll_demand_findings *demand)
{
    put_files(json, facts->file);
    qll_json_put_text_or_null(json, "html", facts->page.html);
    qll_json_put_figures(json, facts->page.drawn, facts->page.drawn_count);
    qll_json_put_text(json, "of", facts->of);
    qll_json_put_text(json, "language", qll_language_words[demand->language]);
    qll_json_put_text_or_null(json, "paper", facts->paper);
    qll_json_put_text_or_null(json, "plot", facts->plot);
    put_title(json, demand);
    qll_json_put_list(json, "sections");
    for (size_t i = 0; i < facts->section_count; i++) {
        qll_json_text(json, facts->sections[i]);
    }
    qll_json_close_list(json);
}

void qll_report_write(qll_json *json, const qll_design_findings *findings,
                      const qll_report_facts *facts)
{
    qll_json_open_object(json);
    qll_json_put_common(json, "report", &findings->demand);
    qll_json_put_made(json, facts, &findings->demand);
    qll_json_put_scenarios(json, &findings->demand, findings->duty);
    if (facts->check != NULL) {
        qll_json_put_check(json, facts->check);
    } else if (findings->duty == NULL) {
        const qll_wording wording = {.units = findings->demand.survey->units};
        qll_json_put_comparison(json, &wording, &findings->demand);
    } else {
        put_commissioning(json, findings);
        qll_json_put_job(json, findings->job);
        qll_json_put_design(json, findings);
    }
    qll_json_close_object(json);
}
