/* Every sentence a customer or plumber reads, in one place. */
#ifndef QUELL_WORDING_WORDING_H
#define QUELL_WORDING_WORDING_H

#include "base/problems.h"
#include "demand/change.h"
#include "demand/flow_run.h"
#include "search/cures.h"
#include "search/design.h"
#include "signals/flow_log.h"
#include "signals/sound.h"
#include "signals/sound_beside.h"
#include "station/ladder.h"
#include "station/seat_tone.h"
#include "station/service.h"
#include "station/setting.h"
#include "wording/messages.h"

/** What a sentence may need to name things and figures. */
typedef struct qll_wording {
    qll_unit_system units;
    qll_language language;
    const qll_site *site;
    const qll_duty *duty;
    const char *currency; /* of prices, ISO 4217; NULL = the catalogue does not say */
} qll_wording;

/** Below this a level is only said to be below it: no room is so quiet. */
#define QLL_LEVEL_SHOWN_DBA 20.0

/** One sentence for a verdict: plainly said, then the number, then the reason. */
void qll_wording_verdict(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         const qll_verdict *verdict);

/** What a verdict found, as its sentence shows it; "-" if it is not finite. Of what is past its limit and yet good,
 * because it is so too seldom, the share of the running time. */
void qll_wording_value(qll_writer *writer, const qll_wording *wording, const qll_verdict *verdict);

/** What that is held against; "-" where a share stands for the value, which has no limit of its own. */
void qll_wording_limit(qll_writer *writer, const qll_wording *wording, const qll_verdict *verdict);

/* ---- of a design: says_design.c, says_choice.c ---- */

/** A design in one line: what to install, set to what, and how likely a callback is; or that nothing fits, or no valve is needed. */
void qll_wording_glance(qll_writer *writer, const qll_wording *wording, const qll_design *design);

/** Why the recommended station was chosen: the simpler one that it beat, or the rule that asked for it. */
void qll_wording_reason(qll_writer *writer, const qll_wording *wording, const qll_design *design);

/** How a chance is said. */
typedef enum qll_chance_form {
    QLL_CHANCE_BARE,  /* "1 in 8" */
    QLL_CHANCE_ABOUT, /* "about 1 in 8" */
    QLL_CHANCE_TIMES, /* "about 1 in 8 times" */
} qll_chance_form;

/** Below this a callback is "hardly ever", and what it would come from is not said. */
#define QLL_CHANCE_LEAST 0.02

/** A chance in words. */
void qll_wording_chance(qll_writer *writer, qll_language language, double share,
                        qll_chance_form form);

/** An amount of money to the whole unit, with its currency where it is known. */
void qll_wording_amount(qll_writer *writer, const qll_wording *wording, double amount);

/** The same of what is estimated, to the next ten: costs are no better than that (our choice). */
void qll_wording_about(qll_writer *writer, const qll_wording *wording, double amount);

/** What a callback would come from above all: "chatters at low flow". */
const char *qll_say_mechanism(qll_language language, const qll_cost *cost);

/** A station as it is bought: "one 3/4 in valve, G-D20", "parallel valves 3/4 in G-D20 + 2 in G-D50". */
void qll_wording_purchase(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station);

/** A station by sizes and kinds: "one valve, 3/4 in direct". */
void qll_wording_kind(qll_writer *writer, const qll_wording *wording, const qll_station *station);

/** How @p station breaks @p rule: what was found, and the limit. */
void qll_wording_breach(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                        const qll_fitness *fitness, qll_practice rule);

/** Why the station @p index of those shown is not the one: what it breaks, what brings somebody back, or
 * how much dearer it is. Nothing for the first. */
void qll_wording_why_not(qll_writer *writer, const qll_wording *wording, const qll_design *design,
                         size_t index);

/** That another kind is nearly as good, or would be; writes nothing and is false where none is. */
bool qll_wording_close(qll_writer *writer, const qll_wording *wording, const qll_design *design);

/** A datum that the choice hangs on: from what value on it would be which station. */
void qll_wording_hang(qll_writer *writer, const qll_wording *wording, const qll_hang *hang);
/** What is done for @p cure of the station @p there, what it costs and what becomes of the chance of a
 * callback: one sentence, two where nothing is computed. */
void qll_wording_cure(qll_writer *writer, const qll_wording *wording, const qll_cures *cures,
                      const qll_station *there, const qll_cure *cure);

/** Whether a callback is likely enough to say what it would come from. */
bool qll_is_worth_saying(const qll_cost *cost);

/** The chance of a callback of what is there, what it would come from, and the hard rules that it breaks. */
void qll_wording_as_it_is(qll_writer *writer, const qll_wording *wording, const qll_cures *cures,
                          const qll_station *there);

/** @p in with the currency for its {unit}, or @p own where none is known: head, fact or note of
 * prices. "" without memory, which the arena counts. */
const char *qll_wording_money(qll_arena *arena, qll_language language, const char *currency,
                              qll_message in, qll_message own);

/** One line that names an arrangement: "parallel valves 3/4 in + 1-1/2 in". */
void qll_wording_station(qll_writer *writer, const qll_wording *wording,
                         const qll_station *station);

/** What a valve is called in figures and sheets: "A", or "2A" where there are stages; its letter alone. */
void qll_valve_name_write(qll_writer *writer, const qll_station *station, size_t stage,
                          size_t branch);
void qll_valve_letter_write(qll_writer *writer, size_t branch);

/** The strainer of branch @p branch of stage @p stage: where it is, and when it wants cleaning. */
void qll_wording_strainer(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_strainer *strainer, size_t stage,
                          size_t branch);

/** What the service carries, beside the design peak of @p demand where that is more; false, and nothing
 * written, where the survey sets no limit. Needs the site. */
bool qll_wording_carries(qll_writer *writer, const qll_wording *wording, const qll_service *service,
                         const qll_demand *demand);

/** The service that cannot carry a scenario's peak, and what the station is designed for instead: of the
 * scenario with the greatest peak that is cut. Writes nothing and is false where none is cut, or by 5 % only. */
bool qll_wording_service(qll_writer *writer, const qll_wording *wording, const qll_service *service,
                         const qll_demand *demands);

/**
 * An estimate far from the design peak: its flow, how many times the design peak it is, and what that
 * means for the station.
 * @param with_alike those after it that mean the same share its sentence
 * @return false, and nothing is written, where it shares the sentence of one before it
 */
bool qll_wording_disagreement(qll_writer *writer, const qll_wording *wording,
                              const qll_demand *demand, size_t which, bool with_alike);

/** What is said of a demand; needs units and language only. */
void qll_wording_remark(qll_writer *writer, const qll_wording *wording, const qll_remark *remark);

/** A problem as it is read: what it says, safe to show. Its texts are "" without memory, which the arena
 * counts. */
qll_problem qll_wording_problem(qll_arena *arena, const qll_wording *wording,
                                const qll_fault *fault);

/** What was stored as a value (base/said.h); needs units and language only. */
void qll_wording_said(qll_writer *writer, const qll_wording *wording, const qll_said *said);

/** The same, and one argument alone, as texts; "" without memory, which the arena counts. */
const char *qll_said_text(qll_arena *arena, const qll_wording *wording, const qll_said *said);
const char *qll_argument_text(qll_arena *arena, const qll_wording *wording,
                              const qll_argument *argument);

/** What a scenario is called, by its number where it has no name; "" without memory, which the arena counts. */
const char *qll_wording_scenario(qll_arena *arena, const qll_wording *wording,
                                 const qll_scenario *scenario);

/** An estimate's notes as one paragraph, "" if there are none; "" without memory, which the arena counts. */
const char *qll_wording_notes(qll_arena *arena, const qll_wording *wording,
                              const qll_remark *notes);

/** A step of the way from the main to an outlet: "pipe, 2 in", "meter", an outlet's name. */
void qll_wording_step(qll_writer *writer, const qll_wording *wording, const qll_ladder *ladder,
                      const qll_ladder_step *step);

/** One note on a log: a whole sentence, or the text of a warning. */
void qll_wording_log_note(qll_writer *writer, const qll_wording *wording, qll_log_note_kind kind,
                          const qll_log_note *note);

/** What was read of a log: rows, time, greatest means, the night; what was mended is not in it. */
void qll_wording_log(qll_writer *writer, const qll_wording *wording, const char *name,
                     const qll_flow_log_result *log);

/** One kind that a recording holds: for how long, how sure, what it may be; needs units and language only. */
void qll_wording_heard(qll_writer *writer, const qll_wording *wording,
                       const qll_sound_result *result, const qll_sound_share *share);

/** What it cannot tell. */
const char *qll_say_untold(qll_language language, qll_sound_limit limit);

/** Where seats may whistle, and whether @p tone_hz (NaN = none) is there. */
void qll_wording_seat_tone(qll_writer *writer, const qll_wording *wording,
                           const qll_seat_tone *tone, double tone_hz);

/** What a log of the same minutes has to do with a recording, of one kind. */
void qll_wording_together(qll_writer *writer, const qll_wording *wording, qll_beside_kind kind,
                          const qll_together *together);

/** Two scenarios, by name, of one building side by side, the second in the terms of the first; @p change tells what
 * becomes of @p low_flow_m3s. */
void qll_wording_change(qll_writer *writer, const qll_wording *wording, const char *before,
                        const char *after, const qll_demand_change *change, double low_flow_m3s);

/** A cause of noise that check finds, most likely first. */
typedef struct qll_noise_cause {
    qll_rule rule;
    qll_spot spot;
    qll_grade grade;
    double weight;        /* chance of a callback by what is heard, alone; the most likely first */
    double touched_share; /* of time or water, for the order of equals */
    const char *says;
} qll_noise_cause;

/** The causes of the verdicts of a station with @p cost; array and texts live in @p arena. */
QLL_MUST_USE qll_status qll_noise_causes(const qll_wording *wording, const qll_station *station,
                                         const qll_assessment *assessment, const qll_cost *cost,
                                         qll_arena *arena, const qll_noise_cause **causes,
                                         size_t *count);

/** A word for machines as people read it, "next room"; the word itself where it has no other. */
void qll_wording_word(qll_writer *writer, qll_language language, qll_text word);

/** What a default was taken for, in words and as the key it could be given by: "greatest gauge ratio
 * (limits.ratio_max)"; the key alone if it has no words. "" without memory, which the arena counts. */
const char *qll_wording_key(qll_arena *arena, const qll_wording *wording, const qll_argument *what);

/** The words alone. */
const char *qll_wording_key_name(qll_arena *arena, const qll_wording *wording,
                                 const qll_argument *what);

/** The key that some valves of a catalogue lack, of a default for these; no bytes of any other. */
qll_text qll_wording_key_of_valves(const qll_argument *what);

/**
 * How a plumber makes the flow of @p run (> 0) run and measures it: what to open, then a jug or a bucket and a
 * watch, or the meter's sweep hand; a few sentences. Needs the site.
 */
void qll_wording_make_flow(qll_writer *writer, const qll_wording *wording, const qll_flow_run *run);

/** That the site's meter does not show so little; NULL where it does, or none is known. */
const char *qll_wording_meter_note(qll_writer *writer, const qll_wording *wording, double flow_m3s);

/** What to add to a reading, or take off, for another pressure at @p gauge ("P0"); NULL where it is too little
 * to be read. */
const char *qll_wording_correction(qll_writer *writer, const qll_wording *wording,
                                   const char *gauge, double correction_pa_per_10psi);

/**
 * How to set the valve called @p name ("2A") of stage @p stage by @p setting: how to make the flow @p run, what
 * its inlet gauge will show, what its outlet gauge must show, and the correction for another inlet. Nothing
 * where it cannot be set. Needs the site.
 */
void qll_wording_set_valve(qll_writer *writer, const qll_wording *wording, const char *name,
                           size_t stage, const qll_setting *setting, const qll_flow_run *run);

/** What the gauge before stage @p joint, or behind the last, is called: "P0". */
const char *qll_gauge_name(qll_arena *arena, size_t joint);

/** What the test cock before a valve is called: "T1A". "" without memory, which the arena counts. */
const char *qll_cock_name(qll_arena *arena, const qll_station *station, size_t stage,
                          size_t branch);

/** A quantity with its unit, as gauges and meters read; "-" if it is not finite, "" without memory, which the arena counts. */
const char *qll_quantity_text(qll_arena *arena, double si, qll_kind kind, qll_unit_system units);

/** The cautions in their order, and each one's sentence. */
typedef enum qll_caution_id {
#define QLL_CAUTION_NAME(name) QLL_CAUTION_##name,
    QLL_CAUTION_LIST(QLL_CAUTION_NAME)
#undef QLL_CAUTION_NAME
    QLL_CAUTION_COUNT
} qll_caution_id;

const char *qll_caution(qll_language language, size_t index);

#endif
