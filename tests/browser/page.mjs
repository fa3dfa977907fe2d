// page.mjs MODULES QUELL ROOT WORK [--shots]: reports as pages, in headless Chromium: axe-core finds nothing on a
// phone and on a desk, by day and by night; nothing is wider than the window; in print there are as many pages as in
// the PDF, give or take one, and no page ends in a heading, a caption or a table's head.
// With --shots pictures of all that are left in WORK.
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";

const [modules, quell, root, work, shots] = process.argv.slice(2);
const require = createRequire(join(modules, "package.json"));
const puppeteer = require("puppeteer-core");
const axe = require.resolve("axe-core/axe.min.js");

const reports = [
  { name: "house", more: [] },
  { name: "repurposed-building", more: ["--language", "es"] },
  { name: "hillside", more: ["--units", "si"] },
];
const windows = [
  { width: 320, height: 640 },
  { width: 1200, height: 900 },
];

let failed = 0;
function check(holds, says) {
  if (!holds) {
    failed += 1;
    console.log(`failed: ${says}`);
  }
}

function report(of, file) {
  const survey = join(root, "examples", of.name, "survey.json");
  execFileSync(quell, ["report", survey, ...of.more, "-o", file], { stdio: ["ignore", "ignore", "inherit"] });
}

function text(file, page) {
  return execFileSync("pdftotext", ["-layout", "-f", `${page}`, "-l", `${page}`, file, "-"], { encoding: "utf8" });
}

function pages(file) {
  return Number(/^Pages: +(\d+)$/m.exec(execFileSync("pdfinfo", [file], { encoding: "utf8" }))[1]);
}

// Blanks and hyphens as they were before print.
function plain(words) {
  return words.replace(/[\u00a0\s]+/g, " ").replace(/\u2011/g, "-").trim();
}

async function lookAt(page, name, window, scheme) {
  const where = `${name} at ${window.width} px, ${scheme}`;
  await page.setViewport(window);
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
  const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  for (const one of found.violations) {
    check(false, `${where}: ${one.id} (${one.impact}), ${one.nodes.length} times, as ${one.nodes[0].html.slice(0, 160)}`);
  }
  check(found.passes.length > 10, `${where}: axe-core looked at nothing`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  check(wide <= 0, `${where}: the page is ${wide} px wider than its window`);
  const letters = await page.evaluate(() =>
    [...document.querySelectorAll("svg")].map((svg) => svg.getBoundingClientRect().width),
  );
  check(Math.min(...letters) >= 559, `${where}: a figure is ${Math.min(...letters)} px wide`);
  if (shots === "--shots") {
    await page.screenshot({ path: join(work, `${name}-${window.width}-${scheme}.png`), fullPage: true });
  }
}

// Headings, captions and the heads of tables: what may not stand last on a page. A table's heads are on one line.
async function heads(page) {
  const found = await page.evaluate(() => ({
    lines: [...document.querySelectorAll("h2,h3,caption")].map((head) => head.textContent),
    rows: [...document.querySelectorAll("thead")].map((row) => [...row.querySelectorAll("th")].map((head) => head.textContent)),
  }));
  const lines = new Set(found.lines.map(plain));
  const rows = found.rows.map((row) => new Set(row.flatMap((head) => plain(head).split(" "))));
  return (last) => {
    const words = last.split(" ").filter((word) => !/^[-\d.,]*$/.test(word));
    return lines.has(last) || (words.length > 1 && rows.some((row) => words.every((word) => row.has(word))));
  };
}

async function print(page, name, wanted) {
  const file = join(work, `${name}-printed.pdf`);
  await page.pdf({ path: file, preferCSSPageSize: true, printBackground: false });
  const count = pages(file);
  check(Math.abs(count - wanted) <= 1, `${name} prints ${count} pages, the PDF has ${wanted}`);
  const isHead = await heads(page);
  for (let number = 1; number <= count; number += 1) {
    const lines = text(file, number).split("\n").map(plain).filter((line) => line !== "");
    const last = lines.at(-1) ?? "";
    check(!isHead(last), `${name}: page ${number} of ${count} ends in "${last}"`);
  }
}

const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM,
  args: ["--no-sandbox", "--disable-dev-shm-usage"],
});
try {
  for (const of of reports) {
    const file = join(work, of.name);
    report(of, `${file}.html`);
    report(of, `${file}.pdf`);
    const page = await browser.newPage();
    page.on("request", (request) => check(/^(file|data):/.test(request.url()), `${of.name} asks for ${request.url()}`));
    await page.goto(`file://${file}.html`);
    await page.addScriptTag({ path: axe });
    for (const window of windows) {
      for (const scheme of ["light", "dark"]) {
        await lookAt(page, of.name, window, scheme);
      }
    }
    await print(page, of.name, pages(`${file}.pdf`));
    await page.close();
  }
} finally {
  await browser.close();
}
console.log(failed === 0 ? "pages are as they should be" : `${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
