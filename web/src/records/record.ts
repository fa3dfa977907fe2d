/* Records, and what stands of a set of them (docs/theory/records.md): the same on a phone as in a store, in whatever order they
 * came. Nothing here knows a browser. */
import type { JsonObject } from "../project/json";

export type Kind = "visit" | "reading" | "test" | "photo" | "sound" | "log" | "site" | "survey" | "station" | "plan" | "likelihood";

export interface Rec {
    record: 1;
    id: string;
    kind: Kind;
    site?: string;
    document?: string;
    parents?: readonly string[];
    corrects?: string;
    who: string;
    at: string;
    body: JsonObject;
}

/** Whether `one` was written after `other`, by their own clocks; of the same moment the greater id is later. */
export function isLater(one: Rec, other: Rec): boolean {
    const apart = Date.parse(one.at) - Date.parse(other.at);
    return apart === 0 ? one.id > other.id : apart > 0;
}

/** Facts and versions that nothing in `all` has taken the place of, the last written first. */
export function standing(all: readonly Rec[]): Rec[] {
    const replaced = new Set(all.flatMap((each) => (each.document === undefined ? [each.corrects] : [])));
    const documents = new Map(all.map((each) => [each.id, each.document]));
    const outdated = new Set(all.flatMap((each) => (each.parents ?? []).filter((parent) => documents.get(parent) === each.document)));
    const last = new Map<string, Rec>();
    for (const each of all) {
        const before = each.corrects === undefined ? undefined : last.get(each.corrects);
        if (each.corrects !== undefined && (before === undefined || isLater(each, before))) {
            last.set(each.corrects, each);
        }
    }
    return all
        .filter((each) => (each.document === undefined ? !replaced.has(each.id) && (each.corrects === undefined || last.get(each.corrects) === each) : !outdated.has(each.id)))
        .sort((one, other) => (isLater(one, other) ? -1 : 1));
}

/** The versions that stand of each document in `stands` that has more than one. */
export function conflicts(stands: readonly Rec[]): Rec[][] {
    const versions = new Map<string, Rec[]>();
    for (const each of stands) {
        if (each.document !== undefined) {
            versions.set(each.document, [...(versions.get(each.document) ?? []), each]);
        }
    }
    return [...versions.values()].filter((each) => each.length > 1);
}

/** The nearest version that all of `versions` came from; undefined where there is none in `all`. */
export function ancestor(all: ReadonlyMap<string, Rec>, versions: readonly Rec[]): Rec | undefined {
    const earlier = versions.map((version) => {
        const found = new Set<string>();
        const ways = [version.id];
        for (let id = ways.shift(); id !== undefined; id = ways.shift()) {
            if (!found.has(id)) {
                found.add(id);
                ways.push(...(all.get(id)?.parents ?? []));
            }
        }
        return found;
    });
    const [first, ...others] = earlier;
    return [...(first ?? [])].filter((id) => others.every((each) => each.has(id))).flatMap((id) => all.get(id) ?? [])[0];
}

/** A moment as records write it, by the clock of the device: "2026-11-20T21:40:00-07:00". */
export function moment(now: Date): string {
    const offset = -now.getTimezoneOffset();
    const two = (number: number): string => String(number).padStart(2, "0");
    const ahead = Math.abs(offset);
    const local = new Date(now.getTime() + offset * MINUTE_MS).toISOString().slice(0, MOMENT_LETTERS);
    return `${local}${offset < 0 ? "-" : "+"}${two(Math.floor(ahead / HOUR_MINUTES))}:${two(ahead % HOUR_MINUTES)}`;
}

const MINUTE_MS = 60_000;
const HOUR_MINUTES = 60;
const MOMENT_LETTERS = 19;

/** The day of a moment, where it was written. */
export function day(at: string): string {
    return at.slice(0, DAY_LETTERS);
}

const DAY_LETTERS = 10;
