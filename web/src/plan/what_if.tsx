/* What if the street, the setting or who lives here were another? The same questions asked of a copy, its answer beside the
 * one there is. */
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { parsed, type Design, type Problem } from "../engine/answers";
import type { Engine } from "../engine/engine";
import { FormProvider, ObjectFields, useForm } from "../parts/form";
import { get, isObject, mended, put, type Json, type JsonObject } from "../project/json";
import { useWords } from "../words/words";
import { commonOf, ignoreStale, troublesOf, type Asked } from "./answering";
import { whatIf } from "./cards";

const PAUSE_MS = 200;

export interface WhatIfProps {
    engine: Engine;
    asked: Asked;
    design: Design;
    /** Makes the copy what is planned. */
    take: (survey: JsonObject) => void;
}

export function WhatIf(props: WhatIfProps): JSX.Element {
    const words = useWords();
    const [open, setOpen] = useState(false);
    return (
        <details class="card" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary>
                <h2>{words.whatIf}</h2>
                <span class="summary">{words.whatIfSays}</span>
            </summary>
            {open && <Trial key={JSON.stringify(props.asked.survey)} {...props} />}
        </details>
    );
}

function Trial(props: WhatIfProps): JSX.Element {
    const { engine, asked, design } = props;
    const words = useWords();
    const form = useForm();
    const [trial, setTrial] = useState(asked.survey);
    const [then, setThen] = useState<Design | null>(null);
    const [problems, setProblems] = useState<readonly Problem[]>([]);
    const turn = useRef(0);
    const isSame = trial === asked.survey;

    useEffect(() => {
        const mine = ++turn.current;
        setThen(null);
        if (isSame) {
            setProblems([]);
            return;
        }
        const ask = async (): Promise<void> => {
            const reply = await engine.quick.ask({ verb: "design", form: "json", parts: "alternatives,verdicts", document: JSON.stringify(trial), ...commonOf(asked) }, { attachments: asked.attachments });
            const found = parsed<Design>(reply.text);
            if (turn.current === mine && found !== null) {
                setThen(reply.status === "ok" ? found : null);
                setProblems(found.problems);
            }
        };
        const timer = setTimeout(() => void ask().catch(ignoreStale), PAUSE_MS);
        return () => clearTimeout(timer);
    }, [trial]);

    const replace = (next: Json): void => {
        if (isObject(next)) {
            setTrial(next);
        }
    };
    const change = (path: string, value: Json | undefined): void => replace(put(trial, path, value));
    const troubles = troublesOf(problems, (fix) => replace(mended(trial, fix)));
    const station = then?.stations[then.recommended ?? 0];
    const heeded = station?.verdicts.filter((each) => each.verdict === "caution" || each.verdict === "fail") ?? [];
    return (
        <FormProvider value={{ ...form, document: trial, troubles, assumed: new Map(), change }}>
            {whatIf.map(({ path, open }) => {
                const group = form.description.group(path);
                return group === undefined ? null : <ObjectFields key={path} group={group} path={path} value={get(trial, path)} only={open ?? []} />;
            })}
            <dl class="compared">
                <dt>{words.asItIs}</dt>
                <dd>{design.glance}</dd>
                <dt>{words.whatIf}</dt>
                <dd aria-live="polite">
                    {isSame ? words.nothingChanged : (then?.glance ?? words.working)}
                    <ul>
                        {heeded.map((each) => (
                            <li key={each.rule}>
                                <b>{each.verdict}</b> {each.says}
                            </li>
                        ))}
                    </ul>
                </dd>
            </dl>
            <div class="tools">
                <button type="button" disabled={isSame || then === null} onClick={() => props.take(trial)}>
                    {words.takeIt}
                </button>
                <button type="button" disabled={isSame} onClick={() => setTrial(asked.survey)}>
                    {words.backToIs}
                </button>
            </div>
        </FormProvider>
    );
}
