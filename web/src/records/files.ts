/* The bytes of photos, sounds and logs, by their hash: kept on this device, or had from the server and then kept. Nothing here knows a screen. */
import type { JsonObject } from "../project/json";

export interface Held {
    sha256: string;
    type: string;
    blob: Blob;
}

export interface Cupboard {
    file(sha256: string): Promise<Blob | undefined>;
    keepFile(file: Held): Promise<void>;
}

export interface PartWire {
    /** What the server has from `begins` on, as much as it gives at once; null where it cannot be had now. */
    part(sha256: string, begins: number): Promise<Blob | null>;
}

/** The file that a record's body speaks of; null where it cannot be had now. */
export async function fileOf(cupboard: Cupboard, wire: PartWire, body: JsonObject): Promise<Blob | null> {
    const sha256 = String(body["sha256"]);
    const type = String(body["type"]);
    const held = await cupboard.file(sha256);
    if (held !== undefined) {
        return held;
    }
    const blob = await fetched(wire, sha256, Number(body["size"]));
    if (blob === null || (await sha256Of(blob)) !== sha256) {
        return null;
    }
    await cupboard.keepFile({ sha256, type, blob });
    return new Blob([blob], { type });
}

async function fetched(wire: PartWire, sha256: string, size: number): Promise<Blob | null> {
    const parts: Blob[] = [];
    for (let begins = 0; begins < size; ) {
        const part = await wire.part(sha256, begins);
        if (part === null || part.size === 0) {
            return null;
        }
        parts.push(part);
        begins += part.size;
    }
    return new Blob(parts);
}

export async function sha256Of(blob: Blob): Promise<string> {
    const hash = await crypto.subtle.digest("SHA-256", await blob.arrayBuffer());
    return [...new Uint8Array(hash)].map((byte) => byte.toString(HEX_LETTERS).padStart(2, "0")).join("");
}

const HEX_LETTERS = 16;
