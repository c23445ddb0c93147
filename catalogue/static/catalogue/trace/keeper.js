// Keeps the drawing on the server by itself, a moment after each change, one message at a time.

const A_MOMENT = 700;
const SAVED = "All that is drawn is saved";

export class Keeper {
  constructor({ address, token, asOf }, drawing, status, answered) {
    Object.assign(this, { address, token, asOf, drawing, status, answered });
    this.kept = drawing.state;
    drawing.addEventListener("changed", () => this.later());
    addEventListener("beforeunload", (event) => {
      if (this.kept !== drawing.state) event.preventDefault();
    });
  }

  later() {
    clearTimeout(this.waiting);
    if (this.kept === this.drawing.state) {
      this.status.textContent = SAVED;
      return;
    }
    this.status.textContent = "Not saved yet …";
    this.waiting = setTimeout(() => this.keep(), A_MOMENT);
  }

  async keep() {
    if (this.isBusy || this.isStopped) return;
    this.isBusy = true;
    const state = this.drawing.state;
    try {
      const answer = await fetch(this.address, {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-CSRFToken": this.token },
        body: JSON.stringify({ as_of: this.asOf, ...state }),
      });
      const said = await answer.json();
      if (answer.ok) {
        this.kept = state;
        this.asOf = said.as_of;
        this.status.textContent = `Saved at ${said.saved_at}`;
        this.answered(said);
      } else this.#refused(said.sentence, answer.status === 409);
    } catch {
      this.#refused("Not saved: the program does not answer. It is tried again.", false);
      this.waiting = setTimeout(() => this.keep(), 5 * A_MOMENT);
    }
    this.isBusy = false;
    if (this.kept !== this.drawing.state && !this.isStopped) this.later();
  }

  #refused(sentence, isStopped) {
    this.status.textContent = sentence;
    this.status.setAttribute("role", "alert");
    this.isStopped = isStopped;
  }
}
