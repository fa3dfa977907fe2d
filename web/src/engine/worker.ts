/* One engine: a WebAssembly instance that answers a question at a time. */
import { Door } from "./door";
import type { FromWorker, ToWorker } from "./protocol";

let door: Door | undefined;

/* Often enough for people, seldom enough for the engine. */
const PROGRESS_EVERY_MS = 50;

self.onmessage = (event: MessageEvent<ToWorker>): void => {
    const message = event.data;
    if (message.say === "load") {
        door = new Door(message.module);
        return;
    }
    const { id, question, files } = message;
    let told = 0;
    const tell = (share: number): void => {
        const now = performance.now();
        if (now - told >= PROGRESS_EVERY_MS) {
            told = now;
            self.postMessage({ say: "progress", id, share } satisfies FromWorker);
        }
    };
    const reply = door?.ask(question, files, tell) ?? { status: "broken" as const, text: "" };
    self.postMessage({ say: "reply", id, reply } satisfies FromWorker);
};
