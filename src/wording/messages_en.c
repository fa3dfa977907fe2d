/* English. Findings stand in findings_en.c. */
#include "wording/messages.h"

const char *const qll_messages_en[QLL_MESSAGE_COUNT] = {
    [QLL_SAYS_RULE_DELIVERY] = "delivery",
    [QLL_SAYS_RULE_STATIC] = "static",
    [QLL_SAYS_RULE_RATIO] = "ratio",
    [QLL_SAYS_RULE_VELOCITY] = "velocity",
    [QLL_SAYS_RULE_CAPACITY] = "capacity",
    [QLL_SAYS_RULE_LOW_FLOW] = "low-flow",
    [QLL_SAYS_RULE_CAVITATION] = "cavitation",
    [QLL_SAYS_RULE_NOISE] = "noise",
    [QLL_SAYS_RULE_EXPANSION] = "expansion",
    [QLL_SAYS_RULE_STRAINER] = "strainer",
    [QLL_SAYS_RULE_RATING] = "rating",
    [QLL_SAYS_METHOD_FIXTURE_UNITS_IPC] = "fixture-units IPC",
    [QLL_SAYS_METHOD_FIXTURE_UNITS_UPC] = "fixture-units UPC",
    [QLL_SAYS_METHOD_SIMULTANEOUS_USE] = "simultaneous-use",
    [QLL_SAYS_METHOD_NORMAL_APPROXIMATION] = "normal-approximation",
    [QLL_SAYS_METHOD_DIN_1988_300] = "din-1988-300",
    [QLL_SAYS_METHOD_LOADING_UNITS_EN] = "loading-units EN 806-3",
    [QLL_SAYS_METHOD_LOADING_UNITS_BS] = "loading-units BS 6700",
    [QLL_SAYS_METHOD_PER_FIXTURE] = "gallons-per-fixture",
    [QLL_SAYS_METHOD_PULSE_MODEL] = "pulse-model",
    [QLL_SAYS_METHOD_METERED] = "metered",
    [QLL_SAYS_METHOD_GIVEN] = "given",
    [QLL_SAYS_REASON_SINGLE_WITHOUT_CAUTION] =
        "One valve does it without a single caution, so a second would earn nothing.",
    [QLL_SAYS_REASON_SIMPLEST_NOT_BEATEN] =
        "It is the simplest station that no other clearly beats.",
    [QLL_SAYS_REASON_QUIETER_EARNS_PARTS] =
        "It earns its extra parts: it is clearly quieter than the best simpler station.",
    [QLL_SAYS_REASON_STAGES_SHARE_THE_DROP] =
        "One stage cannot take the whole drop quietly, so two share it.",
    [QLL_SAYS_REASON_THREE_SHARE_THE_DROP] =
        "Two stages would each take too great a share of the drop, so three share it.",
    [QLL_SAYS_REASON_LEAST_BAD] =
        "Nothing in the catalogue is right in every respect; this has the least against it. "
        "Another valve, or another set pressure, may do better.",
    [QLL_SAYS_CAUTION_RELIEVE] =
        "Isolate the station and relieve the pressure before you open anything.",
    [QLL_SAYS_CAUTION_SCALDS] = "Hot water scalds: let the heater cool or drain safely first.",
    [QLL_SAYS_CAUTION_CLOSED] =
        "Behind a reducing valve the system is closed: it needs expansion control and a "
        "working relief valve.",
    [QLL_SAYS_CAUTION_FIRE] = "Never size or alter fire-protection water with this tool.",
    [QLL_SAYS_CAUTION_BACKFLOW] = "Backflow protection and the local plumbing code come first.",
    [QLL_SAYS_CAUTION_LICENSED] =
        "Where the law asks for a licensed plumber, let a licensed plumber do the work.",
    [QLL_SAYS_CAUTION_ESTIMATES] = "Figures for noise and chatter are estimates.",
    [QLL_SAYS_ADVICE_LESS_CODE] =
        "if it is nearer the truth, a station sized for the design peak is larger than it need "
        "be: let a small valve carry the everyday flow",
    [QLL_SAYS_ADVICE_LESS_CHANCE] =
        "with these fixtures the flow should hardly ever pass it, so the upper part of the "
        "station will seldom open",
    [QLL_SAYS_ADVICE_LESS_ORDINARY] =
        "the station works at such flows nearly all the time and must be quiet there, not only "
        "at the design peak",
    [QLL_SAYS_ADVICE_LESS_MEASURED] =
        "the building drew no more while it was logged, so size the small valve by the log and "
        "the whole station by the design peak",
    [QLL_SAYS_ADVICE_MORE_CODE] = "ask the reviewer which figure counts before valves are ordered",
    [QLL_SAYS_ADVICE_MORE_CHANCE] =
        "if many use water at once the pressure at the top may fall; check the fixtures and "
        "how they are used",
    [QLL_SAYS_ADVICE_MORE_ORDINARY] =
        "an ordinary day would pass the design peak; check people, fixtures and continuous flows",
    [QLL_SAYS_ADVICE_MORE_MEASURED] =
        "the building has drawn more than the design peak, so the design peak is too low or "
        "something leaks or was left running",
    [QLL_SAYS_THE_STATION] = "The station",
    [QLL_SAYS_STAGE] = "Stage {stage}",
    [QLL_SAYS_THE_VALVE] = "The {size} valve {valve}",
    [QLL_SAYS_STAGE_THE_VALVE] = "Stage {stage}: the {size} valve {valve}",
    [QLL_SAYS_THE_OUTLET] = "The outlet",
    [QLL_SAYS_UNKNOWN] = "(unknown)",
    [QLL_SAYS_UNDER_ONE_PERCENT] = "under 1 %",
    [QLL_SAYS_ONE_VALVE] = "one valve, ",
    [QLL_SAYS_IN_PARALLEL] = " in parallel",
    [QLL_SAYS_IN_SERIES] = "{stages} stages in series: ",
    [QLL_SAYS_THEN] = ", then ",
    [QLL_SAYS_SINGLE_WITH_CAUTION] =
        "One valve does it, and what is cautioned below no second valve would mend.",
    [QLL_SAYS_SIMPLER_WOULD_BE] = "The best simpler one would be {station}.",
    [QLL_SAYS_DISAGREEMENT] = "{method} gives {flow}, {times} times the design peak: {advice}.",
    [QLL_SAYS_GRADE_GOOD] = "good",
    [QLL_SAYS_GRADE_CAUTION] = "caution",
    [QLL_SAYS_GRADE_FAIL] = "fail",
    [QLL_SAYS_MARK_GOOD] = "good",
    [QLL_SAYS_MARK_CAUTION] = "CAUTION",
    [QLL_SAYS_MARK_FAIL] = "FAIL",
    [QLL_SAYS_ACTING_DIRECT] = "direct",
    [QLL_SAYS_ACTING_PILOT] = "pilot",
    [QLL_SAYS_DAY_WEEKDAY] = "a weekday",
    [QLL_SAYS_DAY_SATURDAY] = "a saturday",
    [QLL_SAYS_DAY_SUNDAY] = "a sunday",
    [QLL_SAYS_DAY_METERED] = "as metered",
    [QLL_SAYS_HEAD_VALVE] = "valve",
    [QLL_SAYS_HEAD_SIZE] = "size",
    [QLL_SAYS_HEAD_ACTING] = "acting",
    [QLL_SAYS_HEAD_SET_POINT] = "set-point",
    [QLL_SAYS_HEAD_READS] = "reads",
    [QLL_SAYS_HEAD_LOCKUP] = "no flow, at most",
    [QLL_SAYS_HEAD_FLOW] = "flow",
    [QLL_SAYS_HEAD_INLET] = "inlet",
    [QLL_SAYS_HEAD_BETWEEN] = "between",
    [QLL_SAYS_HEAD_OUTLET] = "outlet",
    [QLL_SAYS_HEAD_WORKS] = "works",
    [QLL_SAYS_HEAD_VELOCITY] = "velocity",
    [QLL_SAYS_HEAD_LEVEL] = "level",
    [QLL_SAYS_HEAD_RATIO] = "ratio",
    [QLL_SAYS_HEAD_STATION] = "station",
    [QLL_SAYS_HEAD_VERDICTS] = "verdicts",
    [QLL_SAYS_HEAD_NOISE_SCORE] = "noise score",
    [QLL_SAYS_HEAD_PRICE] = "price",
    [QLL_SAYS_HEAD_DESIGN_PEAK] = "design peak",
    [QLL_SAYS_HEAD_MEAN] = "mean",
    [QLL_SAYS_HEAD_99_PERCENT] = "99 % of the time",
    [QLL_SAYS_HEAD_NOBODY_DRAWS] = "nobody draws",
    [QLL_SAYS_HEAD_BY] = "by",
    [QLL_SAYS_NONE] = "none",
    [QLL_SAYS_NOTE_CANNOT_PASS] = "cannot pass it",
    [QLL_SAYS_NOTE_SEAT] = "cavitation eats the seat",
    [QLL_SAYS_NOTE_TOO_FAST] = "too fast",
    [QLL_SAYS_NOTE_CHATTER] = "may chatter",
    [QLL_SAYS_NOTE_AUDIBLE] = "cavitation audible",
    [QLL_SAYS_NOTE_FAST] = "fast",
    [QLL_SAYS_NOTE_WIDE_OPEN] = "wide open",
    [QLL_SAYS_SHARE_IDLE] = "nobody draws",
    [QLL_SAYS_SHARE_BELOW_STABLE] = "below least stable flow",
    [QLL_SAYS_SHARE_BELOW_BAND] = "slower than the velocity band",
    [QLL_SAYS_SHARE_IN_BAND] = "in the velocity band",
    [QLL_SAYS_SHARE_ABOVE_BAND] = "faster than the velocity band",
    [QLL_SAYS_SHARE_FULL_TRAVEL] = "(of these) wide open",
    [QLL_SAYS_SHARE_CAVITATING] = "(of these) cavitating audibly",
    [QLL_SAYS_HOW_TO_SET] =
        "[Stage {stage}. ]Set it with {inlet} on its inlet gauge and the flow above running[; "
        "shut the other branch's stops while you set one, and start with {first}].",
    [QLL_SAYS_STRAINER_IN_BODY] =
        "{valve} has its strainer in its body[: {clean} when clean at {flow}; clean it when "
        "gauges before and behind it differ by {dirty} more than with no flow].",
    [QLL_SAYS_STRAINER_AHEAD] =
        "{valve} wants a strainer of {mesh} mesh, {size}, ahead of it[: {clean} when clean at "
        "{flow}; clean it when gauges before and behind it differ by {dirty} more than with no "
        "flow].",
    [QLL_SAYS_HANDOVER] =
        "{first} works alone up to {flow}; there the outlet reads {pressure} and {second} "
        "begins to open.",
    [QLL_SAYS_READS_AT] = "{pressure} at {flow}",
    [QLL_SAYS_FAILS_CAUTIONS] = "{fails} fail, {cautions} caution",
    [QLL_SAYS_NOISE_SCORE_MEANS] =
        "Noise score: penalties weighted by time and by water, 0 is silent; for comparing only.",
    [QLL_SAYS_PLAIN_DEMAND] = "DEMAND",
    [QLL_SAYS_PLAIN_STATION] = "STATION",
    [QLL_SAYS_PLAIN_CHECK] = "CHECK",
    [QLL_SAYS_PLAIN_MUST_DELIVER] = "What the station must deliver:",
    [QLL_SAYS_PLAIN_LIVES] = "Where it lives ({day}):",
    [QLL_SAYS_PLAIN_NOBODY_DRAWS] =
        "nobody draws {share} of the time; mean {mean}[, of it leaks {leak}]",
    [QLL_SAYS_PLAIN_CHOSEN] = "<- design peak",
    [QLL_SAYS_PLAIN_OR_LESS] = "or less",
    [QLL_SAYS_PLAIN_PEAK] = "peak",
    [QLL_SAYS_PLAIN_DESIGN] = "design",
    [QLL_SAYS_PLAIN_HOURS] = "Mean flow by the hour:",
    [QLL_SAYS_PLAIN_INSTALL] = "Install {station}.",
    [QLL_SAYS_PLAIN_SET] = "SET (gauge pressures)",
    [QLL_SAYS_PLAIN_WHY] = "WHY",
    [QLL_SAYS_PLAIN_WHAT_HAPPENS] = "WHAT HAPPENS, from no flow to the design peak",
    [QLL_SAYS_PLAIN_TIME] = "WHERE THE TIME GOES",
    [QLL_SAYS_PLAIN_WATER] = "THE WATER",
    [QLL_SAYS_PLAIN_ALSO] = "ALSO POSSIBLE",
    [QLL_SAYS_PLAIN_BY_PIPE_SIZE] = "A VALVE OF THE PIPE'S SIZE, for comparison",
    [QLL_SAYS_PLAIN_THERE_NOW] = "The station there now: {station}",
    [QLL_SAYS_PLAIN_WHY_NOISY] = "WHY IT WOULD BE NOISY, most likely first",
    [QLL_SAYS_PLAIN_NOT_NOISY] = "Nothing in its hydraulics would make it noisy.",
    [QLL_SAYS_PLAIN_VERDICTS] = "VERDICTS",
    [QLL_SAYS_PLAIN_WHAT_IT_DOES] = "WHAT IT DOES, from no flow to the peak",
    [QLL_SAYS_STEP_MAIN] = "the main",
    [QLL_SAYS_STEP_PIPE] = "pipe[, {size}]",
    [QLL_SAYS_STEP_METER] = "meter",
    [QLL_SAYS_STEP_BACKFLOW] = "backflow preventer",
    [QLL_SAYS_STEP_STRAINER] = "strainer",
    [QLL_SAYS_STEP_DEVICE] = "device",
    [QLL_SAYS_STEP_STAGE] = "stage {stage}",
    [QLL_SAYS_HEAD_BEHIND] = "behind",
    [QLL_SAYS_HEAD_NIGHT] = "night",
    [QLL_SAYS_HEAD_PEAK] = "peak",
    [QLL_SAYS_NOTE_AT_MOST] = "FAST: at most {limit}",
    [QLL_SAYS_MORE_OUTLETS] = "and {count} more outlets",
    [QLL_SAYS_PLAIN_LADDER] = "FROM THE MAIN TO THE OUTLETS, no flow at night and the design peak",
    [QLL_SAYS_PLAIN_ITS_TIME] = "WHERE ITS TIME GOES",
    [QLL_SAYS_PLAIN_ASSUMED] = "ASSUMED (not given; check it)",
    [QLL_SAYS_PLAIN_SOURCES] = "SOURCES",
    [QLL_SAYS_PLAIN_CAUTIONS] = "CAUTIONS",
};
