/* A sound file as a stream of samples: WAV and FLAC, by libsndfile. */
#ifndef QUELL_HOST_RECORDING_H
#define QUELL_HOST_RECORDING_H

#include "quell/quell.h"
#include "quell/text.h"

typedef struct qll_host_recording qll_host_recording;

/**
 * Opens the file at @p path ("-" = standard input) and fills @p recording for the engine: name, rate, channels, stream.
 *
 * What the header says of its length is not believed: samples are read until there are none.
 *
 * @param opened to be closed by qll_host_recording_close(); NULL unless QLL_OK
 * @param why    on QLL_IO and QLL_REFUSED what the system or the decoder says, in @p arena or constant; empty: it is neither
 *               WAV nor FLAC
 * @return QLL_OK, QLL_IO (cannot be read), QLL_REFUSED (is no WAV or FLAC) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_recording_open(const char *path, qll_arena *arena,
                                                qll_host_recording **opened,
                                                qll_recording *recording, const char **why);

/** The same for bytes that are there already, @p name as it is shown; they must outlive it. */
QLL_MUST_USE qll_status qll_host_recording_of(qll_text bytes, const char *name, qll_arena *arena,
                                              qll_host_recording **opened, qll_recording *recording,
                                              const char **why);

/** NULL is harmless. */
void qll_host_recording_close(qll_host_recording *opened);

#endif
