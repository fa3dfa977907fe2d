/* What engine.mjs offers to TypeScript. */
export interface Slices {
    size: number;
    read(at: number, bytes: Uint8Array): number;
}

export interface Documents {
    document?: [name: string, content: string | Uint8Array];
    catalogue?: [name: string, content: string | Uint8Array];
    likelihood?: [name: string, content: string | Uint8Array];
    log?: [name: string, content: string | Uint8Array | Slices];
    attachments?: [name: string, content: string | Uint8Array | Slices][];
    recording?: [name: string, samples: Float32Array, rateHz: number, channels: number];
    quiet?: [name: string, samples: Float32Array, rateHz: number, channels: number];
}

export class Engine {
    static open(module: WebAssembly.Module | BufferSource, limits?: { ceiling?: number; kept?: number }): Promise<Engine>;
    readonly version: string;
    readonly memory_size: number;
    ask(question: object, documents?: Documents, options?: { progress?: (share: number) => boolean }): { status: string; answer: Uint8Array; problems: string };
    tell(question: object, documents?: (string | Uint8Array)[]): { status: string; answer: Uint8Array };
    forget(): void;
}
