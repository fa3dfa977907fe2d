/* Values read off a drawing of the engine: a slider under it, or a finger on it. What the axes and the curves are comes with
 * the drawing. */

export interface Axis {
    title: string;
    unit: string;
    /** What is shown is SI times this. */
    per_si: number;
    from: number;
    to: number;
    from_px: number;
    to_px: number;
    log: boolean;
    /** Values are days since 1970. */
    day?: boolean;
    names: readonly string[];
}

export interface Series {
    name: string;
    kind: string;
    points: readonly (readonly [number | null, number | null])[];
}

export interface Figure {
    name: string;
    title: string;
    frame: { x: Axis; y: Axis; series: readonly Series[] } | null;
}

const SLIDER_STEPS_AT_MOST = 400;
/* As a gauge is read: whole from two digits on. */
const DIGITS_AT_MOST = 2;
const SHORT_AT_MOST = 100;

const DAY_MS = 86_400_000;
const DATE_LETTERS = 10;

function share(axis: Axis, value: number): number {
    return axis.log ? Math.log(value / axis.from) / Math.log(axis.to / axis.from) : (value - axis.from) / (axis.to - axis.from);
}

function valueAt(axis: Axis, at: number): number {
    return axis.log ? axis.from * (axis.to / axis.from) ** at : axis.from + (axis.to - axis.from) * at;
}

function said(axis: Axis, value: number, language: string): string {
    if (axis.names.length > 0) {
        return axis.names[Math.round(value)] ?? "";
    }
    if (axis.day === true) {
        return new Date(Math.floor(value) * DAY_MS).toISOString().slice(0, DATE_LETTERS);
    }
    const figure = value * axis.per_si;
    const isLong = Math.abs(figure) >= SHORT_AT_MOST;
    const shown = figure.toLocaleString(language, isLong ? { maximumFractionDigits: 0 } : { maximumSignificantDigits: DIGITS_AT_MOST });
    return axis.unit === "" ? shown : `${shown} ${axis.unit}`;
}

/** Where the curve stands at the share @p at of the x axis, as a value of y; undefined where it does not. Between two points it
 * is drawn straight. */
export function readAt(frame: NonNullable<Figure["frame"]>, series: Series, at: number): number | undefined {
    for (let i = 1; i < series.points.length; i++) {
        const [x0, y0] = series.points[i - 1] ?? [null, null];
        const [x1, y1] = series.points[i] ?? [null, null];
        if (x0 === null || y0 === null || x1 === null || y1 === null) {
            continue;
        }
        const from = share(frame.x, x0);
        const to = share(frame.x, x1);
        if (at >= Math.min(from, to) && at <= Math.max(from, to)) {
            const part = from === to ? 1 : (at - from) / (to - from);
            return valueAt(frame.y, share(frame.y, y0) + part * (share(frame.y, y1) - share(frame.y, y0)));
        }
    }
    return undefined;
}

/** What stands at the share @p at, in words: the place, then every curve that has a value there. */
export function reading(frame: NonNullable<Figure["frame"]>, at: number, language: string): string {
    const values = frame.series
        .filter((series) => series.kind === "line")
        .map((series) => ({ name: series.name, y: readAt(frame, series, at) }))
        .filter((each) => each.y !== undefined)
        .map((each) => `${each.name === "" ? "" : `${each.name} `}${said(frame.y, each.y ?? 0, language)}`);
    return `${said(frame.x, valueAt(frame.x, at), language)}: ${values.join("; ")}`;
}

/** The shares of the x axis between which curves are drawn. */
function drawnBetween(frame: NonNullable<Figure["frame"]>): [number, number] {
    const shares = frame.series.filter((series) => series.kind === "line").flatMap((series) => series.points.flatMap(([x, y]) => (x === null || y === null ? [] : [share(frame.x, x)])));
    const within = shares.filter((each) => each >= 0 && each <= 1);
    return [Math.min(...within), Math.max(...within)];
}

/** Puts a slider under every plot with curves in @p root. */
export function makeReadable(root: ShadowRoot, figures: readonly Figure[], language: string, label: string): void {
    for (const figure of figures) {
        const svg = root.getElementById(`${figure.name}-svg`);
        const { frame } = figure;
        if (svg === null || frame === null || !frame.series.some((series) => series.kind === "line")) {
            continue;
        }
        const [first, last] = drawnBetween(frame);
        if (!(first < last)) {
            continue;
        }
        const line = document.createElementNS(svg.namespaceURI, "line");
        line.setAttribute("stroke", "currentColor");
        line.setAttribute("stroke-width", "2");
        line.setAttribute("y1", String(frame.y.from_px));
        line.setAttribute("y2", String(frame.y.to_px));
        const box = document.createElement("p");
        box.part.add("reading");
        const slider = document.createElement("input");
        slider.type = "range";
        slider.part.add("reading-slider");
        slider.max = String(SLIDER_STEPS_AT_MOST);
        slider.setAttribute("aria-label", `${label}: ${figure.title}`);
        const output = document.createElement("output");
        output.part.add("reading-value");
        output.textContent = label;
        const show = (): void => {
            const at = first + (last - first) * (Number(slider.value) / SLIDER_STEPS_AT_MOST);
            const px = String(frame.x.from_px + at * (frame.x.to_px - frame.x.from_px));
            line.setAttribute("x1", px);
            line.setAttribute("x2", px);
            svg.append(line);
            output.textContent = reading(frame, at, language);
            slider.setAttribute("aria-valuetext", output.textContent);
        };
        slider.addEventListener("input", show);
        const touched = (event: PointerEvent): void => {
            if (event.buttons > 0) {
                const place = svg.getBoundingClientRect();
                const width = (svg as unknown as SVGSVGElement).viewBox.baseVal.width;
                const px = ((event.clientX - place.left) / place.width) * width;
                const at = (px - frame.x.from_px) / (frame.x.to_px - frame.x.from_px);
                slider.value = String(((at - first) / (last - first)) * SLIDER_STEPS_AT_MOST);
                show();
            }
        };
        svg.addEventListener("pointerdown", touched);
        svg.addEventListener("pointermove", touched);
        box.append(slider, output);
        svg.closest("figure")?.append(box);
    }
}
