/* The parts of diagnose/1, log/1 and listen/1 that the page reads. */
import type { Common } from "../engine/answers";
import type { Figure } from "../parts/reading";
import type { JsonObject } from "../project/json";

export interface Next {
    test: string;
    kind: string;
    minutes: number;
    asks: string;
    how: string | null;
    caution: string | null;
    answers: { answer: string; says: string }[];
}

export interface Diagnosis extends Common {
    dangers: { danger: string; says: string }[];
    causes: { cause: string; probability: number; says: string; because: { evidence: string; answer: string }[] }[];
    known: { evidence: string; from: string; asks: string; says: string }[];
    next: Next[];
    done: boolean;
    remedies: { cause: string; says: string }[];
}

export interface Found extends Common {
    findings: (JsonObject & { says: string })[];
    /** The sheets of it. */
    html: string;
    figures: Figure[];
}
