/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_FINDING_##name]

const char *const qll_findings_en[QLL_FINDING_COUNT] = {
    QLL_PUT(DELIVERY_MET) = "At peak flow and lowest street pressure, {outlet} gets {value} more than it needs[ ({scenario})].",
    QLL_PUT(DELIVERY_TIGHT) = "At peak flow and lowest street pressure, {outlet} gets what it needs with only {value} to spare[ ({scenario})].",
    QLL_PUT(DELIVERY_SHORT) = "At peak flow and lowest street pressure, {outlet} is {shortage} short[ ({scenario})].",
    QLL_PUT(DELIVERY_STREET) =
        "At peak flow and lowest street pressure, {outlet} is {shortage} short[ ({scenario})]. The street gives no more; no valve can fix that.",
    QLL_PUT(DELIVERY_UNKNOWN) = "Delivery to {outlet} not checked: the pressure loss on the way there cannot be computed.",
    QLL_PUT(DELIVERY_BARELY) = "At peak flow and lowest street pressure, {outlet} gets just what it needs, with nothing to spare[ ({scenario})].",
    QLL_PUT(FALLOFF_MET) = "Outlet pressure falls off {value} at peak flow and lowest street pressure; {limit} is allowed[ ({scenario})].",
    QLL_PUT(FALLOFF_TIGHT) = "Outlet pressure falls off {value} at peak flow and lowest street pressure, close to the {limit} allowed[ ({scenario})].",
    QLL_PUT(FALLOFF_ABOVE) = "Outlet pressure falls off {value} at peak flow and lowest street pressure; only {limit} is allowed[ ({scenario})].",
    QLL_PUT(FALLOFF_STREET) =
        "Outlet pressure falls off {value} at peak flow and lowest street pressure; {limit} is allowed[ ({scenario})]. The street gives no more; no "
        "valve can fix that.",
    QLL_PUT(STATIC_MET) = "{lowest}: {value} at no flow and highest street pressure; {limit} is allowed.",
    QLL_PUT(STATIC_NEAR) = "{lowest}: {value} at no flow and highest street pressure, just under the {limit} allowed.",
    QLL_PUT(STATIC_ABOVE) = "{lowest}: {value} at no flow and highest street pressure; only {limit} is allowed.",
    QLL_PUT(RATIO_PREFERRED) = "{subject} cuts pressure {value} to 1 at the highest street pressure; up to {limit} to 1 is normally quiet.",
    QLL_PUT(RATIO_HIGH) = "{subject} cuts pressure {value} to 1 at the highest street pressure; up to {limit} to 1 is better, toward 3 to 1 noise gets likely.",
    QLL_PUT(RATIO_ABOVE_MAX) = "{subject} cuts pressure {value} to 1 at the highest street pressure; over {limit} to 1, split the drop between more stages.",
    QLL_PUT(VELOCITY_IN_BAND) = "{subject}: water in pipe of its size[ averages {value}, inside the velocity band, and] runs at {peak} at the design peak.",
    QLL_PUT(VELOCITY_SLOW) =
        "{subject}: water in pipe of its size[ averages {value}, slower than the velocity band, which starts at {limit}, and] runs at {peak} at the design peak. "
        "Slow water does no harm by itself; see low flow.",
    QLL_PUT(VELOCITY_QUICK) =
        "{subject}: water in pipe of its size[ averages {value}, faster than the velocity band, which ends at {limit}, and] runs at {peak} at the design peak. Not "
        "fast enough for long enough to wear it.",
    QLL_PUT(VELOCITY_FAST) =
        "{subject} runs fast for long: water in pipe of its size[ averages {value} and] runs at {peak} at the design peak; from {limit} up it wears the seat.",
    QLL_PUT(VELOCITY_ABOVE_MAX) = "{subject} is too small: {peak} in pipe of its size at the design peak, {limit} is the limit[; {size} would do].",
    QLL_PUT(VELOCITY_PIPE) =
        "The [{pipe} ]pipe[ on the way to {way}] is small for the design peak[ ({scenario})]: {value} in it, {limit} is the limit for the pipe.",
    QLL_PUT(CAPACITY_IN_HAND) = "{subject}: {value%} open at the design peak, capacity to spare.",
    QLL_PUT(CAPACITY_NEAR_FULL) = "{subject} is nearly wide open at the design peak: {value%}.",
    QLL_PUT(CAPACITY_FULL_TRAVEL) = "{subject} is wide open at the design peak and lowest street pressure, and no longer regulates.",
    QLL_PUT(CAPACITY_CANNOT_PASS) = "{subject} cannot pass the design peak at the lowest street pressure.",
    QLL_PUT(LOW_FLOW_NEVER) = "{subject} holds every flow here steady, as far as its least stable flow is known. Estimate.",
    QLL_PUT(LOW_FLOW_STABLE) =
        "{subject} is below the flow it can hold steady for {value%} of running time, with {peak%} of the water: too seldom to draw complaints.",
    QLL_PUT(LOW_FLOW_WEAK) =
        "{subject} is below the flow it can hold steady for {value%} of running time, with {peak%} of the water: too weak to draw complaints.",
    QLL_PUT(LOW_FLOW_UNSURE) = "{subject} may chatter: as assumed it holds every flow here steady, but its least stable flow is known only roughly. Estimate.",
    QLL_PUT(LOW_FLOW_SOME) =
        "{subject} may chatter: it is below the flow it can hold steady for {value%} of running time, with {peak%} of the water. Estimate.",
    QLL_PUT(LOW_FLOW_MUCH) =
        "{subject} is likely to chatter: it is below the flow it can hold steady for {value%} of running time, with {peak%} of the water. Estimate.",
    QLL_PUT(CAVITATION_QUIET) =
        "{subject} reaches {value} of the cavitation onset at worst[: {at_flow} from {at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute "
        "pressures].",
    QLL_PUT(CAVITATION_SLIGHT) =
        "{subject} cavitates for {past%} of running time, too little to matter, weighed by strength and time: {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].",
    QLL_PUT(CAVITATION_NEAR) =
        "{subject} may cavitate: {value} of the onset at worst[, {at_flow} from {at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute "
        "pressures], and the onset is not known more closely.",
    QLL_PUT(CAVITATION_HEARD) =
        "{subject} cavitates loud enough to hear for {peak%} of running time: {value} times the onset at worst[, {at_flow} from {at_inlet}, xF {xf}, "
        "onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    QLL_PUT(CAVITATION_OFTEN) =
        "{subject} cavitates loud enough to hear, and for long: {peak%} of running time, {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    QLL_PUT(CAVITATION_DAMAGING) =
        "{subject} cavitates hard for {peak%} of running time, loud, and it eats the seat: {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    QLL_PUT(NOISE_QUIET) =
        "{subject} makes {value} at {near} at its loudest[, at {at_flow} from {at_inlet}][; {peak} at typical flow]. People hear it from {limit} up. Estimate.",
    QLL_PUT(NOISE_SELDOM) =
        "{subject} is louder than {limit}, where people begin to hear it, for {past%} of running time: weighed by loudness and time, too little to draw complaints. "
        "{value} at {near} at its loudest[, at {at_flow} from {at_inlet}][; {peak} at typical flow]. Estimate; cavitation is judged separately.",
    QLL_PUT(NOISE_HEARD) =
        "{subject} may be heard: {value} at {near} at its loudest[, at {at_flow} from {at_inlet}][; {peak} at typical flow]. People hear it from {limit} up. Estimate.",
    QLL_PUT(NOISE_LOUD) =
        "{subject} is likely to be heard, and for long: {value} at {near} at its loudest[, at {at_flow} from {at_inlet}][; {peak} at typical flow]. People hear "
        "it from {limit} up. Estimate.",
    QLL_PUT(NOISE_NO_PIPE) = "Noise not checked: the wall of the station's pipe is not known.",
    QLL_PUT(NOISE_PLASTIC) = "Noise not checked: the station's pipe is plastic and the method is for metal.",
    QLL_PUT(NOISE_FLASHING) = "Loud, beyond what the noise method can compute: the water flashes in a valve.",
    QLL_PUT(NOISE_CHOKED) = "Loud, beyond what the noise method can compute: a valve is choked.",
    QLL_PUT(NOISE_XF_HIGH) = "Loud, beyond what the noise method can compute: a valve drops more than 0.8 of the pressure above boiling.",
    QLL_PUT(RATING_WITHIN) = "{subject}: highest inlet pressure {value}; rated {limit}.",
    QLL_PUT(RATING_INLET) = "{subject} may get {value} at its inlet; it is rated {limit}.",
    QLL_PUT(RATING_SET_RANGE) = "{subject} would be set to {value}, outside its range, which ends at {limit}.",
    QLL_PUT(RATING_TEMPERATURE) = "{subject} gets water at {value}; it is rated {limit}.",
    QLL_PUT(EXPANSION_NO_HEATER) = "Expansion of hot water not checked: the survey has no heater downstream of the station.",
    QLL_PUT(EXPANSION_TANK_ENOUGH) = "The {limit} expansion tank is large enough: the heater needs {value}, precharged to {precharge}.",
    QLL_PUT(EXPANSION_TANK_MISSING) =
        "No expansion tank in the survey.[ The heater needs {least}.] Install one of {tank}, precharged to {precharge} with the water side empty.",
    QLL_PUT(EXPANSION_BYPASS) =
        "The valves' built-in bypass lets what the heater expands back to the main; the main is at {value} at most, {limit} is allowed. A check valve "
        "upstream of the station would stop that.",
    QLL_PUT(EXPANSION_TANK_SMALL) = "The {limit} expansion tank, precharged as it is, is too small for the heater; {tank} precharged to {precharge} would do.",
    QLL_PUT(EXPANSION_LITTLE_ROOM) =
        "Only {room} between the outlet at no flow and what is allowed: an expansion tank would have to hold {value}.[ Set the valve {step1} lower "
        "and one of {tank1} will do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the relief valve be the limit, {most}, "
        "one of {tankr} will do as it is set.]",
    QLL_PUT(EXPANSION_NO_ROOM) =
        "The outlet at no flow, {value}, leaves an expansion tank no room below the {limit} allowed.[ Set the valve {step1} lower and one of {tank1} "
        "will do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the relief valve be the limit, {most}, one of {tankr} will "
        "do as it is set.]",
    QLL_PUT(EXPANSION_RELIEF_NEAR) =
        "The heater's relief valve, set to {value}, is close to the pressure at no flow[, {precharge}]: {limit} would be clear of it.",
    QLL_PUT(EXPANSION_RELIEF_LOW) =
        "The heater's relief valve, set to {value}, is too low for the pressure at no flow[, {precharge}]: it needs {limit} or more.",
    QLL_PUT(STRAINER_NOTHING) = "Even half plugged, the strainers take nothing a gauge would show off the outlet at peak flow.",
    QLL_PUT(STRAINER_EASY) = "With strainers half plugged the outlet drops another {value} at peak flow and lowest street pressure[ ({scenario})].",
    QLL_PUT(STRAINER_EATS) =
        "With strainers half plugged the outlet drops another {value} at peak flow and lowest street pressure, and dirt may take only {limit}[, "
        "half of the {spare} to spare][ ({scenario})]: keep them clean, or install larger ones.",
    QLL_PUT(HUNTING_STEADY) = "{subject} does not hunt: a small swing dies away at every flow here. Estimate; not simulated.",
    QLL_PUT(HUNTING_HELD) =
        "{subject} does not hunt: friction in the valve stops a small swing that would otherwise grow[, at {at_flow}]. Estimate; not simulated.",
    QLL_PUT(HUNTING_SWINGS) =
        "{subject} may hunt or chatter once a faucet starts it: nothing damps a swing, some {often} a second[, at {at_flow}]. Estimate; not simulated.",
    QLL_PUT(HUNTING_UNKNOWN) = "Hunting of {subject} not checked: the catalog's data of the valve do not fit together.",
    QLL_PUT(HUNTING_RUN) = "Simulated: {run}",
    QLL_PUT(HUNTING_QUICK) = "With a quick-closing valve: {run}",
    QLL_PUT(HAMMER_NOT_RUN) = "Water hammer not checked: only a simulation shows it.",
    QLL_PUT(HAMMER_NO_PIPES) = "Water hammer not checked: the survey names no outlet with the pipes on its way.",
    QLL_PUT(HAMMER_NO_TREE) = "Water hammer not checked: water cannot be run through the pipes as they are given; quell simulate says why.",
    QLL_PUT(HAMMER_RUN) = "Simulated: {run}",
    QLL_PUT(HAMMER_QUICK) = "With a quick-closing valve: {run}",
};
