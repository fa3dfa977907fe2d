/* The records as screens see them: drawn anew whenever they change. */
import { createContext } from "preact";
import { useContext, useEffect, useState } from "preact/hooks";
import type { Descriptions } from "../engine/describe";
import type { Description, Group } from "../engine/description";
import type { Office } from "./office";

export interface Desk {
    office: Office;
    descriptions: Descriptions;
    language: string;
    /** In which people here read gauges. */
    units: "us" | "si";
}

export const DeskContext = createContext<Desk | null>(null);

export function useDesk(): Desk {
    const desk = useContext(DeskContext);
    if (desk === null) {
        throw new Error("a screen of records outside its provider");
    }
    return desk;
}

/** Counts the changes of the records. */
export function useChanges(): number {
    const { office } = useDesk();
    const [changes, setChanges] = useState(0);
    useEffect(() => office.listen(() => setChanges((before) => before + 1)), [office]);
    return changes;
}

/** What `find` found last, null before that; found anew with `keys`. */
export function useFound<T>(find: () => Promise<T>, keys: readonly unknown[]): T | null {
    const [found, setFound] = useState<{ value: T } | null>(null);
    useEffect(() => {
        let current = true;
        void find().then((value) => {
            if (current) {
                setFound({ value });
            }
        });
        return () => {
            current = false;
        };
    }, keys);
    return found?.value ?? null;
}

/** What the body of a record of `kind` is called, and where its fields are described. */
export function bodyOf(descriptions: Descriptions, kind: string): { says: string; description: Description; group: Group | undefined } {
    const body = descriptions.record.body(kind);
    const holds = body?.holds ?? "";
    const found = [descriptions.record, descriptions.visit, descriptions.survey].find((each) => each.named(holds) !== undefined);
    return { says: body?.says ?? kind, description: found ?? descriptions.record, group: found?.named(holds) };
}
