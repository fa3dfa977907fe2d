/* One sentence per finding: plainly, then the number, then the reason. The tokens are those of
 * says_verdict.c. */
#include "wording/messages.h"

const char *const qll_findings_en[QLL_FINDING_COUNT] = {
    [QLL_FINDING_DELIVERY_MET] = "{outlet} has {value} in hand at the peak with the supply at its "
                                 "lowest[ ({scenario})].",
    [QLL_FINDING_DELIVERY_TIGHT] = "{outlet} only just gets what it needs at the peak with the "
                                   "supply at its lowest: {value} in hand[ ({scenario})].",
    [QLL_FINDING_DELIVERY_SHORT] = "{outlet} is short of what it needs by {shortage} at the "
                                   "peak with the supply at its lowest[ ({scenario})].",
    [QLL_FINDING_FALLOFF_MET] = "The outlet falls off by {value} at the peak with the supply at "
                                "its lowest; {limit} is permitted[ ({scenario})].",
    [QLL_FINDING_FALLOFF_TIGHT] = "The outlet falls off by {value} at the peak with the supply at "
                                  "its lowest, close to the permitted {limit}[ ({scenario})].",
    [QLL_FINDING_FALLOFF_ABOVE] = "The outlet falls off by {value} at the peak with the supply at "
                                  "its lowest; only {limit} is permitted[ ({scenario})].",
    [QLL_FINDING_STATIC_MET] = "With nothing running and the supply at its highest the outlet "
                               "stands at {value}; {limit} is permitted.",
    [QLL_FINDING_STATIC_NEAR] = "With nothing running and the supply at its highest the outlet "
                                "stands at {value}, close under the permitted {limit}.",
    [QLL_FINDING_STATIC_ABOVE] = "With nothing running and the supply at its highest the outlet "
                                 "stands at {value}, above the permitted {limit}.",
    [QLL_FINDING_RATIO_PREFERRED] = "{subject} takes {value}:1 at worst; up to {limit}:1 is quiet "
                                    "ground.",
    [QLL_FINDING_RATIO_HIGH] = "{subject} takes {value}:1 at worst; up to {limit}:1 is preferred, "
                               "towards 3:1 noise becomes likely.",
    [QLL_FINDING_RATIO_ABOVE_MAX] = "{subject} takes {value}:1 at worst; above {limit}:1 the drop "
                                    "should be shared by more stages.",
    [QLL_FINDING_VELOCITY_IN_BAND] = "{subject} does its work at {value} in its pipe, within the "
                                     "band; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_SLOW] = "{subject} does its work at {value} in its pipe, below the band "
                                  "that begins at {limit}; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_OVERSIZED] = "{subject} is oversized: its pipe reaches only {peak} even "
                                       "at the design peak, the band begins at {limit}[; {size} "
                                       "would not be].",
    [QLL_FINDING_VELOCITY_FAST] = "{subject} does its work at {value} in its pipe, above the band "
                                  "that ends at {limit}; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_PEAK_FAST] = "{subject} does its work at {value} in its pipe, but "
                                       "reaches {peak} at the design peak; the band ends at "
                                       "{limit}.",
    [QLL_FINDING_VELOCITY_ABOVE_MAX] = "{subject} is too small: {peak} in its pipe at the design "
                                       "peak, {limit} is the most[; {size} would do].",
    [QLL_FINDING_CAPACITY_IN_HAND] = "{subject} has travel in hand at the design peak: {value%} "
                                     "open.",
    [QLL_FINDING_CAPACITY_NEAR_FULL] = "{subject} is nearly wide open at the design peak: "
                                       "{value%}.",
    [QLL_FINDING_CAPACITY_FULL_TRAVEL] = "{subject} is wide open at the design peak with the "
                                         "supply at its lowest and no longer regulates.",
    [QLL_FINDING_CAPACITY_CANNOT_PASS] = "{subject} cannot pass the design peak with the supply at "
                                         "its lowest.",
    [QLL_FINDING_LOW_FLOW_STABLE] = "{subject} spends {value%} of the flowing time below its least "
                                    "stable flow, with {peak%} of the water.",
    [QLL_FINDING_LOW_FLOW_SOME] = "{subject} spends {value%} of the flowing time below its least "
                                  "stable flow, with {peak%} of the water: it may chatter then; an "
                                  "estimate.",
    [QLL_FINDING_LOW_FLOW_MUCH] = "{subject} spends {value%} of the flowing time below its least "
                                  "stable flow, with {peak%} of the water: it will chatter; an "
                                  "estimate.",
    [QLL_FINDING_CAVITATION_QUIET] =
        "{subject} reaches {value} of the cavitation onset at worst[: {at_flow} from {at_inlet}, "
        "{absolute}:1 in absolute pressures, xF {xf} with the onset at {onset}].",
    [QLL_FINDING_CAVITATION_SOMETIMES] =
        "{subject} reaches {value} times the cavitation onset at worst[: {at_flow} from "
        "{at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset at {onset}]; it "
        "cavitates audibly for {peak%} of the flowing time[; two stages with about {split} "
        "between them would share it].",
    [QLL_FINDING_CAVITATION_OFTEN] =
        "{subject} reaches {value} times the cavitation onset at worst[: {at_flow} from "
        "{at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset at {onset}]; it "
        "cavitates audibly for {peak%} of the flowing time[; two stages with about {split} "
        "between them would share it].",
    [QLL_FINDING_CAVITATION_DAMAGING] =
        "{subject} reaches {value} times the cavitation onset at worst[: {at_flow} from "
        "{at_inlet}, {absolute}:1 in absolute pressures, xF {xf} with the onset at {onset}]: "
        "loud, and it eats the seat; it cavitates for {peak%} of the flowing time[; two stages "
        "with about {split} between them would share it].",
    [QLL_FINDING_NOISE_QUIET] =
        "{subject} comes to {value} at 1 m at its loudest, moments not counted[, {peak} at its "
        "typical flow]; up to {limit} a light wall keeps it from a bedroom. Indicative.",
    [QLL_FINDING_NOISE_HEARD] =
        "{subject} comes to {value} at 1 m at its loudest, moments not counted[, {peak} at its "
        "typical flow]; above {limit} it is heard through a light wall. Indicative.",
    [QLL_FINDING_NOISE_LOUD] =
        "{subject} comes to {value} at 1 m at its loudest, moments not counted[, {peak} at its "
        "typical flow]; above {limit} no wall keeps it from a bedroom. Indicative.",
    [QLL_FINDING_NOISE_PLASTIC] =
        "No sound level: the method is for metal pipe, and the station's is plastic.",
    [QLL_FINDING_NOISE_FLASHING] =
        "No sound level, it is beyond the method: the water flashes in a valve, and that is loud.",
    [QLL_FINDING_NOISE_CHOKED] =
        "No sound level, it is beyond the method: a valve is choked, and that is loud.",
    [QLL_FINDING_NOISE_XF_HIGH] =
        "No sound level, it is beyond the method: a valve drops more than 0.8 of the pressure "
        "above boiling, and that is loud.",
    [QLL_FINDING_RATING_WITHIN] = "{subject} sees {value} at its inlet at most and is rated for "
                                  "{limit}.",
    [QLL_FINDING_RATING_INLET] = "{subject} may see {value} at its inlet and is rated for {limit}.",
    [QLL_FINDING_RATING_SET_RANGE] = "{subject} would be set to {value}, outside its range that "
                                     "ends at {limit}.",
    [QLL_FINDING_RATING_TEMPERATURE] = "{subject} sees water of {value} and is rated for {limit}.",
    [QLL_FINDING_EXPANSION_NO_HEATER] =
        "No heater is named behind the station, so no growth of hot "
        "water was looked at.",
    [QLL_FINDING_EXPANSION_TANK_ENOUGH] = "The expansion tank of {limit} takes what the heater "
                                          "pushes out; {value} charged to {precharge} would do.",
    [QLL_FINDING_EXPANSION_TANK_MISSING] = "Nothing behind the station takes what the heater "
                                           "pushes out, no expansion tank is named: it needs one "
                                           "of {value}, charged to {precharge} before it is "
                                           "filled.",
    [QLL_FINDING_EXPANSION_BYPASS] = "The valves' by-pass lets back to the main what the heater "
                                     "pushes out; the main stands at {value} at most, {limit} is "
                                     "permitted. A check valve before the station would undo that.",
    [QLL_FINDING_EXPANSION_TANK_SMALL] = "The expansion tank of {limit}, charged as it is, takes "
                                         "too little of what the heater pushes out; {value} "
                                         "charged to {precharge} would do.",
    [QLL_FINDING_EXPANSION_NO_ROOM] = "The outlet at no flow, {value}, leaves an expansion tank no "
                                      "room below the permitted {limit}.",
    [QLL_FINDING_EXPANSION_RELIEF_NEAR] = "The heater's relief valve, set to {value}, is close "
                                          "above the pressure at no flow[, {precharge}]: {limit} "
                                          "would be clear of it.",
    [QLL_FINDING_EXPANSION_RELIEF_LOW] =
        "The heater's relief valve, set to {value}, is too low for "
        "the pressure at no flow[, {precharge}]: it needs {limit} "
        "or more.",
    [QLL_FINDING_STRAINER_EASY] =
        "Half-blocked strainers take {value} off the outlet at the peak with the supply at its "
        "lowest[ ({scenario})].",
    [QLL_FINDING_STRAINER_EATS] =
        "Half-blocked strainers take {value} off the outlet at the peak with the supply at its "
        "lowest, and only {limit} can be spared[ ({scenario})]: keep them clean, or fit larger "
        "ones.",
};
