// The whole page: masthead, what is being done, and the sheets of the bench.
import { html, nothing } from "lit";
import { settle, work } from "./act.js";
import { store, type Mode, type Panel } from "./store.js";
import { define, View } from "./view.js";
import "./masthead.js";
import "./open-view.js";
import "./new-view.js";
import "./table-view.js";
import "./wish-view.js";
import "./find-view.js";
import "./findings-view.js";
import "./knobs-view.js";
import "./drawing-view.js";
import "./wires-view.js";
import "./circuit-view.js";
import "./curve-view.js";
import "./parts-view.js";
import "./text-view.js";
import "./solder-view.js";
import "./meter-view.js";
import { toPaper } from "./export-view.js";

const panels: [Panel, string][] = [["table", "Settings"], ["drawing", "Drawing"], ["curve", "Curve"], ["text", "Text"]];

class App extends View {
  render() {
    const s = this.state;
    document.title = s.loom?.title && s.mode !== "open" ? `${s.loom.title} · Loomwright` : "Loomwright";
    return html`
      <a class="skip" href="#main">Skip to the loom</a>
      <lw-masthead></lw-masthead>
      ${s.newer ? html`<p class="notice">A newer version of this page is here. <button @click=${s.newer}>Use it now</button></p>` : nothing}
      ${s.trouble ? html`<p class="notice trouble" role="alert">${s.trouble} <button @click=${() => store.set({ trouble: "" })}>Put away</button></p>` : nothing}
      ${s.clash ? this.clash() : nothing}
      <p class="spoken" role="status" aria-live="polite">${s.says}</p>
      <main id="main" tabindex="-1">${this.sheet(s.mode)}</main>`;
  }

  private sheet(mode: Mode) {
    switch (mode) {
      case "open": return html`<lw-open></lw-open>`;
      case "new": return html`<lw-new></lw-new>`;
      case "solder": return html`<lw-solder></lw-solder>`;
      case "meter": return html`<lw-meter></lw-meter>`;
      default: return this.bench();
    }
  }

  private bench() {
    const s = this.state;
    if (!s.loom) return html`<p class="lone">Proving the loom …</p>`;
    const shown = s.panel;
    return html`
      <h1>${s.loom.title || s.name || "A loom that cannot be read yet"}</h1>
      ${this.next()}
      <nav class="panels" aria-label="Sheets of the bench">
        ${panels.map(([p, word]) => html`<button aria-pressed=${p === shown} @click=${() => store.set({ panel: p })}>${word}</button>`)}
      </nav>
      <div class="bench" data-shown=${shown}>
        <div class="spine" data-panel="table">
          <lw-table></lw-table>
          <lw-wish></lw-wish>
          <lw-find></lw-find>
          <lw-findings></lw-findings>
        </div>
        <div class="sheet" data-panel="drawing">
          <lw-drawing></lw-drawing>
          <lw-wires></lw-wires>
          <lw-circuit></lw-circuit>
          <lw-cautions></lw-cautions>
        </div>
        <div class="sound" data-panel="curve">
          <lw-knobs></lw-knobs>
          <lw-curve></lw-curve>
        </div>
        <div class="script" data-panel="text">
          <lw-text></lw-text>
          <lw-parts></lw-parts>
          <lw-export></lw-export>
        </div>
      </div>`;
  }

  /** next says what can be done once the wiring is there. */
  private next() {
    const loom = this.state.loom!, rows = (loom.settings ?? []).filter((r) => r.wanted);
    if (!loom.plan.steps?.length || !rows.length || rows.some((r) => r.wanted!.met !== "yes")) return nothing;
    return html`<div class="row-of next"><span>✓ Every wanted sound is heard.</span> <button class="main" @click=${() => work("solder")}>Solder it, step by step</button> <button @click=${toPaper}>Print the sheet</button></div>`;
  }

  private clash() {
    const there = this.state.clash!;
    return html`<section class="notice clash" role="alert" aria-labelledby="clash-head">
      <h2 id="clash-head">This file holds something else by now</h2>
      <p>It was changed elsewhere: by an editor, or in another tab. Nothing is overwritten until you say so.</p>
      <details><summary>What is in the file</summary><pre tabindex="0">${there.text}</pre></details>
      <p><button @click=${() => settle(true)}>Keep mine, and write it over the file</button>
      <button @click=${() => settle(false)}>Take the file's (mine stays in undo)</button></p>
    </section>`;
  }
}

define("lw-app", App);
