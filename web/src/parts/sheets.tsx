/* The engine's own sheets, shown as they are: their style stays theirs, in a shadow of the page. */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { useWords } from "../words/words";
import { makeLarge } from "./enlarge";
import { makeReadable, type Figure } from "./reading";

export function Sheets(props: { html: string; figures: readonly Figure[]; language: string; old: boolean; label: string }): JSX.Element {
    const words = useWords();
    const host = useRef<HTMLDivElement>(null);
    useEffect(() => {
        const element = host.current;
        if (element === null) {
            return;
        }
        const root = element.shadowRoot ?? element.attachShadow({ mode: "open" });
        const sheet = new DOMParser().parseFromString(props.html, "text/html");
        const style = document.createElement("style");
        style.textContent = [...sheet.querySelectorAll("style")]
            .map((each) => each.textContent.replace(/\bbody\{/g, ".sheet{"))
            .join("") + "@media screen{.sheet{padding:.5rem!important}.sheet>header{display:none}}";
        const body = document.createElement("div");
        body.className = "sheet";
        // The page has its own main part; what is that of a sheet alone is a part of it here.
        const main = sheet.querySelector("main");
        main?.replaceWith(...main.childNodes);
        body.append(...sheet.body.childNodes);
        body.addEventListener("click", (event) => inside(root, event));
        root.replaceChildren(style, body);
        makeReadable(root, props.figures, props.language, words.readValue);
        makeLarge(root, words);
    }, [props.html]);
    return <div ref={host} class={props.old ? "sheets old" : "sheets"} role="region" aria-label={props.label} />;
}

/* A link within a sheet moves there, not the page's address. */
function inside(root: ShadowRoot, event: Event): void {
    const link = (event.target as Element).closest("a");
    const target = link?.getAttribute("href");
    if (target?.startsWith("#") === true) {
        event.preventDefault();
        const place = root.getElementById(target.slice(1));
        place?.scrollIntoView();
        place?.setAttribute("tabindex", "-1");
        place?.focus();
    }
}
