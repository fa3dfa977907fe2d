#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_ASK]

const char *const qll_ask_es[QLL_TEXT_SIZE(ASK)] = {
    /* what a question asks for */
    SAYS(SEED_UNKNOWN) = "{1} no es una semilla; escriba un número entero de 18 cifras como máximo",
    SAYS(SHEETS_UNKNOWN) = "{1} no tiene hojas; las hay de {2}",
    SAYS(LENGTH_UNKNOWN) = "{1} no es una extensión del informe; puede ser short o full",
    SAYS(DATE_UNKNOWN) = "{1} no es una fecha; escríbala como 2026-11-30",
    SAYS(PART_UNKNOWN) = "{1} no es una parte de {3}; sus partes son {2}",
    SAYS(PARTS_NONE) = "solo demand, design, check y report tienen partes",
    SAYS(FIGURES_NONE) = "solo demand, design y check en JSON llevan figuras",
    SAYS(SECTION_UNKNOWN) = "{1} no es una sección de un informe",
    SAYS(FIGURE_UNKNOWN) = "{1} no es una figura de un informe",
    SAYS(FORM_WRONG) = "un informe es HTML, SVG o JSON; las demás respuestas, texto o JSON",
    SAYS(UNITS_UNKNOWN) = "{1} no es un sistema de unidades; es us o si",
    SAYS(LANGUAGE_UNKNOWN) = "{1} no es un idioma de las hojas; se conocen {2}",
    SAYS(DOCUMENT_MISSING) = "no se indica ningún documento",
    SAYS(CALC_UNKNOWN) = "no existe el cálculo {1}",
    SAYS(HINT_CALC_LIST) = "quell calc los muestra",
    SAYS(ARGUMENT_UNPARTED) = "{1} no es clave=valor",
    SAYS(HINT_ARGUMENT) = "escríbalo como flow=12gpm",
    SAYS(FLOW_RANGE) = "el caudal debe estar entre 0 y 1 m3/s (15850 gpm)",
    SAYS(INLET_RANGE) = "la presión de entrada debe estar por encima de 0 y hasta 50 bar (725 psi)",
    SAYS(EXISTING_MISSING) = "falta \"existing\": no hay estación que comprobar",
    SAYS(HINT_ADD_EXISTING) = "añada \"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"id del catálogo\", \"set_pressure\": \"60 psi\"}]}]}",
    SAYS(WARN_FULL_TRAVEL) =
        "ningún punto queda más allá de la carrera completa, así que no se conoce el Kv completo; la carrera completa se toma en el último punto",
    SAYS(HINT_ADD_KV) = "añada una columna kv con el Kv completo de la ficha",
    SAYS(FIGURE_NUMBER) = "no hay figura con ese número; escenarios y válvulas se cuentan desde 1",
    SAYS(LOG_NOT_HANDED_IN) = "el registro {1} no se entregó con los datos",
    SAYS(LOG_NOT_READ) = "no se puede leer el registro {1}: {2}",
    SAYS(HINT_IN_SURVEY) = "{1} (en los datos, en scenarios[{2}])",
};
