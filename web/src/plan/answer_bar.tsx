/* The answer at the thumb, in one line; it opens the whole. */
import type { JSX } from "preact";
import { useWords } from "../words/words";
import type { Answering } from "./answering";

export function AnswerBar(props: { answering: Answering; open: boolean; toggle: () => void }): JSX.Element {
    const words = useWords();
    const { design, check, failed, share, stale } = props.answering;
    const worst = check?.verdicts.find((each) => each.verdict === "fail") ?? check?.verdicts.find((each) => each.verdict === "caution");
    return (
        <div class="bar" role="region" aria-label={words.answerShort}>
            <div class={stale ? "glance old" : "glance"} aria-live="polite">
                {design !== null && <p>{design.glance}</p>}
                {design === null && failed === null && share === null && <p>{words.firstThree}</p>}
                {stale && check !== null && (
                    <p class="now">
                        {words.checkedNow}: {worst === undefined ? <b>good</b> : <b>{worst.verdict}</b>} {worst?.says ?? ""}
                    </p>
                )}
                {failed !== null && <p class="now">{failed === "no-memory" ? words.outOfMemory : failed === "broken" ? words.broke : design === null ? words.firstThree : words.cannotAnswer}</p>}
            </div>
            {share !== null && (
                <p class="working">
                    {words.working}, {Math.round(share * 100)} % {stale && words.answerOld}
                    <progress max={1} value={share} aria-label={words.working} />
                </p>
            )}
            {design !== null && (
                <button type="button" class="open" aria-expanded={props.open} onClick={props.toggle}>
                    {props.open ? words.closeAnswer : words.openAnswer}
                </button>
            )}
        </div>
    );
}
