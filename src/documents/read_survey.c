#include "documents/read_survey.h"

#include "base/customary.h"
#include "documents/read_costs.h"
#include "documents/survey_parts.h"
#include "physics/nominal.h"

#include <math.h>
#include <stdint.h>

/* ---- what is read before all else: it bears on how the rest is read ---- */

static void read_project(qll_survey_pass *pass)
{
    const qll_object object = qll_object_inner(&pass->root, "project", &qll_group_project);
    pass->survey->project = (qll_project){
        .name = qll_object_text(&object, "name"),
        .customer = qll_object_text(&object, "customer"),
        .address = qll_object_text(&object, "address"),
        .prepared_by = qll_object_text(&object, "prepared_by"),
        .license = qll_object_text(&object, "license"),
        .revision = qll_object_text(&object, "revision"),
    };
}

static void read_site(qll_survey_pass *pass)
{
    qll_site *site = &pass->survey->site;
    qll_object object = qll_object_inner(&pass->root, "site", &qll_group_site);
    const qll_node *barometric = qll_object_find(&object, "barometric");
    const qll_node *elevation = qll_object_find(&object, "elevation");
    if (barometric == NULL) {
        double elevation_m = qll_object_quantity(&object, "elevation");
        site->barometric_pa = qll_barometric_pa(isnan(elevation_m) ? 0.0 : elevation_m);
    } else {
        /* Measured from nothing, so that its gauge reading is the absolute pressure itself. */
        pass->reader.barometric_pa = 0.0;
        double pressure_pa = qll_object_quantity(&object, "barometric");
        site->barometric_pa = isnan(pressure_pa) ? qll_barometric_pa(0.0) : pressure_pa;
    }
    if (barometric != NULL && elevation != NULL) {
        const qll_node *later = barometric->offset > elevation->offset ? barometric : elevation;
        (void)qll_reader_refuse_fixed(&pass->reader, qll_at(later), QLL_CODE_CONTRADICTION,
                                      QLL_SAYS(TWO_ATMOSPHERES), NULL,
                                      (qll_fix){.op = QLL_FIX_REMOVE});
    }
    pass->reader.barometric_pa = site->barometric_pa;
    size_t people = qll_object_word(&object, "people");
    site->people = people == SIZE_MAX ? QLL_PEOPLE_NEXT_ROOM : (qll_people)people;
}

static void read_water(qll_survey_pass *pass)
{
    qll_object object = qll_object_inner(&pass->root, "water", &qll_group_water);
    qll_site *site = &pass->survey->site;
    double temperature_degc = qll_object_quantity(&object, "temperature");
    site->water =
        qll_water_at(temperature_degc, site->barometric_pa + site->supply.static_high_pa_gauge);
}

/* ---- limits ---- */

static void read_falloff(const qll_object *object, const qll_survey_pass *pass, qll_limits *limits)
{
    double set_pa_gauge = pass->survey->site.set_pa_gauge;
    if (qll_object_find(object, "falloff") == NULL) {
        limits->falloff_share = NAN;
        qll_object_assume_quantity(
            object, "falloff", qll_site_falloff_pa(&pass->survey->site),
            QLL_KIND_PRESSURE_DIFFERENCE,
            (qll_said){QLL_TEXT_WHY_FALLOFF,
                       {qll_as_thumb(10.0 * QLL_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE),
                        qll_as_thumb(15.0 * QLL_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE)}});
        return;
    }
    limits->falloff_share = qll_object_quantity(object, "falloff") / set_pa_gauge;
    if (limits->falloff_share >= 1.0) {
        const qll_node *node = qll_object_find(object, "falloff");
        const qll_said says = {
            QLL_TEXT_FALLOFF_NOT_BELOW_SET,
            {qll_as_found(node), qll_as_limit(&pass->downstream, "set_pressure")}};
        (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, NULL);
    }
}

static void read_limits(qll_survey_pass *pass)
{
    qll_object object = qll_object_inner(&pass->root, "limits", &qll_group_limits);
    qll_pair band = qll_object_pair(&object, "velocity_band");
    qll_limits *limits = &pass->survey->site.limits;
    limits->velocity_low_m_s = band.low;
    limits->velocity_high_m_s = band.high;
    limits->velocity_max_m_s = qll_object_quantity(&object, "velocity_max");
    limits->ratio_preferred = qll_object_quantity(&object, "ratio_preferred");
    limits->ratio_max = qll_object_quantity(&object, "ratio_max");
    if (limits->velocity_max_m_s < limits->velocity_high_m_s) {
        qll_object_disagrees(&object, "velocity_max", QLL_TEXT_VELOCITY_IN_BAND, "velocity_band",
                             QLL_TEXT_BAND_ABOVE_VELOCITY);
    }
    if (limits->ratio_max < limits->ratio_preferred) {
        qll_object_disagrees(&object, "ratio_max", QLL_TEXT_RATIO_BELOW_PREFERRED,
                             "ratio_preferred", QLL_TEXT_PREFERRED_ABOVE_RATIO);
    }
    read_falloff(&object, pass, limits);
}

/* ---- the station's pipe ---- */

static void insert_size(const qll_pipe_size **sizes, size_t count, const qll_pipe_size *size)
{
    while (count > 0 && sizes[count - 1]->bore_m > size->bore_m) {
        sizes[count] = sizes[count - 1];
        count -= 1;
    }
    sizes[count] = size;
}

static void read_station_pipe(qll_survey_pass *pass)
{
    qll_object object = qll_object_inner(&pass->root, "station_pipe", &qll_group_station_pipe);
    const qll_pipe_family *family = qll_read_family(pass, &object, "pipe");
    pass->survey->station_size = qll_read_size(pass, &object, family);
    const qll_pipe_table *pipes = &pass->tables->pipes;
    const qll_pipe_size **sizes = qll_reader_take(&pass->reader, pipes->count, sizeof(void *));
    if (family == NULL || sizes == NULL) {
        return;
    }
    size_t count = 0;
    for (size_t i = 0; i < pipes->count; i++) {
        const qll_pipe_size *size = &pipes->sizes[i];
        if (qll_text_is(qll_text_of(size->standard), family->standard)
            && qll_nominal_has_valves(size->nominal_m)) {
            insert_size(sizes, count, size);
            count += 1;
        }
    }
    pass->survey->station_family = family;
    pass->survey->site.station_sizes = sizes;
    pass->survey->site.station_size_count = count;
}

/* A pipe is named by its bore or by its outside: of one whose walls take much the bore decides, so that a
 * 32 mm multilayer pipe of 26 mm takes a 1 in valve (our assumption: a fifth over the bore). */
static double trade_size_m(const qll_pipe_size *size)
{
    const double over_bore = 1.2;
    return size == NULL ? (double)NAN : fmin(size->nominal_m, over_bore * size->bore_m);
}

/* The pipes that no valve may exceed. */
static void fill_sizes(qll_survey *survey)
{
    const qll_pipe_size *service = survey->service_size;
    const qll_pipe_size *station = survey->station_size;
    survey->site.service_m = trade_size_m(service);
    /* fmin() passes over the one that is not known. */
    survey->site.pipe_limit_m = fmin(survey->site.service_m, trade_size_m(station));
}

/* ---- the whole ---- */

static bool make_words(qll_survey_pass *pass)
{
    size_t family_count = 0;
    const qll_pipe_family *families = qll_pipe_families(&family_count);
    size_t fitting_count = 0;
    const qll_fitting *fittings = qll_fittings(&fitting_count);
    const char **words =
        qll_reader_take(&pass->reader, family_count + fitting_count, sizeof *words);
    if (words == NULL) {
        return false;
    }
    for (size_t i = 0; i < family_count; i++) {
        words[i] = families[i].word;
    }
    for (size_t i = 0; i < fitting_count; i++) {
        words[family_count + i] = fittings[i].word;
    }
    pass->family_words = words;
    pass->family_count = family_count;
    pass->fitting_words = words + family_count;
    pass->fitting_count = fitting_count;
    return true;
}

static void read_parts(qll_survey_pass *pass)
{
    qll_survey *survey = pass->survey;
    survey->units = qll_object_word(&pass->root, "units") == 1 ? QLL_UNITS_SI : QLL_UNITS_US;
    pass->reader.units = survey->units;
    survey->name = qll_object_text(&pass->root, "name");
    survey->site.name = survey->name;
    read_project(pass);
    read_site(pass);
    qll_read_supply(pass);
    read_water(pass);
    qll_read_upstream(pass);
    read_station_pipe(pass);
    fill_sizes(survey);
    qll_read_downstream(pass);
    qll_read_scenarios(pass);
    read_limits(pass);
    qll_read_existing(pass);
    survey->costs = qll_read_costs(&pass->root);
}

qll_status qll_survey_read(const qll_document *document, const qll_tables *tables, qll_arena *arena,
                           qll_survey *survey, qll_assumed *assumed, qll_problems *problems)
{
    *survey = (qll_survey){.site = {.service_m = NAN,
                                    .pipe_limit_m = NAN,
                                    .heater = {.volume_m3 = NAN},
                                    .tank = {.volume_m3 = NAN}}};
    survey->site.supply.static_high_pa_gauge = NAN;
    survey->site.supply.static_low_pa_gauge = NAN;
    qll_survey_pass pass = {
        .reader = qll_reader_new(document, arena, assumed), .tables = tables, .survey = survey};
    pass.reader.barometric_pa = qll_barometric_pa(0.0);
    if (!make_words(&pass)) {
        return QLL_NO_MEMORY;
    }
    if (qll_reader_begins(&pass.reader, document->root, &qll_group_survey)) {
        pass.root = qll_object_open(&pass.reader, document->root, &qll_group_survey);
        (void)qll_object_whole(&pass.root, "survey");
        read_parts(&pass);
    }
    return qll_reader_end(&pass.reader, problems);
}
