// Keeps the drawing on the server by itself, a moment after each change, one message at a time.

const A_MOMENT = 700;
const MOST_AFTER_LEAVING = 60_000; // bytes: browsers send no more for a page that is gone
const SAVED = "All that is drawn is saved";

export class Keeper {
  constructor({ address, token, asOf }, drawing, status, answered) {
    Object.assign(this, { address, token, asOf, drawing, status, answered });
    this.kept = drawing.state;
    // A tablet that is put down may never come back to this page.
    document.addEventListener("visibilitychange", () => document.hidden && this.atOnce());
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

  atOnce() {
    clearTimeout(this.waiting);
    if (this.kept !== this.drawing.state) this.keep();
  }

  // The points of a piece, laid by the server on the line that is printed; null where it cannot.
  async laidOnLine(address, nodes) {
    try {
      const answer = await this.#sent(address, { nodes });
      const said = await answer.json();
      if (answer.ok) return said.nodes;
      this.status.textContent = said.sentence;
    } catch {
      this.status.textContent = "The program does not answer: the points stay where they are.";
    }
    return null;
  }

  #sent(address, given) {
    const headers = { "Content-Type": "application/json", "X-CSRFToken": this.token };
    const body = JSON.stringify(given);
    return fetch(address, { method: "POST", headers, body, keepalive: body.length < MOST_AFTER_LEAVING });
  }

  async keep() {
    if (this.isBusy || this.isStopped) return;
    this.isBusy = true;
    const state = this.drawing.state;
    try {
      const answer = await this.#sent(this.address, { as_of: this.asOf, ...state });
      const said = await answer.json();
      if (answer.ok) {
        this.kept = state;
        this.asOf = said.as_of;
        this.status.textContent = `Saved at ${said.saved_at}`;
        this.status.setAttribute("role", "status");
        this.answered(said);
      } else this.#refused(said.sentence, answer.status === 409);
    } catch {
      this.#refused("Not saved: the program does not answer. It is tried again.", false);
      this.waiting = setTimeout(() => this.keep(), 5 * A_MOMENT);
    }
    this.isBusy = false;
    if (this.drawing.state !== state && !this.isStopped) this.later();
  }

  #refused(sentence, isStopped) {
    this.status.textContent = sentence;
    this.status.setAttribute("role", "alert");
    this.isStopped = isStopped;
  }
}
