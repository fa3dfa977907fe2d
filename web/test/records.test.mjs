/* Three phones and a server: records made offline, requests and answers lost, sent twice, late, pages closed in the middle, clocks a year off.
 * and a server that is put back from an older backup. Whatever happens, all end with the same set and nothing is lost. What stands is worked out here by the sentences of
 * docs/theory/records.md 2, pair by pair, apart from the page's own way. Run: node --test web/test/records.test.mjs
 *
 *     QUELL_RUNS=5000 QUELL_SEED=7 for more, and others */
import assert from "node:assert/strict";
import { createHash, randomUUID } from "node:crypto";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));

async function loaded(name) {
    const bundled = await build({ entryPoints: [join(here, "../src/records", name)], bundle: true, write: false, format: "esm" });
    return import(`data:text/javascript,${encodeURIComponent(bundled.outputFiles[0].text)}`);
}

const { standing, conflicts, ancestor, moment } = await loaded("record.ts");
const { exchange, laterMark, STARTING_OVER } = await loaded("exchange.ts");
const { differences, settled } = await loaded("differences.ts");
const { toExport, fromExport } = await loaded("backup.ts");
const { fileOf } = await loaded("files.ts");
const { filesNamed, logOf, logDrafts } = await loaded("logs.ts");

/* ---- chance ---- */

/** Numbers that the same seed gives again (mulberry32). */
function chance(seed) {
    let state = seed >>> 0;
    const next = () => {
        state = (state + 0x6d2b79f5) >>> 0;
        let mixed = Math.imul(state ^ (state >>> 15), state | 1);
        mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
        return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
    };
    return { next, below: (most) => Math.floor(next() * most), of: (list) => list[Math.floor(next() * list.length)] };
}

/* ---- a server, by the pages docs/guide/serve.md and docs/theory/records.md ---- */

class Server {
    log = [];
    byId = new Map();
    files = new Map();
    /** Records and whole files. */
    came = [];

    constructor(name) {
        this.name = name;
    }

    /** The same, and its files, as it is now. */
    backup() {
        const copy = new Server(this.name);
        copy.log = [...this.log];
        copy.came = [...this.came];
        copy.byId = new Map(this.byId);
        copy.files = new Map([...this.files].map(([sha256, file]) => [sha256, { ...file, bytes: Buffer.from(file.bytes) }]));
        return copy;
    }

    restore(backup) {
        Object.assign(this, backup.backup());
    }

    /** Of what came as the nth, and all before. */
    mark(number) {
        return `${number}.${createHash("sha256").update([this.name, ...this.came.slice(0, number)].join(" ")).digest("hex").slice(0, 32)}`;
    }

    markOf(what) {
        return this.mark(this.came.indexOf(what) + 1);
    }

    knows(mark) {
        const number = Number.parseInt(mark, 10);
        return mark === "" || (number <= this.came.length && this.mark(number) === mark);
    }

    put(record, match, mark) {
        if (!this.knows(mark)) {
            return { status: 409, body: { code: "other-store" } };
        }
        const parents = record.parents ?? [];
        const known = this.byId.get(record.id);
        if (parents.length > 0 && match !== parents.map((id) => `"${id}"`).join(", ")) {
            return { status: 428, body: {} };
        }
        if (known !== undefined && JSON.stringify(known) !== JSON.stringify(record)) {
            return { status: 409, body: { code: "other-record" } };
        }
        if (known === undefined) {
            this.byId.set(record.id, structuredClone(record));
            this.log.push(record.id);
            this.came.push(record.id);
        }
        const heads = stands([...this.byId.values()]).filter((each) => each.document !== undefined && each.document === record.document);
        return { status: heads.length > 1 ? 412 : known === undefined ? 201 : 200, body: { receipt: this.log.indexOf(record.id) + 1, mark: this.markOf(record.id) } };
    }

    changes(since, mark, most) {
        if (!this.knows(mark) || since > this.log.length) {
            return { status: 409, body: { code: "other-store" } };
        }
        const ids = this.log.slice(since, since + most);
        return { status: 200, body: { records: ids.map((id) => ({ ...this.byId.get(id), receipt: this.log.indexOf(id) + 1 })), receipt: since + ids.length, mark: this.markOf(this.log[since + ids.length - 1]), more: since + ids.length < this.log.length } };
    }

    held(sha256, mark) {
        if (!this.knows(mark)) {
            return { status: 409, body: { code: "other-store" } };
        }
        const file = this.files.get(sha256);
        return { status: 200, body: { size: file?.size ?? 0, held: file?.held ?? 0, whole: file?.whole ?? false, ...(file?.whole === true ? { mark: this.markOf(sha256) } : {}) } };
    }

    putPart(sha256, bytes, range, mark) {
        if (!this.knows(mark)) {
            return { status: 409, body: { code: "other-store" } };
        }
        const [, begins, ends, size] = /^bytes (\d+)-(\d+)\/(\d+)$/.exec(range).map(Number);
        assert.equal(ends - begins + 1, bytes.length);
        const file = this.files.get(sha256) ?? { size, held: 0, whole: false, bytes: Buffer.alloc(size) };
        this.files.set(sha256, file);
        if (begins <= file.held && ends + 1 > file.held) {
            file.bytes.set(bytes, begins);
            file.held = ends + 1;
        }
        if (file.held === size) {
            file.whole = createHash("sha256").update(file.bytes).digest("hex") === sha256;
            assert.ok(file.whole, "the parts make the file");
            this.came.includes(sha256) || this.came.push(sha256);
        }
        return this.held(sha256, mark);
    }

    /** As much as the caller asks for of a whole file; none where it is not. */
    part(sha256, begins, most) {
        const file = this.files.get(sha256);
        return file?.whole === true ? file.bytes.subarray(begins, begins + most) : null;
    }
}

/** What stands, pair by pair. */
function stands(all) {
    const when = (one) => Date.parse(one.at);
    const later = (one, other) => when(one) > when(other) || (when(one) === when(other) && one.id > other.id);
    return all.filter((one) =>
        one.document !== undefined
            ? !all.some((other) => other.document === one.document && (other.parents ?? []).includes(one.id))
            : !all.some((other) => other.corrects === one.id) && !(one.corrects !== undefined && all.some((other) => other.corrects === one.corrects && other !== one && later(other, one))),
    );
}

/* ---- a phone ---- */

class Closed extends Error {}

/** What a phone keeps; a page may be closed before any of its steps, which is then not done at all. */
class Phone {
    records = new Map();
    queue = [];
    turn = 0;
    at = { receipt: 0, mark: "" };
    files = new Map();
    acknowledgedIds = [];
    closes = () => false;

    constructor(clock) {
        this.clock = clock;
    }

    keep(record) {
        this.records.set(record.id, record);
        this.queue.push({ turn: (this.turn += 1), record });
    }

    keepFile(bytes) {
        const sha256 = createHash("sha256").update(bytes).digest("hex");
        this.files.set(sha256, bytes);
        this.queue.push({ turn: (this.turn += 1), sha256 });
        return sha256;
    }

    /** What it has of files, as the page's shelf. */
    cupboard() {
        return {
            file: async (sha256) => (this.files.has(sha256) ? new Blob([this.files.get(sha256)]) : undefined),
            keepFile: async ({ sha256, blob }) => {
                const bytes = Buffer.from(await blob.arrayBuffer());
                this.step(() => this.files.set(sha256, bytes));
            },
        };
    }

    step(what) {
        if (this.closes()) {
            throw new Closed();
        }
        return what();
    }

    shelf() {
        return {
            waiting: async () => [...this.queue],
            acknowledged: async (one, mark) =>
                this.step(() => {
                    this.queue = this.queue.filter((each) => each.turn !== one.turn);
                    this.at = { ...this.at, mark: laterMark(this.at.mark, mark) };
                    this.acknowledgedIds.push(one.record?.id ?? one.sha256);
                }),
            refuse: async (one, why) => assert.fail(`${why.status} ${why.code}`),
            place: async () => this.at,
            take: async (records, place) =>
                this.step(() => {
                    records.forEach(({ receipt: _, ...record }) => this.records.set(record.id, record));
                    this.at = { receipt: place?.receipt ?? this.at.receipt, mark: laterMark(this.at.mark, place?.mark ?? STARTING_OVER) };
                }),
            startOver: async (there, place) =>
                this.step(() => {
                    const waits = new Set(this.queue.map((each) => each.record?.id ?? each.sha256));
                    [...this.files.keys()].filter((each) => !waits.has(each)).forEach((sha256) => this.queue.push({ turn: (this.turn += 1), sha256 }));
                    [...this.records.values()].filter((each) => !waits.has(each.id) && !there.has(each.id)).forEach((record) => this.queue.push({ turn: (this.turn += 1), record }));
                    this.at = place;
                }),
            size: async (sha256) => this.files.get(sha256)?.length ?? 0,
            part: async (sha256, begins, ends) => this.files.get(sha256).subarray(begins, ends),
        };
    }
}

/** What carries between the two: loses what was asked, or what was answered; asks once more later. */
function wire(server, draw, faults, late) {
    const carry = (ask) => {
        const fate = draw.next();
        if (fate < faults.lost) {
            return { status: 0, body: null };
        }
        if (fate < faults.lost + faults.late) {
            late.push(ask); // arrives after what is sent later
            return { status: 0, body: null };
        }
        if (fate < faults.lost + faults.late + faults.busy) {
            return { status: 503, body: { code: "busy" } };
        }
        const answer = structuredClone(ask());
        if (draw.next() < faults.twice) {
            ask();
        }
        return draw.next() < faults.unheard ? { status: 0, body: null } : answer;
    };
    return {
        put: async (record, match, mark) => carry(() => server.put(record, match, mark)),
        changes: async (since, mark) => carry(() => server.changes(since, mark, 3)),
        held: async (sha256, mark) => carry(() => server.held(sha256, mark)),
        putPart: async (sha256, bytes, range, mark) => carry(() => server.putPart(sha256, bytes, range, mark)),
        part: async (sha256, begins) => {
            if (draw.next() < faults.lost + faults.late + faults.busy + faults.unheard) {
                return null;
            }
            const bytes = server.part(sha256, begins, 1 + draw.below(PART_BYTES));
            if (bytes !== null && draw.next() < faults.damaged) {
                return new Blob([Buffer.from(bytes).fill(bytes[0] ^ 1, 0, 1)]);
            }
            return bytes === null ? null : new Blob([bytes]);
        },
    };
}

const PART_BYTES = 1_048_576;

const CALM = { lost: 0, late: 0, busy: 0, twice: 0, unheard: 0, damaged: 0 };
const STORM = { lost: 0.1, late: 0.1, busy: 0.05, twice: 0.15, unheard: 0.15, damaged: 0.05 };
const DEAD = { ...CALM, lost: 1 };

const uuid = (draw) => "xxxxxxxx-xxxx-4xxx-8xxx-xxxxxxxxxxxx".replaceAll("x", () => draw.below(16).toString(16));
const YEAR_MS = 31557600000;

const LOG_NAMES = ["log.csv", "pulses.csv"];

/** A survey that names logs, as a visit saves it: versions of two documents, of which both name files alike. */
function survey(phone, draw, fresh) {
    const document = "00000000-0000-4000-8000-00000000000" + (6 + draw.below(2));
    const own = standing([...phone.records.values()]);
    const heads = own.filter((each) => each.document === document);
    const names = LOG_NAMES.slice(0, 1 + draw.below(2));
    const body = { survey: 1, name: String(draw.below(1e6)), scenarios: [...names, names[0]].map((log) => ({ log: ` ${log}` })) };
    assert.deepEqual(filesNamed(body), names);
    const files = names.map((name) => {
        const bytes = Buffer.alloc(draw.of([1, 40, 1_500_000]), draw.below(4));
        return { name, blob: new Blob([bytes]), bytes, sha256: createHash("sha256").update(bytes).digest("hex") };
    });
    const logs = logDrafts(fresh.site, own, document, files, {});
    logs.forEach((log) => phone.keepFile(files.find((each) => each.sha256 === log.body.sha256).bytes));
    phone.keep({ ...fresh, kind: "survey", document, ...(heads.length === 0 ? {} : { parents: heads.map((each) => each.id) }), body });
    logs.forEach((log) => phone.keep({ ...fresh, id: uuid(draw), ...log }));
    files.forEach(({ name, sha256 }) => assert.equal(logOf(standing([...phone.records.values()]), document, name)?.body.sha256, sha256, "a log that was saved is the survey's, whatever the clock says"));
}

/** Opens what a survey names: the right bytes, or none now; once here, without a server too. */
async function plan(phone, server, draw, faults, late) {
    const own = standing([...phone.records.values()]);
    const opened = [];
    for (const version of own.filter((each) => each.kind === "survey")) {
        for (const name of filesNamed(version.body)) {
            const log = logOf(own, version.document, name);
            const blob = log === undefined ? null : await fileOf(phone.cupboard(), wire(server, draw, faults, late), log.body);
            if (blob !== null) {
                assert.equal(createHash("sha256").update(Buffer.from(await blob.arrayBuffer())).digest("hex"), log.body.sha256, "the bytes that were saved");
                assert.notEqual(await fileOf(phone.cupboard(), wire(server, draw, DEAD, late), log.body), null, "once pulled it is here");
            }
            opened.push([version.id, name, blob === null ? null : log.id]);
        }
    }
    return opened.sort();
}

/** What a person does: a fact, a correction of one, a version of a document that there is, a new one, a photo, a survey with logs. */
function act(phone, draw, now) {
    const all = [...phone.records.values()];
    const site = "00000000-0000-4000-8000-00000000000" + draw.below(2);
    const facts = all.filter((each) => each.kind === "visit");
    const heads = standing(all).filter((each) => each.document !== undefined);
    const fresh = { record: 1, id: uuid(draw), kind: "visit", site, who: "ana", at: moment(new Date(now + phone.clock)), body: { purpose: "service", note: String(draw.below(1e6)) } };
    switch (draw.below(7)) {
        case 0:
            return phone.keep(facts.length === 0 ? fresh : { ...fresh, corrects: draw.of(facts).id });
        case 1:
            return phone.keep({ ...fresh, kind: "plan", document: `${site.slice(0, -1)}${2 + draw.below(3)}`, body: { every_months: 1 + draw.below(24) } });
        case 2: {
            const head = heads.length === 0 ? undefined : draw.of(heads);
            const parents = heads.filter((each) => each.document === head?.document).map((each) => each.id);
            return head === undefined ? phone.keep(fresh) : phone.keep({ ...fresh, kind: "plan", document: head.document, parents: draw.next() < 0.5 ? [head.id] : parents, body: { every_months: 1 + draw.below(24) } });
        }
        case 3: {
            const sha256 = phone.keepFile(Buffer.alloc(1 + draw.below(2_500_000), draw.below(256)));
            return phone.keep({ ...fresh, kind: "photo", body: { sha256, size: phone.files.get(sha256).length, type: "image/jpeg" } });
        }
        case 4:
        case 5:
            return survey(phone, draw, fresh);
        default:
            return phone.keep(fresh);
    }
}

async function run(seed) {
    const draw = chance(seed);
    const server = new Server(uuid(draw));
    const phones = [new Phone(0), new Phone(0), new Phone(-YEAR_MS)];
    const late = [];
    const backups = [server.backup()];
    let restored = 0;
    const made = new Set();
    let now = Date.UTC(2026, 10, 20);
    for (let step = 0; step < 30; step += 1) {
        const phone = draw.of(phones);
        now += draw.of([0, 60000]);
        if (draw.next() < 0.5) {
            act(phone, draw, now);
            phone.queue.forEach((each) => made.add(each.record?.id ?? each.sha256));
        } else {
            const closing = draw.next() < 0.3;
            phone.closes = () => closing && draw.next() < 0.2;
            await exchange(phone.shelf(), wire(server, draw, STORM, late), () => undefined).catch((reason) => {
                if (!(reason instanceof Closed)) {
                    throw reason;
                }
            });
            phone.closes = () => false;
        }
        if (draw.next() < 0.15) {
            await plan(phone, server, draw, STORM, late);
        }
        if (draw.next() < 0.2) {
            backups.push(server.backup());
        } else if (draw.next() < 0.08) {
            // What was acknowledged may be gone: it is on the phones, and none of them knows yet.
            server.restore(draw.of(backups));
            phones.forEach((each) => (each.acknowledgedIds = []));
            restored += 1;
        }
        if (late.length > 0 && draw.next() < 0.3) {
            late.splice(draw.below(late.length), 1)[0]();
        }
        for (const each of phones) {
            const there = (id) => server.byId.has(id) || server.files.get(id)?.whole === true;
            assert.ok(each.acknowledgedIds.every(there), "what was acknowledged is there");
            const waits = new Set(each.queue.map((one) => one.record?.id ?? one.sha256));
            // A phone that has another store's mark will send all of it again.
            assert.ok(!server.knows(each.at.mark) || [...each.records.keys()].every((id) => waits.has(id) || server.byId.has(id)), "what is not there still waits");
        }
    }
    late.forEach((ask) => ask());
    for (let round = 0; round < 2; round += 1) {
        for (const phone of phones) {
            assert.equal(await exchange(phone.shelf(), wire(server, draw, CALM, late), () => undefined), "done");
        }
    }
    const set = (records) => [...records].map((each) => JSON.stringify(each)).sort();
    for (const phone of phones) {
        assert.equal(phone.queue.length, 0, "nothing waits");
        assert.deepEqual(set(phone.records.values()), set(server.byId.values()), "the same everywhere");
    }
    made.forEach((id) => assert.ok(server.byId.has(id) || server.files.get(id)?.whole === true, "nothing is lost"));
    const planned = await Promise.all(phones.map((phone) => plan(phone, server, draw, CALM, late)));
    planned.forEach((each) => assert.deepEqual(each, planned[0], "everybody plans with the same logs"));
    const standingNow = stands([...server.byId.values()]);
    for (const [version, name, log] of planned[0]) {
        const { document } = server.byId.get(version);
        const own = standingNow.filter((each) => each.kind === "log" && each.body.survey === document && each.body.name === name);
        const latest = own.filter((one) => !own.some((other) => Date.parse(other.at) > Date.parse(one.at) || (other.at === one.at && other.id > one.id)));
        assert.deepEqual(latest.map((each) => each.id), [log], "the log of a survey is the one written last of those that stand");
    }
    const [first] = phones;
    const ids = (records) => records.map((each) => each.id).sort();
    assert.deepEqual(ids(standing([...first.records.values()])), ids(stands([...server.byId.values()])), "what stands");
    const several = new Map();
    stands([...server.byId.values()]).forEach((each) => each.document !== undefined && several.set(each.document, (several.get(each.document) ?? 0) + 1));
    assert.deepEqual(
        conflicts(standing([...first.records.values()])).map(([each]) => each.document).sort(),
        [...several].filter(([, count]) => count > 1).map(([document]) => document).sort(),
        "every conflict is seen",
    );
    return { logs: planned[0].length, records: server.log.length, restored, conflicts: [...several.values()].filter((count) => count > 1).length };
}

test("phones and a server end with the same, whatever happens between them", async () => {
    const runs = Number(process.env.QUELL_RUNS ?? 300);
    const seed = Number(process.env.QUELL_SEED ?? 1);
    const seen = { records: 0, conflicts: 0, restored: 0, logs: 0 };
    for (let at = 0; at < runs; at += 1) {
        const found = await run(seed + at).catch((reason) => {
            throw new Error(`seed ${seed + at}: ${reason.message}`, { cause: reason });
        });
        seen.records += found.records;
        seen.conflicts += found.conflicts;
        seen.restored += found.restored;
        seen.logs += found.logs;
    }
    assert.ok(seen.records > runs && seen.conflicts > runs / 2 && seen.restored > runs && seen.logs > runs, `too little happened: ${JSON.stringify(seen)}`);
});

/* ---- one at a time ---- */

const plain = (part) => ({ record: 1, id: randomUUID(), kind: "visit", site: randomUUID(), who: "ana", at: "2026-11-20T08:00:00-07:00", body: { purpose: "service" }, ...part });

test("a server that wants a login, or refuses one record, loses nothing", async () => {
    const [one, two] = [plain({ who: "ben" }), plain({})];
    const phone = new Phone(0);
    phone.keep(one);
    phone.keep(two);
    const refused = [];
    const shelf = { ...phone.shelf(), refuse: async (waiting, why) => refused.push([waiting.record.id, why.code]) };
    const changes = async () => ({ status: 200, body: { records: [], receipt: 0, mark: "0.a", more: false } });
    const login = await exchange(shelf, { put: async () => ({ status: 401, body: { code: "login" } }), changes }, () => undefined);
    assert.equal(login, "login");
    assert.equal(phone.queue.length, 2);
    const who = async (record) => (record.who === "ana" ? { status: 201, body: {} } : { status: 403, body: { code: "who", detail: "not yours" } });
    assert.equal(await exchange(shelf, { put: who, changes }, () => undefined), "done");
    assert.deepEqual(refused, [[one.id, "who"]]);
    assert.deepEqual(phone.queue.map((each) => each.record.id), [one.id]);
});

test("a moment is written with the offset of its clock", () => {
    const now = new Date(1795322400000);
    assert.match(moment(now), /^2026-11-2\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
    assert.equal(Date.parse(moment(now)), now.getTime());
});

test("versions are set beside one another, and the choice made of both", () => {
    const base = { name: "Cedar", address: "12 Mill Lane", scenarios: [{ people: 4, fixtures: [1, 2] }], note: "gate" };
    const ana = { ...base, address: "12 Mill Road", scenarios: [{ people: 5, fixtures: [1, 2] }] };
    const ben = { name: "Cedar", address: "12 Mill Lane", scenarios: [{ people: 6, fixtures: [1, 2, 3] }] };
    const found = differences([ana, ben], base);
    assert.deepEqual(
        found.map((each) => [each.path, each.changedBy]),
        [
            ["address", 0],
            ["scenarios[0].people", null],
            ["scenarios[0].fixtures", 1],
            ["note", 1],
        ],
    );
    assert.deepEqual(settled(ana, found, [0, 1, 1, 1]), { name: "Cedar", address: "12 Mill Road", scenarios: [{ people: 6, fixtures: [1, 2, 3] }] });
    assert.deepEqual(settled(ana, found, [0, 0, 0, 0]), ana);
    assert.deepEqual(settled(ana, found, [1, 1, 1, 1]), ben);
});

test("a version of another document takes no place, nor does what came for a fact", () => {
    const plan = plain({ kind: "plan", document: "p", body: {} });
    const other = plain({ kind: "site", document: "s", parents: [plan.id], body: {} });
    const fact = plain({});
    const wrong = plain({ kind: "plan", document: "q", parents: [fact.id], body: {} });
    const all = [other, plan, wrong, fact];
    assert.deepEqual(standing(all).map((each) => each.id).sort(), all.map((each) => each.id).sort());
    assert.deepEqual(stands(all).length, all.length);
});

test("the version that two came from is found behind others", () => {
    const first = plain({ kind: "plan", document: "d", body: {} });
    const second = { ...first, id: randomUUID(), parents: [first.id] };
    const left = { ...first, id: randomUUID(), parents: [second.id] };
    const right = { ...first, id: randomUUID(), parents: [second.id] };
    const all = new Map([first, second, left, right].map((each) => [each.id, each]));
    assert.equal(ancestor(all, [left, right]), second);
    assert.equal(ancestor(all, [left, first]), first);
    assert.equal(ancestor(new Map(), [left, right]), undefined);
});

test("what waits goes into a file and comes back, and a file that is none is refused", () => {
    const bytes = Buffer.from(Array.from({ length: 2_000_001 }, (_, at) => at % 251));
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    const records = [plain({}), plain({ kind: "photo", body: { sha256, size: bytes.length, type: "image/jpeg" } })];
    const text = toExport(records, [{ sha256, bytes }]);
    const back = fromExport(text);
    assert.deepEqual(back.records, records);
    assert.equal(Buffer.compare(Buffer.from(back.attached[0].bytes), bytes), 0);
    const { attachments } = JSON.parse(text);
    assert.equal(attachments.reduce((sum, part) => sum + Buffer.from(part.base64, "base64").length, 0), bytes.length);
    for (const wrong of ["", "[]", '{"records":2,"list":[]}', '{"records":1,"list":[{"id":1}]}', text.replace('"begins":0', '"begins":99999999')]) {
        assert.equal(fromExport(wrong), null);
    }
});

test("a log that is saved takes the place of all that its survey had under the name, whatever their clocks said", () => {
    const site = randomUUID();
    const log = (part, body) => plain({ kind: "log", site, ...part, body: { survey: "s", name: "log.csv", size: 1, type: "text/csv", ...body } });
    const ana = log({ at: "2026-11-20T08:00:00Z" }, { sha256: "a" });
    const ben = log({ at: "2027-11-20T08:00:00Z" }, { sha256: "b" });
    const others = [log({ at: "2027-11-20T08:00:00Z" }, { sha256: "x", survey: "t" }), log({ at: "2027-11-20T08:00:00Z" }, { sha256: "x", name: "other.csv" }), plain({ site, body: { survey: "s", name: "log.csv" } })];
    const all = [ana, ben, ...others];
    assert.equal(logOf(all, "s", "log.csv"), ben);
    assert.equal(logOf(all, "s", "none.csv"), undefined);
    const file = { name: "log.csv", sha256: "c", blob: new Blob(["c"]) };
    const saved = logDrafts(site, standing(all), "s", [file], {}).map((each) => plain({ ...each, at: "2025-11-20T08:00:00Z" }));
    const stand = standing([...all, ...saved]);
    assert.equal(logOf(stand, "s", "log.csv").body.sha256, "c");
    assert.deepEqual(logDrafts(site, stand, "s", [file], {}), [], "it is there");
    assert.equal(standing([...all, ...saved]).filter((each) => others.includes(each)).length, others.length, "no other loses its place");
    const [first] = logDrafts(site, [], "s", [file], {});
    assert.deepEqual(first, { kind: "log", site, body: { survey: "s", name: "log.csv", sha256: "c", size: 1, type: "text/csv" } });
    assert.deepEqual(logDrafts(site, standing(all), "s", [file], { "log.csv": "c" }), [], "what is as it came takes no newer one's place");
    assert.equal(logDrafts(site, standing(all), "s", [file], { "log.csv": "a", "other.csv": "c" }).length, 2);
});
