/* The one test to do next: how, how long, what can hurt, and where to say what it showed. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { useWords } from "../words/words";
import type { Next } from "./diagnosis";

export function NextTest(props: { next: Next; answer: (kind: string, evidence: string, value: string) => void; skip: (evidence: string) => void; plain?: boolean }): JSX.Element {
    const words = useWords();
    const { next } = props;
    const body = (
        <>
            {props.plain !== true && (
                <p class="asks">
                    {next.asks} <span class="summary">{next.minutes} {words.minutes}</span>
                </p>
            )}
            {next.caution !== null && <p class="danger">! {next.caution}</p>}
            {next.how !== null && <p>{next.how}</p>}
            {next.kind !== "ask" && <Timer minutes={next.minutes} />}
            <div class="answers">
                {next.answers.map((each) => (
                    <button type="button" key={each.answer} onClick={() => props.answer(next.kind, next.test, each.answer)}>
                        {each.says}
                    </button>
                ))}
                <button type="button" class="quiet" onClick={() => props.skip(next.test)}>
                    {words.nobodyKnows}
                </button>
            </div>
        </>
    );
    return props.plain === true ? (
        body
    ) : (
        <section class="card next" aria-labelledby="next">
            <h2 id="next">{words.nextTest}</h2>
            {body}
        </section>
    );
}

const SECOND_MS = 1000;
const SECONDS_A_MINUTE = 60;

function Timer(props: { minutes: number }): JSX.Element {
    const words = useWords();
    const [ends, setEnds] = useState<number | null>(null);
    const [now, setNow] = useState(Date.now());
    useEffect(() => {
        if (ends === null) {
            return undefined;
        }
        const ticking = setInterval(() => setNow(Date.now()), SECOND_MS);
        // A dark screen would hide the end; where the phone cannot be kept awake the clock still runs on.
        const awake = navigator.wakeLock?.request("screen").catch(() => undefined);
        return () => {
            clearInterval(ticking);
            void awake?.then((lock) => lock?.release());
        };
    }, [ends]);
    const left = ends === null ? 0 : Math.max(0, Math.round((ends - now) / SECOND_MS));
    const begin = (): void => {
        setNow(Date.now());
        setEnds(Date.now() + props.minutes * SECONDS_A_MINUTE * SECOND_MS);
    };
    return (
        <div class="timer">
            <button type="button" onClick={() => (ends === null ? begin() : setEnds(null))}>
                {ends === null ? words.startTimer : words.stopTimer}
            </button>
            {ends !== null && (
                <output role="timer">
                    {Math.floor(left / SECONDS_A_MINUTE)}:{String(left % SECONDS_A_MINUTE).padStart(2, "0")}
                </output>
            )}
        </div>
    );
}
