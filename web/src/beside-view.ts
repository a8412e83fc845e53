// What the chosen setting is compared with: another setting of this loom, this
// loom as it was, or another loom. The differences are put in words by the core.
import { html, nothing } from "lit";
import { compareWith, lieOver } from "./act.js";
import { say } from "./habit.js";
import { store } from "./store.js";
import { define, View } from "./view.js";

class Beside extends View {
  private names: string[] = [];

  render() {
    const s = this.state;
    const rows = s.loom?.settings ?? [];
    const ref = s.reference;
    const line = s.compared?.lines?.[s.chosen];
    return html`<div class="row-of">
        ${ref ? html`<label>Beside <select @change=${(e: Event) => compareWith({ ...ref, with: (e.target as HTMLSelectElement).value })}>
            <option value="" ?selected=${!ref.with}>the setting of ${ref.name} that answers</option>
            ${(s.compared?.settings ?? []).map((n) => html`<option ?selected=${n === ref.with}>${n}</option>`)}</select></label>
          <button @click=${() => compareWith()}>Put ${ref.name} away</button>`
        : html`<label>Beside <select @change=${(e: Event) => lieOver(Number((e.target as HTMLSelectElement).value))}>
            <option value="-1" ?selected=${s.over < 0}>no other setting</option>
            ${rows.map((r, i) => html`<option value=${i} ?selected=${i === s.over}>${r.name}</option>`)}</select></label>`}
      </div>
      ${line ? html`<div class="beside" role="status"><p><strong>${rows[s.chosen]?.name}</strong>${line.other ? html`, beside ${ref ? html`<strong>${line.other}</strong> of ${s.compared!.title || ref.name}` : html`<strong>${line.other}</strong>`}` : nothing}:</p>
        <ul>${(line.says ?? []).map((w) => html`<li>${say(w)}</li>`)}</ul>
        ${s.compared?.note ? html`<p class="foot">${say(s.compared.note)}</p>` : nothing}</div>` : nothing}
      <details @toggle=${this.list}><summary>Compare with another loom</summary>
        <div class="row-of"><button @click=${this.hold}>This loom as it is now, while I change it</button>
          <label>A loom <select @change=${this.take}><option value="">choose one</option>
            ${this.names.length ? html`<optgroup label=${s.shelf?.kind === "folder" ? "In the folder" : "Kept in this browser"}>${this.names.map((n) => html`<option value=${"kept " + n}>${n}</option>`)}</optgroup>` : nothing}
            <optgroup label="Examples">${(s.begin?.examples ?? []).filter((e) => !e.name.includes("/")).map((e) => html`<option value=${"example " + e.name}>${e.name}</option>`)}</optgroup></select></label></div>
      </details>`;
  }

  private async list(): Promise<void> {
    this.names = (await this.state.shelf?.list()) ?? [];
    this.requestUpdate();
  }

  private hold(): void {
    const { name, text } = store.state;
    compareWith({ name: `${name || "this loom"} as it was`, text, with: "" });
  }

  private async take(e: Event): Promise<void> {
    const select = e.target as HTMLSelectElement;
    const [from, name] = [select.value.split(" ")[0], select.value.replace(/^\w+ /, "")];
    select.value = "";
    if (!from) return;
    const text = from === "kept" ? (await store.state.shelf?.read(name))?.text : store.state.begin?.examples?.find((x) => x.name === name)?.text;
    if (text === undefined) store.set({ trouble: `${name} cannot be read` });
    else compareWith({ name, text, with: "" });
  }
}

define("lw-beside", Beside);
