/* The engine's description of its documents, for forms. An engine says the same each time, so what it said is kept: the questions
 * are there before the engine is, and it has the answer alone to work at. */
import { parsed } from "./answers";
import { Description, type Described } from "./description";
import type { Engine } from "./engine";
import type { Store } from "../project/store";

/** Another one for every engine. */
declare const QUELL_ENGINE: string;

export interface Descriptions {
    survey: Description;
    visit: Description;
    record: Description;
}

async function toldBy(engine: Engine, store: Store, language: string): Promise<string> {
    const place = `description-${language}`;
    const kept = await store.setting(place);
    if (kept?.startsWith(QUELL_ENGINE) === true) {
        return kept.slice(QUELL_ENGINE.length);
    }
    const reply = await engine.quick.ask({ verb: "describe", form: "json", language }, {});
    if (reply.status === "ok") {
        void store.set(place, QUELL_ENGINE + reply.text);
    }
    return reply.text;
}

export async function describe(engine: Engine, store: Store, language: string): Promise<Descriptions> {
    const told = parsed<Described>(await toldBy(engine, store, language)) ?? { documents: [], kinds: [], words: {}, not_in_schema: [] };
    return { survey: new Description(told, "survey"), visit: new Description(told, "case"), record: new Description(told, "record") };
}
