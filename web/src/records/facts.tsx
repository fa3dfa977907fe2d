/* What a record says, in the words of the engine's description. */
import type { JSX } from "preact";
import type { Description, Field, Group } from "../engine/description";
import { isObject, steps, type Json, type JsonObject } from "../project/json";
import { useWords } from "../words/words";

export interface FactsProps {
    description: Description;
    group: Group | undefined;
    value: JsonObject;
    /** These are not shown. */
    but?: readonly string[];
}

export function Facts(props: FactsProps): JSX.Element {
    const { description, group } = props;
    const keys = Object.keys(props.value).filter((key) => props.but?.includes(key) !== true);
    return (
        <dl class="facts">
            {keys.map((key) => {
                const field = group?.keys.find((each) => each.key === key);
                return field?.value === "version" ? null : (
                    <div key={key}>
                        <dt>{field?.label ?? key}</dt>
                        <dd>
                            <Value description={description} field={field} value={props.value[key]} />
                        </dd>
                    </div>
                );
            })}
        </dl>
    );
}

export function Value(props: { description: Description; field: Field | undefined; value: Json | undefined }): JSX.Element {
    const { description, field, value } = props;
    const words = useWords();
    const kinds = field === undefined ? [] : description.kinds(field);
    if (Array.isArray(value)) {
        return (
            <ol>
                {value.map((each, at) => (
                    <li key={at}>
                        <Value description={description} field={field} value={each} />
                    </li>
                ))}
            </ol>
        );
    }
    if (isObject(value)) {
        return <Facts description={description} group={description.kindOf(kinds, value)} value={value} />;
    }
    if (typeof value === "boolean") {
        return <>{value ? words.yes : words.no}</>;
    }
    const known = field === undefined ? undefined : description.words(field).find((each) => each.word === value);
    return <>{known?.says ?? String(value ?? "")}</>;
}

/** The field at a path of `document`, "scenarios[0].people", and what the way there is called. */
export function fieldAt(description: Description, root: Group | undefined, document: JsonObject, path: string): { field: Field | undefined; says: string } {
    let group = root;
    let field: Field | undefined;
    let at: Json | undefined = document;
    const says: string[] = [];
    for (const step of steps(path)) {
        if (typeof step === "number") {
            at = Array.isArray(at) ? at[step] : undefined;
            says.push(String(step + 1));
        } else {
            field = group?.keys.find((each) => each.key === step);
            at = isObject(at) ? at[step] : undefined;
            says.push(field?.label ?? step);
        }
        const kinds = field === undefined ? [] : description.kinds(field);
        group = Array.isArray(at) ? group : (description.kindOf(kinds, at ?? null) ?? kinds[0]);
    }
    return { field, says: says.join(" › ") };
}
