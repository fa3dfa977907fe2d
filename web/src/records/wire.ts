/* To the server that the page came from, and back. What is lost on the way is status 0. */
import type { Answer, Wire } from "./exchange";
import type { PartWire } from "./files";
import type { Ranking } from "./ranking";
import type { Rec } from "./record";

/** An answer, and how long to wait before the next try where the server says so. */
export interface Heard extends Answer {
    afterSeconds: number;
}

export interface Session {
    who: string | null;
    needs_login: boolean;
}

const OK_STATUS = 200;
const DONE_STATUS = 204;
const WORKING_STATUS = 202;
/* How often is asked whether the server has worked it out. */
const LOOK_AGAIN_MS = 1000;
/* A part of a file goes through a thin line in this time. */
const PATIENCE_MS = 60_000;

const marked = (before: string, mark: string): string => (mark === "" ? "" : `${before}mark=${encodeURIComponent(mark)}`);

export class HttpWire implements Wire, PartWire {
    constructor(private readonly language: string) {}

    async put(record: Rec, match: string | null, mark: string): Promise<Answer> {
        return this.send("PUT", `records/${record.id}${marked("?", mark)}`, JSON.stringify(record), { "Content-Type": "application/json", ...(match === null ? {} : { "If-Match": match }) });
    }

    async changes(since: number, mark: string): Promise<Answer> {
        return this.send("GET", `changes?since=${since}${marked("&", mark)}`);
    }

    async held(sha256: string, mark: string): Promise<Answer> {
        return this.send("GET", `held/${sha256}${marked("?", mark)}`);
    }

    async putPart(sha256: string, bytes: Uint8Array, range: string, mark: string): Promise<Answer> {
        return this.send("PUT", `files/${sha256}${marked("?", mark)}`, new Blob([new Uint8Array(bytes)]), { "Content-Type": "application/octet-stream", "Content-Range": range });
    }

    /** Who is logged in; null where there is no server. */
    async session(): Promise<Session | null> {
        const answer = await this.send("GET", "session");
        return answer.status === OK_STATUS ? (answer.body as Session) : null;
    }

    /** Null where it went well; else what the server said. */
    async login(name: string, password: string): Promise<Heard | null> {
        const answer = await this.send("POST", "session", JSON.stringify({ name, password }), { "Content-Type": "application/json" });
        return answer.status === DONE_STATUS ? null : answer;
    }

    async logout(): Promise<void> {
        await this.send("DELETE", "session");
    }

    /** Where to go first, once the server has worked it out; null where it cannot be had now. */
    async rank(): Promise<Ranking | null> {
        let reply = await this.fetched("POST", "rank", JSON.stringify({ language: this.language }), { "Content-Type": "application/json" });
        const run = reply?.headers.get("Location")?.replace(/^\/api\//, "");
        while (reply?.status === WORKING_STATUS && run !== undefined) {
            await new Promise((settle) => setTimeout(settle, LOOK_AGAIN_MS));
            reply = await this.fetched("GET", run);
        }
        return reply?.status === OK_STATUS ? reply.json().then((told) => told as Ranking, () => null) : null;
    }

    async part(sha256: string, begins: number): Promise<Blob | null> {
        const reply = await this.fetched("GET", `files/${sha256}`, undefined, { Range: `bytes=${begins}-` });
        return reply?.ok === true ? reply.blob().catch(() => null) : null;
    }

    private async send(method: string, path: string, body?: BodyInit, headers?: Record<string, string>): Promise<Heard> {
        const reply = await this.fetched(method, path, body, headers);
        if (reply === null) {
            return { status: 0, body: null, afterSeconds: 0 };
        }
        const afterSeconds = Number(reply.headers.get("Retry-After") ?? 0);
        try {
            const text = await reply.text();
            return { status: reply.status, body: text === "" ? null : JSON.parse(text), afterSeconds };
        } catch {
            return { status: 0, body: null, afterSeconds };
        }
    }

    private async fetched(method: string, path: string, body?: BodyInit, headers?: Record<string, string>): Promise<Response | null> {
        try {
            return await fetch(`api/${path}`, {
                method,
                headers: { "Accept-Language": this.language, ...headers },
                cache: "no-store",
                signal: AbortSignal.timeout(PATIENCE_MS),
                ...(body === undefined ? {} : { body }),
            });
        } catch {
            return null;
        }
    }
}
