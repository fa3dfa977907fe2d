/* How long an edit takes until the station is checked again: the engine on the thread of a test page in Chromium, that thread
 * four times slower (a page's throttle slows a worker only half as much). The whole design, and the page from its opening to its
 * first answer, against the program's design: each in turn with it, in the same run.
 *
 *     node bench/speed.mjs [EDITS [TURNS [EXAMPLE...]]]     with QUELL = the program, default build/release/quell
 *
 * Without examples all are measured; with 0 edits only designs and openings are.
 */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, existsSync } from "node:fs";
import http from "node:http";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const edits = Number(process.argv[2] ?? 100);
const turns = Number(process.argv[3] ?? 7);
const chosen = process.argv.slice(4);
const program = process.env.QUELL ?? join(root, "build/release/quell");
const SLOWER = 4;

const served = {
    "/speed": ["text/html", "<!doctype html><title>speed</title>"],
    "/engine.mjs": ["text/javascript", readFileSync(join(root, "web/engine/engine.mjs"))],
};
const types = { html: "text/html", js: "text/javascript", css: "text/css", wasm: "application/wasm", svg: "image/svg+xml", webmanifest: "application/manifest+json", md: "text/plain" };
for (const name of readdirSync(join(root, "build/web/page"))) {
    served[`/${name}`] = [types[name.split(".").at(-1)], readFileSync(join(root, "build/web/page", name))];
}
served["/"] = served["/index.html"];
const server = http.createServer((request, response) => {
    const [type, body] = served[request.url.split("?")[0]] ?? ["text/plain", ""];
    response.writeHead(200, { "content-type": type }).end(body);
});
await new Promise((settle) => server.listen(0, settle));

/* On the page: the same design again and again; ms of the first, and of each later one that is asked for. */
async function opened({ survey, attachments }) {
    const { Engine } = await import("/engine.mjs");
    const module = new Uint8Array(await (await fetch("/engine.wasm")).arrayBuffer());
    const engine = await Engine.open(module);
    window.design = () => {
        const from = performance.now();
        const { status } = engine.ask({ verb: "design", form: "json" }, { document: ["survey", JSON.stringify(survey)], attachments });
        return { ms: performance.now() - from, status };
    };
    return window.design();
}

/* On the page: one survey, many edits; times in ms by what was edited. */
async function timed({ survey, attachments, edits }) {
    const { Engine } = await import("/engine.mjs");
    const module = new Uint8Array(await (await fetch("/engine.wasm")).arrayBuffer());
    const engine = await Engine.open(module, { kept: 48 * 1024 * 1024 });
    const plain = new TextDecoder();
    const asked = (verb, document, parts) => {
        const from = performance.now();
        const { status, answer } = engine.ask({ verb, form: "json", ...(parts ? { parts } : {}) }, { document: ["survey", JSON.stringify(document)], attachments });
        return { ms: performance.now() - from, status, answer };
    };
    const first = asked("design", survey);
    if (first.status !== "ok") return { refused: first.status };
    const design = JSON.parse(plain.decode(first.answer));
    const chosen = design.stations[design.recommended ?? 0];
    if (design.no_valve_needed || chosen === undefined) return { refused: "no valve is needed" };
    const existing = { stages: chosen.stages.map((stage) => ({ branches: stage.branches.map((branch) => ({ valve: branch.valve, set_pressure: `${branch.set_pressure_pa_gauge} Pa` })) })) };
    const fitted = { ...survey, existing };
    const before = asked("check", fitted, "verdicts,chance");
    if (before.status !== "ok") return { refused: before.status };
    let seed = 1;
    const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
    const moved = (text) => String(text).replace(/[0-9.]+/, (number) => (Number(number) * (0.9 + 0.2 * random())).toFixed(3));
    const whole = (number) => Math.max(1, Math.round(number * (0.6 + 0.8 * random())));
    const quick = [
        (at) => { at.supply.static_high = moved(at.supply.static_high ?? "100 psi"); },
        (at) => { const set = at.downstream ?? (at.downstream = {}); set.set_pressure = moved(set.set_pressure ?? "60 psi"); },
        (at) => { at.existing.stages[0].branches[0].set_pressure = moved(at.existing.stages[0].branches[0].set_pressure); },
        (at) => { const limits = at.limits ?? (at.limits = {}); limits.falloff = moved(limits.falloff ?? "10 psi"); },
        (at) => { const pipe = (at.upstream ?? []).find((each) => each.length !== undefined); if (pipe !== undefined) pipe.length = moved(pipe.length); },
    ];
    const slow = [
        (at) => {
            const scenario = at.scenarios[0];
            for (const key of ["people", "homes", "rooms", "baths", "seats", "beds"]) if (typeof scenario[key] === "number") { scenario[key] = whole(scenario[key]); return; }
            scenario.people = whole(4);
        },
        (at) => {
            const fixtures = at.scenarios[0].fixtures ?? [];
            const counted = fixtures.filter((each) => typeof each.count === "number");
            if (counted.length > 0) counted[Math.floor(random() * counted.length)].count = whole(8);
            else at.scenarios[0].baths = whole(2);
        },
    ];
    const times = { quick: [], slow: [] };
    let refusals = 0;
    for (let i = 0; i < edits; i++) {
        for (const [kind, list] of [["quick", quick], ["slow", slow]]) {
            const document = structuredClone(fitted);
            list[i % list.length](document);
            const { ms, status } = asked("check", document, "verdicts,chance");
            if (status === "ok") times[kind].push(ms);
            else refusals++;
        }
    }
    const median = (all) => all.sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? NaN;
    return { quick_ms: median(times.quick), slow_ms: median(times.slow), quick_most: times.quick.at(-1), slow_most: times.slow.at(-1), refusals };
}

const median = (all) => all.sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? NaN;
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"] });
const native = (file) => {
    const from = process.hrtime.bigint();
    execFileSync(program, ["design", file, "--json"], { maxBuffer: 2 ** 28, stdio: ["ignore", "pipe", "ignore"] });
    return Number(process.hrtime.bigint() - from) / 1e6;
};

/* The page with a project of this survey in its store: ms from its opening to its first answer, in turn with the program. */
async function openings(file, project) {
    const page = await (await browser.newContext()).newPage();
    await page.addInitScript(() => {
        new MutationObserver((_, observer) => {
            if (document.querySelector(".bar .open") !== null) {
                window.answered_ms = performance.now();
                observer.disconnect();
            }
        }).observe(document, { subtree: true, childList: true });
    });
    await page.goto(`http://localhost:${server.address().port}/`);
    await page.locator("input[type=file]").setInputFiles({ name: "project.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(project)) });
    await page.waitForFunction(() => window.answered_ms !== undefined);
    await page.waitForFunction(() => navigator.serviceWorker.ready.then(() => true));
    const times = { opening: [], own: [] };
    for (let i = 0; i < turns; i++) {
        await page.reload();
        times.opening.push(await (await page.waitForFunction(() => window.answered_ms)).jsonValue());
        times.own.push(native(file));
    }
    await page.context().close();
    return { opening: median(times.opening), own: median(times.own) };
}

/* The engine alone on a page: its first design, and the later ones in turn with the program. */
async function designs(page, given, file) {
    const first = await page.evaluate(opened, given);
    if (first.status !== "ok") return undefined;
    const times = { page: [], own: [] };
    for (let i = 0; i < turns; i++) {
        times.own.push(native(file));
        times.page.push((await page.evaluate(() => window.design())).ms);
    }
    return { first: first.ms, page: median(times.page), own: median(times.own) };
}

console.log(`| example | supply, pipe, limit, set-point: median (most), ms at ${SLOWER}x | people, fixtures | refused | first design, ms at 1x | later ones, median of ${turns} | program | ratio, first and later | opening to answer, ms | over 2 programs, ms (300 may be) |`);
console.log("|---|---|---|---|---|---|---|---|---|---|");
for (const name of readdirSync(join(root, "examples"))) {
    const file = join(root, "examples", name, "survey.json");
    if (!existsSync(file) || (chosen.length > 0 && !chosen.includes(name))) continue;
    const survey = JSON.parse(readFileSync(file));
    const beside = readdirSync(dirname(file)).filter((each) => JSON.stringify(survey).includes(JSON.stringify(each)));
    const attachments = beside.map((each) => [each, readFileSync(join(dirname(file), each), "utf8")]);
    const page = await (await browser.newContext()).newPage();
    await page.goto(`http://localhost:${server.address().port}/speed`);
    const whole = await designs(page, { survey, attachments }, file);
    const session = await page.context().newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    const slowed = edits === 0 ? { refused: "–" } : await page.evaluate(timed, { survey, attachments, edits });
    await page.close();
    const start = whole === undefined ? {} : await openings(file, { project: 1, survey, files: Object.fromEntries(attachments) });
    const f = (ms) => (ms === undefined ? "–" : ms.toFixed(0));
    console.log(
        `| ${name} | ${f(slowed.quick_ms)} (${f(slowed.quick_most)}) | ${f(slowed.slow_ms)} (${f(slowed.slow_most)}) | ${slowed.refused ?? slowed.refusals} ` +
            `| ${f(whole?.first)} | ${f(whole?.page)} | ${f(whole?.own)} | ${(whole?.first / whole?.own).toFixed(2)}, ${(whole?.page / whole?.own).toFixed(2)} ` +
            `| ${f(start.opening)} | ${f(start.opening - 2 * start.own)} |`,
    );
}
await browser.close();
server.close();
