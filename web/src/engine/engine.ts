/* The engine behind two workers: a quick one for what must answer while somebody types, and one that searches and is
 * ended and replaced when its question has grown stale. */
import type { Files, FromWorker, Question, Reply, Telling, ToWorker } from "./protocol";

/** A question that a later one made pointless. */
export class Stale extends Error {}

interface Waiting {
    id: number;
    progress: ((share: number) => void) | undefined;
    settle: (reply: Reply) => void;
    fail: (reason: unknown) => void;
}

class Lane {
    private worker: Worker | undefined;
    private waiting: Waiting | undefined;
    private queued: { begin: () => void; fail: (reason: unknown) => void } | undefined;

    constructor(
        private readonly start: () => Worker,
        private readonly module: Promise<WebAssembly.Module>,
        /** True: a new question ends the running one at once; false: it waits, and only the newest waits. */
        private readonly replaces: boolean,
    ) {}

    /** Has a worker stand by with the engine before anything is asked. */
    standBy(): void {
        this.worker ??= this.open();
    }

    ask(question: Question, files: Files, progress?: (share: number) => void): Promise<Reply> {
        return new Promise((settle, fail) => {
            const begin = (): void => {
                void this.begin({ id: ++lastId, progress, settle, fail }, question, files);
            };
            if (this.waiting === undefined) {
                begin();
            } else if (this.replaces) {
                this.stop();
                begin();
            } else {
                this.queued?.fail(new Stale());
                this.queued = { begin, fail };
            }
        });
    }

    /** Ends what runs; its question fails as stale. */
    stop(): void {
        const waiting = this.waiting;
        this.waiting = undefined;
        if (waiting !== undefined) {
            this.worker?.terminate();
            this.worker = undefined;
            waiting.fail(new Stale());
        }
    }

    private async begin(waiting: Waiting, question: Question, files: Files): Promise<void> {
        this.waiting = waiting;
        this.standBy();
        await this.module;
        if (this.waiting === waiting) {
            this.worker?.postMessage({ say: "ask", id: waiting.id, question, files } satisfies ToWorker);
        }
    }

    private open(): Worker {
        const worker = this.start();
        worker.onmessage = (event: MessageEvent<FromWorker>) => this.heard(event.data);
        worker.onerror = () => this.broke();
        void this.module.then((module) => worker.postMessage({ say: "load", module } satisfies ToWorker));
        return worker;
    }

    private heard(message: FromWorker): void {
        const waiting = this.waiting;
        if (waiting === undefined || waiting.id !== message.id) {
            return;
        }
        if (message.say === "progress") {
            waiting.progress?.(message.share);
            return;
        }
        this.waiting = undefined;
        if (message.reply.status === "broken") {
            this.worker?.terminate();
            this.worker = undefined;
        }
        waiting.settle(message.reply);
        this.next();
    }

    private broke(): void {
        this.worker?.terminate();
        this.worker = undefined;
        const waiting = this.waiting;
        this.waiting = undefined;
        waiting?.settle({ status: "broken", text: "" });
        this.next();
    }

    private next(): void {
        const queued = this.queued;
        this.queued = undefined;
        queued?.begin();
    }
}

/** Questions about records: none grows stale, and each waits for the one before. */
class Desk {
    private worker: Worker | undefined;
    private readonly asked = new Map<number, (reply: Reply) => void>();

    constructor(
        private readonly start: () => Worker,
        private readonly module: Promise<WebAssembly.Module>,
    ) {}

    async ask(telling: Telling, documents: string[]): Promise<Reply> {
        const module = await this.module;
        const worker = this.worker ?? this.begin(module);
        const id = ++lastId;
        return new Promise((settle) => {
            this.asked.set(id, settle);
            worker.postMessage({ say: "tell", id, telling, documents } satisfies ToWorker);
        });
    }

    private begin(module: WebAssembly.Module): Worker {
        const worker = this.start();
        this.worker = worker;
        worker.onmessage = (event: MessageEvent<FromWorker>) => {
            const message = event.data;
            if (message.say === "reply") {
                this.asked.get(message.id)?.(message.reply);
                this.asked.delete(message.id);
                if (message.reply.status === "broken") {
                    this.end();
                }
            }
        };
        worker.onerror = () => this.end();
        worker.postMessage({ say: "load", module } satisfies ToWorker);
        return worker;
    }

    private end(): void {
        this.worker?.terminate();
        this.worker = undefined;
        this.asked.forEach((settle) => settle({ status: "broken", text: "" }));
        this.asked.clear();
    }
}

let lastId = 0;

/** Where the page finds its engine and its worker; the self-contained page has both inside. */
export interface Sources {
    startWorker: () => Worker;
    module: () => Promise<WebAssembly.Module>;
    /** Address of what hands out the microphone's samples. */
    worklet: () => string;
}

export class Engine {
    readonly quick: Lane;
    readonly search: Lane;
    readonly desk: Desk;

    constructor(sources: Sources) {
        const module = sources.module();
        this.quick = new Lane(sources.startWorker, module, false);
        this.search = new Lane(sources.startWorker, module, true);
        this.desk = new Desk(sources.startWorker, module);
    }
}
