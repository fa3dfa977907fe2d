/* Documents as the engine reads them, and changes at a path such as "scenarios[0].people". */
export type Json = null | boolean | number | string | Json[] | JsonObject;
export type JsonObject = { [key: string]: Json };

export type Step = string | number;

export function steps(path: string): Step[] {
    const found: Step[] = [];
    for (const part of path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)) {
        found.push(part[2] === undefined ? (part[1] ?? "") : Number(part[2]));
    }
    return found;
}

export function joined(path: string, step: Step): string {
    return typeof step === "number" ? `${path}[${step}]` : path === "" ? step : `${path}.${step}`;
}

export function isObject(value: Json | undefined): value is JsonObject {
    return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function get(root: Json, path: string): Json | undefined {
    let at: Json | undefined = root;
    for (const step of steps(path)) {
        if (typeof step === "number") {
            at = Array.isArray(at) ? at[step] : undefined;
        } else {
            at = isObject(at) ? at[step] : undefined;
        }
    }
    return at;
}

/** A copy of `root` in which `path` holds `value`; undefined takes it out, and what is then empty around it. */
export function put(root: Json, path: string, value: Json | undefined): Json {
    return changed(root, steps(path), value) ?? {};
}

function changed(node: Json | undefined, way: Step[], value: Json | undefined): Json | undefined {
    const [step, ...rest] = way;
    if (step === undefined) {
        return value;
    }
    if (typeof step === "number") {
        const list = Array.isArray(node) ? [...node] : [];
        const inner = changed(list[step], rest, value);
        if (inner === undefined) {
            list.splice(step, 1);
        } else {
            list[step] = inner;
        }
        return list.length === 0 ? undefined : list;
    }
    const object = isObject(node) ? { ...node } : {};
    const inner = changed(object[step], rest, value);
    if (inner === undefined) {
        delete object[step];
    } else {
        object[step] = inner;
    }
    return Object.keys(object).length === 0 && rest.length === 0 && value === undefined ? undefined : object;
}

export type Fix = { op: string; path: string; value: string };

/** Does what a problem's fix says; the document itself where it does not apply. */
export function mended(root: Json, fix: Fix): Json {
    const way = steps(fix.path);
    const last = way[way.length - 1];
    switch (fix.op) {
        case "replace":
        case "add":
            return put(root, fix.path, parsed(fix.value));
        case "remove":
            return put(root, fix.path, undefined);
        case "rename": {
            const name = parsed(fix.value);
            const parent = way.slice(0, -1).reduce<string>(joined, "");
            const object = parent === "" ? root : get(root, parent);
            if (typeof name !== "string" || typeof last !== "string" || !isObject(object)) {
                return root;
            }
            const renamed = Object.fromEntries(
                Object.entries(object).map(([key, value]) => [key === last ? name : key, value]),
            );
            return parent === "" ? renamed : put(root, parent, renamed);
        }
        default:
            return root;
    }
}

function parsed(text: string): Json {
    try {
        return JSON.parse(text) as Json;
    } catch {
        return text;
    }
}
