/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_FINDING_##name]

const char *const qll_findings_es[QLL_FINDING_COUNT] = {
    QLL_PUT(DELIVERY_MET) = "Con el caudal máximo de diseño y la presión mínima de la red, a {outlet} le sobran {value}[ ({scenario})].",
    QLL_PUT(DELIVERY_TIGHT) = "Con el caudal máximo de diseño y la presión mínima de la red, {outlet} recibe lo que necesita, pero solo le sobran "
                              "{value}[ ({scenario})].",
    QLL_PUT(DELIVERY_SHORT) = "Con el caudal máximo de diseño y la presión mínima de la red, a {outlet} le faltan {shortage}[ ({scenario})].",
    QLL_PUT(DELIVERY_STREET) = "Con el caudal máximo de diseño y la presión mínima de la red, a {outlet} le faltan {shortage}[ ({scenario})]. La red no da "
                               "más; ninguna válvula lo arregla.",
    QLL_PUT(DELIVERY_UNKNOWN) = "Entrega a {outlet} no revisada: no se puede calcular la pérdida de presión hasta ahí.",
    QLL_PUT(DELIVERY_BARELY) = "Con el caudal máximo de diseño y la presión mínima de la red, {outlet} recibe justo lo que necesita y no le sobra nada[ "
                               "({scenario})].",
    QLL_PUT(FALLOFF_MET) = "La presión de salida cae {value} con el caudal máximo de diseño y la presión mínima de la red; se permiten {limit}[ ({scenario})].",
    QLL_PUT(FALLOFF_TIGHT) = "La presión de salida cae {value} con el caudal máximo de diseño y la presión mínima de la red, cerca de los {limit} "
                             "permitidos[ ({scenario})].",
    QLL_PUT(FALLOFF_ABOVE) = "La presión de salida cae {value} con el caudal máximo de diseño y la presión mínima de la red; solo se permiten {limit}[ "
                             "({scenario})].",
    QLL_PUT(FALLOFF_STREET) = "La presión de salida cae {value} con el caudal máximo de diseño y la presión mínima de la red; se permiten {limit}[ "
                              "({scenario})]. La red no da más; ninguna válvula lo arregla.",
    QLL_PUT(STATIC_MET) = "{lowest}: {value} sin caudal y con la presión máxima de la red; se permiten {limit}.",
    QLL_PUT(STATIC_NEAR) = "{lowest}: {value} sin caudal y con la presión máxima de la red, apenas bajo los {limit} permitidos.",
    QLL_PUT(STATIC_ABOVE) = "{lowest}: {value} sin caudal y con la presión máxima de la red; solo se permiten {limit}.",
    QLL_PUT(RATIO_PREFERRED) = "{subject} reduce la presión {value} a 1 con la presión máxima de la red; hasta {limit} a 1 normalmente no hace ruido.",
    QLL_PUT(RATIO_HIGH) = "{subject} reduce la presión {value} a 1 con la presión máxima de la red; es mejor hasta {limit} a 1, y hacia 3 a 1 el ruido "
                          "es probable.",
    QLL_PUT(RATIO_ABOVE_MAX) = "{subject} reduce la presión {value} a 1 con la presión máxima de la red; con más de {limit} a 1, reparta la caída entre "
                               "más etapas.",
    QLL_PUT(VELOCITY_IN_BAND) =
        "{subject}: el agua en tubería de su tamaño va[ en promedio a {value}, dentro de la banda de velocidad, y] a {peak} con el caudal máximo de diseño.",
    QLL_PUT(VELOCITY_SLOW) =
        "{subject}: el agua en tubería de su tamaño va[ en promedio a {value}, más lenta que la banda de velocidad, que empieza en {limit}, y] a {peak} con "
        "el caudal máximo de diseño. El agua lenta por sí sola no daña; vea caudal bajo.",
    QLL_PUT(VELOCITY_QUICK) =
        "{subject}: el agua en tubería de su tamaño va[ en promedio a {value}, más rápida que la banda de velocidad, que termina en {limit}, y] a {peak} "
        "con el caudal máximo de diseño. No tan rápida ni tanto tiempo como para desgastarla.",
    QLL_PUT(VELOCITY_FAST) =
        "{subject} trabaja rápido mucho tiempo: el agua en tubería de su tamaño va[ en promedio a {value} y] a {peak} con el caudal máximo de diseño; "
        "desde {limit} desgasta el asiento.",
    QLL_PUT(VELOCITY_ABOVE_MAX) =
        "{subject} es demasiado pequeña: {peak} en tubería de su tamaño con el caudal máximo de diseño, y el límite es {limit}[; bastaría una de {size}].",
    QLL_PUT(VELOCITY_PIPE) =
        "La tubería[ de {pipe}][ hacia {way}] es pequeña para el caudal máximo de diseño[ ({scenario})]: {value} en ella, y el límite de la tubería es {limit}.",
    QLL_PUT(CAPACITY_IN_HAND) = "{subject} abre {value%} con el caudal máximo de diseño; le sobra capacidad.",
    QLL_PUT(CAPACITY_NEAR_FULL) = "{subject} está casi toda abierta con el caudal máximo de diseño: {value%}.",
    QLL_PUT(CAPACITY_FULL_TRAVEL) = "{subject} está toda abierta con el caudal máximo de diseño y la presión mínima de la red, y ya no regula.",
    QLL_PUT(CAPACITY_CANNOT_PASS) = "{subject} no puede dar el caudal máximo de diseño con la presión mínima de la red.",
    QLL_PUT(LOW_FLOW_NEVER) = "{subject} mantiene estables todos los caudales de aquí, hasta donde se conoce su caudal mínimo estable. Estimación.",
    QLL_PUT(LOW_FLOW_STABLE) =
        "{subject} pasa {value%} del tiempo en que corre agua por debajo del caudal que puede mantener estable, con {peak%} del agua: muy pocas veces "
        "para que alguien se queje.",
    QLL_PUT(LOW_FLOW_WEAK) =
        "{subject} pasa {value%} del tiempo en que corre agua por debajo del caudal que puede mantener estable, con {peak%} del agua: con muy poca "
        "fuerza para que alguien se queje.",
    QLL_PUT(LOW_FLOW_UNSURE) =
        "{subject} puede golpetear: según lo supuesto mantiene estables todos los caudales de aquí, pero su caudal mínimo estable solo se conoce a "
        "grandes rasgos. Estimación.",
    QLL_PUT(LOW_FLOW_SOME) =
        "{subject} puede golpetear: pasa {value%} del tiempo en que corre agua por debajo del caudal que puede mantener estable, con {peak%} del "
        "agua. Estimación.",
    QLL_PUT(LOW_FLOW_MUCH) =
        "{subject} probablemente golpetee: pasa {value%} del tiempo en que corre agua por debajo del caudal que puede mantener estable, con {peak%} "
        "del agua. Estimación.",
    QLL_PUT(CAVITATION_QUIET) =
        "{subject} llega a {value} del inicio de la cavitación en el peor caso[: {at_flow} desde {at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 "
        "en presiones absolutas].",
    QLL_PUT(CAVITATION_SLIGHT) =
        "{subject} cavita {past%} del tiempo en que corre agua, por su fuerza y su duración muy poco para que importe: {value} veces el inicio en el "
        "peor caso[, {at_flow} desde {at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 en presiones absolutas].",
    QLL_PUT(CAVITATION_NEAR) =
        "{subject} puede cavitar: {value} del inicio en el peor caso[, {at_flow} desde {at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 en "
        "presiones absolutas], y el inicio no se conoce con más exactitud.",
    QLL_PUT(CAVITATION_HEARD) =
        "{subject} cavita de modo que se oye {peak%} del tiempo en que corre agua: {value} veces el inicio en el peor caso[, {at_flow} desde "
        "{at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 en presiones absolutas].[ Dos etapas con unos {split} entre ellas lo arreglarían.]",
    QLL_PUT(CAVITATION_OFTEN) =
        "{subject} cavita de modo que se oye, y mucho tiempo: {peak%} del tiempo en que corre agua, {value} veces el inicio en el peor caso[, "
        "{at_flow} desde {at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 en presiones absolutas].[ Dos etapas con unos {split} entre ellas lo "
        "arreglarían.]",
    QLL_PUT(CAVITATION_DAMAGING) =
        "{subject} cavita fuerte {peak%} del tiempo en que corre agua, con mucho ruido, y daña el asiento: {value} veces el inicio en el peor caso[, "
        "{at_flow} desde {at_inlet}, xF {xf}, inicio {onset}; {absolute} a 1 en presiones absolutas].[ Dos etapas con unos {split} entre ellas lo "
        "arreglarían.]",
    QLL_PUT(NOISE_QUIET) =
        "{subject} hace {value} a {near} en su momento más ruidoso[, con {at_flow} desde {at_inlet}][; {peak} con su caudal típico]. La gente lo oye desde {limit}. Estimación.",
    QLL_PUT(NOISE_SELDOM) =
        "{subject} pasa de {limit}, donde la gente empieza a oírla, {past%} del tiempo en que corre agua: por su fuerza y su duración, muy poco para "
        "que alguien se queje. {value} a {near} en su momento más ruidoso[, con {at_flow} desde {at_inlet}][; {peak} con su caudal típico]. Estimación; la cavitación se "
        "juzga aparte.",
    QLL_PUT(NOISE_HEARD) =
        "{subject} puede oírse: {value} a {near} en su momento más ruidoso[, con {at_flow} desde {at_inlet}][; {peak} con su caudal típico]. La gente lo oye desde "
        "{limit}. Estimación.",
    QLL_PUT(NOISE_LOUD) =
        "{subject} probablemente se oiga, y mucho tiempo: {value} a {near} en su momento más ruidoso[, con {at_flow} desde {at_inlet}][; {peak} con su caudal típico]. La "
        "gente lo oye desde {limit}. Estimación.",
    QLL_PUT(NOISE_NO_PIPE) = "Ruido no revisado: no se conoce la pared de la tubería de la estación.",
    QLL_PUT(NOISE_PLASTIC) = "Ruido no revisado: la tubería de la estación es de plástico y el método es para metal.",
    QLL_PUT(NOISE_FLASHING) = "Mucho ruido, más de lo que el método puede calcular: el agua se vaporiza en una válvula.",
    QLL_PUT(NOISE_CHOKED) = "Mucho ruido, más de lo que el método puede calcular: en una válvula el flujo está estrangulado.",
    QLL_PUT(NOISE_XF_HIGH) = "Mucho ruido, más de lo que el método puede calcular: una válvula reduce más de 0.8 de la presión sobre la de ebullición.",
    QLL_PUT(RATING_WITHIN) = "{subject}: presión máxima de entrada {value}; resiste {limit}.",
    QLL_PUT(RATING_INLET) = "{subject} puede recibir {value} a la entrada; resiste {limit}.",
    QLL_PUT(RATING_SET_RANGE) = "{subject} se ajustaría a {value}, fuera de su rango, que termina en {limit}.",
    QLL_PUT(RATING_TEMPERATURE) = "{subject} recibe agua a {value}; resiste {limit}.",
    QLL_PUT(EXPANSION_NO_HEATER) = "Dilatación del agua caliente no revisada: no se indicó calentador después de la estación.",
    QLL_PUT(EXPANSION_TANK_ENOUGH) = "El tanque de expansión de {limit} basta: el calentador necesita {value}, con precarga de {precharge}.",
    QLL_PUT(EXPANSION_TANK_MISSING) =
        "No hay tanque de expansión que absorba la dilatación del agua caliente.[ El calentador necesita {least}.] Instale uno de {tank}, con precarga "
        "de {precharge} y el lado del agua vacío.",
    QLL_PUT(EXPANSION_BYPASS) =
        "El bypass interno de las válvulas devuelve a la red la dilatación del agua caliente; la red llega a {value} como máximo y se permiten "
        "{limit}. Una válvula check antes de la estación lo impediría.",
    QLL_PUT(EXPANSION_TANK_SMALL) =
        "El tanque de expansión de {limit}, con la precarga que tiene, es pequeño para el calentador; bastaría uno de {tank} con precarga de {precharge}.",
    QLL_PUT(EXPANSION_LITTLE_ROOM) =
        "Solo hay {room} entre la salida sin caudal y lo permitido: un tanque de expansión tendría que ser de {value}.[ Baje el ajuste de la válvula "
        "{step1} y bastará uno de {tank1}.][ Bájelo {step2} y bastará uno de {tank2}.][ Donde el código acepta la válvula de alivio como límite, "
        "{most}, basta uno de {tankr} con el ajuste actual.]",
    QLL_PUT(EXPANSION_NO_ROOM) =
        "La salida sin caudal, {value}, no deja espacio a un tanque de expansión bajo los {limit} permitidos.[ Baje el ajuste de la válvula {step1} y "
        "bastará uno de {tank1}.][ Bájelo {step2} y bastará uno de {tank2}.][ Donde el código acepta la válvula de alivio como límite, {most}, basta "
        "uno de {tankr} con el ajuste actual.]",
    QLL_PUT(EXPANSION_RELIEF_NEAR) =
        "La válvula de alivio del calentador, calibrada a {value}, queda cerca de la presión sin caudal[, {precharge}]: con {limit} habría margen.",
    QLL_PUT(EXPANSION_RELIEF_LOW) =
        "La válvula de alivio del calentador, calibrada a {value}, es muy baja para la presión sin caudal[, {precharge}]: necesita {limit} o más.",
    QLL_PUT(STRAINER_NOTHING) = "Aun medio tapados, los filtros no le quitan a la salida nada que un manómetro muestre con el caudal máximo de diseño.",
    QLL_PUT(STRAINER_EASY) = "Con los filtros medio tapados la salida cae otros {value} con el caudal máximo de diseño y la presión mínima de la red[ "
                             "({scenario})].",
    QLL_PUT(STRAINER_EATS) =
        "Con los filtros medio tapados la salida cae otros {value} con el caudal máximo de diseño y la presión mínima de la red, y "
        "la suciedad puede quitar solo {limit}[, la mitad de los {spare} que sobran][ ({scenario})]: manténgalos limpios o instale unos más grandes.",
    QLL_PUT(HUNTING_STEADY) = "{subject} no oscila: con todos los caudales de aquí, una oscilación pequeña se apaga. Estimación, sin simular.",
    QLL_PUT(HUNTING_HELD) =
        "{subject} no oscila: la fricción de la válvula frena una oscilación pequeña que si no crecería[, con {at_flow}]. Estimación, sin simular.",
    QLL_PUT(HUNTING_SWINGS) =
        "{subject} puede oscilar o golpetear al abrir una llave: nada frena una oscilación, unas {often} veces por segundo[, con {at_flow}]. Estimación, sin "
        "simular.",
    QLL_PUT(HUNTING_UNKNOWN) = "Oscilación no revisada en {subject}: los datos de la válvula no concuerdan entre sí.",
    QLL_PUT(HUNTING_RUN) = "Simulación: {run}",
    QLL_PUT(HUNTING_QUICK) = "Con una válvula de cierre rápido: {run}",
    QLL_PUT(HAMMER_NOT_RUN) = "Golpe de ariete no revisado: solo una simulación lo muestra.",
    QLL_PUT(HAMMER_NO_PIPES) = "Golpe de ariete no revisado: los datos no nombran ningún punto de consumo con sus tubos.",
    QLL_PUT(HAMMER_NO_TREE) = "Golpe de ariete no revisado: el agua no se puede simular en los tubos como están dados; simulate dice por qué.",
    QLL_PUT(HAMMER_RUN) = "Simulación: {run}",
    QLL_PUT(HAMMER_QUICK) = "Con una válvula de cierre rápido: {run}",
};
