/* The page's frame: which screen, which project, which language; saved as it is typed. */
import type { JSX } from "preact";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { part as records } from "page-records";
import { describe, type Descriptions } from "./engine/describe";
import type { Engine } from "./engine/engine";
import { Home } from "./home";
import { Plan } from "./plan/plan";
import { begun, done, redone, undone, type History } from "./project/history";
import type { Project } from "./project/project";
import type { Store } from "./project/store";
import { ProjectHead } from "./project_head";
import { UpdateOffer } from "./parts/update";
import { recordsScreenOf, type RecordsScreen } from "./records/door";
import type { Office } from "./records/office";
import { Trace } from "./trace/trace";
import { languages, WordsContext } from "./words/words";

export type Screen = { name: "home" } | { name: "plan" | "trace"; id: string } | RecordsScreen;

export function screenOf(hash: string): Screen {
    const found = /^#\/(plan|trace)\/([\w-]+)$/.exec(hash);
    if (found?.[2] !== undefined) {
        return { name: found[1] as "plan" | "trace", id: found[2] };
    }
    return (records === null ? null : recordsScreenOf(hash)) ?? { name: "home" };
}

function isOfRecords(screen: Screen): screen is RecordsScreen {
    return screen.name !== "home" && screen.name !== "plan" && screen.name !== "trace";
}

/** The project that a screen is about; null where it is about none. */
export function projectOf(screen: Screen): string | null {
    return screen.name === "plan" || screen.name === "trace" || screen.name === "save" ? screen.id : null;
}

export interface AppProps {
    engine: Engine;
    store: Store;
    /** Null where the page has no records, or keeps none. */
    office: Promise<Office | null>;
    /** The one that the first screen is about, where it is in the store. */
    project: Project | undefined;
    language: string;
    version: string;
}

export function App(props: AppProps): JSX.Element {
    const { engine, store } = props;
    const [language, setLanguage] = useState(props.language);
    const [screen, setScreen] = useState(screenOf(location.hash));
    const [history, setHistory] = useState<History<Project> | null>(props.project === undefined ? null : begun(props.project));
    const [descriptions, setDescriptions] = useState<Descriptions | null>(null);
    const [office, setOffice] = useState<{ there: Office | null } | null>(null);
    const heading = useRef<HTMLHeadingElement>(null);

    useEffect(() => {
        const moved = (): void => setScreen(screenOf(location.hash));
        addEventListener("hashchange", moved);
        return () => removeEventListener("hashchange", moved);
    }, []);

    useEffect(() => void props.office.then((there) => setOffice({ there })), [props.office]);

    useEffect(() => {
        document.documentElement.lang = language;
        void store.set("language", language);
        let current = true;
        void describe(engine, store, language).then((told) => {
            if (current) {
                setDescriptions(told);
            }
        });
        return () => {
            current = false;
        };
    }, [language]);

    const id = projectOf(screen);
    useEffect(() => {
        if (id !== null && history?.present.id !== id) {
            void store.project(id).then((project) => {
                if (project === undefined) {
                    location.hash = "#/";
                } else {
                    setHistory(begun(project));
                }
            });
        }
        scrollTo(0, 0);
        heading.current?.focus();
    }, [id, screen.name]);

    const keep = useCallback((next: History<Project>): void => {
        setHistory(next);
        void store.save(next.present);
    }, []);
    const change = (part: Partial<Project>, joins: boolean): void => {
        setHistory((before) => {
            if (before === null) {
                return before;
            }
            const next = done(before, { ...before.present, ...part, changed: Date.now() }, joins);
            void store.save(next.present);
            return next;
        });
    };
    const begin = (project: Project, door: "plan" | "trace"): void => {
        keep(begun(project));
        location.hash = `#/${door}/${project.id}`;
    };
    const remove = (): void => {
        if (history !== null) {
            void store.remove(history.present.id).then(() => {
                setHistory(null);
                location.hash = "#/";
            });
        }
    };

    const link = (site: Project["site"]): void => change(site === undefined ? {} : { site }, false);

    const words = languages[language]?.words;
    const project = history?.present.id === id ? history?.present : undefined;
    return (
        <WordsContext.Provider value={words ?? languages["en"]!.words}>
            <UpdateOffer />
            {screen.name === "home" && <Home store={store} begin={begin} language={language} setLanguage={setLanguage} version={props.version} />}
            {(screen.name === "plan" || screen.name === "trace") && project !== undefined && history !== null && (
                <ProjectHead project={project} door={screen.name} heading={heading} change={change} visit={records?.words(language).visit ?? null} undo={history.past.length === 0 ? null : () => keep(undone(history))} redo={history.future.length === 0 ? null : () => keep(redone(history))} remove={remove} />
            )}
            {records !== null && office !== null && descriptions !== null && isOfRecords(screen) && (
                <records.Screens office={office.there} screen={screen} descriptions={descriptions} language={language} project={project} begin={begin} link={link} />
            )}
            {!isOfRecords(screen) && (
                <main>
                    {project !== undefined && screen.name === "plan" && (
                        <Plan engine={engine} description={descriptions?.survey ?? null} project={project} language={language} change={(survey, joins) => change({ survey }, joins)} setCatalogue={(catalogue) => change({ catalogue }, false)} attach={(survey, files) => change({ survey, ...(files === undefined ? {} : { files }) }, false)} />
                    )}
                    {project !== undefined && descriptions !== null && screen.name === "trace" && (
                        <Trace engine={engine} description={descriptions.visit} project={project} language={language} change={(visit, joins) => change({ visit }, joins)} />
                    )}
                </main>
            )}
        </WordsContext.Provider>
    );
}
