/* What was made here goes to the server, and what others made comes: over and over, whatever was lost on the way. A record leaves the
 * queue only once the server has said that it has it. Nothing here knows a browser: `Shelf` keeps, `Wire` carries. */
import type { Rec } from "./record";

/** What waits to be sent: a record, or the bytes of a photo, sound or log. */
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

/** How far this device has come with a store: the receipt up to which everything is here, and the latest mark that the store gave ("" before
 * the first), by which it is told from one that was put back from a backup, and from any other. */
export interface Place {
    receipt: number;
    mark: string;
}

/** What is kept here. Each of these is done whole or not at all. */
export interface Shelf {
    /** In the order in which it was made. */
    waiting(): Promise<Waiting[]>;
    /** The server has it: it waits no more. The later of `mark` and the one before is kept. */
    acknowledged(one: Waiting, mark: string): Promise<void>;
    refuse(one: Waiting, why: Refusal): Promise<void>;
    place(): Promise<Place>;
    /** Takes what came, and with it the place, of which the later mark is kept; null = of a store that is being gone over to: the mark is
     * STARTING_OVER until that is done. */
    take(records: readonly Rec[], place: Place | null): Promise<void>;
    /** Goes on with another store, at `place`: whatever is here but the records in `there` waits to be sent to it, and all files. */
    startOver(there: ReadonlySet<string>, place: Place): Promise<void>;
    /** How many bytes there are of a photo, sound or log. */
    size(sha256: string): Promise<number>;
    part(sha256: string, begins: number, ends: number): Promise<Uint8Array>;
}

export interface Answer {
    /** 0: no answer came, and nobody knows whether the server got it. */
    status: number;
    body: unknown;
}

/** Each says the mark that is kept here, so that no store answers but the one that gave it. */
export interface Wire {
    put(record: Rec, match: string | null, mark: string): Promise<Answer>;
    changes(since: number, mark: string): Promise<Answer>;
    held(sha256: string, mark: string): Promise<Answer>;
    putPart(sha256: string, bytes: Uint8Array, range: string, mark: string): Promise<Answer>;
}

/** How an exchange ended: all done; no server; the server wants a login; it has no time now. */
export type Ended = "done" | "offline" | "login" | "later";

const KEPT_STATUS = 200;
const NEW_STATUS = 201;
const CONFLICT_STATUS = 412;
const CLASH_STATUS = 409;
const LOGIN_STATUS = 401;
const TRIES_STATUS = 429;
const TROUBLE_STATUS = 500;

/* As long a part as a server takes. */
const PART_BYTES = 1_048_576;

/** A mark that no store gives. What was taken so far of another store is covered by no mark, and a page that is closed meanwhile has to begin
 * again. */
export const STARTING_OVER = "0.";

/** Of two marks ("1200.9f86d081884c7d65") the one that was given later. */
export function laterMark(one: string, other: string): string {
    const number = (mark: string): number => (mark === "" ? -1 : mark === STARTING_OVER ? Infinity : Number(mark.slice(0, mark.indexOf("."))));
    return number(other) > number(one) ? other : one;
}

/** Sends what waits, then takes what is new. Where the server's store is not the one that was known here, all of it is taken anew, and what it
 * lacks is sent. `tell` hears of each step that changed what is here. */
export async function exchange(shelf: Shelf, wire: Wire, tell: () => void): Promise<Ended> {
    const ended = await sendAndPull(shelf, wire, tell);
    if (ended !== "another store") {
        return ended;
    }
    const over = await startOver(shelf, wire, tell);
    const again = over === "done" ? await sendAndPull(shelf, wire, tell) : over;
    return again === "another store" ? "later" : again;
}

/** As `Ended`; or the server's store is not the one that was known here. */
type Gone = Ended | "another store";

async function sendAndPull(shelf: Shelf, wire: Wire, tell: () => void): Promise<Gone> {
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
function stops(answer: Answer): Gone | null {
    if (answer.status === 0) {
        return "offline";
    }
    if (answer.status === LOGIN_STATUS) {
        return "login";
    }
    if (answer.status === CLASH_STATUS && (answer.body as { code?: string } | null)?.code === "other-store") {
        return "another store";
    }
    return answer.status === TRIES_STATUS || answer.status >= TROUBLE_STATUS ? "later" : null;
}

function refusal(answer: Answer): Refusal {
    const body = (answer.body ?? {}) as { code?: string; detail?: string; problems?: { says: string }[] };
    const says = [body.detail ?? "", ...(body.problems ?? []).map((each) => each.says)].join(" ").trim();
    return { status: answer.status, code: body.code ?? "", says };
}

function markOf(answer: Answer): string {
    return (answer.body as { mark?: string } | null)?.mark ?? "";
}

async function sendRecord(shelf: Shelf, wire: Wire, one: Waiting, record: Rec): Promise<Gone> {
    const parents = record.parents ?? [];
    const match = parents.length === 0 ? null : parents.map((id) => `"${id}"`).join(", ");
    return settle(shelf, one, await wire.put(record, match, (await shelf.place()).mark));
}

async function sendFile(shelf: Shelf, wire: Wire, one: Waiting): Promise<Gone> {
    const sha256 = one.sha256 ?? "";
    const size = await shelf.size(sha256);
    const { mark } = await shelf.place();
    let answer = await wire.held(sha256, mark);
    for (let before = -1; answer.status === KEPT_STATUS; ) {
        const told = answer.body as { held: number; whole: boolean };
        if (told.whole || told.held >= size) {
            break;
        }
        if (told.held <= before) {
            return "later"; // it took a part and has no more than before
        }
        before = told.held;
        const ends = Math.min(size, told.held + PART_BYTES);
        answer = await wire.putPart(sha256, await shelf.part(sha256, told.held, ends), `bytes ${told.held}-${ends - 1}/${size}`, mark);
    }
    return settle(shelf, one, answer);
}

/** What becomes of one that was sent. */
async function settle(shelf: Shelf, one: Waiting, answer: Answer): Promise<Gone> {
    // A version beside others is kept too: that is a conflict, for a person to settle.
    if (answer.status === KEPT_STATUS || answer.status === NEW_STATUS || answer.status === CONFLICT_STATUS) {
        await shelf.acknowledged(one, markOf(answer));
        return "done";
    }
    const ended = stops(answer);
    if (ended === null) {
        await shelf.refuse(one, refusal(answer));
    }
    return ended ?? "done";
}

interface Changes extends Place {
    records: Rec[];
    more: boolean;
}

async function pull(shelf: Shelf, wire: Wire, tell: () => void): Promise<Gone> {
    for (;;) {
        const place = await shelf.place();
        const answer = await wire.changes(place.receipt, place.mark);
        if (answer.status !== KEPT_STATUS) {
            return stops(answer) ?? "later";
        }
        const told = answer.body as Changes;
        await shelf.take(told.records, { receipt: told.receipt, mark: markOf(answer) });
        if (told.records.length > 0) {
            tell();
        }
        if (!told.more) {
            return "done";
        }
    }
}

/** Takes all there is from the first receipt on. */
async function startOver(shelf: Shelf, wire: Wire, tell: () => void): Promise<Gone> {
    const there = new Set<string>();
    let place: Place = { receipt: 0, mark: "" };
    for (;;) {
        const answer = await wire.changes(place.receipt, place.mark);
        if (answer.status !== KEPT_STATUS) {
            return stops(answer) ?? "later";
        }
        const told = answer.body as Changes;
        await shelf.take(told.records, null);
        told.records.forEach((each) => there.add(each.id));
        place = { receipt: told.receipt, mark: markOf(answer) };
        tell();
        if (!told.more) {
            await shelf.startOver(there, place);
            return "done";
        }
    }
}
