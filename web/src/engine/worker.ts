/* One engine: a WebAssembly instance that answers a question at a time. */
import { Door } from "./door";
import type { FromWorker, Reply, ToWorker } from "./protocol";

let door: Promise<Door> | undefined;

/* Often enough for people, seldom enough for the engine. */
const PROGRESS_EVERY_MS = 50;

self.onmessage = async (event: MessageEvent<ToWorker>): Promise<void> => {
    const message = event.data;
    if (message.say === "load") {
        door = Door.open(message.module);
        return;
    }
    const none: Reply = { status: "no-memory", text: "" };
    if (message.say === "tell") {
        const there = await door?.catch(() => undefined);
        const reply = there?.tell(message.telling, message.documents) ?? none;
        self.postMessage({ say: "reply", id: message.id, reply } satisfies FromWorker);
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
    const opened = await door?.catch(() => undefined);
    const reply = opened?.ask(question, files, tell) ?? none;
    self.postMessage({ say: "reply", id, reply } satisfies FromWorker);
};
