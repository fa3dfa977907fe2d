/* The engine, asked with what a page has: texts, files of any length, recordings. */
import { Engine, type Documents, type Slices } from "../../engine/engine.mjs";
import type { Attachment, Files, Question, Recording, Reply, Status, Telling } from "./protocol";

/* What may be kept between two questions; the rest is the engine's own limit. */
const KEPT_BYTES = 48 * 1024 * 1024;

export class Door {
    /* Of each name the file that was kept under it. */
    private readonly stamps = new Map<string, number>();

    private constructor(private readonly engine: Engine) {}

    static async open(module: WebAssembly.Module): Promise<Door> {
        return new Door(await Engine.open(module, { kept: KEPT_BYTES }));
    }

    /** A trap (an assertion of the engine, or its stack) leaves the engine unfit: "broken". */
    ask(question: Question, files: Files, progress: (share: number) => void): Reply {
        const { document, catalogue, ...words } = question;
        const documents: Documents = {
            ...(document === undefined ? {} : { document: ["survey", document] }),
            ...(catalogue === undefined ? {} : { catalogue: ["catalogue", catalogue] }),
            ...(files.attachments === undefined ? {} : { attachments: files.attachments.map(({ name, blob }) => [name, slices(blob)]) }),
            ...(files.log === undefined ? {} : { log: [files.log.name, slices(files.log.blob)] }),
            ...(files.recording === undefined ? {} : { recording: interleaved(files.recording) }),
        };
        this.heed(files.attachments ?? []);
        try {
            const { status, answer } = this.engine.ask(words, documents, {
                progress: (share) => {
                    progress(share);
                    return true;
                },
            });
            return { status: status as Status, text: new TextDecoder().decode(answer) };
        } catch {
            return { status: "broken", text: "" };
        }
    }

    tell(telling: Telling, documents: string[]): Reply {
        try {
            const { status, answer } = this.engine.tell(telling, documents);
            return { status: status as Status, text: new TextDecoder().decode(answer) };
        } catch {
            return { status: "broken", text: "" };
        }
    }

    /** What the engine keeps goes by names: where a name has got another file, it forgets. */
    private heed(attachments: readonly Attachment[]): void {
        if (attachments.some(({ name, stamp }) => (this.stamps.get(name) ?? stamp) !== stamp)) {
            this.engine.forget();
        }
        attachments.forEach(({ name, stamp }) => this.stamps.set(name, stamp));
    }
}

/** A file of any length, read a slice at a time. */
function slices(blob: Blob): Slices {
    return {
        size: blob.size,
        read: (at, bytes) => {
            try {
                const part = new Uint8Array(new FileReaderSync().readAsArrayBuffer(blob.slice(at, at + bytes.length)));
                bytes.set(part);
                return part.length;
            } catch {
                return -1;
            }
        },
    };
}

function interleaved(recording: Recording): [string, Float32Array, number, number] {
    const { channels } = recording;
    const samples = new Float32Array((channels[0]?.length ?? 0) * channels.length);
    channels.forEach((channel, index) => {
        channel.forEach((sample, at) => {
            samples[at * channels.length + index] = sample;
        });
    });
    return [recording.name, samples, recording.rate, channels.length];
}
