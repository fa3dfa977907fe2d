#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_READER]

const char *const qll_reader_es[QLL_TEXT_SIZE(READER)] = {
    /* what was found */
    SAYS(FOUND_OBJECT) = "un objeto",
    SAYS(FOUND_LIST_OF_ONE) = "una lista de 1 entrada",
    SAYS(FOUND_LIST_OF) = "una lista de {1} entradas",
    SAYS(FOUND_HERE) = "aquí está {1}; se espera {2}",
    SAYS(ORIGIN) = "{1}, línea {2}",
    SAYS(LIMIT_GIVEN) = "{1} ({2})",
    SAYS(LIMIT_DEFAULT) = "{1} (lo supuesto para {2})",
    SAYS(LIMIT_ASSUMED) = "lo que se supone",
    /* what is expected */
    SAYS(EXPECT_OBJECT) = "un objeto entre { }",
    SAYS(EXPECT_NUMBER) = "un número",
    SAYS(EXPECT_BARE_NUMBER) = "un número sin comillas",
    SAYS(EXPECT_QUANTITY) = "{1} como texto con su unidad, por ejemplo \"{2}\"",
    SAYS(EXPECT_PAIR) = "una lista de dos valores, el menor primero",
    SAYS(EXPECT_TEXT) = "texto entre comillas",
    SAYS(EXPECT_WORD) = "una palabra entre comillas",
    SAYS(EXPECT_FLAG) = "true o false",
    SAYS(EXPECT_LIST) = "una lista entre [ ]",
    SAYS(EXPECT_FAMILY) = "una familia de tubería entre comillas, \"copper L\"",
    SAYS(EXPECT_HOW_MANY) = "cuántos hay, un número entero",
    SAYS(EXPECT_FITTINGS) = "un objeto, de accesorio a cantidad: {\"elbow 90\": 4}",
    SAYS(EXPECT_FIXTURE) = "un aparato entre comillas, \"shower\"",
    SAYS(EXPECT_HOURS) = "horas de 00:00 a 24:00, por ejemplo \"09:00-17:00\"",
    SAYS(EXPECT_HOURLY) =
        "24 números de 0 a 1000000, el agua de cada hora desde medianoche, no todos 0",
    SAYS(EXPECT_MESH) = "una malla, \"40 mesh\" o 40",
    /* keys and words */
    SAYS(KEY_UNKNOWN) = "{1} no significa nada en {2}; las claves ahí son {3}",
    SAYS(KEY_MISSING) = "{1} necesita \"{2}\": {3}",
    SAYS(KEY_MISSING_EXAMPLE) = "{1} necesita \"{2}\": {3}, por ejemplo \"{4}\"",
    SAYS(VERSION_UNKNOWN) = "{1}: es de la versión {2}; este programa lee la versión 1",
    SAYS(NO_SUCH_DOCUMENT) =
        "esto no es \"{1}\": la mayoría de sus claves son otras; un documento así empieza con \"{1}\": 1",
    SAYS(WORD_UNKNOWN) = "{1} no es {2}; se conocen {3}",
    SAYS(WORD_UNKNOWN_LISTED) = "{1} no es {2}; las palabras están en docs/formats/{3}",
    SAYS(A_WORD_FOR) = "una palabra para {1}",
    SAYS(A_FAMILY) = "una familia de tubería",
    SAYS(A_FITTING) = "un accesorio",
    SAYS(A_FIXTURE) = "un aparato",
    SAYS(A_PEAK) = "un modo de hallar la punta, ni un caudal como \"87 gpm\"",
    SAYS(CARRIES) = "lo que lleva una tubería, ni un caudal como \"12 gpm\"",
    /* values */
    SAYS(NO_UNIT_WRITE) =
        "{1} no tiene unidad; escriba {2} como texto con su unidad, por ejemplo \"{3}\"",
    SAYS(BELOW_LEAST) = "{1} está por debajo de {2}, lo mínimo que puede ser {3}: {4}",
    SAYS(ABOVE_MOST) = "{1} está por encima de {2}, lo máximo que puede ser {3}: {4}",
    SAYS(NOT_WHOLE) = "{1} no es un número entero; aquí se cuentan cosas",
    SAYS(LOWER_FIRST) = "{1} no está por encima de {2}; escriba primero el valor menor",
    SAYS(X_NOT_RISING) =
        "{1} no está por encima del {2} anterior, {3} ({4}); los puntos van del menor al mayor {2}",
    SAYS(Y_NOT_ABOVE) = "{1} no está por encima de {2} en el punto anterior ({3}): {4}",
    SAYS(Y_BELOW) = "{1} está por debajo de {2} en el punto anterior ({3}): {4}",
    SAYS(Y_ABOVE) = "{1} está por encima de {2} en el punto anterior ({3}): {4}",
    SAYS(NAME_EMPTY) = "{1} está vacío; se espera un nombre",
    SAYS(NAME_LONG) = "{1} tiene más de 200 bytes; un nombre debe caber en una línea del informe",
    SAYS(NAME_CONTROL) =
        "{1} contiene un carácter de control; un nombre es texto simple en una línea",
    SAYS(LIST_EMPTY) = "la lista {1} está vacía; indique al menos una entrada",
    SAYS(LIST_EMPTY_OR_NONE) =
        "la lista {1} está vacía; indique al menos una entrada u omita la clave",
    SAYS(LIST_LONG) = "{1} tiene {2} entradas; se leen como máximo {3}",
    /* supply */
    SAYS(STATIC_MISSING) =
        "supply necesita \"static_high\", la presión sin caudal, o un \"flow_test\" que empiece en \"0 gpm\"",
    SAYS(STATIC_MISSING_TEST) =
        "supply necesita \"static_high\", la presión sin caudal: su prueba de caudal empieza en {1}",
    SAYS(WARN_NO_FLOW_TEST) =
        "sin \"flow_test\" se supone que la red mantiene su presión estática con cualquier caudal; una red real cae, así que la entrega en el caudal punta se juzga con demasiada indulgencia",
    SAYS(STATIC_BELOW_TEST) =
        "{1} está por debajo de {2} ({3}): la estática máxima no puede quedar por debajo de una presión de la prueba de caudal",
    SAYS(STATIC_ABOVE_HIGH) =
        "{1} está por encima de {2} ({3}): la estática mínima no puede quedar por encima de la máxima",
    SAYS(STATIC_ABOVE_TEST) =
        "{1} está por encima de {2} ({3}): la estática mínima no puede quedar por encima de la de la prueba de caudal",
    SAYS(WARN_STATIC_HIGH) =
        "{1} es raro: pocas redes pasan de 250 psi; compruebe el manómetro y su unidad",
    SAYS(WARN_STATIC_LOW) =
        "{1} es raro: pocas redes bajan de 15 psi; compruebe el manómetro y su unidad",
    SAYS(TWO_ATMOSPHERES) =
        "elevation y barometric dicen ambos la presión atmosférica; indique uno",
    /* upstream */
    SAYS(ENTRY_UNKNOWN) = "{1} no significa nada en una entrada de upstream; es una de {2}",
    SAYS(ENTRY_MISSING) = "una entrada de upstream necesita una clave que diga qué es: {1}",
    SAYS(ENTRY_TWICE) =
        "una entrada es una sola cosa, y esta ya es {1}; dé a {2} una entrada propia",
    SAYS(METER_NO_SIZE) = "un contador necesita \"nominal\", su tamaño, o su propio \"loss\"",
    SAYS(BACKFLOW_NO_SIZE) =
        "un dispositivo antirretorno necesita \"nominal\", su tamaño, o su propio \"loss\"",
    SAYS(METER_SIZE_UNKNOWN) =
        "{1} no está en la tabla de contadores de desplazamiento, que tiene {2}; indique en su lugar el \"loss\" del contador",
    SAYS(METER_NEEDS_LOSS) =
        "solo hay tabla para contadores de desplazamiento; este necesita su propio \"loss\": [{\"flow\": \"50 gpm\", \"pressure\": \"2 psi\"}]",
    SAYS(BACKFLOW_SIZE_UNKNOWN) =
        "{1} no es un tamaño cuya pérdida usual se conozca; indique el \"loss\" del dispositivo",
    SAYS(MESH_UNKNOWN) =
        "{1} no es una malla de ASTM E11 que se conozca aquí: 20, 30, 40, 50, 60, 80 o 100",
    SAYS(SIZE_UNKNOWN) = "{1} no es un tamaño de {2}; sus tamaños son {3}",
    SAYS(FITTINGS_NOT_WHOLE) = "{1} no es un número entero de 0 a 1000; los accesorios se cuentan",
    /* downstream and limits */
    SAYS(HEATER_HOT) = "{1} no está por encima de {2}: un calentador calienta el agua",
    SAYS(HEATER_COLD) = "{1} no está por debajo de {2}: un calentador calienta el agua",
    SAYS(RELIEF_OPEN) =
        "{1} no está por encima de {2}: la válvula de alivio estaría abierta a la presión de consigna",
    SAYS(SET_ABOVE_LOWEST) =
        "{1} está por encima de {2}: el punto más bajo quedaría por encima de lo permitido",
    SAYS(STATIC_BELOW_LOWEST) =
        "{1} está por debajo de {2}: el punto más bajo quedaría por encima de lo permitido",
    SAYS(SET_ABOVE_STATIC) =
        "{1} está por encima de {2}: la salida quedaría por encima de lo permitido; si todos están sobre la estación, indique el más bajo",
    SAYS(STATIC_BELOW_SET) =
        "{1} está por debajo de {2}: la salida quedaría por encima de lo permitido; si todos están sobre la estación, indique el más bajo",
    SAYS(SET_NOT_BELOW_SUPPLY) =
        "{1} no está por debajo del suministro máximo, {2}: una válvula reductora solo quita presión",
    SAYS(WARN_SET_ABOVE_LOWEST) =
        "{1} no está por debajo del suministro mínimo, {2}: mientras la red esté ahí la estación no puede mantenerla",
    SAYS(FALLOFF_NOT_BELOW_SET) =
        "{1} no está por debajo de la presión de consigna, {2}: no quedaría nada en la salida",
    SAYS(VELOCITY_IN_BAND) =
        "{1} está dentro de la banda, {2}: la velocidad máxima no puede quedar por debajo del extremo superior de la banda",
    SAYS(BAND_ABOVE_VELOCITY) =
        "{1} llega por encima de {2}: indique también un \"velocity_max\" mayor",
    SAYS(RATIO_BELOW_PREFERRED) =
        "{1} está por debajo de {2}: la relación máxima no puede quedar por debajo de la preferida",
    SAYS(PREFERRED_ABOVE_RATIO) =
        "{1} está por encima de {2}: indique también un \"ratio_max\" mayor",
    SAYS(INLET_HIGHEST_STATIC) =
        "{1} no está por debajo de su entrada, {2} (la estática máxima de supply): una válvula reductora solo quita presión",
    SAYS(INLET_HIGHEST_SET) =
        "{1} no está por debajo de su entrada, {2} (la set_pressure máxima de existing.stages[{3}]): una válvula reductora solo quita presión",
    /* scenarios */
    SAYS(BELONGS_TO) = "\"{1}\" corresponde a \"use\": \"{2}\"",
    SAYS(BELONGS_TO_DWELLINGS) = "\"{1}\" corresponde a \"use\": \"house\" o \"apartment\"",
    SAYS(PART_OF_BATH) = "los baños son enteros o medios: 2, o 2.5 para dos baños y medio",
    SAYS(PEOPLE_MISSING_KEY) = "el escenario necesita \"people\", cuántas personas hay, o \"{1}\"",
    SAYS(PEOPLE_MISSING_HOMES) =
        "el escenario necesita \"people\", cuántas personas hay, o \"homes\", cuántas viviendas",
    SAYS(PEOPLE_MISSING_BATHS) =
        "el escenario necesita \"people\", cuántas personas hay, o \"homes\", cuántas viviendas, o \"baths\"",
    SAYS(FIXTURES_MISSING) =
        "el escenario necesita \"fixtures\", por ejemplo [{\"fixture\": \"shower\", \"count\": 48}], o su \"peak\" como caudal",
    SAYS(FIXTURES_MISSING_OR) =
        "el escenario necesita \"fixtures\", por ejemplo [{\"fixture\": \"shower\", \"count\": 48}], o \"{1}\", o su \"peak\" como caudal",
    SAYS(NAME_TWICE) = "{1} ya es el nombre de scenarios[{2}]; no puede haber dos iguales",
    SAYS(LOG_KEYS_ALONE) =
        "{1} dice cómo leer un registro; nombre también el archivo, por ejemplo \"log\": \"last-tenant.csv\"",
    SAYS(OUTDOOR_ELSEWHERE) =
        "\"outdoor\" es la manguera o los aspersores de una vivienda; indique lo que corre aquí al aire libre como caudal \"continuous\" con sus horas",
    SAYS(LOG_UNIT_UNKNOWN) = "{1} no es unidad de caudal ni de volumen, ni \"pulses\"",
    SAYS(ZONE_UNKNOWN) =
        "{1} no es una zona horaria que se conozca aquí; escriba un desfase, \"-07:00\", o una regla, \"MST7MDT,M3.2.0,M11.1.0\"",
    /* catalogues */
    SAYS(SHEET_SET_INLET) =
        "{1} no está por debajo de {2}: la salida de una válvula reductora queda por debajo de su entrada",
    SAYS(SHEET_INLET_MAX) = "{1} está por encima de {2}: no puede haberse medido ahí",
    SAYS(SHEET_SET_RANGE) = "{1} está fuera de set_range; no puede haberse medido ahí",
    SAYS(XFZ_ABOVE_FL) =
        "{1} está por encima de FL al cuadrado, de {2}: la cavitación se oye antes de que el flujo se estrangule, no después",
    SAYS(SEAT_ABOVE_BODY) = "{1} está por encima de {2}: el asiento está dentro del cuerpo",
    SAYS(WARN_KV_OPEN_PIPE) =
        "{1} es más de lo que pasa un tubo abierto del tamaño {2}; compruebe el número y su unidad",
    SAYS(FALLOFF_MISSING) =
        "sin la caída no se sabe cómo abre; indique \"falloff\" con \"points\", o \"band\", la caída a carrera completa",
    SAYS(FALLOFF_TWICE) = "la caída se indica dos veces; deje los puntos o la banda",
    SAYS(LAW_NOTHING_LEFT) = "{1} de caída no deja nada de {2}",
    SAYS(LAW_KV) =
        "{1} con esta caída pide un Kv de {2}; el Kv debe crecer de punto a punto y terminar en {3} o menos",
    SAYS(LAW_KV_AFTER) =
        "{1} con esta caída pide un Kv de {2} tras {3} en el punto anterior; el Kv debe crecer de punto a punto y terminar en {4} o menos",
    SAYS(FLOW_MIN_ABOVE) =
        "{1} no está por debajo del caudal máximo de falloff; una válvula es estable en la mayoría de sus caudales",
    SAYS(ID_TWICE) = "{1} ya es el id de la válvula {2}; cada válvula tiene el suyo",
    SAYS(CURRENCY_UNKNOWN) =
        "{1} no es una moneda; escriba sus tres letras mayúsculas de ISO 4217, por ejemplo \"EUR\"",
    SAYS(COST_SIZE_TWICE) = "{1} ya es el tamaño de costs.sizes[{2}]; indique cada tamaño una vez",
    SAYS(VALVE_UNKNOWN) =
        "{1} no es el id de una válvula del catálogo {2}; bastan tamaño y tipo, \"3 in direct\", y `quell catalogue list` muestra los id",
    SAYS(VALVE_UNKNOWN_NEAR) =
        "{1} no es el id de una válvula del catálogo {2}; parecidos son {3}; bastan tamaño y tipo, \"3 in direct\", y `quell catalogue list` muestra los id",
    SAYS(VALVE_NONE) = "el catálogo {1} no tiene la válvula {2}; hay {3}",
    SAYS(VALVE_NONE_SET) =
        "el catálogo {1} no tiene una válvula {2} que se pueda ajustar a {4}; hay {3}",
    SAYS(VALVE_AND_NEXT) = "{1}, {2}",
    SAYS(VALVE_DIRECT) = "{1} ({2} directa, de {3} a {4})",
    SAYS(VALVE_PILOT) = "{1} ({2} pilotada, de {3} a {4})",
    SAYS(VALVES_AND_MORE) = "{1} y {2} más: vea `quell catalogue list`",
    /* tables of valves and points */
    SAYS(MARKS_MIXED) = "los valores de la tabla llevan puntos y comas",
    SAYS(MARKS_UNKNOWN) = "las comas pueden separar millares o decimales",
    SAYS(HINT_DECIMAL_POINTS) = "escriba los decimales con punto y los millares sin marca",
    SAYS(POINT_COLUMN_TWICE) = "la columna \"{1}\" está dos veces",
    SAYS(POINT_COLUMN_UNKNOWN) = "la columna {1} no significa nada entre puntos de capacidad",
    SAYS(POINT_COLUMN_MISSING) = "falta la columna \"{1}\"; el ajuste necesita {2} ahí",
    SAYS(ACTING_UNKNOWN) = "{1} no es un modo de actuar de una válvula; es direct o pilot",
    SAYS(POINT_COUNT) = "el ajuste necesita de 2 a {1} puntos, uno por fila; aquí hay {2}",
    SAYS(POINT_ALONE) = "un punto no hace una válvula; indique al menos dos",
    SAYS(POINT_IMPOSSIBLE) =
        "esto no es un punto de trabajo: caudal y caída están por encima de 0, la consigna por debajo de la entrada, y la salida por encima de la atmósfera",
    SAYS(POINTS_CONTRADICT) =
        "este punto y la fila {1} se contradicen: una válvula abre más cuanto más cae su salida, y aquí deja pasar menos para su diferencia",
    SAYS(POINT_ABOVE_KV) = "este punto deja pasar más que el Kv completo indicado",
    SAYS(COLUMN_UNKNOWN) =
        "{1} no es una columna de un catálogo; están en docs/formats/catalogue.md",
    SAYS(COLUMN_SAME) = "{1} dice lo mismo que la columna {2}",
    SAYS(COLUMN_MISSING) = "falta la columna \"{1}\"; cada válvula necesita {2} ahí",
    SAYS(COLUMN_MISSING_IT) = "falta la columna \"{1}\"; cada válvula la necesita",
    SAYS(TABLE_NO_VALVES) = "la tabla no tiene filas; se espera una válvula por fila",
    SAYS(TABLE_MANY_VALVES) = "la tabla tiene {1} filas; se leen como máximo {2} válvulas",
};
