/* Lo que dice un registro de presiones. Las palabras entre llaves son las de says_pressure.c. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_SAYS_##name - QLL_PRESSURE_FIRST]

const char *const qll_pressure_es[QLL_LISTEN_FIRST - QLL_PRESSURE_FIRST] = {
    QLL_PUT(PRESSURE_CREEP) = "fuga por el asiento",
    QLL_PUT(PRESSURE_THERMAL_EXPANSION) = "dilatación térmica",
    QLL_PUT(PRESSURE_LOCK_UP) = "presión de cierre",
    QLL_PUT(PRESSURE_FALL_OFF) = "caída",
    QLL_PUT(PRESSURE_FALL_OFF_DRIFT) = "deriva de la caída",
    QLL_PUT(PRESSURE_INLET_EFFECT) = "efecto de la entrada",
    QLL_PUT(PRESSURE_SUPPLY_SWING) = "vaivén de la red",
    QLL_PUT(PRESSURE_SET_POINT_DRIFT) = "deriva del ajuste",
    QLL_PUT(PRESSURE_HUNTING) = "oscilación",
    QLL_PUT(PRESSURE_CHATTER) = "golpeteo",
    QLL_PUT(PRESSURE_HAMMER) = "golpe de ariete",
    QLL_PUT(PRESSURE_STRAINER) = "filtro",
    QLL_PUT(PRESSURE_AIR) = "aire",
    QLL_PUT(PRESSURE_LOGGER_FAULT) = "falla del registrador",
    QLL_PUT(CHANNEL_INLET) = "presión de entrada",
    QLL_PUT(CHANNEL_OUTLET) = "presión de salida",
    QLL_PUT(CHANNEL_FLOW) = "caudal",
    QLL_PUT(CHANNEL_TEMPERATURE) = "temperatura",

    QLL_PUT(CREEP_RISES) =
        "Sin caudal la salida sube {rate} por minuto, en {share} de los tramos sin caudal[, hasta igualar la presión de entrada ({end})]. Suciedad en el "
        "asiento, o asiento o disco gastados, dejan pasar agua.",
    QLL_PUT(EXPANSION_SWELLS) =
        "Sin caudal la salida salta {value} sobre la presión de cierre mientras se calienta el agua, y luego se detiene. Nada absorbe lo que el calentador "
        "dilata: revise el tanque de expansión y su precarga.",
    QLL_PUT(EXPANSION_OVER_INLET) =
        "Sin caudal la salida sube {value} sobre la presión de cierre, más que la presión de entrada. Un asiento no fuga cuesta arriba: es agua que se "
        "dilata al calentarse. Revise el tanque de expansión y su precarga.",
    QLL_PUT(LOCK_UP_HIGH) =
        "La presión de cierre está {value} o más sobre la de ajuste[; esta estación debería cerrar {expected} sobre ella]. El asiento no cierra a su "
        "presión.",
    QLL_PUT(FALL_OFF_SEEN) = "La salida cae {value} de sin caudal a {flow}. Sin datos del sitio nada dice cuánto debería caer en esta estación.",
    QLL_PUT(FALL_OFF_COMPARED) =
        "La salida cae {value} de sin caudal a {flow}, {ratio} veces los {expected} de esta estación según sus datos. La válvula está trabada, es pequeña, o "
        "algo antes de ella se lleva la presión.",
    QLL_PUT(FALL_OFF_GROWS) = "A {flow} la salida cae {value} más al final del registro que al principio, hasta {level}. Un ajuste que se corre "
                              "mueve todos los caudales por igual; esto es algo que se tapa: limpie el filtro y luego vea si se recupera.",
    QLL_PUT(FALL_OFF_STEP) =
        "De un día para otro la salida cae {value} más a {flow}, hasta {level}. Algo se cerró o quedó atorado: vea si una válvula de paso está a medio cerrar, "
        "luego limpie el filtro.",
    QLL_PUT(FALL_OFF_OF_INLET) =
        "A {flow} la salida cae {value} más que al principio, y la entrada también. La presión se pierde antes del manómetro de entrada: revise válvulas de paso, "
        "medidor, preventor de reflujo y red.",
    QLL_PUT(INLET_EFFECT_SEEN) =
        "De cada {ten} que se mueve la entrada, la salida sigue con {tenth}[; esta estación debería seguir con {expected}]. El asiento no está balanceado o "
        "se traba.",
    QLL_PUT(SUPPLY_SWINGS) =
        "La presión de la red varía {value}, desde {level}, del 5 % al 95 % del tiempo. Averigüe qué la mueve antes de culpar a la válvula.",
    QLL_PUT(DRIFT_SLOW) =
        "La presión de ajuste se corrió {value} durante el registro, hasta un cierre de {level}. Ceden el resorte, el diafragma o el tornillo de ajuste.",
    QLL_PUT(DRIFT_STEP) =
        "La presión de ajuste se movió {value} de una vez, hasta un cierre de {level}. Alguien giró el tornillo de ajuste, o se rompió una pieza.",
    QLL_PUT(DRIFT_FROM_SURVEY) =
        "La presión de ajuste es {level}; la estación de los datos está ajustada a {expected}. Ajústela de nuevo, o corrija los datos.",
    QLL_PUT(HUNTING_SEEN) =
        "A caudal constante la salida oscila {value} a cada lado, {frequency} veces por segundo, en {share} del tiempo constante. La válvula no halla reposo a "
        "este caudal.",
    QLL_PUT(CHATTER_SEEN) =
        "La salida vibra {value} a cada lado, {frequency} veces por segundo. La válvula golpetea: casi todas lo hacen bajo su caudal mínimo estable.",
    QLL_PUT(HAMMER_SEEN) =
        "Golpe de ariete: {count} ondas[, {often} por hora], la más fuerte de {value} en {rise}[, que resuena {frequency} veces por segundo]. Algo cierra "
        "rápido.",
    QLL_PUT(STRAINER_SEEN) =
        "Hasta caudales medianos la salida se sostiene y luego se viene abajo: a {flow}, {value} más que en línea recta. Algo antes de la válvula se lleva la "
        "presión: limpie primero el filtro, luego revise si una válvula de paso está a medio cerrar.",
    QLL_PUT(AIR_SEEN) =
        "Mientras corre el agua la salida salta a ambos lados, {level} en promedio, {often} veces por hora; en reposo no. Es aire en la tubería.",
    QLL_PUT(FAULT_STUCK) = "La {channel} queda igual hasta el último dígito durante {share} del registro. El manómetro o el registrador está trabado.",
    QLL_PUT(FAULT_CLIPPED) = "La {channel} se corta en un valor en {share} de sus lecturas. El rango del manómetro es muy corto.",
    QLL_PUT(FAULT_CLOCK) = "{share} de las filas tienen una hora equivocada o repetida. El reloj del registrador salta.",
    QLL_PUT(FAULT_GAPS) = "{share} del tiempo no tiene filas. Lo que pasó entonces no se sabe.",
    QLL_PUT(FAULT_VALUES) = "{share} de las filas no tienen valor, o uno imposible. Se toman como desconocidas.",
    QLL_PUT(FAULT_SWAPPED) = "La salida está sobre la entrada {share} del tiempo. Los dos manómetros están cambiados; no se juzga nada más.",
    QLL_PUT(FAULT_GLITCHES) = "{count} lecturas sueltas se salen mucho, {often} por hora. Ninguna onda es tan corta: el cableado capta algo.",
    QLL_PUT(FAULT_HUM) = "La salida vibra a la frecuencia de la red eléctrica también sin caudal. El cableado la capta; el golpeteo no se juzga.",

    QLL_PUT(UNJUDGED_RATE) = "{name}: no se juzga. El registro tiene una fila cada {interval}; bastarían {needs} filas por segundo.",
    QLL_PUT(UNJUDGED_CHANNEL) = "{name}: no se juzga. El registro no tiene {channel}.",
    QLL_PUT(UNJUDGED_TIME) = "{name}: no se juzga. El registro tiene muy poco que lo muestre.",
    QLL_PUT(UNJUDGED_TIME_LEAST) = "{name}: no se juzga. Hacen falta al menos {needs} de registro.",
    QLL_PUT(UNJUDGED_NIGHTS) = "{name}: no se juzga. Hacen falta al menos 14 noches de registro.",
    QLL_PUT(UNJUDGED_DAYS) = "{name}: no se juzga. Hacen falta al menos 14 días de registro.",
    QLL_PUT(UNJUDGED_STEP) = "{name}: no se juzga. El manómetro lee en pasos de {step}; bastarían {needs} o menos.",

    QLL_PUT(NAME_LOG) = "Registro de presiones",
    QLL_PUT(LOG_IS) = "{count} filas, una cada {interval}, de {from} a {to}: {list}.",
    QLL_PUT(LOG_ACT) = "Actúe sobre: {list}.",
    QLL_PUT(LOG_NOTHING) = "Nada pide actuar.",
    QLL_PUT(LOG_LOOK) = "Siga de cerca: {list}.",
    QLL_PUT(LOG_COMPARED) = "Comparado con la estación existente de los datos {name}.",
    QLL_PUT(STRENGTH_ACT) = "actúe",
    QLL_PUT(STRENGTH_LOOK) = "observe",
    QLL_PUT(LOG_WHEN) = "Visto de {from} a {to}; fuerza {strength} de 1, {word}.",
    QLL_PUT(LOG_ELAPSED) = "{seconds} s desde el inicio",
    QLL_PUT(LOG_FIGURES) = "Lo que muestra el registro",
    QLL_PUT(LOG_UNJUDGED) = "Lo que no puede mostrar",
    QLL_PUT(LOG_GAPS) = "Huecos",
    QLL_PUT(LOG_GAPS_MORE) = "Huecos en total: {count}, juntos {time}; se listan los más largos.",
    QLL_PUT(LOG_MENDS) = "Huecos, y filas corregidas o descartadas",
    QLL_PUT(HEAD_FROM) = "desde",
    QLL_PUT(HEAD_TO) = "hasta",
    QLL_PUT(FACT_INLET) = "entrada, del 5 % al 95 % del tiempo",
    QLL_PUT(FACT_OUTLET) = "salida, del 5 % al 95 % del tiempo",
    QLL_PUT(FACT_SET_POINT) = "presión de ajuste, de caudales constantes",
    QLL_PUT(FACT_LOCK_UP) = "presión de cierre",
    QLL_PUT(FACT_SHOULD_SET) = "presión de ajuste de los datos",
    QLL_PUT(FACT_SHOULD_LOCK_UP) = "presión de cierre de la estación de los datos",
    QLL_PUT(FACT_FALL_OFF) = "caída a {flow}",
    QLL_PUT(FACT_EFFECT) = "efecto de la entrada",
    QLL_PUT(FACT_WINDOWS) = "tramos sin caudal, de 11 min o más",
    QLL_PUT(FACT_RUNS) = "corridas de caudal constante, de 20 s o más",
    QLL_PUT(FACT_CYCLES) = "vaivenes de más de {value} por día",
    QLL_PUT(FACT_NOISE) = "ruido del manómetro de salida",
    QLL_PUT(FACT_STEP) = "paso menor del manómetro de salida",
    QLL_PUT(PLOT_OUTLET) = "salida, {unit}",
    QLL_PUT(PLOT_OUTLET_AT) = "salida a {flow}, {unit}, de día en día",
    QLL_PUT(PLOT_INLET) = "entrada, {unit}",
    QLL_PUT(PLOT_FLOW) = "caudal, {unit}",
};
