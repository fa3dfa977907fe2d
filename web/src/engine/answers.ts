/* The parts of JSON answers that the page reads. */
import type { Figure } from "../parts/reading";
import type { Fix, Json, JsonObject } from "../project/json";

export interface Problem {
    severity: string;
    code: string;
    where: string;
    path: string;
    says: string;
    hint: string;
    fix: Fix | null;
}

export interface Assumed {
    what: string;
    value: string;
    why: string;
}

export interface Common {
    problems: Problem[];
    assumed?: Assumed[];
}

export interface Verdict {
    rule: string;
    verdict: "good" | "caution" | "fail" | "unknown";
    says: string;
}

export interface Branch {
    valve: string;
    set_pressure_pa_gauge: number;
}

export interface Station {
    name: string;
    stages: { branches: Branch[] }[];
    verdicts: Verdict[];
    fit: boolean;
}

export interface Design extends Common {
    stations: Station[];
    recommended: number | null;
    no_valve_needed: boolean;
    fit_to_install: boolean;
    reason: string;
    glance: string;
    html: string;
    figures: Figure[];
}

export interface Check extends Common {
    verdicts: Verdict[];
    causes?: { cause: string; says: string }[];
}

export function parsed<T>(text: string): T | null {
    try {
        return JSON.parse(text) as T;
    } catch {
        return null;
    }
}

/** The survey with `station` in place of whatever is there, to be checked. */
export function withStation(survey: JsonObject, station: Station): JsonObject {
    const stages: Json = station.stages.map((stage) => ({
        branches: stage.branches.map((branch) => ({
            valve: branch.valve,
            set_pressure: `${branch.set_pressure_pa_gauge} Pa`,
        })),
    }));
    return { ...survey, existing: { stages } };
}
