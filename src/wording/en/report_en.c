/* What the sheets of a report say, in English. */
#include "wording/language.h"

#define QLL_AT(name) [QLL_SAYS_##name - QLL_REPORT_FIRST]

const char *const qll_report_en[QLL_DESIGN_FIRST - QLL_REPORT_FIRST] = {
    QLL_AT(USE_APARTMENT) = "apartment",
    QLL_AT(USE_HOUSE) = "house",
    QLL_AT(USE_OFFICE) = "office",
    QLL_AT(USE_HOTEL) = "hotel",
    QLL_AT(USE_SCHOOL) = "school",
    QLL_AT(USE_HOSPITAL) = "hospital",
    QLL_AT(USE_RESTAURANT) = "restaurant",
    QLL_AT(LIMIT_FROM_DELIVERY) =
        "what the outlets need, as surveyed, or what the street can give; without outlets the "
        "fall-off as surveyed, else 15 psi (common practice)",
    QLL_AT(LIMIT_FROM_STATIC) = "as surveyed, else IPC 604.8 and UPC 608.2",
    QLL_AT(LIMIT_FROM_RATIO) = "as surveyed, else common practice, no source",
    QLL_AT(LIMIT_FROM_VELOCITY) =
        "valve: 15 ft/s, common practice, no source; pipe: 8 ft/s, Copper Tube Handbook (from "
        "memory); the band only informs",
    QLL_AT(LIMIT_FROM_CAPACITY) = "our assumption: some travel must be left",
    QLL_AT(LIMIT_FROM_LOW_FLOW) = "our assumption: a complaint more likely than not",
    QLL_AT(LIMIT_FROM_CAVITATION) =
        "onset xFz, IEC 60534-8-4; what is complained of is our assumption",
    QLL_AT(LIMIT_FROM_NOISE) = "our assumption of what is heard; level by IEC 60534-8-4",
    QLL_AT(LIMIT_FROM_RATING) = "the catalogue's data of the valve",
    QLL_AT(LIMIT_FROM_EXPANSION) =
        "growth of the heater's water; tank and relief valve as surveyed",
    QLL_AT(LIMIT_FROM_STRAINER) =
        "what the outlets can spare; a screen half blocked is our assumption",
    QLL_AT(PAGE_OF) = "page {page} of {pages}",
    QLL_AT(TITLE_DEMAND) = "Water demand",
    QLL_AT(TITLE_CHECK) = "Check of the water-pressure-reducing station",
    QLL_AT(TITLE_DESIGN) = "Water-pressure-reducing station",
    QLL_AT(SECTION_COVER) = "The station in short",
    QLL_AT(SECTION_SURVEY) = "What was surveyed and assumed",
    QLL_AT(SECTION_DEMAND) = "How much water, and when",
    QLL_AT(SECTION_STATION) = "Parts and settings",
    QLL_AT(SECTION_VERDICTS) = "Is it right?",
    QLL_AT(SECTION_EXPECT) = "What to expect, from a trickle to the peak",
    QLL_AT(SECTION_COMMISSIONING) = "Commissioning sheet",
    QLL_AT(SECTION_SERVICE) = "Service sheet",
    QLL_AT(SECTION_ALTERNATIVES) = "Also possible",
    QLL_AT(SECTION_CAUTIONS) = "Cautions",
    QLL_AT(SECTION_SOURCES) = "Sources",
    QLL_AT(COVER_CAUTIONS) = "Caution with: {cautions}.",
    QLL_AT(COVER_FAILS) = "Read first what is not right: {fails}[; caution with: {cautions}].",
    QLL_AT(FIGURES) = "The figures to remember",
    QLL_AT(FACT_PEAK) = "design peak: what the station must deliver",
    QLL_AT(FACT_IDLE) = "time with no flow, or only a leak",
    QLL_AT(FACT_SUPPLY) = "supply with nothing running, lowest to highest",
    QLL_AT(FACT_SET) = "pressure wanted behind the station",
    QLL_AT(FACT_LOCKUP) = "outlet with nothing running and the supply at its highest",
    QLL_AT(RANGE) = "{low} to {high}",
    QLL_AT(AT_LEAST) = "at least {value}",
    QLL_AT(WHY_THIS) = "Why: {what}",
    QLL_AT(SITE) = "Supply, site and limits",
    QLL_AT(SUPPLY_HIGH) = "highest static pressure of the supply",
    QLL_AT(SUPPLY_LOW) = "lowest static pressure of the supply",
    QLL_AT(WATER_TEMPERATURE) = "water temperature",
    QLL_AT(WANTED_MOST) = "most permitted with nothing running",
    QLL_AT(LIMIT_BAND) = "velocity band in the valves' pipes",
    QLL_AT(LIMIT_RATIO) = "gauge ratio: preferred, at most",
    QLL_AT(HEATER) = "water heater: volume, hot water, relief valve",
    QLL_AT(TANK) = "expansion tank",
    QLL_AT(FLOW_TEST) = "Flow test of the supply",
    QLL_AT(BEFORE) = "In the way of the water before the station",
    QLL_AT(ELEMENT_PIPE) = "pipe",
    QLL_AT(ELEMENT_METER) = "meter",
    QLL_AT(ELEMENT_BACKFLOW) = "backflow preventer",
    QLL_AT(ELEMENT_STRAINER) = "strainer",
    QLL_AT(ELEMENT_LOSS) = "loss given in the survey",
    QLL_AT(OUTLETS) = "Outlets behind the station",
    QLL_AT(SCENARIOS) = "How the building is used",
    QLL_AT(ASSUMED) = "Assumed, because it was not given: check it",
    QLL_AT(HEAD_FIGURE) = "figure",
    QLL_AT(HEAD_VALUE) = "value",
    QLL_AT(HEAD_PRESSURE) = "pressure",
    QLL_AT(HEAD_ELEMENT) = "element",
    QLL_AT(HEAD_BORE) = "bore",
    QLL_AT(HEAD_LENGTH) = "length",
    QLL_AT(HEAD_LOSS_AT_PEAK) = "loss at the design peak",
    QLL_AT(HEAD_OUTLET_NAME) = "outlet",
    QLL_AT(HEAD_HEIGHT) = "height above the station",
    QLL_AT(HEAD_NEEDS) = "needs",
    QLL_AT(HEAD_SCENARIO) = "scenario",
    QLL_AT(HEAD_USE) = "use",
    QLL_AT(HEAD_PEOPLE) = "people",
    QLL_AT(HEAD_FIXTURES) = "fixtures",
    QLL_AT(HEAD_TAKEN) = "taken",
    QLL_AT(HEAD_WHY) = "why",
    QLL_AT(ESTIMATES) = "Design peak by each method that applies",
    QLL_AT(HEAD_METHOD) = "method",
    QLL_AT(HEAD_TABLE) = "table or study",
    QLL_AT(METHOD_USED) = "{method} (used for the design)",
    QLL_AT(NOTE_OF) = "{method}: {note}",
    QLL_AT(DRAWN) =
        "On {day} there is no flow {idle} of the time[, only the leak {only}], no fixture open "
        "{share}; the mean flow is {mean}[, and {leak} of it leaks].",
    QLL_AT(DRAWN_METERED) =
        "As metered there is no flow {idle} of the time; the mean flow is {mean}.",
    QLL_AT(DURATION) = "For how much of the time the flow is no more than this",
    QLL_AT(HEAD_SHARE) = "share of the time",
    QLL_AT(HEAD_AT_OR_BELOW) = "flow no more than",
    QLL_AT(HEAD_OF_PEAK) = "of the design peak",
    QLL_AT(PARTS) = "Parts",
    QLL_AT(HEAD_PART) = "part",
    QLL_AT(HEAD_COUNT) = "count",
    QLL_AT(PART_VALVE) = "reducing valve {valve}, {acting}",
    QLL_AT(PART_STRAINER) = "strainer, {mesh} mesh, ahead of the valve",
    QLL_AT(PART_STRAINER_BODY) = "strainer in the body of the valve",
    QLL_AT(PART_STOPS) = "stop valve, one on either side",
    QLL_AT(PART_GAUGES) = "pressure gauge with cock, before and behind the stage",
    QLL_AT(PART_TANK) = "expansion tank, charged to {precharge} before it is filled",
    QLL_AT(PARTS_ARE) =
        "Valves and strainers are those the figures were worked out for; stop valves and "
        "gauges are common practice, no source.",
    QLL_AT(SETTINGS) = "Schedule of settings (gauge pressures)",
    QLL_AT(HEAD_RUN) = "run this much through it",
    QLL_AT(HEAD_WITH_INLET) = "with inlet at",
    QLL_AT(HEAD_GAUGE_READS) = "its outlet gauge reads",
    QLL_AT(STRAINERS) = "Strainers",
    QLL_AT(HEAD_RULE) = "rule",
    QLL_AT(HEAD_VERDICT) = "verdict",
    QLL_AT(HEAD_LIMIT) = "limit",
    QLL_AT(HEAD_SAYS) = "what was found",
    QLL_AT(HEAD_LIMIT_FROM) = "where the limit comes from",
    QLL_AT(VERDICTS) = "Every rule, over all flows, supply pressures and scenarios",
    QLL_AT(POINTS_THERE) = "From no flow to the design peak",
    QLL_AT(POINT_ASKED) = "At the flow that was asked for",
    QLL_AT(POINTS) = "From no flow to the design peak, supply in the middle of its range",
    QLL_AT(WAY) =
        "Pressure on the way: at night with no flow, and at the design peak with the supply at "
        "its lowest",
    QLL_AT(HEAD_NOTE) = "note",
    QLL_AT(WITH_UNIT) = "{what}, {unit}",
    QLL_AT(TIME) = "Where the time goes",
    QLL_AT(HEAD_OF_TIME) = "of all time",
    QLL_AT(COMMISSION_FIRST) =
        "Fill in on the day the station is started. Let the water run clear through every "
        "branch first, then bleed the gauges. Heed the cautions.",
    QLL_AT(DONE_BY) = "Done by",
    QLL_AT(HEAD_DATE) = "date",
    QLL_AT(HEAD_NAME) = "name",
    QLL_AT(HEAD_LICENCE) = "licence",
    QLL_AT(HEAD_GAUGES) = "gauges used",
    QLL_AT(SIGN) = "sign",
    QLL_AT(TEST_SET) = "1. Setting and lock-up, each valve alone",
    QLL_AT(TEST_FALLOFF) = "2. Fall-off at two flows, all valves in service",
    QLL_AT(TEST_CREEP) = "3. Creep test",
    QLL_AT(HEAD_EXPECTED) = "expected",
    QLL_AT(HEAD_ACCEPTABLE) = "acceptable",
    QLL_AT(HEAD_MEASURED) = "measured",
    QLL_AT(HEAD_INLET_NOW) = "inlet measured",
    QLL_AT(HEAD_MINUTES) = "minutes after closing",
    QLL_AT(SET_RANGE_FROM) =
        "Read with the flow running, then close slowly and read the lock-up five minutes later. "
        "Acceptable is {tolerance} either way (our assumption: what a gauge and a fixture's flow "
        "allow). With another inlet pressure than the one stated the reading moves with it.",
    QLL_AT(FALLOFF_RANGE_FROM) =
        "Wait 30 s at each flow. Acceptable is a fall-off up to 1.3 times the expected one; "
        "beyond twice look for a blocked strainer, a sticking stem or a valve too small (our "
        "assumption).",
    QLL_AT(CREEP_STEP_SAFE) =
        "Warn the users. Heater energy off; close the heater's cold inlet, never the way to "
        "its relief valve. An expansion tank with a stop of its own is shut for this test only.",
    QLL_AT(CREEP_STEP_SHUT) =
        "Shut every fixture. The meter's leak indicator must stand still, else water is used "
        "or leaks: stop here.",
    QLL_AT(CREEP_STEP_DRAW) = "Draw {low} to {high} for 2 minutes, then close slowly.",
    QLL_AT(CREEP_STEP_READ) =
        "Read both gauges 15 s after closing and at the minutes of the table.",
    QLL_AT(CREEP_STEP_SEAT) =
        "If the outlet rose: shut the station's inlet, draw the outlet down and watch for 10 "
        "minutes. It rises again: warming, a bypass or a cross-connection; it does not: the "
        "seat.",
    QLL_AT(CREEP_STEP_BACK) = "Open everything again, heater and expansion tank first of all.",
    QLL_AT(CREEP_READINGS) = "Readings of the creep test",
    QLL_AT(CREEP_LIMITS) =
        "The outlet rises in 10 minutes by up to {low}: tight; by {low} to {high}: suspect, "
        "flush and test again; by more than {high}: it leaks, clean or renew the seat (our "
        "assumption).",
    QLL_AT(MINUTE_QUARTER) = "0.25 (15 s)",
    QLL_AT(SERVICE) = "What to do, and when",
    QLL_AT(HEAD_TASK) = "task",
    QLL_AT(HEAD_EVERY) = "every",
    QLL_AT(HEAD_ACT_WHEN) = "act when",
    QLL_AT(HEAD_DONE) = "date, name",
    QLL_AT(EVERY_3_MONTHS) = "3 months",
    QLL_AT(EVERY_6_MONTHS) = "6 months",
    QLL_AT(EVERY_YEAR) = "year",
    QLL_AT(EVERY_5_YEARS) = "5 years",
    QLL_AT(SERVICE_GAUGES) = "Read the station's outlet with nothing running.",
    QLL_AT(SERVICE_GAUGES_WHEN) = "it stands above {limit} or keeps rising",
    QLL_AT(SERVICE_STRAINER) =
        "Strainer of {valve}: compare the gauges before and behind it, at no flow and at "
        "{flow}.",
    QLL_AT(SERVICE_STRAINER_PLAIN) = "Strainer of {valve}: open and rinse it.",
    QLL_AT(SERVICE_STRAINER_WHEN) = "the difference grows by {dirty}: clean it",
    QLL_AT(SERVICE_CREEP) = "Creep test, as on the commissioning sheet.",
    QLL_AT(SERVICE_CREEP_WHEN) = "the outlet rises by more than {limit} in 10 minutes",
    QLL_AT(SERVICE_WORK) =
        "Work the stop valves; turn each adjuster a little both ways and back to its reading.",
    QLL_AT(SERVICE_WORK_WHEN) = "it sticks, jumps or does not answer",
    QLL_AT(SERVICE_RELIEF) = "Relief valve and expansion tank: as their makers say.",
    QLL_AT(SERVICE_RELIEF_WHEN) = "the relief valve drips or the tank has lost its charge",
    QLL_AT(SERVICE_REBUILD) = "Renew seat disc, diaphragm and seals.",
    QLL_AT(SERVICE_REBUILD_WHEN) = "sooner if the creep test fails",
    QLL_AT(SERVICE_NEVER) = "no limit is stated",
    QLL_AT(INTERVALS_ARE) =
        "Intervals are common practice, no source; dirty or hard water asks for shorter ones, "
        "and the makers' own come first. Limits of the creep test are our assumption.",
    QLL_AT(LEAK_LIMIT) =
        "A seat passes when it lets by no more than {pass} per inch of size, and fails above "
        "{fail}, about a drop a second. The first mirrors a published test limit for relief "
        "valves (10 cm³/h per inch of inlet); the rest is our assumption.",
    QLL_AT(SOURCES_ARE) = "Names of works stand in their own language.",
    QLL_AT(PICTURE_SCHEMATIC) = "The station",
    QLL_AT(PICTURE_DAY) = "Mean flow by the hour: {scenario}",
    QLL_AT(PICTURE_DURATION) = "Flow duration: {scenario}",
    QLL_AT(PICTURE_FALLOFF) = "Outlet pressure from no flow to the design peak",
    QLL_AT(PICTURE_LADDER) = "Pressure from the main to the outlet with least in hand",
    QLL_AT(PICTURE_MAP) =
        "Valve {valve}: flow against inlet pressure, and where the building's time goes",
    QLL_AT(PICTURE_NOISE) = "Sound level against flow (an estimate)",
    QLL_AT(PICTURE_SPECTRUM) = "Sound by third-octave bands (an estimate)",
    QLL_AT(PICTURE_CANDIDATES) = "Stations by what they cost and how often they call you back",
    QLL_AT(SHOWS_SCHEMATIC) =
        "Piping from the main on the left to the building on the right: {station}. Every valve "
        "stands with its name, size and set-point; the schedule of settings has the same "
        "figures.",
    QLL_AT(SHOWS_DAY) =
        "A day in 24 hours. The mean flow is highest at {hour}, {most}; the design peak is "
        "{peak}.",
    QLL_AT(SHOWS_DURATION) =
        "Share of the time and of the water at or below each flow. [No fixture is open for "
        "{share} of the time][There is no flow for {idle} of the time]; {flow} is not passed for "
        "99 % of it; the design peak is {peak}.",
    QLL_AT(SHOWS_FALLOFF) =
        "With the supply in the middle of its range the outlet stands at {lockup} with no flow "
        "and at {pressure} at {flow}. The table of what to expect has the same figures.",
    QLL_AT(SHOWS_LADDER) =
        "Pressure behind each element from the main to the outlet: at night with no flow, and "
        "at the design peak with the supply at its lowest. The table of pressure on the way "
        "has the same figures.",
    QLL_AT(SHOWS_MAP) =
        "Fields of station flow and stage inlet pressure: plain is good, striped asks for "
        "caution, crossed breaks a rule; discs show where the building spends its time. The "
        "table of where the time goes has the shares.",
    QLL_AT(SHOWS_NOISE) =
        "Level in dB(A) 1 m from the pipe, of the station and of each valve, over the flow "
        "with the supply in the middle of its range; indicative. The verdict on noise has the "
        "figures that count.",
    QLL_AT(SHOWS_SPECTRUM) =
        "Level in each third-octave band 1 m from the pipe, at a tenth, three tenths and all "
        "of the design peak; indicative.",
    QLL_AT(SHOWS_CANDIDATES) =
        "{count} stations by what they cost installed and their chance of a callback; the "
        "recommended one is marked. The table has the same figures.",
    QLL_AT(HEAD_HOLDS) = "holds",
    QLL_AT(HOLDS_MEANS) =
        "Holds: of what is not known of demand, supply and valves, the part in which it fails (fail, "
        "caution), or in which it does not (good); 100 % is a fact. Our assumption of what is not "
        "known: docs/theory/recommendation.md of quell.",
    QLL_AT(WHAT_AND_KEY) = "{what} ({name})",
    QLL_AT(ELEMENT_AND) = "{what}, {name}",
    QLL_AT(NOT_GIVEN) = "not given",
    QLL_AT(KEY_NAME) = "name",
    QLL_AT(KEY_UNITS) = "units of the sheets",
    QLL_AT(KEY_ELEVATION) = "height of the site above the sea",
    QLL_AT(KEY_TEMPERATURE) = "temperature of the cold water",
    QLL_AT(KEY_RISE) = "height the pipe climbs",
    QLL_AT(KEY_FITTINGS) = "fittings in the pipe",
    QLL_AT(KEY_UPSTREAM) = "what stands before the station",
    QLL_AT(KEY_FLOW_TEST) = "flow test of the supply",
    QLL_AT(KEY_FLOW_TEST_STANDING) = "flow test with no flow",
    QLL_AT(KEY_STATIC_HIGH) = "highest static pressure of the supply",
    QLL_AT(KEY_STATIC_LOW) = "lowest static pressure of the supply",
    QLL_AT(KEY_PIPE) = "kind of pipe",
    QLL_AT(KEY_AREA_RATIO) = "screen area over pipe area",
    QLL_AT(KEY_BLOCKED) = "how much of the screen is blocked",
    QLL_AT(KEY_SET_PRESSURE) = "pressure wanted behind the station",
    QLL_AT(KEY_STATIC_MAX) = "most permitted with nothing running",
    QLL_AT(KEY_OUTLETS) = "outlets to be judged",
    QLL_AT(KEY_PATH) = "pipes on the way to the outlet",
    QLL_AT(KEY_CARRIES) = "what the pipe carries at the design peak",
    QLL_AT(KEY_COLD) = "cold water to the heater",
    QLL_AT(KEY_HOT) = "hot water of the heater",
    QLL_AT(KEY_RELIEF) = "set of the heater's relief valve",
    QLL_AT(KEY_PRECHARGE) = "precharge of the expansion tank",
    QLL_AT(KEY_WEIGHT) = "how much the scenario counts",
    QLL_AT(KEY_QUANTILE) = "share of the peak hour within the peak",
    QLL_AT(KEY_DAY) = "kind of day",
    QLL_AT(KEY_PEOPLE) = "people in the building",
    QLL_AT(KEY_USE) = "use of the building",
    QLL_AT(KEY_HOURS) = "hours of the continuous flow",
    QLL_AT(KEY_VELOCITY_BAND) = "velocity band in the valves' pipes",
    QLL_AT(KEY_VELOCITY_MAX) = "greatest velocity in any pipe",
    QLL_AT(KEY_RATIO_PREFERRED) = "gauge ratio preferred",
    QLL_AT(KEY_RATIO_MAX) = "greatest gauge ratio",
    QLL_AT(KEY_FALLOFF) = "greatest fall-off at the design peak",
    QLL_AT(KEY_FALLOFF_SET) = "set-point of the data sheet",
    QLL_AT(KEY_FALLOFF_INLET) = "inlet of the data sheet",
    QLL_AT(KEY_TEMPERATURE_MAX) = "greatest water temperature",
    QLL_AT(KEY_LOCKUP_RISE) = "rise at no flow",
    QLL_AT(KEY_INLET_EFFECT) = "outlet change with the inlet",
    QLL_AT(KEY_FLOW_MIN) = "least stable flow",
    QLL_AT(KEY_HYSTERESIS) = "hysteresis",
    QLL_AT(KEY_FL) = "pressure recovery FL",
    QLL_AT(KEY_FD) = "valve style modifier Fd, for noise",
    QLL_AT(KEY_XFZ) = "onset of cavitation xFz",
    QLL_AT(KEY_SEAT_BORE) = "bore of the seat, for noise",
    QLL_AT(MAKE_FLOW) = "To run {flow}, open {what}; {then}.[ {note}]",
    QLL_AT(TAP_TRICKLE) = "a lavatory faucet a little",
    QLL_AT(TAP_HALF) = "a lavatory faucet about half",
    QLL_AT(TAP_LAVATORY) = "a lavatory faucet all the way",
    QLL_AT(TAP_SHOWER) = "a shower all the way",
    QLL_AT(TAP_BIBB_MOST) = "a hose bibb most of the way",
    QLL_AT(TAP_BIBB) = "a hose bibb all the way",
    QLL_AT(TAP_BIBBS) = "{count} hose bibbs all the way",
    QLL_AT(TAP_DRAIN) = "a drain or hose valve behind the station as far as it takes",
    QLL_AT(JUG) = "1-gallon jug",
    QLL_AT(JUG_SI) = "1 L jug",
    QLL_AT(BUCKET) = "5-gallon bucket",
    QLL_AT(BUCKET_SI) = "10 L bucket",
    QLL_AT(MEASURE_JUG) = "a {what} then fills in {time} seconds",
    QLL_AT(MEASURE_JUG_QUARTS) = "a {what} then fills in {time} seconds ({count} quarts a minute)",
    QLL_AT(MEASURE_BUCKET) = "a {what} then fills in {time} seconds",
    QLL_AT(MEASURE_HAND) = "the meter's sweep hand then takes {time} seconds a turn (1 cubic foot)",
    QLL_AT(MEASURE_HAND_LARGE) =
        "the meter's sweep hand then takes {time} seconds for a tenth of a turn (1 cubic foot)",
    QLL_AT(MEASURE_MINUTE) = "the meter then goes on by {value} in a minute",
    QLL_AT(METER_TOO_LARGE) = "The {size} meter hardly moves at so little: do not read it.",
    QLL_AT(SET_VALVE) =
        "{valve}: {what} Its inlet gauge then shows about {inlet}; turn the adjuster "
        "until its outlet gauge shows {pressure}.[ {note}]",
    QLL_AT(SET_ADD) = "Inlet gauge higher: add {value} for every {between}; lower: take it off.",
    QLL_AT(SET_TAKE_OFF) =
        "Inlet gauge higher: take off {value} for every {between}; lower: add it.",
    QLL_AT(CURES) = "What would cure it, the best buy first",
    QLL_AT(CURE_NOW) =
        "Chance of a callback as it is: {chance}[, most likely because it {why}].[ It cannot be left as it is. {breaks}]",
    QLL_AT(CURE_NONE) =
        "No change to it pays for itself. \"quell design\" shows what would be built here from nothing.",
    QLL_AT(CURE_SETTINGS) = "Change the settings only: {others}. {cost}",
    QLL_AT(CURE_SMALL_BESIDE) =
        "Put a {size} {valve} beside it, set to {set}[, and {others}]. {cost}",
    QLL_AT(CURE_SMALLER_VALVE) =
        "Take out the {old} and put a {size} {valve} in its place, set to {set}[; {others}]. {cost}",
    QLL_AT(CURE_STAGE_BEFORE) =
        "Put a {size} {valve} before it as a first stage, set to {set}[, and {others}]. {cost}",
    QLL_AT(CURE_WHOLE) = "Take it all out and build anew: {valves}. {cost}",
    QLL_AT(CURE_TANK) =
        "Put in an expansion tank of {tank}, charged to {precharge} before it is filled: it keeps the pressure from climbing while the heater warms up. What that does to the chance of a callback is not figured.",
    QLL_AT(CURE_STRAINER) =
        "Clean the strainers, and fit a larger one where they soon clog: half blocked they take {loss} off the outlet at the peak. What that does to the chance of a callback is not figured.",
    QLL_AT(CURE_LEAVE) = "leave the {size} at {set}",
    QLL_AT(CURE_SET) = "set the {size} to {set}",
    QLL_AT(CURE_AND) = " and ",
    QLL_AT(CURE_VALVE_AT) = "{size} {valve} at {set}",
    QLL_AT(CURE_COST) =
        "About {value} for parts and work, and a callback goes from {before} to {after}.",
    QLL_AT(CURE_COST_SAME) =
        "About {value} for parts and work, and the chance of a callback stays about {after}.",
    QLL_AT(NO_CAUSE) = "No rule is broken that would be heard. The likeliest trouble: it {why}.",
    QLL_AT(KEY_WHERE_PEOPLE_ARE) = "where people are",
    QLL_AT(KEY_COST_VISIT) = "cost of an unpaid trip back",
    QLL_AT(KEY_COST_STAGE) = "cost of each further stage",
    QLL_AT(KEY_COST_BRANCH) = "cost of all that goes round one valve",
    QLL_AT(KEY_PRICE) = "price of the valve",
    QLL_AT(KEY_EXISTING_VALVE) = "the valve that is there",
    QLL_AT(KEY_OCCUPANCY) = "private or public",
    QLL_AT(KEY_FIXTURES) = "fixtures",
    QLL_AT(KEY_BATHS) = "bathrooms of each home",
    QLL_AT(KEY_HOMES) = "dwellings",
    QLL_AT(KEY_HABITS) = "whose habits hold",
    QLL_AT(KEY_VOLUME) = "water for each person and day",
    QLL_AT(KEY_VARIATION) = "how much a home differs from day to day",
    QLL_AT(KEY_VARIATION_HOUR) = "how much a home differs from hour to hour",
    QLL_AT(KEY_BREAKS_OF_HOURS) = "breaks",
    QLL_AT(KEY_OUTLET_PRESSURE) = "pressure at the running outlets",
    QLL_AT(KEY_OUTDOOR) = "what homes draw outdoors",
    QLL_AT(KEY_SEASON) = "season",
};
