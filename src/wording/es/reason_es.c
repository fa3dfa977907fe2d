#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_REASON]

const char *const qll_reason_es[QLL_TEXT_SIZE(REASON)] = {
    /* why a default is taken */
    SAYS(WHY_NO_NAME) = "no se indicó nombre",
    SAYS(WHY_NO_UNITS) = "no se pidieron unidades",
    SAYS(WHY_SEA_LEVEL) =
        "nivel del mar, supuesto nuestro; {1} de altura quitan {2} a la atmósfera (ISO 2533)",
    SAYS(WHY_GUEST_ROOMS) =
        "está en habitaciones de huéspedes, supuesto nuestro; qué es privado: IPC capítulo 2, de memoria",
    SAYS(WHY_PATIENT_ROOMS) =
        "está en habitaciones de pacientes, supuesto nuestro; qué es privado: IPC capítulo 2, de memoria",
    SAYS(WHY_USUAL_COUNTED) = "lo usual para lo que cuentan los datos, supuesto nuestro",
    SAYS(WHY_USUAL_HOME) = "lo usual en cada vivienda, supuesto nuestro",
    SAYS(WHY_CLEAN_SCREEN) = "una malla limpia, supuesto nuestro",
    SAYS(WHY_USUAL_SET) = "una presión de consigna usual, práctica común, sin fuente",
    SAYS(WHY_ALL_ALIKE) = "todos los escenarios cuentan igual",
    SAYS(WHY_COLD_WATER) = "agua fría en un edificio, práctica común, sin fuente",
    SAYS(WHY_COPPER) = "agua fría en cobre, Copper Tube Handbook (de memoria)",
    SAYS(WHY_WINTER) = "agua fría en invierno, supuesto nuestro",
    SAYS(WHY_COMMON) = "práctica común, sin fuente",
    SAYS(WHY_STATIC_MAX) = "presión estática máxima en los aparatos: IPC 604.8, UPC 608.2",
    SAYS(WHY_NO_FITTINGS) = "no se indicaron accesorios",
    SAYS(WHY_NO_HOURS) = "no se indicaron horas",
    SAYS(WHY_NO_RISE) = "no se indicó desnivel",
    SAYS(WHY_LEGIONELLA) = "acumulación contra la legionela, práctica común, sin fuente",
    SAYS(WHY_LOWER_END) = "lo más bajo de 2 a 4 veces, práctica común, sin fuente",
    SAYS(WHY_STUDY_QUANTILE) = "el cuantil del Peak Water Demand Study (2017)",
    SAYS(WHY_USUAL_PIPE) = "la tubería usual de estas estaciones, supuesto nuestro",
    SAYS(WHY_USUAL_RELIEF) =
        "la válvula de alivio usual de los calentadores, práctica común, sin fuente",
    SAYS(WHY_WHOLE_FLOW) = "todo el caudal de la estación, el lado seguro",
    SAYS(WHY_MOST_DAYS) = "lo que son la mayoría de los días",
    SAYS(WHY_NO_PATH) = "no se indicó recorrido; no se pierde nada",
    SAYS(WHY_NO_OUTLETS) = "no se indicó ninguno; solo se juzga la salida de la estación",
    SAYS(WHY_NO_FLOW_TEST) =
        "no se indicó prueba de caudal; supuesto nuestro, y no del lado seguro",
    SAYS(WHY_NO_UPSTREAM) = "no se indicó nada; la estación está en la red",
    SAYS(WHY_STATIC_AT_NO_FLOW) = "la presión sin caudal; en épocas secas puede ser menor",
    SAYS(WHY_FALLOFF) =
        "las válvulas directas se especifican con {1} a {2} (práctica común, sin fuente); con el caudal punta se admite algo más",
    SAYS(WHY_PEOPLE_PER_HOME) = "2.3 por vivienda, supuesto nuestro",
    SAYS(WHY_DAYS_BY_CHANCE) =
        "los días solo difieren por azar; 0 a 0.5, 0.48 en una vivienda de Alicante (estadística nuestra)",
    SAYS(WHY_SUMMER) =
        "cuando más se usa al aire libre; primavera y otoño 0.35 de ello, invierno nada, supuesto nuestro",
    SAYS(WHY_UNITS_US) = "las unidades de los datos son las de EE. UU.",
    SAYS(WHY_UNITS_METRIC) = "las unidades de los datos son métricas",
    SAYS(WHY_HOME_HOURS) =
        "de cada vivienda, 1.1 a 1.4 en 85 viviendas con contador de Alicante (estadística nuestra); se suma 0.13 del edificio entero",
    SAYS(WHY_HOURS_BY_CHANCE) = "las horas solo difieren por azar; no se conoce nada medido",
    SAYS(WHY_EVEN_HOUR) = "los usos se reparten por igual en la hora, supuesto nuestro",
    SAYS(WHY_BREAK) = "supuesto nuestro; 0 a 1 en {1} a {2}",
    SAYS(WHY_TABLE_FLOWS) = "caudales como en las tablas, que valen ahí: IPC 604.4, de memoria",
    SAYS(WHY_HOSE_US) =
        "1.5 usos de 326 s al día en verano, 0 a 2.2; supuesto nuestro, una casa medida; riego solo si los datos lo dicen",
    SAYS(WHY_HOSE_METRIC) =
        "0.3 usos de 326 s al día en verano, 0 a 2.2; supuesto nuestro, 5 a 8 L por persona y día en DE y UK",
    SAYS(WHY_HOUSE_ONE_HOME) = "una casa es una vivienda, supuesto nuestro",
    SAYS(WHY_PEOPLE_IN_EACH) = "2.3 personas en cada una, supuesto nuestro",
    SAYS(WHY_BETWEEN) = "entre {1} y {2}: {3}",
    SAYS(WHY_NOT_IN_CATALOGUE) = "no está en el catálogo",
    SAYS(WHY_BAND_ALONE) = "`band` vino sin presiones; supuesto nuestro",
    SAYS(WHY_SERVICE_SIZE) = "el de la acometida; se cuentan las reducciones a válvulas menores",
    SAYS(WHY_NO_PIPE_SIZE) =
        "no se indicó el tamaño de ninguna tubería; el menor que lleva el caudal punta dentro de la velocidad máxima",
    SAYS(WHY_WITHIN_BAND) =
        "lleva el caudal punta dentro de la banda de velocidad; se cuentan las reducciones a válvulas menores",
    SAYS(WHY_TEST_BEGINS) = "la prueba empieza con caudal; supuesto nuestro, la curva más empinada",
    SAYS(WHY_TEST_STATIC) = "la presión sin caudal de la prueba; de noche puede ser mayor",
    SAYS(WHY_PRECHARGE) =
        "a lo que se carga un vaso detrás de una válvula reductora; lea su manómetro",
    SAYS(WHY_COARSE_PEAK) = "solo depende de ello la punta de lecturas poco frecuentes",
    SAYS(WHY_NO_ID) = "no se indicó id",
    SAYS(WHY_MOST_DIRECT) = "la mayoría lo son, supuesto nuestro",
    SAYS(WHY_POINTS_REACH) = "no está en la tabla; los puntos llegan hasta ahí",
    SAYS(WHY_TENTH_BELOW) =
        "no está en la tabla; un décimo por debajo de la única presión de consigna",
    SAYS(WHY_NOISE_FOLLOWS) =
        "supuesto nuestro; de ello depende cuánto ruido puede hacer la estación",
    SAYS(WHY_SAME_MONEY) =
        "supuesto nuestro; se lee como el mismo número en la moneda del catálogo",
    SAYS(WHY_PRICE_DIRECT) =
        "no está en el catálogo; estimado para una válvula directa de su tamaño",
    SAYS(WHY_PRICE_PILOT) =
        "no está en el catálogo; estimado para una válvula pilotada de su tamaño",
    SAYS(WHY_ONLY_ONE) = "la única del catálogo de ese tamaño y tipo para su presión de consigna",
    SAYS(WHY_MIDDLE_ONE) = "la de en medio por Kv entre {1} del catálogo de ese tamaño y tipo",
    SAYS(WHY_GALVANIZED) = "el tubo galvanizado se toma por cédula 40, práctica común, sin fuente",
    SAYS(WHY_DRAWN_TUBE) = "tubo estirado de cobre, latón o vidrio, Crane TP-410",
    SAYS(WHY_NO_MATERIAL) = "supuesto nuestro si no se indica material",
    SAYS(WHY_ONE_PATH) = "IEC 60534-8-4 para un obturador de un solo paso",
    SAYS(WHY_METALS) = "metales, supuesto nuestro",
    SAYS(WHY_OURS) = "supuesto nuestro",
    /* what is taken instead */
    SAYS(VALUE) = "{1}",
    SAYS(VALUE_RANGE) = "de {1} a {2}",
    SAYS(VALUE_BY_SIZE) = "de {1} a {2}, según el tamaño",
    SAYS(VALUE_NO_PIPES) = "sin tuberías",
    SAYS(VALUE_NONE) = "ninguno",
    SAYS(VALUE_NOTHING) = "nada",
    SAYS(VALUE_FLAT) = "la presión no cae con el caudal",
    SAYS(VALUE_PRECHARGE) = "la salida de la estación sin caudal",
    SAYS(VALUE_BREAK) = "{1} de los usos de una hora en {2}",
    SAYS(VALUE_SCENARIO) = "escenario {1}",
    SAYS(VALUE_FIXTURES) = "{1} x {2}",
    SAYS(VALUE_FIXTURES_AS) = "{1} x {2} ({3})",
    SAYS(VALUE_LIKE_PIPE) = "el de la tubería",
    SAYS(VALUE_LIKE_VALVE) = "el de los extremos de la válvula",
    SAYS(VALUE_ESTIMATED_XFZ) = "estimado a partir del coeficiente, FL y Fd",
    SAYS(VALUE_OURS) = "{1} (supuesto nuestro)",
    SAYS(VALUE_LOCKUP_RISE) = "{1} directa, {2} pilotada (supuesto nuestro)",
    SAYS(VALUE_INLET_EFFECT) = "0.05 directa, 0 pilotada (supuesto nuestro)",
    SAYS(VALUE_FLOW_MIN) =
        "8 % directa, 5 % pilotada del caudal con el Kv completo y una caída de {1}, una parte mayor con más caída (estimación nuestra)",
    SAYS(VALUE_XFZ) = "estimado según la apertura, IEC 60534-8-4 ec. 3a",
    SAYS(VALUE_SEAT_BORE) = "0.55 del tamaño nominal (supuesto nuestro)",
    /* whose default it is, where that is no key */
    SAYS(WHAT_PIPE_LIMIT) = "válvula más grande que cabe en la tubería",
    SAYS(WHAT_HEADER) = "tamaño de la tubería de la estación",
    SAYS(WHAT_OF_VALVES) = "{1}: {2}",
    SAYS(AND_MORE) = "{1} y {2} más",
    /* a day's water: data/habits.csv */
    SAYS(HABITS_APARTMENT_US) =
        "dentro de casa con aparatos nuevos; elección nuestra entre 110 y 138 gal por vivienda, Residential End Uses of Water v2 (2016)",
    SAYS(HABITS_HOME_METRIC) =
        "dentro de casa; estadísticas nacionales, DE 122 a 127, NL 119 a 129, UK 126 a 166, CH 142, ES 133 L",
    SAYS(HABITS_HOUSE_US) =
        "dentro de casa; 138 gal por vivienda, Residential End Uses of Water v2 (2016), 2.6 personas por vivienda de memoria",
    SAYS(HABITS_HOTEL_US) =
        "solo habitaciones, 80 gal con restaurante, lavandería y piscina; tablas de aguas residuales y estudios del ramo con 100 a 200 gal por habitación",
    SAYS(HABITS_HOTEL_METRIC) =
        "solo habitaciones, 300 L con restaurante, lavandería y piscina; Metcalf and Eddy 2003 y estudios europeos",
    SAYS(HABITS_OFFICE_US) =
        "el edificio entero, los aparatos solos son el 41 % (EPA); Metcalf and Eddy 2003 y tablas locales",
    SAYS(HABITS_OFFICE_METRIC) =
        "el edificio entero, los aparatos solos son unos 17 L; Metcalf and Eddy 2003, IE 50, DE 22.5, CH 60 L",
    SAYS(HABITS_SCHOOL_US) =
        "en un día de clase, los aseos solos son el 45 % (EPA); elección nuestra, tablas locales de diseño 11 a 21 gal",
    SAYS(HABITS_SCHOOL_METRIC) =
        "en un día de clase; elección nuestra, IT 18.7 (Water Supply 13, 2013), UK 27 a 55, BR 13 a 22 L",
    SAYS(HABITS_RESTAURANT_US) =
        "por comida, con la cocina; Commercial and Institutional End Uses of Water 2000, referencia 6 a 9 gal",
    SAYS(HABITS_RESTAURANT_METRIC) =
        "por comida, con la cocina; la referencia de EE. UU., y Metcalf and Eddy 2003 con 25 a 45 L por cliente",
    SAYS(HABITS_HOSPITAL_US) =
        "por cama, también refrigeración y equipos, los aparatos son 250 L de ello; mediana de los seguidos por EPA 2012",
    SAYS(HABITS_HOSPITAL_METRIC) =
        "por cama, también refrigeración y equipos, los aparatos son 250 L de ello; ES 537 L (J. Healthcare Eng. 2016), DE 282, IT 1255 L",
    /* where hours come from: data/diurnal.csv */
    SAYS(HOURS_ALICANTE) =
        "cálculo nuestro con datos abiertos: 92 hogares con contador, Alicante, lecturas horarias, 1 año, CC BY-SA 4.0",
    SAYS(HOURS_MIDRISE_US) =
        "horario de agua caliente del edificio de apartamentos de US DOE (media sin ajustar x0.5225)",
    SAYS(HOURS_DWELLING_CH) =
        "base de datos abierta de energía urbana (MIT), agua caliente residencial, Suiza",
    SAYS(HOURS_OFFICE) =
        "ASHRAE 90.1-1989 s.13, horario de agua de oficinas según un archivo de modelo de US DOE; sumas sin ajustar de laborable/sábado/domingo 5.37/2.57/1.13",
    SAYS(HOURS_ASHRAE) = "ASHRAE 90.1-1989 s.13, horario de agua (de memoria)",
    SAYS(HOURS_PRESENCE) =
        "base de datos abierta de energía urbana (MIT): presencia de ocupantes, tomada para el agua",
    SAYS(HOURS_HOSPITAL_CH) =
        "base de datos abierta de energía urbana (MIT): presencia de ocupantes (43 % habitaciones, 56 % tratamiento), tomada para el agua",
    SAYS(HOURS_HOUSE) = "supuesto nuestro: la forma medida de un día laborable en apartamentos",
    SAYS(HOURS_OWN) = "las de los datos",
    /* uses as DIN 1988-300 calls them: data/din1988.csv */
    SAYS(DIN_RESIDENTIAL) = "vivienda, vivienda tutelada, residencia de mayores",
    SAYS(DIN_HOSPITAL) = "ala de camas de hospital",
    SAYS(DIN_HOTEL) = "hotel",
    SAYS(DIN_SCHOOL) = "escuela",
    SAYS(DIN_OFFICE) = "oficina / administración",
    SAYS(DIN_NURSING) = "residencia asistida",
    SAYS(DIN_WITHDRAWN) = "DIN 1988-3 retirada, vivienda, para comparar",
    /* tables of estimates */
    SAYS(TABLE_IPC) = "IPC 2018/2021, apéndice E, tablas E103.3(2) y E103.3(3)",
    SAYS(TABLE_TRADE) = "tabla antigua del oficio \"water for public buildings\"",
    SAYS(TABLE_OWN_USES) = "usos finales por defecto nuestros, data/enduse.csv y data/diurnal.csv",
    SAYS(TABLE_GIVEN) = "indicado en los datos",
    SAYS(TABLE_STUDY) = "Peak Water Demand Study 2017, según el apéndice M de UPC",
    SAYS(TABLE_PROBABILITIES) = "probabilidades de uso indicadas en los datos",
    SAYS(TABLE_DIN) = "DIN 1988-300:2012-05",
    SAYS(TABLE_EN) = "EN 806-3:2006, tabla 2",
    SAYS(TABLE_BS) = "BS 6700:1997, tabla D.1",
    /* sources */
    SAYS(SOURCE_KV) = "IEC 60534-2-1: caudal por una válvula de control, flujo estrangulado, Kv",
    SAYS(SOURCE_XFZ) =
        "IEC 60534-8-4: relación de cavitación xF, su umbral xFz y cómo xFz varía con la presión de entrada",
    SAYS(SOURCE_COLEBROOK) =
        "Darcy-Weisbach con el factor de fricción de Colebrook: pérdidas en tuberías",
    SAYS(SOURCE_BANDS) =
        "banda de velocidad de {1} a {2}, relación manométrica preferida 2, máxima 3: práctica común, sin fuente",
    SAYS(SOURCE_INVENTED) =
        "catálogo genérico: válvulas inventadas de proporciones corrientes, sin datos de fabricante",
    SAYS(SOURCE_OPENING_LAW) =
        "apertura en proporción a la caída de presión hasta la carrera completa: equilibrio de fuerzas de un disco plano sobre un resorte, deducción propia",
    SAYS(SOURCE_IPC) =
        "International Plumbing Code 2018/2021, apéndice E, tablas E103.3(2) y E103.3(3); caudales continuos según E102.2.2",
    SAYS(SOURCE_STUDY) =
        "Peak Water Demand Study (2017), tabla de caudales y probabilidades de aparatos, según el apéndice M de UPC; convolución binomial exacta",
    SAYS(SOURCE_PROBABILITIES) =
        "probabilidades de uso indicadas en los datos; convolución binomial exacta",
    SAYS(SOURCE_NORMAL) =
        "media más z desviaciones típicas de las mismas probabilidades (Wistort 1994, de memoria)",
    SAYS(SOURCE_DIN) =
        "DIN 1988-300:2012-05, V_S = a (suma V_R)^b - c; caudales de cálculo con su fuente en data/fixtures.csv; consumos de más de 15 minutos enteros",
    SAYS(SOURCE_TRADE) =
        "tabla antigua del oficio \"water for public buildings\", según la imprimió un almacenista; no nombra su primera publicación",
    SAYS(SOURCE_PULSES) =
        "Pulsos rectangulares de Poisson (Buchberger y Wu 1995), Poisson compuesto por hora; usos finales en parte supuesto nuestro, fuente en cada fila de data/enduse.csv, visitas en data/visits.csv; horas: {1}",
    SAYS(SOURCE_EN) = "EN 806-3:2006, tabla 2; puntos de su gráfico leídos por el usuario",
    SAYS(SOURCE_BS) = "BS 6700:1997, tabla D.1; puntos de su gráfico leídos por el usuario",
    SAYS(SOURCE_LOG) = "el registro del contador indicado en los datos",
    SAYS(SOURCE_LOG_RESOLVED) =
        "el registro del contador indicado en los datos; lo que sus lecturas ocultan, según el modelo de pulsos, docs/theory/metered.md",
    SAYS(SOURCE_GIVEN) = "el caudal punta indicado en los datos",
    /* words for machines, as people read them */
    SAYS(WORD_SURVEY) = "datos",
    SAYS(WORD_PEAK) = "punta",
    SAYS(WORD_DIRECT) = "directa",
    SAYS(WORD_PILOT) = "pilotada",
    SAYS(WORD_COPPER_L) = "cobre tipo L",
    SAYS(WORD_NEXT_ROOM) = "el cuarto de al lado",
    SAYS(WORD_US) = "EE. UU.",
    SAYS(WORD_METRIC) = "métricos",
    SAYS(WORD_HOSE) = "manguera",
    SAYS(WORD_IRRIGATION) = "riego",
    SAYS(WORD_SUMMER) = "verano",
    SAYS(WORD_SPRING) = "primavera",
    SAYS(WORD_AUTUMN) = "otoño",
    SAYS(WORD_WINTER) = "invierno",
    SAYS(WORD_WEEKDAY) = "laborable",
    SAYS(WORD_SATURDAY) = "sábado",
    SAYS(WORD_SUNDAY) = "domingo",
    SAYS(WORD_NONE) = "ninguno",
    SAYS(WORD_PRIVATE) = "privado",
    SAYS(WORD_PUBLIC) = "público",
    SAYS(WORD_APARTMENT) = "apartamento",
    SAYS(WORD_COPPER) = "cobre",
    SAYS(WORD_CATALOGUE) = "catálogo",
    /* why there is no sound level, or how much the one there is hangs on */
    SAYS(LEVEL_NO_CASE) = "falta un número o no tiene sentido",
    SAYS(LEVEL_PLASTIC) = "el método es solo para tubería metálica",
    SAYS(LEVEL_NO_DROP) = "la salida no está por debajo de la entrada",
    SAYS(LEVEL_FLASHING) =
        "la salida está a la presión de vapor o por debajo, y el agua se vaporiza",
    SAYS(LEVEL_CHOKED) =
        "la válvula está bloqueada por cavitación (xF igual o mayor que FL al cuadrado)",
    SAYS(LEVEL_XF_HIGH) = "xF pasa de 0.8, donde los términos de cavitación se disparan",
    SAYS(LEVEL_BEYOND) = "la etapa no puede dar el caudal",
    SAYS(LEVEL_ESTIMATED) = "orientativo; comienzo de la cavitación estimado",
    SAYS(LEVEL_FROM_SHEET) = "orientativo; comienzo de la cavitación según la ficha",
};
