/* What the page knows of its part for records. */
import type { ComponentType } from "preact";
import type { Descriptions } from "../engine/describe";
import type { Engine } from "../engine/engine";
import type { Project } from "../project/project";
import type { Office } from "./office";

export type RecordsScreen = { name: "records" } | { name: "site" | "conflict" | "save"; id: string } | { name: "visit"; id: string; corrects: string | null };

export interface ScreensProps {
    /** Null where the browser keeps nothing. */
    office: Office | null;
    screen: RecordsScreen;
    descriptions: Descriptions;
    language: string;
    /** What is saved as a visit. */
    project: Project | undefined;
    begin: (project: Project, door: "plan" | "trace") => void;
    link: (site: Project["site"]) => void;
}

export interface RecordsPart {
    open: (engine: Engine, name: string) => Promise<Office | null>;
    Screens: ComponentType<ScreensProps>;
    words: (language: string) => { records: string; recordsSays: string; visit: string; leaves: string };
}

/** The screen of records that an address within the page names; null where it names another one. */
export function recordsScreenOf(hash: string): RecordsScreen | null {
    const found = /^#\/(records|site|conflict|save|visit)(?:\/([\w-]+))?(?:\/([\w-]+))?$/.exec(hash);
    const [, name, id, more] = found ?? [];
    if (name === "records") {
        return { name };
    }
    if (id === undefined || name === undefined) {
        return null;
    }
    return name === "visit" ? { name, id, corrects: more ?? null } : { name: name as "site" | "conflict" | "save", id };
}
