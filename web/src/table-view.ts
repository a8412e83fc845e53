// The table of settings: the spine. Choosing a row sets the whole page.
import { html, nothing } from "lit";
import { choose } from "./act.js";
import { strip } from "./coils.js";
import { say } from "./habit.js";
import { define, View } from "./view.js";
import type { ElectricsRow, ProofRow, SettingLine } from "./types.gen.js";

const marks: Record<string, [string, string]> = {
  yes: ["✓", "as wanted"], no: ["✗", "not as wanted"], "cannot tell": ["?", "cannot tell"], "–": ["·", "nothing asked"],
};

class Table extends View {
  render() {
    const s = this.state;
    const loom = s.loom;
    if (!loom) return nothing;
    const rows = loom.settings ?? [];
    if (rows.length === 0) return html`<p>The table appears when the text can be read. What is in the way stands below.</p>`;
    const lines = loom.lines ?? [];
    const figures = s.levels?.settings ?? loom.figures ?? [];
    return html`
      ${s.readable ? nothing : html`<p class="stale">The text cannot be read at the moment: this table is of the last one that could.</p>`}
      <div class="settings" role="grid" aria-busy=${s.checked !== s.text} aria-label="Table of settings: arrow keys choose" @keydown=${this.keys}>
        <div role="row" class="heads">
          <span role="columnheader"><span class="spoken">wanted</span></span><span role="columnheader">setting and sound</span>
          <span role="columnheader">level</span><span role="columnheader">bright</span><span role="columnheader">hum</span>
        </div>
        ${rows.map((r, i) => this.row(r, lines[i], figures[i], i))}
      </div>
      ${s.reference ? html`<p class="foot">“There”: ${s.compared?.title || s.reference.name}. Its levels are over the same, and the differences stand in words above the curve.</p>` : nothing}
      ${loom.over && figures.length ? html`<p class="foot">Level in dB over ${loom.over}, A-weighted, strings plucked. Bright: what of it lies above 2 kHz, in dB.</p>` : nothing}`;
  }

  private row(r: ProofRow, line: SettingLine, f: ElectricsRow | undefined, i: number) {
    const chosen = i === this.state.chosen;
    const [sign, word] = marks[line?.Wanted] ?? marks["–"];
    const sounding = f?.output === "sounding";
    const beside = this.state.reference ? this.state.compared?.lines?.[i] : undefined;
    const there = beside?.other && beside.row.output === "sounding" ? beside.row : undefined;
    const count = this.state.findings.filter((d) => d.severity !== "info" && d.settings?.includes(r.name)).length;
    return html`<div role="row" class="row" aria-selected=${chosen} tabindex=${chosen ? 0 : -1} data-row=${i} @click=${() => choose(i)}>
      <span role="gridcell" class="met met-${sign === "✓" ? "yes" : sign === "✗" ? "no" : "open"}"><span aria-hidden="true">${sign}</span><span class="spoken">${word}</span></span>
      <span role="gridcell" class="what"><span class="name">${r.name}</span> <span class="heard">${strip(r.sound)}${line?.Heard ?? r.heard}</span>
        ${count ? html`<span class="count">${count} ${count === 1 ? "finding" : "findings"}</span>` : nothing}
        ${beside && (beside.other !== r.name || beside.heard !== line?.Heard) ? html`<span class="there heard">there ${beside.other || "no such setting"}${beside.heard ? html`: ${say(beside.heard)}` : nothing}</span>` : nothing}
        ${chosen ? this.more(r, line) : nothing}</span>
      <span role="gridcell" class="num">${sounding ? signed(f.level) : "–"}${sounding ? bar(f.level) : nothing}${sounding && there ? html`<span class="there">there ${signed(f.level + there.level)}</span>` : nothing}</span>
      <span role="gridcell" class="num">${sounding ? plain(f.brightness) : "–"}${there ? html`<span class="there">${plain(there.brightness)}</span>` : nothing}</span>
      <span role="gridcell" class="hum">${r.hum || "–"}${beside?.hum ? html`<span class="there">there ${beside.hum}</span>` : nothing}</span>
    </div>`;
  }

  private more(r: ProofRow, line: SettingLine) {
    const bits: [string, string][] = [["phase", r.phase], ["knobs that act", line?.Knobs ?? ""], ["on the way to the next", line?.Travel ?? ""],
      ["shorted", (r.shorted ?? []).join(", ")], ["hanging on hot", (r.hanging ?? []).join(", ")],
      ["wanted", r.wanted && r.wanted.met !== "yes" ? r.wanted.sound + (r.wanted.why ? `: ${r.wanted.why}` : "") : ""]];
    return html`<span class="more">${bits.filter(([, v]) => v).map(([k, v]) => html`<span><i>${k}</i> ${say(v)}</span>`)}</span>`;
  }

  private keys(e: KeyboardEvent): void {
    const rows = this.state.loom?.settings?.length ?? 0;
    const to = { ArrowDown: this.state.chosen + 1, ArrowUp: this.state.chosen - 1, Home: 0, End: rows - 1 }[e.key];
    if (to === undefined) return;
    e.preventDefault();
    choose(Math.min(Math.max(to, 0), rows - 1));
    void this.updateComplete.then(() => this.querySelector<HTMLElement>("[aria-selected=true]")?.focus());
  }
}

const plain = (x: number) => x.toFixed(1).replace("-", "−");
const signed = (x: number) => (x < 0 ? "−" : "+") + Math.abs(x).toFixed(1);

/** bar shows a level between −24 and +6 dB as a length. */
function bar(level: number) {
  const w = Math.round(40 * Math.min(Math.max((level + 24) / 30, 0.02), 1));
  return html`<svg class="bar" viewBox="0 0 40 4" width="40" height="4" aria-hidden="true"><path d="M0 2H40"></path><rect width=${w} height="4"></rect></svg>`;
}

define("lw-table", Table);
