/* What is kept on this device of the records: what was last pulled, and what was made here and waits. Each step is one transaction:
 * a page that is closed in the middle has done it, or has not. */
import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from "idb";
import type { Attached } from "./backup";
import { laterMark, STARTING_OVER, type Place, type Refusal, type Shelf, type Waiting } from "./exchange";
import type { Cupboard, Held } from "./files";
import type { Rec } from "./record";

/** A site as lists show it: what the engine makes of its records, and what a search looks through. */
export interface Row {
    site: string;
    name: string;
    plan_day: string | null;
    every_months: number;
    service_day: string | null;
    conflicts: number;
    name_key: string;
    words: string;
}

interface Item {
    turn?: number;
    id?: string;
    sha256?: string;
    refused?: Refusal;
}

interface Schema extends DBSchema {
    records: { key: string; value: Rec; indexes: { site: string; document: string; corrects: string } };
    queue: { key: number; value: Item };
    files: { key: string; value: Held };
    rows: { key: string; value: Row };
    /** Sites whose row is to be worked out anew; a number by chance tells one change from another. */
    stale: { key: string; value: number };
    notes: { key: string; value: string | number };
    /** Documents of no site, as tables of likelihoods are. */
    siteless: { key: string; value: true };
}

const STORES = ["records", "queue", "files", "rows", "stale", "notes", "siteless"] as const;
type Writing = IDBPTransaction<Schema, typeof STORES, "readwrite">;

export class RecordShelf implements Shelf, Cupboard {
    private constructor(private readonly base: IDBPDatabase<Schema>) {}

    /** Null where the browser keeps nothing. */
    static async open(name: string): Promise<RecordShelf | null> {
        try {
            const base = await openDB<Schema>(name, 2, {
                async upgrade(created, before, _, tx) {
                    const siteless = created.createObjectStore("siteless");
                    if (before === 1) {
                        for (let at = await tx.objectStore("records").openCursor(); at !== null; at = await at.continue()) {
                            if (at.value.site === undefined && at.value.document !== undefined) {
                                await siteless.put(true, at.value.document);
                            }
                        }
                        return;
                    }
                    const records = created.createObjectStore("records", { keyPath: "id" });
                    records.createIndex("site", "site");
                    records.createIndex("document", "document");
                    records.createIndex("corrects", "corrects");
                    created.createObjectStore("queue", { keyPath: "turn", autoIncrement: true });
                    created.createObjectStore("files", { keyPath: "sha256" });
                    created.createObjectStore("rows", { keyPath: "site" });
                    created.createObjectStore("stale");
                    created.createObjectStore("notes");
                },
                blocking(_before, _wanted, event) {
                    (event.target as IDBDatabase).close(); // a newer page wants it otherwise
                },
            });
            return new RecordShelf(base);
        } catch {
            return null;
        }
    }

    /* ---- what is made here ---- */

    /** Keeps what was made here; it waits from now on. */
    async keep(records: readonly Rec[], files: readonly Held[]): Promise<void> {
        await this.write(async (tx) => {
            for (const file of files) {
                await tx.objectStore("files").put(file);
                await tx.objectStore("queue").add({ sha256: file.sha256 });
            }
            for (const record of records) {
                await this.put(tx, record);
                await tx.objectStore("queue").add({ id: record.id });
            }
        });
    }

    /** Takes back what a file of an earlier queue holds, but what is here already; how many records that were. */
    async restore(records: readonly Rec[], attached: readonly Attached[]): Promise<number> {
        const known = await Promise.all(records.map((each) => this.base.getKey("records", each.id)));
        const fresh = records.filter((_, at) => known[at] === undefined);
        const types = new Map(fresh.map((each) => [each.body["sha256"], each.body["type"]]));
        const files = attached
            .filter((each) => types.has(each.sha256))
            .map(({ sha256, bytes }) => ({ sha256, type: String(types.get(sha256)), blob: new Blob([new Uint8Array(bytes)]) }));
        await this.keep(fresh, files);
        return fresh.length;
    }

    async waiting(): Promise<Waiting[]> {
        const tx = this.base.transaction(["queue", "records"]);
        const items = await tx.objectStore("queue").getAll();
        const all = await Promise.all(items.map(async (item) => ({ item, record: item.id === undefined ? undefined : await tx.objectStore("records").get(item.id) })));
        return all.map(({ item, record }) => ({
            turn: item.turn ?? 0,
            ...(record === undefined ? {} : { record }),
            ...(item.sha256 === undefined ? {} : { sha256: item.sha256 }),
            ...(item.refused === undefined ? {} : { refused: item.refused }),
        }));
    }

    async acknowledged(one: Waiting, mark: string): Promise<void> {
        await this.write(async (tx) => {
            await tx.objectStore("queue").delete(one.turn);
            await this.keepMark(tx, mark);
        });
    }

    async refuse(one: Waiting, why: Refusal): Promise<void> {
        const item = await this.base.get("queue", one.turn);
        if (item !== undefined) {
            await this.base.put("queue", { ...item, refused: why });
        }
    }

    /* ---- what comes ---- */

    async place(): Promise<Place> {
        return { receipt: Number((await this.base.get("notes", "receipt")) ?? 0), mark: String((await this.base.get("notes", "mark")) ?? "") };
    }

    async take(records: readonly Rec[], place: Place | null): Promise<void> {
        await this.write(async (tx) => {
            const own = records.map((each) => {
                const { receipt: _, ...record } = each as Rec & { receipt?: number };
                return record;
            });
            await Promise.all(own.map((each) => this.put(tx, each)));
            if (place !== null) {
                await tx.objectStore("notes").put(place.receipt, "receipt");
            }
            await this.keepMark(tx, place?.mark ?? STARTING_OVER);
        });
    }

    async startOver(there: ReadonlySet<string>, place: Place): Promise<void> {
        await this.write(async (tx) => {
            const queue = tx.objectStore("queue");
            const waiting = new Set((await queue.getAll()).map((item) => item.id ?? item.sha256));
            for (const sha256 of await tx.objectStore("files").getAllKeys()) {
                await (waiting.has(sha256) ? null : queue.add({ sha256 }));
            }
            for (const id of await tx.objectStore("records").getAllKeys()) {
                await (waiting.has(id) || there.has(id) ? null : queue.add({ id }));
            }
            await tx.objectStore("notes").put(place.receipt, "receipt");
            await tx.objectStore("notes").put(place.mark, "mark");
        });
    }

    /* ---- photos, sounds and logs ---- */

    async size(sha256: string): Promise<number> {
        return (await this.base.get("files", sha256))?.blob.size ?? 0;
    }

    async part(sha256: string, begins: number, ends: number): Promise<Uint8Array> {
        const held = await this.base.get("files", sha256);
        return new Uint8Array((await held?.blob.slice(begins, ends).arrayBuffer()) ?? new ArrayBuffer(0));
    }

    async file(sha256: string): Promise<Blob | undefined> {
        const held = await this.base.get("files", sha256);
        return held === undefined ? undefined : new Blob([held.blob], { type: held.type });
    }

    /** Keeps what the server has of one, to be there offline. */
    async keepFile(file: Held): Promise<void> {
        await this.base.put("files", file);
    }

    /* ---- what there is ---- */

    async record(id: string): Promise<Rec | undefined> {
        return this.base.get("records", id);
    }

    /** Records of a site, and those of others that take the place of one of them. */
    async ofSite(site: string): Promise<Rec[]> {
        const { store } = this.base.transaction("records");
        const own = await store.index("site").getAll(site);
        const documents = new Set(own.flatMap((each) => each.document ?? []));
        const versions = await Promise.all([...documents].map((document) => store.index("document").getAll(document)));
        const corrections = await Promise.all(own.map((each) => (each.document === undefined ? store.index("corrects").getAll(each.id) : [])));
        return [...new Map([...own, ...versions.flat(), ...corrections.flat()].map((each) => [each.id, each])).values()];
    }

    async ofDocument(document: string): Promise<Rec[]> {
        return this.base.getAllFromIndex("records", "document", document);
    }

    /** The ids of documents of no site. */
    async siteless(): Promise<string[]> {
        return this.base.getAllKeys("siteless");
    }

    async rows(): Promise<Row[]> {
        return this.base.getAll("rows");
    }

    async row(site: string): Promise<Row | undefined> {
        return this.base.get("rows", site);
    }

    /** Some of the sites whose row is to be worked out anew. */
    async stale(most: number): Promise<{ site: string; change: number }[]> {
        const tx = this.base.transaction("stale");
        const sites = await tx.store.getAllKeys(undefined, most);
        const changes = await tx.store.getAll(undefined, most);
        return sites.map((site, at) => ({ site, change: changes[at] ?? 0 }));
    }

    /** Keeps rows that were worked out; those of sites that have changed meanwhile stay stale. */
    async refresh(rows: readonly Row[], worked: readonly { site: string; change: number }[]): Promise<void> {
        await this.write(async (tx) => {
            for (const row of rows) {
                await tx.objectStore("rows").put(row);
            }
            for (const { site, change } of worked) {
                if ((await tx.objectStore("stale").get(site)) === change) {
                    await tx.objectStore("stale").delete(site);
                }
            }
        });
    }

    async note(key: string): Promise<string | undefined> {
        const note = await this.base.get("notes", key);
        return note === undefined ? undefined : String(note);
    }

    async setNote(key: string, value: string): Promise<void> {
        await this.base.put("notes", value, key);
    }

    private async keepMark(tx: Writing, mark: string): Promise<void> {
        const notes = tx.objectStore("notes");
        await notes.put(laterMark(String((await notes.get("mark")) ?? ""), mark), "mark");
    }

    private async put(tx: Writing, record: Rec): Promise<void> {
        const records = tx.objectStore("records");
        await records.put(record);
        if (record.site === undefined && record.document !== undefined) {
            await tx.objectStore("siteless").put(true, record.document);
        }
        // What it takes the place of may be of another site.
        const before = await Promise.all([record.corrects, ...(record.parents ?? [])].flatMap((id) => (id === undefined ? [] : [records.get(id)])));
        for (const site of new Set([record, ...before].flatMap((each) => each?.site ?? []))) {
            await tx.objectStore("stale").put(Math.random(), site);
        }
    }

    private async write(work: (tx: Writing) => Promise<void>): Promise<void> {
        const tx = this.base.transaction(STORES, "readwrite", { durability: "strict" });
        try {
            await work(tx);
        } catch (reason) {
            const ended = tx.done.catch(() => undefined);
            try {
                tx.abort(); // what went before in it must not stay
            } catch {
                // it has ended by itself
            }
            await ended;
            throw reason;
        }
        await tx.done;
    }
}
