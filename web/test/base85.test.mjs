/* What build.mjs writes inside the page, the page reads back: bytes of every length and value. */
import assert from "node:assert/strict";
import { randomBytes } from "node:crypto";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { encode85 } from "../base85.mjs";

const source = join(dirname(fileURLToPath(import.meta.url)), "../src/engine/base85.ts");
const bundled = await build({ entryPoints: [source], bundle: true, write: false, format: "esm" });
const { decode85 } = await import(`data:text/javascript,${encodeURIComponent(bundled.outputFiles[0].text)}`);

test("bytes come back, and no letter ends a script", () => {
    for (let size = 0; size < 300; size += 1) {
        for (const bytes of [randomBytes(size), Buffer.alloc(size, 255), Buffer.alloc(size)]) {
            const text = encode85(bytes);
            assert.ok(!/[<\\\s]/.test(text), text);
            assert.deepEqual(Buffer.from(decode85(text)), bytes);
        }
    }
});
