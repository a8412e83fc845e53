// The knobs, turned: table and curve follow.
import { html, nothing } from "lit";
import { turn } from "./act.js";
import { define, View } from "./view.js";
import type { OpenKnob } from "./types.gen.js";

class Knobs extends View {
  render() {
    const knobs = this.state.loom?.knobs ?? [];
    if (knobs.length === 0) return nothing;
    const acting = new Set((this.state.loom?.settings?.[this.state.chosen]?.knobs ?? []).map((k) => k.knob));
    const moved = Object.keys(this.state.knobs).length > 0;
    return html`<section aria-labelledby="knobs-head">
      <h2 id="knobs-head">Knobs</h2>
      <div class="knobs">${knobs.map((k) => this.knob(k, acting.has(k.name)))}</div>
      ${moved ? html`<button @click=${() => knobs.forEach((k) => turn(k.name, k.rest, k.rest))}>All back where they rest</button>` : nothing}
    </section>`;
  }

  private knob(k: OpenKnob, acts: boolean) {
    const at = this.state.knobs[k.name] ?? k.rest;
    const angle = (-135 + at * 27) * (Math.PI / 180);
    return html`<label class="knob">
      <svg viewBox="-12 -12 24 24" width="40" height="40" aria-hidden="true"><circle r="10"></circle><path d="M0 0L${(9 * Math.sin(angle)).toFixed(2)} ${(-9 * Math.cos(angle)).toFixed(2)}"></path></svg>
      <span class="knob-name">${k.name}${acts ? nothing : html` <i>idle here</i>`}</span>
      <input type="range" min="0" max="10" step="0.1" .value=${String(at)} aria-valuetext=${at.toFixed(1)}
        @input=${(e: Event) => turn(k.name, Number((e.target as HTMLInputElement).value), k.rest)}>
      <output>${at.toFixed(1)}</output>
    </label>`;
  }
}

define("lw-knobs", Knobs);
