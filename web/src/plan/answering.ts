/* While somebody types: the chosen station is checked at once, and the search follows behind. The old answer stays, marked
 * as of what was before, until the new one is there. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { parsed, withStation, type Check, type Common, type Design, type Problem } from "../engine/answers";
import { Stale, type Engine } from "../engine/engine";
import type { Attachment, Question, Reply, Status } from "../engine/protocol";
import type { Trouble } from "../parts/inputs";
import type { Fix, JsonObject } from "../project/json";

export interface Answering {
    design: Design | null;
    /** The answer whose sheets are shown: the same, or an earlier one while the sheets of the new one are not whole. */
    shown: Design | null;
    /** What the station of the last answer does with the survey as it is now. */
    check: Check | null;
    problems: readonly Problem[];
    assumed: ReadonlyMap<string, string>;
    /** The share done; null while nothing runs. */
    share: number | null;
    failed: Status | null;
    /** The answer is to an earlier survey. */
    stale: boolean;
}

const NOTHING: Answering = {
    design: null,
    shown: null,
    check: null,
    problems: [],
    assumed: new Map(),
    share: null,
    failed: null,
    stale: false,
};

/* The search waits a moment for the next key; the check does not, nor does what nobody is typing at. */
const PAUSE_MS = 120;

/* The station is shown as soon as it is chosen. All that is said about it, most of the time what the choice hangs on, and a run of
 * its water take longer, each than the one before. */
const TURNS: readonly { parts?: string }[] = [{ parts: "alternatives,verdicts" }, { parts: "all" }, {}];

export interface Asked {
    survey: JsonObject;
    catalogue: string | undefined;
    /** Files that the survey names. */
    attachments: readonly Attachment[];
    language: string;
    units: string | undefined;
}

/** The members that all questions about a plan share. */
export function commonOf(asked: Asked): Pick<Question, "language" | "units" | "catalogue"> {
    return {
        language: asked.language,
        ...(asked.units === undefined ? {} : { units: asked.units }),
        ...(asked.catalogue === undefined ? {} : { catalogue: asked.catalogue }),
    };
}

/** What is wrong by its place, each with what mends it where somebody can tell. */
export function troublesOf(problems: readonly Problem[], mend: (fix: Fix) => void): Map<string, Trouble[]> {
    const found = new Map<string, Trouble[]>();
    for (const { path, severity, says, hint, fix } of problems) {
        const list = found.get(path) ?? [];
        list.push({ warns: severity === "warning", text: says, hint, mend: fix === null ? null : () => mend(fix) });
        found.set(path, list);
    }
    return found;
}

function assumedOf(answer: Common): Map<string, string> {
    return new Map((answer.assumed ?? []).map((each) => [each.what, `${each.value} (${each.why})`]));
}

export function useAnswering(engine: Engine, asked: Asked): Answering {
    const [state, setState] = useState<Answering>(NOTHING);
    const latest = useRef(0);
    const key = JSON.stringify(asked);
    // Not after the next paint: the answer is waited for.
    useLayoutEffect(() => {
        const turn = ++latest.current;
        const change = (part: (before: Answering) => Partial<Answering>): void => {
            if (latest.current === turn) {
                setState((before) => ({ ...before, ...part(before) }));
            }
        };
        const update = (part: Partial<Answering>): void => change(() => part);
        const document = JSON.stringify(asked.survey);
        const common = commonOf(asked);
        setState((before) => ({ ...before, stale: before.design !== null, share: 0, failed: null }));

        const chosen = state.design?.stations[state.design.recommended ?? 0];
        if (chosen !== undefined) {
            const fitted = JSON.stringify(withStation(asked.survey, chosen));
            engine.quick
                .ask({ verb: "check", form: "json", document: fitted, parts: "verdicts,chance", ...common }, { attachments: asked.attachments })
                .then((reply) => {
                    const check = parsed<Check>(reply.text);
                    if (reply.status === "ok" && check !== null) {
                        update({ check, problems: check.problems });
                    }
                }, ignoreStale);
        }

        const search = async (): Promise<void> => {
            for (const [index, parts] of TURNS.entries()) {
                if (latest.current !== turn) {
                    return;
                }
                const tell = (share: number): void => update({ share: (index + share) / TURNS.length });
                const reply = await engine.search.ask({ verb: "report", form: "json", document, ...parts, ...common }, { attachments: asked.attachments }, tell);
                const design = parsed<Design>(reply.text);
                if (reply.status !== "ok" || design === null) {
                    update({ ...refusal(reply), share: null });
                    return;
                }
                change((before) => ({
                    design,
                    shown: index === 0 ? (before.shown ?? design) : design,
                    problems: design.problems,
                    assumed: assumedOf(design),
                    check: null,
                    stale: false,
                    share: index + 1 < TURNS.length ? (index + 1) / TURNS.length : null,
                }));
                engine.quick.standBy(); // for the first edit
            }
        };
        if (turn === 1) {
            void search().catch(ignoreStale);
            return;
        }
        const timer = setTimeout(() => void search().catch(ignoreStale), PAUSE_MS);
        return () => clearTimeout(timer);
        // The station that is checked is that of the answer there is, not a reason to ask again.
    }, [engine, key]);
    return state;
}

function refusal(reply: Reply): Partial<Answering> {
    const told = parsed<Common>(reply.text);
    return { problems: told?.problems ?? [], failed: reply.status };
}

/** A question that a later one made pointless is no failure. */
export function ignoreStale(reason: unknown): void {
    if (!(reason instanceof Stale)) {
        throw reason;
    }
}
