/* Trace a noise: what is heard and read, what it may be, and the one test to do next. Questions, answers, causes, tests and
 * remedies are the engine's. */
import type { JSX } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import { parsed, type Problem } from "../engine/answers";
import type { Description } from "../engine/description";
import { Stale, type Engine } from "../engine/engine";
import type { Reply } from "../engine/protocol";
import { FormProvider, ObjectFields, type FormModel } from "../parts/form";
import type { Trouble } from "../parts/inputs";
import { get, isObject, mended, put, type Json, type JsonObject } from "../project/json";
import { attachments, type Project } from "../project/project";
import { useWords } from "../words/words";
import type { Diagnosis } from "./diagnosis";
import { Evidence } from "./evidence";
import { NextTest } from "./next_test";

export interface TraceProps {
    engine: Engine;
    description: Description;
    project: Project;
    language: string;
    change: (visit: JsonObject, joins: boolean) => void;
}

export function Trace(props: TraceProps): JSX.Element {
    const words = useWords();
    const { visit, survey } = props.project;
    const [skipped, setSkipped] = useState<readonly string[]>([]);
    const { diagnosis, problems, without, working } = useDiagnosis(props, skipped);
    const replace = (next: Json): void => {
        if (isObject(next)) {
            props.change(next, false);
        }
    };
    const troubles = useMemo(() => {
        const found = new Map<string, Trouble[]>();
        for (const problem of problems) {
            const fix = problem.fix;
            const list = found.get(problem.path) ?? [];
            list.push({ warns: problem.severity === "warning", text: problem.says, hint: problem.hint, mend: fix === null ? null : () => replace(mended(visit, fix)) });
            found.set(problem.path, list);
        }
        return found;
    }, [problems, visit]);
    const model: FormModel = {
        document: visit,
        description: props.description,
        system: (visit["units"] ?? survey["units"]) === "si" ? "si" : "us",
        troubles,
        assumed: new Map((diagnosis?.assumed ?? []).map((each) => [each.what, `${each.value} (${each.why})`])),
        change: (path, value) => replace(put(visit, path, value)),
    };
    const answer = (kind: string, evidence: string, value: string): void => {
        if (kind === "ask") {
            replace(put(visit, `symptoms.${evidence}`, value));
        } else {
            const tests = get(visit, "tests");
            const count = Array.isArray(tests) ? tests.length : 0;
            replace(put(visit, `tests[${count}]`, { test: evidence, outcome: value, at: new Date().toISOString().slice(0, 16).replace("T", " ") }));
        }
    };
    const forget = (evidence: string): void => {
        const tests = get(visit, "tests");
        const kept = Array.isArray(tests) ? tests.filter((each) => !isObject(each) || each["test"] !== evidence) : [];
        replace(put(put(visit, `symptoms.${evidence}`, undefined), "tests", kept.length === 0 ? undefined : kept));
    };
    const group = props.description.group("");
    return (
        <FormProvider value={model}>
            <div class="trace" aria-busy={working}>
                {diagnosis !== null && diagnosis.dangers.length > 0 && (
                    <div class="danger" role="alert">
                        {diagnosis.dangers.map((each) => (
                            <p key={each.danger}>! {each.says}</p>
                        ))}
                    </div>
                )}
                {diagnosis !== null && !diagnosis.done && diagnosis.next[0] !== undefined && (
                    <NextTest next={diagnosis.next[0]} answer={answer} skip={(evidence) => setSkipped([...skipped, evidence])} />
                )}
                {without && <p>{words.surveyLeftOut}</p>}
                {diagnosis !== null && <Causes diagnosis={diagnosis} language={props.language} />}
                <section class="card" aria-labelledby="known">
                    <h2 id="known">{words.seen}</h2>
                    <ul class="known">
                        {(diagnosis?.known ?? []).map((each) => (
                            <li key={each.evidence}>
                                <span>
                                    {each.asks} <b>{each.says}</b>
                                </span>
                                {(each.from === "symptom" || each.from === "test") && (
                                    <button type="button" class="quiet" aria-label={`${words.remove}: ${each.asks}`} onClick={() => forget(each.evidence)}>
                                        {words.remove}
                                    </button>
                                )}
                            </li>
                        ))}
                    </ul>
                    {(diagnosis?.next ?? []).slice(1).map((each) => (
                        <details class="inner" key={each.test}>
                            <summary>
                                {each.asks} <span class="summary">{each.minutes} {words.minutes}</span>
                            </summary>
                            <NextTest next={each} answer={answer} skip={(evidence) => setSkipped([...skipped, evidence])} plain />
                        </details>
                    ))}
                </section>
                <section class="card" aria-labelledby="gauges">
                    <h2 id="gauges">{words.gauges}</h2>
                    <Evidence
                        engine={props.engine}
                        language={props.language}
                        survey={survey}
                        attachments={attachments(props.project)}
                        found={(findings) => {
                            const before = get(visit, "findings");
                            replace(put(visit, "findings", [...(Array.isArray(before) ? before : []), ...findings]));
                        }}
                    />
                    {group !== undefined && <ObjectFields group={group} path="" value={visit} but={["case", "survey", "symptoms", "cause", "tests"]} />}
                </section>
            </div>
        </FormProvider>
    );
}

function Causes(props: { diagnosis: Diagnosis; language: string }): JSX.Element {
    const words = useWords();
    const { diagnosis } = props;
    const percent = new Intl.NumberFormat(props.language, { style: "percent", maximumFractionDigits: 0 });
    const known = new Map(diagnosis.known.map((each) => [each.evidence, `${each.asks} ${each.says}`]));
    const remedies = new Map(diagnosis.remedies.map((each) => [each.cause, each.says]));
    return (
        <section class="card" aria-labelledby="causes" aria-live="polite">
            <h2 id="causes">{words.causes}</h2>
            <ol class="causes">
                {diagnosis.causes.slice(0, SHOWN_CAUSES).map((cause) => (
                    <li key={cause.cause}>
                        <details>
                            <summary>
                                <b>{percent.format(cause.probability)}</b> {cause.says}
                                <meter min={0} max={1} value={cause.probability} aria-label={cause.says} />
                            </summary>
                            {cause.because.length > 0 && <p>{words.because}:</p>}
                            <ul>
                                {cause.because.map((each) => (
                                    <li key={each.evidence}>{known.get(each.evidence) ?? each.evidence}</li>
                                ))}
                            </ul>
                            {remedies.has(cause.cause) && <p>{remedies.get(cause.cause)}</p>}
                        </details>
                    </li>
                ))}
            </ol>
        </section>
    );
}

const SHOWN_CAUSES = 5;

interface Told {
    diagnosis: Diagnosis | null;
    problems: readonly Problem[];
    /** What is planned could not be read, and nothing is taken from it. */
    without: boolean;
    working: boolean;
}

function useDiagnosis(props: TraceProps, skipped: readonly string[]): Told {
    const [state, setState] = useState<Told>({ diagnosis: null, problems: [], without: false, working: false });
    const survey = props.project.survey;
    const hasSurvey = "supply" in survey && "scenarios" in survey;
    const alone = JSON.stringify(props.project.visit);
    const whole = hasSurvey ? JSON.stringify({ ...props.project.visit, survey }) : alone;
    useEffect(() => {
        let current = true;
        const ask = (document: string): Promise<Reply> =>
            props.engine.quick.ask({ verb: "diagnose", form: "json", document, language: props.language, arguments: skipped.map((each) => `${each}=?`) }, { attachments: attachments(props.project) });
        const tell = async (): Promise<void> => {
            let reply = await ask(whole);
            let told = parsed<Diagnosis>(reply.text);
            const refusals = (told?.problems ?? []).filter((each) => each.severity !== "warning");
            const without = reply.status !== "ok" && hasSurvey && refusals.every((each) => each.path === "survey" || each.path.startsWith("survey."));
            if (current && without) {
                reply = await ask(alone);
                told = parsed<Diagnosis>(reply.text);
            }
            if (current && told !== null) {
                const { problems } = told;
                const diagnosis = reply.status === "ok" ? told : null;
                setState((before) => ({ diagnosis: diagnosis ?? before.diagnosis, problems, without, working: false }));
            }
        };
        setState((before) => ({ ...before, working: true }));
        tell().catch((reason: unknown) => {
            if (!(reason instanceof Stale)) {
                throw reason;
            }
        });
        return () => {
            current = false;
        };
    }, [props.engine, whole, props.language, skipped]);
    return state;
}
