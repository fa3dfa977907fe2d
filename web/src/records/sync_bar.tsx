/* How this device stands with the office: what waits, who is logged in, and what the office did not take. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { download } from "../parts/download";
import { fromExport, toExport } from "./backup";
import { Login, NameAsked } from "./login";
import { day } from "./record";
import { useDesk } from "./use";
import { useRecordWords } from "./words";

export function SyncBar(): JSX.Element {
    const words = useRecordWords();
    const { office, language } = useDesk();
    const { state, waiting } = office;
    const refused = waiting.filter((each) => each.refused !== undefined);
    const records = waiting.filter((each) => each.record !== undefined).length;
    const says = { done: words.done, working: words.working, offline: words.offline, login: words.login, later: words.busy, full: words.full, none: "" }[state];
    return (
        <section class="card sync" aria-labelledby="sync">
            <h2 id="sync">{words.office}</h2>
            <p class="waits" role="status">
                {waiting.length === 0 ? words.waitsNone : waiting.length === 1 ? words.waitsOne : words.waits(waiting.length)}
            </p>
            <p class="state" role="status">
                {says}
            </p>
            {refused.length > 0 && (
                <div class="troubles">
                    <p>{words.refused}</p>
                    <ul>
                        {refused.map((each) => (
                            <li key={each.turn}>
                                {each.record === undefined ? "" : `${words.by(each.record.who, day(each.record.at))}: `}
                                {each.refused?.says}
                            </li>
                        ))}
                    </ul>
                </div>
            )}
            {state === "login" && <Login />}
            {state !== "login" && office.who === "" && !office.needsLogin && <NameAsked />}
            <details class="inner">
                <summary>{words.officeMore}</summary>
                {office.exchanged !== "" && (
                    <p>
                        {words.last}: <time dateTime={office.exchanged}>{new Date(office.exchanged).toLocaleString(language)}</time>
                    </p>
                )}
                <button type="button" class="exchange-now" disabled={state === "working"} onClick={() => void office.exchange()}>
                    {words.exchange}
                </button>
                {office.who !== "" && (
                    <p class="who">
                        {office.needsLogin ? `${words.loggedIn} ${office.who} ` : `${words.name}: ${office.who} `}
                        {office.needsLogin && state !== "login" && (
                            <button type="button" class="quiet" onClick={() => void office.logout()}>
                                {words.logOut}
                            </button>
                        )}
                    </p>
                )}
                <QueueFile records={records} />
            </details>
        </section>
    );
}

/** What waits as a file, and such a file read back. */
function QueueFile(props: { records: number }): JSX.Element {
    const words = useRecordWords();
    const { office } = useDesk();
    const [says, setSays] = useState("");
    const save = async (): Promise<void> => {
        const { records, files } = await office.queue();
        const attached = await Promise.all(files.map(async ({ sha256, blob }) => ({ sha256, bytes: new Uint8Array(await blob.arrayBuffer()) })));
        download(new Blob([toExport(records, attached)], { type: "application/json" }), `records-${day(new Date().toISOString())}.json`);
    };
    const read = async (file: File | undefined): Promise<void> => {
        if (file !== undefined) {
            const found = fromExport(await file.text());
            setSays(found === null ? words.notQueue : words.readBack(await office.restore(found.records, found.attached)));
        }
    };
    return (
        <>
            <p>{words.saveQueueSays}</p>
            <button type="button" class="save-queue" disabled={props.records === 0} onClick={() => void save()}>
                {words.saveQueue}
            </button>
            <label class="door read-queue">
                {words.readQueue}
                <input type="file" accept=".json,application/json" onChange={(event) => void read(event.currentTarget.files?.[0])} />
            </label>
            <p class="read-back" role="status">
                {says}
            </p>
        </>
    );
}
