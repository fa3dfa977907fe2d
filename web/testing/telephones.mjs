/* Telephones' screens in Chromium, and an office whose server can be ended and begun again: what the tests of the page share. */
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { after, before } from "node:test";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
export const root = resolve(here, "../..");
export const quell = resolve(process.env.QUELL ?? join(root, "build/dev/quell"));
const shots = process.env.QUELL_SHOTS;
const axe = readFileSync(join(here, "../node_modules/axe-core/axe.min.js"), "utf8");
export const firm = join(root, "examples/records/firm.json");

/** An office: a store, and a server that can be ended and begun again at the same address. */
export class Office {
    folder = mkdtempSync(join(tmpdir(), "quell-records-"));
    store = join(this.folder, "records.db");
    port = 0;

    constructor(...people) {
        offices.add(this);
        people.forEach(([name, password]) => execFileSync(quell, ["serve", "--add", name, "--store", this.store], { input: `${password}\n`, stdio: ["pipe", "ignore", "inherit"] }));
    }

    site(...words) {
        return execFileSync(quell, ["site", ...words, "--store", this.store], { encoding: "utf8" });
    }

    async begin() {
        this.server = spawn(quell, ["serve", "--port", String(this.port), "--store", this.store], { stdio: ["ignore", "ignore", "pipe"] });
        let said = "";
        this.port = await new Promise((settle, fail) => {
            this.server.stderr.on("data", (text) => {
                said += text;
                const ready = /ready at http:\/\/localhost:(\d+)\//.exec(said);
                if (ready !== null) {
                    settle(Number(ready[1]));
                }
            });
            this.server.on("exit", () => fail(new Error(said)));
        });
        this.address = `http://localhost:${this.port}/`;
        return this;
    }

    async end() {
        const ended = new Promise((settle) => this.server.on("exit", settle));
        this.server.kill();
        await ended;
    }

    async close() {
        offices.delete(this);
        await this.end();
        rmSync(this.folder, { recursive: true });
    }
}

let browser;
const offices = new Set();
before(async () => {
    browser = await chromium.launch({
        executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
        args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream"],
    });
});
after(async () => {
    offices.forEach((office) => office.server?.kill()); // of tests that failed
    await browser?.close();
});

/** A page on a telephone's screen, whose errors end the test; nothing is opened yet. */
export async function blank(options = {}) {
    const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: "en-US", colorScheme: "light", ...options });
    const page = await context.newPage();
    page.on("pageerror", (error) => {
        throw error;
    });
    page.on("console", (message) => {
        assert.doesNotMatch(message.text(), /Content Security Policy/);
    });
    return { context, page };
}

/** The same with the page of an office. */
export async function telephone(office, options = {}) {
    const opened = await blank(options);
    await opened.page.goto(office.address);
    await opened.page.waitForSelector(".doors");
    return opened;
}

export async function shot(page, name) {
    if (shots !== undefined) {
        mkdirSync(shots, { recursive: true });
        await page.screenshot({ path: join(shots, `${name}.png`) });
    }
}

export const field = (page, path) => page.locator(`[data-path="${path}"]`);

export async function go(page, hash) {
    await page.evaluate((to) => (location.hash = to), hash);
}

export async function records(page) {
    await go(page, "#/records");
    await page.waitForSelector(".records .sync");
}

/** Writes the name under which is saved where nobody logs in. */
export async function named(page, name) {
    await page.locator(".named input").fill(name);
    await page.locator(".named button").click();
    await page.waitForFunction(() => document.querySelector(".named") === null);
}

export async function exchanged(page) {
    await page.waitForFunction(() => /Up to date|Al día/.test(document.querySelector(".sync .state")?.textContent ?? "") && /Nothing waits|Nada espera/.test(document.querySelector(".waits")?.textContent ?? ""));
}

/** Opens all that there is to say of the office. */
export async function opened(page) {
    await records(page);
    await page.evaluate(() => (document.querySelector(".sync details").open = true));
}

export async function exchange(page) {
    await opened(page);
    await page.locator(".exchange-now").click();
    await exchanged(page);
}

export async function login(page, name, password) {
    await page.locator('.login input[name="username"]').fill(name);
    await page.locator('.login input[name="password"]').fill(password);
    await page.locator(".login button").click();
}

export async function openSite(page, name) {
    await records(page);
    await page.locator(".sites a", { hasText: name }).click();
    await page.waitForSelector("#history");
}

export async function accessible(page, where) {
    await page.evaluate(axe);
    const found = await page.evaluate(async () => (await window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] })).violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.target.join(" ")).join(", ")}`));
    assert.deepEqual(found, [], where);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${where}: wider than the screen by ${wide} px`);
}

/** Once the page is there without its server. */
export async function kept(page) {
    await page.waitForFunction(() => navigator.serviceWorker.ready.then((registration) => registration.active?.state === "activated"));
    await page.waitForTimeout(300);
}

/** Tabs to it, and presses it. */
export async function enter(page, selector) {
    await reach(page, selector);
    await page.keyboard.press("Enter");
}

/** Tabs on until the first of `selector` has the focus. */
export async function reach(page, selector) {
    for (let presses = 0; presses < 200; presses++) {
        if (await page.evaluate((sought) => document.activeElement === document.querySelector(sought), selector)) {
            return;
        }
        await page.keyboard.press("Tab");
    }
    assert.fail(`no way to ${selector} by keyboard`);
}
