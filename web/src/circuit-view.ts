// The circuit diagram of the loom, with its contacts in the chosen setting, or
// only what that setting leaves of it.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { say } from "./habit.js";
import { define, View } from "./view.js";
import type { Circuitry } from "./types.gen.js";

class CircuitView extends View {
  private opened = false;
  private only = false;
  private asked = "";
  private circuit?: Circuitry;
  private trouble = "";

  render() {
    const row = this.state.loom?.settings?.[this.state.chosen];
    return html`<details class="circuit" @toggle=${(e: Event) => ((this.opened = (e.target as HTMLDetailsElement).open), this.requestUpdate())}>
      <summary>Circuit diagram${row ? html` with ${row.name}` : nothing}</summary>
      <div class="row-of"><button aria-pressed=${this.only} @click=${() => ((this.only = !this.only), this.requestUpdate())}>Only what this setting leaves of it</button></div>
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : this.circuit ? nothing : html`<p role="status">Fetching the part that draws it …</p>`}
      <div class="paper diagram" tabindex="0" role="group" aria-label="Circuit diagram; scroll to see all of it"></div>
      ${(this.circuit?.notes ?? []).map((n) => html`<p class="foot">${say(n)}</p>`)}
      <p class="foot">Symbols as in IEC 60617. A dot joins wires that meet; wires that only cross do not touch.</p>
    </details>`;
  }

  protected updated(): void {
    const s = this.state;
    const row = s.loom?.settings?.[s.chosen];
    const now = JSON.stringify([s.text, row?.name, this.only]);
    if (!this.opened || !row || !s.readable || now === this.asked) return;
    this.asked = now;
    void ask<Circuitry>("paper", "circuit", { name: s.name, text: s.text, with: row.name, only: this.only, kind: "inline svg" }, "circuit").then((c) => {
      if (!c) return;
      this.trouble = failed(c) ? c.error : c.svg ? "" : "There is no circuit to draw yet.";
      this.circuit = failed(c) ? undefined : c;
      // Our own painter's text: every title in it is escaped.
      this.querySelector(".diagram")!.innerHTML = this.circuit?.svg ?? "";
      this.querySelector(".diagram svg")?.setAttribute("role", "img");
      this.requestUpdate();
    });
  }
}

define("lw-circuit", CircuitView);
