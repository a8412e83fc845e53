// The loom file as text. It is the loom: drawing and table are made from it.
import { html } from "lit";
import { live } from "lit/directives/live.js";
import { edit, layOut } from "./act.js";
import { store } from "./store.js";
import { define, View } from "./view.js";

class TextView extends View {
  private top = 0;

  render() {
    const s = this.state;
    const lines = s.text.split("\n");
    const worst = new Map<number, string>();
    for (const d of s.findings) {
      if (d.severity !== "info" && worst.get(d.span.start.line) !== "error") worst.set(d.span.start.line, d.severity);
    }
    const chosen = s.loom?.runs?.[s.run]?.line;
    return html`<section aria-labelledby="text-head">
      <h2 id="text-head">Loom file</h2>
      <div class="box">
        <div class="gutter" aria-hidden="true"><div class="lines">${lines.map((_, i) => html`<span class=${i + 1 === chosen ? "chosen" : ""}>${worst.get(i + 1) === "error" ? "✗" : worst.has(i + 1) ? "!" : i + 1}</span>`)}</div></div>
        <textarea id="loom-text" aria-label="Loom file as text" spellcheck="false" autocomplete="off" autocapitalize="off" wrap="off" .value=${live(s.text)} rows="24"
          @input=${(e: Event) => edit((e.target as HTMLTextAreaElement).value, "typing")} @scroll=${this.scrolled} @click=${this.pointed} @keyup=${this.pointed}></textarea>
      </div>
      <div class="row-of"><button @click=${layOut}>Lay out neatly</button></div>
    </section>`;
  }

  private scrolled(e: Event): void {
    this.top = (e.target as HTMLElement).scrollTop;
    this.querySelector(".gutter")!.scrollTop = this.top;
  }

  /** pointed chooses the wire on the caret's line. */
  private pointed(e: Event): void {
    const t = e.target as HTMLTextAreaElement;
    const line = t.value.slice(0, t.selectionStart).split("\n").length;
    const run = (this.state.loom?.runs ?? []).findIndex((r) => r.line === line);
    if (run !== this.state.run && store.state.text === t.value) store.set({ run });
  }

  /** reveal shows a line, without taking the focus. */
  reveal(line: number): void {
    const t = this.querySelector("textarea");
    if (!t || line < 1) return;
    const before = t.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    const end = t.value.indexOf("\n", before);
    t.setSelectionRange(before, end < 0 ? t.value.length : end);
    t.scrollTop = (line - 4) * parseFloat(getComputedStyle(t).lineHeight);
  }
}

define("lw-text", TextView);
