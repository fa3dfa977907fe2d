/* The self-contained page has its worker and its engine inside, the engine packed. */
import { decode85 } from "./base85";
import type { Sources } from "./engine";

function inside(id: string): string {
    return document.getElementById(id)?.textContent ?? "";
}

function unpacked(text: string): Promise<ArrayBuffer> {
    const packed = new Blob([decode85(text.trim())]);
    return new Response(packed.stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}

export const sources: Sources = {
    startWorker: () => new Worker(URL.createObjectURL(new Blob([inside("worker-source")], { type: "text/javascript" }))),
    // A page opened as a file may load no worklet from a blob.
    worklet: () => `data:text/javascript,${encodeURIComponent(inside("worklet-source"))}`,
    module: async () => WebAssembly.compile(await unpacked(inside("engine-packed"))),
};
