/* What was made here goes to the server, and what others made comes: over and over, whatever was lost on the way. A record leaves the
 * queue only once the server has said that it has it. Nothing here knows a browser: `Shelf` keeps, `Wire` carries. */
import type { Rec } from "./record";

/** What waits to be sent: a record, or the bytes of a photo or sound. */
export interface Waiting {
    /** Its place in the queue. */
    turn: number;
    record?: Rec;
    sha256?: string;
    /** Why the server did not take it, where it said so. */
    refused?: Refusal;
}

export interface Refusal {
    status: number;
    code: string;
    says: string;
}

/** What is kept here. Each of these is done whole or not at all. */
export interface Shelf {
    /** In the order in which it was made. */
    waiting(): Promise<Waiting[]>;
    /** The server has it: it waits no more. */
    acknowledged(one: Waiting): Promise<void>;
    refuse(one: Waiting, why: Refusal): Promise<void>;
    /** The receipt up to which everything is here. */
    receipt(): Promise<number>;
    /** Takes what came, and with it the receipt. */
    take(records: readonly Rec[], receipt: number): Promise<void>;
    /** How many bytes there are of a photo or sound. */
    size(sha256: string): Promise<number>;
    part(sha256: string, begins: number, ends: number): Promise<Uint8Array>;
}

export interface Answer {
    /** 0: no answer came, and nobody knows whether the server got it. */
    status: number;
    body: unknown;
}

export interface Wire {
    put(record: Rec, match: string | null): Promise<Answer>;
    changes(since: number): Promise<Answer>;
    held(sha256: string): Promise<Answer>;
    putPart(sha256: string, bytes: Uint8Array, range: string): Promise<Answer>;
}

/** How an exchange ended: all done; no server; the server wants a login; it has no time now. */
export type Ended = "done" | "offline" | "login" | "later";

const KEPT_STATUS = 200;
const NEW_STATUS = 201;
const CONFLICT_STATUS = 412;
const LOGIN_STATUS = 401;
const TRIES_STATUS = 429;
const TROUBLE_STATUS = 500;

/* As long a part as a server takes. */
const PART_BYTES = 1_048_576;

/** Sends what waits, then takes what is new. `tell` hears of each step that changed what is here. */
export async function exchange(shelf: Shelf, wire: Wire, tell: () => void): Promise<Ended> {
    for (const one of await shelf.waiting()) {
        const ended = await (one.record === undefined ? sendFile(shelf, wire, one) : sendRecord(shelf, wire, one, one.record));
        if (ended !== "done") {
            return ended;
        }
        tell();
    }
    return pull(shelf, wire, tell);
}

/** What stops an exchange; null where the answer says something of the one record alone. */
function stops(answer: Answer): Ended | null {
    if (answer.status === 0) {
        return "offline";
    }
    if (answer.status === LOGIN_STATUS) {
        return "login";
    }
    return answer.status === TRIES_STATUS || answer.status >= TROUBLE_STATUS ? "later" : null;
}

function refusal(answer: Answer): Refusal {
    const body = (answer.body ?? {}) as { code?: string; detail?: string; problems?: { says: string }[] };
    const says = [body.detail ?? "", ...(body.problems ?? []).map((each) => each.says)].join(" ").trim();
    return { status: answer.status, code: body.code ?? "", says };
}

async function sendRecord(shelf: Shelf, wire: Wire, one: Waiting, record: Rec): Promise<Ended> {
    const parents = record.parents ?? [];
    const answer = await wire.put(record, parents.length === 0 ? null : parents.map((id) => `"${id}"`).join(", "));
    // A version beside others is kept too: that is a conflict, for a person to settle.
    if (answer.status === KEPT_STATUS || answer.status === NEW_STATUS || answer.status === CONFLICT_STATUS) {
        await shelf.acknowledged(one);
        return "done";
    }
    const ended = stops(answer);
    if (ended === null) {
        await shelf.refuse(one, refusal(answer));
    }
    return ended ?? "done";
}

async function sendFile(shelf: Shelf, wire: Wire, one: Waiting): Promise<Ended> {
    const sha256 = one.sha256 ?? "";
    const size = await shelf.size(sha256);
    let answer = await wire.held(sha256);
    for (let before = -1; ; ) {
        if (answer.status !== KEPT_STATUS) {
            const ended = stops(answer);
            if (ended === null) {
                await shelf.refuse(one, refusal(answer));
            }
            return ended ?? "done";
        }
        const told = answer.body as { held: number; whole: boolean };
        if (told.whole || told.held >= size) {
            await shelf.acknowledged(one);
            return "done";
        }
        if (told.held <= before) {
            return "later"; // it took a part and has no more than before
        }
        before = told.held;
        const ends = Math.min(size, told.held + PART_BYTES);
        answer = await wire.putPart(sha256, await shelf.part(sha256, told.held, ends), `bytes ${told.held}-${ends - 1}/${size}`);
    }
}

async function pull(shelf: Shelf, wire: Wire, tell: () => void): Promise<Ended> {
    for (;;) {
        const answer = await wire.changes(await shelf.receipt());
        if (answer.status !== KEPT_STATUS) {
            return stops(answer) ?? "later";
        }
        const told = answer.body as { records: Rec[]; receipt: number; more: boolean };
        await shelf.take(told.records, told.receipt);
        if (told.records.length > 0) {
            tell();
        }
        if (!told.more) {
            return "done";
        }
    }
}
