/* The drawings of an answer one after another, each as large as the screen: gone through by finger, by keys or by buttons. */

export interface EnlargeWords {
    enlarge: string;
    shut: string;
    before: string;
    next: string;
}

/** Puts a button under every drawing in @p root that shows all of them, that one first. */
export function makeLarge(root: ShadowRoot, words: EnlargeWords): void {
    const figures = [...root.querySelectorAll("figure")];
    for (const figure of figures) {
        const opens = button(words.enlarge, () => show(root, figures, figure, words));
        opens.setAttribute("aria-label", `${words.enlarge}: ${figure.querySelector("figcaption")?.textContent ?? ""}`);
        figure.append(opens);
    }
}

function button(says: string, pressed: () => void): HTMLButtonElement {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = says;
    made.part.add("enlarge");
    made.addEventListener("click", pressed);
    return made;
}

/* The drawings themselves, with their sliders, go there and come back. */
function show(root: ShadowRoot, figures: readonly HTMLElement[], first: HTMLElement, words: EnlargeWords): void {
    const dialog = document.createElement("dialog");
    dialog.part.add("large");
    dialog.setAttribute("aria-label", words.enlarge);
    const row = document.createElement("div");
    row.part.add("large-row");
    const places = figures.map((figure) => {
        const place = document.createComment("");
        figure.replaceWith(place);
        dress(figure, true);
        return place;
    });
    row.append(...figures);
    let at = figures.indexOf(first);
    const turn = (steps: number): void => {
        at = Math.max(0, Math.min(figures.length - 1, at + steps));
        const figure = figures[at];
        if (figure !== undefined) {
            row.scrollLeft = figure.offsetLeft - row.offsetLeft;
        }
        back.disabled = at === 0;
        onward.disabled = at === figures.length - 1;
    };
    const back = button(words.before, () => turn(-1));
    const onward = button(words.next, () => turn(1));
    const tools = document.createElement("p");
    tools.part.add("large-tools");
    tools.append(button(words.shut, () => dialog.close()), ...(figures.length > 1 ? [back, onward] : []));
    row.addEventListener("scrollend", () => {
        at = nearest(row, figures);
        turn(0);
    });
    dialog.addEventListener("keydown", (event) => {
        const steps = event.target instanceof HTMLInputElement ? 0 : event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
        if (steps !== 0) {
            event.preventDefault();
            turn(steps);
        }
    });
    dialog.addEventListener("close", () => {
        places.forEach((place, index) => {
            const figure = figures[index];
            if (figure !== undefined) {
                dress(figure, false);
                place.replaceWith(figure);
            }
        });
        dialog.remove();
        first.querySelector<HTMLElement>("button")?.focus();
    });
    dialog.append(tools, row);
    root.append(dialog);
    dialog.showModal();
    turn(0);
}

/* As large as the screen, without a button to make it so; or as it was. */
function dress(figure: HTMLElement, isLarge: boolean): void {
    figure.part.toggle("large-one", isLarge);
    figure.querySelector("svg")?.part.toggle("large-drawn", isLarge);
    figure.querySelectorAll<HTMLElement>(":scope > button").forEach((each) => (each.hidden = isLarge));
}

function nearest(row: HTMLElement, figures: readonly HTMLElement[]): number {
    const off = (figure: HTMLElement): number => Math.abs(figure.offsetLeft - row.offsetLeft - row.scrollLeft);
    return figures.reduce((best, figure, index) => (off(figure) < off(figures[best] ?? figure) ? index : best), 0);
}
