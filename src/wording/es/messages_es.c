/* Spanish. Findings stand in findings_es.c. */
#include "wording/language.h"

const char *const qll_messages_es[QLL_PEAKS_FIRST] = {
    [QLL_SAYS_RULE_DELIVERY] = "entrega",
    [QLL_SAYS_RULE_STATIC] = "presión estática",
    [QLL_SAYS_RULE_RATIO] = "relación",
    [QLL_SAYS_RULE_VELOCITY] = "velocidad",
    [QLL_SAYS_RULE_CAPACITY] = "capacidad",
    [QLL_SAYS_RULE_LOW_FLOW] = "caudal bajo",
    [QLL_SAYS_RULE_CAVITATION] = "cavitación",
    [QLL_SAYS_RULE_NOISE] = "ruido",
    [QLL_SAYS_RULE_EXPANSION] = "expansión",
    [QLL_SAYS_RULE_STRAINER] = "filtro",
    [QLL_SAYS_RULE_RATING] = "límites",
    [QLL_SAYS_METHOD_FIXTURE_UNITS_IPC] = "unidades de aparato (IPC)",
    [QLL_SAYS_METHOD_FIXTURE_UNITS_UPC] = "unidades de aparato (UPC)",
    [QLL_SAYS_METHOD_SIMULTANEOUS_USE] = "uso simultáneo",
    [QLL_SAYS_METHOD_NORMAL_APPROXIMATION] = "aproximación normal",
    [QLL_SAYS_METHOD_DIN_1988_300] = "DIN 1988-300",
    [QLL_SAYS_METHOD_LOADING_UNITS_EN] = "unidades de carga (EN 806-3)",
    [QLL_SAYS_METHOD_LOADING_UNITS_BS] = "unidades de carga (BS 6700)",
    [QLL_SAYS_METHOD_PER_FIXTURE] = "galones por aparato",
    [QLL_SAYS_METHOD_PULSE_MODEL] = "modelo de pulsos",
    [QLL_SAYS_METHOD_METERED] = "medido con contador",
    [QLL_SAYS_METHOD_GIVEN] = "indicado",
    [QLL_SAYS_REASON_ONE_VALVE] = "Basta una válvula: una segunda no se paga.",
    [QLL_SAYS_REASON_PAIR_PAYS] = "La segunda válvula ahorra en visitas más de lo que cuesta.",
    [QLL_SAYS_REASON_PAIR_CARRIES] =
        "Ninguna válvula sola cumple todas las reglas; dos en paralelo sí.",
    [QLL_SAYS_REASON_STAGES_BY_RATIO] =
        "Una sola etapa tendría que reducir {value}:1; lo máximo es {limit}:1, así que dos se reparten "
        "la caída.",
    [QLL_SAYS_REASON_STAGES_PAY] = "Dos etapas ahorran en visitas más de lo que cuestan.",
    [QLL_SAYS_REASON_STAGES_CARRY] =
        "Ninguna estación de una etapa cumple todas las reglas; dos etapas sí.",
    [QLL_SAYS_REASON_NOT_FIT] =
        "Nada del catálogo sirve para instalar aquí; esto es lo que más se acerca.",
    [QLL_SAYS_CAUTION_RELIEVE] = "Aísle la estación y descargue la presión antes de abrir nada.",
    [QLL_SAYS_CAUTION_SCALDS] =
        "El agua caliente quema: deje enfriar el calentador o vacíelo antes con seguridad.",
    [QLL_SAYS_CAUTION_CLOSED] =
        "Detrás de una válvula reductora el sistema queda cerrado: necesita control de la "
        "expansión y una válvula de alivio en buen estado.",
    [QLL_SAYS_CAUTION_FIRE] =
        "Nunca dimensione ni modifique con esta herramienta el agua contra incendios.",
    [QLL_SAYS_CAUTION_BACKFLOW] =
        "La protección contra el retorno y el reglamento local de fontanería van primero.",
    [QLL_SAYS_CAUTION_LICENSED] =
        "Donde la ley exija un instalador autorizado, que haga el trabajo un instalador "
        "autorizado.",
    [QLL_SAYS_CAUTION_ESTIMATES] = "Las cifras de ruido y traqueteo son estimaciones.",
    [QLL_SAYS_ADVICE_LESS_CODE] =
        "si se acerca más a la verdad, una estación dimensionada para el caudal punta es mayor "
        "de lo necesario: que una válvula pequeña lleve el caudal de diario",
    [QLL_SAYS_ADVICE_LESS_CHANCE] =
        "con estos aparatos el caudal casi nunca debería superarlo, así que la parte grande de "
        "la estación abrirá pocas veces",
    [QLL_SAYS_ADVICE_LESS_ORDINARY] =
        "la estación trabaja con esos caudales casi todo el tiempo y ahí debe ser silenciosa, "
        "no solo en el caudal punta",
    [QLL_SAYS_ADVICE_LESS_MEASURED] =
        "el edificio no consumió más mientras se registró: dimensione la válvula pequeña por "
        "el registro y la estación entera por el caudal punta",
    [QLL_SAYS_ADVICE_MORE_CODE] =
        "pregunte a quien revisa qué cifra cuenta antes de pedir válvulas",
    [QLL_SAYS_ADVICE_MORE_CHANCE] =
        "si muchos usan agua a la vez la presión arriba puede caer; compruebe los aparatos y "
        "su uso",
    [QLL_SAYS_ADVICE_MORE_ORDINARY] =
        "un día corriente superaría el caudal punta; compruebe personas, aparatos y caudales "
        "continuos",
    [QLL_SAYS_ADVICE_MORE_MEASURED] =
        "el edificio ha consumido más que el caudal punta: o el caudal punta es bajo o algo "
        "fuga o quedó abierto",
    [QLL_SAYS_THE_STATION] = "La estación",
    [QLL_SAYS_STAGE] = "La etapa {stage}",
    [QLL_SAYS_THE_VALVE] = "La válvula {valve} de {size}",
    [QLL_SAYS_STAGE_THE_VALVE] = "Etapa {stage}: la válvula {valve} de {size}",
    [QLL_SAYS_THE_OUTLET] = "La salida",
    [QLL_SAYS_LOWEST_OUTLET] = "{outlet}, la toma más baja indicada,",
    [QLL_SAYS_STATION_OUTLET] = "la salida de la estación (no se indica ninguna toma)",
    [QLL_SAYS_UNKNOWN] = "(desconocido)",
    [QLL_SAYS_SERVICE_VELOCITY] =
        "El límite es la acometida, no la válvula: aquí lleva unos {flow} ({velocity} en tubería[ "
        "de {size}]); {peak}. La estación se diseña para lo que lleva la acometida.",
    [QLL_SAYS_SERVICE_PRESSURE] =
        "El límite es la acometida, no la válvula: aquí lleva unos {flow} (con más, el suministro "
        "mínimo deja menos de {inlet} antes de la estación); {peak}. La estación se diseña para lo "
        "que lleva la acometida.",
    [QLL_SAYS_PEAK_OF_CODE] = "el caudal punta del código es {peak}",
    [QLL_SAYS_PEAK_AS_GIVEN] = "el caudal punta indicado es {peak}",
    [QLL_SAYS_PEAK_BY_METHOD] = "el caudal punta según {method} es {peak}",
    [QLL_SAYS_UNDER_ONE_PERCENT] = "menos del 1 %",
    [QLL_SAYS_ONE_VALVE] = "una válvula, ",
    [QLL_SAYS_IN_PARALLEL] = "válvulas en paralelo {sizes}",
    [QLL_SAYS_IN_SERIES] = "{stages} etapas en serie: ",
    [QLL_SAYS_THEN] = ", después ",
    [QLL_SAYS_DISAGREEMENT] =
        "{method} da {flow}, {times} veces el caudal punta de diseño: {advice}.",
    [QLL_SAYS_GRADE_GOOD] = "correcto",
    [QLL_SAYS_GRADE_UNKNOWN] = "no examinado",
    [QLL_SAYS_GRADE_CAUTION] = "precaución",
    [QLL_SAYS_GRADE_FAIL] = "no cumple",
    [QLL_SAYS_MARK_GOOD] = "correcto",
    [QLL_SAYS_MARK_UNKNOWN] = "no examinado",
    [QLL_SAYS_MARK_CAUTION] = "PRECAUCIÓN",
    [QLL_SAYS_MARK_FAIL] = "NO CUMPLE",
    [QLL_SAYS_ACTING_DIRECT] = "directa",
    [QLL_SAYS_ACTING_PILOT] = "pilotada",
    [QLL_SAYS_DAY_WEEKDAY] = "un día laborable",
    [QLL_SAYS_DAY_SATURDAY] = "un sábado",
    [QLL_SAYS_DAY_SUNDAY] = "un domingo",
    [QLL_SAYS_HEAD_VALVE] = "válvula",
    [QLL_SAYS_HEAD_SIZE] = "tamaño",
    [QLL_SAYS_HEAD_ACTING] = "acción",
    [QLL_SAYS_HEAD_SET_POINT] = "consigna",
    [QLL_SAYS_HEAD_READS] = "lectura",
    [QLL_SAYS_HEAD_LOCKUP] = "sin caudal, máximo",
    [QLL_SAYS_HEAD_FLOW] = "caudal",
    [QLL_SAYS_HEAD_INLET] = "entrada",
    [QLL_SAYS_HEAD_BETWEEN] = "entre",
    [QLL_SAYS_HEAD_OUTLET] = "salida",
    [QLL_SAYS_HEAD_WORKS] = "abre",
    [QLL_SAYS_HEAD_VELOCITY] = "velocidad",
    [QLL_SAYS_HEAD_LEVEL] = "nivel",
    [QLL_SAYS_HEAD_RATIO] = "relación",
    [QLL_SAYS_HEAD_STATION] = "estación",
    [QLL_SAYS_HEAD_PRICE] = "precio",
    [QLL_SAYS_HEAD_DESIGN_PEAK] = "caudal punta",
    [QLL_SAYS_HEAD_MEAN] = "medio",
    [QLL_SAYS_HEAD_99_PERCENT] = "99 % del tiempo",
    [QLL_SAYS_HEAD_NOBODY_DRAWS] = "ningún aparato abierto",
    [QLL_SAYS_HEAD_BY] = "según",
    [QLL_SAYS_NONE] = "ninguno",
    [QLL_SAYS_NOTE_CANNOT_PASS] = "no puede darlo",
    [QLL_SAYS_NOTE_SEAT] = "cavita fuerte",
    [QLL_SAYS_NOTE_TOO_FAST] = "muy rápido",
    [QLL_SAYS_NOTE_LOW_FLOW] = "caudal bajo",
    [QLL_SAYS_NOTE_AUDIBLE] = "cavita",
    [QLL_SAYS_NOTE_FAST] = "rápido",
    [QLL_SAYS_NOTE_WIDE_OPEN] = "totalmente abierta",
    [QLL_SAYS_SHARE_IDLE] = "sin caudal, o solo una fuga",
    [QLL_SAYS_SHARE_BELOW_STABLE] = "por debajo del mínimo caudal estable",
    [QLL_SAYS_SHARE_BELOW_BAND] = "más lento que la banda de velocidad",
    [QLL_SAYS_SHARE_IN_BAND] = "dentro de la banda de velocidad",
    [QLL_SAYS_SHARE_ABOVE_BAND] = "más rápido que la banda de velocidad",
    [QLL_SAYS_SHARE_FULL_TRAVEL] = "(de ello) totalmente abierta",
    [QLL_SAYS_SHARE_CAVITATING] = "(de ello) con cavitación audible",
    [QLL_SAYS_HOW_TO_SET] =
        "[Etapa {stage}. ]Ajuste primero {first}; cierre las llaves del otro ramal mientras ajusta "
        "uno.",
    [QLL_SAYS_STRAINER_IN_BODY] =
        "{valve} lleva el filtro en su cuerpo[: {clean} limpio con {flow}; límpielo cuando los "
        "manómetros de antes y después difieran {dirty} más que sin caudal].",
    [QLL_SAYS_STRAINER_AHEAD] =
        "{valve} necesita delante un filtro de {size}, malla {mesh}[: {clean} limpio con "
        "{flow}; límpielo cuando los manómetros de antes y después difieran {dirty} más que "
        "sin caudal].",
    [QLL_SAYS_HANDOVER] =
        "{first} trabaja sola hasta unos {flow}; {second} empieza a abrir cuando el manómetro de "
        "salida baja a {pressure}.",
    [QLL_SAYS_READS_AT] = "{pressure} con {flow}",
    [QLL_SAYS_NAME_DEMAND] = "DEMANDA",
    [QLL_SAYS_NAME_DESIGN] = "ESTACIÓN",
    [QLL_SAYS_NAME_CHECK] = "REVISIÓN",
    [QLL_SAYS_HOURS] = "Caudal medio por hora",
    [QLL_SAYS_THERE_NOW] = "La estación que hay ahora: {station}",
    [QLL_SAYS_WHY_NOISY] = "Por qué haría ruido, lo más probable primero",
    [QLL_SAYS_NOT_NOISY] = "Nada en su hidráulica la haría ruidosa.",
    [QLL_SAYS_INLET_MIDDLE] = "La entrada es la de la red a su presión media.",
    [QLL_SAYS_INLETS] =
        "La entrada es la de la red a su presión media; en la segunda y la tercera fila, a la máxima; "
        "en la última, a la mínima.",
    [QLL_SAYS_STEP_MAIN] = "la red",
    [QLL_SAYS_STEP_PIPE] = "tubería[ de {size}]",
    [QLL_SAYS_STEP_METER] = "contador",
    [QLL_SAYS_STEP_BACKFLOW] = "desconector",
    [QLL_SAYS_STEP_STRAINER] = "filtro",
    [QLL_SAYS_STEP_DEVICE] = "aparato",
    [QLL_SAYS_STEP_STAGE] = "etapa {stage}",
    [QLL_SAYS_HEAD_BEHIND] = "detrás de",
    [QLL_SAYS_HEAD_NIGHT] = "noche",
    [QLL_SAYS_HEAD_PEAK] = "punta",
    [QLL_SAYS_NOTE_AT_MOST] = "RÁPIDA: como máximo {limit}",
    [QLL_SAYS_MORE_OUTLETS] = "y {count} puntos de consumo más",
    [QLL_SAYS_ASSUMED_SHORT] = "Supuesto (no se indicó; compruébelo)",
    [QLL_SAYS_HEAD_MENDED] = "qué se corrigió",
    [QLL_SAYS_FIGURE_PEAK] = "caudal punta",
    [QLL_SAYS_FIGURE_SHARE] = "parte con este caudal o menos",
    [QLL_SAYS_FIGURE_OF_TIME] = "del tiempo",
    [QLL_SAYS_FIGURE_OF_WATER] = "del agua",
    [QLL_SAYS_FIGURE_NO_FLOW] = "ningún aparato abierto",
    [QLL_SAYS_FIGURE_BAND] = "velocidad en la banda",
    [QLL_SAYS_FIGURE_HOUR] = "hora del día",
    [QLL_SAYS_FIGURE_MEAN] = "media",
    [QLL_SAYS_FIGURE_OUTLET] = "presión de salida",
    [QLL_SAYS_FIGURE_LOCKUP] = "presión de cierre",
    [QLL_SAYS_FIGURE_FULL_TRAVEL] = "apertura total",
    [QLL_SAYS_FIGURE_PRESSURE] = "presión",
    [QLL_SAYS_FIGURE_AT_NIGHT] = "de noche, sin consumo",
    [QLL_SAYS_FIGURE_AT_PEAK] = "con caudal punta y red mínima",
    [QLL_SAYS_FIGURE_INLET] = "presión de entrada",
    [QLL_SAYS_FIGURE_BUILDING_TIME] = "tiempo del edificio, por área",
    [QLL_SAYS_FIGURE_SHUT] = "cerrada",
    [QLL_SAYS_FIGURE_STATION] = "estación",
    [QLL_SAYS_FIGURE_AT] = "con",
    [QLL_SAYS_FIGURE_FREQUENCY] = "centro de la banda de tercio de octava",
    [QLL_SAYS_FIGURE_LEVEL] = "nivel a 1 m de la tubería",
    [QLL_SAYS_FIGURE_PRICE] = "costo instalada",
    [QLL_SAYS_FIGURE_NOISE] = "probabilidad de que lo llamen",
    [QLL_SAYS_FIGURE_RECOMMENDED] = "recomendada",
    [QLL_SAYS_FIGURE_OTHERS] = "otras",
    [QLL_SAYS_FIGURE_LOWEST] = "estación, red mínima",
    [QLL_SAYS_FIGURE_HIGHEST] = "estación, red máxima",
    [QLL_SAYS_FIGURE_MIDDLE] = "estación, red media",
    [QLL_SAYS_FIGURE_WANTED] = "deseada",
    [QLL_SAYS_FIGURE_NEVER_ABOVE] = "nunca más de",
    [QLL_SAYS_FIGURE_ALONE] = "{valve} sola",
    [QLL_SAYS_FIGURE_BETWEEN] = "entre las etapas",
    [QLL_SAYS_FIGURE_BEYOND] = "fuera de esta escala",
    [QLL_SAYS_FIGURE_SET] = "ajuste",
    [QLL_SAYS_FIGURE_FROM_MAIN] = "de la red",
    [QLL_SAYS_FIGURE_TO_BUILDING] = "al edificio",
    [QLL_SAYS_FIGURE_BYPASS] = "by-pass, normalmente cerrado",
    [QLL_SAYS_FIGURE_ISOLATING] = "válvula de corte",
    [QLL_SAYS_FIGURE_STRAINER] = "filtro",
    [QLL_SAYS_FIGURE_UNION] = "unión",
    [QLL_SAYS_FIGURE_DIRECT] = "válvula reductora de acción directa",
    [QLL_SAYS_FIGURE_PILOT] = "válvula reductora pilotada",
    [QLL_SAYS_FIGURE_GAUGE] = "manómetro",
    [QLL_SAYS_FIGURE_NO_MORE] = "del tiempo no más que esto",
    [QLL_SAYS_LOG_READ] =
        "El registro {name}: {count} filas[, cada {interval}], {covered} de caudal conocido[, "
        "{unknown} desconocido].",
    [QLL_SAYS_LOG_PEAKS] = "Medias mayores: {list}.",
    [QLL_SAYS_LOG_OVER] = "{flow} en {interval}",
    [QLL_SAYS_LOG_NIGHT] = "Media menor de una hora entre las 02:00 y las 05:00: {flow}.",
    [QLL_SAYS_LOG_NEVER_ZERO] =
        "El caudal nunca se detiene: algo fuga o quedó abierto, o el contador marca caudal "
        "donde no lo hay.",
    [QLL_SAYS_LOG_MENDED] = "Corregido al leer",
    [QLL_SAYS_HOURS_WEEK] = "Caudal medio por hora, días laborables y fines de semana",
    [QLL_SAYS_HEAD_WEEKDAYS] = "laborables",
    [QLL_SAYS_HEAD_WEEKENDS] = "fin de semana",
    [QLL_SAYS_CHANGES] = "Qué cambia entre los escenarios",
    [QLL_SAYS_HEAD_OR_LESS] = "{flow} o menos",
    [QLL_SAYS_CHANGE] =
        "{second} frente a {first}: {peak} veces el caudal punta[, {mean} veces el medio][, "
        "{times} veces el caudal que no se supera el 99 % del tiempo]. Tiempo con {flow} o "
        "menos: {value} en lugar de {share}.",
    [QLL_SAYS_LOW_FLOW_MEANS] =
        "{flow} es la décima parte del mayor caudal punta: más o menos donde una válvula de "
        "acción directa dimensionada para ese caudal deja de ser estable (estimación, "
        "docs/theory/stability.md).",
    [QLL_SAYS_MEND_DUPLICATE] = "Filas con una hora y un valor ya vistos; omitidas.",
    [QLL_SAYS_MEND_CONFLICT] = "Filas con una hora ya vista y otro valor; vale la última.",
    [QLL_SAYS_MEND_ADDED] =
        "Filas de una misma hora cuyos valores se suman, como dice el formulario.",
    [QLL_SAYS_MEND_UNIT] = "Filas en otra unidad que la primera; convertidas.",
    [QLL_SAYS_MEND_STEADY] = "Filas de un mismo caudal por más de 6 h; tomadas como están.",
    [QLL_SAYS_MEND_WRONG_READING] = "Lecturas de un totalizador altas una sola vez; saltadas.",
    [QLL_SAYS_NOTE_NEWEST_FIRST] = "El registro va de lo nuevo a lo viejo; se leyó desde el final.",
    [QLL_SAYS_NOTE_JOINED] = "El registro está en partes sin orden; se juntaron por hora.",
    [QLL_SAYS_NOTE_MENDED_ROWS] =
        "{share} de las filas del registro ({count} de {total}) se omitieron, son desconocidas "
        "o se tomaron sin caudal: vea lo corregido antes de fiarse de sus cifras",
    [QLL_SAYS_NOTE_UNPLACED_WATER] =
        "{share} del agua del registro, {volume}, se contó durante huecos o tras lecturas "
        "falsas: no está en la media de ninguna hora ni en ninguna punta",
    [QLL_SAYS_NOTE_UNKNOWN_TIME] =
        "{share} del tiempo del registro es desconocido; su media y sus partes son las del "
        "resto: si solo escribe cuando corre agua, diga cuánto pueden durar sus silencios "
        "(`heartbeat`)",
    [QLL_SAYS_NOTE_ODD_ROW] =
        "una fila de {flow} es {times} veces la mayor de las demás: se toma por avería y se "
        "omite, o indique el límite del contador (`most_flow`)",
    [QLL_SAYS_NOTE_HEAVY_ROW] =
        "una sola fila de {flow} tiene {share} de toda el agua del registro: véala antes de "
        "dimensionar con ella",
    [QLL_SAYS_NOTE_COARSE_STEP] =
        "el contador cuenta en pasos de {volume}, pocos por intervalo; no se distingue "
        "caudal por debajo de {flow}: no se da ni el tiempo sin caudal ni una punta de tan "
        "pocos pasos, y la duración de caudales es la de horas enteras",
    [QLL_SAYS_NOTE_STEP] =
        "El contador cuenta en pasos de {volume}; no se distingue caudal por debajo de "
        "{flow}.",
    [QLL_SAYS_NOTE_DAMPED] =
        "este contador necesita unos {interval} para asentarse (cada cierre decae con el mismo "
        "factor); el tiempo sin caudal y el segundo mayor quedan cortos",
    [QLL_SAYS_MEND_OUT_OF_ORDER] = "Filas fuera de orden; puestas en su sitio.",
    [QLL_SAYS_MEND_LATE] = "Filas demasiado atrasadas; omitidas.",
    [QLL_SAYS_MEND_STAMP] = "Filas cuya hora no es de un registro; omitidas.",
    [QLL_SAYS_MEND_REPEATED_HOUR] = "Horas locales que están dos veces, al final del verano.",
    [QLL_SAYS_MEND_SKIPPED_HOUR] = "Filas de una hora local que no existió, al empezar el verano.",
    [QLL_SAYS_MEND_EMPTY] = "Filas sin valor; desconocido.",
    [QLL_SAYS_MEND_UNREADABLE] = "Filas cuyo valor no es un número; desconocido.",
    [QLL_SAYS_MEND_SENTINEL] = "Filas con un número que indica avería; desconocido.",
    [QLL_SAYS_MEND_POOR_SIGNAL] = "Filas que el propio contador da por malas; desconocido.",
    [QLL_SAYS_MEND_NEGATIVE] = "Caudales negativos; tomados como sin caudal.",
    [QLL_SAYS_MEND_DEAD_BAND] = "Caudales dentro de la banda muerta; tomados como sin caudal.",
    [QLL_SAYS_MEND_ABSURD] = "Caudales que el contador no puede dar; desconocido.",
    [QLL_SAYS_MEND_STUCK] = "Filas de un contador parado en un caudal; desconocido.",
    [QLL_SAYS_MEND_GAP] = "Huecos entre filas; desconocido, nunca repartido en el tiempo.",
    [QLL_SAYS_MEND_CATCH_UP] = "Volúmenes contados durante un hueco; solo en el total.",
    [QLL_SAYS_MEND_BACKWARDS] = "Totalizadores que retroceden; empieza otro tramo.",
    [QLL_SAYS_MEND_ROLL_OVER] = "Totalizadores que dan la vuelta; se sigue contando.",
    [QLL_SAYS_MEND_HEARTBEAT] = "Silencios entre dos filas que significan sin caudal.",
    [QLL_SAYS_MEND_SHORT_ROW] = "Filas con pocas celdas; omitidas.",
    [QLL_SAYS_MEND_HEADER] = "Cabeceras en medio del registro; omitidas.",
    [QLL_SAYS_MEND_OTHER] = "Filas de otro contador u otra magnitud; omitidas.",
    [QLL_SAYS_MEND_DURATION] = "Consumos cuyas horas no casan con su duración; vale la duración.",
    [QLL_SAYS_MEND_OVERLAP] = "Consumos simultáneos; sus caudales se suman.",
    [QLL_SAYS_NAME_FIT] = "CURVA DE LA VÁLVULA",
    [QLL_SAYS_FIT_POINTS] = "Los puntos, y lo que da la recta",
    [QLL_SAYS_FIT_ENTRY] = "La entrada del catálogo",
    [QLL_SAYS_FIT_STRAIGHT] =
        "Recta: apertura completa con {value}, a la que se llega con una caída de {limit} bajo la "
        "consigna.",
    [QLL_SAYS_FIT_HAS_BAND] =
        "La recta no se aparta de ningún punto más de un 5 %: la entrada la lleva como band.",
    [QLL_SAYS_FIT_HAS_POINTS] =
        "La recta se aparta de los puntos más de un 5 %: la entrada lleva los puntos mismos.",
    [QLL_SAYS_HEAD_SET] = "consigna",
    [QLL_SAYS_HEAD_FALLOFF] = "caída",
    [QLL_SAYS_HEAD_OPENING] = "apertura",
    [QLL_SAYS_HEAD_FITTED] = "recta",
    [QLL_SAYS_HEAD_OFF_BY] = "diferencia",
    [QLL_SAYS_NAME_LIST] = "CATÁLOGO",
    [QLL_SAYS_HEAD_FULL_OPEN] = "abierta",
    [QLL_SAYS_HEAD_LEAST_SET] = "consigna de",
    [QLL_SAYS_HEAD_MOST_SET] = "a",
    [QLL_SAYS_HEAD_MOST_INLET] = "entrada máx.",
    [QLL_SAYS_LIST_INVENTED] = "Estas válvulas son inventadas: ninguna se puede comprar.",
    [QLL_SAYS_LIST_NAMES] =
        "Para la estación que ya está, \"valve\" lleva un id, o tamaño y tipo: \"3 in direct\".",
    [QLL_SAYS_WARNING] = "aviso",
    [QLL_SAYS_OF_SCENARIO] = "escenario \"{name}\": {what}",
    [QLL_SAYS_PRIVATE] = "privado",
    [QLL_SAYS_PUBLIC] = "público",
    [QLL_SAYS_PEOPLE_APARTMENT] = "personas",
    [QLL_SAYS_PEOPLE_HOUSE] = "personas",
    [QLL_SAYS_PEOPLE_OFFICE] = "ocupantes",
    [QLL_SAYS_PEOPLE_HOTEL] = "huéspedes",
    [QLL_SAYS_PEOPLE_SCHOOL] = "alumnos",
    [QLL_SAYS_PEOPLE_HOSPITAL] = "camas",
    [QLL_SAYS_PEOPLE_RESTAURANT] = "comidas",
    [QLL_SAYS_REMARK_PULSE] =
        "No se supera durante el {share} de la hora de más uso de {day} con {count} {people}, "
        "tal como es de media; fugas y caudales continuos incluidos.",
    [QLL_SAYS_REMARK_PULSE_READ_AS] =
        "Los días reales tienen horas de más uso que uno medio: léalo como el caudal al que "
        "trabaja la estación, no como cifra de norma.",
    [QLL_SAYS_REMARK_NO_HOURS] =
        "No se conocen horas para {day}; se toman las de un día laborable.",
    [QLL_SAYS_REMARK_LOG] =
        "Mayor media en {mean}, de {covered} de lecturas cada {interval}; un registro más largo "
        "tendría otra mayor.",
    [QLL_SAYS_REMARK_LOG_EVENTS] =
        "Mayor media en {mean}, de {covered} de una lista de usos, cada uno con su caudal medio; "
        "dentro de un uso pudo ser más.",
    [QLL_SAYS_REMARK_LOG_HIDES] =
        "Lecturas tan separadas no muestran ni la punta ni el caudal bajo: nunca dimensione solo "
        "con ellas.",
    [QLL_SAYS_REMARK_LOG_FACTOR] =
        "La cifra es esa media por {times}: en un edificio simulado ({use}, {count} {people}) "
        "cuyas lecturas llegan igual de alto, hay segundos que llegan otro tanto más arriba. "
        "En dos edificios medidos la cifra dio de 0.7 a 1.5 veces la real, corta en una casa leída cada "
        "hora: no cuenta mangueras ni riego.",
    [QLL_SAYS_REMARK_GIVEN] = "Los caudales continuos se dan por incluidos.",
    [QLL_SAYS_REMARK_CONTINUOUS] = "Se le suman los caudales continuos.",
    [QLL_SAYS_REMARK_DIN] =
        "Los caudales de cálculo suman {flow}, fría y caliente juntas; \"{table}\", a {a}, b {b}, "
        "c {c}.",
    [QLL_SAYS_REMARK_DIN_UNIT] =
        "Mandan los dos mayores puntos de una unidad de uso (regla de memoria).",
    [QLL_SAYS_REMARK_LOADING] =
        "{value} unidades de carga, cada aparato contado una vez para fría y caliente; rectas "
        "entre {count} puntos leídos del gráfico.",
    [QLL_SAYS_REMARK_BAND] =
        "Una franja para contrastar, no una norma: {count} aparatos a {flow}; el mínimo de la "
        "tabla para tantos es {low}[, el máximo {high}].",
    [QLL_SAYS_REMARK_UNITS_TANK] =
        "{value} unidades de aparato[ ({use})], columna de cisterna, rectas entre los puntos de la "
        "tabla.",
    [QLL_SAYS_REMARK_UNITS_FLUSH] =
        "{value} unidades de aparato[ ({use})], columna de fluxor, rectas entre los puntos de la "
        "tabla.",
    [QLL_SAYS_REMARK_UNITS_OTHER] =
        "La tabla no tiene entrada de uso {use} para \"{name}\"; se cuenta la que tiene.",
    [QLL_SAYS_REMARK_QUANTILE] = "No se supera durante el {share} de la hora punta; exacto.",
    [QLL_SAYS_REMARK_STEPS] =
        "Los caudales se ponen en pasos de {flow}, lo que lo mueve menos de {most}.",
    [QLL_SAYS_REMARK_HOMES] =
        "Las probabilidades son las de la hora punta de cada vivienda; tomadas para todas a la "
        "vez quedan del lado seguro.",
    [QLL_SAYS_REMARK_NORMAL_WITHIN] =
        "Para comparar. El estudio la usa donde hay 5 aparatos o más en uso de media; aquí hay "
        "{value}, dentro de ese margen.",
    [QLL_SAYS_REMARK_NORMAL_OUTSIDE] =
        "Para comparar. El estudio la usa donde hay 5 aparatos o más en uso de media; aquí hay "
        "{value}, fuera de ese margen.",
    [QLL_SAYS_REMARK_NORMAL_LOW] =
        "Aun ahí queda por debajo del valor exacto: un 5 % para los 270 aparatos de 27 viviendas.",
    [QLL_SAYS_REMARK_NO_FIXTURES] = "el escenario no indica aparatos",
    [QLL_SAYS_REMARK_NO_PEOPLE] = "el escenario no indica personas",
    [QLL_SAYS_REMARK_NO_LOG] = "el escenario no tiene registro de contador",
    [QLL_SAYS_REMARK_NO_PEAK] = "no se indica caudal punta",
    [QLL_SAYS_REMARK_PEAK_TOO_LOW] =
        "el caudal punta indicado es menor que los caudales continuos que coinciden",
    [QLL_SAYS_REMARK_NO_PROBABILITY] =
        "no hay probabilidad de uso publicada para \"{name}\"; indique su use_probability",
    [QLL_SAYS_REMARK_NO_FLOW] = "no hay caudal publicado para \"{name}\"; indique su flow",
    [QLL_SAYS_REMARK_HOMES_ONLY] =
        "las probabilidades de uso publicadas solo valen para viviendas; indique la "
        "use_probability de \"{name}\" y de los demás aparatos",
    [QLL_SAYS_REMARK_DIN_NO_USE] = "DIN 1988-300 no tiene constantes para este uso ({use})",
    [QLL_SAYS_REMARK_DIN_NO_FLOW] =
        "DIN 1988-300 no tiene caudal de cálculo para \"{name}\"; indique su flow",
    [QLL_SAYS_REMARK_DIN_RANGE] =
        "sus caudales de cálculo suman {flow} y DIN 1988-300 vale de {low} a {high}",
    [QLL_SAYS_REMARK_NO_LOADING] = "{table} no tiene unidades de carga para \"{name}\"",
    [QLL_SAYS_REMARK_NO_GRAPH] =
        "el gráfico que convierte sus {value} unidades de {table} en caudal no está en el "
        "programa; indique puntos leídos del gráfico",
    [QLL_SAYS_REMARK_GRAPH_FALLS] = "los puntos leídos del gráfico no suben",
    [QLL_SAYS_REMARK_OUTSIDE_GRAPH] =
        "sus {value} unidades de {table} quedan fuera de los puntos leídos del gráfico, de {low} "
        "a {high}",
    [QLL_SAYS_REMARK_NO_UNITS] =
        "la tabla E103.3(2) de IPC no tiene unidades de aparato para \"{name}\"",
    [QLL_SAYS_REMARK_UPC_CHART] =
        "las unidades de aparato de UPC van con el gráfico de demanda de ese código, que no está "
        "en el programa, y con la curva de otro código saldrían mal; pida \"fixture-units IPC\", "
        "o lea la punta en el gráfico de UPC e indíquela",
    [QLL_SAYS_REMARK_NO_BAND] = "la tabla del oficio no tiene un edificio así",
    [QLL_SAYS_REMARK_NO_CODE_LOG] =
        "el caudal punta es el del registro del contador, que no es cifra de norma, porque {what}",
    [QLL_SAYS_REMARK_LOG_COARSE] =
        "las lecturas del registro distan {interval}; ocultan la punta y cuánto tiempo hay poco "
        "caudal o ninguno: registre cada 1 min o menos",
    [QLL_SAYS_REMARK_LOG_SHORT] =
        "el registro abarca {covered} y se toma por el día entero: registre una semana, con sus "
        "noches y su fin de semana",
    [QLL_SAYS_REMARK_METHOD_FAILS] = "el caudal punta no se puede hallar por {method}: {what}",
    [QLL_SAYS_REMARK_NOTHING_DRAWS] =
        "nada consume agua; indique personas, aparatos o un caudal continuo",
    [QLL_SAYS_REMARK_NOTHING_FLOWS] = "en el registro del contador no hay caudal",
    [QLL_SAYS_REMARK_FAULT] = "{table}",
};
