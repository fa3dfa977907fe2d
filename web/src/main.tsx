/* Starts the page: its store, its engine, its frame. */
import { render } from "preact";
import { App, projectOf, screenOf } from "./app";
import { part as records } from "page-records";
import { Engine } from "./engine/engine";
import { sources } from "page-sources";
import { Store } from "./project/store";
import { languages } from "./words/words";
import { keepOffline } from "./offline";

declare const QUELL_VERSION: string;
/** Of the self-contained page: every such file has a store of its own. */
declare const QUELL_STORE: string;

async function start(): Promise<void> {
    const engine = new Engine(sources);
    const screen = screenOf(location.hash);
    if (screen.name === "plan") {
        engine.search.standBy();
    }
    const id = projectOf(screen);
    const store = await Store.open(QUELL_STORE);
    const [setting, project] = await Promise.all([store.setting("language"), id === null ? undefined : store.project(id)]);
    const wanted = setting ?? navigator.language.slice(0, 2);
    const language = wanted in languages ? wanted : "en";
    const place = document.getElementById("page");
    if (place !== null) {
        const office = records?.open(engine, `${QUELL_STORE}-records`) ?? Promise.resolve(null);
        render(<App engine={engine} store={store} office={office} project={project} language={language} version={QUELL_VERSION} />, place);
    }
    keepOffline();
}

void start();
