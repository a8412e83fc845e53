// The head of the page: what lies open, where it is kept, what can be done.
import { html, nothing } from "lit";
import { canRedo, canUndo, redo, save, undo, work } from "./act.js";
import { toPaper } from "./export-view.js";
import { setHabit, type Habit } from "./habit.js";
import { store, type Mode } from "./store.js";
import { define, View } from "./view.js";

const modes: [Mode, string][] = [["open", "Open"], ["bench", "Bench"], ["solder", "Solder"], ["meter", "Meter"]];

class Masthead extends View {
  render() {
    const s = this.state;
    return html`<header>
      <p class="mark">Loomwright</p>
      <label class="habit"><span class="spoken">Units and words</span><select @change=${(e: Event) => setHabit((e.target as HTMLSelectElement).value as Habit)}>
        <option value="uk" ?selected=${s.habit === "uk"}>UK</option><option value="us" ?selected=${s.habit === "us"}>US</option></select></label>
      <nav aria-label="What to do">
        ${modes.map(([m, word]) => html`<button aria-current=${s.mode === m ? "page" : nothing}
          ?disabled=${m !== "open" && !s.loom && s.text === ""} @click=${() => work(m)}>${word}</button>`)}
      </nav>
      ${s.text && s.mode === "bench" ? this.tools() : nothing}
    </header>`;
  }

  private tools() {
    const s = this.state;
    const fresh = s.text === s.saved;
    return html`<div class="tools" role="group" aria-label="This loom">
      <button @click=${undo} ?disabled=${!canUndo()} title="Ctrl Z">Undo</button>
      <button @click=${redo} ?disabled=${!canRedo()} title="Ctrl Y">Redo</button>
      <label>Name <input name="file" .value=${s.name} spellcheck="false" autocomplete="off"
        @keydown=${(e: KeyboardEvent) => e.key === "Enter" && save(this.typed())}></label>
      <button @click=${() => save(this.typed())} title="Ctrl S">Save</button>
      <button @click=${toPaper} ?disabled=${!s.readable}>Print</button>
      <span class="where">${fresh ? (s.mark ? "saved" : "not changed") : "not saved yet"}, ${s.shelf?.kind === "folder" ? "in the folder" : "in this browser"}</span>
    </div>`;
  }

  /** typed is the name in the box, as a file name. */
  private typed(): string {
    const name = this.querySelector<HTMLInputElement>("input[name=file]")!.value.trim() || "my-loom";
    return /\.ya?ml$/.test(name) ? name : name + ".yaml";
  }
}

define("lw-masthead", Masthead);
