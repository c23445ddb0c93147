// Quick hands: every page works without this file.

// Enter goes down a column of boxes, then to the top of the next; from the last box it reaches the button.
document.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key !== "Enter" || !box.matches("table.readings input:not([type=submit])")) return;
  event.preventDefault();
  const table = box.closest("table");
  const columns = new Map();
  for (const cell of table.querySelectorAll("tbody :is(td, th)")) {
    // A cell may hold a second box, as for a take-up: those are a column of their own, after the first.
    cell.querySelectorAll("input:not([type=hidden], [type=submit]), select").forEach((other, place) => {
      if (!other.getClientRects().length) return;
      const key = cell.cellIndex * 10 + place;
      if (!columns.has(key)) columns.set(key, []);
      columns.get(key).push(other);
    });
  }
  const way = [...columns.keys()].sort((a, b) => a - b).flatMap((key) => columns.get(key));
  const next = way[way.indexOf(box) + (event.shiftKey ? -1 : 1)] || box.form?.querySelector("button:not([type=button])");
  next?.focus();
  next?.select?.();
});

// An open menu closes on Escape and on a click elsewhere.
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
