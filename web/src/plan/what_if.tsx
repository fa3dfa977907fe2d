/* What if the street, the setting or who lives here were another? The same questions asked of a copy, its answer beside the
 * one there is. */
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { parsed, type Design } from "../engine/answers";
import { Stale, type Engine } from "../engine/engine";
import { FormProvider, ObjectFields, useForm } from "../parts/form";
import type { Trouble } from "../parts/inputs";
import { get, isObject, put, type JsonObject } from "../project/json";
import { useWords } from "../words/words";
import type { Asked } from "./answering";
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
    const [troubles, setTroubles] = useState<ReadonlyMap<string, Trouble[]>>(new Map());
    const turn = useRef(0);
    const isSame = trial === asked.survey;

    useEffect(() => {
        const mine = ++turn.current;
        setThen(null);
        if (isSame) {
            return;
        }
        const ask = async (): Promise<void> => {
            const common = { language: asked.language, ...(asked.catalogue === undefined ? {} : { catalogue: asked.catalogue }) };
            const reply = await engine.quick.ask({ verb: "design", form: "json", parts: "alternatives,verdicts", document: JSON.stringify(trial), ...common }, { attachments: asked.attachments });
            const found = parsed<Design>(reply.text);
            if (turn.current === mine && found !== null) {
                setThen(reply.status === "ok" ? found : null);
                const list = found.problems.map((each): [string, Trouble[]] => [each.path, [{ warns: each.severity === "warning", text: each.says, hint: each.hint, mend: null }]]);
                setTroubles(new Map(list));
            }
        };
        const timer = setTimeout(() => {
            ask().catch((reason: unknown) => {
                if (!(reason instanceof Stale)) {
                    throw reason;
                }
            });
        }, PAUSE_MS);
        return () => clearTimeout(timer);
    }, [trial]);

    const change = (path: string, value: Parameters<typeof put>[2]): void => {
        const next = put(trial, path, value);
        if (isObject(next)) {
            setTrial(next);
        }
    };
    const station = then?.stations[then.recommended ?? 0];
    const heeded = station?.verdicts.filter((each) => each.verdict === "caution" || each.verdict === "fail") ?? [];
    return (
        <FormProvider value={{ ...form, document: trial, troubles, assumed: new Map(), change }}>
            {whatIf.map(({ path, open }) => {
                const group = form.description.group(path);
                return group === undefined ? null : <ObjectFields key={path} group={group} path={path} value={get(trial, path)} only={open ?? []} />;
            })}
            <dl class="beside">
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
