/* Builds the page from src/ and the engine: a folder for a server, and one self-contained file.
 *
 *     node build.mjs ENGINE.wasm ALONE.wasm VERSION OUT
 *
 * ALONE.wasm is the engine of the file, which has no server to share records with, and so no records. OUT/page/ holds the
 * folder, OUT/quell.html the file. The same sources give the same bytes. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import { build } from "esbuild";
import { encode85 } from "./base85.mjs";

const [engineFile, aloneFile, version, out] = process.argv.slice(2);
if (out === undefined) {
    console.error("usage: node build.mjs ENGINE.wasm ALONE.wasm VERSION OUT");
    process.exit(2);
}
const here = dirname(fileURLToPath(import.meta.url));
const engine = readFileSync(engineFile);
const alone = readFileSync(aloneFile);

async function bundled(entry, define = {}, sources = "sources.ts", records = "part.tsx") {
    const result = await build({
        absWorkingDir: here,
        entryPoints: [entry],
        bundle: true,
        minify: true,
        write: false,
        format: "iife",
        target: "es2022",
        charset: "utf8",
        jsx: "automatic",
        jsxImportSource: "preact",
        legalComments: "none",
        define: Object.fromEntries(Object.entries({ QUELL_VERSION: version, ...define }).map(([name, value]) => [name, JSON.stringify(value)])),
        alias: { "page-sources": join(here, "src/engine", sources), "page-records": join(here, "src/records", records) },
        outdir: "unused",
        logLevel: "warning",
    });
    return result.outputFiles[0].text;
}

function digest(...parts) {
    const hash = createHash("sha256");
    parts.forEach((part) => hash.update(part));
    return hash.digest("hex");
}

function put(file, bytes) {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
}

const style = await bundled("src/page.css");
const worker = await bundled("src/engine/worker.ts");
const worklet = await bundled("src/trace/take.ts");
/* Whoever passes the page on passes on what others ask for. */
const credits = readFileSync(join(here, "../THIRD_PARTY.md"), "utf8");
const template = readFileSync(join(here, "index.html"), "utf8");

/* The folder. */
const folder = join(out, "page");
rmSync(folder, { recursive: true, force: true });
const script = await bundled("src/main.tsx", { QUELL_STORE: "quell", QUELL_ENGINE: digest(engine) });
const files = {
    "index.html": template,
    "page.js": script,
    "page.css": style + (await bundled("src/records/records.css")),
    "worker.js": worker,
    "take.js": worklet,
    "engine.wasm": engine,
    "THIRD_PARTY.md": credits,
    "icon.svg": readFileSync(join(here, "icon.svg")),
    "manifest.webmanifest": readFileSync(join(here, "manifest.webmanifest")),
};
const cache = `quell-${digest(...Object.values(files)).slice(0, 16)}`;
files["service_worker.js"] = await bundled("src/service_worker.ts", { QUELL_CACHE: cache, QUELL_FILES: ["./", ...Object.keys(files)] });
/* What is worth it lies packed beside itself as well: quell serve hands that to a browser that unpacks it, and so do others. */
const WORTH_PACKING = 1024;
const packedSizes = Object.entries(files).map(([name, bytes]) => {
    put(join(folder, name), bytes);
    const size = Buffer.byteLength(bytes);
    if (size < WORTH_PACKING) {
        return size;
    }
    const small = brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY, [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS, [constants.BROTLI_PARAM_SIZE_HINT]: size } });
    put(join(folder, `${name}.br`), small);
    return small.length;
});

/* The file: engine packed, worker as text, a store named by what the file holds. */
const inside = await bundled(
    "src/main.tsx",
    { QUELL_STORE: `quell-file-${digest(alone, worker, worklet, script).slice(0, 16)}`, QUELL_ENGINE: digest(alone) },
    "sources_inside.ts",
    "none.ts",
);
/* zlib packs less well, and its header would tell which system packed it. */
const packed = execFileSync("zopfli", ["-c", aloneFile], { maxBuffer: alone.length });
const guarded = (text) => text.replaceAll("</script", "<\\/script");
const single = template
    .replace(/<link rel="(manifest|icon)"[^>]*>\n/g, "")
    .replace(/<link rel="stylesheet"[^>]*>/, () => `<style>${style}</style>`)
    .replace(
        /<script src="page.js"><\/script>/,
        () =>
            `<script type="text/plain" id="engine-packed">${encode85(packed)}</script>\n` +
            `<script type="text/plain" id="third-party">\n${guarded(credits)}</script>\n` +
            `<script type="text/plain" id="worker-source">${guarded(worker)}</script>\n` +
            `<script type="text/plain" id="worklet-source">${guarded(worklet)}</script>\n` +
            `<script>${guarded(inside)}</script>`,
    );
put(join(out, "quell.html"), single);

const sum = (sizes) => sizes.reduce((total, size) => total + size, 0);
console.log(`page ${sum(packedSizes)} bytes as it is sent; file ${Buffer.byteLength(single)} bytes`);
