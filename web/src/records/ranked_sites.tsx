/* Sites in the order of the callbacks that are to be expected, each with why, and how earlier chances did. */
import type { JSX } from "preact";
import type { Row } from "./shelf";
import { useDesk, useFound } from "./use";
import { useRecordWords } from "./words";

export function RankedSites(props: { among: readonly Row[]; most: number; more: () => void }): JSX.Element {
    const words = useRecordWords();
    const { office, language } = useDesk();
    const found = useFound(async () => ({ ranked: await office.rank() }), [language, office.exchanged]);
    if (found === null) {
        return <p role="status">{words.working}</p>;
    }
    if (found.ranked === null) {
        return <p role="status">{words.noRank}</p>;
    }
    const { day, ranking } = found.ranked;
    const among = new Set(props.among.map((row) => row.site));
    const sites = ranking.sites.filter((each) => among.has(each.site));
    const { says, groups } = ranking.calibration;
    return (
        <>
            <p>{words.rankedOn(day)}</p>
            {sites.length === 0 && <p>{words.noneFound}</p>}
            <ol class="sites ranked">
                {sites.slice(0, props.most).map((each) => (
                    <li key={each.site}>
                        <a href={`#/site/${each.site}`}>{each.name === "" ? each.site : each.name}</a>
                        <span class="why">{each.says.join(" ")}</span>
                    </li>
                ))}
            </ol>
            {sites.length > props.most && (
                <button type="button" class="more-sites" onClick={props.more}>
                    {words.moreSites}
                </button>
            )}
            {ranking.without_station > 0 && <p>{words.unranked(ranking.without_station)}</p>}
            {says.length > 0 && (
                <section class="calibration" aria-labelledby="calibration">
                    <h3 id="calibration">{words.chances}</h3>
                    <p>{says.join(" ")}</p>
                    <ul>
                        {groups.map((group, at) => (
                            <li key={at}>{group.says.join(" ")}</li>
                        ))}
                    </ul>
                </section>
            )}
        </>
    );
}
