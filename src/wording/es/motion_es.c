#include "wording/language.h"

#define QLL_PUT(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_MOTION]

const char *const qll_motion_es[QLL_TEXT_SIZE(MOTION)] = {
    QLL_PUT(PIPE_LENGTH) = "el tubo mide {1} de largo; el largo es mayor que 0 y a lo más {2}",
    QLL_PUT(PIPE_BORE) = "el diámetro interior del tubo es {1}; es mayor que 0 y a lo más {2}",
    QLL_PUT(PIPE_WAVE_SPEED) = "las ondas de presión corren a {1} en este tubo; pueden ser de {2} a {3}",
    QLL_PUT(PIPES_IN_A_LOOP) = "esto cierra un circuito; los tubos solo se ramifican, de modo que el agua tenga un solo camino de la red a cada salida",
    QLL_PUT(MOVE_TIME) = "la salida se mueve en {1}; abrir o cerrar toma más de 0",
    QLL_PUT(MOVE_ORDER) = "la salida empieza a moverse a los {1}, antes de que termine su último movimiento a los {2}",
    QLL_PUT(MOVE_SHARE) = "una salida está abierta en una parte de 0 a 1, no {1}",
    QLL_PUT(PIPE_NO_LENGTH) = "este tubo mide {1} de largo; para el agua en movimiento hace falta el largo de cada tubo",
    QLL_PUT(HINT_PIPE_NO_LENGTH) = "indique su largo, o quítelo y sume sus accesorios al tubo vecino",
    QLL_PUT(VALVE_CANNOT_MOVE) = "lo que el catálogo dice de {1} no le deja resorte, carrera ni masa con que moverse",
    QLL_PUT(HINT_VALVE_CANNOT_MOVE) = "revise en el catálogo su resorte, diafragma, masa móvil y efecto de la entrada",
};
