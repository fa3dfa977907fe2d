/* The page without network: a service worker keeps it. An update is offered, never forced. */
export function keepOffline(): void {
    if (!("serviceWorker" in navigator) || location.protocol === "file:") {
        return;
    }
    void navigator.serviceWorker.register("service_worker.js").then((registration) => {
        registration.addEventListener("updatefound", () => {
            const next = registration.installing;
            next?.addEventListener("statechange", () => {
                if (next.state === "installed" && navigator.serviceWorker.controller !== null) {
                    dispatchEvent(new CustomEvent("quell-update", { detail: next }));
                }
            });
        });
    });
}
