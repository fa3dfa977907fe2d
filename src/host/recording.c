#include "host/recording.h"

#include "host/system_says.h"

#include <errno.h>
#include <fcntl.h>
#include <sndfile.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define QLL_BLOCK_SAMPLES ((sf_count_t)8192) /* of all channels together, or one of each */

struct qll_host_recording {
    SNDFILE *file;
    qll_arena *arena;
    int channels;
    qll_text bytes; /* of one that is no file */
    sf_count_t at;  /* in them */
};

/* What it holds is WAV in one of its dresses, or FLAC. */
static bool is_taken(const SF_INFO *info)
{
    switch (info->format & SF_FORMAT_TYPEMASK) {
    case SF_FORMAT_WAV:
    case SF_FORMAT_WAVEX:
    case SF_FORMAT_RF64:
    case SF_FORMAT_FLAC: return true;
    default: return false;
    }
}

#define QLL_SOUND_DAMAGED "its sound is damaged or cut short"

static qll_status stream(void *context, qll_samples_sink *sink, void *sink_context,
                         const char **why)
{
    const qll_host_recording *from = context;
    const sf_count_t frames =
        QLL_BLOCK_SAMPLES > from->channels ? QLL_BLOCK_SAMPLES / from->channels : 1;
    float *block = qll_arena_take(from->arena, (size_t)(frames * from->channels), sizeof *block);
    if (block == NULL) {
        return QLL_NO_MEMORY;
    }
    for (;;) {
        const sf_count_t count = sf_readf_float(from->file, block, frames);
        if (count <= 0) {
            break;
        }
        const qll_status status = sink(sink_context, block, (size_t)count);
        if (status != QLL_OK) {
            return status;
        }
    }
    if (sf_error(from->file) != SF_ERR_NO_ERROR) {
        *why = QLL_SOUND_DAMAGED;
        return QLL_IO;
    }
    return QLL_OK;
}

/* Why there is no recording: the system failed, its sound cannot be had, or this is none, which needs no other words (an
 * empty text). What the decoder says is for programmers. */
static qll_status refuse(SNDFILE *file, qll_arena *arena, const char **why)
{
    const int system = errno;
    const int error = file == NULL ? sf_error(NULL) : SF_ERR_UNRECOGNISED_FORMAT;
    *why = error == SF_ERR_UNRECOGNISED_FORMAT ? "" : QLL_SOUND_DAMAGED;
    if (file != NULL) {
        (void)sf_close(file);
    }
    if (error == SF_ERR_SYSTEM && system != 0) {
        return qll_system_failed(system, arena, why);
    }
    return QLL_REFUSED;
}

/* All that comes out of a pipe, in a file without a name: FLAC is read to and fro. -1 where there is no room. */
static int kept(int pipe)
{
    FILE *file = tmpfile();
    if (file == NULL) {
        return -1;
    }
    char block[8192];
    ssize_t size = 0;
    bool is_whole = true;
    while (is_whole && (size = read(pipe, block, sizeof block)) > 0) {
        is_whole = fwrite(block, 1, (size_t)size, file) == (size_t)size;
    }
    is_whole = is_whole && size == 0 && fflush(file) == 0 && lseek(fileno(file), 0, SEEK_SET) == 0;
    const int descriptor = is_whole ? dup(fileno(file)) : -1;
    (void)fclose(file);
    return descriptor;
}

/* The file at @p path, to be read at any place; -1 where it cannot be. */
static int open_file(const char *path)
{
    const int opened =
        strcmp(path, "-") == 0 ? dup(STDIN_FILENO) : open(path, O_RDONLY | O_CLOEXEC);
    struct stat facts;
    if (opened >= 0 && fstat(opened, &facts) == 0 && S_ISDIR(facts.st_mode)) {
        (void)close(opened);
        errno = EISDIR;
        return -1;
    }
    if (opened < 0 || lseek(opened, 0, SEEK_CUR) >= 0) {
        return opened;
    }
    const int descriptor = kept(opened);
    const int error = errno;
    (void)close(opened);
    errno = error;
    return descriptor;
}

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    if (strcmp(path, "-") == 0) {
        return "standard input";
    }
    return slash == NULL ? path : slash + 1;
}

/* When it was recorded: of a broadcast WAV by its own chunk, else by the tag; NULL = it does not say. */
static const char *began(SNDFILE *file, qll_arena *arena)
{
    SF_BROADCAST_INFO info = {0};
    if (sf_command(file, SFC_GET_BROADCAST_INFO, &info, sizeof info) != SF_TRUE) {
        const char *date = sf_get_string(file, SF_STR_DATE);
        return date == NULL ? NULL : qll_arena_copy(arena, date, strlen(date));
    }
    char stamp[sizeof info.origination_date + sizeof info.origination_time + 1];
    memcpy(stamp, info.origination_date, sizeof info.origination_date);
    stamp[sizeof info.origination_date] = 'T';
    memcpy(stamp + sizeof info.origination_date + 1, info.origination_time,
           sizeof info.origination_time);
    return qll_arena_copy(arena, stamp, strnlen(stamp, sizeof stamp));
}

/* Takes @p file over, opened or not. */
static qll_status begin(SNDFILE *file, const SF_INFO *info, const char *name,
                        qll_host_recording *made, qll_recording *recording, const char **why)
{
    if (file == NULL || !is_taken(info) || info->channels <= 0) {
        return refuse(file, made->arena, why);
    }
    made->file = file;
    made->channels = info->channels;
    *recording = (qll_recording){.name = name,
                                 .rate_hz = info->samplerate,
                                 .channels = (unsigned)info->channels,
                                 .began = began(file, made->arena),
                                 .stream = stream,
                                 .context = made};
    return QLL_OK;
}

static qll_host_recording *make(qll_arena *arena)
{
    qll_host_recording *made = qll_arena_take(arena, 1, sizeof *made);
    if (made != NULL) {
        made->arena = arena;
    }
    return made;
}

qll_status qll_host_recording_open(const char *path, qll_arena *arena, qll_host_recording **opened,
                                   qll_recording *recording, const char **why)
{
    *opened = NULL;
    qll_host_recording *made = make(arena);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    errno = 0;
    const int descriptor = open_file(path);
    if (descriptor < 0) {
        return qll_system_failed(errno, arena, why);
    }
    SF_INFO info = {0};
    SNDFILE *file = sf_open_fd(descriptor, SFM_READ, &info, SF_TRUE);
    const qll_status status = begin(file, &info, name_of(path), made, recording, why);
    *opened = status == QLL_OK ? made : NULL;
    return status;
}

/* ---- bytes ---- */

static sf_count_t size_of(void *context)
{
    const qll_host_recording *from = context;
    return (sf_count_t)from->bytes.size;
}

static sf_count_t seek(sf_count_t offset, int whence, void *context)
{
    qll_host_recording *from = context;
    const sf_count_t size = (sf_count_t)from->bytes.size;
    const sf_count_t base = whence == SEEK_SET ? 0 : whence == SEEK_CUR ? from->at : size;
    if (offset >= -base && offset <= size - base) {
        from->at = base + offset;
    }
    return from->at;
}

static sf_count_t read_bytes(void *to, sf_count_t count, void *context)
{
    qll_host_recording *from = context;
    const sf_count_t left = (sf_count_t)from->bytes.size - from->at;
    const sf_count_t taken = count < left ? count : left;
    if (taken <= 0) {
        return 0;
    }
    memcpy(to, from->bytes.bytes + from->at, (size_t)taken);
    from->at += taken;
    return taken;
}

static sf_count_t tell(void *context)
{
    const qll_host_recording *from = context;
    return from->at;
}

qll_status qll_host_recording_of(qll_text bytes, const char *name, qll_arena *arena,
                                 qll_host_recording **opened, qll_recording *recording,
                                 const char **why)
{
    *opened = NULL;
    qll_host_recording *made = make(arena);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    made->bytes = bytes;
    SF_VIRTUAL_IO from = {.get_filelen = size_of, .seek = seek, .read = read_bytes, .tell = tell};
    SF_INFO info = {0};
    SNDFILE *file = sf_open_virtual(&from, SFM_READ, &info, made);
    const qll_status status = begin(file, &info, name_of(name), made, recording, why);
    *opened = status == QLL_OK ? made : NULL;
    return status;
}

void qll_host_recording_close(qll_host_recording *opened)
{
    if (opened != NULL) {
        (void)sf_close(opened->file);
    }
}
