/* One site: where it is, when it wants service, how it moves, and all that was recorded there. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { download } from "../parts/download";
import { Sheets } from "../parts/sheets";
import { isObject, type JsonObject } from "../project/json";
import { fresh, type Project } from "../project/project";
import { BodyForm } from "./body_form";
import { Facts } from "./facts";
import { Head } from "./head";
import { ConflictLink, DueSaid } from "./list";
import { hashesOf } from "./logs";
import type { Course } from "./office";
import { conflicts, day, type Kind, type Rec } from "./record";
import type { Row } from "./shelf";
import { bodyOf, useChanges, useDesk, useFound } from "./use";
import { useRecordWords } from "./words";

export function SiteScreen(props: { site: string; begin: (project: Project, door: "plan" | "trace") => void }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const changes = useChanges();
    const found = useFound(async () => ({ stands: await office.standing(props.site), row: await office.row(props.site) }), [props.site, changes]);
    const row = found?.row;
    return (
        <>
            <Head links={[{ to: "#/records", says: words.records }]} title={row === undefined || row.name === "" ? words.site : row.name} />
            <main class="records">
                <p class="saved" role="status">
                    {office.waiting.some((each) => each.record?.site === props.site) && words.saved}
                </p>
                {found !== null && row === undefined && <p>{words.goneSite}</p>}
                {found !== null && row !== undefined && <SiteParts row={row} stands={found.stands} begin={props.begin} />}
            </main>
        </>
    );
}

/* By then what was opened is drawn, what the engine says of it too. */
const DRAWN_AFTER_MS = 600;

/** Prints the site with all that was recorded, which is folded on a screen. */
function printAll(): void {
    document.querySelectorAll<HTMLDetailsElement>(".records details").forEach((each) => (each.open = true));
    setTimeout(() => print(), DRAWN_AFTER_MS);
}

interface PartsProps {
    row: Row;
    stands: readonly Rec[];
    begin: (project: Project, door: "plan" | "trace") => void;
}

const DOCUMENTS: readonly Kind[] = ["survey", "station"];

function SiteParts(props: PartsProps): JSX.Element {
    const words = useRecordWords();
    const { office, language } = useDesk();
    const { row, stands } = props;
    const due = useFound(() => office.sites([row]), [row, language]);
    const twice = conflicts(stands);
    const documents = stands.filter((each) => DOCUMENTS.includes(each.kind));
    const facts = stands.filter((each) => each.document === undefined).sort((one, other) => (dayOf(one) < dayOf(other) ? 1 : dayOf(one) > dayOf(other) ? -1 : 0));
    const [left, setLeft] = useState<{ names: string[]; begin: () => void } | null>(null);
    const open = async (door: "plan" | "trace", version: Rec | undefined): Promise<void> => {
        const survey = version?.body ?? null;
        const { files, missing } = version === undefined ? { files: [], missing: [] } : await office.logs(version, stands);
        const project = { ...fresh(row.name, language === "en" ? "us" : "si"), files: files.map(({ name, blob }) => ({ name, blob, stamp: Date.now() })) };
        const site = { id: row.site, survey: version === undefined ? null : { document: version.document ?? "", version: version.id }, logs: hashesOf(files) };
        const begin = (): void => props.begin({ ...project, site, ...(survey === null ? {} : { survey }) }, door);
        setLeft(missing.length === 0 ? null : { names: missing, begin });
        if (missing.length === 0) {
            begin();
        }
    };
    const [survey] = documents.filter((each) => each.kind === "survey");
    return (
        <>
            {twice.map(([version]) => (
                <p key={version?.document} class="danger twice">
                    ! {words.changedTwice}. <ConflictLink document={version?.document ?? ""} kind={version?.kind ?? "site"} name={row.name} />
                </p>
            ))}
            <div class="tools">
                <a class="button visit" href={`#/visit/${row.site}`}>
                    {words.visit}
                </a>
                <button type="button" class="trace-here" onClick={() => void open("trace", survey)}>
                    {words.trace}
                </button>
                <button type="button" class="print-all" onClick={printAll}>
                    {words.print}
                </button>
            </div>
            {left !== null && (
                <div role="alert" class="troubles">
                    <p>
                        {left.names.join(", ")}: {words.cannotShow}
                    </p>
                    <button type="button" class="open-without" onClick={left.begin}>
                        {words.openWithout}
                    </button>
                </div>
            )}
            <DocumentCard id="where" kind="site" title={words.site} row={row} stands={stands} start={{ name: row.name }} make={words.change} />
            <section class="card" aria-labelledby="service">
                <h2 id="service">{words.service}</h2>
                {due?.sites[0] !== undefined && (
                    <p>
                        <DueSaid site={due.sites[0]} />
                    </p>
                )}
                <p>
                    {words.lastService}: {row.service_day ?? words.none}
                </p>
                <DocumentCard id="service-plan" kind="plan" title={words.plan} row={row} stands={stands} start={{}} make={words.makePlan} inner />
            </section>
            <Trends row={row} stands={stands} survey={survey} />
            <section class="card" aria-labelledby="stations">
                <h2 id="stations">{words.station}</h2>
                {documents.length === 0 && <p>{words.nothing}</p>}
                {documents.map((each) => (
                    <Entry key={each.id} record={each}>
                        {each.kind === "survey" && (
                            <button type="button" class="open-plan" onClick={() => void open("plan", each)}>
                                {words.openPlan}
                            </button>
                        )}
                    </Entry>
                ))}
            </section>
            <section class="card" aria-labelledby="history">
                <h2 id="history">{words.history}</h2>
                {facts.length === 0 && <p>{words.nothing}</p>}
                {facts.map((each) => (
                    <Entry key={each.id} record={each}>
                        {"sha256" in each.body && <Shown record={each} />}
                        {each.kind === "visit" && (
                            <a class="button" href={`#/visit/${row.site}/${each.id}`}>
                                {words.correct}
                            </a>
                        )}
                    </Entry>
                ))}
            </section>
        </>
    );
}

/** The day of a visit where it says one, else when it was written. */
function dayOf(record: Rec): string {
    const said = record.body["day"];
    return typeof said === "string" ? said : day(record.at);
}

/** A document of a site that people change here: the one written last of those that stand. */
function DocumentCard(props: { id: string; kind: Kind; title: string; row: Row; stands: readonly Rec[]; start: JsonObject; make: string; inner?: boolean }): JSX.Element {
    const words = useRecordWords();
    const { office, descriptions } = useDesk();
    const [changing, setChanging] = useState(false);
    const { row, kind } = props;
    const version = props.stands.find((each) => each.kind === kind);
    const { description, group } = bodyOf(descriptions, kind);
    const save = async (body: JsonObject): ReturnType<typeof office.keep> => {
        const of = version === undefined ? { document: kind === "site" ? row.site : crypto.randomUUID() } : { document: version.document ?? "", parents: [version.id] };
        const problems = await office.keep([{ kind, site: row.site, ...of, body }]);
        setChanging(problems.length > 0);
        return problems;
    };
    return (
        <section class={props.inner === true ? props.id : `card ${props.id}`} aria-labelledby={props.id}>
            {props.inner === true ? <h3 id={props.id}>{props.title}</h3> : <h2 id={props.id}>{props.title}</h2>}
            {version !== undefined && !changing && <Facts description={description} group={group} value={version.body} />}
            {changing ? (
                <BodyForm kind={kind} body={version?.body ?? props.start} save={save} cancel={() => setChanging(false)} />
            ) : (
                <button type="button" class="change" aria-label={version === undefined ? undefined : `${words.change}: ${props.title}`} onClick={() => setChanging(true)}>
                    {version === undefined ? props.make : words.change}
                </button>
            )}
        </section>
    );
}

function Trends(props: { row: Row; stands: readonly Rec[]; survey: Rec | undefined }): JSX.Element {
    const words = useRecordWords();
    const { office, units, language } = useDesk();
    const own = props.survey?.body["units"];
    const system = own === "si" || own === "us" ? own : units;
    const trend = useFound(() => office.trend(props.row, props.stands, system), [props.row, props.stands, system, language]);
    return (
        <section class="card trends" aria-labelledby="trends">
            <h2 id="trends">{words.trends}</h2>
            {trend !== null && trend.trends.length === 0 && <p>{words.noTrends}</p>}
            {trend !== null && trend.trends.length > 0 && (
                <>
                    <Sheets html={trend.html} figures={trend.figures} language={language} old={false} label={words.drawn} />
                    <details class="inner">
                        <summary>{words.points}</summary>
                        {trend.trends.map((course) => (
                            <Points key={course.what} course={course} />
                        ))}
                    </details>
                </>
            )}
        </section>
    );
}

function Points(props: { course: Course }): JSX.Element {
    return (
        <>
            <p>{props.course.says[0]}</p>
            <ul>
                {props.course.points.map((point, at) => (
                    <li key={at}>
                        <time dateTime={point.day}>{point.day}</time>: {point.shown}
                    </li>
                ))}
            </ul>
        </>
    );
}

/** A record in a line that opens. */
function Entry(props: { record: Rec; children?: preact.ComponentChildren }): JSX.Element {
    const { descriptions } = useDesk();
    const { record } = props;
    const [open, setOpen] = useState(false);
    const { says, description, group } = bodyOf(descriptions, record.kind);
    const purpose = group?.keys.find((field) => field.key === "purpose");
    const said = purpose === undefined ? undefined : description.words(purpose).find((each) => each.word === record.body["purpose"])?.says;
    const inner = record.kind === "visit" && isObject(record.body["case"]) ? record.body["case"] : null;
    return (
        <details class="inner entry-of" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary>
                <time dateTime={dayOf(record)}>{dayOf(record)}</time> <b>{says}</b>
                <span class="summary">{[said, record.body["caption"] ?? record.body["note"] ?? record.body["name"], record.who].filter(Boolean).join(", ")}</span>
            </summary>
            {open && <Facts description={description} group={group} value={record.body} but={["case", "sha256", "size", "type", ...(record.kind === "log" ? ["survey"] : [])]} />}
            {open && inner !== null && <Found visit={inner} />}
            {open && props.children}
        </details>
    );
}

/** What a case says: what was asked and tested in the engine's words, and the rest. */
export function Found(props: { visit: JsonObject }): JSX.Element {
    const { office, descriptions, language } = useDesk();
    const told = useFound(async () => ({ known: await office.known(props.visit) }), [props.visit, language]);
    const known = told?.known ?? null;
    return (
        <>
            {known !== null && (
                <ul class="known">
                    {known.map((each) => (
                        <li key={each.evidence}>
                            <span>
                                {each.asks} <b>{each.says}</b>
                            </span>
                        </li>
                    ))}
                </ul>
            )}
            {told !== null && <Facts description={descriptions.visit} group={descriptions.visit.group("")} value={props.visit} but={["survey", "units", ...(known === null ? [] : ["symptoms", "tests"])]} />}
        </>
    );
}

/** A photo to be seen, a sound to be heard or a log to be saved, once it is here. */
function Shown(props: { record: Rec }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const { body, kind } = props.record;
    const [address, setAddress] = useState<string | null>(null);
    const [trouble, setTrouble] = useState("");
    useEffect(() => () => (address === null ? undefined : URL.revokeObjectURL(address)), [address]);
    const show = async (): Promise<void> => {
        const blob = await office.file(body);
        setTrouble(blob === null ? words.cannotShow : "");
        if (kind === "log" && blob !== null) {
            download(blob, String(body["name"]));
            return;
        }
        setAddress(blob === null ? null : URL.createObjectURL(blob));
    };
    const caption = typeof body["caption"] === "string" ? body["caption"] : "";
    return (
        <div class="shown">
            {address === null && (
                <button type="button" onClick={() => void show()}>
                    {kind === "log" ? words.saveLog : words.showPhoto}
                </button>
            )}
            {address !== null && kind === "photo" && <img src={address} alt={caption} />}
            {address !== null && kind === "sound" && <audio src={address} controls aria-label={caption} />}
            {trouble !== "" && (
                <p role="alert" class="troubles">
                    {trouble}
                </p>
            )}
        </div>
    );
}
