/* All sites: sought by their words, or in the order in which service is due. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { download } from "../parts/download";
import { BodyForm } from "./body_form";
import { Head } from "./head";
import { plain, type DueSite } from "./office";
import { day } from "./record";
import type { Row } from "./shelf";
import { RankedSites } from "./ranked_sites";
import { SyncBar } from "./sync_bar";
import { bodyOf, useChanges, useDesk, useFound } from "./use";
import { useRecordWords } from "./words";
import { useWords } from "../words/words";

const PAGE_AT_MOST = 50;

export function List(): JSX.Element {
    const words = useRecordWords();
    const pageWords = useWords();
    const { office, language } = useDesk();
    const changes = useChanges();
    const [sought, setSought] = useState("");
    const [order, setOrder] = useState("all");
    const [most, setMost] = useState(PAGE_AT_MOST);
    const [adding, setAdding] = useState(false);
    const byDue = order === "due";
    const rows = useMemo(() => [...office.rows].sort((one, other) => one.name.localeCompare(other.name, language) || (one.site < other.site ? -1 : 1)), [office.rows, language]);
    const found = useMemo(() => fitting(rows, sought), [rows, sought]);
    const told = useFound(() => (byDue ? office.due(found) : office.sites(found.slice(0, most))), [found, byDue, most, language, changes]);
    const all = useFound(() => office.due(rows), [rows, language]);
    const sites = (told?.sites ?? []).slice(0, most);
    const total = byDue ? (told?.sites.length ?? 0) : found.length;
    const twice = useFound(() => office.conflicts(), [office.rows]);
    const calendar = async (): Promise<void> => {
        download(new Blob([await office.calendar()], { type: "text/calendar" }), `service-${day(new Date().toISOString())}.ics`);
    };
    return (
        <>
            <Head links={[{ to: "#/", says: pageWords.back }]} title={words.records} />
            <main class="records">
                <SyncBar />
                {twice !== null && twice.length > 0 && (
                    <section class="card danger twice" aria-labelledby="twice">
                        <h2 id="twice">! {words.changedTwice}</h2>
                        <p>{words.changedTwiceSays}</p>
                        <ul>
                            {twice.map(([version]) => (
                                <li key={version?.document}>
                                    <ConflictLink document={version?.document ?? ""} kind={version?.kind ?? "site"} name={office.rows.find((each) => each.site === version?.site)?.name ?? ""} />
                                </li>
                            ))}
                        </ul>
                    </section>
                )}
                <section aria-labelledby="sites">
                    <h2 id="sites" class="counts">
                        {all === null ? words.records : `${all.overdue} ${words.overdueSites}, ${all.soon} ${words.soonSites}`}
                    </h2>
                    <label class="search">
                        {words.search}
                        <input type="search" autocomplete="off" value={sought} onInput={(event) => setSought(event.currentTarget.value)} />
                    </label>
                    <label class="order">
                        {words.shown}{" "}
                        <select value={order} onChange={(event) => setOrder(event.currentTarget.value)}>
                            <option value="all">{words.all}</option>
                            <option value="due">{words.planned}</option>
                            <option value="rank">{words.first}</option>
                        </select>
                    </label>
                    {order === "rank" ? (
                        <RankedSites among={found} most={most} more={() => setMost(most + PAGE_AT_MOST)} />
                    ) : (
                        <>
                            {told !== null && sites.length === 0 && <p>{rows.length === 0 ? words.noSites : words.noneFound}</p>}
                            <ul class="sites">
                                {sites.map((each) => (
                                    <SiteLine key={each.site} site={each} />
                                ))}
                            </ul>
                            {total > most && (
                                <button type="button" class="more-sites" onClick={() => setMost(most + PAGE_AT_MOST)}>
                                    {words.moreSites}
                                </button>
                            )}
                        </>
                    )}
                    {!adding && (
                        <button type="button" class="new-site" onClick={() => setAdding(true)}>
                            {words.newSite}
                        </button>
                    )}
                    {adding && <NewSite done={() => setAdding(false)} />}
                    <div class="tools">
                        <button type="button" onClick={() => print()}>
                            {words.print}
                        </button>
                        <button type="button" class="calendar" onClick={() => void calendar()}>
                            {words.calendar}
                        </button>
                    </div>
                </section>
            </main>
        </>
    );
}

function NewSite(props: { done: () => void }): JSX.Element {
    const { office } = useDesk();
    const site = useMemo(() => crypto.randomUUID(), []);
    return (
        <BodyForm
            kind="site"
            body={{}}
            save={async (body) => {
                const problems = await office.keep([{ kind: "site", site, document: site, body }]);
                if (problems.length === 0) {
                    location.hash = `#/site/${site}`;
                }
                return problems;
            }}
            cancel={props.done}
        />
    );
}

/** Rows with all words of `sought`. */
export function fitting(rows: readonly Row[], sought: string): readonly Row[] {
    const parts = plain(sought).split(/\s+/).filter(Boolean);
    return parts.length === 0 ? rows : rows.filter((row) => parts.every((part) => row.words.includes(part)));
}

function SiteLine(props: { site: DueSite }): JSX.Element {
    const { site } = props;
    return (
        <li>
            <a href={`#/site/${site.site}`}>{site.name === "" ? site.site : site.name}</a>
            <DueSaid site={site} />
        </li>
    );
}

/** When service is due, by word and shape. */
export function DueSaid(props: { site: DueSite }): JSX.Element {
    const words = useRecordWords();
    const { site } = props;
    return (
        <span class={`due ${site.state}`}>
            {site.state === "overdue" && "! "}
            {words[site.state]}
            {site.due !== null && (
                <>
                    {": "}
                    <time dateTime={site.due}>{site.due}</time>
                </>
            )}
            {site.conflicts > 0 && `, ${words.changedTwice.toLowerCase()}`}
        </span>
    );
}

export function ConflictLink(props: { document: string; kind: string; name: string }): JSX.Element {
    const { descriptions } = useDesk();
    return (
        <a href={`#/conflict/${props.document}`}>
            {props.name === "" ? "" : `${props.name}: `}
            {bodyOf(descriptions, props.kind).says}
        </a>
    );
}
