// Keeps the page's own files, so that a bake goes on when the program does not answer. What
// the program says is never kept: only the newest counts, and the page has its own list.
const cupboard = "maslin page 1";
const files = [
  "/", "/maslin.js", "/maslin.css", "/favicon.svg", "/vollkorn.woff2",
  "/alegreya-sans-400.woff2", "/alegreya-sans-700.woff2",
];

addEventListener("install", (event) => {
  event.waitUntil(caches.open(cupboard).then((kept) => kept.addAll(files)).then(() => skipWaiting()));
});

addEventListener("activate", (event) => {
  event.waitUntil(clients.claim());
});

async function newestElseKept(request) {
  try {
    const answer = await fetch(request);
    if (answer.ok) {
      const kept = await caches.open(cupboard);
      await kept.put(request, answer.clone());
    }
    return answer;
  } catch (error) {
    const kept = await caches.match(request, { ignoreSearch: true });
    if (kept) {
      return kept;
    }
    throw error;
  }
}

addEventListener("fetch", (event) => {
  const { origin, pathname } = new URL(event.request.url);
  if (event.request.method === "GET" && origin === location.origin && files.includes(pathname)) {
    event.respondWith(newestElseKept(event.request));
  }
});
