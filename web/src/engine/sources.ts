/* Where the page served by a server finds its worker and its engine: beside itself. */
import type { Sources } from "./engine";

export const sources: Sources = {
    startWorker: () => new Worker("worker.js"),
    worklet: () => "take.js",
    module: async () => WebAssembly.compileStreaming(fetch("engine.wasm")),
};
