/* Which peak is taken and how it was counted, in English. */
#include "wording/language.h"

#define SAYS(name) [QLL_SAYS_##name - QLL_PEAKS_FIRST]

const char *const qll_remarks_en[QLL_REPORT_FIRST - QLL_PEAKS_FIRST] = {
    SAYS(REMARK_UNITS_SPLIT) = "Of them {low} are private, {high} public.",
    SAYS(REMARK_ROOMS_HOTEL) = "What stands in guest rooms counts as private: tank toilets, lavatories, tubs, showers (IPC chapter 2, from "
                               "memory). Lobby toilets and the like: say \"occupancy\": \"public\".",
    SAYS(REMARK_ROOMS_HOSPITAL) = "What stands in patient rooms counts as private: toilets, lavatories, tubs, showers (IPC chapter 2, from "
                                  "memory). Those of visitors and staff: say \"occupancy\": \"public\".",
    SAYS(REMARK_COUNTED_APART) = "Counted piece by piece, the {count} bathroom groups make it {value} units and {flow}.",
    SAYS(REMARK_COUNTED_GROUPS) = "With {count} of the bathrooms counted as groups it is {value} units and {flow}; a reviewer takes either count.",
    SAYS(REMARK_FLUSH_TURNS) =
        "Flushometers are {share} of the units and put the whole building in the flushometer column, the safe side; that column is for buildings where they "
        "predominate (from memory). The flush tank column gives {flow}.",
    SAYS(REMARK_FLUSH_LEAST) = "One flushometer alone draws {flow}, more than the table's {low}: that is taken.",
    SAYS(REMARK_UNITS_HELD) = "The table ends at 5000 units; its last value is held as a floor.",
    SAYS(REMARK_NOT_UPC) =
        "Where the plumbing code is the UPC (much of the western US) this is no code figure: read the peak off that code's chart and give it as \"peak\".",
    SAYS(REMARK_TAKEN_APART) = "The {count} bathroom groups are taken apart: toilet, lavatory, tub with shower in a full one (our assumption).",
    SAYS(REMARK_BS_TAPS) = "A bath is counted once; where the code means each of its two taps, baths are half counted.",
    SAYS(REMARK_CLOCK_APART) =
        "\"{name}\" ({flow}) does not run in the busiest hour, {hour}, and the code adds it to the peak all the same. Take it off before the station: then "
        "{without} is left to deliver instead of {peak}.",
    SAYS(REMARK_CLOCK_MEETS) = "\"{name}\" ({flow}) runs in the busiest hour, {hour}: it comes on top of the peak. Taken off before "
                               "the station it leaves {without} to deliver instead of {peak}.",
    SAYS(REMARK_PEOPLE_GIVEN) = "\"people\" is what counts: {count}. By \"{name}\", {value}, it would be {other}.",
    SAYS(REMARK_UNITS_END) =
        "its fixtures count {value} units and IPC Table E103.3(3) ends at 5000; the design peak, {flow}, is that table's last value, a floor and not the peak: "
        "give the \"peak\" as a flow, as whoever designs the plumbing states it",
    SAYS(REMARK_LOG_ABOVE) = "the meter's log rose to {flow}, above the code's {low}, and is taken as the design peak: look whether every fixture is listed",
    SAYS(REMARK_PEAK_NEEDED) =
        "no code gives the design peak, because {what}; give the \"peak\" as a flow, or ask for \"pulse-model\", an ordinary day's busy hour",
    SAYS(REMARK_CROWDED_HOMES) = "{count} people in {value} homes: more than {most} in one is out of proportion; check both figures",
    SAYS(REMARK_CROWDED) = "{count} {people} and {value} fixtures: more than {most} for each fixture is out of proportion; check both figures",
    SAYS(REMARK_EMPTY) = "{value} fixtures and {count} {people}: more than {most} fixtures for each is out of proportion; check both figures",
    SAYS(REMARK_EMPTY_HOMES) = "{value} homes and {count} people: more than {most} homes for each is out of proportion; check both figures",
    SAYS(CLOCK_NO_DRAW) = "A flow by the clock is no draw: it may run with no fixture open.",
    SAYS(CARRIES_VELOCITY) =
        "The service carries about {flow} ({velocity} in [{size} ]pipe)[; the design peak is more, {peak}, and quell design takes what the service carries].",
    SAYS(CARRIES_PRESSURE) =
        "The service carries about {flow} (at more, the lowest supply leaves less than {inlet} before the station)[; the design peak is more, {peak}, and "
        "quell design takes what the service carries].",
    SAYS(HEAD_NO_FLOW) = "no flow",
};
