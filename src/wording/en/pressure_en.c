/* What a log of pressures says. The tokens are those of says_pressure.c. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_SAYS_##name - QLL_PRESSURE_FIRST]

const char *const qll_pressure_en[QLL_LISTEN_FIRST - QLL_PRESSURE_FIRST] = {
    QLL_PUT(PRESSURE_CREEP) = "creep",
    QLL_PUT(PRESSURE_THERMAL_EXPANSION) = "thermal expansion",
    QLL_PUT(PRESSURE_LOCK_UP) = "lock-up",
    QLL_PUT(PRESSURE_FALL_OFF) = "fall-off",
    QLL_PUT(PRESSURE_FALL_OFF_DRIFT) = "fall-off drift",
    QLL_PUT(PRESSURE_INLET_EFFECT) = "inlet effect",
    QLL_PUT(PRESSURE_SUPPLY_SWING) = "supply swing",
    QLL_PUT(PRESSURE_SET_POINT_DRIFT) = "set-point drift",
    QLL_PUT(PRESSURE_HUNTING) = "hunting",
    QLL_PUT(PRESSURE_CHATTER) = "chatter",
    QLL_PUT(PRESSURE_HAMMER) = "hammer",
    QLL_PUT(PRESSURE_STRAINER) = "strainer",
    QLL_PUT(PRESSURE_AIR) = "air",
    QLL_PUT(PRESSURE_LOGGER_FAULT) = "logger fault",
    QLL_PUT(CHANNEL_INLET) = "inlet pressure",
    QLL_PUT(CHANNEL_OUTLET) = "outlet pressure",
    QLL_PUT(CHANNEL_FLOW) = "flow",
    QLL_PUT(CHANNEL_TEMPERATURE) = "temperature",

    QLL_PUT(CREEP_RISES) =
        "With no flow the outlet creeps up {rate} a minute, in {share} of the stretches without flow[, until it stands at the inlet pressure ({end})]. "
        "Dirt on the seat, or a worn seat or disc, lets water by.",
    QLL_PUT(EXPANSION_SWELLS) =
        "With no flow the outlet jumps {value} above lock-up while water heats, and then stops. Nothing takes up what the heater expands: check the "
        "expansion tank and its precharge.",
    QLL_PUT(EXPANSION_OVER_INLET) =
        "With no flow the outlet rises {value} above lock-up, past the inlet pressure. A seat cannot leak uphill: this is water that expands as it heats. "
        "Check the expansion tank and its precharge.",
    QLL_PUT(LOCK_UP_HIGH) =
        "Lock-up is {value} or more above the set-point[; this station should lock up {expected} above it]. The seat does not close at its pressure.",
    QLL_PUT(FALL_OFF_SEEN) = "The outlet falls off {value} from no flow to {flow}. Without a survey nothing says what is right for this station.",
    QLL_PUT(FALL_OFF_COMPARED) =
        "The outlet falls off {value} from no flow to {flow}, {ratio} times the {expected} of this station as surveyed. The valve sticks, is too small, or "
        "something before it takes the pressure.",
    QLL_PUT(FALL_OFF_GROWS) =
        "At {flow} the outlet falls off {value} more at the end of the log than at its start, down to {level}. A set-point that drifts moves all flows alike; this is something plugging up: clean the strainer, then see whether it comes back.",
    QLL_PUT(FALL_OFF_STEP) =
        "From one day to the next the outlet falls off {value} more at {flow}, down to {level}. Something was closed or got caught: see whether a stop valve is "
        "half closed, then clean the strainer.",
    QLL_PUT(FALL_OFF_OF_INLET) =
        "At {flow} the outlet falls off {value} more than at first, and so does the inlet. The pressure is lost before the inlet gauge: check stop valves, meter, backflow preventer and main.",
    QLL_PUT(INLET_EFFECT_SEEN) =
        "Of every {ten} that the inlet moves the outlet follows with {tenth}[; this station should follow with {expected}]. The seat is unbalanced or "
        "sticks.",
    QLL_PUT(SUPPLY_SWINGS) = "Street pressure swings by {value}, from {level} up, 5 % to 95 % of the time. Find out what moves it before the valve is blamed.",
    QLL_PUT(DRIFT_SLOW) = "The set-point drifted by {value} over the log, to a lock-up of {level}. Spring, diaphragm or adjusting screw give way.",
    QLL_PUT(DRIFT_STEP) = "The set-point moved by {value} at once, to a lock-up of {level}. Somebody turned the adjusting screw, or a part broke.",
    QLL_PUT(DRIFT_FROM_SURVEY) = "The set-point reads {level}; the station of the survey is set to {expected}. Set it again, or correct the survey.",
    QLL_PUT(HUNTING_SEEN) =
        "At steady flow the outlet swings by {value} either way, {frequency} times a second, in {share} of the steady time. The valve hunts: it finds no "
        "rest at this flow.",
    QLL_PUT(CHATTER_SEEN) = "The outlet shakes by {value} either way, {frequency} times a second. The valve chatters: most do below their least stable flow.",
    QLL_PUT(HAMMER_SEEN) =
        "Hammer: {count} waves[, {often} an hour], the hardest {value} within {rise}[, ringing {frequency} times a second]. Something closes fast.",
    QLL_PUT(STRAINER_SEEN) =
        "Up to middling flows the outlet holds, then it falls away: at {flow} {value} more than on a straight line. Something before the valve takes the "
        "pressure: clean the strainer first, then see whether a stop valve is half closed.",
    QLL_PUT(AIR_SEEN) =
        "While water runs the outlet jumps both ways, by {level} on average, {often} times an hour; at rest it does not. That is air in the line.",
    QLL_PUT(FAULT_STUCK) = "The {channel} stands still to the last digit for {share} of the log. The gauge or the logger hangs.",
    QLL_PUT(FAULT_CLIPPED) = "The {channel} is cut off at one value in {share} of its readings. The gauge's range is too small.",
    QLL_PUT(FAULT_CLOCK) = "{share} of the rows stand at a wrong time or at one that was there before. The logger's clock jumps.",
    QLL_PUT(FAULT_GAPS) = "{share} of the time has no rows. What happened then is unknown.",
    QLL_PUT(FAULT_VALUES) = "{share} of the rows have no value, or one that cannot be. They are taken as unknown.",
    QLL_PUT(FAULT_SWAPPED) = "The outlet stands above the inlet for {share} of the time. The two gauges have changed places; nothing else is judged.",
    QLL_PUT(FAULT_GLITCHES) = "{count} single readings stand far off, {often} an hour. No wave is so short: the wiring picks something up.",
    QLL_PUT(FAULT_HUM) = "The outlet shakes at mains frequency with no flow too. The wiring picks up the mains; chatter is not judged.",

    QLL_PUT(UNJUDGED_RATE) = "{name}: not judged. The log has a row every {interval}; {needs} rows a second would do.",
    QLL_PUT(UNJUDGED_CHANNEL) = "{name}: not judged. The log has no {channel}.",
    QLL_PUT(UNJUDGED_TIME) = "{name}: not judged. The log holds too little that tells.",
    QLL_PUT(UNJUDGED_TIME_LEAST) = "{name}: not judged. It takes {needs} of log at least.",
    QLL_PUT(UNJUDGED_NIGHTS) = "{name}: not judged. It takes 14 nights of log at least.",
    QLL_PUT(UNJUDGED_DAYS) = "{name}: not judged. It takes at least 14 days of log.",
    QLL_PUT(UNJUDGED_STEP) = "{name}: not judged. The gauge reads in steps of {step}; {needs} or finer would do.",

    QLL_PUT(NAME_LOG) = "Pressure log",
    QLL_PUT(LOG_IS) = "{count} rows, one every {interval}, from {from} to {to}: {list}.",
    QLL_PUT(LOG_ACT) = "Act on: {list}.",
    QLL_PUT(LOG_NOTHING) = "Nothing to act on.",
    QLL_PUT(LOG_LOOK) = "Keep an eye on: {list}.",
    QLL_PUT(LOG_COMPARED) = "Compared with the existing station of the survey {name}.",
    QLL_PUT(STRENGTH_ACT) = "act on it",
    QLL_PUT(STRENGTH_LOOK) = "look at it",
    QLL_PUT(LOG_WHEN) = "Seen from {from} to {to}; strength {strength} of 1, {word}.",
    QLL_PUT(LOG_ELAPSED) = "{seconds} s from the start",
    QLL_PUT(LOG_FIGURES) = "What the log shows",
    QLL_PUT(LOG_UNJUDGED) = "What it cannot show",
    QLL_PUT(LOG_GAPS) = "Gaps",
    QLL_PUT(LOG_GAPS_MORE) = "Gaps in all: {count}, together {time}; the longest are listed.",
    QLL_PUT(LOG_MENDS) = "Gaps, and rows put right or left out",
    QLL_PUT(HEAD_FROM) = "from",
    QLL_PUT(HEAD_TO) = "to",
    QLL_PUT(FACT_INLET) = "inlet, 5 % to 95 % of the time",
    QLL_PUT(FACT_OUTLET) = "outlet, 5 % to 95 % of the time",
    QLL_PUT(FACT_SET_POINT) = "set-point, from steady flows",
    QLL_PUT(FACT_LOCK_UP) = "lock-up",
    QLL_PUT(FACT_SHOULD_SET) = "set-point of the survey",
    QLL_PUT(FACT_SHOULD_LOCK_UP) = "lock-up of the survey's station",
    QLL_PUT(FACT_FALL_OFF) = "fall-off at {flow}",
    QLL_PUT(FACT_EFFECT) = "inlet effect",
    QLL_PUT(FACT_WINDOWS) = "stretches without flow, 11 min or more",
    QLL_PUT(FACT_RUNS) = "runs of steady flow, 20 s or more",
    QLL_PUT(FACT_CYCLES) = "swings of over {value} a day",
    QLL_PUT(FACT_NOISE) = "noise of the outlet gauge",
    QLL_PUT(FACT_STEP) = "least step of the outlet gauge",
    QLL_PUT(PLOT_OUTLET) = "outlet, {unit}",
    QLL_PUT(PLOT_OUTLET_AT) = "outlet at {flow}, {unit}, from day to day",
    QLL_PUT(PLOT_INLET) = "inlet, {unit}",
    QLL_PUT(PLOT_FLOW) = "flow, {unit}",
};
