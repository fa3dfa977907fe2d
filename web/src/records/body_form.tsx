/* The body of a record as a form, by the fields that the engine describes. What is wrong stands beside its field. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Problem } from "../engine/answers";
import { FormProvider, ObjectFields, type FormModel } from "../parts/form";
import { TroubleList, type Trouble } from "../parts/inputs";
import { isObject, mended, put, type Json, type JsonObject } from "../project/json";
import { WhoAsked } from "./login";
import type { Kind } from "./record";
import { bodyOf, useDesk } from "./use";
import { useRecordWords } from "./words";

export interface BodyFormProps {
    kind: Kind;
    body: JsonObject;
    /** What is wrong with it; nothing where it was kept. */
    save: (body: JsonObject) => Promise<Problem[]>;
    cancel: () => void;
}

export function BodyForm(props: BodyFormProps): JSX.Element {
    const words = useRecordWords();
    const [body, setBody] = useState(props.body);
    const [problems, setProblems] = useState<readonly Problem[]>([]);
    const { office } = useDesk();
    if (office.who === "") {
        return <WhoAsked />;
    }
    return (
        <form
            class="card body-form"
            onSubmit={(event) => {
                event.preventDefault();
                void props.save(body).then(setProblems);
            }}
        >
            <BodyFields kind={props.kind} body={body} change={setBody} problems={problems} />
            <div class="tools">
                <button type="submit">{words.save}</button>
                <button type="button" class="quiet" onClick={props.cancel}>
                    {words.cancel}
                </button>
            </div>
        </form>
    );
}

/** Its fields alone. */
export function BodyFields(props: { kind: Kind; body: JsonObject; change: (body: JsonObject) => void; problems: readonly Problem[] }): JSX.Element {
    const { descriptions, units } = useDesk();
    const { body } = props;
    const { description, group } = bodyOf(descriptions, props.kind);
    const replace = (next: Json): void => {
        if (isObject(next)) {
            props.change(next);
        }
    };
    const { troubles, others } = sorted(props.problems, body, replace);
    const model: FormModel = {
        document: body,
        description,
        system: units,
        troubles,
        assumed: new Map(),
        change: (path, value) => replace(put(body, path, value)),
    };
    return (
        <FormProvider value={model}>
            <div role="alert">
                <TroubleList troubles={others} />
            </div>
            {group !== undefined && <ObjectFields group={group} path="" value={body} />}
        </FormProvider>
    );
}

const IN_BODY = "body.";

/** Problems of a record: those of fields of its body, by their paths there, and all others. */
function sorted(problems: readonly Problem[], body: JsonObject, replace: (next: Json) => void): { troubles: Map<string, Trouble[]>; others: Trouble[] } {
    const troubles = new Map<string, Trouble[]>();
    const others: Trouble[] = [];
    for (const problem of problems) {
        const path = problem.path.startsWith(IN_BODY) ? problem.path.slice(IN_BODY.length) : "";
        const fix = problem.fix === null ? null : { ...problem.fix, path: problem.fix.path.replace(/^body\./, "") };
        const trouble = { warns: false, text: problem.says, hint: problem.hint, mend: fix === null ? null : (): void => replace(mended(body, fix)) };
        // What stands inside the case has no field here.
        if (path === "" || path.startsWith("case")) {
            others.push({ ...trouble, mend: null });
        } else {
            troubles.set(path, [...(troubles.get(path) ?? []), trouble]);
        }
    }
    return { troubles, others };
}
