/* The questions quell answers: documents in, one document out.
 *
 * Pure: no file, clock, locale, network or global state. Any number of threads may ask at once, each with an arena of its own; the
 * documents and the question are only read, so threads may share them. Everything that an answer points at lives in the
 * arena it was asked with, and ends with it. An example of each verb stands beside it below; docs/formats says what the
 * documents hold.
 *
 *     qll_arena *arena = qll_arena_open((size_t)256 << 20);
 *     qll_question question = {.verb = QLL_VERB_DESIGN, .form = QLL_FORM_JSON, .document = survey};
 *     qll_answer answer;
 *     if (qll_ask(&question, arena, &answer) == QLL_OK) {
 *         fwrite(answer.bytes, 1, answer.size, stdout);
 *     }
 *     for (size_t i = 0; i < answer.problem_count; i++) {
 *         fprintf(stderr, "%s: %s\n", answer.problems[i].place.path, answer.problems[i].text);
 *     }
 *     qll_arena_close(arena);
 */
#ifndef QUELL_QUELL_H
#define QUELL_QUELL_H

#include "quell/api.h"
#include "quell/arena.h"
#include "quell/problems.h"

#include <stdint.h>

/** Of the program, as its sheets name it; CMake reads it from here. */
#define QLL_VERSION "0.1.0"

QLL_C_BEGIN

/** The version of the library that is running: "0.1.0". */
QLL_API const char *qll_version(void);

/**
 * X(NAME, word). What each asks, and the members of the question it reads beside verb, form, units, language and
 * progress:
 *
 * DEMAND how much water, and when: document (a survey), attachments, parts, figures, seed.
 *     {.verb = QLL_VERB_DEMAND, .document = survey, .parts = "estimates,hours"}
 * DESIGN which station, set to what: document (a survey), catalogue, attachments, parts, figures, seed.
 *     {.verb = QLL_VERB_DESIGN, .document = survey, .catalogue = valves, .form = QLL_FORM_JSON}
 * CHECK what the station that is there does, and why it is noisy: as DESIGN, and flow, inlet.
 *     {.verb = QLL_VERB_CHECK, .document = survey, .flow = "12 gpm", .inlet = "90 psi"}
 * CALC one handbook calculation: calc, arguments, help. Its form is TEXT or JSON.
 *     {.verb = QLL_VERB_CALC, .calc = "velocity", .arguments = (const char *[]){"flow=12 gpm", "pipe=1 in"},
 *      .argument_count = 2}
 * IMPORT a catalogue of valves from CSV to JSON: document (the CSV).
 *     {.verb = QLL_VERB_IMPORT, .document = csv, .form = QLL_FORM_JSON}
 * FIT a valve from published capacity points: document (the CSV).
 *     {.verb = QLL_VERB_FIT, .document = points, .form = QLL_FORM_JSON}
 * LIST the valves of a catalogue: catalogue.
 *     {.verb = QLL_VERB_LIST, .catalogue = valves}
 * LOG what a log of pressures says of a station: log, arguments ("key=value", what the file does not say), document (a survey,
 *     to compare with its "existing"), catalogue, attachments. qll_make_report() makes its sheets.
 *     {.verb = QLL_VERB_LOG, .log = &file, .form = QLL_FORM_JSON}
 * LISTEN what kind of noise a recording holds: recording, quiet, log, begins, arguments, document (a survey, or none), catalogue, attachments, parts. Its
 *     form is TEXT, JSON or HTML; pages come from qll_make_report().
 *     {.verb = QLL_VERB_LISTEN, .recording = &recording, .form = QLL_FORM_JSON}
 * REPORT the sheets to hand over: as the verb that `of` names, and of, sections, plot, length, date. Its form is HTML, SVG or JSON;
 *     pages come from qll_make_report() (quell/report.h).
 *     {.verb = QLL_VERB_REPORT, .form = QLL_FORM_HTML, .document = survey, .sections = "cover,station"}
 * DIAGNOSE what is wrong, how sure, and what to test next: document (a case), catalogue, likelihood, attachments (of the survey in it), arguments:
 *     further answers. Its form is TEXT or JSON.
 *     {.verb = QLL_VERB_DIAGNOSE, .document = visit, .arguments = (const char *[]){"sound_kind=squeal"}, .argument_count = 1}
 * DESCRIBE what documents may hold: about, key, catalogue. Its form is TEXT, JSON or SCHEMA (of one document).
 *     {.verb = QLL_VERB_DESCRIBE, .form = QLL_FORM_SCHEMA, .about = "survey"}
 * SIMULATE what happens in time: document (a survey), catalogue, attachments, event, outlet, flow, before, within, seed. Its form is TEXT,
 *     JSON or HTML; pages come from qll_make_report().
 *     {.verb = QLL_VERB_SIMULATE, .document = survey, .event = "closure", .outlet = "washer", .within = "20 ms"}
 * LEARN a table of likelihoods from closed cases: document (a list of cases), catalogue, likelihood. Its form is JSON.
 *     {.verb = QLL_VERB_LEARN, .document = closed, .form = QLL_FORM_JSON}
 */
#define QLL_VERB_LIST(X)    \
    X(DEMAND, "demand")     \
    X(DESIGN, "design")     \
    X(CHECK, "check")       \
    X(CALC, "calc")         \
    X(IMPORT, "import")     \
    X(FIT, "fit")           \
    X(LIST, "list")         \
    X(REPORT, "report")     \
    X(DIAGNOSE, "diagnose") \
    X(LEARN, "learn")       \
    X(LOG, "log")           \
    X(LISTEN, "listen")     \
    X(DESCRIBE, "describe") \
    X(SIMULATE, "simulate")

typedef enum qll_verb {
#define QLL_VERB_NAME(name, word) QLL_VERB_##name,
    QLL_VERB_LIST(QLL_VERB_NAME)
#undef QLL_VERB_NAME
    QLL_VERB_COUNT
} qll_verb;

QLL_API extern const char *const qll_verb_words[QLL_VERB_COUNT];

/**
 * Parts of an answer that may be left out: X(NAME, word of --parts). Those of demand are the first five, of
 * design HANGS_ON to MAPS, of check VERDICTS to CHANCE, of listen STRETCHES to SPECTROGRAM, of report those of demand and of design but COMPARISON. What else an answer has is
 * always in it. MOTION, of design, check and report, takes a run of the moving water: a report has it unless parts are
 * named, the others only where it is named. SHEETS, of log and listen, only where it is named. "all" names all but the two.
 */
#define QLL_PART_LIST(X)            \
    X(ESTIMATES, "estimates")       \
    X(DURATION, "duration")         \
    X(HOURS, "hours")               \
    X(LOG, "log")                   \
    X(COMPARISON, "comparison")     \
    X(HANGS_ON, "hangs_on")         \
    X(ALTERNATIVES, "alternatives") \
    X(VERDICTS, "verdicts")         \
    X(POINTS, "points")             \
    X(LADDER, "ladder")             \
    X(MAPS, "maps")                 \
    X(NOISE, "noise")               \
    X(CAUSES, "causes")             \
    X(CURES, "cures")               \
    X(CHANCE, "chance")             \
    X(STRETCHES, "stretches")       \
    X(EVENTS, "events")             \
    X(SPECTRUM, "spectrum")         \
    X(SPECTROGRAM, "spectrogram")   \
    X(MOTION, "motion")             \
    X(SHEETS, "sheets")

typedef enum qll_part {
#define QLL_PART_NAME(name, word) QLL_PART_##name,
    QLL_PART_LIST(QLL_PART_NAME)
#undef QLL_PART_NAME
    QLL_PART_COUNT
} qll_part;

QLL_API extern const char *const qll_part_words[QLL_PART_COUNT];

/** A document as handed in: a name for places, and its bytes. bytes NULL = not given. */
typedef struct qll_input {
    const char *name;
    const char *bytes;
    size_t size;
} qll_input;

/** Takes the next bytes of a stream; anything but QLL_OK ends it and is handed back. */
typedef qll_status qll_bytes_sink(void *context, const char *bytes, size_t size);

/** The bytes of a file, at any place and as often as is needed. */
typedef struct qll_reread {
    void *context;
    uint64_t size;
    /** Reads *size bytes from @p at on, fewer only at the end; says in *size how many. */
    qll_status (*read_at)(void *context, uint64_t at, char *bytes, size_t *size, const char **why);
    void (*close)(void *context); /* NULL = nothing to do */
} qll_reread;

/** A file that a survey names, as a stream: a log of any length needs no memory. */
typedef struct qll_attachment {
    const char *name; /* as the survey writes it: qll_attachments_of() lists them */
    const char *path; /* as places show it; NULL = the name */
    /**
     * Hands all bytes, from the first on, to @p sink in blocks of any size. It is asked once for
     * every scenario that names the file, and once more for a log whose rows are in no order where
     * again() is NULL.
     *
     * @param why on QLL_IO what the system says of it; lives as long as the answer
     */
    qll_status (*stream)(void *context, qll_bytes_sink *sink, void *sink_context, const char **why);
    /**
     * Makes the bytes that stream() handed out readable again, at any place, for a log whose rows are
     * in no order of time. NULL: stream() is asked again and its bytes are kept, if they are few.
     *
     * @return QLL_OK, QLL_NO_MEMORY, or QLL_IO: they are gone, as those of a pipe
     */
    qll_status (*again)(void *context, qll_reread *reread, const char **why);
    void *context;
} qll_attachment;

/** Takes the next @p count samples of each channel, interleaved, full scale 1; anything but QLL_OK ends the stream and is handed
 * back. */
typedef qll_status qll_samples_sink(void *context, const float *samples, size_t count);

/** A recording, as a stream: one of any length needs no memory. */
typedef struct qll_recording {
    const char *name; /* as places and sheets show it */
    double rate_hz;   /* samples a second of each channel */
    unsigned channels;
    const char *began; /* when, by the file itself: "2026-11-30T14:05:00"; NULL = it does not say */
    /**
     * Hands all samples, from the first on, to @p sink in blocks of any size; asked once.
     *
     * @param why on QLL_IO what the system or the decoder says of it; lives as long as the answer
     */
    qll_status (*stream)(void *context, qll_samples_sink *sink, void *sink_context,
                         const char **why);
    void *context;
} qll_recording;

typedef enum qll_form {
    QLL_FORM_TEXT,   /* for people */
    QLL_FORM_JSON,   /* for machines, docs/formats/answers.md */
    QLL_FORM_HTML,   /* report and listen: one page with everything in it */
    QLL_FORM_SVG,    /* report only: one of its figures */
    QLL_FORM_SCHEMA, /* describe only: JSON Schema 2020-12 */
} qll_form;

typedef struct qll_question {
    qll_verb verb;
    qll_form form;
    const char *units;    /* "us", "si" or NULL: as the survey says */
    const char *language; /* of what people read: "en", "es"; NULL = "en" */
    qll_input
        document; /* survey (of log, listen: may be left out); CSV (import, fit); case (diagnose), a list of them (learn) */
    qll_input
        catalogue; /* design, check, log, listen, list, describe; not given = the generic one */
    qll_input likelihood; /* diagnose, learn: a table of learn's; not given = the built-in one */
    const qll_attachment *attachments; /* the files that the survey names */
    size_t attachment_count;
    const char *
        flow; /* check: one flow only; simulate: what the outlet, or the building afterwards, draws; NULL */
    const char *event;  /* simulate: a word of --event, "closure" to "day"; NULL = "closure" */
    const char *outlet; /* simulate: the outlet that shuts; NULL = the first in the survey */
    const char
        *before; /* simulate: what the building draws before a change; NULL = at a busy time */
    const char
        *within; /* simulate: in what time something opens or shuts, "30 ms"; NULL = as is usual */
    const char *seed;  /* whole number that draws come from, where a log is given; NULL = 1 */
    const char *inlet; /* check: this inlet pressure instead of the supply's; NULL */
    const char
        *of; /* report: whose sheets, "demand", "design", "check", "diagnose"; NULL = "design" */
    const char *parts;   /* demand, design, check, listen, log, report: "points,maps"; NULL = all */
    const char *figures; /* demand, design, check in JSON: "falloff,map-2", "all"; NULL = none */
    const char *sections; /* report: "cover,station"; NULL = all */
    const char *length;   /* report: "short", "full"; NULL = short for a plain house, else full */
    const char *date;     /* report: of the sheets, "2026-11-30"; NULL = a line to write it on */
    const char *plot;     /* report as SVG: "falloff", "day-2"; NULL = "schematic" */
    const char *calc;     /* calc: the name; NULL = list them all */
    const char *about; /* describe: "survey", "catalogue", "case", "record", "words"; NULL = all */
    const char *key;   /* describe: "supply.static_high"; NULL = all of it */
    bool help;         /* calc: what the one named takes, instead of its answer; as text */
    const char *const
        *arguments; /* calc, log, listen with a log: "key=value"; diagnose: "question=answer" */
    size_t argument_count;
    const qll_attachment
        *log; /* log: the file; listen: one of the same minutes, to put beside it; NULL = none */
    const char *
        begins; /* listen with a log: when the recording began, "2026-11-30 14:05:00", "12.5 s" after the log; NULL = by its file or name */
    const qll_recording *recording; /* listen: the complaint */
    const qll_recording *quiet;     /* listen: the same place with everything shut; NULL = none */
    /* NULL, or asked now and then with the share done, which never falls; 1 at the end. Returns false to
     * stop, and is then not asked again: the answer says that it was stopped, or the status does. */
    bool (*progress)(double share, void *context);
    void *progress_context;
} qll_question;

typedef struct qll_answer {
    /* Closed by a zero byte; NULL unless the status is QLL_OK, or QLL_REFUSED or QLL_IO and the form
     * JSON: then a document of the problems only. */
    const char *bytes;
    size_t size;
    const qll_problem *problems; /* refusals, or warnings that came with the answer */
    size_t problem_count;        /* listed; at most 20 */
    size_t problem_total;        /* all that were found */
    const char *warning;         /* what a warning is called in the question's language */
} qll_answer;

/**
 * Lists the files that @p survey names, each once, for the question's attachments. A survey that
 * cannot be read names none; qll_ask() says why.
 *
 * @param names in @p arena
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_API QLL_MUST_USE qll_status qll_attachments_of(const qll_input *survey, qll_arena *arena,
                                                   const char *const **names, size_t *count);

/**
 * Answers @p question. Everything in @p answer lives in @p arena.
 *
 * @return QLL_OK; QLL_STOPPED; QLL_REFUSED (problems say why); QLL_IO (an attachment could not be read; problems
 *         say which); QLL_NO_MEMORY; QLL_WRONG_USE (the question itself makes no sense: unknown calc,
 *         missing document)
 */
QLL_API QLL_MUST_USE qll_status qll_ask(const qll_question *question, qll_arena *arena,
                                        qll_answer *answer);

/** What diagnose would have answered next. Everything lives in the arena it was asked with. */
typedef struct qll_asking {
    const char *dangers;  /* a sentence for each, each on a line; NULL where there is none */
    const char *stands;   /* what is most likely by now */
    const char *question; /* its word, "sound_kind"; NULL where nothing is worth asking */
    const char *asks;     /* the question and its minutes as people read them, as all below */
    const char *how,
        *caution;   /* how it is answered, what hurts; NULL = the question says it, nothing */
    double minutes; /* that it takes */
    const char *const *answers; /* [answer_count] their words */
    const char *const *says;    /* [answer_count] */
    size_t answer_count;
    const char *prompt; /* "Number (0 = not known, - = back, Enter = stop): " */
} qll_asking;

/**
 * Asks what a diagnosis would have answered next; add "question=answer" to the question's arguments, "question=?" where
 * nobody can tell, and ask again.
 *
 * @param question of QLL_VERB_DIAGNOSE; its form counts for nothing
 * @param answer   its problems; no bytes
 * @return as qll_ask()
 */
QLL_API QLL_MUST_USE qll_status qll_ask_next(const qll_question *question, qll_arena *arena,
                                             qll_asking *asking, qll_answer *answer);

QLL_C_END

#endif
