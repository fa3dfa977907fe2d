/* Three doors, named by the job; under them the last projects. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { part as records } from "page-records";
import { fresh, fromText, type Project } from "./project/project";
import type { Store } from "./project/store";
import { languages, useWords } from "./words/words";

export interface HomeProps {
    store: Store;
    begin: (project: Project, door: "plan" | "trace") => void;
    language: string;
    setLanguage: (language: string) => void;
    version: string;
}

export function Home(props: HomeProps): JSX.Element {
    const words = useWords();
    const [projects, setProjects] = useState<Project[] | null>(null);
    const [refused, setRefused] = useState(false);
    useEffect(() => {
        void props.store.projects().then(setProjects);
    }, []);
    const create = (door: "plan" | "trace"): void => {
        props.begin(fresh(words.untitled, props.language === "en" ? "us" : "si"), door);
    };
    const open = async (file: File | undefined): Promise<void> => {
        if (file === undefined) {
            return;
        }
        const project = fromText(await file.text(), file.name);
        setRefused(project === null);
        if (project !== null) {
            props.begin(project, "plan");
        }
    };
    return (
        <div class="home">
            <header>
                <h1>{words.title}</h1>
                <p>{words.tagline}</p>
            </header>
            <nav class="doors">
                <button type="button" onClick={() => create("plan")}>
                    <b>{words.planDoor}</b>
                    <span>{words.planDoorSays}</span>
                </button>
                <button type="button" onClick={() => create("trace")}>
                    <b>{words.traceDoor}</b>
                    <span>{words.traceDoorSays}</span>
                </button>
                {records !== null && (
                    <a class="records-door" href="#/records">
                        <b>{records.words(props.language).records}</b>
                        <span>{records.words(props.language).recordsSays}</span>
                    </a>
                )}
                <label class="door">
                    <b>{words.openDoor}</b>
                    <span>{words.openDoorSays}</span>
                    <input type="file" accept=".json,application/json" onChange={(event) => void open(event.currentTarget.files?.[0])} />
                </label>
            </nav>
            {refused && (
                <p role="alert" class="troubles">
                    {words.cannotRead}
                </p>
            )}
            <section aria-labelledby="last">
                <h2 id="last">{words.lastProjects}</h2>
                {projects !== null && projects.length === 0 && <p>{props.store.keeps ? words.noProjects : words.keepsNothing}</p>}
                <ul class="projects">
                    {(projects ?? []).map((project) => (
                        <li key={project.id}>
                            <a href={`#/plan/${project.id}`}>{project.name}</a>
                            <a class="side" href={`#/trace/${project.id}`}>
                                {words.traceDoor}
                            </a>
                            <time dateTime={new Date(project.changed).toISOString()}>{new Date(project.changed).toLocaleDateString(props.language)}</time>
                        </li>
                    ))}
                </ul>
            </section>
            <footer>
                <label>
                    {words.language}{" "}
                    <select value={props.language} onChange={(event) => props.setLanguage(event.currentTarget.value)}>
                        {Object.entries(languages).map(([code, each]) => (
                            <option key={code} value={code}>
                                {each.name}
                            </option>
                        ))}
                    </select>
                </label>
                <p>
                    {records === null ? words.staysHere : records.words(props.language).leaves} {words.version} {props.version}
                </p>
            </footer>
        </div>
    );
}
