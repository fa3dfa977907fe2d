/* Recordings and logs: opened or made here, heard by the engine, kept as findings of the visit. */
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import { parsed } from "../engine/answers";
import { Stale, type Engine } from "../engine/engine";
import type { Attachment, Files, Question } from "../engine/protocol";
import { Sheets } from "../parts/sheets";
import type { JsonObject } from "../project/json";
import { unpacked } from "../project/project";
import { useWords } from "../words/words";
import type { Found } from "./diagnosis";
import { decoded, Recorder } from "./recorder";

export interface EvidenceProps {
    engine: Engine;
    language: string;
    survey: JsonObject;
    /** Files that the survey names. */
    attachments: readonly Attachment[];
    found: (findings: JsonObject[]) => void;
}

const RECORD_SECONDS = 10;

export function Evidence(props: EvidenceProps): JSX.Element {
    const words = useWords();
    const [found, setFound] = useState<Found | null>(null);
    const [trouble, setTrouble] = useState("");
    const [share, setShare] = useState<number | null>(null);
    const [level, setLevel] = useState<number | null>(null);
    const recorder = useRef<Recorder | null>(null);

    const ask = async (question: Question, files: Files): Promise<void> => {
        setTrouble("");
        setShare(0);
        try {
            const withSurvey = "supply" in props.survey && "scenarios" in props.survey ? { document: JSON.stringify(props.survey) } : {};
            const reply = await props.engine.search.ask({ ...question, form: "json", parts: "all,sheets", language: props.language, ...withSurvey }, { ...files, attachments: props.attachments }, setShare);
            const told = parsed<Found>(reply.text);
            if (reply.status === "ok" && told !== null) {
                setFound(told);
                props.found(told.findings);
            } else {
                setTrouble(told?.problems.map((each) => `${each.says} ${each.hint}`).join(" ") ?? words.cannotAnswer);
            }
        } catch (reason) {
            if (!(reason instanceof Stale)) {
                throw reason;
            }
        } finally {
            setShare(null);
        }
    };
    const openSound = async (file: File | undefined): Promise<void> => {
        if (file !== undefined) {
            const recording = await decoded(file);
            if (recording === null) {
                setTrouble(words.notAudio);
            } else {
                await ask({ verb: "listen" }, { recording });
            }
        }
    };
    const openLog = async (file: File | undefined): Promise<void> => {
        if (file !== undefined) {
            const log = await unpacked(file).catch(() => null);
            if (log === null) {
                setTrouble(words.cannotUnpack);
            } else {
                await ask({ verb: "log" }, { log });
            }
        }
    };
    const record = async (): Promise<void> => {
        setTrouble("");
        const made = await Recorder.open(setLevel);
        if (made === null) {
            setTrouble(words.noMicrophone);
            return;
        }
        recorder.current = made;
        setLevel(0);
        const recording = await made.seconds(RECORD_SECONDS);
        recorder.current = null;
        setLevel(null);
        if (recording.channels.every((channel) => channel.every((sample) => sample === 0))) {
            setTrouble(words.noSound);
        } else {
            await ask({ verb: "listen" }, { recording });
        }
    };
    return (
        <div class="evidence">
            {level === null ? (
                <button type="button" onClick={() => void record()}>
                    {words.recordSound}
                </button>
            ) : (
                <div role="status">
                    {words.recording}
                    <meter min={0} max={1} value={level} aria-label={words.level} />
                    <button type="button" onClick={() => recorder.current?.stop()}>
                        {words.stopTimer}
                    </button>
                </div>
            )}
            <label class="door">
                {words.openSound}
                <input type="file" accept="audio/*,.wav,.flac" onChange={(event) => void openSound(event.currentTarget.files?.[0])} />
            </label>
            <label class="door">
                {words.openLog}
                <input type="file" accept=".csv,.txt,.tsv,.gz,text/csv" onChange={(event) => void openLog(event.currentTarget.files?.[0])} />
            </label>
            {share !== null && <progress max={1} value={share} aria-label={words.working} />}
            {trouble !== "" && (
                <p role="alert" class="troubles">
                    {trouble}
                </p>
            )}
            <ul aria-live="polite">
                {(found?.findings ?? []).map((each) => (
                    <li key={each.says}>{each.says}</li>
                ))}
            </ul>
            {found !== null && (
                <details class="card">
                    <summary>
                        <h3>{words.drawn}</h3>
                    </summary>
                    <Sheets html={found.html} figures={found.figures} language={props.language} old={false} label={words.drawn} />
                </details>
            )}
        </div>
    );
}
