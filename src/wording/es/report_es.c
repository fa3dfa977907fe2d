/* What the sheets of a report say, in Spanish. */
#include "wording/language.h"

#define QLL_AT(name) [QLL_SAYS_##name - QLL_REPORT_FIRST]

const char *const qll_report_es[QLL_DESIGN_FIRST - QLL_REPORT_FIRST] = {
    QLL_AT(USE_APARTMENT) = "vivienda en bloque",
    QLL_AT(USE_HOUSE) = "casa",
    QLL_AT(USE_OFFICE) = "oficina",
    QLL_AT(USE_HOTEL) = "hotel",
    QLL_AT(USE_SCHOOL) = "escuela",
    QLL_AT(USE_HOSPITAL) = "hospital",
    QLL_AT(USE_RESTAURANT) = "restaurante",
    QLL_AT(LIMIT_FROM_DELIVERY) =
        "lo que necesitan los puntos de consumo según los datos, o lo que la calle puede dar; sin "
        "ellos, la caída según los datos, si no 15 psi (práctica común)",
    QLL_AT(LIMIT_FROM_STATIC) = "según los datos; si no, IPC 604.8 y UPC 608.2",
    QLL_AT(LIMIT_FROM_RATIO) = "según los datos; si no, práctica común, sin fuente",
    QLL_AT(LIMIT_FROM_VELOCITY) =
        "válvula: 15 ft/s, práctica común, sin fuente; tubería: 8 ft/s, Copper Tube Handbook (de "
        "memoria); la banda solo informa",
    QLL_AT(LIMIT_FROM_CAPACITY) = "supuesto nuestro: debe quedar carrera",
    QLL_AT(LIMIT_FROM_LOW_FLOW) = "supuesto nuestro: una queja más probable que no",
    QLL_AT(LIMIT_FROM_CAVITATION) =
        "umbral xFz, IEC 60534-8-4; de qué se quejan es supuesto nuestro",
    QLL_AT(LIMIT_FROM_NOISE) = "supuesto nuestro de lo que se oye; nivel según IEC 60534-8-4",
    QLL_AT(LIMIT_FROM_RATING) = "datos de la válvula en el catálogo",
    QLL_AT(LIMIT_FROM_EXPANSION) =
        "dilatación del agua del calentador; vaso y válvula de alivio según los datos",
    QLL_AT(LIMIT_FROM_STRAINER) =
        "lo que sobra en los puntos de consumo; el filtro medio obstruido es supuesto nuestro",
    QLL_AT(PAGE_OF) = "página {page} de {pages}",
    QLL_AT(TITLE_DEMAND) = "Demanda de agua",
    QLL_AT(TITLE_CHECK) = "Revisión de la estación reductora de presión",
    QLL_AT(TITLE_DESIGN) = "Estación reductora de presión de agua",
    QLL_AT(SECTION_COVER) = "La estación en resumen",
    QLL_AT(SECTION_SURVEY) = "Datos levantados y supuestos",
    QLL_AT(SECTION_DEMAND) = "Cuánta agua, y cuándo",
    QLL_AT(SECTION_STATION) = "Piezas y ajustes",
    QLL_AT(SECTION_VERDICTS) = "¿Es correcta?",
    QLL_AT(SECTION_EXPECT) = "Qué esperar, desde un hilo de agua hasta el caudal punta",
    QLL_AT(SECTION_COMMISSIONING) = "Hoja de puesta en servicio",
    QLL_AT(SECTION_SERVICE) = "Hoja de mantenimiento",
    QLL_AT(SECTION_ALTERNATIVES) = "También posibles",
    QLL_AT(SECTION_CAUTIONS) = "Advertencias",
    QLL_AT(SECTION_SOURCES) = "Fuentes",
    QLL_AT(COVER_CAUTIONS) = "Precaución con: {cautions}.",
    QLL_AT(COVER_FAILS) = "Lea antes lo que no está bien: {fails}[; precaución con: {cautions}].",
    QLL_AT(FIGURES) = "Las cifras que recordar",
    QLL_AT(FACT_PEAK) = "caudal punta de diseño: lo que la estación debe dar",
    QLL_AT(FACT_IDLE) = "tiempo sin caudal, o solo una fuga",
    QLL_AT(FACT_SUPPLY) = "suministro sin consumo, del mínimo al máximo",
    QLL_AT(FACT_SET) = "presión deseada detrás de la estación",
    QLL_AT(FACT_LOCKUP) = "salida sin consumo y con el suministro en su máximo",
    QLL_AT(RANGE) = "de {low} a {high}",
    QLL_AT(AT_LEAST) = "{value} como mínimo",
    QLL_AT(WHY_THIS) = "Por qué: {what}",
    QLL_AT(SITE) = "Suministro, lugar y límites",
    QLL_AT(SUPPLY_HIGH) = "presión estática máxima del suministro",
    QLL_AT(SUPPLY_LOW) = "presión estática mínima del suministro",
    QLL_AT(WATER_TEMPERATURE) = "temperatura del agua",
    QLL_AT(WANTED_MOST) = "máximo admitido sin consumo",
    QLL_AT(LIMIT_BAND) = "banda de velocidad en las tuberías de las válvulas",
    QLL_AT(LIMIT_RATIO) = "relación manométrica: preferida, máxima",
    QLL_AT(HEATER) = "calentador: volumen, agua caliente, válvula de alivio",
    QLL_AT(TANK) = "vaso de expansión",
    QLL_AT(FLOW_TEST) = "Prueba de caudal del suministro",
    QLL_AT(BEFORE) = "En el camino del agua antes de la estación",
    QLL_AT(ELEMENT_PIPE) = "tubería",
    QLL_AT(ELEMENT_METER) = "contador",
    QLL_AT(ELEMENT_BACKFLOW) = "desconector (antirretorno)",
    QLL_AT(ELEMENT_STRAINER) = "filtro",
    QLL_AT(ELEMENT_LOSS) = "pérdida indicada en los datos",
    QLL_AT(OUTLETS) = "Puntos de consumo detrás de la estación",
    QLL_AT(SCENARIOS) = "Cómo se usa el edificio",
    QLL_AT(ASSUMED) = "Supuesto, porque no se indicó: compruébelo",
    QLL_AT(HEAD_FIGURE) = "cifra",
    QLL_AT(HEAD_VALUE) = "valor",
    QLL_AT(HEAD_PRESSURE) = "presión",
    QLL_AT(HEAD_ELEMENT) = "elemento",
    QLL_AT(HEAD_BORE) = "diámetro interior",
    QLL_AT(HEAD_LENGTH) = "longitud",
    QLL_AT(HEAD_LOSS_AT_PEAK) = "pérdida en el caudal punta",
    QLL_AT(HEAD_OUTLET_NAME) = "punto de consumo",
    QLL_AT(HEAD_HEIGHT) = "altura sobre la estación",
    QLL_AT(HEAD_NEEDS) = "necesita",
    QLL_AT(HEAD_SCENARIO) = "escenario",
    QLL_AT(HEAD_USE) = "uso",
    QLL_AT(HEAD_PEOPLE) = "personas",
    QLL_AT(HEAD_FIXTURES) = "aparatos",
    QLL_AT(HEAD_TAKEN) = "tomado",
    QLL_AT(HEAD_WHY) = "por qué",
    QLL_AT(ESTIMATES) = "Caudal punta según cada método aplicable",
    QLL_AT(HEAD_METHOD) = "método",
    QLL_AT(HEAD_TABLE) = "tabla o estudio",
    QLL_AT(METHOD_USED) = "{method} (usado para el diseño)",
    QLL_AT(NOTE_OF) = "{method}: {note}",
    QLL_AT(DRAWN) =
        "En {day} no hay caudal el {idle} del tiempo[, solo la fuga el {only}], ni aparato abierto "
        "el {share}; el caudal medio es {mean}[, y {leak} de él son fugas].",
    QLL_AT(DRAWN_METERED) =
        "Según el contador no hay caudal el {idle} del tiempo; el caudal medio es {mean}.",
    QLL_AT(DURATION) = "Durante cuánto tiempo el caudal no pasa de este valor",
    QLL_AT(HEAD_SHARE) = "parte del tiempo",
    QLL_AT(HEAD_AT_OR_BELOW) = "caudal no mayor de",
    QLL_AT(HEAD_OF_PEAK) = "del caudal punta",
    QLL_AT(PARTS) = "Piezas",
    QLL_AT(HEAD_PART) = "pieza",
    QLL_AT(HEAD_COUNT) = "unidades",
    QLL_AT(PART_VALVE) = "válvula reductora {valve}, {acting}",
    QLL_AT(PART_STRAINER) = "filtro, malla {mesh}, delante de la válvula",
    QLL_AT(PART_STRAINER_BODY) = "filtro en el cuerpo de la válvula",
    QLL_AT(PART_STOPS) = "llave de corte, una a cada lado",
    QLL_AT(PART_GAUGES) = "manómetro con llave, antes y después de la etapa",
    QLL_AT(PART_TANK) = "vaso de expansión, cargado a {precharge} antes de llenarlo",
    QLL_AT(PARTS_ARE) =
        "Válvulas y filtros son los que sirvieron de base a las cifras; llaves y manómetros "
        "son práctica común, sin fuente.",
    QLL_AT(SETTINGS) = "Cuadro de ajustes (presiones manométricas)",
    QLL_AT(HEAD_RUN) = "haga pasar este caudal",
    QLL_AT(HEAD_WITH_INLET) = "con la entrada a",
    QLL_AT(HEAD_GAUGE_READS) = "su manómetro de salida marca",
    QLL_AT(STRAINERS) = "Filtros",
    QLL_AT(HEAD_RULE) = "regla",
    QLL_AT(HEAD_VERDICT) = "dictamen",
    QLL_AT(HEAD_LIMIT) = "límite",
    QLL_AT(HEAD_SAYS) = "qué se encontró",
    QLL_AT(HEAD_LIMIT_FROM) = "de dónde sale el límite",
    QLL_AT(VERDICTS) = "Cada regla, con todos los caudales, presiones de suministro y escenarios",
    QLL_AT(POINTS_THERE) = "Desde caudal nulo hasta el caudal punta",
    QLL_AT(POINT_ASKED) = "Con el caudal que se pidió",
    QLL_AT(POINTS) =
        "Desde caudal nulo hasta el caudal punta, con el suministro en la mitad de su margen",
    QLL_AT(WAY) =
        "Presión en el camino: de noche sin caudal, y en el caudal punta con el suministro en "
        "su mínimo",
    QLL_AT(HEAD_NOTE) = "nota",
    QLL_AT(WITH_UNIT) = "{what}, {unit}",
    QLL_AT(TIME) = "En qué se va el tiempo",
    QLL_AT(HEAD_OF_TIME) = "del total",
    QLL_AT(COMMISSION_FIRST) =
        "Rellénela el día de la puesta en marcha. Antes deje correr el agua hasta que salga "
        "limpia por todos los ramales y purgue los manómetros. Atienda a las advertencias.",
    QLL_AT(DONE_BY) = "Hecho por",
    QLL_AT(HEAD_DATE) = "fecha",
    QLL_AT(HEAD_NAME) = "nombre",
    QLL_AT(HEAD_LICENCE) = "autorización",
    QLL_AT(HEAD_GAUGES) = "manómetros usados",
    QLL_AT(SIGN) = "firma",
    QLL_AT(TEST_SET) = "1. Ajuste y presión de cierre, cada válvula sola",
    QLL_AT(TEST_FALLOFF) = "2. Caída con el caudal en dos puntos, todas las válvulas en servicio",
    QLL_AT(TEST_CREEP) = "3. Prueba de fuga del asiento",
    QLL_AT(HEAD_EXPECTED) = "esperado",
    QLL_AT(HEAD_ACCEPTABLE) = "aceptable",
    QLL_AT(HEAD_MEASURED) = "medido",
    QLL_AT(HEAD_INLET_NOW) = "entrada medida",
    QLL_AT(HEAD_MINUTES) = "minutos tras cerrar",
    QLL_AT(SET_RANGE_FROM) =
        "Lea con el caudal en marcha; después cierre despacio y lea la presión de cierre a los "
        "cinco minutos. Se acepta {tolerance} en más o en menos (supuesto nuestro: lo que permiten "
        "un manómetro y el caudal de un aparato). Con otra presión de entrada la lectura cambia "
        "con ella.",
    QLL_AT(FALLOFF_RANGE_FROM) =
        "Espere 30 s en cada caudal. Se acepta una caída de hasta 1.3 veces la esperada; por "
        "encima del doble busque un filtro obstruido, un vástago agarrotado o una válvula "
        "pequeña (supuesto nuestro).",
    QLL_AT(CREEP_STEP_SAFE) =
        "Avise a los usuarios. Corte la energía del calentador y cierre su entrada de agua "
        "fría, nunca el paso a su válvula de alivio. Un vaso de expansión con llave propia se "
        "cierra solo para esta prueba.",
    QLL_AT(CREEP_STEP_SHUT) =
        "Cierre todos los aparatos. El indicador de fugas del contador debe estar quieto; si "
        "no, hay consumo o fuga: pare aquí.",
    QLL_AT(CREEP_STEP_DRAW) = "Haga correr de {low} a {high} durante 2 minutos y cierre despacio.",
    QLL_AT(CREEP_STEP_READ) =
        "Lea los dos manómetros 15 s después de cerrar y en los minutos de la tabla.",
    QLL_AT(CREEP_STEP_SEAT) =
        "Si la salida subió: cierre la entrada de la estación, baje la salida con un consumo "
        "corto y mire 10 minutos. Si vuelve a subir: calentamiento, un by-pass o una "
        "conexión cruzada; si no: el asiento.",
    QLL_AT(CREEP_STEP_BACK) =
        "Vuelva a abrirlo todo, ante todo el calentador y el vaso de expansión.",
    QLL_AT(CREEP_READINGS) = "Lecturas de la prueba de fuga",
    QLL_AT(CREEP_LIMITS) =
        "La salida sube en 10 minutos hasta {low}: estanca; de {low} a {high}: sospechosa, "
        "purgue y repita la prueba; más de {high}: fuga, limpie o renueve el asiento (supuesto "
        "nuestro).",
    QLL_AT(MINUTE_QUARTER) = "0.25 (15 s)",
    QLL_AT(SERVICE) = "Qué hacer, y cuándo",
    QLL_AT(HEAD_TASK) = "tarea",
    QLL_AT(HEAD_EVERY) = "cada",
    QLL_AT(HEAD_ACT_WHEN) = "actúe si",
    QLL_AT(HEAD_DONE) = "fecha, nombre",
    QLL_AT(EVERY_3_MONTHS) = "3 meses",
    QLL_AT(EVERY_6_MONTHS) = "6 meses",
    QLL_AT(EVERY_YEAR) = "año",
    QLL_AT(EVERY_5_YEARS) = "5 años",
    QLL_AT(SERVICE_GAUGES) = "Lea la salida de la estación sin consumo.",
    QLL_AT(SERVICE_GAUGES_WHEN) = "pasa de {limit} o sigue subiendo",
    QLL_AT(SERVICE_STRAINER) =
        "Filtro de {valve}: compare los manómetros de antes y después, sin caudal y con {flow}.",
    QLL_AT(SERVICE_STRAINER_PLAIN) = "Filtro de {valve}: ábralo y enjuáguelo.",
    QLL_AT(SERVICE_STRAINER_WHEN) = "la diferencia crece {dirty}: límpielo",
    QLL_AT(SERVICE_CREEP) = "Prueba de fuga, como en la hoja de puesta en servicio.",
    QLL_AT(SERVICE_CREEP_WHEN) = "la salida sube más de {limit} en 10 minutos",
    QLL_AT(SERVICE_WORK) =
        "Mueva las llaves de corte; gire cada tornillo de ajuste un poco a cada lado y vuelva "
        "a su lectura.",
    QLL_AT(SERVICE_WORK_WHEN) = "se agarrota, salta o no responde",
    QLL_AT(SERVICE_RELIEF) = "Válvula de alivio y vaso de expansión: según sus fabricantes.",
    QLL_AT(SERVICE_RELIEF_WHEN) = "la válvula de alivio gotea o el vaso ha perdido la carga",
    QLL_AT(SERVICE_REBUILD) = "Renueve disco de asiento, membrana y juntas.",
    QLL_AT(SERVICE_REBUILD_WHEN) = "antes si falla la prueba de fuga",
    QLL_AT(SERVICE_NEVER) = "no hay límite indicado",
    QLL_AT(INTERVALS_ARE) =
        "Los intervalos son práctica común, sin fuente; el agua sucia o dura pide otros más "
        "cortos, y los de los fabricantes van primero. Los límites de la prueba de fuga son "
        "supuesto nuestro.",
    QLL_AT(LEAK_LIMIT) =
        "Un asiento es bueno si deja pasar como mucho {pass} por pulgada de tamaño, y malo por "
        "encima de {fail}, una gota por segundo. Lo primero sigue un límite publicado para "
        "válvulas de alivio (10 cm³/h por pulgada de entrada); el resto es supuesto nuestro.",
    QLL_AT(SOURCES_ARE) = "Los títulos de las obras figuran en su propio idioma.",
    QLL_AT(PICTURE_SCHEMATIC) = "La estación",
    QLL_AT(PICTURE_DAY) = "Caudal medio por hora: {scenario}",
    QLL_AT(PICTURE_DURATION) = "Duración de caudales: {scenario}",
    QLL_AT(PICTURE_FALLOFF) = "Presión de salida desde caudal nulo hasta el caudal punta",
    QLL_AT(PICTURE_LADDER) = "Presión desde la red hasta el punto de consumo con menos margen",
    QLL_AT(PICTURE_MAP) =
        "Válvula {valve}: caudal frente a presión de entrada, y en qué se va el tiempo del "
        "edificio",
    QLL_AT(PICTURE_NOISE) = "Nivel sonoro frente al caudal (estimación)",
    QLL_AT(PICTURE_SPECTRUM) = "Sonido por bandas de tercio de octava (estimación)",
    QLL_AT(PICTURE_CANDIDATES) = "Estaciones por lo que cuestan y cada cuánto lo hacen volver",
    QLL_AT(SHOWS_SCHEMATIC) =
        "Tubería desde la red, a la izquierda, hasta el edificio, a la derecha: {station}. "
        "Cada válvula figura con su nombre, tamaño y consigna; el cuadro de ajustes da las "
        "mismas cifras.",
    QLL_AT(SHOWS_DAY) =
        "Un día en 24 horas. El caudal medio es máximo a las {hour}, {most}; el caudal punta "
        "es {peak}.",
    QLL_AT(SHOWS_DURATION) =
        "Parte del tiempo y del agua con cada caudal o menos. [Ningún aparato abierto el {share} "
        "del tiempo][No hay caudal el {idle} del tiempo]; {flow} no se supera el 99 % del tiempo; el caudal punta es {peak}.",
    QLL_AT(SHOWS_FALLOFF) =
        "Con el suministro en la mitad de su margen la salida marca {lockup} sin caudal y "
        "{pressure} con {flow}. La tabla de lo que cabe esperar da las mismas cifras.",
    QLL_AT(SHOWS_LADDER) =
        "Presión detrás de cada elemento, desde la red hasta el punto de consumo: de noche sin "
        "caudal, y en el caudal punta con el suministro en su mínimo. La tabla de la presión "
        "en el camino da las mismas cifras.",
    QLL_AT(SHOWS_MAP) =
        "Campos de caudal de la estación y presión de entrada de la etapa: liso es correcto, "
        "rayado pide precaución, cruzado incumple; los discos muestran en qué se va el tiempo "
        "del edificio. La tabla de en qué se va el tiempo da las partes.",
    QLL_AT(SHOWS_NOISE) =
        "Nivel en dB(A) a 1 m de la tubería, de la estación y de cada válvula, según el caudal "
        "con el suministro en la mitad de su margen; orientativo. El dictamen de ruido da las "
        "cifras que cuentan.",
    QLL_AT(SHOWS_SPECTRUM) =
        "Nivel en cada banda de tercio de octava a 1 m de la tubería, con un décimo, tres "
        "décimos y todo el caudal punta; orientativo.",
    QLL_AT(SHOWS_CANDIDATES) =
        "{count} estaciones por lo que cuestan instaladas y la probabilidad de que lo llamen otra "
        "vez; la recomendada está marcada. La tabla tiene las mismas cifras.",
    QLL_AT(HEAD_HOLDS) = "se mantiene",
    QLL_AT(HOLDS_MEANS) =
        "Se mantiene: de lo que no se sabe de demanda, suministro y válvulas, la parte en que no "
        "cumple (no cumple, precaución), o en que cumple (correcto); 100 % es un hecho. Supuesto "
        "nuestro de lo que no se sabe: docs/theory/recommendation.md de quell.",
    QLL_AT(WHAT_AND_KEY) = "{what} ({name})",
    QLL_AT(ELEMENT_AND) = "{what}, {name}",
    QLL_AT(NOT_GIVEN) = "no indicado",
    QLL_AT(KEY_NAME) = "nombre",
    QLL_AT(KEY_UNITS) = "unidades de las hojas",
    QLL_AT(KEY_ELEVATION) = "altura del lugar sobre el mar",
    QLL_AT(KEY_TEMPERATURE) = "temperatura del agua fría",
    QLL_AT(KEY_RISE) = "desnivel que sube la tubería",
    QLL_AT(KEY_FITTINGS) = "accesorios de la tubería",
    QLL_AT(KEY_UPSTREAM) = "lo que hay antes de la estación",
    QLL_AT(KEY_FLOW_TEST) = "prueba de caudal del suministro",
    QLL_AT(KEY_FLOW_TEST_STANDING) = "prueba de caudal sin caudal",
    QLL_AT(KEY_STATIC_HIGH) = "presión estática máxima del suministro",
    QLL_AT(KEY_STATIC_LOW) = "presión estática mínima del suministro",
    QLL_AT(KEY_PIPE) = "clase de tubería",
    QLL_AT(KEY_AREA_RATIO) = "área de la malla entre la de la tubería",
    QLL_AT(KEY_BLOCKED) = "parte obstruida de la malla",
    QLL_AT(KEY_SET_PRESSURE) = "presión deseada detrás de la estación",
    QLL_AT(KEY_STATIC_MAX) = "máximo admitido sin consumo",
    QLL_AT(KEY_OUTLETS) = "puntos de consumo que se juzgan",
    QLL_AT(KEY_PATH) = "tuberías hasta el punto de consumo",
    QLL_AT(KEY_CARRIES) = "lo que lleva la tubería en el caudal punta",
    QLL_AT(KEY_COLD) = "agua fría al calentador",
    QLL_AT(KEY_HOT) = "agua caliente del calentador",
    QLL_AT(KEY_RELIEF) = "tarado de la válvula de alivio del calentador",
    QLL_AT(KEY_PRECHARGE) = "carga previa del vaso de expansión",
    QLL_AT(KEY_WEIGHT) = "cuánto cuenta el escenario",
    QLL_AT(KEY_QUANTILE) = "parte de la hora punta dentro del caudal punta",
    QLL_AT(KEY_DAY) = "clase de día",
    QLL_AT(KEY_PEOPLE) = "personas en el edificio",
    QLL_AT(KEY_USE) = "uso del edificio",
    QLL_AT(KEY_HOURS) = "horas del caudal continuo",
    QLL_AT(KEY_VELOCITY_BAND) = "banda de velocidad en las tuberías de las válvulas",
    QLL_AT(KEY_VELOCITY_MAX) = "velocidad máxima en las tuberías",
    QLL_AT(KEY_RATIO_PREFERRED) = "relación manométrica preferida",
    QLL_AT(KEY_RATIO_MAX) = "relación manométrica máxima",
    QLL_AT(KEY_FALLOFF) = "mayor caída de presión en el caudal punta",
    QLL_AT(KEY_FALLOFF_SET) = "consigna de la ficha técnica",
    QLL_AT(KEY_FALLOFF_INLET) = "entrada de la ficha técnica",
    QLL_AT(KEY_TEMPERATURE_MAX) = "temperatura máxima del agua",
    QLL_AT(KEY_LOCKUP_RISE) = "subida sin caudal",
    QLL_AT(KEY_INLET_EFFECT) = "cambio de la salida con la entrada",
    QLL_AT(KEY_FLOW_MIN) = "mínimo caudal estable",
    QLL_AT(KEY_HYSTERESIS) = "histéresis",
    QLL_AT(KEY_FL) = "recuperación de presión FL",
    QLL_AT(KEY_FD) = "modificador de tipo Fd, para el ruido",
    QLL_AT(KEY_XFZ) = "umbral de cavitación xFz",
    QLL_AT(KEY_SEAT_BORE) = "diámetro del asiento, para el ruido",
    QLL_AT(MAKE_FLOW) = "Para que corran {flow}, abra {what}; {then}.[ {note}]",
    QLL_AT(TAP_TRICKLE) = "un poco la llave de un lavabo",
    QLL_AT(TAP_HALF) = "a la mitad la llave de un lavabo",
    QLL_AT(TAP_LAVATORY) = "del todo la llave de un lavabo",
    QLL_AT(TAP_SHOWER) = "del todo una ducha",
    QLL_AT(TAP_BIBB_MOST) = "casi del todo una llave de manguera",
    QLL_AT(TAP_BIBB) = "del todo una llave de manguera",
    QLL_AT(TAP_BIBBS) = "del todo {count} llaves de manguera",
    QLL_AT(TAP_DRAIN) =
        "cuanto haga falta un desagüe o una llave de manguera después de la estación",
    QLL_AT(JUG) = "una jarra de 1 galón",
    QLL_AT(JUG_SI) = "una jarra de 1 L",
    QLL_AT(BUCKET) = "un balde de 5 galones",
    QLL_AT(BUCKET_SI) = "un balde de 10 L",
    QLL_AT(MEASURE_JUG) = "{what} se llena entonces en {time} segundos",
    QLL_AT(MEASURE_JUG_QUARTS) =
        "{what} se llena entonces en {time} segundos ({count} cuartos por minuto)",
    QLL_AT(MEASURE_BUCKET) = "{what} se llena entonces en {time} segundos",
    QLL_AT(MEASURE_HAND) =
        "la aguja del medidor tarda entonces {time} segundos por vuelta (1 pie cúbico)",
    QLL_AT(MEASURE_HAND_LARGE) =
        "la aguja del medidor tarda entonces {time} segundos por décimo de "
        "vuelta (1 pie cúbico)",
    QLL_AT(MEASURE_MINUTE) = "el medidor avanza entonces {value} en un minuto",
    QLL_AT(METER_TOO_LARGE) = "El medidor de {size} apenas se mueve con tan poco: no lo lea.",
    QLL_AT(SET_VALVE) =
        "{valve}: {what} Su manómetro de entrada marca entonces unos {inlet}; gire el "
        "ajuste hasta que el de salida marque {pressure}.[ {note}]",
    QLL_AT(SET_ADD) =
        "Si la entrada marca más, sume {value} por cada {between}; si marca menos, réstelo.",
    QLL_AT(SET_TAKE_OFF) =
        "Si la entrada marca más, reste {value} por cada {between}; si marca menos, súmelo.",
    QLL_AT(CURES) = "Qué lo remediaría, lo que más conviene primero",
    QLL_AT(CURE_NOW) =
        "Posibilidad de que haya que volver si se deja como está: {chance}[, lo más probable porque {why}].[ No puede quedar como está. {breaks}]",
    QLL_AT(CURE_NONE) =
        "Ningún cambio se paga solo. \"quell design\" muestra qué se construiría aquí desde cero.",
    QLL_AT(CURE_SETTINGS) = "Cambie solo los ajustes: {others}. {cost}",
    QLL_AT(CURE_SMALL_BESIDE) =
        "Ponga una {valve} de {size} en paralelo, ajustada a {set}[, y {others}]. {cost}",
    QLL_AT(CURE_SMALLER_VALVE) =
        "Quite la de {old} y ponga en su lugar una {valve} de {size}, ajustada a {set}[; {others}]. {cost}",
    QLL_AT(CURE_STAGE_BEFORE) =
        "Ponga una {valve} de {size} antes, como primera etapa, ajustada a {set}[, y {others}]. {cost}",
    QLL_AT(CURE_WHOLE) = "Quítelo todo y construya de nuevo: {valves}. {cost}",
    QLL_AT(CURE_TANK) =
        "Ponga un vaso de expansión de {tank}, cargado a {precharge} antes de llenarlo: evita que la presión suba mientras calienta el calentador. Lo que eso cambia en la posibilidad de volver no está calculado.",
    QLL_AT(CURE_STRAINER) =
        "Limpie los filtros, y ponga uno mayor donde se tapen pronto: medio tapados quitan {loss} a la salida en el caudal punta. Lo que eso cambia en la posibilidad de volver no está calculado.",
    QLL_AT(CURE_LEAVE) = "deje la de {size} a {set}",
    QLL_AT(CURE_SET) = "ajuste la de {size} a {set}",
    QLL_AT(CURE_AND) = " y ",
    QLL_AT(CURE_VALVE_AT) = "{valve} de {size} a {set}",
    QLL_AT(CURE_COST) =
        "Unos {value} en piezas y trabajo, y el tener que volver pasa de {before} a {after}.",
    QLL_AT(CURE_COST_SAME) =
        "Unos {value} en piezas y trabajo, y la posibilidad de volver sigue en {after} más o menos.",
    QLL_AT(NO_CAUSE) = "No se incumple ninguna regla que se oiga. Lo más probable: {why}.",
    QLL_AT(KEY_WHERE_PEOPLE_ARE) = "dónde hay gente",
    QLL_AT(KEY_COST_VISIT) = "costo de una visita sin cobrar",
    QLL_AT(KEY_COST_STAGE) = "costo de cada etapa más",
    QLL_AT(KEY_COST_BRANCH) = "costo de todo lo que rodea a una válvula",
    QLL_AT(KEY_PRICE) = "precio de la válvula",
    QLL_AT(KEY_EXISTING_VALVE) = "la válvula que está",
    QLL_AT(KEY_OCCUPANCY) = "privado o público",
    QLL_AT(KEY_FIXTURES) = "aparatos",
    QLL_AT(KEY_BATHS) = "baños de cada vivienda",
    QLL_AT(KEY_HOMES) = "viviendas",
    QLL_AT(KEY_HABITS) = "de quién son los hábitos",
    QLL_AT(KEY_VOLUME) = "agua por persona y día",
    QLL_AT(KEY_VARIATION) = "cuánto varía una vivienda de un día a otro",
    QLL_AT(KEY_VARIATION_HOUR) = "cuánto varía una vivienda de una hora a otra",
    QLL_AT(KEY_BREAKS_OF_HOURS) = "recreos o pausas",
    QLL_AT(KEY_OUTLET_PRESSURE) = "presión en las salidas abiertas",
    QLL_AT(KEY_OUTDOOR) = "lo que las viviendas usan al aire libre",
    QLL_AT(KEY_SEASON) = "estación del año",
};
