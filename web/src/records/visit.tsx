/* A visit saved: what was found, done and measured, with its photos and sounds, and the survey as it is now. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Problem } from "../engine/answers";
import { isObject, type JsonObject } from "../project/json";
import type { Project } from "../project/project";
import { useWords } from "../words/words";
import { BodyFields } from "./body_form";
import { isSame } from "./differences";
import { Head } from "./head";
import { sha256Of } from "./files";
import { fitting } from "./list";
import { WhoAsked } from "./login";
import { filesNamed, hashesOf, logDrafts, type NamedFile } from "./logs";
import type { Draft, NewFile } from "./office";
import { day, moment, type Rec } from "./record";
import type { Row } from "./shelf";
import { Found } from "./site";
import { useChanges, useDesk, useFound } from "./use";
import { useRecordWords } from "./words";

export interface VisitProps {
    /** The site; null where it is to be chosen. */
    site: string | null;
    /** The visit that this one takes the place of. */
    corrects: string | null;
    /** What was planned and traced. */
    project: Project | null;
    /** What the project came to belong to by being saved. */
    link: (site: Project["site"]) => void;
}

export function VisitScreen(props: VisitProps): JSX.Element {
    const words = useRecordWords();
    const pageWords = useWords();
    const { office } = useDesk();
    useChanges();
    const [chosen, setChosen] = useState(props.site ?? props.project?.site?.id ?? null);
    const corrected = useFound(async () => ({ record: props.corrects === null ? undefined : await office.record(props.corrects) }), [props.corrects]);
    const links =
        props.project === null
            ? [{ to: `#/site/${chosen}`, says: words.site }]
            : [
                  { to: `#/plan/${props.project.id}`, says: pageWords.planDoor },
                  { to: `#/trace/${props.project.id}`, says: pageWords.traceDoor },
                  { to: "#/records", says: words.records },
              ];
    const row = office.rows.find((each) => each.site === chosen);
    return (
        <>
            <Head links={links} title={words.visit} />
            <main class="records">
                {office.who === "" && <WhoAsked />}
                {row === undefined && <WhichSite name={props.project?.name ?? ""} choose={setChosen} />}
                {row !== undefined && <p class="entry chosen">{row.name}</p>}
                {row !== undefined && corrected !== null && office.who !== "" && <VisitForm key={row.site} row={row} corrected={corrected.record} project={props.project} link={props.link} />}
            </main>
        </>
    );
}

const SITES_AT_MOST = 8;

function WhichSite(props: { name: string; choose: (site: string) => void }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const [sought, setSought] = useState("");
    const [adding, setAdding] = useState(false);
    const [problems, setProblems] = useState<readonly Problem[]>([]);
    const [body, setBody] = useState<JsonObject>({ name: props.name });
    const found = fitting(office.rows, sought).slice(0, SITES_AT_MOST);
    const add = async (): Promise<void> => {
        const site = crypto.randomUUID();
        const wrong = await office.keep([{ kind: "site", site, document: site, body }]);
        setProblems(wrong);
        if (wrong.length === 0) {
            props.choose(site);
        }
    };
    return (
        <section class="card which" aria-labelledby="which">
            <h2 id="which">{words.whichSite}</h2>
            <label class="search">
                {words.search}
                <input type="search" autocomplete="off" value={sought} onInput={(event) => setSought(event.currentTarget.value)} />
            </label>
            <div class="adders">
                {found.map((each) => (
                    <button type="button" key={each.site} onClick={() => props.choose(each.site)}>
                        {each.name === "" ? each.site : each.name}
                    </button>
                ))}
                {!adding && (
                    <button type="button" class="new-site" disabled={office.who === ""} onClick={() => setAdding(true)}>
                        + {words.newSite}
                    </button>
                )}
            </div>
            {adding && (
                <form
                    class="body-form"
                    onSubmit={(event) => {
                        event.preventDefault();
                        void add();
                    }}
                >
                    <BodyFields kind="site" body={body} change={setBody} problems={problems} />
                    <button type="submit">{words.save}</button>
                </form>
            )}
        </section>
    );
}

/** A case in which something is said. */
function saysSomething(visit: JsonObject): boolean {
    return Object.keys(visit).some((key) => key !== "case" && key !== "units");
}

/** A survey that is more than a name and its units. */
function isSurveyed(survey: JsonObject): boolean {
    return "supply" in survey || "scenarios" in survey || "existing" in survey;
}

function VisitForm(props: { row: Row; corrected: Rec | undefined; project: Project | null; link: VisitProps["link"] }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const { row, corrected, project } = props;
    const traced = project !== null && saysSomething(project.visit) ? project.visit : isObject(corrected?.body["case"]) ? corrected.body["case"] : null;
    const [body, setBody] = useState<JsonObject>(() => withoutCase(corrected?.body) ?? { purpose: "service", day: day(moment(new Date())) });
    const [problems, setProblems] = useState<readonly Problem[]>([]);
    const [files, setFiles] = useState<readonly NewFile[]>([]);
    const [saving, setSaving] = useState(false);
    const stands = useFound(() => office.standing(row.site), [row]);
    const named = useFound(() => filesOf(project), [project?.files, project?.survey]);
    const survey = project !== null && isSurveyed(project.survey) && stands !== null && named !== null ? surveyDrafts(row.site, project, stands, named) : null;
    const [takesSurvey, setTakesSurvey] = useState(true);
    const save = async (event: Event): Promise<void> => {
        event.preventDefault();
        const visit: Draft = {
            kind: "visit",
            site: row.site,
            ...(corrected === undefined ? {} : { corrects: corrected.id }),
            body: { ...body, ...(traced === null ? {} : { case: { case: 1, ...traced } }) },
        };
        setSaving(true);
        const documents = takesSurvey ? (survey?.drafts ?? []) : [];
        const logs = (named ?? []).filter((each) => documents.some((draft) => draft.body["sha256"] === each.sha256));
        const wrong = await office.keep([visit, ...documents], files, logs.map(({ sha256, blob }) => ({ sha256, type: "text/csv", blob })));
        setSaving(false);
        setProblems(wrong);
        if (wrong.length === 0) {
            if (project !== null) {
                const version = takesSurvey ? await office.lastVersion(row.site, "survey") : null;
                props.link({ id: row.site, survey: version ?? project.site?.survey ?? null, logs: takesSurvey ? hashesOf(named ?? []) : (project.site?.logs ?? {}) });
            }
            location.hash = `#/site/${row.site}`;
        }
    };
    return (
        <form class="visit-form" onSubmit={(event) => void save(event)}>
            {corrected !== undefined && (
                <p>
                    {words.correcting} {day(corrected.at)}, {corrected.who}.
                </p>
            )}
            <section class="card">
                <BodyFields kind="visit" body={body} change={setBody} problems={problems} />
            </section>
            <section class="card" aria-labelledby="found">
                <h2 id="found">{words.found}</h2>
                <p>{traced === null ? words.noCase : words.takeCase}</p>
                {traced !== null && (
                    <details class="inner">
                        <summary>{words.found}</summary>
                        <Found visit={traced} />
                    </details>
                )}
                {survey !== null && survey.drafts.length === 0 && <p>{words.sameSurvey}</p>}
                {survey !== null && survey.drafts.length > 0 && (
                    <label class="tick">
                        <input type="checkbox" checked={takesSurvey} onChange={(event) => setTakesSurvey(event.currentTarget.checked)} />
                        <span>{survey.isFirst ? words.firstSurvey : words.takeSurvey}</span>
                    </label>
                )}
            </section>
            <Attachments files={files} change={setFiles} />
            <button type="submit" class="save-visit" disabled={saving}>
                {words.saveVisit}
            </button>
        </form>
    );
}

function withoutCase(body: JsonObject | undefined): JsonObject | null {
    if (body === undefined) {
        return null;
    }
    const { case: _, ...others } = body;
    return others;
}

/** The files that the survey names, by their hashes. */
async function filesOf(project: Project | null): Promise<NamedFile[]> {
    const names = filesNamed(project?.survey ?? {});
    const files = (project?.files ?? []).filter(({ name }) => names.includes(name));
    return Promise.all(files.map(async ({ name, blob }) => ({ name, blob, sha256: await sha256Of(blob) })));
}

/** The survey, and the station in it, as versions: of that which the project came from, else of all that stand; and the logs that it names. None of what is
 * the same. */
function surveyDrafts(site: string, project: Project, stands: readonly Rec[], files: readonly NamedFile[]): { drafts: Draft[]; isFirst: boolean } {
    const from = project.site?.id === site ? project.site.survey : null;
    const heads = stands.filter((each) => each.kind === "survey");
    const own = heads.filter((each) => from === null || each.document === from.document);
    const draft = (kind: "survey" | "station", body: JsonObject, of: string | undefined, parents: readonly string[]): Draft => ({
        kind,
        site,
        body,
        document: of ?? crypto.randomUUID(),
        ...(parents.length === 0 ? {} : { parents }),
    });
    const drafts: Draft[] = [];
    const same = own.find((each) => isSame(each.body, project.survey));
    const document = same?.document ?? from?.document ?? own[0]?.document ?? crypto.randomUUID();
    if (same === undefined) {
        const parents = from === null ? own.filter((each) => each.document === document).map((each) => each.id) : [from.version];
        drafts.push(draft("survey", project.survey, document, parents));
    }
    const { existing } = project.survey;
    const stations = stands.filter((each) => each.kind === "station");
    if (isObject(existing) && !stations.some((each) => isSame(each.body, existing))) {
        const of = stations[0]?.document;
        drafts.push(draft("station", existing, of, stations.filter((each) => each.document === of).map((each) => each.id)));
    }
    drafts.push(...logDrafts(site, stands, document, files, from?.document === document ? (project.site?.logs ?? {}) : {}));
    return { drafts, isFirst: heads.length === 0 };
}

function Attachments(props: { files: readonly NewFile[]; change: (files: readonly NewFile[]) => void }): JSX.Element {
    const words = useRecordWords();
    const { files } = props;
    const add = (kind: NewFile["kind"], input: HTMLInputElement): void => {
        const added = [...(input.files ?? [])].map((file) => ({ kind, file, caption: "" }));
        props.change([...files, ...added]);
        input.value = "";
    };
    return (
        <section class="card" aria-labelledby="photos">
            <h2 id="photos">{words.photos}</h2>
            <ul>
                {files.map((each, at) => (
                    <li key={at}>
                        <label>
                            {each.file.name}: {words.caption}
                            <input type="text" value={each.caption} onInput={(event) => props.change(files.map((other, which) => (which === at ? { ...other, caption: event.currentTarget.value } : other)))} />
                        </label>
                        <button type="button" class="quiet" onClick={() => props.change(files.filter((_, which) => which !== at))}>
                            {words.remove}: {each.file.name}
                        </button>
                    </li>
                ))}
            </ul>
            <label class="door">
                {words.addPhoto}
                <input type="file" accept="image/*" multiple onChange={(event) => add("photo", event.currentTarget)} />
            </label>
            <label class="door">
                {words.addSound}
                <input type="file" accept="audio/*" onChange={(event) => add("sound", event.currentTarget)} />
            </label>
        </section>
    );
}
