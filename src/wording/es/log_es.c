#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_LOG]

const char *const qll_log_es[QLL_TEXT_SIZE(LOG)] = {
    /* what only the survey can say */
    SAYS(ASK_VALUE_COLUMN) = "nombre la columna del valor",
    SAYS(ASK_KEY) = "nombre la clave que se toma",
    SAYS(ASK_METER) =
        "nombre el contador que se toma, de la columna {1}, o escriba \"repeated\": \"sum\" para sumarlos",
    SAYS(ASK_METER_OR_SUM) =
        "nombre el contador que se toma, o escriba \"repeated\": \"sum\" para sumarlos",
    SAYS(ASK_METER_COLUMN) =
        "escriba \"meter_column\": {1}, \"meter\": {2} para tomar uno, o \"repeated\": \"sum\" para sumarlos",
    SAYS(ASK_REPEATED) =
        "escriba \"repeated\": \"sum\" para sumarlas, o \"last\" para tomar la última",
    SAYS(ASK_PULSE) = "indique el volumen de un pulso",
    SAYS(ASK_UNIT) = "indique la unidad, por ejemplo \"gpm\" o \"m3\"",
    SAYS(ASK_KIND) = "indique qué tipo de registro es",
    SAYS(ASK_DECIMAL) = "indique qué signo decimal usa el registro",
    SAYS(ASK_ORDER) = "indique si va primero el día o el mes",
    SAYS(ASK_ORDER_OR_CUT) = "indique si va primero el día o el mes, o corte el registro en dos",
    /* what else to do */
    SAYS(HINT_SORT) = "ordene el registro por hora",
    SAYS(HINT_SORT_OR_FILE) =
        "guarde el registro como archivo que se pueda leer otra vez, u ordénelo por hora",
    SAYS(HINT_ROW_PER_LINE) = "escriba una fila por línea",
    SAYS(HINT_UNPACK) = "descomprímalo primero",
    SAYS(HINT_SAVE_UTF8) = "guárdelo como texto UTF-8",
    SAYS(HINT_WHOLE_CLOCK) = "escriba el registro con reloj de 24 horas, o con AM y PM",
    SAYS(HINT_CHECK_VALUE) = "revise la columna y la unidad del valor",
    SAYS(HINT_STAMPED_ROWS) =
        "escriba una fila por línea, cada una con fecha y hora como \"2017-06-28 18:30:58\" y un valor",
    /* the file */
    SAYS(LOG_COMPRESSED) = "el registro está comprimido",
    SAYS(LOG_ZERO_BYTES) = "el registro contiene bytes cero: no es texto",
    SAYS(LOG_EMPTY) = "el registro está vacío",
    SAYS(LOG_LINE_LONG) = "la línea tiene más de {1} bytes",
    /* columns and meters */
    SAYS(LOG_NO_STAMPS) =
        "en las primeras líneas del registro no hay ninguna columna de fechas y horas",
    SAYS(LOG_NO_COLUMN) = "el registro no tiene columna {1}",
    SAYS(LOG_NO_VALUE) =
        "no se conoce ninguna columna con caudal, volumen, lectura del contador o pulsos",
    SAYS(LOG_TWO_COLUMNS) = "puede ser una de dos columnas: {1} y {2}",
    SAYS(LOG_NO_END) = "los eventos necesitan una columna con su fin o su duración",
    SAYS(LOG_KEYS_UNKNOWN) = "de ninguna clave del registro se sabe que sea un caudal o un volumen",
    SAYS(LOG_KEYS_SEVERAL) = "puede ser una de varias magnitudes: {1}",
    SAYS(LOG_NO_METER) = "el registro no tiene columna que nombre el contador",
    SAYS(LOG_OTHER_METER) = "{1} es otro contador que el de las filas anteriores",
    /* values and units */
    SAYS(LOG_NO_PULSE) = "el registro cuenta pulsos, pero no dice cuánto vale un pulso",
    SAYS(LOG_TWO_PULSES) = "las primeras líneas del registro dan dos valores distintos de un pulso",
    SAYS(LOG_NO_UNIT) = "el registro no dice la unidad del valor",
    SAYS(LOG_NO_DURATION_UNIT) = "el registro no dice la unidad de la duración",
    SAYS(LOG_UNIT_NEITHER) = "{1} no es unidad de caudal ni de volumen",
    SAYS(LOG_UNIT_EITHER) = "{1} puede ser la lectura del contador o el volumen de un intervalo",
    SAYS(LOG_UNIT_OF_FLOW) = "{1} es unidad de caudal, pero la columna contiene volúmenes",
    SAYS(LOG_POINTS_OPEN) = "los puntos pueden separar miles o decimales",
    SAYS(LOG_COMMAS_OPEN) = "las comas pueden separar miles o decimales",
    SAYS(LOG_MARKS_MIXED) = "los signos de los valores separan aquí miles y allá decimales",
    SAYS(LOG_MARKS_BOTH) = "los valores contienen puntos y comas",
    SAYS(LOG_POINTS_LATER) =
        "primero números enteros, más abajo puntos delante de tres cifras: pueden separar miles o decimales",
    SAYS(LOG_COMMAS_LATER) =
        "primero números enteros, más abajo comas: pueden separar miles o decimales",
    /* times */
    SAYS(LOG_DATES_OPEN) = "las fechas se pueden leer en más de un orden: ningún día pasa de 12",
    SAYS(LOG_HALF_CLOCK) = "el reloj va de 1 a 12 dos veces al día, y ninguna fila dice AM o PM",
    SAYS(LOG_ONE_ROW) = "el registro necesita al menos dos filas de horas distintas",
    SAYS(LOG_DAYS_APART) = "entre las filas del registro pasa más de un día",
    SAYS(LOG_TOO_FAR) = "la fila está a más de {1} filas de su lugar en el tiempo",
    SAYS(LOG_SHUFFLED) = "las filas del registro no siguen ningún orden de tiempo",
    SAYS(LOG_SAME_TIME) = "filas de la misma fecha y hora tienen valores distintos",
    SAYS(LOG_SAME_TIME_COLUMN) =
        "filas de la misma fecha y hora tienen valores distintos; la columna {1} las distingue",
    /* the whole log */
    SAYS(LOG_ROWS_LATE) =
        "{1} de {2} filas están demasiado lejos de su lugar en el tiempo para leerlas de una sola pasada",
    SAYS(LOG_ROWS_REPEATED) =
        "{1} de {2} filas tienen la fecha y la hora de otra fila y otro valor",
    SAYS(LOG_ROWS_BAD) =
        "{1} de {2} filas no pueden ser: {3} negativas, {4} por encima de lo que el contador deja pasar, {5}{6} que no se pueden leer{7}",
    SAYS(LOG_ROWS_BACKWARDS) = "{1} de un contador que va hacia atrás, ",
    SAYS(LOG_ROWS_DATE) = "; la primera fecha que no encaja está en la línea {1}",
    SAYS(LOG_GAP) = "{1} días sin una fila, más que los {2} días que se conocen",
    SAYS(LOG_NO_FLOW) = "el registro no tiene ningún tramo de caudal conocido",
    SAYS(LOG_UNPLACED) =
        "el {1} % del agua se contó durante huecos o tras lecturas falsas: no se sabe cuándo corrió",
    /* scenarios */
    SAYS(FAULT_FIXTURES) = "un edificio tiene como máximo 1,000,000 de aparatos",
    SAYS(FAULT_OCCUPANCY) = "un aparato es privado o público",
    SAYS(FAULT_FIXTURE_FLOW) = "el caudal de un aparato es mayor que 0",
    SAYS(FAULT_PROBABILITY) = "una use_probability es un número de 0 a 1",
    SAYS(FAULT_CONTINUOUS) =
        "un caudal continuo no es negativo y sus horas están entre las 00:00 y las 24:00",
    SAYS(FAULT_HOURS) = "las horas de un día son 24 números de media 1",
    SAYS(FAULT_DAY) = "el día es laborable, sábado o domingo",
    SAYS(FAULT_DAY_VOLUME) = "el agua de una persona es de {1} al día como máximo",
    SAYS(FAULT_RATES) = "la variación de los usos de un día a otro es un número de 0 a 2",
    SAYS(FAULT_HOUR_RATES) = "la variación de los usos de una hora a otra es un número de 0 a 3",
    SAYS(FAULT_WORDS) = "habits, outdoor y season son de sus palabras",
    SAYS(FAULT_BREAK) =
        "una pausa reúne una parte de 0 a 1 de los usos de una hora y dura de 1 a 60 minutos",
    SAYS(FAULT_OUTLETS) = "las presiones en los puntos de consumo están entre {1} y {2}",
    SAYS(FAULT_DURATION) = "la duración de caudales del registro de un contador sube de 0 a 1",
    SAYS(FAULT_READINGS) = "el registro de un contador necesita lecturas, su intervalo y una punta",
    SAYS(FAULT_LOG_PEAKS) =
        "las puntas del registro de un contador no son negativas y sus tiempos de promedio suben",
    SAYS(FAULT_PEOPLE) = "las personas y las viviendas son números de 0 a 1,000,000",
    SAYS(FAULT_QUANTILE) = "el cuantil es un número mayor que 0 y menor que 1, por ejemplo 0.99",
};
