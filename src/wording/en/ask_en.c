#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_ASK]

const char *const qll_ask_en[QLL_TEXT_SIZE(ASK)] = {
    /* what a question asks for */
    SAYS(SEED_UNKNOWN) = "{1} is not a seed; write a whole number of at most 18 digits",
    SAYS(SHEETS_UNKNOWN) = "{1} has no sheets; there are sheets of {2}",
    SAYS(PART_UNKNOWN) = "{1} is not a part of {3}; its parts are {2}",
    SAYS(PARTS_NONE) = "only demand, design, check and report have parts",
    SAYS(FIGURES_NONE) = "only demand, design and check in JSON have figures in them",
    SAYS(SECTION_UNKNOWN) = "{1} is not a section of a report",
    SAYS(FIGURE_UNKNOWN) = "{1} is not a figure of a report",
    SAYS(FORM_WRONG) = "a report is HTML, SVG or JSON, other answers are text or JSON",
    SAYS(UNITS_UNKNOWN) = "{1} is not a system of units; write us or si",
    SAYS(LANGUAGE_UNKNOWN) = "{1} is not a language of the sheets; there are {2}",
    SAYS(DOCUMENT_MISSING) = "no document was given",
    SAYS(CALC_UNKNOWN) = "there is no calculation {1}",
    SAYS(HINT_CALC_LIST) = "quell calc lists them",
    SAYS(ARGUMENT_UNPARTED) = "{1} is not key=value",
    SAYS(HINT_ARGUMENT) = "write it like flow=12gpm",
    SAYS(FLOW_RANGE) = "the flow must be between 0 and 1 m3/s (15850 gpm)",
    SAYS(INLET_RANGE) = "the inlet pressure must be above 0 and at most 50 bar (725 psi)",
    SAYS(EXISTING_MISSING) = "\"existing\" is missing: there is no station to check",
    SAYS(HINT_ADD_EXISTING) = "add \"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"id in the catalog\", \"set_pressure\": \"60 psi\"}]}]}",
    SAYS(WARN_FULL_TRAVEL) = "no point is past full travel, so the full Kv is not known; full travel is taken at the last point",
    SAYS(HINT_ADD_KV) = "add a column kv with the data sheet's full Kv",
    SAYS(FIGURE_NUMBER) = "there is no figure with that number; scenarios and valves count from 1",
    SAYS(LOG_NOT_HANDED_IN) = "the log {1} was not handed in with the survey",
    SAYS(LOG_NOT_READ) = "cannot read the log {1}: {2}",
    SAYS(HINT_IN_SURVEY) = "{1} (in the survey, at scenarios[{2}])",
};
