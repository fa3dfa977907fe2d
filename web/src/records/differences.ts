/* Two or more versions of a document beside one another, and a new one out of what was chosen of each. Nothing here knows a browser. */
import { isObject, joined, put, type Json, type JsonObject } from "../project/json";

/** A place where versions differ: what each has there, undefined where it has nothing. */
export interface Difference {
    path: string;
    values: readonly (Json | undefined)[];
    /** The version that alone changed what all came from; null where more than one did, or nobody knows. */
    changedBy: number | null;
}

/** Where `versions` differ, field by field; lists of different length are one field. `base`: what all came from. */
export function differences(versions: readonly JsonObject[], base: JsonObject | undefined): Difference[] {
    return within("", versions, base);
}

function within(path: string, values: readonly (Json | undefined)[], base: Json | undefined): Difference[] {
    if (values.every((each) => isSame(each, values[0]))) {
        return [];
    }
    if (values.every(isObject)) {
        const keys = new Set(values.flatMap((each) => Object.keys(each as JsonObject)));
        return [...keys].flatMap((key) => within(joined(path, key), values.map((each) => (each as JsonObject)[key]), isObject(base) ? base[key] : undefined));
    }
    const [first] = values;
    if (Array.isArray(first) && values.every((each) => Array.isArray(each) && each.length === first.length)) {
        return first.flatMap((_, at) => within(joined(path, at), values.map((each) => (each as Json[])[at]), Array.isArray(base) ? base[at] : undefined));
    }
    const changed = values.flatMap((each, at) => (isSame(each, base) ? [] : [at]));
    return [{ path, values, changedBy: changed.length === 1 ? (changed[0] ?? null) : null }];
}

export function isSame(one: Json | undefined, other: Json | undefined): boolean {
    if (isObject(one) && isObject(other)) {
        const keys = Object.keys(one);
        return keys.length === Object.keys(other).length && keys.every((key) => key in other && isSame(one[key], other[key]));
    }
    if (Array.isArray(one) && Array.isArray(other)) {
        return one.length === other.length && one.every((each, at) => isSame(each, other[at]));
    }
    return one === other;
}

/** The first version with what was chosen in its place: `choices` says of each difference whose value it takes. */
export function settled(first: JsonObject, found: readonly Difference[], choices: readonly number[]): JsonObject {
    const whole = found.reduce<Json>((body, each, at) => {
        const value = each.values[choices[at] ?? 0];
        return isSame(value, each.values[0]) ? body : put(body, each.path, value);
    }, first);
    return isObject(whole) ? whole : first;
}
