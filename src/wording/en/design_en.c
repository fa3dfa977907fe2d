/* What is said of the station that a design came to, in English. */
#include "wording/language.h"

#define QLL_AT(name) [QLL_SAYS_##name - QLL_DESIGN_FIRST]

const char *const qll_design_en[QLL_CALC_FIRST - QLL_DESIGN_FIRST] = {
    QLL_AT(CHANCE_ONE_IN) = "1 in {count}",
    QLL_AT(CHANCE_TWO_THIRDS) = "2 in 3",
    QLL_AT(CHANCE_THREE_QUARTERS) = "3 in 4",
    QLL_AT(CHANCE_HARDLY) = "hardly ever",
    QLL_AT(CHANCE_NEARLY) = "nearly always",
    QLL_AT(CHANCE_ABOUT) = "about {value}",
    QLL_AT(CHANCE_TIMES) = "about {value} times",
    QLL_AT(MONEY_IN) = "{unit} {value}",
    QLL_AT(INSTALL) = "Install {station}.",
    QLL_AT(PURCHASE_ONE) = "one {size} valve, {valve}",
    QLL_AT(CALLBACK) = "Called back: {chance}[, most likely because it {why}].",
    QLL_AT(COST_IN) = "Cost: about {value} installed, {total} with callbacks.",
    QLL_AT(COST_OWN) =
        "Cost: about {value} installed, {total} with callbacks (in the catalogue's money).",
    QLL_AT(STOPPED) = "The search was stopped before its end: this is the best of what had been "
                      "tried until then[; nothing comes below {value} with callbacks].",
    QLL_AT(SIMPLER_CHEAPER) =
        "{station} would cost {value} less to install and bring you back {chance}[: "
        "it {why}].",
    QLL_AT(SIMPLER_DEARER) =
        "{station} would cost {value} more to install and bring you back {chance}[: "
        "it {why}].",
    QLL_AT(ONE_VALVE_DOES) =
        "One valve does it: {station} would cost {value} more to install and bring you back "
        "{chance}.",
    QLL_AT(ALONE) = "One {size} valve alone",
    QLL_AT(NOT_FIT) = "NOT FIT TO INSTALL: nothing in the catalogue keeps every rule here.",
    QLL_AT(NOTHING_FITS) =
        "NOT FIT TO INSTALL: none of the catalogue's {count} valves can be put in "
        "here.",
    QLL_AT(IN_THE_WAY) = "What stands in the way of the nearest one",
    QLL_AT(WOULD_MEND) = "What would mend it",
    QLL_AT(NEAREST) = "The nearest: {station}. Not fit to install as it is.",
    QLL_AT(MENDS_CATALOGUE) = "Another catalogue: valves of other sizes, kinds or set ranges.",
    QLL_AT(BREAKS_SET_RANGE) =
        "A valve would have to be set to {value}; its range ends at {limit}.",
    QLL_AT(BREAKS_TEMPERATURE) = "The water is at {value}; a valve is rated for {limit}.",
    QLL_AT(NO_VALVE) = "No valve is needed: with nothing running and the supply at its highest, "
                       "{outlet} stands at {value}; {limit} is permitted.",
    QLL_AT(NO_VALVE_PLACE) = "the station's place",
    QLL_AT(NO_VALVE_SHORT) =
        "What is short there no reducing valve can give: a larger service or meter, "
        "or a booster.",
    QLL_AT(NO_VALVE_ALWAYS) =
        "Write \"station\": \"always\" under \"downstream\" to have a station designed all "
        "the same.",
    QLL_AT(WITHOUT_VALVE) = "What the outlets get without one",
    QLL_AT(HEAD_STILL) = "nothing running, highest supply",
    QLL_AT(HEAD_AT_PEAK) = "design peak, lowest supply",
    QLL_AT(HEAD_IN_HAND) = "in hand there",
    QLL_AT(SHORT_BY) = "{value} short",
    QLL_AT(SET) = "Set to (gauge pressures)",
    QLL_AT(ALSO) = "Each with what it costs installed, how often it calls you back, and why it "
                   "is not the one",
    QLL_AT(HEAD_INSTALLED) = "installed",
    QLL_AT(HEAD_INSTALLED_IN) = "installed, {unit}",
    QLL_AT(HEAD_CALLBACK) = "called back",
    QLL_AT(HEAD_WHY_NOT) = "why not",
    QLL_AT(SIMPLER_ONE) = "simpler",
    QLL_AT(AS_GOOD_ONE) = "nearly as good",
    QLL_AT(NEAREST_ONE) = "nearest, not fit",
    QLL_AT(WHY_NOT_FIT) = "not fit. {what}",
    QLL_AT(WHY_NOT_CALLBACK) = "it {why}",
    QLL_AT(WHY_NOT_DEARER) = "{value} dearer to install",
    QLL_AT(WHY_NOT_ALIKE) = "comes to nearly the same",
    QLL_AT(HANGS_ON) = "What the choice hangs on",
    QLL_AT(HANGS_ON_NOTHING) = "Nothing within the usual ranges changes the kind of station.",
    QLL_AT(HANG) = "{what} {then}.",
    QLL_AT(HANG_INSTEAD) = "it would be {station}",
    QLL_AT(HANG_NO_NEED) = "no valve would be needed",
    QLL_AT(HANG_NOT_FIT) = "nothing in the catalogue would be fit to install",
    QLL_AT(HEARD_SAME_ROOM) = "in the same room",
    QLL_AT(HEARD_NEXT_ROOM) = "in the next room",
    QLL_AT(HEARD_PLANT_ROOM) = "away from a plant room",
    QLL_AT(ASSUMED_LINE) = "{what}: {value} ({why})",
    QLL_AT(NO_WATER) = "no water",
    QLL_AT(WATER) = "The water of each scenario",
    QLL_AT(MECHANISM_CHATTER) = "chatters at small flows",
    QLL_AT(MECHANISM_NOISE) = "is heard hissing when much water runs",
    QLL_AT(MECHANISM_CAVITATION) = "cavitates",
    QLL_AT(MECHANISM_WEAR) = "wears its seat: the water is too fast in it",
    QLL_AT(MECHANISM_STARVED) = "leaves outlets short when much water runs",
    QLL_AT(MECHANISM_PRESSURE) = "lets outlets stand too high with nothing running",
    QLL_AT(MECHANISM_HUNTING) = "hunts: its valves work against each other",
    QLL_AT(BREAKS_RATING) = "A valve would see {value} at its inlet; it is rated for {limit}.",
    QLL_AT(BREAKS_SIZE) = "A {value} valve is larger than the {limit} pipe it would be put in.",
    QLL_AT(BREAKS_PILOT) =
        "A pilot-operated valve would go into a {value} service; {limit} is the least "
        "for one.",
    QLL_AT(BREAKS_RATIO) = "A stage would take {value}:1; {limit}:1 is the most.",
    QLL_AT(BREAKS_ORDER) =
        "At the design peak the first stage holds {value}; it must hold {limit} to "
        "stay clear of the next one.",
    QLL_AT(BREAKS_HANDOVER) =
        "The set-points of the parallel valves stand too near to one another, or too "
        "far apart, to hand over.",
    QLL_AT(BREAKS_SPEED) =
        "At the design peak the water runs {value} through a valve; {limit} is the "
        "most.",
    QLL_AT(BREAKS_DELIVERY) =
        "At the design peak with the supply at its lowest the station's outlet holds "
        "{value}; {limit} is needed there.",
    QLL_AT(BREAKS_STATIC) =
        "With nothing running the station's outlet stands at {value}; {limit} is the "
        "most for the lowest outlet.",
    QLL_AT(MENDS_RATING) =
        "A set pressure within the range of a valve here, or a catalogue with valves "
        "rated for this place.",
    QLL_AT(MENDS_SIZE) = "A larger service or station pipe, or a catalogue with smaller valves.",
    QLL_AT(MENDS_PILOT) =
        "A catalogue with direct-acting valves of that size, or a larger service.",
    QLL_AT(MENDS_RATIO) = "One more stage before it, or a higher pressure behind the station.",
    QLL_AT(MENDS_ORDER) = "A lower pressure behind the station, or valves that fall off less "
                          "(pilot-operated).",
    QLL_AT(MENDS_HANDOVER) =
        "A catalogue with other sizes: a small valve and one at least twice as large.",
    QLL_AT(MENDS_SPEED) = "A larger service or station pipe with larger valves, or a second valve "
                          "beside it.",
    QLL_AT(MENDS_DELIVERY) =
        "A larger service or meter, larger pipes to the outlets, valves that fall off "
        "less, or a booster where the street cannot give it.",
    QLL_AT(MENDS_STATIC) =
        "A lower pressure behind the station, valves that rise less with nothing "
        "running, or a valve of its own for the lowest floors.",
    QLL_AT(ROLE_RECOMMENDED) = "recommended",
    QLL_AT(ROLE_CHEAPEST) = "cheapest that works",
    QLL_AT(ROLE_QUIETEST) = "quietest",
    QLL_AT(ROLE_USUAL) = "the usual one",
    QLL_AT(ROLE_NEXT) = "next best",
    QLL_AT(CLOSE_NOT) = "It is no close call.",
    QLL_AT(CLOSE_WITHIN) = "A close call: {station} comes to only {share} more, callbacks counted.",
    QLL_AT(CLOSE_VISIT_HALVED) =
        "A close call: were a trip back to cost half, {station} would win; as it is, "
        "{share} more, callbacks counted.",
    QLL_AT(CLOSE_VISIT_DOUBLED) =
        "A close call: were a trip back to cost double, {station} would win; as it "
        "is, {share} more, callbacks counted.",
    QLL_AT(CLOSE_WEIGHTS_HALVED) =
        "A close call: were people to complain half as easily, {station} would win; "
        "as it is, {share} more, callbacks counted.",
    QLL_AT(CLOSE_WEIGHTS_DOUBLED) =
        "A close call: were people to complain twice as easily, {station} would win; "
        "as it is, {share} more, callbacks counted.",
    QLL_AT(CLOSE_DEMAND_HALVED) =
        "A close call: were half as much water used, {station} would win; as it is, "
        "{share} more, callbacks counted.",
    QLL_AT(CLOSE_DEMAND_DOUBLED) =
        "A close call: were twice as much water used, {station} would win; as it is, "
        "{share} more, callbacks counted.",
    QLL_AT(JUST_OVER) = "just over {value}",
    QLL_AT(JUST_UNDER) = "just under {value}",
    QLL_AT(MORE_STREET) = "With {value} or more in the street (here {now})",
    QLL_AT(MORE_WANTED) = "With {value} or more wanted behind the station (here {now})",
    QLL_AT(MORE_DEMAND) = "With {times} times the everyday water of this building, or more,",
    QLL_AT(MORE_PEAK) = "With a design peak of {value} or more (here {now})",
    QLL_AT(MORE_PEOPLE) = "With people {value} (here {now})",
    QLL_AT(MORE_VISIT) = "With {value} or more for a trip back (here {now})",
    QLL_AT(MORE_LEAST_FLOW) = "With {times} times the least stable flow taken here, or more,",
    QLL_AT(LESS_STREET) = "With {value} or less in the street (here {now})",
    QLL_AT(LESS_WANTED) = "With {value} or less wanted behind the station (here {now})",
    QLL_AT(LESS_DEMAND) = "With {times} times the everyday water of this building, or less,",
    QLL_AT(LESS_PEAK) = "With a design peak of {value} or less (here {now})",
    QLL_AT(LESS_PEOPLE) = "With people {value} (here {now})",
    QLL_AT(LESS_VISIT) = "With {value} or less for a trip back (here {now})",
    QLL_AT(LESS_LEAST_FLOW) = "With {times} times the least stable flow taken here, or less,",
};
