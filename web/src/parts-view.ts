// The parts on the bench: what each is, and what is known of it.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { exchange, know, own, setPart } from "./act.js";
import { define, View } from "./view.js";
import "./lead-wizard.js";
import "./switch-wizard.js";
import { codesFor } from "./plan.js";
import type { Told } from "./switch-wizard.js";
import type { Choices, LeadNotes, OpenPart, PartLine } from "./types.gen.js";

/** keys are the values that a class of part takes, with an example of each. */
const keys: Record<string, [string, string][]> = {
  pickup: [["ohms", "7.9k"], ["code", ""]],
  pot: [["track", "500k audio"]],
  capacitor: [["value", "22n"]],
  resistor: [["value", "150k"]],
};

class Parts extends View {
  private library?: PartLine[];
  private choices?: Choices;
  private finding?: OpenPart; // with a meter

  render() {
    const parts = this.state.loom?.parts ?? [];
    return html`<details class="parts" @toggle=${this.opened}>
      <summary>The ${parts.length} parts, and what is known of them</summary>
      ${this.finding ? this.wizard(this.finding) : this.library ? html`<ul class="plain">${parts.map((p) => this.line(p))}</ul>` : html`<p>Reading the library …</p>`}
    </details>`;
  }

  private line(p: OpenPart) {
    const others = (this.library ?? []).filter((l) => l.class === p.class);
    const codes = (this.library ?? []).filter((l) => l.class === "lead code");
    return html`<li class="part-line"><strong>${p.name}</strong>
      <label>is <select @change=${(e: Event) => this.put(p, (e.target as HTMLSelectElement).value)}>
        ${others.some((l) => l.id === p.is) ? nothing : html`<option value=${p.is} selected>${p.says}</option>`}
        ${others.map((l) => html`<option value=${l.id} ?selected=${l.id === p.is}>${l.name}</option>`)}</select></label>
      ${(keys[p.class] ?? []).map(([k, like]) => html`<label>${k} ${k === "code" ? this.codes(p, codes) : html`<input placeholder=${like ? `as ${like}` : ""} spellcheck="false"
        .value=${this.known(p, k)} @change=${(e: Event) => setPart(p.name, k, (e.target as HTMLInputElement).value.trim())}>`}</label>`)}
      ${p.class === "pickup" || p.class === "switch" ? html`<button @click=${() => this.find(p)}>Find the ${p.class === "pickup" ? "leads" : "contacts"} of ${p.name} with a meter</button>` : nothing}
    </li>`;
  }

  /** put takes another part; what is wanted of a switch moves along. */
  private put(p: OpenPart, is: string): void {
    void (p.class === "switch" ? exchange(p.name, is, []) : setPart(p.name, "is", is));
  }

  private find(p: OpenPart): void {
    this.finding = p;
    if (this.choices) this.requestUpdate();
    else void ask<Choices>("search", "choices", {}).then((c) => {
      if (c && !failed(c)) this.choices = c;
      this.requestUpdate();
    });
  }

  private wizard(p: OpenPart) {
    const left = () => {
      this.finding = undefined;
      this.requestUpdate();
    };
    if (p.class === "switch") return html`<lw-switch-wizard @left=${left} @found=${(e: CustomEvent<Told>) => (left(), this.toldSwitch(p, e.detail))}></lw-switch-wizard>`;
    if (!this.choices) return html`<p role="status">Reading the library …</p>`;
    return html`<lw-lead-wizard .place=${p.name} .choice=${this.choices.parts?.find((c) => c.id === p.is)} .codes=${codesFor(this.choices, p.is)}
      @left=${left} @found=${(e: CustomEvent<LeadNotes>) => (left(), know(p.name, e.detail))}></lw-lead-wizard>`;
  }

  /** toldSwitch writes the switch below a name that nothing has. */
  private toldSwitch(p: OpenPart, told: Told): Promise<boolean> {
    let id = `switch/${told.name.toLowerCase().replace(/[^a-z0-9]+/g, "-")}`;
    while (this.state.text.includes(id) || this.library?.some((l) => l.id === id)) id += "-own";
    return own(p.name, id, told.step.part!);
  }

  private codes(p: OpenPart, codes: PartLine[]) {
    const now = this.known(p, "code");
    return html`<select @change=${(e: Event) => setPart(p.name, "code", (e.target as HTMLSelectElement).value)}>
      <option value="" ?selected=${!now}>${/leads:/.test(this.entry(p)) ? "written out" : "not known"}</option>
      ${codes.map((c) => html`<option value=${c.name} ?selected=${c.name === now}>${c.name}</option>`)}</select>`;
  }

  /** known reads a value from the part's line of the text. */
  private known(p: OpenPart, key: string): string {
    return new RegExp(`(?:[{,]|\\n) *${key}: *(\\{[^}]*\\}|[^,}\\n]+)`).exec(this.entry(p))?.[1].trim() ?? "";
  }

  /** entry is the part as the text has it: its line, and those that are farther in. */
  private entry(p: OpenPart): string {
    const lines = this.state.text.split("\n").slice(p.line - 1);
    const end = lines.findIndex((l, i) => i > 0 && !/^ {4}/.test(l));
    return lines.slice(0, end < 0 ? undefined : end).join("\n");
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
