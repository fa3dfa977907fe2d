/* The engine's door as JavaScript sees it (web/engine/door.c): a question and its documents in, an answer out. */
import type { Files, Question, Recording, Reply, Status } from "./protocol";

interface Exports {
    memory: WebAssembly.Memory;
    _initialize(): void;
    quell_open(ceiling: number, kept: number): number;
    quell_begin(): number;
    quell_hand_in(size: number): number;
    quell_ask(question: number): number;
    quell_answer(): number;
    quell_answer_size(): number;
}

const STATUSES: readonly Status[] = ["ok", "refused", "no-memory", "busy", "io", "wrong-use", "stopped"];

/* Of the three functions of a file system that C's library asks for, none is there. */
const EBADF = 8;

/* The most that one question may take, and what may be kept between two. */
const CEILING_BYTES = 256 * 1024 * 1024;
const KEPT_BYTES = 48 * 1024 * 1024;

class NoMemory extends Error {}

export class Door {
    private readonly exports: Exports;
    private progress: (share: number) => void = () => undefined;
    private blobs: Blob[] = [];
    private count = 0;

    constructor(module: WebAssembly.Module) {
        const none = (): number => EBADF;
        const instance = new WebAssembly.Instance(module, {
            wasi_snapshot_preview1: { fd_write: none, fd_seek: none, fd_close: none },
            quell: {
                quell_progress: (share: number): number => {
                    this.progress(share);
                    return 1;
                },
                quell_read_file: (file: number, at: number, bytes: number, size: number): number => this.slice(file, at, bytes, size),
            },
        });
        this.exports = instance.exports as unknown as Exports;
        this.exports._initialize();
        this.exports.quell_open(CEILING_BYTES, KEPT_BYTES);
    }

    /** A trap (an assertion of the engine, or its stack) leaves the instance unfit: "broken". */
    ask(question: Question, files: Files, progress: (share: number) => void): Reply {
        this.progress = progress;
        this.blobs = [];
        this.count = 0;
        try {
            if (this.exports.quell_begin() === 0) {
                return { status: "no-memory", text: "" };
            }
            const { document, catalogue, ...words } = question;
            const asked = {
                ...words,
                ...(document === undefined ? {} : { document: { name: "survey", input: this.handIn(document) } }),
                ...(catalogue === undefined ? {} : { catalogue: { name: "catalogue", input: this.handIn(catalogue) } }),
                ...(files.log === undefined ? {} : { log: this.file(files.log) }),
                ...(files.attachments === undefined ? {} : { attachments: files.attachments.map((each) => this.file(each)) }),
                ...(files.recording === undefined ? {} : { recording: this.recorded(files.recording) }),
                ...(files.quiet === undefined ? {} : { quiet: this.recorded(files.quiet) }),
            };
            const status = STATUSES[this.exports.quell_ask(this.handIn(JSON.stringify(asked)))] ?? "broken";
            const at = this.exports.quell_answer();
            const text = at === 0 ? "" : new TextDecoder().decode(new Uint8Array(this.exports.memory.buffer, at, this.exports.quell_answer_size()));
            return { status, text };
        } catch (reason) {
            return { status: reason instanceof NoMemory ? "no-memory" : "broken", text: "" };
        }
    }

    private room(size: number): Uint8Array {
        const at = this.exports.quell_hand_in(size);
        if (at === 0) {
            throw new NoMemory();
        }
        return new Uint8Array(this.exports.memory.buffer, at, size);
    }

    private handIn(text: string): number {
        const bytes = new TextEncoder().encode(text);
        this.room(bytes.length).set(bytes);
        return this.count++;
    }

    private file(named: { name: string; blob: Blob }): { name: string; file: number; size: number } {
        this.blobs.push(named.blob);
        return { name: named.name, file: this.blobs.length - 1, size: named.blob.size };
    }

    private recorded(recording: Recording): { name: string; input: number; rate_hz: number; channels: number } {
        const { channels } = recording;
        const length = channels[0]?.length ?? 0;
        const bytes = this.room(length * channels.length * Float32Array.BYTES_PER_ELEMENT);
        const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
        channels.forEach((channel, index) => {
            channel.forEach((sample, at) => view.setFloat32((at * channels.length + index) * Float32Array.BYTES_PER_ELEMENT, sample, true));
        });
        return { name: recording.name, input: this.count++, rate_hz: recording.rate, channels: channels.length };
    }

    /** A log of any length is read a slice at a time, so that it need not fit. */
    private slice(file: number, at: number, bytes: number, size: number): number {
        const blob = this.blobs[file];
        if (blob === undefined) {
            return -1;
        }
        try {
            const part = new FileReaderSync().readAsArrayBuffer(blob.slice(at, at + size));
            new Uint8Array(this.exports.memory.buffer, bytes, part.byteLength).set(new Uint8Array(part));
            return part.byteLength;
        } catch {
            return -1;
        }
    }
}
