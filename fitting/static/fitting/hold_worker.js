// Opens the page of a fitting being held where there is no connection. It answers for that page and its static
// files, first by the network, and only where that fails by what `fitting_hold.js` kept, for two days and until
// signing out. Nothing else is kept.

const KEPT = "fittings held";
const HELD = /\/fittings\/\d+\/hold\/$/;
const PART = /^\/static\//;
const PATIENCE = 6_000;
const LONGEST = 2 * 24 * 60 * 60 * 1000;

// What was kept belongs to who was signed in; a page that sends elsewhere says that nobody is any more.
async function fromNetwork(request, isPage) {
  const answer = await fetch(request);
  if (answer.type === "opaqueredirect") await caches.delete(KEPT);
  if (answer.ok && isPage) await (await caches.open(KEPT)).put(new URL(request.url).pathname, answer.clone());
  return answer;
}

async function fromKept(request, isPage) {
  const answer = await caches.match(request, { cacheName: KEPT, ignoreSearch: true });
  if (!answer || !isPage || Date.now() - Date.parse(answer.headers.get("Date")) < LONGEST) return answer;
  await caches.delete(KEPT);
  return undefined;
}

function late(promise) {
  const patience = new Promise((_, reject) => setTimeout(reject, PATIENCE, new Error("no answer in time")));
  return Promise.race([promise, patience]);
}

async function answerTo(request, isPage) {
  const asked = fromNetwork(request, isPage);
  try {
    return await late(asked);
  } catch {
    return (await fromKept(request, isPage)) ?? asked;
  }
}

addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  const isPage = event.request.mode === "navigate" && HELD.test(pathname);
  if (event.request.method !== "GET" || origin !== location.origin || !(isPage || PART.test(pathname))) return;
  event.respondWith(answerTo(event.request, isPage));
});
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
