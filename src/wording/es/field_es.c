#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_FIELD]

const char *const qll_field_es[QLL_TEXT_SIZE(FIELD)] = {
    /* why limits of values stand where they do */
    SAYS(BECAUSE_BUILDING_VALVES) =
        "las válvulas reductoras de edificios están entre ambos (supuesto nuestro)",
    SAYS(BECAUSE_VALVE_KV) =
        "las válvulas de 1/4 a 12 pulgadas están entre ambos (supuesto nuestro)",
    SAYS(BECAUSE_VALVE_INLET) =
        "las válvulas reductoras se construyen para entradas de hasta 600 psi (supuesto nuestro)",
    SAYS(BECAUSE_VALVE_TEMPERATURE) =
        "ninguna válvula de agua termina por debajo o por encima (supuesto nuestro)",
    SAYS(BECAUSE_VALVE_DROP) =
        "una caída o subida no es negativa, y una válvula con más no regula nada (supuesto nuestro)",
    SAYS(BECAUSE_INLET_EFFECT) = "una salida que sigue a la mitad de la entrada no está regulada",
    SAYS(BECAUSE_VALVE_FLOW) = "el agua no corre hacia atrás, y ninguna válvula así deja pasar más",
    SAYS(BECAUSE_TRIM_FACTOR) =
        "es una proporción, y ningún obturador está más bajo (IEC 60534-2-1 y 8-4)",
    SAYS(BECAUSE_STYLE_MODIFIER) =
        "los modificadores de tipo de válvula están entre ambos (IEC 60534-2-1)",
    SAYS(BECAUSE_PRICE) = "un precio no es negativo",
    SAYS(BECAUSE_TEN_YEARS) = "nadie espera diez años",
    SAYS(BECAUSE_OPENS_AS_FALLS) = "una válvula solo abre más cuando su salida baja",
    SAYS(BECAUSE_COST) = "un costo no es negativo",
    SAYS(BECAUSE_UNITS_DRAW_MORE) = "más unidades de carga consumen más",
    SAYS(BECAUSE_MAIN_FALLS) = "una red no da más presión con más caudal",
    SAYS(BECAUSE_DEVICE_TAKES) = "un equipo no quita menos presión con más caudal",
    SAYS(BECAUSE_DEAD_SEA) = "la gente vive desde el mar Muerto hasta los altos Andes",
    SAYS(BECAUSE_ATMOSPHERE) =
        "la atmósfera está entre ambos dondequiera que vive gente (ISO 2533)",
    SAYS(BECAUSE_LIQUID) = "el agua de un edificio es líquida y no hierve",
    SAYS(BECAUSE_MAIN_RATED) =
        "las redes se construyen para 350 psi como máximo (hierro dúctil, AWWA C151, de memoria), y una red que da agua está por encima de la atmósfera",
    SAYS(BECAUSE_MAIN_FLOW) =
        "el agua no corre hacia atrás, y ninguna red de edificio lleva más (supuesto nuestro)",
    SAYS(BECAUSE_PIPE_SIZES) =
        "las tuberías de edificios van de 1/4 a 24 pulgadas (supuesto nuestro)",
    SAYS(BECAUSE_ONE_BUILDING_LENGTH) =
        "una longitud no es negativa, y esto es un solo edificio (supuesto nuestro)",
    SAYS(BECAUSE_LIFT_400) =
        "400 psi elevan el agua 920 ft; una tubería de un edificio no sube ni baja más",
    SAYS(BECAUSE_SCREEN_ROOM) =
        "los cuerpos dan lugar a mallas de 1 a 10 veces la tubería (supuesto nuestro)",
    SAYS(BECAUSE_OPENINGS) =
        "es una proporción de las aberturas, y si no queda ninguna no corre agua",
    SAYS(BECAUSE_DEVICE_LOSS) =
        "un equipo quita presión y no la añade, y ninguno se construye para quitar más (supuesto nuestro)",
    SAYS(BECAUSE_SOMEBODY_DRAWS) = "alguien consume el agua, y esto es un solo edificio",
    SAYS(BECAUSE_ONE_BUILDING) = "esto es un solo edificio",
    SAYS(BECAUSE_ONE_HOME) = "esto es una sola vivienda",
    SAYS(BECAUSE_WEIGHTS) = "los pesos comparan los escenarios entre sí",
    SAYS(BECAUSE_QUANTILE) = "la mitad del tiempo no dice nada de una punta, y 1 no tiene ninguna",
    SAYS(BECAUSE_PULSE) = "ningún contador cuenta volúmenes menores o mayores (supuesto nuestro)",
    SAYS(BECAUSE_VOLUME) = "nadie vive con menos, y ningún uso toma más (supuesto nuestro)",
    SAYS(BECAUSE_DAYS_WITHOUT) =
        "más allá, la mayoría de los días no tendría uso alguno (supuesto nuestro)",
    SAYS(BECAUSE_HOURS_WITHOUT) =
        "más allá, la mayoría de las horas no tendría uso alguno (supuesto nuestro)",
    SAYS(BECAUSE_OUTLETS_WORK) =
        "los puntos de consumo de edificios no trabajan con otra (supuesto nuestro)",
    SAYS(BECAUSE_METER_PASSES) =
        "los contadores de edificios no dejan pasar menos ni más (supuesto nuestro)",
    SAYS(BECAUSE_METER_BLIND) = "ningún contador deja de ver más (supuesto nuestro)",
    SAYS(BECAUSE_QUALITY) = "la calidad de señal se cuenta así (supuesto nuestro)",
    SAYS(BECAUSE_SILENCE) = "un silencio más largo es un hueco",
    SAYS(BECAUSE_SHARE) = "es una proporción",
    SAYS(BECAUSE_BREAK) = "una pausa cabe en su hora",
    SAYS(BECAUSE_FIXTURE_FLOW) = "ningún aparato consume menos o más (supuesto nuestro)",
    SAYS(BECAUSE_PROBABILITY) = "es una probabilidad, y un aparato que está se usa",
    SAYS(BECAUSE_BUILDING_FLOW) =
        "el agua no corre hacia atrás, y ningún edificio consume más (supuesto nuestro)",
    SAYS(BECAUSE_SET_RANGE) =
        "las válvulas se construyen para salidas de 10 a 200 psi (supuesto nuestro)",
    SAYS(BECAUSE_LIFT_200) = "200 psi elevan el agua 460 ft, y una zona no baja más",
    SAYS(BECAUSE_FIXTURE_NEEDS) =
        "ningún aparato necesita más (supuesto nuestro), y ninguno trabaja por debajo de la atmósfera",
    SAYS(BECAUSE_HEATERS) =
        "los calentadores de edificios no son menores ni mayores (supuesto nuestro)",
    SAYS(BECAUSE_RELIEF) =
        "las válvulas de alivio de calentadores abren de 30 a 150 psi (de memoria)",
    SAYS(BECAUSE_TANKS) = "los vasos de edificios no son menores ni mayores (supuesto nuestro)",
    SAYS(BECAUSE_TANKS_CHARGED) =
        "los vasos se cargan a las presiones de un edificio (supuesto nuestro)",
    SAYS(BECAUSE_VELOCITY) =
        "el agua en tuberías de edificios no corre más rápido ni más lento (supuesto nuestro)",
    SAYS(BECAUSE_RATIO) =
        "una válvula reduce, y por encima de 20:1 no se fabrica ninguna (supuesto nuestro)",
    SAYS(BECAUSE_HOLDS_CLOSER) =
        "ninguna válvula mantiene con menos de 1 psi, y la salida conserva algo de presión",
    SAYS(BECAUSE_VALVE_OUTLET) =
        "no se fabrica ninguna válvula para una salida por debajo o por encima (supuesto nuestro)",
    /* what keys mean that must be there */
    SAYS(MEANS_VERSION) = "1, la versión de este formato",
    SAYS(MEANS_VALVES) = "las válvulas, al menos una",
    SAYS(MEANS_ID) = "cómo se llama; no hay dos iguales",
    SAYS(MEANS_CONNECTIONS) = "tamaño de sus conexiones",
    SAYS(MEANS_ACTING) = "direct: la mueve un resorte; pilot: la mueve una válvula pequeña",
    SAYS(MEANS_KV) = "coeficiente de caudal a plena apertura; también vale un Cv, \"21 Cv\"",
    SAYS(MEANS_SET_RANGE) = "presión de salida mínima y máxima a la que se puede ajustar",
    SAYS(MEANS_INLET_MAX) = "presión de entrada máxima",
    SAYS(MEANS_MEASURED_INLET) = "presión de entrada a la que se midió",
    SAYS(MEANS_MEASURED_SET) = "presión de consigna a la que se midió",
    SAYS(MEANS_RISING_FLOW) = "el caudal, creciente de punto a punto",
    SAYS(MEANS_FALLOFF) = "presión de consigna menos presión de salida con ese caudal, creciente",
    SAYS(MEANS_VALVE_SIZE) = "el tamaño de la válvula",
    SAYS(MEANS_SUPPLY) = "lo que da la red",
    SAYS(MEANS_SCENARIOS) = "las formas en que se usa el edificio, al menos una",
    SAYS(MEANS_PRESSURE) = "la presión con ese caudal, no creciente",
    SAYS(MEANS_PIPE) = "qué tubería es",
    SAYS(MEANS_FAMILY_SIZE) = "un tamaño de esa familia",
    SAYS(MEANS_LENGTH) = "longitud a lo largo de la tubería",
    SAYS(MEANS_METER) = "el tipo; todos menos displacement necesitan `loss`",
    SAYS(MEANS_BACKFLOW) = "el tipo de dispositivo",
    SAYS(MEANS_STRAINER) = "las aberturas de la malla por pulgada",
    SAYS(MEANS_DEVICE) = "qué es: un ablandador, un filtro",
    SAYS(MEANS_LOSS) = "su pérdida con caudales crecientes",
    SAYS(MEANS_PRESSURE_LOST) = "la presión perdida con ese caudal",
    SAYS(MEANS_BREAK_SHARE) = "de los usos de una hora que caen en su pausa",
    SAYS(MEANS_BREAK_LENGTH) = "de la pausa, al inicio de cada hora",
    SAYS(MEANS_LOADING_UNITS) = "unidades de carga, crecientes de punto a punto",
    SAYS(MEANS_GRAPH_FLOW) = "el caudal de diseño ahí, también creciente",
    SAYS(MEANS_FIXTURE) = "qué es",
    SAYS(MEANS_COUNT) = "cuántos",
    SAYS(MEANS_DRAWS) = "qué lo consume",
    SAYS(MEANS_ITS_FLOW) = "su caudal",
    SAYS(MEANS_NAME) = "cómo se llama en las respuestas",
    SAYS(MEANS_ELEVATION) = "sobre la estación; negativo por debajo",
    SAYS(MEANS_NEEDS) = "presión mínima en el punto mientras corre",
    SAYS(MEANS_HEATED) = "volumen de agua caliente",
    SAYS(MEANS_TANK) = "volumen de todo el vaso, aire y agua",
    SAYS(MEANS_STAGES) = "de 1 a 3 etapas en serie, en el sentido del agua",
    SAYS(MEANS_BRANCHES) = "de 1 a 6 válvulas en paralelo",
    SAYS(MEANS_VALVE) =
        "el id de una válvula del catálogo, o tamaño y tipo: la válvula del catálogo de estos cuyo rango contiene `set_pressure`, de varias la de en medio por Kv",
    SAYS(MEANS_SET_PRESSURE) = "a qué está ajustada, leído con un hilo de agua",
    SAYS(MEANS_USE) =
        "para qué se usa el edificio; da los usos del agua y el día; hace falta salvo que un `log` sustituya a `people` y `fixtures`",
    SAYS(MEANS_OUTLET_PRESSURE) =
        "presión en los puntos mientras corren; sus caudales y tiempos la siguen",
    /* objects of a survey or a catalogue */
    SAYS(GROUP_CATALOGUE) = "el catálogo",
    SAYS(GROUP_VALVE) = "una válvula",
    SAYS(GROUP_FALLOFF) = "falloff",
    SAYS(GROUP_FALLOFF_POINT) = "un punto de la caída",
    SAYS(GROUP_COSTS) = "costs",
    SAYS(GROUP_SIZE_COST) = "un tamaño de los costos",
    SAYS(GROUP_SURVEY) = "los datos",
    SAYS(GROUP_SITE) = "site",
    SAYS(GROUP_WATER) = "water",
    SAYS(GROUP_SUPPLY) = "supply",
    SAYS(GROUP_FLOW_TEST) = "un punto de la prueba de caudal",
    SAYS(GROUP_PIPE) = "una tubería",
    SAYS(GROUP_PATH) = "una tubería hasta el punto",
    SAYS(GROUP_METER) = "un contador",
    SAYS(GROUP_BACKFLOW) = "un dispositivo antirretorno",
    SAYS(GROUP_STRAINER) = "un filtro de malla",
    SAYS(GROUP_DEVICE) = "un equipo",
    SAYS(GROUP_LOSS) = "un punto de la pérdida",
    SAYS(GROUP_STATION_PIPE) = "station_pipe",
    SAYS(GROUP_SCENARIO) = "un escenario",
    SAYS(GROUP_LOG) = "el formato del registro",
    SAYS(GROUP_BREAKS) = "una pausa",
    SAYS(GROUP_LOADING) = "loading_units",
    SAYS(GROUP_GRAPH) = "un punto del gráfico",
    SAYS(GROUP_FIXTURE) = "un aparato",
    SAYS(GROUP_CONTINUOUS) = "un caudal continuo",
    SAYS(GROUP_DOWNSTREAM) = "downstream",
    SAYS(GROUP_OUTLET) = "un punto de consumo",
    SAYS(GROUP_HEATER) = "heater",
    SAYS(GROUP_TANK) = "el vaso de expansión",
    SAYS(GROUP_LIMITS) = "limits",
    SAYS(GROUP_EXISTING) = "existing",
    SAYS(GROUP_STAGE) = "una etapa",
    SAYS(GROUP_BRANCH) = "una rama",
};
