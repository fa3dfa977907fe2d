/* Inputs for one value each. All are at least 48 px high; their names, units and words come from the engine. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ComponentChildren, JSX } from "preact";
import type { Word } from "../engine/description";
import { useWords } from "../words/words";

export interface Trouble {
    /** Else it stands in the way of an answer. */
    warns: boolean;
    text: string;
    hint: string;
    mend: (() => void) | null;
}

interface Frame {
    /** Where the value stands in the document. */
    path: string;
    label: string;
    help: string;
    /** What is assumed where nothing is given; "" where nothing is. */
    assumed: string;
    troubles: readonly Trouble[];
    needed?: boolean;
}

/** A value's name, what it means, what is assumed, and what is wrong with it, around its input. */
export function Framed(props: Frame & { children: (ids: Ids) => ComponentChildren; group?: boolean }): JSX.Element {
    const words = useWords();
    const id = useId();
    const [open, setOpen] = useState(false);
    const wrong = props.troubles.some((each) => !each.warns);
    const described = [props.troubles.length > 0 ? `${id}-wrong` : "", props.assumed !== "" ? `${id}-assumed` : ""].filter(Boolean).join(" ");
    const ids: Ids = { input: id, described, wrong };
    const name = (
        <>
            {props.label}
            {props.needed === true && <span class="needed"> ({words.needed})</span>}
        </>
    );
    return (
        <div class={wrong ? "field wrong" : "field"} data-path={props.path} role={props.group === true ? "group" : undefined} aria-labelledby={props.group === true ? `${id}-name` : undefined}>
            <div class="name">
                {props.group === true ? <span id={`${id}-name`}>{name}</span> : <label for={id}>{name}</label>}
                {props.help !== "" && (
                    <button type="button" class="help" aria-expanded={open} aria-label={`${words.whatIs}: ${props.label}`} onClick={() => setOpen(!open)}>
                        ?
                    </button>
                )}
            </div>
            {open && <p class="meaning">{props.help}</p>}
            {props.children(ids)}
            {props.assumed !== "" && (
                <p class="assumed" id={`${id}-assumed`}>
                    {words.assumed}: {props.assumed}
                </p>
            )}
            <div id={`${id}-wrong`}>
                <TroubleList troubles={props.troubles} />
            </div>
        </div>
    );
}

/** What is wrong, or worth a note, and its fix as a button where there is one. */
export function TroubleList(props: { troubles: readonly Trouble[] }): JSX.Element {
    const words = useWords();
    return (
        <>
            {props.troubles.map((trouble) => (
                <p key={trouble.text} class={trouble.warns ? "warning" : "troubles"}>
                    <strong>{trouble.warns ? words.note : words.mendThis}</strong> {trouble.text} {trouble.mend === null && trouble.hint}
                    {trouble.mend !== null && (
                        <button type="button" class="mend" onClick={trouble.mend}>
                            {trouble.hint === "" ? words.mend : trouble.hint}
                        </button>
                    )}
                </p>
            ))}
        </>
    );
}

export interface Ids {
    input: string;
    described: string;
    wrong: boolean;
}

export interface Amount {
    number: string;
    unit: string;
}

/** "1-1/4 in" as its number and its unit; what is no such thing stays whole in the number. */
export function apart(text: string): Amount {
    const found = /^([\d\s.,/+-]*)(.*)$/s.exec(text.trim());
    return { number: (found?.[1] ?? "").trim(), unit: (found?.[2] ?? "").trim() };
}

export function together(amount: Amount): string {
    return `${amount.number} ${amount.unit}`.trim();
}

export function QuantityInput(props: {
    ids: Ids;
    /** Where no label stands outside. */
    label?: string;
    value: string;
    units: readonly string[];
    unitLabel: string;
    placeholder: string;
    change: (text: string | undefined) => void;
}): JSX.Element {
    const given = apart(props.value);
    const [unit, setUnit] = useState(props.units[0] ?? "");
    const isKnown = props.units.includes(given.unit);
    const shown = isKnown ? given.unit : unit;
    const typed = (event: JSX.TargetedEvent<HTMLInputElement>): void => {
        const parts = apart(event.currentTarget.value);
        if (parts.number === "" && parts.unit === "") {
            props.change(undefined);
        } else {
            props.change(together({ number: parts.number, unit: parts.unit === "" ? shown : parts.unit }));
        }
    };
    const chosen = (event: JSX.TargetedEvent<HTMLSelectElement>): void => {
        setUnit(event.currentTarget.value);
        if (given.number !== "") {
            props.change(together({ number: given.number, unit: event.currentTarget.value }));
        }
    };
    return (
        <div class="amount">
            <input
                id={props.ids.input}
                type="text"
                inputMode="decimal"
                autocomplete="off"
                enterkeyhint="next"
                aria-label={props.label}
                placeholder={props.placeholder}
                value={given.unit === "" || isKnown ? given.number : props.value}
                aria-invalid={props.ids.wrong}
                aria-describedby={props.ids.described || undefined}
                onInput={typed}
            />
            {props.units.length > 0 && (
                <select aria-label={props.unitLabel} value={shown} onChange={chosen}>
                    {props.units.map((each) => (
                        <option key={each}>{each}</option>
                    ))}
                </select>
            )}
        </div>
    );
}

/** A file that goes along: its name, and doors to another one and to none. */
export function FileInput(props: { ids: Ids; value: string; attach: (file: File) => Promise<void>; drop: () => void }): JSX.Element {
    const words = useWords();
    const { ids } = props;
    const [trouble, setTrouble] = useState("");
    return (
        <div class="door">
            {props.value !== "" && (
                <p class="entry">
                    {props.value}
                    <button type="button" class="quiet" onClick={props.drop}>
                        {words.remove}
                    </button>
                </p>
            )}
            <input
                id={ids.input}
                type="file"
                accept=".csv,.txt,.tsv,.gz,text/csv"
                aria-invalid={ids.wrong}
                aria-describedby={ids.described || undefined}
                onChange={(event) => {
                    const file = event.currentTarget.files?.[0];
                    setTrouble("");
                    if (file !== undefined) {
                        props.attach(file).catch(() => setTrouble(words.cannotUnpack));
                    }
                }}
            />
            {trouble !== "" && (
                <p role="alert" class="troubles">
                    {trouble}
                </p>
            )}
        </div>
    );
}

/** − value +, a press at a time or as long as a finger rests on it. */
export function Stepper(props: {
    ids: Ids;
    value: string;
    placeholder: string;
    label: string;
    /** Where no label stands outside. */
    named?: boolean;
    change: (text: string | undefined) => void;
}): JSX.Element {
    const words = useWords();
    const held = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
    const current = useRef(props.value);
    current.current = props.value;
    const step = (by: number): void => {
        const before = Number(current.current === "" ? "0" : current.current);
        const after = Math.max(0, (Number.isFinite(before) ? Math.trunc(before) : 0) + by);
        current.current = String(after);
        props.change(String(after));
    };
    const release = (): void => clearTimeout(held.current);
    const hold = (by: number): void => {
        const again = (wait: number): void => {
            held.current = setTimeout(() => {
                step(by);
                again(Math.max(HOLD_FASTEST_MS, wait * HOLD_QUICKENS));
            }, wait);
        };
        again(HOLD_FIRST_MS);
    };
    useEffect(() => release, []);
    const button = (by: number, sign: string, says: string): JSX.Element => (
        <button
            type="button"
            class="step"
            aria-label={`${says}: ${props.label}`}
            onClick={() => step(by)}
            onPointerDown={() => hold(by)}
            onPointerUp={release}
            onPointerLeave={release}
            onPointerCancel={release}
        >
            {sign}
        </button>
    );
    return (
        <div class="stepper">
            {button(-1, "−", words.fewer)}
            <input
                id={props.ids.input}
                type="text"
                inputMode="numeric"
                aria-label={props.named === true ? props.label : undefined}
                autocomplete="off"
                placeholder={props.placeholder}
                value={props.value}
                aria-invalid={props.ids.wrong}
                aria-describedby={props.ids.described || undefined}
                onInput={(event) => props.change(event.currentTarget.value.trim() === "" ? undefined : event.currentTarget.value)}
            />
            {button(1, "+", words.more)}
        </div>
    );
}

const HOLD_FIRST_MS = 450;
const HOLD_FASTEST_MS = 40;
const HOLD_QUICKENS = 0.7;

export function WordInput(props: {
    ids: Ids;
    words: readonly Word[];
    label: string;
    /** Side by side as buttons; else a list to choose from. */
    asButtons: boolean;
    value: string;
    change: (text: string | undefined) => void;
}): JSX.Element {
    const words = useWords();
    const list = props.words;
    if (props.asButtons) {
        return (
            <div class="choices">
                {list.map((each, index) => (
                    <label key={each.word} class="choice">
                        <input
                            type="radio"
                            id={index === 0 ? props.ids.input : undefined}
                            name={props.ids.input}
                            checked={props.value === each.word}
                            aria-describedby={props.ids.described || undefined}
                            onChange={() => props.change(each.word)}
                            onClick={() => props.value === each.word && props.change(undefined)}
                        />
                        <span>{each.says}</span>
                    </label>
                ))}
            </div>
        );
    }
    return (
        <select
            id={props.ids.input}
            aria-label={props.ids.input.endsWith("-sizes") ? props.label : undefined}
            value={props.value}
            aria-invalid={props.ids.wrong}
            aria-describedby={props.ids.described || undefined}
            onChange={(event) => props.change(event.currentTarget.value === "" ? undefined : event.currentTarget.value)}
        >
            <option value="">{words.notGiven}</option>
            {props.value !== "" && !list.some((each) => each.word === props.value) && <option>{props.value}</option>}
            {list.map((each) => (
                <option key={each.word} value={each.word}>
                    {each.says}
                </option>
            ))}
        </select>
    );
}
