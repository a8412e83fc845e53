// The parts on the bench: what each is, and what is known of it.
import { html } from "lit";
import { ask, failed } from "./core.js";
import { setPart } from "./act.js";
import { define, View } from "./view.js";
import type { OpenPart, PartLine } from "./types.gen.js";

/** keys are the values that a class of part takes, with an example of each. */
const keys: Record<string, [string, string][]> = {
  pickup: [["ohms", "7.9k"], ["code", ""]],
  pot: [["track", "500k audio"]],
  capacitor: [["value", "22n"]],
  resistor: [["value", "150k"]],
};

class Parts extends View {
  private library?: PartLine[];

  render() {
    const parts = this.state.loom?.parts ?? [];
    return html`<details class="parts" @toggle=${this.opened}>
      <summary>The ${parts.length} parts, and what is known of them</summary>
      ${this.library ? html`<ul class="plain">${parts.map((p) => this.line(p))}</ul>` : html`<p>Reading the library …</p>`}
    </details>`;
  }

  private line(p: OpenPart) {
    const others = (this.library ?? []).filter((l) => l.class === p.class);
    const codes = (this.library ?? []).filter((l) => l.class === "lead code");
    return html`<li class="part-line"><strong>${p.name}</strong>
      <label>is <select @change=${(e: Event) => setPart(p.name, "is", (e.target as HTMLSelectElement).value)}>
        ${others.map((l) => html`<option value=${l.id} ?selected=${l.id === p.is}>${l.name}</option>`)}</select></label>
      ${(keys[p.class] ?? []).map(([k, like]) => html`<label>${k} ${k === "code" ? this.codes(p, codes) : html`<input placeholder=${like ? `as ${like}` : ""} spellcheck="false"
        .value=${this.known(p, k)} @change=${(e: Event) => setPart(p.name, k, (e.target as HTMLInputElement).value.trim())}>`}</label>`)}
    </li>`;
  }

  private codes(p: OpenPart, codes: PartLine[]) {
    const now = this.known(p, "code");
    return html`<select @change=${(e: Event) => setPart(p.name, "code", (e.target as HTMLSelectElement).value)}>
      <option value="" ?selected=${!now}>not known</option>
      ${codes.map((c) => html`<option value=${c.name} ?selected=${c.name === now}>${c.name}</option>`)}</select>`;
  }

  /** known reads a value from the part's line of the text. */
  private known(p: OpenPart, key: string): string {
    const line = this.state.text.split("\n")[p.line - 1] ?? "";
    return new RegExp(`[{,]\\s*${key}:\\s*([^,}]+)`).exec(line)?.[1].trim() ?? "";
  }

  private opened(): void {
    if (this.library) return;
    void ask<PartLine[]>("edit", "parts", {}).then((list) => {
      if (list && !failed(list)) this.library = list;
      this.requestUpdate();
    });
  }
}

define("lw-parts", Parts);
