// Quick hands: every page works without this file.

// Enter goes down a column of boxes, then to the top of the next; from the last box it reaches the button.
document.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key !== "Enter" || !box.matches("table.readings input:not([type=submit])")) return;
  event.preventDefault();
  const table = box.closest("table");
  const columns = new Map();
  for (const other of table.querySelectorAll("tbody input:not([type=hidden], [type=submit]), tbody select")) {
    const cell = other.closest("td, th");
    if (!cell) continue;
    if (!columns.has(cell.cellIndex)) columns.set(cell.cellIndex, []);
    columns.get(cell.cellIndex).push(other);
  }
  const way = [...columns.keys()].sort((a, b) => a - b).flatMap((index) => columns.get(index));
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
