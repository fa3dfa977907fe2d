/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/language.h"

#define SAYS(name) [QLL_FINDING_##name]

const char *const qll_findings_en[QLL_FINDING_COUNT] = {
    SAYS(DELIVERY_MET) = "{outlet} has {value} in hand at the peak with the supply at its lowest[ ({scenario})].",
    SAYS(DELIVERY_TIGHT) = "{outlet} gets what it needs at the peak with the supply at its lowest, with little to spare: {value} in hand[ ({scenario})].",
    SAYS(DELIVERY_SHORT) = "{outlet} is short of what it needs by {shortage} at the peak with the supply at its lowest[ ({scenario})].",
    SAYS(DELIVERY_STREET) = "{outlet} is short of what it needs by {shortage} at the peak with the supply at its lowest[ "
                            "({scenario})]: the street gives no more, and no valve can mend that.",
    SAYS(DELIVERY_UNKNOWN) = "The loss on the way to {outlet} cannot be figured, so what reaches it was not looked at.",
    SAYS(FALLOFF_MET) = "The outlet falls off by {value} at the peak with the supply at its lowest; {limit} is permitted[ ({scenario})].",
    SAYS(FALLOFF_TIGHT) = "The outlet falls off by {value} at the peak with the supply at its lowest, close to the permitted {limit}[ ({scenario})].",
    SAYS(FALLOFF_ABOVE) = "The outlet falls off by {value} at the peak with the supply at its lowest; only {limit} is permitted[ ({scenario})].",
    SAYS(FALLOFF_STREET) = "The outlet falls off by {value} at the peak with the supply at its lowest, {limit} is permitted[ "
                           "({scenario})]: the street gives no more, and no valve can mend that.",
    SAYS(STATIC_MET) = "With nothing running and the supply at its highest {lowest} stands at {value}; {limit} is permitted.",
    SAYS(STATIC_NEAR) = "With nothing running and the supply at its highest {lowest} stands at {value}, close under the permitted {limit}.",
    SAYS(STATIC_ABOVE) = "With nothing running and the supply at its highest {lowest} stands at {value}, above the permitted {limit}.",
    SAYS(RATIO_PREFERRED) = "{subject} takes {value}:1 with the supply at its highest; up to {limit}:1 is quiet ground.",
    SAYS(RATIO_HIGH) = "{subject} takes {value}:1 with the supply at its highest; up to {limit}:1 is preferred, towards 3:1 noise becomes likely.",
    SAYS(RATIO_ABOVE_MAX) = "{subject} takes {value}:1 with the supply at its highest; above {limit}:1 the drop should be shared by more stages.",
    SAYS(VELOCITY_IN_BAND) = "{subject} does its work at {value} in its own size, within the trade's band; {peak} at the design peak.",
    SAYS(VELOCITY_SLOW) = "{subject} does its work at {value} in its own size, below the trade's band that begins at {limit}, {peak} "
                          "at the design peak. Slow water harms nothing by itself; see low flow.",
    SAYS(VELOCITY_QUICK) = "{subject} does its work at {value} in its own size, above the trade's band that ends at {limit}, {peak} "
                           "at the design peak; not fast enough for long enough to wear it.",
    SAYS(VELOCITY_FAST) =
        "{subject} runs fast for long: {value} in its own size by the water, {peak} at the design peak; from {limit} on water wears the seat.",
    SAYS(VELOCITY_ABOVE_MAX) = "{subject} is too small: {peak} in its own size at the design peak, {limit} is the most[; {size} would do].",
    SAYS(VELOCITY_PIPE) = "The [{pipe} ]pipe is small for the design peak[ ({scenario})]: {value} in it, {limit} is the rule for the pipe.",
    SAYS(CAPACITY_IN_HAND) = "{subject} has travel in hand at the design peak: {value%} open.",
    SAYS(CAPACITY_NEAR_FULL) = "{subject} is nearly wide open at the design peak: {value%}.",
    SAYS(CAPACITY_FULL_TRAVEL) = "{subject} is wide open at the design peak with the supply at its lowest and no longer regulates.",
    SAYS(CAPACITY_CANNOT_PASS) = "{subject} cannot pass the design peak with the supply at its lowest.",
    SAYS(LOW_FLOW_STABLE) = "{subject} spends {value%} of the flowing time below its least stable flow, with {peak%} of the water: too seldom to be heard.",
    SAYS(LOW_FLOW_WEAK) =
        "{subject} spends {value%} of the flowing time below its least stable flow, with {peak%} of the water: with too little power to be heard.",
    SAYS(LOW_FLOW_SOME) = "{subject} may chatter: it spends {value%} of the flowing time below its least stable flow, with {peak%} of the water. An estimate.",
    SAYS(LOW_FLOW_MUCH) = "{subject} will chatter: it spends {value%} of the flowing time below its least stable flow, with {peak%} of the water.",
    SAYS(CAVITATION_QUIET) = "{subject} reaches {value} of the cavitation onset at worst[: {at_flow} from {at_inlet}, "
                             "{absolute}:1 in absolute pressures, xF {xf} with the onset at {onset}].",
    SAYS(CAVITATION_SLIGHT) =
        "{subject} reaches {value} times the cavitation onset at worst[: {at_flow} from {at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset "
        "at {onset}]; it cavitates for {peak%} of the flowing time, too short or with too little power to matter.",
    SAYS(CAVITATION_NEAR) =
        "{subject} may cavitate: it reaches {value} of the onset at worst[: {at_flow} from {at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the "
        "onset at {onset}], and the onset is not known better than that.",
    SAYS(CAVITATION_HEARD) =
        "{subject} cavitates audibly: {value} times the onset at worst[, {at_flow} from {at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset "
        "at {onset}], and above it for {peak%} of the flowing time[; two stages with about {split} between them would share it].",
    SAYS(CAVITATION_OFTEN) =
        "{subject} cavitates audibly and for long: {value} times the onset at worst[, {at_flow} from {at_inlet}, {absolute}:1 in absolute pressures, xF {xf} "
        "with the onset at {onset}], and above it for {peak%} of the flowing time[; two stages with about {split} between them would share it].",
    SAYS(CAVITATION_DAMAGING) =
        "{subject} cavitates hard: {value} times the onset at worst[, {at_flow} from {at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset at "
        "{onset}], and above it for {peak%} of the flowing time; loud, and it eats the seat[; two stages with about {split} between them would share it].",
    SAYS(NOISE_QUIET) = "{subject} comes to {value} at 1 m at its loudest[, at {at_flow}][, {peak} at its typical flow]; "
                        "where people are they hear it from {limit} on. Indicative.",
    SAYS(NOISE_SELDOM) =
        "{subject} comes to {value} at 1 m at its loudest[, at {at_flow}][, {peak} at its typical flow]; where people are they hear it from {limit} on, but "
        "the flow's own noise too seldom to complain. Indicative; cavitation is judged by itself.",
    SAYS(NOISE_HEARD) =
        "{subject} may be heard: {value} at 1 m at its loudest[, at {at_flow}][, {peak} at its typical flow]; people hear it from {limit} on. Indicative.",
    SAYS(NOISE_LOUD) = "{subject} is heard where people are: {value} at 1 m at its loudest[, at {at_flow}][, {peak} at its typical "
                       "flow]; they hear it from {limit} on, and here for long. Indicative.",
    SAYS(NOISE_NO_PIPE) = "The wall of the station's pipe is not known, so the sound level was not looked at.",
    SAYS(NOISE_PLASTIC) = "The station's pipe is plastic and the method is for metal, so the sound level was not looked at.",
    SAYS(NOISE_FLASHING) = "No sound level, it is beyond the method: the water flashes in a valve, and that is loud.",
    SAYS(NOISE_CHOKED) = "No sound level, it is beyond the method: a valve is choked, and that is loud.",
    SAYS(NOISE_XF_HIGH) = "No sound level, it is beyond the method: a valve drops more than 0.8 of the pressure above boiling, and that is loud.",
    SAYS(RATING_WITHIN) = "{subject} sees {value} at its inlet at most and is rated for {limit}.",
    SAYS(RATING_INLET) = "{subject} may see {value} at its inlet and is rated for {limit}.",
    SAYS(RATING_SET_RANGE) = "{subject} would be set to {value}, outside its range that ends at {limit}.",
    SAYS(RATING_TEMPERATURE) = "{subject} sees water of {value} and is rated for {limit}.",
    SAYS(EXPANSION_NO_HEATER) = "No heater is named behind the station, so the growth of hot water in the closed pipes was not looked at.",
    SAYS(EXPANSION_TANK_ENOUGH) = "The expansion tank of {limit} is enough for what the heater pushes out: {value} by the figures, charged to {precharge}.",
    SAYS(EXPANSION_TANK_MISSING) = "Nothing behind the station takes what the heater pushes out, no expansion tank is named: it needs one of "
                                   "{tank}, the size sold for {value}, charged to {precharge} before it is filled.",
    SAYS(EXPANSION_BYPASS) = "The valves' by-pass lets back to the main what the heater pushes out; the main stands at {value} at most, "
                             "{limit} is permitted. A check valve before the station would undo that.",
    SAYS(EXPANSION_TANK_SMALL) =
        "The expansion tank of {limit}, charged as it is, takes too little of what the heater pushes out; {tank} charged to {precharge} would do.",
    SAYS(EXPANSION_LITTLE_ROOM) =
        "Only {room} are left between the outlet at no flow and what is permitted: an expansion tank would have to hold {value}.[ Set the valve {step1} lower "
        "and one of {tank1} will do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the "
        "relief valve be the limit, {most}, one of {tankr} will do as it is set.]",
    SAYS(EXPANSION_NO_ROOM) =
        "The outlet at no flow, {value}, leaves an expansion tank no room below the permitted {limit}.[ Set the valve {step1} lower and one of {tank1} will "
        "do.][ Set it {step2} lower and one of {tank2} will do.][ Where the code lets the relief valve be "
        "the limit, {most}, one of {tankr} will do as it is set.]",
    SAYS(EXPANSION_RELIEF_NEAR) =
        "The heater's relief valve, set to {value}, is close above the pressure at no flow[, {precharge}]: {limit} would be clear of it.",
    SAYS(EXPANSION_RELIEF_LOW) = "The heater's relief valve, set to {value}, is too low for the pressure at no flow[, {precharge}]: it needs {limit} or more.",
    SAYS(STRAINER_EASY) = "Half-blocked strainers take {value} off the outlet at the peak with the supply at its lowest[ ({scenario})].",
    SAYS(STRAINER_EATS) = "Half-blocked strainers take {value} off the outlet at the peak with the supply at its lowest, and only "
                          "{limit} can be spared[ ({scenario})]: keep them clean, or fit larger ones.",
};
