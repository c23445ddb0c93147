// Up and down beside each part; the numbers follow. Without this file the numbers are typed.

const list = document.querySelector("[data-parts]");

function number() {
  [...list.children].forEach((row, at) => {
    row.querySelector("input[type=number]").value = at + 1;
    row.querySelector("[data-up]").disabled = at === 0;
    row.querySelector("[data-down]").disabled = at === list.children.length - 1;
  });
}

function button(row, word, attribute, move) {
  const one = document.createElement("button");
  one.type = "button";
  one.className = "small";
  one.setAttribute(attribute, "");
  one.append(word);
  one.setAttribute("aria-label", `${word}: ${row.querySelector("b").textContent}`);
  one.addEventListener("click", () => {
    move(row);
    number();
    // At either end the button no longer works: the other one takes the focus.
    (one.disabled ? row.querySelector("button:not(:disabled)") : one).focus();
  });
  return one;
}

for (const row of list.children) {
  const buttons = document.createElement("div");
  buttons.className = "buttons";
  buttons.append(
    button(row, "Up", "data-up", (one) => one.previousElementSibling?.before(one)),
    button(row, "Down", "data-down", (one) => one.nextElementSibling?.after(one)),
  );
  row.append(buttons);
}
number();
