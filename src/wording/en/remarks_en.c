/* Which peak is taken and how it was counted, in English. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_SAYS_##name - QLL_PEAKS_FIRST]

const char *const qll_remarks_en[QLL_REPORT_FIRST - QLL_PEAKS_FIRST] = {
    QLL_PUT(REMARK_UNITS_SPLIT) = "Of them {low} are private, {high} public.",
    QLL_PUT(REMARK_ROOMS_HOTEL) =
        "Fixtures in guest rooms count as private: tank toilets, lavatories, tubs, showers (IPC chapter 2, from memory). Lobby toilets and the like "
        "count as public where the survey says so.",
    QLL_PUT(REMARK_ROOMS_HOSPITAL) =
        "Fixtures in patient rooms count as private: toilets, lavatories, tubs, showers (IPC chapter 2, from memory). Those of visitors and staff "
        "count as public where the survey says so.",
    QLL_PUT(REMARK_COUNTED_APART) = "Counted fixture by fixture, the {count} bathroom groups make it {value} units and {flow}.",
    QLL_PUT(REMARK_COUNTED_GROUPS) = "With {count} of the bathrooms counted as groups it is {value} units and {flow}; a reviewer accepts either count.",
    QLL_PUT(REMARK_FLUSH_TURNS) =
        "Flushometers are {share} of the units and put the whole building in the flushometer column, the safe side; that column is for buildings where they "
        "predominate (from memory). The flush tank column gives {flow}.",
    QLL_PUT(REMARK_FLUSH_LEAST) = "One flushometer alone draws {flow}, more than the table's {low}: that is used.",
    QLL_PUT(REMARK_UNITS_HELD) = "The table ends at 5000 units; its last value is held as a floor.",
    QLL_PUT(REMARK_NOT_UPC) =
        "Where the plumbing code is the UPC (much of the western US) this is not a code number: read the peak off that code's chart and give it in the survey.",
    QLL_PUT(REMARK_TAKEN_APART) = "The {count} bathroom groups are split up: toilet, lavatory, tub with shower in a full one (our assumption).",
    QLL_PUT(REMARK_BS_TAPS) = "A tub is counted once; where the code counts each of its two faucets, tubs are half counted.",
    QLL_PUT(REMARK_CLOCK_APART) =
        "\"{name}\" ({flow}) does not run in the busiest hour, {hour}; the code adds it to the peak anyway. Take it off upstream of the station, and "
        "{without} is left to deliver instead of {peak}.",
    QLL_PUT(REMARK_CLOCK_MEETS) =
        "\"{name}\" ({flow}) runs in the busiest hour, {hour}: it comes on top of the peak. Taken off upstream of the station it leaves {without} to "
        "deliver instead of {peak}.",
    QLL_PUT(REMARK_PEOPLE_GIVEN) = "\"people\" is what counts: {count}. By \"{name}\", {value}, it would be {other}.",
    QLL_PUT(REMARK_UNITS_END) =
        "its fixtures add up to {value} units and IPC Table E103.3(3) ends at 5000; the design peak, {flow}, is that table's last value, a floor and "
        "not the peak: give the \"peak\" as a flow, from whoever designs the plumbing",
    QLL_PUT(REMARK_LOG_ABOVE) = "the meter's log rose to {flow}, above the code's {low}, and is used as the design peak: check that every fixture is listed",
    QLL_PUT(REMARK_PEAK_NEEDED) =
        "no code gives the design peak, because {what}; give the \"peak\" as a flow, or ask for \"pulse-model\", an ordinary day's busy hour",
    QLL_PUT(REMARK_CROWDED_HOMES) = "{count} people in {value} homes: more than {most} in one is out of proportion; check both numbers",
    QLL_PUT(REMARK_CROWDED) = "{count} {people} and {value} fixtures: more than {most} for each fixture is out of proportion; check both numbers",
    QLL_PUT(REMARK_EMPTY) = "{value} fixtures and {count} {people}: more than {most} fixtures for each is out of proportion; check both numbers",
    QLL_PUT(REMARK_EMPTY_HOMES) = "{value} homes and {count} people: more than {most} homes for each is out of proportion; check both numbers",
    QLL_PUT(CLOCK_NO_DRAW) = "Water that runs by the clock, such as cooling, may run with no fixture open.",
    QLL_PUT(CARRIES_VELOCITY) =
        "The service carries about {flow} ({velocity} in [{size} ]pipe)[; the design peak is more, {peak}: the station is sized for what the service carries].",
    QLL_PUT(CARRIES_PRESSURE) =
        "The service carries about {flow} (at more, the lowest street pressure leaves less than {inlet} at the station's inlet)[; the design peak is "
        "more, {peak}: the station is sized for what the service carries].",
    QLL_PUT(HEAD_NO_FLOW) = "no flow",
};
