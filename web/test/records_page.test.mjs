/* The records in Chromium, on telephones' screens, with a server of the program's own: saved offline and seen by another telephone, changed
 * twice and settled, logged in and not. Run by `./dev browser`:
 *
 *     node --test web/test/ with QUELL=program and, for pictures, QUELL_SHOTS=folder */
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { Office, accessible, telephone, shot, field, go, records, named, opened, exchanged, exchange, login, openSite, kept, firm, quell, root } from "../testing/telephones.mjs";

const night = join(root, "examples/night-creep/case.json");
/* A red dot, 1 by 1 (PNG). */
const dot = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==", "base64");

test("a visit saved offline reaches the office, and another telephone", async () => {
    const office = await new Office().begin();
    const one = await telephone(office);
    await one.page.locator(".records-door").click();
    await named(one.page, "ana");
    await exchanged(one.page);
    await kept(one.page);
    await office.end();

    /* In the basement: a case is traced, and saved as a visit of a site that is not there yet, with a photo. */
    await go(one.page, "#/");
    await one.page.reload();
    await one.page.locator(".door input").setInputFiles(night);
    await one.page.waitForSelector(".head .save-visit");
    await one.page.locator(".head .save-visit").click();
    await one.page.locator(".which .new-site").click();
    await field(one.page, "name").locator("input").fill("Birch Hall");
    await one.page.locator(".which form button[type=submit]").click();
    await one.page.waitForSelector(".visit-form");
    await field(one.page, "purpose").locator("label", { hasText: "callback" }).click();
    await field(one.page, "note").locator("input").fill("creeps at night");
    await one.page.locator('.visit-form input[accept="image/*"]').setInputFiles({ name: "gauge.png", mimeType: "image/png", buffer: dot });
    await one.page.locator(".visit-form li input[type=text]").fill("the gauge");
    await one.page.evaluate(() => scrollTo(0, 0));
    await shot(one.page, "visit");
    await one.page.locator(".visit-form .save-visit").click();
    await one.page.waitForSelector("#history");
    assert.match(await one.page.locator(".saved").innerText(), /waits until the office has it/);
    await records(one.page);
    await one.page.waitForFunction(() => document.querySelector(".sites a")?.textContent === "Birch Hall" && /cannot be reached/.test(document.querySelector(".state").textContent));
    assert.match(await one.page.locator(".waits").innerText(), /^\d+ wait to be sent/);
    await one.page.reload();
    await one.page.waitForFunction(() => /wait to be sent/.test(document.querySelector(".waits")?.textContent ?? ""));

    /* The server is back: what waited goes, and only then is the queue empty. */
    await office.begin();
    await exchange(one.page);
    assert.match(office.site("list"), /Birch Hall/);
    const two = await telephone(office);
    await openSite(two.page, "Birch Hall");
    const visit = two.page.locator("#history ~ .entry-of", { hasText: "visit" }).first();
    assert.match(await visit.locator("summary").innerText(), /callback, creeps at night, ana/);
    await visit.locator("summary").click();
    await visit.locator(".facts").nth(1).waitFor();
    const said = JSON.parse(readFileSync(night, "utf8"));
    assert.ok((await visit.innerText()).includes(said.readings[0].pressure), "what the gauges read is there");
    const photo = two.page.locator("#history ~ .entry-of", { hasText: "the gauge" });
    await photo.locator("summary").click();
    await photo.locator("button").click();
    await two.page.waitForFunction(() => document.querySelector(".shown img")?.naturalWidth === 1);
    await shot(two.page, "site");

    /* Written wrong: a new visit takes its place, and what was traced stays with it. */
    await visit.locator("a.button").click();
    await two.page.waitForSelector(".named");
    await named(two.page, "ben");
    await field(two.page, "note").locator("input").fill("creeps at night, and by day");
    await two.page.locator(".visit-form .save-visit").click();
    await two.page.waitForSelector("#history");
    await exchange(two.page);
    const visits = JSON.parse(office.site("show", "birch", "--json")).records.filter((each) => each.kind === "visit");
    assert.deepEqual(visits.map((each) => [each.who, each.body.note, each.body.purpose, each.body.case.readings]), [["ben", "creeps at night, and by day", "callback", said.readings]]);
    await one.context.close();
    await two.context.close();
    await office.close();
});

test("what waits is saved as a file, which the command line and another telephone read", async () => {
    const office = await new Office().begin();
    const { context, page } = await telephone(office);
    await records(page);
    await named(page, "ana");
    await exchanged(page);
    await kept(page);
    await office.end();
    await page.locator(".new-site").click();
    await field(page, "name").locator("input").fill("Elm House");
    await page.locator(".body-form button[type=submit]").click();
    await page.waitForSelector("#history");
    await go(page, "#/visit/" + (await page.evaluate(() => location.hash.split("/")[2])));
    await page.waitForSelector(".visit-form");
    await page.locator('.visit-form input[accept="image/*"]').setInputFiles({ name: "gauge.png", mimeType: "image/png", buffer: dot });
    await page.locator(".visit-form .save-visit").click();
    await page.waitForSelector("#history ~ .entry-of");
    await opened(page);
    const [saved] = await Promise.all([page.waitForEvent("download"), page.locator(".save-queue").click()]);
    const file = await saved.path();
    const list = join(office.folder, "other.db");
    assert.match(execFileSync(quell, ["site", "import", file, "--store", list], { encoding: "utf8" }), /new: 3/);
    assert.match(execFileSync(quell, ["site", "list", "--store", list], { encoding: "utf8" }), /Elm House/);
    await office.begin();
    const other = await telephone(office);
    await opened(other.page);
    await other.page.locator(".read-queue input").setInputFiles(file);
    await other.page.locator(".read-back", { hasText: "not here: 3" }).waitFor();
    await exchange(other.page);
    assert.match(office.site("list"), /Elm House/);
    await exchange(page);
    assert.match(office.site("show", "elm"), /visit[\s\S]*photo|photo[\s\S]*visit/);
    await context.close();
    await other.context.close();
    await office.close();
});

test("a site that two changed apart from each other is settled, by both", async () => {
    const office = new Office();
    office.site("import", firm);
    await office.begin();
    const one = await telephone(office);
    const two = await telephone(office);
    for (const [page, name] of [[one.page, "ana"], [two.page, "ben"]]) {
        await records(page);
        await named(page, name);
        await exchanged(page);
        await kept(page);
    }
    const cedar = async (page, changes) => {
        await openSite(page, "Cedar Court");
        await page.locator(".where .change").click();
        for (const [key, text] of changes) {
            await field(page, key).locator("input").fill(text);
        }
        await page.locator(".where button[type=submit]").click();
        await page.waitForSelector(".where .facts");
    };
    await one.context.setOffline(true);
    await cedar(one.page, [["address", "14 Mill Lane"], ["contact", "the porter"]]);
    await cedar(two.page, [["address", "12a Mill Lane"]]);
    await exchange(two.page);
    await one.context.setOffline(false);
    await exchange(one.page);
    await one.page.locator(".twice a", { hasText: "Cedar Court" }).click();
    await one.page.waitForSelector(".versions");
    assert.deepEqual(await one.page.locator(".versions legend").allInnerTexts(), ["address", "who lets you in"]);
    assert.equal(await one.page.locator(".keep-chosen").isDisabled(), true, "what both changed is nobody's to choose but a person's");
    await shot(one.page, "conflict");
    await one.page.locator(".version", { hasText: "12a Mill Lane" }).click();
    await one.page.locator(".keep-chosen").click();
    await one.page.waitForSelector(".settled");
    await exchange(one.page);
    await exchange(two.page);
    assert.equal(await two.page.locator(".twice a", { hasText: "Cedar Court" }).count(), 0);
    await openSite(two.page, "Cedar Court");
    const facts = await two.page.locator(".where .facts").innerText();
    assert.match(facts, /12a Mill Lane[\s\S]*the porter|the porter[\s\S]*12a Mill Lane/);
    assert.doesNotMatch(office.site("list"), /Cedar Court.*twice/);
    await one.context.close();
    await two.context.close();
    await office.close();
});

/** The trends are drawn, read by their sliders, and each as large as the screen. */
async function drawn(page, trends) {
    const sliders = page.locator(".trends input[type=range]");
    assert.equal(await sliders.count(), trends.length);
    const [lockUp] = trends.filter((each) => each.what === "lock_up");
    await sliders.nth(trends.indexOf(lockUp)).fill("0");
    const said = await page.locator(".trends output").nth(trends.indexOf(lockUp)).innerText();
    assert.match(said, new RegExp(`^${lockUp.first_day}: trend 6[34] psi$`), "the line begins at the first reading");
    await page.locator(".trends [part=enlarge]").first().focus();
    await page.keyboard.press("Enter");
    await page.locator("dialog[open]").waitFor();
    await accessible(page, "a drawing enlarged");
    assert.ok((await page.locator("dialog svg").first().boundingBox()).width > 600, "wider than the telephone");
    await page.keyboard.press("ArrowRight");
    await page.waitForFunction(() => document.querySelector(".trends .sheets").shadowRoot.querySelector("dialog > div").scrollLeft > 300);
    await shot(page, "enlarged");
    await page.keyboard.press("Escape");
    await page.locator("dialog").waitFor({ state: "detached" });
    assert.equal(await page.locator(".trends figure svg").count(), trends.length, "all are back in their places");
    await page.locator(".trends").scrollIntoViewIfNeeded();
    await shot(page, "trend");
}

test("where to go first is the office's ranking, said again without it; a table changed twice is settled", async () => {
    const office = new Office();
    office.site("import", firm);
    const table = (id, parents, who, at, cases) => ({ record: 1, id, kind: "likelihood", document: "7d0fd3f2-0000-4000-8000-000000000001", ...(parents.length === 0 ? {} : { parents }), who, at, body: { likelihood: 1, cases, rows: [] } });
    const ids = ["7d0fd3f2-0000-4000-8000-00000000000a", "7d0fd3f2-0000-4000-8000-00000000000b", "7d0fd3f2-0000-4000-8000-00000000000c"];
    const tables = [table(ids[0], [], "ana", "2026-01-01T10:00:00Z", 1), table(ids[1], [ids[0]], "ana", "2026-02-01T10:00:00Z", 2), table(ids[2], [ids[0]], "ben", "2026-02-02T10:00:00Z", 3)];
    await office.begin();
    for (const each of tables) {
        await fetch(`${office.address}api/records/${each.id}`, { method: "PUT", headers: { "Content-Type": "application/json", Origin: office.address.slice(0, -1), "If-Match": (each.parents ?? []).map((id) => `"${id}"`).join(", ") }, body: JSON.stringify(each) });
    }
    const { context, page } = await telephone(office);
    await records(page);
    await named(page, "ana");
    await exchanged(page);
    const ranked = JSON.parse(office.site("rank", "--json"));
    await page.locator(".order select").selectOption("rank");
    await page.waitForSelector(".ranked li");
    assert.deepEqual(await page.locator(".ranked a").allInnerTexts(), ranked.sites.map((each) => each.name));
    assert.deepEqual(await page.locator(".ranked .why").allInnerTexts(), ranked.sites.map((each) => each.says.join(" ")));
    await accessible(page, "where to go first");
    await page.locator(".ranked").scrollIntoViewIfNeeded();
    await shot(page, "ranked");
    await page.locator(".twice a", { hasText: "likelihood" }).click();
    await page.waitForSelector(".versions");
    await accessible(page, "a table changed twice");
    await page.locator(".version").last().click();
    await page.locator(".keep-chosen").click();
    await page.waitForSelector(".settled");
    await exchange(page);
    assert.equal(await page.locator(".twice a", { hasText: "likelihood" }).count(), 0);
    const stands = await (await fetch(`${office.address}api/documents/${tables[0].document}`)).json();
    assert.equal((stands.records ?? stands.versions).length, 1, "one version stands");
    await kept(page);
    await office.end();
    await page.reload();
    await page.locator(".order select").selectOption("rank");
    await page.waitForSelector(".ranked li");
    assert.deepEqual(await page.locator(".ranked a").allInnerTexts(), ranked.sites.map((each) => each.name), "what the office said last");
    await office.begin();
    await context.close();
    await office.close();
});

test("the survey of a site is planned with, and saved as a version that comes from it; due days and trends are the program's", async () => {
    const office = new Office();
    office.site("import", firm);
    await office.begin();
    const { context, page } = await telephone(office);
    await records(page);
    await named(page, "ana");
    await exchanged(page);
    await page.waitForSelector(".sites li");
    await shot(page, "records");
    const today = JSON.parse(office.site("due", "--json"));
    assert.match(await page.locator(".counts").innerText(), new RegExp(`^${today.overdue} overdue, ${today.soon} soon`));
    await page.locator(".order select").selectOption("due");
    await page.waitForFunction((count) => document.querySelectorAll(".sites li").length === count, today.sites.length);
    assert.deepEqual(await page.locator(".sites a").allInnerTexts(), today.sites.map((each) => each.name));
    assert.deepEqual(await page.locator(".sites time").allInnerTexts(), today.sites.map((each) => each.due));
    await page.locator("input[type=search]").fill("mill lane");
    await page.waitForFunction(() => document.querySelectorAll(".sites li").length === 1);
    const [calendar] = await Promise.all([page.waitForEvent("download"), page.locator(".calendar").click()]);
    office.site("export", "-o", join(office.folder, "due.ics"));
    const plain = (text) => text.replace(/DTSTAMP:.*\r?\n/g, "").split("BEGIN:VEVENT").sort().join("");
    assert.equal(plain(readFileSync(await calendar.path(), "utf8")), plain(readFileSync(join(office.folder, "due.ics"), "utf8")));
    await openSite(page, "Cedar Court");
    await page.waitForSelector(".trends details");
    await page.locator(".trends svg").first().waitFor();
    const visitsBefore = JSON.parse(office.site("show", "cedar", "--json")).records.filter((each) => each.kind === "visit").length;
    const trend = JSON.parse(office.site("trend", "cedar", "--json"));
    const bound = (await page.locator(".trends .sheet p:not([part])").allInnerTexts()).map((each) => each.replace(/\s/g, " ")); // figures stay with their units
    assert.deepEqual(bound, trend.trends.map((each) => each.says.join(" ")));
    await drawn(page, trend.trends);
    await page.evaluate(() => (window.print = () => (window.printed = true)));
    await page.locator(".print-all").click();
    await page.waitForFunction(() => window.printed === true);
    await page.emulateMedia({ media: "print" });
    const paper = await page.locator("body").innerText();
    assert.match(paper, /^Cedar Court/);
    assert.equal(paper.match(/strainer loss(?!:)/g)?.length, visitsBefore, "every visit is on the paper");
    assert.doesNotMatch(paper, /Save a visit|Change\b/);
    await page.emulateMedia({ media: "screen" });
    await page.locator(".open-plan").click();
    await page.waitForSelector(".card");
    await field(page, "downstream.set_pressure").locator("input").first().fill("58");
    await page.locator(".head .save-visit").click();
    await page.waitForSelector(".visit-form .tick");
    await page.locator(".visit-form .save-visit").click();
    await page.waitForSelector("#history");
    await exchange(page);
    const stands = JSON.parse(office.site("show", "cedar", "--json")).records;
    const surveys = stands.filter((each) => each.kind === "survey");
    assert.equal(surveys.length, 1, "it took the place of the one it came from");
    assert.equal(surveys[0].body.downstream.set_pressure, "58 psi");
    assert.equal(surveys[0].parents.length, 1);
    const visits = stands.filter((each) => each.kind === "visit");
    assert.equal(visits.length, visitsBefore + 1);
    await context.close();
    await office.close();
});

test("a wrong password is said, and after too many nothing more is tried; what waits stays", async () => {
    const office = await new Office(["Ana Ruiz", "correct horse battery"], ["Ben", "staple of letters"]).begin();
    const { context, page } = await telephone(office);
    await records(page);
    await page.waitForSelector(".login");
    for (let tries = 0; tries < 10; tries += 1) {
        await login(page, "Ana Ruiz", `wrong ${tries}`);
        await page.waitForFunction(() => document.querySelector(".login button")?.disabled === false && document.querySelector(".login [role=alert]") !== null);
    }
    const said = await page.locator(".login [role=alert]").innerText();
    assert.match(said, /Too many wrong passwords\. Try again in 1[45] min/);
    await shot(page, "login");
    await login(page, "Ana Ruiz", "correct horse battery");
    await page.waitForFunction(() => document.querySelector(".login button")?.disabled === false);
    assert.match(await page.locator(".login [role=alert]").innerText(), /Try again in/, "the right one is not tried either");
    await login(page, "Ben", "staple of letters");
    await exchanged(page);
    await opened(page);
    assert.match(await page.locator(".who").innerText(), /Ben/);
    await page.locator(".new-site").click();
    await field(page, "name").locator("input").fill("Fir Lodge");
    await page.locator(".body-form button[type=submit]").click();
    await page.waitForSelector("#history");
    await exchange(page);
    assert.match(office.site("show", "fir"), /Ben/);
    await page.locator(".who button").click();
    await page.waitForSelector(".login");
    await context.close();
    await office.close();
});

test("a phone that can keep no more says so, and keeps nothing by halves", async () => {
    const office = await new Office().begin();
    const { context, page } = await telephone(office);
    await records(page);
    await named(page, "ana");
    await exchanged(page);
    await page.evaluate(() => {
        IDBObjectStore.prototype.add = () => {
            throw new DOMException("full", "QuotaExceededError");
        };
    });
    await page.locator(".new-site").click();
    await field(page, "name").locator("input").fill("Gorse End");
    await page.locator(".body-form button[type=submit]").click();
    await page.waitForSelector(".body-form .troubles");
    assert.match(await page.locator(".body-form .troubles").innerText(), /cannot keep any more/);
    await page.reload();
    await page.waitForSelector(".sync");
    await exchanged(page);
    assert.equal(await page.locator(".sites li").count(), 0, "nothing of it is here");
    await page.locator(".new-site").click();
    await field(page, "name").locator("input").fill("Gorse End");
    await page.locator(".body-form button[type=submit]").click();
    await page.waitForSelector("#history");
    await exchange(page);
    assert.match(office.site("list"), /Gorse End/);
    await context.close();
    await office.close();
});
