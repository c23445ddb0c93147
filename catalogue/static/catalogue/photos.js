// Sends photographs one after another and shows how far it is. Without this file the form sends them at once.

const form = document.querySelector("form:has(input[type=file][multiple])");
const box = form?.querySelector("input[type=file]");

function sendOne(file, told) {
  const data = new FormData(form);
  data.delete(box.name);
  data.append(box.name, file);
  return new Promise((done) => {
    const request = new XMLHttpRequest();
    request.open("POST", form.action || location.href);
    request.setRequestHeader("Accept", "application/json");
    request.upload.addEventListener("progress", (event) => {
      if (event.lengthComputable) told(event.loaded / event.total);
    });
    request.addEventListener("loadend", () => {
      try {
        done(JSON.parse(request.responseText));
      } catch {
        done({ kept: 0, refused: [`${file.name}: not sent. Try it again.`] });
      }
    });
    request.send(data);
  });
}

async function sendAll(files) {
  const shown = document.createElement("div");
  shown.className = "sheet sending";
  shown.setAttribute("role", "status");
  const words = shown.appendChild(document.createElement("p"));
  const bar = shown.appendChild(document.createElement("progress"));
  bar.max = files.length;
  bar.setAttribute("aria-label", "Photographs sent");
  form.before(shown);
  form.hidden = true;
  const refused = [];
  let kept = 0;
  for (const [number, file] of files.entries()) {
    words.textContent = `Sending ${number + 1} of ${files.length}: ${file.name}`;
    const answer = await sendOne(file, (share) => (bar.value = number + share));
    kept += answer.kept;
    refused.push(...answer.refused);
  }
  if (!refused.length) {
    location.assign(form.dataset.then);
    return;
  }
  bar.remove();
  words.textContent = `${kept} of ${files.length} kept. Not kept:`;
  const list = shown.appendChild(document.createElement("ul"));
  for (const sentence of refused) list.appendChild(document.createElement("li")).textContent = sentence;
  form.hidden = false;
  box.value = "";
}

form?.addEventListener("submit", (event) => {
  if (!box.files.length) return;
  event.preventDefault();
  sendAll([...box.files]);
});
