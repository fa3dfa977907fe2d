/* What the page and its two engine workers say to each other. */

/** A question as the engine's door takes it: see quell/quell.h for what each member means. */
export interface Question {
    verb: string;
    form?: "json" | "html" | "text" | "svg";
    document?: string;
    catalogue?: string;
    units?: string;
    language?: string;
    parts?: string;
    figures?: string;
    sections?: string;
    of?: string;
    length?: string;
    plot?: string;
    calc?: string;
    date?: string;
    arguments?: string[];
}

/** Files beside the question; read in slices where they are long. */
export interface Files {
    /** Those that the document names. */
    attachments?: readonly Attachment[];
    log?: { name: string; blob: Blob };
    recording?: Recording;
}

export interface Attachment {
    name: string;
    blob: Blob;
    /** Another one whenever another file takes the name. */
    stamp: number;
}

export interface Recording {
    name: string;
    rate: number;
    channels: Float32Array[];
}

export type Status = "ok" | "refused" | "no-memory" | "busy" | "io" | "wrong-use" | "stopped" | "broken";

export interface Reply {
    status: Status;
    text: string;
}

/** A question about records: records_door.c has what each word asks. */
export interface Telling {
    tell: "record" | "rows" | "sites" | "due" | "calendar" | "trend";
    today: string;
    language: string;
    units?: string;
    created?: string;
    /** A trend with its drawings. */
    sheets?: boolean;
}

export type ToWorker =
    | { say: "load"; module: WebAssembly.Module }
    | { say: "tell"; id: number; telling: Telling; documents: string[] }
    | { say: "ask"; id: number; question: Question; files: Files };

export type FromWorker =
    | { say: "progress"; id: number; share: number }
    | { say: "reply"; id: number; reply: Reply };
