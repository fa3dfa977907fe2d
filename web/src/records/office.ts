/* The records as the page has them: kept on this device, exchanged with the server when there is one, worked out by the engine. */
import { parsed, type Common, type Problem } from "../engine/answers";
import type { Engine } from "../engine/engine";
import type { Telling } from "../engine/protocol";
import type { Figure } from "../parts/reading";
import type { JsonObject } from "../project/json";
import { exchange, type Ended, type Waiting } from "./exchange";
import { fileOf, sha256Of, type Held } from "./files";
import { filesNamed, logOf, type NamedFile } from "./logs";
import type { Ranked } from "./ranking";
import { ancestor, conflicts, day, moment, standing, type Kind, type Rec } from "./record";
import { RecordShelf, type Row } from "./shelf";
import { HttpWire, type Heard } from "./wire";

export interface DueSite {
    site: string;
    name: string;
    service_day: string | null;
    every_months: number | null;
    due: string | null;
    state: "overdue" | "soon" | "later" | "no-plan";
    conflicts: number;
}

interface Sites extends Common {
    overdue: number;
    soon: number;
    sites: DueSite[];
}

export interface Course {
    what: string;
    says: string[];
    points: { day: string; shown: string }[];
}

/** How a site moves: its sheets with drawings, and the courses that are in them. */
export interface Trend {
    trends: Course[];
    html: string;
    figures: Figure[];
}

/** An answer of a case, in words. */
export interface Known {
    evidence: string;
    asks: string;
    says: string;
}

/** How the last exchange went; "none" before the first, "full" where this device could not keep what came. */
export type State = Ended | "working" | "none" | "full";

export interface NewFile {
    kind: "photo" | "sound";
    file: File;
    caption: string;
}

/** What is made of a record before it has an id, a time and a name. */
export interface Draft {
    kind: Kind;
    /** Without, of a table of likelihoods. */
    site?: string;
    document?: string;
    parents?: readonly string[];
    corrects?: string;
    body: JsonObject;
}

/* While much comes, what is shown follows so often. */
const LOOK_EVERY_MS = 2000;

/* So many sites are worked out at once: the page stays awake between. */
const SITES_AT_MOST = 100;

export class Office {
    state: State = "none";
    /** What waits, in order. */
    waiting: readonly Waiting[] = [];
    rows: readonly Row[] = [];
    /** Who writes: the one logged in last, or the name that was given where nobody logs in. */
    who = "";
    needsLogin = false;
    /** When everything was last exchanged. */
    exchanged = "";
    private readonly listeners = new Set<() => void>();
    private running: Promise<void> | null = null;
    private again = false;
    private looking: Promise<void> = Promise.resolve();
    private queued: Promise<void> | null = null;
    private shownAt = 0;
    private language = "en";
    private fullSays = "";
    /** One question at a time: the engine drops those that a newer one makes stale. */
    private asked: Promise<unknown> = Promise.resolve();

    private constructor(
        private readonly engine: Engine,
        private readonly shelf: RecordShelf,
    ) {}

    static async open(engine: Engine, name: string): Promise<Office | null> {
        const shelf = await RecordShelf.open(name);
        if (shelf === null) {
            return null;
        }
        const office = new Office(engine, shelf);
        office.who = (await shelf.note("who")) ?? "";
        office.needsLogin = (await shelf.note("needs_login")) === "true";
        office.exchanged = (await shelf.note("exchanged")) ?? "";
        await office.look();
        return office;
    }

    /** Calls `heard` whenever something changed; the answer ends that. */
    listen(heard: () => void): () => void {
        this.listeners.add(heard);
        return () => this.listeners.delete(heard);
    }

    /** The language, and what is said where this device can keep no more. */
    speak(language: string, fullSays: string): void {
        this.language = language;
        this.fullSays = fullSays;
    }

    /* ---- the server ---- */

    /** Sends what waits and takes what is new. One at a time; asked for meanwhile, it is done once more. */
    async exchange(): Promise<void> {
        this.again = this.running !== null;
        this.running ??= this.run()
            .catch(() => this.tell("full"))
            .finally(() => {
                this.running = null;
            });
        return this.running;
    }

    private async run(): Promise<void> {
        do {
            this.again = false;
            this.tell("working");
            const wire = new HttpWire(this.language);
            const session = await wire.session();
            if (session !== null) {
                await this.know(session.needs_login, session.who);
            }
            const ended = session === null ? "offline" : session.needs_login && session.who === null ? "login" : await exchange(this.shelf, wire, () => this.lookNowAndThen());
            if (ended === "done") {
                this.exchanged = moment(new Date());
                await this.shelf.setNote("exchanged", this.exchanged);
            }
            await this.look();
            this.tell(ended);
        } while (this.again);
    }

    /** Null where it went well; else what the server said, of status 0 where there is none. */
    async login(name: string, password: string): Promise<Heard | null> {
        const refused = await new HttpWire(this.language).login(name, password);
        if (refused === null) {
            await this.exchange();
        }
        return refused;
    }

    async logout(): Promise<void> {
        await new HttpWire(this.language).logout();
        await this.exchange();
    }

    /** The name under which is written where nobody logs in. */
    async name(who: string): Promise<void> {
        await this.know(this.needsLogin, who);
        this.tell(this.state);
    }

    private async know(needsLogin: boolean, who: string | null): Promise<void> {
        this.needsLogin = needsLogin;
        await this.shelf.setNote("needs_login", String(needsLogin));
        if (who !== null) {
            this.who = who;
            await this.shelf.setNote("who", who);
        }
    }

    /* ---- what is made here ---- */

    /** Keeps what was drafted, with its photos and sounds, all or nothing; what is wrong with it where it cannot be kept. `others`: files that
     * drafts speak of. */
    async keep(drafts: readonly Draft[], files: readonly NewFile[] = [], others: readonly Held[] = []): Promise<Problem[]> {
        const site = drafts[0]?.site ?? "";
        const held = await Promise.all(files.map(async ({ kind, file, caption }) => ({ kind, caption, file, sha256: await sha256Of(file) })));
        const shown = held.map<Draft>(({ kind, caption, file, sha256 }) => ({
            kind,
            site,
            body: { sha256, size: file.size, type: file.type === "" ? "application/octet-stream" : file.type, ...(caption === "" ? {} : { caption }) },
        }));
        const records = [...drafts, ...shown].map((each): Rec => ({ record: 1, id: crypto.randomUUID(), ...each, who: this.who, at: moment(new Date()) }));
        // Only the first is what somebody has a form of.
        const problems = (await Promise.all(records.map(async (each, at) => (await this.check(each)).map((problem) => (at === 0 ? problem : { ...problem, path: "" }))))).flat();
        if (problems.length > 0) {
            return problems;
        }
        const kept = await this.shelf
            .keep(
                records,
                [...held.map(({ file, sha256 }) => ({ sha256, type: file.type, blob: file })), ...others],
            )
            .then(
                () => true,
                () => false,
            );
        if (!kept) {
            return [{ severity: "error", code: "full", where: "", path: "", says: this.fullSays, hint: "", fix: null }];
        }
        await this.look();
        void this.exchange();
        return [];
    }

    private async check(record: Rec): Promise<Problem[]> {
        const told = await this.ask<Common>("record", [JSON.stringify(record)]);
        return (told?.problems ?? []).filter((each) => each.severity !== "warning");
    }

    /** What waits, to be saved as a file. */
    async queue(): Promise<{ records: Rec[]; files: { sha256: string; blob: Blob }[] }> {
        const records = this.waiting.flatMap((each) => each.record ?? []);
        const files = await Promise.all(this.waiting.flatMap(({ sha256 }) => (sha256 === undefined ? [] : [this.shelf.file(sha256).then((blob) => ({ sha256, blob }))])));
        return { records, files: files.flatMap(({ sha256, blob }) => (blob === undefined ? [] : [{ sha256, blob }])) };
    }

    /** How many records of such a file were not here. */
    async restore(records: readonly Rec[], attached: readonly { sha256: string; bytes: Uint8Array }[]): Promise<number> {
        const count = await this.shelf.restore(records, attached);
        await this.look();
        void this.exchange();
        return count;
    }

    /* ---- what there is ---- */

    async standing(site: string): Promise<Rec[]> {
        return standing(await this.shelf.ofSite(site)).filter((each) => each.site === site);
    }

    async row(site: string): Promise<Row | undefined> {
        return this.shelf.row(site);
    }

    /** The versions of a document that stand, and what they came from. */
    async versions(document: string): Promise<{ heads: Rec[]; base: Rec | undefined }> {
        const all = await this.shelf.ofDocument(document);
        const heads = standing(all);
        return { heads, base: ancestor(new Map(all.map((each) => [each.id, each])), heads) };
    }

    /** The version of a kind of document that was written last of those that stand. */
    async lastVersion(site: string, kind: Kind): Promise<{ document: string; version: string } | null> {
        const version = (await this.standing(site)).find((each) => each.kind === kind);
        return version?.document === undefined ? null : { document: version.document, version: version.id };
    }

    async record(id: string): Promise<Rec | undefined> {
        return this.shelf.record(id);
    }

    /** Documents, of sites and of none, that have more than one version that stands. */
    async conflicts(): Promise<Rec[][]> {
        const sites = this.rows.filter((each) => each.conflicts > 0);
        const ofSites = await Promise.all(sites.map(async ({ site }) => conflicts(await this.standing(site))));
        const others = await Promise.all((await this.shelf.siteless()).map(async (document) => conflicts(standing(await this.shelf.ofDocument(document)))));
        return [...ofSites, ...others].flat();
    }

    async sites(rows: readonly Row[]): Promise<Sites | null> {
        return this.ask<Sites>("sites", [JSON.stringify(rows)]);
    }

    async due(rows: readonly Row[]): Promise<Sites | null> {
        return this.ask<Sites>("due", [JSON.stringify(rows)]);
    }

    async trend(row: Row, stands: readonly Rec[], units: string): Promise<Trend | null> {
        const told = await this.ask<Common & Trend>("trend", [JSON.stringify(row), lines(stands)], { units, sheets: true });
        return told === null ? null : { ...told, trends: told.trends.filter((each) => each.says.length > 0) };
    }

    /** Where to go first, as the office worked it out: now, or when it could be asked last; null where it never could. */
    async rank(): Promise<Ranked | null> {
        const note = `rank ${this.language}`;
        const told = await new HttpWire(this.language).rank();
        if (told !== null) {
            await this.shelf.setNote(note, JSON.stringify({ day: day(moment(new Date())), ranking: told } satisfies Ranked));
        }
        return parsed<Ranked>((await this.shelf.note(note)) ?? "");
    }

    /** What people told and tests showed, in the engine's words; null where it cannot say. */
    async known(visit: JsonObject): Promise<Known[] | null> {
        const { symptoms, tests } = visit;
        const document = JSON.stringify({ case: 1, ...(symptoms === undefined ? {} : { symptoms }), ...(tests === undefined ? {} : { tests }) });
        const reply = this.asked.then(() => this.engine.quick.ask({ verb: "diagnose", form: "json", document, language: this.language }, {})).catch(() => null);
        this.asked = reply;
        const told = parsed<{ known?: Known[] }>((await reply)?.text ?? "");
        return told?.known ?? null;
    }

    async calendar(): Promise<string> {
        const created = new Date().toISOString().replace(/[-:]|\.\d+/g, "");
        const reply = await this.engine.desk.ask({ ...this.telling("calendar"), created }, [JSON.stringify(this.rows)]);
        return reply.text;
    }

    /** A photo, sound or log: kept here, or had from the server and then kept; null where it cannot be had now. */
    async file(body: JsonObject): Promise<Blob | null> {
        return fileOf(this.shelf, new HttpWire(this.language), body);
    }

    /** The files that the survey `version` names, and the names of those that cannot be had now. */
    async logs(version: Rec, stands: readonly Rec[]): Promise<{ files: NamedFile[]; missing: string[] }> {
        const found = await Promise.all(
            filesNamed(version.body).flatMap((name) => {
                const log = logOf(stands, version.document ?? "", name);
                return log === undefined ? [] : [this.file(log.body).then((blob) => ({ name, sha256: String(log.body["sha256"]), blob }))];
            }),
        );
        return {
            files: found.flatMap(({ name, sha256, blob }) => (blob === null ? [] : [{ name, sha256, blob }])),
            missing: found.flatMap(({ name, blob }) => (blob === null ? [name] : [])),
        };
    }

    /* ---- behind ---- */

    private telling(tell: Telling["tell"]): Telling {
        return { tell, today: day(moment(new Date())), language: this.language };
    }

    private async ask<T>(tell: Telling["tell"], documents: string[], more: Partial<Telling> = {}): Promise<T | null> {
        const reply = await this.engine.desk.ask({ ...this.telling(tell), ...more }, documents);
        return parsed<T>(reply.text);
    }

    /** Looks what waits, and works out the rows of sites that have changed; one look that begins after the call does for all who ask meanwhile. */
    private look(): Promise<void> {
        this.queued ??= this.looking.catch(() => undefined).then(() => {
            this.queued = null;
            return this.lookNow();
        });
        this.looking = this.queued;
        return this.queued;
    }

    private lookNowAndThen(): void {
        if (Date.now() - this.shownAt > LOOK_EVERY_MS) {
            this.shownAt = Date.now();
            void this.look();
        }
    }

    private async lookNow(): Promise<void> {
        for (let stale = await this.shelf.stale(SITES_AT_MOST); stale.length > 0; stale = await this.shelf.stale(SITES_AT_MOST)) {
            const sites = await Promise.all(stale.map(({ site }) => this.standing(site)));
            const told = await this.ask<{ rows: Omit<Row, "name_key" | "words">[] }>("rows", [lines(sites.flat())]);
            if (told === null) {
                break; // the engine stopped: they stay as they were
            }
            const words = new Map(sites.map((stands) => [stands[0]?.site, wordsOf(stands)]));
            await this.shelf.refresh(
                told.rows.map((row) => ({ ...row, name_key: plain(row.name), words: words.get(row.site) ?? "" })),
                stale,
            );
        }
        this.rows = await this.shelf.rows();
        this.waiting = await this.shelf.waiting();
        this.listeners.forEach((heard) => heard());
    }

    private tell(state: State): void {
        this.state = state;
        this.listeners.forEach((heard) => heard());
    }
}

/** Records as the engine takes many of them, one on a line. */
function lines(records: readonly Rec[]): string {
    return records.map((each) => JSON.stringify(each)).join("\n");
}

/** All that a search for a site looks through. */
function wordsOf(stands: readonly Rec[]): string {
    const site = stands.find((each) => each.kind === "site");
    return plain(Object.values(site?.body ?? {}).join(" "));
}

/** Whatever accents and capitals. */
export function plain(text: string): string {
    return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
