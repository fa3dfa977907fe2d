#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_ASK]

const char *const qll_ask_en[QLL_TEXT_SIZE(ASK)] = {
    /* what a question asks for */
    SAYS(SEED_UNKNOWN) = "{1} is no seed; write a whole number of at most 18 digits",
    SAYS(SHEETS_UNKNOWN) = "{1} has no sheets; they are of {2}",
    SAYS(LENGTH_UNKNOWN) = "{1} is no length of a report; it is short or full",
    SAYS(DATE_UNKNOWN) = "{1} is no date; write it like 2026-11-30",
    SAYS(PART_UNKNOWN) = "{1} is no part of {3}; its parts are {2}",
    SAYS(PARTS_NONE) = "only demand, design, check and report have parts",
    SAYS(FIGURES_NONE) = "only demand, design and check in JSON have figures in them",
    SAYS(SECTION_UNKNOWN) = "{1} is no section of a report",
    SAYS(FIGURE_UNKNOWN) = "{1} is no figure of a report",
    SAYS(FORM_WRONG) = "a report is HTML, SVG or JSON, other answers are text or JSON",
    SAYS(UNITS_UNKNOWN) = "{1} is no system of units; it is us or si",
    SAYS(LANGUAGE_UNKNOWN) = "{1} is no language of the sheets; known are {2}",
    SAYS(DOCUMENT_MISSING) = "no document is given",
    SAYS(CALC_UNKNOWN) = "there is no calculation {1}",
    SAYS(HINT_CALC_LIST) = "quell calc lists them",
    SAYS(ARGUMENT_UNPARTED) = "{1} is not key=value",
    SAYS(HINT_ARGUMENT) = "write it like flow=12gpm",
    SAYS(FLOW_RANGE) = "the flow must lie between 0 and 1 m3/s (15850 gpm)",
    SAYS(INLET_RANGE) = "the inlet pressure must lie above 0 and up to 50 bar (725 psi)",
    SAYS(EXISTING_MISSING) = "\"existing\" is missing: there is no station to check",
    SAYS(HINT_ADD_EXISTING) = "add \"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"id in the catalogue\", \"set_pressure\": \"60 psi\"}]}]}",
    SAYS(WARN_FULL_TRAVEL) = "no point lies beyond full travel, so that the full Kv is not known; full travel is taken at the last point",
    SAYS(HINT_ADD_KV) = "add a column kv with the full Kv of the sheet",
    SAYS(FIGURE_NUMBER) = "there is no figure of that number; scenarios and valves count from 1",
    SAYS(LOG_NOT_HANDED_IN) = "the log {1} was not handed in with the survey",
    SAYS(LOG_NOT_READ) = "cannot read the log {1}: {2}",
    SAYS(HINT_IN_SURVEY) = "{1} (in the survey, at scenarios[{2}])",
};
