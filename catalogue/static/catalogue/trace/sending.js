// How far a large file has been sent. Without this script the form sends it all the same, and shows nothing.

const form = document.querySelector("main form[enctype='multipart/form-data']");
const shown = document.querySelector("[data-sending]");
const bar = shown.querySelector("progress");
const said = shown.querySelector("[data-said]");
const mb = (bytes) => (bytes / 2 ** 20).toFixed(1);

form.addEventListener("submit", (event) => {
  event.preventDefault();
  const request = new XMLHttpRequest();
  const button = form.querySelector("button.primary");
  const stop = (sentence) => {
    said.textContent = sentence;
    bar.hidden = true;
    button.disabled = false;
  };
  request.upload.addEventListener("progress", ({ loaded, total }) => {
    bar.value = Math.round((100 * loaded) / total);
    said.textContent = loaded < total ? `${mb(loaded)} of ${mb(total)} MB sent` : "Sent; it is being looked at …";
  });
  request.addEventListener("load", () => {
    // The answer to a file that was taken is another page; to one that was not, this form with what is wrong.
    const landed = new URL(request.responseURL);
    if (request.status === 200 && landed.pathname !== location.pathname) location.assign(landed);
    else stop(faultsIn(request));
  });
  request.addEventListener("error", () => stop("The file did not get through: the program does not answer. Send it again."));
  request.open("POST", form.action || location.href);
  request.send(new FormData(form));
  button.disabled = true;
  shown.hidden = bar.hidden = false;
});

function faultsIn(request) {
  const page = new DOMParser().parseFromString(request.responseText, "text/html");
  const faults = [...page.querySelectorAll("main .errorlist li")].map((item) => item.textContent);
  return faults.join(" ") || "The file was not taken. Load this page again, and send it once more.";
}
