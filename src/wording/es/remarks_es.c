/* Which peak is taken and how it was counted, in Spanish. */
#include "wording/language.h"

#define SAYS(name) [QLL_SAYS_##name - QLL_PEAKS_FIRST]

const char *const qll_remarks_es[QLL_REPORT_FIRST - QLL_PEAKS_FIRST] = {
    SAYS(REMARK_UNITS_SPLIT) = "De ellas {low} son privadas y {high} públicas.",
    SAYS(REMARK_ROOMS_HOTEL) =
        "Lo que está en las habitaciones cuenta como privado: inodoros de cisterna, lavabos, bañeras, duchas (IPC capítulo 2, de memoria). Baños del vestíbulo "
        "y similares: indique \"occupancy\": \"public\".",
    SAYS(REMARK_ROOMS_HOSPITAL) =
        "Lo que está en las habitaciones de pacientes cuenta como privado: inodoros, lavabos, bañeras, duchas (IPC capítulo 2, de memoria). Los de visitas y "
        "personal: indique \"occupancy\": \"public\".",
    SAYS(REMARK_COUNTED_APART) = "Contados pieza por pieza, los {count} baños completos dan {value} unidades y {flow}.",
    SAYS(REMARK_COUNTED_GROUPS) = "Con {count} de los baños contados como grupos son {value} unidades y {flow}; un revisor acepta ambas cuentas.",
    SAYS(REMARK_FLUSH_TURNS) =
        "Los fluxores son el {share} de las unidades y llevan todo el edificio a la columna de fluxor, el lado seguro; esa columna es para edificios donde "
        "predominan (de memoria). La columna de cisterna da {flow}.",
    SAYS(REMARK_FLUSH_LEAST) = "Un solo fluxor consume {flow}, más que los {low} de la tabla: se toma eso.",
    SAYS(REMARK_UNITS_HELD) = "La tabla acaba en 5000 unidades; su último valor se mantiene como mínimo.",
    SAYS(REMARK_NOT_UPC) =
        "Donde rige el UPC (buena parte del oeste de EE. UU.) no es cifra de norma: lea la punta en el gráfico de ese código e indíquela como \"peak\".",
    SAYS(REMARK_TAKEN_APART) = "Los {count} baños se separan en aparatos: inodoro, lavabo y, en los completos, bañera con ducha (supuesto nuestro).",
    SAYS(REMARK_BS_TAPS) = "Una bañera se cuenta una vez; si la norma cuenta cada uno de sus dos grifos, las bañeras quedan a la mitad.",
    SAYS(REMARK_CLOCK_APART) = "\"{name}\" ({flow}) no corre en la hora de más consumo, {hour}, y la norma lo suma igual a la punta. "
                               "Derívelo antes de la estación: quedan {without} por dar en vez de {peak}.",
    SAYS(REMARK_CLOCK_MEETS) = "\"{name}\" ({flow}) corre en la hora de más consumo, {hour}: se suma a la punta. Derivado antes "
                               "de la estación deja {without} por dar en vez de {peak}.",
    SAYS(REMARK_PEOPLE_GIVEN) = "Cuenta \"people\": {count}. Por \"{name}\", {value}, serían {other}.",
    SAYS(REMARK_UNITS_END) =
        "sus aparatos suman {value} unidades y la tabla E103.3(3) de IPC acaba en 5000; el caudal punta, {flow}, es el último valor de esa tabla, un mínimo y "
        "no la punta: indique \"peak\" como caudal, el que dé quien proyecta la instalación",
    SAYS(REMARK_LOG_ABOVE) =
        "el registro del contador llegó a {flow}, más que los {low} de la norma, y se toma como caudal punta: mire si están todos los aparatos",
    SAYS(REMARK_PEAK_NEEDED) =
        "ninguna norma da el caudal punta, porque {what}; indique \"peak\" como caudal, o pida \"pulse-model\", la hora de más consumo de un día corriente",
    SAYS(REMARK_CROWDED_HOMES) = "{count} personas en {value} viviendas: más de {most} en una está fuera de proporción; revise ambas cifras",
    SAYS(REMARK_CROWDED) = "{count} {people} y {value} aparatos: más de {most} por aparato está fuera de proporción; revise ambas cifras",
    SAYS(REMARK_EMPTY) = "{value} aparatos y {count} {people}: más de {most} aparatos por cada uno está fuera de proporción; revise ambas cifras",
    SAYS(REMARK_EMPTY_HOMES) = "{value} viviendas y {count} personas: más de {most} viviendas por cada una está fuera de proporción; revise ambas cifras",
    SAYS(CLOCK_NO_DRAW) = "Un caudal de horario fijo no es consumo: puede correr sin ningún aparato abierto.",
    SAYS(CARRIES_VELOCITY) =
        "La acometida da unos {flow} ({velocity} en tubo[ de {size}])[; el caudal punta es mayor, {peak}, y quell design toma lo que da la acometida].",
    SAYS(CARRIES_PRESSURE) = "La acometida da unos {flow} (con más, el suministro más bajo deja menos de {inlet} ante la estación)[; el "
                             "caudal punta es mayor, {peak}, y quell design toma lo que da la acometida].",
    SAYS(HEAD_NO_FLOW) = "sin caudal",
};
