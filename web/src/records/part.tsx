/* The records as a part of the page; the self-contained page, which has no server, is built without (none.ts). */
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { useWords } from "../words/words";
import { ConflictScreen } from "./conflict";
import { Head } from "./head";
import { List } from "./list";
import { Office } from "./office";
import type { RecordsPart, ScreensProps } from "./door";
import { SiteScreen } from "./site";
import { DeskContext } from "./use";
import { VisitScreen } from "./visit";
import { recordLanguages, RecordWordsContext } from "./words";

/* Tried again while something waits, or somebody looks at the records. */
const EXCHANGE_EVERY_MS = 30_000;

function Screens(props: ScreensProps): JSX.Element {
    const { office, screen } = props;
    const words = recordLanguages[props.language] ?? recordLanguages["en"]!;
    const pageWords = useWords();
    office?.speak(props.language, words.full);
    useEffect(() => {
        void office?.exchange();
        const timer = setInterval(() => document.visibilityState === "visible" && void office?.exchange(), EXCHANGE_EVERY_MS);
        return () => clearInterval(timer);
    }, [office]);
    if (office === null) {
        return (
            <>
                <Head links={[{ to: "#/", says: pageWords.back }]} title={words.records} />
                <main class="records">
                    <p>{words.keepsNothing}</p>
                </main>
            </>
        );
    }
    return (
        <RecordWordsContext.Provider value={words}>
            <DeskContext.Provider value={{ office, descriptions: props.descriptions, language: props.language, units: props.language === "en" ? "us" : "si" }}>
                {screen.name === "records" && <List />}
                {screen.name === "site" && <SiteScreen key={screen.id} site={screen.id} begin={props.begin} />}
                {screen.name === "conflict" && <ConflictScreen key={screen.id} document={screen.id} />}
                {screen.name === "visit" && <VisitScreen key={screen.id} site={screen.id} corrects={screen.corrects} project={null} link={props.link} />}
                {screen.name === "save" && props.project !== undefined && <VisitScreen key={screen.id} site={null} corrects={null} project={props.project} link={props.link} />}
            </DeskContext.Provider>
        </RecordWordsContext.Provider>
    );
}

export const part: RecordsPart | null = {
    open: async (engine, name) => {
        const office = await Office.open(engine, name);
        if (office !== null) {
            const exchange = (): void => void office.exchange();
            addEventListener("online", exchange);
            setInterval(() => office.waiting.length > 0 && exchange(), EXCHANGE_EVERY_MS);
            exchange();
        }
        return office;
    },
    Screens,
    words: (language) => recordLanguages[language] ?? recordLanguages["en"]!,
};
