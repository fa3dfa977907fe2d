/* Runs beside the sound: hands the samples of the first channel out as they come. */
declare class AudioWorkletProcessor {
    readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

registerProcessor(
    "take",
    class extends AudioWorkletProcessor {
        process(inputs: Float32Array[][]): boolean {
            const channel = inputs[0]?.[0];
            if (channel !== undefined) {
                this.port.postMessage(channel.slice());
            }
            return true;
        }
    },
);

export {};
