/* The self-contained page has its worker and its engine inside, the engine packed. */
import type { Sources } from "./engine";

function inside(id: string): string {
    return document.getElementById(id)?.textContent ?? "";
}

async function unpacked(base64: string): Promise<ArrayBuffer> {
    const packed = await (await fetch(`data:application/gzip;base64,${base64.trim()}`)).blob();
    return new Response(packed.stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}

export const sources: Sources = {
    startWorker: () => new Worker(URL.createObjectURL(new Blob([inside("worker-source")], { type: "text/javascript" }))),
    // A page opened as a file may load no worklet from a blob.
    worklet: () => `data:text/javascript,${encodeURIComponent(inside("worklet-source"))}`,
    module: async () => WebAssembly.compile(await unpacked(inside("engine-packed"))),
};
