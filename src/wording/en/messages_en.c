/* English. Findings stand in findings_en.c. */
#include "wording/language.h"

const char *const qll_messages_en[QLL_PEAKS_FIRST] = {
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
    [QLL_SAYS_METHOD_FIXTURE_UNITS_IPC] = "fixture units (IPC)",
    [QLL_SAYS_METHOD_FIXTURE_UNITS_UPC] = "fixture units (UPC)",
    [QLL_SAYS_METHOD_SIMULTANEOUS_USE] = "simultaneous use",
    [QLL_SAYS_METHOD_NORMAL_APPROXIMATION] = "normal approximation",
    [QLL_SAYS_METHOD_DIN_1988_300] = "DIN 1988-300",
    [QLL_SAYS_METHOD_LOADING_UNITS_EN] = "loading units (EN 806-3)",
    [QLL_SAYS_METHOD_LOADING_UNITS_BS] = "loading units (BS 6700)",
    [QLL_SAYS_METHOD_PER_FIXTURE] = "gallons per fixture",
    [QLL_SAYS_METHOD_PULSE_MODEL] = "pulse model",
    [QLL_SAYS_METHOD_METERED] = "metered",
    [QLL_SAYS_METHOD_GIVEN] = "given",
    [QLL_SAYS_REASON_ONE_VALVE] = "One valve does it: a second one does not pay for itself.",
    [QLL_SAYS_REASON_PAIR_PAYS] = "The second valve saves more in callbacks than it costs.",
    [QLL_SAYS_REASON_PAIR_CARRIES] =
        "No single valve here keeps every hard rule; two side by side do.",
    [QLL_SAYS_REASON_STAGES_BY_RATIO] =
        "One stage would have to take {value}:1; {limit}:1 is the most, so two share the drop.",
    [QLL_SAYS_REASON_STAGES_PAY] = "Two stages save more in callbacks than they cost.",
    [QLL_SAYS_REASON_STAGES_CARRY] =
        "No station of one stage keeps every hard rule; two stages do.",
    [QLL_SAYS_REASON_NOT_FIT] =
        "Nothing in the catalogue is fit to install here; this comes nearest.",
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
    [QLL_SAYS_LOWEST_OUTLET] = "{outlet}, the lowest outlet named,",
    [QLL_SAYS_STATION_OUTLET] = "the station's outlet (no outlet is named)",
    [QLL_SAYS_UNKNOWN] = "(unknown)",
    [QLL_SAYS_SERVICE_VELOCITY] =
        "The service, not the valve, is the limit: it carries about {flow} here ({velocity} in "
        "[{size} ]pipe); {peak}. The station is designed for what the service carries.",
    [QLL_SAYS_SERVICE_PRESSURE] =
        "The service, not the valve, is the limit: it carries about {flow} here (at more, the "
        "lowest supply leaves less than {inlet} before the station); {peak}. The station is "
        "designed for what the service carries.",
    [QLL_SAYS_PEAK_OF_CODE] = "the code's peak is {peak}",
    [QLL_SAYS_PEAK_AS_GIVEN] = "the peak that was given is {peak}",
    [QLL_SAYS_PEAK_BY_METHOD] = "the peak by {method} is {peak}",
    [QLL_SAYS_UNDER_ONE_PERCENT] = "under 1 %",
    [QLL_SAYS_ONE_VALVE] = "one valve, ",
    [QLL_SAYS_IN_PARALLEL] = "parallel valves {sizes}",
    [QLL_SAYS_IN_SERIES] = "{stages} stages in series: ",
    [QLL_SAYS_THEN] = ", then ",
    [QLL_SAYS_DISAGREEMENT] = "{method} gives {flow}, {times} times the design peak: {advice}.",
    [QLL_SAYS_GRADE_GOOD] = "good",
    [QLL_SAYS_GRADE_UNKNOWN] = "not looked at",
    [QLL_SAYS_GRADE_CAUTION] = "caution",
    [QLL_SAYS_GRADE_FAIL] = "fail",
    [QLL_SAYS_MARK_GOOD] = "good",
    [QLL_SAYS_MARK_UNKNOWN] = "not looked at",
    [QLL_SAYS_MARK_CAUTION] = "CAUTION",
    [QLL_SAYS_MARK_FAIL] = "FAIL",
    [QLL_SAYS_ACTING_DIRECT] = "direct",
    [QLL_SAYS_ACTING_PILOT] = "pilot",
    [QLL_SAYS_DAY_WEEKDAY] = "a weekday",
    [QLL_SAYS_DAY_SATURDAY] = "a Saturday",
    [QLL_SAYS_DAY_SUNDAY] = "a Sunday",
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
    [QLL_SAYS_HEAD_PRICE] = "price",
    [QLL_SAYS_HEAD_DESIGN_PEAK] = "design peak",
    [QLL_SAYS_HEAD_MEAN] = "mean",
    [QLL_SAYS_HEAD_99_PERCENT] = "99 % of the time",
    [QLL_SAYS_HEAD_NOBODY_DRAWS] = "no fixture open",
    [QLL_SAYS_HEAD_BY] = "by",
    [QLL_SAYS_NONE] = "none",
    [QLL_SAYS_NOTE_CANNOT_PASS] = "cannot pass it",
    [QLL_SAYS_NOTE_SEAT] = "cavitates hard",
    [QLL_SAYS_NOTE_TOO_FAST] = "very fast",
    [QLL_SAYS_NOTE_LOW_FLOW] = "low flow",
    [QLL_SAYS_NOTE_AUDIBLE] = "cavitates",
    [QLL_SAYS_NOTE_FAST] = "fast",
    [QLL_SAYS_NOTE_WIDE_OPEN] = "wide open",
    [QLL_SAYS_SHARE_IDLE] = "no flow, or only a leak",
    [QLL_SAYS_SHARE_BELOW_STABLE] = "below least stable flow",
    [QLL_SAYS_SHARE_BELOW_BAND] = "slower than the velocity band",
    [QLL_SAYS_SHARE_IN_BAND] = "in the velocity band",
    [QLL_SAYS_SHARE_ABOVE_BAND] = "faster than the velocity band",
    [QLL_SAYS_SHARE_FULL_TRAVEL] = "(of these) wide open",
    [QLL_SAYS_SHARE_CAVITATING] = "(of these) cavitating audibly",
    [QLL_SAYS_HOW_TO_SET] =
        "[Stage {stage}. ]Set {first} first; shut the other branch's stops while you set one.",
    [QLL_SAYS_STRAINER_IN_BODY] =
        "{valve} has its strainer in its body[: {clean} when clean at {flow}; clean it when "
        "gauges before and behind it differ by {dirty} more than with no flow].",
    [QLL_SAYS_STRAINER_AHEAD] =
        "{valve} wants a strainer of {mesh} mesh, {size}, ahead of it[: {clean} when clean at "
        "{flow}; clean it when gauges before and behind it differ by {dirty} more than with no "
        "flow].",
    [QLL_SAYS_HANDOVER] =
        "{first} works alone up to about {flow}; {second} starts when the outlet gauge drops to "
        "{pressure}.",
    [QLL_SAYS_READS_AT] = "{pressure} at {flow}",
    [QLL_SAYS_NAME_DEMAND] = "DEMAND",
    [QLL_SAYS_NAME_DESIGN] = "STATION",
    [QLL_SAYS_NAME_CHECK] = "CHECK",
    [QLL_SAYS_HOURS] = "Mean flow by the hour",
    [QLL_SAYS_THERE_NOW] = "The station there now: {station}",
    [QLL_SAYS_WHY_NOISY] = "Why it would be noisy, most likely first",
    [QLL_SAYS_NOT_NOISY] = "Nothing in its hydraulics would make it noisy.",
    [QLL_SAYS_INLET_MIDDLE] = "The inlet is that of the middle supply.",
    [QLL_SAYS_INLETS] =
        "The inlet is that of the middle supply; in the second and third row of the highest, in the "
        "last row of the lowest.",
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
    [QLL_SAYS_ASSUMED_SHORT] = "Assumed (not given; check it)",
    [QLL_SAYS_HEAD_MENDED] = "what was mended",
    [QLL_SAYS_FIGURE_PEAK] = "design peak",
    [QLL_SAYS_FIGURE_SHARE] = "share at or below this flow",
    [QLL_SAYS_FIGURE_OF_TIME] = "of the time",
    [QLL_SAYS_FIGURE_OF_WATER] = "of the water",
    [QLL_SAYS_FIGURE_NO_FLOW] = "no fixture open",
    [QLL_SAYS_FIGURE_BAND] = "velocity in the band",
    [QLL_SAYS_FIGURE_HOUR] = "hour of the day",
    [QLL_SAYS_FIGURE_MEAN] = "mean",
    [QLL_SAYS_FIGURE_OUTLET] = "outlet pressure",
    [QLL_SAYS_FIGURE_LOCKUP] = "lock-up",
    [QLL_SAYS_FIGURE_FULL_TRAVEL] = "full travel",
    [QLL_SAYS_FIGURE_PRESSURE] = "pressure",
    [QLL_SAYS_FIGURE_AT_NIGHT] = "at night, nobody draws",
    [QLL_SAYS_FIGURE_AT_PEAK] = "at the design peak, lowest supply",
    [QLL_SAYS_FIGURE_INLET] = "inlet pressure",
    [QLL_SAYS_FIGURE_BUILDING_TIME] = "the building's time, by area",
    [QLL_SAYS_FIGURE_SHUT] = "shut",
    [QLL_SAYS_FIGURE_STATION] = "station",
    [QLL_SAYS_FIGURE_AT] = "at",
    [QLL_SAYS_FIGURE_FREQUENCY] = "middle of the third-octave band",
    [QLL_SAYS_FIGURE_LEVEL] = "level 1 m from the pipe",
    [QLL_SAYS_FIGURE_PRICE] = "installed cost",
    [QLL_SAYS_FIGURE_NOISE] = "chance of a callback",
    [QLL_SAYS_FIGURE_RECOMMENDED] = "recommended",
    [QLL_SAYS_FIGURE_OTHERS] = "others",
    [QLL_SAYS_FIGURE_LOWEST] = "station, lowest supply",
    [QLL_SAYS_FIGURE_HIGHEST] = "station, highest supply",
    [QLL_SAYS_FIGURE_MIDDLE] = "station, middle supply",
    [QLL_SAYS_FIGURE_WANTED] = "wanted",
    [QLL_SAYS_FIGURE_NEVER_ABOVE] = "never above",
    [QLL_SAYS_FIGURE_ALONE] = "{valve} alone",
    [QLL_SAYS_FIGURE_BETWEEN] = "between the stages",
    [QLL_SAYS_FIGURE_BEYOND] = "beyond this scale",
    [QLL_SAYS_FIGURE_SET] = "set",
    [QLL_SAYS_FIGURE_FROM_MAIN] = "from the main",
    [QLL_SAYS_FIGURE_TO_BUILDING] = "to the building",
    [QLL_SAYS_FIGURE_BYPASS] = "by-pass, normally shut",
    [QLL_SAYS_FIGURE_ISOLATING] = "isolating valve",
    [QLL_SAYS_FIGURE_STRAINER] = "strainer",
    [QLL_SAYS_FIGURE_UNION] = "union",
    [QLL_SAYS_FIGURE_DIRECT] = "reducing valve, direct acting",
    [QLL_SAYS_FIGURE_PILOT] = "reducing valve, pilot operated",
    [QLL_SAYS_FIGURE_GAUGE] = "gauge",
    [QLL_SAYS_FIGURE_NO_MORE] = "of the time no more than this",
    [QLL_SAYS_LOG_READ] =
        "The log {name}: {count} rows[, {interval} apart], {covered} of known flow[, {unknown} "
        "unknown].",
    [QLL_SAYS_LOG_PEAKS] = "Greatest means: {list}.",
    [QLL_SAYS_LOG_OVER] = "{flow} over {interval}",
    [QLL_SAYS_LOG_NIGHT] = "Least mean of an hour between 02:00 and 05:00: {flow}.",
    [QLL_SAYS_LOG_NEVER_ZERO] =
        "The flow never stops: something leaks or was left running, or the meter shows flow "
        "where there is none.",
    [QLL_SAYS_LOG_MENDED] = "Mended on the way",
    [QLL_SAYS_HOURS_WEEK] = "Mean flow by the hour, weekdays and weekends",
    [QLL_SAYS_HEAD_WEEKDAYS] = "weekdays",
    [QLL_SAYS_HEAD_WEEKENDS] = "weekends",
    [QLL_SAYS_CHANGES] = "What changes between the scenarios",
    [QLL_SAYS_HEAD_OR_LESS] = "{flow} or less",
    [QLL_SAYS_CHANGE] =
        "{second} beside {first}: {peak} times the design peak[, {mean} times the mean][, "
        "{times} times the flow that is not passed for 99 % of the time]. Time at {flow} or "
        "less: {value} instead of {share}.",
    [QLL_SAYS_LOW_FLOW_MEANS] =
        "{flow} is a tenth of the greatest design peak: about where one direct acting valve "
        "sized for that peak stops being stable (an estimate, docs/theory/stability.md).",
    [QLL_SAYS_NAME_FIT] = "FIT",
    [QLL_SAYS_FIT_POINTS] = "The points, and what the straight law makes of them",
    [QLL_SAYS_FIT_ENTRY] = "The entry",
    [QLL_SAYS_FIT_STRAIGHT] =
        "Straight law: full open at {value}, reached at a fall-off of {limit}.",
    [QLL_SAYS_FIT_HAS_BAND] =
        "The straight law misses no point by more than 5 %: the entry has it as its band.",
    [QLL_SAYS_FIT_HAS_POINTS] =
        "The straight law misses points by more than 5 %: the entry has the points themselves.",
    [QLL_SAYS_HEAD_SET] = "set",
    [QLL_SAYS_HEAD_FALLOFF] = "fall-off",
    [QLL_SAYS_HEAD_OPENING] = "opening",
    [QLL_SAYS_HEAD_FITTED] = "fitted",
    [QLL_SAYS_HEAD_OFF_BY] = "off by",
    [QLL_SAYS_NAME_LIST] = "CATALOGUE",
    [QLL_SAYS_HEAD_FULL_OPEN] = "full open",
    [QLL_SAYS_HEAD_LEAST_SET] = "set from",
    [QLL_SAYS_HEAD_MOST_SET] = "set to",
    [QLL_SAYS_HEAD_MOST_INLET] = "inlet, most",
    [QLL_SAYS_LIST_INVENTED] = "These valves are invented: none of them can be bought.",
    [QLL_SAYS_LIST_NAMES] =
        "For the station that is there, \"valve\" takes an id, or size and kind: \"3 in direct\".",
    [QLL_SAYS_WARNING] = "warning",
    [QLL_SAYS_OF_SCENARIO] = "scenario \"{name}\": {what}",
    [QLL_SAYS_PRIVATE] = "private",
    [QLL_SAYS_PUBLIC] = "public",
    [QLL_SAYS_PEOPLE_APARTMENT] = "people",
    [QLL_SAYS_PEOPLE_HOUSE] = "people",
    [QLL_SAYS_PEOPLE_OFFICE] = "occupants",
    [QLL_SAYS_PEOPLE_HOTEL] = "guests",
    [QLL_SAYS_PEOPLE_SCHOOL] = "pupils",
    [QLL_SAYS_PEOPLE_HOSPITAL] = "beds",
    [QLL_SAYS_PEOPLE_RESTAURANT] = "meals",
    [QLL_SAYS_REMARK_PULSE] =
        "Not passed for {share} of the busiest hour of {day} with {count} {people}, as it is on "
        "average; leak and continuous flows included.",
    [QLL_SAYS_REMARK_PULSE_READ_AS] =
        "Real days have busier hours than an average one: read it as the flow the station works "
        "at, not as a code figure.",
    [QLL_SAYS_REMARK_NO_HOURS] = "No hours are known for {day}; those of a weekday are taken.",
    [QLL_SAYS_REMARK_LOG] =
        "Greatest mean over {mean} in {covered} of readings every {interval}; a longer log would "
        "hold a greater one.",
    [QLL_SAYS_REMARK_LOG_EVENTS] =
        "Greatest mean over {mean} in {covered} of a list of uses, each at its own mean flow; within a "
        "use it may have been more.",
    [QLL_SAYS_REMARK_LOG_HIDES] =
        "Readings so far apart resolve neither the peak nor low flow: never size from them alone.",
    [QLL_SAYS_REMARK_LOG_FACTOR] =
        "The figure is that mean times {times}: in a simulated building ({use}, {count} {people}) "
        "whose readings rise as high, single seconds rise so much higher. On two metered buildings "
        "the figure came out 0.7 to 1.5 times the truth, too low for a house that is read by the hour: hose "
        "and sprinkler runs are not in it.",
    [QLL_SAYS_REMARK_GIVEN] = "Continuous flows are taken to be part of it.",
    [QLL_SAYS_REMARK_CONTINUOUS] = "Continuous flows are added to it.",
    [QLL_SAYS_REMARK_DIN] =
        "Calculation flows add up to {flow}, cold and hot side together; \"{table}\", a {a}, b "
        "{b}, c {c}.",
    [QLL_SAYS_REMARK_DIN_UNIT] =
        "The two largest outlets of one usage unit govern (rule from memory).",
    [QLL_SAYS_REMARK_LOADING] =
        "{value} loading units, each fixture counted once for cold and hot; straight lines "
        "between {count} points read off the graph.",
    [QLL_SAYS_REMARK_BAND] =
        "A band to check others by, no code: {count} fixtures at {flow}; the table's least for so "
        "many is {low}[, its most {high}].",
    [QLL_SAYS_REMARK_UNITS_TANK] =
        "{value} fixture units[ ({use})], flush tank column, straight lines between the table's "
        "points.",
    [QLL_SAYS_REMARK_UNITS_FLUSH] =
        "{value} fixture units[ ({use})], flushometer column, straight lines between the table's "
        "points.",
    [QLL_SAYS_REMARK_UNITS_OTHER] =
        "The table has no {use} entry for \"{name}\"; the one it has is counted.",
    [QLL_SAYS_REMARK_QUANTILE] = "Not passed for {share} of the peak hour; exact.",
    [QLL_SAYS_REMARK_STEPS] =
        "Flows are laid on steps of {flow}, which moves it by less than {most}.",
    [QLL_SAYS_REMARK_HOMES] =
        "The probabilities are those of each home's own peak hour; taken for all homes at once "
        "they are on the safe side.",
    [QLL_SAYS_REMARK_NORMAL_WITHIN] =
        "For comparison. The study uses it where 5 fixtures or more are busy on average; here "
        "{value} are, within that range.",
    [QLL_SAYS_REMARK_NORMAL_OUTSIDE] =
        "For comparison. The study uses it where 5 fixtures or more are busy on average; here "
        "{value} are, outside that range.",
    [QLL_SAYS_REMARK_NORMAL_LOW] =
        "Even there it lies below the exact value: by 5 % for the 270 fixtures of 27 dwellings.",
    [QLL_SAYS_REMARK_NO_FIXTURES] = "the scenario lists no fixtures",
    [QLL_SAYS_REMARK_NO_PEOPLE] = "the scenario counts no people",
    [QLL_SAYS_REMARK_NO_LOG] = "the scenario has no meter's log",
    [QLL_SAYS_REMARK_NO_PEAK] = "no peak is given",
    [QLL_SAYS_REMARK_PEAK_TOO_LOW] =
        "the peak that is given is less than the continuous flows that run at one time",
    [QLL_SAYS_REMARK_NO_PROBABILITY] =
        "no probability of use is published for \"{name}\"; give it a use_probability",
    [QLL_SAYS_REMARK_NO_FLOW] = "no flow is published for \"{name}\"; give it a flow",
    [QLL_SAYS_REMARK_HOMES_ONLY] =
        "the published probabilities of use hold for homes only; give \"{name}\" and every other "
        "fixture a use_probability of its own",
    [QLL_SAYS_REMARK_DIN_NO_USE] = "DIN 1988-300 has no constants for this use ({use})",
    [QLL_SAYS_REMARK_DIN_NO_FLOW] =
        "DIN 1988-300 has no calculation flow for \"{name}\"; give it a flow",
    [QLL_SAYS_REMARK_DIN_RANGE] =
        "its calculation flows add up to {flow} and DIN 1988-300 holds from {low} to {high}",
    [QLL_SAYS_REMARK_NO_LOADING] = "{table} has no loading units for \"{name}\"",
    [QLL_SAYS_REMARK_NO_GRAPH] =
        "the graph that turns its {value} units of {table} into a flow is not in the program; "
        "give points read off the graph",
    [QLL_SAYS_REMARK_GRAPH_FALLS] = "the points read off the graph do not rise",
    [QLL_SAYS_REMARK_OUTSIDE_GRAPH] =
        "its {value} units of {table} lie outside the points read off the graph, {low} to {high}",
    [QLL_SAYS_REMARK_NO_UNITS] = "IPC Table E103.3(2) has no fixture units for \"{name}\"",
    [QLL_SAYS_REMARK_UPC_CHART] =
        "the UPC's fixture units belong on that code's own demand chart, which is not in the "
        "program, and on another code's curve they would be wrong; ask for \"fixture-units IPC\", "
        "or read the peak off the UPC chart and give it",
    [QLL_SAYS_REMARK_NO_BAND] = "the trade table has no such building",
    [QLL_SAYS_REMARK_NO_CODE_LOG] =
        "the design peak is that of the meter's log, which is no code figure, because {what}",
    [QLL_SAYS_REMARK_LOG_COARSE] =
        "the log's readings are {interval} apart; they hide the peak, and how often flow is low "
        "or none: log at 1 min or finer",
    [QLL_SAYS_REMARK_LOG_SHORT] =
        "the log holds {covered} and is taken for the whole day: log a week, with its nights and "
        "its weekend",
    [QLL_SAYS_REMARK_METHOD_FAILS] = "the design peak cannot be found by {method}: {what}",
    [QLL_SAYS_REMARK_NOTHING_DRAWS] =
        "nothing draws water; give people, fixtures or a continuous flow",
    [QLL_SAYS_REMARK_NOTHING_FLOWS] = "nothing flows in the meter's log",
    [QLL_SAYS_REMARK_FAULT] = "{table}",
    [QLL_SAYS_NOTE_NEWEST_FIRST] = "The log runs newest first; it was read from its end.",
    [QLL_SAYS_NOTE_JOINED] =
        "The log is in pieces that stand in no order; they were put together by time.",
    [QLL_SAYS_NOTE_MENDED_ROWS] =
        "{share} of the log's rows ({count} of {total}) were left out, unknown or set to no "
        "flow: look at what was mended before you trust its figures",
    [QLL_SAYS_NOTE_UNPLACED_WATER] =
        "{share} of the log's water, {volume}, was counted over gaps or past wrong "
        "readings: it is in the mean of no hour and in no peak",
    [QLL_SAYS_NOTE_UNKNOWN_TIME] =
        "{share} of the log's time is unknown; its mean and shares are those of the rest: "
        "if it writes only while water runs, say how long its silences may be (`heartbeat`)",
    [QLL_SAYS_NOTE_ODD_ROW] =
        "a row of {flow} is {times} times the greatest of all others: it is taken for a "
        "fault and left out, or name the meter's own limit (`most_flow`)",
    [QLL_SAYS_NOTE_HEAVY_ROW] =
        "one row of {flow} holds {share} of all the log's water: look at it before you size "
        "by it",
    [QLL_SAYS_NOTE_COARSE_STEP] =
        "the meter counts in steps of {volume}, at most a few an interval; flow below "
        "{flow} is not resolved: neither the idle share nor a peak of so few steps is "
        "given, and the flow duration is that of whole hours",
    [QLL_SAYS_NOTE_STEP] =
        "The meter counts in steps of {volume}; flow below {flow} is not resolved.",
    [QLL_SAYS_NOTE_DAMPED] =
        "this meter needs about {interval} to settle (every stop fades by the same factor); idle time "
        "and the greatest second are understated",
#define QLL_MEND_SAYS(name, word, sentence) [QLL_SAYS_MEND_##name] = (sentence),
    QLL_LOG_MEND_LIST(QLL_MEND_SAYS)
#undef QLL_MEND_SAYS
};
