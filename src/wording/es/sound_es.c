/* What a recording says. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_SAYS_##name - QLL_LISTEN_FIRST]

const char *const qll_sound_es[QLL_MESSAGE_COUNT - QLL_LISTEN_FIRST] = {
    QLL_PUT(HEARD_SQUEAL) =
        "[{perhaps} ]Chirrido a {tone}, {share} del tiempo; seguridad {sure} de 10. Un tono que cambia con el caudal viene del asiento; uno fijo, de una pieza o un tubo que resuena.",
    QLL_PUT(HEARD_HISS) = "[{perhaps} ]Siseo que crece hacia los agudos, {share} del tiempo; seguridad {sure} de 10. Así suena una válvula que cavita.",
    QLL_PUT(HEARD_CHATTER) =
        "[{perhaps} ]Golpeteo, {rate} golpes por segundo, {share} del tiempo; seguridad {sure} de 10. Así suena un disco que golpea su asiento con poco caudal.",
    QLL_PUT(HEARD_HAMMER) =
        "[{perhaps} ]Golpe de ariete: un golpe {height} sobre el resto; seguridad {sure} de 10. Cuán fuerte es lo dice un manómetro que retiene el máximo.",
    QLL_PUT(HEARD_RUSH) = "[{perhaps} ]Ruido de agua que corre, {share} del tiempo; seguridad {sure} de 10. Es caudal, no una falla.",
    QLL_PUT(HEARD_NONE) = "[{perhaps} ]Nada sobresale del ruido propio del cuarto, {share} del tiempo; seguridad {sure} de 10.",
    QLL_PUT(HEARD_OTHER) = "[{perhaps} ]Otra cosa, {share} del tiempo: voces, música o un ruido que no es como el de una válvula; seguridad {sure} de 10.",
    QLL_PUT(HEARD_PERHAPS) = "Quizás:",
    QLL_PUT(HEARD_NO_LOUDER) = "[{perhaps} ]No más fuerte que con todo cerrado, {share} del tiempo; seguridad {sure} de 10.",
    QLL_PUT(SEAT_TONE_WITHIN) =
        "Los asientos de esta estación pueden silbar de {low} a {high} si tienen un espesor de 1 a 5 mm (0.04 a 0.2 in); el agua sale de ellos de {slow} a {fast}. El tono está en ese rango.",
    QLL_PUT(SEAT_TONE_OUTSIDE) =
        "Los asientos de esta estación pueden silbar de {low} a {high} si tienen un espesor de 1 a 5 mm (0.04 a 0.2 in); el agua sale de ellos de {slow} a {fast}. El tono no está en ese rango: busque una pieza o un tubo que resuena, o en los aparatos.",
    QLL_PUT(SEAT_TONE_ALONE) =
        "Los asientos de esta estación pueden silbar de {low} a {high} si tienen un espesor de 1 a 5 mm (0.04 a 0.2 in); el agua sale de ellos de {slow} a {fast}.",
    QLL_PUT(NAME_LISTEN) = "Ruido en una grabación",
    QLL_PUT(LISTEN_EVENTS) = "Cuándo",
    QLL_PUT(LISTEN_MEASURED) = "Medido",
    QLL_PUT(LISTEN_LIMITS) = "Lo que la grabación no puede decir",
    QLL_PUT(LISTEN_SPECTRUM) = "Espectro de la grabación",
    QLL_PUT(LISTEN_SPECTROGRAM) = "La grabación en el tiempo",
    QLL_PUT(SHOWS_LISTEN_SPECTRUM) = "Nivel de cada sexto de octava, mediana de la grabación, respecto del máximo de la escala.",
    QLL_PUT(SHOWS_LISTEN_SPECTROGRAM) = "Nivel de cada tercio de octava en el tiempo, más oscuro donde es más fuerte.",
    QLL_PUT(HEAD_FROM_S) = "de, s",
    QLL_PUT(HEAD_TO_S) = "a, s",
    QLL_PUT(HEAD_HEARD) = "se oye",
    QLL_PUT(HEAD_PITCH) = "tono, Hz",
    QLL_PUT(HEAD_OVER) = "sobre el resto, dB",
    QLL_PUT(EVENT_TONE) = "tono",
    QLL_PUT(EVENT_THUMP) = "golpe",
    QLL_PUT(EVENTS_MORE) = "Y {count} más; la respuesta JSON los tiene todos.",
    QLL_PUT(FIGURE_RECORDED) = "grabado",
    QLL_PUT(FIGURE_QUIET) = "todo cerrado",
    QLL_PUT(FIGURE_TIME) = "tiempo",
    QLL_PUT(FIGURE_FAINT) = "más de 45 dB por debajo",
    QLL_PUT(FIGURE_LOW) = "30 a 45 dB por debajo",
    QLL_PUT(FIGURE_LOUD) = "15 a 30 dB por debajo",
    QLL_PUT(FIGURE_LOUDEST) = "a menos de 15 dB de lo más fuerte",
    QLL_PUT(LISTEN_LASTS) = "duración",
    QLL_PUT(LISTEN_LEVEL) = "nivel con ponderación A respecto del máximo de la escala",
    QLL_PUT(LISTEN_TONE) = "tono más constante",
    QLL_PUT(LISTEN_SLOPE) = "pendiente de los tercios de octava, 1 a 8 kHz",
    QLL_PUT(LISTEN_HIGH) = "4 a 10 kHz respecto de 0.2 a 4 kHz",
    QLL_PUT(LISTEN_LOW) = "menos de 200 Hz respecto de 0.2 a 1 kHz",
    QLL_PUT(LISTEN_RHYTHM) = "cuán parejos son los golpes, 0 a 1",
    QLL_PUT(LISTEN_THUMPS) = "momento más fuerte sobre la mediana, 80 a 1200 Hz",
    QLL_PUT(LISTEN_KURTOSIS) = "curtosis, 2 a 8 kHz (3 = ruido parejo)",
    QLL_PUT(LISTEN_CLIPPED) = "muestras recortadas",
    QLL_PUT(LISTEN_DRAWINGS) = "Dibujos",
    QLL_PUT(FIGURE_PITCH) = "frecuencia",
    QLL_PUT(FIGURE_UNDER_FULL) = "nivel respecto del máximo",
    QLL_PUT(BESIDE) = "Junto al registro",
    QLL_PUT(BESIDE_IS) = "{name}: {time} en común con la grabación, una lectura cada {interval}.",
    QLL_PUT(BANGS_TOGETHER) =
        "{paired} de {heard} golpes sordos vienen con un golpe de presión: busque qué cierra rápido a esas horas. Relojes sin relación mostrarían lo mismo {chance}.",
    QLL_PUT(BANGS_CHANCE) =
        "{heard} golpes sordos y {logged} golpes de presión: {paired} coinciden, pero relojes sin relación mostrarían lo mismo {chance}. No es señal de nada.",
    QLL_PUT(BANGS_FEW) = "{heard} golpes sordos, {logged} golpes de presión: nada que comparar.",
    QLL_PUT(RATIO_TOGETHER) =
        "Los agudos, de 4 a 10 kHz, suenan más cuando la relación entre entrada y salida es más alta, como en la cavitación (correlación {correlation}). Relojes sin relación mostrarían lo mismo {chance}.",
    QLL_PUT(RATIO_CHANCE) =
        "Los agudos no siguen la relación entre entrada y salida: correlación {correlation}, y relojes sin relación mostrarían lo mismo {chance}.",
    QLL_PUT(RATIO_FEW) = "Si los agudos siguen la relación entre entrada y salida: muy pocas subidas y bajadas para decirlo.",
    QLL_PUT(SWING_TOGETHER) =
        "El sonido crece cada {heard_period}, la presión oscila cada {logged_period}: la válvula oscila y se oye. Dos oscilaciones sin relación estarían tan cerca {chance}.",
    QLL_PUT(SWING_CHANCE) =
        "El sonido crece cada {heard_period}, la presión oscila cada {logged_period}: no es lo mismo.",
    QLL_PUT(SWING_FEW) = "Sin oscilación pareja en el sonido y la presión a la vez.",
    QLL_PUT(ONE_IN) = "1 vez de cada {count}",
    QLL_PUT(ONE_IN_MORE) = "menos de 1 vez de cada {count}",
    QLL_PUT(ONE_IN_MOST) = "casi siempre",
    QLL_PUT(BESIDE_CLOCKS) = "El reloj del registro marca {time} más que el de la grabación donde mejor coinciden.",
    QLL_PUT(HEAD_AT_S) = "a los, s",
    QLL_PUT(HEAD_IN_LOG) = "en el registro",
    QLL_PUT(BESIDE_LEVEL) = "89 Hz a 10 kHz",
    QLL_PUT(BESIDE_HIGH) = "4 a 10 kHz",
    QLL_PUT(BESIDE_DRAWING) = "La grabación y el registro",
    QLL_PUT(SHOWS_BESIDE) = "Nivel de la grabación en el tiempo y, debajo, las presiones del registro a las mismas horas.",
    QLL_PUT(UNTOLD_LEVEL) = "Cuán fuerte es: los niveles son respecto del máximo de la grabadora, no dB(A) en el cuarto.",
    QLL_PUT(UNTOLD_RANGE) = "Nada sobre 10 kHz ni bajo 100 Hz: un teléfono no oye el comienzo de la cavitación ni lo más grave de un golpe de ariete.",
    QLL_PUT(UNTOLD_WHICH) = "Cuál de dos válvulas en un gabinete es, ni si vino a través de una pared.",
    QLL_PUT(UNTOLD_CAUSE) = "Qué está gastado: un asiento, un empaque y la cavitación pueden chirriar igual. El sonido es una señal entre otras.",
    QLL_PUT(UNTOLD_NO_QUIET) = "Si el ruido de agua es de la válvula o del cuarto: grabe también 10 s con todo cerrado y entregue las dos grabaciones.",
    QLL_PUT(UNTOLD_BANDWIDTH) = "Siseo: la grabación termina bajo 10 kHz. Grabe WAV o FLAC a 44.1 kHz o más, sin procesamiento de voz.",
    QLL_PUT(UNTOLD_CLIPPED) = "Los momentos más fuertes: están recortados. Grabe de nuevo desde más lejos, o con menos ganancia.",
    QLL_PUT(UNTOLD_BROKEN) = "Las muestras que no son números; se toman por silencio.",
    QLL_PUT(UNTOLD_CANCELS) = "Lo que sus canales se anulan entre sí: uno está invertido. Grabe en mono.",
};
