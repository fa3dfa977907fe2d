/* The logs that a survey names: facts of their own, whose bytes are files. A log belongs to the document of the survey, so that versions share
 * it, and two surveys of one site may each name another "log.csv". Nothing here knows a browser. */
import { isObject, type JsonObject } from "../project/json";
import type { Draft } from "./office";
import { isLater, type Rec } from "./record";

/** The files that `survey` names, each once, as the engine takes them. */
export function filesNamed(survey: JsonObject): string[] {
    const scenarios = survey["scenarios"];
    const names = (Array.isArray(scenarios) ? scenarios : []).flatMap((each) => {
        const log = isObject(each) ? each["log"] : undefined;
        return typeof log === "string" ? [log.trim()] : [];
    });
    return [...new Set(names)];
}

function logsOf(stands: readonly Rec[], document: string, name: string): Rec[] {
    return stands.filter(({ kind, body }) => kind === "log" && body["survey"] === document && body["name"] === name);
}

/** Of the logs in `stands` the one that a survey's document has under `name`: of several the one written last. */
export function logOf(stands: readonly Rec[], document: string, name: string): Rec | undefined {
    return logsOf(stands, document, name).reduce<Rec | undefined>((last, each) => (last === undefined || isLater(each, last) ? each : last), undefined);
}

/** A file by its name, as it is now. */
export interface NamedFile {
    name: string;
    sha256: string;
    blob: Blob;
}

/** The hashes of `files` by their names. */
export function hashesOf(files: readonly NamedFile[]): Record<string, string> {
    return Object.fromEntries(files.map(({ name, sha256 }) => [name, sha256]));
}

/** Logs of `files`, but of those that the records have already, and of those that are as they came from there (`pulled`): a newer one may have taken
 * their place meanwhile. Each takes the place of all of other bytes, whatever their clocks said. */
export function logDrafts(site: string, stands: readonly Rec[], document: string, files: readonly NamedFile[], pulled: Readonly<Record<string, string>>): Draft[] {
    return files.filter(({ name, sha256 }) => pulled[name] !== sha256).flatMap(({ name, sha256, blob }) => {
        const there = logsOf(stands, document, name);
        const draft = { kind: "log" as const, site, body: { survey: document, name, sha256, size: blob.size, type: "text/csv" } };
        const others = there.filter((each) => each.body["sha256"] !== sha256);
        return there.length === 0 ? [draft] : others.map(({ id }) => ({ ...draft, corrects: id }));
    });
}
