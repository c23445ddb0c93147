// What a step would do, shown again while it is said. Without this file there is a button for it.

const form = document.querySelector("[data-step]");
const outcome = document.querySelector("#outcome");
const WAIT = 500;
let waits, asked;

async function show() {
  asked?.abort();
  asked = new AbortController();
  const typed = new FormData(form);
  typed.set("show", "1");
  try {
    const answer = await fetch(form.action, { method: "POST", body: typed, signal: asked.signal });
    if (!answer.ok) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    outcome.replaceChildren(...page.querySelector("#outcome").childNodes);
  } catch {
    // A later one is on its way, or nobody answers: what was shown last stays.
  }
}

form.addEventListener("input", () => {
  clearTimeout(waits);
  waits = setTimeout(show, WAIT);
});
// Boxes that come filled can be shown at once.
if (form.hasAttribute("data-filled")) show();
