/* Keeps the page's files under a name made of their contents, and hands them out without asking the network. */
declare const QUELL_FILES: string[];
declare const QUELL_CACHE: string;

const worker = self as unknown as ServiceWorkerGlobalScope;

worker.addEventListener("install", (event) => {
    event.waitUntil(caches.open(QUELL_CACHE).then((cache) => cache.addAll(QUELL_FILES)));
});

worker.addEventListener("activate", (event) => {
    event.waitUntil(
        caches
            .keys()
            .then((names) => Promise.all(names.filter((name) => name !== QUELL_CACHE && name.startsWith("quell-")).map((name) => caches.delete(name))))
            .then(() => worker.clients.claim()),
    );
});

worker.addEventListener("message", (event) => {
    if (event.data === "use") {
        void worker.skipWaiting();
    }
});

worker.addEventListener("fetch", (event) => {
    const url = new URL(event.request.url);
    if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.includes("/api/")) {
        return;
    }
    event.respondWith(caches.open(QUELL_CACHE).then(async (cache) => (await cache.match(event.request, { ignoreSearch: true })) ?? fetch(event.request)));
});
