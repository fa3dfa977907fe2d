/* Lo que rechaza un registro, en español. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_STORE]

const char *const qll_store_es[QLL_TEXT_SIZE(STORE)] = {
    QLL_PUT(STORE_NOT_THERE) = "no hay registros en {1}",
    QLL_PUT(STORE_FOREIGN) = "{1} no es un archivo de registros de quell; no se tocó",
    QLL_PUT(STORE_NEWER) = "{1} lo hizo un quell más nuevo: su versión es {2}, este lee versiones hasta {3}; no se tocó",
    QLL_PUT(STORE_OLDER) = "{1} es de la versión {2} y aquí solo se puede leer: ábralo una vez donde se pueda escribir, y pasa a la versión {3}",
    QLL_PUT(STORE_DAMAGED) = "{1} está dañado ({2}); no se tocó: vuelva a una copia de respaldo",
    QLL_PUT(STORE_FULL) = "el disco está lleno; no se cambió nada",
    QLL_PUT(STORE_READ_ONLY) = "no se puede escribir en {1}; no se cambió nada",
    QLL_PUT(STORE_BUSY) = "otro programa escribe en {1}; inténtelo de nuevo",
    QLL_PUT(STORE_FAILED) = "{1}: {2}; no se cambió nada",
    QLL_PUT(STORE_NO_FILE) = "no se puede abrir {1}: {2}",
    QLL_PUT(STORE_SAME_ID) = "otro registro tiene el identificador {1}",
    QLL_PUT(STORE_OWN_PARENT) = "el registro {1} vendría de sí mismo",
    QLL_PUT(STORE_NOT_ONTO) = "alguien lo cambió entretanto: está vigente la versión {1}, y esta no viene de ella",
    QLL_PUT(STORE_NO_POSTGRES) = "PostgreSQL necesita libpq, que no está en este equipo: {1}",
    QLL_PUT(STORE_NO_CONNECTION) = "la base de datos no responde: {1}",
    QLL_PUT(STORE_PART_GAP) = "una parte empieza en el byte {1}, pero solo hay {2} bytes",
    QLL_PUT(STORE_PART_SIZE) = "una parte pasa de los {1} bytes que se dijeron",
    QLL_PUT(STORE_PART_HASH) = "los bytes no son los de {1}: se descartaron todas las partes; envíelas de nuevo",
    QLL_PUT(STORE_PART_NAME) = "{1} no es un SHA-256: 64 dígitos hexadecimales en minúsculas",
    QLL_PUT(STORE_BACKUP_THERE) = "{1} ya existe; una copia de respaldo no reemplaza nada",
    QLL_PUT(STORE_BACKUP_POSTGRES) = "PostgreSQL se respalda con sus propias herramientas",
    QLL_PUT(STORE_LIST_WRONG) = "la lista de sitios no concuerda con los registros de {1}",
    QLL_PUT(STORE_MARK_WRONG) = "las marcas no son las de los registros",
    QLL_PUT(STORE_RECEIPT_WRONG) = "el último recibo es {1}, pero hay {2} registros",
    QLL_PUT(STORE_HASH_WRONG) = "los bytes del adjunto {1} cambiaron",
    QLL_PUT(STORE_LOOSE_END) = "una fila de {1} no apunta a nada",
};
