/* Which of a survey's parts stand on which card: the order in which a plumber walks. Their names, units, limits and defaults
 * come from the engine. */
import type { Words } from "../words/en";

export interface Part {
    path: string;
    only?: readonly string[];
    but?: readonly string[];
    /** These stand in the open; the rest of them, mostly assumed, one tap away with what is assumed. */
    open?: readonly string[];
}

export interface Card {
    id: string;
    title: keyof Words;
    says: keyof Words;
    /** Paths of objects, and which of their fields (all where none is named). */
    parts: readonly Part[];
    /** Needed for a first answer. */
    first: boolean;
}

export const cards: readonly Card[] = [
    { id: "street", title: "cardStreet", says: "cardStreetSays", first: true, parts: [{ path: "supply", open: ["static_high", "flow_test"] }] },
    { id: "wanted", title: "cardWanted", says: "cardWantedSays", first: true, parts: [{ path: "downstream", but: ["outlets", "heater", "expansion_tank"], open: ["set_pressure"] }] },
    { id: "people", title: "cardPeople", says: "cardPeopleSays", first: true, parts: [{ path: "scenarios[0]", open: ["use", "people", "homes", "baths", "rooms", "beds", "pupils", "seats", "employees", "fixtures"] }] },
    { id: "way", title: "cardWay", says: "cardWaySays", first: false, parts: [{ path: "", only: ["upstream"] }, { path: "station_pipe" }] },
    { id: "outlets", title: "cardOutlets", says: "cardOutletsSays", first: false, parts: [{ path: "downstream", only: ["outlets"] }] },
    { id: "heater", title: "cardHeater", says: "cardHeaterSays", first: false, parts: [{ path: "downstream", only: ["heater", "expansion_tank"] }] },
    { id: "there", title: "cardThere", says: "cardThereSays", first: false, parts: [{ path: "", only: ["existing"] }] },
    { id: "rules", title: "cardRules", says: "cardRulesSays", first: false, parts: [{ path: "", only: ["site", "water", "limits", "costs"] }] },
    { id: "sheets", title: "cardSheets", says: "cardSheetsSays", first: false, parts: [{ path: "", only: ["name", "units", "project"] }] },
];

/** What may be tried without changing what is planned. */
export const whatIf: readonly Part[] = [
    { path: "supply", open: ["static_high"] },
    { path: "downstream", open: ["set_pressure"] },
    { path: "scenarios[0]", open: ["use", "people", "homes", "baths", "rooms", "beds", "pupils", "seats", "employees"] },
];
