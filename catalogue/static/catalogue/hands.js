// Quick hands: every page works without this file.

const BOX = "input:not([type=hidden], [type=checkbox], [type=radio])";

// The column a box stands in, and which of its cell's boxes it is: a reading, the take-up below it.
function place(box) {
  const cell = box.closest("td, th");
  let column = 0;
  for (let before = cell.previousElementSibling; before; before = before.previousElementSibling) {
    column += before.colSpan;
  }
  return column * 100 + [...cell.querySelectorAll(BOX)].indexOf(box);
}

// Enter goes down a column of boxes, then to the top of the next; from the last box it reaches the button.
document.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key !== "Enter" || !box.matches(`table.readings ${BOX}`)) return;
  event.preventDefault();
  const boxes = [...box.closest("table").querySelectorAll(`tbody ${BOX}, tfoot ${BOX}`)];
  const shown = boxes.filter((other) => other.getClientRects().length);
  // The sort keeps the order of rows within a place.
  const way = shown.sort((one, other) => place(one) - place(other));
  const next = way[way.indexOf(box) + (event.shiftKey ? -1 : 1)];
  // A table that saves by itself has no form, and no button to go on to.
  const button = box.form?.querySelector("button.after-boxes, button.primary") ?? box.form?.querySelector("button");
  (next ?? button ?? box).focus();
  next?.select();
});

// An open menu closes on Escape, and on a click elsewhere.
document.addEventListener("keydown", (event) => {
  const menu = document.querySelector("details.menu[open]");
  if (event.key !== "Escape" || !menu) return;
  menu.open = false;
  menu.querySelector("summary").focus();
});
document.addEventListener("click", (event) => {
  const menu = document.querySelector("details.menu[open]");
  if (menu && !menu.contains(event.target)) menu.open = false;
});

// Whoever signs out leaves nothing behind that opens without a connection.
document.addEventListener("submit", async (event) => {
  if (!event.target.matches("form[data-forgets]") || !window.caches) return;
  event.preventDefault();
  for (const name of await caches.keys()) await caches.delete(name);
  event.target.submit();
});

// A workroom is likely where the browser is: a time zone that nobody has chosen yet begins with its own.
for (const box of document.querySelectorAll("[data-time-zone]")) {
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const isOffered = !box.options || [...box.options].some((option) => option.value === here);
  if (!box.value && isOffered) box.value = here;
}
