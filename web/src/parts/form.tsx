/* Forms made from the engine's description: a group's fields, each by the kind of its value. */
import { createContext, Fragment } from "preact";
import type { JSX } from "preact";
import { useContext, useId, useState } from "preact/hooks";
import type { Description, Field, Group } from "../engine/description";
import { isObject, joined, type Json, type JsonObject } from "../project/json";
import { useWords } from "../words/words";
import { counted, CounterList, CountsInput } from "./counter";
import { FileInput, Framed, QuantityInput, Stepper, TroubleList, WordInput, type Trouble } from "./inputs";

export interface FormModel {
    document: JsonObject;
    description: Description;
    /** In which people here read gauges. */
    system: "us" | "si";
    /** Of each path, what is wrong with it. */
    troubles: ReadonlyMap<string, readonly Trouble[]>;
    /** Of each path, what the answer assumed in its place. */
    assumed: ReadonlyMap<string, string>;
    change: (path: string, value: Json | undefined) => void;
    /** Takes a file along under the name that goes into the document. */
    attach?: (path: string, file: File) => Promise<void>;
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

export function asText(value: Json | undefined): string {
    return value === undefined || value === null ? "" : typeof value === "object" ? JSON.stringify(value) : String(value);
}

/** A number where the text is one; else the text as typed, for the engine to judge. */
export function numberOr(text: string): Json {
    return /^\s*-?\d+(\.\d+)?\s*$/.test(text) ? Number(text) : text;
}

/** Fields of the object at `path`; those in `only`, in that order, or all but those in `but`. */
export function ObjectFields(props: { group: Group; path: string; value: Json | undefined; only?: readonly string[]; but?: readonly string[] }): JSX.Element {
    const { group, only, but } = props;
    const fields = only === undefined ? group.keys.filter((field) => but?.includes(field.key) !== true) : only.flatMap((key) => group.keys.filter((field) => field.key === key));
    const object = isObject(props.value) ? props.value : {};
    return (
        <>
            {fields.map((field) => (
                <FieldInput key={field.key} field={field} path={joined(props.path, field.key)} value={object[field.key]} beside={object} group={group} />
            ))}
        </>
    );
}

export interface FieldProps {
    field: Field;
    path: string;
    value: Json | undefined;
    /** The object that it is a member of. */
    beside: JsonObject;
    group: Group;
}

export function FieldInput(props: FieldProps): JSX.Element {
    switch (props.field.value) {
        case "version":
        case "survey":
        case "answers":
        case "case":
        case "body":
        case "id":
        case "ids":
        case "moment":
        case "hash":
            return <></>; // written by the page, or asked elsewhere
        case "object":
            return <InnerObject {...props} />;
        case "list":
            return <InnerList {...props} />;
        case "counts":
            return <CountsInput field={props.field} path={props.path} value={props.value} />;
        default:
            return <ValueInput {...props} />;
    }
}

/* Fewer words than these stand side by side as buttons, under a name of their group. */
const BUTTONS_AT_MOST = 6;

function ValueInput(props: FieldProps): JSX.Element {
    const { field, path, value } = props;
    const form = useForm();
    const words = useWords();
    const choices = form.description.words(field);
    const isChoice = (field.value === "word" || field.value === "name" || field.value === "mesh") && choices.length > 0;
    const frame = {
        path,
        label: field.label,
        help: [field.means, field.takes, field.because].filter(Boolean).join(". "),
        assumed: value === undefined ? (form.assumed.get(path) ?? "") : "",
        troubles: form.troubles.get(path) ?? [],
        needed: field.needed && value === undefined,
    };
    const change = (next: Json | undefined): void => form.change(path, next);
    const whole = (text: string | undefined): void => change(text === undefined ? undefined : numberOr(text));
    const attach = form.description.namesFile(field) ? form.attach : undefined;
    if (attach !== undefined) {
        return <Framed {...frame}>{(ids) => <FileInput ids={ids} value={asText(value)} attach={(file) => attach(path, file)} drop={() => change(undefined)} />}</Framed>;
    }
    if (isChoice) {
        return (
            <Framed {...frame} group={choices.length <= BUTTONS_AT_MOST}>
                {(ids) => <WordInput ids={ids} words={choices} label={field.label} asButtons={choices.length <= BUTTONS_AT_MOST} value={asText(value)} change={change} />}
            </Framed>
        );
    }
    switch (field.value) {
        case "flag":
            return (
                <Framed {...frame} group>
                    {(ids) => <WordInput ids={ids} words={[{ word: "true", says: words.yes }, { word: "false", says: words.no }]} label={field.label} asButtons value={asText(value)} change={(text) => change(text === undefined ? undefined : text === "true")} />}
                </Framed>
            );
        case "whole":
            return (
                <Framed {...frame}>
                    {(ids) => <Stepper ids={ids} value={asText(value)} label={field.label} placeholder={field.default?.shown ?? ""} change={whole} />}
                </Framed>
            );
        case "day":
            return (
                <Framed {...frame}>
                    {(ids) => <input id={ids.input} type="date" value={asText(value)} aria-invalid={ids.wrong} aria-describedby={ids.described || undefined} onInput={(event) => change(event.currentTarget.value === "" ? undefined : event.currentTarget.value)} />}
                </Framed>
            );
        case "pair":
            return <PairInput {...props} frame={frame} />;
        case "quantity":
        case "word_or_quantity":
        case "meter_size":
        case "measured": {
            const units = form.description.units(field.kind, form.system);
            const sizes = sizesBeside(form, props);
            const lists = sizes.length > 0 ? sizes : choices.map((each) => each.word);
            return (
                <Framed {...frame}>
                    {(ids) => (
                        <>
                            {lists.length > 0 && <WordInput ids={{ ...ids, input: `${ids.input}-sizes` }} words={lists.map((word) => ({ word, says: word }))} label={field.label} asButtons={false} value={asText(value)} change={change} />}
                            <QuantityInput ids={ids} value={asText(value)} units={units} unitLabel={`${words.unit}: ${field.label}`} placeholder={field.default?.shown ?? ""} change={(text) => (units.length === 0 ? whole(text) : change(text))} />
                        </>
                    )}
                </Framed>
            );
        }
        case "texts":
        case "hourly":
            return (
                <Framed {...frame}>
                    {(ids) => (
                        <textarea
                            id={ids.input}
                            rows={3}
                            value={Array.isArray(value) ? value.map(asText).join("\n") : asText(value)}
                            aria-invalid={ids.wrong}
                            aria-describedby={ids.described || undefined}
                            onInput={(event) => {
                                const lines = event.currentTarget.value.split(field.value === "texts" ? "\n" : /[\s;]+/).filter((each) => each !== "");
                                change(lines.length === 0 ? undefined : field.value === "texts" ? lines : lines.map(numberOr));
                            }}
                        />
                    )}
                </Framed>
            );
        default:
            return (
                <Framed {...frame}>
                    {(ids) => (
                        <input
                            id={ids.input}
                            type="text"
                            autocomplete="off"
                            placeholder={field.default?.shown ?? ""}
                            value={asText(value)}
                            aria-invalid={ids.wrong}
                            aria-describedby={ids.described || undefined}
                            onInput={(event) => change(event.currentTarget.value === "" ? undefined : field.value === "figure" ? numberOr(event.currentTarget.value) : event.currentTarget.value)}
                        />
                    )}
                </Framed>
            );
    }
}

/** The sizes that the pipe beside a size is sold in: the words of pipes have them. */
function sizesBeside(form: FormModel, props: FieldProps): readonly string[] {
    const pipe = props.field.kind === "length" && props.field.needed ? props.group.keys.find((each) => each.names === "pipes") : undefined;
    return pipe === undefined ? [] : form.description.sizes(pipe, props.beside[pipe.key] ?? pipe.default?.text);
}

function PairInput(props: FieldProps & { frame: Omit<Parameters<typeof Framed>[0], "children"> }): JSX.Element {
    const form = useForm();
    const words = useWords();
    const pair = Array.isArray(props.value) ? props.value : [];
    const both = (index: 0 | 1, text: string | undefined): void => {
        const next = [asText(pair[0]), asText(pair[1])];
        next[index] = text ?? "";
        form.change(props.path, next.every((each) => each === "") ? undefined : next);
    };
    return (
        <Framed {...props.frame} group>
            {(ids) => (
                <div class="pair">
                    {([0, 1] as const).map((index) => (
                        <QuantityInput
                            key={index}
                            ids={{ ...ids, input: `${ids.input}-${index}` }}
                            label={`${props.field.label} ${index === 0 ? words.least : words.most}`}
                            value={asText(pair[index])}
                            units={form.description.units(props.field.kind, form.system)}
                            unitLabel={`${words.unit}: ${props.field.label} ${index === 0 ? words.least : words.most}`}
                            placeholder=""
                            change={(text) => both(index, text)}
                        />
                    ))}
                </div>
            )}
        </Framed>
    );
}

function InnerObject(props: FieldProps): JSX.Element {
    const form = useForm();
    const [group] = form.description.kinds(props.field);
    if (group === undefined) {
        return <></>;
    }
    return (
        <>
            <TroubleList troubles={form.troubles.get(props.path) ?? []} />
            <Folded
                opened={props.value !== undefined}
                path={props.path}
                summary={
                    <>
                        {props.field.label} <Summary value={props.value} />
                    </>
                }
            >
                {() => <ObjectFields group={group} path={props.path} value={props.value} />}
            </Folded>
        </>
    );
}

/** What is made only once it is opened: most of what a survey can say is never looked at. */
export function Folded(props: {
    /** From the first. */
    opened: boolean;
    path?: string;
    summary: JSX.Element;
    children: () => JSX.Element;
}): JSX.Element {
    const [open, setOpen] = useState(props.opened);
    return (
        <details class="inner" open={open} onToggle={(event) => setOpen(event.currentTarget.open)} data-path={props.path}>
            <summary>{props.summary}</summary>
            {open && props.children()}
        </details>
    );
}

function InnerList(props: FieldProps): JSX.Element {
    const { field, path } = props;
    const form = useForm();
    const words = useWords();
    const id = useId();
    const kinds = form.description.kinds(field);
    const items = Array.isArray(props.value) ? props.value : [];
    const counts = counted(form.description, kinds);
    if (counts !== null) {
        return <CounterList field={field} group={counts.group} kind={counts.kind} count={counts.count} path={path} items={items} />;
    }
    const begun = (group: Group): JsonObject => {
        const key = form.description.chosenBy(kinds, group);
        return key === null ? {} : { [key]: "" };
    };
    return (
        <fieldset class="list" aria-labelledby={id} data-path={path}>
            <legend id={id}>{field.label}</legend>
            <TroubleList troubles={form.troubles.get(path) ?? []} />
            <ol>
                {items.map((item, index) => {
                    const at = `${path}[${index}]`;
                    const group = form.description.kindOf(kinds, item) ?? kinds[0];
                    return (
                        <li key={index}>
                            <p class="entry">
                                {index + 1}: {group?.name}
                            </p>
                            <TroubleList troubles={form.troubles.get(at) ?? []} />
                            {group !== undefined && <ObjectFields group={group} path={at} value={item} />}
                            <button type="button" class="quiet" onClick={() => form.change(at, undefined)}>
                                {words.remove} {index + 1}
                            </button>
                        </li>
                    );
                })}
            </ol>
            <div class="adders">
                {kinds.map((group) => (
                    <button type="button" key={group.id} onClick={() => form.change(`${path}[${items.length}]`, begun(group))}>
                        + {group.name}
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
