/* The engine's description of a document, for forms. */
import { Description, type Group } from "./description";
import type { Engine } from "./engine";

export async function describe(engine: Engine, what: "survey" | "case", language: string): Promise<Description> {
    const reply = await engine.quick.ask({ verb: "describe", form: "json", of: what, language }, {});
    const told = JSON.parse(reply.text) as { groups: Group[] };
    return new Description(told.groups);
}
