#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_REASON]

const char *const qll_reason_en[QLL_TEXT_SIZE(REASON)] = {
    /* why a default is taken */
    SAYS(WHY_NO_NAME) = "no name was given",
    SAYS(WHY_NO_UNITS) = "no units were asked for",
    SAYS(WHY_SEA_LEVEL) =
        "sea level, our assumption; {1} of height take {2} off the atmosphere (ISO 2533)",
    SAYS(WHY_GUEST_ROOMS) =
        "stands in guest rooms, our assumption; what private means is IPC chapter 2, from memory",
    SAYS(WHY_PATIENT_ROOMS) =
        "stands in patient rooms, our assumption; what private means is IPC chapter 2, from memory",
    SAYS(WHY_USUAL_COUNTED) = "usual for what the survey counts, our assumption",
    SAYS(WHY_USUAL_HOME) = "usual in each home, our assumption",
    SAYS(WHY_CLEAN_SCREEN) = "a clean screen, our assumption",
    SAYS(WHY_USUAL_SET) = "a usual set pressure, common practice, no source",
    SAYS(WHY_ALL_ALIKE) = "all scenarios count alike",
    SAYS(WHY_COLD_WATER) = "cold water in a building, common practice, no source",
    SAYS(WHY_COPPER) = "cold water in copper, Copper Tube Handbook (from memory)",
    SAYS(WHY_WINTER) = "cold water in winter, our assumption",
    SAYS(WHY_COMMON) = "common practice, no source",
    SAYS(WHY_STATIC_MAX) = "greatest static pressure at fixtures: IPC 604.8, UPC 608.2",
    SAYS(WHY_NO_FITTINGS) = "no fittings were given",
    SAYS(WHY_NO_HOURS) = "no hours were given",
    SAYS(WHY_NO_RISE) = "no rise was given",
    SAYS(WHY_LEGIONELLA) = "storage against legionella, common practice, no source",
    SAYS(WHY_LOWER_END) = "the lower end of 2 to 4 times, common practice, no source",
    SAYS(WHY_STUDY_QUANTILE) = "the quantile of the Peak Water Demand Study (2017)",
    SAYS(WHY_USUAL_PIPE) = "the usual pipe of building stations, our assumption",
    SAYS(WHY_USUAL_RELIEF) = "the usual relief valve of water heaters, common practice, no source",
    SAYS(WHY_WHOLE_FLOW) = "the whole flow of the station, the safe side",
    SAYS(WHY_MOST_DAYS) = "what most days are",
    SAYS(WHY_NO_PATH) = "no path was given; nothing is lost",
    SAYS(WHY_NO_OUTLETS) = "none was given; only the station's outlet is judged",
    SAYS(WHY_NO_FLOW_TEST) = "no flow test was given; our assumption, and not the safe side",
    SAYS(WHY_NO_UPSTREAM) = "nothing was given; the station stands at the main",
    SAYS(WHY_STATIC_AT_NO_FLOW) = "the pressure at no flow; dry seasons may stand lower",
    SAYS(WHY_FALLOFF) =
        "direct-acting valves are rated at {1} to {2} (common practice, no source); at the design peak some more is let pass",
    SAYS(WHY_PEOPLE_PER_HOME) = "2.3 for each home, our assumption",
    SAYS(WHY_DAYS_BY_CHANCE) =
        "days differ by chance alone; 0 to 0.5, 0.48 within a home of Alicante (our statistics)",
    SAYS(WHY_SUMMER) =
        "when most is drawn outdoors; spring and autumn 0.35 of it, winter nothing, our assumption",
    SAYS(WHY_UNITS_US) = "the survey's units are those of the US",
    SAYS(WHY_UNITS_METRIC) = "the survey's units are metric",
    SAYS(WHY_HOME_HOURS) =
        "of each home, 1.1 to 1.4 in 85 metered homes of Alicante (our statistics); 0.13 of the whole building comes on top",
    SAYS(WHY_HOURS_BY_CHANCE) = "hours differ by chance alone; nothing measured is known",
    SAYS(WHY_EVEN_HOUR) = "uses are even over an hour, our assumption",
    SAYS(WHY_BREAK) = "our assumption; 0 to 1 in {1} to {2}",
    SAYS(WHY_TABLE_FLOWS) = "flows as in the tables, which hold there: IPC 604.4, from memory",
    SAYS(WHY_HOSE_US) =
        "1.5 uses of 326 s a day in summer, 0 to 2.2; our assumption, one measured house; irrigation only where the survey says so",
    SAYS(WHY_HOSE_METRIC) =
        "0.3 uses of 326 s a day in summer, 0 to 2.2; our assumption, 5 to 8 L a person and day in DE and UK",
    SAYS(WHY_HOUSE_ONE_HOME) = "a house is one home, our assumption",
    SAYS(WHY_PEOPLE_IN_EACH) = "2.3 people in each, our assumption",
    SAYS(WHY_BETWEEN) = "between {1} and {2}: {3}",
    SAYS(WHY_NOT_IN_CATALOGUE) = "not in the catalogue",
    SAYS(WHY_BAND_ALONE) = "`band` came without pressures; our assumption",
    SAYS(WHY_SERVICE_SIZE) = "the service's; reducers to smaller valves are counted",
    SAYS(WHY_NO_PIPE_SIZE) =
        "no pipe's size was given; the smallest that carries the design peak within the greatest velocity",
    SAYS(WHY_WITHIN_BAND) =
        "carries the design peak within the velocity band; reducers to smaller valves are counted",
    SAYS(WHY_TEST_BEGINS) = "the test begins at a flow; our assumption, the steeper curve",
    SAYS(WHY_TEST_STATIC) = "the flow test's pressure at no flow; nights may stand higher",
    SAYS(WHY_PRECHARGE) = "what a tank behind a reducing valve is charged to; read its gauge",
    SAYS(WHY_COARSE_PEAK) = "only the peak of coarse readings depends on it",
    SAYS(WHY_NO_ID) = "no id was given",
    SAYS(WHY_MOST_DIRECT) = "most reducing valves are, our assumption",
    SAYS(WHY_POINTS_REACH) = "not in the table; the points reach so far",
    SAYS(WHY_TENTH_BELOW) = "not in the table; a tenth below the only set pressure",
    SAYS(WHY_NOISE_FOLLOWS) = "our assumption; what the station's noise may be follows from it",
    SAYS(WHY_SAME_MONEY) = "our assumption; read as the same number in the catalogue's currency",
    SAYS(WHY_PRICE_DIRECT) =
        "not in the catalogue; estimated for a direct-acting valve of its size",
    SAYS(WHY_PRICE_PILOT) =
        "not in the catalogue; estimated for a pilot-operated valve of its size",
    SAYS(WHY_ONLY_ONE) = "the only one in the catalogue of that size and kind for its set pressure",
    SAYS(WHY_MIDDLE_ONE) = "the middle one by Kv of {1} in the catalogue of that size and kind",
    SAYS(WHY_GALVANIZED) = "galvanized pipe is taken for schedule 40, common practice, no source",
    SAYS(WHY_DRAWN_TUBE) = "drawn copper, brass or glass tube, Crane TP-410",
    SAYS(WHY_NO_MATERIAL) = "our assumption where no material is given",
    SAYS(WHY_ONE_PATH) = "IEC 60534-8-4 for a trim of one flow path",
    SAYS(WHY_METALS) = "metals, our assumption",
    SAYS(WHY_OURS) = "our assumption",
    /* what is taken instead */
    SAYS(VALUE) = "{1}",
    SAYS(VALUE_RANGE) = "{1} to {2}",
    SAYS(VALUE_BY_SIZE) = "{1} to {2}, by size",
    SAYS(VALUE_NO_PIPES) = "no pipes",
    SAYS(VALUE_NONE) = "none",
    SAYS(VALUE_NOTHING) = "nothing",
    SAYS(VALUE_FLAT) = "the pressure does not fall with flow",
    SAYS(VALUE_PRECHARGE) = "the station's outlet at no flow",
    SAYS(VALUE_BREAK) = "{1} of an hour's uses in {2}",
    SAYS(VALUE_SCENARIO) = "scenario {1}",
    SAYS(VALUE_FIXTURES) = "{1} x {2}",
    SAYS(VALUE_FIXTURES_AS) = "{1} x {2} ({3})",
    SAYS(VALUE_LIKE_PIPE) = "that of the pipe",
    SAYS(VALUE_LIKE_VALVE) = "that of the valve's ends",
    SAYS(VALUE_ESTIMATED_XFZ) = "estimated from coefficient, FL and Fd",
    SAYS(VALUE_OURS) = "{1} (our assumption)",
    SAYS(VALUE_LOCKUP_RISE) = "{1} direct, {2} pilot (our assumption)",
    SAYS(VALUE_INLET_EFFECT) = "0.05 direct, 0 pilot (our assumption)",
    SAYS(VALUE_FLOW_MIN) =
        "8 % direct, 5 % pilot of the flow at full Kv with {1} over it, a greater share at a greater drop (our estimate)",
    SAYS(VALUE_XFZ) = "estimated from the opening, IEC 60534-8-4 eq. 3a",
    SAYS(VALUE_SEAT_BORE) = "0.55 of the nominal size (our assumption)",
    /* whose default it is, where that is no key */
    SAYS(WHAT_PIPE_LIMIT) = "largest valve that fits the pipe",
    SAYS(WHAT_HEADER) = "size of the station pipe",
    SAYS(WHAT_OF_VALVES) = "{1}: {2}",
    SAYS(AND_MORE) = "{1} and {2} more",
    /* a day's water: data/habits.csv */
    SAYS(HABITS_APARTMENT_US) =
        "indoors with newer fixtures; our choice between 110 and 138 gal a home, Residential End Uses of Water v2 (2016)",
    SAYS(HABITS_HOME_METRIC) =
        "indoors; national statistics, DE 122 to 127, NL 119 to 129, UK 126 to 166, CH 142, ES 133 L",
    SAYS(HABITS_HOUSE_US) =
        "indoors; 138 gal a home, Residential End Uses of Water v2 (2016), 2.6 people a home from memory",
    SAYS(HABITS_HOTEL_US) =
        "rooms only, 80 gal with restaurant, laundry and pool; wastewater tables, and trade studies of 100 to 200 gal a room",
    SAYS(HABITS_HOTEL_METRIC) =
        "rooms only, 300 L with restaurant, laundry and pool; Metcalf and Eddy 2003 and European studies",
    SAYS(HABITS_OFFICE_US) =
        "the whole building, fixtures alone are 41 % (EPA); Metcalf and Eddy 2003 and local tables",
    SAYS(HABITS_OFFICE_METRIC) =
        "the whole building, fixtures alone are about 17 L; Metcalf and Eddy 2003, IE 50, DE 22.5, CH 60 L",
    SAYS(HABITS_SCHOOL_US) =
        "on a school day, rest rooms alone are 45 % (EPA); our choice, local design tables 11 to 21 gal",
    SAYS(HABITS_SCHOOL_METRIC) =
        "on a school day; our choice, IT 18.7 (Water Supply 13, 2013), UK 27 to 55, BR 13 to 22 L",
    SAYS(HABITS_RESTAURANT_US) =
        "a meal, kitchen and all; Commercial and Institutional End Uses of Water 2000, benchmark 6 to 9 gal",
    SAYS(HABITS_RESTAURANT_METRIC) =
        "a meal, kitchen and all; the US benchmark, and Metcalf and Eddy 2003 with 25 to 45 L a customer",
    SAYS(HABITS_HOSPITAL_US) =
        "a bed, cooling and equipment too, fixtures are 250 L of it; median of those tracked by EPA 2012",
    SAYS(HABITS_HOSPITAL_METRIC) =
        "a bed, cooling and equipment too, fixtures are 250 L of it; ES 537 L (J. Healthcare Eng. 2016), DE 282, IT 1255 L",
    /* where hours come from: data/diurnal.csv */
    SAYS(HOURS_ALICANTE) =
        "our computation from open data: 92 metered households, Alicante, hourly registers, 1 year, CC BY-SA 4.0",
    SAYS(HOURS_MIDRISE_US) =
        "US DOE prototype midrise apartment hot-water schedule (raw x0.5225 mean)",
    SAYS(HOURS_DWELLING_CH) = "open urban-energy database (MIT), residential hot water, Swiss",
    SAYS(HOURS_OFFICE) =
        "ASHRAE 90.1-1989 s.13 office service-water schedule as carried in a US DOE model file; weekday/saturday/sunday raw sums 5.37/2.57/1.13",
    SAYS(HOURS_ASHRAE) = "ASHRAE 90.1-1989 s.13 service-water schedule (from memory)",
    SAYS(HOURS_PRESENCE) = "open urban-energy database (MIT): occupant presence used for water",
    SAYS(HOURS_HOSPITAL_CH) =
        "open urban-energy database (MIT): occupant presence (43 % bed rooms, 56 % treatment) used for water",
    SAYS(HOURS_HOUSE) = "our assumption: use the measured apartment weekday shape",
    SAYS(HOURS_OWN) = "the survey's own",
    /* uses as DIN 1988-300 calls them: data/din1988.csv */
    SAYS(DIN_RESIDENTIAL) = "residential, assisted living, senior residence",
    SAYS(DIN_HOSPITAL) = "bed wing of hospital",
    SAYS(DIN_HOTEL) = "hotel",
    SAYS(DIN_SCHOOL) = "school",
    SAYS(DIN_OFFICE) = "office / administration",
    SAYS(DIN_NURSING) = "nursing home",
    SAYS(DIN_WITHDRAWN) = "withdrawn DIN 1988-3 residential, for comparison",
    /* tables of estimates */
    SAYS(TABLE_IPC) = "IPC 2018/2021 Appendix E, Tables E103.3(2) and E103.3(3)",
    SAYS(TABLE_TRADE) = "older trade table \"water for public buildings\"",
    SAYS(TABLE_OWN_USES) = "our default end uses, data/enduse.csv and data/diurnal.csv",
    SAYS(TABLE_GIVEN) = "given in the survey",
    SAYS(TABLE_STUDY) = "Peak Water Demand Study 2017, as carried in UPC Appendix M",
    SAYS(TABLE_PROBABILITIES) = "probabilities of use given in the survey",
    SAYS(TABLE_DIN) = "DIN 1988-300:2012-05",
    SAYS(TABLE_EN) = "EN 806-3:2006 Table 2",
    SAYS(TABLE_BS) = "BS 6700:1997 Table D.1",
    /* sources */
    SAYS(SOURCE_KV) = "IEC 60534-2-1: flow through a control valve, choked flow, Kv",
    SAYS(SOURCE_XFZ) =
        "IEC 60534-8-4: cavitation ratio xF, its onset xFz and how xFz moves with inlet pressure",
    SAYS(SOURCE_COLEBROOK) = "Darcy-Weisbach with the Colebrook friction factor: losses in pipes",
    SAYS(SOURCE_BANDS) =
        "velocity band {1} to {2}, gauge ratio 2 preferred, 3 at most: common practice, no source",
    SAYS(SOURCE_INVENTED) =
        "generic catalogue: invented valves of ordinary proportions, no maker's data",
    SAYS(SOURCE_OPENING_LAW) =
        "opening in proportion to fall-off up to full travel: force balance of a flat disc on a spring, own derivation",
    SAYS(SOURCE_IPC) =
        "International Plumbing Code 2018/2021, Appendix E, Tables E103.3(2) and E103.3(3); continuous flows by E102.2.2",
    SAYS(SOURCE_STUDY) =
        "Peak Water Demand Study (2017), Table of fixture flows and probabilities, as carried in UPC Appendix M; exact binomial convolution",
    SAYS(SOURCE_PROBABILITIES) =
        "probabilities of use given in the survey; exact binomial convolution",
    SAYS(SOURCE_NORMAL) =
        "mean plus z standard deviations of the same probabilities (Wistort 1994, from memory)",
    SAYS(SOURCE_DIN) =
        "DIN 1988-300:2012-05, V_S = a (sum V_R)^b - c; calculation flows with their source in data/fixtures.csv; draws over 15 minutes in full",
    SAYS(SOURCE_TRADE) =
        "older trade table \"water for public buildings\", as printed by a supply house; its first publication is not named there",
    SAYS(SOURCE_PULSES) =
        "Poisson rectangular pulses (Buchberger and Wu 1995), compound Poisson by hour; end uses partly our assumption, source in each row of data/enduse.csv, visits in data/visits.csv; hours: {1}",
    SAYS(SOURCE_EN) = "EN 806-3:2006 Table 2; points of its graph read off by the user",
    SAYS(SOURCE_BS) = "BS 6700:1997 Table D.1; points of its graph read off by the user",
    SAYS(SOURCE_LOG) = "the meter's log of the survey",
    SAYS(SOURCE_LOG_RESOLVED) =
        "the meter's log of the survey; what its readings hide by the pulse model, docs/theory/metered.md",
    SAYS(SOURCE_GIVEN) = "the survey's own design peak",
    /* words for machines, as people read them */
    SAYS(WORD_SURVEY) = "survey",
    SAYS(WORD_PEAK) = "peak",
    SAYS(WORD_DIRECT) = "direct",
    SAYS(WORD_PILOT) = "pilot",
    SAYS(WORD_COPPER_L) = "copper L",
    SAYS(WORD_NEXT_ROOM) = "next room",
    SAYS(WORD_US) = "us",
    SAYS(WORD_METRIC) = "metric",
    SAYS(WORD_HOSE) = "hose",
    SAYS(WORD_IRRIGATION) = "irrigation",
    SAYS(WORD_SUMMER) = "summer",
    SAYS(WORD_SPRING) = "spring",
    SAYS(WORD_AUTUMN) = "autumn",
    SAYS(WORD_WINTER) = "winter",
    SAYS(WORD_WEEKDAY) = "weekday",
    SAYS(WORD_SATURDAY) = "saturday",
    SAYS(WORD_SUNDAY) = "sunday",
    SAYS(WORD_NONE) = "none",
    SAYS(WORD_PRIVATE) = "private",
    SAYS(WORD_PUBLIC) = "public",
    SAYS(WORD_APARTMENT) = "apartment",
    SAYS(WORD_COPPER) = "copper",
    SAYS(WORD_CATALOGUE) = "catalogue",
    /* why there is no sound level, or how much the one there is hangs on */
    SAYS(LEVEL_NO_CASE) = "a number is missing or makes no sense",
    SAYS(LEVEL_PLASTIC) = "the method is for metal pipe only",
    SAYS(LEVEL_NO_DROP) = "the outlet is not below the inlet",
    SAYS(LEVEL_FLASHING) = "the outlet is at or below vapour pressure, so the water flashes",
    SAYS(LEVEL_CHOKED) = "the valve is choked (xF at or above FL squared)",
    SAYS(LEVEL_XF_HIGH) = "xF is above 0.8, where the cavitation terms run away",
    SAYS(LEVEL_BEYOND) = "the stage cannot pass the flow",
    SAYS(LEVEL_ESTIMATED) = "indicative; onset of cavitation estimated",
    SAYS(LEVEL_FROM_SHEET) = "indicative; onset of cavitation from the data sheet",
};
