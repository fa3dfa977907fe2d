/* What documents hold, as `describe` tells it. */
import type { Json } from "../project/json";
import { isObject } from "../project/json";

export type Value = "text" | "word" | "quantity" | "pair" | "whole" | "flag" | "object" | "list" | "own";

export interface Word {
    word: string;
    label: string;
}

export interface Field {
    key: string;
    value: Value;
    label: string;
    meaning: string;
    units: string[];
    because: string | null;
    fallback: string | null;
    obligatory: boolean;
    words: Word[];
    form: string | null;
}

export interface Group {
    /** Where such objects stand: "supply.flow_test[]". */
    path: string;
    title: string;
    fields: Field[];
    /** The key that tells this kind of object from others at the same place; null where there is one kind only. */
    chosenBy: string | null;
}

export class Description {
    constructor(readonly groups: readonly Group[]) {}

    group(path: string): Group | undefined {
        return this.groups.find((each) => each.path === path);
    }

    kinds(path: string): Group[] {
        return this.groups.filter((each) => each.path === path);
    }

    kindOf(kinds: readonly Group[], value: Json): Group | undefined {
        return kinds.find((each) => each.chosenBy === null || (isObject(value) && each.chosenBy in value));
    }
}
