/* Plan a station: one column of short cards, the answer at the thumb. */
import type { JSX } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import type { Description } from "../engine/description";
import type { Engine } from "../engine/engine";
import { Folded, FormProvider, ObjectFields, oneLine, useForm, type FormModel } from "../parts/form";
import { Sheets } from "../parts/sheets";
import { get, isObject, joined, mended, put, type Json, type JsonObject } from "../project/json";
import { attachments, withFile, type Project } from "../project/project";
import { useWords } from "../words/words";
import { AnswerBar } from "./answer_bar";
import { troublesOf, useAnswering } from "./answering";
import { cards, type Card, type Part } from "./cards";
import { WhatIf } from "./what_if";

export interface PlanProps {
    engine: Engine;
    /** Null while the engine has not told it yet: the answer does not wait for it, the questions do. */
    description: Description | null;
    project: Project;
    language: string;
    /** True where the change goes on with the one before, so that undo takes both. */
    change: (survey: JsonObject, joins: boolean) => void;
    setCatalogue: (catalogue: Project["catalogue"]) => void;
    /** The survey names a file that goes along with it. */
    attach: (survey: JsonObject, files: Project["files"]) => void;
}

let lastPath = "";
let lastTime = 0;
const ONE_STEP_MS = 1500;

export function Plan(props: PlanProps): JSX.Element {
    const words = useWords();
    const { survey } = props.project;
    const [open, setOpen] = useState(false);
    /* Where the questions and the answer were left. */
    const places = useRef<[number, number]>([0, 0]);
    const asked = {
        survey,
        catalogue: props.project.catalogue?.text,
        attachments: attachments(props.project),
        language: props.language,
        units: undefined,
    };
    const answering = useAnswering(props.engine, asked);
    const turn = (opened: boolean): void => {
        places.current[open ? 1 : 0] = scrollY;
        setOpen(opened);
        requestAnimationFrame(() => scrollTo(0, places.current[opened ? 1 : 0]));
    };
    const replace = (next: Json, joins: boolean): void => {
        if (isObject(next)) {
            props.change(next, joins);
        }
    };
    const change = (path: string, value: Json | undefined): void => {
        const now = Date.now();
        const joins = path === lastPath && now - lastTime < ONE_STEP_MS;
        lastPath = path;
        lastTime = now;
        replace(put(survey, path, value), joins);
    };
    const troubles = useMemo(() => troublesOf(answering.problems, (fix) => replace(mended(survey, fix), false)), [answering.problems, survey]);
    const attach = async (path: string, file: File): Promise<void> => {
        const { name, files } = await withFile(props.project, file);
        const next = put(survey, path, name);
        if (isObject(next)) {
            props.attach(next, files);
        }
    };
    const { description } = props;
    const model: FormModel | null = description === null ? null : { document: survey, system: survey["units"] === "si" ? "si" : "us", description, troubles, assumed: answering.assumed, change, attach };

    return (
        <FormProvider value={model}>
            <div class={open ? "plan answered" : "plan"}>
                <div class="questions">
                    {model !== null && cards.map((card, index) => <CardView key={card.id} card={card} number={index + 1} />)}
                    <Valves catalogue={props.project.catalogue} set={props.setCatalogue} />
                </div>
                <div class="answer">
                    {answering.shown !== null && (
                        <button type="button" class="print" onClick={() => print()}>
                            {words.print}
                        </button>
                    )}
                    {model !== null && answering.design !== null && <WhatIf engine={props.engine} asked={asked} design={answering.design} take={(next) => replace(next, false)} />}
                    {answering.shown !== null && <Sheets html={answering.shown.html} figures={answering.shown.figures} language={props.language} old={answering.stale || answering.shown !== answering.design} label={words.answer} />}
                </div>
                <AnswerBar answering={answering} open={open} toggle={() => turn(!open)} />
            </div>
        </FormProvider>
    );
}

function CardView(props: { card: Card; number: number }): JSX.Element {
    const { card } = props;
    const words = useWords();
    const form = useForm();
    const [open, setOpen] = useState(card.first);
    const said = card.parts
        .map((part) => {
            const value = part.path === "" ? form.document : get(form.document, part.path);
            const object: JsonObject = isObject(value) ? value : {};
            return oneLine(Object.entries(object).filter(([key]) => (part.only === undefined || part.only.includes(key)) && !(part.but ?? []).includes(key)).map(([, each]) => each));
        })
        .filter(Boolean)
        .join("; ");
    return (
        <details class="card" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary>
                <h2>
                    {props.number} {words[card.title]}
                </h2>
                <span class="summary">{!open && said !== "" ? said : words[card.says]}</span>
            </summary>
            {open && card.parts.map((part) => <PartView key={part.path} part={part} />)}
        </details>
    );
}

function PartView(props: { part: Part }): JSX.Element {
    const { part } = props;
    const words = useWords();
    const form = useForm();
    const group = form.description.group(part.path);
    const value = part.path === "" ? form.document : get(form.document, part.path);
    if (group === undefined) {
        return <></>;
    }
    const keys = group.keys.map((field) => field.key).filter((key) => (part.only?.includes(key) ?? true) && part.but?.includes(key) !== true);
    const open = keys.filter((key) => part.open?.includes(key) ?? true);
    const rest = keys.filter((key) => !open.includes(key));
    const assumed = rest.map((key) => form.assumed.get(joined(part.path, key))).filter((each) => each !== undefined);
    const given = rest.filter((key) => isObject(value) && value[key] !== undefined);
    return (
        <>
            <ObjectFields group={group} path={part.path} value={value} only={open} />
            {rest.length > 0 && (
                <Folded
                    opened={given.length > 0}
                    summary={
                        <>
                            {words.rest}
                            {assumed.length > 0 && (
                                <span class="summary">
                                    {words.assumed}: {assumed.map((each) => each.split(" (")[0]).join(", ")}
                                </span>
                            )}
                        </>
                    }
                >
                    {() => <ObjectFields group={group} path={part.path} value={value} only={rest} />}
                </Folded>
            )}
        </>
    );
}

/** The catalog to choose from: an own one as a file of JSON, or the generic one. */
function Valves(props: { catalogue: Project["catalogue"]; set: (catalogue: Project["catalogue"]) => void }): JSX.Element {
    const words = useWords();
    const open = async (file: File | undefined): Promise<void> => {
        if (file !== undefined) {
            props.set({ name: file.name, text: await file.text() });
        }
    };
    return (
        <section class="card" aria-labelledby="valves">
            <h2 id="valves">{words.catalogue}</h2>
            <p>{props.catalogue?.name ?? words.catalogueGeneric}</p>
            <label class="door">
                {words.catalogueOpen}
                <input type="file" accept=".json,application/json" onChange={(event) => void open(event.currentTarget.files?.[0])} />
            </label>
            {props.catalogue !== null && (
                <button type="button" onClick={() => props.set(null)}>
                    {words.catalogueDrop}
                </button>
            )}
        </section>
    );
}
