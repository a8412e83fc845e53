// Every wire by name, and a wire put in by choosing its ends from lists: the
// whole of the editing without a drawing.
import { html } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { cut, join } from "./act.js";
import { store } from "./store.js";
import { define, View } from "./view.js";

class Wires extends View {
  render() {
    const s = this.state;
    const terms = s.loom?.terms ?? [], runs = s.loom?.runs ?? [];
    const options = terms.map((t, i) => (t.kind === "braid" ? "" : html`<option value=${i}>${t.name}</option>`));
    return html`<details class="wires">
      <summary>The ${runs.length} wires by name</summary>
      <div class="row-of">
        <label>From <select id="from">${options}</select></label>
        <label>to <select id="to">${options}</select></label>
        <button @click=${this.put}>Put in a wire</button>
      </div>
      <ul class="plain">${repeat(runs, (r, i) => `${i} ${terms[r.a].name} ${terms[r.b].name}`, (r, i) => html`<li class=${i === s.run ? "chosen" : ""}>
        <button aria-pressed=${i === s.run} @click=${() => store.set({ run: i === s.run ? -1 : i, armed: -1 })}>${terms[r.a].name} – ${terms[r.b].name}</button>
        <button aria-label=${`Cut ${terms[r.a].name} – ${terms[r.b].name}`} @click=${() => cut(i)}>Cut</button></li>`)}</ul>
    </details>`;
  }

  private put(): void {
    const at = (id: string) => Number(this.querySelector<HTMLSelectElement>(id)!.value);
    void join(at("#from"), at("#to"));
  }
}

define("lw-wires", Wires);
