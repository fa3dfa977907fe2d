/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/language.h"

#define SAYS(name) [QLL_FINDING_##name]

const char *const qll_findings_en[QLL_FINDING_COUNT] = {
    SAYS(DELIVERY_MET) = "{outlet}: {value} more than it needs, at peak flow and lowest street pressure[ ({scenario})].",
    SAYS(DELIVERY_TIGHT) = "{outlet} gets what it needs at peak flow and lowest street pressure, with only {value} to spare[ ({scenario})].",
    SAYS(DELIVERY_SHORT) = "{outlet}: {shortage} short at peak flow and lowest street pressure[ ({scenario})].",
    SAYS(DELIVERY_STREET) =
        "{outlet}: {shortage} short at peak flow and lowest street pressure[ ({scenario})]. The street gives no more; no valve can fix that.",
    SAYS(DELIVERY_UNKNOWN) = "{outlet}: not checked; the pressure loss on the way there cannot be computed.",
    SAYS(FALLOFF_MET) = "Outlet pressure falls off {value} at peak flow and lowest street pressure; {limit} is allowed[ ({scenario})].",
    SAYS(FALLOFF_TIGHT) = "Outlet pressure falls off {value} at peak flow and lowest street pressure, close to the {limit} allowed[ ({scenario})].",
    SAYS(FALLOFF_ABOVE) = "Outlet pressure falls off {value} at peak flow and lowest street pressure; only {limit} is allowed[ ({scenario})].",
    SAYS(FALLOFF_STREET) =
        "Outlet pressure falls off {value} at peak flow and lowest street pressure; {limit} is allowed[ ({scenario})]. The street gives no more; no "
        "valve can fix that.",
    SAYS(STATIC_MET) = "{lowest}: {value} at no flow and highest street pressure; {limit} is allowed.",
    SAYS(STATIC_NEAR) = "{lowest}: {value} at no flow and highest street pressure, just under the {limit} allowed.",
    SAYS(STATIC_ABOVE) = "{lowest}: {value} at no flow and highest street pressure; only {limit} is allowed.",
    SAYS(RATIO_PREFERRED) = "{subject} cuts pressure {value} to 1 at the highest street pressure; up to {limit} to 1 is normally quiet.",
    SAYS(RATIO_HIGH) = "{subject} cuts pressure {value} to 1 at the highest street pressure; up to {limit} to 1 is better, toward 3 to 1 noise gets likely.",
    SAYS(RATIO_ABOVE_MAX) = "{subject} cuts pressure {value} to 1 at the highest street pressure; over {limit} to 1, split the drop between more stages.",
    SAYS(VELOCITY_IN_BAND) = "{subject}: water in pipe of its size averages {value}, inside the velocity band; {peak} at the design peak.",
    SAYS(VELOCITY_SLOW) =
        "{subject}: water in pipe of its size averages {value}, slower than the velocity band, which starts at {limit}; {peak} at the design peak. "
        "Slow water does no harm by itself; see low flow.",
    SAYS(VELOCITY_QUICK) =
        "{subject}: water in pipe of its size averages {value}, faster than the velocity band, which ends at {limit}; {peak} at the design peak. Not "
        "fast enough for long enough to wear it.",
    SAYS(VELOCITY_FAST) =
        "{subject} runs fast for long: water in pipe of its size averages {value}, {peak} at the design peak; from {limit} up it wears the seat.",
    SAYS(VELOCITY_ABOVE_MAX) = "{subject} is too small: {peak} in pipe of its size at the design peak, {limit} is the limit[; {size} would do].",
    SAYS(VELOCITY_PIPE) = "The [{pipe} ]pipe is small for the design peak[ ({scenario})]: {value} in it, {limit} is the limit for the pipe.",
    SAYS(CAPACITY_IN_HAND) = "{subject}: {value%} open at the design peak, capacity to spare.",
    SAYS(CAPACITY_NEAR_FULL) = "{subject} is nearly wide open at the design peak: {value%}.",
    SAYS(CAPACITY_FULL_TRAVEL) = "{subject} is wide open at the design peak and lowest street pressure, and no longer regulates.",
    SAYS(CAPACITY_CANNOT_PASS) = "{subject} cannot pass the design peak at the lowest street pressure.",
    SAYS(LOW_FLOW_STABLE) = "{subject} is below the flow it can hold steady for {value%} of running time, with {peak%} of the water: too seldom to be heard.",
    SAYS(LOW_FLOW_WEAK) = "{subject} is below the flow it can hold steady for {value%} of running time, with {peak%} of the water: too weak to be heard.",
    SAYS(LOW_FLOW_SOME) = "{subject} may chatter: it is below the flow it can hold steady for {value%} of running time, with {peak%} of the water. Estimate.",
    SAYS(LOW_FLOW_MUCH) =
        "{subject} is likely to chatter: it is below the flow it can hold steady for {value%} of running time, with {peak%} of the water. Estimate.",
    SAYS(CAVITATION_QUIET) =
        "{subject} reaches {value} of the cavitation onset at worst[: {at_flow} from {at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute "
        "pressures].",
    SAYS(CAVITATION_SLIGHT) =
        "{subject} cavitates for {peak%} of running time, too short or too weak to matter: {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].",
    SAYS(CAVITATION_NEAR) =
        "{subject} may cavitate: {value} of the onset at worst[, {at_flow} from {at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute "
        "pressures], and the onset is not known more closely.",
    SAYS(CAVITATION_HEARD) =
        "{subject} cavitates loud enough to hear for {peak%} of running time: {value} times the onset at worst[, {at_flow} from {at_inlet}, xF {xf}, "
        "onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    SAYS(CAVITATION_OFTEN) =
        "{subject} cavitates loud enough to hear, and for long: {peak%} of running time, {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    SAYS(CAVITATION_DAMAGING) =
        "{subject} cavitates hard for {peak%} of running time, loud, and it eats the seat: {value} times the onset at worst[, {at_flow} from "
        "{at_inlet}, xF {xf}, onset {onset}; {absolute} to 1 in absolute pressures].[ Two stages with about {split} between them would cure it.]",
    SAYS(NOISE_QUIET) =
        "{subject} makes {value} at 3 ft (1 m) at its loudest[, at {at_flow}][; {peak} at typical flow]. People hear it from {limit} up. Estimate.",
    SAYS(NOISE_SELDOM) =
        "{subject} makes {value} at 3 ft (1 m) at its loudest[, at {at_flow}][; {peak} at typical flow]. People hear it from {limit} up, here too "
        "seldom to complain. Estimate; cavitation is judged separately.",
    SAYS(NOISE_HEARD) =
        "{subject} may be heard: {value} at 3 ft (1 m) at its loudest[, at {at_flow}][; {peak} at typical flow]. People hear it from {limit} up. Estimate.",
    SAYS(NOISE_LOUD) =
        "{subject} is likely to be heard, and for long: {value} at 3 ft (1 m) at its loudest[, at {at_flow}][; {peak} at typical flow]. People hear "
        "it from {limit} up. Estimate.",
    SAYS(NOISE_NO_PIPE) = "Noise not checked: the wall of the station's pipe is not known.",
    SAYS(NOISE_PLASTIC) = "Noise not checked: the station's pipe is plastic and the method is for metal.",
    SAYS(NOISE_FLASHING) = "Loud, beyond what the noise method can compute: the water flashes in a valve.",
    SAYS(NOISE_CHOKED) = "Loud, beyond what the noise method can compute: a valve is choked.",
    SAYS(NOISE_XF_HIGH) = "Loud, beyond what the noise method can compute: a valve drops more than 0.8 of the pressure above boiling.",
    SAYS(RATING_WITHIN) = "{subject}: highest inlet pressure {value}; rated {limit}.",
    SAYS(RATING_INLET) = "{subject} may get {value} at its inlet; it is rated {limit}.",
    SAYS(RATING_SET_RANGE) = "{subject} would be set to {value}, outside its range, which ends at {limit}.",
    SAYS(RATING_TEMPERATURE) = "{subject} gets water at {value}; it is rated {limit}.",
    SAYS(EXPANSION_NO_HEATER) = "Expansion of hot water not checked: the survey has no heater downstream of the station.",
    SAYS(EXPANSION_TANK_ENOUGH) = "The {limit} expansion tank is large enough: the heater needs {value}, precharged to {precharge}.",
    SAYS(EXPANSION_TANK_MISSING) =
        "No expansion tank in the survey. The heater needs one of {tank}, the size sold for {value}, precharged to {precharge} with the water side empty.",
    SAYS(EXPANSION_BYPASS) =
        "The valves' built-in bypass lets what the heater expands back to the main; the main is at {value} at most, {limit} is allowed. A check valve "
        "upstream of the station would stop that.",
    SAYS(EXPANSION_TANK_SMALL) = "The {limit} expansion tank, precharged as it is, is too small for the heater; {tank} precharged to {precharge} would do.",
    SAYS(EXPANSION_LITTLE_ROOM) =
        "Only {room} between the outlet at no flow and what is allowed: an expansion tank would have to hold {value}.[ Set the valve {step1} lower "
        "and one of {tank1} will do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the relief valve be the limit, {most}, "
        "one of {tankr} will do as it is set.]",
    SAYS(EXPANSION_NO_ROOM) =
        "The outlet at no flow, {value}, leaves an expansion tank no room below the {limit} allowed.[ Set the valve {step1} lower and one of {tank1} "
        "will do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the relief valve be the limit, {most}, one of {tankr} will "
        "do as it is set.]",
    SAYS(EXPANSION_RELIEF_NEAR) =
        "The heater's relief valve, set to {value}, is close to the pressure at no flow[, {precharge}]: {limit} would be clear of it.",
    SAYS(EXPANSION_RELIEF_LOW) = "The heater's relief valve, set to {value}, is too low for the pressure at no flow[, {precharge}]: it needs {limit} or more.",
    SAYS(STRAINER_EASY) = "With strainers half plugged the outlet drops another {value} at peak flow and lowest street pressure[ ({scenario})].",
    SAYS(STRAINER_EATS) =
        "With strainers half plugged the outlet drops another {value} at peak flow and lowest street pressure, and only {limit} can be spared[ "
        "({scenario})]: keep them clean, or install larger ones.",
};
