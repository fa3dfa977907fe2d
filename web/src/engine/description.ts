/* What documents hold, as describe/1 tells it. */
import { isObject, type Json } from "../project/json";

export type Value =
    | "version"
    | "text"
    | "word"
    | "name"
    | "word_or_quantity"
    | "quantity"
    | "pair"
    | "whole"
    | "flag"
    | "object"
    | "list"
    | "counts"
    | "mesh"
    | "meter_size"
    | "hours"
    | "hourly"
    | "currency"
    | "texts"
    | "survey"
    | "answers"
    | "measured"
    | "figure"
    | "shares"
    | "id"
    | "ids"
    | "day"
    | "moment"
    | "hash"
    | "case"
    | "body";

export interface Word {
    word: string;
    says: string;
    also?: string[];
    /** Of a kind of pipe. */
    sizes?: { nominal: string }[];
}

export interface Field {
    key: string;
    path: string;
    label: string;
    means: string;
    value: Value;
    kind: string | null;
    takes: string;
    needed: boolean;
    because: string | null;
    default: { text: string; shown: string; why: string } | null;
    /** What holds where nothing is given and there is no default. */
    otherwise: string | null;
    words: Word[];
    /** Which of the tables of words. */
    names: string | null;
    holds: string[];
}

export interface Group {
    id: string;
    path: string;
    name: string;
    keys: Field[];
}

interface Kind {
    kind: string;
    /** The unit that people read it in. */
    us: string;
    si: string;
    units: { unit: string; system: string }[];
}

/** What the body of a record holds, by its kind. */
export interface Body {
    kind: string;
    says: string;
    fact: boolean;
    /** The id of a group, or "survey". */
    holds: string | null;
}

export interface Described {
    documents: { document: string; groups: Group[]; bodies?: Body[] }[];
    /** What holds beside the tables. */
    not_in_schema: { rule: string; keys: string[] }[];
    kinds: Kind[];
    words: Record<string, Word[]>;
}

export class Description {
    private readonly groups: ReadonlyMap<string, Group>;
    private readonly root: Group;
    private readonly fileKeys: ReadonlySet<string>;
    private readonly bodies: readonly Body[];

    constructor(
        private readonly told: Described,
        document: string,
    ) {
        const found = told.documents.find((each) => each.document === document);
        const groups = found?.groups ?? [];
        this.bodies = found?.bodies ?? [];
        this.fileKeys = new Set(told.not_in_schema.filter((each) => each.rule === "file").flatMap((each) => each.keys));
        this.groups = new Map(groups.map((each) => [each.id, each]));
        this.root = groups[0] ?? { id: "", path: "", name: "", keys: [] };
    }

    /** Of "scenarios[0].fixtures[2]": the group of the object there. */
    group(path: string): Group | undefined {
        const place = path.replace(/\[\d+\]/g, "[]");
        return place === "" ? this.root : [...this.groups.values()].find((each) => each.path === place);
    }

    /** Of a record: what its kind is called, and the group of its body. */
    body(kind: string): Body | undefined {
        return this.bodies.find((each) => each.kind === kind);
    }

    named(id: string): Group | undefined {
        return this.groups.get(id);
    }

    /** The kinds of object that `field` holds. */
    kinds(field: Field): Group[] {
        return field.holds.flatMap((id) => this.groups.get(id) ?? []);
    }

    /** Of several kinds at one place each has a key that no other has: "pipe", "meter". */
    chosenBy(kinds: readonly Group[], group: Group): string | null {
        return kinds.length < 2 ? null : (group.keys[0]?.key ?? null);
    }

    kindOf(kinds: readonly Group[], value: Json): Group | undefined {
        return kinds.find((each) => {
            const key = this.chosenBy(kinds, each);
            return key === null || (isObject(value) && key in value);
        });
    }

    /** Whether `field` names a file that must lie beside the document. */
    namesFile(field: Field): boolean {
        return field.value === "text" && this.fileKeys.has(field.key);
    }

    /** All words that `field` takes. */
    words(field: Field): readonly Word[] {
        return field.names === null ? field.words : (this.told.words[field.names] ?? field.words);
    }

    /** Sizes that a pipe named `word` is sold in; none where no pipe is so named. */
    sizes(field: Field, word: Json | undefined): readonly string[] {
        const found = this.words(field).find((each) => each.word === word || each.also?.includes(String(word)) === true);
        return (found?.sizes ?? []).map((each) => each.nominal);
    }

    /** Units of a kind of quantity, that in which people here read it first. */
    units(kind: string | null, system: "us" | "si"): string[] {
        const found = this.told.kinds.find((each) => each.kind === kind);
        if (found === undefined || found.units.length === 0) {
            return [];
        }
        const usual = system === "us" ? found.us : found.si;
        const own = found.units.filter((each) => each.system === system).map((each) => each.unit);
        const other = found.units.filter((each) => each.system !== system).map((each) => each.unit);
        return [...new Set([usual, ...own, ...other])].filter((each) => each !== "");
    }
}
