/* The records' screens held to the rules of access, in both languages by day and by night, and run by keyboard. Run by `./dev browser`. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { Office, telephone, shot, records, named, login, openSite, accessible, enter, reach, firm } from "../testing/telephones.mjs";

for (const language of ["en-US", "es-MX"]) {
    for (const colorScheme of ["light", "dark"]) {
        test(`the records' screens are accessible: ${language}, ${colorScheme}`, async () => {
            const office = new Office();
            office.site("import", firm);
            await office.begin();
            for (const width of [320, 1200]) {
                const { context, page } = await telephone(office, { locale: language, colorScheme, viewport: { width, height: 800 } });
                await accessible(page, `home ${width}`);
                await records(page);
                await page.waitForSelector(".sites li");
                await named(page, "ana");
                await page.locator(".new-site").click();
                await page.waitForSelector(".body-form");
                await page.evaluate(() => document.querySelectorAll("details").forEach((each) => (each.open = true)));
                await accessible(page, `records ${width}`);
                await shot(page, `records-${language}-${colorScheme}-${width}`);
                await page.locator(".order select").selectOption("rank");
                await page.waitForSelector(".ranked li");
                await accessible(page, `where to go first ${width}`);
                await shot(page, `ranked-${language}-${colorScheme}-${width}`);
                await page.locator(".twice a").first().click();
                await page.waitForSelector(".versions fieldset");
                await accessible(page, `conflict ${width}`);
                await shot(page, `conflict-${language}-${colorScheme}-${width}`);
                await openSite(page, "Cedar Court");
                await page.waitForSelector(".trends details");
                await page.evaluate(() => document.querySelectorAll("details").forEach((each) => (each.open = true)));
                await page.waitForTimeout(200);
                await accessible(page, `site ${width}`);
                await shot(page, `site-${language}-${colorScheme}-${width}`);
                await page.locator(".trends [part=enlarge]").last().click();
                await page.locator("dialog[open]").waitFor();
                await accessible(page, `enlarged ${width}`);
                await shot(page, `enlarged-${language}-${colorScheme}-${width}`);
                await page.keyboard.press("Escape");
                await page.locator(".button.visit").click();
                await page.waitForSelector(".visit-form");
                await page.evaluate(() => document.querySelectorAll("details").forEach((each) => (each.open = true)));
                await page.waitForTimeout(200);
                await accessible(page, `visit ${width}`);
                await shot(page, `visit-${language}-${colorScheme}-${width}`);
                await context.close();
            }
            await office.close();
            const locked = await new Office(["Ana", "correct horse battery"]).begin();
            const { context, page } = await telephone(locked, { locale: language, colorScheme, viewport: { width: 320, height: 800 } });
            await records(page);
            await page.waitForSelector(".login");
            await login(page, "Ana", "wrong");
            await page.waitForSelector(".login [role=alert]");
            await accessible(page, "login");
            await context.close();
            await locked.close();
        });
    }
}

test("the records' paths run by keyboard", async () => {
    const office = new Office();
    office.site("import", firm);
    await office.begin();
    const { context, page } = await telephone(office, { viewport: { width: 320, height: 640 } });
    await enter(page, ".records-door");
    await page.waitForSelector(".sites li");
    assert.equal(await page.evaluate(() => document.activeElement?.tagName), "H1", "the heading of a screen has the focus");
    await reach(page, ".named input");
    await page.keyboard.type("ana");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".who", { state: "attached" });
    await enter(page, ".sync summary");
    await enter(page, ".exchange-now");
    await reach(page, ".read-queue input");
    await enter(page, ".twice a");
    await page.waitForSelector(".versions");
    await reach(page, ".versions input");
    await page.keyboard.press("Space");
    for (let at = 0; await page.locator(".keep-chosen").isDisabled(); at += 1) {
        assert.ok(at < 20);
        await page.keyboard.press("Tab");
        if (await page.evaluate(() => document.activeElement?.matches('.versions input[type="radio"]'))) {
            await page.keyboard.press("Space");
        }
    }
    await enter(page, ".keep-chosen");
    await page.waitForSelector(".settled");
    await enter(page, ".head nav a");
    await page.waitForSelector(".sites li");
    await reach(page, 'input[type="search"]');
    await page.keyboard.type("oak");
    await page.waitForFunction(() => document.querySelectorAll(".sites li").length === 1);
    await reach(page, ".order select");
    await page.keyboard.press("End"); // the last of the orders
    await page.waitForSelector(".ranked", { state: "attached" });
    await page.keyboard.press("Home");
    await page.waitForSelector("ul.sites a");
    await enter(page, ".sites a");
    await page.waitForSelector("#history");
    await enter(page, ".service-plan .change");
    await page.waitForSelector(".service-plan .body-form");
    await reach(page, '[data-path="every_months"] input');
    await page.keyboard.type("12");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".service-plan .facts");
    await enter(page, ".button.visit");
    await page.waitForSelector(".visit-form");
    await reach(page, '[data-path="note"] input');
    await page.keyboard.type("quiet");
    await reach(page, '.visit-form input[accept="image/*"]');
    await enter(page, ".visit-form .save-visit");
    await page.waitForSelector("#history ~ .entry-of");
    await enter(page, ".entry-of summary");
    await page.waitForSelector(".entry-of[open]");
    await context.close();
    await office.close();
});
