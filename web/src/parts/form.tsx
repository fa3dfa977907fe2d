/* Forms made from the engine's description: a group's fields, each by the kind of its value. */
import { createContext, Fragment } from "preact";
import type { JSX } from "preact";
import { useContext, useId, useState } from "preact/hooks";
import type { Description, Field, Group } from "../engine/description";
import { isObject, joined, type Json, type JsonObject } from "../project/json";
import { useWords } from "../words/words";
import { counted, CounterList } from "./counter";
import { Framed, QuantityInput, Stepper, WordInput, type Trouble } from "./inputs";

export interface FormModel {
    document: JsonObject;
    description: Description;
    /** Of each path, what is wrong with it. */
    troubles: ReadonlyMap<string, readonly Trouble[]>;
    /** Of each path, what the answer assumed in its place. */
    assumed: ReadonlyMap<string, string>;
    change: (path: string, value: Json | undefined) => void;
}

const FormContext = createContext<FormModel | null>(null);
export const FormProvider = FormContext.Provider;

export function useForm(): FormModel {
    const model = useContext(FormContext);
    if (model === null) {
        throw new Error("a form outside its provider");
    }
    return model;
}

function asText(value: Json | undefined): string {
    return value === undefined || value === null ? "" : typeof value === "object" ? JSON.stringify(value) : String(value);
}

/** Of "scenarios[0].fixtures[2]" the path of its group: "scenarios[].fixtures[]". */
export function groupPath(path: string): string {
    return path.replace(/\[\d+\]/g, "[]");
}

/** Fields of the object at `path`; those in `only`, in that order, or all but those in `but`. */
export function ObjectFields(props: { group: Group; path: string; value: Json | undefined; only?: readonly string[]; but?: readonly string[] }): JSX.Element {
    const fields =
        props.only === undefined
            ? props.group.fields.filter((field) => !(props.but ?? []).includes(field.key))
            : props.only.flatMap((key) => props.group.fields.filter((field) => field.key === key));
    const object = isObject(props.value) ? props.value : {};
    return (
        <>
            {fields.map((field) => (
                <FieldInput key={field.key} field={field} path={joined(props.path, field.key)} value={object[field.key]} />
            ))}
        </>
    );
}

export function FieldInput(props: { field: Field; path: string; value: Json | undefined }): JSX.Element {
    const { field, path, value } = props;
    const form = useForm();
    const words = useWords();
    const frame = {
        path,
        label: field.label,
        help: [field.meaning, field.form, field.because].filter(Boolean).join(". "),
        assumed: value === undefined ? (form.assumed.get(path) ?? "") : "",
        troubles: form.troubles.get(path) ?? [],
        obligatory: field.obligatory && value === undefined,
    };
    const change = (next: Json | undefined): void => form.change(path, next);
    switch (field.value) {
        case "object":
            return <InnerObject field={field} path={path} value={value} />;
        case "list":
            return <InnerList field={field} path={path} value={value} />;
        case "flag":
            return (
                <Framed {...frame}>
                    {(ids) => <input id={ids.input} type="checkbox" class="flag" checked={value === true} aria-describedby={ids.described || undefined} onChange={(event) => change(event.currentTarget.checked ? true : undefined)} />}
                </Framed>
            );
        case "whole":
            return (
                <Framed {...frame}>
                    {(ids) => <Stepper ids={ids} value={asText(value)} label={field.label} placeholder={field.fallback ?? ""} change={(text) => change(text === undefined ? undefined : wholeOr(text))} />}
                </Framed>
            );
        case "word":
            return (
                <Framed {...frame} group={field.words.length <= 6}>
                    {(ids) => <WordInput ids={ids} field={field} value={asText(value)} change={change} />}
                </Framed>
            );
        case "pair": {
            const pair = Array.isArray(value) ? value : [];
            const both = (index: 0 | 1, text: string | undefined): void => {
                const next = [asText(pair[0]), asText(pair[1])];
                next[index] = text ?? "";
                change(next.every((each) => each === "") ? undefined : next);
            };
            return (
                <Framed {...frame} group>
                    {(ids) => (
                        <div class="pair">
                            {([0, 1] as const).map((index) => (
                                <QuantityInput key={index} ids={{ ...ids, input: `${ids.input}-${index}` }} value={asText(pair[index])} units={field.units} unitLabel={words.unit} placeholder="" change={(text) => both(index, text)} />
                            ))}
                        </div>
                    )}
                </Framed>
            );
        }
        case "quantity":
            return (
                <Framed {...frame}>
                    {(ids) => <QuantityInput ids={ids} value={asText(value)} units={field.units} unitLabel={`${words.unit}: ${field.label}`} placeholder="" change={(text) => change(field.units.length === 0 && text !== undefined ? wholeOr(text) : text)} />}
                </Framed>
            );
        case "text":
        case "own":
            return (
                <Framed {...frame}>
                    {(ids) => (
                        <input
                            id={ids.input}
                            type="text"
                            autocomplete="off"
                            value={asText(value)}
                            aria-invalid={ids.wrong}
                            aria-describedby={ids.described || undefined}
                            onInput={(event) => change(event.currentTarget.value === "" ? undefined : ownOr(field, event.currentTarget.value))}
                        />
                    )}
                </Framed>
            );
    }
}

/** A number where the text is one; else the text as typed, for the engine to judge. */
function wholeOr(text: string): Json {
    return /^\s*-?\d+(\.\d+)?\s*$/.test(text) ? Number(text) : text;
}

function ownOr(field: Field, text: string): Json {
    return field.value === "own" ? wholeOr(text) : text;
}

function InnerObject(props: { field: Field; path: string; value: Json | undefined }): JSX.Element {
    const form = useForm();
    const group = form.description.group(groupPath(props.path));
    const [open, setOpen] = useState(props.value !== undefined);
    if (group === undefined) {
        return <></>;
    }
    return (
        <details class="inner" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary>
                {props.field.label} <Summary value={props.value} />
            </summary>
            {open && <ObjectFields group={group} path={props.path} value={props.value} />}
        </details>
    );
}

function InnerList(props: { field: Field; path: string; value: Json | undefined }): JSX.Element {
    const form = useForm();
    const words = useWords();
    const id = useId();
    const kinds = form.description.kinds(`${groupPath(props.path)}[]`);
    const items = Array.isArray(props.value) ? props.value : [];
    if (kinds.length === 0) {
        return <FieldInput field={{ ...props.field, value: "own" }} path={props.path} value={props.value} />;
    }
    const counts = counted(kinds);
    if (counts !== null && kinds[0] !== undefined) {
        return <CounterList field={props.field} group={kinds[0]} kind={counts.kind} count={counts.count} path={props.path} items={items} />;
    }
    const troubles = form.troubles.get(props.path) ?? [];
    const first = (group: Group): JsonObject => {
        const chosen = group.chosenBy;
        return chosen === null ? {} : { [chosen]: "" };
    };
    return (
        <fieldset class="list" aria-labelledby={id}>
            <legend id={id}>{props.field.label}</legend>
            {troubles.map((trouble) => (
                <p key={trouble.text} class="troubles">
                    {trouble.text} {trouble.hint}
                </p>
            ))}
            <ol>
                {items.map((item, index) => {
                    const path = `${props.path}[${index}]`;
                    const group = form.description.kindOf(kinds, item) ?? kinds[0];
                    return (
                        <li key={index}>
                            {group !== undefined && <ObjectFields group={group} path={path} value={item} />}
                            <button type="button" class="quiet" onClick={() => form.change(path, undefined)}>
                                {words.remove} {index + 1}
                            </button>
                        </li>
                    );
                })}
            </ol>
            <div class="adders">
                {kinds.map((group) => (
                    <button type="button" key={group.title} onClick={() => form.change(`${props.path}[${items.length}]`, first(group))}>
                        {words.add}: {group.title}
                    </button>
                ))}
            </div>
        </fieldset>
    );
}

/** What a folded part holds, in one line. */
export function Summary(props: { value: Json | undefined }): JSX.Element {
    const said = oneLine(props.value);
    return said === "" ? <Fragment /> : <span class="summary">{said}</span>;
}

export function oneLine(value: Json | undefined): string {
    if (value === undefined || value === null) {
        return "";
    }
    if (Array.isArray(value)) {
        return value.map(oneLine).filter(Boolean).join("; ");
    }
    if (isObject(value)) {
        return Object.values(value).map(oneLine).filter(Boolean).join(", ");
    }
    return value === true ? "✓" : value === false ? "" : String(value);
}
