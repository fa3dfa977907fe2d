/* The page's frame: which screen, which project, which language; saved as it is typed. */
import type { JSX } from "preact";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { describe } from "./engine/describe";
import type { Description } from "./engine/description";
import type { Engine } from "./engine/engine";
import { Home } from "./home";
import { Plan } from "./plan/plan";
import { begun, done, redone, undone, type History } from "./project/history";
import type { Project } from "./project/project";
import type { Store } from "./project/store";
import { ProjectHead } from "./project_head";
import { UpdateOffer } from "./parts/update";
import { Trace } from "./trace/trace";
import { languages, WordsContext } from "./words/words";

export type Screen = { name: "home" } | { name: "plan" | "trace"; id: string };

function screenOf(hash: string): Screen {
    const found = /^#\/(plan|trace)\/([\w-]+)$/.exec(hash);
    return found?.[2] === undefined ? { name: "home" } : { name: found[1] as "plan" | "trace", id: found[2] };
}

export function App(props: { engine: Engine; store: Store; language: string; version: string }): JSX.Element {
    const { engine, store } = props;
    const [language, setLanguage] = useState(props.language);
    const [screen, setScreen] = useState(screenOf(location.hash));
    const [history, setHistory] = useState<History<Project> | null>(null);
    const [descriptions, setDescriptions] = useState<{ survey: Description; visit: Description } | null>(null);
    const heading = useRef<HTMLHeadingElement>(null);

    useEffect(() => {
        const moved = (): void => setScreen(screenOf(location.hash));
        addEventListener("hashchange", moved);
        return () => removeEventListener("hashchange", moved);
    }, []);

    useEffect(() => {
        document.documentElement.lang = language;
        void store.set("language", language);
        let current = true;
        void describe(engine, language).then((told) => {
            if (current) {
                setDescriptions(told);
            }
        });
        return () => {
            current = false;
        };
    }, [language]);

    const id = screen.name === "home" ? null : screen.id;
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

    const words = languages[language]?.words;
    const project = history?.present.id === id ? history?.present : undefined;
    return (
        <WordsContext.Provider value={words ?? languages["en"]!.words}>
            <UpdateOffer />
            {screen.name === "home" && <Home store={store} begin={begin} language={language} setLanguage={setLanguage} version={props.version} />}
            {screen.name !== "home" && project !== undefined && history !== null && (
                <ProjectHead project={project} door={screen.name} heading={heading} change={change} undo={history.past.length === 0 ? null : () => keep(undone(history))} redo={history.future.length === 0 ? null : () => keep(redone(history))} remove={remove} />
            )}
            <main>
                {project !== undefined && descriptions !== null && screen.name === "plan" && (
                    <Plan engine={engine} description={descriptions.survey} project={project} language={language} change={(survey, joins) => change({ survey }, joins)} setCatalogue={(catalogue) => change({ catalogue }, false)} attach={(survey, files) => change({ survey, ...(files === undefined ? {} : { files }) }, false)} />
                )}
                {project !== undefined && descriptions !== null && screen.name === "trace" && (
                    <Trace engine={engine} description={descriptions.visit} project={project} language={language} change={(visit, joins) => change({ visit }, joins)} />
                )}
            </main>
        </WordsContext.Provider>
    );
}
