/* What is counted: big steppers for what is there, a search among the rest. */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import type { Description, Field, Group, Word } from "../engine/description";
import { isObject, type Json } from "../project/json";
import { useWords } from "../words/words";
import { asText, numberOr, ObjectFields, useForm } from "./form";
import { Stepper, TroubleList } from "./inputs";

const SHOWN_AT_MOST = 8;

/** Of a list whose entries are a name of many and its count: those two fields; null for other lists. */
export function counted(description: Description, kinds: readonly Group[]): { group: Group; kind: Field; count: Field } | null {
    const [group] = kinds;
    const kind = group?.keys.find((field) => field.names !== null && field.needed && description.words(field).length > SHOWN_AT_MOST);
    const count = group?.keys.find((field) => field.value === "whole" && field.needed);
    return group === undefined || kinds.length > 1 || kind === undefined || count === undefined ? null : { group, kind, count };
}

export function CounterList(props: { field: Field; group: Group; kind: Field; count: Field; path: string; items: readonly Json[] }): JSX.Element {
    const words = useWords();
    const form = useForm();
    const id = useId();
    const { kind, count, items, path } = props;
    const known = form.description.words(kind);
    const member = (item: Json, key: string): Json | undefined => (isObject(item) ? item[key] : undefined);
    return (
        <fieldset class="list counter" aria-labelledby={id} data-path={path}>
            <legend id={id}>{props.field.label}</legend>
            <TroubleList troubles={form.troubles.get(path) ?? []} />
            {items.map((item, index) => {
                const at = `${path}[${index}]`;
                const label = labelOf(known, member(item, kind.key));
                const amount = `${at}.${count.key}`;
                return (
                    <Counted key={index} label={label} value={member(item, count.key)} path={amount} remove={at}>
                        <ObjectFields group={props.group} path={at} value={item} but={[count.key]} />
                        <button type="button" class="quiet" onClick={() => form.change(at, undefined)}>
                            {words.remove}: {label}
                        </button>
                    </Counted>
                );
            })}
            <Seek known={known} there={items.map((item) => member(item, kind.key))} add={(word) => form.change(`${path}[${items.length}]`, { [kind.key]: word, [count.key]: 1 })} />
        </fieldset>
    );
}

/** An object of words and how many of each: fittings of a pipe. */
export function CountsInput(props: { field: Field; path: string; value: Json | undefined }): JSX.Element {
    const form = useForm();
    const id = useId();
    const known = form.description.words(props.field);
    const object = isObject(props.value) ? props.value : {};
    return (
        <fieldset class="list counter" aria-labelledby={id} data-path={props.path}>
            <legend id={id}>{props.field.label}</legend>
            <TroubleList troubles={form.troubles.get(props.path) ?? []} />
            {Object.entries(object).map(([word, value]) => {
                const at = `${props.path}.${word}`;
                return <Counted key={word} label={labelOf(known, word)} value={value} path={at} remove={at} />;
            })}
            <Seek known={known} there={Object.keys(object)} add={(word) => form.change(`${props.path}.${word}`, 1)} />
        </fieldset>
    );
}

function labelOf(known: readonly Word[], word: Json | undefined): string {
    return known.find((each) => each.word === word)?.says ?? asText(word);
}

function Counted(props: { label: string; value: Json | undefined; path: string; remove: string; children?: JSX.Element | JSX.Element[] }): JSX.Element {
    const form = useForm();
    const id = useId();
    const troubles = form.troubles.get(props.path) ?? form.troubles.get(props.remove) ?? [];
    const change = (text: string | undefined): void => {
        if (text === "0") {
            form.change(props.remove, undefined);
        } else {
            form.change(props.path, text === undefined ? "" : numberOr(text));
        }
    };
    return (
        <div class="counted">
            {props.children === undefined ? (
                <span class="entry">{props.label}</span>
            ) : (
                <details>
                    <summary>{props.label}</summary>
                    {props.children}
                </details>
            )}
            <Stepper ids={{ input: `${id}-count`, described: "", wrong: troubles.length > 0 }} label={props.label} named value={asText(props.value)} placeholder="" change={change} />
            <TroubleList troubles={troubles} />
        </div>
    );
}

function Seek(props: { known: readonly Word[]; there: readonly (Json | undefined)[]; add: (word: string) => void }): JSX.Element {
    const words = useWords();
    const [sought, setSought] = useState("");
    const found = props.known.filter((each) => !props.there.includes(each.word) && fits(each, sought)).slice(0, SHOWN_AT_MOST);
    return (
        <>
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
                            props.add(each.word);
                            setSought("");
                        }}
                    >
                        + {each.says}
                    </button>
                ))}
            </div>
        </>
    );
}

/** Whether all that is sought stands in a word, or in what else people call it, whatever accents and capitals. */
function fits(word: Word, sought: string): boolean {
    const plain = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    const all = plain([word.word, word.says, ...(word.also ?? [])].join(" "));
    return plain(sought)
        .split(/\s+/)
        .every((part) => all.includes(part));
}
