/* Plain samples from the microphone, with nothing improved on the way: what a telephone takes for noise is what is asked for. */
import { sources } from "page-sources";
import type { Recording } from "../engine/protocol";

const SECOND_MS = 1000;

export class Recorder {
    private readonly blocks: Float32Array[] = [];
    private finish: () => void = () => undefined;

    private constructor(
        private readonly context: AudioContext,
        private readonly stream: MediaStream,
    ) {}

    /** A recorder that runs; null where there is no microphone, or it was not allowed. */
    static async open(level: (share: number) => void): Promise<Recorder | null> {
        try {
            const stream = await navigator.mediaDevices.getUserMedia({
                audio: { autoGainControl: false, echoCancellation: false, noiseSuppression: false },
            });
            const context = new AudioContext();
            const recorder = new Recorder(context, stream);
            await context.audioWorklet.addModule(sources.worklet());
            const take = new AudioWorkletNode(context, "take", { numberOfOutputs: 0 });
            take.port.onmessage = (event: MessageEvent<Float32Array>): void => {
                recorder.blocks.push(event.data);
                level(event.data.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0));
            };
            context.createMediaStreamSource(stream).connect(take);
            return recorder;
        } catch {
            return null;
        }
    }

    /** Records for `seconds`, or until stop(). */
    async seconds(seconds: number): Promise<Recording> {
        await new Promise<void>((settle) => {
            this.finish = settle;
            setTimeout(settle, seconds * SECOND_MS);
        });
        this.stream.getTracks().forEach((track) => track.stop());
        const rate = this.context.sampleRate;
        await this.context.close();
        const samples = new Float32Array(this.blocks.reduce((sum, block) => sum + block.length, 0));
        let at = 0;
        for (const block of this.blocks) {
            samples.set(block, at);
            at += block.length;
        }
        return { name: "phone", rate, channels: [samples] };
    }

    stop(): void {
        this.finish();
    }
}

/** A sound file's samples as the browser decodes it; null where it cannot. */
export async function decoded(file: File): Promise<Recording | null> {
    const context = new AudioContext();
    try {
        const buffer = await context.decodeAudioData(await file.arrayBuffer());
        const channels = Array.from({ length: buffer.numberOfChannels }, (_, index) => buffer.getChannelData(index));
        return { name: file.name, rate: buffer.sampleRate, channels };
    } catch {
        return null;
    } finally {
        await context.close();
    }
}
