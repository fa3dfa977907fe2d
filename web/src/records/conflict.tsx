/* A document that was changed twice: its versions beside one another, field by field, in the engine's words. The choice is a version that
 * comes from all of them. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Problem } from "../engine/answers";
import { TroubleList } from "../parts/inputs";
import type { JsonObject } from "../project/json";
import { differences, settled } from "./differences";
import { Facts, fieldAt, Value } from "./facts";
import { Head } from "./head";
import { WhoAsked } from "./login";
import { day, type Rec } from "./record";
import { bodyOf, useChanges, useDesk, useFound } from "./use";
import { useRecordWords } from "./words";

export function ConflictScreen(props: { document: string }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const changes = useChanges();
    const found = useFound(() => office.versions(props.document), [props.document, changes]);
    const site = found?.heads[0]?.site;
    const links = [{ to: "#/records", says: words.records }, ...(site === undefined ? [] : [{ to: `#/site/${site}`, says: words.site }])];
    return (
        <>
            <Head links={links} title={words.conflict} />
            <main class="records">
                {found !== null && found.heads.length < 2 && (
                    <p class="settled" role="status">
                        {words.settled}
                    </p>
                )}
                {office.who === "" && <WhoAsked />}
                {found !== null && found.heads.length > 1 && office.who !== "" && <Versions key={found.heads.map((each) => each.id).join()} heads={found.heads} base={found.base} />}
            </main>
        </>
    );
}

function Versions(props: { heads: readonly Rec[]; base: Rec | undefined }): JSX.Element {
    const words = useRecordWords();
    const { office, descriptions } = useDesk();
    const { heads } = props;
    const [first] = heads;
    const found = useMemo(() => differences(heads.map((each) => each.body), props.base?.body), [heads, props.base]);
    const [choices, setChoices] = useState<readonly (number | null)[]>(() => found.map((each) => each.changedBy));
    const [problems, setProblems] = useState<readonly Problem[]>([]);
    if (first === undefined) {
        return <></>;
    }
    const { says: name, description, group: root } = bodyOf(descriptions, first.kind);
    const isChosen = choices.every((each) => each !== null);
    const save = async (event: Event): Promise<void> => {
        event.preventDefault();
        const body: JsonObject = settled(first.body, found, choices.map((each) => each ?? 0));
        setProblems(await office.keep([{ kind: first.kind, ...(first.site === undefined ? {} : { site: first.site }), document: first.document ?? "", parents: heads.map((each) => each.id), body }]));
    };
    return (
        <form class="versions" onSubmit={(event) => void save(event)}>
            <p>{words.changedTwiceSays}</p>
            <p>{found.length === 0 ? words.same : words.chooseEach}</p>
            {found.map((each, at) => {
                const { field, says } = fieldAt(description, root, first.body, each.path);
                return (
                    <fieldset class="card" key={each.path}>
                        <legend>{says}</legend>
                        <div class="beside">
                            {heads.map((head, version) => (
                                <label key={head.id} class="version">
                                    <input type="radio" name={`choice-${at}`} required checked={choices[at] === version} onChange={() => setChoices(choices.map((choice, which) => (which === at ? version : choice)))} />
                                    <span>
                                        <span class="summary">{words.by(head.who, day(head.at))}</span>
                                        {each.values[version] === undefined ? words.notThere : <Value description={description} field={field} value={each.values[version]} />}
                                    </span>
                                </label>
                            ))}
                        </div>
                    </fieldset>
                );
            })}
            <div role="alert">
                <TroubleList troubles={problems.map((each) => ({ warns: false, text: each.says, hint: each.hint, mend: null }))} />
            </div>
            <button type="submit" class="keep-chosen" disabled={!isChosen}>
                {words.keepChosen}
            </button>
            <details class="inner">
                <summary>{name}</summary>
                <Facts description={description} group={root} value={first.body} />
            </details>
        </form>
    );
}
