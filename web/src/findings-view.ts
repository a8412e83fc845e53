// What is wrong, each pointing to its wire, its line and its settings.
import { html, nothing } from "lit";
import { choose } from "./act.js";
import { say } from "./habit.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { DiagDiagnostic } from "./types.gen.js";

const signs: Record<string, string> = { error: "✗", warning: "!", info: "i" };
const usual = new Set(["ground-loop", "throw-unused"]);

class Findings extends View {
  private all = false;

  render() {
    const s = this.state;
    const list = s.findings.filter((d) => this.all || !usual.has(d.code));
    const hidden = s.findings.length - list.length;
    return html`<section aria-labelledby="findings-head">
      <h2 id="findings-head">Findings</h2>
      ${s.findings.length === 0 && s.checked !== s.text ? html`<p>Looking for what is wrong …</p>` : list.length === 0 ? html`<p class="fine">✓ Nothing is wrong with this loom.</p>` : html`<ul class="findings">${list.map((d) => this.one(d))}</ul>`}
      ${s.loom?.runs?.length === 0 && s.readable ? html`<p class="hint">No wire yet. In the drawing, tap a terminal and then another one: that is a wire.</p>` : nothing}
      ${hidden || this.all ? html`<button @click=${() => ((this.all = !this.all), this.requestUpdate())}>${this.all ? "Leave out what is normal in a guitar" : `${hidden} more that are normal in a guitar`}</button>` : nothing}
    </section>`;
  }

  private one(d: DiagDiagnostic) {
    const here = about(d);
    return html`<li class="${d.severity} ${here ? "chosen" : ""}">
      <button class="finding" @click=${() => show(d)}><span class="sign" aria-hidden="true">${signs[d.severity]}</span><span><strong>${d.severity}</strong> ${say(d.message)}
        ${here ? html`<em class="where">on the chosen wire</em>` : nothing}
        ${d.span.start.line ? html`<span class="where">line ${d.span.start.line}</span>` : nothing}</span></button>
      ${d.hint ? html`<code>${d.hint}</code>` : nothing}
    </li>`;
  }
}

const linesOf = (d: DiagDiagnostic): number[] => [d.span, ...(d.related ?? []).map((r) => r.span)].map((sp) => sp.start.line);

/** about reports whether a finding is about the chosen wire. */
export function about(d: DiagDiagnostic): boolean {
  const line = store.state.loom?.runs?.[store.state.run]?.line;
  return line !== undefined && linesOf(d).includes(line);
}

/** show leads to the finding: its setting, its wire, its line. */
export function show(d: DiagDiagnostic): void {
  const { loom } = store.state;
  const row = (loom?.settings ?? []).findIndex((r) => d.settings?.includes(r.name));
  if (row >= 0) choose(row);
  const lines = linesOf(d);
  const run = (loom?.runs ?? []).findIndex((r) => lines.includes(r.line));
  store.set({ run, says: run >= 0 ? "its wire is marked in the drawing" : "" });
  document.querySelector<HTMLElement & { reveal(line: number): void }>("lw-text")?.reveal(d.span.start.line);
}

define("lw-findings", Findings);
