/* What is kept of one job. A project's file is the promise; the browser's store is a convenience. */
import { isObject, type Json, type JsonObject } from "./json";

export interface Project {
    id: string;
    name: string;
    changed: number;
    survey: JsonObject;
    visit: JsonObject;
    /** Catalogue of valves that was opened for it; none = the generic one. */
    catalogue: { name: string; text: string } | null;
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

export function toFile(project: Project): Blob {
    const { name, survey, visit, catalogue } = project;
    const text = JSON.stringify({ project: FILE_VERSION, name, survey, visit, catalogue }, null, 2);
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
    const { visit, catalogue } = root;
    return {
        ...project,
        survey: root["survey"],
        visit: isObject(visit) ? visit : project.visit,
        catalogue:
            isObject(catalogue) && typeof catalogue["name"] === "string" && typeof catalogue["text"] === "string"
                ? { name: catalogue["name"], text: catalogue["text"] }
                : null,
    };
}
