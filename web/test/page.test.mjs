/* The page in Chromium, on a telephone's screen: planned, offline, from a file, a noise traced, by keyboard, and held to the
 * rules of access. Run by `./dev browser`:
 *
 *     node --test test/ with QUELL=program QUELL_FILE=quell.html and, for pictures, QUELL_SHOTS=folder */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { Office, accessible, blank, enter, field, reach, root, shot } from "../testing/telephones.mjs";

const file = resolve(process.env.QUELL_FILE ?? join(root, "build/web/quell.html"));
const house = join(root, "examples/house/survey.json");
const metered = join(root, "examples/metered");
const night = join(root, "examples/night-creep/case.json");
const clogging = join(root, "tests/cli/clogging.csv");

async function fill(page, path, text) {
    await field(page, path).locator("input").first().fill(text);
}

/** The three questions of a plain house, as they are typed. */
async function ask(page) {
    await fill(page, "supply.static_high", "110");
    await fill(page, "downstream.set_pressure", "55");
    await field(page, "scenarios[0].use").locator("select").selectOption("house");
    await fill(page, "scenarios[0].baths", "2");
}

async function answered(page) {
    await page.waitForSelector(".bar .open", { state: "attached" });
    await page.waitForFunction(() => document.querySelector(".working") === null && document.querySelector(".glance.old") === null);
    return page.locator(".glance p").first().innerText();
}

test("three questions give an answer, offline too after a reload", async () => {
    const server = await new Office().begin();
    const address = server.address;
    const { context, page } = await blank();
    await page.goto(address);
    await page.locator(".doors button").first().click();
    await ask(page);
    const said = await answered(page);
    assert.match(said, /3\/4 in, set to 55 psi/);
    await shot(page, "plan");
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null || navigator.serviceWorker.ready.then(() => true));
    await page.waitForTimeout(500);
    await server.close();
    await page.reload();
    assert.equal(await answered(page), said, "the project is there again, and the engine answers without a server");
    await fill(page, "downstream.set_pressure", "60");
    await page.waitForFunction(() => /60 psi/.test(document.querySelector(".glance p")?.textContent ?? ""));
    await page.locator(".bar .open").click();
    await page.waitForTimeout(300);
    await shot(page, "answer");
    await context.close();
});

test("a value is read off a drawing, by keys and by a finger", async () => {
    const { context, page } = await blank({ hasTouch: true });
    await page.goto(pathToFileURL(file).href);
    await page.locator("input[type=file]").first().setInputFiles(join(root, "examples/repurposed-building/survey.json"));
    await answered(page);
    await page.locator(".bar .open").click();
    const figure = page.locator("figure", { has: page.locator("#falloff-svg") });
    /* The drawing's own description has the pressure at no flow and at the peak, to the whole psi. */
    const [, still, flowing, peak] = /at (\d+)\spsi at no flow and at (\d+)\spsi at (\d+)\sgpm/.exec(await figure.locator("desc").textContent());
    const slider = figure.getByRole("slider");
    const said = figure.locator("output");
    await slider.focus();
    await page.keyboard.press("Home");
    const pressure = (text) => Number(/street pressure (\d[\d.]*)\spsi/.exec(text)[1]);
    const trickle = pressure(await said.textContent());
    assert.ok(trickle > Number(flowing) && trickle <= Number(still), "as soon as water runs it is under lock-up");
    assert.equal(await slider.getAttribute("aria-valuetext"), await said.textContent());
    const place = await figure.locator("svg").boundingBox();
    const { x } = await page.evaluate(() => {
        const box = document.querySelector(".sheets").shadowRoot.querySelector("#falloff-svg line").getBoundingClientRect();
        return { x: box.x };
    });
    /* A finger on the drawing moves the slider; from no flow to the peak it follows the curve down. */
    let last = "";
    for (let at = x; at < place.x + place.width && !(Number(/^[\d.]+/.exec(last)?.[0] ?? 0) >= Number(peak)); at += 2) {
        await page.mouse.move(at, place.y + place.height / 2);
        await page.mouse.down();
        last = await said.textContent();
        await page.mouse.up();
    }
    assert.ok(Math.abs(pressure(last) - Number(flowing)) <= 1, last);
    await accessible(page, "answer with a reading");
    await shot(page, "reading");
    await context.close();
});

test("what if: another street pressure is tried on a copy, and taken", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".doors button").first().click();
    await ask(page);
    const before = await answered(page);
    await page.locator(".bar .open").click();
    await page.locator(".answer summary", { hasText: "What if?" }).click();
    const tried = page.locator(".answer [data-path='supply.static_high'] input");
    const then = page.locator(".compared dd").nth(1);
    await tried.fill("60");
    await page.waitForFunction(() => /\bno\b.*valve/i.test(document.querySelectorAll(".compared dd")[1].textContent));
    assert.equal(await answered(page), before, "what is planned stays");
    assert.equal(await page.locator(".compared dd").first().innerText(), before);
    await tried.fill("180");
    await page.waitForFunction(() => /set to/.test(document.querySelectorAll(".compared dd")[1].textContent));
    const glance = (await then.innerText()).split("\n")[0];
    await accessible(page, "what if");
    await shot(page, "what_if");
    await page.getByRole("button", { name: "Plan it so" }).click();
    await page.waitForFunction((wanted) => document.querySelector(".working") === null && document.querySelector(".glance p").textContent === wanted, glance);
    await page.locator(".bar .open").click();
    assert.equal(await field(page, "supply.static_high").first().locator("input").inputValue(), "180");
    await context.close();
});

test("one file holds it all", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".doors button").first().click();
    await ask(page);
    assert.match(await answered(page), /3\/4 in/);
    await context.close();
});

test("the questions of a page that is opened again do not wait for the engine", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".doors button").first().click();
    await ask(page);
    await answered(page);
    await page.addInitScript(() => {
        window.Worker = class {
            postMessage() {}
            terminate() {}
        };
    });
    await page.reload();
    await page.waitForSelector('[data-path="supply.static_high"] input');
    assert.equal(await page.locator(".bar .open").count(), 0, "there is no engine that could have answered");
    await context.close();
});

test("a survey of the command line is opened, and answered as there", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".door input").setInputFiles(house);
    assert.match(await answered(page), /^one valve, 3\/4 in, set to 55 psi/);
    await context.close();
});

test("a meter's log goes along with the survey, packed too, and into the project's file", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".door input").setInputFiles(join(metered, "survey.json"));
    await page.waitForSelector(".troubles", { state: "attached" });
    const log = page.locator('[data-path="scenarios[0].log"]');
    /* What lies within a card is there once the card is open. */
    await page.waitForFunction(() => {
        document.querySelectorAll("details.card, details.inner").forEach((each) => (each.open = true));
        return document.querySelector('[data-path="scenarios[0].log"] input[type="file"]') !== null;
    });
    const bytes = readFileSync(join(metered, "last-tenant.csv"));
    await log.locator('input[type="file"]').setInputFiles({ name: "last-tenant.csv.gz", mimeType: "application/gzip", buffer: gzipSync(bytes) });
    assert.match(await answered(page), /set to/);
    assert.match(await log.locator(".entry").textContent(), /last-tenant\.csv/);
    await page.locator(".more summary").click();
    const [saved] = await Promise.all([page.waitForEvent("download"), page.locator(".more button").first().click()]);
    const project = JSON.parse(readFileSync(await saved.path(), "utf8"));
    assert.equal(project.files["last-tenant.csv"], bytes.toString());
    await context.close();
});

test("what is wrong stands beside its field, and its fix is a button", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".doors button").first().click();
    await ask(page);
    await answered(page);
    await fill(page, "supply.static_high", "110 pis");
    const mend = field(page, "supply.static_high").locator(".mend");
    await mend.click();
    await page.waitForFunction(() => document.querySelector(".troubles") === null);
    assert.match(await answered(page), /3\/4 in/);
    await page.locator(".tools button").first().click();
    await page.waitForSelector(".troubles");
    await context.close();
});

test("a noise is traced to its cause", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".door input").setInputFiles(night);
    await page.locator(".head nav a").nth(1).click();
    await page.waitForSelector(".causes li");
    const first = await page.locator(".causes li summary").first().innerText();
    assert.match(first, /6\d.*%.*seat/s);
    await shot(page, "trace");
    await page.locator(".next .answers button").first().click();
    await page.waitForFunction((before) => document.querySelector(".causes li summary")?.textContent !== before, first);
    await context.close();
});

test("a log of pressures becomes findings, packed too, and what is not packed is refused", async () => {
    const { context, page } = await blank();
    await page.goto(pathToFileURL(file).href);
    await page.locator(".doors button").nth(1).click();
    await page.waitForSelector(".evidence");
    const log = page.locator('.evidence input[accept*=".csv"]');
    const name = "clogging.csv.gz", mimeType = "application/gzip";
    await log.setInputFiles({ name, mimeType, buffer: Buffer.from("time,outlet (psi)\n") });
    await page.waitForSelector(".evidence [role=alert]");
    await log.setInputFiles({ name, mimeType, buffer: gzipSync(readFileSync(clogging)) });
    await page.waitForSelector(".evidence li", { timeout: 30000 });
    assert.match(await page.locator(".evidence > ul").innerText(), /falls off .* more at the end of the log/s);
    assert.equal(await page.locator(".evidence [role=alert]").count(), 0);
    /* What it rests on is drawn, and read as on the sheets: no reading of that log lies outside its own least and greatest. */
    await page.locator(".evidence summary").click();
    const figure = page.locator(".evidence figure", { hasText: /outlet/i }).first();
    await figure.getByRole("slider").focus();
    await page.keyboard.press("Home");
    const outlets = readFileSync(clogging, "utf8").trim().split("\n").slice(1).map((row) => Number(row.split(",")[2]));
    const [, read] = /(\d[\d.]*)\spsi/.exec(await figure.locator("output").textContent());
    assert.ok(Number(read) >= Math.floor(Math.min(...outlets)) && Number(read) <= Math.ceil(Math.max(...outlets)), read);
    await accessible(page, "a log drawn");
    await shot(page, "log");
    await context.close();
});

test("ten seconds of a microphone become a finding", async () => {
    const server = await new Office().begin();
    const { context, page } = await blank({ permissions: ["microphone"] });
    await page.goto(server.address);
    await page.locator(".doors button").nth(1).click();
    await page.waitForSelector(".evidence");
    await page.locator(".evidence button").first().click();
    await page.waitForSelector(".evidence meter");
    await page.waitForTimeout(6500);
    await page.locator(".evidence [role=status] button").click();
    await page.waitForSelector(".evidence li", { timeout: 30000 });
    await server.close();
    await context.close();
});

for (const language of ["en-US", "es-MX"]) {
    for (const colorScheme of ["light", "dark"]) {
        test(`every screen is accessible: ${language}, ${colorScheme}`, async () => {
            for (const width of [320, 1200]) {
                const { context, page } = await blank({ locale: language, colorScheme, viewport: { width, height: 800 } });
                await page.goto(pathToFileURL(file).href);
                await page.waitForSelector(".doors");
                await accessible(page, `home ${width}`);
                await page.locator(".door input").setInputFiles(house);
                await answered(page);
                await page.evaluate(() => document.querySelectorAll("details").forEach((each) => (each.open = true)));
                await page.waitForTimeout(200);
                await accessible(page, `plan ${width}`);
                await shot(page, `plan-${language}-${colorScheme}-${width}`);
                if (await page.locator(".bar .open").isVisible()) {
                    await page.locator(".bar .open").click();
                    await page.waitForTimeout(200);
                    await accessible(page, `answer ${width}`);
                }
                await page.locator(".head nav a").nth(1).click();
                await page.waitForSelector(".causes li");
                await accessible(page, `trace ${width}`);
                await context.close();
            }
        });
    }
}

test("every path runs by keyboard", async () => {
    const { context, page } = await blank({ viewport: { width: 320, height: 640 } });
    await context.setOffline(true);
    await page.goto(pathToFileURL(file).href);
    await page.waitForSelector(".doors");
    await reach(page, ".doors button");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".card");
    await reach(page, '[data-path="supply.static_high"] input');
    await page.keyboard.type("110");
    await reach(page, '[data-path="downstream.set_pressure"] input');
    await page.keyboard.type("55");
    await reach(page, '[data-path="scenarios[0].use"] select');
    await page.keyboard.type("hous");
    await reach(page, '[data-path="scenarios[0].baths"] input');
    await page.keyboard.type("2");
    await answered(page);
    await reach(page, ".bar .open");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".plan.answered");
    await reach(page, ".answer .print");
    await enter(page, ".bar .open");
    await page.waitForSelector(".plan:not(.answered)");
    await enter(page, ".card:not([open]) > summary");
    await enter(page, ".tools button");
    await page.waitForFunction(() => document.querySelector('[data-path="scenarios[0].baths"] input')?.value !== "2");
    await enter(page, ".more summary");
    await reach(page, ".more button");
    await enter(page, ".head nav a:nth-of-type(2)");
    await page.waitForSelector(".next .answers button");
    const asked = await page.locator(".next .asks").first().innerText();
    await enter(page, ".next .answers button");
    await page.waitForFunction((before) => document.querySelector(".next .asks")?.innerText !== before, asked);
    await enter(page, ".causes summary");
    await page.waitForSelector(".causes details[open]");
    await enter(page, ".known .quiet");
    await reach(page, ".evidence button");
    await enter(page, ".head a");
    await page.waitForSelector(".projects a");
    await enter(page, ".projects a");
    await page.waitForSelector(".card");
    await context.close();
});

