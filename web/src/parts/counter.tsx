/* What is counted in a building: big steppers for what is there, a search among the rest. */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import type { Field, Group, Word } from "../engine/description";
import { isObject, type Json, type JsonObject } from "../project/json";
import { useWords } from "../words/words";
import { ObjectFields, useForm } from "./form";
import { Stepper } from "./inputs";

const SHOWN_AT_MOST = 8;

/** The fields of a list whose entries are a kind and its count; null for other lists. */
export function counted(kinds: readonly Group[]): { kind: Field; count: Field } | null {
    const fields = kinds.length === 1 ? (kinds[0]?.fields ?? []) : [];
    const kind = fields.find((field) => field.value === "word" && field.obligatory && field.words.length > SHOWN_AT_MOST);
    const count = fields.find((field) => field.value === "whole");
    return kind === undefined || count === undefined ? null : { kind, count };
}

export function CounterList(props: { field: Field; group: Group; kind: Field; count: Field; path: string; items: readonly Json[] }): JSX.Element {
    const words = useWords();
    const form = useForm();
    const id = useId();
    const [sought, setSought] = useState("");
    const { kind, count, items } = props;
    const labelOf = (word: Json | undefined): string => kind.words.find((each) => each.word === word)?.label ?? String(word ?? "");
    const there = items.map((item) => (isObject(item) ? item[kind.key] : undefined));
    const found = kind.words.filter((each) => !there.includes(each.word) && fits(each, sought)).slice(0, SHOWN_AT_MOST);
    return (
        <fieldset class="list counter" aria-labelledby={id}>
            <legend id={id}>{props.field.label}</legend>
            {items.map((item, index) => {
                const object: JsonObject = isObject(item) ? item : {};
                const path = `${props.path}[${index}]`;
                const label = labelOf(object[kind.key]);
                const troubles = [...form.troubles.entries()].filter(([at]) => at === path || at.startsWith(`${path}.`)).flatMap(([, each]) => each);
                return (
                    <div key={index} class="counted">
                        <details>
                            <summary id={`${id}-${index}`}>{label}</summary>
                            <ObjectFields group={props.group} path={path} value={item} but={[count.key]} />
                            <button type="button" class="quiet" onClick={() => form.change(path, undefined)}>
                                {words.remove}: {label}
                            </button>
                        </details>
                        <Stepper
                            ids={{ input: `${id}-${index}-count`, described: "", wrong: troubles.length > 0 }}
                            label={label}
                            value={object[count.key] === undefined ? "" : String(object[count.key])}
                            placeholder={count.fallback ?? ""}
                            change={(text) => form.change(text === "0" ? path : `${path}.${count.key}`, text === "0" || text === undefined ? undefined : /^\d+$/.test(text) ? Number(text) : text)}
                        />
                        {troubles.map((trouble) => (
                            <p key={trouble.text} class="troubles">
                                {trouble.text} {trouble.hint}
                            </p>
                        ))}
                    </div>
                );
            })}
            <label class="search">
                {words.add}
                <input type="search" autocomplete="off" placeholder={words.searchWords} value={sought} onInput={(event) => setSought(event.currentTarget.value)} />
            </label>
            <div class="adders">
                {found.map((each) => (
                    <button
                        type="button"
                        key={each.word}
                        onClick={() => {
                            form.change(`${props.path}[${items.length}]`, { [kind.key]: each.word, [count.key]: 1 });
                            setSought("");
                        }}
                    >
                        + {each.label}
                    </button>
                ))}
            </div>
        </fieldset>
    );
}

/** Whether all that is sought stands in a word or its label, whatever accents and capitals. */
function fits(word: Word, sought: string): boolean {
    const plain = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    const all = plain(`${word.word} ${word.label}`);
    return plain(sought)
        .split(/\s+/)
        .every((part) => all.includes(part));
}
