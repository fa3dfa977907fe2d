/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/messages.h"

const char *const qll_findings_es[QLL_FINDING_COUNT] = {
    [QLL_FINDING_DELIVERY_MET] =
        "{outlet}: sobran {value} en el caudal punta con el suministro en su mínimo[ "
        "({scenario})].",
    [QLL_FINDING_DELIVERY_TIGHT] =
        "{outlet}: recibe justo lo que necesita en el caudal punta con el suministro en su "
        "mínimo; sobran {value}[ ({scenario})].",
    [QLL_FINDING_DELIVERY_SHORT] =
        "{outlet}: faltan {shortage} para lo que necesita en el caudal punta con el suministro "
        "en su mínimo[ ({scenario})].",
    [QLL_FINDING_FALLOFF_MET] =
        "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo; "
        "se admiten {limit}[ ({scenario})].",
    [QLL_FINDING_FALLOFF_TIGHT] =
        "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo, "
        "cerca de los {limit} admitidos[ ({scenario})].",
    [QLL_FINDING_FALLOFF_ABOVE] =
        "La presión de salida cae {value} en el caudal punta con el suministro en su mínimo; "
        "solo se admiten {limit}[ ({scenario})].",
    [QLL_FINDING_STATIC_MET] =
        "Sin consumo y con el suministro en su máximo, la presión estática de salida es de "
        "{value}; se admiten {limit}.",
    [QLL_FINDING_STATIC_NEAR] =
        "Sin consumo y con el suministro en su máximo, la presión estática de salida es de "
        "{value}, poco por debajo de los {limit} admitidos.",
    [QLL_FINDING_STATIC_ABOVE] =
        "Sin consumo y con el suministro en su máximo, la presión estática de salida es de "
        "{value}, por encima de los {limit} admitidos.",
    [QLL_FINDING_RATIO_PREFERRED] =
        "{subject} reduce {value}:1 en el peor caso; hasta {limit}:1 trabaja sin ruido.",
    [QLL_FINDING_RATIO_HIGH] =
        "{subject} reduce {value}:1 en el peor caso; se prefiere hasta {limit}:1, y hacia 3:1 "
        "el ruido es probable.",
    [QLL_FINDING_RATIO_ABOVE_MAX] =
        "{subject} reduce {value}:1 en el peor caso; por encima de {limit}:1 conviene repartir "
        "la caída entre más etapas.",
    [QLL_FINDING_VELOCITY_IN_BAND] =
        "{subject} trabaja con {value} en su tubería, dentro de la banda; {peak} en el caudal "
        "punta.",
    [QLL_FINDING_VELOCITY_SLOW] =
        "{subject} trabaja con {value} en su tubería, por debajo de la banda, que empieza en "
        "{limit}; {peak} en el caudal punta.",
    [QLL_FINDING_VELOCITY_OVERSIZED] =
        "{subject} está sobredimensionada: su tubería solo llega a {peak} incluso en el caudal "
        "punta, y la banda empieza en {limit}[; una de {size} no lo estaría].",
    [QLL_FINDING_VELOCITY_FAST] =
        "{subject} trabaja con {value} en su tubería, por encima de la banda, que acaba en "
        "{limit}; {peak} en el caudal punta.",
    [QLL_FINDING_VELOCITY_PEAK_FAST] =
        "{subject} trabaja con {value} en su tubería, pero llega a {peak} en el caudal punta; "
        "la banda acaba en {limit}.",
    [QLL_FINDING_VELOCITY_ABOVE_MAX] =
        "{subject} es demasiado pequeña: {peak} en su tubería en el caudal punta, cuando el "
        "máximo es {limit}[; bastaría una de {size}].",
    [QLL_FINDING_CAPACITY_IN_HAND] =
        "{subject} tiene carrera de sobra en el caudal punta: abre {value%}.",
    [QLL_FINDING_CAPACITY_NEAR_FULL] =
        "{subject} está casi totalmente abierta en el caudal punta: {value%}.",
    [QLL_FINDING_CAPACITY_FULL_TRAVEL] =
        "{subject} está totalmente abierta en el caudal punta con el suministro en su mínimo y "
        "ya no regula.",
    [QLL_FINDING_CAPACITY_CANNOT_PASS] =
        "{subject} no puede dar el caudal punta con el suministro en su mínimo.",
    [QLL_FINDING_LOW_FLOW_STABLE] =
        "{subject}: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal "
        "estable, con {peak%} del agua.",
    [QLL_FINDING_LOW_FLOW_SOME] =
        "{subject}: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal "
        "estable, con {peak%} del agua: entonces puede traquetear; es una estimación.",
    [QLL_FINDING_LOW_FLOW_MUCH] =
        "{subject}: {value%} del tiempo con caudal transcurre por debajo de su mínimo caudal "
        "estable, con {peak%} del agua: traqueteará; es una estimación.",
    [QLL_FINDING_CAVITATION_QUIET] =
        "{subject} llega a {value} del umbral de cavitación en el peor caso[: {at_flow} "
        "desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} con el umbral en "
        "{onset}].",
    [QLL_FINDING_CAVITATION_SOMETIMES] =
        "{subject} llega a {value} veces el umbral de cavitación en el peor caso[: "
        "{at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} con el "
        "umbral en {onset}]; {peak%} del tiempo con caudal hay cavitación audible[; dos "
        "etapas con unos {split} entre ellas lo repartirían].",
    [QLL_FINDING_CAVITATION_OFTEN] =
        "{subject} llega a {value} veces el umbral de cavitación en el peor caso[: "
        "{at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} con el "
        "umbral en {onset}]; {peak%} del tiempo con caudal hay cavitación audible[; dos "
        "etapas con unos {split} entre ellas lo repartirían].",
    [QLL_FINDING_CAVITATION_DAMAGING] =
        "{subject} llega a {value} veces el umbral de cavitación en el peor caso[: "
        "{at_flow} desde {at_inlet}, {absolute}:1 en presiones absolutas, xF {xf} con el "
        "umbral en {onset}]: hace ruido y daña el asiento; {peak%} del tiempo con caudal "
        "hay cavitación[; dos etapas con unos {split} entre ellas lo repartirían].",
    [QLL_FINDING_NOISE_QUIET] =
        "{subject} llega a {value} a 1 m en lo más ruidoso, sin contar instantes[, "
        "{peak} con su caudal típico]; hasta {limit} basta una pared ligera para un dormitorio. "
        "Valor indicativo.",
    [QLL_FINDING_NOISE_HEARD] =
        "{subject} llega a {value} a 1 m en lo más ruidoso, sin contar instantes[, "
        "{peak} con su caudal típico]; por encima de {limit} se oye a través de una pared "
        "ligera. Valor indicativo.",
    [QLL_FINDING_NOISE_LOUD] =
        "{subject} llega a {value} a 1 m en lo más ruidoso, sin contar instantes[, "
        "{peak} con su caudal típico]; por encima de {limit} no hay pared que baste para un "
        "dormitorio. Valor indicativo.",
    [QLL_FINDING_NOISE_PLASTIC] =
        "Sin nivel sonoro: el método es para tubería metálica, y la de la estación es de plástico.",
    [QLL_FINDING_NOISE_FLASHING] =
        "Sin nivel sonoro, queda fuera del método: el agua se vaporiza en una válvula, y eso hace "
        "mucho ruido.",
    [QLL_FINDING_NOISE_CHOKED] =
        "Sin nivel sonoro, queda fuera del método: una válvula está bloqueada por cavitación, y "
        "eso hace mucho ruido.",
    [QLL_FINDING_NOISE_XF_HIGH] =
        "Sin nivel sonoro, queda fuera del método: una válvula reduce más de 0.8 de la presión "
        "sobre la de ebullición, y eso hace mucho ruido.",
    [QLL_FINDING_RATING_WITHIN] =
        "{subject} recibe como máximo {value} a la entrada y admite {limit}.",
    [QLL_FINDING_RATING_INLET] =
        "{subject} puede recibir {value} a la entrada y solo admite {limit}.",
    [QLL_FINDING_RATING_SET_RANGE] =
        "{subject} se ajustaría a {value}, fuera de su margen, que acaba en {limit}.",
    [QLL_FINDING_RATING_TEMPERATURE] = "{subject} recibe agua a {value} y solo admite {limit}.",
    [QLL_FINDING_EXPANSION_NO_HEATER] =
        "No se indica ningún calentador detrás de la estación, así que no se ha mirado la "
        "dilatación del agua caliente.",
    [QLL_FINDING_EXPANSION_TANK_ENOUGH] =
        "El vaso de expansión de {limit} admite lo que empuja el calentador; bastaría {value} "
        "cargado a {precharge}.",
    [QLL_FINDING_EXPANSION_TANK_MISSING] =
        "Nada detrás de la estación recoge lo que empuja el calentador, no se indica vaso de "
        "expansión: hace falta uno de {value}, cargado a {precharge} antes de llenarlo.",
    [QLL_FINDING_EXPANSION_BYPASS] =
        "El by-pass de las válvulas devuelve a la red lo que empuja el calentador; la red llega a "
        "{value} como máximo y se permiten {limit}. Una válvula de retención antes de la estación "
        "lo impediría.",
    [QLL_FINDING_EXPANSION_TANK_SMALL] =
        "El vaso de expansión de {limit}, cargado como está, admite demasiado poco de lo que "
        "empuja el calentador; bastaría {value} cargado a {precharge}.",
    [QLL_FINDING_EXPANSION_NO_ROOM] =
        "La salida sin caudal, {value}, no deja sitio a un vaso de expansión por debajo de los "
        "{limit} admitidos.",
    [QLL_FINDING_EXPANSION_RELIEF_NEAR] =
        "La válvula de alivio del calentador, tarada a {value}, queda poco por encima de la "
        "presión sin caudal[, {precharge}]: {limit} dejaría margen.",
    [QLL_FINDING_EXPANSION_RELIEF_LOW] =
        "La válvula de alivio del calentador, tarada a {value}, es demasiado baja para la "
        "presión sin caudal[, {precharge}]: necesita {limit} o más.",
    [QLL_FINDING_STRAINER_EASY] =
        "Los filtros medio obstruidos quitan {value} a la salida en el caudal punta con el "
        "suministro en su mínimo[ ({scenario})].",
    [QLL_FINDING_STRAINER_EATS] =
        "Los filtros medio obstruidos quitan {value} a la salida en el caudal punta con el "
        "suministro en su mínimo, y solo sobran {limit}[ ({scenario})]: manténgalos limpios o "
        "ponga otros mayores.",
};
