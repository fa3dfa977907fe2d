/* What waits, as a file: an export as `quell site import` reads it, so that nothing hangs on one phone. Nothing here knows a browser. */
import { isObject, type Json } from "../project/json";
import type { Rec } from "./record";

export interface Attached {
    sha256: string;
    bytes: Uint8Array;
}

/** A multiple of three bytes, so that parts put together are the whole in base64. */
const PART_BYTES = 786_432;

export function toExport(records: readonly Rec[], attached: readonly Attached[]): string {
    const parts = attached.flatMap(({ sha256, bytes }) =>
        Array.from({ length: Math.ceil(bytes.length / PART_BYTES) }, (_, at) => {
            const begins = at * PART_BYTES;
            return { sha256, size: bytes.length, begins, base64: toBase64(bytes.subarray(begins, begins + PART_BYTES)) };
        }),
    );
    const lines = (list: readonly object[]): string => list.map((each) => JSON.stringify(each)).join(",\n");
    return `{"records":1,"list":[\n${lines(records)}\n],"attachments":[\n${lines(parts)}\n]}\n`;
}

/** What an export holds; null where the text is none. */
export function fromExport(text: string): { records: Rec[]; attached: Attached[] } | null {
    let root: Json;
    try {
        root = JSON.parse(text) as Json;
    } catch {
        return null;
    }
    const list = isObject(root) && root["records"] === 1 ? root["list"] : undefined;
    if (!isObject(root) || !Array.isArray(list) || !list.every(isRecord)) {
        return null;
    }
    const files = new Map<string, Uint8Array>();
    const parts = root["attachments"];
    for (const part of Array.isArray(parts) ? parts : []) {
        if (isObject(part) && typeof part["sha256"] === "string" && typeof part["base64"] === "string") {
            const begins = Number(part["begins"]);
            const size = Number(part["size"]);
            const bytes = fromBase64(part["base64"]);
            const whole = files.get(part["sha256"]) ?? (size <= FILE_BYTES ? new Uint8Array(size) : undefined);
            if (whole === undefined || bytes === null || !(begins >= 0 && begins + bytes.length <= whole.length)) {
                return null;
            }
            whole.set(bytes, begins);
            files.set(part["sha256"], whole);
        }
    }
    return { records: list as unknown as Rec[], attached: [...files].map(([sha256, bytes]) => ({ sha256, bytes })) };
}

/* The most that one photo, sound or log has. */
const FILE_BYTES = 67_108_864;

function isRecord(value: Json): boolean {
    return isObject(value) && value["record"] === 1 && typeof value["id"] === "string" && typeof value["kind"] === "string" && isObject(value["body"]);
}

/* As many at once as a call takes arguments anywhere. */
const SLICE_BYTES = 8192;

function toBase64(bytes: Uint8Array): string {
    let text = "";
    for (let at = 0; at < bytes.length; at += SLICE_BYTES) {
        text += String.fromCharCode(...bytes.subarray(at, at + SLICE_BYTES));
    }
    return btoa(text);
}

function fromBase64(text: string): Uint8Array | null {
    try {
        return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    } catch {
        return null;
    }
}
