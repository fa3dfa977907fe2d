/* A newer version has been fetched: offered, never forced. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { useWords } from "../words/words";

export function UpdateOffer(): JSX.Element {
    const words = useWords();
    const [next, setNext] = useState<ServiceWorker | null>(null);
    useEffect(() => {
        const told = (event: Event): void => setNext((event as CustomEvent<ServiceWorker>).detail);
        addEventListener("quell-update", told);
        return () => removeEventListener("quell-update", told);
    }, []);
    if (next === null) {
        return <></>;
    }
    const use = (): void => {
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
        next.postMessage("use");
    };
    return (
        <div class="update" role="status">
            {words.updateReady}
            <button type="button" onClick={use}>
                {words.updateNow}
            </button>
        </div>
    );
}
