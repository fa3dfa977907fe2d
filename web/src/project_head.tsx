/* A project's name and what can be done with the whole of it. */
import type { JSX, RefObject } from "preact";
import { download } from "./parts/download";
import type { Project } from "./project/project";
import { toFile } from "./project/project";
import { useWords } from "./words/words";

export interface ProjectHeadProps {
    project: Project;
    door: "plan" | "trace";
    heading: RefObject<HTMLHeadingElement>;
    change: (part: Partial<Project>, joins: boolean) => void;
    undo: (() => void) | null;
    redo: (() => void) | null;
    remove: () => void;
    /** What saving it as a visit is called; null where there are no records. */
    visit: string | null;
}

function fileName(project: Project): string {
    return `${project.name.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "project"}.json`;
}

async function save(project: Project): Promise<void> {
    download(await toFile(project), fileName(project));
}

async function send(project: Project): Promise<void> {
    const file = new File([await toFile(project)], fileName(project), { type: "application/json" });
    if (navigator.canShare?.({ files: [file] }) === true) {
        // Whoever closes the sheet has said no, which is no error.
        await navigator.share({ files: [file] }).catch(() => undefined);
    } else {
        await save(project);
    }
}

export function ProjectHead(props: ProjectHeadProps): JSX.Element {
    const words = useWords();
    const { project } = props;
    const other = props.door === "plan" ? "trace" : "plan";
    return (
        <header class="head">
            <nav>
                <a href="#/">{words.back}</a>
                <a href={`#/${other}/${project.id}`}>{other === "plan" ? words.planDoor : words.traceDoor}</a>
                {props.visit !== null && (
                    <a class="save-visit" href={`#/save/${project.id}`}>
                        {props.visit}
                    </a>
                )}
            </nav>
            <h1 ref={props.heading} tabIndex={-1}>
                {props.door === "plan" ? words.planDoor : words.traceDoor}
            </h1>
            <input class="title" type="text" aria-label={words.projectName} value={project.name} onInput={(event) => props.change({ name: event.currentTarget.value }, true)} />
            <div class="tools">
                <button type="button" disabled={props.undo === null} onClick={() => props.undo?.()}>
                    {words.undo}
                </button>
                <button type="button" disabled={props.redo === null} onClick={() => props.redo?.()}>
                    {words.redo}
                </button>
                <details class="more">
                    <summary>{words.projectMore}</summary>
                    <button type="button" onClick={() => void save(project)}>
                        {words.saveFile}
                    </button>
                    <button type="button" onClick={() => void send(project)}>
                        {words.share}
                    </button>
                    <button type="button" onClick={() => confirm(words.deleteAsk) && props.remove()}>
                        {words.deleteProject}
                    </button>
                </details>
            </div>
        </header>
    );
}
