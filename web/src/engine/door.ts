/* The engine's door as JavaScript sees it: text in, text out. */
import type { Files, Question, Reply, Status } from "./protocol";

interface Exports {
    memory: WebAssembly.Memory;
    _initialize(): void;
    take(size: number): number;
    give(at: number): void;
    ask(at: number, size: number): number;
    bytes(): number;
    size(): number;
}

const STATUSES: readonly Status[] = ["ok", "refused", "no-memory", "broken", "io", "wrong-use", "stopped"];

/* Of the three functions of a file system that C's library asks for, none is there. */
const EBADF = 8;

export class Door {
    private readonly exports: Exports;
    private progress: (share: number) => void = () => undefined;

    constructor(module: WebAssembly.Module) {
        const none = (): number => EBADF;
        const instance = new WebAssembly.Instance(module, {
            wasi_snapshot_preview1: { fd_write: none, fd_seek: none, fd_close: none },
            quell: {
                progress: (share: number): number => {
                    this.progress(share);
                    return 1;
                },
            },
        });
        this.exports = instance.exports as unknown as Exports;
        this.exports._initialize();
    }

    /** A trap (an assertion of the engine, or its stack) leaves the instance unfit: "broken". */
    ask(question: Question, _files: Files, progress: (share: number) => void): Reply {
        this.progress = progress;
        const pairs = Object.entries(question)
            .filter(([, value]) => typeof value === "string")
            .map(([key, value]) => `${key}\0${value as string}\0`)
            .join("");
        const bytes = new TextEncoder().encode(pairs);
        try {
            const at = this.exports.take(bytes.length);
            if (at === 0) {
                return { status: "no-memory", text: "" };
            }
            new Uint8Array(this.exports.memory.buffer, at, bytes.length).set(bytes);
            const status = STATUSES[this.exports.ask(at, bytes.length)] ?? "broken";
            const start = this.exports.bytes();
            const text =
                start === 0
                    ? ""
                    : new TextDecoder().decode(new Uint8Array(this.exports.memory.buffer, start, this.exports.size()));
            this.exports.give(at);
            return { status, text };
        } catch {
            return { status: "broken", text: "" };
        }
    }
}
