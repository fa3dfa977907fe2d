/* The engine's description of a document, for forms. */
import { parsed } from "./answers";
import { Description, type Described } from "./description";
import type { Engine } from "./engine";

export interface Descriptions {
    survey: Description;
    visit: Description;
    record: Description;
}

export async function describe(engine: Engine, language: string): Promise<Descriptions> {
    const reply = await engine.quick.ask({ verb: "describe", form: "json", language }, {});
    const told = parsed<Described>(reply.text) ?? { documents: [], kinds: [], words: {}, not_in_schema: [] };
    return { survey: new Description(told, "survey"), visit: new Description(told, "case"), record: new Description(told, "record") };
}
