/* The log that a survey names goes into the records with it, and comes to whoever plans there. Run by `./dev browser`, as records_page.test.mjs is. */
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { Office, accessible, telephone, shot, field, go, records, named, exchanged, exchange, openSite, kept, root } from "../testing/telephones.mjs";

const metered = join(root, "examples/metered");
const log = readFileSync(join(metered, "last-tenant.csv"));

/** What the answer says at a glance, once it is there. */
async function glance(page) {
    await page.waitForFunction(() => document.querySelector(".working") === null && document.querySelector(".glance.old") === null && document.querySelector(".glance p") !== null, null, { timeout: 120_000 });
    return page.locator(".glance p").first().innerText();
}

/** Presses the site's button to plan with its survey. */
async function press(page) {
    await openSite(page, "Dye House");
    await page.locator("#stations ~ .entry-of", { hasText: "survey" }).locator("summary").click();
    await page.locator(".open-plan").click();
}

async function plan(page) {
    await press(page);
    await page.waitForSelector(".bar");
}

async function joined(office, name) {
    const { context, page } = await telephone(office);
    await records(page);
    await named(page, name);
    await exchanged(page);
    await kept(page);
    return { context, page };
}

test("another telephone plans with the log that went along with a survey, and without the office once it has it", { timeout: 600_000 }, async () => {
    const office = await new Office().begin();
    const one = await joined(office, "ana");

    await go(one.page, "#/");
    await one.page.locator(".door input").first().setInputFiles(join(metered, "survey.json"));
    const scenario = one.page.locator('[data-path="scenarios[0].log"]');
    await one.page.waitForSelector(".card");
    await one.page.waitForFunction(() => {
        document.querySelectorAll("details.card, .card details").forEach((each) => (each.open = true));
        return document.querySelector('[data-path="scenarios[0].log"] input[type="file"]') !== null;
    });
    await scenario.locator('input[type="file"]').setInputFiles({ name: "last-tenant.csv", mimeType: "text/csv", buffer: log });
    const said = await glance(one.page);
    await one.page.locator(".head .save-visit").click();
    await one.page.locator(".which .new-site").click();
    await field(one.page, "name").locator("input").fill("Dye House");
    await one.page.locator(".which form button[type=submit]").click();
    await one.page.waitForSelector(".visit-form .tick");
    await one.page.locator(".visit-form .save-visit").click();
    await one.page.waitForSelector("#history");
    await exchange(one.page);

    /* The office has it: all of it in the export, and it ranks the site's station by it. */
    const { list, attachments } = JSON.parse(office.site("export"));
    const [logged] = list.filter((each) => each.kind === "log");
    assert.equal(logged.body.name, "last-tenant.csv");
    assert.equal(Buffer.concat(attachments.filter((each) => each.sha256 === logged.body.sha256).map((each) => Buffer.from(each.base64, "base64"))).compare(log), 0);

    /* One that pulled the records, but not the log, is told what is missing. */
    const two = await joined(office, "ben");
    const three = await joined(office, "cleo");
    await office.end();
    await press(three.page);
    await three.page.locator(".troubles .open-without").waitFor();
    assert.match(await three.page.locator(".troubles").innerText(), /^last-tenant\.csv: It is not on this phone/);
    await accessible(three.page, "a log that is not here");
    await shot(three.page, "log_missing");
    await three.page.locator(".open-without").click();
    await three.page.waitForSelector(".bar");
    await three.page.waitForFunction(() => document.querySelector(".glance .now") !== null);
    await office.begin();

    await plan(two.page);
    assert.equal(await glance(two.page), said, "the same answer as where the log was attached");
    await office.end();
    await two.page.reload();
    await plan(two.page);
    assert.equal(await glance(two.page), said, "the same without the office");

    /* Meanwhile the office keeps a longer log. What is saved of the plan is a visit: the log that it came with takes no newer one's place. */
    const planned = await two.page.evaluate(() => location.hash.split("/")[2]);
    const longer = Buffer.concat([log, Buffer.from("2025-03-10 00:00,12\n")]);
    writeFileSync(join(office.folder, "survey.json"), readFileSync(join(metered, "survey.json")));
    writeFileSync(join(office.folder, "last-tenant.csv"), longer);
    office.site("set", "dye", "survey", join(office.folder, "survey.json"));
    await office.begin();
    await exchange(two.page);
    await go(two.page, `#/save/${planned}`);
    await two.page.waitForSelector(".visit-form .save-visit");
    await two.page.locator(".visit-form .save-visit").click();
    await two.page.waitForSelector("#history");
    await exchange(two.page);
    const after = JSON.parse(office.site("export"));
    assert.deepEqual(after.list.slice(list.length).map((each) => each.kind), ["survey", "log", "visit"]);
    assert.equal(after.list[list.length + 1].body.sha256, createHash("sha256").update(longer).digest("hex"));

    /* It can be had as the file that it is now. */
    await openSite(two.page, "Dye House");
    const entry = two.page.locator("#history ~ .entry-of", { hasText: "last-tenant.csv" });
    await entry.locator("summary").click();
    const [saved] = await Promise.all([two.page.waitForEvent("download"), entry.locator(".shown button").click()]);
    assert.equal(saved.suggestedFilename(), "last-tenant.csv");
    assert.equal(readFileSync(await saved.path()).compare(longer), 0);
    for (const each of [one, two, three]) {
        await each.context.close();
    }
    await office.close();
});
