// Holding a fitting where the connection comes and goes: what is tapped is first kept on the telephone, then
// sent. It is sent under a key of its own, so that the server keeps it once however often it arrives. Without
// this file the form works as any other.

const form = document.querySelector("[data-hold]");
const waiting = document.querySelector("[data-waiting]");
const refused = document.querySelector("[data-refused]");
const kept = document.querySelector("[data-kept]");
const AGAIN_AFTER = 15_000;
let sending = false;
let stopped = "";

// crypto.randomUUID is not there on a plain http address in a house's own network.
function newKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

function promised(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

const database = (() => {
  const request = indexedDB.open("fittings", 1);
  request.onupgradeneeded = () => request.result.createObjectStore("seen", { keyPath: "key" });
  return promised(request);
})();

async function store(mode) {
  return (await database).transaction("seen", mode).objectStore("seen");
}
const allSeen = async () => (await promised((await store("readonly")).getAll())).sort((a, b) => a.at - b.at);
const keep = async (seen) => promised((await store("readwrite")).put(seen));
const forget = async (key) => promised((await store("readwrite")).delete(key));

function chosenText(name) {
  return form.querySelector(`[name=${name}]:checked + span`)?.textContent ?? "";
}

function line(list, text) {
  const item = document.createElement("li");
  item.append(text);
  list.append(item);
  return item;
}

function say(text) {
  waiting.hidden = !text;
  waiting.textContent = text;
}

async function tell() {
  const all = await allSeen();
  const open = all.filter((seen) => !seen.faults);
  say(open.length ? `${open.length} waiting to be sent. ${stopped}` : "");
  refused.replaceChildren();
  for (const seen of all.filter((one) => one.faults)) {
    const item = line(refused, `Not kept: ${seen.said}. ${seen.faults.join(" ")} `);
    if (seen.fields.some(([name]) => name === "pictures")) {
      button(item, "Send without photographs", async () => {
        await keep({ ...seen, faults: null, fields: seen.fields.filter(([name]) => name !== "pictures") });
        send();
      });
    }
    button(item, "Throw away", async () => {
      await forget(seen.key);
      tell();
    });
  }
}

function button(item, text, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "small";
  made.textContent = text;
  made.addEventListener("click", act);
  item.append(made, " ");
}

async function sendOne(seen) {
  const data = new FormData();
  for (const [name, value] of seen.fields) data.append(name, value);
  data.set("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
  const answer = await fetch(seen.action, {
    method: "POST",
    body: data,
    headers: { Accept: "application/json" },
    credentials: "same-origin",
  });
  const isOurs = answer.headers.get("Content-Type")?.startsWith("application/json");
  if (isOurs && answer.ok) {
    const said = await answer.json();
    await forget(seen.key);
    if (seen.action === location.pathname) line(kept, said.said);
    return true;
  }
  if (isOurs && answer.status === 422) {
    await keep({ ...seen, faults: (await answer.json()).faults });
    return true;
  }
  stopped =
    answer.status >= 500
      ? "The program cannot take it just now; it is tried again."
      : "You are signed out, or may not write here: sign in in another tab, then load this page again. Nothing is lost.";
  return false;
}

async function send() {
  if (sending) return;
  sending = true;
  stopped = "";
  try {
    for (const seen of await allSeen()) {
      if (!seen.faults && !(await sendOne(seen))) break;
    }
  } catch {
    stopped = "No connection: they are sent by themselves when there is one again.";
  }
  sending = false;
  await tell();
}

form.addEventListener("submit", async (event) => {
  const tapped = event.submitter;
  event.preventDefault();
  const data = new FormData(form, tapped);
  const place = data.get("other_place") || chosenText("place");
  const asked = [...refused.parentElement.querySelectorAll("fieldset.taps")];
  if (!data.get("garment") || !place) {
    const step = asked[data.get("garment") ? 1 : 0];
    step.scrollIntoView({ block: "center" });
    step.querySelector("input").focus();
    say(data.get("garment") ? "Tap the place first." : "Tap the garment first.");
    return;
  }
  const key = newKey();
  data.set("client_key", key);
  const fields = [...data].filter(([name, value]) => name !== "csrfmiddlewaretoken" && !(value instanceof File && !value.size));
  const said = `${chosenText("garment")}, ${place}: ${tapped?.getAttribute("aria-label") ?? tapped?.textContent ?? ""}`;
  await keep({ key, action: location.pathname, fields, said, at: Date.now() });
  for (const radio of form.querySelectorAll("[name=place], [name=side]")) radio.checked = radio.defaultChecked;
  for (const name of ["note", "other_place", "other_amount", "pictures"]) form.elements[name].value = "";
  form.scrollIntoView({ block: "start" });
  await tell();
  send();
});

// From now on this page opens without a connection too; not where the address is plain http, as in a house's
// own network: there browsers allow no worker, and what the page says beforehand stays true.
async function keepPage() {
  if (!navigator.serviceWorker) return;
  await navigator.serviceWorker.register(form.dataset.worker);
  await navigator.serviceWorker.ready;
  const parts = performance.getEntriesByType("resource").map((part) => new URL(part.name));
  const ours = parts.filter((part) => part.origin === location.origin && part.pathname.startsWith("/static/"));
  const kept = await caches.open("fittings held");
  await kept.addAll([...new Set([location.pathname, ...ours.map((part) => part.pathname)])]);
  document.querySelector("[data-opens]").textContent =
    "This page opens on this telephone without a connection too, for two days or until you sign out.";
}

// The next step comes into view by itself.
form.addEventListener("change", ({ target }) => {
  const next = { garment: ".taps-many", place: ".amounts" }[target.name];
  if (next) form.querySelector(next).scrollIntoView({ block: "nearest" });
});
addEventListener("online", send);
document.addEventListener("visibilitychange", () => document.hidden || send());
setInterval(async () => (await allSeen()).some((seen) => !seen.faults) && send(), AGAIN_AFTER);
send();
// Offline nothing can be kept, and what was kept before serves.
keepPage().catch(() => {});
