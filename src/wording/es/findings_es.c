/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/language.h"

#define SAYS(name) [QLL_FINDING_##name]

const char *const qll_findings_es[QLL_FINDING_COUNT] = {
    SAYS(DELIVERY_MET) = "{outlet}: sobran {value} en el caudal punta con el suministro en su mínimo[ ({scenario})].",
    SAYS(DELIVERY_TIGHT) =
        "{outlet}: recibe lo que necesita en el caudal punta con el suministro en su mínimo, con poco margen; sobran {value}[ ({scenario})].",
    SAYS(DELIVERY_SHORT) = "{outlet}: faltan {shortage} para lo que necesita en el caudal punta con el suministro en su mínimo[ ({scenario})].",
    SAYS(DELIVERY_STREET) = "{outlet}: faltan {shortage} para lo que necesita en el caudal punta con el suministro en su mínimo[ "
                            "({scenario})]: la calle no da más, y ninguna válvula lo remedia.",
    SAYS(DELIVERY_UNKNOWN) = "No se puede calcular la pérdida hasta {outlet}, así que no se examinó lo que le llega.",
    SAYS(FALLOFF_MET) = "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo; se admiten {limit}[ ({scenario})].",
    SAYS(FALLOFF_TIGHT) = "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo, cerca de los {limit} admitidos[ ({scenario})].",
    SAYS(FALLOFF_ABOVE) = "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo; solo se admiten {limit}[ ({scenario})].",
    SAYS(FALLOFF_STREET) = "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo, y se admiten "
                           "{limit}[ ({scenario})]: la calle no da más, y ninguna válvula lo remedia.",
    SAYS(STATIC_MET) = "Sin consumo y con el suministro en su máximo, {lowest} queda a {value}; se admiten {limit}.",
    SAYS(STATIC_NEAR) = "Sin consumo y con el suministro en su máximo, {lowest} queda a {value}, poco por debajo de los {limit} admitidos.",
    SAYS(STATIC_ABOVE) = "Sin consumo y con el suministro en su máximo, {lowest} queda a {value}, por encima de los {limit} admitidos.",
    SAYS(RATIO_PREFERRED) = "{subject} reduce {value}:1 con el suministro en su máximo; hasta {limit}:1 trabaja sin ruido.",
    SAYS(RATIO_HIGH) = "{subject} reduce {value}:1 con el suministro en su máximo; se prefiere hasta {limit}:1, y hacia 3:1 el ruido es probable.",
    SAYS(RATIO_ABOVE_MAX) = "{subject} reduce {value}:1 con el suministro en su máximo; por encima de {limit}:1 conviene repartir la caída entre más etapas.",
    SAYS(VELOCITY_IN_BAND) = "{subject} trabaja con {value} en su propio tamaño, dentro de la banda del oficio; {peak} en el caudal punta.",
    SAYS(VELOCITY_SLOW) =
        "{subject} trabaja con {value} en su propio tamaño, por debajo de la banda del oficio, que empieza en {limit}; {peak} en el caudal punta. El agua "
        "lenta por sí sola no daña; véase caudal bajo.",
    SAYS(VELOCITY_QUICK) =
        "{subject} trabaja con {value} en su propio tamaño, por encima de la banda del oficio, que acaba en {limit}; {peak} en el caudal punta. No es bastante "
        "rápida durante bastante tiempo para desgastarla.",
    SAYS(VELOCITY_FAST) =
        "{subject} va rápida mucho tiempo: {value} en su propio tamaño según el agua, {peak} en el caudal punta; desde {limit} el agua desgasta el asiento.",
    SAYS(VELOCITY_ABOVE_MAX) =
        "{subject} es demasiado pequeña: {peak} en su propio tamaño en el caudal punta, cuando el máximo es {limit}[; bastaría una de {size}].",
    SAYS(VELOCITY_PIPE) = "La tubería[ de {pipe}] es pequeña para el caudal punta[ ({scenario})]: {value} en ella, y la regla de la tubería es {limit}.",
    SAYS(CAPACITY_IN_HAND) = "{subject} tiene carrera de sobra en el caudal punta: abre {value%}.",
    SAYS(CAPACITY_NEAR_FULL) = "{subject} está casi totalmente abierta en el caudal punta: {value%}.",
    SAYS(CAPACITY_FULL_TRAVEL) = "{subject} está totalmente abierta en el caudal punta con el suministro en su mínimo y ya no regula.",
    SAYS(CAPACITY_CANNOT_PASS) = "{subject} no puede dar el caudal punta con el suministro en su mínimo.",
    SAYS(LOW_FLOW_STABLE) =
        "{subject}: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal estable, con {peak%} del agua: muy pocas veces para que se oiga.",
    SAYS(LOW_FLOW_WEAK) = "{subject}: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal estable, con "
                          "{peak%} del agua: con muy poca potencia para que se oiga.",
    SAYS(LOW_FLOW_SOME) = "{subject} puede traquetear: {value%} del tiempo con caudal transcurre por debajo de su mínimo "
                          "caudal estable, con {peak%} del agua. Es una estimación.",
    SAYS(LOW_FLOW_MUCH) = "{subject} traqueteará: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal estable, con {peak%} del agua.",
    SAYS(CAVITATION_QUIET) = "{subject} llega a {value} del umbral de cavitación en el peor caso[: {at_flow} desde {at_inlet}, "
                             "{absolute}:1 en presiones absolutas, xF {xf} con el umbral en {onset}].",
    SAYS(CAVITATION_SLIGHT) =
        "{subject} llega a {value} veces el umbral de cavitación en el peor caso[: {at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} "
        "con el umbral en {onset}]; {peak%} del tiempo con caudal hay cavitación, muy breve o con muy poca potencia para que importe.",
    SAYS(CAVITATION_NEAR) =
        "{subject} puede cavitar: llega a {value} del umbral en el peor caso[: {at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} con el "
        "umbral en {onset}], y el umbral no se conoce mejor que eso.",
    SAYS(CAVITATION_HEARD) =
        "{subject} tiene cavitación audible: {value} veces el umbral en el peor caso[, {at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF "
        "{xf} con el umbral en {onset}], y por encima de él {peak%} del tiempo con caudal[; dos etapas con unos {split} entre ellas lo repartirían].",
    SAYS(CAVITATION_OFTEN) =
        "{subject} tiene cavitación audible mucho tiempo: {value} veces el umbral en el peor caso[, {at_flow} desde {at_inlet}, {absolute}:1 en presiones "
        "absolutas, xF {xf} con el umbral en {onset}], y por encima de él {peak%} del tiempo con caudal[; "
        "dos etapas con unos {split} entre ellas lo repartirían].",
    SAYS(CAVITATION_DAMAGING) =
        "{subject} tiene cavitación fuerte: {value} veces el umbral en el peor caso[, {at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} "
        "con el umbral en {onset}], y por encima de él {peak%} del tiempo con caudal; hace ruido y daña el "
        "asiento[; dos etapas con unos {split} entre ellas lo repartirían].",
    SAYS(NOISE_QUIET) = "{subject} llega a {value} a 1 m cuando más suena[, con {at_flow}][, {peak} con su caudal "
                        "típico]; donde hay personas se oye desde {limit}. Orientativo.",
    SAYS(NOISE_SELDOM) =
        "{subject} llega a {value} a 1 m cuando más suena[, con {at_flow}][, {peak} con su caudal típico]; donde hay personas se oye desde {limit}, pero el "
        "ruido propio del caudal muy pocas veces para una queja. Orientativo; la cavitación se juzga aparte.",
    SAYS(NOISE_HEARD) = "{subject} puede oírse: {value} a 1 m cuando más suena[, con {at_flow}][, {peak} con su caudal "
                        "típico]; las personas lo oyen desde {limit}. Orientativo.",
    SAYS(NOISE_LOUD) = "{subject} se oye donde hay personas: {value} a 1 m cuando más suena[, con {at_flow}][, {peak} con su "
                       "caudal típico]; lo oyen desde {limit}, y aquí mucho tiempo. Orientativo.",
    SAYS(NOISE_NO_PIPE) = "No se conoce la pared de la tubería de la estación, así que no se examinó el nivel sonoro.",
    SAYS(NOISE_PLASTIC) = "La tubería de la estación es de plástico y el método es para metal, así que no se examinó el nivel sonoro.",
    SAYS(NOISE_FLASHING) = "Sin nivel sonoro, queda fuera del método: el agua se vaporiza en una válvula, y eso hace mucho ruido.",
    SAYS(NOISE_CHOKED) = "Sin nivel sonoro, queda fuera del método: una válvula está bloqueada por cavitación, y eso hace mucho ruido.",
    SAYS(NOISE_XF_HIGH) =
        "Sin nivel sonoro, queda fuera del método: una válvula reduce más de 0.8 de la presión sobre la de ebullición, y eso hace mucho ruido.",
    SAYS(RATING_WITHIN) = "{subject} recibe como máximo {value} a la entrada y admite {limit}.",
    SAYS(RATING_INLET) = "{subject} puede recibir {value} a la entrada y solo admite {limit}.",
    SAYS(RATING_SET_RANGE) = "{subject} se ajustaría a {value}, fuera de su margen, que acaba en {limit}.",
    SAYS(RATING_TEMPERATURE) = "{subject} recibe agua a {value} y solo admite {limit}.",
    SAYS(EXPANSION_NO_HEATER) =
        "No se indica calentador detrás de la estación, así que no se examinó la dilatación del agua caliente en las tuberías cerradas.",
    SAYS(EXPANSION_TANK_ENOUGH) = "El vaso de expansión de {limit} basta para lo que empuja el calentador: {value} según el cálculo, cargado a {precharge}.",
    SAYS(EXPANSION_TANK_MISSING) =
        "Nada detrás de la estación recoge lo que empuja el calentador, no se indica vaso de expansión: hace falta uno de {tank}, el tamaño que se vende para "
        "{value}, cargado a {precharge} antes de llenarlo.",
    SAYS(EXPANSION_BYPASS) =
        "El by-pass de las válvulas devuelve a la red lo que empuja el calentador; la red llega a {value} como máximo y se permiten {limit}. Una válvula de "
        "retención antes de la estación lo impediría.",
    SAYS(EXPANSION_TANK_SMALL) =
        "El vaso de expansión de {limit}, cargado como está, admite demasiado poco de lo que empuja el calentador; bastaría {tank} cargado a {precharge}.",
    SAYS(EXPANSION_LITTLE_ROOM) =
        "Solo quedan {room} entre la salida sin caudal y lo admitido: un vaso de expansión tendría que ser de {value}.[ Ajuste la válvula {step1} más abajo y "
        "bastará uno de {tank1}.][ Ajústela {step2} más abajo y bastará uno de {tank2}.][ Donde el código admite la válvula de alivio como límite, {most}, "
        "basta uno de {tankr} con el ajuste actual.]",
    SAYS(EXPANSION_NO_ROOM) =
        "La salida sin caudal, {value}, no deja sitio a un vaso de expansión por debajo de los {limit} admitidos.[ Ajuste la válvula {step1} más abajo y "
        "bastará uno de {tank1}.][ Ajústela {step2} más abajo y bastará uno de {tank2}.][ Donde el código admite la válvula de alivio como límite, {most}, "
        "basta uno de {tankr} con el ajuste actual.]",
    SAYS(EXPANSION_RELIEF_NEAR) =
        "La válvula de alivio del calentador, tarada a {value}, queda poco por encima de la presión sin caudal[, {precharge}]: {limit} dejaría margen.",
    SAYS(EXPANSION_RELIEF_LOW) =
        "La válvula de alivio del calentador, tarada a {value}, es demasiado baja para la presión sin caudal[, {precharge}]: necesita {limit} o más.",
    SAYS(STRAINER_EASY) = "Los filtros medio obstruidos quitan {value} a la salida en el caudal punta con el suministro en su mínimo[ ({scenario})].",
    SAYS(STRAINER_EATS) =
        "Los filtros medio obstruidos quitan {value} a la salida en el caudal punta con el suministro en su mínimo, y solo sobran {limit}[ ({scenario})]: "
        "manténgalos limpios o ponga otros mayores.",
};
