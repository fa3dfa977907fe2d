/* What is kept of one job. A project's file is the promise; the browser's store is a convenience. */
import type { Attachment } from "../engine/protocol";
import { isObject, type Json, type JsonObject } from "./json";

export interface Project {
    id: string;
    name: string;
    changed: number;
    survey: JsonObject;
    visit: JsonObject;
    /** Catalogue of valves that was opened for it; none = the generic one. */
    catalogue: { name: string; text: string } | null;
    /** The site of the records that it belongs to, the version of the survey that it came from, and the hashes of the logs that came with it, by name. */
    site?: { id: string; survey: { document: string; version: string } | null; logs?: Readonly<Record<string, string>> };
    /** Files that the survey names, by their names. */
    files?: readonly Attachment[];
}

/** Those that `project` still names, as the engine takes them. */
export function attachments(project: Project): readonly Attachment[] {
    const survey = JSON.stringify(project.survey);
    return (project.files ?? []).filter(({ name }) => survey.includes(JSON.stringify(name)));
}

/** `file` as the engine reads it, which unpacks nothing: one whose name ends in .gz unpacked, without that ending. Rejects what is not packed so. */
export async function unpacked(file: File): Promise<{ name: string; blob: Blob }> {
    if (!/\.gz$/i.test(file.name)) {
        return { name: file.name, blob: file };
    }
    const blob = await new Response(file.stream().pipeThrough(new DecompressionStream("gzip"))).blob();
    return { name: file.name.replace(/\.gz$/i, ""), blob };
}

/** `project` with `file` under its name, unpacked. */
export async function withFile(project: Project, file: File): Promise<{ name: string; files: readonly Attachment[] }> {
    const { name, blob } = await unpacked(file);
    const others = (project.files ?? []).filter((each) => each.name !== name);
    return { name, files: [...others, { name, blob, stamp: Date.now() }] };
}

export const FILE_VERSION = 1;

export function fresh(name: string, units: string): Project {
    return {
        id: crypto.randomUUID(),
        name,
        changed: Date.now(),
        survey: { survey: 1, units },
        visit: { case: 1 },
        catalogue: null,
    };
}

export async function toFile(project: Project): Promise<Blob> {
    const { name, survey, visit, catalogue } = project;
    const files = await Promise.all(attachments(project).map(async (each) => [each.name, await each.blob.text()] as const));
    const beside = files.length === 0 ? {} : { files: Object.fromEntries(files) };
    const text = JSON.stringify({ project: FILE_VERSION, name, survey, visit, catalogue, ...beside }, null, 2);
    return new Blob([text, "\n"], { type: "application/json" });
}

/** Reads a project's file, or a bare survey or case as the command line takes them; null where it is neither. */
export function fromText(text: string, fileName: string): Project | null {
    let root: Json;
    try {
        root = JSON.parse(text) as Json;
    } catch {
        return null;
    }
    if (!isObject(root)) {
        return null;
    }
    const named = typeof root["name"] === "string" ? root["name"] : fileName.replace(/\.json$/i, "");
    const project = fresh(named, "us");
    if ("survey" in root && !isObject(root["survey"])) {
        return { ...project, survey: root };
    }
    if ("case" in root) {
        const survey = root["survey"];
        return { ...project, visit: root, ...(isObject(survey) ? { survey } : {}) };
    }
    if (root["project"] !== FILE_VERSION || !isObject(root["survey"])) {
        return null;
    }
    const { visit, catalogue, files } = root;
    const beside = isObject(files) ? Object.entries(files) : [];
    return {
        ...project,
        files: beside.flatMap(([name, held]) => (typeof held === "string" ? [{ name, blob: new Blob([held]), stamp: Date.now() }] : [])),
        survey: root["survey"],
        visit: isObject(visit) ? visit : project.visit,
        catalogue:
            isObject(catalogue) && typeof catalogue["name"] === "string" && typeof catalogue["text"] === "string"
                ? { name: catalogue["name"], text: catalogue["text"] }
                : null,
    };
}
