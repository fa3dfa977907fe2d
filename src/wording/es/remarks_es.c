/* Which peak is taken and how it was counted, in Spanish. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_SAYS_##name - QLL_PEAKS_FIRST]

const char *const qll_remarks_es[QLL_REPORT_FIRST - QLL_PEAKS_FIRST] = {
    QLL_PUT(REMARK_UNITS_SPLIT) = "De ellas {low} son privadas y {high} públicas.",
    QLL_PUT(REMARK_ROOMS_HOTEL) =
        "Lo que está en las habitaciones cuenta como privado: inodoros de tanque, lavabos, tinas, duchas (IPC capítulo 2, de memoria). Los baños "
        "del vestíbulo y similares cuentan como públicos si los datos lo dicen.",
    QLL_PUT(REMARK_ROOMS_HOSPITAL) =
        "Lo que está en los cuartos de pacientes cuenta como privado: inodoros, lavabos, tinas, duchas (IPC capítulo 2, de memoria). Los de visitas y "
        "personal cuentan como públicos si los datos lo dicen.",
    QLL_PUT(REMARK_COUNTED_APART) = "Contados aparato por aparato, los {count} baños completos dan {value} unidades y {flow}.",
    QLL_PUT(REMARK_COUNTED_GROUPS) = "Con {count} de los baños contados como grupos son {value} unidades y {flow}; un revisor acepta ambas cuentas.",
    QLL_PUT(REMARK_FLUSH_TURNS) =
        "Los fluxómetros son el {share} de las unidades y llevan todo el edificio a la columna de fluxómetro, el lado seguro; esa columna es para "
        "edificios donde predominan (de memoria). La columna de tanque de inodoro da {flow}.",
    QLL_PUT(REMARK_FLUSH_LEAST) = "Un solo fluxómetro consume {flow}, más que los {low} de la tabla: se usa eso.",
    QLL_PUT(REMARK_UNITS_HELD) = "La tabla termina en 5000 unidades; su último valor se mantiene como mínimo.",
    QLL_PUT(REMARK_NOT_UPC) =
        "Donde rige el UPC (buena parte del oeste de EE. UU.) este no es un valor de código: lea el máximo en el gráfico de ese código e indíquelo "
        "en los datos.",
    QLL_PUT(REMARK_TAKEN_APART) = "Los {count} baños se separan en aparatos: inodoro, lavabo y, en los completos, tina con ducha (supuesto nuestro).",
    QLL_PUT(REMARK_BS_TAPS) = "Una tina se cuenta una vez; si la norma cuenta cada una de sus dos llaves, las tinas quedan a la mitad.",
    QLL_PUT(REMARK_CLOCK_APART) =
        "\"{name}\" ({flow}) no corre en la hora de más consumo, {hour}, y la norma lo suma igual al máximo. Derívelo antes de la estación: quedan "
        "{without} por dar en vez de {peak}.",
    QLL_PUT(REMARK_CLOCK_MEETS) =
        "\"{name}\" ({flow}) corre en la hora de más consumo, {hour}: se suma al máximo. Derivado antes de la estación deja {without} por dar en vez "
        "de {peak}.",
    QLL_PUT(REMARK_PEOPLE_GIVEN) = "Cuenta \"people\": {count}. Por \"{name}\", {value}, serían {other}.",
    QLL_PUT(REMARK_UNITS_END) =
        "sus aparatos suman {value} unidades y la tabla E103.3(3) de IPC termina en 5000; el caudal máximo de diseño, {flow}, es el último valor de "
        "esa tabla, un mínimo y no el máximo: indique \"peak\" como caudal, el que dé quien diseña la plomería",
    QLL_PUT(REMARK_LOG_ABOVE) =
        "el registro del medidor llegó a {flow}, más que los {low} de la norma, y se usa como caudal máximo de diseño: revise que estén todos los aparatos",
    QLL_PUT(REMARK_PEAK_NEEDED) =
        "ninguna norma da el caudal máximo de diseño, porque {what}; indique \"peak\" como caudal, o pida \"pulse-model\", la hora de más consumo de "
        "un día normal",
    QLL_PUT(REMARK_CROWDED_HOMES) = "{count} personas en {value} hogares: más de {most} en uno está fuera de proporción; revise ambos números",
    QLL_PUT(REMARK_CROWDED) = "{count} {people} y {value} aparatos: más de {most} por aparato está fuera de proporción; revise ambos números",
    QLL_PUT(REMARK_EMPTY) = "{value} aparatos y {count} {people}: más de {most} aparatos por cada uno está fuera de proporción; revise ambos números",
    QLL_PUT(REMARK_EMPTY_HOMES) = "{value} hogares y {count} personas: más de {most} hogares por cada una está fuera de proporción; revise ambos números",
    QLL_PUT(CLOCK_NO_DRAW) = "El agua que corre a horas fijas, como la de enfriamiento, puede correr sin ningún aparato abierto.",
    QLL_PUT(CARRIES_VELOCITY) = "La toma da unos {flow} ({velocity} en tubería[ de {size}])[; el caudal máximo de diseño es mayor, {peak}: la "
                                "estación se dimensiona para lo que da la toma].",
    QLL_PUT(CARRIES_PRESSURE) = "La toma da unos {flow} (con más, la presión mínima de la red deja menos de {inlet} antes de la estación)[; el caudal "
                                "máximo de diseño es mayor, {peak}: la estación se dimensiona para lo que da la toma].",
    QLL_PUT(HEAD_NO_FLOW) = "sin caudal",
};
