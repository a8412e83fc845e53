// Meter mode: what a meter should show between two terminals in a setting, and
// whether a reading is as it should be.
import { html, nothing } from "lit";
import { choose } from "./act.js";
import { ask, failed } from "./core.js";
import "./fault-view.js";
import { say } from "./habit.js";
import { define, View } from "./view.js";
import type { Measured, MeasuredLine } from "./types.gen.js";

class MeterView extends View {
  private from = -1;
  private to = -1;
  private line?: MeasuredLine;
  private asked = "";
  private shown = "";
  private trouble = "";

  render() {
    const s = this.state;
    const terms = s.loom?.terms ?? [];
    const rows = s.loom?.settings ?? [];
    if (this.from < 0 && terms.length) {
      this.from = Math.max(0, terms.findIndex((t) => t.name.endsWith(".tip")));
      this.to = Math.max(0, terms.findIndex((t) => t.name.endsWith(".sleeve")));
    }
    const pick = (at: number, set: (i: number) => void) => html`<select @change=${(e: Event) => (set(Number((e.target as HTMLSelectElement).value)), this.requestUpdate())}>
      ${terms.map((t, i) => html`<option value=${i} ?selected=${i === at}>${t.name}</option>`)}</select>`;
    return html`<div class="meter">
      <h1>At the meter</h1>
      <lw-fault></lw-fault>
      <h2>Check one reading</h2>
      <p>Unplug the guitar. Set the meter to ohms, all knobs to 10, and hold the probes, not your fingers, to the two places.</p>
      <div class="row-of">
        <label>Setting <select @change=${(e: Event) => choose(Number((e.target as HTMLSelectElement).value))}>
          ${rows.map((r, i) => html`<option value=${i} ?selected=${i === s.chosen}>${r.name}</option>`)}</select></label>
        <label>From ${pick(this.from, (i) => (this.from = i))}</label>
        <label>to ${pick(this.to, (i) => (this.to = i))}</label>
      </div>
      ${this.trouble ? html`<p class="trouble">${this.trouble}</p>` : nothing}
      ${this.line ? this.answer(this.line) : html`<p>Working it out …</p>`}
    </div>`;
  }

  private answer(l: MeasuredLine) {
    return html`<p class="digits"><span class="spoken">The meter shows </span>${l.shown.digits || l.reading.verdict} <span>${l.shown.unit}</span></p>
      <p>${say(l.shown.words)}</p>
      ${l.reading.typical ? html`<p class="foot">It rests on usual values, since yours are not stated: write your pickup's ohms among the parts.</p>` : nothing}
      <label class="reading">What yours shows, in ohms (7.9k, 120, open) <input inputmode="text" autocomplete="off" spellcheck="false" .value=${this.shown}
        @input=${(e: Event) => ((this.shown = (e.target as HTMLInputElement).value), this.requestUpdate())}></label>
      <p class="verdict" role="status">${this.verdict(l)}</p>`;
  }

  private verdict(l: MeasuredLine): string {
    const text = this.shown.trim().toLowerCase();
    if (text === "") return "";
    const open = ["open", "ol", "1.", "none"].includes(text);
    const never = l.reading.verdict === "open" || l.reading.verdict === "blocked";
    if (open) return never ? "✓ As it should be." : "✗ There should be a path here: look for a joint that does not hold, or a broken wire.";
    const m = /^([\d.]+)\s*([km]?)(?:ω|ohms?)?$/.exec(text);
    if (!m || !Number.isFinite(Number(m[1]))) return "Write it as 7.9k, 120 or open.";
    const ohms = Number(m[1]) * ({ k: 1e3, m: 1e6 }[m[2]] ?? 1);
    if (never) return "✗ There should be no path here: look for solder or a whisker of wire between the two.";
    if (ohms < l.shown.loOhms) return "✗ Less than it should be: something lies beside it, or the setting is another one.";
    if (l.shown.hiOhms > 0 && ohms > l.shown.hiOhms) return "✗ More than it should be: a poor joint in the way, or a wire at another place.";
    return "✓ As it should be.";
  }

  protected updated(): void {
    const s = this.state;
    const terms = s.loom?.terms ?? [];
    const row = s.loom?.settings?.[s.chosen];
    const asked = JSON.stringify([s.text, this.from, this.to, row?.name]);
    if (asked === this.asked || !row || !terms[this.from] || !terms[this.to]) return;
    this.asked = asked;
    void ask<Measured>("edit", "ohms", { name: s.name, text: s.text, with: row.name, from: terms[this.from].name, to: terms[this.to].name }, "ohms").then((m) => {
      if (!m) return;
      this.trouble = failed(m) ? m.error : "";
      this.line = failed(m) ? undefined : m.settings?.[0];
      this.requestUpdate();
    });
  }
}

define("lw-meter", MeterView);
