/* What is said of the station that a design came to, in Spanish. */
#include "wording/language.h"

#define QLL_AT(name) [QLL_SAYS_##name - QLL_DESIGN_FIRST]

const char *const qll_design_es[QLL_CALC_FIRST - QLL_DESIGN_FIRST] = {
    QLL_AT(CHANCE_ONE_IN) = "1 de cada {count}",
    QLL_AT(CHANCE_TWO_THIRDS) = "2 de cada 3",
    QLL_AT(CHANCE_THREE_QUARTERS) = "3 de cada 4",
    QLL_AT(CHANCE_HARDLY) = "casi nunca",
    QLL_AT(CHANCE_NEARLY) = "casi siempre",
    QLL_AT(CHANCE_ABOUT) = "alrededor de {value}",
    QLL_AT(CHANCE_TIMES) = "alrededor de {value} veces",
    QLL_AT(MONEY_IN) = "{value} {unit}",
    QLL_AT(INSTALL) = "Instale {station}.",
    QLL_AT(PURCHASE_ONE) = "una válvula de {size}, {valve}",
    QLL_AT(CALLBACK) = "Lo llamarán otra vez: {chance}[, lo más probable porque {why}].",
    QLL_AT(COST_IN) = "Costo: unos {value} instalada, {total} con visitas.",
    QLL_AT(COST_OWN) =
        "Costo: unos {value} instalada, {total} con visitas (en la moneda del catálogo).",
    QLL_AT(STOPPED) = "La búsqueda se detuvo antes de su final: esto es lo mejor de lo probado "
                      "hasta entonces[; nada baja de {value} con visitas].",
    QLL_AT(SIMPLER_CHEAPER) =
        "{station}: costaría {value} menos instalar y lo haría volver {chance}[: {why}].",
    QLL_AT(SIMPLER_DEARER) =
        "{station}: costaría {value} más instalar y lo haría volver {chance}[: {why}].",
    QLL_AT(ONE_VALVE_DOES) =
        "Basta una válvula: instalar {station} costaría {value} más y lo haría volver "
        "{chance}.",
    QLL_AT(ALONE) = "Una válvula de {size} sola",
    QLL_AT(NOT_FIT) = "NO APTA PARA INSTALAR: nada del catálogo cumple aquí todas las reglas.",
    QLL_AT(NOTHING_FITS) = "NO APTA PARA INSTALAR: ninguna de las {count} válvulas del catálogo se "
                           "puede montar aquí.",
    QLL_AT(IN_THE_WAY) = "Qué impide la que más se acerca",
    QLL_AT(WOULD_MEND) = "Qué lo remediaría",
    QLL_AT(NEAREST) = "La que más se acerca: {station}. No apta para instalar tal como está.",
    QLL_AT(MENDS_CATALOGUE) = "Otro catálogo: válvulas de otros tamaños, tipos o rangos de ajuste.",
    QLL_AT(BREAKS_SET_RANGE) =
        "Una válvula tendría que ajustarse a {value}; su rango termina en {limit}.",
    QLL_AT(BREAKS_TEMPERATURE) = "El agua está a {value}; una válvula admite {limit}.",
    QLL_AT(NO_VALVE) = "No hace falta válvula: sin consumo y con el suministro en su máximo, "
                       "{outlet} está a {value}; se admiten {limit}.",
    QLL_AT(NO_VALVE_PLACE) = "el lugar de la estación",
    QLL_AT(NO_VALVE_SHORT) =
        "Lo que falta ahí no lo da ninguna válvula reductora: una acometida o un "
        "contador mayores, o un grupo de presión.",
    QLL_AT(NO_VALVE_ALWAYS) =
        "Escriba \"station\": \"always\" en \"downstream\" para que se diseñe una "
        "estación de todos modos.",
    QLL_AT(WITHOUT_VALVE) = "Qué reciben los puntos de consumo sin ella",
    QLL_AT(HEAD_STILL) = "sin consumo, suministro máximo",
    QLL_AT(HEAD_AT_PEAK) = "caudal punta, suministro mínimo",
    QLL_AT(HEAD_IN_HAND) = "de sobra ahí",
    QLL_AT(SHORT_BY) = "faltan {value}",
    QLL_AT(SET) = "Ajuste (presiones manométricas)",
    QLL_AT(ALSO) = "Cada una con lo que cuesta instalada, cada cuánto lo hace volver y por qué "
                   "no es la elegida",
    QLL_AT(HEAD_INSTALLED) = "instalada",
    QLL_AT(HEAD_INSTALLED_IN) = "instalada, {unit}",
    QLL_AT(HEAD_CALLBACK) = "lo llaman",
    QLL_AT(HEAD_WHY_NOT) = "por qué no",
    QLL_AT(SIMPLER_ONE) = "más sencilla",
    QLL_AT(AS_GOOD_ONE) = "casi igual de buena",
    QLL_AT(NEAREST_ONE) = "la más cercana, no apta",
    QLL_AT(WHY_NOT_FIT) = "no apta. {what}",
    QLL_AT(WHY_NOT_CALLBACK) = "{why}",
    QLL_AT(WHY_NOT_DEARER) = "{value} más cara de instalar",
    QLL_AT(WHY_NOT_ALIKE) = "viene a ser casi lo mismo",
    QLL_AT(HANGS_ON) = "De qué depende la elección",
    QLL_AT(HANGS_ON_NOTHING) = "Nada dentro de los márgenes usuales cambia el tipo de estación.",
    QLL_AT(HANG) = "{what} {then}.",
    QLL_AT(HANG_INSTEAD) = "sería: {station}",
    QLL_AT(HANG_NO_NEED) = "no haría falta válvula",
    QLL_AT(HANG_NOT_FIT) = "nada del catálogo sería apto para instalar",
    QLL_AT(HEARD_SAME_ROOM) = "en el mismo cuarto",
    QLL_AT(HEARD_NEXT_ROOM) = "en el cuarto de al lado",
    QLL_AT(HEARD_PLANT_ROOM) = "lejos, con la estación en un cuarto de máquinas",
    QLL_AT(ASSUMED_LINE) = "{what}: {value} ({why})",
    QLL_AT(NO_WATER) = "sin agua",
    QLL_AT(WATER) = "El agua de cada escenario",
    QLL_AT(MECHANISM_CHATTER) = "traquetea con caudales pequeños",
    QLL_AT(MECHANISM_NOISE) = "se oye silbar cuando corre mucha agua",
    QLL_AT(MECHANISM_CAVITATION) = "cavita",
    QLL_AT(MECHANISM_WEAR) = "desgasta su asiento: el agua va demasiado rápida en ella",
    QLL_AT(MECHANISM_STARVED) = "deja cortos los puntos de consumo cuando corre mucha agua",
    QLL_AT(MECHANISM_PRESSURE) = "deja subir demasiado los puntos de consumo sin consumo",
    QLL_AT(MECHANISM_HUNTING) = "oscila: sus válvulas trabajan una contra otra",
    QLL_AT(BREAKS_RATING) = "Una válvula tendría {value} a su entrada; admite {limit}.",
    QLL_AT(BREAKS_SIZE) = "Una válvula de {value} es mayor que la tubería de {limit} en que se "
                          "montaría.",
    QLL_AT(BREAKS_PILOT) = "Una válvula pilotada iría en una acometida de {value}; lo mínimo para "
                           "ella es {limit}.",
    QLL_AT(BREAKS_RATIO) = "Una etapa reduciría {value}:1; lo máximo es {limit}:1.",
    QLL_AT(BREAKS_ORDER) =
        "En el caudal punta la primera etapa mantiene {value}; debe mantener {limit} "
        "para quedar por encima de la siguiente.",
    QLL_AT(BREAKS_HANDOVER) =
        "Las consignas de las válvulas en paralelo quedan demasiado juntas, o "
        "demasiado separadas, para relevarse.",
    QLL_AT(BREAKS_SPEED) =
        "En el caudal punta el agua pasa a {value} por una válvula; lo máximo es "
        "{limit}.",
    QLL_AT(BREAKS_DELIVERY) = "En el caudal punta y con el suministro en su mínimo la salida de la "
                              "estación mantiene {value}; ahí hacen falta {limit}.",
    QLL_AT(BREAKS_STATIC) =
        "Sin consumo la salida de la estación está a {value}; {limit} es lo máximo "
        "por el punto de consumo más bajo.",
    QLL_AT(MENDS_RATING) =
        "Una presión de consigna dentro del rango de alguna válvula, o un catálogo "
        "con válvulas para este lugar.",
    QLL_AT(MENDS_SIZE) = "Una acometida o tubería de estación mayor, o un catálogo con válvulas "
                         "menores.",
    QLL_AT(MENDS_PILOT) = "Un catálogo con válvulas directas de ese tamaño, o una acometida mayor.",
    QLL_AT(MENDS_RATIO) = "Una etapa más delante, o una presión mayor detrás de la estación.",
    QLL_AT(MENDS_ORDER) = "Una presión menor detrás de la estación, o válvulas con menos caída "
                          "(pilotadas).",
    QLL_AT(MENDS_HANDOVER) =
        "Un catálogo con otros tamaños: una válvula chica y otra al menos el doble "
        "de grande.",
    QLL_AT(MENDS_SPEED) = "Una acometida o tubería de estación mayor con válvulas mayores, o una "
                          "segunda válvula al lado.",
    QLL_AT(MENDS_DELIVERY) =
        "Una acometida o un contador mayores, tuberías mayores hasta los puntos de "
        "consumo, válvulas con menos caída, o un grupo de presión donde la calle "
        "no lo da.",
    QLL_AT(MENDS_STATIC) = "Una presión menor detrás de la estación, válvulas que suban menos sin "
                           "consumo, o una válvula propia para los pisos más bajos.",
    QLL_AT(ROLE_RECOMMENDED) = "recomendada",
    QLL_AT(ROLE_CHEAPEST) = "la más barata que sirve",
    QLL_AT(ROLE_QUIETEST) = "la más silenciosa",
    QLL_AT(ROLE_USUAL) = "la usual",
    QLL_AT(ROLE_NEXT) = "la siguiente",
    QLL_AT(CLOSE_NOT) = "La elección no es ajustada.",
    QLL_AT(CLOSE_WITHIN) =
        "Elección ajustada: con {station} el costo es solo {share} mayor, contadas las "
        "visitas.",
    QLL_AT(CLOSE_VISIT_HALVED) =
        "Elección ajustada: si una visita costara la mitad lo mejor sería {station}; así "
        "el costo es {share} mayor, contadas las visitas.",
    QLL_AT(CLOSE_VISIT_DOUBLED) =
        "Elección ajustada: si una visita costara el doble lo mejor sería {station}; así "
        "el costo es {share} mayor, contadas las visitas.",
    QLL_AT(CLOSE_WEIGHTS_HALVED) =
        "Elección ajustada: si la gente se quejara la mitad lo mejor sería {station}; así "
        "el costo es {share} mayor, contadas las visitas.",
    QLL_AT(CLOSE_WEIGHTS_DOUBLED) =
        "Elección ajustada: si la gente se quejara el doble lo mejor sería {station}; así "
        "el costo es {share} mayor, contadas las visitas.",
    QLL_AT(CLOSE_DEMAND_HALVED) =
        "Elección ajustada: si se usara la mitad de agua lo mejor sería {station}; así el "
        "costo es {share} mayor, contadas las visitas.",
    QLL_AT(CLOSE_DEMAND_DOUBLED) =
        "Elección ajustada: si se usara el doble de agua lo mejor sería {station}; así el "
        "costo es {share} mayor, contadas las visitas.",
    QLL_AT(JUST_OVER) = "poco más de {value}",
    QLL_AT(JUST_UNDER) = "poco menos de {value}",
    QLL_AT(MORE_STREET) = "Con {value} o más en la calle (aquí {now})",
    QLL_AT(MORE_WANTED) = "Con {value} o más deseados detrás de la estación (aquí {now})",
    QLL_AT(MORE_DEMAND) = "Con {times} veces el agua diaria de este edificio, o más,",
    QLL_AT(MORE_PEAK) = "Con un caudal punta de {value} o más (aquí {now})",
    QLL_AT(MORE_PEOPLE) = "Con gente {value} (aquí {now})",
    QLL_AT(MORE_VISIT) = "Con {value} o más por visita (aquí {now})",
    QLL_AT(MORE_LEAST_FLOW) = "Con {times} veces el mínimo caudal estable tomado aquí, o más,",
    QLL_AT(LESS_STREET) = "Con {value} o menos en la calle (aquí {now})",
    QLL_AT(LESS_WANTED) = "Con {value} o menos deseados detrás de la estación (aquí {now})",
    QLL_AT(LESS_DEMAND) = "Con {times} veces el agua diaria de este edificio, o menos,",
    QLL_AT(LESS_PEAK) = "Con un caudal punta de {value} o menos (aquí {now})",
    QLL_AT(LESS_PEOPLE) = "Con gente {value} (aquí {now})",
    QLL_AT(LESS_VISIT) = "Con {value} o menos por visita (aquí {now})",
    QLL_AT(LESS_LEAST_FLOW) = "Con {times} veces el mínimo caudal estable tomado aquí, o menos,",
};
