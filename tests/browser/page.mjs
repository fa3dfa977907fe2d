// page.mjs MODULES QUELL ROOT WORK [--shots]: reports as pages, in headless Chromium: axe-core finds nothing on a
// phone and on a desk, by day and by night; nothing is wider than the window; in print there are as many pages as in
// the PDF, give or take one, no letter is lower than 9 pt, and every heading, caption and table's head is on the page
// of what it is over.
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
// The least letters that are read on a phone without a second look (our assumption), CSS pixels.
const leastLetters = 8;
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

function pages(file) {
  return Number(/^Pages: +(\d+)$/m.exec(execFileSync("pdfinfo", [file], { encoding: "utf8" }))[1]);
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
  const least = await page.evaluate(() =>
    Math.min(...[...document.querySelectorAll("svg text")].map((one) => Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b) * parseFloat(getComputedStyle(one).fontSize))),
  );
  check(least >= leastLetters, `${where}: letters of a figure are ${least} px high`);
  if (shots === "--shots") {
    await page.screenshot({ path: join(work, `${name}-${window.width}-${scheme}.png`), fullPage: true });
  }
}

// Puts a mark into every head and into what it is over, so small that no line breaks elsewhere: a heading's is the
// first thing below it, a caption's the heads of its table, the heads' a row, a drawing's its caption. Print repeats
// a table's heads, and with them their mark. How many heads there are.
function markHeads() {
  let count = 0;
  const mark = (element, word) => {
    const one = document.createElement("span");
    one.textContent = ` ${word} `;
    one.style.cssText = "font-size:1px;line-height:0;letter-spacing:0;white-space:nowrap";
    element.append(one);
  };
  const pair = (head, bodies) => {
    mark(head, `qhead${count}q`);
    bodies.forEach((body) => mark(body, `qbody${count}q`));
    count += 1;
  };
  const firstOf = (block) => block.querySelector("caption,th,td,li,p,.drawn") ?? block;
  for (const heading of document.querySelectorAll("main :is(h2,h3)")) {
    if (heading.nextElementSibling !== null) {
      pair(heading, [firstOf(heading.nextElementSibling)]);
    }
  }
  for (const table of document.querySelectorAll("table")) {
    const heads = table.querySelector("thead :is(th,td)");
    if (table.querySelector("caption:not(.quiet)") !== null) {
      pair(table.caption, [heads]);
    }
    pair(heads, [...table.querySelectorAll("tbody tr")].map((row) => row.querySelector("th,td")));
  }
  for (const figure of document.querySelectorAll("figure")) {
    pair(figure.querySelector(".drawn"), [figure.querySelector("figcaption")]);
  }
  return count;
}

// Heads that are on a page without anything of what they are over; every one of @p count is somewhere.
function stranded(file, count) {
  const found = [];
  const seen = new Set();
  const printed = execFileSync("pdftotext", ["-bbox", file, "-"], { encoding: "utf8", maxBuffer: 1 << 28 }).split("<page ").slice(1);
  printed.forEach((words, index) => {
    const bodies = new Set([...words.matchAll(/qbody(\d+)q/g)].map((one) => one[1]));
    for (const [, head] of words.matchAll(/qhead(\d+)q/g)) {
      seen.add(head);
      if (!bodies.has(head)) {
        found.push(`page ${index + 1} of ${printed.length} has head ${head} without its body`);
      }
    }
  });
  check(count > 0 && seen.size === count, `${file}: ${seen.size} of ${count} heads found`);
  return found;
}

// Letters on paper are this high at least (our assumption).
const leastPoints = 9;

// Words in their own size, and in bold, beside which print is measured; no line moves for them.
function addYardstick(points) {
  const one = document.createElement("p");
  one.innerHTML = "qplainq <b>qboldq</b>";
  one.style.cssText = `position:absolute;top:0;left:0;margin:0;line-height:1;font-size:${points}pt`;
  document.body.prepend(one);
}

// Words of a printed file that are lower than the yardstick, but for the marks.
function small(file) {
  const printed = execFileSync("pdftotext", ["-bbox", file, "-"], { encoding: "utf8", maxBuffer: 1 << 28 });
  const words = [...printed.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*)<\/word>/g)].map(
    ([, left, top, right, bottom, text]) => ({ width: right - left, height: bottom - top, text }),
  );
  const rods = words.filter((word) => /^q(plain|bold)q$/.test(word.text));
  check(rods.length === 2, `${file}: ${rods.length} of 2 yardsticks found`);
  const least = 0.99 * Math.min(...rods.map((rod) => rod.height));
  // What is written upwards comes letter by letter, each lying on its side.
  const lying = words.filter((word) => word.text.length > 1 && word.width > word.height && !/^q(head|body)\d+q$/.test(word.text));
  check(lying.length > 100, `${file}: only ${lying.length} words`);
  return lying.filter((word) => word.height < least);
}

async function print(page, name, wanted) {
  const file = join(work, `${name}-printed.pdf`);
  const how = { path: file, preferCSSPageSize: true, printBackground: false };
  await page.pdf(how);
  const count = pages(file);
  check(Math.abs(count - wanted) <= 1, `${name} prints ${count} pages, the PDF has ${wanted}`);
  const heads = await page.evaluate(markHeads);
  await page.evaluate(addYardstick, leastPoints);
  const marked = { ...how, path: join(work, `${name}-marked.pdf`) };
  await page.pdf(marked);
  check(pages(marked.path) === count, `${name}: the marks take ${pages(marked.path)} pages instead of ${count}`);
  stranded(marked.path, heads).forEach((one) => check(false, `${name}: ${one}`));
  const low = small(marked.path);
  check(low.length === 0, `${name}: ${low.length} words are lower than ${leastPoints} pt, as "${low[0]?.text}"`);
  // The checks find what they are for.
  await page.addStyleTag({ content: "@media print{h3,caption{break-after:page!important}.kept,.kept table{break-inside:auto!important}td{font-size:8.5pt}}" });
  await page.pdf({ ...how, path: marked.path });
  check(stranded(marked.path, heads).length > 0, `${name}: heads that were torn off are not found`);
  check(small(marked.path).length > 0, `${name}: letters that are too small are not found`);
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
