#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_READER]

const char *const qll_reader_en[QLL_TEXT_SIZE(READER)] = {
    /* what was found */
    SAYS(FOUND_OBJECT) = "an object",
    SAYS(FOUND_LIST_OF_ONE) = "a list of 1 entry",
    SAYS(FOUND_LIST_OF) = "a list of {1} entries",
    SAYS(FOUND_HERE) = "{1} stands here; expected {2}",
    SAYS(ORIGIN) = "{1}, line {2}",
    SAYS(LIMIT_GIVEN) = "{1} ({2})",
    SAYS(LIMIT_DEFAULT) = "{1} (the default of {2})",
    SAYS(LIMIT_ASSUMED) = "what is assumed",
    /* what is expected */
    SAYS(EXPECT_OBJECT) = "an object in { }",
    SAYS(EXPECT_NUMBER) = "a number",
    SAYS(EXPECT_BARE_NUMBER) = "a number without quotes",
    SAYS(EXPECT_QUANTITY) = "{1} as text with its unit, for example \"{2}\"",
    SAYS(EXPECT_PAIR) = "a list of two values, the lower one first",
    SAYS(EXPECT_TEXT) = "text in quotes",
    SAYS(EXPECT_WORD) = "a word in quotes",
    SAYS(EXPECT_FLAG) = "true or false",
    SAYS(EXPECT_LIST) = "a list in [ ]",
    SAYS(EXPECT_FAMILY) = "a pipe family in quotes, \"copper L\"",
    SAYS(EXPECT_HOW_MANY) = "how many there are, a whole number",
    SAYS(EXPECT_FITTINGS) = "an object, fitting to count: {\"elbow 90\": 4}",
    SAYS(EXPECT_FIXTURE) = "a fixture in quotes, \"shower\"",
    SAYS(EXPECT_HOURS) = "hours from 00:00 to 24:00, for example \"09:00-17:00\"",
    SAYS(EXPECT_HOURLY) =
        "24 numbers from 0 to 1000000, the water of each hour from midnight on, not all of them 0",
    SAYS(EXPECT_MESH) = "a mesh, \"40 mesh\" or 40",
    /* keys and words */
    SAYS(KEY_UNKNOWN) = "{1} has no meaning in {2}; keys there are {3}",
    SAYS(KEY_MISSING) = "{1} needs \"{2}\": {3}",
    SAYS(KEY_MISSING_EXAMPLE) = "{1} needs \"{2}\": {3}, for example \"{4}\"",
    SAYS(VERSION_UNKNOWN) = "the {1} is of version {2}; this program reads version 1",
    SAYS(NO_SUCH_DOCUMENT) =
        "this is no {1}: most of its keys are others; a {1} begins with \"{1}\": 1",
    SAYS(WORD_UNKNOWN) = "{1} is not {2}; known are {3}",
    SAYS(WORD_UNKNOWN_LISTED) = "{1} is not {2}; the words are listed in docs/formats/{3}",
    SAYS(A_WORD_FOR) = "a word for {1}",
    SAYS(A_FAMILY) = "a pipe family",
    SAYS(A_FITTING) = "a fitting",
    SAYS(A_FIXTURE) = "a fixture",
    SAYS(A_PEAK) = "a way to find the peak, nor a flow like \"87 gpm\"",
    SAYS(CARRIES) = "what a pipe carries, nor a flow like \"12 gpm\"",
    /* values */
    SAYS(NO_UNIT_WRITE) = "{1} has no unit; write {2} as text with its unit, for example \"{3}\"",
    SAYS(BELOW_LEAST) = "{1} is below {2}, the least {3} may be: {4}",
    SAYS(ABOVE_MOST) = "{1} is above {2}, the most {3} may be: {4}",
    SAYS(NOT_WHOLE) = "{1} is not a whole number; things are counted here",
    SAYS(LOWER_FIRST) = "{1} is not above {2}; write the lower value first",
    SAYS(X_NOT_RISING) =
        "{1} is not above the {2} before it, {3} ({4}); points go from the least to the greatest {2}",
    SAYS(Y_NOT_ABOVE) = "{1} is not above {2} at the point before ({3}): {4}",
    SAYS(Y_BELOW) = "{1} is below {2} at the point before ({3}): {4}",
    SAYS(Y_ABOVE) = "{1} is above {2} at the point before ({3}): {4}",
    SAYS(NAME_EMPTY) = "{1} is empty; expected a name",
    SAYS(NAME_LONG) = "{1} is longer than 200 bytes; a name must fit a line of the report",
    SAYS(NAME_CONTROL) = "{1} holds a control character; a name is plain text on one line",
    SAYS(LIST_EMPTY) = "the list {1} is empty; give at least one entry",
    SAYS(LIST_EMPTY_OR_NONE) =
        "the list {1} is empty; give at least one entry, or leave the key out",
    SAYS(LIST_LONG) = "{1} has {2} entries; at most {3} are read",
    /* supply */
    SAYS(STATIC_MISSING) =
        "supply needs \"static_high\", the pressure at no flow, or a \"flow_test\" that begins at \"0 gpm\"",
    SAYS(STATIC_MISSING_TEST) =
        "supply needs \"static_high\", the pressure at no flow: its flow test begins at {1}",
    SAYS(WARN_NO_FLOW_TEST) =
        "without a \"flow_test\" the main is taken to keep its static at every flow; a real main falls, so delivery at the design peak is judged too kindly",
    SAYS(STATIC_BELOW_TEST) =
        "{1} is below {2} ({3}): the highest static cannot lie below a pressure of the flow test",
    SAYS(STATIC_ABOVE_HIGH) =
        "{1} is above {2} ({3}): the lowest static cannot lie above the highest",
    SAYS(STATIC_ABOVE_TEST) =
        "{1} is above {2} ({3}): the lowest static cannot lie above the one of the flow test",
    SAYS(WARN_STATIC_HIGH) =
        "{1} is rare: few mains stand above 250 psi; check the gauge and its unit",
    SAYS(WARN_STATIC_LOW) =
        "{1} is rare: few mains stand below 15 psi; check the gauge and its unit",
    SAYS(TWO_ATMOSPHERES) = "elevation and barometric both tell the atmospheric pressure; give one",
    /* upstream */
    SAYS(ENTRY_UNKNOWN) = "{1} has no meaning in an entry of upstream; it is one of {2}",
    SAYS(ENTRY_MISSING) = "an entry of upstream needs a key that says what it is: {1}",
    SAYS(ENTRY_TWICE) =
        "an entry is one thing, and this one is already a {1}; give the {2} an entry of its own",
    SAYS(METER_NO_SIZE) = "a meter needs \"nominal\", its size, or its own \"loss\"",
    SAYS(BACKFLOW_NO_SIZE) =
        "a backflow preventer needs \"nominal\", its size, or its own \"loss\"",
    SAYS(METER_SIZE_UNKNOWN) =
        "{1} is not in the table of displacement meters, which has {2}; give the meter's own \"loss\" instead",
    SAYS(METER_NEEDS_LOSS) =
        "there is a table for displacement meters only; this one needs its own \"loss\": [{\"flow\": \"50 gpm\", \"pressure\": \"2 psi\"}]",
    SAYS(BACKFLOW_SIZE_UNKNOWN) =
        "{1} is no size whose usual loss is known; give the assembly's own \"loss\"",
    SAYS(MESH_UNKNOWN) =
        "{1} is not a mesh of ASTM E11 that is known here: 20, 30, 40, 50, 60, 80 or 100",
    SAYS(SIZE_UNKNOWN) = "{1} is not a size of {2}; its sizes are {3}",
    SAYS(FITTINGS_NOT_WHOLE) = "{1} is not a whole number from 0 to 1000; fittings are counted",
    /* downstream and limits */
    SAYS(HEATER_HOT) = "{1} is not above {2}: a heater warms the water",
    SAYS(HEATER_COLD) = "{1} is not below {2}: a heater warms the water",
    SAYS(RELIEF_OPEN) =
        "{1} is not above {2}: the relief valve would stand open at the set pressure",
    SAYS(SET_ABOVE_LOWEST) =
        "{1} is above {2}: the lowest outlet would stand above what is allowed",
    SAYS(STATIC_BELOW_LOWEST) =
        "{1} is below {2}: the lowest outlet would stand above what is allowed",
    SAYS(SET_ABOVE_STATIC) =
        "{1} is above {2}: the outlet would stand above what is allowed; if all lie above the station, name the lowest",
    SAYS(STATIC_BELOW_SET) =
        "{1} is below {2}: the outlet would stand above what is allowed; if all lie above the station, name the lowest",
    SAYS(SET_NOT_BELOW_SUPPLY) =
        "{1} is not below the highest supply, {2}: a reducing valve only takes pressure away",
    SAYS(WARN_SET_ABOVE_LOWEST) =
        "{1} is not below the lowest supply, {2}: while the main stands there the station cannot hold it",
    SAYS(FALLOFF_NOT_BELOW_SET) =
        "{1} is not below the set pressure, {2}: nothing would be left at the outlet",
    SAYS(VELOCITY_IN_BAND) =
        "{1} lies inside the band, {2}: the greatest velocity cannot lie below the band's upper end",
    SAYS(BAND_ABOVE_VELOCITY) = "{1} reaches above {2}: give a \"velocity_max\" above it as well",
    SAYS(RATIO_BELOW_PREFERRED) =
        "{1} is below {2}: the greatest ratio cannot lie below the preferred one",
    SAYS(PREFERRED_ABOVE_RATIO) = "{1} is above {2}: give a \"ratio_max\" above it as well",
    SAYS(INLET_HIGHEST_STATIC) =
        "{1} is not below its inlet, {2} (the highest static of supply): a reducing valve only takes pressure away",
    SAYS(INLET_HIGHEST_SET) =
        "{1} is not below its inlet, {2} (the highest set_pressure of existing.stages[{3}]): a reducing valve only takes pressure away",
    /* scenarios */
    SAYS(BELONGS_TO) = "\"{1}\" belongs to \"use\": \"{2}\"",
    SAYS(BELONGS_TO_DWELLINGS) = "\"{1}\" belongs to \"use\": \"house\" or \"apartment\"",
    SAYS(PART_OF_BATH) = "baths are whole or half: 2, or 2.5 for two baths and a half bath",
    SAYS(PEOPLE_MISSING_KEY) = "the scenario needs \"people\", how many there are, or \"{1}\"",
    SAYS(PEOPLE_MISSING_HOMES) =
        "the scenario needs \"people\", how many there are, or \"homes\", how many dwellings",
    SAYS(PEOPLE_MISSING_BATHS) =
        "the scenario needs \"people\", how many there are, or \"homes\", how many dwellings, or \"baths\"",
    SAYS(FIXTURES_MISSING) =
        "the scenario needs \"fixtures\", for example [{\"fixture\": \"shower\", \"count\": 48}], or its \"peak\" as a flow",
    SAYS(FIXTURES_MISSING_OR) =
        "the scenario needs \"fixtures\", for example [{\"fixture\": \"shower\", \"count\": 48}], or \"{1}\", or its \"peak\" as a flow",
    SAYS(NAME_TWICE) = "{1} is already the name of scenarios[{2}]; no two may be alike",
    SAYS(LOG_KEYS_ALONE) =
        "{1} tells how to read a log; name the file too, for example \"log\": \"last-tenant.csv\"",
    SAYS(OUTDOOR_ELSEWHERE) =
        "\"outdoor\" is a home's hose or sprinklers; give what runs outdoors here as a \"continuous\" flow with its hours",
    SAYS(LOG_UNIT_UNKNOWN) = "{1} is no unit of a flow or a volume, nor \"pulses\"",
    SAYS(ZONE_UNKNOWN) =
        "{1} is no time zone that is known here; write an offset, \"-07:00\", or a rule, \"MST7MDT,M3.2.0,M11.1.0\"",
    /* catalogues */
    SAYS(SHEET_SET_INLET) =
        "{1} is not below {2}: the outlet of a reducing valve lies below its inlet",
    SAYS(SHEET_INLET_MAX) = "{1} is above {2}: it cannot have been measured there",
    SAYS(SHEET_SET_RANGE) = "{1} lies outside set_range; it cannot have been measured there",
    SAYS(XFZ_ABOVE_FL) =
        "{1} is above FL squared, from {2}: cavitation is heard before the flow chokes, not after",
    SAYS(SEAT_ABOVE_BODY) = "{1} is above {2}: the seat lies inside the body",
    SAYS(WARN_KV_OPEN_PIPE) =
        "{1} is more than an open pipe end passes in the size {2}; check the number and its unit",
    SAYS(FALLOFF_MISSING) =
        "without fall-off nothing is known of how it opens; give \"falloff\" with \"points\", or \"band\", the fall-off at full travel",
    SAYS(FALLOFF_TWICE) = "the fall-off is given twice; keep the points or the band",
    SAYS(LAW_NOTHING_LEFT) = "{1} of fall-off leaves nothing of {2}",
    SAYS(LAW_KV) =
        "{1} at this fall-off takes a Kv of {2}; Kv must rise from point to point and end at or below {3}",
    SAYS(LAW_KV_AFTER) =
        "{1} at this fall-off takes a Kv of {2} after {3} at the point before; Kv must rise from point to point and end at or below {4}",
    SAYS(FLOW_MIN_ABOVE) =
        "{1} is not below the greatest flow of falloff; a valve is stable over most of its flows",
    SAYS(ID_TWICE) = "{1} is already the id of valve {2}; every valve has its own",
    SAYS(CURRENCY_UNKNOWN) =
        "{1} is no currency; write its three capital letters of ISO 4217, for example \"EUR\"",
    SAYS(COST_SIZE_TWICE) = "{1} is the size of costs.sizes[{2}] already; give a size once",
    SAYS(VALVE_UNKNOWN) =
        "{1} is not the id of a valve in the catalogue {2}; size and kind are enough, \"3 in direct\", and `quell catalogue list` shows the ids",
    SAYS(VALVE_UNKNOWN_NEAR) =
        "{1} is not the id of a valve in the catalogue {2}; near it are {3}; size and kind are enough, \"3 in direct\", and `quell catalogue list` shows the ids",
    SAYS(VALVE_NONE) = "the catalogue {1} has no valve {2}; there are {3}",
    SAYS(VALVE_NONE_SET) =
        "the catalogue {1} has no valve {2} that can be set to {4}; there are {3}",
    SAYS(VALVE_AND_NEXT) = "{1}, {2}",
    SAYS(VALVE_DIRECT) = "{1} ({2} direct, {3} to {4})",
    SAYS(VALVE_PILOT) = "{1} ({2} pilot, {3} to {4})",
    SAYS(VALVES_AND_MORE) = "{1} and {2} more: see `quell catalogue list`",
    /* tables of valves and points */
    SAYS(MARKS_MIXED) = "the table's values hold both points and commas",
    SAYS(MARKS_UNKNOWN) = "the commas may part thousands or decimals",
    SAYS(HINT_DECIMAL_POINTS) = "write decimals with a point, and thousands without a mark",
    SAYS(POINT_COLUMN_TWICE) = "the column \"{1}\" is there twice",
    SAYS(POINT_COLUMN_UNKNOWN) = "the column {1} has no meaning among capacity points",
    SAYS(POINT_COLUMN_MISSING) = "the column \"{1}\" is missing; a fit needs {2} there",
    SAYS(ACTING_UNKNOWN) = "{1} is not how a valve acts; it is direct or pilot",
    SAYS(POINT_COUNT) = "a fit needs 2 to {1} points, one a row; here are {2}",
    SAYS(POINT_ALONE) = "one point makes no valve; give at least two",
    SAYS(POINT_IMPOSSIBLE) =
        "this is no working point: flow and fall-off lie above 0, the set pressure below the inlet, and the outlet above the atmosphere",
    SAYS(POINTS_CONTRADICT) =
        "this point and row {1} contradict each other: a valve opens further the more its outlet falls, and here it passes less for its drop",
    SAYS(POINT_ABOVE_KV) = "this point passes more than the full Kv that is given",
    SAYS(COLUMN_UNKNOWN) =
        "{1} is no column of a catalogue; they are listed in docs/formats/catalogue.md",
    SAYS(COLUMN_SAME) = "{1} says the same as the column {2}",
    SAYS(COLUMN_MISSING) = "the column \"{1}\" is missing; every valve needs {2} there",
    SAYS(COLUMN_MISSING_IT) = "the column \"{1}\" is missing; every valve needs it",
    SAYS(TABLE_NO_VALVES) = "the table has no rows; expected one valve a row",
    SAYS(TABLE_MANY_VALVES) = "the table has {1} rows; at most {2} valves are read",
};
